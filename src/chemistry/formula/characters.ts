// The characters that formulae are typed with: kinds of letters and digits, and those that are typed for one another.
const subscripts = '₀₁₂₃₄₅₆₇₈₉';
export const superscripts = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** Fractions of one character, each by its value. */
export const vulgarFractions: Readonly<Record<string, string>> = { '½': '0.5', '¼': '0.25', '¾': '0.75' };

/** Letters that stand for counts nobody has given. */
export const unknownLetters: ReadonlySet<string> = new Set(['n', 'x', 'y', 'z']);

const plainCharacters: ReadonlyMap<string, string> = new Map([
  ...[...subscripts].map((char, digit) => [char, String(digit)] as const),
  ...[...'·•∙⋅‧・･*∗×'].map((char) => [char, '·'] as const),
  ...[...'−–—‒﹣¯'].map((char) => [char, '-'] as const),
  ...[...'\u00a0\u2009\u202f'].map((char) => [char, ' '] as const),
  ['＋', '+'],
  ['₍', '('],
  ['₎', ')'],
]);

/** Each character by the plain one it is typed for, one for one, so that a column stays a column. */
export const plainSpelling = (text: string): string =>
  [...text].map((char) => plainCharacters.get(char) ?? char).join('');

export const isSubscript = (char: string | undefined): boolean => char !== undefined && subscripts.includes(char);
export const isDigit = (char: string | undefined): boolean => char !== undefined && char >= '0' && char <= '9';
export const isCapital = (char: string | undefined): boolean => char !== undefined && char >= 'A' && char <= 'Z';
export const isSmall = (char: string | undefined): boolean => char !== undefined && char >= 'a' && char <= 'z';
