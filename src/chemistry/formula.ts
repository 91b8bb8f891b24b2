// Chemical formulae: from text to a tree of atoms and groups, and back to text; what is in it and what it weighs.
import { bad, good, type Fault, type Outcome } from '../outcome.js';
import { ionsTable } from '../tables/compiled/chemistry/ions.js';
import { elements } from './atomic-weights.js';
import { exact, one, UncertaintyDecimal, zero, type Decimal } from './exact.js';
import { withoutMarkup } from './markup.js';
import {
  plus,
  rectangular,
  scaled,
  standardUncertainty,
  withUncertainty,
  withoutUncertainty,
  type UncertainDecimal,
} from './uncertainty.js';

/** How many: a number (`low` = `high`), a range (`8-10`), or with an unknown (`x`, `1-x`, `2n`): low…high plus each letter times its factor. */
export interface Count {
  readonly low: Decimal;
  readonly high: Decimal;
  readonly unknown?: Readonly<Record<string, Decimal>>;
  /** A fraction as it was written: `1/3`. */
  readonly fraction?: string;
}

export interface Atom {
  readonly kind: 'atom';
  readonly symbol: string;
  readonly count: Count;
}
export interface Group {
  readonly kind: 'group';
  readonly bracket: '(' | '[' | '{';
  readonly parts: readonly FormulaPart[];
  readonly count: Count;
}
export type FormulaNode = Atom | Group;

/** What stands between two dots of an adduct, with the number before it: `5H2O`. */
export interface FormulaPart {
  readonly multiplier: Count;
  readonly nodes: readonly FormulaNode[];
}

export interface Formula {
  /** As it was written. */
  readonly written: string;
  readonly parts: readonly FormulaPart[];
  /** In elementary charges: −2 for SO4^2-. */
  readonly charge: number;
  readonly state?: 's' | 'l' | 'g' | 'aq';
  /** Things that could be read another way, with the reading that was taken. */
  readonly doubts: readonly Fault[];
}

/** Composition: how many atoms of each element, in the order in which they are written. */
export type Composition = ReadonlyMap<string, Count>;

const single: Count = { low: one, high: one };
const longest = 400;
const deepest = 24;
const largestCount = exact('1e6');

const subscripts = '₀₁₂₃₄₅₆₇₈₉';
const superscripts = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const vulgar: Readonly<Record<string, string>> = { '½': '0.5', '¼': '0.25', '¾': '0.75' };
/** Characters that are typed for one another, each by the plain one. */
const sameCharacter: ReadonlyMap<string, string> = new Map([
  ...[...subscripts].map((char, digit) => [char, String(digit)] as const),
  ...[...'·•∙⋅‧・･*∗×'].map((char) => [char, '·'] as const),
  ...[...'−–—‒﹣¯'].map((char) => [char, '-'] as const),
  ...[...'\u00a0\u2009\u202f'].map((char) => [char, ' '] as const),
  ['＋', '+'],
  ['₍', '('],
  ['₎', ')'],
]);
const brackets: Readonly<Record<string, string>> = { '(': ')', '[': ']', '{': '}' };
const unknowns = new Set(['n', 'x', 'y', 'z']);
const isDigit = (char: string | undefined): boolean => char !== undefined && char >= '0' && char <= '9';
const isCapital = (char: string | undefined): boolean => char !== undefined && char >= 'A' && char <= 'Z';
const isSmall = (char: string | undefined): boolean => char !== undefined && char >= 'a' && char <= 'z';

/** Character for character, so that a column stays a column. */
const plain = (text: string): string => [...text].map((char) => sameCharacter.get(char) ?? char).join('');

class Misread extends Error {
  constructor(readonly fault: Fault) {
    super(fault.message);
  }
}
const refuse = (fault: Fault): never => {
  throw new Misread(fault);
};

const chargeOf = (digits: string, signs: string): number => {
  const size = digits === '' ? signs.length : Number(digits);
  return signs.startsWith('-') ? -size : size;
};

let listedCharges: ReadonlyMap<string, ReadonlySet<number>> | undefined;

/** The table of ions holds this ion, written so or with brackets around a part. */
export function isListed(stem: string, charge: number): boolean {
  if (!listedCharges) {
    const charges = new Map<string, Set<number>>();
    for (const row of ionsTable()) charges.set(row.formula, (charges.get(row.formula) ?? new Set()).add(row.charge));
    listedCharges = charges;
  }
  return (
    listedCharges.get(stem)?.has(charge) ??
    listedCharges.get(stem.replace(/\(([^()]+)\)(?!\d)/g, '$1'))?.has(charge) ??
    false
  );
}

const holdsMetal = (text: string): boolean =>
  [...text.matchAll(/[A-Z][a-z]?/g)].some(([symbol]) => elements().get(symbol)?.kind === 'metal');

interface Tail {
  readonly body: string;
  readonly charge: number;
  readonly doubt?: Fault;
}

