// One entry → everything computed from it; a journal → all of them, earlier lots first.
import { identify, hashOf, identityOf } from '../kept/inputs.js';
import { keptNowhere, madeOf, type Kept } from '../kept/kept.js';
import { lookedUp } from '../looked-up.js';
import { once, onceFor } from '../once.js';
import type { Entry, Journal } from '../journal/entry.js';
import { remarksOn } from '../journal/place.js';
import type { Finding } from '../remarks/findings.js';
import { factsOf, remark, type Remark } from '../remarks/remark.js';
import { reckonAmounts } from './amounts.js';
import {
  reckonedWith,
  type LotFacts,
  type LotStock,
  type PhotographOutcome,
  type ReckonedEntry,
  type ReckoningContext,
  type ReckoningSettings,
} from './contracts.js';
import { gistOf, rowsOfReckoning } from './gist.js';
import { lotsOf, overspentLots, stockOfLots } from './lots.js';
import { jarsThatRunOut } from './shelf-stock.js';
import { reckonAppearance } from './appearance.js';
import { reckonDangers } from './dangers.js';
import { colourGivingElements } from './elements.js';
import { toldInWords } from './told-stuff.js';
import { Sources, type DrawnOn, type LotSource } from './sources.js';

/** Reckons one entry. Pure: what it needs of the journal comes with `context`. */
export function reckonEntry(entry: Entry, context: ReckoningContext): ReckonedEntry {
  const { amounts, findings: inAmounts } = reckonAmounts(entry, context);
  const { dangers, findings: inDangers } = reckonDangers(entry, context);
  const { appearance, findings: inAppearance } = reckonAppearance(entry, context);
  return {
    entry,
    elements: colourGivingElements(entry.pigment),
    gist: gistOf(entry, amounts, dangers, appearance),
    rows: rowsOfReckoning(entry, amounts, appearance),
    findings: [...inAmounts, ...inDangers, ...inAppearance],
    amounts,
    dangers,
    appearance,
  };
}

/** What is large of a reckoning, and loaded only when it is asked for. */
type Whole = Pick<ReckonedEntry, 'amounts' | 'dangers' | 'appearance'>;

/** A reckoning as it is kept: what it drew on, and what of it is small. */
interface KeptReckoning extends Pick<ReckonedEntry, 'elements' | 'gist' | 'findings'> {
  readonly drawnOn: readonly DrawnOn[];
  /** What tells this reckoning from any other. */
  readonly identity: string;
  readonly lots: readonly (readonly [lot: string, identity: string])[];
}

/** Of one front matter so many reckonings are kept: with drafts and without, before and after an edit of the shelf. */
const mostOfOneEntry = 3;

/**
 * So many reckonings that are kept elsewhere are held in memory besides: pages and lists ask for one entry after the
 * other, and what was asked for last is soon asked for again.
 */
const mostAtHand = 600;

/** Where more than so many are reckoned, few of them would be at hand anyhow, and so many are enough. */
const [many, mostOfMany] = [1200, 150];

/** What was asked for last; what falls out of it is loaded again. */
class AtHand {
  private readonly wholes = new Map<string, Whole>();
  private reckoned = 0;

  of(identity: string, load: () => Whole): Whole {
    const whole = this.wholes.get(identity) ?? load();
    this.hold(identity, whole);
    return whole;
  }

  /** What is at hand, which is not asked for again. */
  take(identity: string): Whole | undefined {
    const whole = this.wholes.get(identity);
    this.wholes.delete(identity);
    return whole;
  }

  /** What was reckoned just now. */
  put(identity: string, whole: Whole): void {
    this.reckoned += 1;
    this.hold(identity, whole);
  }

  private hold(identity: string, whole: Whole): void {
    this.wholes.delete(identity);
    this.wholes.set(identity, whole);
    const most = this.reckoned > many ? mostOfMany : mostAtHand;
    for (const oldest of this.wholes.keys()) {
      if (this.wholes.size <= most) return;
      this.wholes.delete(oldest);
    }
  }
}

/**
 * What is at hand of what is kept. What one reckoning of a journal has made, as where threads share it beforehand, the
 * next does not load again.
 */
const atHandOf = onceFor((_kept: Kept) => new AtHand());

/** What is large of a kept reckoning, asked for the last time; undefined where it is not there any more. */
export function takeWhole(identity: string, kept: Kept): Whole | undefined {
  return atHandOf(kept).take(identity) ?? (kept.getLarge(identity) as Whole | undefined);
}

