// Names and formulae that stand side by side: which are of one substance, and which are not.
import { describe, expect, it } from 'vitest';
import { openJournal } from '../../src/open.js';
import { areExchanged, formulaContradicted } from '../../src/reagents/index.js';
import { remarksAsJson } from '../../src/remarks/print.js';
import { entry, folderOf, settings } from '../journal-folder.js';
import { referenceRows } from '../reference/read.js';

describe('a name and the formula beside it', () => {
  it.each(referenceRows('reagents/name-and-formula.csv').map((row) => [row.name!, row.formula!, row.kind!] as const))(
    '%s, %s: %s',
    (name, formula, kind) => expect(formulaContradicted(name, formula) !== undefined).toBe(kind === 'another'),
  );
});

describe('two names and formulae', () => {
  it.each([
    ['copper sulfate', 'Na2CO3·10H2O', 'washing soda', 'CuSO4·5H2O', true],
    ['slaked lime', 'BaSO4', 'barium sulfate', 'Ca(OH)2', true],
    ['copper sulfate', 'CuSO4·5H2O', 'blue vitriol', 'CuSO4', false],
    ['copper sulfate', 'ZnSO4', 'washing soda', 'CuSO4', false],
    ['my blue', 'Na2CO3', 'washing soda', 'CuSO4', false],
  ])('%s %s and %s %s are exchanged: %s', (name, formula, other, ofOther, exchanged) =>
    expect(areExchanged({ name, formula }, { name: other, formula: ofOther })).toBe(exchanged),
  );
  it.each([
    [
      'with their keys',
      '  - { reagent: { name: copper sulfate, formula: Na2CO3·10H2O }, amount: 5.00 g }\n' +
        '  - { reagent: { name: washing soda, formula: CuSO4 }, amount: 5.00 g }\n',
    ],
    ['each as one text', '  - copper sulfate Na2CO3·10H2O 5.00 g\n  - washing soda CuSO4 5.00 g\n'],
  ])('are said to be, on both lines, written %s', async (_, reagents) => {
    const folder = folderOf({
      'journal.yaml': settings,
      'entries/001-one.md': entry(
        1,
        'pigment: { name: copper carbonate, formula: CuCO3 }\nreaction: CuSO4 + Na2CO3 -> CuCO3 + Na2SO4\n' +
          `reagents:\n${reagents}`,
      ),
    });
    const { remarks } = await openJournal(folder, { drafts: true });
    const all = remarksAsJson(remarks);
    const told = all.filter(({ rule }) => rule === 'name-and-formula');
    expect(told.map(({ cure }) => cure)).toEqual([
      'Look at the labels: write CuSO4 here, or exchange the names.',
      'Look at the labels: write Na2CO3·10H2O here, or exchange the names.',
    ]);
    // Neither is asked for the water of a salt that it is not.
    expect(all.filter(({ rule }) => rule === 'hydrate-or-not' || rule === 'other-water')).toEqual([]);
    expect(JSON.stringify(told[0])).toMatch(/The formulae of copper sulfate.* and washing soda.* are exchanged/);
  });
});
