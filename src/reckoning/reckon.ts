// One entry → everything computed from it; a journal → all of them, earlier lots first.
import type { Entry, Journal } from '../journal/entry.js';
import { remarksOn } from '../journal/place.js';
import type { Remark } from '../remarks/remark.js';
import { reckonAmounts } from './amounts.js';
import type { LotFacts, PhotographOutcome, ReckonedEntry, ReckoningContext } from './contracts.js';
import { lotsOf, overspentLots, stockOfLots } from './lots.js';
import { reckonAppearance } from './appearance.js';
import { reckonDangers } from './dangers.js';
import { colourGivingElements } from './elements.js';

/** Reckons one entry. Pure: what it needs of the journal comes with `context`. */
export function reckonEntry(entry: Entry, context: ReckoningContext): ReckonedEntry {
  const { amounts, findings: inAmounts } = reckonAmounts(entry, context);
  const { dangers, findings: inDangers } = reckonDangers(entry, context);
  const { appearance, findings: inAppearance } = reckonAppearance(entry, context);
  return {
    entry,
    amounts,
    dangers,
    appearance,
    elements: colourGivingElements(entry.pigment),
    findings: [...inAmounts, ...inDangers, ...inAppearance],
  };
}

/**
 * Reckons every entry of a journal, in order of number, so that a lot is known before it is used.
 * @param photographs colours that were read from photographs, by the keys of their requests
 * @returns the entries as they stand in the journal
 */
export function reckonJournal(
  journal: Journal,
  photographs: ReadonlyMap<string, PhotographOutcome> = new Map(),
): ReckonedEntry[] {
  const lots = new Map<string, LotFacts>();
  const context: ReckoningContext = {
    settings: journal.settings,
    shelf: journal.shelf.reagents,
    lot: (name) => lots.get(name),
    reading: (path) => journal.readings.get(path),
    photograph: (key) => photographs.get(key),
  };
  const reckoned = journal.entries.map((entry) => {
    const one = reckonEntry(entry, context);
    for (const lot of lotsOf(entry, one.amounts)) lots.set(lot.lot, lot);
    return one;
  });
  return withStocks(reckoned);
}

/** Sorted out by a key once, so that the cost of an entry does not grow with the journal. */
function grouped<T>(all: readonly T[], keyOf: (one: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const one of all) {
    const group = groups.get(keyOf(one));
    if (group) group.push(one);
    else groups.set(keyOf(one), [one]);
  }
  return groups;
}

/** What is left of lots, and whether one was overspent, shows only when all their uses are known. */
function withStocks(reckoned: readonly ReckonedEntry[]): ReckonedEntry[] {
  const stocks = [...stockOfLots(reckoned).values()];
  if (stocks.length === 0) return [...reckoned];
  const ofEntry = grouped(stocks, ({ lot }) => lot.slice(0, lot.indexOf('/')));
  const overspent = overspentLots(reckoned);
  return reckoned.map((one) => {
    const stock = ofEntry.get(String(one.entry.number)) ?? [];
    const findings = overspent.get(one.entry.number) ?? [];
    return stock.length === 0 && findings.length === 0
      ? one
      : {
          ...one,
          ...(stock.length > 0 && { amounts: { ...one.amounts, stock } }),
          findings: [...one.findings, ...findings],
        };
  });
}

/** Every remark of the reckoning, in order of entry. */
export const remarksOf = (reckoned: readonly ReckonedEntry[]): Remark[] =>
  reckoned.flatMap(({ entry, findings }) => remarksOn(entry, findings));
