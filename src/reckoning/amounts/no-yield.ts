// Why a sample has no yield where a reader would look for one; and what a yield rests on that nobody measured.
import {
  expandedSize,
  expandedUncertainty,
  findLimitingReagent,
  molarMass,
  nearestNumber,
  theoreticalYield,
  unitsInResidue,
  type Decimal,
  type Equation,
  type LimitingReagent,
  type Term,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import { takePortion, waterEnds } from '../../reagents/index.js';
import type { Ingredient } from '../ingredients.js';
import { formulaOf } from '../parse-cache.js';
import type { HeatedPast } from '../treatment/treatment-contracts.js';

/** What is known of a sample when its yield is looked for. */
export interface YieldLookedFor {
  readonly equation?: Equation;
  readonly product?: Term;
  readonly limitation?: LimitingReagent;
  readonly partners: readonly Ingredient[];
  /** As the maker wrote it. */
  readonly obtainedWritten?: string;
  readonly obtained?: UncertainDecimal;
  readonly percent?: UncertainDecimal;
  /** What heat made of it before it was weighed. */
  readonly heated?: HeatedPast | undefined;
}

/** A yield that may be off by half of itself, as a share of it, says nothing. Common practice, no source. */
const tooRough = 0.5;

/** Whether what a yield rests on was measured so roughly that a number would pretend. */
export const isTooRough = (percent: UncertainDecimal): boolean =>
  expandedSize(percent) >= Math.abs(nearestNumber(percent.value)) * tooRough;

/** A maker's words inside a sentence of ours, without a stop of their own. */
const quoted = (words: string | undefined): string =>
  words === undefined ? 'not said' : `“${words.trim().replace(/[.!]+$/, '')}”`;

/** What keeps one partner's amount from being known, in words. */
function unknownWords({ name, use, reagent, taken }: Ingredient): string {
  if (use.amount === undefined) return `nothing says how much ${name} there was`;
  if (reagent.amount === 'unknown') return `how much ${name} there was is not known (${quoted(use.amount)})`;
  const [missing] = taken.missing;
  if (missing?.code === 'density-missing') return `nothing says what ${use.amount} of ${name} weighs`;
  if (missing?.code === 'formula-missing') return `nothing says what ${name} is made of`;
  if (missing?.code === 'strength-missing') return `nothing says how strong ${name} is`;
  return missing ? `${missing.message.replace(/\.$/, '')}` : `the amount of ${name} is not known`;
}

/** Partners of which an amount would be needed. */
function openPartners({ limitation, partners }: YieldLookedFor): readonly Ingredient[] {
  const open = new Set(
    (limitation?.reactants ?? [])
      .filter(({ term }) => limitation!.amountUnknown.includes(term))
      .flatMap(({ suppliedBy }) => suppliedBy),
  );
  return partners.filter(({ taken }) => open.has(taken.id) && !taken.substance && !taken.excess);
}

/** Words for nothing; `-` and `?` say that it is not known. */
const wordsForNothing = /^(?:none|nothing(?: at all)?|nil|zero|nichts|keine?s?|rien|nada|niente|niets)[.!]*$/i;
/** `0 g`, `0.00 g`, `nothing`. */
const isNothing = (obtained: UncertainDecimal | undefined, written: string): boolean =>
  obtained ? obtained.value.isZero() : wordsForNothing.test(written.trim());

/**
 * Why there is no yield, as half a sentence; undefined where there is one, or where nobody would look for one (nothing
 * was obtained yet, or there is no reaction).
 * @example whyNoYield({ obtainedWritten: 'a jam jar', … }) // 'what was obtained was not weighed (“a jam jar”)'
 */
export function whyNoYield(looked: YieldLookedFor): string | undefined {
  const { product, limitation, obtained, obtainedWritten, percent } = looked;
  if (!product || !limitation) return undefined;
  if (looked.heated?.going && obtained && !obtained.value.isZero()) return goingWords(looked, looked.heated.going);
  if (obtainedWritten === undefined) return undefined;
  if (isNothing(obtained, obtainedWritten)) return `nothing was obtained (${quoted(obtainedWritten)}), which is 0 %`;
  if (percent) return isTooRough(percent) ? roughWords(percent) : undefined;
  if (!obtained) return `what was obtained was not weighed (${quoted(obtainedWritten)})`;
  const reasons = openPartners(looked).map(unknownWords);
  return reasons.length > 0 ? `${[...new Set(reasons)].join(', and ')}${boundsWords(looked, obtained)}` : undefined;
}

/**
 * g of product that could be had if every salt of unknown water were at one of its ends; undefined where that is open.
 */
function possibleAt(
  { equation, product, partners }: YieldLookedFor,
  end: 'dry' | 'hydrate',
): UncertainDecimal | undefined {
  if (!equation || !product) return undefined;
  const takens = partners.map(({ measure, taken }) => {
    const ends = measure.formula && waterEnds(measure.formula);
    return ends ? takePortion({ ...measure, formula: ends[end] }) : taken;
  });
  const { extent, amountUnknown } = findLimitingReagent(equation, takens);
  return extent && amountUnknown.length === 0 ? theoreticalYield(extent, product).mass : undefined;
}

/**
 * Between what the yield lies where only the water of salts is not known: from the dry salts to the highest hydrates.
 */
function boundsWords(looked: YieldLookedFor, obtained: UncertainDecimal): string {
  const [most, least] = [possibleAt(looked, 'dry'), possibleAt(looked, 'hydrate')];
  if (!most?.value.gt(0) || !least?.value.gt(0)) return '';
  const share = (possible: UncertainDecimal): string => obtained.value.div(possible.value).times(100).toFixed(0);
  const grams = ({ value }: UncertainDecimal): string => value.toSignificantDigits(3).toFixed();
  return (
    `; between the dry salt and its highest hydrate, ${grams(least)} to ${grams(most)} g could be had, ` +
    `which makes the yield ${share(most)} to ${share(least)} %`
  );
}

/** What heat had begun to make of the product: how much of it had turned nobody weighed. */
function goingWords({ product, percent, heated }: YieldLookedFor, going: NonNullable<HeatedPast['going']>): string {
  const { from, into, staysTo, goneBy } = going;
  const turned = into === undefined ? '' : `, and then turns into ${into}`;
  const by = goneBy === undefined ? '' : `, all of it by ${goneBy} °C`;
  const said = `it was at ${heated!.at}, and ${from} is sure to stay as it is only up to ${staysTo} °C${turned}${by}`;
  if (into === undefined) return `${said}; what is left then is not known`;
  return `${said}${betweenWords(product!, percent, from, into)}`;
}

/** Between what the yield lies: none of it has turned, or all of it has. */
function betweenWords(product: Term, percent: UncertainDecimal | undefined, from: string, into: string): string {
  const share = percent && productAs(product, into);
  if (!share) return '';
  const turned = percent.value.times(share).toFixed(0);
  const none = percent.value.toFixed(0);
  return `; the yield is ${none} % if all that was weighed was ${from}, ${turned} % if all was ${into}`;
}

/** How many times as heavy a product is as what heat makes of it. */
function productAs(product: Term, into: string): Decimal | undefined {
  const left = formulaOf(into);
  const units = left.ok ? unitsInResidue(product.formula, left.value) : undefined;
  const [whole, rest] = [molarMass(product.formula), left.ok ? molarMass(left.value) : undefined];
  if (!units || !whole.ok || !rest?.ok) return undefined;
  return whole.value.middle.value.times(units).div(rest.value.middle.value);
}

function roughWords(percent: UncertainDecimal): string {
  const half = expandedUncertainty(percent);
  const least = percent.value.minus(half);
  const from = least.lt(0) ? '0' : least.toFixed(0);
  return `the amounts are too rough for one (anything from ${from} to ${percent.value.plus(half).toFixed(0)} %)`;
}

/** What was added until there was enough of it, and is taken to have been ample. */
export function takenAsEnough(
  partners: readonly Ingredient[],
  limitation: LimitingReagent | undefined,
): string | undefined {
  if (!limitation?.limiting) return undefined;
  const names = partners
    .filter(({ reagent, taken }) => (reagent.amount === 'unknown' || reagent.amount === 'not-said') && taken.excess)
    .map(({ name, use }) => `${name} (${quoted(use.amount)})`);
  return names.length > 0 ? [...new Set(names)].join(' and ') : undefined;
}