/**
 * Reads the charge off the end of a formula: `^2-`, `²⁻`, `(2-)`, ` 2-`, `2-` after ] or a lowered count, `--`, `+3`.
 * Digits that could be count or charge (`SO42-`, `I3-`, `S2-`) are told apart by the table of ions, where only one reading
 * is in it; a metal alone carries its digit as charge (`Fe3+`).
 * @param raw the same text with its lowered digits
 */
function readCharge(text: string, raw: string): Tail {
  const raised = /([⁰¹²³⁴⁵⁶⁷⁸⁹]*)([⁺⁻]+)$/.exec(text) ?? /([⁰¹²³⁴⁵⁶⁷⁸⁹]+)([+-])$/.exec(text);
  if (raised) {
    const digits = [...raised[1]!].map((char) => superscripts.indexOf(char)).join('');
    const signs = raised[2]!.replaceAll('⁺', '+').replaceAll('⁻', '-');
    return { body: text.slice(0, raised.index), charge: checkedCharge(digits, signs, raised.index) };
  }
  const signFirst = /([⁺⁻])([⁰¹²³⁴⁵⁶⁷⁸⁹])$/.exec(text);
  if (signFirst)
    return {
      body: text.slice(0, signFirst.index),
      charge: checkedCharge(
        String(superscripts.indexOf(signFirst[2]!)),
        signFirst[1] === '⁺' ? '+' : '-',
        signFirst.index,
      ),
    };
  const caret = /\s*\^[{(]?(?:(\d*)(\++|-+)|([+-])(\d+))[})]?$/.exec(text);
  if (caret)
    return {
      body: text.slice(0, caret.index),
      charge: checkedCharge(caret[1] ?? caret[4] ?? '', caret[2] ?? caret[3]!, caret.index),
    };
  const bracketed = /\((?:(\d*)([+-])|([+-])(\d))\)$/.exec(text);
  if (bracketed && bracketed.index > 0)
    return {
      body: text.slice(0, bracketed.index),
      charge: checkedCharge(bracketed[1] ?? bracketed[4]!, bracketed[2] ?? bracketed[3]!, bracketed.index),
    };
  const apart = /\s+(\d?)(\++|-+)$/.exec(text);
  if (
    apart &&
    apart.index > 0 &&
    (apart[1] !== '' || apart[2]!.length > 1 || isListed(text.slice(0, apart.index), chargeOf('', apart[2]!)))
  )
    return { body: text.slice(0, apart.index), charge: checkedCharge(apart[1]!, apart[2]!, apart.index) };
  const after = /([+-])(\d)$/.exec(text);
  if (after && after.index > 0) {
    const stem = text.slice(0, after.index);
    const charge = chargeOf(after[2]!, after[1]!);
    if (charge > 0 || !isDigit(stem.at(-1)) || isListed(stem, charge))
      return { body: stem, charge: checkedCharge(after[2]!, after[1]!, after.index) };
  }
  const signed = /(\++|-+)$/.exec(text);
  if (!signed || signed.index === 0) return { body: text, charge: 0 };
  const signs = signed[1]!;
  const before = text.slice(0, signed.index);
  const digits = /\d*$/.exec(before)![0];
  const stem = before.slice(0, before.length - digits.length);
  if (digits === '' || signs.length > 1) return { body: before, charge: checkedCharge('', signs, signed.index) };
  const last = digits.slice(-1);
  const short = before.slice(0, -1);
  const lowered = subscripts.includes(raw[short.length - 1] ?? ' ') && !subscripts.includes(raw[short.length]!);
  if (lowered || /[\]}]$/.test(short)) return { body: short, charge: checkedCharge(last, signs, short.length) };
  const withDigit = isListed(short, chargeOf(last, signs));
  const withoutDigit = isListed(before, chargeOf('', signs));
  if (withDigit && !withoutDigit) return { body: short, charge: chargeOf(last, signs) };
  if (withoutDigit && !withDigit) return { body: before, charge: chargeOf('', signs) };
  const lone = elements().get(stem);
  if (lone?.kind === 'metal' && signs === '+' && digits.length === 1) return { body: stem, charge: Number(digits) };
  if (lone || withDigit) {
    const readings = `${short}^${last === '1' ? '' : last}${signs} or ${before}^${signs}`;
    return refuse({
      code: 'ambiguous-charge',
      column: stem.length + 1,
      message: `'${text}' can be read as ${readings}.`,
      expected: 'a charge after ^',
      cure: `Write the charge after a caret: ${readings}.`,
    });
  }
  if (digits.length === 1) {
    const doubtful = signs === '+' && holdsMetal(stem) && !/\((?:NH3|H2O|en)\)$/.test(stem);
    return {
      body: before,
      charge: chargeOf('', signs),
      ...(doubtful && {
        doubt: {
          code: 'charge',
          column: stem.length + 1,
          message: `'${text}' is read as ${before}^${signs}; it could also be ${stem}^${digits}${signs}.`,
          expected: 'a charge after ^',
          cure: 'Write the charge after a caret.',
        },
      }),
    };
  }
  const split = `${short}^${last}${signs}`;
  if (!holdsMetal(stem) || last === '0') {
    return refuse({
      code: 'ambiguous-charge',
      column: stem.length + 1,
      message: `'${text}' does not say where the count ends and the charge begins.`,
      expected: 'a charge after ^',
      cure: `Write ${split}, if that is meant.`,
    });
  }
  return {
    body: short,
    charge: checkedCharge(last, signs, short.length),
    doubt: {
      code: 'charge',
      column: short.length + 1,
      message: `'${text}' is read as ${split}.`,
      expected: 'a charge after ^',
      cure: `Write ${split}.`,
    },
  };
}

