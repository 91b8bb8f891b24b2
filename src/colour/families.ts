// The colour family of a Lab, by published hue, chroma and lightness boundaries (families.csv; the first row that
// fits).
import { familiesTable } from '../tables/compiled/colour/families.js';
import type { Triple } from './numbers.js';
import { lchFromLab } from './tristimulus.js';

/** Every family, in the order of the spectrum, then the neutrals. */
export const families = [
  'violet',
  'blue',
  'blue-green',
  'green',
  'yellow',
  'orange',
  'red',
  'pink',
  'brown',
  'black',
  'grey',
  'white',
] as const;
export type Family = (typeof families)[number];

interface Rule {
  readonly family: Family;
  readonly lightness: readonly [number, number];
  readonly chroma: readonly [number, number];
  readonly hue?: readonly [number, number];
  /** Degrees that each unit of chroma adds to the upper hue boundary. */
  readonly huePerChroma: number;
}

let rules: readonly Rule[] | undefined;

function familyRules(): readonly Rule[] {
  rules ??= familiesTable().map((row) => ({
    family: row.family,
    lightness: [row.L_from ?? -Infinity, row.L_below ?? Infinity],
    chroma: [row.C_from ?? -Infinity, row.C_below ?? Infinity],
    ...(row.h_from !== undefined || row.h_below !== undefined
      ? { hue: [row.h_from ?? 0, row.h_below ?? 360] as const }
      : {}),
    huePerChroma: row.h_below_per_C ?? 0,
  }));
  return rules;
}

/**
 * Colour family of a Lab (D65; boundaries for the 2° observer, used for 10° as they stand).
 * @example familyOf([35.8, 6.3, -42.3]) // 'blue'
 */
export function familyOf(lab: Triple): Family {
  const colour = lchFromLab(lab);
  const rule = familyRules().find((candidate) => fits(candidate, colour));
  if (!rule) throw new Error(`no family for ${lab.join(' ')}`);
  return rule.family;
}

function fits({ lightness, chroma, hue, huePerChroma }: Rule, [l, c, h]: Triple): boolean {
  if (l < lightness[0] || l >= lightness[1] || c < chroma[0] || c >= chroma[1]) return false;
  if (!hue) return true;
  const [from, below] = [hue[0], hue[1] + huePerChroma * c];
  return from <= below ? h >= from && h < below : h >= from || h < below;
}

/** Other words for a family. */
const otherNames: Readonly<Record<string, Family>> = {
  purple: 'violet',
  gray: 'grey',
  turquoise: 'blue-green',
  cyan: 'blue-green',
  'green-blue': 'blue-green',
  teal: 'blue-green',
  magenta: 'violet',
};

/** The family that a maker's word names, or undefined: `Gray` is grey, `purple` is violet. */
export function familyNamed(word: string): Family | undefined {
  const plain = word.trim().toLowerCase();
  const family = families.find((name) => name === plain);
  return family ?? (Object.hasOwn(otherNames, plain) ? otherNames[plain] : undefined);
}

/**
 * Every family that colours within a distance (Lab units) of this one fall into: near a border a declared family is
 * not contradicted by its neighbour.
 */
export function familiesNear(lab: Triple, distance: number): ReadonlySet<Family> {
  const found = new Set<Family>();
  for (const dl of [-1, 0, 1])
    for (const da of [-1, 0, 1])
      for (const db of [-1, 0, 1]) {
        const length = Math.hypot(dl, da, db) || 1;
        found.add(
          familyOf([
            lab[0] + (distance * dl) / length,
            lab[1] + (distance * da) / length,
            lab[2] + (distance * db) / length,
          ]),
        );
      }
  return found;
}
