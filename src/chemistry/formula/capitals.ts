// Symbols of two letters as labels have them, in capitals: `COSO4`.
import { elements } from '../atomic-weights.js';

/**
 * Where two capitals side by side would be the symbol of an element that anybody has, were the second small.
 * @returns places of the first, from 0
 * @example placesOfCapitals('NaCO3') // [2], as of cobalt
 */
export const placesOfCapitals = (formula: string): readonly number[] =>
  [...formula.matchAll(/(?=([A-Z])([A-Z]))/g)]
    .filter(([, first = '', second = '']) => elements().get(first + second.toLowerCase())?.weight !== undefined)
    .map(({ index }) => index);
