// What a reaction as written says by itself: the gases among its products, and the by-products that stay in the vessel.
import { parseEquation, type Equation, type Term } from '../../chemistry/index.js';
import { memoise } from '../../memoise.js';
import { onceFor } from '../../once.js';
import { constituents, dryComposition, isWater, resolveNamed } from '../../reagents/index.js';
import { compareSeverity, type Foreseen, type MixedReagent, type Mixture, type WorstCase } from './contracts.js';
import { gasFacts, gasFormulae, gases, type Gas } from './gases.js';
import { roomCelsius } from './ruled-ingredient.js';
import { isHeatRule } from './rules.js';
import { worstCase } from './worst-case-gas.js';

const equationOf = memoise(
  (text: string) => text,
  (text): Equation | undefined => {
    const read = parseEquation(text);
    return read.ok ? read.value : undefined;
  },
  2000,
);

let byComposition: ReadonlyMap<string, Gas> | undefined;
const gasOfComposition = (dry: string): Gas | undefined => {
  byComposition ??= new Map([...gases().values()].reverse().map((gas) => [dryComposition(gas.formula), gas]));
  return byComposition.get(dry);
};

/** Fumes that are solids or liquids at room temperature: a product of that formula is no gas. */
const condensed = new Set(['PbO', 'CdO', 'Hg', 'I2', 'As4O6', 'SeO2']);
/** Up to here what dissolves stays in the liquid. */
const boiling = 100;

const hottestOf = ({ heating = [] }: Mixture): number =>
  Math.max(roomCelsius, ...heating.filter(({ of }) => of === 'mixture').map(({ toCelsius }) => toCelsius));

interface GasProduct {
  readonly product: Term;
  readonly gas: Gas;
  /** It stays in the liquid until that boils. */
  readonly stays: boolean;
}

/** The products of an equation that are gases. */
const gasProducts = onceFor((equation: Equation): readonly GasProduct[] =>
  equation.products.flatMap((product): readonly GasProduct[] => {
    const { formula } = product;
    const known = constituents(formula.written);
    const gas = known.ok ? gasOfComposition(known.value.dry) : undefined;
    if (!gas || condensed.has(gas.formula)) return [];
    return [{ product, gas, stays: gas.dissolves && formula.state !== 'g' }];
  }),
);

/** The gas at worst, from the reactant of known amount that runs out first. */
function worstOf({ coefficient }: Term, gas: Gas, equation: Equation, mixture: Mixture): WorstCase | undefined {
  const [least] = mixture.ingredients
    .flatMap(({ reagent: { name, substance, taken } }) => {
      const term = equation.reactants.find(
        ({ formula }) => substance && dryComposition(formula.written) === substance.constituents.dry,
      );
      return term && taken.molAtMost ? [{ name, extent: taken.molAtMost.div(term.coefficient) }] : [];
    })
    .sort((a, b) => a.extent.cmp(b.extent));
  return least && worstCase([{ formula: gas.formula, mol: least.extent.times(coefficient) }], least.name, mixture);
}

/** From here on what gives off carbon dioxide is a dry solid, and nothing froths. */
const kiln = 300;

function consequenceOf({ formula, severity }: Gas, { heating = [] }: Mixture): string {
  if (formula === 'CO2') return heating.some(({ toCelsius }) => toCelsius >= kiln) ? 'asphyxiant gas' : 'foaming';
  if (severity === 'danger') return 'toxic gas';
  return formula === 'H2' ? 'flammable gas' : 'gas pressure';
}

/** A heating drives off what is in the thing that is heated, and no more than that: the reaction may give more. */
const isOfLess = ({ rule, worstCase }: Foreseen, worst: WorstCase | undefined): boolean =>
  isHeatRule(rule) &&
  worstCase !== undefined &&
  worst !== undefined &&
  Number(worstCase.mol) < Number(worst.mol) * 0.99;

const toldAlready = (gas: Gas, worst: WorstCase | undefined, already: readonly Foreseen[]): boolean =>
  already.some(
    (one) =>
      one.gas &&
      gasFormulae(one.gas).includes(gas.formula) &&
      compareSeverity(one.severity, gas.severity) <= 0 &&
      !isOfLess(one, worst),
  );

