// How what was taken stands to the composition that an entry aims at.
import {
  composition,
  exact,
  parseTarget,
  plus,
  scaled,
  sharesTaken,
  times,
  type ElementShare,
  type Target,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import type { SampleAmounts } from '../contracts.js';
import { figure } from '../figures.js';
import type { Ingredient } from '../ingredients.js';

const besides = new Set(['solvent', 'wash', 'flux']);

/** Whether a reagent of this role brings elements of the target. */
export const takesPartInTarget = (role: string | undefined): boolean => !besides.has(role ?? 'reactant');

const fraction = (value: ElementShare['taken']): string => value.toDecimalPlaces(4).toFixed();

/** Mole fractions further apart than this are told as a miss. */
const close = 0.005;

/** The most of a target, g, that what was taken can give: as far as the scarcest of its set elements goes. */
function mostOf({ atoms, unitMass }: Target, sources: readonly Ingredient[]): UncertainDecimal | undefined {
  const extents = [...atoms].map(([symbol, wanted]) => {
    const moles = sources.flatMap(({ taken }) => {
      const count = composition(taken.formula!).get(symbol)?.low;
      return count ? [scaled(taken.substance!, count)] : [];
    });
    return moles.length > 0 ? scaled(moles.reduce(plus), exact(1).div(wanted)) : undefined;
  });
  const known = extents.filter((extent) => extent !== undefined);
  const [least] = [...known].sort((a, b) => a.value.cmp(b.value));
  return least && known.length === extents.length ? times(least, unitMass) : undefined;
}

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
  const most = mostOf(target.value, sources);
  const figureOfMost = most && figure(most, 'g');
  const gives = figureOfMost ? ` That can give at most ${figureOfMost.text} of it.` : '';
  return {
    written: target.value.written,
    elements: shares.map(({ symbol, target: aim, taken: got }) => ({
      symbol,
      target: fraction(aim),
      taken: fraction(got),
    })),
    ...(figureOfMost && { most: figureOfMost }),
    words: hit
      ? `What was taken fits ${target.value.written}: ${taken} as mole fractions.${gives}`
      : `What was taken comes to ${taken} as mole fractions; ${target.value.written} asks for ${wanted}.${gives}`,
  };
}
