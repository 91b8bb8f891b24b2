// A number with its unit and whatever says how uncertain it is: a tolerance, a range, a lower bound of a purity.
import { bad, good, type Fault, type Outcome } from '../../outcome.js';
import { exact, type Decimal } from '../exact.js';
import type { Quantity } from './model.js';
import { numeral, type Numeral } from './numeral.js';
import { inBase, isUnit, unitOf, type Unit } from './units.js';

/** Text that is read, and where it stands in what was written. */
export interface Written {
  /** All of it, as the quantity keeps it. */
  readonly whole: string;
  readonly text: string;
  /** 1-based column of a position in `text`. */
  readonly column: (at: number) => number;
}

/** The rest of it from a position on. */
export const from = ({ whole, text, column }: Written, at: number): Written => ({
  whole,
  text: text.slice(at),
  column: (position) => column(at + position),
});

/** A fault that asks for a number and a unit unless it has a better cure. */
export const quantityFault = (fault: Omit<Fault, 'cure'> & { cure?: string }): Outcome<never> =>
  bad({ cure: 'Write a number and a unit, e.g. 5.00 g.', ...fault });

const outOfMeasure = (column: number): Outcome<never> =>
  quantityFault({
    code: 'number',
    column,
    message: 'That number is out of all measure.',
    expected: 'a number of at most 30 digits',
  });

/** How uncertain it says it is: ends in the unit as written, widths in the base unit. */
interface Uncertainty {
  readonly ends?: { readonly low: Decimal; readonly high: Decimal };
  readonly tolerance?: Decimal;
  readonly standard?: Decimal;
}

const absoluteZero = exact('-273.15');

/** A number in its unit, with its uncertainty, as a quantity; what is less than nothing is none. */
export function quantityOf(
  written: Written,
  unit: Unit,
  number: Numeral,
  uncertainty: Uncertainty = {},
): Outcome<Quantity> {
  const { ends, tolerance, standard } = uncertainty;
  const base = inBase(unit, number.value);
  const lowest = ends ? ends.low : number.value;
  const temperature = unit.dimension === 'temperature';
  if (!temperature && lowest.isNegative() && !lowest.isZero())
    return quantityFault({
      code: 'number',
      column: written.column(0),
      message: `${written.whole} is less than nothing.`,
      expected: 'a number above 0',
      cure: 'Correct the number.',
    });
  if (temperature && inBase(unit, lowest).lt(absoluteZero))
    return quantityFault({
      code: 'number',
      column: written.column(0),
      message: `${written.whole} is colder than anything can be.`,
      expected: 'a temperature above −273.15 °C',
      cure: 'Correct the number.',
    });
  return good({
    written: written.whole,
    dimension: unit.dimension,
    value: number.value,
    unit: unit.name,
    base,
    baseUnit: unit.base,
    resolution: number.resolution,
    ...(ends && {
      low: inBase(unit, ends.low),
      high: inBase(unit, ends.high),
      tolerance: ends.high.minus(ends.low).div(2).times(unit.factor),
    }),
    ...(tolerance && { tolerance }),
    ...(standard && { standardUncertainty: standard }),
  });
}

/** `95-99 %`, `5 to 10 mL`, `5 g - 6 g`, `-5 to 5 °C`. */
export function readRange(written: Written): Outcome<Quantity> | undefined {
  const range =
    /^([-−]?\d+(?:\.\d+)?)\s*([a-zA-Zµ%°/]*)\s*(?:-|–|\bto\b|\bbis\b|à)\s*([-−]?\d+(?:\.\d+)?)\s*(.*)$/su.exec(
      written.text,
    );
  if (!range || (range[2] !== '' && !isUnit(range[2]!))) return undefined;
  const [, lowText, , highText, unitText] = range as unknown as [string, string, string, string, string];
  const unit = unitOf(unitText, written.column(written.text.length - unitText.length));
  if (!unit.ok) return unit;
  const low = numeral(lowText);
  const high = numeral(highText);
  if (!low || !high) return outOfMeasure(written.column(low ? written.text.indexOf(highText, lowText.length) : 0));
  if (high.value.lte(low.value))
    return quantityFault({
      code: 'range',
      column: written.column(0),
      message: `The range ${lowText}-${highText} does not rise.`,
      expected: 'the smaller number first',
      cure:
        `Write ${highText}-${lowText} ${unitText}, if a range is meant, ` +
        'or the difference, if one was taken off the other.',
    });
  const middle = { value: low.value.plus(high.value).div(2), resolution: low.resolution };
  return quantityOf(written, unit.value, middle, { ends: { low: low.value, high: high.value } });
}

/** `5.000(6) g`: the digits in brackets are the standard uncertainty of the last ones. */
export function readConcise(written: Written): Outcome<Quantity> | undefined {
  const concise = /^([+-]?\d+(?:\.\d+)?)\((\d+)\)\s*(.*)$/su.exec(written.text);
  if (!concise) return undefined;
  const [, valueText, digits, unitText] = concise as unknown as [string, string, string, string];
  const unit = unitOf(unitText, written.column(written.text.length - unitText.length));
  if (!unit.ok) return unit;
  const value = numeral(valueText);
  const last = numeral(digits);
  if (!value || !last) return outOfMeasure(written.column(value ? valueText.length : 0));
  const standard = value.resolution.times(last.value).times(unit.value.factor);
  return quantityOf(written, unit.value, value, { standard });
}