const rowsKey = (identity: string): string => `rows ${identity}`;

/** What of an entry has a part in its reckoning; plain data. */
export interface EntryPart {
  /** Identity of the settings that it was worked out for. */
  readonly settings: string;
  /** What of the write-up has a part in it. */
  readonly told: string;
  readonly key: string;
  /** Hash of what has no part in it. */
  readonly written: string;
}
const entryParts = new WeakMap<Entry, EntryPart>();

/** A reckoning put together before, while the entry and what is kept of it are the same objects still. */
const foundBefore = new WeakMap<Entry, { readonly known: KeptReckoning; readonly one: ReckonedEntry }>();
/** The same with its stocks. */
const stockedBefore = new WeakMap<ReckonedEntry, { readonly stocks: EntryStocks; readonly whole: ReckonedEntry }>();

/** How a reckoning is kept: what is large of it under its key, and what of it later entries may draw on. */
export interface KeptAs extends Pick<KeptReckoning, 'lots'> {
  readonly large: string;
  /** Lots that it asked for, those too that were not there. */
  readonly asked: readonly string[];
}

const keptAsBefore = new WeakMap<ReckonedEntry, KeptAs>();

/** How a reckoning is kept; undefined where it is not. */
export const keptAs = (one: ReckonedEntry): KeptAs | undefined => keptAsBefore.get(one);

const keptOf = ({ identity, lots, drawnOn }: KeptReckoning): KeptAs => ({
  large: identity,
  lots,
  asked: drawnOn.flatMap(([kind, name]) => (kind === 'lot' ? [name] : [])),
});

/** Findings on stocks, which are known when all entries are. */
const foundInStocks = new WeakMap<ReckonedEntry, readonly Finding[]>();

export const findingsOnStocks = (one: ReckonedEntry): readonly Finding[] => foundInStocks.get(one) ?? [];

const settingsOf = ({ settings }: Pick<Journal, 'settings'>): ReckoningSettings =>
  Object.fromEntries(reckonedWith.map((key) => [key, settings[key]])) as ReckoningSettings;

/** Hash of what of an entry has no part in its reckoning: its words, and where they stand. */
export const writtenOf = ({ body, matterLine, bodyLine }: Entry): string =>
  hashOf(body, String(matterLine), String(bodyLine));

/** What of an entry has a part in its reckoning, and what that is kept under; worked out once for an entry as read. */
function entryPart(entry: Entry, of: ReckoningSettings): EntryPart {
  const settings = identityOf(of);
  const before = entryParts.get(entry);
  if (before?.settings === settings) return before;
  const told = toldInWords(entry);
  const key = `reckoned ${hashOf(settings, entry.file, entry.matter, told)}`;
  const written = writtenOf(entry);
  const part = { settings, told, key, written };
  entryParts.set(entry, part);
  return part;
}

/** The same where it has been worked out, here or for the same entry in another thread. */
export const partWorkedOut = (entry: Entry): EntryPart | undefined => entryParts.get(entry);
export const takePart = (entry: Entry, part: EntryPart): void => void entryParts.set(entry, part);

/** Whether anything is kept that may be the reckoning of an entry still. */
export const wasReckoned = (entry: Entry, journal: Pick<Journal, 'settings'>, kept: Kept): boolean =>
  kept.has(entryPart(entry, settingsOf(journal)).key);

/** Where what is large of a reckoning lies. */
interface LyingElsewhere {
  readonly entry: Entry;
  readonly identity: string;
  readonly kept: Kept;
  readonly atHand: AtHand;
  readonly reckonAgain: () => Whole;
}

const wholeOf = ({ identity, kept, atHand, reckonAgain }: LyingElsewhere): Whole =>
  atHand.of(identity, () => (kept.getLarge(identity) as Whole | undefined) ?? reckonAgain());

function rowsElsewhere(one: LyingElsewhere): ReckonedEntry['rows'] {
  const key = rowsKey(one.identity);
  const before = one.kept.get(key) as ReckonedEntry['rows'];
  if (before) return before;
  const { amounts, appearance } = wholeOf(one);
  const rows = rowsOfReckoning(one.entry, amounts, appearance);
  one.kept.put(key, rows);
  return rows;
}

