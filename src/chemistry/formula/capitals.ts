// Symbols of two letters as labels have them: in capitals (`COSO4`), or with a capital I for a small L (`CaCI2`).
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

/**
 * With a small L for each capital I behind a letter with which it is no symbol of an element.
 * @example withSmallL('CaCI2') // 'CaCl2'
 */
export const withSmallL = (formula: string): string => formula.replace(/(?<=[CA])I(?![a-z])/g, 'l');