/** The number of `99.9+ %`, `98 % min.`, `97 % or better`: a bound whose sign stands behind. */
const boundBehind = /^(\d+(?:\.\d+)?)\s*(?:\+\s*%|%\s*(?:\+|min\.?|minimum|or (?:more|better|above)))$/i;

/** `≥ 95 %`, `at least 95 %`, `95+ %`: up to 100 %. */
export function readLowerBound(written: Written): Outcome<Quantity> | undefined {
  const bound = /^(≥|>=|>|at least|minimum|min\.?)\s*/i.exec(written.text);
  const behind = boundBehind.exec(written.text)?.[1];
  if (!bound && behind === undefined) return undefined;
  const rest = bound ? from(written, bound[0].length) : { ...written, text: `${behind} %` };
  const read = readAmount(rest);
  if (!read.ok) return read;
  if (read.value.dimension !== 'mass-percent')
    return quantityFault({
      code: 'range',
      column: written.column(0),
      message: 'A lower bound alone does not say how much.',
      expected: 'a number or a range',
      cure: 'Only a purity can be given as a lower bound, since it ends at 100 %.',
    });
  const hundred = exact(100);
  const { base, resolution } = read.value;
  if (base.gte(hundred))
    return quantityFault({
      code: 'range',
      column: rest.column(0),
      message: 'A purity cannot be above 100 %.',
      expected: 'less than 100 %',
      cure: 'Correct the number.',
    });
  const unit = unitOf(read.value.unit, rest.column(0));
  if (!unit.ok) return unit;
  const middle = { value: base.plus(hundred).div(2), resolution };
  return quantityOf(written, unit.value, middle, { ends: { low: base, high: hundred } });
}

interface Tail {
  readonly written: Written;
  readonly kind: 'tolerance' | 'standard';
}

/** Parts the number from its uncertainty. */
function partedAtUncertainty(written: Written): { readonly head: Written; readonly tail?: Tail } {
  const mark = /±|\+\/-|\+-|\bu\s*=|\bu\s(?=\d)/u.exec(written.text);
  if (!mark) return { head: written };
  const after = from(written, mark.index + mark[0].length);
  const spaces = after.text.length - after.text.trimStart().length;
  return {
    head: { ...written, text: written.text.slice(0, mark.index).trim() },
    tail: {
      written: { ...from(after, spaces), text: after.text.trim() },
      kind: mark[0].startsWith('u') ? 'standard' : 'tolerance',
    },
  };
}

const digits = String.raw`(?:\d{1,3}(?:[ \u00a0\u2009\u202f]\d{3})+(?![\d])|\d+)?(?:\.\d+)?`;
const power = String.raw`(?:\s?[eE][+\-−]?\d+|\s?[×x]\s?10(?:\^[+\-−]?\d+|[⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+))?`;
const leading = new RegExp(`^([+-]?${digits}${power})\\s*(.*)$`, 'su');

interface NumberAndUnit {
  readonly number: Numeral | undefined;
  readonly unitText: string;
}
function numberAndUnit(text: string): NumberAndUnit {
  const [, numberText, unitText] = leading.exec(text) as unknown as [string, string, string];
  return { number: numberText === '' ? undefined : numeral(numberText), unitText };
}

/** A number, a unit, and perhaps `± …` or `u = …`. */
export function readAmount(written: Written): Outcome<Quantity> {
  const { head, tail } = partedAtUncertainty(written);
  const { number, unitText } = numberAndUnit(head.text);
  if (!number)
    return /^[+\-−]?\.?\d/.test(head.text)
      ? outOfMeasure(written.column(0))
      : quantityFault({
          code: 'number',
          column: written.column(0),
          message: `'${written.whole}' does not begin with a number.`,
          expected: 'a number and a unit',
        });
  const spread = tail && numberAndUnit(tail.written.text);
  const ownUnit = unitText.trim() !== '';
  const unit = unitOf(
    ownUnit || !spread ? unitText : spread.unitText,
    written.column(head.text.length - unitText.length),
  );
  if (!unit.ok) return unit;
  if (!tail) return quantityOf(written, unit.value, number);
  const width = widthOf(tail, spread!, unit.value, ownUnit ? number.value : undefined);
  return width.ok ? quantityOf(written, unit.value, number, { [tail.kind]: width.value }) : width;
}

/**
 * What follows ± or u, in the base unit.
 * @param relativeTo the value, where a percentage is one of it
 */
function widthOf(tail: Tail, spread: NumberAndUnit, unit: Unit, relativeTo: Decimal | undefined): Outcome<Decimal> {
  const column = Math.max(1, tail.written.column(0));
  if (!spread.number || spread.number.value.isNegative())
    return quantityFault({
      code: 'tolerance',
      column,
      message: `What follows ${tail.kind === 'tolerance' ? '±' : 'u'} is not a number.`,
      expected: 'a number and a unit',
      cure: 'Write e.g. 5.00 g ± 0.01 g.',
    });
  const { value } = spread.number;
  const own = spread.unitText.trim();
  if (own === '') return good(value.times(unit.factor));
  if (own === '%' && unit.dimension !== 'mass-percent' && relativeTo)
    return good(relativeTo.abs().times(unit.factor).times(value).div(100));
  const other = unitOf(own, column);
  if (!other.ok) return other;
  if (other.value.dimension !== unit.dimension)
    return quantityFault({
      code: 'tolerance',
      column,
      message: `A ${unit.dimension} cannot be uncertain by a ${other.value.dimension}.`,
      expected: `a ${unit.dimension}`,
      cure: 'Give the uncertainty in the same kind of unit.',
    });
  return good(value.times(other.value.factor));
}
