// The chemistry of one entry: amounts, limiting reagent, yields, balances, cost, for each sample.
import {
  atomEconomy,
  balancedOrAfresh,
  composition,
  exact,
  expandedUncertainty,
  imbalances,
  imbalanceSentence,
  minus,
  molarMass,
  dividedBy,
  parseFormula,
  percentYield,
  plus,
  productAsWeighed,
  printEquation,
  findLimitingReagent,
  reading,
  scaled,
  suppliedBy,
  take,
  theoreticalYield,
  times,
  typeset,
  withoutWater,
  type Decimal,
  type Equation,
  type UncertainDecimal,
  type LimitingReagent,
  type ReactantSupply,
  type Term,
  type Typeset,
} from '../chemistry/index.js';
import type { Entry } from '../journal/entry.js';
import { placeOf, type Path } from '../journal/place.js';
import { remark, type Remark, type Severity } from '../journal/remarks.js';
import { compare, type Comparison, type Result } from './comparison.js';
import type { ReckoningContext } from './context.js';
import { costOf, moneyFigure, sumOf, type Money } from './cost.js';
import { bareFigure, figure } from './figures.js';
import { anhydrousWords, usualHydrate } from './hydrates.js';
import { ingredientsOf, type Ingredient } from './ingredients.js';
import { lineageOf, type LineageNode, type LotStock } from './lots.js';
import { metalAccounts, type MetalAccount } from './metals.js';
import type { Figure } from './reckoned.js';
import { equationOf, formulaOf, quantityOf } from './remembered.js';

export type { Comparison } from './comparison.js';
export { lotsOf, type LineageNode, type LotStock } from './lots.js';
export type { MetalAccount } from './metals.js';

/** One reagent as it went into one sample. */
export interface IngredientAmounts {
  /** Shelf id, lot (`9/A`) or name, as the entry refers to it. */
  readonly id: string;
  readonly name: string;
  readonly formula?: string;
  readonly formulaSet?: Typeset;
  readonly role: string;
  /** It is a lot made earlier: `9/A`. */
  readonly lot?: string;
  /** The amount as written. */
  readonly written?: string;
  /** Taken in excess, without an amount. */
  readonly excess?: boolean;
  /** Mass and volume as taken, impurities and solvent included. */
  readonly mass?: Figure;
  readonly volume?: Figure;
  /** Amount of the pure substance; value in mol, shown in mmol. */
  readonly amount?: Figure;
  /** Mass of the pure substance, g. */
  readonly pure?: Figure;
  /** Amount divided by the coefficient, relative to the limiting reagent: 1 is just enough. */
  readonly equivalents?: Figure;
  readonly limiting: boolean;
  /** Its amount cannot be told from the limiting one's by weighing. */
  readonly tooClose?: boolean;
  /** Pure substance left when the limiting reagent is used up, g. */
  readonly left?: Figure;
  /** Reactants of the equation that it supplies, as they are written there. */
  readonly supplies?: readonly string[];
  readonly cost?: Figure;
}

export interface SampleAmounts {
  readonly sample: string;
  readonly ingredients: readonly IngredientAmounts[];
  /** Name of what limits. */
  readonly limiting?: string;
  /** A sentence where weighing cannot tell which of several limits. */
  readonly tooCloseToCall?: string;
  readonly theoreticalYield?: Figure;
  readonly obtained?: Figure;
  readonly percentYield?: Figure;
  /** What a yield above 100 % means, in a sentence. */
  readonly overHundred?: string;
  /** Percent yield over all steps from bought reagents; absent where nothing was made earlier. */
  readonly cumulativeYield?: Figure;
  /** Mass of all that was used for a gram of product. */
  readonly massIntensity?: Figure;
  /** Cost of what went in, where every price is known. */
  readonly cost?: Figure;
  readonly costPerGram?: Figure;
  /** Names of what has no price. */
  readonly unpriced?: readonly string[];
  readonly metals?: readonly MetalAccount[];
  readonly lineage?: LineageNode;
  readonly replicateOf?: string;
}

/** Mass taken from an earlier lot by one sample. */
export interface LotTaken {
  readonly lot: string;
  readonly sample: string;
  /** g; absent where the amount is not known. */
  readonly mass?: Figure;
}

