// The ions that a salt, acid or base supplies: found from its formula, by structure and charge, never by name.
import { good, type Outcome } from '../outcome.js';
import { equivalentsTable } from '../tables/compiled/chemistry/equivalents.js';
import { ionsTable } from '../tables/compiled/chemistry/ions.js';
import { moleculesTable } from '../tables/compiled/chemistry/molecules.js';
import { oxidationStatesTable } from '../tables/compiled/chemistry/oxidation-states.js';
import { oxyanionFamiliesTable } from '../tables/compiled/chemistry/oxyanion-families.js';
import { elements } from './atomic-weights.js';
import { exact, one, zero, type Decimal } from './exact.js';
import {
  chargeText,
  composition,
  isElectron,
  parseFormula,
  printFormula,
  type Composition,
  type Formula,
  type FormulaNode,
  type FormulaPart,
} from './formula/index.js';

/** One kind of ion and how many of it one formula unit supplies. */
export interface Ion {
  /** Short name for rules: `nitrite`, `ferrocyanide`, `silicate`; a metal's name, `copper`; `complex` for an unlisted complex. */
  readonly id: string;
  readonly name: string;
  /** `NO2^-`, `Cu^2+`, `[Fe(CN)6]^4-` */
  readonly formula: string;
  /** In elementary charges; 0 where it cannot be told. */
  readonly charge: number;
  readonly count: Decimal;
}

export interface Dissociation {
  readonly kind: 'salt' | 'acid' | 'hydroxide' | 'oxide' | 'ion' | 'element' | 'molecule' | 'water' | 'unknown';
  readonly ions: readonly Ion[];
  /** Neutral molecules in it besides water, `ammonia`, `hydrogen peroxide`. */
  readonly molecules: readonly { readonly id: string; readonly formula: string; readonly count: Decimal }[];
  /** Water of crystallisation in one formula unit. */
  readonly water: Decimal;
  /** Charges were found that add up to the charge of the formula. */
  readonly balanced: boolean;
}

interface Listed {
  readonly id: string;
  readonly name: string;
  readonly formula: string;
  readonly charge: number;
}

/** Order-free name of a composition: `H3 N1`. */
const key = (atoms: Composition): string =>
  [...atoms]
    .map(([symbol, { low }]) => `${symbol}${low}`)
    .sort()
    .join(' ');
const keyOf = (nodes: readonly FormulaNode[], charge = 0): string =>
  key(composition({ written: '', parts: [{ multiplier: { low: one, high: one }, nodes }], charge, doubts: [] }));

interface Tables {
  readonly anions: ReadonlyMap<string, readonly Listed[]>;
  readonly cations: ReadonlyMap<string, readonly Listed[]>;
  readonly states: ReadonlyMap<string, readonly number[]>;
  readonly families: ReadonlyMap<string, { readonly state: number; readonly id: string }>;
  readonly molecules: ReadonlyMap<string, { readonly name: string; readonly ions: string }>;
}
let tables: Tables | undefined;

function load(): Tables {
  if (tables) return tables;
  const anions = new Map<string, Listed[]>();
  const cations = new Map<string, Listed[]>();
  for (const row of ionsTable()) {
    const formula = parseFormula(row.formula);
    if (!formula.ok) throw new Error(`ions.csv: ${row.formula}`);
    const { charge } = row;
    const into = charge < 0 ? anions : cations;
    const name = key(composition(formula.value));
    into.set(name, [...(into.get(name) ?? []), { id: row.id, name: row.name, formula: row.formula, charge }]);
  }
  tables = {
    anions,
    cations,
    states: new Map(oxidationStatesTable().map((row) => [row.symbol, row.states])),
    families: new Map(oxyanionFamiliesTable().map((row) => [row.symbol, { state: row.state, id: row.id }])),
    molecules: new Map(
      moleculesTable().flatMap((row) =>
        row.spellings.map((spelling) => [spelling, { name: row.name, ions: row.ions }] as const),
      ),
    ),
  };
  return tables;
}

/** One stretch of a formula with the ways in which it can be read as ions. */
interface Segment {
  readonly readings: readonly Ion[];
}

const single = (node: FormulaNode): readonly FormulaNode[] | undefined =>
  node.kind === 'group' && node.parts.length === 1 && node.parts[0]!.multiplier.low.eq(1)
    ? node.parts[0]!.nodes
    : undefined;