const withRowsLater = lookedUp<LyingElsewhere & Pick<PutDown, 'rows'>, Whole & Pick<ReckonedEntry, 'rows'>>({
  rows: ({ rows }) => rows(),
  amounts: (one) => wholeOf(one).amounts,
  dangers: (one) => wholeOf(one).dangers,
  appearance: (one) => wholeOf(one).appearance,
});

const withWhole = lookedUp<LyingElsewhere, Whole & Pick<ReckonedEntry, 'rows'>>({
  rows: rowsElsewhere,
  amounts: (one) => wholeOf(one).amounts,
  dangers: (one) => wholeOf(one).dangers,
  appearance: (one) => wholeOf(one).appearance,
});

/** What of a journal has a part in its reckoning. */
export type ReckonedJournal = Pick<Journal, 'settings' | 'shelf' | 'readings' | 'entries'>;

/** What every entry may draw on besides lots. */
export type DrawnUpon = Omit<ReckonedJournal, 'entries'>;

/** Reckons the entries of one journal, or finds what was reckoned of the same before. */
class JournalReckoning {
  private readonly lots = new Map<string, LotSource>();
  private readonly sources: Sources;
  private readonly settings: ReckoningSettings;
  private readonly atHand: AtHand;

  constructor(
    journal: DrawnUpon,
    photographs: ReadonlyMap<string, PhotographOutcome>,
    private readonly kept: Kept,
  ) {
    this.settings = settingsOf(journal);
    this.atHand = atHandOf(kept);
    this.sources = new Sources({
      settings: this.settings,
      shelf: journal.shelf.reagents,
      lot: (name) => this.lots.get(name),
      reading: (path) => journal.readings.get(path),
      photograph: (key) => photographs.get(key),
    });
  }

  private partOf(entry: Entry): EntryPart {
    return entryPart(entry, this.settings);
  }

  reckon(entry: Entry): ReckonedEntry {
    const { key, told } = this.partOf(entry);
    const before = (this.kept.get(key) ?? []) as readonly KeptReckoning[];
    const same = before.find(({ drawnOn }) => this.sources.areAsTheyWere(drawnOn));
    const known = same && this.kept.hasLarge(same.identity) ? same : undefined;
    if (known) return this.found(entry, known);
    const { one, kept } = this.anew(entry, key, told);
    this.kept.put(key, [kept, ...before.filter((other) => other !== same)].slice(0, mostOfOneEntry));
    return one;
  }

  /** Takes a reckoning as it is, for what later entries draw on of it. */
  take(one: ReckonedEntry): ReckonedEntry {
    this.takeLots(one, keptAsBefore.get(one) ?? { lots: [] });
    return one;
  }

  private found(entry: Entry, known: KeptReckoning): ReckonedEntry {
    const before = foundBefore.get(entry);
    const one = before?.known === known ? before.one : this.put(entry, known);
    keptAsBefore.set(one, keptOf(known));
    this.takeLots(one, known);
    return one;
  }

  /** What was kept of a reckoning with the entry that it is of; what is large of it is loaded when it is asked for. */
  private put(entry: Entry, known: KeptReckoning): ReckonedEntry {
    const { elements, gist, findings, identity, drawnOn } = known;
    const { told, written } = this.partOf(entry);
    const now = { entry, identity, elements, gist, findings };
    const whole = this.kept.atHand?.(identity) as Whole | undefined;
    if (whole) {
      const rows = this.kept.get(rowsKey(identity)) as ReckonedEntry['rows'];
      const one = identify({ ...now, ...whole, ...(rows && { rows }) }, hashOf(identity, written));
      foundBefore.set(entry, { known, one });
      return one;
    }
    const again = (context: ReckoningContext): Whole => reckonEntry({ ...entry, body: told }, context);
    const one = this.loadedLater(now, () => this.sources.asWhen(drawnOn, again));
    return identify(one, hashOf(identity, written));
  }

  /** A reckoning of which what is large, and what lists show, is loaded when it is asked for. */
  private loadedLater(
    now: Omit<ReckonedEntry, keyof Whole | 'rows' | 'identity'> & { readonly identity: string },
    reckonAgain: () => Whole,
  ): ReckonedEntry {
    const { kept, atHand } = this;
    const { identity } = now;
    return withWhole({ ...now }, { entry: now.entry, identity, kept, atHand, reckonAgain });
  }

