// What reckoning hands on and asks for: everything computed from one entry, as plain data (no Decimal, no function but
// in the context), so that it can be sent to a worker thread, written to data/ and shown by templates that know no
// chemistry.
import type { PhotographedColour } from '../colour/index.js';
import type { Typeset } from '../chemistry/index.js';
import type { ContentsTaken, Foreseen } from '../hazards/foresee/contracts.js';
import type { HazardBox } from '../hazards/ghs/index.js';
import type { Entry } from '../journal/entry.js';
import type { JournalSettings, ShelfReagent } from '../journal/schema.js';
import type { Finding } from '../remarks/findings.js';
import type { CarriedReagent, Cupboard } from '../reagents/index.js';
import type { AppearanceReckoning, FamilyBasis, SampleAppearance } from './appearance/appearance-contracts.js';
import type { Figure } from './figures.js';

import type { AssayedFigure, TreatmentReckoning } from './treatment/treatment-contracts.js';

export type { Figure } from './figures.js';

/** One step of a lineage: a lot or a bought reagent, and what it was made from. */
export interface LineageNode {
  readonly name: string;
  /** Absent for a bought reagent. */
  readonly lot?: string;
  readonly entry?: number;
  readonly sample?: string;
  /** How much of it was taken, as written. */
  readonly taken?: string;
  readonly obtained?: string;
  readonly yield?: string;
  readonly from: readonly LineageNode[];
  /** Earlier steps are not shown. */
  readonly further?: boolean;
}

/** How much of a lot there was, who took how much, and what is left. */
export interface LotStock {
  readonly lot: string;
  readonly obtained?: Figure;
  readonly taken: readonly { readonly entry: number; readonly sample: string; readonly mass?: Figure }[];
  /** Portions that were sent away, to whom as a code. */
  readonly sent: readonly { readonly date: string; readonly to: string; readonly mass?: Figure }[];
  /** g; absent where something is not known. */
  readonly left?: Figure;
  readonly overspent: boolean;
}

/** One metal's account in one sample. */
export interface MetalAccount {
  readonly symbol: string;
  readonly name: string;
  readonly hazardous: boolean;
  /** Mass that went in, g. */
  readonly in: Figure;
  /** Mass in the product, taken as pure, g; its share of what went in, %. */
  readonly inProduct: Figure;
  readonly inProductShare: Figure;
  /** The rest, in filtrate, washings and losses. */
  readonly rest: Figure;
  readonly restShare: Figure;
  /**
   * The rest as a line for the waste book; where weighing cannot tell it from nothing, by its bounds for a hazardous
   * metal and absent for others.
   */
  readonly wasteLine?: string;
  /** More came out than went in: the product is not what its formula says, or wet. */
  readonly exceeds: boolean;
}

/** One sample's result, or several of the same preparation. */
export interface Compared {
  /** Ids of the samples: one, or a sample and its replicates. */
  readonly samples: readonly string[];
  readonly mean: string;
  /** Standard deviation, with two samples or more. */
  readonly deviation?: string;
  readonly n: number;
}

/** A value that lies further from its repeats than chance would have it; it is named and stays in. */
export interface Outlier {
  readonly sample: string;
  readonly rule: 'Grubbs';
  readonly statistic: number;
  readonly critical: number;
  /** Two-sided. */
  readonly alpha: 0.05;
}

export interface Comparison {
  readonly a: Compared;
  readonly b: Compared;
  readonly measure: 'percent yield' | 'mass obtained';
  readonly basis: 'weighing' | 'replicates' | 'single against replicates';
  /** First minus second, with its expanded uncertainty where it rests on weighing. */
  readonly difference: Figure;
  /** Where the difference lies, in the unit of the measure; of one against repeats, where another one would. */
  readonly interval: { readonly low: number; readonly high: number; readonly level: 95 };
  /** The difference is shown; after the correction, where there is one. */
  readonly differs: boolean;
  readonly t?: string;
  readonly degreesOfFreedom?: string;
  readonly p?: string;
  /** `p` with regard to how many comparisons were made, where there is more than one. */
  readonly adjustedP?: string;
  readonly correction?: 'Holm';
  /** Of either side. */
  readonly outliers?: readonly Outlier[];
  /** The verdict, in one sentence. */
  readonly verdict: string;
  /** What the verdict leaves out, in one sentence. */
  readonly leavesOut: string;
  /** That one of the two was made only once, beside repeats of the other: in one sentence. */
  readonly madeOnce?: string;
}

