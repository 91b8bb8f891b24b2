// The salts that acid and alkali make of each other before the reaction: they stand in the liquor like those it frees.
import {
  acidBaseOf,
  exact,
  isPositive,
  ionsOf,
  minus,
  parseFormula,
  scaled,
  type Ion,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import type { Ingredient } from '../ingredients.js';

/** mol of a salt in the liquor. */
export interface NeutralSalt {
  readonly formula: string;
  readonly moles: UncertainDecimal;
}

const ionWith = (formula: string | undefined, sign: 1 | -1, without: string): Ion | undefined => {
  const read = formula === undefined ? undefined : ionsOf(formula);
  return read?.ok ? read.value.ions.find(({ charge, id }) => Math.sign(charge) === sign && id !== without) : undefined;
};

const bare = ({ formula }: Pick<Ion, 'formula'>): string => formula.split('^')[0]!;

function timesOver(ion: Pick<Ion, 'formula'>, count: number): string {
  const text = bare(ion);
  if (count === 1) return text;
  return /^[A-Z][a-z]?$/.test(text) ? `${text}${count}` : `(${text})${count}`;
}

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

/** The neutral salt of two ions, and how many of each one unit has. */
export interface SaltOfIons {
  readonly formula: string;
  readonly cations: number;
  readonly anions: number;
}

/** The neutral salt of two ions. @example saltOf(Na^+, SO4^2-) // Na2SO4, 2 and 1 */
export function saltOf(cation: Pick<Ion, 'formula' | 'charge'>, anion: Pick<Ion, 'formula' | 'charge'>): SaltOfIons {
  const [plus, less] = [cation.charge, -anion.charge];
  const common = divisor(plus, less);
  const [cations, anions] = [less / common, plus / common];
  return { formula: `${timesOver(cation, cations)}${timesOver(anion, anions)}`, cations, anions };
}

/** How much of something was used up before the reaction, mol. */
function usedOf(before: Ingredient, after: Ingredient): UncertainDecimal | undefined {
  const [was, is] = [before.taken.substance, after.taken.substance];
  const used = was && is && minus(was, is);
  return used && isPositive(used.value) ? used : undefined;
}

/**
 * Salts of the acids that were used up before the reaction with the first alkali that was.
 * @param before as taken @param after what is left for the reaction, in the same order
 */
export function neutralSalts(before: readonly Ingredient[], after: readonly Ingredient[]): readonly NeutralSalt[] {
  const used = before.flatMap((one, at) => {
    const moles = usedOf(one, after[at]!);
    const kind = one.formula === undefined ? undefined : acidBaseOf(one.formula)?.kind;
    return moles && kind ? [{ formula: one.formula!, moles, kind }] : [];
  });
  const base = used.find(({ kind }) => kind === 'base');
  const cation = ionWith(base?.formula, 1, 'hydrogen');
  if (!cation) return [];
  return used
    .filter(({ kind }) => kind === 'acid')
    .flatMap(({ formula, moles }) => {
      const anion = ionWith(formula, -1, 'hydroxide');
      if (!anion) return [];
      const salt = saltOf(cation, anion);
      return parseFormula(salt.formula).ok
        ? [{ formula: salt.formula, moles: scaled(moles, exact(1).div(salt.anions)) }]
        : [];
    });
}
