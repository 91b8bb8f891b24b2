// What is published of a substance's hazards: a row of the table, a group entry for its element, or nothing (unknown).

/** One hazard class and category, with the statement that belongs to it. */
export interface HazardClass {
  /** GHS short name: `Acute Tox.`, `Skin Corr.`, `Aquatic Chronic` … */
  readonly hazardClass: string;
  /** `1`, `1A`, `2`, `4`, `1B` … ; empty where the class has none */
  readonly category: string;
  /** Exposure route of acute toxicity. */
  readonly route?: 'oral' | 'dermal' | 'inhalation';
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
  readonly route: 'oral' | 'dermal' | 'inhalation';
  /** mg/kg, or mg/L (dust, mist, vapour) */
  readonly value: string;
  readonly form?: 'dust' | 'vapour' | 'gas';
}

/** Where a classification comes from. */
export type Basis =
  | 'harmonised' // EU CLP Annex VI
  | 'national' // a government's own result
  | 'memory' // known, no document seen: doubtful
  | 'sds'; // the maker's safety data sheet, from the shelf

/** A row of the table of substances. */
export interface Substance {
  readonly name: string;
  readonly synonyms: readonly string[];
  readonly formula: string;
  readonly cas: string;
  readonly hydrateCas: readonly string[];
  readonly indexNumber: string;
  readonly classes: readonly HazardClass[];
  /** EUH statements of the row. */
  readonly supplementary: readonly string[];
  /** Every statement of the classification, as the source orders them. */
  readonly codes: readonly string[];
  /** Statements that the source prints on the label. */
  readonly labelCodes: readonly string[];
  readonly pictograms: readonly string[];
  readonly signalWord?: 'Danger' | 'Warning';
  readonly limits: readonly SpecificLimit[];
  readonly multiplyAcute: number;
  readonly multiplyChronic: number;
  readonly estimates: readonly AcuteToxicityEstimate[];
  /** The source says expressly that it is not classified. */
  readonly notClassified: boolean;
  readonly group: boolean;
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

/** What is known: by a row of its own, by group entries (all that apply), or nothing. */
export type Finding =
  | { readonly found: 'row'; readonly rows: readonly [Substance]; readonly by: 'cas' | 'name' | 'formula' | 'hydrate'; readonly notes: readonly string[] }
  | { readonly found: 'group'; readonly rows: readonly Substance[]; readonly by: 'elements'; readonly notes: readonly string[] }
  | { readonly found: 'unknown'; readonly rows: readonly []; readonly notes: readonly string[] };

export function substances(): readonly Substance[] { throw new Error("being written"); }
export function findSubstance(_query: SubstanceQuery): Finding { throw new Error("being written"); }
