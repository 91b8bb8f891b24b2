// What the table of oxides holds, column by column.
import { formula, source, symbol, table } from '../../tables/cells.js';

export const oxides = table({ symbol, oxide: formula, source });
