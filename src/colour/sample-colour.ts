// The colour of one sample, from whatever was read of it: spectra, Lab, XYZ or an sRGB estimate. What a reading does
// not allow (Lab under another lamp without a spectrum) is not computed.
import type { Outcome as AnyOutcome } from '../outcome.js';
import { bad, good, type Outcome } from './faults.js';
import { adapt, directions, inconstancy, inWords, type Inconstancy, type Transform } from './adaptation.js';
import { deltaE00, deltaE76, lchDifference, type LchDifference } from './difference.js';
import { familyOf, type Family } from './families.js';
import { metamerismIndex } from './metamerism.js';
import { lamps, underNames, type Illuminant, type Lamp, type Observer, type Triple } from './numbers.js';
import { screenFromLab50, screenFromLab65, screenFromXyz, xyzFromSrgb, type ScreenColour } from './screen.js';
import { atTableWavelengths, meanSpectrum, meanStep, straightTableValues, type Spectrum } from './spectrum.js';
import { labFromXyz, whiteOf, xyzFromLab, xyzFromTableValues } from './tristimulus.js';
import {
  noVerdict,
  oneDrawdownOf,
  scatterOf,
  scatterOfDifference,
  thresholdOf,
  usualRepeatability,
  verdict,
  type Doubt,
  type Scatter,
  type Verdict,
} from './verdict.js';

export type Basis = 'spectrum' | 'lab' | 'xyz' | 'photograph' | 'srgb-estimate';

export interface Under {
  readonly lamp: Lamp;
  readonly lab: Triple;
  readonly xyz: Triple;
  /** As an eye used to the lamp sees it. */
  readonly screen: ScreenColour;
}

export interface Move extends Inconstancy {
  readonly lamp: Lamp;
  readonly directions: readonly string[];
  /** `turns redder and darker under lamplight` */
  readonly text: string;
}

export interface SampleColour {
  readonly basis: Basis;
  readonly observer: Observer;
  /** The mean of the spectra, and the same at the 81 table wavelengths. */
  readonly spectrum?: Spectrum;
  readonly tableValues?: Float64Array;
  /** CIELAB under D65 for the observer; absent when the reading was made under a lamp from which it can't be told. */
  readonly lab?: Triple;
  readonly xyz?: Triple;
  /** The Lab was carried over from D50, or comes from sRGB. */
  readonly approximate: boolean;
  /** The reading itself, when it is not a spectrum. */
  readonly given?: { readonly lab: Triple; readonly illuminant: Illuminant; readonly observer: Observer };
  /** Daylight first. */
  readonly under: readonly Under[];
  readonly screen: ScreenColour;
  readonly screenApproximate: boolean;
  readonly family: Family;
  readonly scatter?: Scatter;
  /** Drawdowns of the sample that were read; absent where that was not said, which is taken as one. */
  readonly drawdowns?: number;
  /** What the colour may be off by, CIEDE2000, and how that was found. */
  readonly uncertainty?: { readonly de00: number; readonly method: string };
  /** Where in which photograph it was read. */
  readonly photograph?: PhotographedColour;
  /**
   * What the coarse step of the spectrum may be off by in daylight, CIEDE2000; absent for fine steps and flat curves.
   */
  readonly stepError?: number;
  /** From daylight to every other lamp; empty without a spectrum. */
  readonly moves: readonly Move[];
  /** What the reading leaves open, as sentences. */
  readonly notes: readonly string[];
}

function moveTo(daylight: Under, other: Under, observer: Observer, transform: Transform): Move {
  const { lamp } = other;
  const moved = inconstancy(
    { xyz: daylight.xyz, white: whiteOf('D65', observer) },
    { xyz: other.xyz, white: whiteOf(lamp, observer) },
    transform,
  );
  const words = directions(moved.reference, moved.adapted, undefined, moved.de00);
  const text =
    words.length === 0
      ? `hardly changes under ${underNames[lamp]}`
      : `turns ${inWords(words)} under ${underNames[lamp]}`;
  const { reference, adapted, de00 } = moved;
  return { transform, reference, adapted, de00, lamp, directions: words, text };
}

/** From this step on, nm, a steep edge may lie between two readings unseen. */
const coarseStep = 15;

/** Errors under this, CIEDE2000, are not worth saying. */
const leastStepError = 0.1;

/**
 * What a step of 20 nm may be off by: as far as the curve through the readings lies from straight lines between them.
 * Own estimate; it covers 96 of 100 of measured paints and made edges read at 20 nm instead of 5 or 10 (tests).
 */
