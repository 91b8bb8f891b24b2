// What an eye used to one lamp sees of a colour under it, told as a colour in daylight; and how far that moves it.
import { deltaE00 } from './difference.js';
import type { Triple } from './numbers.js';
import { labFromXyz } from './tristimulus.js';

export type Transform = 'CAT16' | 'CAT02';

type Matrix = readonly [Triple, Triple, Triple];

/** Cone-like responses. CAT16: Li et al. 2017; CAT02: CIE 159:2004; numbers as carried by colour-science. */
const forward: Readonly<Record<Transform, Matrix>> = {
  CAT16: [
    [0.401288, 0.650173, -0.051461],
    [-0.250268, 1.204414, 0.045854],
    [-0.002079, 0.048952, 0.953127],
  ],
  CAT02: [
    [0.7328, 0.4296, -0.1624],
    [-0.7036, 1.6975, 0.0061],
    [0.003, 0.0136, 0.9834],
  ],
};

const times = (m: Matrix, v: Triple): Triple => [
  m[0][0] * v[0] + m[0][1] * v[1] + m[0][2] * v[2],
  m[1][0] * v[0] + m[1][1] * v[1] + m[1][2] * v[2],
  m[2][0] * v[0] + m[2][1] * v[1] + m[2][2] * v[2],
];

function inverse([[a, b, c], [d, e, f], [g, h, i]]: Matrix): Matrix {
  const det = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  return [
    [(e * i - f * h) / det, (c * h - b * i) / det, (b * f - c * e) / det],
    [(f * g - d * i) / det, (a * i - c * g) / det, (c * d - a * f) / det],
    [(d * h - e * g) / det, (b * g - a * h) / det, (a * e - b * d) / det],
  ];
}

const backward: Readonly<Record<Transform, Matrix>> = { CAT16: inverse(forward.CAT16), CAT02: inverse(forward.CAT02) };

/**
 * The corresponding colour under another white, for an eye fully used to each (D = 1).
 * @param xyz the colour under `from`, the white it was reckoned with
 * @param to the white it is carried to
 * @example adapt([109.85, 100, 35.585], [109.85, 100, 35.585], [95.047, 100, 108.883]) // [95.047, 100, 108.883]
 */
export function adapt(xyz: Triple, from: Triple, to: Triple, transform: Transform = 'CAT16'): Triple {
  const m = forward[transform];
  const seen = times(m, xyz);
  const whiteFrom = times(m, from);
  const whiteTo = times(m, to);
  const scale = from[1] / to[1];
  return times(backward[transform], [
    (seen[0] * scale * whiteTo[0]) / whiteFrom[0],
    (seen[1] * scale * whiteTo[1]) / whiteFrom[1],
    (seen[2] * scale * whiteTo[2]) / whiteFrom[2],
  ]);
}

/**
 * How far a colour moves from a reference lamp to a test lamp, for an eye used to each. By CMC(1:1) of `reference` and
 * `adapted` it is the CMCCON02 index (with CAT02; ISO 105-J05, detail from memory).
 */
export interface Inconstancy {
  readonly transform: Transform;
  /** Lab under the reference lamp. */
  readonly reference: Triple;
  /** The adapted colour under the test lamp, as Lab of the reference lamp. */
  readonly adapted: Triple;
  readonly de00: number;
}

/** Colour inconstancy: Luo et al. 2003, Color. Technol. 119:280–285 (CMCCON02), with the transform named. */
export function inconstancy(
  reference: { readonly xyz: Triple; readonly white: Triple },
  test: { readonly xyz: Triple; readonly white: Triple },
  transform: Transform = 'CAT16',
): Inconstancy {
  const before = labFromXyz(reference.xyz, reference.white);
  const after = labFromXyz(adapt(test.xyz, test.white, reference.white, transform), reference.white);
  return { transform, reference: before, adapted: after, de00: deltaE00(before, after) };
}

/** A change of less than this, CIEDE2000, is told as no change (perceptibility threshold, see verdicts.csv). */
const hardlyMoves = 0.8;

const comparative = { red: 'redder', green: 'greener', yellow: 'yellower', blue: 'bluer' } as const;
type Hue = keyof typeof comparative;

/**
 * The direction of a change of colour in a maker's words, largest first: `redder`, `less green`, `darker` …
 * @param from changes smaller than this, CIEDE2000, are told as none
 * @param de00 how large the change is, where that is known
 * @example directions([50, 0, 0], [46, 8, 0]) // ['redder', 'darker']
 */
export function directions(
  before: Triple,
  after: Triple,
  from: number = hardlyMoves,
  de00: number = deltaE00(before, after),
): string[] {
  if (de00 < from || de00 === 0) return [];
  const [dl, da, db] = [after[0] - before[0], after[1] - before[1], after[2] - before[2]];
  // A colour that is clearly green and stays so turns less green, not redder; likewise for the other three.
  const along = (from: number, to: number, plus: Hue, minus: Hue): string => {
    const rises = to > from;
    if (rises && from < -8 && to < -4) return `less ${minus}`;
    if (!rises && from > 8 && to > 4) return `less ${plus}`;
    return comparative[rises ? plus : minus];
  };
  const moves = [
    { size: Math.abs(da), word: along(before[1], after[1], 'red', 'green') },
    { size: Math.abs(db), word: along(before[2], after[2], 'yellow', 'blue') },
    { size: Math.abs(dl), word: dl > 0 ? 'lighter' : 'darker' },
  ].sort((a, b) => b.size - a.size);
  const largest = moves[0]!.size;
  return moves.filter(({ size }) => size >= 0.3 * largest && (from === 0 || size >= 0.4)).map(({ word }) => word);
}

/** `redder`, `redder and darker`, `redder, lighter and less blue` */
export const inWords = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
