// Acid and alkali of one sample: what they leave of each other, and how acid or alkaline the liquor is in the end.
import {
  acidBaseOf,
  alkaliInWater,
  exact,
  isPositive,
  reading,
  type AcidBase,
  type Decimal,
  type Equation,
  type LimitingReagent,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import type { SampleAmounts } from '../contracts.js';
import { bareFigure } from '../figures.js';
import type { Ingredient } from '../ingredients.js';
import { inReaction } from './limiting.js';
import { availableOf, carriedAcid, neutralise, roughPh, type InPot, type Neutralised } from './neutralise.js';
import { quantityOf } from '../parse-cache.js';
import { liquidsOf } from '../treatment/washing.js';

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

const zero = exact(0);

/** An acid or alkali, and how much of it there is, mol. */
interface AcidOrAlkali extends Pick<Ingredient, 'taken' | 'use'> {
  readonly nature: AcidBase;
  readonly substance: UncertainDecimal;
}

const acidsAndAlkalis = (settled: readonly Ingredient[]): readonly AcidOrAlkali[] =>
  settled.flatMap(({ taken, use }) => {
    const nature = taken.formula && acidBaseOf(taken.formula);
    return nature && taken.substance ? [{ taken, use, nature, substance: taken.substance }] : [];
  });

/** mol of protons that a strong acid or alkali still has when the reaction is over. */
function leftOfStrong(
  { taken, use, nature, substance }: AcidOrAlkali,
  limitation: LimitingReagent | undefined,
): Decimal {
  const { supplies, scarcest } = inReaction(taken, limitation);
  const idle = use.role === nature.kind ? substance : undefined;
  const left = supplies.length > 0 ? scarcest?.left : idle;
  return left ? left.value.times(nature.equivalents) : zero;
}

/** mol of protons that weak ones of a kind have left for a strong one, with their names. */
interface Weak {
  readonly names: readonly string[];
  readonly protons: Decimal;
}

/** Weak acids or alkalis that stand beside the reaction or are left of it; what only washes comes later. */
function weakOf(kind: AcidBase['kind'], all: readonly AcidOrAlkali[], limitation: LimitingReagent | undefined): Weak {
  const some = all
    .filter(({ nature, use }) => !nature.strong && nature.kind === kind && use.role !== 'wash')
    .map(({ taken, nature, substance }) => {
      const { supplies, scarcest } = inReaction(taken, limitation);
      const left = supplies.length > 0 ? scarcest?.left : substance;
      return { name: taken.name, protons: left ? left.value.times(nature.equivalents) : zero };
    })
    .filter(({ protons }) => isPositive(protons));
  return {
    names: some.map(({ name }) => name),
    protons: some.reduce((sum, { protons }) => sum.plus(protons), zero),
  };
}

/** What is left of strong acids and alkalis, and what of it water takes. */
interface Left {
  /** mol of protons given, and of those taken by what dissolves. */
  readonly acid: Decimal;
  readonly alkali: Decimal;
  /** Hydroxides of which water takes little, with what is left of them and the pH of all that it takes. */
  readonly slight: readonly { readonly name: string; readonly protons: Decimal; readonly most: Decimal }[];
  /** Names of hydroxides that hardly dissolve. */
  readonly undissolved: readonly string[];
}

function leftInWater(strong: readonly AcidOrAlkali[], limitation: LimitingReagent | undefined): Left {
  const left = strong
    .map((one) => ({ ...one, protons: leftOfStrong(one, limitation) }))
    .filter(({ protons }) => isPositive(protons));
  const total = (some: readonly { readonly protons: Decimal }[]): Decimal =>
    some.reduce((all, { protons }) => all.plus(protons), zero);
  const alkalis = left
    .filter(({ nature }) => nature.kind === 'base')
    .map(({ taken, protons }) => ({ name: taken.name, protons, water: alkaliInWater(taken.formula!) }));
  return {
    acid: total(left.filter(({ nature }) => nature.kind === 'acid')),
    alkali: total(alkalis.filter(({ water }) => water === 'all')),
    slight: alkalis.flatMap(({ name, protons, water }) =>
      typeof water === 'string' ? [] : [{ name, protons, most: water }],
    ),
    undissolved: alkalis.filter(({ water }) => water === 'none').map(({ name }) => name),
  };
}

/** How acid or alkaline the liquor is in the end. */
type Ending = Pick<NonNullable<SampleAmounts['acidAndAlkali']>, 'pH' | 'words'>;

/** By what dissolves of what is left; undefined where nothing strong is left, or too little of it to decide. */
function endingOf(
  { acid, alkali, slight, undissolved }: Left,
  liquor: Decimal,
  weak: (kind: AcidBase['kind']) => Weak,
): Ending | undefined {
  const inAll = slight.reduce((all, { protons }) => all.plus(protons), alkali).minus(acid);
  if (undissolved.length > 0 && !isPositive(inAll)) {
    const [solid, are] = [undissolved.join(' and '), undissolved.length > 1 ? 'are' : 'is'];
    return {
      words: `The pH of the liquor is not reckoned: ${solid} ${are} in excess, which hardly dissolves in water.`,
    };
  }
  const more = inAll.isNegative() ? 'acid' : 'alkali';
  const against = weak(more === 'acid' ? 'base' : 'acid');
  const strong = inAll.abs().minus(against.protons);
  if (isPositive(inAll.abs()) && isPositive(against.protons) && !isPositive(strong)) {
    const names = against.names.join(' and ');
    return {
      words: `The pH of the liquor is not reckoned: ${names} would take up all the strong ${more} that is left.`,
    };
  }
  const pH = roughPh(strong, more, liquor);
  if (pH === undefined) return undefined;
  const full =
    more === 'alkali' && !isPositive(alkali) ? slight.find((one) => pH > Math.floor(one.most.toNumber())) : undefined;
  if (!full) return { pH: String(pH), words: `The liquor ends at about pH ${pH}, by the strong ${more} in excess.` };
  const most = full.most.toString();
  return {
    pH: most,
    words: `The liquor ends at pH ${most} at most: water takes no more of the ${full.name} in excess.`,
  };
}

const mmol = { unit: 'mmol', factor: 1000 };
/**
 * What acid and alkali leave of each other, and a rough pH where a strong one that dissolves is in excess; undefined
 * where there is neither.
 */
export function acidAndAlkali(
  { ingredients, neutralised }: Settled,
  limitation: LimitingReagent | undefined,
): SampleAmounts['acidAndAlkali'] {
  const acidic = acidsAndAlkalis(ingredients);
  const all = acidic.filter(({ nature }) => nature.strong);
  // Where they were set against each other, weak ones are counted in that.
  const weak = (kind: AcidBase['kind']): Weak => weakOf(kind, neutralised ? [] : acidic, limitation);
  if (all.length === 0 && !neutralised) return undefined;
  const liquor = liquidsOf(ingredients);
  const ending = liquor?.gt(0) ? endingOf(leftInWater(all, limitation), liquor, weak) : undefined;
  if (!neutralised && !ending) return undefined;
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
  const words = [first, ending?.words].filter(Boolean).join(' ');
  return { ...set, ...(ending?.pH !== undefined && { pH: ending.pH }), words };
}
