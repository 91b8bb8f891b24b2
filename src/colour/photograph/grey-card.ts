// A photograph with a grey card only: lightness and cast, roughly. Hues and chroma are the camera's own.
import { bad, good, type Outcome } from '../../outcome.js';
import type { Triple } from '../numbers.js';
import { labFromXyz, whiteOf } from '../tristimulus.js';
import { areaOf, type Area, type Picture, type Rgb } from './picture.js';
import type { SampleArea } from './colours.js';

export interface RoughSample {
  readonly name: string;
  /** Lightness by the card; a* and b* as the camera has them, with the cast taken out. */
  readonly lab: Triple;
}

export interface RoughColours {
  readonly basis: 'rough';
  readonly samples: readonly RoughSample[];
  /** Red, green and blue of the card over their mean: 1, 1, 1 has no cast. */
  readonly cast: Rgb;
  readonly notes: readonly string[];
}

const areaWithin = (picture: Picture, { x, y, width, height }: SampleArea): Area | undefined =>
  x < 0 || y < 0 || x + width > picture.width || y + height > picture.height
    ? undefined
    : areaOf(picture, { from: { x, y }, to: { x: x + width - 1, y: y + height - 1 } });

/** XYZ (D65, 2°) of linear sRGB. IEC 61966-2-1. */
const xyzOf = ([r, g, b]: Rgb): Triple => [
  100 * (0.4124 * r + 0.3576 * g + 0.1805 * b),
  100 * (0.2126 * r + 0.7152 * g + 0.0722 * b),
  100 * (0.0193 * r + 0.1192 * g + 0.9505 * b),
];

/**
 * Rough colours of samples beside a grey card.
 * @param reflectance of the card, 0 … 1: 0.18 for the usual one
 */
export function coloursByGreyCard(
  picture: Picture,
  card: SampleArea,
  reflectance: number,
  areas: readonly SampleArea[],
): Outcome<RoughColours> {
  const grey = areaWithin(picture, card);
  if (!grey || grey.clipped > 0.01 || Math.min(...grey.mean) <= 0)
    return bad({
      code: 'grey-card',
      message: 'The grey card cannot be read: it lies outside the picture, or is over- or underexposed.',
      cure: 'Give its area as x,y,width,height, and photograph it neither too light nor too dark.',
    });
  const mean = (grey.mean[0] + grey.mean[1] + grey.mean[2]) / 3;
  const samples: RoughSample[] = [];
  for (const area of areas) {
    const found = areaWithin(picture, area);
    if (!found)
      return bad({
        code: 'sample-area',
        message: `Sample ${area.name}: its area does not lie within the picture.`,
        cure: 'Give x, y, width and height in pixels.',
      });
    const even = found.mean.map((value, c) => (value * reflectance) / grey.mean[c]!) as unknown as Rgb;
    samples.push({ name: area.name, lab: labFromXyz(xyzOf(even), whiteOf('D65', 2)) });
  }
  return good({
    basis: 'rough',
    samples,
    cast: grey.mean.map((value) => value / mean) as unknown as Rgb,
    notes: [
      ...(picture.notes ?? []),
      'Rough: a grey card tells lightness and cast; hue and chroma are the camera’s own. Not a measurement, ' +
        'and no verdict on differences.',
    ],
  });
}
