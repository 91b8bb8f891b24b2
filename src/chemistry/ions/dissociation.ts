// The ions that a salt, acid or base supplies: found from its formula, by structure and charge, never by name.
import { onceFor } from '../../once.js';
import { good, type Outcome } from '../../outcome.js';
import { elements } from '../atomic-weights.js';
import { exact, one, zero, type Decimal } from '../exact.js';
import {
  composition,
  endForms,
  isElectron,
  nodesText,
  parseFormula,
  printFormula,
  unknownCounts,
  withCounts,
  type Formula,
  type FormulaPart,
} from '../formula/index.js';
import { compositionKey, nodesKey, waterKey, type Dissociation, type Ion, type Molecule } from './model.js';
import { holdsMetal } from './readings.js';
import { readSalt } from './salt.js';
import { ionTables } from './tables.js';

const mostKept = 5000;
const kept = new Map<string, Dissociation>();

/**
 * The ions of a salt, acid, base or hydrate, one formula unit of it; water of crystallisation apart; ions in square
 * brackets stay whole. Elements, and molecules that supply no ions, are named as such. A formula that leaves something
 * open supplies what any of its ends supplies, at most. Errors: those of `parseFormula`.
 * @example ionsOf('K3[Co(NO2)6]') // K^+, three times, and one [Co(NO2)6]^3- (`hexanitritocobaltate`), no nitrite
 */
export const ionsOf = (formula: string | Formula): Outcome<Dissociation> =>
  typeof formula === 'string' ? findIons(formula) : ionsOfFormula(formula);

const ionsOfFormula = onceFor((formula: Formula) => findIons(formula));

function findIons(formula: string | Formula): Outcome<Dissociation> {
  const text = typeof formula === 'string' ? formula : printFormula(formula);
  const before = kept.get(text);
  if (before) return good(before);
  const parsed = typeof formula === 'string' ? parseFormula(formula) : good(formula);
  if (!parsed.ok) return parsed;
  const dissociation = together(formsWithEveryElement(parsed.value).map(dissociate));
  if (kept.size < mostKept) kept.set(text, dissociation);
  return good(dissociation);
}

/**
 * The formula's ends; where those would lose an element (x of FexO at 0), also the one with 1 in the place of each
 * letter.
 */
function formsWithEveryElement(formula: Formula): readonly Formula[] {
  const forms = endForms(formula);
  if (forms.length === 1 && forms[0] === formula) return forms;
  const held = new Set(['H', 'O', ...forms.flatMap((form) => [...composition(form).keys()])]);
  if ([...composition(formula).keys()].every((symbol) => held.has(symbol))) return forms;
  const ones = Object.fromEntries(unknownCounts(formula).map((letter) => [letter, one]));
  return [...forms, ...endForms(withCounts(formula, ones))];
}

const larger = (a: Decimal, b: Decimal): Decimal => (b.gt(a) ? b : a);
const smaller = (a: Decimal, b: Decimal): Decimal => (b.lt(a) ? b : a);

/** What any of several forms of one substance supplies. */
function together(forms: readonly Dissociation[]): Dissociation {
  const [first] = forms;
  if (forms.length === 1 && first) return first;
  const ions = new Map<string, Ion>();
  const molecules = new Map<string, Molecule>();
  for (const form of forms) {
    for (const ion of form.ions) {
      const before = ions.get(ion.formula);
      ions.set(ion.formula, { ...ion, count: before ? larger(before.count, ion.count) : ion.count, atMost: true });
    }
    for (const molecule of form.molecules) molecules.set(molecule.formula, molecule);
  }
  const kinds = new Set(forms.map(({ kind }) => kind));
  return {
    kind: kinds.size === 1 ? first!.kind : 'unknown',
    ions: [...ions.values()],
    molecules: [...molecules.values()],
    water: forms.map(({ water }) => water).reduce(smaller),
    balanced: forms.every(({ balanced }) => balanced),
  };
}

/** What one part between two dots comes apart into. */
interface PartRead {
  readonly ions?: readonly Ion[];
  readonly molecule?: Omit<Molecule, 'count'>;
  readonly water?: true;
  readonly element?: true;
  readonly unbalanced?: true;
  /** A metal is in it, and no ions could be found. */
  readonly unread?: true;
}

