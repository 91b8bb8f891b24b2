// What the page and the proof say of words must be true of them: a washing that steps tell, a salt under its short
// name, stuff that only the words name.
import { describe, expect, it } from 'vitest';
import { tellsWashing } from '../../../src/reckoning/told/told-work.js';
import { reckonDangers } from '../../../src/reckoning/dangers/dangers.js';
import { emptyRoom, entry, reckon } from '../entries.js';

const salty = (steps: string): string => `
pigment: { name: manganese carbonate, formula: MnCO3 }
reaction: MnSO4 + Na2CO3 -> MnCO3 + Na2SO4
reagents:
  - { reagent: { name: manganese sulfate monohydrate, formula: MnSO4·H2O }, amount: 8.45 g }
  - { reagent: { name: soda, formula: Na2CO3 }, amount: 5.60 g }
${steps}
samples: [{ sample: A, obtained: 5.52 g }]
`;
const ofSalt = (steps: string): string => {
  const { remarks } = reckon(salty(steps));
  return remarks
    .filter(({ ruleId }) => ruleId === 'yield-carried-by-salt')
    .map((one) => JSON.stringify(one))
    .join();
};

describe('a washing that steps tell', () => {
  it.each([
    'Washed by decanting, five times.',
    'Rinsed with plenty of water on the filter.',
    'Mehrmals mit Wasser gewaschen.',
    'Rincé quatre fois.',
    'Lavato tre volte.',
  ])('is not said to be missing: %s', (step) => {
    expect(tellsWashing(step)).toBe(true);
    expect(ofSalt(`steps: ["${step}"]`)).toMatch(/without its volumes/);
    expect(ofSalt(`steps: ["${step}"]`)).not.toMatch(/No washing/);
  });
  it.each(['steps: [Filtered and dried.]', 'steps: [It was not washed.]', ''])('is missing otherwise: %s', (steps) => {
    expect(ofSalt(steps)).toMatch(/No washing is written down/);
  });
});

describe('a salt of the entry under its short name', () => {
  const named = (step: string): readonly string[] => {
    const matter = `reagents:
  - { reagent: { name: iron(III) chloride hexahydrate, formula: FeCl3·6H2O }, amount: 5.41 g }
steps: ["${step}"]`;
    return reckonDangers(entry(1, matter), emptyRoom).dangers.cautions ?? [];
  };
  it.each(['Dissolved the iron chloride in water.', 'The iron(III) chloride went into water.'])(
    'is that of the entry: %s',
    (step) => expect(named(step).filter((one) => /iron/.test(one))).toEqual([]),
  );
  it('is another where it has another name', () => {
    expect(named('Poured in copper chloride 2 g.').join()).toMatch(/names copper chloride/);
  });
});

it('does not say that nothing tells an amount which the words tell', () => {
  const { dangers } = reckonDangers(entry(1, 'steps: ["Poured 20 g of slaked lime into water."]'), emptyRoom);
  expect(dangers.cautions!.join()).not.toMatch(/nothing tells/);
});
