// What an amount that cannot be read is probably meant for: asked, and never read so.
import { commasRead, parseQuantity, rangesInSigns } from '../../chemistry/quantity/index.js';

/** A number, or two with a sign between them, and letters behind it. */
const withLetters = /^([~≈]?\s*\d[\d.,]*(?:\s*[-–±]\s*\d[\d.,]*)?)\s*([A-Za-zµ%°/]{2,12})\.?$/;

/** Every letter that stands there several times, once: `gg` is `g`. */
const squeezed = (letters: string): string => letters.replace(/(.)\1+/gi, '$1');

/**
 * The amount that was probably meant: with the unit that such an amount mostly has, a decimal point for its comma, a
 * unit whose letters were typed twice. Undefined where nothing can be told.
 * @param unit that such an amount mostly has
 * @param fits whether a text can stand there
 * @example amountMeant('3,2', 'g', () => true) // '3.2 g'
 */
export function amountMeant(written: string, unit: string, fits: (text: string) => boolean): string | undefined {
  const inSigns = rangesInSigns(written.trim());
  const plain = commasRead(inSigns) ?? inSigns;
  const [, number, letters] = withLetters.exec(plain) ?? [];
  const read = parseQuantity(plain);
  const near = read.ok ? undefined : read.fault.nearest;
  const candidates = [
    plain,
    `${plain} ${unit}`,
    ...(number === undefined || letters === undefined ? [] : [`${number} ${near ?? squeezed(letters)}`]),
  ];
  const meant = candidates.find((one) => parseQuantity(one).ok && fits(one));
  return meant === written.trim() ? undefined : meant;
}
