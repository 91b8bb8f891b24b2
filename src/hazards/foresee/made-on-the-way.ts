// What a first reaction makes meets what else is in the pot: the gases and salts that rules say they make join the
// mixture, and further rules are held against it.
import { exact, type Decimal } from '../../chemistry/index.js';
import { dryComposition, resolveNamed } from '../../reagents/index.js';
import { madeOnTheWayTable, type MadeOnTheWayRow } from '../../tables/compiled/hazards/foresee/made-on-the-way.js';
import { compareSeverity, type Foreseen, type ForeseenSeverity, type MixedReagent, type Mixture } from './contracts.js';
import { gasFormulae } from './gases.js';
import type { FoundHazard } from './hazard.js';
import { mixingHazards } from './mixing.js';
import { resolveMixture, type ResolvedMixture, type RuledIngredient } from './resolve-mixture.js';
import type { HeatRule, PairRule } from './rules.js';

/** Something that rules make of a mixture. */
interface Made {
  readonly row: MadeOnTheWayRow;
  /** At most; absent where no amount is known. */
  readonly mol?: Decimal;
  /** Names of the ingredients that it comes from. */
  readonly by: readonly string[];
  /** A rule whose conditions hold makes it. */
  readonly certain: boolean;
}

/** Steps in a chain of reactions that are followed: judgement. */
const longestChain = 3;

const nameOf = ({ name }: MadeOnTheWayRow): string => `${name} (made on the way)`;

/** mol of it for one unit of the rule's first partner. */
function perUnitOf({ makes }: MadeOnTheWayRow, rule: PairRule | HeatRule, written: string | undefined): Decimal {
  return exact(written ?? rule.gases.find(({ formula }) => formula === makes)?.perUnit ?? 1);
}

const takesPart = (formula: string | undefined, members: readonly RuledIngredient[]): boolean =>
  formula === undefined || members.some(({ substance }) => substance.dry === dryComposition(formula));

/** The ingredients behind some members: of what was made on the way, those that it was made of. */
function sourcesOf(members: readonly RuledIngredient[], before: readonly Made[]): readonly string[] {
  const names = members.flatMap(({ name, made }) =>
    made === 'on-the-way' ? (before.find(({ row }) => nameOf(row) === name)?.by ?? []) : [name],
  );
  return [...new Set(names)].sort();
}

/** The same thing made twice: the larger amount counts, and every source. */
function joined(one: Made, other: Made): Made {
  const isLarger = other.mol === undefined || (one.mol !== undefined && other.mol.gt(one.mol));
  const { mol: _, ...larger } = isLarger ? other : one;
  const mol = isLarger ? other.mol : one.mol;
  const by = [...new Set([...one.by, ...other.by])].sort();
  return { ...larger, ...(mol && { mol }), by, certain: one.certain || other.certain };
}

/** What some hazards make, in the table's order. */
function madeBy(found: readonly FoundHazard[], before: readonly Made[]): readonly Made[] {
  return madeOnTheWayTable().flatMap((row): readonly Made[] => {
    const ways = found.flatMap(({ rule, members, extent, holds }): readonly Made[] => {
      const way = row.by.find((one) => one.rule === rule.id);
      if (!way || !takesPart(row.of, members)) return [];
      const mol = extent?.times(perUnitOf(row, rule, way.perUnit));
      return [{ row, ...(mol && { mol }), by: sourcesOf(members, before), certain: holds }];
    });
    return ways.length > 0 ? [ways.reduce(joined)] : [];
  });
}

function ingredientOf({ row, mol }: Made): MixedReagent {
  const { substance, ...reagent } = resolveNamed(nameOf(row), row.makes);
  return {
    reagent: {
      ...reagent,
      ...(substance && { substance: { ...substance, groups: [...substance.groups, ...row.groups] } }),
      taken: { ...reagent.taken, ...(mol && { molAtMost: mol }) },
    },
    made: 'on-the-way',
  };
}

