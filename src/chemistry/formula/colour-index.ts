// Colour Index names of pigments, which look like formulae: `PB27`.

/**
 * Whether a text is a Colour Index name of a pigment; of some it could as well be a formula (`PO4`).
 * @example isColourIndexName('PY3') // true
 */
export const isColourIndexName = (text: string): boolean =>
  /^P(?:B|Bk|Br|G|M|O|R|V|W|Y)\s?\d{1,3}(?::\d{1,2})?$/.test(text.trim());

/**
 * Whether it is one that nobody means as a formula: its number is ten or more.
 * @example isNoFormula('PB27') // true
 */
export const isNoFormula = (text: string): boolean => isColourIndexName(text) && /[1-9]\d/.test(text);
