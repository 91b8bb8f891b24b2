// Which groups a substance belongs to, and how many units of the group one formula unit brings: found from ions, elements
// and composition by the tests written in groups.csv; names play no part.
import { elements } from '../chemistry/index.js';
import { acidsTable } from '../tables/compiled/hazards/acids.js';
import { groupsTable } from '../tables/compiled/hazards/groups.js';
import { constituents, dryComposition, type Constituents } from '../reagents/constituents.js';

export interface Group {
  readonly id: string;
  readonly words: string;
  readonly test: string;
  readonly members: readonly string[];
  readonly notMembers: readonly string[];
}

/** How far a liquid's strength is known, for the conditions of rules; Infinity stands for undiluted or unknown. */
export interface Concentration {
  readonly percent: number;
  readonly molar: number;
  readonly solution: boolean;
}
export const undiluted: Concentration = { percent: Infinity, molar: Infinity, solution: false };

interface Acid {
  readonly protons: number;
  readonly kind: string;
}
interface Tables {
  readonly groups: ReadonlyMap<string, Group>;
  readonly acids: ReadonlyMap<string, Acid>;
  readonly acidIons: ReadonlyMap<string, Acid>;
}
let tables: Tables | undefined;

function load(): Tables {
  if (tables) return tables;
  const acids = new Map<string, Acid>();
  const acidIons = new Map<string, Acid>();
  for (const row of acidsTable()) {
    const acid = { protons: row.protons, kind: row.kind };
    const { formula } = row;
    if (formula.startsWith('ion ')) acidIons.set(formula.slice(4), acid);
    else acids.set(dryComposition(formula), acid);
  }
  tables = {
    acids,
    acidIons,
    groups: new Map(
      groupsTable().map((row) => [
        row.group,
        {
          id: row.group,
          words: row.words,
          test: row.test,
          members: row.members,
          notMembers: row.not_members,
        },
      ]),
    ),
  };
  return tables;
}

/** Every group, in the table's order. */
export const groups = (): ReadonlyMap<string, Group> => load().groups;
export const groupWords = (id: string): string => load().groups.get(id)?.words ?? id;

const has = (substance: Constituents, id: string): boolean => substance.ions.has(id);
const cationNames = (substance: Constituents): readonly string[] => [
  ...substance.cations.map(({ symbol }) => symbol),
  ...['ammonium', 'uranyl', 'vanadyl', 'titanyl', 'zirconyl'].filter((id) => has(substance, id)),
];
const basic = (substance: Constituents): boolean => has(substance, 'oxide') || has(substance, 'hydroxide');

/** Chlorides and sulfates that hardly dissolve, so that their solution does not matter. */
const insoluble = (symbol: string, substance: Constituents): boolean =>
  (symbol === 'Pb' && has(substance, 'sulfate') && !has(substance, 'nitrate')) ||
  (symbol === 'Ag' && (has(substance, 'chloride') || has(substance, 'iodide'))) ||
  (['Ba', 'Sr'].includes(symbol) && has(substance, 'sulfate'));

function ionTest(words: readonly string[], substance: Constituents): number {
  const cut = words.findIndex((word) => ['with', 'without', 'soluble', 'no-nitrate-alone'].includes(word));
  const ids = cut < 0 ? words : words.slice(0, cut);
  // An acid is named by its formula where it counts: nitric acid is no nitrate salt.
  if (substance.kind === 'acid') return 0;
  const units = ids.reduce((sum, word) => {
    const [id = '', weight = '1'] = word.split('*');
    return sum + (substance.ions.get(id) ?? 0) * Number(weight);
  }, 0);
  if (units === 0 || cut < 0) return units;
  if (words.includes('no-silicon') && substance.atoms.has('Si')) return 0;
  const pure = words.includes('pure');
  const listed = new Set(words.slice(cut + 1).filter((word) => word !== 'pure' && word !== 'no-silicon'));
  const names = cationNames(substance);
  switch (words[cut]) {
    case 'with':
      return (
        pure
          ? names.length > 0 && names.every((name) => listed.has(name))
          : names.some((name) => listed.has(name))
      )
        ? units
        : 0;
    case 'without':
      return names.some((name) => !listed.has(name)) ? units : 0;
    case 'soluble':
      return basic(substance) || names.every((name) => insoluble(name, substance)) ? 0 : units;
    default:
      return substance.dry === dryComposition('NH4NO3') ? 0 : units;
  }
}

