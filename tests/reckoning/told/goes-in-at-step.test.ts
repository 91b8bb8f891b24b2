// At which step something goes in, as the words of steps tell it: what stands in the pot before is told of each step.
import { expect, it } from 'vitest';
import { foreseenBySteps } from '../../../src/reckoning/dangers/foreseen-by-steps.js';
import { emptyRoom, entry } from '../entries.js';

const listed = `
reagents:
  - { reagent: { name: copper(II) sulfate pentahydrate, formula: CuSO4·5H2O }, amount: 5.00 g }
  - { reagent: { name: sodium carbonate, formula: Na2CO3 }, amount: 2.50 g }
  - { reagent: { name: calcium carbonate, formula: CaCO3 }, amount: 1.0 g }
  - { reagent: { name: linseed oil }, amount: 2 mL }
  - { reagent: { name: glycerol, formula: C3H8O3 }, amount: 1 mL }
  - { reagent: { name: trisodium phosphate dodecahydrate, formula: Na3PO4·12H2O }, amount: 3.8 g }
`;

/** The first step at which something is in the pot. */
function firstStepOf(what: string, steps: readonly string[]): number {
  const matter = `${listed}steps:\n${steps.map((one) => `  - ${JSON.stringify(one)}`).join('\n')}`;
  const told = foreseenBySteps(entry(1, matter), emptyRoom, []);
  return told.findIndex(({ inThePot }) => inThePot.includes(what)) + 1;
}

it.each([
  ['sodium carbonate', 'Dissolve the soda in 100 mL of warm water.'],
  ['sodium carbonate', 'Dissolve the sodium carbonate, stirring, in as little water as will take it.'],
  ['sodium carbonate', 'Washing soda, the dried kind, in 150 mL water, added in ten portions.'],
  ['sodium carbonate', 'The soda, as a slurry, over half an hour by the spoonful.'],
  ['sodium carbonate', 'Soda ash is dissolved separately and run in.'],
  ['sodium carbonate', 'Now weigh the soda into the beaker.'],
  ['sodium carbonate', 'Soda slowly to the blue liquid.'],
  ['calcium carbonate', 'Stir the chalk in, a little at a time.'],
  ['calcium carbonate', 'Whisk the whiting in until smooth.'],
  ['calcium carbonate', 'Work the chalk in with a palette knife.'],
  ['linseed oil', 'Mull the green with the oil.'],
  ['linseed oil', 'Grind it on the slab with a little linseed oil.'],
  ['linseed oil', 'Rub up with the oil to a stiff paste.'],
  ['glycerol', 'Stir in glycerine.'],
  ['glycerol', 'Wet the cake with glycerine.'],
  ['trisodium phosphate dodecahydrate', 'Phosphate in 80 mL water at 50 °C.'],
  ['trisodium phosphate dodecahydrate', 'Trisodium phosphate, dissolved in 80 mL, is dripped in.'],
])('%s goes in there: %s', (what, step) => {
  expect(firstStepOf(what, ['Dissolve the blue vitriol in 100 mL water.', step, 'Filter and wash.'])).toBe(2);
});

it.each([
  ['sodium carbonate', ['Grind all of it together.', 'Dissolve the soda out in hot water.']],
  ['sodium carbonate', ['Everything into the pot.', 'Dissolve the soda in it by stirring.']],
  ['sodium carbonate', ['Stir the powders dry.', 'Rinse the soda out with water.']],
  ['calcium carbonate', ['Warm to 40 °C.', 'Filter off from the chalk.']],
  ['linseed oil', ['Warm to 40 °C.', 'Do not mull it with the oil yet.']],
] as const)('%s is taken to be there from the first: %j', (what, steps) => {
  expect(firstStepOf(what, steps)).toBe(1);
});
