// Signs that look like others: what a phone, a word processor or a keyboard of another language puts in their place.

const beyondPlain = /[^ -~µ°]/;
const unseen = /[\u00ad\u200b-\u200f\u2060\ufeff]/g;
const hyphens = /[\u2010-\u2012\u2212\ufe63\uff0d]/g;
const fullWidth = /[\uff01-\uff5e]/g;
/** A full stop raised to the middle of the line; before a power of ten it multiplies. */
const raisedStop = /(?<=\d)[·⋅∙•](?=\d+(?![\d^⁻⁰¹²³⁴⁵⁶⁷⁸⁹]))/g;

const timesTen = /(?<=\d)\s?[·⋅∙•]\s?(?=10[\^⁻⁰¹²³⁴⁵⁶⁷⁸⁹])/g;

/**
 * A quantity or a date in plain signs: hyphens, full-width digits, `⁄`, `℃` and a decimal point in the middle of the
 * line as the usual ones, and nothing that is not seen.
 * @example plainSigns('7·49 g') // '7.49 g'
 */
export const plainSigns = (text: string): string =>
  beyondPlain.test(text)
    ? text
        .replace(unseen, '')
        .replace(hyphens, '-')
        .replace(fullWidth, (sign) => String.fromCodePoint(sign.codePointAt(0)! - 0xfee0))
        .replace(/[⁄∕]/g, '/')
        .replace(/℃/g, '°C')
        .replace(/℉/g, '°F')
        .replace(timesTen, '×')
        .replace(raisedStop, '.')
    : text;
