// Quantities: a number, its unit, and how uncertain it says it is.
export type { Dimension, Quantity } from './model.js';
export { numberWordPattern, saidCount, type Count } from './count.js';
export { plainSigns } from './signs.js';
export { parseQuantity } from './parse.js';
export { commasRead } from './comma.js';
export { hasSides, roomOf } from './room.js';
export { rangesInSigns } from './ranges-in-text.js';
