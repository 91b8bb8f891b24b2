// The dots of hydrates and adducts: which full stops are dots and which are decimal points, and water that is written
// after a space, a comma or a dash, or with a zero for its oxygen.
import { isCapital, isDigit } from './characters.js';

const beforeWater = String.raw`(?=(?:\d+(?:\.\d+)?(?:\/\d+)?|[½¼¾]|[nx])?\s*\(?H2O\)?\s*(?:$|[·.)\]}]))`;
const afterNumber = String.raw`(?<!(?:^|[·.xX,:\s([{])[\d./-]+)`;
const writtenApart = new RegExp(
  String.raw`(?<=[\])}A-Za-z\d])${afterNumber}(?:\s*[xX]\s*(?=[\d½¼¾])|\s*[,:]\s*|\s+-\s+|\s+)${beforeWater}`,
  'g',
);
const dashed = new RegExp(`(?<=[\\])}A-Za-z\\d])${afterNumber}-${beforeWater}`);

/**
 * Water of crystallisation after a space, a comma, a colon or an x, as labels and old books write it, is set after a
 * dot.
 */
export const dotBeforeWater = (text: string): string =>
  text.includes('H2O') ? text.replace(writtenApart, (gap) => '·'.padEnd(gap.length)) : text;

/** An unknown count of water with a space behind it, `· x H2O`, stands close to its formula. */
export const closeToWater = (text: string): string =>
  text.includes('H2O') ? text.replace(/(?<=[·*]\s*)([nxyz])(\s+)(?=H2O)/g, '$2$1') : text;

/** A dash before water is set as a dot; `at` is where it stood. */
export function dashBeforeWater(text: string): { readonly text: string; readonly at?: number } {
  const dash = dashed.exec(text);
  return dash ? { text: `${text.slice(0, dash.index)}·${text.slice(dash.index + 1)}`, at: dash.index } : { text };
}

const waters = String.raw`(?:[1-9]|1\d|2[0-4]|[012]\.5)`;
const lastBeforeWater = String.raw`(?<=[)\]}]|O|Cl|Br|[FINPS])`;
/** A count of one digit is the commonest by far; one of ten or more is that of a heteropoly salt. */
const withoutDot = new RegExp(String.raw`(?:${lastBeforeWater}(?:[2-9]|[1-9]\d)|(?<=COO))(?=${waters}H2O$)`);

/**
 * Water behind a count with no dot before it, `CuSO45H2O`, is set after one, as nothing has so many atoms; `at` is
 * where the dot belongs.
 * @example dotLost('Na2CO310H2O').text // 'Na2CO3·10H2O'
 */
export function dotLost(text: string): { readonly text: string; readonly at?: number } {
  const count = text.endsWith('H2O') && !text.includes('·') ? withoutDot.exec(text) : null;
  if (!count) return { text };
  const at = count.index + count[0].length;
  return { text: `${text.slice(0, at)}·${text.slice(at)}`, at };
}

const zeroInWater = new RegExp(
  String.raw`(?<=(?:^|[·.,:([{\sxX])\s*(?:\d+(?:\.\d+)?(?:\/\d+)?|[½¼¾]|[nx])?\s*)H20(?=2?\s*(?:$|[·.)\]}]))`,
  'g',
);

/** Water, or peroxide, that was typed with the digit 0: `5H20` is set as `5H2O`; `at` is where the first zero stood. */
export function oxygenInWater(text: string): { readonly text: string; readonly at?: number } {
  const first = text.search(zeroInWater);
  return first < 0 ? { text } : { text: text.replace(zeroInWater, 'H2O'), at: first + 2 };
}

/** Positions of full stops: those that are the dot of an adduct, and those among them that could be decimal points. */
export interface Stops {
  readonly adduct: ReadonlySet<number>;
  readonly doubtful: readonly number[];
}

const stopsOf = (text: string): number[] => [...text.matchAll(/\./g)].map(({ index }) => index);

type StopReading = 'adduct' | 'adduct of water' | 'decimal' | 'second of a number' | 'doubtful';

/** Coefficients of adducts are small; waters of crystallisation, which are told by their formula, go to 24. */
const largestCoefficient = 24;

/**
 * Whether digits on both sides of a stop are one number: a count of 1 is never written, a coefficient begins with no 0
 * and is small, an element alone forms no adduct, no part of an adduct begins with oxygen, and a half is the commonest
 * fraction.
 */
function isDecimal(before: string, head: string, digits: string, rest: string): boolean {
  const elementBefore = /(?:^|[.·])\d*[A-Z][a-z]?\d+$/.test(head);
  const oxygenAfter = /^O(?![a-zH])/.test(rest);
  const halfOfLast = digits === '5' && /^(?!H)[A-Z][a-z]?\d*(?:$|\.)/.test(rest);
  const notCoefficient = digits.startsWith('0') || Number(digits) > largestCoefficient;
  return before === '0' || before === '1' || notCoefficient || elementBefore || oxygenAfter || halfOfLast;
}

function readStop(text: string, at: number): StopReading {
  const after = text.slice(at + 1);
  const [, digits, then] = /^(\d*) *(.?)/.exec(after.slice(0, 40)) as unknown as [string, string, string];
  const head = text.slice(0, at);
  const before = /(\d*)$/.exec(head.slice(-20))![1]!;
  const follows = text[at - before.length - 1] === '.';
  if (before === '' || digits === '' || then === '/') return 'adduct';
  if (then === '.' && isDigit(after[digits.length + 1]) && !follows) return 'adduct';
  if (follows) return 'second of a number';
  if (!(isCapital(then) || then === '(' || then === '[')) return 'decimal';
  const rest = after.slice(digits.length).trimStart();
  if (before !== '0' && /^\(?H2[O0]\)?(?:$|[.()\]}])/.test(rest)) return 'adduct of water';
  return isDecimal(before, head, digits, rest) ? 'decimal' : 'doubtful';
}

/**
 * Which full stops stand for the dot of an adduct, and which of those could as well be decimal points.
 * Rule: where a raised dot or asterisk occurs, full stops are decimal points. Otherwise a stop before a letter, before
 * a fraction, or the first of two in one number is an adduct's dot; one with no element after its digits, or that
 * stands in what can only be one number, is a decimal point, and makes the doubtful ones decimal too. What stays
 * doubtful is read as an adduct's dot.
 * @example readStops('Cu1.97S').adduct.size // 0
 */
export function readStops(text: string): Stops {
  const stops = stopsOf(text);
  if (text.includes('·'))
    return { adduct: new Set(stops.filter((at) => !isDigit(text[at - 1]) && !isDigit(text[at + 1]))), doubtful: [] };
  const readings = stops.map((at) => [at, readStop(text, at)] as const);
  const read = (wanted: StopReading): number[] => readings.filter(([, as]) => as === wanted).map(([at]) => at);
  const certain = read('adduct');
  const doubtful = read('doubtful');
  const decimals = read('decimal').length > 0 && certain.length === 0;
  return {
    adduct: new Set([...certain, ...read('adduct of water'), ...(decimals ? [] : doubtful)]),
    doubtful: decimals || certain.length > 0 ? [] : doubtful,
  };
}
