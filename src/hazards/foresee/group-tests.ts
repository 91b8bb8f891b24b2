// The tests by which groups.csv says who belongs to a group: on ions, elements and composition, never on names.
// Each gives the units of the group in one formula unit: nitrite ions, protons of an acid, atoms of a metal; 0 for
// none.
import { elements } from '../../chemistry/index.js';
import { dryComposition, type Constituents } from '../../reagents/constituents.js';
import { once } from '../../once.js';
import { acidsTable } from '../../tables/compiled/hazards/foresee/acids.js';
import { groupsTable } from '../../tables/compiled/hazards/foresee/groups.js';
import { prepared, preparedAnswers } from '../../tables/prepared.js';

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
interface AcidTables {
  /** By dry composition. */
  readonly acids: ReadonlyMap<string, Acid>;
  /** By id of the ion. */
  readonly acidIons: ReadonlyMap<string, Acid>;
}
let acidsRead: AcidTables | undefined;

function acidTables(): AcidTables {
  if (acidsRead) return acidsRead;
  const acids = new Map<string, Acid>();
  const acidIons = new Map<string, Acid>();
  for (const { formula, protons, kind } of acidsTable()) {
    if (formula.startsWith('ion ')) acidIons.set(formula.slice(4), { protons, kind });
    else acids.set(dryComposition(formula), { protons, kind });
  }
  acidsRead = { acids, acidIons };
  return acidsRead;
}

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

/** What may stand behind the ions of a test, and what they must stand with. */
const behindIons: ReadonlySet<string> = new Set(['with', 'without', 'soluble', 'no-nitrate-alone', 'no-carbon']);

/** Ions of these words, `nitrite` or `dichromate*2`, in one formula unit, each with its weight. */
function ionUnits(words: readonly string[], { ions }: Constituents): number {
  let units = 0;
  for (const word of words) {
    if (behindIons.has(word)) return units;
    const star = word.indexOf('*');
    const count = ions.get(star < 0 ? word : word.slice(0, star)) ?? 0;
    if (count > 0) units += star < 0 ? count : count * Number(word.slice(star + 1));
  }
  return units;
}

