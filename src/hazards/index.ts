// The hazards room's public face.
export { exposureLimits } from './substances-exposure.js';
export type { ExposureLimit } from './substances-exposure.js';
export { findSubstance, substances } from './substances.js';
export type {
  AcuteToxicityEstimate,
  Basis,
  Finding as SubstanceFinding,
  HazardClass,
  SpecificLimit,
  Substance,
  SubstanceQuery,
} from './substances.js';
export { statement, wording } from './statements.js';
export type { Filling, Statement } from './statements.js';
export { hazardBox, labelElements, mixtureBox } from './hazard-box.js';
export type {
  BenchSubstance,
  HazardBox,
  LabelElements,
  Origin,
  SheetFacts,
  StatementShown,
  SubstanceShown,
} from './hazard-box.js';
export { classifyMixture, knownOf, massPercent, readStrength } from './mixture.js';
export type { Ingredient, Known, MixtureClass, MixtureResult, Strength } from './mixture.js';
export { labelCodesOf, pictogramNames, pictogramsOf, signalWordOf } from './pictograms.js';
export { foresee } from './foresee.js';
export type {
  Foreseen,
  ForeseenSeverity,
  Foresight,
  GasFacts,
  LimitReached,
  Pot,
  PotHeating,
  PotIngredient,
  StatedStrength,
  WorstCase,
} from './foreseen.js';
export { readIngredient } from './ingredient-text.js';
export { groupsOf } from './groups.js';
export { rulesWith, type RuleOf } from './takes-part.js';
export { answeredBy, nameToAnswer } from './answers.js';
