// What a publication told, put down for one after it that has nothing else to tell.
import { readChecked, writeChecked } from '../../kept/checked-file.js';
import type { Accepted } from '../../remarks/accepted.js';
import type { Cause } from '../../remarks/causes.js';
import { factsOf, remark, type RemarkFacts } from '../../remarks/remark.js';
import type { SharedByEntries } from '../entry-pages.js';
import type { Publication } from '../publication.js';

interface KeptCause extends Pick<Cause, 'count' | 'first'> {
  /** Which of the remarks it is, or one that stands for several. */
  readonly remark: number | RemarkFacts;
  readonly files: readonly string[];
}

interface Kept extends Pick<Publication, 'entries' | 'pages'> {
  readonly remarks: readonly RemarkFacts[];
  readonly causes: readonly KeptCause[];
  readonly accepted: readonly Accepted[];
  readonly shared: SharedByEntries;
}

/** What a publication told, and what its entries' pages drew on. */
export interface Told extends Required<Pick<Publication, 'entries' | 'pages' | 'remarks' | 'causes' | 'accepted'>> {
  readonly shared: SharedByEntries;
}

export function writeTold(file: string, version: string, { remarks, causes, ...rest }: Told): void {
  const places = new Map(remarks.map((one, at) => [one, at]));
  const kept: Kept = {
    ...rest,
    remarks: remarks.map(factsOf),
    causes: causes.map(({ remark: one, count, first, files }) => ({
      remark: places.get(one) ?? factsOf(one),
      count,
      first,
      files: [...files],
    })),
  };
  writeChecked(file, version, JSON.stringify(kept));
}

export function readTold(file: string, version: string): Told | undefined {
  const text = readChecked(file, version);
  if (text === undefined) return undefined;
  const { remarks: facts, causes, ...rest } = JSON.parse(text) as Kept;
  const remarks = facts.map(remark);
  return {
    ...rest,
    remarks,
    causes: causes.map(({ remark: one, files, ...cause }) => ({
      ...cause,
      remark: typeof one === 'number' ? remarks[one]! : remark(one),
      files: new Set(files),
    })),
  };
}