/** Whether the reaction as written names a gas among its products. */
export function givesGas({ reaction }: Pick<Mixture, 'reaction'>): boolean {
  const equation = reaction === undefined ? undefined : equationOf(reaction);
  return equation !== undefined && gasProducts(equation).length > 0;
}

/**
 * Hazards told by rules, with more gas where the reaction as written gives more of it than the rule's own equation:
 * zinc makes 3 CO2 of 5 carbonate, copper 1 of 2. What heat drives off one of them is told by itself.
 */
export function withGasOfReaction(mixture: Mixture, told: readonly Foreseen[]): readonly Foreseen[] {
  const equation = mixture.reaction === undefined ? undefined : equationOf(mixture.reaction);
  const raised = new Map<Foreseen, WorstCase>();
  for (const { product, gas, stays } of equation ? gasProducts(equation) : []) {
    const [most] = told
      .filter((one) => one.gas === gas.formula && one.worstCase !== undefined && !isHeatRule(one.rule))
      .sort((x, y) => Number(y.worstCase!.mol) - Number(x.worstCase!.mol));
    if (!most || stays) continue;
    const worst = worstOf(product, gas, equation!, mixture);
    if (worst && Number(worst.mol) > Number(most.worstCase!.mol)) raised.set(most, worst);
  }
  if (raised.size === 0) return told;
  return told.map((one) => ({ ...one, ...(raised.has(one) && { worstCase: raised.get(one)! }) }));
}

/** A gas that the reaction as written names among its products, where no rule tells of it already. */
export function reactionGasHazards(mixture: Mixture, already: readonly Foreseen[]): readonly Foreseen[] {
  const { reaction } = mixture;
  const equation = reaction === undefined ? undefined : equationOf(reaction);
  const possible = equation ? gasProducts(equation) : [];
  if (!equation || possible.length === 0) return [];
  const hottest = hottestOf(mixture);
  return possible.flatMap(({ product, gas, stays }): readonly Foreseen[] => {
    if (stays && hottest < boiling) return [];
    const worst = worstOf(product, gas, equation, mixture);
    if (toldAlready(gas, worst, already)) return [];
    return [
      {
        rule: `reaction-gives-${gas.name.replaceAll(/[^a-z]+/gi, '-').toLowerCase()}`,
        severity: gas.severity,
        title: `the reaction as written gives ${gas.name}`,
        consequence: consequenceOf(gas, mixture),
        partners: equation.reactants.map(({ label }) => label).sort(),
        gas: gas.formula,
        gases: gasFacts(gas.formula),
        equation: reaction!,
        ...(worst && { worstCase: worst }),
        condition: 'named among the products of the reaction',
        precaution: 'Ventilate to the outside; small portions; a vessel with room, never closed.',
        source: 'the reaction as written',
        basis: 'reaction',
        answers: [gas.formula.toLowerCase(), gas.name, ...gas.aliases],
      },
    ];
  });
}

/**
 * The reaction's by-products, which stay in the vessel: the acid that is set free counts; water, gases and the
 * product do not.
 */
export function byProductsOf({
  ingredients,
  reaction,
}: Pick<Mixture, 'ingredients' | 'reaction'>): readonly MixedReagent[] {
  const equation = reaction === undefined ? undefined : equationOf(reaction);
  const staying = equation ? stayingProducts(equation) : [];
  if (staying.length === 0) return [];
  const present = new Set(ingredients.map(({ reagent }) => reagent.substance?.constituents.dry));
  return staying.flatMap(({ dry, made }) => (present.has(dry) ? [] : [made]));
}

interface StayingProduct {
  readonly dry: string;
  readonly made: MixedReagent;
}

/** Products of an equation that do not leave the vessel, and are no water. */
const stayingProducts = onceFor((equation: Equation): readonly StayingProduct[] =>
  equation.products.flatMap(({ formula, label }): readonly StayingProduct[] => {
    const known = constituents(formula.written);
    if (!known.ok || formula.charge !== 0 || isWater(formula)) return [];
    const { dry } = known.value;
    const gas = gasOfComposition(dry);
    if (gas && !gas.dissolves) return [];
    return [{ dry, made: { reagent: resolveNamed(label, formula.written), made: 'by-product' } }];
  }),
);
