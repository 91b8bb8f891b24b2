// What is wrong with a single value, before its key is known.
import type { FactsOf } from './registry.js';
import type { valueRules } from './rules/values.js';

/** Rules on single values: their sentence begins with the key, which only the checker of the form knows. */
type ValueRuleId = keyof typeof valueRules | 'outside-journal';
type WithoutSubject<Facts> = Facts extends unknown ? Omit<Facts, 'subject'> : never;

/** What is wrong with a value, whichever key it stands behind. */
export type ValueFault = {
  readonly [Id in ValueRuleId]: { readonly rule: Id; readonly facts: WithoutSubject<FactsOf<Id>> };
}[ValueRuleId];

/** @example valueFault('moment', { written: '3 min', expected: ['minutes:seconds'] }) */
export const valueFault = <Id extends ValueRuleId>(rule: Id, facts: WithoutSubject<FactsOf<Id>>): ValueFault =>
  ({ rule, facts }) as unknown as ValueFault;
