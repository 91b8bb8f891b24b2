// What all drawings share: a steady hand (unevenness that depends on words only), tidy coordinates, and a check of colours.
import { curveCatmullRom, line } from 'd3-shape';

export type Point = readonly [number, number];

/**
 * Small numbers from -1 to 1 that depend on the words only, so that a sample is drawn by the same hand each time.
 * Source: the FNV-1a hash of the words, then the mulberry32 generator (both public domain), from memory.
 * @example const hand = handOf('14/A'); hand(); // always the same first number
 */
export function handOf(words: string): () => number {
  let state = 0x811c9dc5;
  for (let i = 0; i < words.length; i += 1) state = Math.imul(state ^ words.charCodeAt(i), 0x01000193);
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2147483648 - 1;
  };
}

/** A coordinate to a tenth of a unit; what is no number lands on 0, so that no drawing ever carries one. */
export const tidy = (value: number): number => (Number.isFinite(value) ? Math.round(value * 10) / 10 + 0 : 0);

/** The colour if it is a plain `#rrggbb`, else undefined: a drawing then shows an empty outline. */
export const paint = (hex: string | undefined): string | undefined => (hex !== undefined && /^#[0-9a-f]{6}$/i.test(hex) ? hex : undefined);

const softLine = line<Point>().curve(curveCatmullRom.alpha(0.5)).digits(1);

/** A soft path through the points, in order. */
export const soft = (points: readonly Point[]): string => softLine([...points]) ?? '';

/** Two numbers as short as a path allows: no nought before the point, no space before a minus. */
const short = (value: number): string => String(tidy(value)).replace(/^(-?)0\./, '$1.');

/** A straight path on through the points, in order; after the first point in steps, which take half the room. */
export function straight(points: readonly Point[]): string {
  const [first, ...rest] = points.map(([x, y]): Point => [tidy(x), tidy(y)]);
  if (!first) return '';
  let [x, y] = first;
  const steps = rest.map(([toX, toY]) => {
    const across = short(toX - x);
    const down = short(toY - y);
    [x, y] = [toX, toY];
    return `${across.startsWith('-') ? '' : ' '}${across}${down.startsWith('-') ? '' : ' '}${down}`;
  });
  return `L${first[0]} ${first[1]}${steps.length > 0 ? `l${steps.join('').trimStart()}` : ''}`;
}

/** Words cut to a length, with an ellipsis. */
export const cut = (words: string, length: number): string => {
  const letters = [...words];
  return letters.length <= length ? words : `${letters.slice(0, length - 1).join('').trimEnd()}…`;
};
