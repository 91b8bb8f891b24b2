// What a formula holds, as the rules look at it: its ions, its elements, its water and its parts.
import {
  composition,
  elements,
  exact,
  hillFormula,
  ionsOf,
  molarMass,
  parseFormula,
  type Decimal,
  type Dissociation,
  type Formula,
  type FormulaNode,
} from '../chemistry/index.js';
import { good, type Outcome } from '../outcome.js';
import { preparedAnswers } from '../tables/prepared.js';
import { tableFormulae } from './table-formulae.js';

export interface Cation {
  readonly symbol: string;
  readonly charge: number;
  readonly count: number;
}

export interface Constituents {
  readonly formula: Formula;
  /** Atoms of the dry formula, by element. A share left open (`x`) counts as present. */
  readonly atoms: ReadonlyMap<string, number>;
  /** Dry composition in Hill order, so that spellings of one substance agree. */
  readonly dry: string;
  /** Hill composition of each part between the dots, with how many there are. */
  readonly parts: ReadonlyMap<string, number>;
  readonly kind: 'salt' | 'acid' | 'hydroxide' | 'oxide' | 'ion' | 'element' | 'molecule' | 'water' | 'unknown';
  /** Anions and ammonium-like ions by their chemistry id, per formula unit. */
  readonly ions: ReadonlyMap<string, number>;
  readonly cations: readonly Cation[];
  readonly water: number;
  /** Nitrogen carries one or two hydrogens somewhere in the written structure: `NH2`, `NH`. */
  readonly amino: boolean;
}

const one = { low: exact(1), high: exact(1) };
const waterPart = 'H2O';
const known = new Map<string, Outcome<Constituents>>();

const hillOf = (nodes: readonly FormulaNode[]): string =>
  hillFormula({ written: '', parts: [{ multiplier: one, nodes }], charge: 0, doubts: [] });
const present = (low: Decimal, open: boolean): number => (low.isZero() && open ? 1 : low.toNumber());

/** Text that the formula reader takes: `(Cd,Zn)S` is read as CdZnS, `NH3(aq)` as NH3, `BiONO3` as an oxide nitrate. */
export const readable = (written: string): string =>
  written
    .trim()
    .replace(/\((?:aq|s|l|g)\)$/i, '')
    .replace(/(?<=[A-Za-z0-9]),\s*(?=[A-Z])/g, '')
    .replace(/(?<=[a-z])ONO3(?![\d)])/, 'O(NO3)');

function aminoIn(nodes: readonly FormulaNode[]): boolean {
  return nodes.some((node, at) => {
    if (node.kind === 'group') return node.parts.some((part) => aminoIn(part.nodes));
    const next = nodes[at + 1];
    return node.symbol === 'N' && next?.kind === 'atom' && next.symbol === 'H' && next.count.low.lte(2);
  });
}

/**
 * Reads a formula into what the rules look at. Errors: those of the formula reader.
 * @example constituents('K4Fe(CN)6.3H2O') // ions: ferrocyanide 1; water 3; no cyanide
 */
export function constituents(written: string): Outcome<Constituents> {
  const before = known.get(written);
  if (before) return before;
  const outcome = read(readable(written), parseFormula(written));
  if (known.size < 5000) known.set(written, outcome);
  return outcome;
}

/**
 * A formula with its water left out, unless it is water; an open share (`x`) counts as one, so that its ions are
 * seen.
 */
function dried(formula: Formula): { readonly closed: Formula; readonly dry: Formula; readonly onlyWater: boolean } {
  const closed: Formula = {
    ...formula,
    parts: formula.parts.map((part) => ({ ...part, multiplier: part.multiplier.unknown ? one : part.multiplier })),
  };
  const dryParts =
    closed.parts.length === 1 ? closed.parts : closed.parts.filter((part) => hillOf(part.nodes) !== waterPart);
  const onlyWater =
    dryParts.length === 0 || (closed.parts.length === 1 && hillOf(closed.parts[0]!.nodes) === waterPart);
  return { closed, dry: dryParts.length === 0 ? closed : { ...closed, parts: dryParts }, onlyWater };
}

