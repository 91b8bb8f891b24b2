// YAML that is not well formed: the cure fits what is wrong, what can only mean one thing is read, and nothing is
// invented.
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../src/journal/index.js';
import { readShelf } from '../../src/journal/yaml-file.js';

const read = (lines: string, title = 'T') =>
  readEntry(
    'entries/001-x.md',
    `---\nnumber: 1\ntitle: ${title}\ndate: 2026-03-14\nstatus: finished\n${lines}\n---\nWords.\n`,
  );

describe('a second colon in a text', () => {
  it.each([
    ['of a key', 'question: Green: why?', { question: 'Green: why?' }],
    [
      'of a step',
      'steps:\n  - Step one: heat to 600 °C: brown smoke',
      { steps: ['Step one: heat to 600 °C: brown smoke'] },
    ],
    [
      'of many',
      Array.from({ length: 6 }, (_, at) => `  - Step ${at}: stir: wait`)
        .join('\n')
        .replace(/^/, 'steps:\n'),
      { steps: Array.from({ length: 6 }, (_, at) => `Step ${at}: stir: wait`) },
    ],
    [
      'of a sample',
      'samples:\n  - sample: A\n    differs: open dish: slow\n    obtained: 3 g',
      {
        samples: [expect.objectContaining({ sample: 'A', differs: 'open dish: slow', obtained: '3 g' })],
      },
    ],
  ])('%s', (_, lines, expected) => {
    const { entry, remarks } = read(lines);
    expect(entry).toMatchObject(expected);
    expect(new Set(remarks.map(({ ruleId }) => ruleId))).toEqual(new Set(['colon-in-text']));
  });

  it('everywhere at once, as in a whole entry', () => {
    const lines =
      'reagents:\n  - { reagent: lead nitrate, amount: 5 g }\nsteps:\n  - Step one: heat: brown smoke came off\n' +
      'samples:\n  - sample: A\n    differs: open dish: slow\n    obtained: 3 g';
    const { entry, remarks } = read(lines, 'Massicot: from the nitrate');
    expect(entry?.samples.map(({ sample }) => sample)).toEqual(['A']);
    expect(remarks.filter(({ fatal }) => fatal === true)).toEqual([]);
  });

  it('with other faults: no sample is invented', () => {
    const lines = 'samples:\n  - sample: A\n    differs: open dish: slow\n    obtained: 3 g\nsteps: [one';
    expect(read(lines).inPart?.samples.map(({ sample }) => sample)).toEqual(['A']);
  });
});

describe('one colon behind words that are no key', () => {
  it.each([
    ['steps:\n  - Step one: heat to 600 °C\n  - Step two: cool', ['Step one: heat to 600 °C', 'Step two: cool']],
  ])('is part of a step: %s', (lines, steps) => {
    const { entry, remarks } = read(lines);
    expect(entry?.steps).toEqual(steps);
    expect(remarks.filter(({ fatal }) => fatal === true)).toEqual([]);
  });
});

describe('a bracket that is not closed', () => {
  it.each([
    ['[', 'ideas: [Try it cold\nquestion: why?', /\] is missing/],
    ['{', 'pigment: { name: malachite\nquestion: why?', /\} is missing/],
    ['[ at the end', 'ideas: [Try it cold', /\] is missing/],
    ['{ in a list', 'reagents:\n  - { reagent: soda, amount: 2 g\n  - { reagent: alum, amount: 2 g }', /\} is missing/],
  ])('%s', (_, lines, cure) => {
    const [one] = read(lines).remarks;
    expect(one).toMatchObject({ ruleId: 'yaml', fatal: true });
    expect(one?.note).toMatch(cure);
    expect([6, 7]).toContain(one?.line);
  });

  it('on the shelf', () => {
    const [one] = readShelf('shelf.yaml', 'alum:\n  name: alum\n  also-called: [potash alum\n  pruity: 98 %\n').remarks;
    expect(one).toMatchObject({ ruleId: 'yaml', line: 3 });
    expect(one?.note).toMatch(/\] is missing/);
  });
});

describe('a shelf that is written as a list', () => {
  it('is told how it is written with ids, with its own first jar', () => {
    const { remarks, shelf } = readShelf('shelf.yaml', '- name: Blue vitriol\n  formula: CuSO4·5H2O\n- name: soda\n');
    expect([...shelf.reagents.keys()]).toEqual(['blue-vitriol', 'soda']);
    expect(remarks[0]?.note).toContain('blue-vitriol:');
    expect(remarks[0]?.note).not.toContain('Begin each item with a hyphen');
  });
});
