// What the tables of this room hold, column by column.
import {
  decimal,
  formula,
  list,
  number,
  oneOf,
  optional,
  source,
  table,
  text,
  textOrNone,
  urlOrNone,
} from '../tables/cells.js';

/** One substance's solutions in water; the rows of a substance rise in strength. */
export const density = table({
  id: text,
  substance: text,
  formula,
  mass_percent: decimal,
  density_g_per_mL: decimal,
  temperature_C: number,
  note: textOrNone,
  source_title: source,
  source_url: urlOrNone,
  basis: oneOf('seen', 'derived', 'memory'),
});

/** `charge` of a multiplier: what it multiplies by. */
export const nameParts = table({
  part: oneOf('cation', 'anion', 'multiplier'),
  name: text,
  formula: textOrNone,
  charge: number,
  source,
});

export const namedMaterials = table({
  name: text,
  also: list('|', text),
  formula,
  strength: optional(
    text.regex(/^\d+(?:\.\d+)? ?%$/, 'must be a percentage by mass').transform((cell) => cell.replace(/ ?%$/, '')),
  ),
  groups: list(' ', text),
  note: optional(text),
  source,
});
