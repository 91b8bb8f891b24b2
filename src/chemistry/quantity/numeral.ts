// Numbers as they are written: digits with spaces between thousands, powers of ten, and the place of the last digit.
import { exact, type Decimal } from '../exact.js';
import { superscripts } from '../formula/characters.js';

export interface Numeral {
  readonly value: Decimal;
  /** Place value of the last digit: 0.01 for 5.00. */
  readonly resolution: Decimal;
}

const mostDigits = 30;
const largestPower = 60;

/** Raised digits and the true minus as the plain ones. */
export const withPlainDigits = (text: string): string =>
  text
    .replace(/[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]/g, (char) => (char === '⁻' ? '-' : String(superscripts.indexOf(char))))
    .replaceAll('−', '-');

const shape =
  /^([+-]?)(\d+|\d{1,3}(?:[ \u00a0\u2009\u202f]\d{3})+)?(?:\.(\d+))?(?:\s?(?:[eE]|[×x]\s?10\^?)([+-]?\d{1,3}))?$/;

/**
 * Reads `5.00`, `1 000`, `3.30E-4`, `4.2×10^-3`; undefined where it is no number, has more than 30 digits or a power of
 * ten beyond 60.
 * @example numeral('5.00') // { value: 5, resolution: 0.01 }
 */
export function numeral(text: string): Numeral | undefined {
  const parts = shape.exec(withPlainDigits(text).trim());
  if (!parts || (parts[2] === undefined && parts[3] === undefined)) return undefined;
  const [, sign, wholeText = '0', decimals = '', powerText = '0'] = parts as unknown as [string, string, string];
  const whole = wholeText.replace(/\D/g, '');
  if (whole.length + decimals.length > mostDigits || Math.abs(Number(powerText)) > largestPower) return undefined;
  const power = exact(10).pow(Number(powerText));
  return {
    value: exact(`${sign}${whole}${decimals && `.${decimals}`}`).times(power),
    resolution: exact(10).pow(-decimals.length).times(power),
  };
}