function stepErrorOf(spectrum: Spectrum, lab: Triple, observer: Observer): number | undefined {
  if (meanStep(spectrum) < coarseStep) return undefined;
  const xyz = xyzFromTableValues(straightTableValues(spectrum), 'D65', observer);
  const error = deltaE00(lab, labFromXyz(xyz, whiteOf('D65', observer)));
  return error < leastStepError ? undefined : error;
}

const stepNote = (spectrum: Spectrum, error: number): string =>
  `Read in steps of ${Number(meanStep(spectrum).toFixed(1))} nm: at its steep edges the colour may be off by ` +
  `ΔE00 ${error.toFixed(1)}.`;

/**
 * Colour of a sample from one or several reflectance spectra of it.
 * @example colourFromSpectra([spectrum], 10).under[0].lab // L*, a*, b* in daylight
 */
export function colourFromSpectra(
  spectra: readonly Spectrum[],
  observer: Observer,
  transform: Transform = 'CAT16',
): SampleColour {
  const spectrum = meanSpectrum(spectra);
  const tableValues = atTableWavelengths(spectrum);
  const under: Under[] = lamps.map((lamp) => {
    const xyz = xyzFromTableValues(tableValues, lamp, observer);
    const forScreen = observer === 2 ? xyz : xyzFromTableValues(tableValues, lamp, 2);
    return {
      lamp,
      xyz,
      lab: labFromXyz(xyz, whiteOf(lamp, observer)),
      screen: screenFromXyz(forScreen, whiteOf(lamp, 2)),
    };
  });
  const daylight = under[0]!;
  const twoDegrees =
    observer === 2 ? daylight.lab : labFromXyz(xyzFromTableValues(tableValues, 'D65', 2), whiteOf('D65', 2));
  const scatter =
    spectra.length < 2
      ? undefined
      : scatterOf(
          spectra.map((one) =>
            labFromXyz(xyzFromTableValues(atTableWavelengths(one), 'D65', observer), whiteOf('D65', observer)),
          ),
          daylight.lab,
        );
  const stepError = stepErrorOf(spectrum, daylight.lab, observer);
  return {
    basis: 'spectrum',
    observer,
    spectrum,
    tableValues,
    lab: daylight.lab,
    xyz: daylight.xyz,
    approximate: false,
    under,
    screen: daylight.screen,
    screenApproximate: false,
    family: familyOf(twoDegrees),
    ...(scatter ? { scatter } : {}),
    ...(stepError === undefined ? {} : { stepError }),
    moves: under.slice(1).map((other) => moveTo(daylight, other, observer, transform)),
    notes: stepError === undefined ? [] : [stepNote(spectrum, stepError)],
  };
}

const meanOf = (triples: readonly Triple[]): Triple =>
  [0, 1, 2].map((i) => triples.reduce((sum, one) => sum + one[i]!, 0) / triples.length) as unknown as Triple;

/** What Lab or XYZ leave open, as sentences. */
function notesOnLab(illuminant: Illuminant, observer: Observer, basis: Basis): string[] {
  if (basis === 'srgb-estimate') return ['A code of a colour: a rough estimate, not a measurement.'];
  const notes = [
    `Read as ${basis === 'xyz' ? 'XYZ' : 'Lab'} under ${illuminant}: how it looks under other lamps cannot be ` +
      'known without a spectrum.',
  ];
  if (observer === 10)
    notes.push('The swatch is approximate: screens are defined for the 2° observer, and the reading is for 10°.');
  if (illuminant === 'D50') notes.push('Lab under D65 is carried over from D50 by CAT16, an approximation.');
  else if (illuminant !== 'D65')
    notes.push(`The swatch shows it as seen under ${underNames[illuminant]}; Lab in daylight cannot be told from it.`);
  return notes;
}

/**
 * Colour of a sample from Lab (one reading or several), under the lamp and for the observer it was read for.
 * Only what follows is told: no other lamp, no inconstancy.
 */
