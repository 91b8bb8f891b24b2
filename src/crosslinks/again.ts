// The journal model after an edit that touched only words: everything that joins entries is as it was before.
import type { Journal } from '../journal/entry.js';
import { bodyLinks } from '../journal/links.js';
import { identityOf } from '../kept/inputs.js';
import type { ReckonedEntry } from '../reckoning/contracts.js';
import type { JournalModel } from './model.js';

/** What was joined, and what came of it. */
export interface Joined {
  readonly journal: Journal;
  readonly reckoned: readonly ReckonedEntry[];
  readonly model: JournalModel;
}

/** Whether two entries are the same to all others: in front matter, in reckoning and in where their links lead. */
function areAlike(one: ReckonedEntry, other: ReckonedEntry): boolean {
  if (one === other) return true;
  if (one.identity === undefined || one.identity !== other.identity) return false;
  if (one.entry.file !== other.entry.file || one.entry.matter !== other.entry.matter) return false;
  const [links, others] = [bodyLinks(one.entry), bodyLinks(other.entry)];
  return links.length === others.length && links.every(({ target }, at) => target === others[at]!.target);
}

const areSame = (some: readonly unknown[], others: readonly unknown[]): boolean =>
  some.length === others.length && some.every((one, at) => one === others[at]);

/** Whether journals are the same apart from their entries. */
const isSameAround = (one: Journal, other: Journal): boolean =>
  one.shelf === other.shelf &&
  identityOf(one.settings) === identityOf(other.settings) &&
  areSame(one.series, other.series) &&
  areSame(one.colours, other.colours);

/**
 * The model that `crosslink` would make, put together from the one before.
 * @returns undefined where more than words has changed
 */
export function joinedAgain(
  journal: Journal,
  reckoned: readonly ReckonedEntry[],
  { journal: journalBefore, reckoned: before, model }: Joined,
): JournalModel | undefined {
  if (!isSameAround(journal, journalBefore) || reckoned.length !== before.length) return undefined;
  if (!reckoned.every((one, at) => areAlike(one, before[at]!))) return undefined;
  const replaced = new Map(reckoned.flatMap((one, at) => (one === before[at] ? [] : [[before[at]!, one] as const])));
  return { ...model, journal, entries: model.entries.map((one) => replaced.get(one) ?? one) };
}
