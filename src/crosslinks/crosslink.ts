// All reckoned entries → the journal model: series, colour families, reagents, backlinks, incidents, ideas.
import { bestYield } from './best-yield.js';
import { elementName } from '../chemistry/index.js';
import { bodyLinks, statusReason } from '../journal/index.js';
import type { Entry, Journal, Page } from '../journal/entry.js';
import { ideasOf } from '../journal/ideas.js';
import { hashOf, identify, identityOf } from '../kept/inputs.js';
import { keptNowhere, madeOf, type Kept } from '../kept/kept.js';
import { lookedUp } from '../looked-up.js';
import { onceFor, recentlyFor } from '../once.js';
import type { ShelfReagent, Use } from '../journal/schema.js';
import type { ReckonedEntry } from '../reckoning/contracts.js';
import { byGravity } from '../reckoning/gist.js';
import { assayOfJar } from '../reckoning/ingredients.js';
import { rowsOfReckoning } from '../reckoning/gist.js';
import { repeatedBy } from '../reckoning/repeats.js';
import { stockOfShelf } from '../reckoning/shelf-stock.js';
import { familyOrder } from './families.js';
import { byPigment, isMade, isPigment, knownPigments } from './known-pigments.js';
import type {
  EntryLink,
  EntryLinks,
  Family,
  ForeseenWithIt,
  IdeaRow,
  IncidentRow,
  JournalModel,
  KnownPigment,
  ReagentPage,
  SampleRow,
  Series,
  SeriesCell,
  SeriesEntry,
} from './model.js';

const linkTo = onceFor((entry: Entry): EntryLink => {
  const why = statusReason(entry);
  const link: EntryLink = {
    number: entry.number,
    title: entry.title,
    date: entry.date,
    status: entry.status,
    ...(why !== undefined && { why }),
  };
  // Many pages are made of it: it is read for its identity once.
  identityOf(link);
  return link;
});

/** What the assay of a jar came to. */
function assayedOf(jar: ShelfReagent, kept: Kept): Pick<ReagentPage, 'assayed'> {
  if (!jar.assay) return {};
  const assayed = madeOf(kept, 'assayed', [jar.formula, jar.assay], () => assayOfJar(jar).assayed ?? null);
  return assayed ? { assayed } : {};
}

/** The list of what there is nothing of. */
const none: readonly never[] = [];

/** Adds to a list held in a map. */
function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}

const unique = <T>(list: readonly T[], key: (one: T) => string): readonly T[] =>
  list.length < 2 ? list : [...new Map(list.map((one) => [key(one), one])).values()];

/** Lists ask for rows of one entry after the other, and often again: of so many entries they are held. */
const mostRows = 750;

const rowsOf = recentlyFor(
  (one: ReckonedEntry) => one.rows ?? rowsOfReckoning(one.entry, one.amounts, one.appearance),
  mostRows,
);

/** Which sample of a reckoning. */
interface RowOf {
  readonly reckoned: ReckonedEntry;
  readonly at: number;
}

const withReckoned = lookedUp<RowOf, Pick<SampleRow, 'amounts' | 'appearance'>>({
  amounts: ({ reckoned, at }) => rowsOf(reckoned)[at]?.amounts,
  appearance: ({ reckoned, at }) => rowsOf(reckoned)[at]?.appearance,
});

/** Not among what is copied to worker threads with a row. */
const withCurve = lookedUp<RowOf, Pick<SampleRow, 'curve'>>(
  {
    curve: ({ reckoned: { entry, appearance }, at }) =>
      appearance.samples.find((one) => one.sample === entry.samples[at]!.sample)?.curve,
  },
  { hidden: true },
);

/** The samples of an entry. What is large of a row is looked up in the reckoning when it is asked for. */
const sampleRows = onceFor((reckoned: ReckonedEntry): readonly SampleRow[] => {
  const { entry, elements, gist } = reckoned;
  const link = linkTo(entry);
  const ofEntry = reckoned.identity ?? identityOf(reckoned);
  return entry.samples.map((sample, at) => {
    const { family, familyBasis } = gist.samples[at] ?? {};
    const repeated = repeatedBy(entry, at);
    const plain = {
      entry: link,
      sample: sample.sample,
      differs: sample.differs,
      ...(repeated && { repeats: repeated.sample }),
      looks: sample.looks,
      pigment: entry.pigment?.name,
      formula: entry.pigment?.formula,
      colourIndex: entry.pigment?.['colour-index'],
      elements,
      family,
      familyBasis,
    };
    const from = { reckoned, at };
    const row: SampleRow = withCurve(withReckoned(plain, from), from);
    // There are thousands: hashing each would take longer than making it.
    return identify(row, `row ${ofEntry} ${at}`);
  });
});

