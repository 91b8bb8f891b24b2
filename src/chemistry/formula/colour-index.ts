// Colour Index names, which look like formulae: `PB27`.

/**
 * Whether a text is a Colour Index name that nobody means as a formula: a pigment's letters and a number from ten on.
 * @example isColourIndexName('PB27') // true
 */
export const isColourIndexName = (text: string): boolean =>
  /^P(?:B|Bk|Br|G|M|O|R|V|W|Y) ?[1-9]\d{1,2}(?::\d{1,2})?$/.test(text.trim());