export interface AmountsReckoning {
  readonly reaction?: {
    readonly written: string;
    readonly balanced: boolean;
    readonly fault?: string;
    /** Each substance with its coefficient, ready for a page. */
    readonly reactants?: readonly { readonly coefficient: string; readonly formula: Typeset }[];
    readonly products?: readonly { readonly coefficient: string; readonly formula: Typeset }[];
  };
  readonly product?: { readonly formula: string; readonly formulaSet?: Typeset; readonly molarMass?: Figure };
  readonly atomEconomy?: Figure;
  /** Reactants that no reagent supplies and that are taken to be ample: water, oxygen of the air. */
  readonly assumed?: readonly string[];
  readonly samples: readonly SampleAmounts[];
  readonly comparisons?: readonly Comparison[];
  readonly lotsTaken?: readonly LotTaken[];
  /** What is left of this entry's samples that later entries took as lots; known when the whole journal is reckoned. */
  readonly stock?: readonly LotStock[];
}

const mmol = { unit: 'mmol', factor: 1000 };

/** Gathers remarks, each once, and finds their places. */
class Remarks {
  readonly all: Remark[] = [];
  private readonly said = new Set<string>();
  constructor(private readonly entry: Entry) {}
  add(severity: Severity, rule: string, path: Path, found: string, cure: string, actual?: string): void {
    const name = `${rule} ${path.join('/')} ${found}`;
    if (this.said.has(name)) return;
    this.said.add(name);
    this.all.push(remark({ place: placeOf(this.entry, path), severity, rule, found, cure, actual }));
  }
}

const coefficientText = ({ coefficient }: Term): string => (coefficient.eq(1) ? '' : coefficient.toString());
const setSide = (side: readonly Term[]): { coefficient: string; formula: Typeset }[] =>
  side.map((term) => ({
    coefficient: coefficientText(term),
    formula: typeset(term.formula.state ? `${term.label}(${term.formula.state})` : term.label),
  }));

/** The equation of the entry, balanced as it is written. */
function readReaction(
  entry: Entry,
  remarks: Remarks,
): { reaction?: AmountsReckoning['reaction']; equation?: Equation } {
  const written = entry.reaction;
  if (written === undefined) return {};
  const parsed = equationOf(written);
  if (!parsed.ok) {
    const { message, column, cure } = parsed.fault;
    remarks.add(
      'error',
      'reaction',
      ['reaction'],
      `The reaction cannot be read${column === undefined ? '' : ` at its column ${column}`}: ${message}`,
      cure ?? 'Write it like CuSO4 + Na2CO3 -> CuCO3 + Na2SO4.',
      written,
    );
    return { reaction: { written, balanced: false, fault: message } };
  }
  const equation = parsed.value;
  for (const doubt of equation.doubts)
    remarks.add(
      'note',
      doubt.code,
      ['reaction'],
      doubt.message,
      doubt.cure ?? 'Write it in a way that can be read in one way only.',
      written,
    );
  const shown = { reactants: setSide(equation.reactants), products: setSide(equation.products) };
  const off = imbalances(equation);
  if (off.length === 0) return { reaction: { written, balanced: true, ...shown }, equation };
  const sentence = imbalanceSentence(off);
  const afresh = balancedOrAfresh(equation);
  remarks.add(
    'error',
    'reaction-unbalanced',
    ['reaction'],
    `The reaction does not balance. ${sentence}`,
    afresh.ok
      ? `Write ${printEquation(afresh.value.equation)}`
      : `${afresh.fault.message} ${afresh.fault.cure ?? ''}`.trim(),
    written,
  );
  return { reaction: { written, balanced: false, fault: sentence, ...shown } };
}

