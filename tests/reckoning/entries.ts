// Entries for tests of the reckoning, written as a maker writes them.
import { readEntry, remarksOn, type Entry, type ShelfReagent } from '../../src/journal/index.js';
import type { JournalSettings } from '../../src/journal/schema.js';
import { reckonAmounts } from '../../src/reckoning/amounts/amounts.js';
import { lotsOf } from '../../src/reckoning/lots.js';
import type { AmountsReckoning, LotFacts, ReckoningContext } from '../../src/reckoning/contracts.js';
import type { Remark } from '../../src/remarks/remark.js';

export function entry(number: number, matter: string): Entry {
  const { entry: read, remarks } = readEntry(
    `entries/${String(number).padStart(3, '0')}-test.md`,
    `---\nnumber: ${number}\ntitle: Test ${number}\ndate: 2026-01-${String(number).padStart(2, '0')}\nstatus: ` +
      `finished\n${matter.trim()}\n---\nWords.\n`,
  );
  if (!read) throw new Error(remarks.map(({ reason }) => reason).join('\n'));
  return read;
}

export const shelf: Readonly<Record<string, ShelfReagent>> = {
  'blue-vitriol': { name: 'copper(II) sulfate pentahydrate', formula: 'CuSO4·5H2O', price: '11.00 EUR / 1 kg' },
  soda: { name: 'sodium carbonate, anhydrous', formula: 'Na2CO3', price: '3.90 EUR / 1 kg' },
  'caustic-soda': {
    name: 'sodium hydroxide solution',
    formula: 'NaOH',
    strength: '2.0 mol/L',
    density: '1.08 g/mL',
    price: '0.60 / 500 mL',
  },
  vinegar: {
    name: 'acetic acid',
    formula: 'CH3COOH',
    strength: '60 %',
    density: '1.06 g/mL',
    'drop-volume': '0.05 mL',
  },
  water: { name: 'water', formula: 'H2O' },
};

/** A journal with nothing on its shelf, and no entry but the one that is asked about. */
export const emptyRoom: ReckoningContext = {
  settings: { title: 'T', address: 'https://t.example/', author: 'T', language: 'en-GB', cautions: [] } as never,
  shelf: new Map(),
  lot: () => undefined,
  reading: () => undefined,
};

export interface Reckoned {
  readonly entry: Entry;
  readonly amounts: AmountsReckoning;
  readonly remarks: readonly Remark[];
}

/** Reckons entries in order, the later ones knowing the lots of the earlier. */
export function reckonAll(entries: readonly Entry[], settings: Partial<JournalSettings> = {}): readonly Reckoned[] {
  const lots = new Map<string, LotFacts>();
  const context: ReckoningContext = {
    settings: {
      title: 'Test',
      address: 'https://test.example/',
      author: 'Test',
      language: 'en-GB',
      cautions: [],
      currency: 'EUR',
      ...settings,
    } as JournalSettings,
    shelf: new Map(Object.entries(shelf)),
    lot: (name) => lots.get(name),
    reading: () => undefined,
  };
  return entries.map((one) => {
    const { amounts, findings } = reckonAmounts(one, context);
    const remarks = remarksOn(one, findings);
    for (const lot of lotsOf(one, amounts)) lots.set(lot.lot, lot);
    return { entry: one, amounts, remarks };
  });
}
export const reckon = (matter: string, settings: Partial<JournalSettings> = {}): Reckoned =>
  reckonAll([entry(14, matter)], settings)[0]!;