/** `salt Fe2 Zn : chloride sulfate`: moles of those cations in a soluble, not basic salt of those anions. */
function saltTest(text: string, substance: Constituents): number {
  const [wanted = '', anions = ''] = text.split(':');
  if (
    basic(substance) ||
    !anions
      .trim()
      .split(' ')
      .some((id) => has(substance, id))
  )
    return 0;
  return wanted
    .trim()
    .split(' ')
    .reduce((sum, word) => {
      const [, symbol = '', charge] = /^([A-Z][a-z]?)(\d)?$/.exec(word) ?? [];
      return (
        sum +
        substance.cations.reduce(
          (count, cation) =>
            cation.symbol === symbol &&
            (charge === undefined || cation.charge === Number(charge)) &&
            !insoluble(symbol, substance)
              ? count + cation.count
              : count,
          0,
        )
      );
    }, 0);
}

const isMetal = (symbol: string): boolean => ['metal', 'metalloid'].includes(elements().get(symbol)?.kind ?? '');

/** `oxide Mn>2.5`: an oxide of one metal whose mean state is above that; units are the pairs of electrons above two. */
function oxideTest(words: readonly string[], { atoms, cations, kind }: Constituents): number {
  const metals = [...atoms.keys()].filter((symbol) => symbol !== 'O' && symbol !== 'H');
  const oxygen = atoms.get('O') ?? 0;
  if (metals.length !== 1 || oxygen === 0 || kind === 'acid' || kind === 'molecule') return 0;
  const symbol = metals[0]!;
  const count = atoms.get(symbol)!;
  const state = (2 * oxygen - (atoms.get('H') ?? 0)) / count;
  for (const word of words) {
    const [name, above] = word.split('>');
    if (name === symbol && state > Number(above) && state <= 5 && cations.length >= 0)
      return Number(above) > 0 ? Math.max(1, ((state - 2) * count) / 2) : count;
  }
  return 0;
}

const acidicCations: Readonly<Record<string, number>> = {
  Al: 3,
  Fe: 3,
  Cr: 3,
  Sn: 0,
  Bi: 3,
  Ti: 0,
  Zr: 0,
  Sb: 3,
  Ga: 3,
  In: 3,
  Hf: 0,
};
const strongAnions = [
  'chloride',
  'bromide',
  'iodide',
  'nitrate',
  'sulfate',
  'perchlorate',
  'thiocyanate',
  'tetrafluoridoborate',
];

/** Protons that one formula unit can give, counted generously. */
function acidTest(kind: string, substance: Constituents): number {
  const { acids, acidIons } = load();
  const row = acids.get(substance.dry);
  if (kind === 'acidic-salt') {
    let units = [...acidIons].reduce(
      (sum, [id, acid]) => (acid.kind === 'acidic salt' ? sum + (substance.ions.get(id) ?? 0) * acid.protons : sum),
      0,
    );
    if (!basic(substance) && substance.kind !== 'acid' && strongAnions.some((id) => has(substance, id))) {
      for (const { symbol, charge, count } of substance.cations) {
        const least = acidicCations[symbol];
        if (least !== undefined && charge >= Math.max(least, 2)) units += charge * count;
      }
      for (const id of ['titanyl', 'vanadyl', 'zirconyl']) units += (substance.ions.get(id) ?? 0) * 2;
    }
    return units;
  }
  if (row) return row.kind === kind ? row.protons : 0;
  if (kind !== 'weak') return 0;
  const fromIons = [...acidIons].reduce(
    (sum, [id, acid]) => (acid.kind === 'weak' ? sum + (substance.ions.get(id) ?? 0) * acid.protons : sum),
    0,
  );
  // An acid that is in no table is taken as a weak one: it is at least that.
  return fromIons > 0 ? fromIons : substance.kind === 'acid' ? (substance.ions.get('hydrogen') ?? 1) : 0;
}

const notCombustible = new Set([
  'CH4N2O',
  'C2H2O4',
  'CHN',
  'CHCl3',
  'CH2Cl2',
  'CH2O3',
  'CH4N2S',
  'CHNO',
  'CHNS',
  'CH3NaO3',
]);

function organicTest({ atoms, dry, kind, cations, ions }: Constituents): number {
  const carbon = atoms.get('C') ?? 0;
  if (carbon === 0 || !atoms.get('H') || cations.length > 0 || ions.has('ammonium') || notCombustible.has(dry))
    return 0;
  if (load().acids.has(dry) || kind === 'acid' || kind === 'salt' || kind === 'ion') return 0;
  return 1;
}

function amineTest({ atoms, dry, amino, kind, ions }: Constituents): number {
  if (
    !atoms.get('C') ||
    !atoms.get('N') ||
    !atoms.get('H') ||
    kind === 'salt' ||
    ions.has('ammonium') ||
    ['CH4N2O', 'CHN', 'C2H3N', 'C16H10N2O2'].includes(dry)
  )
    return 0;
  return amino || !atoms.get('O') ? 1 : 0;
}

