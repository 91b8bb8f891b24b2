// `masstone colour PHOTO --chart …`: colours of samples in a photograph that shows a chart, with what they may be off
// by.
import { readFile } from 'node:fs/promises';
import {
  decodeText,
  deltaE00,
  familyOf,
  screenFromLab65,
  verdict,
  type Illuminant,
  type Triple,
  type Verdict,
} from '../../colour/index.js';
import {
  chartFromFile,
  chartNames,
  cornersFrom,
  coloursByGreyCard,
  coloursFromPhotograph,
  differenceInPhotograph,
  chartByName,
  gridFrom,
  sampleFrom,
  usualGrid,
  type Chart,
  type Grid,
  type PhotographColours,
  type RoughColours,
  type SampleArea,
} from '../../colour/photograph/index.js';
import type { Outcome } from '../../outcome.js';
import { openPicture } from '../../pictures/pixels.js';
import { WrongUse } from '../command.js';

/** What the options say of a photograph. */
export interface PhotographOptions {
  readonly chart: string;
  readonly corners: string | undefined;
  readonly samples: readonly string[];
  readonly grid: string | undefined;
  readonly illuminant: Illuminant | undefined;
}

async function chartOf({ chart, illuminant }: PhotographOptions, grid: Grid): Promise<Outcome<Chart>> {
  const named = chartByName(chart, grid);
  if (named) return named;
  let text: string;
  try {
    text = decodeText(await readFile(chart));
  } catch {
    return {
      ok: false,
      fault: {
        code: 'no-such-chart',
        message: `There is no chart file ${chart}.`,
        expected: `a file, or ${chartNames.join(' or ')}`,
        cure: chartCure(chart),
      },
    };
  }
  return chartFromFile(chart, text, grid, illuminant);
}

/** `classic24` for classic-24; what is no file's name may be meant for a name. */
function chartCure(chart: string): string {
  const plain = (name: string): string => name.toLowerCase().replace(/[^a-z\d]/g, '');
  const meant = chartNames.find((name) => plain(name) === plain(chart));
  if (meant !== undefined) return `Did you mean ${meant}?`;
  const isPath = /[./\\]/.test(chart);
  return isPath ? 'Check the path.' : `Check the path, or name a chart: ${chartNames.join(' or ')}.`;
}

/** Reads the samples of a photograph. Wrong options throw `WrongUse`. */
export async function readPhotograph(path: string, options: PhotographOptions): Promise<Outcome<PhotographColours>> {
  const corners = cornersFrom(options.corners ?? '');
  if (!corners)
    throw new WrongUse(
      '--corners takes the centres of the four corner patches: --corners "120,80 620,95 610,430 110,420".',
    );
  const areas = areasFrom(options.samples, '--chart');
  const grid = gridFrom(options.grid ?? usualGrid);
  if (!grid) throw new WrongUse(`--grid is columns x rows, such as 6x4, not ${options.grid}.`);
  const chart = await chartOf(options, grid);
  if (!chart.ok) return chart;
  const picture = await openPicture(path);
  return picture.ok ? coloursFromPhotograph(picture.value, chart.value, corners, areas) : picture;
}

/** Roughly, by a grey card. */
export async function readByGreyCard(
  path: string,
  grey: string,
  samples: readonly string[],
): Promise<Outcome<RoughColours>> {
  const card = sampleFrom(grey, 'grey');
  if (!card) throw new WrongUse(`--grey takes the card's x,y,width,height in pixels, not ${grey}.`);
  const areas = areasFrom(samples, '--grey');
  const picture = await openPicture(path);
  return picture.ok ? coloursByGreyCard(picture.value, card, usualGrey, areas) : picture;
}

/** Reflectance of the usual grey card. Common practice, no source. */
const usualGrey = 0.18;

function areasFrom(samples: readonly string[], option: string): SampleArea[] {
  if (samples.length === 0) throw new WrongUse(`${option} needs a --sample "x,y,width,height" in the photograph.`);
  return samples.map((text, i) => {
    const area = sampleFrom(text, String.fromCharCode(65 + (i % 26)));
    if (!area) throw new WrongUse(`--sample takes x,y,width,height in pixels, not ${text}.`);
    return area;
  });
}

/** The rough answer as plain data: no measurement, no verdict. */
export const roughAsJson = ({ samples, cast, notes }: RoughColours): object => ({
  basis: 'rough estimate',
  lab: { D65: triple(samples[0]!.lab) },
  cast: cast.map((value) => rounded(value, 3)),
  samples: samples.map(({ name, lab }) => ({ name, lab: { D65: triple(lab) } })),
  notes,
});