  private anew(entry: Entry, key: string, told: string): { readonly one: ReckonedEntry; readonly kept: KeptReckoning } {
    this.sources.takeNotes();
    // Of the write-up only what is told by it has a part in it, and nothing else can have: it is not there.
    const again = (context: ReckoningContext): ReckonedEntry => reckonEntry({ ...entry, body: told }, context);
    const { amounts, dangers, appearance, rows, ...rest } = again(this.sources.context);
    const drawnOn = this.sources.takeNotes();
    const identity = `whole ${hashOf(key, JSON.stringify(drawnOn))}`;
    const whole: Whole = { amounts, dangers, appearance };
    this.kept.putLarge(identity, whole);
    this.kept.put(rowsKey(identity), rows);
    const isElsewhere = this.isElsewhere(identity);
    // No function here may name what is large: all that are made here would hold it for as long as the entry is there.
    if (isElsewhere) this.atHand.put(identity, whole);
    const one = isElsewhere
      ? this.loadedLater({ ...rest, entry, identity }, () => this.sources.asWhen(drawnOn, again))
      : { ...rest, entry, identity, ...whole, rows };
    const lots = lotsOf(entry, amounts).map((lot) => [lot.lot, hashOf(JSON.stringify(lot))] as const);
    const { elements, gist, findings } = rest;
    const kept = { drawnOn, identity, lots, elements, gist, findings };
    if (this.kept.hasLarge(identity)) keptAsBefore.set(one, keptOf(kept));
    this.takeLots(one, kept);
    if (this.kept.atHand) foundBefore.set(entry, { known: kept, one });
    return { one: identify(one, hashOf(identity, this.partOf(entry).written)), kept };
  }

  /** Whether a reckoning lies where it can be loaded from, and need not be held. */
  private isElsewhere(identity: string): boolean {
    return this.kept.atHand === undefined && this.kept.hasLarge(identity);
  }

  private takeLots(one: ReckonedEntry, { lots }: Pick<KeptReckoning, 'lots'>): void {
    if (lots.length === 0) return;
    const facts = lotFactsOf(one);
    for (const [name, identity] of lots) this.lots.set(name, { identity, facts: () => facts().get(name)! });
  }
}

const lotFactsOf = onceFor((one: ReckonedEntry) =>
  once((): ReadonlyMap<string, LotFacts> => new Map(lotsOf(one.entry, one.amounts).map((lot) => [lot.lot, lot]))),
);

/**
 * Reckons entries one by one, each after those of which it takes lots.
 * @param kept what was reckoned before; what draws on the same as then is not reckoned again
 * @example const reckon = oneByOne(journal); journal.entries.map(reckon);
 */
export function oneByOne(
  journal: DrawnUpon,
  photographs: ReadonlyMap<string, PhotographOutcome> = new Map(),
  kept: Kept = keptNowhere,
): (entry: Entry) => ReckonedEntry {
  const reckoning = new JournalReckoning(journal, photographs, kept);
  return (entry) => reckoning.reckon(entry);
}

/** What was reckoned last with what is kept in memory, and of what. */
interface ReckonedBefore {
  readonly journal: ReckonedJournal;
  readonly photographs: ReadonlyMap<string, PhotographOutcome>;
  readonly reckoned: readonly ReckonedEntry[];
}
const reckonedBefore = new WeakMap<Kept, ReckonedBefore>();

/**
 * The same after an edit that touched only words, which have no part in any reckoning; undefined where more is new.
 */
function reckonedAgain(
  { settings, shelf, readings, entries }: ReckonedJournal,
  photographs: ReadonlyMap<string, PhotographOutcome>,
  { journal, photographs: photographsBefore, reckoned }: ReckonedBefore,
): ReckonedEntry[] | undefined {
  const isSame =
    shelf === journal.shelf &&
    settings.currency === journal.settings.currency &&
    readings === journal.readings &&
    entries.length === reckoned.length &&
    photographs.size === photographsBefore.size &&
    [...photographs].every(([key, outcome]) => photographsBefore.get(key) === outcome) &&
    identityOf(settingsOf({ settings })) === identityOf(settingsOf(journal));
  if (!isSame) return undefined;
  const of = settingsOf({ settings });
  const isAlike = (one: Entry, other: Entry): boolean =>
    one === other || entryPart(one, of).key === entryPart(other, of).key;
  if (!entries.every((one, at) => isAlike(one, reckoned[at]!.entry))) return undefined;
  return entries.map((one, at) => (one === reckoned[at]!.entry ? reckoned[at]! : withWords(reckoned[at]!, one, of)));
}