const inSeriesBefore = new WeakMap<SampleRow, readonly SeriesEntry[]>();

/** The samples of one entry in a cell of a series. */
export function seriesEntry(samples: readonly SampleRow[]): SeriesEntry {
  const before = inSeriesBefore.get(samples[0]!) ?? [];
  const same = before.find(
    (one) => one.samples.length === samples.length && samples.every((row, at) => row === one.samples[at]),
  );
  if (same) return same;
  const made = seriesEntryOf(samples);
  inSeriesBefore.set(samples[0]!, [...before, made]);
  return made;
}

const withBestYield = lookedUp<readonly SampleRow[], Pick<SeriesEntry, 'bestYield'>>({
  bestYield: (samples) => bestYield(samples.flatMap(({ amounts }) => amounts ?? [])),
});

function seriesEntryOf(samples: readonly SampleRow[]): SeriesEntry {
  const { entry, pigment, formula, colourIndex } = samples[0]!;
  const one: SeriesEntry = withBestYield({ entry, pigment, formula, colourIndex, samples }, samples);
  return identify(one, hashOf('in a series', ...samples.map(identityOf)));
}

/** Entries of which the colour is not told, though the trade knows it: they made a pigment of this family. */
function untoldIn(known: readonly KnownPigment[], rows: readonly SampleRow[]): Pick<SeriesCell, 'untold'> {
  const isTried = (one: KnownPigment, { entry, pigment, formula, colourIndex }: SampleRow): boolean =>
    entry.status === 'failed' && isPigment(one, { name: pigment, formula, colourIndex });
  const untold = rows.filter(
    (row) => row.family === undefined && known.some((one) => isMade(one, [row]) || isTried(one, row)),
  );
  return untold.length === 0 ? {} : { untold: [...new Set(untold.map(({ entry }) => entry))] };
}

/** What the series of an element is called. @param element its symbol */
export const nameOfSeries = (element: string): string => elementName(element);

function seriesOf(element: string, rows: readonly SampleRow[], words: Page | undefined): Series {
  const known = knownPigments().filter((pigment) => pigment.elements.includes(element));
  const shown = new Set([...rows.map((row) => row.family ?? 'unmeasured'), ...known.map((pigment) => pigment.family)]);
  const finished = rows.filter(({ entry }) => entry.status === 'finished');
  const made = byPigment(finished, ({ pigment, formula, colourIndex }) => ({ name: pigment, formula, colourIndex }));
  const cells = [...shown]
    .sort((a, b) => familyOrder(a) - familyOrder(b))
    .map((family) => {
      const byEntry = new Map<number, SampleRow[]>();
      for (const row of rows) if ((row.family ?? 'unmeasured') === family) push(byEntry, row.entry.number, row);
      const entries = [...byEntry.values()].map(seriesEntry);
      return {
        family,
        entries,
        notMade: known.filter((pigment) => pigment.family === family && made(pigment).length === 0),
        ...untoldIn(
          known.filter((pigment) => pigment.family === family),
          rows,
        ),
      };
    });
  const entries = [...new Map(rows.map((row) => [row.entry.number, row.entry])).values()];
  return { element, name: nameOfSeries(element), cells, entries, words };
}

/** What entries say of one another, of reagents and of samples, sorted out by what it is about. */
interface Gathered {
  readonly followedBy: Map<number, EntryLink[]>;
  readonly repeatedBy: Map<number, EntryLink[]>;
  readonly mentionedBy: Map<number, EntryLink[]>;
  readonly lotsTaken: Map<number, { sample: string; by: EntryLink }[]>;
  readonly lotsUsed: Map<number, { lot: string; from: EntryLink; sample: string }[]>;
  readonly uses: Map<string, ReagentPage['uses'][number][]>;
  readonly incidents: IncidentRow[];
  /** By the name of a partner and the rule. */
  readonly foreseen: Map<string, Map<string, DangerBefore>>;
  readonly samples: SampleRow[];
  readonly byElement: Map<string, SampleRow[]>;
  readonly byFamily: Map<string, SampleRow[]>;
}

/** What is looked up while entries are gone through. */
interface Known {
  readonly byNumber: ReadonlyMap<number, EntryLink>;
  readonly numberOfFile: ReadonlyMap<string, number>;
  readonly shelf: Journal['shelf']['reagents'];
}

/** One use of a reagent or lot, and the sample that alone has it. */
interface UseOf {
  readonly use: Use;
  readonly sample?: string;
  /** It has this amount in place of the entry's. */
  readonly instead?: boolean;
}

