// Quantities: text such as `5.00 g`, `0.050 mol ± 0.001 mol`, `95-99 %`, `4.20 EUR / 500 g` as an exact value with its unit.
import { bad, good, type Fault, type Outcome } from '../outcome.js';
import { unitsTable } from '../tables/compiled/chemistry/units.js';
import { exact, one, type Decimal } from './exact.js';

export type Dimension =
  | 'mass'
  | 'volume'
  | 'amount'
  | 'concentration'
  | 'mass-percent'
  | 'mass-volume-percent'
  | 'density'
  | 'temperature'
  | 'time'
  | 'length'
  | 'drops'
  | 'ratio'
  | 'excess'
  | 'money-per-amount';

/** A quantity as it was written, its value also in the base unit of its dimension (g, mL, mol, mol/L, %, g/mL, °C, s, m, drops). */
export interface Quantity {
  readonly written: string;
  readonly dimension: Dimension;
  /** In the unit as written; the middle of a range. */
  readonly value: Decimal;
  /** As written: `mg`. Empty for `excess`. */
  readonly unit: string;
  /** Value in the base unit. */
  readonly base: Decimal;
  readonly baseUnit: string;
  /** Place value of the last digit written, in the unit as written: 0.01 for 5.00. */
  readonly resolution: Decimal;
  /** Half-width given as `± …`, or of a range, in the base unit. */
  readonly tolerance?: Decimal;
  /** Standard uncertainty given as `u = …` or `5.00(2)`, in the base unit. */
  readonly standardUncertainty?: Decimal;
  /** Ends of a range, in the base unit. */
  readonly low?: Decimal;
  readonly high?: Decimal;
  /** For a price: the currency, and what the money buys. */
  readonly currency?: string;
  readonly per?: Quantity;
}

interface Unit {
  readonly name: string;
  readonly dimension: Dimension;
  readonly factor: Decimal;
  readonly base: string;
}

let units: ReadonlyMap<string, Unit> | undefined;

function knownUnits(): ReadonlyMap<string, Unit> {
  if (units) return units;
  const all = new Map<string, Unit>();
  for (const row of unitsTable()) {
    const unit: Unit = {
      name: row.unit,
      dimension: row.dimension,
      factor: exact(row.factor),
      base: row.base,
    };
    all.set(unit.name, unit);
    for (const spelling of row.also) all.set(spelling, unit);
  }
  units = all;
  return all;
}

const currencies: Readonly<Record<string, string>> = { '€': 'EUR', '£': 'GBP', $: 'USD', '¥': 'JPY' };
const raisedDigits = '⁰¹²³⁴⁵⁶⁷⁸⁹';

interface Numeral {
  readonly value: Decimal;
  readonly resolution: Decimal;
}

/** `5.00`, `1 000`, `3.30E-4`, `4.2×10^-3`: value and place value of the last digit. */
function numeral(text: string): Numeral | undefined {
  const spread = text
    .replace(/[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]/g, (char) => (char === '⁻' ? '-' : String(raisedDigits.indexOf(char))))
    .replaceAll('−', '-');
  const parts =
    /^([+-]?)(\d+|\d{1,3}(?:[ \u00a0\u2009\u202f]\d{3})+)?(?:\.(\d+))?(?:\s?(?:[eE]|[×x]\s?10\^?)([+-]?\d{1,3}))?$/.exec(
      spread.trim(),
    );
  if (!parts || (parts[2] === undefined && parts[3] === undefined)) return undefined;
  const whole = (parts[2] ?? '0').replace(/\D/g, '');
  const decimals = parts[3] ?? '';
  if (whole.length + decimals.length > 30 || Math.abs(Number(parts[4] ?? 0)) > 60) return undefined;
  const power = exact(10).pow(Number(parts[4] ?? 0));
  return {
    value: exact(`${parts[1]}${whole}${decimals && `.${decimals}`}`).times(power),
    resolution: exact(10).pow(-decimals.length).times(power),
  };
}

const bareNumber = String.raw`[+-]?(?:\d{1,3}(?:[ \u00a0\u2009\u202f]\d{3})+(?![\d])|\d+)?(?:\.\d+)?(?:\s?[eE][+\-−]?\d+|\s?[×x]\s?10(?:\^[+\-−]?\d+|[⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+))?`;
const leading = new RegExp(`^(${bareNumber})\\s*(.*)$`, 'su');

