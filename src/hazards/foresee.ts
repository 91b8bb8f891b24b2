// What can be foreseen when the things in a mixture meet and are heated: rules on groups, never on names.
import { exact, parseEquation, type Decimal } from '../chemistry/index.js';
import { strongEnough, type Condition, type Side } from './conditions.js';
import { constituents, dryComposition, isWater, resolveNamed } from '../reagents/index.js';
import type { Foreseen, ForeseenSeverity, Foresight, Mixture, MixedReagent, WorstCase } from './foreseen.js';
import { aboveDangerLevel, gasFacts, gasFormulae, gases, worstCase, type Gas } from './gas-reckoning.js';
import { heatRules, pairRules, type HeatRule, type PairRule } from './rules.js';
import { resolveMixture, type ResolvedMixture, type RuledIngredient } from './resolve-mixture.js';

const rank: Readonly<Record<ForeseenSeverity, number>> = { danger: 0, warning: 1, note: 2 };
/** Dangers first; then by the name of the rule, so that the order of ingredients never matters. */
const bySeverity = (a: Foreseen, b: Foreseen): number =>
  rank[a.severity] - rank[b.severity] || (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0);

const acids = new Set(['strong_acid', 'weak_acid', 'acidic_salt']);

/** mol of units of the given groups that a set of ingredients brings; undefined where the amount of one is not known. */
function unitsOf(
  resolved: ResolvedMixture,
  members: readonly RuledIngredient[],
  any: readonly string[],
): Decimal | undefined {
  let sum = exact(0);
  for (const ingredient of members) {
    const perMole = Math.max(...any.map((group) => resolved.units(group, ingredient)));
    if (ingredient.mol === undefined) return undefined;
    sum = sum.plus(ingredient.mol.times(perMole));
  }
  return sum;
}

const namesOf = (members: readonly RuledIngredient[]): readonly string[] =>
  [...new Set(members.map(({ name }) => name))].sort();

interface Cast {
  readonly members: Readonly<Record<Side, readonly RuledIngredient[]>>;
  readonly severity: ForeseenSeverity;
}

const distinct = (rule: PairRule, members: Readonly<Record<Side, readonly RuledIngredient[]>>): boolean => {
  const three = members.c.length > 0 || rule.groups.some(({ side }) => side === 'c');
  return members.a.some((first) =>
    members.b.some(
      (second) =>
        (rule.alone || first.index !== second.index) &&
        (!three || members.c.some((third) => third.index !== first.index)),
    ),
  );
};

/** Who takes part in a rule, and how serious it is here; undefined where it does not hold. */
function cast(rule: PairRule, resolved: ResolvedMixture): Cast | undefined {
  const all: Record<Side, readonly RuledIngredient[]> = { a: [], b: [], c: [] };
  for (const { side, any } of rule.groups) {
    all[side] = resolved.ingredients.filter((ingredient) => any.some((group) => resolved.units(group, ingredient) > 0));
    if (all[side].length === 0) return undefined;
  }
  if (!distinct(rule, all)) return undefined;
  const strengthOf = (
    side: Side,
    ingredient: RuledIngredient,
  ): readonly { percent: number; molar: number; solution: boolean }[] =>
    rule.groups
      .find((group) => group.side === side)!
      .any.filter((group) => resolved.units(group, ingredient) > 0)
      .map((group) => resolved.strengthIn(group, ingredient));
  const holding: Record<Side, Set<RuledIngredient>> = { a: new Set(), b: new Set(), c: new Set() };
  let holds = false;
  for (const alternative of rule.when) {
    const members = { ...all };
    let fits = true;
    for (const condition of alternative) {
      if (condition.kind === 'strength') {
        members[condition.side] = members[condition.side].filter((ingredient) =>
          strengthOf(condition.side, ingredient).some((strength) => strongEnough(strength, condition)),
        );
      } else fits &&= potHolds(rule, condition, members, resolved);
    }
    if (!fits || rule.groups.some(({ side }) => members[side].length === 0) || !distinct(rule, members)) continue;
    holds = true;
    for (const side of ['a', 'b', 'c'] as const) for (const ingredient of members[side]) holding[side].add(ingredient);
  }
  if (holds) return { members: { a: [...holding.a], b: [...holding.b], c: [...holding.c] }, severity: rule.severity };
  return rule.otherwise ? { members: all, severity: rule.otherwise } : undefined;
}

