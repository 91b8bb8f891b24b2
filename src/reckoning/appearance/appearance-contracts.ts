// The colour of an entry as reckoning hands it on: plain data.
import type { CurveValue, StandardTest } from '../../colour/index.js';

/** L*, a*, b*; or X, Y, Z with Y = 100 for white. */
export type Triple = readonly [number, number, number];

export type LampName = 'D65' | 'D50' | 'A' | 'F11' | 'LED-B3';

export interface Swatch {
  /** In-gamut sRGB, `#rrggbb`. */
  readonly hex: string;
  /** The colour lies outside sRGB and was mapped into it. */
  readonly mapped: boolean;
  /** The same film over black, where opacity is known: `#rrggbb`. */
  readonly overBlack?: string;
  /** The same film over white, where opacity is known: `#rrggbb`. */
  readonly overWhite?: string;
  /** A quarter of the film's thickness over white, computed, where opacity is known: `#rrggbb`. */
  readonly undertone?: string;
  /** The three film colours are computed from two Y values, not measured as spectra. */
  readonly filmEstimated?: boolean;
  /** The swatch stands for the reading only roughly (10° reading without spectrum, other illuminant, sRGB photo). */
  readonly approximate?: boolean;
}

/** One sample under one lamp; only what its reading allows. */
export interface UnderLamp {
  readonly lamp: LampName;
  /** `daylight`, `warm daylight`, `lamplight`, `shop light`, `modern lamp`. */
  readonly name: string;
  /** CIELAB against this lamp's own white, by the observer of the sample. */
  readonly lab: Triple;
  readonly xyz: Triple;
  /** The colour as an eye used to this lamp sees it, shown in daylight sRGB. */
  readonly swatch: Swatch;
}

/** How far and whither the colour moves from daylight to another lamp, for an eye used to that lamp. */
export interface LampMove {
  readonly lamp: LampName;
  readonly name: string;
  /** CIEDE2000 between the colour in daylight and the adapted colour under the lamp. */
  readonly de00: number;
  /** The adapted colour under the lamp, as Lab D65. */
  readonly lab: Triple;
  /** `redder`, `less green`, `darker` …, largest first; empty when it hardly moves. */
  readonly directions: readonly string[];
  /** `turns redder and darker under lamplight` */
  readonly text: string;
  readonly transform: 'CAT16';
}

/** Contrast ratio of one film over black and over white. */
export interface OpacityReckoning {
  /** Y over black ÷ Y over white, percent; a little over 100 is measurement noise. */
  readonly contrastRatio: number;
  readonly overBlackY: number;
  readonly overWhiteY: number;
  readonly word: 'opaque' | 'semi-opaque' | 'semi-transparent' | 'transparent';
  /** What the word means: `contrast ratio 75 to 98 %`. */
  readonly definition: string;
  /** CIEDE2000 between the two backings, where both are spectra: says more than the ratio for dark films. */
  readonly de00?: number;
  /** What limits the statement, as sentences. */
  readonly notes: readonly string[];
}

/** One step of a tint ladder. */
export interface Tint {
  /** Share of the pigment in the mixture with white, 0 … 1. */
  readonly share: number;
  readonly lab: Triple;
  readonly hex: string;
  readonly mapped: boolean;
  /** Read, not computed. */
  readonly measured?: true;
}

export interface TintLadder {
  readonly computed: true;
  /** Name of the white: `standard white (zinc white in oil)` or the file given. */
  readonly white: string;
  readonly whiteGiven: boolean;
  readonly steps: readonly Tint[];
  /** How good such a ladder is, as a sentence. */
  readonly note: string;
}

/** Several readings of one sample. */
export interface Repeatability {
  readonly readings: number;
  /** Mean CIEDE2000 of the readings from their mean. */
  readonly mean: number;
  readonly largest: number;
}

export type TestResult = StandardTest;

export interface CurvePoint {
  /** Wavelength, nm. */
  readonly nm: number;
  /** Reflectance factor, 0 … 1 (a little over 1 is possible). */
  readonly r: number;
}

