// Reckoning an entry's amounts is quick, so that ten thousand cost little.
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readJournal } from '../../src/journal/index.js';
import { lotsOf, reckonAmounts } from '../../src/reckoning/amounts.js';
import type { LotFacts, ReckoningContext } from '../../src/reckoning/context.js';
import { packageFolder } from '../../src/tables.js';

test('an entry of the demonstration journal is reckoned in less than 2 ms, median', async () => {
  const { journal } = await readJournal(join(packageFolder, 'content'), { drafts: true });
  const lots = new Map<string, LotFacts>();
  const context: ReckoningContext = { settings: journal!.settings, shelf: journal!.shelf.reagents, lot: (name) => lots.get(name), reading: () => undefined };
  // The least of several rounds for each entry, since other work may share the machine.
  const least = new Map<number, number>();
  for (let round = 0; round < 8; round += 1) {
    for (const entry of journal!.entries) {
      const began = performance.now();
      const { amounts } = reckonAmounts(entry, context);
      least.set(entry.number, Math.min(least.get(entry.number) ?? Infinity, performance.now() - began));
      for (const lot of lotsOf(entry, amounts)) lots.set(lot.lot, lot);
    }
  }
  const sorted = [...least.values()].sort((a, b) => a - b);
  expect(sorted.length).toBeGreaterThan(20);
  expect(sorted[Math.floor(sorted.length / 2)]!).toBeLessThan(2);
});
