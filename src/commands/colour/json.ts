// The answer of `masstone colour --json`.
import {
  deltaE76,
  deltaECmc,
  firstDerivative,
  kubelkaMunkCurve,
  lchFromLab,
  thresholds,
  withinTolerance,
  type CurveValue,
  type Difference,
  type Move,
  type SampleColour,
  type TintingStrength,
  type Transform,
  type Triple,
} from '../../colour/index.js';
import type { ColourRead, FileFault } from './read.js';

const rounded = (value: number, places: number): number => {
  const scale = 10 ** places;
  return Math.round(value * scale) / scale + 0;
};
const four = (value: number): number => rounded(value, 4);
const triple = (values: Triple): number[] => values.map(four);

const moveAsJson = ({ de00, reference, adapted, directions, text }: Move) => ({
  de00: four(de00),
  deCmc: four(deltaECmc(reference, adapted)),
  de76: four(deltaE76(reference, adapted)),
  lab: triple(adapted),
  directions,
  text,
});

function inconstancyAsJson({ moves }: SampleColour, transform: Transform): object {
  const toLamplight = moves.find(({ lamp }) => lamp === 'A');
  if (!toLamplight)
    return { known: false, reason: 'How a colour moves between lamps cannot be known without a spectrum.' };
  return {
    known: true,
    transform,
    reference: 'D65',
    test: 'A',
    ...moveAsJson(toLamplight),
    ...Object.fromEntries(moves.map((move) => [move.lamp, moveAsJson(move)])),
  };
}

const repeatabilityAsJson = ({ scatter }: SampleColour): object =>
  scatter
    ? {
        repeatability: { readings: scatter.readings, mean: four(scatter.mean), largest: four(scatter.largest) },
      }
    : {};

/** `within` is null where it cannot be told. */
function toleranceAsJson({ de00, doubt }: Difference, tolerance: number): object {
  const { within, sentence } = withinTolerance(de00, tolerance, doubt);
  return { de00: tolerance, within: within ?? null, sentence };
}

function differenceAsJson(difference: Difference, tolerance: number | undefined): object {
  const { verdict, lch, direction, repeatability, perLamp, metamerism, metameric, approximate } = difference;
  return {
    de00: rounded(difference.de00, 6),
    de76: rounded(difference.de76, 6),
    delta: triple(difference.delta),
    dL: four(lch.dL),
    dC: four(lch.dC),
    dH: four(lch.dH),
    direction,
    under: `${difference.illuminant}/${difference.observer}°`,
    verdict: verdict.words,
    code: verdict.code,
    sentence: verdict.sentence,
    ...(verdict.caveat ? { caveat: verdict.caveat } : {}),
    source: verdict.source,
    thresholds: thresholds().map(({ code, de00, kind, field, source }) => ({ code, de00, kind, field, source })),
    ...(repeatability === undefined ? {} : { repeatability: four(repeatability) }),
    ...(perLamp ? { perLamp: Object.fromEntries(perLamp.map(({ lamp, de00 }) => [lamp, four(de00)])) } : {}),
    ...(metamerism
      ? {
          metamerism: Object.fromEntries(
            metamerism.map(({ lamp, index00, index76 }) => [lamp, { index00: four(index00), index76: four(index76) }]),
          ),
        }
      : {}),
    ...(metameric ? { metameric: metameric.sentence } : {}),
    ...(approximate ? { approximate: true } : {}),
    ...(tolerance === undefined ? {} : { tolerance: toleranceAsJson(difference, tolerance) }),
  };
}

/** What was asked besides the colours. */
export interface ColourOptions {
  readonly transform: Transform;
  readonly tolerance: number | undefined;
  readonly curves: boolean;
  readonly tintingStrength: TintingStrength | undefined;
}

const pairsOf = (curve: readonly CurveValue[], places: number): number[][] =>
  curve.map(({ nm, value }) => [rounded(nm, 2), rounded(value, places)]);

const curvesAsJson = ({ spectrum }: SampleColour): object =>
  spectrum
    ? { curves: { ks: pairsOf(kubelkaMunkCurve(spectrum), 5), derivative: pairsOf(firstDerivative(spectrum), 6) } }
    : {};

/** One colour, and its difference from another, as plain data. */
export function colourAsJson(
  { colour, format, notes }: ColourRead,
  other: ColourRead | undefined,
  difference: Difference | undefined,
  { transform, tolerance, curves, tintingStrength }: ColourOptions,
): object {
  const perLamp = (of: (under: SampleColour['under'][number]) => Triple): Record<string, number[]> =>
    Object.fromEntries(colour.under.map((under) => [under.lamp, triple(of(under))]));
  const { given, screen } = colour;
  return {
    lab: {
      ...perLamp(({ lab }) => lab),
      ...(given ? { [given.illuminant]: triple(given.lab) } : {}),
    },
    xyz: perLamp(({ xyz }) => xyz),
    lch: perLamp(({ lab }) => lchFromLab(lab)),
    family: colour.family,
    observer: colour.observer,
    basis: colour.basis,
    format,
    swatch: { hex: screen.hex, mapped: screen.mapped, approximate: colour.screenApproximate },
    inconstancy: inconstancyAsJson(colour, transform),
    ...repeatabilityAsJson(colour),
    notes: [...notes, ...colour.notes, ...(other ? other.notes.map((note) => `${other.name}: ${note}`) : [])],
    ...(difference ? { difference: differenceAsJson(difference, tolerance) } : {}),
    ...(curves ? curvesAsJson(colour) : {}),
    ...(tintingStrength
      ? {
          tintingStrength: {
            ...tintingStrength,
            percent: rounded(tintingStrength.percent, 2),
            byLightness: rounded(tintingStrength.byLightness, 2),
          },
        }
      : {}),
  };
}

/** Why there is no answer, as plain data. */
export const faultAsJson = ({ code, message, file, line, column, cure }: FileFault): object => ({
  error: {
    code,
    message,
    ...(file ? { file } : {}),
    ...(line === undefined ? {} : { line }),
    ...(column === undefined ? {} : { column }),
    ...(cure ? { cure } : {}),
  },
});
