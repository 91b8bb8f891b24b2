// The result of something that a maker's words can make fail: a value, or a fault that says what is wrong.
// Faults a maker can cause are returned, never thrown; the journal room turns them into remarks with a place.

/**
 * What is wrong with a piece of text, in words a maker can act on.
 * A room whose faults become remarks says which codes they can have; each is then a rule of the proof.
 */
export interface Fault<Code extends string = string> {
  /** A short stable name of the kind of fault, kebab-case: `unknown-element`. */
  readonly code: Code;
  /** One sentence: what was found. */
  readonly message: string;
  /** 1-based line within the text that was read, where it has several. */
  readonly line?: number;
  /** 1-based column within the text that was read, where one can be named. */
  readonly column?: number;
  /** What was expected there. */
  readonly expected?: string;
  /** What to do about it. */
  readonly cure?: string;
  /** What stands nearest among what could stand there. */
  readonly nearest?: string;
  /** The whole text as it was probably meant, where that can be told. */
  readonly correction?: string;
}

export type Outcome<T, Code extends string = string> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly fault: Fault<Code> };

export const good = <T>(value: T): Outcome<T, never> => ({ ok: true, value });
export const bad = <const Code extends string>(fault: Fault<Code>): Outcome<never, Code> => ({ ok: false, fault });
