// The hazards room's public face.
export { exposureLimits, limitInPpm, shortTermKinds, strictestLimit } from './exposure-limits.js';
export type { ExposureLimit, LimitKind } from './exposure-limits.js';
export * from './ghs/index.js';
export { foresee } from './foresee/foresee.js';
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
} from './foresee/contracts.js';
export { foreseenOnce } from './foresee/told-once.js';
export { groupsOf } from './foresee/groups.js';
export { rulesWith, type RuleOf } from './foresee/takes-part.js';
export { answeredBy, nameToAnswer } from './foresee/answers.js';
export { isAnswer, whyNoAnswer } from './foresee/says-what-is-done.js';
export { dangerGroupsIn, dangerGroupsOf } from './foresee/danger-words.js';
export { groupsOfMereNames, partnersOf } from './foresee/partners.js';
