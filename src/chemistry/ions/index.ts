// Ions: what a substance supplies in solution.
export { ionsIn, isTakenApart, isUnbalanced } from './charges.js';
export { ionsOf } from './dissociation.js';
export type { Dissociation, Ion, Molecule } from './model.js';
export { speciesKey, suppliedBy, withoutWater } from './supply.js';
export { dissolves } from './solubility.js';
export { acidBaseOf, type AcidBase } from './acid-base.js';
export { alkaliInWater } from './alkali-in-water.js';
