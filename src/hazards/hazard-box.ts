// The hazard box: pictograms, signal word and statements of everything that stands on the bench, merged without loss.
import type { Basis } from './substances.js';

/** Why a statement stands in a box: the substance it comes from, and on whose word. */
export interface Origin {
  readonly from: string;
  readonly basis: Basis;
  /** Title of the source, ready to print. */
  readonly source: string;
  readonly url?: string;
  /** `group entry for lead compounds`, `specific limit C>=5%` … */
  readonly note?: string;
}

export interface StatementShown {
  readonly code: string;
  readonly text: string;
  /** Names of the substances it comes from. */
  readonly from: readonly string[];
  /** One for each substance and source. */
  readonly origins?: readonly Origin[];
  readonly note?: string;
  /** Precautionary: among the few that a label would carry. */
  readonly first?: boolean;
}

/** What the box rests on, substance by substance. */
export interface SubstanceShown {
  readonly name: string;
  readonly role?: string;
  /** Strength as reckoned with: `60 % by mass`. */
  readonly strength?: string;
  readonly found: 'row' | 'group' | 'sds' | 'unknown';
  readonly basis?: Basis;
  readonly source?: string;
  readonly url?: string;
  /** Statements at this strength; empty with `found: 'row'` means the source says: not classified. */
  readonly codes: readonly string[];
  readonly notes: readonly string[];
  readonly sds?: { readonly supplier?: string; readonly date?: string; readonly url?: string };
  /** Statements of the table that the maker's sheet leaves out. */
  readonly leftOutBySds?: readonly string[];
}

export interface HazardBox {
  /** GHS01 … GHS09 in order of display. */
  readonly pictograms: readonly string[];
  readonly signalWord?: 'Danger' | 'Warning';
  readonly statements: readonly StatementShown[];
  readonly precautionary: readonly StatementShown[];
  /** Names of substances of which nothing is known; said loudly. */
  readonly unknown: readonly string[];
  readonly substances?: readonly SubstanceShown[];
  /** Assumptions and doubts, as sentences. */
  readonly notes?: readonly string[];
}

/** Strength of a solution; decimals as text. */
export type Strength =
  | { readonly of: 'mass'; readonly percent: string } // w/w %
  | { readonly of: 'mass-per-volume'; readonly percent: string; readonly density?: string } // g in 100 mL; g/mL
  | { readonly of: 'amount'; readonly molPerLitre: string; readonly density?: string };

/** The maker's own sheet for a reagent, as on the shelf. */
export interface SheetFacts {
  readonly statements: readonly string[];
  readonly precautionary?: readonly string[];
  readonly pictograms?: readonly string[];
  readonly signalWord?: 'Danger' | 'Warning' | 'none';
  readonly supplier?: string;
  readonly date?: string;
  readonly url?: string;
}

export interface BenchSubstance {
  readonly name: string;
  readonly alsoCalled?: readonly string[];
  readonly formula?: string;
  readonly cas?: string;
  readonly role?: string;
  /** Left out: taken as undiluted, and said so where the table's row is of a solution. */
  readonly strength?: Strength;
  readonly sheet?: SheetFacts;
}

/** Label of a small pack. */
export interface LabelElements {
  readonly pictograms: readonly string[];
  readonly signalWord?: 'Danger' | 'Warning';
  readonly statements: readonly StatementShown[];
  readonly precautionary: readonly StatementShown[];
  /** Statements that the rule allows to leave off this size of pack. */
  readonly leftOff: readonly string[];
  /** The rule used, with its basis. */
  readonly rules: readonly string[];
  readonly unknown: readonly string[];
}

export function hazardBox(_bench: readonly BenchSubstance[]): HazardBox { throw new Error("being written"); }
export function mixtureBox(_name: string, _ingredients: readonly { readonly substance: BenchSubstance; readonly percent: string }[]): HazardBox { throw new Error("being written"); }
export function labelElements(_box: HazardBox, _packMillilitres: number): LabelElements { throw new Error("being written"); }
