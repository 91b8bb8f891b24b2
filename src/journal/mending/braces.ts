// Texts in braces that a comma ended: `{ name: verdigris, neutral }` is YAML for a name and a key without a value. What
// was cut off is joined again, where the text of the file shows that it stood there.
import type { Path } from '../../remarks/findings.js';
import { keysAt, type Schema } from '../format.js';

/** What was joined: the key whose text it belongs to, what the comma left of it, and the whole. */
export interface Rejoined {
  readonly path: Path;
  readonly key: string;
  readonly left: string;
  readonly whole: string;
}

const isNothing = (value: unknown): boolean => value === null || value === '';
const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** The comma before it in the text, with the space behind it; undefined where it is a key on a line of its own. */
const commaBefore = (key: string, text: string): string | undefined =>
  new RegExp(`(,\\s*)${escaped(key)}\\s*[,}\\]]`).exec(text)?.[1];

const wholeNumber = /^\d+$/;

/**
 * Keys and values in the order in which they were written. Keys that are whole numbers stand first in any object:
 * what a comma left of `-38,4` goes behind the text that it was cut off.
 */
function inTheirPlaces(data: Readonly<Record<string, unknown>>, text: string): readonly [string, unknown][] {
  const pairs = Object.entries(data);
  const cut = pairs.filter(([key, value]) => wholeNumber.test(key) && isNothing(value));
  if (cut.length === 0) return pairs;
  const others = pairs.filter((pair) => !cut.includes(pair));
  for (const pair of cut) {
    const at = others.findIndex(([key, value]) => {
      const before = isNothing(value) ? key : value;
      return typeof before === 'string' && new RegExp(`${escaped(before)},\\s*${pair[0]}\\s*[,}\\]]`).test(text);
    });
    others.splice(at < 0 ? 0 : at + 1, 0, pair);
  }
  return others;
}

/** Joins what commas cut off. @param text of the file, which shows whether a key without value stood in braces */
export function rejoined(
  schema: Schema,
  data: unknown,
  text: string,
  onJoin: (one: Rejoined) => void,
  path: Path = [],
): unknown {
  if (Array.isArray(data)) return data.map((one, at) => rejoined(schema, one, text, onJoin, [...path, at]));
  if (typeof data !== 'object' || data === null) return data;
  const joined: Record<string, unknown> = {};
  let last: string | undefined;
  const cut = new Map<string, Rejoined>();
  for (const [key, value] of inTheirPlaces(data as Record<string, unknown>, text)) {
    const before = last === undefined ? undefined : joined[last];
    const comma = isNothing(value) && !keysAt(schema, path).includes(key) ? commaBefore(key, text) : undefined;
    if (comma === undefined || typeof before !== 'string') {
      joined[key] = rejoined(schema, value, text, onJoin, [...path, key]);
      last = key;
      continue;
    }
    const whole = `${before}${comma.replace(/\s+/g, ' ')}${key}`;
    joined[last!] = whole;
    const { left } = cut.get(last!) ?? { left: before };
    cut.set(last!, { path: [...path, last!], key: last!, left, whole });
  }
  for (const one of cut.values()) onJoin(one);
  return joined;
}
