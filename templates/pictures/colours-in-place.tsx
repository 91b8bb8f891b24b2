// Where colours lie together: the a*b* plane, the rule of lightness, and the table of both. For series and colour families.
import type { Element } from 'hast';
import { labCells, labHead, pictureFigure } from './figure.js';
import { abPlane, lightnessRule, type PlacedColour } from './plane.js';

/** The figure, or null where no colour has been measured. */
export function coloursInPlace({ id, title, colours }: { readonly id: string; readonly title: string; readonly colours: readonly PlacedColour[] }): Element | null {
  const placed = colours.filter(({ lab }) => lab.every((part) => Number.isFinite(part)));
  if (placed.length === 0) return null;
  return pictureFigure({
    picture: (
      <div class="colours-in-place">
        {abPlane({ id: `${id}-plane`, title: `${title}: hue and chroma`, colours: placed })}
        {lightnessRule({ id: `${id}-lightness`, title: `${title}: lightness`, colours: placed })}
      </div>
    ) as Element,
    caption: 'Hue and chroma in the a*b* plane (rings of equal C*), and lightness, in daylight (D65).',
    table: {
      caption: title,
      head: ['Sample', ...labHead, 'Family'],
      rows: placed.map(({ label, lab, family }) => [label, ...labCells(lab), family ?? '–']),
      words: [6],
    },
  });
}