/** The product of the equation that the entry calls its pigment. */
function findProduct(entry: Entry, equation: Equation, remarks: Remarks): Term | undefined {
  const text = entry.pigment?.formula;
  if (text === undefined) {
    if (equation.products.length === 1) return equation.products[0];
    remarks.add(
      'note',
      'product-not-named',
      ['reaction'],
      'Nothing says which product of the reaction is the pigment, so no yield is reckoned.',
      `Add its formula under pigment:, one of ${equation.products.map(({ label }) => label).join(', ')}.`,
    );
    return undefined;
  }
  const pigment = formulaOf(text);
  if (!pigment.ok) return undefined;
  const same = equation.products.find(({ formula }) => !suppliedBy(pigment.value, formula).isZero());
  if (same) {
    const weighed = productAsWeighed(same, pigment.value, text);
    if (weighed !== same)
      remarks.add(
        'note',
        'product-hydrate',
        ['pigment', 'formula'],
        `The reaction makes ${same.label}; the yield is reckoned as ${text}.`,
        'Write the same formula in both places, if it is one substance.',
        text,
      );
    return weighed;
  }
  // A pigment of changing composition (`FeO(OH)·nH2O`, a range) is found by its elements.
  const dry = [...composition(withoutWater(pigment.value) ?? pigment.value)];
  const open = dry.some(([, { low, high, unknown }]) => unknown || !low.eq(high));
  const symbols = dry
    .map(([symbol]) => symbol)
    .sort()
    .join(' ');
  const alike = open
    ? equation.products.find(({ formula }) => [...composition(formula).keys()].sort().join(' ') === symbols)
    : undefined;
  if (!alike)
    remarks.add(
      'warning',
      'product-not-in-reaction',
      ['pigment', 'formula'],
      `The reaction makes no ${text}, so no yield is reckoned.`,
      `Give the pigment a formula that stands among the products: ${equation.products.map(({ label }) => label).join(', ')}.`,
      text,
    );
  return alike;
}

/** Roles whose reagents do not react; water as solvent still supplies water. */
const bystanders = new Set(['wash', 'additive', 'flux']);
const takesPart = ({ use, formula }: Ingredient): boolean =>
  !bystanders.has(use.role ?? 'reactant') && (use.role !== 'solvent' || formula === 'H2O');

interface SampleReckoning {
  readonly assumed: readonly string[];
  readonly amounts: SampleAmounts;
  readonly result: Result;
  readonly taken: readonly LotTaken[];
}

/**
 * Reckons the amounts of an entry.
 * What is not written is not guessed: a sample without amounts has no yield, a product without formula no account.
 */
export function reckonAmounts(
  entry: Entry,
  context: ReckoningContext,
): { amounts: AmountsReckoning; remarks: Remark[] } {
  const remarks = new Remarks(entry);
  const balance = balanceOf(context);
  const { reaction, equation } = readReaction(entry, remarks);
  const product = equation && findProduct(entry, equation, remarks);
  const pigmentText = product?.label ?? entry.pigment?.formula;
  const pigment = pigmentText === undefined ? undefined : formulaOf(pigmentText);
  if (pigment?.ok)
    for (const doubt of pigment.value.doubts)
      remarks.add('note', doubt.code, ['pigment', 'formula'], doubt.message, doubt.cure ?? '', pigmentText);
  const mass = pigment?.ok ? molarMass(pigment.value) : undefined;
  const indices = entry.samples.length > 0 ? entry.samples.map((_, index): number | undefined => index) : [undefined];
  const reckoned =
    entry.samples.length === 0 && entry.reagents.length === 0
      ? []
      : indices.map((index) => reckonSample(entry, index, context, balance, equation, product, remarks));
  const comparisons = compare(reckoned.map(({ result }) => result));
  const lotsTaken = reckoned.flatMap(({ taken }) => taken);
  const assumed = [...new Set(reckoned.flatMap((one) => one.assumed))];
  const economy = equation && product && atomEconomy(equation, product);
  return {
    amounts: {
      ...(reaction && { reaction }),
      ...(pigmentText !== undefined && {
        product: {
          formula: pigmentText,
          formulaSet: typeset(pigmentText),
          ...(mass?.ok && { molarMass: figure(mass.value.middle, 'g/mol') }),
        },
      }),
      // It is a measure of the reaction, not of the work: a tenth of a per cent is enough for a reader.
      ...(economy && { atomEconomy: { ...figure(economy, '%'), text: `${economy.value.toFixed(1)} %` } }),
      ...(assumed.length > 0 && { assumed }),
      samples: reckoned.map(({ amounts }) => amounts),
      ...(comparisons.length > 0 && { comparisons }),
      ...(lotsTaken.length > 0 && { lotsTaken }),
    },
    remarks: remarks.all,
  };
}

