// What the tables of this room hold, column by column.
import { filledList, source, table, text } from '../tables/cells.js';

/** A code, or the beginning of several: `H35` for H350 and H351. */
export const hazardWords = table({ code: text, words: filledList(';', text), source });
