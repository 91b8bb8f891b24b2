// What is left of lots and jars when all entries of a journal are reckoned, and whether it sufficed.
import { hashOf, identify, identityOf } from '../kept/inputs.js';
import { keptNowhere, type Kept } from '../kept/kept.js';
import { lookedUp } from '../looked-up.js';
import type { Journal } from '../journal/entry.js';
import type { Finding } from '../remarks/findings.js';
import type { LotStock, ReckonedEntry } from './contracts.js';
import { keptAs, noteKeptAs, type Whole } from './kept-reckoning.js';
import { overspentLots, stockOfLots } from './lots.js';
import { jarsThatRunOut } from './shelf-stock.js';
import type { ReckonedJournal } from './sources.js';

/** The same with its stocks. */
const stockedBefore = new WeakMap<ReckonedEntry, { readonly stocks: EntryStocks; readonly whole: ReckonedEntry }>();

/** Findings on stocks, which are known when all entries are. */
const foundInStocks = new WeakMap<ReckonedEntry, readonly Finding[]>();

export const findingsOnStocks = (one: ReckonedEntry): readonly Finding[] => foundInStocks.get(one) ?? [];

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

/** What is left of an entry's lots, and what it takes beyond what there is. */
interface EntryStocks {
  readonly stock: readonly LotStock[];
  readonly found: readonly Finding[];
}

/** Stocks as they were worked out last, and of which reckonings. */
interface StocksBefore {
  readonly shelf: Journal['shelf'];
  readonly currency: string | undefined;
  readonly identities: readonly (string | undefined)[];
  readonly ofEntry: ReadonlyMap<number, EntryStocks>;
}

const stocksBefore = new WeakMap<Kept, StocksBefore>();

/** Stocks of the entries that have any, by number. */
function stocksOf(
  reckoned: readonly ReckonedEntry[],
  { shelf, settings }: ReckonedJournal,
): ReadonlyMap<number, EntryStocks> {
  const inShort = reckoned.map(({ entry, gist }) => ({ entry, amounts: gist }));
  const stocks = [...stockOfLots(inShort).values()];
  const byEntry = grouped(stocks, ({ lot }) => lot.slice(0, lot.indexOf('/')));
  const overspent = overspentLots(inShort, stocks);
  const runOut = jarsThatRunOut({ shelf: shelf.reagents, currency: settings.currency, reckoned: inShort });
  const numbers = new Set([...[...byEntry.keys()].map(Number), ...overspent.keys(), ...runOut.keys()]);
  return new Map(
    [...numbers].map((number) => [
      number,
      {
        stock: byEntry.get(String(number)) ?? [],
        found: [...(overspent.get(number) ?? []), ...(runOut.get(number) ?? [])],
      },
    ]),
  );
}

/** The same, taken from the last time where nothing that has a part in it is another. */
function stocksOrBefore(
  reckoned: readonly ReckonedEntry[],
  journal: ReckonedJournal,
  kept: Kept,
): ReadonlyMap<number, EntryStocks> {
  const before = stocksBefore.get(kept);
  const { currency } = journal.settings;
  const isSame =
    before?.shelf === journal.shelf &&
    before.currency === currency &&
    before.identities.length === reckoned.length &&
    reckoned.every(({ identity }, at) => identity !== undefined && identity === before.identities[at]);
  if (isSame) return before.ofEntry;
  const ofEntry = stocksOf(reckoned, journal);
  const identities = reckoned.map(({ identity }) => identity);
  if (kept !== keptNowhere) stocksBefore.set(kept, { shelf: journal.shelf, currency, identities, ofEntry });
  return ofEntry;
}

interface Stocked extends Pick<EntryStocks, 'stock'> {
  readonly one: ReckonedEntry;
}

const withStock = lookedUp<Stocked, Whole & Pick<ReckonedEntry, 'rows'>>({
  rows: ({ one }) => one.rows,
  amounts: ({ one, stock }) => (stock.length > 0 ? { ...one.amounts, stock } : one.amounts),
  dangers: ({ one }) => one.dangers,
  appearance: ({ one }) => one.appearance,
});

/** What tells a reckoning with its stocks from others. @param identity of the reckoning without them */
export const identityWithStocks = (identity: string, { stock, found }: EntryStocks): string =>
  hashOf(identity, JSON.stringify([stock, found]));

/** What is left of lots and jars, and whether it suffices, shows only when all their uses are known. */
export function withStocks(reckoned: readonly ReckonedEntry[], journal: ReckonedJournal, kept: Kept): ReckonedEntry[] {
  const ofEntry = stocksOrBefore(reckoned, journal, kept);
  if (ofEntry.size === 0) return [...reckoned];
  return reckoned.map((one) => {
    const stocks = ofEntry.get(one.entry.number);
    if (!stocks) return one;
    const before = stockedBefore.get(one);
    if (before?.stocks === stocks) return before.whole;
    const { stock, found } = stocks;
    const { entry, elements, gist, findings } = one;
    const identity = identityWithStocks(one.identity ?? identityOf(one), stocks);
    if (before?.whole.identity === identity) return before.whole;
    const own = {
      entry,
      identity,
      elements,
      gist,
      findings: [...findings, ...found],
      ...(stock.length > 0 && { stock }),
    };
    const whole: ReckonedEntry = withStock(own, { one, stock });
    stockedBefore.set(one, { stocks, whole });
    const as = keptAs(one);
    if (as !== undefined) noteKeptAs(whole, as);
    foundInStocks.set(whole, found);
    return identify(whole, hashOf(identityOf(one), identity));
  });
}