/** Half-width of a reading of the journal's balance, g. */
function balanceOf(context: ReckoningContext): Decimal | undefined {
  const written = context.settings.balance;
  const quantity = written === undefined ? undefined : quantityOf(written);
  return quantity?.ok && quantity.value.dimension === 'mass' ? quantity.value.base.div(2) : undefined;
}

function reckonSample(
  entry: Entry,
  index: number | undefined,
  context: ReckoningContext,
  balance: Decimal | undefined,
  equation: Equation | undefined,
  product: Term | undefined,
  remarks: Remarks,
): SampleReckoning {
  const sample = index === undefined ? undefined : entry.samples[index]!;
  const id = sample?.sample ?? '';
  const ingredients = ingredientsOf(entry, index, context, balance);
  const partners = ingredients.filter(takesPart);
  const limitation =
    equation &&
    findLimitingReagent(
      equation,
      partners.map(({ taken }) => taken),
    );
  const byId = new Map(ingredients.map((ingredient) => [ingredient.taken.id, ingredient]));

  if (equation && limitation) remarkOnLimitingReagent(limitation, equation, partners, byId, remarks);
  for (const ingredient of ingredients)
    remarkOnIngredient(ingredient, limitation, equation, partners, balance, remarks);

  // An amount of zero of what limits makes nothing; a share of nothing cannot be told.
  const extent = limitation?.extent && !limitation.extent.value.isZero() ? limitation.extent : undefined;
  const theoretical = extent && product && theoreticalYield(extent, product);
  const obtained = obtainedMass(entry, index, balance);
  const percent = obtained && theoretical ? percentYield(obtained, theoretical.mass) : undefined;
  const overHundred =
    percent && obtained && theoretical && index !== undefined
      ? aboveAll(percent, obtained, ingredients, ['samples', index, 'obtained'], sample!.obtained!, remarks)
      : undefined;
  const limitingFrom = limitation?.limiting?.suppliedBy.map((from) => byId.get(from)!) ?? [];

  const costs = ingredients.map((ingredient): { ingredient: Ingredient; cost: Money | undefined } => ({
    ingredient,
    cost: costOf(ingredient, context.settings.currency),
  }));
  const unpriced = [...new Set(costs.filter(({ cost }) => !cost).map(({ ingredient }) => ingredient.name))];
  const cost = unpriced.length === 0 ? sumOf(costs.flatMap((one) => one.cost ?? [])) : undefined;
  const weighed =
    ingredients.every(({ taken }) => taken.mass) && ingredients.length > 0
      ? ingredients.map(({ taken }) => taken.mass!).reduce(plus)
      : undefined;
  const gained = obtained && !obtained.value.isZero() ? obtained : undefined;
  const perMole = product && molarMass(product.formula);
  const metals =
    gained && product && perMole?.ok
      ? metalAccounts(
          ingredients,
          { formula: product.formula, substance: dividedBy(gained, perMole.value.middle) },
          ingredients.some(({ use, taken }) => use.role === 'solvent' || taken.volume !== undefined),
        )
      : [];
  const earlier = limitingFrom.find(({ lotFacts }) => lotFacts?.cumulativeYield);
  const cumulative =
    percent && earlier ? scaled(percent, exact(earlier.lotFacts!.cumulativeYield!.value).div(100)) : undefined;
  const lineage = lineageOf(entry, id, ingredients);
  const supplyOf = new Map<string, ReactantSupply[]>();
  for (const supply of limitation?.reactants ?? [])
    for (const from of supply.suppliedBy) supplyOf.set(from, [...(supplyOf.get(from) ?? []), supply]);
  const tooClose =
    limitation && limitation.possiblyLimiting.length > 0 ? tooCloseSentence(limitation, byId) : undefined;
  const limiting =
    limitingFrom.length > 0
      ? [...new Set(limitingFrom.map(({ name }) => name))].join(' and ')
      : limitation?.limiting?.term.label;

  return {
    assumed: limitation?.assumedPresent.map(({ label }) => label) ?? [],
    amounts: {
      sample: id,
      ingredients: costs.map(({ ingredient, cost: money }) =>
        shown(ingredient, supplyOf.get(ingredient.taken.id) ?? [], limitation, money),
      ),
      ...(limiting !== undefined && { limiting }),
      ...(tooClose && { tooCloseToCall: tooClose }),
      ...(theoretical && { theoreticalYield: figure(theoretical.mass, 'g') }),
      ...(obtained && { obtained: figure(obtained, 'g') }),
      ...(percent && { percentYield: figure(percent, '%') }),
      ...(overHundred && { overHundred }),
      ...(cumulative && { cumulativeYield: figure(cumulative, '%') }),
      ...(weighed && gained && { massIntensity: figure(dividedBy(weighed, gained), 'g/g') }),
      ...(cost && { cost: moneyFigure(cost) }),
      ...(cost &&
        gained && { costPerGram: moneyFigure({ value: cost.value.div(gained.value), currency: cost.currency }) }),
      ...(unpriced.length > 0 && { unpriced }),
      ...(metals.length > 0 && { metals }),
      ...(lineage && { lineage }),
      ...(sample?.['replicate-of'] !== undefined && { replicateOf: sample['replicate-of'] }),
    },
    result: {
      sample: id,
      replicateOf: sample?.['replicate-of'],
      ...(percent && { percentYield: percent }),
      ...(obtained && { obtained }),
    },
    taken: ingredients.flatMap(({ lot, taken, measure, use }) =>
      lot === undefined
        ? []
        : [
            {
              lot,
              sample: id,
              ...(taken.mass && {
                mass:
                  measure.amount?.unit === 'g'
                    ? { ...bareFigure(taken.mass, 'g'), text: use.amount! }
                    : bareFigure(taken.mass, 'g'),
              }),
            },
          ],
    ),
  };
}

