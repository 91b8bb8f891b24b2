// What the tables of this room hold, column by column.
import {
  decimal,
  filledList,
  formula,
  oneOf,
  optional,
  source,
  table,
  text,
  textOrNone,
  urlOrNone,
  wholeNumber,
} from '../tables/cells.js';

/** Words of a write-up that tell of heat, and how hot that may be, °C. */
export const heatDeeds = table({ words: text, celsius: wholeNumber, source });

/** A waste goes away as it is, or is kept or made harmless; `neutral*` stands for longer words too. */
export const wasteWords = table({ words: text, says: oneOf('away', 'kept'), source });

/** A code, or the beginning of several: `H35` for H350 and H351. */
export const hazardWords = table({ code: text, words: filledList(';', text), source });

/**
 * Water that products hold which are written without it: molecules for each formula unit, from `low` to `high`; both
 * empty where no source gives a number.
 */
export const heldWater = table({
  name: text,
  formula,
  low: optional(decimal),
  high: optional(decimal),
  condition: text,
  finding: textOrNone,
  source_title: source,
  source_url: urlOrNone,
  basis: oneOf('seen', 'derived', 'memory'),
});
