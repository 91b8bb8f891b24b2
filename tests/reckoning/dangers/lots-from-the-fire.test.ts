// What a fire made in a lot meets what the lot is used with: the sulfide of a sulfate that was roasted with charcoal.
import { describe, expect, it } from 'vitest';
import { reckonDangers } from '../../../src/reckoning/dangers/dangers.js';
import { lotsOf } from '../../../src/reckoning/lots.js';
import { emptyRoom, entry, reckonAll } from '../entries.js';

const fired = (what: string, rest = 'heating: [{ of: mixture, to: 900 °C }]'): string => `
pigment: { name: grey cake }
reagents:
  - { reagent: { ${what} }, amount: 20 g }
  - { reagent: charcoal, amount: 5 g }
${rest}
samples: [{ sample: A, obtained: 15 g }]`;
const barytes = 'name: barium sulfate, formula: BaSO4';

const carriedOf = (matter: string): readonly string[] => {
  const [{ entry: made, amounts }] = reckonAll([entry(1, matter)]) as [ReturnType<typeof reckonAll>[number]];
  return lotsOf(made, amounts).flatMap(({ carries = [] }) =>
    carries.map(({ name, made: isMade }) => `${name}${isMade ? ', made' : ''}`),
  );
};

/** What is foreseen where the lot meets hydrochloric acid. */
function withAcid(matter: string): readonly { readonly rule: string; readonly severity: string; condition: string }[] {
  const [{ entry: made, amounts }] = reckonAll([entry(1, matter)]) as [ReturnType<typeof reckonAll>[number]];
  const lots = new Map(lotsOf(made, amounts).map((one) => [one.lot, one]));
  const user = entry(2, 'reagents: [{ lot: 1/A, amount: 5 g }, { reagent: hydrochloric acid 20 %, amount: 20 mL }]');
  return reckonDangers(user, { ...emptyRoom, lot: (name) => lots.get(name) }).dangers.foreseen ?? [];
}
const sulfide = (matter: string) => withAcid(matter).find(({ rule }) => rule === 'sulfide-strong-acid');

describe('a lot of a sulfate that was reduced', () => {
  it.each([
    ['barium sulfate', fired(barytes)],
    ['sodium sulfate', fired('name: sodium sulfate, formula: Na2SO4')],
    ['gypsum', fired('name: gypsum, formula: CaSO4·2H2O')],
    ['told in the words of a step', fired(barytes, 'steps: [Roast together at red heat in a covered crucible.]')],
    ['by a key of a step', fired(barytes, 'steps: [{ do: Into the muffle., heat: 950 °C }]')],
  ])('gives hydrogen sulfide with acid: %s', (_, matter) => {
    const found = sulfide(matter);
    expect(found?.severity).toBe('danger');
    expect(found?.condition).toMatch(/the fire made (?:barium )?sulfide in lot 1\/A/);
  });

  it('whatever it is called, and more doubtfully where something was washed', () => {
    expect(carriedOf(fired(barytes))).toEqual(['barium sulfide, made']);
    const washed = fired(barytes, 'heating: [{ of: mixture, to: 900 °C }]\nsteps: [Fire., Wash well with water.]');
    expect(carriedOf(washed)).toEqual(['barium sulfide']);
    expect(sulfide(washed)).toMatchObject({
      severity: 'warning',
      condition: expect.stringMatching(/^only if barium sulfide was not washed out of lot 1\/A/),
    });
  });

  it('is told once where it is a sulfide by its formula', () => {
    const known = fired(barytes).replace('name: grey cake', 'name: barium sulfide, formula: BaS');
    expect(carriedOf(known).filter((one) => one.includes('sulfide'))).toEqual([]);
    expect(sulfide(known)?.severity).toBe('danger');
  });
});

it('a ferrocyanide that was fired leaves cyanide', () => {
  const matter = fired('name: potassium ferrocyanide, formula: "K4[Fe(CN)6]"');
  expect(carriedOf(matter)).toContain('cyanide, made');
  expect(withAcid(matter).some(({ rule, severity }) => rule === 'cyanide-strong-acid' && severity === 'danger')).toBe(
    true,
  );
});

it.each([
  ['was only mixed', fired(barytes, '')],
  ['was dried', fired(barytes, 'heating: [{ of: mixture, to: 110 °C }]')],
  ['had no charcoal', fired(barytes).replace(/ {2}- \{ reagent: charcoal.*\n/, '')],
])('what %s holds no sulfide', (_, matter) => {
  expect(carriedOf(matter)).toEqual([]);
  expect(sulfide(matter)).toBeUndefined();
});