/** The rough answer in words. */
export const roughAsText = (path: string, { samples, cast, notes }: RoughColours): string =>
  [
    `${path}: rough estimate by a grey card`,
    `Cast (red, green, blue over their mean): ${cast.map((value) => value.toFixed(2)).join(', ')}`,
    ...samples.map(
      ({ name, lab: [l, a, b] }) =>
        `${name}  L* about ${l.toFixed(0)}  (a* ${a.toFixed(0)}  b* ${b.toFixed(0)}, the camera’s own)`,
    ),
    ...notes.map((note) => `Note: ${note}`),
    '',
  ].join('\n');

/** The difference that is told: of the first sample from another colour, or of the first from the second. */
export interface ToldDifference {
  readonly of: string;
  readonly from: string;
  readonly de00: number;
  readonly delta: Triple;
  readonly uncertainty: number;
  readonly verdict: Verdict;
}

/** The first sample set beside another colour in daylight, 2°. */
export function differenceFromColour(
  read: PhotographColours,
  other: { readonly name: string; readonly lab: Triple },
): ToldDifference {
  const first = read.samples[0]!;
  const de00 = deltaE00(other.lab, first.lab);
  const { uncertainty } = first;
  return {
    of: first.name,
    from: other.name,
    de00,
    delta: [first.lab[0] - other.lab[0], first.lab[1] - other.lab[1], first.lab[2] - other.lab[2]],
    uncertainty,
    verdict: verdict(de00, { uncertainty }),
  };
}

/** The first sample less the second. */
export function differenceOfFirstTwo(read: PhotographColours): ToldDifference | undefined {
  const [first, second] = read.samples;
  if (!first || !second) return undefined;
  return { of: first.name, from: second.name, ...differenceInPhotograph(read, second, first) };
}

const rounded = (value: number, places: number): number => Math.round(value * 10 ** places) / 10 ** places + 0;
const triple = (values: Triple): number[] => values.map((value) => rounded(value, 2));

/** The answer as plain data. */
export function photographAsJson(read: PhotographColours, difference: ToldDifference | undefined): object {
  const [first] = read.samples;
  return {
    basis: 'photograph',
    lab: { D65: triple(first!.lab) },
    observer: 2,
    family: familyOf(first!.lab),
    uncertainty: { de00: rounded(first!.uncertainty, 2), method: read.uncertainty.method },
    chart: {
      name: read.chart.name,
      patches: read.chart.patches,
      rejected: read.chart.rejected,
      fit: read.chart.fit,
      mean: rounded(read.chart.mean, 3),
      max: rounded(read.chart.max, 3),
    },
    samples: read.samples.map(({ name, lab, uncertainty }) => {
      const { hex, mapped } = screenFromLab65(lab);
      return {
        name,
        lab: { D65: triple(lab) },
        uncertainty: { de00: rounded(uncertainty, 2) },
        family: familyOf(lab),
        swatch: { hex, mapped, approximate: true },
      };
    }),
    ...(difference
      ? {
          difference: {
            of: difference.of,
            from: difference.from,
            de00: rounded(difference.de00, 3),
            delta: triple(difference.delta),
            under: 'D65/2°',
            uncertainty: { de00: rounded(difference.uncertainty, 2) },
            verdict: difference.verdict.words,
            code: difference.verdict.code,
            sentence: difference.verdict.sentence,
            source: difference.verdict.source,
          },
        }
      : {}),
    notes: read.notes,
  };
}

/** The answer in words. */
export function photographAsText(
  path: string,
  read: PhotographColours,
  difference: ToldDifference | undefined,
): string {
  const { chart, uncertainty, samples, notes } = read;
  const lines = [
    `${path}: photograph with ${chart.name}; daylight (D65), 2° observer`,
    `Chart: ${chart.patches} patches, fit ${chart.fit}, off by ΔE00 ${chart.mean.toFixed(2)} on average, ` +
      `${chart.max.toFixed(2)} at most.`,
    `Stated uncertainty: ${uncertainty.method}.`,
    '',
    ...samples.map(
      ({ name, lab, uncertainty: own }) =>
        `${name}  L* ${lab[0].toFixed(1)}  a* ${lab[1].toFixed(1)}  b* ${lab[2].toFixed(1)}  ± ΔE00 ` +
        `${own.toFixed(1)}  ${familyOf(lab)} (from a photograph)`,
    ),
    ...(difference
      ? [
          '',
          `${difference.of} from ${difference.from}: ΔE00 ${difference.de00.toFixed(1)} ± ` +
            `${difference.uncertainty.toFixed(1)}.`,
          `  ${difference.verdict.sentence}`,
        ]
      : []),
    '',
    ...notes.map((note) => `Note: ${note}`),
  ];
  return `${lines.join('\n')}\n`;
}
