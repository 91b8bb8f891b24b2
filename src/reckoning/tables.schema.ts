// What the table of this room holds, column by column.
import { filledList, formula, source, table, text } from '../tables/cells.js';

export const hydrates = table({ anhydrous: formula, usually_sold_as: formula, source });

/** A code, or the beginning of several: `H35` for H350 and H351. */
export const hazardWords = table({ code: text, words: filledList(';', text), source });
