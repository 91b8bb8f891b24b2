// The map of the colour families: cuts through CIELAB at one lightness, as sectors of hue and chroma.
import { familyOf, type Family } from './families.js';
import type { Triple } from './numbers.js';
import { screenFromLab65 } from './screen.js';

/** A piece of a ring, hue angles in degrees, chroma in CIELAB units. */
export interface FamilySector {
  readonly from: number;
  readonly to: number;
  readonly inner: number;
  readonly outer: number;
}

/** What one family holds of a cut. */
export interface FamilyRegion {
  readonly family: Family;
  readonly sectors: readonly FamilySector[];
  /** A place within it, near its middle. */
  readonly middle: { readonly hue: number; readonly chroma: number };
  /** Share of the cut. */
  readonly share: number;
  /** A colour of it, as a screen has it. */
  readonly hex: string;
}

export interface FamilyCut {
  readonly lightness: number;
  readonly mostChroma: number;
  readonly regions: readonly FamilyRegion[];
}

interface Cell {
  readonly hue: number;
  readonly chroma: number;
  readonly area: number;
}

/** Degrees and units of chroma of the cells that a cut is made of. */
const step = { hue: 1, chroma: 4 } as const;

/** More chroma than this makes no better colour to fill a region with. */
const fillChroma = 45;

const labOf = (lightness: number, { hue, chroma }: Pick<Cell, 'hue' | 'chroma'>): Triple => [
  lightness,
  chroma * Math.cos((hue * Math.PI) / 180),
  chroma * Math.sin((hue * Math.PI) / 180),
];

function regionOf(lightness: number, family: Family, sectors: readonly FamilySector[], cells: readonly Cell[]) {
  const area = cells.reduce((sum, one) => sum + one.area, 0);
  const places = cells.map((cell) => ({ cell, lab: labOf(lightness, cell) }));
  const mean = (k: 1 | 2): number => places.reduce((sum, { cell, lab }) => sum + lab[k] * cell.area, 0) / area;
  const [a, b] = [mean(1), mean(2)];
  const away = ({ lab }: (typeof places)[number]): number => Math.hypot(lab[1] - a, lab[2] - b);
  const nearest = places.reduce((best, one) => (away(one) < away(best) ? one : best));
  const { hue, chroma } = nearest.cell;
  const { hex } = screenFromLab65(labOf(lightness, { hue, chroma: Math.min(chroma, fillChroma) }));
  return { family, sectors, middle: { hue, chroma }, area, hex };
}

/**
 * A cut through the families at one lightness.
 * @param mostChroma how far the cut goes from the grey axis
 * @returns sectors of one degree and four units of chroma, joined along the hue where the family is the same
 * @example familyCut(50).regions.some(({ family }) => family === 'grey') // true
 */
export function familyCut(lightness: number, mostChroma = 80): FamilyCut {
  const sectors = new Map<Family, FamilySector[]>();
  const cells = new Map<Family, Cell[]>();
  for (let inner = 0; inner < mostChroma; inner += step.chroma) {
    const chroma = inner + step.chroma / 2;
    let open: { family: Family; from: number } | undefined;
    const close = (to: number): void => {
      if (!open) return;
      const own = sectors.get(open.family) ?? [];
      sectors.set(open.family, [...own, { from: open.from, to, inner, outer: inner + step.chroma }]);
    };
    for (let hue = 0; hue < 360; hue += step.hue) {
      const cell: Cell = { hue: hue + step.hue / 2, chroma, area: chroma };
      const family = familyOf(labOf(lightness, cell));
      cells.set(family, [...(cells.get(family) ?? []), cell]);
      if (open?.family === family) continue;
      close(hue);
      open = { family, from: hue };
    }
    close(360);
  }
  const regions = [...sectors].map(([family, own]) => regionOf(lightness, family, own, cells.get(family)!));
  const whole = regions.reduce((sum, { area }) => sum + area, 0);
  return {
    lightness,
    mostChroma,
    regions: regions.map(({ area, ...region }) => ({ ...region, share: area / whole })),
  };
}
