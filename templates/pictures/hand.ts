// What all drawings share: tidy coordinates, soft and straight paths, a check of colours.
export type Point = readonly [number, number];

/** A coordinate to a tenth of a unit; what is no number lands on 0, so that no drawing ever carries one. */
export const tidy = (value: number): number => (Number.isFinite(value) ? Math.round(value * 10) / 10 + 0 : 0);

/** The colour if it is a plain `#rrggbb`, else undefined: a drawing then shows an empty outline. */
export const paint = (hex: string | undefined): string | undefined =>
  hex !== undefined && /^#[0-9a-f]{6}$/i.test(hex) ? hex : undefined;

/**
 * Numbers as short as a path allows: no nought before a point, and between two only what tells them apart. Given in
 * tenths.
 */
function steps(numbers: readonly number[]): string {
  let said = '';
  let pointed = true;
  let first = true;
  for (const value of numbers) {
    const size = Math.abs(value);
    const rest = size % 10;
    const whole = (size - rest) / 10;
    const sign = value < 0 ? '-' : '';
    if (!first && sign === '' && !(pointed && whole === 0 && rest !== 0)) said += ' ';
    said += `${sign}${whole === 0 && rest !== 0 ? '' : whole}${rest === 0 ? '' : `.${rest}`}`;
    pointed = rest !== 0;
    first = false;
  }
  return said;
}

const tenths = (value: number): number => Math.round(tidy(value) * 10);
const inTenths = (points: readonly Point[]): Point[] => points.map(([x, y]): Point => [tenths(x), tenths(y)]);

/**
 * A soft path through the points, in order: a uniform Catmull–Rom spline, written in steps, each leaning on the one
 * before.
 */
export function soft(points: readonly Point[]): string {
  const through = inTenths(points);
  const [first] = through;
  if (!first) return '';
  /** A sixth of the way between a point's neighbours, along which the path passes it. */
  const lean = (at: number): Point => {
    const [before, after] = [through[Math.max(0, at - 1)]!, through[Math.min(through.length - 1, at + 1)]!];
    return [(after[0] - before[0]) / 6, (after[1] - before[1]) / 6];
  };
  const curve: number[] = [];
  for (let at = 1; at < through.length; at += 1) {
    const [fromX, fromY] = through[at - 1]!;
    const [x, y] = through[at]!;
    if (at === 1) {
      const [leanX, leanY] = lean(0);
      curve.push(Math.round(leanX), Math.round(leanY));
    }
    const [leanX, leanY] = lean(at);
    curve.push(Math.round(x - leanX - fromX), Math.round(y - leanY - fromY), x - fromX, y - fromY);
  }
  const start = `M${steps(first)}`;
  if (curve.length === 0) return start;
  return `${start}c${steps(curve.slice(0, 6))}${curve.length > 6 ? `s${steps(curve.slice(6))}` : ''}`;
}

/** A straight path through the points, in order; after the first point in steps, which take half the room. */
export function straight(points: readonly Point[], begin: 'M' | 'L' = 'L'): string {
  const [first] = points;
  if (!first) return '';
  let [x, y] = [tenths(first[0]), tenths(first[1])];
  const start = `${begin}${steps([x, y])}`;
  if (points.length === 1) return start;
  const line: number[] = [];
  for (let at = 1; at < points.length; at += 1) {
    const [toX, toY] = [tenths(points[at]![0]), tenths(points[at]![1])];
    line.push(toX - x, toY - y);
    [x, y] = [toX, toY];
  }
  return `${start}l${steps(line)}`;
}

/** No point that is left out lies farther from the path without it, in units: half of what a coordinate is told to. */
const onTheWay = 0.05;

/** The points at which a path across turns: without those on the way from one to the next. */
export function turning(points: readonly Point[]): Point[] {
  const kept = points.slice(0, 1);
  let from = 0;
  for (let to = 2; to <= points.length; to += 1) {
    const isEnd = to === points.length;
    if (!isEnd && leadsPast(points, from, to)) continue;
    from = to - 1;
    if (points[from]) kept.push(points[from]!);
  }
  return kept;
}

/** Whether all points between two lie on the straight way from one to the other. */
function leadsPast(points: readonly Point[], from: number, to: number): boolean {
  const [[fromX, fromY], [toX, toY]] = [points[from]!, points[to]!];
  for (let at = from + 1; at < to; at += 1) {
    const [x, y] = points[at]!;
    const share = (x - fromX) / (toX - fromX);
    if (!(Math.abs(fromY + share * (toY - fromY) - y) <= onTheWay)) return false;
  }
  return true;
}

/** Words cut to a length, with an ellipsis. */
export const cut = (words: string, length: number): string => {
  const letters = [...words];
  return letters.length <= length
    ? words
    : `${letters
        .slice(0, length - 1)
        .join('')
        .trimEnd()}…`;
};