function checkedCharge(digits: string, signs: string, at: number): number {
  if (digits.length > 2 || signs.length > 12 || digits === '0')
    refuse({
      code: 'charge',
      column: at + 1,
      message: 'That is not a charge an ion can have.',
      expected: 'a charge such as 2- or 3+',
      cure: 'Write the charge as a digit and a sign: ^2-.',
    });
  return chargeOf(digits, signs);
}

const beforeWater = String.raw`(?=(?:\d+(?:\.\d+)?(?:\/\d+)?|[½¼¾]|[nx])?\s*\(?H2O\)?\s*(?:$|[·.)\]}]))`;
const afterNumber = String.raw`(?<!(?:^|[·.xX,:\s([{])[\d./-]+)`;
const writtenApart = new RegExp(
  String.raw`(?<=[\])}A-Za-z\d])${afterNumber}(?:\s*[xX]\s*(?=[\d½¼¾])|\s*[,:]\s*|\s+-\s+|\s+)${beforeWater}`,
  'g',
);
const dashed = new RegExp(`(?<=[\\])}A-Za-z\\d])${afterNumber}-${beforeWater}`);

/** Water of crystallisation after a space, a comma, a colon or an x, as labels and old books write it, is set after a dot. */
const waterDotted = (text: string): string =>
  text.includes('H2O') ? text.replace(writtenApart, (gap) => '·'.padEnd(gap.length)) : text;

/**
 * Which full stops stand for the dot of an adduct, and which of those could as well be decimal points.
 * Rule: where a raised dot or asterisk occurs, full stops are decimal points. Otherwise a stop before a letter, before a
 * fraction, or the first of two in one number is an adduct's dot; one after a lone 0, or with no element after its
 * digits, is a decimal point, and makes the doubtful ones decimal too. What stays doubtful is read as an adduct's dot.
 */
