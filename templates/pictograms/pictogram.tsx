// The nine pictograms of the GHS, drawn after the shapes of the UN's Purple Book: a black symbol in a red-edged
// diamond.
import type { Element, ElementContent } from 'hast';
import { madeOnce } from '../of-many-pages.js';
import { corrosion } from './corrosion.js';
import { environment } from './environment.js';
import { exclamationMark } from './exclamation-mark.js';
import { explodingBomb } from './exploding-bomb.js';
import { flame } from './flame.js';
import { flameOverCircle } from './flame-over-circle.js';
import { gasCylinder } from './gas-cylinder.js';
import { healthHazard } from './health-hazard.js';
import { skullAndCrossbones } from './skull-and-crossbones.js';

const drawings: Readonly<Record<string, { readonly name: string; readonly symbol: () => readonly Element[] }>> = {
  GHS01: { name: 'exploding bomb', symbol: explodingBomb },
  GHS02: { name: 'flame', symbol: flame },
  GHS03: { name: 'flame over circle', symbol: flameOverCircle },
  GHS04: { name: 'gas cylinder', symbol: gasCylinder },
  GHS05: { name: 'corrosion', symbol: corrosion },
  GHS06: { name: 'skull and crossbones', symbol: skullAndCrossbones },
  GHS07: { name: 'exclamation mark', symbol: exclamationMark },
  GHS08: { name: 'health hazard', symbol: healthHazard },
  GHS09: { name: 'environment', symbol: environment },
};

/** Name of a pictogram's symbol, as the GHS has it. @example pictogramName('GHS05') // 'corrosion' */
export const pictogramName = (code: string): string => drawings[code]?.name ?? code;

/** Codes of the nine pictograms. */
export const pictogramCodes: readonly string[] = Object.keys(drawings);

/**
 * A pictogram as a picture that lies in the site's own folder `at`, so that a page carries no drawing twice; the style
 * sheet sets its size.
 * @param named its name stands beside it, and need not be told twice
 */
export const pictogramImage = (code: string, at: string, named = false): Element => imageOf(code, at, named);

const imageOf = madeOnce(
  (code: string, at: string, named: boolean) =>
    (<img src={`${at}${code.toLowerCase()}.svg`} alt={named ? code : `${code}: ${pictogramName(code)}`} />) as Element,
);

/**
 * A pictogram as an SVG tree with an accessible name, drawn on a field of 200 × 200.
 * @param size width and height on the page, px
 */
export function pictogram(code: string, size = 72): Element {
  const drawing = drawings[code];
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      class="pictogram"
      viewBox="0 0 200 200"
      width={size}
      height={size}
      role="img"
      aria-label={`${code}: ${pictogramName(code)}`}
    >
      <path d="M100 7 193 100 100 193 7 100Z" fill="#fff" stroke="#d4121e" stroke-width="10" />
      {(drawing?.symbol() ?? []) as ElementContent[]}
    </svg>
  ) as Element;
}