/** Samples that repeat one recipe, with their mean. */
export interface Repeats extends Compared {
  readonly measure: Comparison['measure'];
}

/** One reagent as it went into one sample. */
export interface IngredientAmounts {
  /** Shelf id, lot (`9/A`) or name, as the entry refers to it. */
  readonly id: string;
  readonly name: string;
  readonly formula?: string;
  readonly formulaSet?: Typeset;
  readonly role: string;
  /** It is a lot made earlier: `9/A`. */
  readonly lot?: string;
  /** It was made here and has no assay: it is reckoned as if it were pure. */
  readonly asIfPure?: true;
  /** As if pure, though more came out of its lot than could be pure: what it can be at most, `98.0 %`. */
  readonly atMostPure?: string;
  /** It takes part in the reaction as if it were pure: nothing says how pure it is. */
  readonly purityNotStated?: true;
  /** Its purity or strength is only roughly so: in a sentence. */
  readonly roughlyStated?: string;
  /** What its assay came to. */
  readonly assayed?: AssayedFigure;
  /** The amount as written. */
  readonly written?: string;
  /** Taken in excess, without an amount. */
  readonly excess?: boolean;
  /** Mass and volume as taken, impurities and solvent included. */
  readonly mass?: Figure;
  readonly volume?: Figure;
  /** Amount of the pure substance; value in mol, shown in mmol. */
  readonly amount?: Figure;
  /** Mass of the pure substance, g. */
  readonly pure?: Figure;
  /** Amount divided by the coefficient, relative to the limiting reagent: 1 is just enough. */
  readonly equivalents?: Figure;
  readonly limiting: boolean;
  /** Its amount cannot be told from the limiting one's by weighing. */
  readonly tooClose?: boolean;
  /** Pure substance left when the limiting reagent is used up, g. */
  readonly left?: Figure;
  /** Reactants of the equation that it supplies, as they are written there. */
  readonly supplies?: readonly string[];
  readonly cost?: Figure;
}

export interface SampleAmounts extends TreatmentReckoning {
  readonly sample: string;
  readonly ingredients: readonly IngredientAmounts[];
  /** Name of what limits. */
  readonly limiting?: string;
  /** Reagents meant to be in excess that are short, each with what would be needed. */
  readonly short?: readonly {
    readonly reagent: string;
    readonly percent: Figure;
    readonly needed: Figure;
    readonly theoreticalYieldThen?: Figure;
    /** The same in a sentence. */
    readonly words: string;
  }[];
  /** A sentence where weighing cannot tell which of several limits. */
  readonly tooCloseToCall?: string;
  /** Between which bounds the yields lie where it cannot, whichever of them limits. */
  readonly undecided?: {
    readonly theoreticalYield: { readonly low: Figure; readonly high: Figure };
    readonly percentYield?: { readonly low: Figure; readonly high: Figure };
    readonly words: string;
  };
  /** Acid and alkali that were set against each other before the rest, mol of protons; and what is left at the end. */
  readonly acidAndAlkali?: {
    readonly acid?: Figure;
    readonly alkali?: Figure;
    readonly leftIs?: 'acid' | 'alkali';
    readonly left?: Figure;
    /** Rough, and only where a strong acid, or an alkali that dissolves, is in excess (or at most). */
    readonly pH?: string;
    readonly words: string;
  };
  /** How what was taken stands to the composition that is aimed at, as mole fractions of the elements that stay. */
  readonly target?: {
    readonly written: string;
    readonly elements: readonly { readonly symbol: string; readonly target: string; readonly taken: string }[];
    /** g of it that what was taken can give at most. */
    readonly most?: Figure;
    readonly words: string;
  };
  readonly theoreticalYield?: Figure;
  readonly obtained?: Figure;
  /** What was obtained, as written, where that is no mass: `a jam jar full`. */
  readonly obtainedWords?: string;
  readonly percentYield?: Figure;
  /** Why there is no yield, as half a sentence, where a reader would look for one. */
  readonly noYield?: string;
  /** What sets it apart, where that alone tells what went in, and the amounts are those of others. */
  readonly onlyInWords?: string;
  /** What was not measured and is taken to have been enough: `household ammonia (“to pH 8”)`. */
  readonly takenAsEnough?: string;
  /** What a yield above 100 % means, in a sentence. */
  readonly overHundred?: string;
  /** Percent yield over all steps from bought reagents; absent where nothing was made earlier. */
  readonly cumulativeYield?: Figure;
  /** Mass of all that was used for a gram of product. */
  readonly massIntensity?: Figure;
  /** Cost of what went in, where every price is known. */
  readonly cost?: Figure;
  readonly costPerGram?: Figure;
  /** Names of what has no price. */
  readonly unpriced?: readonly string[];
  readonly metals?: readonly MetalAccount[];
  readonly lineage?: LineageNode;
  readonly replicateOf?: string;
}