/**
 * How grave a rule is at most that something made brings about; undefined where it brings none about: what is a gas
 * already is not set free once more.
 */
function gravestWith({ row, certain }: Made, rule: PairRule): ForeseenSeverity | undefined {
  const named = row.only_with.find((one) => one.rule === rule.id);
  if ((row.only_with.length > 0 && !named) || gasFormulae(rule.gas).includes(row.makes)) return undefined;
  return certain ? (named?.atMost ?? 'danger') : 'note';
}

const mildest = (severities: readonly ForeseenSeverity[]): ForeseenSeverity =>
  severities.reduce((mild, one) => (compareSeverity(one, mild) > 0 ? one : mild));

/** All sides of a rule have somebody who is not there as just anything, and two things meet. */
function isComplete(rule: PairRule, members: readonly RuledIngredient[], resolved: ResolvedMixture): boolean {
  const isOf = (any: readonly string[]): boolean =>
    members.some((one) => any.some((group) => group !== 'anything' && resolved.units(group, one) > 0));
  return rule.groups.every(({ any }) => isOf(any)) && new Set(members.map(({ part }) => part)).size > 1;
}

const isOf = ({ row }: Made, { name, made }: RuledIngredient): boolean => made === 'on-the-way' && name === nameOf(row);

const madeWords = ({ row, by }: Made): string => `${row.name} is made on the way, by ${by.join(' with ')}`;

/** A hazard that something made brings about; undefined where it is not for that. */
function broughtAbout(found: FoundHazard, made: readonly Made[], resolved: ResolvedMixture): FoundHazard | undefined {
  const { rule, foreseen, members } = found;
  const taking = made.filter((one) => members.some((member) => isOf(one, member)));
  if (!('groups' in rule) || taking.length === 0 || !isComplete(rule, members, resolved)) return undefined;
  const severity = mildest([foreseen.severity, ...taking.map((one) => gravestWith(one, rule)!)]);
  const condition = [...taking.map(madeWords), foreseen.condition].filter(Boolean).join('; ');
  return { ...found, foreseen: { ...foreseen, severity, condition, partners: sourcesOf(members, made) } };
}

/** What arises where the things made join the mixture. */
function broughtAboutBy(made: readonly Made[], whole: Mixture): readonly FoundHazard[] {
  const resolved = resolveMixture({ ...whole, ingredients: [...whole.ingredients, ...made.map(ingredientOf)] });
  const admits = (rule: PairRule, ingredient: RuledIngredient): boolean =>
    ingredient.made !== 'on-the-way' ||
    made.some((one) => isOf(one, ingredient) && gravestWith(one, rule) !== undefined);
  return mixingHazards(resolved, whole, admits).flatMap((found) => broughtAbout(found, made, resolved) ?? []);
}

/**
 * The hazards that arise only because of what others make on the way. Adding to the mixture never takes one away, and
 * order changes nothing.
 * @param whole the mixture, with the by-products of its reaction
 * @param first what is found of it as it stands
 */
export function madeOnTheWay(whole: Mixture, first: readonly FoundHazard[]): readonly Foreseen[] {
  const told = new Map(first.map(({ foreseen }) => [foreseen.rule, foreseen.severity]));
  const brought = new Map<string, FoundHazard>();
  let made = madeBy(first, []);
  for (let step = 0; step < longestChain && made.length > 0; step += 1) {
    for (const found of broughtAboutBy(made, whole)) {
      const { rule, severity } = found.foreseen;
      const before = told.get(rule);
      if (before !== undefined && compareSeverity(severity, before) >= 0) continue;
      told.set(rule, severity);
      brought.set(rule, found);
    }
    const more = madeBy([...first, ...brought.values()], made);
    if (more.length === made.length) break;
    made = more;
  }
  return [...brought.values()].map(({ foreseen }) => foreseen);
}
