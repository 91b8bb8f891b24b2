// A jar on the shelf that holds a lot: what is left of it is what later entries left of the lot.
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openJournal } from '../../src/open.js';
import { entry, folderOf, smallJournal } from '../journal-folder.js';

it('tells what is left of the lot', async () => {
  const folder = folderOf(
    smallJournal({
      'journal/shelf.yaml':
        'my-green: { name: my green, lot: 5/A }\nblue-vitriol: { name: blue vitriol, formula: CuSO4·5H2O }\n',
      'journal/entries/005-made.md': entry(5, 'samples: [{ sample: A, obtained: 2.00 g }]\n'),
      'journal/entries/006-used.md': entry(6, 'reagents: [{ reagent: my-green, amount: 0.50 g }]\n'),
    }),
  );
  const { model } = await openJournal(join(folder, 'journal'));
  const stockOf = (id: string) => model?.reagents.find((one) => one.id === id)?.lotStock;
  expect(stockOf('my-green')?.left?.value).toBe('1.5');
  expect(stockOf('blue-vitriol')).toBeUndefined();
});