function shown(
  ingredient: Ingredient,
  supplies: readonly ReactantSupply[],
  limitation: LimitingReagent | undefined,
  money: Money | undefined,
): IngredientAmounts {
  const { id, name, formula, lot, use, taken, measure } = ingredient;
  const limiting = supplies.some((supply) => supply.limiting);
  // Of several reactants that one reagent supplies, the one it runs out of first counts.
  const scarcest = supplies
    .filter(({ equivalents }) => equivalents)
    .sort((a, b) => a.equivalents!.value.cmp(b.equivalents!.value))[0];
  const left =
    scarcest?.left &&
    taken.substance &&
    taken.molarMass &&
    scarcest.amountOfSubstance &&
    !scarcest.amountOfSubstance.value.isZero()
      ? times(taken.pure!, dividedBy(scarcest.left, scarcest.amountOfSubstance))
      : undefined;
  const asWritten = (figureOf: Figure, unit: string): Figure =>
    measure.amount?.unit === unit ? { ...figureOf, text: use.amount! } : figureOf;
  return {
    id,
    name,
    ...(formula !== undefined && { formula, formulaSet: typeset(formula) }),
    role: use.role ?? 'reactant',
    ...(lot !== undefined && { lot }),
    ...(use.amount !== undefined && { written: use.amount }),
    ...(taken.excess && { excess: true }),
    ...(taken.mass && { mass: asWritten(bareFigure(taken.mass, 'g'), 'g') }),
    ...(taken.volume && { volume: asWritten(bareFigure(taken.volume, 'mL'), 'mL') }),
    ...(taken.substance && { amount: bareFigure(taken.substance, 'mol', mmol) }),
    ...(taken.pure && { pure: bareFigure(taken.pure, 'g') }),
    ...(scarcest?.equivalents && {
      equivalents: {
        ...bareFigure(scarcest.equivalents, ''),
        text: scarcest.limiting ? '1' : bareFigure(scarcest.equivalents, '').text.trim(),
      },
    }),
    limiting,
    ...(supplies.some((supply) => limitation?.possiblyLimiting.includes(supply)) && { tooClose: true }),
    ...(left && { left: { ...bareFigure(left, 'g'), ...(scarcest!.limiting && { text: '0 g' }) } }),
    ...(supplies.length > 0 && { supplies: supplies.map(({ term }) => term.label) }),
    ...(money && { cost: moneyFigure(money) }),
  };
}

function obtainedMass(
  entry: Entry,
  index: number | undefined,
  balance: Decimal | undefined,
): UncertainDecimal | undefined {
  const written = index === undefined ? undefined : entry.samples[index]!.obtained;
  const quantity = written === undefined ? undefined : quantityOf(written);
  return quantity?.ok && quantity.value.dimension === 'mass'
    ? reading(quantity.value, `reading:${entry.samples[index!]!.sample}/obtained`, balance)
    : undefined;
}

