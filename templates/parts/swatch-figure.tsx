// A swatch set large, with the names of its fields and what it leaves open below it.
import type { Element } from 'hast';
import { madeOnce } from '../of-many-pages.js';
import { hasFilms, swatchNotes, swatchStrip, type PaintedSwatch } from '../pictures/swatch-strip.js';

/** Names of the fields, as broad as these are in the drawing. */
export const swatchFields = madeOnce(
  () =>
    (
      <p class="swatch-fields" aria-hidden="true">
        <span>masstone</span>
        <span>over black</span>
        <span>over white</span>
        <span>undertone</span>
      </p>
    ) as Element,
);

/** What the swatch leaves open, as one line; null where there is nothing to say. */
export function swatchNoteLine(swatch: PaintedSwatch): Element | null {
  const notes = swatchNotes(swatch);
  return notes.length > 0 ? ((<p class="swatch-notes">{notes.join('; ')}</p>) as Element) : null;
}

/** A large swatch of one sample or of a reference. */
export const swatchFigure = (swatch: PaintedSwatch, label: string): Element =>
  (
    <div class="swatch-figure">
      {swatchStrip(swatch, label)}
      {hasFilms(swatch) ? swatchFields() : null}
      {swatchNoteLine(swatch)}
    </div>
  ) as Element;