const shown = (bracket: string, formula: string): string =>
  bracket === '[' && !formula.startsWith('[') ? `[${formula}]` : formula;
const ion = (listed: Listed, count: Decimal, bracket = ''): Ion => ({
  id: listed.id,
  name: listed.name,
  formula: `${shown(bracket, listed.formula)}${chargeText(listed.charge)}`,
  charge: listed.charge,
  count,
});

function anionReadings(nodes: readonly FormulaNode[]): Segment | undefined {
  const { anions, families } = load();
  if (nodes.length === 1) {
    const [node] = nodes as [FormulaNode];
    const count = node.count.low;
    const inner = single(node);
    if (node.kind === 'atom') {
      const alone = (anions.get(`${node.symbol}1`) ?? []).map((listed) => ion(listed, count));
      const together = count.eq(1)
        ? []
        : (anions.get(`${node.symbol}${count}`) ?? []).map((listed) => ion(listed, one));
      const readings = [...alone, ...together];
      return readings.length > 0 ? { readings } : undefined;
    }
    if (inner) {
      const listed = anions.get(keyOf(inner)) ?? [];
      if (listed.length > 0) return { readings: listed.map((known) => ion(known, count, node.bracket)) };
      if (node.bracket === '[' && hasMetal(inner)) {
        const text = `[${textOf(inner)}]`;
        return {
          readings: [-1, -2, -3, -4].map((charge) => ({
            id: 'complex',
            name: `complex ion ${text}`,
            formula: `${text}${chargeText(charge)}`,
            charge,
            count,
          })),
        };
      }
      const generic = family(inner, families);
      return generic ? { readings: [{ ...generic, count: generic.count.times(count) }] } : undefined;
    }
    return undefined;
  }
  const listed = anions.get(keyOf(nodes)) ?? [];
  if (listed.length > 0) return { readings: listed.map((known) => ion(known, one)) };
  const generic = family(nodes, families);
  return generic ? { readings: [generic] } : undefined;
}

/** An oxyanion that is in no list, by its element: `Si4O10` is a silicate of charge 4−; with aluminium an aluminosilicate. */
function family(nodes: readonly FormulaNode[], families: Tables['families']): Ion | undefined {
  const atoms = composition({
    written: '',
    parts: [{ multiplier: { low: one, high: one }, nodes }],
    charge: 0,
    doubts: [],
  });
  const oxygen = atoms.get('O');
  if (!oxygen || nodes.some((node) => node.kind === 'group')) return undefined;
  const others = [...atoms.keys()].filter((symbol) => symbol !== 'O' && symbol !== 'H');
  const aluminosilicate = others.length === 2 && others.includes('Al') && others.includes('Si');
  const known = others.length === 1 ? families.get(others[0]!) : undefined;
  if (!known && !aluminosilicate) return undefined;
  let charge = oxygen.low.times(-2).plus(atoms.get('H')?.low ?? zero);
  for (const symbol of others)
    charge = charge.plus(atoms.get(symbol)!.low.times(symbol === 'Al' ? 3 : families.get(symbol)!.state));
  if (charge.gte(0)) return undefined;
  const id = aluminosilicate ? 'aluminosilicate' : known!.id;
  const text = textOf(nodes);
  return {
    id,
    name: id,
    formula: charge.isInteger() ? `${text}${chargeText(charge.toNumber())}` : text,
    charge: charge.toNumber(),
    count: one,
  };
}

const textOf = (nodes: readonly FormulaNode[]): string =>
  printFormula({ written: '', parts: [{ multiplier: { low: one, high: one }, nodes }], charge: 0, doubts: [] });

function hasMetal(nodes: readonly FormulaNode[]): boolean {
  return nodes.some((node) =>
    node.kind === 'atom'
      ? elements().get(node.symbol)!.kind !== 'nonmetal'
      : node.parts.some((part) => hasMetal(part.nodes)),
  );
}

