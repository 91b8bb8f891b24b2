// masstone formula: molar mass and composition of a formula.
import { exact, type Decimal } from '../chemistry/exact.js';
import { elementName } from '../chemistry/atomic-weights.js';
import {
  composition,
  countText,
  hillFormula,
  massFractionRanges,
  massFractions,
  molarMass,
  molarMassBounds,
  oxideEquivalents,
  parseFormula,
  placesOfCapitals,
  withSmallL,
  printFormula,
  withCounts,
  withoutUnbounded,
  type Count,
  type Formula,
  type MolarMass,
  type MolarMassBounds,
} from '../chemistry/formula/index.js';
import { roundToUncertainty } from '../chemistry/rounding.js';
import { expandedUncertainty } from '../chemistry/uncertainty.js';
import { isNoFormula } from '../chemistry/formula/colour-index.js';
import { good, type Fault, type Outcome } from '../outcome.js';
import { WrongUse, type Command, type ExitCode, type Streams } from './command.js';

/** A fault in the shape that `--json` has for errors. */
export const jsonFault = (fault: Fault, code = fault.code): Record<string, unknown> => ({
  code,
  message: fault.message,
  ...(fault.column !== undefined && { column: fault.column }),
  ...(fault.expected !== undefined && { expected: fault.expected }),
  ...(fault.cure !== undefined && { cure: fault.cure }),
  ...(fault.correction !== undefined && { correction: fault.correction }),
});

/** A fault in words, with a pointer to its place in what was written. */
export function faultWords(fault: Fault, written: string): string {
  const pointed = fault.column !== undefined && written.length <= 200;
  const pointer = pointed ? `  ${written}\n  ${' '.repeat(Math.max(0, fault.column! - 1))}^\n` : '';
  const expected = fault.expected === undefined ? '' : ` Expected: ${fault.expected}.`;
  const cure = fault.cure === undefined ? '' : ` ${fault.cure}`;
  return `${pointer}${fault.message}${expected}${cure}\n`;
}

/** A fault as the answer of a command: JSON on stdout, words on stderr; exit code 1. */
export function answerFault(
  fault: Fault,
  written: string,
  json: boolean,
  streams: Streams,
  code = fault.code,
): ExitCode {
  if (json) streams.result(`${JSON.stringify({ error: jsonFault(fault, code) })}\n`);
  else streams.aside(faultWords(fault, written));
  return 1;
}

const decimal = (value: Decimal, digits = 12): string => value.toSignificantDigits(digits).toFixed();
const countOf = (count: Count): string => (countText(count) === '' ? '1' : countText(count));

/** One element of the composition, with its share by mass: one value, or the ends of a range. */
interface ElementRow {
  readonly symbol: string;
  readonly count: string;
  readonly share: { readonly low: Decimal; readonly high: Decimal };
}

/** What is known of a formula, some of it perhaps left open. */
interface Known {
  readonly formula: Formula;
  readonly mass?: MolarMass;
  readonly bounds: MolarMassBounds;
  readonly rows: readonly ElementRow[];
  /** The rows are those of the formula without what nothing bounds: the dry salt. */
  readonly rowsOf?: Formula;
}

function knownOf(formula: Formula): Outcome<Known> {
  const bounds = molarMassBounds(formula);
  if (!bounds.ok) return bounds;
  const mass = molarMass(formula);
  const rest = bounds.value.high === undefined ? withoutUnbounded(formula) : undefined;
  return good({
    formula,
    bounds: bounds.value,
    rows: rowsOf(rest ?? formula),
    ...(mass.ok && { mass: mass.value }),
    ...(rest && { rowsOf: rest }),
  });
}

function rowsOf(formula: Formula): readonly ElementRow[] {
  const fixed = massFractions(formula);
  const ranges = massFractionRanges(formula);
  return [...composition(formula)].map(([symbol, count]) => {
    const share = fixed.ok ? fixed.value.get(symbol) : undefined;
    const range = ranges.ok ? ranges.value.get(symbol) : undefined;
    const nothing = exact(0);
    const one = share && { low: share, high: share };
    // Of a formula with ranges the one share would be that of its middle.
    const isOpen = range && !range.low.eq(range.high);
    return {
      symbol,
      count: countOf(count),
      share: (isOpen ? range : (one ?? range)) ?? { low: nothing, high: nothing },
    };
  });
}

/** The share as JSON has it and as words have it. */
const jsonShare = ({ low, high }: ElementRow['share']): unknown =>
  low.eq(high) ? decimal(low, 10) : { low: decimal(low, 10), high: decimal(high, 10) };
const percent = (share: Decimal): string => share.times(100).toFixed(2);
const shownShare = ({ low, high }: ElementRow['share']): string =>
  low.eq(high) ? `${percent(low).padStart(6)} %` : `${percent(low)} to ${percent(high)} %`;

function jsonMass({ mass, bounds }: Known): Record<string, string> {
  if (mass && !mass.ranged)
    return { value: decimal(mass.low), uncertainty: decimal(mass.uncertainty, 4), unit: 'g/mol' };
  return {
    low: decimal(bounds.low),
    ...(bounds.high !== undefined && { high: decimal(bounds.high) }),
    unit: 'g/mol',
  };
}

function massLine({ mass, bounds }: Known): string {
  if (bounds.high === undefined) return `Molar mass  at least ${bounds.low} g/mol`;
  if (!mass || mass.ranged) return `Molar mass  ${bounds.low} to ${bounds.high} g/mol`;
  const { value, uncertainty } = roundToUncertainty(mass.middle.value, expandedUncertainty(mass.middle));
  const shown = uncertainty === undefined ? value : `${value} ± ${uncertainty}`;
  return `Molar mass  ${shown} g/mol (k = 2; unrounded ${mass.low})`;
}

