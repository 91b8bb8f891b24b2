// Numbers with a comma: decimal in most of Europe, between thousands elsewhere. Told apart where only one can be meant.

const withComma = /\d[\d.,]*,\d[\d.,]*/g;

/** `5,3`, `0,500`, `1.234,5` have a decimal comma; `1,234.5` and `1,234,567` have thousands; `1,500` may be either. */
function plainNumber(number: string): string | undefined {
  const thousands = /^[1-9]\d{0,2}(?:,\d{3})+\.\d+$|^[1-9]\d{0,2}(?:,\d{3}){2,}$/.test(number);
  if (thousands) return number.replaceAll(',', '');
  if (/^[1-9]\d{0,2}(?:\.\d{3})+,\d+$/.test(number)) return number.replaceAll('.', '').replace(',', '.');
  const decimal = /^\d+,\d+$/.test(number) && (/^0,/.test(number) || !/,\d{3}$/.test(number));
  return decimal ? number.replace(',', '.') : undefined;
}

const either = /(?<![\d.,])([1-9]\d{0,2}),(\d{3})(?![\d.,])/;

/**
 * A number whose comma may be a decimal one or stand between thousands, by both readings; undefined where none does.
 * @example bothReadings('1,250 g') // { written: '1,250', decimal: '1.250', thousands: '1250' }
 */
export function bothReadings(
  written: string,
): { readonly written: string; readonly decimal: string; readonly thousands: string } | undefined {
  const [number, whole = '', rest = ''] = either.exec(written) ?? [];
  if (number === undefined) return undefined;
  return { written: number, decimal: `${whole}.${rest}`, thousands: `${whole}${rest}` };
}

/**
 * A quantity with its commas read, where each can mean one thing only; undefined where there are none, or where one
 * could mean either.
 * @example commasRead('5,3 g') // '5.3 g'
 */
export function commasRead(written: string): string | undefined {
  const numbers = written.match(withComma) ?? [];
  const plain = numbers.map(plainNumber);
  if (numbers.length === 0 || plain.includes(undefined)) return undefined;
  let at = -1;
  return written.replace(withComma, () => plain[(at += 1)]!);
}
