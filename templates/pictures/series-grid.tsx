// The series grid, element by colour family: what the journal has made, as swatches, and how much more the trade
// knows of.
import type { Element } from 'hast';
import { swatchStrip, type PaintedSwatch } from './swatch-strip.js';

export interface MadeHere {
  readonly href: string;
  /** Short, e.g. `14/A`. */
  readonly label: string;
  readonly swatch?: PaintedSwatch;
}

export interface GridCell {
  readonly family: string;
  readonly made: readonly MadeHere[];
  /** How many pigments of this element and family the trade knows that the journal has not made. */
  readonly notMade?: number;
}

export interface GridRow {
  readonly name: string;
  readonly href?: string;
  readonly cells: readonly GridCell[];
}

const shownInCell = 6;

/** A table of elements (down) and families (across), in the orders given; every cell says in words what is in it. */
export function seriesGrid({
  caption,
  families,
  rows,
}: {
  readonly caption: string;
  readonly families: readonly { readonly name: string; readonly href?: string }[];
  readonly rows: readonly GridRow[];
}): Element {
  return (
    <div tabindex="0" role="region" aria-label={caption}>
      <table class="colour-grid">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Element</th>
            {families.map(({ name, href }) => (
              <th scope="col">{href ? <a href={href}>{name}</a> : name}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, href, cells }) => (
            <tr>
              <th scope="row">{href ? <a href={href}>{name}</a> : name}</th>
              {families.map((family) => seriesCell(cells.find((cell) => cell.family === family.name)))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  ) as Element;
}

/** One cell; an empty one says so to those who hear the table. */
export function seriesCell(cell: GridCell | undefined): Element {
  const made = cell?.made ?? [];
  const notMade = cell?.notMade ?? 0;
  return (
    <td>
      {made.length > 0 ? (
        <ul class="made">
          {made.slice(0, shownInCell).map(({ href, label, swatch }) => (
            <li>
              <a href={href}>
                {swatch ? swatchStrip(swatch) : null}
                {label}
              </a>
            </li>
          ))}
        </ul>
      ) : null}
      {made.length > shownInCell ? <div class="more">{`and ${made.length - shownInCell} more`}</div> : null}
      {notMade > 0 ? <div class="not-yet">{`${notMade} ${made.length > 0 ? 'more ' : ''}known, not made`}</div> : null}
      {made.length === 0 && notMade === 0 ? <span class="hidden-label">none</span> : null}
    </td>
  ) as Element;
}