/** What one sample takes of a jar of which it is written how much was bought. */
export interface JarTaken {
  /** Its id on the shelf. */
  readonly jar: string;
  readonly sample: string;
  /** Decimals as text, g and mL; absent where they are not known. */
  readonly mass?: string;
  readonly volume?: string;
  /** Of what was taken by a spoon or roughly: what the amount may be off by, relative, expanded (k = 2). */
  readonly doubt?: number;
}

/** Mass taken from an earlier lot by one sample. */
export interface LotTaken {
  readonly lot: string;
  readonly sample: string;
  /** g; absent where the amount is not known. */
  readonly mass?: Figure;
}

export interface AmountsReckoning {
  readonly reaction?: {
    readonly written: string;
    readonly balanced: boolean;
    readonly fault?: string;
    /** Each substance with its coefficient, ready for a page. */
    readonly reactants?: readonly { readonly coefficient: string; readonly formula: Typeset }[];
    readonly products?: readonly { readonly coefficient: string; readonly formula: Typeset }[];
  };
  readonly product?: { readonly formula: string; readonly formulaSet?: Typeset; readonly molarMass?: Figure };
  readonly atomEconomy?: Figure;
  /** Reactants that no reagent supplies and that are taken to be ample: water, oxygen of the air. */
  readonly assumed?: readonly string[];
  readonly samples: readonly SampleAmounts[];
  /** What the yields would be with the water that the product is known to hold, in sentences. */
  readonly heldWaterYields?: readonly string[];
  readonly comparisons?: readonly Comparison[];
  /** Preparations that were made more than once. */
  readonly repeats?: readonly Repeats[];
  /** Repeats that lie far from the others of their preparation. */
  readonly outliers?: readonly Outlier[];
  readonly lotsTaken?: readonly LotTaken[];
  readonly jarsTaken?: readonly JarTaken[];
  /** What is left of this entry's samples that later entries took as lots; known when the whole journal is reckoned. */
  readonly stock?: readonly LotStock[];
}

/** A hazard foreseen in this entry: in which samples, and how the entry answers it. */
export interface ForeseenInEntry extends Foreseen {
  /** Ids of the samples in which it arises; empty where the entry has none. */
  readonly samples: readonly string[];
  /** The step at which all of its partners are together, the first is 1; absent where the steps do not tell. */
  readonly step?: number;
  /** The precautions that name it. */
  readonly answered: readonly { readonly against: string; readonly do: string }[];
}

export interface DangersReckoning {
  readonly box: HazardBox;
  /** Dangers first, then warnings, then notes. */
  readonly foreseen?: readonly ForeseenInEntry[];
  /** Names that no rule could judge; said loudly. */
  readonly notJudged?: readonly string[];
  readonly cautions?: readonly string[];
  /**
   * Those of them that say what was judged only by words, or not at all: for the bench sheet. Absent where there are
   * none.
   */
  readonly byWords?: readonly string[];
  /** Names that may mean several things, or hold them: each was judged. */
  readonly taken?: readonly ContentsTaken[];
  /** The room reckoned with. */
  readonly room?: { readonly cubicMetres: string; readonly stated: boolean; readonly extraction: boolean };
}

