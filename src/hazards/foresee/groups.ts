// Which groups a substance belongs to, and how many units of the group one formula unit brings; read from groups.csv.
import { once, onceFor } from '../../once.js';
import { constituents, type Constituents } from '../../reagents/constituents.js';
import { groupsTable } from '../../tables/compiled/hazards/foresee/groups.js';
import { prepared, preparedByKey } from '../../tables/prepared.js';
import { groupTests, isJudgedByStrength, undiluted, type Concentration } from './group-tests.js';

export { undiluted, type Concentration } from './group-tests.js';

export interface Group {
  readonly id: string;
  readonly words: string;
  /** In the language of group-tests.ts: alternatives between `|`, whose units add up. */
  readonly test: string;
  readonly members: readonly string[];
  readonly notMembers: readonly string[];
}

let read: ReadonlyMap<string, Group> | undefined;

/** Every group, in the table's order. */
export function groups(): ReadonlyMap<string, Group> {
  read ??= new Map(
    groupsTable().map(({ group, words, test, members, not_members }) => [
      group,
      { id: group, words, test, members, notMembers: not_members },
    ]),
  );
  return read;
}

const wordsOf = preparedByKey<string>('words-of-groups', () =>
  groupsTable().map(({ group, words }) => [group, words] as const),
);
export const groupWords = (id: string): string => wordsOf(id) ?? id;

/** One alternative of a group's test, cut into words. */
interface Clause {
  readonly head: string;
  readonly words: readonly string[];
}
type Clauses = readonly { readonly id: string; readonly clauses: readonly Clause[] }[];

/** The alternatives of every group's test, in the table's order. */
const tests = prepared<Clauses>('group-tests', () =>
  groupsTable().map(({ group: id, test }) => ({
    id,
    clauses: test.split('|').map((one): Clause => {
      const [head = '', ...words] = one.trim().split(/\s+/);
      return { head, words };
    }),
  })),
);
const testsById = once(() => new Map(tests().map(({ id, clauses }) => [id, clauses])));

function clauseUnits({ head, words }: Clause, substance: Constituents, strength: Concentration): number {
  // `parts a b`: a member of one of these other groups.
  if (head === 'parts') return words.reduce((most, id) => Math.max(most, groupUnits(id, substance, strength)), 0);
  const test = groupTests[head];
  if (!test) throw new Error(`groups.csv has a test that is not known: '${head} ${words.join(' ')}'`);
  return test(words, substance, strength);
}

/**
 * Units of a group in one formula unit: nitrite ions, protons of an acid, atoms of a metal; 0 where it is no member.
 * @example groupUnits('strong_acid', constituents('H2SO4').value, undiluted) // 2
 */
export function groupUnits(id: string, substance: Constituents, strength: Concentration = undiluted): number {
  const alternatives = testsById().get(id);
  if (!alternatives) throw new Error(`groups.csv has no group '${id}'`);
  let sum = 0;
  for (const clause of alternatives) sum += clauseUnits(clause, substance, strength);
  return sum;
}

/** What is known of a substance: at every strength, or at each that was asked for. */
interface Memberships {
  readonly always?: ReadonlyMap<string, number>;
  readonly atStrength: Map<string, ReadonlyMap<string, number>>;
}

/** Strengths of one substance of which the groups are held. */
const mostStrengths = 100;

const membershipsFor = onceFor(
  (substance: Constituents): Memberships => ({
    ...(!isJudgedByStrength(substance.dry) && { always: allMemberships(substance, undiluted) }),
    atStrength: new Map(),
  }),
);

/**
 * Every group that a substance belongs to at a strength, with its units; groups that depend on the pot left out.
 * Read once for each substance, and for each strength where its groups depend on that.
 */
export function membershipsOf(substance: Constituents, strength: Concentration): ReadonlyMap<string, number> {
  const { always, atStrength } = membershipsFor(substance);
  if (always) return always;
  const key = `${strength.percent} ${strength.solution}`;
  let found = atStrength.get(key);
  if (!found) {
    if (atStrength.size >= mostStrengths) atStrength.clear();
    atStrength.set(key, (found = allMemberships(substance, strength)));
  }
  return found;
}

function allMemberships(substance: Constituents, strength: Concentration): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  for (const { id } of tests()) {
    const units = groupUnits(id, substance, strength);
    if (units > 0) found.set(id, units);
  }
  return found;
}

/**
 * Every group of a formula, for showing on a reagent's page. @example groupsOf('NaNO2') // ['nitrite',
 * 'alkali_nitrite']
 */
export function groupsOf(formula: string, strength: Concentration = undiluted): readonly string[] {
  const outcome = constituents(formula);
  return outcome.ok ? [...testsById().keys()].filter((id) => groupUnits(id, outcome.value, strength) > 0) : [];
}
