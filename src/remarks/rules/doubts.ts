// Rules on what can be read in two ways, and on what keeps an amount from being reckoned; the words are those of the
// room that reads the formula or the amount.
import { faultRule } from '../rule.js';

const makes = (reagent: string): string => `pigment: { name: copper carbonate, formula: CuCO3 }
reaction: CuSO4 + Na2CO3 -> CuCO3 + Na2SO4
reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - ${reagent}`;
const described = (formula: string): string =>
  `reagents: [{ reagent: { name: what is meant, formula: "${formula}" }, amount: 1.00 g }]`;

export const doubtRules = {
  charge: faultRule({
    when: 'A number before a sign in a formula may belong to the charge or to the count.',
    severity: 'note',
    advice: 'Write the charge after a caret.',
    fires: described('NbO3+'),
    silent: described('NbO^3+'),
  }),
  charges: faultRule({
    when: 'The charges of a formula do not add up, and a known salt is one count away.',
    severity: 'warning',
    advice: 'Write the formula that is on the label.',
    fires: described('NaCO3'),
    silent: described('Na2CO3'),
  }),
  capitals: faultRule({
    when: 'A formula is no salt as its capitals stand, and is one where two of them are one symbol.',
    severity: 'warning',
    advice: 'Write the second letter of a symbol small, as Co for cobalt.',
    fires: described('COSO4'),
    silent: described('CoSO4'),
  }),
  dash: faultRule({
    when: 'A dash before water in a formula may be the dot of a hydrate or the dash of a range.',
    severity: 'note',
    advice: 'Write · (or *) for the dot of a hydrate.',
    fires: described('CuSO4-5H2O'),
    silent: described('CuSO4·5H2O'),
  }),
  'lost-dot': faultRule({
    when: 'Water stands behind a count in a formula with no dot before it.',
    severity: 'warning',
    advice: 'Write · (or *) for the dot of a hydrate.',
    fires: described('CuSO45H2O'),
    silent: described('CuSO4·5H2O'),
  }),
  'zero-for-oxygen': faultRule({
    when: 'The water of a formula is written with the digit 0 for the letter O.',
    severity: 'warning',
    advice: 'Write the letter O for oxygen.',
    fires: 'reaction: CuSO4·5H20 -> CuSO4 + 5 H2O',
    silent: 'reaction: CuSO4·5H2O -> CuSO4 + 5 H2O',
  }),
  'full-stop': faultRule({
    when: 'A full stop in a formula may be the dot of an adduct or a decimal point.',
    severity: 'note',
    advice: 'Write · (or *) for the dot of an adduct; then every full stop is a decimal point.',
    fires: described('Al2O3.2SiO2'),
    silent: described('Al2O3·2SiO2'),
  }),
  'glued-coefficient': faultRule({
    when: 'A number close to a hydrate or an adduct in a reaction may be its coefficient or belong to its first part.',
    severity: 'note',
    advice: 'Put a space after each coefficient: 2 CuSO4·5H2O.',
    fires: 'reaction: 2CuSO4·5H2O -> 2 CuSO4 + 10 H2O',
    silent: 'reaction: 2 CuSO4·5H2O -> 2 CuSO4 + 10 H2O',
  }),
  'open-proportion': faultRule({
    when: 'A formula leaves open in what proportion elements share a place, so that masses are ranges.',
    severity: 'note',
    advice: 'If the proportion is known, give each its share, e.g. (Zn0.9Mn0.1)O.',
    fires: described('(Zn,Mn)O'),
    silent: described('(Zn0.9Mn0.1)O'),
  }),
  'formula-missing': faultRule({
    when: 'A reagent that may take part in the reaction has no formula.',
    severity: 'note',
    advice: 'Give its formula.',
    fires: makes('{ reagent: { name: a powder from a jar }, amount: 2.50 g }'),
    silent: makes('{ reagent: soda, amount: 2.50 g }'),
  }),
  'drop-volume-missing': faultRule({
    when: 'An amount is in drops, and nothing says how large a drop is.',
    severity: 'note',
    advice: 'Give the drop’s volume, e.g. drop-volume: 0.05 mL.',
    fires: makes('{ reagent: caustic-soda, amount: 12 drops }'),
    silent: makes(
      '{ reagent: soda, amount: 2.50 g }\n  - { reagent: caustic-soda, amount: 12 drops, drop-volume: 0.05 mL }',
    ),
  }),
  'density-missing': faultRule({
    when:
      'An amount by volume cannot be turned into one of the pure substance, ' +
      'or one by mass where the strength is by volume.',
    severity: 'note',
    advice: 'Give its density, or its strength in mol/L or % w/v.',
    fires: makes('{ reagent: { name: a powder, formula: Na2CO3 }, amount: 10 mL }'),
    silent: makes('{ reagent: { name: a syrup, formula: Na2CO3, strength: 20 % }, amount: 10 mL }'),
  }),
  'strength-missing': faultRule({
    when: 'A solution was measured out, and nothing says how strong it is.',
    severity: 'note',
    advice: 'Give its strength in %, % w/v or mol/L, or its density.',
    fires: makes('{ reagent: { name: soda solution, formula: Na2CO3 }, amount: 10 mL }'),
    silent: makes('{ reagent: { name: soda solution, formula: Na2CO3, strength: 10 % }, amount: 10 mL }'),
  }),
  'no-standard-weight': faultRule({
    when: 'A formula holds an element that has no standard atomic weight.',
    severity: 'note',
    advice: 'Leave the element out.',
    fires: makes('{ reagent: { name: acetate, formula: NaAc }, amount: 1.00 g }'),
    silent: makes(
      '{ reagent: soda, amount: 2.50 g }\n  - { reagent: { name: acetate, formula: CH3COONa }, amount: 1.00 g }',
    ),
  }),
  'unknown-count': faultRule({
    when: 'A formula has a letter for a count, so that its molar mass is not known.',
    severity: 'note',
    advice: 'Write a number in the place of the letter.',
    fires: makes('{ reagent: { name: soda, formula: Na2CO3·xH2O }, amount: 2.50 g }'),
    silent: makes('{ reagent: { name: soda crystals, formula: Na2CO3·10H2O }, amount: 2.50 g }'),
  }),
  'zero-count': faultRule({
    when: 'The counts of a formula may leave nothing of the substance.',
    severity: 'note',
    advice: 'Give counts that leave something of each element.',
    fires: makes('{ reagent: { name: soda, formula: (Na2CO3)0-1 }, amount: 2.50 g }'),
    silent: makes('{ reagent: { name: soda, formula: (Na2CO3)1-2 }, amount: 2.50 g }'),
  }),
};
