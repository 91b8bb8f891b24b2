// What the table of this room holds, column by column.
import { formula, source, table } from '../tables/cells.js';

export const hydrates = table({ anhydrous: formula, usually_sold_as: formula, source });
