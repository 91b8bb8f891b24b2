// The reader of formulae proper: one pass over plain text, no backtracking; the text's length is bounded before it
// starts.
import { elements } from '../atomic-weights.js';
import { exact, one, zero, type Decimal } from '../exact.js';
import { isCapital, isDigit, isSmall, superscripts, unknownLetters, vulgarFractions } from './characters.js';
import { refuse } from './misread.js';
import {
  closingBracket,
  exactly,
  single,
  type Atom,
  type Bracket,
  type Count,
  type FormulaNode,
  type FormulaPart,
  type Group,
} from './model.js';

const deepestNesting = 24;
const largestCount = exact('1e6');
const longestNumber = 24;

/** Short names of groups that chemists write for formulae of their own. */
const abbreviatedGroups: Readonly<Record<string, string>> = { Me: 'CH3', Et: 'C2H5', Ph: 'C6H5' };

const isBracket = (char: string | undefined): char is Bracket => char === '(' || char === '[' || char === '{';
const isClosing = (char: string | undefined): boolean => char === ')' || char === ']' || char === '}';
const isUnknown = (char: string | undefined): char is string => char !== undefined && unknownLetters.has(char);

/** The symbol with its capital, if there is such an element: `cu` is Cu. */
function elementSpelled(letters: string): string | undefined {
  const known = elements();
  return [letters, letters[0]!].map((text) => text[0]!.toUpperCase() + text.slice(1)).find((text) => known.has(text));
}

export class Reader {
  private at = 0;
  /** @param adductStops positions of the full stops that are the dot of an adduct */
  constructor(
    private readonly text: string,
    private readonly adductStops: ReadonlySet<number>,
  ) {}

  read(): readonly FormulaPart[] {
    const parts = this.parts(0);
    if (this.at < this.text.length) this.refuseWhatStandsHere();
    return parts;
  }

  private get char(): string | undefined {
    return this.text[this.at];
  }
  private get next(): string | undefined {
    return this.text[this.at + 1];
  }
  private skipSpaces(): void {
    while (this.char === ' ') this.at += 1;
  }
  private isDot(at: number): boolean {
    return this.text[at] === '·' || this.adductStops.has(at);
  }

  private parts(depth: number): readonly FormulaPart[] {
    const parts: FormulaPart[] = [];
    for (;;) {
      this.skipSpaces();
      parts.push(this.part(depth));
      const end = this.at;
      this.skipSpaces();
      if (!this.isDot(this.at)) {
        this.at = end;
        return parts;
      }
      this.at += 1;
    }
  }

  private part(depth: number): FormulaPart {
    const multiplier = this.multiplier();
    this.skipSpaces();
    const from = this.at;
    const nodes = this.nodes(depth);
    if (nodes.length === 0) this.refuseWhatStandsHere();
    this.refuseZeroForOxygen(from);
    return { multiplier: multiplier ?? single, nodes };
  }

  private nodes(depth: number): readonly FormulaNode[] {
    const nodes: FormulaNode[] = [];
    for (;;) {
      if (isCapital(this.char)) nodes.push(this.atom());
      else if (isBracket(this.char)) nodes.push(this.group(depth));
      else return nodes;
    }
  }

  private atom(): Atom {
    return { kind: 'atom', symbol: this.symbol(), count: this.subscript() ?? single };
  }

  private symbol(): string {
    const from = this.at;
    const known = elements();
    const pair = this.text.slice(from, from + 2);
    const letter = this.text[from]!;
    const small = isSmall(pair[1]);
    if (small && known.has(pair)) this.at += 2;
    else if (letter === 'D' || letter === 'T') this.refuseIsotope(from + 1);
    else if (known.has(letter) && (!small || isUnknown(pair[1]))) this.at += 1;
    else this.refuseElement(small ? pair : letter);
    if (letter === 'C' && !small && this.char === 'U' && !isSmall(this.next))
      refuse({
        code: 'capitals',
        column: from + 1,
        message: "'CU' would be carbon and uranium.",
        expected: 'Cu',
        cure: 'Write Cu for copper, and UC for the carbide.',
      });
    return this.text.slice(from, this.at);
  }