const tooCloseSentence = (limitation: LimitingReagent, byId: ReadonlyMap<string, Ingredient>): string => {
  const nameOf = ({ suppliedBy, term }: ReactantSupply): string =>
    suppliedBy.length > 0 ? suppliedBy.map((one) => byId.get(one)!.name).join(' and ') : term.label;
  return `Too close to call: weighing cannot tell whether ${[limitation.limiting!, ...limitation.possiblyLimiting].map(nameOf).join(' or ')} runs out first.`;
};

function aboveAll(
  percent: UncertainDecimal,
  obtained: UncertainDecimal,
  ingredients: readonly Ingredient[],
  path: Path,
  written: string,
  remarks: Remarks,
): string | undefined {
  if (percent.value.minus(expandedUncertainty(percent)).lte(100)) return undefined;
  const { text } = figure(percent, '%');
  const all = ingredients.map(({ taken }) => taken.mass);
  if (all.every((mass) => mass) && all.length > 0) {
    const total = all.map((mass) => mass!).reduce(plus);
    if (minus(obtained, total).value.gt(expandedUncertainty(minus(obtained, total)))) {
      remarks.add(
        'warning',
        'more-than-went-in',
        path,
        `More came out (${written}) than all that went in (${figure(total, 'g').text}).`,
        'Check the weighing and the amounts.',
        written,
      );
      return `A yield of ${text} is impossible: more came out than went in. One of the figures is wrong.`;
    }
  }
  remarks.add(
    'warning',
    'above-100-percent',
    path,
    `The yield is ${text}: more than the reaction can give, and more than weighing can explain.`,
    'Dry and weigh again, wash out salts, or correct the formula (a hydrate?) or the amounts.',
    written,
  );
  return `A yield above 100 % cannot all be the pure pigment: the product is still wet or holds salts or unspent reagent, or it is not quite what its formula says (a hydrate, for example).`;
}

function remarkOnLimitingReagent(
  limitation: LimitingReagent,
  equation: Equation,
  partners: readonly Ingredient[],
  byId: ReadonlyMap<string, Ingredient>,
  remarks: Remarks,
): void {
  for (const term of limitation.unsupplied) {
    remarks.add(
      'warning',
      'reactant-without-reagent',
      ['reaction'],
      `Nothing among the reagents supplies ${term.label}, so the limiting reagent and the yield are not reckoned.`,
      `Add the reagent, with amount: excess if it was not measured (air, water), or correct the formula of one that is there.`,
      term.label,
    );
  }
  for (const idle of limitation.takingNoPart) {
    const ingredient = byId.get(idle)!;
    if ((ingredient.use.role ?? 'reactant') !== 'reactant') continue;
    remarks.add(
      'note',
      'takes-no-part',
      ingredient.path,
      `${ingredient.name} (${ingredient.formula}) takes no part in the reaction as it is written.`,
      `Give it a role (solvent, additive, flux, wash), or write it into the reaction: ${equation.reactants.map(({ label }) => label).join(', ')} are there now.`,
      ingredient.id,
    );
  }
  const limiting = new Set(limitation.limiting?.suppliedBy ?? []);
  const close = new Set(limitation.possiblyLimiting.flatMap(({ suppliedBy }) => suppliedBy));
  const limits =
    limitation.limiting === undefined
      ? ''
      : limitation.limiting.suppliedBy.map((one) => byId.get(one)!.name).join(' and ') ||
        limitation.limiting.term.label;
  for (const { use, path, taken, name } of partners) {
    if (limitation.limiting === undefined || use.intent === undefined) continue;
    const at: Path = [...path, 'amount'];
    if (use.intent === 'excess' && limiting.has(taken.id)) {
      remarks.add(
        'warning',
        'limits-though-meant-in-excess',
        at,
        `${name} is meant to be in excess, but it ${close.size > 0 ? 'may be what limits: weighing cannot tell' : 'limits'}.`,
        'Take more of it, or correct the intent or the formula (a hydrate weighs more).',
        use.amount,
      );
    } else if (use.intent === 'excess' && close.has(taken.id)) {
      remarks.add(
        'warning',
        'limits-though-meant-in-excess',
        at,
        `${name} is meant to be in excess, but weighing cannot tell it from what limits (${limits}).`,
        'Take more of it, or correct the intent.',
        use.amount,
      );
    } else if (use.intent === 'limiting' && !limiting.has(taken.id) && !close.has(taken.id) && !taken.excess) {
      remarks.add(
        'warning',
        'does-not-limit',
        at,
        `${name} is meant to limit, but ${limits} does.`,
        'Take more of the other, or correct the intent.',
        use.amount,
      );
    }
  }
}