function cationReadings(nodes: readonly FormulaNode[]): Segment | undefined {
  const { cations, states } = load();
  const named = (symbol: string, charge: number, count: Decimal): Ion => {
    const element = elements().get(symbol)!;
    return { id: element.name, name: element.name, formula: `${symbol}${chargeText(charge)}`, charge, count };
  };
  if (nodes.length === 1) {
    const [node] = nodes as [FormulaNode];
    const count = node.count.low;
    if (node.kind === 'atom') {
      if (node.symbol === 'H') return { readings: [ion(cations.get('H1')![0]!, count)] };
      const charges = states.get(node.symbol);
      return charges ? { readings: charges.map((charge) => named(node.symbol, charge, count)) } : undefined;
    }
    const inner = single(node);
    if (!inner) return undefined;
    const listed = cations.get(keyOf(inner)) ?? [];
    if (listed.length > 0) return { readings: listed.map((known) => ion(known, count)) };
    if (node.bracket === '[' && hasMetal(inner)) {
      const text = `[${textOf(inner)}]`;
      return {
        readings: [2, 3, 1, 4].map((charge) => ({
          id: 'complex',
          name: `complex ion ${text}`,
          formula: `${text}${chargeText(charge)}`,
          charge,
          count,
        })),
      };
    }
    return undefined;
  }
  const listed = (cations.get(keyOf(nodes)) ?? []).filter(({ formula }) => formula !== 'Hg2');
  if (listed.length > 0) return { readings: listed.map((known) => ion(known, one)) };
  // A metal with neutral ligands, written without square brackets: Cu(NH3)4.
  const [metal, ligand] = nodes as [FormulaNode, FormulaNode];
  if (
    nodes.length === 2 &&
    metal.kind === 'atom' &&
    states.has(metal.symbol) &&
    ligand.kind === 'group' &&
    single(ligand) &&
    ['H3 N1', 'H2 O1'].includes(keyOf(single(ligand)!))
  ) {
    const text = `[${textOf(nodes)}]`;
    return {
      readings: states.get(metal.symbol)!.map((charge) => ({
        id: 'complex',
        name: `complex ion ${text}`,
        formula: `${text}${chargeText(charge)}`,
        charge,
        count: one,
      })),
    };
  }
  return undefined;
}

/** All ways of cutting nodes into readable stretches, fewest stretches first; bounded. */
function cuts(
  nodes: readonly FormulaNode[],
  read: (nodes: readonly FormulaNode[]) => Segment | undefined,
): readonly (readonly Segment[])[] {
  const at: (readonly (readonly Segment[])[])[] = [[[]]];
  for (let end = 1; end <= nodes.length; end += 1) {
    const here: (readonly Segment[])[] = [];
    for (let start = Math.max(0, end - 8); start < end; start += 1) {
      if (at[start]!.length === 0) continue;
      const segment = read(nodes.slice(start, end));
      if (segment) for (const before of at[start]!) if (here.length < 12) here.push([...before, segment]);
    }
    here.sort((a, b) => a.length - b.length);
    at.push(here);
  }
  return at[nodes.length]!;
}

/** The first choice of one reading for each stretch whose charges add up to `charge`. */
function neutral(segments: readonly Segment[], charge: number): readonly Ion[] | undefined {
  let left = 4000;
  const choose = (index: number, total: Decimal): readonly Ion[] | undefined => {
    if ((left -= 1) < 0) return undefined;
    if (index === segments.length) return total.eq(charge) ? [] : undefined;
    for (const reading of segments[index]!.readings) {
      const rest = choose(index + 1, total.plus(reading.count.times(reading.charge)));
      if (rest) return [reading, ...rest];
    }
    return undefined;
  };
  return choose(0, zero);
}

/** Metal of mean charge between two of its states, as in Fe3O4 and Pb3O4. */
function mixedValence(segments: readonly Segment[], charge: number): readonly Ion[] | undefined {
  const open = segments.filter(({ readings }) => readings.length > 1 && readings[0]!.charge > 0);
  if (open.length !== 1) return undefined;
  const readings = open[0]!.readings;
  const others = segments.filter((segment) => segment !== open[0]).map((segment) => segment.readings[0]!);
  const rest = others.reduce((total, reading) => total.plus(reading.count.times(reading.charge)), zero);
  const count = readings[0]!.count;
  const mean = exact(charge).minus(rest).div(count);
  const sorted = [...readings].sort((a, b) => a.charge - b.charge);
  const upper = sorted.find((reading) => mean.lt(reading.charge));
  const lower = sorted.filter((reading) => mean.gt(reading.charge)).at(-1);
  if (!upper || !lower) return undefined;
  const many = count
    .times(mean.minus(lower.charge))
    .div(upper.charge - lower.charge)
    .toDecimalPlaces(20);
  return [{ ...lower, count: count.minus(many) }, { ...upper, count: many }, ...others];
}