function readStops(text: string): { readonly adduct: ReadonlySet<number>; readonly doubtful: readonly number[] } {
  const adduct = new Set<number>();
  const doubtful: number[] = [];
  if (text.includes('·')) {
    for (let at = text.indexOf('.'); at >= 0; at = text.indexOf('.', at + 1))
      if (!isDigit(text[at - 1]) && !isDigit(text[at + 1])) adduct.add(at);
    return { adduct, doubtful };
  }
  let decimalSeen = false;
  let adductSeen = false;
  for (let at = text.indexOf('.'); at >= 0; at = text.indexOf('.', at + 1)) {
    const after = /^(\d*) *(.?)/.exec(text.slice(at + 1, at + 40))!;
    const digits = after[1]!;
    const then = after[2]!;
    const before = /(\d*)$/.exec(text.slice(Math.max(0, at - 20), at))![1]!;
    if (before === '' || digits === '' || then === '/') {
      adduct.add(at);
      adductSeen = true;
    } else if (then === '.' && isDigit(text[at + 1 + digits.length + 1]) && text[at - before.length - 1] !== '.') {
      adduct.add(at);
      adductSeen = true;
    }
    // The second of two stops in one number is its decimal point and says nothing about the others.
    else if (text[at - before.length - 1] === '.') continue;
    else if (before === '0' || !(isCapital(then) || then === '(' || then === '[')) decimalSeen = true;
    else if (/^\d+ *H2O(?:$|[.(])/.test(text.slice(at + 1, at + 13))) adduct.add(at);
    else doubtful.push(at);
  }
  if (decimalSeen && !adductSeen) return { adduct, doubtful: [] };
  for (const at of doubtful) adduct.add(at);
  return { adduct, doubtful: adductSeen ? [] : doubtful };
}

const states: Readonly<Record<string, NonNullable<Formula['state']>>> = {
  s: 's',
  l: 'l',
  g: 'g',
  aq: 'aq',
  cr: 's',
  '↓': 's',
  '↑': 'g',
};

/** The reader proper: one pass, no backtracking; depth and length are bounded before it starts. */
class Reader {
  private at = 0;
  constructor(
    private readonly text: string,
    private readonly adductStops: ReadonlySet<number>,
  ) {}

  read(): readonly FormulaPart[] {
    const parts = this.parts(0);
    if (this.at < this.text.length) this.unexpected();
    return parts;
  }

  private get char(): string | undefined {
    return this.text[this.at];
  }
  private spaces(): void {
    while (this.char === ' ') this.at += 1;
  }
  private isDot(at: number): boolean {
    return this.text[at] === '·' || this.adductStops.has(at);
  }

  private unexpected(): never {
    const char = [...this.text.slice(this.at, this.at + 2)][0];
    const column = this.at + 1;
    if (char === undefined)
      return refuse({
        code: 'unfinished',
        column,
        message: 'The formula ends too early.',
        expected: 'an element symbol or an opening bracket',
        cure: 'Write what follows the last dot or bracket.',
      });
    if (char === ')' || char === ']' || char === '}')
      return refuse({
        code: 'bracket',
        column,
        message: `There is a closing '${char}' with no opening one.`,
        expected: 'an element symbol',
        cure: 'Add the opening bracket or take this one away.',
      });
    if (char === ',')
      return refuse({
        code: 'solid-solution',
        column,
        message: 'A comma between elements leaves their proportion open.',
        expected: 'a count for each element',
        cure: 'Give each element its share, e.g. Ti0.85Sb0.10Ni0.05O2.',
      });
    if (
      (char === '^' && this.at === 0) ||
      superscripts.includes(char) ||
      (char === '^' && isDigit(this.text[this.at + 1]) && isCapital(/[^\d]/.exec(this.text.slice(this.at + 1))?.[0]))
    )
      return this.isotope(column);
    if (char === '-' && isCapital(this.text[this.at + 1]))
      return refuse({
        code: 'bond',
        column,
        message: 'A dash for a bond is not read.',
        expected: 'an element symbol',
        cure: `Leave bonds out: ${this.text.replace(/-(?=[A-Z])/g, '')}.`,
      });
    if (char === '^' || char === '+' || char === '-')
      return refuse({
        code: 'charge-inside',
        column,
        message: 'A charge can only stand at the end of the formula.',
        expected: 'an element symbol',
        cure: 'Put the charge of the whole ion at its end: SO4^2-.',
      });
    if (char === ' ')
      return refuse({
        code: 'space',
        column,
        message: 'There is a space inside the formula.',
        expected: 'an element symbol',
        cure: 'Write the formula without spaces; only around the dot of a hydrate may there be some.',
      });
    if (isSmall(char)) {
      const pair = this.text.slice(this.at, this.at + 2);
      const known = elements();
      const meant = [pair, char]
        .map((letters) => letters[0]!.toUpperCase() + letters.slice(1))
        .find((symbol) => known.has(symbol));
      return refuse({
        code: 'small-letter',
        column,
        message: `An element symbol begins with a capital, not with '${char}'.`,
        expected: meant ? `${meant}` : 'an element symbol',
        cure: meant ? `Write ${meant}, if that is meant.` : 'Write the element symbol with a capital.',
      });
    }
    return refuse({
      code: 'unexpected',
      column,
      message: `'${char}' does not belong in a formula.`,
      expected: 'an element symbol, a bracket, a number or a dot',
      cure: 'Take it away, or write what it stands for.',
    });
  }

  private isotope(column: number): never {
    return refuse({
      code: 'isotope',
      column,
      message: 'Isotopes are not reckoned here.',
      expected: 'elements in their natural mixture',
      cure: 'Write H for D and T, and leave mass numbers away.',
    });
  }

  private parts(depth: number): readonly FormulaPart[] {
    const parts: FormulaPart[] = [];
    for (;;) {
      this.spaces();
      parts.push(this.part(depth));
      const from = this.at;
      this.spaces();
      if (!this.isDot(this.at)) {
        this.at = from;
        return parts;
      }
      this.at += 1;
    }
  }

  private part(depth: number): FormulaPart {
    const number = this.count('multiplier');
    this.spaces();
    const nodes: FormulaNode[] = [];
    for (;;) {
      const char = this.char;
      if (isCapital(char)) nodes.push(this.atom());
      else if (char !== undefined && char in brackets) nodes.push(this.group(depth));
      else break;
    }
    if (nodes.length === 0) this.unexpected();
    return { multiplier: number ?? single, nodes };
  }

  private atom(): Atom {
    const from = this.at;
    const known = elements();
    const pair = this.text.slice(from, from + 2);
    const letter = this.text[from]!;
    let symbol: string;
    if (isSmall(pair[1]) && known.has(pair)) symbol = pair;
    else if (letter === 'D' || letter === 'T') return this.isotope(from + 1);
    else if (known.has(letter) && (!isSmall(pair[1]) || unknowns.has(pair[1]!))) symbol = letter;
    else {
      const wrong = isSmall(pair[1]) ? pair : letter;
      const short: Readonly<Record<string, string>> = { Me: 'CH3', Et: 'C2H5', Ph: 'C6H5', R: '' };
      return refuse({
        code: 'unknown-element',
        column: from + 1,
        message: `There is no element '${wrong}'.`,
        expected: 'an element symbol',
        cure: short[wrong]
          ? `Write ${short[wrong]} for ${wrong}.`
          : `Write a symbol of the periodic table${known.has(wrong[0]! + (wrong[1] ?? '').toUpperCase()) ? '' : ', capital first'}.`,
      });
    }
    if (symbol === 'C' && this.text[from + 1] === 'U' && !isSmall(this.text[from + 2]))
      refuse({
        code: 'capitals',
        column: from + 1,
        message: "'CU' would be carbon and uranium.",
        expected: 'Cu',
        cure: 'Write Cu for copper, and UC for the carbide.',
      });
    this.at += symbol.length;
    return { kind: 'atom', symbol, count: this.count('subscript') ?? single };
  }

  private group(depth: number): Group {
    const from = this.at;
    const bracket = this.char as Group['bracket'];
    const closing = brackets[bracket]!;
    if (depth >= deepest)
      refuse({
        code: 'too-deep',
        column: from + 1,
        message: `Brackets are nested more than ${deepest} deep.`,
        expected: 'fewer brackets',
        cure: 'Take away brackets that are not needed.',
      });
    this.at += 1;
    if (isDigit(this.char) && bracket === '[' && /^\d+[A-Z][a-z]?\]/.test(this.text.slice(this.at, this.at + 8)))
      this.isotope(this.at + 1);
    const roman =
      bracket === '(' ? /^\((I{1,3}|IV|VI{0,3})\)(?![\d₀-₉])/.exec(this.text.slice(from, from + 7)) : undefined;
    if (roman && from > 0)
      refuse({
        code: 'oxidation-state',
        column: from + 1,
        message: `(${roman[1]}) is an oxidation state, which is no part of a formula.`,
        expected: 'an element symbol',
        cure: 'Leave it out; the charge of an ion is written like ^3+.',
      });
    const parts = this.parts(depth + 1);
    this.spaces();
    if (this.char !== closing) {
      if (this.char === undefined)
        refuse({
          code: 'bracket',
          column: from + 1,
          message: `The '${bracket}' is never closed.`,
          expected: closing,
          cure: `Add the missing '${closing}'.`,
        });
      if (')]}'.includes(this.char!))
        refuse({
          code: 'bracket',
          column: this.at + 1,
          message: `'${bracket}' is closed by '${this.char}'.`,
          expected: closing,
          cure: `Write '${closing}' here.`,
        });
      this.unexpected();
    }
    this.at += 1;
    return { kind: 'group', bracket, parts, count: this.count('subscript') ?? single };
  }

  private digits(): Decimal | undefined {
    const from = this.at;
    if (this.char !== undefined && this.char in vulgar) return exact(vulgar[this.text[this.at++]!]!);
    while (isDigit(this.char)) this.at += 1;
    if (this.at > from && this.at - from < 4 && this.char !== undefined && this.char in vulgar)
      return exact(this.text.slice(from, this.at)).plus(vulgar[this.text[this.at++]!]!);
    if (this.at > from + 1 && this.text[from] === '0')
      refuse({
        code: 'zero-count',
        column: from + 1,
        message: 'A count does not begin with 0.',
        expected: 'the letter O, or a number above 0',
        cure: 'Write the letter O for oxygen, if that is meant.',
      });
    if (this.at > from && this.char === '.' && !this.adductStops.has(this.at) && isDigit(this.text[this.at + 1])) {
      this.at += 1;
      while (isDigit(this.char)) this.at += 1;
    }
    if (this.at === from) return undefined;
    if (this.at - from > 24)
      refuse({
        code: 'count-too-large',
        column: from + 1,
        message: 'That count is too long to mean anything.',
        expected: 'a number up to 1000000',
        cure: 'Write a count that a formula can have.',
      });
    const value = exact(this.text.slice(from, this.at));
    if (value.gt(largestCount))
      refuse({
        code: 'count-too-large',
        column: from + 1,
        message: 'That count is too large.',
        expected: 'a number up to 1000000',
        cure: 'Write a count that a formula can have.',
      });
    return value;
  }

  /** A count after a symbol or bracket, or the number before a part. */
  private count(where: 'subscript' | 'multiplier'): Count | undefined {
    const from = this.at;
    const letterHere = (): string | undefined => {
      const char = this.char;
      if (char === undefined || !unknowns.has(char)) return undefined;
      return where === 'multiplier' &&
        !(
          isCapital(this.text[this.at + 1]) ||
          (this.text[this.at + 1] ?? '') in brackets ||
          this.text[this.at + 1] === ' '
        )
        ? undefined
        : char;
    };
    const letter = letterHere();
    if (letter) {
      this.at += 1;
      return { low: zero, high: zero, unknown: { [letter]: one } };
    }
    const first = this.digits();
    if (first === undefined) return undefined;
    if (this.char === '/' && isDigit(this.text[this.at + 1])) {
      this.at += 1;
      const below = this.digits()!;
      if (below.isZero())
        refuse({
          code: 'zero-count',
          column: from + 1,
          message: 'A fraction cannot have 0 below its line.',
          expected: 'a number above 0',
          cure: 'Write a count above 0.',
        });
      const value = first.div(below);
      return { low: value, high: value, fraction: `${first}/${below}` };
    }
    const sign = this.char;
    const next = this.text[this.at + 1];
    if (sign === '-' && isDigit(next)) {
      this.at += 1;
      const last = this.digits()!;
      if (last.lte(first))
        refuse({
          code: 'range',
          column: from + 1,
          message: `The range ${first}-${last} does not rise.`,
          expected: 'the smaller number first',
          cure: `Write ${last}-${first}, or one number.`,
        });
      return { low: first, high: last };
    }
    if ((sign === '-' || sign === '+') && next !== undefined && unknowns.has(next)) {
      this.at += 2;
      return { low: first, high: first, unknown: { [next]: sign === '-' ? exact(-1) : one } };
    }
    const following = letterHere();
    if (following) {
      this.at += 1;
      return { low: zero, high: zero, unknown: { [following]: first } };
    }
    if (first.isZero())
      refuse({
        code: 'zero-count',
        column: from + 1,
        message: 'A count of 0 leaves nothing there.',
        expected: 'a number above 0',
        cure: 'Leave the element away, write its count, or the letter O if oxygen is meant.',
      });
    return { low: first, high: first };
  }
}

