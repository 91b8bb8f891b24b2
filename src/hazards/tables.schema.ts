// What the table of this room holds, column by column.
import { cas, decimal, oneOf, optional, source, table, text, textOrNone, urlOrNone } from '../tables/cells.js';

const sourceOrMemory = oneOf('source', 'memory');

export const exposureLimits = table({
  substance: text,
  cas: optional(cas),
  limit_type: text,
  value: decimal,
  unit: oneOf('ppm', 'mg/m3'),
  note: textOrNone,
  source_title: source,
  source_url: urlOrNone,
  basis: sourceOrMemory,
});