interface Read {
  readonly ions: readonly Ion[];
  readonly balanced: boolean;
}

function readSalt(nodes: readonly FormulaNode[], charge: number): Read | undefined {
  let best: { ions: readonly Ion[]; stretches: number; cut: number } | undefined;
  let unbalanced: readonly Ion[] | undefined;
  let mixed: readonly Ion[] | undefined;
  const consider = (cationNodes: readonly FormulaNode[], anionNodes: readonly FormulaNode[]): void => {
    for (const anions of cuts(anionNodes, anionReadings)) {
      for (const cations of cuts(cationNodes, cationReadings)) {
        // Anions choose first: PbO2 is an oxide of lead(IV) rather than a peroxide of lead(II).
        const segments = [...anions, ...cations];
        // Fewest ions win; at a tie the longer cation, so that VOSO4 is a sulfate of VO^2+.
        if (
          best &&
          (segments.length > best.stretches || (segments.length === best.stretches && cationNodes.length <= best.cut))
        )
          continue;
        const ions = neutral(segments, charge);
        if (ions)
          best = {
            ions: [...ions.slice(anions.length), ...ions.slice(0, anions.length)],
            stretches: segments.length,
            cut: cationNodes.length,
          };
        else {
          mixed ??= mixedValence(segments, charge);
          unbalanced ??= segments.map(({ readings }) => readings[0]!);
        }
      }
    }
  };
  for (let cut = 1; cut < nodes.length; cut += 1) consider(nodes.slice(0, cut), nodes.slice(cut));
  // The metal may stand last: CH3COONa, (CH3COO)2Cu.
  if (!best)
    for (let cut = nodes.length - 1; cut > 0; cut -= 1)
      if (hasMetal(nodes.slice(cut, cut + 1))) consider(nodes.slice(cut), nodes.slice(0, cut));
  if (best) return { ions: dimercury(best.ions), balanced: true };
  if (mixed) return { ions: mixed, balanced: true };
  return unbalanced && hasMetal(nodes) ? { ions: unbalanced, balanced: false } : undefined;
}

/** Mercury of charge 1+ goes in pairs. */
const dimercury = (ions: readonly Ion[]): readonly Ion[] =>
  ions.map((one) =>
    one.formula === 'Hg^+'
      ? { ...one, name: 'dimercury(2+)', formula: 'Hg2^2+', charge: 2, count: one.count.div(2) }
      : one,
  );

const known = new Map<string, Dissociation>();

/**
 * The ions of a salt, acid, base or hydrate, one formula unit of it; water of crystallisation apart; ions in square brackets stay whole.
 * Elements, and molecules that supply no ions, are named as such. Errors: those of `parseFormula`.
 * @example ionsOf('K3[Co(NO2)6]') // 3 K^+ and one [Co(NO2)6]^3- (`hexanitritocobaltate`), no nitrite
 */
export function ionsOf(formula: string | Formula): Outcome<Dissociation> {
  const text = typeof formula === 'string' ? formula : printFormula(formula);
  const before = known.get(text);
  if (before) return good(before);
  let parsed: Formula;
  if (typeof formula === 'string') {
    const outcome = parseFormula(formula);
    if (!outcome.ok) return outcome;
    parsed = outcome.value;
  } else parsed = formula;
  const dissociation = dissociate(parsed);
  if (known.size < 5000) known.set(text, dissociation);
  return good(dissociation);
}