function potHolds(
  rule: PairRule,
  condition: Exclude<Condition, { kind: 'strength' }>,
  members: Readonly<Record<Side, readonly RuledIngredient[]>>,
  resolved: ResolvedMixture,
): boolean {
  switch (condition.kind) {
    case 'hot':
      return resolved.heat >= condition.celsius;
    case 'dry':
      return !resolved.wet;
    case 'acid':
      return ['strong_acid', 'weak_acid'].some((group) =>
        resolved.ingredients.some((ingredient) => resolved.units(group, ingredient) > 0),
      );
    case 'exceeds': {
      const amount = (side: Side): Decimal | undefined =>
        unitsOf(resolved, members[side], rule.groups.find((group) => group.side === side)!.any);
      const more = amount(condition.more);
      const less = amount(condition.less);
      return more === undefined || less === undefined || more.gt(less);
    }
  }
}

/** Gas of a rule at worst, from the partner that limits; partners of unknown amount are taken as plenty. */
function bound(rule: PairRule, { members }: Cast, resolved: ResolvedMixture, mixture: Mixture): WorstCase | undefined {
  if (rule.gases.length === 0) return undefined;
  let limit: { readonly units: Decimal; readonly side: Side } | undefined;
  for (const { side, any, needs } of rule.groups) {
    if (side !== 'a' && needs === undefined) continue;
    // All acids of the mixture give their protons to the worst case.
    const pool = any.some((group) => acids.has(group)) ? [...acids] : any;
    const givers =
      pool === any
        ? members[side]
        : resolved.ingredients.filter((ingredient) => pool.some((group) => resolved.units(group, ingredient) > 0));
    const brought = unitsOf(resolved, givers, pool);
    if (brought === undefined) continue;
    const units = side === 'a' ? brought : brought.div(needs!);
    if (!limit || units.lt(limit.units)) limit = { units, side };
  }
  if (!limit || limit.units.isZero()) return undefined;
  return worstCase(
    rule.gases.map(({ formula, perUnit }) => ({ formula, mol: perUnit.times(limit!.units) })),
    namesOf(members[limit.side]).join(', '),
    mixture.roomCubicMetres,
    mixture.extraction,
  );
}

const aliasesOf = (shown: string): readonly string[] =>
  gasFormulae(shown).flatMap((formula) => {
    const gas = gases().get(formula) ?? (formula === 'As2O3' ? gases().get('As4O6') : undefined);
    return gas ? [formula, gas.name, ...gas.aliases] : [];
  });

function tell(
  rule: PairRule | HeatRule,
  severity: ForeseenSeverity,
  partners: readonly string[],
  worst: WorstCase | undefined,
  extra: readonly string[],
): Foreseen {
  const raised = severity === 'warning' && worst !== undefined && aboveDangerLevel(worst);
  const facts = gasFacts(rule.gas);
  return {
    rule: rule.id,
    ...(rule.pair && { pair: rule.pair }),
    severity: raised ? 'danger' : severity,
    title: rule.title,
    consequence: rule.consequence,
    partners,
    ...(rule.gas && { gas: rule.gas }),
    ...(facts.length > 0 && { gases: facts }),
    ...(rule.equation && { equation: rule.equation }),
    ...(worst && { worstCase: worst }),
    condition: [
      rule.condition,
      ...extra,
      ...(raised
        ? ['raised to danger: all at once it would be above the level immediately dangerous to life or health']
        : []),
    ]
      .filter(Boolean)
      .join('; '),
    precaution: rule.precaution,
    source: sourceText(rule),
    ...(rule.url && { sourceUrl: rule.url }),
    basis: rule.basis,
    answers: [
      ...new Set(
        [rule.id.replaceAll('-', ' '), rule.title, ...rule.answers, ...aliasesOf(rule.gas)].map((text) =>
          text.toLowerCase(),
        ),
      ),
    ],
  };
}

const sourceText = ({ source, basis }: { readonly source: string; readonly basis: string }): string =>
  basis === 'memory' && !source.includes('not seen') ? `${source} (from memory)` : source;