/** Curves by which pigments are told apart, of one sample. */
export interface Identification {
  readonly sample: string;
  /** K/S of an opaque layer. */
  readonly ks: readonly CurveValue[];
  /** Slope of the reflectance, per nm. */
  readonly slope: readonly CurveValue[];
}

export interface SampleAppearance {
  readonly sample: string;
  /** CIELAB under D65, 10° unless `observer` says 2. */
  readonly lab?: Triple;
  readonly observer?: 2 | 10;
  /** `lab` was carried over from another illuminant by adaptation, or comes from sRGB. */
  readonly labApproximate?: boolean;
  /** L*, C*ab, hue angle in degrees (0 … 360). */
  readonly lch?: Triple;
  readonly xyz?: Triple;
  /** The Lab as it was given, when it was not given for D65. */
  readonly given?: { readonly lab: Triple; readonly illuminant: string; readonly observer: 2 | 10 };
  /** Daylight first; one lamp only when no spectrum is known. */
  readonly perLamp?: readonly UnderLamp[];
  readonly swatch?: Swatch;
  readonly basis?: 'spectrum' | 'lab' | 'xyz' | 'photograph' | 'srgb-estimate';
  /** The mean reflectance, for drawing. */
  readonly curve?: readonly CurvePoint[];
  readonly repeatability?: Repeatability;
  /** What a colour from a photograph may be off by, CIEDE2000, and how that was found. */
  readonly uncertainty?: { readonly de00: number; readonly method: string };
  readonly family?: string;
  /**
   * Family of a tint of one tenth in white, computed: tells dark pigments apart that all come out black in masstone.
   */
  readonly tintFamily?: string;
  readonly opacity?: OpacityReckoning;
  readonly tintLadder?: TintLadder;
  /** Where tints of it and of another pigment were read. */
  readonly tinting?: TintingAppearance;
  /** Daylight to lamplight (A). Absent without a spectrum: it can't be known. */
  readonly lampMove?: LampMove;
  /** Daylight to every other lamp. */
  readonly lampMoves?: readonly LampMove[];
  readonly tests?: readonly TestResult[];
  /** How the sample was prepared for the reading, as words. */
  readonly preparation?: string;
  /** The same sample after ageing, set against what it was before. */
  readonly aged?: readonly AgedAppearance[];
  /** The reading is made up for a demonstration. */
  readonly invented?: boolean;
  readonly instrument?: string;
  /** What the reading leaves open, as sentences. */
  readonly note?: string;
}

/**
 * `same`: the readings are the same; `cannot-be-told`: scatter or uncertainty is wider; `no-verdict`: a rough estimate;
 * `repeats`: two repeats of one preparation; `measured`: measured, but too small to see.
 */
export type VerdictCode =
  | 'same'
  | 'cannot-be-told'
  | 'no-verdict'
  | 'repeats'
  | 'measured'
  | 'visible-side-by-side'
  | 'visible-apart';

export interface ColourVerdict {
  readonly code: VerdictCode;
  /** `no difference`, `cannot be told`, `no verdict`, `repeats`, `measured`, `visible side by side`, `visible apart` */
  readonly words: string;
  readonly sentence: string;
  /** What the readings cannot tell, however they differ. */
  readonly caveat?: string;
  /** Where the thresholds come from. */
  readonly source: string;
}

/** Two colours set side by side. */
export interface ColourDifference {
  readonly de00: number;
  /** Of the second less the first, Lab. */
  readonly delta: Triple;
  /** ΔC* and ΔH* of the second less the first; ΔL* is the first of `delta`. */
  readonly dC: number;
  readonly dH: number;
  /** Where the second lies from the first: `darker and redder`; empty for no difference. */
  readonly direction: string;
  /** Illuminant and observer of the difference: `D65/10°`. */
  readonly under: string;
  /** What scatter of the readings alone can make, CIEDE2000, about 95 %; absent where both are single. */
  readonly repeatability?: number;
  /** What it may be off by as one of the colours is from a photograph, CIEDE2000. */
  readonly uncertainty?: number;
  readonly verdict: ColourVerdict;
  /** Only when both are spectra: CIEDE2000 under each lamp, each against its own white. */
  readonly perLamp?: readonly { readonly lamp: LampName; readonly name: string; readonly de00: number }[];
  /** Special metamerism index for change of illuminant, additive correction in Lab (ISO 18314-4, CIE 15). */
  readonly metamerism?: readonly {
    readonly lamp: LampName;
    readonly name: string;
    readonly index00: number;
    readonly index76: number;
  }[];
  /** Looks the same under one lamp (daylight, where there is a choice) and different under `lamp`. */
  readonly metameric?: { readonly lamp: LampName; readonly alikeUnder: LampName; readonly sentence: string };
  readonly approximate?: boolean;
}

