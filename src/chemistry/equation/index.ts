// Equations: reading, imbalance, balancing.
export { balance, balancedOrAfresh, type Balanced } from './balance.js';
export {
  imbalances,
  imbalanceSentence,
  printEquation,
  type Equation,
  type Imbalance,
  type Sides,
  type Term,
} from './model.js';
export { nullSpace } from './null-space.js';
export { parseEquation } from './parse.js';
