// What was made before and is kept: found again by the identity of all that it was made of.
import { identityOf } from './inputs.js';

/** Keeps plain data by text keys that say everything the data were made of. What is not there is made anew. */
export interface Kept {
  readonly get: (key: string) => unknown;
  readonly put: (key: string, value: unknown) => void;
  /** The same for what is large and seldom asked for. */
  readonly hasLarge: (key: string) => boolean;
  /** May be missing all the same, where it turns out to be damaged. */
  readonly getLarge: (key: string) => unknown;
  readonly putLarge: (key: string, value: unknown) => void;
  /** What is large, where it need not be loaded. */
  readonly atHand?: (key: string) => unknown;
}

/** Keeps nothing. */
export const keptNowhere: Kept = {
  get: () => undefined,
  put: () => undefined,
  hasLarge: () => false,
  getLarge: () => undefined,
  putLarge: () => undefined,
};

/** Keeps what was asked for since the turn before the last, so that it does not grow without end. */
export class KeptInMemory implements Kept {
  private now = new Map<string, unknown>();
  private before = new Map<string, unknown>();

  /** What is not asked for between this turn and the next is forgotten. */
  turn(): void {
    this.before = this.now;
    this.now = new Map();
  }

  readonly get = (key: string): unknown => {
    const here = this.now.get(key);
    if (here !== undefined) return here;
    const there = this.before.get(key);
    if (there !== undefined) this.now.set(key, there);
    return there;
  };

  readonly put = (key: string, value: unknown): void => {
    this.now.set(key, value);
  };

  readonly hasLarge = (key: string): boolean => this.get(key) !== undefined;
  readonly getLarge = this.get;
  readonly atHand = this.get;
  readonly putLarge = this.put;
}

/**
 * What `make` makes of the inputs, or has made of them before.
 * @param name of what is made; different things made of the same inputs have different names
 * @param inputs all that `make` draws on, as plain data
 * @param make gives plain data, never undefined
 */
export function madeOf<T>(kept: Kept, name: string, inputs: unknown, make: () => T): T {
  const key = `${name} ${identityOf(inputs)}`;
  const before = kept.get(key);
  if (before !== undefined) return before as T;
  const made = make();
  kept.put(key, made);
  return made;
}