function jsonOf(known: Known, doubts: readonly Fault[]): string {
  const { formula, rows, bounds } = known;
  return `${JSON.stringify({
    ...(bounds.asks && { error: jsonFault(bounds.asks) }),
    formula: printFormula(formula),
    charge: formula.charge,
    hill: hillFormula(formula),
    molarMass: jsonMass(known),
    ...(known.rowsOf && { elementsOf: printFormula(known.rowsOf) }),
    elements: rows.map(({ symbol, count, share }) => ({ symbol, count, massFraction: jsonShare(share) })),
    ...(doubts.length > 0 && { remarks: doubts.map(({ message }) => message) }),
  })}\n`;
}

function wordsOf(known: Known, written: Formula): string {
  const { formula, rows, bounds } = known;
  const definite = known.mass && !known.mass.ranged && formula === written;
  const oxides = definite && !bounds.asks ? oxideEquivalents(formula) : [];
  const lead =
    'The atomic weight of lead varies with its origin (206.14 to 207.94), which is most of this uncertainty.';
  return [
    printFormula(formula),
    massLine(known),
    '',
    known.rowsOf ? `By mass, of ${printFormula(known.rowsOf)}` : 'By mass',
    ...rows.map(
      ({ symbol, count, share }) =>
        `  ${symbol.padEnd(3)} ${elementName(symbol).padEnd(14)} ${count.padStart(7)}   ${shownShare(share)}`,
    ),
    ...(oxides.length > 1 ? ['', 'As oxides'] : []),
    ...(oxides.length > 1
      ? oxides.map(({ oxide, percent: share }) => `  ${oxide.padEnd(8)} ${share.toFixed(2).padStart(6)} %`)
      : []),
    ...(rows.some(({ symbol }) => symbol === 'Pb') ? ['', lead] : []),
    '',
  ].join('\n');
}

/** Whether another formula is likely meant; asked of few, as what knows that takes longer to load than all the rest. */
async function questioned(written: string, formula: Formula): Promise<readonly Fault[]> {
  if (placesOfCapitals(written).length === 0 && withSmallL(written) === written) {
    const { isUnbalanced } = await import('../chemistry/ions/charges.js');
    if (!isUnbalanced(formula)) return [];
  }
  const { likelyFormula } = await import('../reagents/likely-formula.js');
  const fault = likelyFormula(written);
  return fault ? [fault] : [];
}

function readCounts(texts: readonly string[]): Record<string, Decimal> {
  const given: Record<string, Decimal> = {};
  for (const text of texts) {
    const parts = /^([nxyz])=(\d{1,9}(?:\.\d{1,9})?)$/.exec(
      text
        .trim()
        .replace(/\s*=\s*/, '=')
        .replace(',', '.'),
    );
    if (!parts) throw new WrongUse(`--count takes a letter and a number, like x=5, not '${text}'.`);
    given[parts[1]!] = exact(parts[2]!);
  }
  return given;
}

export const command: Command = {
  name: 'formula',
  summary: 'molar mass and composition',
  help: `
Use: masstone formula FORMULA [--count x=5] [--json]

Molar mass with its uncertainty, and composition by mass. Atomic weights: IUPAC abridged values of 2021, their stated
uncertainty read as a rectangle. Words show the expanded uncertainty (k = 2), --json the standard one.

  masstone formula 'CuSO4·5H2O'
  masstone formula '2PbCO3.Pb(OH)2'
  masstone formula 'Na8-10Al6Si6O24S2-4'         a range gives a range
  masstone formula '(Zn,Mn)O'                    so does a proportion that is left open
  masstone formula 'KFe[Fe(CN)6]·xH2O' --count x=5

--count LETTER=NUMBER  a value for a count that is written as n, x, y or z

Where something is left open, what is known is given, the question is asked, and the exit code is 1.
`,
  options: { count: { type: 'string', multiple: true } },
  run: async ({ values, positionals, json }, streams) => {
    if (positionals.length !== 1) throw new WrongUse("Give one formula, in quotes: masstone formula 'CuSO4·5H2O'.");
    const [written] = positionals as [string];
    const given = readCounts((values.count as string[] | undefined) ?? []);
    const parsed = parseFormula(written);
    if (isNoFormula(written)) {
      const message = `${written} is a Colour Index name, and no formula.`;
      const fault = { code: 'name', column: 1, message, cure: 'Write the formula of the pigment.' };
      return answerFault(fault, written, json, streams);
    }
    if (!parsed.ok) {
      const { faultOfName } = await import('./named-formula.js');
      return answerFault(faultOfName(parsed.fault, written), written, json, streams);
    }
    const formula = Object.keys(given).length > 0 ? withCounts(parsed.value, given) : parsed.value;
    const known = knownOf(formula);
    if (!known.ok) return answerFault(known.fault, written, json, streams);
    const { asks } = known.value.bounds;
    const doubts = [...formula.doubts, ...(await questioned(written, formula))];
    for (const { code, message, cure } of doubts) if (code !== asks?.code) streams.aside(`${message} ${cure ?? ''}\n`);
    streams.result(json ? jsonOf(known.value, doubts) : wordsOf(known.value, parsed.value));
    if (asks && !json) streams.aside(faultWords(asks, written));
    return asks ? 1 : 0;
  },
};
