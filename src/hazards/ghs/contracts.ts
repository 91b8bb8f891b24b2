// What the rooms that classify and label pass to each other: plain data, no code.

export type Route = 'oral' | 'dermal' | 'inhalation';
export type SignalWord = 'Danger' | 'Warning';

/** One hazard class and category, with the statement that belongs to it. */
export interface HazardClass {
  /** GHS short name: `Acute Tox.`, `Skin Corr.`, `Aquatic Chronic` … */
  readonly hazardClass: string;
  /** `1`, `1A`, `2`, `4`, `1B` … ; empty where the class has none */
  readonly category: string;
  /** Exposure route of acute toxicity. */
  readonly route?: Route;
  /** Organs affected (STOT), as the source writes them. */
  readonly organs?: string;
  /** H-statement; empty where the statement depends on packing (gas under pressure). */
  readonly code: string;
}

/** A specific concentration limit: from `low` to `high` percent by weight the solution has this class. */
export interface SpecificLimit {
  readonly low: string;
  readonly lowIncluded: boolean;
  /** Upper bound, never included; undefined up to 100 %. */
  readonly high?: string;
  /** Undefined for a limit on an EUH statement. */
  readonly gives?: HazardClass;
  readonly code: string;
}

export interface AcuteToxicityEstimate {
  readonly route: Route;
  /** mg/kg, mg/L (dust, mist, vapour) or ppmV (gas) */
  readonly value: string;
  readonly form?: 'dust' | 'vapour' | 'gas';
}

/** Where a classification comes from. */
export type Basis =
  | 'harmonised' // EU CLP Annex VI
  | 'national' // a government's own result
  | 'supplier' // a supplier's data sheet that was read
  | 'listed' // REACH Annex IV: named as of minimum risk
  | 'by-element' // no entry: what most harmonised entries of the same element carry
  | 'memory' // known, no document seen: doubtful
  | 'sds'; // the maker's safety data sheet, from the shelf

/** A row of the table of substances. */
export interface Substance {
  readonly name: string;
  readonly synonyms: readonly string[];
  /** More than one where the entry holds several substances. */
  readonly formulae: readonly string[];
  readonly casNumbers: readonly string[];
  readonly indexNumber: string;
  readonly classes: readonly HazardClass[];
  /** EUH statements of the row. */
  readonly supplementary: readonly string[];
  /** Every statement of the classification, as the source orders them. */
  readonly codes: readonly string[];
  /** Statements that the source prints on the label. */
  readonly labelCodes: readonly string[];
  readonly pictograms: readonly string[];
  readonly signalWord?: SignalWord;
  readonly limits: readonly SpecificLimit[];
  /** Note 1 of CLP Annex VI: the limits count the metal, by weight of the whole. */
  readonly limitsCountMetal: boolean;
  /** Note B of CLP Annex VI: sold in water at several strengths, on which the classification depends. */
  readonly soldInSolution: boolean;
  readonly acuteMFactor: number;
  readonly chronicMFactor: number;
  readonly estimates: readonly AcuteToxicityEstimate[];
  /** The source says expressly that it is not classified. */
  readonly notClassified: boolean;
  /** A group entry: for every compound of its elements that has no row of its own. */
  readonly group: boolean;
  /** The row counts only where the reagent's name has this word: `pyrophoric`, `nano`; empty for most rows. */
  readonly form: string;
  /** What other authorities or suppliers say of it; empty for most rows. */
  readonly elsewhere: string;
  /** What must be said with the row; empty for most rows. */
  readonly caveat: string;
  readonly note: string;
  readonly basis: Basis;
  readonly source: string;
  readonly url: string;
}

export interface SubstanceQuery {
  readonly name?: string;
  readonly alsoCalled?: readonly string[];
  readonly formula?: string;
  readonly cas?: string;
}

