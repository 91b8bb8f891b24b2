// Whatever a write-up names that is a danger with what is listed is told. The names are those of the program's own
// tables, a sample of them by a seed; what is a danger is what is foreseen where both are listed, so that the reading of
// words is held against the rules and not against what it reads.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foresee, dangerGroupsIn, dangerGroupsOf, partnersOf } from '../../../src/hazards/index.js';
import { readEntry } from '../../../src/journal/entry-file.js';
import { cupboardOf, readReagentText, resolveNamed, resolveReagent } from '../../../src/reagents/index.js';
import { foreseeEntry } from '../../../src/reckoning/dangers/foreseen-in-entry.js';
import { sentencesOf, sentencesOfWork } from '../../../src/reckoning/told/told-work.js';
import { namedMaterialsTable } from '../../../src/tables/compiled/reagents/named-materials.js';
import { soldAsTable } from '../../../src/tables/compiled/reagents/sold-as.js';
import { emptyRoom } from '../entries.js';

const listed = [
  'ammonia solution 25 % 20 mL',
  'bleach 50 mL',
  'hydrochloric acid 30 % 20 mL',
  'nitric acid 65 % 10 mL',
  'hydrogen peroxide 30 % 20 mL',
  'potassium permanganate 5 g',
  'sodium sulfide 5 g',
  'sodium nitrite 5 g',
  'potassium ferrocyanide 5 g',
  'aluminium powder 2 g',
];

const resolved = (text: string) => {
  const read = readReagentText(text);
  return read.ok
    ? resolveReagent(
        read.value,
        cupboardOf(new Map(), () => undefined),
      )
    : undefined;
};

/** Rules by which two things are a danger together, and neither by itself. */
function dangersOf(one: string, other: string): readonly string[] {
  const [first, second] = [resolved(one), resolved(other)];
  if (!first || !second) return [];
  const alone = new Set(foresee({ ingredients: [{ reagent: second }] }).foreseen.map(({ rule }) => rule));
  return foresee({ ingredients: [{ reagent: first }, { reagent: second }] }).foreseen.flatMap((found) => {
    const { severity, partners, rule } = found;
    const isOfBoth = [first, second].every(({ name }) => partners.includes(name));
    return severity === 'danger' && isOfBoth && !alone.has(rule) ? [rule] : [];
  });
}

function told(reagent: string, body: string) {
  const matter = `number: 1\ntitle: A trial\ndate: 2026-01-02\nstatus: finished\nreagents:\n  - ${JSON.stringify(reagent)}`;
  const { entry } = readEntry('entries/1.md', `---\n${matter}\n---\n${body}\n`);
  const { hazards, besides } = foreseeEntry(entry!, emptyRoom);
  const dangers = hazards.filter(({ foreseen }) => foreseen.severity === 'danger').map(({ foreseen }) => foreseen.rule);
  return { dangers, spokenOf: besides().spokenOf.map(({ name }) => name), brought: besides().brought };
}

const names = [
  ...new Set([
    ...namedMaterialsTable().flatMap(({ name, also }) => [name, ...also]),
    ...soldAsTable().flatMap(({ name, also }) => [name, ...also]),
  ]),
].filter((name) => !name.includes('…'));

describe('a name of the tables in a write-up', () => {
  it('is told where it is a danger with what is listed, and judged where it is put in', () => {
    fc.assert(
      fc.property(fc.constantFrom(...names), fc.constantFrom(...listed), (name, reagent) => {
        const expected = dangersOf(reagent, name);
        if (expected.length === 0) return;
        const { dangers, spokenOf } = told(reagent, `I added ${name}.`);
        const isTold = expected.some((rule) => dangers.includes(rule)) || spokenOf.length > 0;
        expect(isTold, `${name} added to ${reagent}: ${expected.join(', ')}`).toBe(true);
      }),
      { numRuns: 120 },
    );
  });
});

describe('a write-up beside a list of reagents', () => {
  const ammonia = 'ammonia solution 25 % 20 mL';
  it('puts in what it says, in whatever words', () => {
    for (const words of [
      'I added iodine crystals.',
      'A good half teaspoon of iodine crystals, I caught in a coffee filter.',
      'Topped it up with the last of the iodine.',
      'Jod kam dazu.',
      'Then the I2 went in.',
      '- iodine crystals, ground, chucked in on top',
      'Iodine, about a teaspoonful, straight down the neck.',
      'It was covered with iodine.',
    ])
      expect(told(ammonia, words).dangers, words).not.toEqual([]);
    expect(told(ammonia, 'I added iodine crystals.').dangers).toEqual(dangersOf(ammonia, 'iodine'));
  });
  it('tells what is only named as that', () => {
    const { dangers, spokenOf } = told(ammonia, 'There are iodine crystals about.');
    expect([dangers, spokenOf]).toEqual([[], ['iodine crystals']]);
  });
  it('does not speak of what is kept elsewhere, or belongs to a story', () => {
    for (const words of [
      'The iodine is in the cupboard, where it stays.',
      'In the nineteenth century, iodine was sublimed in glass.',
    ])
      expect(told(ammonia, words).spokenOf, words).toEqual([]);
  });
  it('puts nothing in by a spot test, a plan, or what was driven off', () => {
    for (const words of [
      'A drop of vinegar on a crumb of it fizzes.',
      'I shall add vinegar to the next.',
      'Then the vinegar was boiled off.',
      'The vinegar lives in the locked box in the shed.',
      'I had the vinegar in my hand and put it back.',
    ])
      expect(told('sodium nitrite 5 g', words).dangers, words).toEqual([]);
  });
  it('calls what is listed in short', () => {
    for (const [reagent, words] of [
      ['phosphoric acid 85 % 2 mL', 'The syrupy acid was stirred in.'],
      ['sodium nitrite 5 g', 'The nitrite was stirred in.'],
      ['copper sulfate pentahydrate 5 g', 'The vitriol was stirred in.'],
    ] as const)
      expect(told(reagent, words).brought, words).toEqual([]);
  });
  it('names size, curd and violet as words of every day', () => {
    for (const words of ['A lump the size of a pea.', 'It set to a curd.', 'It turned violet.'])
      expect(told('nitric acid 65 % 10 mL', words).spokenOf, words).toEqual([]);
  });
});

describe('a heading', () => {
  it('takes no line behind it for its own', () => {
    expect(sentencesOf('## Method\nI added iodine.\n## Next\nMore of it.')).toEqual([
      '## Method',
      'I added iodine.',
      '## Next',
      'More of it.',
    ]);
    expect(sentencesOfWork('## Method\nI added iodine.\n## Next\nMore of it.')).toEqual(['I added iodine.']);
  });
});

describe('groups of dangers', () => {
  it('are those of all that words may name, and none of words that join', () => {
    expect([...dangerGroupsIn('I added iodine.')]).toContain('halogen');
    expect([...dangerGroupsIn('Essigsäure dazu')]).toContain('weak_acid');
    expect([...dangerGroupsIn('of the and with it')]).toEqual([]);
    expect([...dangerGroupsIn('It is of iron.')]).toEqual([]);
    expect([...dangerGroupsOf('iron')]).not.toEqual([]);
  });
  it('are partners of what is there only by rules that ask for them', () => {
    const partners = partnersOf([{ reagent: resolveNamed('bleach') }]);
    expect([...partners(new Set(['strong_acid', 'carbonate']))]).toEqual(['strong_acid']);
    expect([...partners(new Set())]).toEqual([]);
  });
});
