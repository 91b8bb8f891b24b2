// How what was taken stands to the composition that an entry aims at.
import { parseTarget, sharesTaken, type ElementShare } from '../chemistry/index.js';
import type { SampleAmounts } from './contracts.js';
import type { Ingredient } from './ingredients.js';

const besides = new Set(['solvent', 'wash', 'flux']);

/** Whether a reagent of this role brings elements of the target. */
export const takesPartInTarget = (role: string | undefined): boolean => !besides.has(role ?? 'reactant');

const fraction = (value: ElementShare['taken']): string => value.toDecimalPlaces(4).toFixed();

/** Mole fractions further apart than this are told as a miss. */
const close = 0.005;

/**
 * The mole fractions of what a sample took, beside those of the target; undefined where the target cannot be read or an
 * amount is not known.
 */
export function aimedAt(written: string | undefined, ingredients: readonly Ingredient[]): SampleAmounts['target'] {
  const target = written === undefined ? undefined : parseTarget(written);
  if (!target?.ok) return undefined;
  const sources = ingredients.filter(({ use, taken }) => taken.formula && takesPartInTarget(use.role));
  if (sources.some(({ taken }) => !taken.substance)) return undefined;
  const shares = sharesTaken(
    target.value,
    sources.map(({ taken }) => ({ formula: taken.formula!, moles: taken.substance!.value })),
  );
  if (!shares) return undefined;
  const hit = shares.every(({ target: wanted, taken }) => wanted.minus(taken).abs().lte(close));
  const each = (of: (share: ElementShare) => string): string =>
    shares.map((share) => `${share.symbol} ${of(share)}`).join(', ');
  const taken = each((share) => share.taken.toFixed(3));
  const wanted = each((share) => share.target.toFixed(3));
  return {
    written: target.value.written,
    elements: shares.map(({ symbol, target: aim, taken: got }) => ({
      symbol,
      target: fraction(aim),
      taken: fraction(got),
    })),
    words: hit
      ? `What was taken fits ${target.value.written}: ${taken} as mole fractions.`
      : `What was taken comes to ${taken} as mole fractions; ${target.value.written} asks for ${wanted}.`,
  };
}