function dissociate(formula: Formula): Dissociation {
  const nothing = { ions: [], molecules: [], water: zero, balanced: true } as const;
  if (isElectron(formula)) return { ...nothing, kind: 'ion' };
  if (formula.charge !== 0) return ofIon(formula);
  const ions = new Map<string, Ion>();
  const molecules: { id: string; formula: string; count: Decimal }[] = [];
  let water = zero;
  let balanced = true;
  let unread = false;
  let elementOnly = true;
  const add = (given: Ion, times: Decimal): void => {
    const earlier = ions.get(given.formula);
    const count = given.count.times(times);
    ions.set(given.formula, earlier ? { ...earlier, count: earlier.count.plus(count) } : { ...given, count });
  };
  for (const part of flatten(formula.parts)) {
    const times = part.multiplier.unknown ? zero : part.multiplier.low;
    const spelled = textOf(part.nodes);
    const composed = keyOf(part.nodes);
    if (composed === 'H2 O1') {
      water = water.plus(times);
      elementOnly = false;
      continue;
    }
    const molecule = load().molecules.get(spelled);
    if (molecule) {
      elementOnly = false;
      if (molecule.ions === '') {
        molecules.push({ id: molecule.name, formula: spelled, count: times });
        continue;
      }
      const words = molecule.ions.split(' ');
      for (let index = 0; index < words.length; index += 2)
        add(ionNamed(words[index]!, exact(words[index + 1]!)), times);
      continue;
    }
    if (part.nodes.length === 1 && part.nodes[0]!.kind === 'atom') continue;
    elementOnly = false;
    const salt = readSalt(part.nodes, 0);
    if (!salt) {
      if (hasMetal(part.nodes)) unread = true;
      molecules.push({ id: spelled, formula: spelled, count: times });
      continue;
    }
    balanced &&= salt.balanced;
    for (const one of salt.ions) add(one, times);
  }
  const all = [...ions.values()];
  const cations = all.filter(({ charge }) => charge > 0);
  const anions = all.filter(({ charge }) => charge < 0);
  const kind: Dissociation['kind'] = elementOnly
    ? 'element'
    : unread
      ? 'unknown'
      : all.length === 0
        ? molecules.length === 0
          ? 'water'
          : 'molecule'
        : cations.length > 0 && cations.every(({ id }) => id === 'hydrogen')
          ? 'acid'
          : anions.every(({ id }) => id === 'hydroxide')
            ? 'hydroxide'
            : anions.every(({ id }) => id === 'oxide')
              ? 'oxide'
              : 'salt';
  return { kind, ions: all, molecules, water, balanced: balanced && !unread };
}

/** Takes outer brackets away: {[Cu(NH3)4]SO4}2 and 2(2PbCO3·Pb(OH)2). */
function flatten(parts: readonly FormulaPart[]): readonly FormulaPart[] {
  return parts.flatMap((part): readonly FormulaPart[] => {
    const [only] = part.nodes;
    if (part.nodes.length !== 1 || only!.kind !== 'group' || (only!.parts.length === 1 && only!.bracket === '['))
      return [part];
    const times = part.multiplier.low.times(only!.count.low);
    return flatten(
      only!.parts.map((inner) => ({
        ...inner,
        multiplier: {
          ...inner.multiplier,
          low: inner.multiplier.low.times(times),
          high: inner.multiplier.high.times(times),
        },
      })),
    );
  });
}

function ionNamed(text: string, count: Decimal): Ion {
  const formula = parseFormula(text);
  if (!formula.ok) throw new Error(`molecules.csv: ${text}`);
  return { ...ofIon(formula.value).ions[0]!, count };
}

function ofIon(formula: Formula): Dissociation {
  const { anions, cations } = load();
  const composed = key(composition(formula));
  const inner =
    formula.parts.length === 1 && formula.parts[0]!.nodes.length === 1 ? formula.parts[0]!.nodes[0]! : undefined;
  const listed = (formula.charge < 0 ? anions : cations).get(composed)?.find(({ charge }) => charge === formula.charge);
  const element = inner?.kind === 'atom' ? elements().get(inner.symbol) : undefined;
  const id = listed?.id ?? (element && formula.charge > 0 ? element.name : 'complex');
  const name = listed?.name ?? (element && formula.charge > 0 ? element.name : `ion ${printFormula(formula)}`);
  return {
    kind: 'ion',
    ions: [{ id, name, formula: printFormula({ ...formula, state: undefined }), charge: formula.charge, count: one }],
    molecules: [],
    water: zero,
    balanced: true,
  };
}

/** A metal ion with nothing but water around it is that metal's ion: [Cr(H2O)6]^3+ is Cr^3+. */
function bareIon(formula: Formula): Formula {
  const [part] = formula.parts;
  const [node] = part?.nodes ?? [];
  if (formula.charge <= 0 || formula.parts.length !== 1 || part!.nodes.length !== 1 || node!.kind !== 'group')
    return formula;
  const inner = single(node!);
  if (!inner || inner.length !== 2) return formula;
  const metal = inner.find((one) => one.kind === 'atom' && elements().get(one.symbol)!.kind === 'metal');
  const water = inner.find((one) => one.kind === 'group' && keyOf(one.parts.flatMap(({ nodes }) => nodes)) === 'H2 O1');
  return metal && water ? { ...formula, parts: [{ ...part!, nodes: [metal] }] } : formula;
}

