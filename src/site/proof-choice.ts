// Which remarks of a proof are told: all, those of some entries, or what is new since the last publication.
import type { Journal } from '../journal/index.js';
import { noEntry, unreadOfNumber } from '../journal/no-entry.js';
import type { Fault } from '../outcome.js';
import type { Accepted } from '../remarks/accepted.js';
import type { Cause } from '../remarks/causes.js';
import { gathered } from './acceptance.js';
import type { Proof } from './proof.js';
import { keyOfCause, remarksPublished } from './published-remarks.js';

export interface Choice {
  /** Numbers of entries; empty for all of the journal. */
  readonly numbers: readonly number[];
  readonly onlyNew: boolean;
}

export interface ChosenRemarks {
  readonly causes: readonly Cause[];
  readonly accepted: readonly Accepted[];
  /** What is new was asked for, and nothing is known of a publication. */
  readonly unpublished: boolean;
}

/** Files of the entries of some numbers, those that could not be read among them. */
const filesOf = (numbers: readonly number[], journal: Journal): readonly string[] => [
  ...journal.entries.filter(({ number }) => numbers.includes(number)).map(({ file }) => file),
  ...numbers.flatMap((number) => unreadOfNumber(number, journal)),
];

/** Fault `no-entry` for the first number that no entry has; undefined where all are there, or nothing can be read. */
export function missingEntry({ model }: Proof, numbers: readonly number[]): Fault | undefined {
  if (!model) return undefined;
  const missing = numbers.find((number) => filesOf([number], model.journal).length === 0);
  return missing === undefined ? undefined : noEntry(missing, model.journal);
}

/** The remarks that are asked for, by cause, without what the maker accepts. */
export function chosenRemarks(proofed: Proof, folder: string, { numbers, onlyNew }: Choice): ChosenRemarks {
  const { model, remarks } = proofed;
  const files = new Set(model && filesOf(numbers, model.journal));
  const here = numbers.length > 0 && model ? remarks.filter(({ file }) => files.has(file)) : remarks;
  const all = gathered(here, model);
  const before = onlyNew ? remarksPublished(folder) : undefined;
  const causes = before ? all.filter((one) => !before.has(keyOfCause(one))) : all;
  const ofThese = numbers.length > 0 ? proofed.accepted.filter(({ file }) => files.has(file)) : proofed.accepted;
  return { causes, accepted: ofThese, unpublished: onlyNew && before === undefined };
}
