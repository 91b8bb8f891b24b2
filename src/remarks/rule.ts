// What a rule of the proof is: what it looks for, how grave that is, how it is worded, and the examples that prove it.
import type { Paste } from './paste.js';
import type { Severity } from './severity.js';

/**
 * A file of an example: its text; bytes that no text can hold; a text many times over; one that the machine does not
 * let be read; or none where every example has one.
 */
export type ExampleFile =
  | string
  | { readonly hex: string }
  | { readonly text: string; readonly times: number }
  | { readonly text: string; readonly unreadable: true }
  | { readonly absent: true };

/**
 * A small journal: a text is the front matter of its one entry (number, title, date and status are added where they are
 * missing; what follows a line `---` is the body).
 */
export type Example =
  | string
  | {
      readonly matter?: string;
      /** Files below the journal by path, beside or instead of those that every example has. */
      readonly files?: Readonly<Record<string, ExampleFile>>;
      /** Proofed as it would be published, without planned and running entries. */
      readonly finished?: boolean;
      /** It has been published before, and then its files were put back as they stand here. */
      readonly published?: boolean;
    };

/** Severity that hangs on what was found. */
export interface SeverityByFacts<Facts> {
  readonly among: readonly Severity[];
  readonly of: (facts: Facts) => Severity;
}

/** Facts that any finding may carry beside its rule's own. */
export interface CommonFacts {
  /** The offending text itself. */
  readonly actual?: string;
  /** What was expected there. */
  readonly expected?: readonly string[];
}

export interface Rule<Facts> {
  /** What it looks for, as a sentence. */
  readonly when: string;
  readonly severity: Severity | SeverityByFacts<Facts>;
  /** What was found, as a sentence made of the facts. */
  readonly found: (facts: Facts) => string;
  /** What to do, as a sentence. */
  readonly advice: string;
  /** What is written instead of what, where that can be told to the letter. */
  readonly paste?: (facts: Facts) => Paste | undefined;
  /** What to do in this case, where it can be said more closely than by `advice`; what is pasted stands in it. */
  readonly cure?: (facts: Facts, paste: Paste | undefined) => string | undefined;
  /** The fact that names what it is about, where the same can be found in several places. */
  readonly subject?: keyof Facts & string;
  /** One mending takes away every remark of it on the same subject, wherever that stands: a jar without a sheet. */
  readonly mendedOnce?: true;
  /** A journal in which it speaks. */
  readonly fires: Example;
  /** A journal much like that one in which it is silent. */
  readonly silent: Example;
}

/**
 * Describes a rule; its id is the key under which it stands.
 * @example rule<{ id: string }>({ when: '…', severity: 'error', found: ({ id }) => `'${id}' is not on the shelf.`, … })
 */
export const rule = <Facts>(described: Rule<Facts & CommonFacts>): Rule<Facts & CommonFacts> => described;

/** What a reader of texts found wrong; it brings its own words. */
export interface FaultFacts {
  /** What was found, as a sentence. */
  readonly message: string;
  readonly cure?: string;
  /** What stands before the sentence: which two samples it is about. */
  readonly about?: string;
  /** The text could be read all the same. */
  readonly readAllTheSame?: boolean;
}

/** Describes a rule whose words come from the room that reads the text (a formula, a quantity, a spectrum's file). */
export const faultRule = (
  described: Omit<Rule<FaultFacts & CommonFacts>, 'found' | 'cure'>,
): Rule<FaultFacts & CommonFacts> => ({
  ...described,
  found: ({ message, about }) => (about === undefined ? message : `${about}: ${message}`),
  cure: ({ cure }) => cure,
});
