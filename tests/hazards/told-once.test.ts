// Dust of one thing is told once, by the rule that says most of it; of other things beside it nothing is left out.
import { describe, expect, it } from 'vitest';
import { answeredBy, foresee, foreseenOnce } from '../../src/hazards/index.js';
import { readReagentText, resolveReagent } from '../../src/reagents/index.js';
import { hazardsOnce } from '../../src/reckoning/dangers/gathering.js';

const foreseenOf = (...lines: readonly string[]) =>
  foresee({
    ingredients: lines.map((line) => {
      const read = readReagentText(line);
      if (!read.ok) throw new Error(read.fault.message);
      return { reagent: resolveReagent(read.value) };
    }),
  }).foreseen;
const dust = /dust|ground/;
const told = (...lines: readonly string[]): readonly string[] =>
  foreseenOnce(foreseenOf(...lines))
    .filter(({ title, severity }) => dust.test(title) && severity !== 'note')
    .map(({ rule }) => rule);

describe('one dust is told once', () => {
  it.each([
    ['lead chromate 5 g, dry, ground and sieved', 'lead-dust'],
    ['lead white 5 g, dry, ground and sieved', 'lead-dust'],
    ['cadmium yellow 5 g, dry, ground and sieved', 'toxic-dust'],
    ['cobalt carbonate 5 g, dry, ground and sieved', 'cobalt-dust'],
    ['vanadium pentoxide 5 g, dry, ground and sieved', 'vanadium-dust'],
  ])('%s: %s', (line, rule) => {
    expect(foreseenOf(line).length).toBeGreaterThan(foreseenOnce(foreseenOf(line)).length);
    expect(told(line)).toEqual([rule]);
  });
  it('each of two things has its own', () => {
    expect(told('lead white 5 g, dry, ground and sieved', 'realgar 5 g, dry')).toEqual(['lead-dust', 'toxic-dust']);
  });
  it('what only grinding tells stays', () => {
    expect(told('realgar 20 g, pounded in the mortar')).toEqual(['toxic-pigment-dry']);
  });
  it('a graver danger is not told by a lesser one', () => {
    const [one, other] = foreseenOf('lead chromate 5 g, dry, ground and sieved').filter(({ title }) =>
      dust.test(title),
    );
    const lesser = [{ ...one!, severity: 'note' as const }, other!];
    expect(foreseenOnce(lesser)).toContainEqual(expect.objectContaining({ rule: other!.rule }));
  });
  it('what answers one that is left out answers the one that tells it', () => {
    const once = foreseenOnce(foreseenOf('lead white 5 g, dry, ground and sieved'));
    const [first] = answeredBy('poisonous pigment or salt ground, rubbed, scraped or swept dry', once);
    expect(once[first!]?.rule).toBe('lead-dust');
  });
  it('in an entry, only where both are in the same samples', () => {
    const all = foreseenOf('lead white 5 g, dry, ground and sieved').filter(({ title }) => dust.test(title));
    const somewhere = (samples: readonly string[][]) =>
      hazardsOnce(all.map((foreseen, at) => ({ foreseen, samples: new Set(samples[at]), paths: [] })));
    expect(somewhere(all.map(() => ['A']))).toHaveLength(1);
    expect(somewhere(all.map((_, at) => [String(at)]))).toHaveLength(all.length);
  });
});

describe('what black powder is made of', () => {
  it.each([
    [['potassium nitrate 75 g', 'sulfur 10 g', 'charcoal 15 g']],
    [['Salpeter 75 g', 'Schwefel 10 g', 'Holzkohle 15 g']],
    [['potassium nitrate', 'sulfur']],
    [['sodium nitrate 10 g', 'charcoal 2 g']],
  ])('%s: it is told that it explodes, and is not to be ground', (lines) => {
    const one = foreseenOf(...lines).find(({ rule }) => rule === 'nitrate-fuel');
    expect(one?.severity).toBe('danger');
    expect(one?.consequence).toMatch(/explosion/);
    expect(one?.precaution).toMatch(/Do not mix.*never grind/);
    expect(one?.condition).toMatch(/spark.*grinding sets it off.*explodes/);
  });
});