/** Asks for what is kept of reckonings, so that it is not forgotten. */
function keepOn(reckoned: readonly ReckonedEntry[], of: ReckoningSettings, kept: Kept): void {
  for (const { entry } of reckoned)
    for (const { identity } of (kept.get(entryPart(entry, of).key) ?? []) as readonly KeptReckoning[]) {
      kept.hasLarge(identity);
      kept.get(rowsKey(identity));
    }
}

/** A reckoning of an entry of which only words are others. */
function withWords(before: ReckonedEntry, entry: Entry, of: ReckoningSettings): ReckonedEntry {
  return identify({ ...before, entry }, hashOf('again', before.identity ?? '', entryPart(entry, of).written));
}

/**
 * Reckons every entry of a journal, in order of number, so that a lot is known before it is used.
 * @param photographs colours that were read from photographs, by the keys of their requests
 * @param kept what was reckoned before; what draws on the same as then is not reckoned again
 * @returns the entries as they stand in the journal
 */
export function reckonJournal(
  journal: ReckonedJournal,
  photographs: ReadonlyMap<string, PhotographOutcome> = new Map(),
  kept: Kept = keptNowhere,
): ReckonedEntry[] {
  const before = reckonedBefore.get(kept);
  const again = before && reckonedAgain(journal, photographs, before);
  if (again) keepOn(again, settingsOf(journal), kept);
  const reckoned = again ?? withStocks(journal.entries.map(oneByOne(journal, photographs, kept)), journal, kept);
  // Only what is at hand can be taken as it is.
  if (kept.atHand) reckonedBefore.set(kept, { journal, photographs, reckoned });
  return reckoned;
}

/** A reckoning as it was put down, without what is large of it. */
export interface PutDown extends Pick<ReckonedEntry, 'elements' | 'gist'> {
  readonly as: KeptAs;
  /** Read when they are asked for. */
  readonly rows: () => ReckonedEntry['rows'];
  /** `writtenOf` its entry. */
  readonly written: string;
}

/** A reckoning of which the findings were told. @param kept has what is large of it, or it cannot be asked for */
export function takenUp(entry: Entry, { as, written, elements, gist, rows }: PutDown, kept: Kept): ReckonedEntry {
  const { large: identity } = as;
  const reckonAgain = (): Whole => {
    throw new Error(`what was kept of ${entry.file} could not be read again`);
  };
  const from: LyingElsewhere & Pick<PutDown, 'rows'> = {
    ...{ entry, identity, kept, atHand: atHandOf(kept), reckonAgain },
    rows,
  };
  const one: ReckonedEntry = withRowsLater({ entry, identity, elements, gist, findings: [] }, from);
  keptAsBefore.set(one, as);
  return identify(one, hashOf(identity, written));
}

/**
 * The reckonings of a journal of which few entries are to be reckoned.
 * @param others those of all other entries, as they were taken up
 * @param kept where what is reckoned now is put
 */
export function reckonAmong(
  journal: ReckonedJournal,
  others: ReadonlyMap<Entry, ReckonedEntry>,
  kept: Kept,
): readonly ReckonedEntry[] {
  const reckoning = new JournalReckoning(journal, new Map(), kept);
  const reckoned = journal.entries.map((entry) => {
    const other = others.get(entry);
    return other ? reckoning.take(other) : reckoning.reckon(entry);
  });
  return withStocks(reckoned, journal, kept);
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
function withStocks(reckoned: readonly ReckonedEntry[], journal: ReckonedJournal, kept: Kept): ReckonedEntry[] {
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
    const keptSo = keptAsBefore.get(one);
    if (keptSo !== undefined) keptAsBefore.set(whole, keptSo);
    foundInStocks.set(whole, found);
    return identify(whole, hashOf(identityOf(one), identity));
  });
}

/** Every remark of the reckoning, in order of entry. */
export const remarksOf = (reckoned: readonly ReckonedEntry[], kept: Kept = keptNowhere): Remark[] =>
  reckoned.flatMap((one) => {
    const { entry, findings } = one;
    if (findings.length === 0) return [];
    const before = remarksBefore.get(one);
    if (before) return before;
    // What tells a reckoning from others tells its findings and the lines of its entry.
    const facts = madeOf(kept, 'remarks', one, () => remarksOn(entry, findings).map(factsOf));
    const remarks = facts.map(remark);
    remarksBefore.set(one, remarks);
    return remarks;
  });

const remarksBefore = new WeakMap<ReckonedEntry, readonly Remark[]>();
