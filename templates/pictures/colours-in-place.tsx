// Where colours lie together: the a*b* plane, the rule of lightness, and the table of both. For series and colour
// families.
import type { Element } from 'hast';
import { labCells, labHead, pictureFigure } from './figure.js';
import { abPlane, lightnessRule, type PlacedColour } from './plane.js';

/**
 * So many colours can still be told apart in one drawing; of more, the first given are drawn and the caption says so.
 */
const mostDrawn = 300;

/** The figure, or null where no colour has been measured. */
export function coloursInPlace({
  title,
  colours,
  beside = 'Family',
}: {
  readonly title: string;
  /** What is told of each colour beside its figures. */
  readonly beside?: 'Family' | 'Pigment';
  readonly colours: readonly PlacedColour[];
}): Element | null {
  const measured = colours.filter(({ lab }) => lab.every((part) => Number.isFinite(part)));
  if (measured.length === 0) return null;
  const placed = measured.slice(0, mostDrawn);
  return pictureFigure({
    picture: (
      <div class="colours-in-place">
        {abPlane({ title: `${title}: hue and chroma`, colours: placed })}
        {lightnessRule({ title: `${title}: lightness`, colours: placed })}
      </div>
    ) as Element,
    caption:
      'Hue and chroma in the a*b* plane (rings of equal C*), and lightness, in daylight ' +
      `(D65).${measured.length > mostDrawn ? ` ${mostDrawn} of ${measured.length} samples are drawn.` : ''}`,
    table: {
      caption: title,
      head: ['Sample', ...labHead, beside],
      rows: placed.map(({ label, lab, family }) => [label, ...labCells(lab), family ?? '–']),
      words: [6],
    },
  });
}
