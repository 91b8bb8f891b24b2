// Colours that entries take from photographs: every photograph is opened once, all its samples are read together.
import { join } from 'node:path';
import {
  chartFromFile,
  coloursFromPhotograph,
  cornersFrom,
  chartByName,
  gridFrom,
  pictureKey,
  requestKey,
  sampleFrom,
  uncertaintyOfDifference,
  usualGrid,
  type Chart,
  type PhotographColours,
  type PhotographRequest,
  type SampleArea,
} from '../colour/photograph/index.js';
import type { PhotographedColour } from '../colour/index.js';
import { bad, good, type Outcome } from '../outcome.js';
import { openPicture } from './pixels.js';

/** Where the files that requests name are found. */
export interface PhotographFiles {
  /** The journal's folder. */
  readonly folder: string;
  /** Whether a photograph below it may be opened. */
  readonly has: (photo: string) => boolean;
  /** Text of a chart's file below it. */
  readonly text: (chart: string) => string | undefined;
}

export type PhotographOutcomes = ReadonlyMap<string, Outcome<PhotographedColour>>;

function chartOf({ chart, grid }: PhotographRequest, files: PhotographFiles): Outcome<Chart> {
  const patches = gridFrom(grid ?? usualGrid);
  if (!patches)
    return bad({ code: 'grid', message: `'${grid?.slice(0, 20)}' is no grid.`, cure: 'Write columns x rows: 6x4.' });
  const named = chartByName(chart, patches);
  if (named) return named;
  const text = files.text(chart);
  if (text !== undefined) return chartFromFile(chart, text, patches);
  return bad({
    code: 'no-such-chart',
    message: `The chart '${chart.slice(0, 60)}' is not known.`,
    cure: 'Write classic-24, classic-24-2014, or a file below the journal.',
  });
}

/** Areas of the samples in a photograph, by their text. */
function areasOf(requests: readonly PhotographRequest[]): Outcome<SampleArea[]> {
  const areas: SampleArea[] = [];
  for (const { sample } of requests) {
    const area = sampleFrom(sample, sample);
    if (!area)
      return bad({
        code: 'sample-area',
        message: `'${sample.slice(0, 40)}' is no area of a photograph.`,
        cure: 'Write x,y,width,height in pixels: 700,120,60,60.',
      });
    areas.push({ ...area, name: sample });
  }
  return good(areas);
}

/**
 * All samples that are asked for of one photograph by one chart.
 * @param requests of one `pictureKey`
 */
export async function readTogether(
  requests: readonly PhotographRequest[],
  files: PhotographFiles,
): Promise<Outcome<PhotographColours>> {
  const [first] = requests;
  const corners = cornersFrom(first!.corners);
  if (!corners)
    return bad({
      code: 'corners-shape',
      message: `'${first!.corners.slice(0, 60)}' are not four points.`,
      cure: 'Write the centres of the four corner patches: 120,80 620,95 610,430 110,420.',
    });
  const chart = chartOf(first!, files);
  if (!chart.ok) return chart;
  const areas = areasOf(requests);
  if (!areas.ok) return areas;
  const picture = await openPicture(join(files.folder, first!.photo));
  return picture.ok ? coloursFromPhotograph(picture.value, chart.value, corners, areas.value) : picture;
}

/** One sample of what was read together, as plain data. */
function colourAt(read: PhotographColours, index: number, picture: string): PhotographedColour {
  const sample = read.samples[index]!;
  const differences = read.samples.flatMap((other, i) =>
    i === index ? [] : [[other.name, uncertaintyOfDifference(read, sample, other)] as const],
  );
  return {
    lab: sample.lab,
    uncertainty: { de00: sample.uncertainty, method: read.uncertainty.method },
    picture,
    area: sample.name,
    differences: Object.fromEntries(differences),
    notes: read.notes,
  };
}

/**
 * Reads the colours that entries take from photographs; each answer by the key of its request. Photographs that are not
 * there have no answer.
 */
export async function readPhotographs(
  requests: readonly PhotographRequest[],
  files: PhotographFiles,
): Promise<PhotographOutcomes> {
  const pictures = new Map<string, PhotographRequest[]>();
  for (const request of requests) {
    if (!files.has(request.photo)) continue;
    const key = pictureKey(request);
    const together = pictures.get(key) ?? [];
    if (!together.some(({ sample }) => sample === request.sample)) together.push(request);
    pictures.set(key, together);
  }
  const answers = new Map<string, Outcome<PhotographedColour>>();
  for (const [key, together] of pictures) {
    const read = await readTogether(together, files);
    together.forEach((request, i) =>
      answers.set(requestKey(request), read.ok ? good(colourAt(read.value, i, key)) : read),
    );
  }
  return answers;
}
