// What the table of this room holds, column by column.
import { filledList, list, oneOf, optional, source, symbol, table, text, textOrNone } from '../tables/cells.js';

/**
 * Formulae are as the trade writes them: `(Co,Zn)Al2O4`, a composition in words. Reactions are balanced bookkeeping
 * (basis as the row's): they tell what must be at hand, and are no procedure.
 */
export const knownPigments = table({
  id: text,
  names: filledList(';', text),
  colour_index: optional(text),
  colour_index_number: optional(text),
  formulas: filledList(';', text),
  elements: list(' ', symbol),
  family: oneOf(
    'violet',
    'blue',
    'blue-green',
    'green',
    'yellow',
    'orange',
    'red',
    'pink',
    'brown',
    'black',
    'grey',
    'white',
  ),
  reactions: list(';', text),
  colour_words: text,
  facts: textOrNone,
  caution: textOrNone,
  source,
  basis: text,
});

/** Other words by which people look for a colour family. */
export const familyWords = table({ family: text, words: filledList(';', text), source });
