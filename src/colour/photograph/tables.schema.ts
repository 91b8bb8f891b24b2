// What the tables of this folder hold, column by column.
import { number, oneOf, source, table, text, textOrNone, wholeNumber } from '../../tables/cells.js';
import { illuminants } from '../numbers.js';

/** Published colours of charts, patches row by row. */
export const classicCharts = table({
  chart: oneOf('classic-24', 'classic-24-2014'),
  patch: wholeNumber,
  row: wholeNumber,
  column: wholeNumber,
  name: text,
  L: number,
  a: number,
  b: number,
  illuminant: oneOf(...illuminants),
  observer: oneOf('2', '10').transform((degrees): 2 | 10 => (degrees === '2' ? 2 : 10)),
  note: text,
  source,
});

/** What others found colours from photographs to be off by, as printed. */
export const publishedAccuracy = table({
  of: text,
  device: text,
  /** Whether a chart was in the picture. */
  chart: text,
  statistic: text,
  /** The colour difference formula; figures of different formulae cannot be compared. */
  formula: text,
  value: text,
  note: textOrNone,
  source,
});
