// What mends one place of what was written: a change of the data, and what is said of it.
import { type Found, type Path } from '../../remarks/findings.js';
import { otherWordsTable } from '../../tables/compiled/journal/mending/other-words.js';
import { plainLetters } from '../plain-letters.js';
import type { z } from 'zod';

export type Issue = z.core.$ZodIssue;

/** A mending of data at a path; what is silent is plain enough. */
export interface Mending {
  readonly path: Path;
  /** The data with it mended. */
  readonly mend: (parent: Record<string | number, unknown>, last: string | number) => void;
  readonly found?: Found;
  readonly atKey?: boolean;
  /** Where it is said, if not at the path. */
  readonly at?: Path;
}

export const stepsOf = ({ path }: Pick<Issue, 'path'>): Path =>
  path.map((step) => (typeof step === 'symbol' ? String(step) : step));

/** The value at a path; undefined where it leads nowhere. */
export function valueAt(data: unknown, path: Path): unknown {
  let value = data;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}

export const takeOut: Mending['mend'] = (parent, last) => {
  if (Array.isArray(parent)) parent.splice(Number(last), 1);
};

export const set =
  (value: unknown): Mending['mend'] =>
  (parent, last) => {
    parent[last] = value;
  };

let known: ReadonlyMap<string, readonly string[]> | undefined;
/** What other words mean, by kind and word: `key resolution` → `step`. */
export function meanings(kind: 'key' | 'choice', written: string): readonly string[] {
  known ??= otherWordsTable().reduce((all, row) => {
    const key = `${row.kind} ${asOneWord(row.written)}`;
    return all.set(key, [...(all.get(key) ?? []), row.meant]);
  }, new Map<string, readonly string[]>());
  return known.get(`${kind} ${asOneWord(written)}`) ?? [];
}

/** A word as it is compared: `CAS-Nr.` is `cas nr`. */
const asOneWord = (written: string): string =>
  plainLetters(written)
    .replace(/[\s_-]+/g, ' ')
    .replace(/[.°!]+$/, '')
    .trim();

/** The key that another word for it means, among those that may stand in its place. */
export const meantKey = (key: string, may: readonly string[]): string | undefined =>
  meanings('key', key).find((one) => may.includes(one));

/** Items in the place of one. */
export const put =
  (items: readonly unknown[]): Mending['mend'] =>
  (parent, last) => {
    if (Array.isArray(parent)) parent.splice(Number(last), 1, ...items);
  };

export type Keys = Readonly<Record<string, unknown>>;
export const isKeys = (value: unknown): value is Keys =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
