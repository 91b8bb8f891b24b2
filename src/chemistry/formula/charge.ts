// The charge at the end of an ion's formula: told from its count by how it is set, or by the table of ions.
import { ionsTable } from '../../tables/compiled/chemistry/ions/ions.js';
import { elements } from '../atomic-weights.js';
import { isDigit, isSubscript, superscripts } from './characters.js';
import { refuse } from './misread.js';
import type { FormulaDoubt } from './model.js';

/** A formula without its charge. */
export interface Uncharged {
  readonly body: string;
  readonly charge: number;
  /** The charge could be read in another way. */
  readonly doubt?: FormulaDoubt;
}

let listedCharges: ReadonlyMap<string, ReadonlySet<number>> | undefined;

/**
 * The table of ions holds this ion, written so or with brackets around a part.
 * @example isListedIon('SO4', -2) // true
 */
export function isListedIon(stem: string, charge: number): boolean {
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

const chargeOf = (digits: string, signs: string): number => {
  const size = digits === '' ? signs.length : Number(digits);
  return signs.startsWith('-') ? -size : size;
};

function possibleCharge(digits: string, signs: string, at: number): number {
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

const asDigits = (raised: string): string => [...raised].map((char) => superscripts.indexOf(char)).join('');
const asSigns = (raised: string): string => raised.replaceAll('⁺', '+').replaceAll('⁻', '-');

const cut = (text: string, at: number, digits: string, signs: string): Uncharged => ({
  body: text.slice(0, at),
  charge: possibleCharge(digits, signs, at),
});

/** `²⁻`, `²-`, `⁻`, and with the sign first `⁻²`. */
function raisedCharge(text: string): Uncharged | undefined {
  const raised = /([⁰¹²³⁴⁵⁶⁷⁸⁹]*)([⁺⁻]+)$/.exec(text) ?? /([⁰¹²³⁴⁵⁶⁷⁸⁹]+)([+-])$/.exec(text);
  if (raised) return cut(text, raised.index, asDigits(raised[1]!), asSigns(raised[2]!));
  const signFirst = /([⁺⁻])([⁰¹²³⁴⁵⁶⁷⁸⁹])$/.exec(text);
  return signFirst ? cut(text, signFirst.index, asDigits(signFirst[2]!), asSigns(signFirst[1]!)) : undefined;
}

/** `^2-`, `^-2`, `^{2-}`. */
function caretCharge(text: string): Uncharged | undefined {
  const caret = /\s*\^[{(]?(?:(\d*)(\++|-+)|([+-])(\d+))[})]?$/.exec(text);
  return caret ? cut(text, caret.index, caret[1] ?? caret[4] ?? '', caret[2] ?? caret[3]!) : undefined;
}

/** A number after a caret, or raised, at the end of the formula, with no sign. */
function refuseUnsignedCharge(text: string): void {
  const unsigned = /(?<=[A-Za-z)\]}\d])(?:\s*\^[{(]?(\d{1,2})[})]?|([⁰¹²³⁴⁵⁶⁷⁸⁹]{1,2}))$/.exec(text);
  if (!unsigned) return;
  const size = unsigned[1] ?? asDigits(unsigned[2]!);
  const stem = text.slice(0, unsigned.index);
  const metalAlone = elements().get(stem)?.kind === 'metal';
  const likely = ['+', '-'].filter((sign) => isListedIon(stem, chargeOf(size, sign)) || (metalAlone && sign === '+'));
  const signs = likely.length === 1 ? likely : ['+', '-'];
  refuse({
    code: 'charge-sign',
    column: unsigned.index + 1,
    message: `'${text}' does not say whether the charge is positive or negative.`,
    expected: 'a sign after the number of the charge',
    cure: `Write ${signs.map((sign) => `${stem}^${size === '1' ? '' : size}${sign}`).join(' or ')}.`,
  });
}

/** `(2-)`, `(-2)`. */
function bracketedCharge(text: string): Uncharged | undefined {
  const bracketed = /\((?:(\d*)([+-])|([+-])(\d))\)$/.exec(text);
  if (!bracketed || bracketed.index === 0) return undefined;
  return cut(text, bracketed.index, bracketed[1] ?? bracketed[4]!, bracketed[2] ?? bracketed[3]!);
}

/** ` 2-` after a space. */
function chargeAfterSpace(text: string): Uncharged | undefined {
  const apart = /\s+(\d?)(\++|-+)$/.exec(text);
  if (!apart || apart.index === 0) return undefined;
  const [, digits, signs] = apart as unknown as [string, string, string];
  const certain = digits !== '' || signs.length > 1;
  return certain || isListedIon(text.slice(0, apart.index), chargeOf('', signs))
    ? cut(text, apart.index, digits, signs)
    : undefined;
}

/** `+3`, `-2`: the sign before the digit. */
function signBeforeDigit(text: string): Uncharged | undefined {
  const after = /([+-])(\d)$/.exec(text);
  if (!after || after.index === 0) return undefined;
  const stem = text.slice(0, after.index);
  const charge = chargeOf(after[2]!, after[1]!);
  return charge > 0 || !isDigit(stem.at(-1)) || isListedIon(stem, charge)
    ? cut(text, after.index, after[2]!, after[1]!)
    : undefined;
}

