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

/** By part of the mixture: which of the things that its name may mean is meant. */
type Meaning = ReadonlyMap<string, string>;

/** Something that rules make of a mixture. */
interface Made {
  /** Under each of these meanings of the names it is made. */
  readonly meanings: readonly Meaning[];
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

const isOf = ({ row }: Made, { name, made }: RuledIngredient): boolean => made === 'on-the-way' && name === nameOf(row);

/** The ingredients behind some members: of what was made on the way, those that it was made of. */
function sourcesOf(members: readonly RuledIngredient[], before: readonly Made[]): readonly string[] {
  const names = members.flatMap(({ name, made }) =>
    made === 'on-the-way' ? (before.find(({ row }) => nameOf(row) === name)?.by ?? []) : [name],
  );
  return [...new Set(names)].sort();
}

/** Meanings that are told apart; of more, whatever is meant is taken as possible. */
const mostMeanings = 200;
/** Choices of partners that are looked through. */
const mostChoices = 3000;

const apart = (meanings: readonly Meaning[]): readonly Meaning[] =>
  meanings.length > mostMeanings ? [new Map<string, string>()] : meanings;

function joinedMeaning(one: Meaning, other: Meaning): Meaning | undefined {
  const isOne = [...one].every(([part, variant]) => (other.get(part) ?? variant) === variant);
  return isOne ? new Map([...one, ...other]) : undefined;
}

/** Meanings under which all of some members are there: a name means one thing at a time. */
function meaningsOf(chosen: readonly RuledIngredient[], before: readonly Made[]): readonly Meaning[] {
  return chosen.reduce<readonly Meaning[]>(
    (begun, one) => {
      const own = before.find((made) => isOf(made, one))?.meanings ?? [new Map([[one.part, one.variant]])];
      return apart(begun.flatMap((meaning) => own.flatMap((other) => joinedMeaning(meaning, other) ?? [])));
    },
    [new Map<string, string>()],
  );
}

type Units = ResolvedMixture['units'];

/** One member for each side of a rule, in every way; a rule of heating has one side. */
function choicesOf(
  rule: PairRule | HeatRule,
  members: readonly RuledIngredient[],
  units: Units,
  isOfGroup: (group: string) => boolean = () => true,
): readonly (readonly RuledIngredient[])[] {
  const sides = 'groups' in rule ? rule.groups.map(({ any }) => any) : [rule.of];
  return sides.reduce<readonly (readonly RuledIngredient[])[]>(
    (begun, any) => {
      const side = members.filter((one) => any.some((group) => isOfGroup(group) && units(group, one) > 0));
      return begun.flatMap((chosen) => side.map((one) => [...chosen, one])).slice(0, mostChoices);
    },
    [[]],
  );
}

/** The same thing made twice: the larger amount counts, and every source. */
function joined(one: Made, other: Made): Made {
  const isLarger = other.mol === undefined || (one.mol !== undefined && other.mol.gt(one.mol));
  const { mol: _, ...larger } = isLarger ? other : one;
  const mol = isLarger ? other.mol : one.mol;
  const by = [...new Set([...one.by, ...other.by])].sort();
  const meanings = apart([...one.meanings, ...other.meanings]);
  return { ...larger, ...(mol && { mol }), by, meanings, certain: one.certain || other.certain };
}

/** What some hazards make, in the table's order. */
function madeBy(found: readonly FoundHazard[], before: readonly Made[], units: Units): readonly Made[] {
  const rules = new Set(found.map(({ rule }) => rule.id));
  return madeOnTheWayTable().flatMap((row): readonly Made[] => {
    if (!row.by.some(({ rule }) => rules.has(rule))) return [];
    const ways = found.flatMap(({ rule, members, extent, holds }): readonly Made[] => {
      const way = row.by.find((one) => one.rule === rule.id);
      if (!way || !takesPart(row.of, members)) return [];
      const mol = extent?.times(perUnitOf(row, rule, way.perUnit));
      const meanings = choicesOf(rule, members, units).flatMap((chosen) => meaningsOf(chosen, before));
      return [
        {
          row,
          meanings: apart(meanings),
          ...(mol && { mol }),
          by: sourcesOf(members, before),
          certain: holds,
        },
      ];
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
const gravest = (severities: readonly ForeseenSeverity[]): ForeseenSeverity =>
  severities.reduce((grave, one) => (compareSeverity(one, grave) < 0 ? one : grave));

/**
 * All sides of a rule have somebody who is not there as just anything, two things meet of which one was made, and the
 * words can mean all of them at once.
 */
const completeChoices = (
  rule: PairRule,
  members: readonly RuledIngredient[],
  units: Units,
  made: readonly Made[],
): readonly (readonly RuledIngredient[])[] =>
  choicesOf(rule, members, units, (group) => group !== 'anything').filter(
    (chosen) =>
      new Set(chosen.map(({ part }) => part)).size > 1 &&
      chosen.some((one) => one.made === 'on-the-way') &&
      meaningsOf(chosen, made).length > 0,
  );

const madeWords = ({ row, by }: Made): string => `${row.name} is made on the way, by ${by.join(' with ')}`;

/** A hazard that something made brings about; undefined where it is not for that. */
function broughtAbout(found: FoundHazard, made: readonly Made[], units: Units): FoundHazard | undefined {
  const { rule, foreseen, members } = found;
  const taking = made.filter((one) => members.some((member) => isOf(one, member)));
  if (!('groups' in rule) || taking.length === 0) return undefined;
  const choices = completeChoices(rule, members, units, made);
  if (choices.length === 0) return undefined;
  // Of things that may stand on one side, the one that makes it gravest counts: another beside it takes nothing away.
  const severity = gravest(
    choices.map((chosen) => {
      const within = taking.filter((one) => chosen.some((member) => isOf(one, member)));
      return mildest([foreseen.severity, ...within.map((one) => gravestWith(one, rule)!)]);
    }),
  );
  const condition = [...taking.map(madeWords), foreseen.condition].filter(Boolean).join('; ');
  return { ...found, foreseen: { ...foreseen, severity, condition, partners: sourcesOf(members, made) } };
}

/** The mixture that the things made have joined. */
const joinedBy = (made: readonly Made[], whole: Mixture): ResolvedMixture =>
  resolveMixture({ ...whole, ingredients: [...whole.ingredients, ...made.map(ingredientOf)] });

/** What arises where the things made join the mixture. */
function broughtAboutBy(made: readonly Made[], whole: Mixture, resolved: ResolvedMixture): readonly FoundHazard[] {
  const admits = (rule: PairRule, ingredient: RuledIngredient): boolean =>
    ingredient.made !== 'on-the-way' ||
    made.some((one) => isOf(one, ingredient) && gravestWith(one, rule) !== undefined);
  return mixingHazards(resolved, whole, admits).flatMap((found) => broughtAbout(found, made, resolved.units) ?? []);
}

/**
 * The hazards that arise only because of what others make on the way. Adding to the mixture never takes one away, and
 * order changes nothing.
 * @param whole the mixture, with the by-products of its reaction
 * @param first what is found of it as it stands
 * @param asItStands the mixture, resolved
 */
export function madeOnTheWay(
  whole: Mixture,
  first: readonly FoundHazard[],
  asItStands: ResolvedMixture,
): readonly Foreseen[] {
  const told = new Map(first.map(({ foreseen }) => [foreseen.rule, foreseen.severity]));
  const brought = new Map<string, FoundHazard>();
  let made = madeBy(first, [], asItStands.units);
  for (let step = 0; step < longestChain && made.length > 0; step += 1) {
    const resolved = joinedBy(made, whole);
    for (const found of broughtAboutBy(made, whole, resolved)) {
      const { rule, severity } = found.foreseen;
      const before = told.get(rule);
      if (before !== undefined && compareSeverity(severity, before) >= 0) continue;
      told.set(rule, severity);
      brought.set(rule, found);
    }
    const more = madeBy([...first, ...brought.values()], made, resolved.units);
    if (more.length === made.length) break;
    made = more;
  }
  return [...brought.values()].map(({ foreseen }) => foreseen);
}