/**
 * Reads a chemical formula: brackets ( ) [ ] { }, hydrates and adducts with `·`, `*` or `.`, decimal counts, ranges,
 * unknown counts n, x, y, z, charges (`readCharge`), states (s) (l) (g) (aq), Unicode sub- and superscripts, HTML and TeX;
 * water of crystallisation also after a space, comma or x (`Al2(SO4)3 x 18 H2O`), and a phase before it all (`α-FeO(OH)`).
 * Errors: a fault with its column: `unknown-element`, `bracket`, `isotope`, `ambiguous-charge`, `solid-solution`, …
 * @example parseFormula('CuSO4·5H2O')
 */
export function parseFormula(written: string): Outcome<Formula> {
  const trimmed = written.trim();
  const offset = written.length - written.trimStart().length;
  if (trimmed === '')
    return bad({
      code: 'empty',
      column: 1,
      message: 'There is no formula.',
      expected: 'a formula such as CuSO4·5H2O',
      cure: 'Write a formula.',
    });
  if (trimmed.length > longest)
    return bad({
      code: 'too-long',
      column: longest + 1,
      message: `A formula of ${trimmed.length} characters is too long.`,
      expected: `at most ${longest} characters`,
      cure: 'Shorten the formula.',
    });
  const markup = withoutMarkup(trimmed);
  const source = markup ? markup.text.trim() : trimmed;
  const shift = markup ? markup.text.length - markup.text.trimStart().length : 0;
  /** A column of the plain text as one of what was written. */
  const place = (column: number): number =>
    offset + (markup ? markup.places[Math.min(column - 1 + shift, markup.text.length)]! + 1 : column);
  try {
    // A phase before it is no part of the composition: α-FeO(OH).
    const phase = /^[α-ω]-(?=[A-Z([])/u.exec(source)?.[0].length ?? 0;
    let text = ' '.repeat(phase) + plain(source.slice(phase));
    const stateHere = /\s*(?:\((s|l|g|aq|cr)\)|([↑↓]))$/.exec(text);
    const state = stateHere && stateHere.index > phase ? states[(stateHere[1] ?? stateHere[2])!] : undefined;
    if (state) text = text.slice(0, stateHere!.index);
    if (/^e\s?(?:\^?-|⁻|\^\{-\})$/.test(text))
      return good({ written: trimmed, parts: [], charge: -1, state, doubts: [] });
    const { body: charged, charge, doubt } = readCharge(text.trimEnd(), source);
    const body = waterDotted(charged);
    const dash = dashed.exec(body);
    const dotted = dash ? `${body.slice(0, dash.index)}·${body.slice(dash.index + 1)}` : body;
    const stops = readStops(dotted);
    const parts = new Reader(dotted, stops.adduct).read();
    const doubts: Fault[] = doubt ? [{ ...doubt, column: place(doubt.column!) }] : [];
    if (dash) {
      doubts.push({
        code: 'dash',
        column: place(dash.index + 1),
        message: `The dash before the water in '${trimmed}' is read as the dot of a hydrate; it could also be that of a range.`,
        expected: '· for a hydrate',
        cure: 'Write · (or *) for the dot of a hydrate.',
      });
    }
    for (const at of stops.doubtful)
      doubts.push({
        code: 'full-stop',
        column: place(at + 1),
        message: `The full stop in '${trimmed}' is read as the dot of an adduct; it could also be a decimal point.`,
        expected: '· for an adduct',
        cure: 'Write · (or *) for the dot of an adduct; then every full stop is a decimal point.',
      });
    return good({ written: trimmed, parts, charge, ...(state && { state }), doubts });
  } catch (error) {
    if (!(error instanceof Misread)) throw error;
    return bad({ ...error.fault, ...(error.fault.column !== undefined && { column: place(error.fault.column) }) });
  }
}

/** A count as it is printed: nothing for 1, `8-10`, `1-x`. */
export const countText = (count: Count): string => {
  if (count.fraction) return count.fraction;
  const letters = Object.entries(count.unknown ?? {});
  if (letters.length === 0)
    return count.low.eq(count.high) ? (count.low.eq(1) ? '' : count.low.toString()) : `${count.low}-${count.high}`;
  const [letter, factor] = letters[0]!;
  const fixed = count.low.isZero() ? '' : `${count.low}${factor.isNegative() ? '' : '+'}`;
  return `${fixed}${factor.eq(1) ? '' : factor.eq(-1) ? '-' : factor.toString()}${letter}`;
};

const nodesText = (nodes: readonly FormulaNode[]): string =>
  nodes
    .map((node) =>
      node.kind === 'atom'
        ? `${node.symbol}${countText(node.count)}`
        : `${node.bracket}${partsText(node.parts)}${brackets[node.bracket]}${countText(node.count)}`,
    )
    .join('');
const partsText = (parts: readonly FormulaPart[]): string =>
  parts.map((part) => `${countText(part.multiplier)}${nodesText(part.nodes)}`).join('·');

/** Charge as text: 2−3 is never written, `^2-`, `^+`. @example chargeText(-2) // '^2-' */
export const chargeText = (charge: number): string =>
  charge === 0 ? '' : `^${Math.abs(charge) === 1 ? '' : Math.abs(charge)}${charge < 0 ? '-' : '+'}`;

/** The formula in its one plain spelling: `·` for adducts, `^2-` for charges. @example printFormula(f) // 'CuSO4·5H2O' */
export const printFormula = (formula: Formula): string =>
  isElectron(formula) ? 'e^-' : `${partsText(formula.parts)}${chargeText(formula.charge)}`;

export const isElectron = (formula: Formula): boolean => formula.parts.length === 0;

const multiplied = (a: Count, b: Count): Count => {
  const unknown: Record<string, Decimal> = {};
  for (const [letter, factor] of Object.entries(a.unknown ?? {})) unknown[letter] = factor.times(b.low);
  for (const [letter, factor] of Object.entries(b.unknown ?? {}))
    unknown[letter] = (unknown[letter] ?? zero).plus(factor.times(a.low));
  return { low: a.low.times(b.low), high: a.high.times(b.high), ...(Object.keys(unknown).length > 0 && { unknown }) };
};
const added = (a: Count, b: Count): Count => {
  const unknown: Record<string, Decimal> = { ...a.unknown };
  for (const [letter, factor] of Object.entries(b.unknown ?? {}))
    unknown[letter] = (unknown[letter] ?? zero).plus(factor);
  return { low: a.low.plus(b.low), high: a.high.plus(b.high), ...(Object.keys(unknown).length > 0 && { unknown }) };
};

/** Puts values in the place of unknown counts. */
const substituted = (count: Count, given: Readonly<Record<string, Decimal>>): Count => {
  if (!count.unknown) return count;
  let { low, high } = count;
  const open: Record<string, Decimal> = {};
  for (const [letter, factor] of Object.entries(count.unknown)) {
    const value = given[letter];
    if (value) {
      low = low.plus(factor.times(value));
      high = high.plus(factor.times(value));
    } else open[letter] = factor;
  }
  return { low, high, ...(Object.keys(open).length > 0 && { unknown: open }) };
};

function gather(
  parts: readonly FormulaPart[],
  factor: Count,
  into: Map<string, Count>,
  given: Readonly<Record<string, Decimal>>,
): void {
  for (const part of parts) {
    const times = multiplied(factor, substituted(part.multiplier, given));
    for (const node of part.nodes) {
      const here = multiplied(times, substituted(node.count, given));
      if (node.kind === 'group') gather(node.parts, here, into, given);
      else into.set(node.symbol, into.has(node.symbol) ? added(into.get(node.symbol)!, here) : here);
    }
  }
}

/**
 * How many atoms of each element.
 * @param given values for unknown counts, `{ x: exact(5) }`
 * @example composition(f).get('O')?.low.toString() // '9' for CuSO4·5H2O
 */
export function composition(formula: Formula, given?: Readonly<Record<string, Decimal>>): Composition {
  if (given) return count(formula, given);
  let atoms = counted.get(formula);
  if (!atoms) counted.set(formula, (atoms = count(formula, {})));
  return atoms;
}

const counted = new WeakMap<Formula, Composition>();

function count(formula: Formula, given: Readonly<Record<string, Decimal>>): Composition {
  const into = new Map<string, Count>();
  gather(formula.parts, single, into, given);
  return into;
}

/** Letters that stand for counts nobody has given. @example unknownCounts(f) // ['x'] for KFe[Fe(CN)6]·xH2O */
export const unknownCounts = (formula: Formula, given: Readonly<Record<string, Decimal>> = {}): readonly string[] => [
  ...new Set([...composition(formula, given).values()].flatMap((count) => Object.keys(count.unknown ?? {}))),
];

/** Hill order: carbon, hydrogen, then the alphabet; without carbon the alphabet alone. @example hillFormula(f) // 'CuH10O9S' */
export function hillFormula(formula: Formula, given: Readonly<Record<string, Decimal>> = {}): string {
  const atoms = composition(formula, given);
  const first = atoms.has('C') ? ['C', 'H'] : [];
  const rank = (symbol: string): string => (first.includes(symbol) ? `0${first.indexOf(symbol)}` : `1${symbol}`);
  return [...atoms]
    .sort(([a], [b]) => (rank(a) < rank(b) ? -1 : 1))
    .map(([symbol, count]) => `${symbol}${countText(count)}`)
    .join('');
}

/** A molar mass in g/mol: one value with its standard uncertainty, or the ends of a range. */
export interface MolarMass {
  readonly low: Decimal;
  readonly high: Decimal;
  /** Middle of the range, with the contributions of the atomic weights (inputs `Ar:Cu`) and of the range (`range:…`). */
  readonly middle: UncertainDecimal;
  /** Standard uncertainty (k = 1). */
  readonly uncertainty: Decimal;
  readonly ranged: boolean;
}

export interface MolarMassChoice {
  readonly given?: Readonly<Record<string, Decimal>>;
  /** `abridged` (default) or the full 2021 values, conventional for the elements whose weight is an interval. */
  readonly weights?: 'abridged' | 'standard';
}

/**
 * Molar mass in g/mol with its standard uncertainty: M = Σ n·Ar; n atoms of one element are fully correlated,
 * elements are independent; the stated ± of an abridged weight is read as a rectangle (u = U/√3).
 * Errors: `unknown-count` where a count is a letter without value, `no-standard-weight` for technetium and the like,
 * `no-mass` for an electron.
 * Source: Prohaska et al., Pure Appl. Chem. 94 (2022) 573.
 * @example molarMass(f) // value.low 249.677 for CuSO4·5H2O
 */
export function molarMass(formula: Formula, choice: MolarMassChoice = {}): Outcome<MolarMass> {
  if (choice.given || choice.weights === 'standard') return weigh(formula, choice);
  let mass = weighed.get(formula);
  if (!mass) weighed.set(formula, (mass = weigh(formula, choice)));
  return mass;
}

const weighed = new WeakMap<Formula, Outcome<MolarMass>>();

function weigh(formula: Formula, { given = {}, weights = 'abridged' }: MolarMassChoice): Outcome<MolarMass> {
  if (isElectron(formula))
    return good({
      low: zero,
      high: zero,
      middle: withoutUncertainty(0),
      uncertainty: new UncertaintyDecimal(0),
      ranged: false,
    });
  const known = elements();
  let low = zero;
  let high = zero;
  let total = withoutUncertainty(0);
  const open: Record<string, Decimal> = {};
  for (const [symbol, count] of composition(formula, given)) {
    const element = known.get(symbol)!;
    const weight = weights === 'abridged' ? element.weight : element.standardWeight;
    if (!weight) {
      return bad({
        code: 'no-standard-weight',
        column: formula.written.indexOf(symbol) + 1,
        message: `${element.name[0]!.toUpperCase()}${element.name.slice(1)} (${symbol}) has no standard atomic weight.`,
        expected: 'elements with a standard atomic weight',
        cure: symbol === 'Ac' ? 'Write CH3COO, if acetate is meant.' : 'Leave the element out.',
      });
    }
    for (const [letter, factor] of Object.entries(count.unknown ?? {}))
      open[letter] = (open[letter] ?? zero).plus(factor.times(weight));
    const uncertainty = weights === 'abridged' ? rectangular(element.halfWidth!) : element.standardWeightUncertainty!;
    low = low.plus(weight.times(count.low));
    high = high.plus(weight.times(count.high));
    total = plus(
      total,
      scaled(withUncertainty(weight, uncertainty, `Ar:${symbol}`), count.low.plus(count.high).div(2)),
    );
  }
  const letters = Object.keys(open);
  if (letters.length > 0) {
    const linear = [low.isZero() ? '' : low.toString(), ...letters.map((letter) => `${open[letter]} ${letter}`)]
      .filter((text) => text !== '')
      .join(' + ')
      .replaceAll('+ -', '- ');
    return bad({
      code: 'unknown-count',
      column: Math.max(0, formula.written.indexOf(letters[0]!)) + 1,
      message: `The molar mass of ${formula.written} depends on ${letters.join(' and ')}: ${linear} g/mol.`,
      expected: `a value for ${letters.join(' and ')}`,
      cure: `Write a number in the place of ${letters.join(' and ')}.`,
    });
  }
  if (low.lte(0))
    return bad({
      code: 'zero-count',
      column: 1,
      message: `${formula.written} would weigh nothing.`,
      expected: 'counts above 0',
      cure: 'Give counts that leave something of each element.',
    });
  const ranged = !low.eq(high);
  const middle = ranged
    ? plus(total, withUncertainty(zero, rectangular(high.minus(low).div(2)), `range:${printFormula(formula)}`))
    : total;
  return good({ low, high, middle, uncertainty: standardUncertainty(middle), ranged });
}

/** Share of each element by mass, 0 to 1, at the middle of a range; an unknown count must have been given. */
export function massFractions(formula: Formula, choice: MolarMassChoice = {}): Outcome<ReadonlyMap<string, Decimal>> {
  const mass = molarMass(formula, choice);
  if (!mass.ok) return mass;
  const known = elements();
  return good(
    new Map(
      [...composition(formula, choice.given)].map(([symbol, count]): [string, Decimal] => [
        symbol,
        known.get(symbol)!.weight!.times(count.low.plus(count.high).div(2)).div(mass.value.middle.value),
      ]),
    ),
  );
}
