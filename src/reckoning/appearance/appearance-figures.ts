// Colours as the pages show them: rounded, plain, with the lamps' names.
import {
  labFromXyz,
  lampNames,
  lchFromLab,
  screenFromXyz,
  atTableWavelengths,
  ladderShares,
  standardWhite,
  tintsFromMeasured,
  standardWhiteName,
  tintLadder,
  whiteOf,
  xyzFromTableValues,
  type Difference,
  type SampleColour,
  type Spectrum,
} from '../../colour/index.js';
import type {
  ColourDifference,
  CurvePoint,
  LampMove,
  SampleAppearance,
  Swatch,
  Tint,
  TintLadder,
  Triple,
  UnderLamp,
} from './appearance-contracts.js';

export const round = (value: number, places: number): number => {
  const scale = 10 ** places;
  const rounded = Math.round(value * scale) / scale;
  return rounded === 0 ? 0 : rounded;
};
export const roundAll = (triple: Triple, places = 3): Triple => [
  round(triple[0], places),
  round(triple[1], places),
  round(triple[2], places),
];

const screenOf = ({ screen, screenApproximate }: SampleColour, shown = screen): Swatch => ({
  hex: shown.hex,
  mapped: shown.mapped,
  ...(screenApproximate && { approximate: true }),
});

export const swatchOf = (colour: SampleColour): Swatch => screenOf(colour);

export const underLamps = (colour: SampleColour): UnderLamp[] =>
  colour.under.map(({ lamp, lab, xyz, screen }) => ({
    lamp,
    name: lampNames[lamp],
    lab: roundAll(lab),
    xyz: roundAll(xyz),
    swatch: screenOf(colour, screen),
  }));

export const curveOf = ({ spectrum }: SampleColour): CurvePoint[] | undefined =>
  spectrum?.wavelengths.map((nm, i) => ({ nm, r: round(spectrum.reflectance[i]!, 5) }));

/** Lab and LCh, where they are known in daylight. */
export const labAndLch = ({ lab }: SampleColour): Pick<SampleAppearance, 'lab' | 'lch'> =>
  lab ? { lab: roundAll(lab), lch: roundAll(lchFromLab(lab)) } : {};

export const movesOf = (colour: SampleColour): LampMove[] =>
  colour.moves.map(({ lamp, de00, adapted, directions, text }) => ({
    lamp,
    name: lampNames[lamp],
    de00: round(de00, 4),
    lab: roundAll(adapted),
    directions,
    text,
    transform: 'CAT16',
  }));

export const differenceOf = (found: Difference): ColourDifference => ({
  de00: round(found.de00, 4),
  delta: roundAll(found.delta),
  dC: round(found.lch.dC, 3),
  dH: round(found.lch.dH, 3),
  direction: found.direction,
  under: `${found.illuminant}/${found.observer}°`,
  ...(found.repeatability !== undefined && { repeatability: round(found.repeatability, 4) }),
  ...(found.doubt.uncertainty !== undefined && { uncertainty: round(found.doubt.uncertainty, 3) }),
  verdict: found.verdict,
  ...(found.perLamp && {
    perLamp: found.perLamp.map(({ lamp, de00 }) => ({ lamp, name: lampNames[lamp], de00: round(de00, 4) })),
  }),
  ...(found.metamerism && {
    metamerism: found.metamerism.map(({ lamp, index00, index76 }) => ({
      lamp,
      name: lampNames[lamp],
      index00: round(index00, 4),
      index76: round(index76, 4),
    })),
  }),
  ...(found.metameric && { metameric: found.metameric }),
  ...(found.approximate && { approximate: true }),
});

/** The white of a tint ladder that the entry names. */
export interface NamedWhite {
  readonly name: string;
  readonly spectrum: Spectrum;
}

function tintOf(colour: SampleColour, share: number, reflectance: Float64Array): Tint {
  if (share === 1) return { share, lab: roundAll(colour.lab!), hex: colour.screen.hex, mapped: colour.screen.mapped };
  const { observer } = colour;
  const lab = labFromXyz(xyzFromTableValues(reflectance, 'D65', observer), whiteOf('D65', observer));
  const screen = screenFromXyz(xyzFromTableValues(reflectance, 'D65', 2), whiteOf('D65', 2));
  return { share, lab: roundAll(lab), hex: screen.hex, mapped: screen.mapped };
}

/** A tint that was read. */
export interface NamedTint {
  readonly share: number;
  readonly spectrum: Spectrum;
}

const perStep = (shares: readonly number[]): number[] => [...new Set(shares)].sort((a, b) => b - a);

/** A ladder through the tints that were read; the masstone counts as one where there is another. */
function measuredLadder(
  colour: SampleColour,
  spectrum: Spectrum,
  white: Spectrum,
  tints: readonly NamedTint[],
): { readonly steps: readonly Tint[]; readonly note: string } {
  const read = tints.map((tint) => ({ share: tint.share, reflectance: atTableWavelengths(tint.spectrum) }));
  const between = tintsFromMeasured(atTableWavelengths(white), read);
  const steps = perStep([...ladderShares, ...read.map(({ share }) => share)]).map((share): Tint => {
    const own = share === 1 ? atTableWavelengths(spectrum) : read.find((tint) => tint.share === share)?.reflectance;
    return { ...tintOf(colour, share, own ?? between(share)), ...(own && { measured: true }) };
  });
  const constants = read.length > 1 ? 'two constants' : 'one constant';
  const tintsRead = read.length === 1 ? 'the tint' : `the ${read.length} tints`;
  return {
    steps,
    note:
      `Fitted to ${tintsRead} that ${read.length === 1 ? 'was' : 'were'} read, by ` +
      `Kubelka–Munk with ${constants}; the other tints are computed.`,
  };
}

export function ladderOf(
  colour: SampleColour,
  given: NamedWhite | undefined,
  tints: readonly NamedTint[],
): TintLadder | undefined {
  const { spectrum } = colour;
  if (!spectrum) return undefined;
  const white = given?.spectrum ?? standardWhite();
  const shared = {
    computed: true as const,
    white: given?.name ?? `standard white (${standardWhiteName})`,
    whiteGiven: given !== undefined,
  };
  if (tints.length > 0) return { ...shared, ...measuredLadder(colour, spectrum, white, tints) };
  return {
    ...shared,
    steps: tintLadder(spectrum, white).map(({ share, reflectance }) => tintOf(colour, share, reflectance)),
    note:
      'Computed from the masstone by Kubelka–Munk with one constant, ' +
      'not measured: real tints may differ by ΔE00 5 to 30.',
  };
}