function remarkOnIngredient(
  ingredient: Ingredient,
  limitation: LimitingReagent | undefined,
  equation: Equation | undefined,
  partners: readonly Ingredient[],
  balance: Decimal | undefined,
  remarks: Remarks,
): void {
  const { taken, measure, path, name, use, formula } = ingredient;
  const { amount } = measure;
  if (measure.formula)
    for (const doubt of measure.formula.doubts)
      remarks.add('note', doubt.code, path, doubt.message, doubt.cure ?? '', formula);
  const matters = takesPart(ingredient) && use.role !== 'solvent';
  if (matters && equation && !taken.excess && amount)
    for (const fault of taken.missing)
      remarks.add('note', fault.code, [...path, 'amount'], fault.message, fault.cure ?? '', use.amount);
  if (
    amount?.dimension === 'mass' &&
    balance &&
    !amount.tolerance &&
    !amount.standardUncertainty &&
    amount.resolution.times(amount.base.div(amount.value.isZero() ? 1 : amount.value)).lt(balance.times(2)) &&
    !amount.base.mod(balance.times(2)).isZero()
  ) {
    remarks.add(
      'note',
      'finer-than-the-balance',
      [...path, 'amount'],
      `${use.amount} is written more finely than the journal’s balance can weigh.`,
      'Write what the balance showed, or give this reading its own ± if another balance was used.',
      use.amount,
    );
  }
  if (measure.purity?.base.gt(100))
    remarks.add(
      'warning',
      'purity-above-100',
      path,
      `A purity of ${measure.purity.written} is not possible.`,
      'Correct the purity.',
      measure.purity.written,
    );
  if (measure.strength?.dimension === 'mass-percent' && measure.strength.base.gt(100))
    remarks.add(
      'warning',
      'strength-above-100',
      path,
      `A strength of ${measure.strength.written} is not possible.`,
      'Correct the strength.',
      measure.strength.written,
    );
  if (amount && amount.dimension !== 'excess' && amount.base.isZero())
    remarks.add(
      'warning',
      'nothing-taken',
      [...path, 'amount'],
      `An amount of ${use.amount} of ${name} is nothing.`,
      'Omit it from the sample instead.',
      use.amount,
    );
  askForHydrate(ingredient, limitation, equation, partners, remarks);
}

/** Asks about a salt that is usually sold as a hydrate and written without its water. */
function askForHydrate(
  { formula, name, shelf, use, path, measure, taken, lot }: Ingredient,
  limitation: LimitingReagent | undefined,
  equation: Equation | undefined,
  partners: readonly Ingredient[],
  remarks: Remarks,
): void {
  if (formula === undefined || lot !== undefined || measure.amount?.dimension !== 'mass' || measure.strength) return;
  const hydrate = usualHydrate(formula);
  if (
    hydrate === undefined ||
    anhydrousWords.test([name, ...(shelf?.['also-called'] ?? []), shelf?.grade, shelf?.note, use.note].join(' '))
  )
    return;
  const asHydrate = parseFormula(hydrate);
  if (!asHydrate.ok) return;
  let changes = '';
  if (equation && limitation?.limiting) {
    const again = findLimitingReagent(
      equation,
      partners.map((partner) =>
        partner.taken.id === taken.id ? take({ ...measure, formula: asHydrate.value }) : partner.taken,
      ),
    );
    if (again.limiting && again.limiting.term.label !== limitation.limiting.term.label)
      changes = ` As the hydrate, ${again.limiting.term.label} would limit instead of ${limitation.limiting.term.label}.`;
  }
  remarks.add(
    changes === '' ? 'note' : 'warning',
    'hydrate-or-not',
    path,
    `${name} is written as ${formula}, without water; it is often sold as ${hydrate}.${changes}`,
    `Look at the label: write ${hydrate}, or call it anhydrous in its name.`,
    formula,
  );
}