const usesIn = onceFor(({ reagents, samples }: Entry): readonly UseOf[] => [
  ...reagents.map((use) => ({ use })),
  ...samples.flatMap(({ sample, add = [], change = [] }) => [
    ...add.map((use) => ({ use, sample })),
    ...change.map((use) => ({ use, sample, instead: true })),
  ]),
]);

function gatherLinks(entry: Entry, link: EntryLink, { numberOfFile }: Known, into: Gathered): void {
  for (const number of entry.follows) push(into.followedBy, number, link);
  for (const number of entry.repeats) push(into.repeatedBy, number, link);
  const linked = bodyLinks(entry);
  if (linked.length === 0) return;
  const mentioned = new Set(linked.flatMap(({ target }) => numberOfFile.get(target) ?? []));
  for (const number of mentioned) if (number !== entry.number) push(into.mentionedBy, number, link);
}

function gatherLot(lot: string, link: EntryLink, { byNumber }: Known, into: Gathered): void {
  const [number, sample] = lot.split('/');
  const from = byNumber.get(Number(number));
  if (!from || sample === undefined) return;
  push(into.lotsTaken, from.number, { sample, by: link });
  push(into.lotsUsed, link.number, { lot, from, sample });
}

function gatherUse({ use, sample, instead }: UseOf, entry: Entry, link: EntryLink, known: Known, into: Gathered): void {
  const id = typeof use.reagent === 'string' ? use.reagent : undefined;
  const lot = use.lot ?? (id === undefined ? undefined : known.shelf.get(id)?.lot);
  if (lot !== undefined) gatherLot(lot, link, known, into);
  if (id === undefined) return;
  const common = instead ? entry.reagents.find((one) => one.reagent === id)?.role : undefined;
  push(into.uses, id, { entry: link, amount: use.amount, role: use.role ?? common ?? 'reactant', sample, instead });
}

function gatherWords({ incidents, reagents }: Entry, link: EntryLink, into: Gathered): void {
  if (incidents.length === 0) return;
  const shelfIds = reagents.flatMap((use) => (typeof use.reagent === 'string' ? [use.reagent] : []));
  for (const { what, learned, reagents: named = shelfIds } of incidents)
    into.incidents.push({ entry: link, what, learned, reagents: named });
}

/** A danger as it is gathered. */
type DangerBefore = Omit<ForeseenWithIt, 'entries'> & { readonly entries: number[] };

function gatherDangers({ entry, gist }: ReckonedEntry, { foreseen }: Gathered): void {
  if (entry.status === 'withdrawn') return;
  for (const { partners, rule, title, severity } of gist.foreseen ?? [])
    for (const partner of partners) {
      const known = foreseen.get(partner) ?? new Map<string, DangerBefore>();
      foreseen.set(partner, known);
      const before: DangerBefore = known.get(rule) ?? { rule, title, severity, entries: [] };
      if (before.entries.at(-1) !== entry.number) before.entries.push(entry.number);
      known.set(rule, byGravity({ severity, title }, before) < 0 ? { ...before, severity } : before);
    }
}

/** Nothing came of it: it was never made, or nothing is known of what was. */
const isEmpty = ({ amounts, appearance }: SampleRow): boolean => !amounts?.obtained && !appearance?.swatch;

/** The samples of an entry that are listed: those of which there is something. */
export function listedRows(one: ReckonedEntry): readonly SampleRow[] {
  if (one.entry.status === 'withdrawn') return none;
  const rows = sampleRows(one);
  return one.entry.status === 'abandoned' ? rows.filter((row) => !isEmpty(row)) : rows;
}

function gatherSamples(one: ReckonedEntry, into: Gathered): void {
  for (const row of listedRows(one)) {
    into.samples.push(row);
    for (const element of row.elements) push(into.byElement, element, row);
    if (row.family) push(into.byFamily, row.family, row);
  }
}

/** Goes through all entries once. */
function gather(entries: readonly ReckonedEntry[], known: Known): Gathered {
  const into: Gathered = {
    followedBy: new Map(),
    repeatedBy: new Map(),
    mentionedBy: new Map(),
    lotsTaken: new Map(),
    lotsUsed: new Map(),
    uses: new Map(),
    incidents: [],
    foreseen: new Map(),
    samples: [],
    byElement: new Map(),
    byFamily: new Map(),
  };
  for (const one of entries) {
    const link = linkTo(one.entry);
    gatherLinks(one.entry, link, known, into);
    for (const use of usesIn(one.entry)) gatherUse(use, one.entry, link, known, into);
    gatherWords(one.entry, link, into);
    gatherDangers(one, into);
    gatherSamples(one, into);
  }
  return into;
}

