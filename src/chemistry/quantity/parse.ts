// From text such as `5.00 g`, `0.050 mol ± 0.001 mol`, `95-99 %`, `4.20 EUR / 500 g` to an exact value with its unit.
import { memoise } from '../../memoise.js';
import { bad, good, type Outcome } from '../../outcome.js';
import { one } from '../exact.js';
import { quantityFault, readAmount, readConcise, readLowerBound, readRange, type Written } from './amount.js';
import { bothReadings, commasRead } from './comma.js';
import { readRoughly } from './roughly.js';
import type { Quantity } from './model.js';
import { numeral } from './numeral.js';
import { plainSigns } from './signs.js';

const longest = 200;

/** Both readings of a comma, and that neither was taken. */
function commaMessage(whole: string): string {
  if (commasRead(whole) !== undefined) return 'A comma stands where a full stop is read as the decimal point.';
  const both = bothReadings(whole);
  const ways = 'A comma inside a number can be read in two ways';
  if (!both) return `${ways}.`;
  const { written, decimal, thousands } = both;
  return `${ways}: ${written} is ${decimal} with a decimal comma and ${thousands} with thousands. Neither was taken.`;
}

function commaCure(whole: string): string {
  const both = bothReadings(whole);
  if (!both) return 'Write the decimal point as a full stop, and thousands with a space or nothing.';
  const [decimal, thousands] = [both.decimal, both.thousands].map((one) => whole.replace(both.written, one));
  return `Write ${decimal}, with a full stop, or ${thousands}, whichever is meant.`;
}