const dryRead = new Map<string, string>();
const tableDryCompositions = preparedAnswers('dry-compositions', () =>
  tableFormulae().map((formula) => [formula, readDryComposition(formula)] as const),
);

/** Dry composition in Hill order, without looking for ions; the text itself where it is no formula. */
export function dryComposition(written: string): string {
  const before = dryRead.get(written);
  if (before !== undefined) return before;
  const found = tableDryCompositions(written) ?? readDryComposition(written);
  if (dryRead.size < 5000) dryRead.set(written, found);
  return found;
}

function readDryComposition(written: string): string {
  const parsed = parseFormula(readable(written));
  return parsed.ok && parsed.value.parts.length > 0 ? hillFormula(dried(parsed.value).dry) : written;
}

/** Moles of each part of a formula: of `CuSO4·5H2O` one of the salt and five of water. */
function partsOf(formula: Formula): ReadonlyMap<string, number> {
  const parts = new Map<string, number>();
  for (const { nodes, multiplier } of formula.parts) {
    const name = hillOf(nodes);
    parts.set(name, (parts.get(name) ?? 0) + multiplier.low.toNumber());
  }
  return parts;
}

/** The metal of an ion that is a bare metal, `Hg2` counted as one: undefined for `NH4`, `VO` and for acid. */
function metalOf(ion: Dissociation['ions'][number]): string | undefined {
  const symbol = /^[A-Z][a-z]?(?=[\^2]|$)/.exec(ion.formula)?.[0];
  if (symbol === undefined || ion.charge <= 0 || ion.id === 'hydrogen' || !elements().has(symbol)) return undefined;
  return /^[A-Z][a-z]?\d*[A-Z]/.test(ion.formula) ? undefined : symbol;
}

/** Metals with their charges, and all other ions by what they are called. */
function ionsAndCations(dissociation: Dissociation | undefined): Pick<Constituents, 'ions' | 'cations'> {
  const ions = new Map<string, number>();
  const cations: Cation[] = [];
  for (const ion of dissociation?.ions ?? []) {
    const symbol = metalOf(ion);
    if (symbol !== undefined) cations.push({ symbol, charge: ion.charge, count: ion.count.toNumber() });
    else ions.set(ion.id, (ions.get(ion.id) ?? 0) + ion.count.toNumber());
  }
  return { ions, cations };
}

/** What the rules look at is read from a text without alternatives; masses are those of the formula as written. */
function read(text: string, asWritten: Outcome<Formula>): Outcome<Constituents> {
  const parsed = parseFormula(text);
  if (!parsed.ok) return parsed;
  const { closed: formula, dry: dryFormula, onlyWater } = dried(parsed.value);
  const atoms = new Map(
    [...composition(dryFormula)].map(([symbol, count]) => [symbol, present(count.low, Boolean(count.unknown))]),
  );
  const parts = partsOf(formula);
  const dissociated = ionsOf({ ...formula, written: text });
  return good({
    formula: asWritten.ok ? asWritten.value : parsed.value,
    atoms,
    dry: hillFormula(dryFormula),
    parts,
    ...ionsAndCations(dissociated.ok ? dissociated.value : undefined),
    water: onlyWater ? 0 : (parts.get(waterPart) ?? 0),
    kind: dissociated.ok ? dissociated.value.kind : 'unknown',
    amino: formula.parts.some((part) => aminoIn(part.nodes)),
  });
}

const weighed = new Map<string, Decimal | undefined>();

/** Molar mass in g/mol of the formula as written, water included; undefined where it cannot be told. */
export function gramsPerMole(written: string): Decimal | undefined {
  if (weighed.has(written)) return weighed.get(written);
  const parsed = parseFormula(readable(written));
  const mass = parsed.ok ? molarMass(parsed.value) : undefined;
  const grams = mass?.ok ? mass.value.low.plus(mass.value.high).div(2) : undefined;
  if (weighed.size < 5000) weighed.set(written, grams);
  return grams;
}
