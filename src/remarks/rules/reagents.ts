// Rules on what had to be assumed of a reagent; the words are those of the room that resolves it.
import { faultRule } from '../rule.js';

const uses = (reagent: string): string => `reagents:
  - { reagent: ${reagent}, amount: 10 mL }`;

export const reagentRules = {
  'strength-from-name': faultRule({
    when: 'No strength is given, and the usual one of what is sold under that name is reckoned with.',
    severity: 'note',
    advice: 'Give its strength from the label.',
    fires: uses('{ name: household ammonia }'),
    silent: uses('{ name: household ammonia, strength: 9.5 % }'),
  }),
  'salt-of-two-states': faultRule({
    when: 'Nothing but its name says which salt of a metal it is, and two are called so.',
    severity: 'warning',
    advice: 'Look at the label: write its formula, or its name with the state, as iron(III) chloride.',
    fires: 'reagents: [{ reagent: { name: iron chloride }, amount: 5.00 g }]',
    silent: 'reagents: [{ reagent: { name: iron(III) chloride hexahydrate }, amount: 5.00 g }]',
  }),
  'density-does-not-fit': faultRule({
    when: 'A density and a strength are given that do not go together in the table of densities.',
    severity: 'warning',
    advice: 'Look at the label again: one of the two is wrong.',
    fires: uses('{ name: nitric acid, formula: HNO3, strength: 70 %, density: 1.18 g/mL }'),
    silent: uses('{ name: nitric acid, formula: HNO3, strength: 70 %, density: 1.41 g/mL }'),
  }),
  'density-fits-two-strengths': faultRule({
    when: 'Only a density is given, and solutions of two strengths have it.',
    severity: 'note',
    advice: 'Give its strength from the label.',
    fires: uses('{ name: acetic acid, formula: CH3COOH, density: 1.06 g/mL }'),
    silent: uses('{ name: acetic acid, formula: CH3COOH, density: 1.06 g/mL, strength: 60 % }'),
  }),
  'beyond-table': faultRule({
    when: 'A strength is given that no solution of the table of densities reaches.',
    severity: 'note',
    advice: 'Look at the label again.',
    fires: uses('{ name: hydrochloric acid, formula: HCl, strength: 60 % }'),
    silent: uses('{ name: hydrochloric acid, formula: HCl, strength: 37 % }'),
  }),
};
