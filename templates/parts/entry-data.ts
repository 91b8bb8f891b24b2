// What the page of one entry is made of.
import type { ElementContent } from 'hast';
import type { BestYield } from '../../src/crosslinks/best-yield.js';
import type { EntryLinks, SampleRow } from '../../src/crosslinks/model.js';
import type { Typeset } from '../../src/chemistry/index.js';
import type { Photograph } from '../../src/journal/photographs.js';
import type { ReckonedEntry } from '../../src/reckoning/contracts.js';

/** One section of the write-up under a heading of its own. */
export interface WriteUpPart {
  readonly id: string;
  readonly title: string;
  readonly content: readonly ElementContent[];
}

export interface EntryPageData {
  readonly reckoned: ReckonedEntry;
  readonly links: EntryLinks;
  readonly rows: readonly SampleRow[];
  readonly bestYield?: BestYield;
  /** Photographs of the samples, then of the entry, each once. */
  readonly photographs: readonly Photograph[];
  /** A page with curves by which the samples' pigments are told apart lies beside the page. */
  readonly curves: boolean;
  /** A bench sheet lies beside the page. */
  readonly benchSheet: boolean;
  /** What the write-up says before its first heading. */
  readonly lead: readonly ElementContent[];
  /** The write-up under its headings. */
  readonly writeUp: readonly WriteUpPart[];
  /** Names of the reckoned values that the write-up states: `A.yield`. */
  readonly said: ReadonlySet<string>;
  /** Times of the moments that the write-up places. */
  readonly placedMoments: ReadonlySet<string>;
  readonly formula?: Typeset;
  /** Names of the colour-giving elements, by symbol. */
  readonly elementNames: Readonly<Record<string, string>>;
}