const trouble = (fault: Omit<Fault, 'cure'> & { cure?: string }): Outcome<never> =>
  bad({ cure: 'Write a number and a unit, e.g. 5.00 g.', ...fault });

function unitOf(text: string, column: number): Outcome<Unit> {
  const known = knownUnits();
  const spelled = text
    .trim()
    .replace(/μ/g, 'µ')
    .replace(/\s+/g, ' ')
    .replace(/ per (?=[a-z])/i, '/')
    .replace(/\/lit(?:re|er)$/, '/L')
    .replace(/^([%A-Za-zµ]+) \/ ([A-Za-z0-9³]+)$/, '$1/$2');
  const powers = spelled
    .replace(/[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]/g, (char) => (char === '⁻' ? '-' : String(raisedDigits.indexOf(char))))
    .replaceAll('^', '')
    .replaceAll('−', '-')
    .replace(/ ?[·⋅] ?/g, ' ');
  const unit = known.get(spelled) ?? known.get(powers);
  if (unit) return good(unit);
  if (spelled === '')
    return trouble({
      code: 'unit-missing',
      column,
      message: 'The number has no unit.',
      expected: 'a unit such as g, mL or mol',
      cure: 'Write the unit after the number.',
    });
  if (/^N$/.test(spelled))
    return trouble({
      code: 'unit',
      column,
      message: 'Normality (N) depends on the reaction.',
      expected: 'mol/L',
      cure: 'Write the strength in mol/L; for an acid of one proton it is the same number.',
    });
  const near = [...known.keys()].find((name) => name.toLowerCase() === spelled.toLowerCase());
  return trouble({
    code: 'unit',
    column,
    message: `'${spelled}' is no unit known here.`,
    expected: 'a unit such as g, mg, mL, mol, mol/L, %, g/mL, °C, h',
    cure: near ? `Write ${near}, if that is meant.` : 'Write one of the units named.',
  });
}

/**
 * Reads a quantity.
 *
 * - a number and a unit: `5.00 g`, `1.5e-3 mol`, `60 %`, `10 % w/v`, `2.0 mol/L`, `3 drops`
 * - a reading's own uncertainty: `5.00 g ± 0.01 g` (half-width), `5.00 g u = 0.006 g` or `5.000(6) g` (standard)
 * - a range or a bound: `95-99 %`, `≥ 95 %` (to 100 %)
 * - a price: `4.20 EUR / 500 g`
 * - `excess`
 *
 * Errors: `unit`, `unit-missing`, `number`, `comma`, `range`, `tolerance`, `price`.
 * @example parseQuantity('5.00 g') // value 5, resolution 0.01, dimension mass
 */