/** Days are written year first, so that their order is that of their signs. */
function newestFirst({ entry: a }: ReckonedEntry, { entry: b }: ReckonedEntry): number {
  if (a.date !== b.date) return a.date < b.date ? 1 : -1;
  return b.number - a.number;
}

/**
 * Joins reckoned entries into the journal model.
 * @param reckoned the entries to show, in any order
 * @param kept what was made of the same before
 */
export function crosslink(
  journal: Journal,
  reckoned: readonly ReckonedEntry[],
  kept: Kept = keptNowhere,
): JournalModel {
  const entries = [...reckoned].sort(newestFirst);
  const byNumber = new Map(reckoned.map(({ entry }) => [entry.number, linkTo(entry)]));
  const entryOf = new Map(reckoned.map(({ entry }) => [entry.number, entry]));
  const numberOfFile = new Map(reckoned.map(({ entry }) => [entry.file, entry.number]));
  const ascending = [...byNumber.values()].sort((a, b) => a.number - b.number);
  const pick = (numbers: readonly number[]): readonly EntryLink[] =>
    numbers.length === 0 ? none : numbers.flatMap((number) => byNumber.get(number) ?? []);

  const gathered = gather(entries, { byNumber, numberOfFile, shelf: journal.shelf.reagents });
  const { followedBy, repeatedBy, mentionedBy, lotsTaken, lotsUsed, uses } = gathered;
  const { incidents, foreseen, samples, byElement, byFamily } = gathered;
  const ideas = ideasOf(reckoned.map(({ entry }) => entry)).flatMap(({ entry, takenUpBy, ...idea }): IdeaRow[] =>
    pick([entry]).map((link) => ({ ...idea, entry: link, takenUpBy: pick(takenUpBy) })),
  );

  const links = new Map<number, EntryLinks>(
    ascending.map((link, at) => [
      link.number,
      {
        previous: ascending[at - 1],
        next: ascending[at + 1],
        follows: pick(entryOf.get(link.number)?.follows ?? none),
        repeats: pick(entryOf.get(link.number)?.repeats ?? none),
        followedBy: followedBy.get(link.number) ?? none,
        repeatedBy: repeatedBy.get(link.number) ?? none,
        mentionedBy: mentionedBy.get(link.number) ?? none,
        lotsUsed: unique(lotsUsed.get(link.number) ?? none, ({ lot }) => lot),
        lotsTaken: unique(lotsTaken.get(link.number) ?? none, ({ sample, by }) => `${sample} ${by.number}`),
      },
    ]),
  );

  const wordsOf = (pages: readonly Page[], name: string): Page | undefined =>
    pages.find((page) => page.name.toLowerCase() === name.toLowerCase());
  const series = [...byElement]
    .map(([element, rows]) => seriesOf(element, rows, wordsOf(journal.series, element)))
    .sort((a, b) => b.entries.length - a.entries.length || a.name.localeCompare(b.name));
  const familyPages: Family[] = [...byFamily]
    .map(([family, rows]) => ({ family, samples: rows, words: wordsOf(journal.colours, family) }))
    .sort((a, b) => familyOrder(a.family) - familyOrder(b.family));
  const stocks = stockOfShelf({
    shelf: journal.shelf.reagents,
    currency: journal.settings.currency,
    reckoned: reckoned.map(({ entry, gist }) => ({ entry, amounts: gist })),
  });
  const stockOfLots = new Map(reckoned.flatMap(({ stock = [] }) => stock.map((one) => [one.lot, one] as const)));
  const lotStockOf = (lot: string | undefined): Pick<ReagentPage, 'lotStock'> => {
    const lotStock = lot === undefined ? undefined : stockOfLots.get(lot);
    return lotStock ? { lotStock } : {};
  };
  const reagents: ReagentPage[] = [...journal.shelf.reagents]
    .map(([id, reagent]) => ({
      id,
      reagent,
      ...assayedOf(reagent, kept),
      ...(stocks.has(id) && { stock: stocks.get(id)! }),
      ...lotStockOf(reagent.lot),
      uses: uses.get(id) ?? [],
      incidents: incidents.filter((incident) => incident.reagents.includes(id)),
      foreseen: [...(foreseen.get(reagent.name)?.values() ?? [])].sort(byGravity),
    }))
    .sort((a, b) => a.reagent.name.localeCompare(b.reagent.name));

  return { journal, entries, links, samples, series, families: familyPages, reagents, incidents, ideas, numberOfFile };
}
