// What a first reaction makes meets what else is in the pot: the gases and salts that rules say they make join the
// mixture, and further rules are held against it.
import { exact, type Decimal } from '../../chemistry/index.js';
import { once, onceFor } from '../../once.js';
import { dryComposition, resolveNamed } from '../../reagents/index.js';
import { madeOnTheWayTable, type MadeOnTheWayRow } from '../../tables/compiled/hazards/foresee/made-on-the-way.js';
import { compareSeverity, type ForeseenSeverity, type MixedReagent, type Mixture } from './contracts.js';
import { gasFormulae } from './gases.js';
import type { FoundHazard } from './hazard.js';
import { everyoneIn, isOneOf, matchRule } from './match-rule.js';
import { hazardOfMatch } from './mixing.js';
import { groupsByItself, isToldByPot } from './groups-of-pot.js';
import { type ResolvedMixture } from './resolve-mixture.js';
import { type RuledIngredient } from './ruled-ingredient.js';
import { pairRuleNamed, pairRulesAmong, type HeatRule, type PairRule } from './rules.js';

/** By part of the mixture: which of the things that its name may mean is meant. */
type Meaning = ReadonlyMap<string, string>;

/** Something that rules make of a mixture. */
interface Made {
  /** Under each of these meanings of the names it is made. */
  readonly meanings: () => readonly Meaning[];
  readonly row: MadeOnTheWayRow;
  /** As an ingredient. */
  readonly name: string;
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

const isOf = (made: Made, { name, made: how }: RuledIngredient): boolean => how === 'on-the-way' && name === made.name;

/** The ingredients behind some members: of what was made on the way, those that it was made of. */
function sourcesOf(members: readonly RuledIngredient[], before: readonly Made[]): readonly string[] {
  const names = members.flatMap(({ name, made }) =>
    made === 'on-the-way' ? (before.find((one) => one.name === name)?.by ?? []) : [name],
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
      const own = before.find((made) => isOf(made, one))?.meanings() ?? [new Map([[one.part, one.variant]])];
      return apart(begun.flatMap((meaning) => own.flatMap((other) => joinedMeaning(meaning, other) ?? [])));
    },
    [new Map<string, string>()],
  );
}

type Units = ResolvedMixture['units'];

/** The groups of each side of a rule; a rule of heating has one side. */
const sidesOf = onceFor((rule: PairRule | HeatRule): readonly (readonly string[])[] =>
  'groups' in rule ? rule.groups.map(({ any }) => any) : [rule.of],
);

/** The same without those who are there as just anything. */
const namedSidesOf = onceFor((rule: PairRule): readonly (readonly string[])[] =>
  sidesOf(rule).map((any) => any.filter((group) => group !== 'anything')),
);

