// What the tables of this folder hold, column by column.
import { number, oneOf, source, table, text, wholeNumber } from '../../tables/cells.js';
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