/**
 * A sign on the line at the end: `MnO4-`, `Fe3+`, `SO42-`. The digits before it are count, charge or both; the table of
 * ions decides where only one reading is in it, and a metal alone carries its digit as charge.
 * @param raw the same text with its lowered digits
 */
function signOnTheLine(text: string, raw: string): Uncharged | undefined {
  const signed = /(\++|-+)$/.exec(text);
  if (!signed || signed.index === 0) return undefined;
  const signs = signed[1]!;
  const before = text.slice(0, signed.index);
  const digits = /\d*$/.exec(before)![0];
  if (digits === '' || signs.length > 1) return cut(text, signed.index, '', signs);
  const withoutLast = before.slice(0, -1);
  const lowered = isSubscript(raw[withoutLast.length - 1]) && !isSubscript(raw[withoutLast.length]);
  if (lowered || /[\]}]$/.test(withoutLast)) return cut(text, withoutLast.length, digits.slice(-1), signs);
  return digitsBeforeSign({ text, before, withoutLast, digits, signs });
}

interface SignedText {
  readonly text: string;
  /** Without the sign. */
  readonly before: string;
  /** Without sign and last digit. */
  readonly withoutLast: string;
  readonly digits: string;
  readonly signs: string;
}

function digitsBeforeSign({ text, before, withoutLast, digits, signs }: SignedText): Uncharged {
  const last = digits.slice(-1);
  const stem = before.slice(0, before.length - digits.length);
  const asCharge = isListedIon(withoutLast, chargeOf(last, signs));
  const asCount = isListedIon(before, chargeOf('', signs));
  if (asCharge && !asCount) return { body: withoutLast, charge: chargeOf(last, signs) };
  if (asCount && !asCharge) return { body: before, charge: chargeOf('', signs) };
  const element = elements().get(stem);
  if (element?.kind === 'metal' && signs === '+' && digits.length === 1) return { body: stem, charge: Number(digits) };
  if (element || asCharge) {
    const readings = `${withoutLast}^${last === '1' ? '' : last}${signs} or ${before}^${signs}`;
    return refuse({
      code: 'ambiguous-charge',
      column: stem.length + 1,
      message: `'${text}' can be read as ${readings}.`,
      expected: 'a charge after ^',
      cure: `Write the charge after a caret: ${readings}.`,
    });
  }
  return digits.length === 1 ? oneDigit(text, before, stem, signs) : severalDigits(text, withoutLast, stem, signs);
}

/** One digit and a sign: the digit is the count. A cation with a metal may have been meant otherwise. */
function oneDigit(text: string, before: string, stem: string, signs: string): Uncharged {
  const read = { body: before, charge: chargeOf('', signs) };
  if (signs !== '+' || !holdsMetal(stem) || /\((?:NH3|H2O|en)\)$/.test(stem)) return read;
  const digit = before.slice(-1);
  return {
    ...read,
    doubt: {
      code: 'charge',
      column: stem.length + 1,
      message: `'${text}' is read as ${before}^${signs}; it could also be ${stem}^${digit}${signs}.`,
      expected: 'a charge after ^',
      cure: 'Write the charge after a caret.',
    },
  };
}

/** Several digits and a sign: the last one is the charge, which is only taken so where the ion holds a metal. */
function severalDigits(text: string, withoutLast: string, stem: string, signs: string): Uncharged {
  const last = text[withoutLast.length]!;
  const split = `${withoutLast}^${last}${signs}`;
  if (!holdsMetal(stem) || last === '0')
    return refuse({
      code: 'ambiguous-charge',
      column: stem.length + 1,
      message: `'${text}' does not say where the count ends and the charge begins.`,
      expected: 'a charge after ^',
      cure: `Write ${split}, if that is meant.`,
    });
  return {
    ...cut(text, withoutLast.length, last, signs),
    doubt: {
      code: 'charge',
      column: withoutLast.length + 1,
      message: `'${text}' is read as ${split}.`,
      expected: 'a charge after ^',
      cure: `Write ${split}.`,
    },
  };
}

/**
 * Reads the charge off the end of a formula: `^2-`, `²⁻`, `(2-)`, ` 2-`, `2-` after ] or a lowered count, `--`, `+3`.
 * Digits that could be count or charge (`SO42-`, `I3-`, `S2-`) are told apart by the table of ions.
 * @param raw the same text with its lowered digits
 */
export function readCharge(text: string, raw: string): Uncharged {
  const marked = raisedCharge(text) ?? caretCharge(text);
  if (marked) return marked;
  refuseUnsignedCharge(text);
  return (
    bracketedCharge(text) ??
    chargeAfterSpace(text) ??
    signBeforeDigit(text) ??
    signOnTheLine(text, raw) ?? { body: text, charge: 0 }
  );
}
