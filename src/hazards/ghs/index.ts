// Classification and labels by the GHS and CLP: the public face of this folder.
export { codesOf, classifySubstance, singleCodes } from './substance-hazards.js';
export type * from './contracts.js';
export { findSubstance } from './find-substance.js';
export { groundText } from './grounds.js';
export { hazardBox, noteSentence } from './hazard-box.js';
export { classificationOfRows, classificationOfStatements } from './ingredient-classification.js';
export {
  labelElements,
  labelSizes,
  packagingNeeds,
  type LabelElements,
  type LabelRule,
  type LabelSizes,
  type Pack,
  type PackagingNeeds,
} from './label.js';
export { mixtureBox, type MixtureIngredient } from './mixture-box.js';
export { classifyMixture } from './mixture.js';
export { labelCodesOf, pictogramNames, pictogramsOf, signalWordOf } from './pictograms.js';
export { othersDiffer, othersDifferShort, type Differing } from './others-differ.js';
export { isOnlyOfUn, statement, wording, type Statement } from './statements.js';
export { substances } from './substances.js';
export { transportAdvice, type TransportAdvice, type TransportClass } from './transport.js';
