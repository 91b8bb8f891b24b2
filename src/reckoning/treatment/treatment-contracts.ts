// What is reckoned of a product after it was made: what washing leaves in it, how dry it is, what it loses on ignition,
// what it holds by assay. Plain data.
import type { Figure } from '../figures.js';

/** One salt in the product after washing, at best. */
export interface SaltLeft {
  readonly formula: string;
  /** The reaction frees it, or it was taken and not used up. */
  readonly from: 'freed' | 'left';
  /** g in the product. */
  readonly mass: Figure;
  /** Of what was obtained, else of the theoretical yield; decimal as text. */
  readonly percent?: string;
}

export interface WashingReckoning {
  readonly salts: readonly SaltLeft[];
  /** All of them together, g. */
  readonly total?: Figure;
  readonly percentOf?: 'obtained' | 'theoretical yield';
  /** Share of each salt that is left, 0 to 1; decimal as text. */
  readonly share: string;
  /** Of all washes together, mL. */
  readonly volume: Figure;
  /** Before the first pouring off, mL. */
  readonly liquor: Figure;
  /** Metals that the wash liquid carries off, g. */
  readonly metals?: readonly { readonly symbol: string; readonly name: string; readonly mass: Figure }[];
}

export interface DryingReckoning {
  /** Of the last weighing, g. */
  readonly dryMass: Figure;
  /** The last two weighings lie within two steps of the balance. */
  readonly constant: boolean;
  readonly weighings: readonly { readonly mass: Figure; readonly after?: string }[];
}

export interface IgnitionReckoning {
  /** Of the mass before; decimal as text. */
  readonly lossPercent: string;
  /** Molecules for each formula unit of the residue, as if all of the loss was water. */
  readonly waterPerFormula?: { readonly value: string; readonly uncertainty: string };
  readonly asIf?: 'water';
  /**
   * Where the product loses more than water on its way to the residue: what it loses of its own, in percent, and the
   * molecules of water that each of its formula units had held beside, `of` which formula.
   */
  readonly ownLossPercent?: string;
  readonly waterHeld?: { readonly value: string; readonly uncertainty: string };
  readonly of?: string;
  /** More was ignited than was obtained, so that it is no portion of it: what the reaction takes of a charge. */
  readonly reactionLossPercent?: string;
  /** The dry product, where nothing is known of what such a fire leaves of it. */
  readonly notKnownOf?: string;
  /** What is left, by formula. */
  readonly residue?: string;
  readonly to?: string;
}

/** The product counted without the water and the rest that drying or ignition took from it. */
export interface DryBasis {
  readonly by: 'drying' | 'ignition';
  readonly percentYield: Figure;
}

/** Water that a product is known to hold which is written without it. */
export interface HeldWater {
  readonly name: string;
  /** Molecules for each formula unit; absent where no source gives a number. */
  readonly low?: string;
  readonly high?: string;
  readonly condition: string;
  readonly finding?: string;
  readonly source: string;
  readonly sourceUrl?: string;
  /** Percent yield if it holds the most and the least of it. */
  readonly yieldIfSo?: { readonly low: string; readonly high: string };
}

/** What heat has made of a product before it was weighed. */
export interface HeatedPast {
  /** Its formula as it is written. */
  readonly written: string;
  /** The heat as it is written: `500 °C`. */
  readonly at: string;
  /** What all of it has turned into; the sample is reckoned as that. */
  readonly left?: string;
  /** °C by which it has. */
  readonly goneBy?: number;
  /** What may have turned in part: nobody knows how much. */
  readonly going?: {
    readonly from: string;
    readonly into?: string;
    /** °C up to which it stays as it is, and by which all of it has turned. */
    readonly staysTo: number;
    readonly goneBy?: number;
  };
  readonly source?: string;
}

/** What an assay came to. */
export interface AssayedFigure {
  readonly value: string;
  readonly unit: string;
  /** Expanded, k = 2. */
  readonly uncertainty: string;
  readonly by: 'titration' | 'gravimetric' | 'density' | 'ignition' | 'stated';
  readonly text: string;
  /** As somebody wrote it down, where what was measured is not known. */
  readonly written?: string;
}

/** What was done with a product, reckoned. */
export interface TreatmentReckoning {
  readonly washing?: WashingReckoning;
  readonly drying?: DryingReckoning;
  readonly ignition?: IgnitionReckoning;
  readonly dryBasis?: DryBasis;
  readonly heldWater?: HeldWater;
  readonly heatedPast?: HeatedPast;
  /** How pure or how strong it is by its assay: % by mass of its formula as written, or mol/L. */
  readonly assayed?: AssayedFigure;
  /** The yield as weighed, counted by that purity. */
  readonly assayedYield?: Figure;
  /** All of it in sentences. */
  readonly treatment?: readonly string[];
}
