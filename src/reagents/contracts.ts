// What this room takes and gives: a reagent as a maker wrote it, the cupboard it may stand in, and the resolved
// reagent.
import type { Decimal, Formula, Quantity, Taken, UncertainDecimal } from '../chemistry/index.js';
import type { AssayWritten } from './assay-written.js';
import type { Constituents } from './constituents.js';

/**
 * How much was taken, as written. What is only said in words has a place too: nothing is an absence that was written.
 */
export type AmountWritten =
  | { readonly kind: 'measured'; readonly quantity: Quantity }
  /** With a quantity where it says how much: `10 % excess`. */
  | { readonly kind: 'excess'; readonly quantity?: Quantity }
  /** `a pinch`, `2 tsp`: ends in g or mL, with where they come from. */
  | {
      readonly kind: 'rough';
      readonly words: string;
      readonly unit: 'g' | 'mL';
      readonly low: Decimal;
      readonly usual: Decimal;
      readonly high: Decimal;
      readonly source: string;
    }
  /** `some`, `to pH 8`; `understood`: the words are known here, and name no amount; `ample`: it was enough. */
  | { readonly kind: 'unknown'; readonly words: string; readonly understood: boolean; readonly ample: boolean };

/** The supplier's own sheet, as on the shelf. */
export interface SupplierSheet {
  readonly statements: readonly string[];
  readonly precautionary?: readonly string[];
  readonly pictograms?: readonly string[];
  readonly signalWord?: 'Danger' | 'Warning' | 'none';
  readonly supplier?: string;
  readonly date?: string;
  readonly url?: string;
  /** Strength that the sheet is for, as written, where another is used: then the sheet does not say it all. */
  readonly isForStrength?: string;
}

/** A reagent as a maker wrote it; what is not said is absent. */
export interface ReagentWritten {
  /** The words themselves: a line at the bench, an id of the shelf, a name. */
  readonly written: string;
  /** What it goes by, as it is shown. */
  readonly name: string;
  /**
   * The name without its words of state and its quantities, where it holds any: `sulfuric acid` of `conc. sulfuric
   * acid`.
   */
  readonly plainName?: string;
  readonly alsoCalled?: readonly string[];
  readonly formula?: string;
  readonly cas?: string;
  readonly amount?: AmountWritten;
  readonly strength?: Quantity;
  readonly purity?: Quantity;
  readonly density?: Quantity;
  readonly dropVolume?: Quantity;
  /** Words of state, strength and shape: `dilute`, `hot`, `powder`. */
  readonly state?: readonly string[];
  /** Words that told nothing. */
  readonly unused?: readonly string[];
  /** Sample of an earlier entry that it is: `9/A`. */
  readonly lot?: string;
  readonly sheet?: SupplierSheet;
  readonly price?: string;
}

/** The product of a sample, as something that can be taken again. */
export interface LotProduct {
  /** `9/A` */
  readonly lot: string;
  readonly name: string;
  readonly formula?: string;
  /** By its assay: as text, `98.3 % u = 0.2 %`. */
  readonly purity?: string;
  readonly strength?: string;
  /** Acid that it still holds: `0.5 mol/L`. */
  readonly freeAcid?: string;
  /** What may still be in it of the step that made it. */
  readonly carries?: readonly CarriedReagent[];
}

/** A reagent that was in excess in the step that made a lot, or that it was washed with, and may be left in it. */
export interface CarriedReagent {
  readonly name: string;
  readonly formula?: string;
  /** It was the last that the lot was washed with, and nothing dried or rinsed it since. */
  readonly wet?: true;
  /** A fire made it there, and nothing says that it was washed out since. */
  readonly made?: true;
  /** The lot in which it was left. */
  readonly lot: string;
}

/** Where reagents are looked up: the maker's shelf, and what was made earlier. */
export interface Cupboard {
  /** By id, or by a name it is called; undefined where there is none. */
  readonly shelf: (id: string) => ShelfFacts | undefined;
  /** A jar of the shelf that holds this lot. */
  readonly jarOf?: (lot: string) => ShelfFacts | undefined;
  readonly lot: (name: string) => LotProduct | undefined;
}

/** A reagent as it stands on the shelf or is described where it is used, as text. */
export interface ReagentFacts {
  readonly name: string;
  readonly 'also-called'?: readonly string[];
  readonly formula?: string;
  readonly cas?: string;
  readonly strength?: string;
  readonly purity?: string;
  readonly density?: string;
}
export interface ShelfFacts extends ReagentFacts {
  readonly assay?: AssayWritten;
  readonly 'free-acid'?: string;
  readonly 'drop-volume'?: string;
  readonly price?: string;
  readonly lot?: string;
  readonly sds?: {
    readonly statements: readonly string[];
    readonly precautionary?: readonly string[];
    readonly pictograms?: readonly string[];
    readonly 'signal-word'?: 'Danger' | 'Warning' | 'none';
    readonly supplier?: string;
    readonly date?: string;
    readonly url?: string;
  };
}

/** Something that was assumed, is doubtful or is not known, as data: a rule makes a sentence of it. */
export interface Doubt {
  readonly code: DoubtCode;
  readonly facts: Readonly<Record<string, string>>;
}
export type DoubtCode =
  | 'strength-from-name'
  | 'strength-from-density'
  | 'strength-not-given'
  | 'density-from-table'
  | 'density-assumed'
  | 'bulk-density'
  | 'density-does-not-fit'
  | 'density-fits-two-strengths'
  | 'beyond-table'
  | 'drop-volume-assumed'
  | 'taken-as'
  | 'only-roughly-this'
  | 'counted-as-ammonia'
  | 'sold-as-several'
  | 'salt-of-two-states'
  | 'words-not-used';

