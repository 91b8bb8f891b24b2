// Acid and alkali of one sample: what they leave of each other, and how acid or alkaline the liquor is in the end.
import {
  acidBaseOf,
  reading,
  scaled,
  sum,
  withoutUncertainty,
  type AcidBase,
  type Equation,
  type LimitingReagent,
  type UncertainDecimal,
} from '../chemistry/index.js';
import type { SampleAmounts } from './contracts.js';
import { bareFigure } from './figures.js';
import type { Ingredient } from './ingredients.js';
import { inReaction } from './limiting.js';
import { availableOf, carriedAcid, neutralise, roughPh, type InPot, type Neutralised } from './neutralise.js';
import { quantityOf } from './parse-cache.js';
import { liquidsOf } from './washing.js';

/** mol of protons that something carries as free acid: said of its use, its jar or its lot. */
export function freeAcidOf({ use, shelf, lotFacts, taken }: Ingredient): UncertainDecimal | undefined {
  const written = use['free-acid'] ?? shelf?.['free-acid'] ?? lotFacts?.freeAcid;
  const read = written === undefined ? undefined : quantityOf(written);
  if (!read?.ok || read.value.dimension !== 'concentration' || !taken.volume) return undefined;
  return carriedAcid(taken.volume, reading(read.value, `free acid:${taken.name}`));
}

const inPot = (one: Ingredient): InPot => {
  const freeAcid = freeAcidOf(one);
  return { taken: one.taken, role: one.use.role, ...(freeAcid && { freeAcid }) };
};

/** The ingredients as they stand for the reaction, acid and alkali set against each other. */
export interface Settled {
  readonly ingredients: readonly Ingredient[];
  readonly neutralised?: Neutralised;
}

/** Sets acid and alkali of the partners against each other. */
export function settle(
  ingredients: readonly Ingredient[],
  partners: readonly Ingredient[],
  equation: Equation | undefined,
): Settled {
  const neutralised = equation && neutralise(partners.map(inPot), equation);
  if (!neutralised) return { ingredients };
  return {
    neutralised,
    ingredients: ingredients.map((one) => ({ ...one, taken: availableOf(one.taken, neutralised) })),
  };
}

/** A strong acid or alkali, and how much of it there is, mol. */
interface Strong extends Pick<Ingredient, 'taken' | 'use'> {
  readonly nature: AcidBase;
  readonly substance: UncertainDecimal;
}

const strongIn = (settled: readonly Ingredient[]): readonly Strong[] =>
  settled.flatMap(({ taken, use }) => {
    const nature = taken.formula && acidBaseOf(taken.formula);
    return nature?.strong && taken.substance ? [{ taken, use, nature, substance: taken.substance }] : [];
  });

/** mol of protons of the strong acids, or the strong alkalis, that are left when the reaction is over. */
function strongLeft(
  strong: readonly Strong[],
  limitation: LimitingReagent | undefined,
  kind: AcidBase['kind'],
): UncertainDecimal {
  return sum(
    strong.flatMap(({ taken, use, nature, substance }) => {
      if (nature.kind !== kind) return [];
      const { supplies, scarcest } = inReaction(taken, limitation);
      if (supplies.length === 0) return use.role === kind ? [scaled(substance, nature.equivalents)] : [];
      return scarcest?.left ? [scaled(scarcest.left, nature.equivalents)] : [];
    }),
  );
}

const mmol = { unit: 'mmol', factor: 1000 };
const nothing = withoutUncertainty(0);

/**
 * What acid and alkali leave of each other, and a rough pH where a strong one is in excess; undefined where there is
 * neither.
 */
export function acidAndAlkali(
  { ingredients, neutralised }: Settled,
  limitation: LimitingReagent | undefined,
): SampleAmounts['acidAndAlkali'] {
  const all = strongIn(ingredients);
  if (all.length === 0 && !neutralised) return undefined;
  const [acid, alkali] = (['acid', 'base'] as const).map((kind) => strongLeft(all, limitation, kind));
  const more = acid!.value.gt(alkali!.value) ? 'acid' : 'alkali';
  const strong = (more === 'acid' ? acid : alkali) ?? nothing;
  const liquor = strong.value.isZero() ? undefined : liquidsOf(ingredients);
  const pH = liquor?.gt(0) ? roughPh(strong.value, more, liquor) : undefined;
  if (!neutralised && pH === undefined) return undefined;
  const set = neutralised && {
    acid: bareFigure(neutralised.acid, 'mol', mmol),
    alkali: bareFigure(neutralised.alkali, 'mol', mmol),
    leftIs: neutralised.leftIs,
    left: bareFigure(neutralised.left, 'mol', mmol),
  };
  const first = set
    ? `Acid (${set.acid.text} of protons) and alkali (${set.alkali.text}) are set against each other first; ` +
      `${set.left.text} of ${set.leftIs} are left for the rest.`
    : '';
  const ph = pH === undefined ? '' : `The liquor ends at about pH ${pH}, by the strong ${more} in excess.`;
  return { ...set, ...(pH !== undefined && { pH: String(pH) }), words: [first, ph].filter(Boolean).join(' ') };
}
