// What pages say to other pages and to the proof, put down so that it can be told whether they say the same again.
import { identityOf } from '../../kept/inputs.js';
import type { Kept } from '../../kept/kept.js';
import { factsOf, type Remark } from '../../remarks/remark.js';
import { addressesOfEntry } from '../entry-pages.js';
import type { SitePage } from '../page-list.js';
import type { PageRecord } from '../page-record.js';
import type { SitePlan } from '../plan.js';

/**
 * What other pages and the proof have of a page: its ids and links.
 * @returns undefined where something is remarked of its words, as remarks have a line
 */
export function saidOf({ ids, to, dead, remarks, partLinks }: PageRecord): string | undefined {
  if (remarks.length > 0) return undefined;
  return identityOf([[...ids].sort(), [...to].sort(), dead, partLinks.map(({ page, part }) => [page, part])]);
}

/** Whether a page is one of an entry's. @example isOfEntry('/14/bench/') // true */
export const isOfEntry = (address: string): boolean => /^\/\d+\//.test(address);

/** What all pages say, by address. */
export class SaidByPages {
  private readonly said = new Map<string, string>();
  /** Of pages that are no entry's: what they are kept under. */
  private readonly made: [key: string, json: string][] = [];

  take(page: SitePage, record: PageRecord, key: string): void {
    const said = saidOf(record);
    if (said !== undefined) this.said.set(page.address, said);
    this.keep(page, record, key);
  }

  /** Takes note of what a page is kept under that says what it said. */
  keep({ address }: SitePage, { bytes, hash }: PageRecord, key: string): void {
    if (isOfEntry(address)) return;
    const record: PageRecord = { bytes, hash, remarks: [], partLinks: [], ids: [], to: [], dead: [] };
    this.made.push([key, JSON.stringify(record)]);
  }

  /** Pages of an entry; undefined where something is remarked of the words of one. */
  ofEntry(number: number, pages: SitePlan['pages']): [address: string, said: string][] | undefined {
    const all = addressesOfEntry(number).filter((address) => pages.has(address));
    const said = all.flatMap((address): [string, string][] => {
      const one = this.said.get(address);
      return one === undefined ? [] : [[address, one]];
    });
    return said.length === all.length ? said : undefined;
  }

  /** Every page that is no entry's, with what it says; nothing where something is remarked of its words. */
  ofOthers(pages: SitePlan['pages']): (readonly [address: string, said: string | null])[] {
    const others = [...pages.keys()].filter((address) => !isOfEntry(address));
    return others.map((address) => [address, this.said.get(address) ?? null]);
  }

  /** What pages that are no entry's are kept under. */
  get keys(): readonly (readonly [key: string, json: string])[] {
    return this.made;
  }
}

/** Every remark of a publication is put down under it. */
export const remarksKey = 'remarks';

/** What is put down for the next publication is kept under keys that begin with these. */
const keptNames = [
  ...['file ', 'lines of entries', 'parts ', 'mark ', 'gaps ', 'lightest first ', 'search choices ', 'assayed '],
  ...['fault of an assay ', 'reagent found by ', 'addresses of assets '],
];

/** The same after an edit with which nothing else is remarked, and pages say what they said. */
export const madeAgain = (kept: Kept): readonly (readonly [key: string, json: string])[] =>
  [...(kept.askedFor?.([...keptNames, 'page ', remarksKey], false) ?? [])].filter(
    ([key]) => !key.startsWith(`${remarksKey} `),
  );

/** What pages and files that are no entry's were made of, and every remark. */
export const madeNow = ({
  kept,
  said,
  remarks,
  isAllAsked = true,
}: {
  readonly kept: Kept;
  readonly said: SaidByPages;
  readonly remarks: readonly Remark[];
  /** Whether everything was asked for that is put down. */
  readonly isAllAsked?: boolean;
}): readonly (readonly [key: string, json: string])[] => [
  ...(kept.askedFor?.(isAllAsked ? keptNames : [...keptNames, 'page '], isAllAsked) ?? []),
  [remarksKey, JSON.stringify(remarks.map(factsOf))],
  ...said.keys,
];
