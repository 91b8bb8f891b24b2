// What is asked of a photograph, as a maker writes it: corners, grid, samples.
import type { Corners, Grid } from './geometry.js';
import type { Point } from './picture.js';
import type { SampleArea } from './colours.js';

const number = String.raw`[+-]?\d+(?:\.\d+)?`;

/**
 * Four points in pixels.
 * @example cornersFrom('120,80 620,95 610,430 110,420')?.[0] // { x: 120, y: 80 }
 */
export function cornersFrom(text: string): Corners | undefined {
  const points = text
    .trim()
    .split(/\s+/)
    .map((pair): Point | undefined => {
      const found = new RegExp(`^(${number}),(${number})$`).exec(pair);
      return found ? { x: Number(found[1]), y: Number(found[2]) } : undefined;
    });
  const [a, b, c, d] = points;
  return points.length === 4 && a && b && c && d ? [a, b, c, d] : undefined;
}

/**
 * An area in pixels: `x,y,width,height`, with a name before it or none.
 * @example sampleFrom('A=700,120,60,60', 'first')?.name // 'A'
 */
export function sampleFrom(text: string, name: string): SampleArea | undefined {
  const found = new RegExp(`^(?:([^=,]+)=)?(${number}),(${number}),(${number}),(${number})$`).exec(text.trim());
  if (!found) return undefined;
  const [x, y, width, height] = found.slice(2).map(Number);
  return { name: found[1]?.trim() ?? name, x: x!, y: y!, width: width!, height: height! };
}

/**
 * Patches across and down.
 * @example gridFrom('6x4') // { columns: 6, rows: 4 }
 */
export function gridFrom(text: string): Grid | undefined {
  const found = /^(\d{1,2})\s*[x×]\s*(\d{1,2})$/i.exec(text.trim());
  const [columns, rows] = [Number(found?.[1]), Number(found?.[2])];
  return found && columns > 1 && rows > 1 ? { columns, rows } : undefined;
}

export const usualGrid = '6x4';

/** One colour that an entry takes from a photograph, as written. */
export interface PhotographRequest {
  readonly photo: string;
  /** A chart that is known by name, or a file. */
  readonly chart: string;
  readonly grid?: string | undefined;
  readonly corners: string;
  readonly sample: string;
}

/** Requests of one key are read from the photograph together. */
export const pictureKey = ({ photo, chart, grid, corners }: PhotographRequest): string =>
  JSON.stringify([photo, chart, grid ?? usualGrid, corners]);

/** The key under which the answer to a request is kept. */
export const requestKey = (request: PhotographRequest): string => `${pictureKey(request)} ${request.sample}`;
