// The journal as a whole: every reckoned entry and how the entries hang together. Plain data, for templates and data/.
import type { JarStock } from '../reckoning/shelf-stock.js';
import type { Journal, Page } from '../journal/entry.js';
import type { ShelfReagent } from '../journal/schema.js';
import type { AssayedFigure } from '../reckoning/treatment/treatment-contracts.js';
import type { Sample } from '../journal/schema.js';
import type { DangerGist, LotStock, ReckonedEntry, RowAmounts, RowAppearance } from '../reckoning/contracts.js';
import type { FamilyBasis, SampleAppearance } from '../reckoning/appearance/appearance-contracts.js';
import type { BestYield } from './best-yield.js';

/** Enough of an entry to link to it. */
export interface EntryLink {
  readonly number: number;
  readonly title: string;
  readonly date: string;
  readonly status: string;
  /** Why it failed, was given up or withdrawn, where the entry says so. */
  readonly why?: string;
}

export type SampleLooks = Sample['looks'];

/** One sample with what is known of it, wherever samples are listed. */
export interface SampleRow {
  readonly entry: EntryLink;
  readonly sample: string;
  readonly differs?: string;
  /** The sample of the entry that it repeats. */
  readonly repeats?: string;
  /** How it looks by eye, in words. */
  readonly looks?: SampleLooks;
  readonly pigment?: string;
  readonly formula?: string;
  readonly colourIndex?: string;
  readonly elements: readonly string[];
  readonly family?: string;
  readonly familyBasis?: FamilyBasis;
  readonly amounts?: RowAmounts;
  readonly appearance?: RowAppearance;
  /** The mean reflectance. */
  readonly curve?: SampleAppearance['curve'];
}

/** How one entry hangs together with the others. */
export interface EntryLinks {
  readonly previous?: EntryLink;
  readonly next?: EntryLink;
  readonly follows: readonly EntryLink[];
  readonly repeats: readonly EntryLink[];
  readonly followedBy: readonly EntryLink[];
  readonly repeatedBy: readonly EntryLink[];
  /** Entries whose words link to this one. */
  readonly mentionedBy: readonly EntryLink[];
  /** Lots that this entry weighs out. */
  readonly lotsUsed: readonly { readonly lot: string; readonly from: EntryLink; readonly sample: string }[];
  /** Entries that weigh out a lot of this one. */
  readonly lotsTaken: readonly { readonly sample: string; readonly by: EntryLink }[];
}

export interface KnownPigment {
  readonly id: string;
  readonly names: readonly string[];
  readonly colourIndex?: string;
  readonly colourIndexNumber?: string;
  readonly formulas: readonly string[];
  readonly elements: readonly string[];
  readonly family: string;
  /** Balanced equations of ways to it: what must be at hand, no procedure. */
  readonly reactions: readonly string[];
  readonly colourWords: string;
  readonly facts: string;
  readonly caution: string;
  readonly source: string;
}

export interface SeriesCell {
  readonly family: string;
  readonly entries: readonly SeriesEntry[];
  /** What the trade knows of this element in this family and the journal has not made. */
  readonly notMade: readonly KnownPigment[];
  /** Entries that made what the trade knows in this family, and of which no colour was measured or told. */
  readonly untold?: readonly EntryLink[];
}

export interface SeriesEntry {
  readonly entry: EntryLink;
  readonly pigment?: string;
  readonly formula?: string;
  readonly colourIndex?: string;
  readonly samples: readonly SampleRow[];
  readonly bestYield?: BestYield;
}

export interface Series {
  readonly element: string;
  readonly name: string;
  readonly cells: readonly SeriesCell[];
  readonly entries: readonly EntryLink[];
  readonly words?: Page;
}

export interface Family {
  readonly family: string;
  readonly samples: readonly SampleRow[];
  readonly words?: Page;
}

export interface ReagentPage {
  readonly id: string;
  readonly reagent: ShelfReagent;
  /** What its assay came to. */
  readonly assayed?: AssayedFigure;
  /** What is left of it, where it is written when how much was bought. */
  readonly stock?: JarStock;
  /** What is left of the lot that it holds. */
  readonly lotStock?: LotStock;
  /** `sample` where only that sample has it; `instead` where it has this amount in place of the entry's. */
  readonly uses: readonly {
    readonly entry: EntryLink;
    readonly amount?: string;
    readonly role: string;
    readonly sample?: string;
    readonly instead?: boolean;
  }[];
  readonly incidents: readonly IncidentRow[];
  /** What was foreseen in entries with it as a partner, the gravest first. */
  readonly foreseen: readonly ForeseenWithIt[];
}

/** A danger in which a reagent had a part, and the entries in which it was foreseen, newest first. */
export interface ForeseenWithIt extends Pick<DangerGist, 'rule' | 'title' | 'severity'> {
  readonly entries: readonly number[];
}

export interface IncidentRow {
  readonly entry: EntryLink;
  readonly what: string;
  readonly learned?: string;
  readonly reagents: readonly string[];
}

export interface IdeaRow {
  /** Place among all ideas, by entry. */
  readonly number: number;
  /** `14/2`: the second of entry 14. */
  readonly id: string;
  readonly entry: EntryLink;
  readonly idea: string;
  readonly takenUpBy: readonly EntryLink[];
  /** An entry that takes it up has been done. */
  readonly closed: boolean;
}

export interface JournalModel {
  readonly journal: Journal;
  /** Entries that are shown, newest first. */
  readonly entries: readonly ReckonedEntry[];
  readonly links: ReadonlyMap<number, EntryLinks>;
  readonly samples: readonly SampleRow[];
  readonly series: readonly Series[];
  readonly families: readonly Family[];
  readonly reagents: readonly ReagentPage[];
  readonly incidents: readonly IncidentRow[];
  readonly ideas: readonly IdeaRow[];
  /** Number of the entry that an entry file holds: `entries/014-….md` → 14. */
  readonly numberOfFile: ReadonlyMap<string, number>;
}