function clauseUnits(clause: string, substance: Constituents, strength: Concentration): number {
  const [head = '', ...words] = clause.trim().split(/\s+/);
  switch (head) {
    case 'ion':
      return ionTest(words, substance);
    case 'salt':
      return saltTest(words.join(' '), substance);
    case 'formula': {
      const above = words.findIndex((word) => word === 'above' || word === 'stated');
      const list = (above >= 0 ? words.slice(0, above) : words).filter(
        (word) => word !== 'no-water' && word !== 'solid',
      );
      if (!list.some((formula) => dryComposition(formula) === substance.dry)) return 0;
      if (words.includes('no-water') && (substance.water > 0 || strength.solution)) return 0;
      if (words.includes('solid') && strength.solution) return 0;
      // `above 70` takes an unknown strength as strong, `stated 60` wants to be told.
      if (
        above >= 0 &&
        (strength.percent < Number(words[above + 1]) || (words[above] === 'stated' && strength.percent === Infinity))
      )
        return 0;
      return 1;
    }
    case 'element': {
      if (substance.kind !== 'element' || substance.atoms.size !== 1) return 0;
      const [symbol, count] = [...substance.atoms][0]!;
      const listed = words.find((word) => word.split('*')[0] === symbol);
      return listed === undefined ? 0 : count * Number(listed.split('*')[1] ?? 1);
    }
    case 'cation':
      return substance.cations.reduce(
        (sum, { symbol, charge, count }) => (symbol === words[0] && charge === Number(words[1]) ? sum + count : sum),
        0,
      );
    case 'has': {
      const symbols = words.filter((word) => /^[A-Z]/.test(word));
      if (!symbols.every((symbol) => substance.atoms.has(symbol))) return 0;
      if (words.includes('no-oxygen') && substance.atoms.has('O')) return 0;
      if (words.includes('no-element') && substance.kind === 'element') return 0;
      if (words.includes('no-sulfide') && has(substance, 'sulfide')) return 0;
      if (
        words.includes('no-sulfate') &&
        has(substance, 'sulfate') &&
        (substance.atoms.get('S') ?? 0) <= (substance.ions.get('sulfate') ?? 0)
      )
        return 0;
      return words.includes('no-sulfate') ? substance.atoms.get('S')! : substance.atoms.get(symbols[0]!)!;
    }
    case 'only-with': {
      const [symbol = ''] = words;
      const others = words.slice(2);
      const rest = [...substance.atoms.keys()].filter((name) => name !== symbol);
      const allowed = (name: string): boolean =>
        others.includes(name) || (others.includes('metal') && isMetal(name) && !(name === 'As' || name === 'Si'));
      return substance.atoms.has(symbol) && rest.length > 0 && rest.every(allowed) && rest.some(isMetal)
        ? substance.atoms.get(symbol)!
        : 0;
    }
    case 'oxide':
      return oxideTest(words, substance);
    case 'acid':
      return acidTest(words[0]!, substance);
    case 'with-part':
      return words.reduce(
        (sum, formula) => sum + (substance.parts.size > 1 ? (substance.parts.get(dryComposition(formula)) ?? 0) : 0),
        0,
      );
    case 'organic':
      return organicTest(substance);
    case 'amine':
      return amineTest(substance);
    case 'parts':
      return words.reduce((most, id) => Math.max(most, groupUnits(id, substance, strength)), 0);
    default:
      return 0; // `pot …` groups depend on the whole pot and are decided there
  }
}

/**
 * Units of a group in one formula unit: nitrite ions, protons of an acid, atoms of a metal; 0 where it is no member.
 * @example groupUnits('strong_acid', constituents('H2SO4'), undiluted) // 2
 */
export function groupUnits(id: string, substance: Constituents, strength: Concentration = undiluted): number {
  const group = load().groups.get(id);
  if (!group) throw new Error(`groups.csv has no group '${id}'`);
  return group.test.split('|').reduce((sum, clause) => sum + clauseUnits(clause, substance, strength), 0);
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
      [...load().groups.keys()]
        .map((id) => [id, groupUnits(id, substance, strength)] as const)
        .filter(([, units]) => units > 0),
    );
    if (memberships.size >= 5000) memberships.clear();
    memberships.set(key, found);
  }
  return found;
}

/** Every group of a formula, for showing on a reagent's page. @example groupsOf('NaNO2') // ['nitrite', 'alkali_nitrite'] */
export function groupsOf(formula: string, strength: Concentration = undiluted): readonly string[] {
  const outcome = constituents(formula);
  return outcome.ok ? [...load().groups.keys()].filter((id) => groupUnits(id, outcome.value, strength) > 0) : [];
}
