// A salt's cations and anions: the formula is cut into readable stretches whose charges add up.
import { exact, zero, type Decimal } from '../exact.js';
import type { FormulaNode } from '../formula/index.js';
import type { Ion } from './model.js';
import { anionReadings, cationReadings, holdsMetal } from './readings.js';

/** A stretch of a formula with the ions it can be read as. */
type Stretch = readonly Ion[];
/** Reads the nodes from one position up to another. */
type Reader = (from: number, to: number) => Stretch | undefined;

const longestStretch = 8;
const mostCuts = 12;
const mostChoices = 4000;
const mostChoicesInAll = 20_000;

/** Reads each stretch of nodes once. */
function readerOf(
  nodes: readonly FormulaNode[],
  read: (stretch: readonly FormulaNode[]) => Stretch | undefined,
): Reader {
  const before = new Map<number, Stretch | undefined>();
  return (from, to) => {
    const key = from * (nodes.length + 1) + to;
    if (!before.has(key)) before.set(key, read(nodes.slice(from, to)));
    return before.get(key);
  };
}

/** All ways of cutting the nodes between two positions into readable stretches, fewest stretches first; bounded. */
function cuts(from: number, to: number, read: Reader): readonly (readonly Stretch[])[] {
  const upTo: (readonly (readonly Stretch[])[])[] = [[[]]];
  for (let end = from + 1; end <= to; end += 1) {
    const here: (readonly Stretch[])[] = [];
    for (let start = Math.max(from, end - longestStretch); start < end; start += 1) {
      const before = upTo[start - from]!;
      const stretch = before.length > 0 ? read(start, end) : undefined;
      if (stretch) here.push(...before.slice(0, mostCuts - here.length).map((cut) => [...cut, stretch]));
    }
    upTo.push(here.sort((a, b) => a.length - b.length));
  }
  return upTo[to - from]!;
}

const chargeOf = (ions: readonly Ion[]): Decimal =>
  ions.reduce((total, { count, charge }) => total.plus(count.times(charge)), zero);

/** How many more choices may be tried, so that a formula made to be hostile ends. */
interface Budget {
  left: number;
}

/** The first choice of one reading for each stretch whose charges add up to nothing. */
function neutral(stretches: readonly Stretch[], budget: Budget): readonly Ion[] | undefined {
  const end = Math.max(0, budget.left - mostChoices);
  const choose = (index: number, total: Decimal): readonly Ion[] | undefined => {
    if (budget.left <= end) return undefined;
    budget.left -= 1;
    if (index === stretches.length) return total.isZero() ? [] : undefined;
    for (const reading of stretches[index]!) {
      const rest = choose(index + 1, total.plus(reading.count.times(reading.charge)));
      if (rest) return [reading, ...rest];
    }
    return undefined;
  };
  return choose(0, zero);
}

/** Metal of mean charge between two of its states, as in Fe3O4 and Pb3O4. */
function mixedValence(stretches: readonly Stretch[]): readonly Ion[] | undefined {
  const open = stretches.filter((readings) => readings.length > 1 && readings[0]!.charge > 0);
  const [readings] = open;
  if (open.length !== 1 || !readings) return undefined;
  const others = stretches.filter((stretch) => stretch !== readings).map(([first]) => first!);
  const { count } = readings[0]!;
  const mean = exact(0).minus(chargeOf(others)).div(count);
  const byCharge = [...readings].sort((a, b) => a.charge - b.charge);
  const upper = byCharge.find(({ charge }) => mean.lt(charge));
  const lower = byCharge.filter(({ charge }) => mean.gt(charge)).at(-1);
  if (!upper || !lower) return undefined;
  const ofUpper = count
    .times(mean.minus(lower.charge))
    .div(upper.charge - lower.charge)
    .toDecimalPlaces(20);
  return [{ ...lower, count: count.minus(ofUpper) }, { ...upper, count: ofUpper }, ...others];
}

/** Mercury of charge 1+ goes in pairs. */
const inPairs = (ion: Ion): Ion =>
  ion.formula === 'Hg^+'
    ? { ...ion, name: 'dimercury(2+)', formula: 'Hg2^2+', charge: 2, count: ion.count.div(2) }
    : ion;

/** One way of reading a salt. */
interface Reading {
  readonly ions: readonly Ion[];
  readonly stretches: number;
  readonly cationLength: number;
}

/** What is found while the ways are tried. */
interface Found {
  readonly neutral?: Reading;
  readonly mixed?: readonly Ion[];
  readonly unbalanced?: readonly Ion[];
}

/** Fewest ions win; at a tie the longer cation, so that VOSO4 is a sulfate of VO^2+. */
const isBetter = (stretches: number, cationLength: number, than: Reading | undefined): boolean =>
  !than || stretches < than.stretches || (stretches === than.stretches && cationLength > than.cationLength);

/** Cations and anions on either side of a cut. */
interface Cut {
  readonly cations: readonly (readonly Stretch[])[];
  readonly anions: readonly (readonly Stretch[])[];
  readonly cationLength: number;
}

function consider(found: Found, { cations: ofCations, anions: ofAnions, cationLength }: Cut, budget: Budget): Found {
  let best = found;
  for (const anions of ofAnions) {
    for (const cations of ofCations) {
      // Anions choose first: PbO2 is an oxide of lead(IV) rather than a peroxide of lead(II).
      const stretches = [...anions, ...cations];
      if (!isBetter(stretches.length, cationLength, best.neutral)) continue;
      const chosen = neutral(stretches, budget);
      best = chosen
        ? {
            ...best,
            neutral: {
              ions: [...chosen.slice(anions.length), ...chosen.slice(0, anions.length)],
              stretches: stretches.length,
              cationLength,
            },
          }
        : {
            ...best,
            mixed: best.mixed ?? mixedValence(stretches),
            unbalanced: best.unbalanced ?? stretches.map(([first]) => first!),
          };
    }
  }
  return best;
}

export interface ReadSalt {
  readonly ions: readonly Ion[];
  /** The charges add up. */
  readonly balanced: boolean;
}

/** Reads a neutral stretch as a salt; undefined where it is none. @example readSalt(nodes of 'Fe3O4') */
export function readSalt(nodes: readonly FormulaNode[]): ReadSalt | undefined {
  const end = nodes.length;
  const asCation = readerOf(nodes, cationReadings);
  const asAnion = readerOf(nodes, anionReadings);
  const positions = Array.from({ length: end - 1 }, (_, index) => index + 1);
  const budget = { left: mostChoicesInAll };
  let found: Found = {};
  for (const at of positions) {
    const cut = { cations: cuts(0, at, asCation), anions: cuts(at, end, asAnion), cationLength: at };
    found = consider(found, cut, budget);
  }
  // The metal may stand last: CH3COONa, (CH3COO)2Cu.
  const beforeMetal = found.neutral ? [] : positions.filter((at) => holdsMetal(nodes.slice(at, at + 1)));
  for (const at of beforeMetal.toReversed()) {
    const cut = { cations: cuts(at, end, asCation), anions: cuts(0, at, asAnion), cationLength: end - at };
    found = consider(found, cut, budget);
  }
  if (found.neutral) return { ions: found.neutral.ions.map(inPairs), balanced: true };
  if (found.mixed) return { ions: found.mixed, balanced: true };
  return found.unbalanced && holdsMetal(nodes) ? { ions: found.unbalanced, balanced: false } : undefined;
}