/** How strongly a sample tints white, relative to another pigment. */
export interface TintingAppearance {
  /** A sample's id, or the name of the bought pigment. */
  readonly against: string;
  /** Share of the pigment in the tints that were compared, 0 … 1. */
  readonly share: number;
  /** Per cent of the other's, by the strongest absorption. */
  readonly percent: number;
  /** Per cent of the other's, by lightness (Y). */
  readonly byLightness: number;
  /** Where the other absorbs most, nm. */
  readonly nm: number;
  /** File of the white; without it its absorption was taken as none. */
  readonly white?: string;
  readonly method: string;
}

/** A sample after ageing: the difference is of after less before. */
export interface AgedAppearance extends ColourDifference {
  /** What it went through: `300 h in a south window`. */
  readonly after: string;
  readonly lab?: Triple;
  readonly swatch: Swatch;
}

export interface ColourPair extends ColourDifference {
  /** Sample ids. */
  readonly a: string;
  readonly b: string;
}

/** Preparations set side by side: each a sample, or a sample with its repeats. */
export interface ColourComparison extends ColourDifference {
  /** Sample ids; the control first, where one is stated. */
  readonly a: readonly string[];
  readonly b: readonly string[];
  /** Where repeats scatter: their test, as that of yields. `repeatability` then is what their scatter can make. */
  readonly t?: string;
  readonly degreesOfFreedom?: string;
  readonly p?: string;
  /** `p` with regard to how many comparisons were made, where there is more than one. */
  readonly adjustedP?: string;
  readonly correction?: 'Holm';
}

/** How far repeats of one preparation lie from their mean, CIEDE2000. */
export interface ColourRepeats {
  readonly samples: readonly string[];
  /** Their mean, in daylight. */
  readonly lab?: Triple;
  readonly mean: number;
  readonly largest: number;
  /** Root of the summed squares over n − 1. */
  readonly deviation: number;
  /** They were not measured but estimated, by codes of colours. */
  readonly estimated?: true;
}

export interface ReferenceAppearance {
  readonly name: string;
  readonly lab?: Triple;
  readonly observer?: 2 | 10;
  readonly lch?: Triple;
  readonly swatch?: Swatch;
  readonly family?: string;
  readonly basis?: SampleAppearance['basis'];
  readonly curve?: readonly CurvePoint[];
  readonly perLamp?: readonly UnderLamp[];
  readonly invented?: boolean;
  readonly note?: string;
  /** `delta` is of the sample less the reference. */
  readonly differences: readonly (ColourDifference & {
    readonly sample: string;
    /** Whether the sample is within the tolerance that the entry states; `within` is absent where it cannot be told. */
    readonly tolerance?: { readonly de00: number; readonly within?: boolean; readonly sentence: string };
  })[];
}

/** Where a family comes from: an instrument, a photograph with a chart, a code of a colour, or the maker's word. */
export type FamilyBasis = 'measured' | 'photograph' | 'estimate' | 'declared';

export interface AppearanceReckoning {
  readonly samples: readonly SampleAppearance[];
  /** Every two samples whose readings can be compared. */
  readonly pairs?: readonly ColourPair[];
  /** Where there are repeats or a control: what is compared, preparations two by two or each with the control. */
  readonly comparisons?: readonly ColourComparison[];
  readonly repeats?: readonly ColourRepeats[];
  readonly reference?: ReferenceAppearance;
  readonly family?: string;
  readonly familyBasis?: FamilyBasis;
}