/** How a strength came to be known. */
export type StrengthBasis =
  /** No strength was said: a solid or liquid as it is. */
  | 'undiluted'
  /** No strength was said, of something that is only sold diluted. */
  | 'not-given'
  | 'stated'
  | 'density'
  | 'name'
  | 'word';

/** A strength in every term that can be told, of the formula as written, purity counted in. */
export interface ResolvedStrength {
  readonly basis: StrengthBasis;
  /** As written, where it was. */
  readonly stated?: Quantity;
  /** Share by mass, 0 to 1. */
  readonly massFraction?: UncertainDecimal;
  /** g in a mL. */
  readonly massConcentration?: UncertainDecimal;
  /** mol in a mL. */
  readonly molarConcentration?: UncertainDecimal;
  /** g/mL of the stuff. */
  readonly density?: UncertainDecimal;
  readonly densityFrom?: 'stated' | 'table' | 'unlisted' | 'water' | 'product' | 'bulk';
  readonly densitySource?: string;
  /** The strongest that it can be: upper ends of ranges, bounds and tolerances. */
  readonly atMost: StrengthTerms;
  readonly doubts: readonly Doubt[];
}

/** A strength in bare numbers, in the same terms. */
export interface StrengthTerms {
  readonly massFraction?: Decimal;
  readonly massConcentration?: Decimal;
  readonly molarConcentration?: Decimal;
  readonly density?: Decimal;
}

/** Which substance it is, and how that is known. */
export interface ResolvedSubstance {
  /** The formula as written or found: `CuSO4·5H2O`. */
  readonly formula: string;
  readonly parsed: Formula;
  readonly constituents: Constituents;
  readonly takenAs: 'formula' | 'cas' | 'material' | 'known-name' | 'name-of-ions' | 'name-is-formula' | 'organic';
  /** The formula stands for a mixture or a product that is only roughly this: amounts are not reckoned from it. */
  readonly roughly: boolean;
  /** Groups that the name tells and the formula does not show. */
  readonly groups: readonly string[];
  /** A word about it from the table of names. */
  readonly note?: string;
  /** Everything that the same name is sold as, strongest first, where that is more than one thing. */
  readonly alternatives: readonly NamedStrength[];
}

/** A strength that a name alone tells. */
export interface NamedStrength {
  readonly name: string;
  readonly formula: string;
  /** Percent by mass. */
  readonly low: Decimal;
  readonly usual: Decimal;
  readonly high: Decimal;
  /** g/mL of what is sold, where the source prints one. */
  readonly density?: Decimal;
  readonly note?: string;
  readonly source: string;
}

/** How much of a reagent was taken, and of what content; what is not said is absent. */
export interface Portion {
  /** Name that keeps its readings apart from other readings: `A/blue-vitriol`. */
  readonly id: string;
  /** Name of the stuff itself, shared by all uses of it; purity and strength belong to it. Default: `id`. */
  readonly stuff?: string;
  readonly name: string;
  readonly formula?: Formula;
  /** How much was taken: mass, volume, amount, drops or `excess`. */
  readonly amount?: Quantity;
  /** Content of a solution: % by mass, % w/v, mol/L, degrees … */
  readonly strength?: Quantity;
  readonly purity?: Quantity;
  readonly density?: Quantity;
  readonly dropVolume?: Quantity;
  /** Strength that the name or a word of state tells. */
  readonly named?: NamedStrength;
  /** It is called a solution. */
  readonly dissolved?: boolean;
  /** Its amount is a kitchen measure: a powder weighs what it weighs as it is poured. */
  readonly asPoured?: boolean;
  /** Half-width of a reading of the balance, in g, where the balance is known. */
  readonly balance?: Decimal;
}

/** What a portion comes to: masses in g, volumes in mL, amounts in mol. */
export interface TakenPortion extends Taken {
  readonly strength: ResolvedStrength;
  /** mol at most: upper ends of ranges, strengths and drops; where danger is judged it counts. */
  readonly molAtMost?: Decimal;
  readonly doubts: readonly Doubt[];
}

/** What was said of how much there is; how much that comes to stands in `taken`. */
export type AmountKind =
  /** Nothing was said. */
  | 'not-said'
  | 'excess'
  /** Something was said, and it cannot be told how much that is. */
  | 'unknown'
  /** Between the ends of what such a measure holds. */
  | 'rough'
  | 'measured';

/** For something made here: the lot, and where that leads. */
export interface ResolvedOrigin {
  readonly lot: string;
  readonly known: boolean;
  readonly carries: readonly CarriedReagent[];
}

/** What a maker wrote, resolved once: every room reads this. */
export interface ResolvedReagent {
  readonly written: ReagentWritten;
  readonly name: string;
  /** Absent: nothing tells what it is, and it is treated as hazardous. */
  readonly substance?: ResolvedSubstance;
  readonly strength: ResolvedStrength;
  readonly amount: AmountKind;
  /** What was measured out, so that another amount of the same can be reckoned. */
  readonly portion: Portion;
  readonly taken: TakenPortion;
  readonly state: readonly string[];
  /** °C that a word of state tells; undefined where none does. */
  readonly celsius?: number;
  readonly sheet?: SupplierSheet;
  readonly price?: string;
  readonly origin?: ResolvedOrigin;
  readonly unused: readonly string[];
  readonly doubts: readonly Doubt[];
}
