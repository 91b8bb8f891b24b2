// Which groups a substance belongs to, and how many units of the group one formula unit brings; read from groups.csv.
import { constituents, type Constituents } from '../../reagents/constituents.js';
import { groupsTable } from '../../tables/compiled/hazards/foresee/groups.js';
import { groupTests, undiluted, type Concentration } from './group-tests.js';

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

export const groupWords = (id: string): string => groups().get(id)?.words ?? id;

/** One alternative of a group's test, cut into words. */
interface Clause {
  readonly written: string;
  readonly head: string;
  readonly words: readonly string[];
}

const clausesRead = new Map<string, readonly Clause[]>();

/** The alternatives of a test, cut into words once. */
function clausesOf(test: string): readonly Clause[] {
  let clauses = clausesRead.get(test);
  if (!clauses) {
    clauses = test.split('|').map((written): Clause => {
      const [head = '', ...words] = written.trim().split(/\s+/);
      return { written, head, words };
    });
    clausesRead.set(test, clauses);
  }
  return clauses;
}

function clauseUnits({ written, head, words }: Clause, substance: Constituents, strength: Concentration): number {
  // `parts a b`: a member of one of these other groups.
  if (head === 'parts') return words.reduce((most, id) => Math.max(most, groupUnits(id, substance, strength)), 0);
  const test = groupTests[head];
  if (!test) throw new Error(`groups.csv has a test that is not known: '${written}'`);
  return test(words, substance, strength);
}

/**
 * Units of a group in one formula unit: nitrite ions, protons of an acid, atoms of a metal; 0 where it is no member.
 * @example groupUnits('strong_acid', constituents('H2SO4').value, undiluted) // 2
 */
export function groupUnits(id: string, substance: Constituents, strength: Concentration = undiluted): number {
  const group = groups().get(id);
  if (!group) throw new Error(`groups.csv has no group '${id}'`);
  return clausesOf(group.test).reduce((sum, clause) => sum + clauseUnits(clause, substance, strength), 0);
}

const memberships = new Map<string, ReadonlyMap<string, number>>();

/**
 * Every group that a substance belongs to at a strength, with its units; groups that depend on the pot left out.
 * Read once for each formula and strength.
 */
export function membershipsOf(substance: Constituents, strength: Concentration): ReadonlyMap<string, number> {
  const key = `${substance.formula.written} ${strength.percent} ${strength.solution}`;
  let found = memberships.get(key);
  if (!found) {
    found = new Map(
      [...groups().keys()]
        .map((id) => [id, groupUnits(id, substance, strength)] as const)
        .filter(([, units]) => units > 0),
    );
    if (memberships.size >= 5000) memberships.clear();
    memberships.set(key, found);
  }
  return found;
}

/**
 * Every group of a formula, for showing on a reagent's page. @example groupsOf('NaNO2') // ['nitrite',
 * 'alkali_nitrite']
 */
export function groupsOf(formula: string, strength: Concentration = undiluted): readonly string[] {
  const outcome = constituents(formula);
  return outcome.ok ? [...groups().keys()].filter((id) => groupUnits(id, outcome.value, strength) > 0) : [];
}
