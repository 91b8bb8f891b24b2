// Every rule by its id. A finding can only name a rule that stands here.
import { acceptedRules } from './rules/accepted.js';
import { amountsRules } from './rules/amounts.js';
import { appearanceFaultRules, appearanceRules } from './rules/appearance.js';
import { dangerRules } from './rules/dangers.js';
import { doubtRules } from './rules/doubts.js';
import { entryRules } from './rules/entry.js';
import { fileFaultRules, fileRules } from './rules/files.js';
import { formatRules } from './rules/format.js';
import { hazardBoxRules } from './rules/hazard-box.js';
import { linkRules } from './rules/links.js';
import { lotRules } from './rules/lots.js';
import { nameRules } from './rules/names.js';
import { publicationRules } from './rules/publication.js';
import { readingRules } from './rules/readings.js';
import { reagentRules } from './rules/reagents.js';
import { referenceRules } from './rules/references.js';
import { registerRules } from './rules/register.js';
import { assayFaultRules, treatmentRules } from './rules/treatment.js';
import { valueRules } from './rules/values.js';
import { writeUpRules } from './rules/write-up.js';
import { yamlRules } from './rules/yaml.js';
import type { Rule } from './rule.js';

/** Rules whose findings are a reader's own faults, by the fault's code. */
export const faultRules = {
  ...doubtRules,
  ...reagentRules,
  ...readingRules,
  ...appearanceFaultRules,
  ...fileFaultRules,
  ...assayFaultRules,
};

export const rules = {
  ...acceptedRules,
  ...amountsRules,
  ...dangerRules,
  ...hazardBoxRules,
  ...lotRules,
  ...treatmentRules,
  ...appearanceRules,
  ...referenceRules,
  ...linkRules,
  ...faultRules,
  ...fileRules,
  ...yamlRules,
  ...formatRules,
  ...valueRules,
  ...entryRules,
  ...nameRules,
  ...registerRules,
  ...publicationRules,
  ...writeUpRules,
} satisfies Readonly<Record<string, Rule<never>>>;

export type RuleId = keyof typeof rules;
export type FaultRuleId = keyof typeof faultRules;

/** What a finding of a rule says: plain data. */
export type FactsOf<Id extends RuleId> = (typeof rules)[Id] extends Rule<infer Facts> ? Facts : never;

export const ruleIds = Object.keys(rules) as readonly RuleId[];
