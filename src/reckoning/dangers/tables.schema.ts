// What the tables of this room hold, column by column.
import { oneOf, source, table, text } from '../../tables/cells.js';

/**
 * Words of an answer to trouble: `water` that `pours` on it, `fire`: it burns; `aside`: it is for skin, eyes or what
 * was spilt, or none on the pot; `not`: it is told not to. `rins*` stands for longer words too.
 */
export const answerWords = table({ words: text, says: oneOf('water', 'pours', 'fire', 'aside', 'not'), source });
