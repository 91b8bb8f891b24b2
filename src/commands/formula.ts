// masstone formula: molar mass and composition of a formula.
import { exact, type Decimal } from '../chemistry/exact.js';
import { elementName } from '../chemistry/atomic-weights.js';
import { oxideEquivalents } from '../chemistry/oxides.js';
import {
  composition,
  countText,
  hillFormula,
  massFractions,
  molarMass,
  parseFormula,
  printFormula,
  type Count,
} from '../chemistry/formula.js';
import { expandedUncertainty } from '../chemistry/uncertainty.js';
import { roundToUncertainty } from '../chemistry/rounding.js';
import type { Fault } from '../outcome.js';
import { WrongUse, type Command, type ExitCode, type Streams } from './command.js';

/** A fault as the answer of a command: JSON on stdout, words on stderr; exit code 1. */
export function answerFault(
  fault: Fault,
  written: string,
  json: boolean,
  streams: Streams,
  code = fault.code,
): ExitCode {
  if (json)
    streams.result(
      `${JSON.stringify({ error: { code, message: fault.message, ...(fault.column !== undefined && { column: fault.column }), ...(fault.expected !== undefined && { expected: fault.expected }), ...(fault.cure !== undefined && { cure: fault.cure }) } })}\n`,
    );
  else {
    const pointer =
      fault.column === undefined || written.length > 200
        ? ''
        : `  ${written}\n  ${' '.repeat(Math.max(0, fault.column - 1))}^\n`;
    streams.aside(
      `${pointer}${fault.message}${fault.expected === undefined ? '' : ` Expected: ${fault.expected}.`}${fault.cure === undefined ? '' : ` ${fault.cure}`}\n`,
    );
  }
  return 1;
}

const decimal = (value: Decimal, digits = 12): string => value.toSignificantDigits(digits).toFixed();
const countOf = (count: Count): string => (countText(count) === '' ? '1' : countText(count));

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
  masstone formula 'KFe[Fe(CN)6]·xH2O' --count x=5

--count LETTER=NUMBER  a value for a count that is written as n, x, y or z
`,
  options: { count: { type: 'string', multiple: true } },
  run: async ({ values, positionals, json }, streams) => {
    if (positionals.length !== 1) throw new WrongUse("Give one formula, in quotes: masstone formula 'CuSO4·5H2O'.");
    const [written] = positionals as [string];
    const given: Record<string, Decimal> = {};
    for (const text of (values.count as string[] | undefined) ?? []) {
      const parts = /^([nxyz])=(\d{1,9}(?:\.\d{1,9})?)$/.exec(text);
      if (!parts) throw new WrongUse(`--count takes a letter and a number, like x=5, not '${text}'.`);
      given[parts[1]!] = exact(parts[2]!);
    }
    const parsed = parseFormula(written);
    if (!parsed.ok) return answerFault(parsed.fault, written, json, streams);
    const formula = parsed.value;
    const mass = molarMass(formula, { given });
    if (!mass.ok) return answerFault(mass.fault, written, json, streams);
    const fractions = massFractions(formula, { given });
    if (!fractions.ok) return answerFault(fractions.fault, written, json, streams);
    const counts = [...composition(formula, given)];
    const { low, high, ranged, uncertainty, middle } = mass.value;
    for (const doubt of formula.doubts) streams.aside(`${doubt.message} ${doubt.cure ?? ''}\n`);
    if (json) {
      streams.result(
        `${JSON.stringify({
          formula: printFormula(formula),
          charge: formula.charge,
          hill: hillFormula(formula, given),
          molarMass: ranged
            ? { low: decimal(low), high: decimal(high), unit: 'g/mol' }
            : { value: decimal(low), uncertainty: decimal(uncertainty, 4), unit: 'g/mol' },
          elements: counts.map(([symbol, count]) => ({
            symbol,
            count: countOf(count),
            massFraction: decimal(fractions.value.get(symbol)!, 10),
          })),
          ...(formula.doubts.length > 0 && { remarks: formula.doubts.map(({ message }) => message) }),
        })}\n`,
      );
      return 0;
    }
    const shownMass = roundToUncertainty(middle.value, expandedUncertainty(middle));
    const lines = [
      printFormula(formula),
      ranged
        ? `Molar mass  ${low} to ${high} g/mol`
        : `Molar mass  ${shownMass.value}${shownMass.uncertainty === undefined ? '' : ` ± ${shownMass.uncertainty}`} g/mol (k = 2; unrounded ${low})`,
      '',
      'By mass',
      ...counts.map(
        ([symbol, count]) =>
          `  ${symbol.padEnd(3)} ${elementName(symbol).padEnd(14)} ${countOf(count).padStart(7)}   ${fractions.value.get(symbol)!.times(100).toFixed(2).padStart(6)} %`,
      ),
    ];
    const oxides = ranged || Object.keys(given).length > 0 ? [] : oxideEquivalents(formula);
    if (oxides.length > 1)
      lines.push(
        '',
        'As oxides',
        ...oxides.map(({ oxide, percent: share }) => `  ${oxide.padEnd(8)} ${share.toFixed(2).padStart(6)} %`),
      );
    if (counts.some(([symbol]) => symbol === 'Pb'))
      lines.push(
        '',
        'The atomic weight of lead varies with its origin (206.14 to 207.94), which is most of this uncertainty.',
      );
    streams.result(`${lines.join('\n')}\n`);
    return 0;
  },
};
