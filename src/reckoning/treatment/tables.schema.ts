// What the tables of this room hold, column by column.
import {
  decimal,
  formula,
  oneOf,
  optional,
  source,
  table,
  text,
  textOrNone,
  urlOrNone,
  wholeNumber,
} from '../../tables/cells.js';

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
  /** °C from which on none of it is held any more, from memory; empty where it does not outlast that heat. */
  gone_by: optional(wholeNumber),
});

/**
 * What ignition makes of a product: up to `stays_to`, °C, it loses only water that it held; from `gone_by` on its
 * residue is left. Between them, and where no residue is named, nothing is known.
 */
export const ignitionResidues = table({
  formula,
  residue: optional(formula),
  stays_to: wholeNumber,
  gone_by: optional(wholeNumber),
  source_title: source,
  source_url: urlOrNone,
  basis: oneOf('seen', 'memory'),
});

/** Words of what sets a sample apart that tell that it was weighed before it was dry; a star stands for any ending. */
export const wetWords = table({ words: text, source });
