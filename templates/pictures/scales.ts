// Values to places on a drawing. Each is asked for hundreds of points, so that it is a plain function; marks of scales
// are d3's.
import { scaleLinear } from 'd3-scale';

/** From one number to another. */
export type Span = readonly [number, number];

/**
 * Places in proportion to values, reckoned as d3-scale does.
 * @example linear([0, 1], [190, 26])(0.5) // 108
 */
export function linear([from, to]: Span, [start, end]: Span): (value: number) => number {
  const span = to - from;
  return (value) => {
    const share = (value - from) / span;
    return start * (1 - share) + end * share;
  };
}

/**
 * Places in proportion to the logarithms of values above nought.
 * @example logarithmic([1, 100], [0, 10])(10) // 5
 */
export function logarithmic([from, to]: Span, range: Span): (value: number) => number {
  const place = linear([Math.log(from), Math.log(to)], range);
  return (value) => place(Math.log(value));
}

/**
 * About so many round values from one to another.
 * @example marksBetween([400, 700], 6) // [400, 450, 500, 550, 600, 650, 700]
 */
export const marksBetween = (span: Span, count: number): readonly number[] => scaleLinear(span, [0, 1]).ticks(count);