  private group(depth: number): Group {
    const from = this.at;
    const bracket = this.char as Bracket;
    if (depth >= deepestNesting)
      refuse({
        code: 'too-deep',
        column: from + 1,
        message: `Brackets are nested more than ${deepestNesting} deep.`,
        expected: 'fewer brackets',
        cure: 'Take away brackets that are not needed.',
      });
    this.refuseBracketedNumber(bracket);
    this.at += 1;
    const parts = this.parts(depth + 1);
    this.skipSpaces();
    const alternatives = this.char === ',' ? this.alternatives(parts, depth + 1) : undefined;
    this.closeBracket(bracket, from);
    const known = alternatives && withKnownShares(alternatives);
    return {
      kind: 'group',
      bracket,
      parts: known ?? alternatives ?? parts,
      count: this.subscript() ?? single,
      ...(alternatives && !known && { alternatives: true as const }),
    };
  }

  /** What shares one place: `(Zn,Mn)`; `first` was read already. */
  private alternatives(first: readonly FormulaPart[], depth: number): readonly FormulaPart[] {
    const parts = [...first];
    if (first.length > 1) this.refuseWhatStandsHere();
    while (this.char === ',') {
      this.at += 1;
      this.skipSpaces();
      parts.push(this.part(depth));
      this.skipSpaces();
    }
    if (parts.some(isExplicit) && !parts.every(isExplicit)) this.refuseHalfStatedShares();
    return parts;
  }

  private refuseHalfStatedShares(): never {
    return refuse({
      code: 'solid-solution',
      column: this.at + 1,
      message: 'Some of what shares this place has a stated share and some has none.',
      expected: 'a share for each, or for none',
      cure: 'Give each its share, e.g. (Zn0.9,Mn0.1)O, or leave all of them open: (Zn,Mn)O.',
    });
  }

  private closeBracket(bracket: Bracket, from: number): void {
    const closing = closingBracket[bracket];
    if (this.char === undefined)
      refuse({
        code: 'bracket',
        column: from + 1,
        message: `The '${bracket}' is never closed.`,
        expected: closing,
        cure: `Add the missing '${closing}'.`,
      });
    if (this.char !== closing && isClosing(this.char))
      refuse({
        code: 'bracket',
        column: this.at + 1,
        message: `'${bracket}' is closed by '${this.char}'.`,
        expected: closing,
        cure: `Write '${closing}' here.`,
      });
    if (this.char !== closing) this.refuseWhatStandsHere();
    this.at += 1;
  }

  /** A number as it stands: `5`, `1.97`, `½`, `2½`. */
  private digits(): Decimal | undefined {
    const from = this.at;
    while (isDigit(this.char)) this.at += 1;
    const whole = this.text.slice(from, this.at);
    if (whole.length > 1 && whole.startsWith('0')) this.refuseZero(from, 'zero-count');
    const half = whole.length < 4 ? this.vulgarFraction() : undefined;
    if (half) return half.plus(whole === '' ? 0 : whole);
    if (whole === '') return undefined;
    if (this.char === '.' && !this.adductStops.has(this.at) && isDigit(this.next)) {
      this.at += 1;
      while (isDigit(this.char)) this.at += 1;
    }
    return this.boundedCount(from);
  }

  /** `½`, `¼`, `¾`. */
  private vulgarFraction(): Decimal | undefined {
    if (this.char === undefined || !Object.hasOwn(vulgarFractions, this.char)) return undefined;
    this.at += 1;
    return exact(vulgarFractions[this.text[this.at - 1]!]!);
  }

  private boundedCount(from: number): Decimal {
    const tooLong = this.at - from > longestNumber;
    const value = tooLong ? largestCount : exact(this.text.slice(from, this.at));
    if (tooLong || value.gt(largestCount))
      refuse({
        code: 'count-too-large',
        column: from + 1,
        message: tooLong ? 'That count is too long to mean anything.' : 'That count is too large.',
        expected: 'a number up to 1000000',
        cure: 'Write a count that a formula can have.',
      });
    return value;
  }

  /** A count after a symbol or bracket. */
  private subscript(): Count | undefined {
    return this.count(() => isUnknown(this.char));
  }

  /** The number before a part; a letter is one only before what it can multiply. */
  private multiplier(): Count | undefined {
    return this.count(
      () => isUnknown(this.char) && (isCapital(this.next) || isBracket(this.next) || this.next === ' '),
    );
  }

