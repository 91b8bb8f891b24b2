// One entry → everything computed from it; a journal → all of them, earlier lots first.
import { identify, hashOf, identityOf } from '../kept/inputs.js';
import { keptNowhere, madeOf, type Kept } from '../kept/kept.js';
import { once, onceFor } from '../once.js';
import type { Entry } from '../journal/entry.js';
import { remarksOn } from '../journal/place.js';
import { factsOf, remark, type Remark } from '../remarks/remark.js';
import { reckonAmounts } from './amounts/amounts.js';
import type { LotFacts, PhotographOutcome, ReckonedEntry, ReckoningContext, ReckoningSettings } from './contracts.js';
import { entryPart, settingsOf, type EntryPart } from './entry-part.js';
import { gistOf, rowsOfReckoning } from './gist.js';
import { withStocks } from './journal-stocks.js';
import {
  atHandOf,
  keptAs,
  keptAsOf,
  noteKeptAs,
  rowsKey,
  withWhole,
  type AtHand,
  type KeptReckoning,
  type Whole,
} from './kept-reckoning.js';
import { lotsOf } from './lots.js';
import { reckonAppearance } from './appearance/appearance.js';
import { reckonDangers } from './dangers/dangers.js';
import { colourGivingElements } from './elements.js';
import { Sources, type DrawnUpon, type LotSource, type ReckonedJournal } from './sources.js';

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

/** Of one front matter so many reckonings are kept: with drafts and without, before and after an edit of the shelf. */
const mostOfOneEntry = 3;

/** A reckoning put together before, while the entry and what is kept of it are the same objects still. */
const foundBefore = new WeakMap<Entry, { readonly known: KeptReckoning; readonly one: ReckonedEntry }>();

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
    this.takeLots(one, keptAs(one) ?? { lots: [] });
    return one;
  }

  private found(entry: Entry, known: KeptReckoning): ReckonedEntry {
    const before = foundBefore.get(entry);
    const one = before?.known === known ? before.one : this.put(entry, known);
    noteKeptAs(one, keptAsOf(known));
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
    if (this.kept.hasLarge(identity)) noteKeptAs(one, keptAsOf(kept));
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
