// A weighing list: a reaction and its reagents as they are, filled in or scaled to an amount of product, and rounded to the balance.
import {
  atomEconomy,
  exact,
  expandedUncertainty,
  molarMass,
  dividedBy,
  percentYield,
  printFormula,
  findLimitingReagent,
  suppliedBy,
  theoreticalYield,
  times,
  withoutUncertainty,
  type Decimal,
  type Equation,
  type UncertainDecimal,
  type LimitingReagent,
  type ReactantSupply,
  type Quantity,
  type Term,
  type TheoreticalYield,
} from '../chemistry/index.js';
import { bad, good, type Outcome } from '../outcome.js';
import { stuffFor, takePortion, type Portion, type TakenPortion } from '../reagents/index.js';

/** One line of the list before it is reckoned. */
export interface WeighingLine {
  readonly measure: Portion;
  readonly role: string;
  /** It may supply a reactant. */
  readonly takesPart: boolean;
}

export interface WeighedLine {
  readonly name: string;
  readonly formula?: string;
  readonly role: string;
  readonly excess: boolean;
  readonly drops?: Decimal;
  /** What is read on the balance or the vessel, as written: `5.54 g`. */
  readonly measured?: { readonly mass?: string; readonly volume?: string };
  readonly taken: TakenPortion;
  readonly equivalents?: UncertainDecimal;
  readonly limiting: boolean;
  readonly tooClose: boolean;
  /** Pure substance left, g. */
  readonly left?: UncertainDecimal;
  readonly leftSubstance?: UncertainDecimal;
  /** The amount was not given and is what the reaction asks for. */
  readonly filledIn: boolean;
}

export interface WeighingList {
  readonly lines: readonly WeighedLine[];
  readonly limiting?: string;
  readonly product: Term;
  readonly theoretical: TheoreticalYield;
  readonly atomEconomy?: UncertainDecimal;
  /** Every product with the most that can come of it. */
  readonly products: readonly { readonly label: string; readonly mass?: UncertainDecimal }[];
  /** By how much the amounts were scaled. */
  readonly factor?: Decimal;
  readonly remarks: readonly string[];
  readonly limitation: LimitingReagent;
}

export interface WeighingAsked {
  readonly equation: Equation;
  readonly product: Term;
  readonly lines: readonly WeighingLine[];
  /** Wanted amount of product, mol. */
  readonly wanted?: Decimal;
  /** Smallest step of the balance, g; masses are rounded to it when the list is filled in or scaled. */
  readonly step: Decimal;
}

const roundedTo = (value: Decimal, step: Decimal): Decimal => value.div(step).toDecimalPlaces(0).times(step);
/** Steps of the vessels of a small bench: 0.01 mL below 1 mL, 0.1 mL below 100 mL, 1 mL above. Common practice, no source. */
const volumeStep = (value: Decimal): Decimal => exact(value.lt(1) ? '0.01' : value.lt(100) ? '0.1' : '1');

const inBase = (dimension: Quantity['dimension'], unit: string, value: Decimal, step: Decimal): Quantity => {
  const rounded = roundedTo(value, step);
  return {
    written: `${rounded.toFixed(step.decimalPlaces())} ${unit}`,
    dimension,
    value: rounded,
    unit,
    base: rounded,
    baseUnit: unit,
    resolution: step,
  };
};

/** The same stuff, in an amount that can be weighed or measured out. */
function scaledMeasure(measure: Portion, factor: Decimal, step: Decimal): Portion {
  const { amount } = measure;
  if (!amount || amount.dimension === 'excess') return measure;
  const value = amount.base.times(factor);
  if (amount.dimension === 'mass') return { ...measure, amount: inBase('mass', 'g', value, step) };
  if (amount.dimension === 'volume') return { ...measure, amount: inBase('volume', 'mL', value, volumeStep(value)) };
  if (amount.dimension === 'drops') return { ...measure, amount: inBase('drops', 'drops', value, exact(1)) };
  return withStuff(measure, value, step);
}