function ionTest(words: readonly string[], substance: Constituents): number {
  if (substance.ions.size === 0) return 0;
  // An acid is named by its formula where it counts: nitric acid is no nitrate salt.
  if (substance.kind === 'acid') return 0;
  const units = ionUnits(words, substance);
  if (units === 0) return 0;
  const cut = words.findIndex((word) => behindIons.has(word));
  if (cut < 0) return units;
  if (words.includes('no-silicon') && substance.atoms.has('Si')) return 0;
  // Silicones and silicate esters hold no hydride, though silicon stands beside hydrogen in their formulae.
  if (words.includes('no-carbon')) return substance.atoms.has('C') ? 0 : units;
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
function oxideTest(words: readonly string[], { atoms, kind }: Constituents): number {
  const metals = [...atoms.keys()].filter((symbol) => symbol !== 'O' && symbol !== 'H');
  const oxygen = atoms.get('O') ?? 0;
  if (metals.length !== 1 || oxygen === 0 || kind === 'acid' || kind === 'molecule') return 0;
  const symbol = metals[0]!;
  const count = atoms.get(symbol)!;
  const state = (2 * oxygen - (atoms.get('H') ?? 0)) / count;
  for (const word of words) {
    const [name, above] = word.split('>');
    if (name === symbol && state > Number(above) && state <= 5)
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
  const { acids, acidIons } = acidTables();
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
  if (fromIons > 0) return fromIons;
  return substance.kind === 'acid' ? (substance.ions.get('hydrogen') ?? 1) : 0;
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
  if (acidTables().acids.has(dry) || kind === 'acid' || kind === 'salt' || kind === 'ion') return 0;
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

/** % above which a lye or a hypochlorite is sold as granules and not as a solution. Common practice, no source. */
const solidFrom = 60;

/** A formula of a test without its units: `C3Cl3N3O3` of `C3Cl3N3O3*3`. */
const formulaIn = (word: string): string => word.split('*')[0]!;

/** The words of each test of formulae. */
const formulaTests = once((): readonly (readonly string[])[] =>
  groupsTable()
    .flatMap(({ test }) => test.split('|').map((one) => one.trim().split(/\s+/)))
    .filter(([kind]) => kind === 'formula')
    .map(([, ...words]) => words),
);

const testedFormulae = once((): readonly string[] => [
  ...new Set(formulaTests().flatMap((words) => words.map(formulaIn))),
]);

/** Formulae in the tests of groups that are a substance of this dry composition. */
const testedAs = preparedAnswers<readonly string[]>(
  'tested-formulae',
  () => {
    const byComposition = new Map<string, string[]>();
    for (const formula of testedFormulae()) {
      const dry = dryComposition(formula);
      byComposition.set(dry, [...(byComposition.get(dry) ?? []), formula]);
    }
    return byComposition;
  },
  (dry) => testedFormulae().filter((formula) => dryComposition(formula) === dry),
);
/** Every group asks for the same substance one after the other. */
let testedLast: { readonly dry: string; readonly as: readonly string[] } | undefined;
function formulaeTestedAs(dry: string): readonly string[] {
  if (testedLast?.dry !== dry) testedLast = { dry, as: testedAs(dry) ?? [] };
  return testedLast.as;
}

/**
 * `formula C3Cl3N3O3*3`: one of these substances, with so many units. `formula H2SO4 above 70`, `formula P4 no-water`,
 * `formula SO3 solid`: perhaps only so strong.
 */
function formulaTest(words: readonly string[], substance: Constituents, strength: Concentration): number {
  const same = formulaeTestedAs(substance.dry);
  if (same.length === 0) return 0;
  const bound = words.findIndex((word) => word === 'above' || word === 'stated');
  const listed = (bound >= 0 ? words.slice(0, bound) : words).filter((word) => word !== 'no-water' && word !== 'solid');
  const found = listed.find((word) => same.includes(formulaIn(word)));
  if (found === undefined) return 0;
  const units = Number(found.split('*')[1] ?? 1);
  if (words.includes('no-water') && (substance.water > 0 || strength.solution)) return 0;
  if (words.includes('solid') && strength.solution && strength.percent < solidFrom) return 0;
  if (bound < 0) return units;
  // `above 70` takes an unknown strength as strong, `stated 60` wants to be told.
  if (words[bound] === 'stated' && strength.percent === Infinity) return 0;
  return strength.percent < Number(words[bound + 1]) ? 0 : units;
}

const asksStrength = (words: readonly string[]): boolean =>
  ['above', 'stated', 'no-water', 'solid'].some((word) => words.includes(word));

/** Formulae in tests that ask how strong they are. */
const testedByStrength = prepared<readonly string[]>('tested-by-strength', () => [
  ...new Set(
    formulaTests()
      .filter(asksStrength)
      .flatMap((words) => words.map(formulaIn)),
  ),
]);

/** Whether groups of a substance of this dry composition depend on how strong it is. */
export const isJudgedByStrength = (dry: string): boolean =>
  formulaeTestedAs(dry).some((formula) => testedByStrength().includes(formula));

/** `element S P*4`: the element itself, each atom so many units. */
function elementTest(words: readonly string[], substance: Constituents): number {
  if (substance.kind !== 'element' || substance.atoms.size !== 1) return 0;
  const [symbol, count] = [...substance.atoms][0]!;
  const listed = words.find((word) => word.split('*')[0] === symbol);
  return listed === undefined ? 0 : count * Number(listed.split('*')[1] ?? 1);
}

/** `cation Fe 2`: that metal in that state. */
const cationTest = ([wanted, state]: readonly string[], { cations }: Constituents): number =>
  cations.reduce(
    (sum, { symbol, charge, count }) => (symbol === wanted && charge === Number(state) ? sum + count : sum),
    0,
  );

/** All its sulfur stands in sulfate. */
const onlySulfate = (substance: Constituents): boolean =>
  has(substance, 'sulfate') && (substance.atoms.get('S') ?? 0) <= (substance.ions.get('sulfate') ?? 0);

const isCapital = (letter: string): boolean => letter >= 'A' && letter <= 'Z';

/** `has As no-oxygen`: these elements, without what is named after them. */
function hasTest(words: readonly string[], substance: Constituents): number {
  let first = '';
  for (const word of words) {
    if (!isCapital(word[0]!)) continue;
    if (!substance.atoms.has(word)) return 0;
    first ||= word;
  }
  const barred: Readonly<Record<string, boolean>> = {
    'no-oxygen': substance.atoms.has('O'),
    'no-element': substance.kind === 'element',
    'no-sulfide': has(substance, 'sulfide'),
    'no-sulfate': onlySulfate(substance),
    'no-trioxide': substance.dry === dryComposition('As2O3') || substance.dry === dryComposition('As4O6'),
  };
  if (words.some((word) => barred[word])) return 0;
  return substance.atoms.get(words.includes('no-sulfate') ? 'S' : first) ?? 0;
}

/** `only-with N with metal H`: that element with metals, and with nothing but these others. */
function onlyWithTest([symbol = '', , ...others]: readonly string[], { atoms }: Constituents): number {
  const rest = [...atoms.keys()].filter((name) => name !== symbol);
  const allowed = (name: string): boolean =>
    others.includes(name) || (others.includes('metal') && isMetal(name) && name !== 'As' && name !== 'Si');
  return rest.length > 0 && rest.every(allowed) && rest.some(isMetal) ? (atoms.get(symbol) ?? 0) : 0;
}

/** `with-part CuO`: parts of an adduct, between the dots. */
const withPartTest = (words: readonly string[], { parts }: Constituents): number =>
  parts.size > 1 ? words.reduce((sum, formula) => sum + (parts.get(dryComposition(formula)) ?? 0), 0) : 0;

/** `part-hydrate CaSO4`: that salt with less than one water to each, and more than none. */
const partHydrateTest = (words: readonly string[], { dry, water }: Constituents): number =>
  water > 0 && water < 1 && words.some((formula) => dryComposition(formula) === dry) ? 1 : 0;

type GroupTest = (words: readonly string[], substance: Constituents, strength: Concentration) => number;

/** Every test by its first word. What begins with `pot` depends on the whole mixture and is decided there. */
export const groupTests: Readonly<Record<string, GroupTest>> = {
  ion: ionTest,
  salt: (words, substance) => saltTest(words.join(' '), substance),
  formula: formulaTest,
  element: elementTest,
  cation: cationTest,
  has: hasTest,
  'only-with': onlyWithTest,
  oxide: oxideTest,
  acid: ([kind = ''], substance) => acidTest(kind, substance),
  'with-part': withPartTest,
  'part-hydrate': partHydrateTest,
  organic: (_, substance) => organicTest(substance),
  amine: (_, substance) => amineTest(substance),
  pot: () => 0,
};
