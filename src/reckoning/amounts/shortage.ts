// Where a reagent that is meant to be in excess limits: how much short it is, how much would be needed, what then.
import {
  exact,
  forMachines,
  scaled,
  theoreticalYield,
  type Decimal,
  type LimitingReagent,
  type ReactantSupply,
  type Term,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import { once } from '../../once.js';
import type { TakenPortion } from '../../reagents/index.js';
import type { SampleAmounts } from '../contracts.js';
import { bareFigure } from '../figures.js';
import { supplierNames } from './limiting.js';

/** A reagent of a pot, and what it was meant to be. */
export interface MeantPartner {
  readonly taken: TakenPortion;
  readonly intent?: 'limiting' | 'excess';
  /** The amount was measured by volume. */
  readonly byVolume: boolean;
}

/** A reagent that is meant to be in excess and is short. */
export interface Shortage {
  readonly id: string;
  readonly name: string;
  /** Of what would be needed, so much is lacking. */
  readonly percent: Decimal;
  /** Of the stuff as it was taken, for all of what is meant to be used up. */
  readonly needed: { readonly amount: UncertainDecimal; readonly unit: 'g' | 'mL' | 'mol' };
  /** Names of what could then be used up. */
  readonly of: string;
  /** Of the product, if so much were taken, g; undefined where its mass cannot be told. */
  readonly yieldThen?: UncertainDecimal;
}

const least = (supplies: readonly ReactantSupply[]): ReactantSupply | undefined =>
  supplies
    .filter(({ extent, suppliedBy }) => extent && suppliedBy.length > 0)
    .sort((a, b) => a.extent!.value.cmp(b.extent!.value))[0];

/** What is meant to be used up: what is meant to limit, else the scarcest of what is not meant to be in excess. */
function meantToLimit({ reactants }: LimitingReagent, partners: readonly MeantPartner[]): ReactantSupply | undefined {
  const ids = (intent: 'limiting' | 'excess'): ReadonlySet<string> =>
    new Set(partners.filter((one) => one.intent === intent).map(({ taken }) => taken.id));
  const [limiting, ample] = [ids('limiting'), ids('excess')];
  const stated = reactants.filter(({ suppliedBy }) => suppliedBy.some((id) => limiting.has(id)));
  const others = reactants.filter(({ suppliedBy }) => !suppliedBy.some((id) => ample.has(id)));
  return least(stated) ?? least(others);
}

function measured({ taken, byVolume }: MeantPartner): Shortage['needed'] | undefined {
  if (byVolume && taken.volume) return { amount: taken.volume, unit: 'mL' };
  if (taken.mass) return { amount: taken.mass, unit: 'g' };
  return taken.substance && { amount: taken.substance, unit: 'mol' };
}

/**
 * Every reagent that is meant to be in excess and would run out before what is meant to limit, in the order of the
 * equation; empty where there is none.
 */
export function shortages(
  limitation: LimitingReagent | undefined,
  partners: readonly MeantPartner[],
  product: Term | undefined,
): readonly Shortage[] {
  const wanted = limitation?.limiting && meantToLimit(limitation, partners);
  if (!limitation || !wanted?.extent) return [];
  const extent = wanted.extent;
  const yieldThen = once(() => product && theoreticalYield(extent, product).mass);
  const takens = partners.map(({ taken }) => taken);
  return limitation.reactants.flatMap((supply): Shortage[] => {
    const own = supply.extent;
    if (!own || own.value.isZero() || supply === wanted || !own.value.lt(extent.value)) return [];
    const short = partners.filter((one) => one.intent === 'excess' && supply.suppliedBy.includes(one.taken.id));
    return short.flatMap((one): Shortage[] => {
      const now = measured(one);
      if (!now) return [];
      const factor = extent.value.div(own.value);
      const then = yieldThen();
      return [
        {
          id: one.taken.id,
          name: one.taken.name,
          percent: exact(1).minus(exact(1).div(factor)).times(100),
          needed: { amount: scaled(now.amount, factor), unit: now.unit },
          of: supplierNames(wanted, takens),
          ...(then && { yieldThen: then }),
        },
      ];
    });
  });
}

const rounded = (value: Decimal): string => value.toSignificantDigits(3).toFixed();

/**
 * The same in a sentence.
 * @example shortageWords(shortage) // 'The soda is 20 % short: 2.13 g would be needed for all of the blue vitriol; …'
 */
export function shortageWords({ name, percent, needed, of, yieldThen }: Shortage): string {
  const then = yieldThen ? `; ${rounded(yieldThen.value)} g of product could then be had` : '';
  return (
    `The ${name} is ${percent.toSignificantDigits(2).toFixed()} % short: ${rounded(needed.amount.value)} ` +
    `${needed.unit} would be needed for all of the ${of}${then}.`
  );
}

/** The same in figures, for pages and data. */
export const shortFigures = (shortage: Shortage): NonNullable<SampleAmounts['short']>[number] => {
  const { name, percent, needed, yieldThen } = shortage;
  const value = forMachines(percent);
  return {
    reagent: name,
    percent: { value, unit: '%', text: `${percent.toSignificantDigits(2).toFixed()} %` },
    needed: bareFigure(needed.amount, needed.unit),
    ...(yieldThen && { theoreticalYieldThen: bareFigure(yieldThen, 'g') }),
    words: shortageWords(shortage),
  };
};
