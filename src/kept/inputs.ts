// What something is made of, in a short text: the same inputs give the same text, others another.
import * as crypto from 'node:crypto';
import { createHash, type Hash } from 'node:crypto';

const known = new WeakMap<object, string>();

/** Hashing at once, which Node has since 20.12; of what is short it takes half the time. */
export const hashAtOnce = (crypto as Partial<Pick<typeof crypto, 'hash'>>).hash;

/** Short hash of texts or bytes, each apart from the next. */
export function hashOf(...texts: readonly (string | Uint8Array)[]): string {
  if (hashAtOnce && texts.every((text) => typeof text === 'string')) {
    let whole = '';
    for (const text of texts) whole += `${text.length} ${text}`;
    return hashAtOnce('sha256', whole, 'base64url').slice(0, shortLength);
  }
  const hash = createHash('sha256');
  for (const text of texts) hash.update(`${text.length} `).update(text);
  return shortened(hash);
}

const shortLength = 22;
const shortened = (hash: Hash): string => hash.digest('base64url').slice(0, shortLength);

/** The hash of one text, `hashOf(text)`, of which the pieces come one after the other. */
export class HashInPieces {
  private readonly hash = createHash('sha256');

  /** @param length of the whole text in signs */
  constructor(length: number) {
    this.hash.update(`${length} `);
  }

  take(piece: string): void {
    this.hash.update(piece);
  }

  end(): string {
    return shortened(this.hash);
  }
}

/**
 * Says by what a value is told from others, so that it need not be read for that. Only for values that do not change.
 * @param identity text that stands for all that the value was made of
 */
export function identify<T extends object>(value: T, identity: string): T {
  known.set(value, identity);
  return value;
}

/** The identity of what is not there, which is asked for often. */
const ofNothing = hashOf('undefined', 'undefined');

/** A text that says everything of plain data, as JSON would, with what stands for a known value in its place. */
function written(value: unknown): string {
  if (typeof value === 'string') return JSON.stringify(value);
  if (typeof value === 'function') throw new TypeError('a function says nothing of what it draws on');
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const identity = known.get(value);
  if (identity !== undefined) return `#${identity}`;
  if (Array.isArray(value)) return `[${value.map(written).join()}]`;
  if (value instanceof Map) return `map${written([...value])}`;
  if (value instanceof Set) return `set${written([...value])}`;
  return 'toJSON' in value ? written((value as { toJSON: () => unknown }).toJSON()) : writtenFields(value);
}

function writtenFields(value: object): string {
  let text = '{';
  for (const [key, field] of Object.entries(value))
    if (field !== undefined) text += `${JSON.stringify(key)}:${written(field)},`;
  return `${text}}`;
}

/**
 * The identity of plain data: equal data have the same, and an object that `identify` was told of has what was told.
 * @throws TypeError for a function anywhere in it
 * @example identityOf({ amount: '2 g' }) === identityOf({ amount: '2 g' }) // true
 */
export function identityOf(value: unknown): string {
  if (value === undefined) return ofNothing;
  if (typeof value !== 'object' || value === null) return hashOf(typeof value, String(value));
  const before = known.get(value);
  if (before !== undefined) return before;
  const identity = hashOf(written(value));
  known.set(value, identity);
  return identity;
}