function readPart({ nodes }: FormulaPart): PartRead {
  if (nodesKey(nodes) === waterKey) return { water: true };
  const spelled = nodesText(nodes);
  const molecule = ionTables().molecules.get(spelled);
  if (molecule)
    return molecule.ions === ''
      ? { molecule: { id: molecule.name, formula: spelled } }
      : { ions: listedIons(molecule.ions) };
  if (nodes.length === 1 && nodes[0]!.kind === 'atom') return { element: true };
  const salt = readSalt(nodes);
  if (salt) return { ions: salt.ions, ...(!salt.balanced && { unbalanced: true }) };
  return { molecule: { id: spelled, formula: spelled }, ...(holdsMetal(nodes) && { unread: true }) };
}

/** `NH4^+ 1 OH^- 1` as ions. */
function listedIons(text: string): readonly Ion[] {
  const words = text.split(' ');
  return words.flatMap((word, index) => (index % 2 === 0 ? [ionNamed(word, exact(words[index + 1]!))] : []));
}

function ionNamed(text: string, count: Decimal): Ion {
  const formula = parseFormula(text);
  if (!formula.ok) throw new Error(`molecules.csv: ${text}`);
  return { ...asIon(formula.value), count };
}

function dissociate(formula: Formula): Dissociation {
  const nothing = { ions: [], molecules: [], water: zero, balanced: true } as const;
  if (isElectron(formula)) return { ...nothing, kind: 'ion' };
  if (formula.charge !== 0) return { ...nothing, kind: 'ion', ions: [asIon(formula)] };
  const ions = new Map<string, Ion>();
  const molecules: Molecule[] = [];
  let water = zero;
  const read = withoutOuterBrackets(formula.parts).map((part) => ({ times: part.multiplier.low, ...readPart(part) }));
  for (const { times, ions: supplied = [], molecule, water: isWater } of read) {
    if (isWater) water = water.plus(times);
    if (molecule) molecules.push({ ...molecule, count: times });
    for (const ion of supplied) {
      const count = ion.count.times(times);
      const before = ions.get(ion.formula);
      ions.set(ion.formula, before ? { ...before, count: before.count.plus(count) } : { ...ion, count });
    }
  }
  const unread = read.some((part) => part.unread);
  const all = [...ions.values()];
  const onlyElements = read.every((part) => part.element);
  return {
    kind: kindOf({ ions: all, molecules, onlyElements, unread }),
    ions: all,
    molecules,
    water,
    balanced: !unread && !read.some((part) => part.unbalanced),
  };
}

interface Parts {
  readonly ions: readonly Ion[];
  readonly molecules: readonly Molecule[];
  readonly onlyElements: boolean;
  readonly unread: boolean;
}

function kindOf({ ions, molecules, onlyElements, unread }: Parts): Dissociation['kind'] {
  if (onlyElements) return 'element';
  if (unread) return 'unknown';
  if (ions.length === 0) return molecules.length === 0 ? 'water' : 'molecule';
  const cations = ions.filter(({ charge }) => charge > 0);
  const anions = ions.filter(({ charge }) => charge < 0);
  if (cations.length > 0 && cations.every(({ id }) => id === 'hydrogen')) return 'acid';
  if (anions.every(({ id }) => id === 'hydroxide')) return 'hydroxide';
  return anions.every(({ id }) => id === 'oxide') ? 'oxide' : 'salt';
}

/** Takes outer brackets away: {[Cu(NH3)4]SO4}2 and 2(2PbCO3·Pb(OH)2). */
function withoutOuterBrackets(parts: readonly FormulaPart[]): readonly FormulaPart[] {
  return parts.flatMap((part): readonly FormulaPart[] => {
    const [only] = part.nodes;
    if (part.nodes.length !== 1 || only!.kind !== 'group' || (only!.parts.length === 1 && only!.bracket === '['))
      return [part];
    const times = part.multiplier.low.times(only!.count.low);
    return withoutOuterBrackets(
      only!.parts.map(({ multiplier, nodes }) => ({
        multiplier: { low: multiplier.low.times(times), high: multiplier.high.times(times) },
        nodes,
      })),
    );
  });
}

/** An ion's own formula as an ion. */
function asIon(formula: Formula): Ion {
  const { anions, cations } = ionTables();
  const listed = (formula.charge < 0 ? anions : cations)
    .get(compositionKey(composition(formula)))
    ?.find(({ charge }) => charge === formula.charge);
  const [part] = formula.parts;
  const [node] = part!.nodes;
  const alone = formula.charge > 0 && formula.parts.length === 1 && part!.nodes.length === 1;
  const element = alone && node?.kind === 'atom' ? elements().get(node.symbol) : undefined;
  const { state: _, ...stateless } = formula;
  return {
    id: listed?.id ?? element?.name ?? 'complex',
    name: listed?.name ?? element?.name ?? `ion ${printFormula(formula)}`,
    formula: printFormula(stateless),
    charge: formula.charge,
    count: one,
  };
}