/** A sample of an earlier entry, as something that can be weighed out again. */
export interface LotFacts {
  /** `9/A` */
  readonly lot: string;
  readonly entry: number;
  readonly sample: string;
  readonly name: string;
  readonly formula?: string;
  /** Only its reaction tells its formula, and nothing was heated: how much water it holds nobody says. */
  readonly waterUntold?: true;
  readonly obtained?: Figure;
  /** Percent yield of the step that made it. */
  readonly percentYield?: Figure;
  /** By its assay, as text: `98.3 % u = 0.2 %`. */
  readonly purity?: string;
  readonly strength?: string;
  /** Acid that it still holds: `0.5 mol/L`. */
  readonly freeAcid?: string;
  /** Reagents that were in excess and not washed out. */
  readonly carries?: readonly CarriedReagent[];
  /** Cost of the whole lot from bought reagents, where every price is known. */
  readonly cost?: Figure;
  /** Percent yield over all steps from bought reagents, as it was weighed. */
  readonly cumulativeYield?: Figure;
  /** What it was made from, a few steps back. */
  readonly lineage?: LineageNode;
}

/** What came of reading a sample's colour from a photograph. */
export type PhotographOutcome =
  | { readonly ok: true; readonly value: PhotographedColour }
  | { readonly ok: false; readonly fault: { readonly message: string; readonly cure?: string } };

/** So much of the journal's settings as a reckoning may draw on. */
export type ReckoningSettings = Pick<JournalSettings, (typeof reckonedWith)[number]>;
export const reckonedWith = ['balance', 'currency', 'small-amount', 'workspace'] as const;

export interface ReckoningContext {
  readonly settings: ReckoningSettings;
  readonly shelf: ReadonlyMap<string, ShelfReagent>;
  /** Facts of a lot already reckoned, or undefined if there is none of that name. */
  readonly lot: (name: string) => LotFacts | undefined;
  /** Text of a file below the journal that entries name (spectra), or undefined. */
  readonly reading: (path: string) => string | undefined;
  /** A colour read from a photograph, by its request’s key; absent where no photographs were read. */
  readonly photograph?: (key: string) => PhotographOutcome | undefined;
  /** Where reagents are looked up. Default: the shelf and the lots. */
  readonly cupboard?: Cupboard;
}

/** A sample, in short. */
export interface SampleGist {
  readonly sample: string;
  readonly family?: string;
  readonly familyBasis?: FamilyBasis;
  readonly obtained?: Figure;
  /** It has a reading of which a curve can be drawn. */
  readonly curve?: true;
}

/** A danger or a warning that was foreseen of an entry. */
export type DangerGist = Pick<ForeseenInEntry, 'rule' | 'title' | 'severity' | 'partners'>;

/** So much of a reckoning as lists, links and stocks ask for. */
export interface ReckoningGist {
  /** Every sample of the entry. */
  readonly samples: readonly SampleGist[];
  readonly lotsTaken: readonly LotTaken[];
  readonly jarsTaken?: readonly JarTaken[];
  readonly foreseen?: readonly DangerGist[];
  /** What the entry is found by: its signal word, what may follow, and that something in it is unknown. */
  readonly hazards: readonly string[];
}

/** So much of a sample's amounts and of its colour as rows of lists show. */
export type RowAmounts = Pick<
  SampleAmounts,
  'sample' | 'replicateOf' | 'limiting' | 'theoreticalYield' | 'obtained' | 'percentYield' | 'overHundred'
>;
export type RowAppearance = Pick<
  SampleAppearance,
  | 'sample'
  | 'lab'
  | 'lch'
  | 'observer'
  | 'labApproximate'
  | 'basis'
  | 'invented'
  | 'swatch'
  | 'lampMove'
  | 'opacity'
  | 'tests'
  | 'aged'
  | 'tinting'
>;

/** What lists show of a sample. */
export interface RowReckoning {
  readonly amounts?: RowAmounts;
  readonly appearance?: RowAppearance;
}

export interface ReckonedEntry {
  readonly entry: Entry;
  /** Tells this reckoning from any other: it stands for the front matter and all that was drawn on. */
  readonly identity?: string;
  readonly amounts: AmountsReckoning;
  readonly dangers: DangersReckoning;
  readonly appearance: AppearanceReckoning;
  /** Symbols of the colour-giving elements: as declared, else the transition and heavy elements of the formula. */
  readonly elements: readonly string[];
  /** What lists show of each sample, known without the rest; where it is missing, it is taken from the rest. */
  readonly rows?: readonly RowReckoning[];
  /** What lists and links ask for, known without the rest. */
  readonly gist: ReckoningGist;
  /** What is left of its lots, as it stands among the amounts too. */
  readonly stock?: readonly LotStock[];
  /** What the proof has to know; worded by the rules. */
  readonly findings: readonly Finding[];
}
