// A salt's cations and anions: the formula is cut into readable stretches whose charges add up.
import { exact, zero, type Decimal } from '../exact.js';
import type { FormulaNode } from '../formula/index.js';
import type { Ion } from './model.js';
import { anionReadings, cationReadings, holdsMetal } from './readings.js';

/** A stretch of a formula with the ions it can be read as. */
type Stretch = readonly Ion[];
type Reader = (nodes: readonly FormulaNode[]) => Stretch | undefined;

const longestStretch = 8;
const mostCuts = 12;
const mostChoices = 4000;

/** All ways of cutting nodes into readable stretches, fewest stretches first; bounded. */
function cuts(nodes: readonly FormulaNode[], read: Reader): readonly (readonly Stretch[])[] {
  const upTo: (readonly (readonly Stretch[])[])[] = [[[]]];
  for (let end = 1; end <= nodes.length; end += 1) {
    const here: (readonly Stretch[])[] = [];
    for (let start = Math.max(0, end - longestStretch); start < end; start += 1) {
      const before = upTo[start]!;
      const stretch = before.length > 0 ? read(nodes.slice(start, end)) : undefined;
      if (stretch) here.push(...before.slice(0, mostCuts - here.length).map((cut) => [...cut, stretch]));
    }
    upTo.push(here.sort((a, b) => a.length - b.length));
  }
  return upTo[nodes.length]!;
}

const chargeOf = (ions: readonly Ion[]): Decimal =>
  ions.reduce((total, { count, charge }) => total.plus(count.times(charge)), zero);

/** The first choice of one reading for each stretch whose charges add up to nothing. */
function neutral(stretches: readonly Stretch[]): readonly Ion[] | undefined {
  let left = mostChoices;
  const choose = (index: number, total: Decimal): readonly Ion[] | undefined => {
    left -= 1;
    if (left < 0) return undefined;
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

function consider(found: Found, cationNodes: readonly FormulaNode[], anionNodes: readonly FormulaNode[]): Found {
  let best = found;
  const cationLength = cationNodes.length;
  for (const anions of cuts(anionNodes, anionReadings)) {
    for (const cations of cuts(cationNodes, cationReadings)) {
      // Anions choose first: PbO2 is an oxide of lead(IV) rather than a peroxide of lead(II).
      const stretches = [...anions, ...cations];
      if (!isBetter(stretches.length, cationLength, best.neutral)) continue;
      const chosen = neutral(stretches);
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
  const cutsInside = Array.from({ length: nodes.length - 1 }, (_, index) => index + 1);
  let found: Found = {};
  for (const cut of cutsInside) found = consider(found, nodes.slice(0, cut), nodes.slice(cut));
  // The metal may stand last: CH3COONa, (CH3COO)2Cu.
  if (!found.neutral)
    for (const cut of cutsInside.toReversed())
      if (holdsMetal(nodes.slice(cut, cut + 1))) found = consider(found, nodes.slice(cut), nodes.slice(0, cut));
  if (found.neutral) return { ions: found.neutral.ions.map(inPairs), balanced: true };
  if (found.mixed) return { ions: found.mixed, balanced: true };
  return found.unbalanced && holdsMetal(nodes) ? { ions: found.unbalanced, balanced: false } : undefined;
}
