// Which elements give a pigment its colour: as declared, else the transition and heavy elements of its formula.
import { composition, elements, parseFormula } from '../chemistry/index.js';
import type { Pigment } from '../journal/schema.js';

/** Alkali and alkaline earth metals, halogens and noble gases beyond calcium: heavy, but they give no colour. */
const colourless = new Set([35, 36, 37, 38, 53, 54, 55, 56, 85, 86, 87, 88]);

/**
 * Symbols of the colour-giving elements.
 * @example colourGivingElements({ name: 'malachite', formula: 'Cu2CO3(OH)2' }) // ['Cu']
 */
export function colourGivingElements(pigment: Pigment | undefined): readonly string[] {
  if (pigment?.elements) return pigment.elements;
  if (!pigment?.formula) return [];
  const formula = parseFormula(pigment.formula);
  if (!formula.ok) return [];
  return [...composition(formula.value).keys()].filter((symbol) => {
    const number = elements().get(symbol)?.number ?? 0;
    return number > 20 && !colourless.has(number);
  });
}

/**
 * The symbol of an element named by symbol or name, in any case; undefined where it is none.
 * @example elementSymbolOf('manganese') // 'Mn'
 */
export function elementSymbolOf(text: string): string | undefined {
  const wanted = text.trim().toLowerCase();
  return [...elements().values()].find(
    ({ symbol, name }) => symbol.toLowerCase() === wanted || name.toLowerCase() === wanted,
  )?.symbol;
}