/** One member for each side of a rule, in every way. */
function choicesOf(
  sides: readonly (readonly string[])[],
  members: readonly RuledIngredient[],
  units: Units,
): readonly (readonly RuledIngredient[])[] {
  return sides.reduce<readonly (readonly RuledIngredient[])[]>(
    (begun, any) => {
      const side = members.filter((one) => isOneOf(units, any, one));
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
  const meanings = once(() => apart([...one.meanings(), ...other.meanings()]));
  return { ...larger, ...(mol && { mol }), by, meanings, certain: one.certain || other.certain };
}

/** A row, with its place in the table and how a rule makes it. */
interface WayMade {
  readonly row: MadeOnTheWayRow;
  readonly place: number;
  readonly perUnit: string | undefined;
}

/** By the id of a rule: what it makes. */
const waysByRule = once((): ReadonlyMap<string, readonly WayMade[]> => {
  const ways = new Map<string, WayMade[]>();
  for (const [place, row] of madeOnTheWayTable().entries())
    for (const { rule, perUnit } of row.by) {
      const known = ways.get(rule) ?? [];
      // The first that a row says of a rule counts.
      if (known.at(-1)?.row !== row) ways.set(rule, [...known, { row, place, perUnit }]);
    }
  return ways;
});

/** What one hazard makes in one way. */
function madeIn(
  { row, perUnit }: WayMade,
  { rule, members, extent, holds }: FoundHazard,
  before: readonly Made[],
  units: Units,
): Made {
  const mol = extent()?.times(perUnitOf(row, rule, perUnit));
  return {
    row,
    name: nameOf(row),
    meanings: once(() =>
      apart(choicesOf(sidesOf(rule), members, units).flatMap((chosen) => meaningsOf(chosen, before))),
    ),
    ...(mol && { mol }),
    by: sourcesOf(members, before),
    certain: holds,
  };
}

/** What some hazards make, in the table's order. */
function madeBy(found: readonly FoundHazard[], before: readonly Made[], units: Units): readonly Made[] {
  const made = new Map<number, Made>();
  for (const hazard of found)
    for (const way of waysByRule().get(hazard.rule.id) ?? []) {
      if (!takesPart(way.row.of, hazard.members)) continue;
      const one = madeIn(way, hazard, before, units);
      const known = made.get(way.place);
      made.set(way.place, known ? joined(known, one) : one);
    }
  return [...made].sort(([a], [b]) => a - b).map(([, one]) => one);
}

function ingredientOf({ row, name, mol }: Pick<Made, 'row' | 'name' | 'mol'>): MixedReagent {
  const { substance, ...reagent } = resolveNamed(name, row.makes);
  return {
    reagent: {
      ...reagent,
      ...(substance && { substance: { ...substance, groups: [...substance.groups, ...row.groups] } }),
      taken: { ...reagent.taken, ...(mol && { molAtMost: mol }) },
    },
    made: 'on-the-way',
  };
}

/** By its id each rule that may follow, where only some may. */
const onlyWith = onceFor(
  ({ only_with: rules }: MadeOnTheWayRow) => new Map([...rules].reverse().map((one) => [one.rule, one])),
);

/**
 * How grave a rule is at most that something made brings about; undefined where it brings none about: what is a gas
 * already is not set free once more.
 */
function gravestWith({ row, certain }: Made, rule: PairRule): ForeseenSeverity | undefined {
  const named = onlyWith(row).get(rule.id);
  if ((row.only_with.length > 0 && !named) || gasFormulae(rule.gas).includes(row.makes)) return undefined;
  return certain ? (named?.atMost ?? 'danger') : 'note';
}

const mildest = (severities: readonly ForeseenSeverity[]): ForeseenSeverity =>
  severities.reduce((mild, one) => (compareSeverity(one, mild) > 0 ? one : mild), 'danger');
const gravest = (severities: readonly ForeseenSeverity[]): ForeseenSeverity =>
  severities.reduce((grave, one) => (compareSeverity(one, grave) < 0 ? one : grave));

/** Where it is: the rule that makes a gas tells of it in the room already. */
const places: ReadonlySet<string> = new Set(['confined_space', 'enclosed_place', 'indoors']);
const meetsOnlyAPlace = onceFor(
  (rule: PairRule) => rule.groups.filter(({ any }) => !any.every((group) => places.has(group))).length < 2,
);

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
  meetsOnlyAPlace(rule)
    ? []
    : choicesOf(namedSidesOf(rule), members, units).filter(
        (chosen) =>
          chosen.some((one) => one.made === 'on-the-way') &&
          chosen.some(({ part }) => part !== chosen[0]!.part) &&
          meaningsOf(chosen, made).length > 0,
      );

const madeWords = ({ row, by }: Made): string => `${row.name} is made on the way, by ${by.join(' with ')}`;

/** How grave what is told already is, by rule; undefined of what is not told. */
type ToldBefore = (rule: string) => ForeseenSeverity | undefined;

/** The mixture that the things made have joined, and what is told of it already. */
interface Joined {
  readonly whole: Mixture;
  readonly resolved: ResolvedMixture;
  readonly made: readonly Made[];
  /** What was made, as it stands in the mixture. */
  readonly joining: readonly RuledIngredient[];
  readonly told: ToldBefore;
}

const isGraver = (severity: ForeseenSeverity, than: ForeseenSeverity | undefined): boolean =>
  than === undefined || compareSeverity(severity, than) < 0;

/**
 * How grave a rule can be at most by what was made. Of things that may stand on one side, the one that makes it gravest
 * counts: another beside it takes nothing away.
 */
const gravestOf = (
  rule: PairRule,
  choices: readonly (readonly RuledIngredient[])[],
  taking: readonly Made[],
): ForeseenSeverity =>
  gravest(
    choices.map((chosen) =>
      mildest(taking.filter((one) => chosen.some((member) => isOf(one, member))).map((one) => gravestWith(one, rule)!)),
    ),
  );

/** The hazard that something made brings about by a rule, where that is graver than what is told of it. */
function broughtAboutBy(rule: PairRule, { whole, resolved, made, joining, told }: Joined): FoundHazard | undefined {
  const admitted = new Set<string>();
  for (const one of made) if (gravestWith(one, rule) !== undefined) admitted.add(one.name);
  if (admitted.size === 0) return undefined;
  const isTaking = (one: RuledIngredient): boolean =>
    admitted.has(one.name) && namedSidesOf(rule).some((any) => isOneOf(resolved.units, any, one));
  if (!joining.some(isTaking)) return undefined;
  const ingredients = resolved.ingredients.filter((one) => one.made !== 'on-the-way' || admitted.has(one.name));
  const before = told(rule.id);
  if (before === 'danger') return undefined;
  // Some of them only: no longer what all that are alike have.
  const { alike: _, ...joined } = resolved;
  const among: ResolvedMixture = { ...joined, ingredients };
  const match = matchRule(rule, among);
  if (!match) return undefined;
  const members = everyoneIn(match.members);
  const choices = completeChoices(rule, members, resolved.units, made);
  if (choices.length === 0) return undefined;
  const taking = made.filter((one) => members.some((member) => isOf(one, member)));
  const most = gravestOf(rule, choices, taking);
  if (!isGraver(most, before)) return undefined;
  const found = hazardOfMatch(rule, match, among, whole);
  const plain = found.foreseen();
  const severity = mildest([plain.severity, most]);
  if (!isGraver(severity, before)) return undefined;
  const condition = [...taking.map(madeWords), plain.condition].filter(Boolean).join('; ');
  const foreseen = { ...plain, severity, condition, partners: sourcesOf(members, made) };
  return { ...found, foreseen: () => foreseen };
}

/** The groups of something that a row makes, whatever is around it. */
const groupsOfRow = onceFor((row: MadeOnTheWayRow): ReadonlySet<string> => {
  const { reagent, made } = ingredientOf({ row, name: nameOf(row) });
  return groupsByItself(reagent, made);
});

/** Every side of a rule has something that may be on it, once these things made are there. */
function mayMeet(rule: PairRule, present: ReadonlySet<string>, made: readonly Made[]): boolean {
  const isThere = (group: string): boolean =>
    present.has(group) || isToldByPot(group) || made.some(({ row }) => groupsOfRow(row).has(group));
  return rule.groups.every(({ any }) => any.some(isThere));
}

/** A first look: whether anything made may bring about what is not told as a danger already. */
const mayBringAbout = (made: readonly Made[], told: ToldBefore, present: ReadonlySet<string>): boolean =>
  made.some(
    ({ row }) =>
      row.only_with.length === 0 ||
      row.only_with.some(({ rule: id }) => {
        const rule = pairRuleNamed(id);
        return rule !== undefined && mayMeet(rule, present, made) && told(id) !== 'danger';
      }),
  );

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
): readonly FoundHazard[] {
  let made = madeBy(first, [], asItStands.units);
  if (made.length === 0) return [];
  const asFound = new Map(first.map((one) => [one.rule.id, one]));
  const brought = new Map<string, FoundHazard>();
  const told: ToldBefore = (rule) => (brought.get(rule) ?? asFound.get(rule))?.foreseen().severity;
  for (let step = 0; step < longestChain && made.length > 0; step += 1) {
    if (!mayBringAbout(made, told, asItStands.present)) break;
    const resolved = asItStands.joinedBy(made.map(ingredientOf));
    const joining = resolved.ingredients.filter((one) => one.made === 'on-the-way');
    const joined: Joined = { whole, resolved, made, joining, told };
    for (const rule of pairRulesAmong(resolved.present)) {
      const found = broughtAboutBy(rule, joined);
      if (found) brought.set(rule.id, found);
    }
    const more = madeBy([...first, ...brought.values()], made, resolved.units);
    if (more.length === made.length) break;
    made = more;
  }
  return [...brought.values()];
}

/** Whether anything is made by a rule. */
export const makesSomething = (rule: string): boolean => waysByRule().has(rule);