/** What an assumption or doubt is about; callers decide by this and print the text. */
export type HazardNoteKind =
  | 'name-fits-several'
  | 'formula-fits-several'
  | 'name-taken-as'
  | 'identifiers-differ'
  | 'found-by-composition'
  | 'formula-partly-read'
  | 'read-across-water'
  | 'group-entry'
  | 'by-element'
  | 'no-hazard-data'
  | 'related-substances'
  | 'not-classified'
  | 'classified-elsewhere'
  | 'caveat'
  | 'gas-under-pressure'
  | 'strength-not-given'
  | 'strength-assumed'
  | 'limits-count-metal'
  | 'class-left-off-solution'
  | 'class-kept'
  | 'statement-left-off-solution'
  | 'sheet-for-other-strength'
  | 'sheet-leaves-out'
  | 'sheet-without-statements'
  | 'unpublished-statement'
  | 'unknown-is-hazardous';

/** An assumption or doubt. */
export interface HazardNote {
  readonly kind: HazardNoteKind;
  /** Name of the substance it is about; undefined where it is about all of the box. */
  readonly about?: string;
  /** A sentence, ready to print. */
  readonly text: string;
}

/**
 * What is known: by rows of its own (more than one where name and formula allow several), by group entries (all that
 * apply), by its elements, or nothing.
 */
export type SubstanceFinding =
  | {
      readonly found: 'row';
      readonly rows: readonly Substance[];
      readonly by: 'cas' | 'name' | 'formula' | 'hydrate';
      readonly notes: readonly HazardNote[];
    }
  | {
      readonly found: 'group' | 'by-element';
      /** Group entries; none where only `byElement` is found. */
      readonly rows: readonly Substance[];
      readonly by: 'elements';
      /** For elements without a group entry: what most of their harmonised entries carry, as one row each. */
      readonly byElement: readonly Substance[];
      readonly notes: readonly HazardNote[];
    }
  | { readonly found: 'unknown'; readonly rows: readonly []; readonly notes: readonly HazardNote[] };

/** What is known of one ingredient, whatever it rests on. */
export interface IngredientClassification {
  readonly name: string;
  readonly unknown: boolean;
  readonly classes: readonly HazardClass[];
  readonly supplementary: readonly string[];
  readonly limits: readonly SpecificLimit[];
  readonly estimates: readonly AcuteToxicityEstimate[];
  readonly acuteMFactor: number;
  readonly chronicMFactor: number;
  readonly formula?: string;
}

export interface Ingredient {
  readonly classification: IngredientClassification;
  /** Percent by weight of the mixture, decimal as text. */
  readonly percent: string;
}

/** An ingredient's part in reaching a limit. */
export interface LimitShare {
  readonly name: string;
  /** Percent by weight of the mixture. */
  readonly percent: string;
  /** Percent by weight from which this ingredient alone would give the class. */
  readonly limit: string;
  /** A limit of the substance's own entry, not the generic one. */
  readonly specific: boolean;
}

/** Why a class or statement stands. */
export type Ground =
  | { readonly rule: 'own-classification' }
  | { readonly rule: 'limit-at-full-strength'; readonly limit: string }
  | { readonly rule: 'concentration-limits'; readonly shares: readonly LimitShare[] }
  | {
      readonly rule: 'acute-toxicity-estimate';
      readonly estimate: string;
      readonly unit: 'mg/kg' | 'mg/L' | 'ppmV';
      /** More than a tenth of the mixture is of unknown toxicity. */
      readonly partUnknown: boolean;
    }
  | { readonly rule: 'aquatic-sum'; readonly weightedPercent: string }
  | { readonly rule: 'kept-without-limit' }
  | { readonly rule: 'own-statement' }
  | { readonly rule: 'statement-of-ingredient' }
  | { readonly rule: 'sensitiser-below-limit' };

/** A class of the mixture, with the ingredients that bring it and why. */
export interface MixtureClass extends HazardClass {
  readonly from: readonly string[];
  readonly grounds: readonly Ground[];
}

/** An EUH statement of the mixture. */
export interface SupplementaryStatement {
  readonly code: string;
  readonly from: string;
  readonly ground: Ground;
  readonly sensitiser?: string;
}

export interface MixtureClassification {
  readonly classes: readonly MixtureClass[];
  readonly supplementary: readonly SupplementaryStatement[];
  readonly notes: readonly HazardNote[];
}

/** The maker's own sheet for a reagent, as on the shelf. */
export interface SafetyDataSheet {
  readonly statements: readonly string[];
  readonly precautionary?: readonly string[];
  readonly pictograms?: readonly string[];
  readonly signalWord?: SignalWord | 'none';
  readonly supplier?: string;
  readonly date?: string;
  readonly url?: string;
}

