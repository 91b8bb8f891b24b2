// What something is made of, in a short text: the same inputs give the same text, others another.
import { createHash } from 'node:crypto';

const known = new WeakMap<object, string>();

/** Short hash of texts or bytes, each apart from the next. */
export function hashOf(...texts: readonly (string | Uint8Array)[]): string {
  const hash = createHash('sha256');
  for (const text of texts) hash.update(`${text.length} `).update(text);
  return hash.digest('base64url').slice(0, 22);
}

/**
 * Says by what a value is told from others, so that it need not be read for that. Only for values that do not change.
 * @param identity text that stands for all that the value was made of
 */
export function identify<T extends object>(value: T, identity: string): T {
  known.set(value, identity);
  return value;
}

/** What stands for a value among the inputs of another. */
function standIn(this: unknown, _key: string, value: unknown): unknown {
  if (typeof value === 'function') throw new TypeError('a function says nothing of what it draws on');
  if (typeof value !== 'object' || value === null) return value;
  const identity = known.get(value);
  if (identity !== undefined) return { identity };
  if (value instanceof Map) return { map: [...value] };
  return value instanceof Set ? { set: [...value] } : value;
}

/**
 * The identity of plain data: equal data have the same, and an object that `identify` was told of has what was told.
 * @throws TypeError for a function anywhere in it
 * @example identityOf({ amount: '2 g' }) === identityOf({ amount: '2 g' }) // true
 */
export function identityOf(value: unknown): string {
  if (typeof value !== 'object' || value === null) return hashOf(typeof value, String(value));
  const before = known.get(value);
  if (before !== undefined) return before;
  const identity = hashOf(JSON.stringify([value], standIn));
  known.set(value, identity);
  return identity;
}
