// What was made before and is kept: found again by the identity of all that it was made of.
import { identityOf } from './inputs.js';

/** Keeps plain data by text keys that say everything the data were made of. What is not there is made anew. */
export interface Kept {
  readonly get: (key: string) => unknown;
  /** Whether something is kept under the key, without asking for it. */
  readonly has: (key: string) => boolean;
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
  has: () => false,
  put: () => undefined,
  hasLarge: () => false,
  getLarge: () => undefined,
  putLarge: () => undefined,
};

/** Keeps what was asked for since the turn before the last, so that it does not grow without end. */
export class KeptInMemory implements Kept {
  private readonly all = new Map<string, { value: unknown; asked: number }>();
  private now = 0;

  /** What is not asked for between this turn and the next is forgotten. */
  turn(): void {
    for (const [key, { asked }] of this.all) if (asked < this.now) this.all.delete(key);
    this.now += 1;
  }

  readonly get = (key: string): unknown => {
    const one = this.all.get(key);
    if (one) one.asked = this.now;
    return one?.value;
  };

  readonly has = (key: string): boolean => this.all.has(key);

  readonly put = (key: string, value: unknown): void => {
    this.all.set(key, { value, asked: this.now });
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