/** Order-free name of a species, by which an ion in a reaction finds the salt that supplies it; H3O^+ counts as H^+, [Cr(H2O)6]^3+ as Cr^3+. */
export function speciesKey(formula: Formula): string {
  if (isElectron(formula)) return 'e −1';
  const composed = key(composition(bareIon(formula)));
  if (formula.charge === 1 && composed === 'H3 O1') return 'H1 1';
  return `${composed} ${formula.charge}`;
}

const supplied = new WeakMap<Formula, WeakMap<Formula, Decimal>>();

/**
 * How many of a species one formula unit of a reagent supplies: 1 where they are the same substance, water of
 * crystallisation or not; the count of the ion where the reagent is a salt, acid or base of it; 8 for S from S8,
 * 3 for CdSO4 from 3CdSO4·8H2O; 0 where it has none.
 * @example suppliedBy(parse('Na2CO3·10H2O'), parse('CO3^2-')) // 1
 */
export function suppliedBy(reagent: Formula, species: Formula): Decimal {
  let bySpecies = supplied.get(reagent);
  if (!bySpecies) supplied.set(reagent, (bySpecies = new WeakMap()));
  let count = bySpecies.get(species);
  if (!count) bySpecies.set(species, (count = countSupplied(reagent, species)));
  return count;
}

function countSupplied(reagent: Formula, species: Formula): Decimal {
  const wanted = speciesKey(species);
  if (speciesKey(reagent) === wanted) return one;
  const dryReagent = withoutWater(reagent) ?? reagent;
  if (sameSubstance(speciesKey(dryReagent)) === sameSubstance(speciesKey(withoutWater(species) ?? species))) return one;
  const multiple = timesOver(dryReagent, withoutWater(species) ?? species);
  if (multiple) return multiple;
  if (species.charge === 0) return zero;
  const ions = ionsOf(reagent);
  if (!ions.ok) return zero;
  let count = zero;
  for (const one of ions.value.ions) {
    const parsed = parseFormula(one.formula);
    if (parsed.ok && speciesKey(parsed.value) === wanted) count = count.plus(one.count);
  }
  return count;
}

/** The same salt or element in larger or smaller formula units: 3CdSO4 is three CdSO4, S8 eight S; oxygen and ozone are not the same. */
function timesOver(reagent: Formula, species: Formula): Decimal | undefined {
  if (reagent.charge !== 0 || species.charge !== 0) return undefined;
  const [ours, theirs] = [composition(reagent), composition(species)];
  if (ours.size !== theirs.size || (ours.size === 1 && ours.has('O'))) return undefined;
  if (ours.size > 1 && ![...ours.keys()].some((symbol) => elements().get(symbol)!.kind === 'metal')) return undefined;
  let ratio: Decimal | undefined;
  for (const [symbol, { low }] of theirs) {
    const here = ours.get(symbol);
    if (!here || low.isZero()) return undefined;
    const share = here.low.div(low);
    if (ratio && !ratio.minus(share).abs().lt('1e-20')) return undefined;
    ratio ??= share;
  }
  return ratio;
}

let equivalents: ReadonlyMap<string, string> | undefined;
/** Aqueous ammonia is written NH3 or NH4OH. */
function sameSubstance(name: string): string {
  equivalents ??= new Map(
    equivalentsTable().flatMap((row) => {
      const [written, meant] = [parseFormula(row.formula), parseFormula(row.same_as)];
      return written.ok && meant.ok ? [[speciesKey(written.value), speciesKey(meant.value)] as const] : [];
    }),
  );
  return equivalents.get(name) ?? name;
}

/** The same salt without its water of crystallisation; undefined where it has none. */
export function withoutWater(formula: Formula): Formula | undefined {
  const dry = formula.parts.filter((part) => keyOf(part.nodes) !== 'H2 O1');
  if (dry.length === formula.parts.length || dry.length === 0) return undefined;
  return { ...formula, parts: dry };
}