/** A measure that holds so many moles, by mass or, for a solution by volume, by volume. */
function withStuff(measure: Portion, substance: Decimal, step: Decimal): Portion {
  const stuff = stuffFor(substance, measure);
  const byVolume = measure.strength !== undefined && measure.strength.dimension !== 'mass-percent';
  if (stuff.volume && (byVolume || (measure.density && measure.strength) || !stuff.mass))
    return { ...measure, amount: inBase('volume', 'mL', stuff.volume.value, volumeStep(stuff.volume.value)) };
  if (stuff.mass) return { ...measure, amount: inBase('mass', 'g', stuff.mass.value, step) };
  return measure;
}

/**
 * Reckons a weighing list.
 * Reagents without an amount are filled in with what the reaction asks for. With `wanted`, everything is scaled so that the
 * theoretical yield is the wanted amount. Masses are then rounded to the balance and the amounts reckoned again from them.
 * Errors: `nothing-limits` where no reagent has an amount and nothing is wanted; `no-yield` where the amounts cannot be told.
 */
export function weighingList({ equation, product, lines, wanted, step }: WeighingAsked): Outcome<WeighingList> {
  const remarks: string[] = [];
  const half = step.div(2);
  let measures = lines.map(({ measure }) => measure);
  const takePart = (all: readonly Portion[]): TakenPortion[] =>
    all.filter((_, index) => lines[index]!.takesPart).map(takePortion);
  const open = measures.map(
    (measure, index) =>
      !measure.amount &&
      lines[index]!.takesPart &&
      measure.formula !== undefined &&
      equation.reactants.some(({ formula }) => !suppliedBy(measure.formula!, formula).isZero()),
  );
  const first = findLimitingReagent(equation, takePart(measures.filter((_, index) => !open[index])), 'all');
  const wantedExtent = wanted?.div(product.coefficient);
  const extent = first.extent && !first.extent.value.isZero() ? first.extent.value : undefined;
  if (!extent && !wantedExtent) {
    const missing = measures.flatMap((measure) => takePortion(measure).missing)[0];
    if (first.extent)
      return bad({
        code: 'nothing-limits',
        message: `The amount of ${first.limiting!.term.label} comes to nothing, so nothing can be made.`,
        expected: 'an amount above 0',
        cure: 'Correct the amount, strength or purity.',
      });
    return bad(
      first.amountUnknown.length > 0 && missing
        ? missing
        : {
            code: 'nothing-limits',
            message: 'No reagent has an amount from which the rest could be reckoned.',
            cure: 'Give at least one reagent an amount, or say how much product is wanted with --for.',
          },
    );
  }
  const factor = wantedExtent && extent ? wantedExtent.div(extent) : undefined;
  const goal = wantedExtent ?? extent!;
  const filledIn = new Set<number>();
  measures = measures.map((measure, index) => {
    if (open[index]) {
      const term = equation.reactants.find(({ formula }) => !suppliedBy(measure.formula!, formula).isZero())!;
      filledIn.add(index);
      return {
        ...withStuff(measure, goal.times(term.coefficient).div(suppliedBy(measure.formula!, term.formula)), step),
        balance: half,
      };
    }
    return factor ? { ...scaledMeasure(measure, factor, step), balance: half } : measure;
  });

  const takens = measures.map(takePortion);
  const limitation = findLimitingReagent(
    equation,
    takens.filter((_, index) => lines[index]!.takesPart),
    'all',
  );
  if (!limitation.limiting || !limitation.extent || limitation.extent.value.isZero()) {
    const missing = takens.flatMap((taken) => taken.missing)[0];
    return bad(
      missing ?? {
        code: 'no-yield',
        message: 'The amounts do not tell what limits.',
        cure: 'Give each reagent an amount, or `excess`.',
      },
    );
  }
  const nameOf = new Map(takens.map(({ id, name }) => [id, name]));
  const shownLines = takens.map((taken, index): WeighedLine => {
    const supplies = limitation.reactants.filter(({ suppliedBy }) => suppliedBy.includes(taken.id));
    const scarcest = supplies
      .filter(({ equivalents }) => equivalents)
      .sort((a, b) => a.equivalents!.value.cmp(b.equivalents!.value))[0];
    const share = scarcest?.left && scarcest.amountOfSubstance && dividedBy(scarcest.left, scarcest.amountOfSubstance);
    const measure = measures[index]!;
    for (const { message } of lines[index]!.takesPart && !taken.substance && !taken.excess ? taken.missing : [])
      remarks.push(message);
    return {
      name: taken.name,
      ...(taken.formula && { formula: printFormula(taken.formula) }),
      role: lines[index]!.role,
      excess: taken.excess,
      taken,
      ...(measure.amount?.dimension === 'drops' && { drops: measure.amount.base }),
      ...((measure.amount?.dimension === 'mass' || measure.amount?.dimension === 'volume') && {
        measured: { [measure.amount.dimension]: measure.amount.written },
      }),
      ...(scarcest?.equivalents && { equivalents: scarcest.equivalents }),
      limiting: supplies.some(({ limiting }) => limiting),
      tooClose: supplies.some((supply) => limitation.possiblyLimiting.includes(supply)),
      ...(share &&
        taken.pure && {
          left: scarcest!.limiting ? withoutUncertainty(0) : times(taken.pure, share),
          leftSubstance: scarcest!.limiting ? withoutUncertainty(0) : times(taken.substance!, share),
        }),
      filledIn: filledIn.has(index),
    };
  });
  const called = (supply: ReactantSupply): string =>
    [...new Set(supply.suppliedBy.map((id) => nameOf.get(id)!))].join(' and ') || supply.term.label;
  if (limitation.possiblyLimiting.length > 0)
    remarks.push(
      `Too close to call: weighing cannot tell whether ${[limitation.limiting, ...limitation.possiblyLimiting].map(called).join(' or ')} runs out first.`,
    );
  for (const { label, formula } of limitation.assumedPresent)
    remarks.push(
      `No reagent supplies ${label}; it is taken to be there in excess${formula.charge === 0 && label === 'O2' ? ' (air)' : ''}.`,
    );
  for (const id of limitation.takingNoPart)
    if (lines.find(({ measure }) => measure.id === id)!.role === 'reactant')
      remarks.push(`${nameOf.get(id)!} takes no part in the reaction as it is written.`);
  const theoretical = theoreticalYield(limitation.extent, product);
  const { missing: asks } = theoretical;
  if (asks) remarks.push(`${asks.message} ${asks.cure ?? ''}`.trim());
  const economy = atomEconomy(equation, product);
  return good({
    lines: shownLines,
    limiting: called(limitation.limiting),
    product,
    theoretical,
    ...(economy.ok && { atomEconomy: economy.value }),
    products: equation.products
      .filter(({ formula }) => formula.parts.length > 0)
      .map((term) => ({ label: term.label, mass: theoreticalYield(limitation.extent!, term).mass })),
    ...(factor && { factor }),
    remarks,
    limitation,
  });
}

/** Percent yield of a list, with what a value above 100 % means; undefined where the product's mass cannot be told. */
export function yieldOf(
  list: WeighingList,
  obtained: UncertainDecimal,
): { readonly percent: UncertainDecimal; readonly overHundred: boolean } | undefined {
  const share = list.theoretical.mass && percentYield(obtained, list.theoretical.mass);
  if (!share?.ok) return undefined;
  const percent = share.value;
  return { percent, overHundred: percent.value.minus(expandedUncertainty(percent)).gt(100) };
}

/** Moles of product in a wanted mass or amount. */
export function wantedSubstance(quantity: Quantity, product: Term): Outcome<Decimal> {
  if (quantity.dimension === 'amount') return good(quantity.base);
  const mass = molarMass(product.formula);
  if (!mass.ok) return mass;
  if (quantity.dimension !== 'mass')
    return bad({
      code: 'wanted',
      message: `${quantity.written} is neither a mass nor an amount of product.`,
      cure: 'Write --for like "10 g".',
    });
  if (quantity.base.isZero())
    return bad({ code: 'wanted', message: 'No product is wanted.', cure: 'Write --for like "10 g".' });
  return good(quantity.base.div(mass.value.middle.value));
}