export function colourFromLab(
  labs: readonly Triple[],
  illuminant: Illuminant,
  observer: Observer,
  basis: Basis = 'lab',
): SampleColour {
  const lab = meanOf(labs);
  const white = whiteOf(illuminant, observer);
  const xyz = xyzFromLab(lab, white);
  const scatter = scatterOf(labs, lab);
  const daylight = illuminant === 'D65';
  // For an eye used to the reading's own lamp, told as daylight: what a swatch can show of it.
  const asDaylight = daylight ? lab : labFromXyz(adapt(xyz, white, whiteOf('D65', observer)), whiteOf('D65', observer));
  const screen = illuminant === 'D50' && observer === 2 ? screenFromLab50(lab) : screenFromLab65(asDaylight);
  const screenApproximate = basis === 'srgb-estimate' || observer === 10 || !(daylight || illuminant === 'D50');
  const knownInDaylight = daylight || illuminant === 'D50';
  const lamp = lamps.find((name) => name === illuminant);
  return {
    basis,
    observer,
    approximate: basis === 'srgb-estimate' || !daylight,
    given: { lab, illuminant, observer },
    ...(knownInDaylight
      ? { lab: asDaylight, xyz: daylight ? xyz : xyzFromLab(asDaylight, whiteOf('D65', observer)) }
      : {}),
    under: lamp && basis !== 'srgb-estimate' ? [{ lamp, lab, xyz, screen }] : [],
    screen,
    screenApproximate,
    family: familyOf(asDaylight),
    ...(scatter ? { scatter } : {}),
    moves: [],
    notes: notesOnLab(illuminant, observer, basis),
  };
}

/** Colour of a sample from XYZ (Y = 100 for white) under the lamp and for the observer it was read for. */
export const colourFromXyz = (xyzs: readonly Triple[], illuminant: Illuminant, observer: Observer): SampleColour =>
  colourFromLab(
    xyzs.map((xyz) => labFromXyz(xyz, whiteOf(illuminant, observer))),
    illuminant,
    observer,
    'xyz',
  );

/** Colour of a sample from an sRGB reading, `#rrggbb`: a rough estimate. */
export function colourFromSrgb(text: string): AnyOutcome<SampleColour> {
  const xyz = xyzFromSrgb(text);
  return xyz.ok ? good(colourFromLab([labFromXyz(xyz.value, whiteOf('D65', 2))], 'D65', 2, 'srgb-estimate')) : xyz;
}

/** The colour of a sample in a photograph with a chart; plain data. */
export interface PhotographedColour {
  /** Daylight (D65), 2° observer. */
  readonly lab: Triple;
  readonly uncertainty: { readonly de00: number; readonly method: string };
  /** What was asked of the same photograph by the same chart is told by the same key. */
  readonly picture: string;
  /** The sample's area as written. */
  readonly area: string;
  /** What the difference from other samples of the photograph may be off by, CIEDE2000, by their areas. */
  readonly differences: Readonly<Record<string, number>>;
  readonly notes: readonly string[];
}

/** Colour of a sample read from a photograph with a chart: in daylight only, under no other lamp. */
export function colourFromPhotograph(read: PhotographedColour): SampleColour {
  const { lab, uncertainty, notes } = read;
  return {
    basis: 'photograph',
    observer: 2,
    lab,
    xyz: xyzFromLab(lab, whiteOf('D65', 2)),
    approximate: true,
    given: { lab, illuminant: 'D65', observer: 2 },
    under: [],
    screen: screenFromLab65(lab),
    screenApproximate: true,
    family: familyOf(lab),
    uncertainty,
    photograph: read,
    moves: [],
    notes: [`Read from a photograph: ± ΔE00 ${uncertainty.de00.toFixed(1)} (${uncertainty.method}).`, ...notes],
  };
}

/** Two samples set side by side. */
export interface Difference {
  readonly de00: number;
  readonly de76: number;
  /** Of the second less the first, Lab. */
  readonly delta: Triple;
  /** The same in lightness, chroma and hue. */
  readonly lch: LchDifference;
  /** Where the second lies from the first: `darker and redder`; empty for no difference. */
  readonly direction: string;
  readonly illuminant: Illuminant;
  readonly observer: Observer;
  readonly repeatability?: number;
  /** What may hide the difference. */
  readonly doubt: Doubt;
  readonly verdict: Verdict;
  readonly approximate: boolean;
  readonly perLamp?: readonly { readonly lamp: Lamp; readonly de00: number }[];
  /** Special metamerism index, change in illuminant; additive correction in Lab. */
  readonly metamerism?: readonly { readonly lamp: Lamp; readonly index00: number; readonly index76: number }[];
  /** Alike under one lamp, different under `lamp`. */
  readonly metameric?: { readonly lamp: Lamp; readonly alikeUnder: Lamp; readonly sentence: string };
}

