// One cell of the series grid (element by colour family): what the journal has made, and what the trade knows of besides.
import type { Element } from 'hast';
import { swatchStrip, type PaintedSwatch } from './swatch-strip.js';

export interface MadeHere {
  readonly href: string;
  /** Short, e.g. `14 A`. */
  readonly label: string;
  readonly name?: string;
  readonly swatch?: PaintedSwatch;
}

export interface SeriesCell {
  readonly made: readonly MadeHere[];
  /** Names of pigments of this element and family that the journal has not made. */
  readonly notMade?: readonly string[];
}

/** A table cell; an empty one says so to those who hear the table. */
export function seriesCell({ made, notMade = [] }: SeriesCell): Element {
  const kind = made.length > 0 ? 'made' : notMade.length > 0 ? 'not-made' : 'none';
  return (
    <td class={`series-cell ${kind}`}>
      {made.length > 0 ? (
        <ul class="made">
          {made.map(({ href, label, name, swatch }) => (
            <li><a href={href}>{swatch ? swatchStrip({ ...swatch, seed: label, size: 'small' }) : null}<span class="label">{label}</span>{name ? <span class="name">{name}</span> : null}</a></li>
          ))}
        </ul>
      ) : null}
      {notMade.length > 0 ? <p class="not-yet"><span class="hidden-label">Not made yet: </span>{notMade.join(', ')}</p> : null}
      {kind === 'none' ? <span class="hidden-label">none</span> : null}
    </td>
  ) as Element;
}
