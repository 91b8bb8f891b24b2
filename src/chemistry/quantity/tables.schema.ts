// What the table of units holds, column by column.
import { decimal, filledList, list, oneOf, optional, source, table, text } from '../../tables/cells.js';

export const units = table({
  unit: text,
  also: list('|', text),
  dimension: oneOf(
    'mass',
    'volume',
    'amount',
    'concentration',
    'mass-percent',
    'mass-volume-percent',
    'volume-percent',
    'oxygen-volumes',
    'degrees-baume',
    'degrees-twaddell',
    'density',
    'temperature',
    'time',
    'length',
    'drops',
    'ratio',
  ),
  factor: decimal,
  base: text,
  /** Where the unit's zero lies, in the base unit. */
  zero_at: optional(decimal),
  source,
});

/** Words for how many, before a unit or a measure, in six languages; a count in words has two ends. */
export const numberWords = table({ words: filledList('|', text), low: decimal, usual: decimal, high: decimal, source });