function mixing(resolved: ResolvedMixture, mixture: Mixture): readonly Foreseen[] {
  return pairRules().flatMap((rule) => {
    if (!rule.groups.every(({ any }) => any.some((group) => resolved.present.has(group)))) return [];
    const found = cast(rule, resolved);
    if (!found) return [];
    const { members } = found;
    const everyone = [...members.a, ...members.b, ...members.c];
    const vague = everyone.filter(
      ({ strength, watery, made, substance }) =>
        strength.percent === Infinity &&
        !watery &&
        made === undefined &&
        ['acid', 'molecule'].includes(substance.kind) &&
        liquids.has(substance.dry),
    );
    return [
      tell(
        rule,
        found.severity,
        namesOf(everyone),
        bound(rule, found, resolved, mixture),
        vague.length > 0 ? [`${namesOf(vague).join(', ')}: no strength was given, taken as concentrated`] : [],
      ),
    ];
  });
}

/** Acids and others sold at many strengths. */
const liquids = new Set(['ClH', 'HNO3', 'H2O4S', 'C2H4O2', 'H3N', 'H2O2', 'H3O4P', 'CH2O2', 'FH', 'ClHO4']);

/** The rules of heating that hold for one substance: within a family the row of the substance itself goes before the general one. */
function heatRulesFor(ingredient: RuledIngredient, resolved: ResolvedMixture): readonly HeatRule[] {
  const fitting = heatRules().filter(
    (rule) =>
      rule.of.some((group) => resolved.present.has(group)) &&
      rule.of.some((group) => resolved.units(group, ingredient) > 0) &&
      (rule.formulae.length === 0 ||
        rule.formulae.some((formula) => dryComposition(formula) === ingredient.substance.dry)),
  );
  return fitting.filter(
    (rule) =>
      rule.formulae.length > 0 || !fitting.some((other) => other.family === rule.family && other.formulae.length > 0),
  );
}

function heating(resolved: ResolvedMixture, mixture: Mixture): readonly Foreseen[] {
  const found = new Map<
    string,
    { readonly rule: HeatRule; readonly members: RuledIngredient[]; hottest: number; dry: boolean }
  >();
  for (const ingredient of resolved.ingredients) {
    const heat = resolved.heatOf(ingredient);
    if (heat <= 20) continue;
    for (const rule of heatRulesFor(ingredient, resolved)) {
      if (heat < rule.from || ingredient.strength.percent < rule.abovePercent) continue;
      // Still a solution: what only breaks down dry does not do so yet.
      const dissolved = !rule.inWater && resolved.wet && ingredient.made !== 'product' && heat <= 105;
      const entry = found.get(rule.id) ?? { rule, members: [], hottest: 0, dry: false };
      entry.members.push(ingredient);
      entry.dry ||= !dissolved;
      entry.hottest = Math.max(entry.hottest, heat);
      found.set(rule.id, entry);
    }
  }
  return [...found.values()].map(({ rule, members, hottest, dry }) => {
    const groups = rule.of;
    const units = unitsOf(resolved, members, groups);
    const worst =
      units && rule.gases.length > 0
        ? worstCase(
            rule.gases.map(({ formula, perUnit }) => ({ formula, mol: perUnit.times(units) })),
            namesOf(members).join(', '),
            mixture.roomCubicMetres,
            mixture.extraction,
          )
        : undefined;
    const told = dry
      ? `heated to ${hottest} °C; told from ${rule.from} °C on, below the lowest published onset`
      : 'not while it is still a solution, but when it boils dry or the solid is dried hot';
    return tell(rule, dry ? rule.severity : 'note', namesOf(members), dry ? worst : undefined, [told]);
  });
}

const equations = new Map<string, ReturnType<typeof parseEquation>>();
function equationOf(text: string): ReturnType<typeof parseEquation> {
  const before = equations.get(text) ?? parseEquation(text);
  if (equations.size >= 2000) equations.clear();
  equations.set(text, before);
  return before;
}

const gasByComposition = (dry: string): Gas | undefined => {
  composed ??= new Map([...gases().values()].reverse().map((gas) => [dryComposition(gas.formula), gas]));
  return composed.get(dry);
};
let composed: ReadonlyMap<string, Gas> | undefined;