/** A spectrum's colour under an illuminant: as already reckoned for its observer, or anew. */
function spectrumUnder(
  colour: SampleColour,
  values: Float64Array,
  illuminant: Illuminant,
  observer: Observer,
): { readonly xyz: Triple; readonly lab: Triple } {
  const known = colour.observer === observer ? colour.under.find(({ lamp }) => lamp === illuminant) : undefined;
  if (known) return known;
  const xyz = xyzFromTableValues(values, illuminant, observer);
  return { xyz, lab: labFromXyz(xyz, whiteOf(illuminant, observer)) };
}

function labUnder(colour: SampleColour, illuminant: Illuminant, observer: Observer): Triple | undefined {
  if (colour.tableValues) return spectrumUnder(colour, colour.tableValues, illuminant, observer).lab;
  return colour.given && colour.given.illuminant === illuminant && colour.given.observer === observer
    ? colour.given.lab
    : undefined;
}

/** Two Lab that may be set beside each other, and for which conditions they are. */
interface Comparable {
  readonly a: Triple;
  readonly b: Triple;
  readonly illuminant: Illuminant;
  readonly observer: Observer;
  readonly approximate: boolean;
}

const conditionsOf = ({ given }: SampleColour): string =>
  given ? `${given.illuminant}/${given.observer}°` : 'a spectrum';

/** Under conditions that both were read for; else both in daylight, if it is known of both for the same observer. */
function comparable(first: SampleColour, second: SampleColour): Outcome<Comparable> {
  const conditions = first.given ?? second.given;
  const illuminant: Illuminant = conditions?.illuminant ?? 'D65';
  const observer: Observer = conditions?.observer ?? first.observer;
  const [a, b] = [labUnder(first, illuminant, observer), labUnder(second, illuminant, observer)];
  const estimated = roughly(first) || roughly(second);
  if (a && b) return good({ a, b, illuminant, observer, approximate: estimated });
  if (first.observer === second.observer && first.lab && second.lab)
    return good({ a: first.lab, b: second.lab, illuminant: 'D65', observer: first.observer, approximate: true });
  return bad({
    code: 'colours-not-comparable',
    message:
      `One colour was read for ${conditionsOf(first)}, the other for ${conditionsOf(second)}; Lab values of ` +
      'different conditions cannot be compared.',
    cure: 'Give both for the same illuminant and observer, or as spectra.',
  });
}

/** Difference and metamerism under each lamp, of two spectra. */
function differencesUnderLamps(
  first: SampleColour,
  second: SampleColour,
  observer: Observer,
): Pick<Difference, 'perLamp' | 'metamerism' | 'metameric'> {
  const [one, other] = [first.tableValues, second.tableValues];
  if (!one || !other) return {};
  const both = lamps.map((lamp): UnderLamp => {
    const [a, b] = [spectrumUnder(first, one, lamp, observer), spectrumUnder(second, other, lamp, observer)];
    return { lamp, a, b, de00: deltaE00(a.lab, b.lab) };
  });
  const perLamp = both.map(({ lamp, de00 }) => ({ lamp, de00 }));
  const index = (reference: UnderLamp, test: UnderLamp, formula: (x: Triple, y: Triple) => number): number =>
    metamerismIndex(
      { reference: reference.a, test: test.a },
      { reference: reference.b, test: test.b },
      'additive-lab',
      formula,
      whiteOf(test.lamp, observer),
    );
  const daylight = both[0]!;
  const metamerism = both.slice(1).map((test) => ({
    lamp: test.lamp,
    index00: index(daylight, test, deltaE00),
    index76: index(daylight, test, deltaE76),
  }));
  const metameric = metamericUnder(both, (reference, test) => index(reference, test, deltaE00));
  return { perLamp, metamerism, ...(metameric ? { metameric } : {}) };
}

/** Two samples under one lamp. */
interface UnderLamp {
  readonly lamp: Lamp;
  readonly a: { readonly xyz: Triple; readonly lab: Triple };
  readonly b: { readonly xyz: Triple; readonly lab: Triple };
  readonly de00: number;
}

/**
 * Metameric: on one side of a limit under a lamp, on the other under another lamp, and not merely by the mismatch that
 * is there already. Daylight is looked at first; of all such pairs of lamps the one with the largest index is told.
 */