  private count(letterIsCount: () => boolean): Count | undefined {
    if (letterIsCount()) return this.letterCount(one);
    const from = this.at;
    const first = this.digits();
    if (first === undefined) return undefined;
    if (this.char === '/' && isDigit(this.next)) return this.fraction(first);
    if (this.char === '-' && isDigit(this.next)) return this.range(first, from);
    if ((this.char === '-' || this.char === '+') && isUnknown(this.next)) return this.sum(first);
    if (letterIsCount()) return this.letterCount(first);
    if (first.isZero())
      refuse({
        code: 'zero-count',
        column: from + 1,
        message: 'A count of 0 leaves nothing there.',
        expected: 'a number above 0',
        cure: 'Leave the element away, write its count, or the letter O if oxygen is meant.',
      });
    return exactly(first);
  }

  /** `x`, `2x`, `2x/3`. */
  private letterCount(factor: Decimal): Count {
    const letter = this.takeLetter();
    if (this.char !== '/' || !isDigit(this.next)) return { low: zero, high: zero, unknown: { [letter]: factor } };
    const below = this.divisor();
    const fraction = `${factor.eq(1) ? '' : factor}${letter}/${below}`;
    return { low: zero, high: zero, unknown: { [letter]: factor.div(below) }, fraction };
  }

  private takeLetter(): string {
    this.at += 1;
    return this.text[this.at - 1]!;
  }

  private fraction(above: Decimal): Count {
    const below = this.divisor();
    return { ...exactly(above.div(below)), fraction: `${above}/${below}` };
  }

  /** What stands below the line of a fraction. */
  private divisor(): Decimal {
    const from = this.at;
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
    return below;
  }

  private range(first: Decimal, from: number): Count {
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

  /** `1-x`, `2+x`, `1-x-y`. */
  private sum(first: Decimal): Count {
    const unknown: Record<string, Decimal> = {};
    while ((this.char === '-' || this.char === '+') && isUnknown(this.next)) {
      const sign = this.char === '-' ? -1 : 1;
      this.at += 1;
      const letter = this.takeLetter();
      unknown[letter] = (unknown[letter] ?? zero).plus(sign);
    }
    return { ...exactly(first), unknown };
  }

  /**
   * `5H20`, `[Cu(H20)6]`: hydrogen alone, twenty of it, is water with the digit 0 for the letter O; `Fe203`, `Na2B407`:
   * an element at the end, two hundred and three of it, is an oxide.
   */
  private refuseZeroForOxygen(from: number): void {
    const part = this.text.slice(from, this.at);
    const water = /^H20(?:2?)$/.test(part) ? from + 2 : undefined;
    const oxide = /(?<=[A-Za-z])(?<!H)[1-9]0[1-9]$/.test(part) ? this.at - 2 : undefined;
    const zero = water ?? oxide;
    if (zero !== undefined) this.refuseZero(zero, 'zero-for-oxygen');
  }

  private refuseZero(at: number, code: 'zero-count' | 'zero-for-oxygen'): never {
    const withOxygen = `${this.text.slice(0, at)}O${this.text.slice(at + 1)}`.trim();
    return refuse({
      code,
      column: at + 1,
      message:
        code === 'zero-count'
          ? 'A count does not begin with 0.'
          : `The digit 0 stands where the letter O, oxygen, would be expected.`,
      expected: 'the letter O, or a number above 0',
      cure: `Write the letter O for oxygen, if that is meant: ${withOxygen}.`,
      correction: withOxygen,
    });
  }

  private refuseIsotope(column: number): never {
    return refuse({
      code: 'isotope',
      column,
      message: 'Isotopes are not reckoned here.',
      expected: 'elements in their natural mixture',
      cure: 'Write H for D and T, and leave mass numbers away.',
    });
  }

  private refuseElement(wrong: string): never {
    const known = elements();
    const group = abbreviatedGroups[wrong];
    const twoElements = known.has(wrong[0]! + (wrong[1] ?? '').toUpperCase());
    return refuse({
      code: 'unknown-element',
      column: this.at + 1,
      message: `There is no element '${wrong}'.`,
      expected: 'an element symbol',
      cure: group
        ? `Write ${group} for ${wrong}.`
        : `Write a symbol of the periodic table${twoElements ? '' : ', capital first'}.`,
    });
  }

  /** `[13C]` is an isotope and `(III)` an oxidation state; neither is part of a composition. */
  private refuseBracketedNumber(bracket: Bracket): void {
    const inside = this.text.slice(this.at + 1, this.at + 9);
    if (bracket === '[' && /^\d+[A-Z][a-z]?\]/.test(inside)) this.refuseIsotope(this.at + 2);
    const roman = bracket === '(' && this.at > 0 ? /^(I{1,3}|IV|VI{0,3})\)(?![\d₀-₉])/.exec(inside) : null;
    if (roman)
      refuse({
        code: 'oxidation-state',
        column: this.at + 1,
        message: `(${roman[1]}) is an oxidation state, which is no part of a formula.`,
        expected: 'an element symbol',
        cure: 'Leave it out; the charge of an ion is written like ^3+.',
      });
  }

  /** Says what is wrong with a character that cannot stand where it stands. */
  private refuseWhatStandsHere(): never {
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
    if (this.isIsotopeNumber(char)) return this.refuseIsotope(column);
    if (isSmall(char)) return this.refuseSmallLetter(char, column);
    const known = refusedCharacters.find(({ chars, before }) => chars.includes(char) && (!before || before(this.next)));
    if (known)
      return refuse({
        code: known.code,
        column,
        message: known.message(char),
        expected: known.expected ?? 'an element symbol',
        cure: known.cure(this.text),
      });
    return refuse({
      code: 'unexpected',
      column,
      message: `'${char}' does not belong in a formula.`,
      expected: 'an element symbol, a bracket, a number or a dot',
      cure: 'Take it away, or write what it stands for.',
    });
  }

  private isIsotopeNumber(char: string): boolean {
    if (superscripts.includes(char)) return true;
    if (char !== '^') return false;
    const afterDigits = /[^\d]/.exec(this.text.slice(this.at + 1))?.[0];
    return this.at === 0 || (isDigit(this.next) && isCapital(afterDigits));
  }

  private refuseSmallLetter(char: string, column: number): never {
    const meant = elementSpelled(this.text.slice(this.at, this.at + 2));
    return refuse({
      code: 'small-letter',
      column,
      message: `An element symbol begins with a capital, not with '${char}'.`,
      expected: meant ?? 'an element symbol',
      cure: meant ? `Write ${meant}, if that is meant.` : 'Write the element symbol with a capital.',
    });
  }
}