/** A gas that the reaction as written names among its products. */
function gasOfReaction(mixture: Mixture, already: readonly Foreseen[]): readonly Foreseen[] {
  if (!mixture.reaction) return [];
  const equation = equationOf(mixture.reaction);
  if (!equation.ok) return [];
  const hot = Math.max(
    20,
    ...(mixture.heating ?? []).filter(({ of }) => of === 'mixture').map(({ toCelsius }) => toCelsius),
  );
  return equation.value.products.flatMap(({ formula, coefficient }) => {
    const known = constituents(formula.written);
    const gas: Gas | undefined = known.ok ? gasByComposition(known.value.dry) : undefined;
    if (
      !gas ||
      ['PbO', 'CdO', 'Hg', 'I2', 'As4O6', 'SeO2'].includes(gas.formula) ||
      (gas.dissolves && formula.state !== 'g' && hot < 100)
    )
      return [];
    if (
      already.some(
        (one) => one.gas && gasFormulae(one.gas).includes(gas.formula) && rank[one.severity] <= rank[gas.severity],
      )
    )
      return [];
    const shares = mixture.ingredients
      .flatMap(({ reagent: { name, substance, taken } }) => {
        const term = equation.value.reactants.find(
          (one) => substance && dryComposition(one.formula.written) === substance.constituents.dry,
        );
        return term && taken.molAtMost ? [{ name, extent: taken.molAtMost.div(term.coefficient) }] : [];
      })
      .sort((a, b) => a.extent.cmp(b.extent));
    const worst = shares[0]
      ? worstCase(
          [{ formula: gas.formula, mol: shares[0].extent.times(coefficient) }],
          shares[0].name,
          mixture.roomCubicMetres,
          mixture.extraction,
        )
      : undefined;
    return [
      {
        rule: `reaction-gives-${gas.name.replaceAll(/[^a-z]+/gi, '-').toLowerCase()}`,
        severity: gas.severity,
        title: `the reaction as written gives ${gas.name}`,
        consequence:
          gas.formula === 'CO2'
            ? 'foaming'
            : gas.severity === 'danger'
              ? 'toxic gas'
              : gas.formula === 'H2'
                ? 'flammable gas'
                : 'gas pressure',
        partners: equation.value.reactants.map(({ label }) => label).sort(),
        gas: gas.formula,
        gases: gasFacts(gas.formula),
        equation: mixture.reaction!,
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

/** The reaction's by-products, which stay in the vessel: the acid that is set free counts; water, gases and the product do not. */
function byProducts(mixture: Mixture): readonly MixedReagent[] {
  if (!mixture.reaction) return [];
  const equation = equationOf(mixture.reaction);
  if (!equation.ok) return [];
  const present = new Set(mixture.ingredients.flatMap(({ reagent }) => reagent.substance?.constituents.dry ?? []));
  return equation.value.products.flatMap(({ formula, label }): readonly MixedReagent[] => {
    const known = constituents(formula.written);
    if (!known.ok || formula.charge !== 0 || isWater(formula) || present.has(known.value.dry)) return [];
    const gas = gasByComposition(known.value.dry);
    if (gas && !gas.dissolves) return [];
    return [{ reagent: resolveNamed(label, formula.written), made: 'by-product' }];
  });
}

/**
 * What can be foreseen of mixing and heating. Amounts, strengths and heats that are not given are taken at their worst;
 * every ingredient meets every other; `unknown` names what could not be judged, and an empty `foreseen` is no all-clear.
 * Order never matters, and one more ingredient never takes a hazard away.
 * @example foresee({ ingredients: [{ reagent: nitrite }, { reagent: vinegar }] }).foreseen[0]?.rule // 'nitrite-weak-acid'
 */
export function foresee(mixture: Mixture): Foresight {
  const made = byProducts(mixture);
  const whole: Mixture = made.length > 0 ? { ...mixture, ingredients: [...mixture.ingredients, ...made] } : mixture;
  const resolved = resolveMixture(whole);
  const told = [...mixing(resolved, mixture), ...heating(resolved, mixture)];
  const foreseen = [...told, ...gasOfReaction(mixture, told)].sort(bySeverity);
  const cautions = [...new Set(resolved.cautions)].sort();
  return { foreseen, unknown: [...new Set(resolved.unknown)].sort(), cautions };
}
