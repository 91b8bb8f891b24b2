// Which sample repeats which: as it is said, or because nothing differs between them.
import { describe, expect, test } from 'vitest';
import { reckon } from './entries.js';

const matter = (samples: string): string => `pigment: { name: chalk, formula: CaCO3 }
reaction: CaCl2 + Na2CO3 -> CaCO3 + 2 NaCl
reagents:
  - { reagent: { name: calcium chloride, formula: CaCl2 }, amount: 5.00 g }
  - { reagent: { name: soda, formula: Na2CO3 }, amount: 6.00 g }
samples:
${samples}`;
const repeats = (samples: string): Record<string, string | undefined> =>
  Object.fromEntries(
    reckon(matter(samples)).amounts.samples.map(({ sample, replicateOf }) => [sample, replicateOf] as const),
  );
const told = (samples: string): string[] =>
  reckon(matter(samples))
    .remarks.filter(({ ruleId }) => ruleId === 'taken-as-repeat')
    .map(({ reason }) => reason);

describe('samples of which the same is said', () => {
  test('are repeats, however the words are spaced, and that is told', () => {
    const samples =
      '  - { sample: A, differs: cold }\n  - { sample: B, differs: warm }\n  - { sample: C, differs: COLD }';
    expect(repeats(samples)).toEqual({ A: undefined, B: undefined, C: 'A' });
    expect(told(samples)).toEqual([
      "Samples A and C tell the same of what differs ('COLD'): they are taken for repeats.",
    ]);
  });
  test('are none where anything is added to one of them, or another is named', () => {
    const salt = 'add: [{ reagent: { name: salt, formula: NaCl }, amount: 1.00 g }]';
    expect(repeats(`  - { sample: A, differs: cold }\n  - { sample: B, differs: cold, ${salt} }`).B).toBeUndefined();
    const named =
      '  - { sample: A, differs: cold }\n  - { sample: B }\n  - { sample: C, differs: cold, replicate-of: B }';
    expect(repeats(named).C).toBe('B');
    expect(told(named)).toEqual([]);
  });
  test('and of which nothing is said are not taken for repeats', () => {
    expect(repeats('  - { sample: A }\n  - { sample: B }').B).toBeUndefined();
  });
});
