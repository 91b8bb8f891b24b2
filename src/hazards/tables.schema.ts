// What the tables of this room hold, column by column.
import { cas, decimal, formula, oneOf, optional, source, table, text, textOrNone, urlOrNone } from '../tables/cells.js';

/**
 * `name`: as it is printed. `averaging`: the time over which it is counted. `as_element`: it counts this element only.
 */
export const exposureLimits = table({
  substance: text,
  cas: optional(cas),
  kind: oneOf('TWA', 'STEL', 'ceiling', 'IDLH', 'ERPG-1', 'ERPG-2', 'ERPG-3', 'reference'),
  averaging: textOrNone,
  value: decimal,
  unit: oneOf('ppm', 'mg/m3'),
  authority: text,
  name: text,
  status: oneOf('in force', 'superseded', 'proposed', 'reference'),
  as_element: textOrNone,
  year: textOrNone,
  note: textOrNone,
  source_title: source,
  source_url: urlOrNone,
  basis: oneOf('seen', 'derived', 'memory'),
});

/** Gases without a work limit of their own, and the CAS number and formula of what they are judged by instead. */
export const exposureStandIns = table({ substance: text, cas, limits_of: cas, formula, why: text, source });
