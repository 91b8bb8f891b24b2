// What is left on the shelf: bought, less what entries used since. The sums are done by hand beside each check.
import { describe, expect, it } from 'vitest';
import { openJournal } from '../../src/open.js';
import { remarksAsJson } from '../../src/remarks/print.js';
import { entry, folderOf, settings } from '../journal-folder.js';

const shelf = (bought: string, more = '') =>
  `vitriol: { name: blue vitriol, formula: CuSO4·5H2O, price: 11.00 EUR / 1 kg, bought: ${bought}${more} }\n`;
const uses = (number: number, amount: string, more = '', status = 'finished'): string =>
  entry(number, `reagents: [{ reagent: vitriol, amount: ${amount} }]\n${more}`).replace('finished', status);

async function stockIn(shelfText: string, ...entries: readonly string[]) {
  const folder = folderOf({
    'journal.yaml': settings,
    'shelf.yaml': shelfText,
    ...Object.fromEntries(entries.map((text, at) => [`entries/00${at + 1}-x.md`, text])),
  });
  const { model, remarks } = await openJournal(folder, { drafts: true });
  const stock = model!.reagents.find(({ id }) => id === 'vitriol')!.stock;
  const told = remarksAsJson(remarks).filter(({ rule }) => rule === 'shelf-runs-out');
  return { stock, told };
}

describe('a jar of which it is written when how much was bought', () => {
  it('has left what was bought less what was used, each sample counted', async () => {
    // 100 − (12.5 + 2 × 5) = 77.5 g; at 11 EUR a kg 22.5 g cost 0.2475, 77.5 g 0.8525.
    const two = 'samples: [{ sample: A }, { sample: B }]\n';
    const { stock, told } = await stockIn(
      shelf('{ amount: 100 g, date: 2026-01-01 }'),
      uses(1, '12.5 g'),
      uses(2, '5.00 g', two),
    );
    expect(stock).toMatchObject({
      bought: { value: '100', unit: 'g' },
      used: { value: '22.5', text: '22.50 g' },
      left: { value: '77.5' },
      costUsed: { value: '0.2475', unit: 'EUR' },
      costLeft: { value: '0.8525' },
      unknownIn: [],
    });
    expect(told).toEqual([]);
  });
  it('says of what was taken by the spoon how far that may be off, and of weighings not', async () => {
    // 1 tbsp, 15 mL at 0.9 to 1.52 g/mL; at least 13.5 g and at most 22.8 g go.
    const { stock } = await stockIn(shelf('{ amount: 100 g, date: 2026-01-01 }'), uses(1, '1 tbsp'), uses(2, '5.00 g'));
    expect(stock!.left.text).toMatch(/^\d\d ± \d+ g$/);
    expect(stock!.used.text).toMatch(/^\d\d ± \d+ g$/);
    const { told } = await stockIn(
      shelf('{ amount: 30 g, date: 2026-01-01 }'),
      uses(1, '1 tbsp'),
      uses(2, '20.00 g', '', 'planned'),
    );
    expect(told[0]!.found).toMatch(/Of vitriol \d+ ± \d+ g will be left, and this entry takes 20\.00 g/);
  });
  it('has nothing to remark where it suffices', async () => {
    const two = 'samples: [{ sample: A }, { sample: B }]\n';
    const { told } = await stockIn(shelf('{ amount: 100 g, date: 2026-01-01 }'), uses(2, '5.00 g', two));
    expect(told).toEqual([]);
  });
  it('counts uses since that day alone, and none of entries that are planned or were given up', async () => {
    const { stock } = await stockIn(
      shelf('{ amount: 100 g, date: 2026-01-03 }'),
      uses(1, '10 g'),
      uses(2, '20 g'),
      uses(3, '5 g', '', 'planned'),
      uses(4, '7 g', 'abandoned: Not worth it.\n', 'abandoned'),
      uses(5, '1 g', '', 'running'),
    );
    // Entries 1 to 5 are of 2 to 6 January.
    expect(stock).toMatchObject({ used: { value: '21' }, left: { value: '79' }, planned: { value: '5' } });
  });
  it('counts a use of the month in which it was bought, as it may be gone', async () => {
    const { stock } = await stockIn(
      shelf('{ amount: 100 g, date: 2026-01-03 }'),
      uses(1, '10 g').replace(/date: .*/, 'date: 2026-01'),
      uses(2, '20 g').replace(/date: .*/, 'date: 2025-12'),
    );
    expect(stock).toMatchObject({ used: { value: '10' } });
  });
  it('bought by volume, counts volumes, by mass where the density tells them', async () => {
    const { stock } = await stockIn(
      'vitriol: { name: acetic acid, formula: CH3COOH, strength: 60 %, density: 1.06 g/mL, ' +
        'bought: { amount: 1 L, date: 2026-01-01 } }\n',
      uses(1, '10 mL'),
      uses(2, '10.6 g'),
    );
    // 1000 − 10 − 10.6/1.06 = 980 mL.
    expect(Number(stock!.left.value)).toBeCloseTo(980, 6);
  });
  it('says of which entries it does not know the amount', async () => {
    const { stock } = await stockIn(shelf('{ amount: 100 g, date: 2026-01-01 }'), uses(1, 'excess'), uses(2, '1 g'));
    expect(stock).toMatchObject({ left: { value: '99' }, unknownIn: [1] });
  });
  it('without bought: has no stock', async () => {
    expect((await stockIn('vitriol: { name: blue vitriol, formula: CuSO4 }\n', uses(1, '1 g'))).stock).toBeUndefined();
  });
});

describe('a remark before it runs out', () => {
  it('stands at the use of the planned entry for which it will not be enough', async () => {
    const { told } = await stockIn(
      shelf('{ amount: 20 g, date: 2026-01-01 }'),
      uses(1, '12 g'),
      uses(2, '5 g', '', 'planned'),
      uses(3, '4 g', '', 'planned'),
    );
    expect(told).toHaveLength(1);
    expect(told[0]).toMatchObject({
      file: 'entries/003-x.md',
      severity: 'warning',
      line: 6,
      found: 'Of vitriol 3.00 g will be left, and this entry takes 4.00 g.',
    });
  });
  it('and where more was used than was bought', async () => {
    const { told, stock } = await stockIn(shelf('{ amount: 10 g, date: 2026-01-01 }'), uses(1, '12 g'));
    expect(told[0]?.found).toContain('more than was bought');
    expect(stock?.left.text).toBe('−2.00 g');
    expect(stock?.costLeft).toBeUndefined();
  });
});