interface RefusedCharacter {
  readonly chars: string;
  /** Only where this holds of the next character. */
  readonly before?: (next: string | undefined) => boolean;
  readonly code: string;
  readonly message: (char: string) => string;
  readonly expected?: string;
  readonly cure: (text: string) => string;
}

const refusedCharacters: readonly RefusedCharacter[] = [
  {
    chars: ')]}',
    code: 'bracket',
    message: (char) => `There is a closing '${char}' with no opening one.`,
    cure: () => 'Add the opening bracket or take this one away.',
  },
  {
    chars: ',',
    code: 'solid-solution',
    message: () => 'A comma outside brackets does not say what shares a place with what.',
    expected: 'brackets around the elements that share a place',
    cure: () => 'Write e.g. (Zn,Mn)O, or give each element its share: Zn0.9Mn0.1O.',
  },
  {
    chars: '-',
    before: isCapital,
    code: 'bond',
    message: () => 'A dash for a bond is not read.',
    cure: (text) => `Leave bonds out: ${text.replace(/-(?=[A-Z])/g, '')}.`,
  },
  {
    chars: '^+-',
    code: 'charge-inside',
    message: () => 'A charge can only stand at the end of the formula.',
    cure: () => 'Put the charge of the whole ion at its end: SO4^2-.',
  },
  {
    chars: ' ',
    code: 'space',
    message: () => 'There is a space inside the formula.',
    cure: () => 'Write the formula without spaces; only around the dot of a hydrate may there be some.',
  },
];

const isExplicit = ({ multiplier, nodes }: FormulaPart): boolean =>
  multiplier === single && nodes.length === 1 && nodes[0]!.count !== single;

/**
 * `(Zn0.9,Mn0.1)` states the shares: one part, in which the commas mean nothing more; undefined where they are open.
 */
function withKnownShares(parts: readonly FormulaPart[]): readonly FormulaPart[] | undefined {
  return parts.every(isExplicit) ? [{ multiplier: single, nodes: parts.flatMap(({ nodes }) => nodes) }] : undefined;
}
