// The patches of a chart in a photograph: their light, and which of them cannot be used.
import type { Chart } from './chart.js';
import type { Placement } from './geometry.js';
import { areaOf, type Area, type Picture, type Point, type Rgb } from './picture.js';

/**
 * So much of a patch to either side of its centre is read, in steps from patch to patch: half of its width, without
 * its edges.
 */
const reach = 0.25;

/** Fewer pixels than this do not tell a mean. */
const fewestPixels = 20;

/** A patch is clipped if more than this share of its pixels is. */
const clippedShare = 0.01;

/** Standard deviation over the mean above which a patch is taken for noisy, soiled or shadowed. */
const noisy = 0.35;

/**
 * Difference of a patch's halves over its mean above which it is unevenly lit (a shadow, a shine, a misplaced
 * corner).
 */
const uneven = 0.12;

/** Light under this, over the lightest patch, is lost in the noise of a picture of eight bits. */
const tooDark = 0.002;

export type Rejection = 'outside' | 'small' | 'clipped' | 'noisy' | 'uneven' | 'dark';

export interface MeasuredPatch {
  /** Its number, row by row from 1. */
  readonly patch: number;
  readonly name: string;
  readonly column: number;
  readonly row: number;
  readonly rgb: Rgb;
}

export interface RejectedPatch {
  readonly patch: number;
  readonly name: string;
  readonly reason: Rejection;
}

/** The area of a patch: the part of the picture within `reach` of its centre on the chart. */
function patchArea(picture: Picture, { toPixels, toChart }: Placement, column: number, row: number): Area | undefined {
  const edges: Point[] = [-reach, reach].flatMap((dx) => [-reach, reach].map((dy) => toPixels(column + dx, row + dy)));
  const from = { x: Math.min(...edges.map(({ x }) => x)), y: Math.min(...edges.map(({ y }) => y)) };
  const to = { x: Math.max(...edges.map(({ x }) => x)), y: Math.max(...edges.map(({ y }) => y)) };
  if (from.x < 0 || from.y < 0 || to.x > picture.width - 1 || to.y > picture.height - 1) return undefined;
  return areaOf(picture, { from, to }, (x, y) => {
    const place = toChart(x, y);
    return Math.abs(place.x - column) <= reach && Math.abs(place.y - row) <= reach;
  });
}

/** Why an area cannot be used; undefined if it can. */
export function rejectionOf(area: Area | undefined, lightest: number): Rejection | undefined {
  if (!area) return 'outside';
  if (area.pixels < fewestPixels) return 'small';
  if (area.clipped > clippedShare) return 'clipped';
  if (Math.max(...area.mean) < tooDark * lightest) return 'dark';
  if (area.slope > uneven) return 'uneven';
  return area.noise > noisy ? 'noisy' : undefined;
}

/** Reads every patch of a chart. */
export function measurePatches(
  picture: Picture,
  chart: Chart,
  placement: Placement,
): { readonly used: readonly MeasuredPatch[]; readonly rejected: readonly RejectedPatch[] } {
  const { columns } = chart.grid;
  const areas = chart.patches.map((_, i) => patchArea(picture, placement, i % columns, Math.floor(i / columns)));
  const lightest = Math.max(...areas.map((area) => (area ? Math.max(...area.mean) : 0)));
  const used: MeasuredPatch[] = [];
  const rejected: RejectedPatch[] = [];
  chart.patches.forEach(({ name }, i) => {
    const area = areas[i];
    const reason = rejectionOf(area, lightest);
    const patch = i + 1;
    if (reason || !area) rejected.push({ patch, name, reason: reason ?? 'outside' });
    else used.push({ patch, name, column: i % columns, row: Math.floor(i / columns), rgb: area.mean });
  });
  return { used, rejected };
}