export function parseQuantity(written: string): Outcome<Quantity> {
  const text = written.trim();
  const offset = written.length - written.trimStart().length;
  const column = (at: number): number => offset + at + 1;
  if (text.length > 200)
    return trouble({
      code: 'number',
      column: 1,
      message: 'That is too long for a quantity.',
      expected: 'a number and a unit',
    });
  if (text === '')
    return trouble({ code: 'number', column: 1, message: 'There is no quantity.', expected: 'a number and a unit' });
  if (/^(?:in )?excess$/i.test(text))
    return good({ written: text, dimension: 'excess', value: one, unit: '', base: one, baseUnit: '', resolution: one });
  const price = readPrice(text, column);
  if (price) return price;

  const bound = /^(≥|>=|>|at least|min\.?)\s*/i.exec(text);
  const ceiling = /^(≤|<=|<|at most|max\.?)\s*/i.exec(text);
  if (ceiling)
    return trouble({
      code: 'range',
      column: column(0),
      message: 'An upper bound alone does not say how much.',
      expected: 'a number, a range or a lower bound',
      cure: 'Write a range: 0.5-1 %.',
    });
  const start = bound?.[0].length ?? 0;
  let rest = text.slice(start);

  if (/^[~≈]|^(?:ca|c|about|approx|approximately|circa)\b\.?/i.test(rest))
    return trouble({
      code: 'approximate',
      column: column(start),
      message: `'${text}' does not say how far off it may be.`,
      expected: 'a number and its tolerance',
      cure: 'Write e.g. 5 g ± 1 g.',
    });
  if (/^[+\-−]?[\d \u00a0\u2009\u202f.]*\d['’]\d/.test(rest))
    return trouble({
      code: 'comma',
      column: column(start + rest.search(/['’]/)),
      message: 'An apostrophe inside a number is not read.',
      expected: 'digits',
      cure: 'Write thousands with a space or nothing between.',
    });
  if (/^[+\-−]?[\d \u00a0\u2009\u202f.]*\d,\d/.test(rest))
    return trouble({
      code: 'comma',
      column: column(start + rest.indexOf(',')),
      message: 'A comma inside a number can be read in two ways.',
      expected: 'a full stop as decimal point',
      cure: 'Write the decimal point as a full stop, and thousands with a space or nothing.',
    });

  if (rest.startsWith('(')) {
    const inner = /^\(([^()]*(?:±|\+\/-)[^()]*)\)\s*(.*)$/u.exec(rest);
    if (inner) rest = `${inner[1]!.replace(/\s*(±|\+\/-)/, ` ${inner[2]} $1`)} ${inner[2]}`;
  }
  const range = /^(\d+(?:\.\d+)?)\s*([a-zA-Zµ%°/]*)\s*(?:-|–|\bto\b)\s*(\d+(?:\.\d+)?)\s*(.*)$/u.exec(rest);
  if (range && !bound && (range[2] === '' || knownUnits().has(range[2]!))) {
    const [, lowText, , highText, unitText] = range as unknown as [string, string, string, string, string];
    const unit = unitOf(unitText, column(start + rest.length - unitText.length));
    if (!unit.ok) return unit;
    const low = numeral(lowText)!;
    const high = numeral(highText)!;
    if (high.value.lte(low.value))
      return trouble({
        code: 'range',
        column: column(start),
        message: `The range ${lowText}-${highText} does not rise.`,
        expected: 'the smaller number first',
        cure: 'Write the smaller number first.',
      });
    return finished(
      text,
      unit.value,
      { value: low.value.plus(high.value).div(2), resolution: low.resolution },
      column(start),
      { low: low.value, high: high.value },
    );
  }

  const concise = /^([+-]?\d+(?:\.\d+)?)\((\d+)\)\s*(.*)$/u.exec(rest);
  if (concise) {
    const value = numeral(concise[1]!)!;
    const unit = unitOf(concise[3]!, column(start + rest.length - concise[3]!.length));
    if (!unit.ok) return unit;
    return finished(text, unit.value, value, column(start), { standard: value.resolution.times(concise[2]!) });
  }

  const [head, tail] = split(rest);
  const parts = leading.exec(head)!;
  const value = parts[1] ? numeral(parts[1]) : undefined;
  if (!value && /^[+\-−]?\.?\d/.test(head))
    return trouble({
      code: 'number',
      column: column(start),
      message: 'That number is out of all measure.',
      expected: 'a number of at most 30 digits',
    });
  if (!value)
    return trouble({
      code: 'number',
      column: column(start),
      message: `'${text}' does not begin with a number.`,
      expected: 'a number and a unit',
    });
  const tailParts = tail && leading.exec(tail.text);
  const tailValue = tailParts ? numeral(tailParts[1]!) : undefined;
  const unitText = parts[2]!.trim() === '' && tailParts ? tailParts[2]! : parts[2]!;
  const unit = unitOf(unitText, column(start + head.length - parts[2]!.length));
  if (!unit.ok) return unit;
  if (tail) {
    if (!tailValue || tailValue.value.isNegative())
      return trouble({
        code: 'tolerance',
        column: column(start + head.length),
        message: `What follows ${tail.kind === 'tolerance' ? '±' : 'u'} is not a number.`,
        expected: 'a number and a unit',
        cure: 'Write e.g. 5.00 g ± 0.01 g.',
      });
    let spread = tailValue.value.times(unit.value.factor);
    const own = tailParts![2]!.trim();
    if (own === '%' && unit.value.dimension !== 'mass-percent' && parts[2]!.trim() !== '')
      spread = value.value.abs().times(unit.value.factor).times(tailValue.value).div(100);
    else if (own !== '') {
      const tailUnit = unitOf(own, column(start + head.length));
      if (!tailUnit.ok) return tailUnit;
      if (tailUnit.value.dimension !== unit.value.dimension)
        return trouble({
          code: 'tolerance',
          column: column(start + head.length),
          message: `A ${unit.value.dimension} cannot be uncertain by a ${tailUnit.value.dimension}.`,
          expected: `a ${unit.value.dimension}`,
          cure: 'Give the uncertainty in the same kind of unit.',
        });
      spread = tailValue.value.times(tailUnit.value.factor);
    }
    return finished(
      text,
      unit.value,
      value,
      column(start),
      tail.kind === 'tolerance' ? { toleranceInBase: spread } : { standardInBase: spread },
    );
  }
  if (bound) {
    if (unit.value.dimension !== 'mass-percent')
      return trouble({
        code: 'range',
        column: column(0),
        message: 'A lower bound alone does not say how much.',
        expected: 'a number or a range',
        cure: 'Only a purity can be given as a lower bound, since it ends at 100 %.',
      });
    if (value.value.gte(100))
      return trouble({
        code: 'range',
        column: column(start),
        message: 'A purity cannot be above 100 %.',
        expected: 'less than 100 %',
        cure: 'Correct the number.',
      });
    return finished(
      text,
      unit.value,
      { value: value.value.plus(100).div(2), resolution: value.resolution },
      column(start),
      { low: value.value, high: exact(100) },
    );
  }
  return finished(text, unit.value, value, column(start), {});
}

/** Parts the number from its uncertainty. */
function split(text: string): [string, { text: string; kind: 'tolerance' | 'standard' } | undefined] {
  const mark = /±|\+\/-|\+-|\bu\s*=|\bu\s(?=\d)/u.exec(text);
  if (!mark) return [text, undefined];
  return [
    text.slice(0, mark.index).trim(),
    { text: text.slice(mark.index + mark[0].length).trim(), kind: mark[0].startsWith('u') ? 'standard' : 'tolerance' },
  ];
}

interface Spread {
  low?: Decimal;
  high?: Decimal;
  standard?: Decimal;
  toleranceInBase?: Decimal;
  standardInBase?: Decimal;
}

function finished(
  written: string,
  unit: Unit,
  { value, resolution }: Numeral,
  column: number,
  spread: Spread,
): Outcome<Quantity> {
  const { factor } = unit;
  if (value.isNegative() && !value.isZero() && unit.dimension !== 'temperature')
    return trouble({
      code: 'number',
      column,
      message: `${written} is less than nothing.`,
      expected: 'a number above 0',
      cure: 'Correct the number.',
    });
  // mg/mL and g/L are the same size, g/mL a thousand times as large: the factor of the table carries it.
  return good({
    written,
    dimension: unit.dimension,
    value,
    unit: unit.name,
    base: value.times(factor),
    baseUnit: unit.base,
    resolution,
    ...(spread.low && {
      low: spread.low.times(factor),
      high: spread.high!.times(factor),
      tolerance: spread.high!.minus(spread.low).div(2).times(factor),
    }),
    ...(spread.standard && { standardUncertainty: spread.standard.times(factor) }),
    ...(spread.toleranceInBase && { tolerance: spread.toleranceInBase }),
    ...(spread.standardInBase && { standardUncertainty: spread.standardInBase }),
  });
}

/** `4.20 EUR / 500 g`, `£3.50 per 100 mL`, `12 EUR/L`. */
function readPrice(text: string, column: (at: number) => number): Outcome<Quantity> | undefined {
  const price = /^([€£$¥])?\s*(\d+(?:\.\d+)?)\s*([€£$¥]|[A-Z]{3})?\s*(?:\/|\bper\b)\s*(.+)$/u.exec(text);
  if (!price || (price[1] === undefined) === (price[3] === undefined)) return undefined;
  const sign = (price[1] ?? price[3])!;
  const money = numeral(price[2]!)!;
  const amount = price[4]!.trim();
  const per = parseQuantity(/^[\d.]/.test(amount) ? amount : `1 ${amount}`);
  if (!per.ok) return bad({ ...per.fault, column: column(text.length - price[4]!.length) });
  if (!['mass', 'volume', 'amount', 'drops'].includes(per.value.dimension) || per.value.base.isZero()) {
    return trouble({
      code: 'price',
      column: column(text.length - price[4]!.length),
      message: 'A price is for a mass or a volume.',
      expected: 'money for an amount',
      cure: 'Write e.g. 4.20 EUR / 500 g.',
    });
  }
  return good({
    written: text,
    dimension: 'money-per-amount',
    value: money.value,
    unit: currencies[sign] ?? sign,
    base: money.value,
    baseUnit: currencies[sign] ?? sign,
    resolution: money.resolution,
    currency: currencies[sign] ?? sign,
    per: per.value,
  });
}