function metamericUnder(
  both: readonly UnderLamp[],
  index: (reference: UnderLamp, test: UnderLamp) => number,
): Difference['metameric'] {
  const limits = [thresholdOf('visible-side-by-side'), thresholdOf('called-the-same')];
  const found = both.map((alike) =>
    both
      .filter(({ de00 }) => limits.some((limit) => alike.de00 < limit && de00 >= limit))
      .map((other) => ({ alike, other, index: index(alike, other) }))
      .filter((one) => limits.some((limit) => one.alike.de00 < limit && Math.min(one.other.de00, one.index) >= limit))
      .sort((x, y) => y.index - x.index),
  );
  const [worst] = found[0]!.length > 0 ? found[0]! : found.flat().sort((x, y) => y.index - x.index);
  if (!worst) return undefined;
  const { alike, other } = worst;
  const same = alike.de00 < limits[0]! ? 'the same' : 'nearly the same';
  const where = alike.lamp === 'D65' ? 'in daylight' : `under ${underNames[alike.lamp]}`;
  return {
    lamp: other.lamp,
    alikeUnder: alike.lamp,
    sentence:
      `A metameric pair: ${same} ${where} (ΔE00 ${alike.de00.toFixed(2)}), different under ` +
      `${underNames[other.lamp]} (ΔE00 ${other.de00.toFixed(2)}).`,
  };
}

/** What the difference of two colours may be off by, where one is from a photograph: less, where both are of one. */
function uncertaintyBetween(first: SampleColour, second: SampleColour): number | undefined {
  const [one, other] = [first.photograph, second.photograph];
  const together = one && other && one.picture === other.picture ? one.differences[other.area] : undefined;
  if (together !== undefined) return together;
  if (!first.uncertainty && !second.uncertainty) return undefined;
  return Math.hypot(first.uncertainty?.de00 ?? 0, second.uncertainty?.de00 ?? 0);
}

/** A colour from a photograph or scan without a chart: nothing can be told from it about a difference. */
const roughly = ({ basis }: SampleColour): boolean => basis === 'srgb-estimate';

/** What to call the two colours that are compared. */
export type ComparedNames = readonly [first: string, second: string];

/** What single drawdowns leave open, and of which of the two. */
function drawdownCaveat(first: SampleColour, second: SampleColour, names: ComparedNames): string | undefined {
  const single = [first, second].map(({ drawdowns = 1 }) => drawdowns < 2);
  if (single[0] && single[1]) return oneDrawdownOf();
  if (!single[0] && !single[1]) return undefined;
  return oneDrawdownOf(single[0] ? names[0] : names[1]);
}

/** The verdict, with what single drawdowns leave open. */
function verdictOn(
  de00: number,
  doubt: Doubt,
  [first, second]: readonly [SampleColour, SampleColour],
  names: ComparedNames,
): Verdict {
  if (roughly(first) || roughly(second)) return noVerdict(de00);
  const caveat = drawdownCaveat(first, second, names);
  return { ...verdict(de00, doubt), ...(caveat !== undefined && { caveat }) };
}

/** Of two single readings, the coarser of the two instruments' usual repeatabilities. */
function usualOf(first: SampleColour, second: SampleColour): number | undefined {
  const [one, other] = [usualRepeatability(first.basis), usualRepeatability(second.basis)];
  return one === undefined || other === undefined ? undefined : Math.max(one, other);
}

/**
 * The difference between two samples, under conditions that both were read for (daylight where there is a choice).
 * @param names what to call them where something is said of one of them
 * @returns the difference, or why the two cannot be compared
 */
export function compare(
  first: SampleColour,
  second: SampleColour,
  names: ComparedNames = ['the first', 'the second'],
): Outcome<Difference> {
  const conditions = comparable(first, second);
  if (!conditions.ok) return conditions;
  const { a, b, illuminant, observer, approximate } = conditions.value;
  const de00 = deltaE00(a, b);
  const repeatability = scatterOfDifference(first.scatter, second.scatter);
  const uncertainty = uncertaintyBetween(first, second);
  const doubt: Doubt = { repeatability, usual: usualOf(first, second), uncertainty };
  return good({
    de00,
    de76: deltaE76(a, b),
    delta: [b[0] - a[0], b[1] - a[1], b[2] - a[2]],
    lch: lchDifference(a, b),
    direction: inWords(directions(a, b, 0, de00)),
    illuminant,
    observer,
    ...(repeatability === undefined ? {} : { repeatability }),
    doubt,
    verdict: verdictOn(de00, doubt, [first, second], names),
    approximate,
    ...differencesUnderLamps(first, second, observer),
  });
}