/** What says too little, or can be read in two ways, by how it begins. */
const refused: readonly {
  readonly begins: RegExp;
  /** Where in the match the trouble lies. */
  readonly mark?: RegExp;
  readonly code: string;
  readonly message: (whole: string) => string;
  readonly expected: string;
  readonly cure: string | ((whole: string) => string);
}[] = [
  {
    begins: /^(?:≤|<=|<|at most|max\.?)\s*/i,
    code: 'range',
    message: () => 'An upper bound alone does not say how much.',
    expected: 'a number, a range or a lower bound',
    cure: 'Write a range: 0.5-1 %.',
  },
  {
    begins: /^[+\-−]?[\d \u00a0\u2009\u202f.]*\d['’]\d/,
    mark: /['’]/,
    code: 'comma',
    message: () => 'An apostrophe inside a number is not read.',
    expected: 'digits',
    cure: 'Write thousands with a space or nothing between.',
  },
  {
    begins: /^[+\-−]?[\d \u00a0\u2009\u202f.]*\d,\d/,
    mark: /,/,
    code: 'comma',
    message: commaMessage,
    expected: 'a full stop as decimal point',
    cure: commaCure,
  },
];

/** `5'3 g`: an apostrophe where the decimal point should be; undefined where it may part thousands. */
const apostropheRead = (whole: string): string | undefined =>
  /^[^'’]*\d['’]\d{1,2}(?!\d)[^'’]*$/.test(whole) ? whole.replace(/['’]/, '.') : undefined;

function refuseWhatBeginsSo({ whole, text, column }: Written): Outcome<never> | undefined {
  const found = refused.find(({ begins }) => begins.test(text));
  if (!found) return undefined;
  const { code, message, expected, cure } = found;
  const at = found.mark ? text.search(found.mark) : 0;
  const cureWords = typeof cure === 'string' ? cure : cure(whole);
  const meant = code === 'comma' ? (apostropheRead(whole) ?? commasRead(whole)) : undefined;
  return bad({
    code,
    column: column(at),
    message: message(whole),
    expected,
    cure: meant === undefined ? cureWords : cureMeaning(meant),
  });
}

/** What is meant may have another fault, `1.5og`, which is told with it. */
function cureMeaning(meant: string): string {
  const read = parseQuantity(meant);
  if (read.ok) return `Write ${meant}, if that is meant.`;
  const { message, cure = '' } = read.fault;
  return `Write a full stop for the comma, ${meant}. Then there is more: ${message} ${cure}`.trim();
}

/** `(5.00 ± 0.01) g` as `5.00 g ± 0.01 g`. */
function withoutBrackets(written: Written): Written {
  const inner = /^\(([^()]*(?:±|\+\/-)[^()]*)\)\s*(.*)$/su.exec(written.text);
  if (!inner) return written;
  const [, inside, unit] = inner as unknown as [string, string, string];
  return { ...written, text: `${inside.replace(/\s*(±|\+\/-)/, ` ${unit} $1`)} ${unit}` };
}

/**
 * Reads a quantity.
 *
 * - a number and a unit: `5.00 g`, `1.5e-3 mol`, `60 %`, `10 % w/v`, `2.0 mol/L`, `3 drops`
 * - what is only roughly so: `~9 mL`, `about 9 g`, `half a litre`, `1 1/2 L` (a tenth of it either
 *   way, or what the digits say)
 * - a reading's own uncertainty: `5.00 g ± 0.01 g` (half-width), `5.00 g u = 0.006 g` or `5.000(6) g` (standard)
 * - a range or a bound: `95-99 %`, `≥ 95 %` (to 100 %)
 * - a price: `4.20 EUR / 500 g`
 * - `excess`, `10 % excess`
 *
 * Errors: `unit`, `unit-missing`, `number`, `comma`, `range`, `tolerance`, `price`.
 * @example parseQuantity('5.00 g') // value 5, resolution 0.01, dimension mass
 */
export const parseQuantity: (written: string) => Outcome<Quantity> = memoise((written) => written, readAnew, 5000);

const rangeInWords =
  /^(?:between|from|zwischen|von|entre|de|tra|fra|da|tussen|van)\s+(.*\d.*?)\s+(?:and|to|und|bis|et|à|y|a|e|en|tot)\s+(?=\d)/i;

/** `between 5 and 6 g` as `5 - 6 g`. */
const withWordsOfRange = (text: string): string => text.replace(rangeInWords, '$1 - ');

function readAnew(written: string): Outcome<Quantity> {
  const text = withWordsOfRange(plainSigns(written.trim()));
  const offset = written.length - written.trimStart().length;
  const last = written.length + 1;
  const whole: Written = { whole: text, text, column: (at) => Math.min(last, offset + at + 1) };
  const expected = 'a number and a unit';
  if (text.length > longest)
    return quantityFault({ code: 'number', column: 1, message: 'That is too long for a quantity.', expected });
  if (text === '') return quantityFault({ code: 'number', column: 1, message: 'There is no quantity.', expected });
  const excess = readExcess(text);
  if (excess) return good(excess);
  return readPrice(whole) ?? readNumber(whole);
}

/** `excess`, or so many per cent more than is needed: `10 % excess`, its value in %. */
function readExcess(text: string): Quantity | undefined {
  const [whole, percent] = /^(?:(\d+(?:\.\d+)?)\s*%\s+)?(?:in\s+)?excess$/i.exec(text) ?? [];
  if (whole === undefined) return undefined;
  const plain = { written: text, dimension: 'excess', base: one, baseUnit: '', resolution: one } as const;
  const value = percent === undefined ? undefined : numeral(percent)?.value;
  return value ? { ...plain, value, unit: '%' } : { ...plain, value: one, unit: '' };
}

function readNumber(written: Written): Outcome<Quantity> {
  const said = readRoughly(written, readExactly);
  if (said) return said;
  return readExactly(written);
}

function readExactly(written: Written): Outcome<Quantity> {
  const afterBound = { ...written, text: written.text.replace(/^(?:≥|>=|>|at least|min\.?)\s*/i, '') };
  const refusal = refuseWhatBeginsSo(written) ?? refuseWhatBeginsSo(afterBound);
  if (refusal) return refusal;
  const plain = withoutBrackets(written);
  return readLowerBound(plain) ?? readRange(plain) ?? readConcise(plain) ?? readAmount(plain);
}

const currencies: Readonly<Record<string, string>> = { '€': 'EUR', '£': 'GBP', $: 'USD', '¥': 'JPY' };
const sold: ReadonlySet<string> = new Set(['mass', 'volume', 'amount', 'drops']);

/** `4.20 EUR / 500 g`, `£3.50 per 100 mL`, `12 EUR/L`. */
function readPrice({ whole, text, column }: Written): Outcome<Quantity> | undefined {
  const price = /^([€£$¥])?\s*(\d+(?:\.\d+)?)\s*([€£$¥]|[A-Z]{3})?\s*(?:\/|\bper\b)\s*(.+)$/su.exec(text);
  if (!price || (price[1] === undefined) === (price[3] === undefined)) return undefined;
  const sign = (price[1] ?? price[3])!;
  const at = column(text.length - price[4]!.length);
  const money = numeral(price[2]!);
  const amount = price[4]!.trim();
  const per = readNumber({ whole: amount, text: /^[\d.]/.test(amount) ? amount : `1 ${amount}`, column: () => at });
  if (!per.ok) return per;
  if (!money || !sold.has(per.value.dimension) || per.value.base.isZero())
    return quantityFault({
      code: 'price',
      column: money ? at : column(0),
      message: money ? 'A price is for a mass or a volume.' : 'That number is out of all measure.',
      expected: 'money for an amount',
      cure: 'Write e.g. 4.20 EUR / 500 g.',
    });
  const currency = currencies[sign] ?? sign;
  return good({
    written: whole,
    dimension: 'money-per-amount',
    value: money.value,
    unit: currency,
    base: money.value,
    baseUnit: currency,
    resolution: money.resolution,
    currency,
    per: per.value,
  });
}