/** A substance as it is used or made, at its strength. */
export interface SubstanceInUse {
  readonly name: string;
  readonly alsoCalled?: readonly string[];
  readonly formula?: string;
  readonly cas?: string;
  readonly role?: string;
  /** Percent by mass, decimal as text. Left out: taken as undiluted, and said so where it is sold in solution. */
  readonly percent?: string;
  /** What had to be assumed to tell the percent, as sentences. */
  readonly assumed?: readonly string[];
  readonly sheet?: SafetyDataSheet;
  /** The sheet is for this other strength, as written: then the table at the strength used is counted as well. */
  readonly sheetIsFor?: string;
}

/** Why a statement stands in a box: the substance it comes from, and on whose word. */
export interface Origin {
  readonly from: string;
  readonly basis: Basis;
  /** Title of the source, ready to print. */
  readonly source: string;
  readonly url?: string;
  /** Name of the group whose entry is used, where the substance has no row of its own. */
  readonly groupEntry?: string;
  /** `group entry: lead compounds`, `specific limit 5 %` … , ready to print */
  readonly note?: string;
}

/** A hazard or precautionary statement of a box or a label. */
export interface LabelStatement {
  readonly code: string;
  readonly text: string;
  /** The signal word of the gravest class that the statement can stand for. */
  readonly signalWord?: SignalWord;
  /** Names of the substances it comes from. */
  readonly from: readonly string[];
  /** One for each substance and source. */
  readonly origins?: readonly Origin[];
  readonly note?: string;
  /** A milder statement of other substances that this one takes the place of: H410 of H400, H314 of H318. */
  readonly standsFor?: { readonly code: string; readonly from: readonly string[] };
  /** Precautionary: among the few that a label would carry. */
  readonly first?: boolean;
}

/** What the box rests on, substance by substance. */
export interface SubstanceSummary {
  readonly name: string;
  readonly role?: string;
  /** Strength as reckoned with: `60 % by mass`. */
  readonly strength?: string;
  readonly found: 'row' | 'group' | 'by-element' | 'sds' | 'unknown';
  readonly basis?: Basis;
  readonly source?: string;
  readonly url?: string;
  /** Statements at this strength; empty with `found: 'row'` means the source says: not classified. */
  readonly codes: readonly string[];
  readonly notes: readonly HazardNote[];
  readonly sds?: { readonly supplier?: string; readonly date?: string; readonly url?: string };
  /** Statements of the table that the maker's sheet leaves out. */
  readonly leftOutBySds?: readonly string[];
  /** Codes on the maker's sheet that are no published statement. */
  readonly unpublishedCodes?: readonly string[];
  /** It is sold at many strengths, and none was given. */
  readonly strengthAssumed?: true;
}

export interface HazardBox {
  /** GHS01 … GHS09 in order of display. */
  readonly pictograms: readonly string[];
  readonly signalWord?: SignalWord;
  readonly statements: readonly LabelStatement[];
  readonly precautionary: readonly LabelStatement[];
  /** Names of substances of which nothing is known; said loudly. */
  readonly unknown: readonly string[];
  readonly substances?: readonly SubstanceSummary[];
  /** Assumptions and doubts: those of all the box, then those of its substances. */
  readonly notes?: readonly HazardNote[];
}

/** Words that fill the gaps in a statement's wording: organs, a sensitiser's name. */
export interface Filling {
  /** Organs affected, for H370 to H373: `kidney, bone`. */
  readonly organs?: string;
  /** Name of a sensitiser, for EUH208. */
  readonly sensitiser?: string;
}

/** One substance's hazards at its strength, before they are merged into a box. */
export interface SubstanceHazards {
  readonly summary: SubstanceSummary;
  readonly classes: readonly HazardClass[];
  readonly codes: readonly string[];
  readonly originOf: (code: string) => Origin;
  readonly fillings: ReadonlyMap<string, Filling>;
  /** Pictograms printed on the maker's sheet. */
  readonly printedPictograms: readonly string[];
  readonly signalWord?: SignalWord;
  /** Precautionary statements of the maker's sheet. */
  readonly precautionary?: readonly string[];
}
