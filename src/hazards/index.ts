// The hazards room's public face.
export { exposureLimits } from './exposure-limits.js';
export type { ExposureLimit } from './exposure-limits.js';
export * from './ghs/index.js';
export { foresee } from './foresee.js';
export type {
  Foreseen,
  ForeseenSeverity,
  Foresight,
  GasFacts,
  LimitReached,
  Mixture,
  MixtureHeating,
  MixedReagent,
  WorstCase,
} from './foreseen.js';
export { groupsOf } from './groups.js';
export { rulesWith, type RuleOf } from './takes-part.js';
export { answeredBy, nameToAnswer } from './answers.js';
