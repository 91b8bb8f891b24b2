// The library's public face: open a journal, proof it, publish it; and the reckonings by themselves.
export * as chemistry from './chemistry/index.js';
export * as hazards from './hazards/index.js';
export * as colour from './colour/index.js';
export { openJournal, hasErrors, type OpenedJournal } from './open.js';
export { proof, type Proof } from './site/proof.js';
export { publish, type Publication, type PublishOptions } from './site/publish.js';
export type { JournalModel } from './crosslinks/model.js';
export type { Figure, ReckonedEntry } from './reckoning/contracts.js';
export { remark, severityOf, type Remark } from './remarks/remark.js';
