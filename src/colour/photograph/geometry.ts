// Where the patches of a chart lie in a photograph: the perspective through the centres of its four corner patches.
import { bad, good, type Outcome } from '../../outcome.js';
import { solve } from './least-squares.js';
import type { Point } from './picture.js';

/** Patches across and down. */
export interface Grid {
  readonly columns: number;
  readonly rows: number;
}

/** Centres of the corner patches in pixels, clockwise from the chart's first patch. */
export type Corners = readonly [Point, Point, Point, Point];

/** Between pixels and places on the chart: column and row counted from 0 at the centre of the first patch. */
export interface Placement {
  readonly toPixels: (column: number, row: number) => Point;
  readonly toChart: (x: number, y: number) => Point;
}

/** A projective map from four points to four others: eight unknowns, ninth is 1. */
function projection(from: readonly Point[], to: readonly Point[]): ((x: number, y: number) => Point) | undefined {
  const rows: number[][] = [];
  const values: number[] = [];
  from.forEach(({ x, y }, i) => {
    const { x: u, y: v } = to[i]!;
    rows.push([x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]);
    values.push(u, v);
  });
  const h = solve(rows, values);
  if (!h) return undefined;
  return (x, y) => {
    const w = h[6]! * x + h[7]! * y + 1;
    return { x: (h[0]! * x + h[1]! * y + h[2]!) / w, y: (h[3]! * x + h[4]! * y + h[5]!) / w };
  };
}

/** Twice the area of the triangle, positive when it goes clockwise on a picture (y down). */
const turn = (a: Point, b: Point, c: Point): number => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);

/**
 * Where a chart lies, from the centres of its corner patches.
 * @returns the placement; or a fault: corners that are not clockwise, cross over or lie on a line
 * @example placementOf(corners, { columns: 6, rows: 4 })
 */
export function placementOf(corners: Corners, { columns, rows }: Grid): Outcome<Placement> {
  const turns = corners.map((_, i) => turn(corners[i]!, corners[(i + 1) % 4]!, corners[(i + 2) % 4]!));
  if (turns.every((one) => one < 0))
    return bad({
      code: 'corners-order',
      message: 'The corners go against the clock.',
      expected: 'the centres of the corner patches, clockwise from the first patch',
      cure: 'Give them clockwise; a mirrored picture cannot be used.',
    });
  if (turns.some((one) => one <= 0))
    return bad({
      code: 'corners-shape',
      message: 'The corners cross over or lie on one line.',
      expected: 'four corners of the chart, clockwise from the first patch',
      cure: 'Check the four points.',
    });
  const places = [
    { x: 0, y: 0 },
    { x: columns - 1, y: 0 },
    { x: columns - 1, y: rows - 1 },
    { x: 0, y: rows - 1 },
  ];
  const [toPixels, toChart] = [projection(places, corners), projection(corners, places)];
  if (!toPixels || !toChart)
    return bad({ code: 'corners-shape', message: 'No perspective fits the corners.', cure: 'Check the four points.' });
  return good({ toPixels, toChart });
}
