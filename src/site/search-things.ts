// What search finds: entries, reagents, series, colour families, incidents and pages; with everything they are called,
// the words that their pages show, and what a hit shows of them.
import type { SearchChoices } from '../../templates/search.js';
import { bestYieldWords } from '../../templates/parts/findings.js';
import { longDate } from '../../templates/dates.js';
import { statusMark } from '../../templates/parts/status.js';
import { samplesByEntry } from '../../templates/parts/listed.js';
import { bestYield, yieldRank } from '../crosslinks/best-yield.js';
import { familyOrder, familyWords } from '../crosslinks/families.js';
import { isMade, knownPigments } from '../crosslinks/known-pigments.js';
import { lotsIn } from '../crosslinks/lots.js';
import type { JournalModel, ReagentPage, SampleRow } from '../crosslinks/model.js';
import type { Entry, Shelf } from '../journal/entry.js';
import { statusReason } from '../journal/index.js';
import { keptNowhere, madeOf, type Kept } from '../kept/kept.js';
import type { LotFacts, ReckonedEntry } from '../reckoning/contracts.js';
import { colourIndexNames, gasesOf, hazardWords, namesOfReagent } from '../reckoning/names.js';
import { reckonReagent } from '../reckoning/reagent.js';
import { countWords, type CountedWords } from './search-counts.js';
import { entryWords, shownWords, together } from './search-words.js';

/** How a name belongs to a thing; the order is that of `weights` in public/scripts/search-rank.js. */
export const relations = [
  'is',
  'page',
  'uses',
  'gas',
  'element',
  'family',
  'incident',
  'hazard',
  'lacks',
  'also',
  'toldGas',
  'usesAlso',
] as const;
export type Relation = (typeof relations)[number];

export type ThingKind = 'entry' | 'reagent' | 'series' | 'colour' | 'incident' | 'page';

/** What a hit shows, and what it can be narrowed by. */
export interface Thing {
  readonly address: string;
  readonly kind: ThingKind;
  readonly title: string;
  readonly facts: string;
  /** Masstone of the first sample that has a colour. */
  readonly hex?: string;
  readonly elements?: readonly string[];
  readonly families?: readonly string[];
  readonly status?: string;
  readonly year?: string;
  readonly hazards?: readonly string[];
  /** Numbers that hits can be ordered by, the largest first. */
  readonly order?: Readonly<Record<string, number>>;
}

/** A thing with its names and the words that its page shows. */
export interface Findable {
  readonly thing: Thing;
  readonly names: readonly { readonly text: string; readonly as: Relation }[];
  readonly words: string;
  /** Its words as they are compared, where they were counted before. */
  readonly counted?: CountedWords;
}

const of = (as: Relation, texts: readonly (string | undefined)[]): Findable['names'] =>
  texts.flatMap((text) => (text === undefined || text.trim() === '' ? [] : [{ text, as }]));

/** A name, and its parts where it is several: `malachite, synthetic` is malachite; `copper(II) oxide` is no copper. */
const withParts = (name: string): string[] => {
  const parts = name.split(/,| \(|\)/).map((part) => part.trim());
  return [name, ...(parts.length > 1 ? parts.filter((part) => part.length > 2) : [])];
};

/** Whether samples are one colour in one light and two in another. */
const metameric = ({ appearance }: ReckonedEntry): boolean =>
  (appearance.pairs ?? []).some((pair) => pair.metameric !== undefined);

/** Every name, formula and CAS number that tables have for a substance. */
function everyName(substance: { readonly name: string; readonly formula?: string }): string[] {
  const { names, formulae, casNumbers } = namesOfReagent(substance);
  return [...names, ...formulae, ...casNumbers];
}

/** Names that the trade has for a pigment made here. */
const tradeNames = (rows: readonly SampleRow[]): string[] =>
  knownPigments()
    .filter((pigment) => isMade(pigment, rows))
    .flatMap(({ names, colourIndexNumber }) => [
      ...names,
      ...(colourIndexNumber ? [colourIndexNumber, `C.I. ${colourIndexNumber}`] : []),
    ]);

/** What went into an entry: by the names that the journal has for it, and by every other. */
function usedNames(shelf: Shelf['reagents'], { amounts }: ReckonedEntry): Findable['names'] {
  const used = new Map(amounts.samples.flatMap(({ ingredients }) => ingredients).map((one) => [one.id, one]));
  return [...used.values()].flatMap(({ id, name, formula }) => {
    const onShelf = shelf.get(id);
    return [
      ...of('uses', [name, id.replaceAll('-', ' '), formula, ...(onShelf?.['also-called'] ?? [])]),
      ...of('usesAlso', everyName({ name, formula })),
    ];
  });
}

/** What an entry is found by; plain data. */
export interface FoundBy {
  readonly reckoned: ReckonedEntry;
  readonly rows: readonly SampleRow[];
  /** Names of its colour-giving elements that have a series, by symbol. */
  readonly elementNames: Readonly<Record<string, string>>;
}

/** What an entry is called where it is found. */
export const titleOfEntry = ({ number, title }: Pick<Entry, 'number' | 'title'>): string => `${number} ${title}`;

function entryThing({ reckoned, rows, elementNames }: FoundBy): Thing {
  const { entry, elements, amounts } = reckoned;
  const families = [...new Set(rows.flatMap((row) => row.family ?? []))];
  const best = bestYield(amounts.samples);
  const painted = rows.find((row) => row.appearance?.swatch)?.appearance;
  const facts = [
    longDate(entry.date),
    entry.status === 'finished' ? '' : statusMark({ status: entry.status, why: statusReason(entry) }) || entry.status,
    entry.pigment?.name ?? '',
    elements.map((symbol) => elementNames[symbol] ?? symbol).join(', '),
    families.join(', '),
    best ? bestYieldWords(best) : '',
  ];
  return {
    address: `/${entry.number}/`,
    kind: 'entry',
    title: titleOfEntry(entry),
    facts: facts.filter((part) => part !== '').join(' · '),
    hex: painted?.swatch?.hex,
    elements,
    families,
    status: entry.status,
    year: entry.date.slice(0, 4),
    hazards: reckoned.gist.hazards,
    order: {
      date: Number(entry.date.replaceAll('-', '')),
      // More than 100 % is no good yield: it stands last.
      ...(best && { yield: yieldRank(best) + 1000 }),
      ...(painted?.lch && { lightness: painted.lch[0], chroma: painted.lch[1] }),
    },
  };
}

export function namedEntry(found: FoundBy, shelf: Shelf['reagents']): Findable {
  const { reckoned, rows, elementNames } = found;
  const { entry, elements } = reckoned;
  const { number, title, pigment } = entry;
  const thing = entryThing(found);
  const findable: Findable = {
    thing,
    words: entryWords(reckoned),
    names: [
      ...of('is', [String(number), title, pigment?.formula, entry.date]),
      ...of('is', [...(pigment ? withParts(pigment.name) : []), ...tradeNames(rows)]),
      ...of('also', pigment ? everyName(pigment) : []),
      ...of('is', colourIndexNames(pigment?.['colour-index'])),
      ...of(
        'is',
        rows.flatMap(({ sample, formula }) => [`${number}/${sample}`, formula]),
      ),
      ...of('is', entry.status === 'finished' ? [] : [entry.status]),
      ...of('hazard', hazardWords(reckoned.dangers.box)),
      ...usedNames(shelf, reckoned),
      ...gasesOf(reckoned).flatMap(({ names, told }) => of(told ? 'toldGas' : 'gas', names)),
      ...of('also', metameric(reckoned) ? ['metameric pair', 'metamerism', 'different under lamplight'] : []),
      ...of(
        'element',
        elements.flatMap((symbol) => [symbol, elementNames[symbol]]),
      ),
      ...of('family', thing.families ?? []),
    ],
  };
  return { ...findable, counted: countWords(findable) };
}

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

function namedReagents(model: JournalModel, kept: Kept): Findable[] {
  const lotOf = lotsIn(model);
  return model.reagents.map((jar) => {
    const { lot: name } = jar.reagent;
    const lot = (name !== undefined && lotOf(name)) || null;
    return madeOf(kept, 'reagent found by', [jar, lot], () => namedReagent(jar, lot));
  });
}

function namedReagent({ id, reagent, uses }: ReagentPage, lot: LotFacts | null): Findable {
  const { box } = reckonReagent(reagent, (name) => (name === lot?.lot ? lot : undefined));
  const entries = new Set(uses.map(({ entry }) => entry.number)).size;
  return {
    thing: {
      address: `/reagents/${id}/`,
      kind: 'reagent',
      title: reagent.name,
      facts: ['reagent', reagent.formula, `in ${counted(entries, 'entry', 'entries')}`].filter(Boolean).join(' · '),
    },
    words: together([
      ...(reagent['also-called'] ?? []),
      reagent.note,
      reagent.grade,
      reagent.supplier,
      reagent.strength,
      ...box.statements.map(({ text }) => text),
    ]),
    names: [
      ...of('hazard', hazardWords(box)),
      ...of('page', [
        ...withParts(reagent.name),
        id.replaceAll('-', ' '),
        reagent.formula,
        reagent.cas,
        ...(reagent['also-called'] ?? []),
        ...everyName(reagent),
      ]),
    ],
  };
}

const namedSeries = (model: JournalModel): Findable[] =>
  model.series.map(({ element, name, entries, cells, words }) => ({
    thing: {
      address: `/series/${element}/`,
      kind: 'series',
      title: `${name[0]?.toUpperCase()}${name.slice(1)} across the colours`,
      facts: `series · ${counted(entries.length, 'entry', 'entries')}`,
    },
    words: together([
      words && shownWords(words.body),
      cells.flatMap(({ notMade }) => notMade.map((pigment) => pigment.names[0])).join(', '),
    ]),
    names: [
      ...of('page', [name, element, `${name} series`, `${name} pigments`, `${name} across the colours`]),
      ...of(
        'lacks',
        cells.flatMap(({ notMade }) =>
          notMade.flatMap(({ names, colourIndex, formulas }) => [
            ...names,
            ...colourIndexNames(colourIndex),
            ...formulas,
          ]),
        ),
      ),
    ],
  }));

const namedFamilies = (model: JournalModel): Findable[] =>
  model.families.map(({ family, samples, words }) => ({
    thing: {
      address: `/colours/${family}/`,
      kind: 'colour',
      title: `${family[0]?.toUpperCase()}${family.slice(1)}`,
      facts: `colour · ${counted(samples.length, 'sample', 'samples')}`,
      hex: samples.find(({ appearance }) => appearance?.swatch)?.appearance?.swatch?.hex,
    },
    words: together([words && shownWords(words.body)]),
    names: [...of('page', [family, `${family} pigments`, `${family} colours`]), ...of('also', familyWords(family))],
  }));

/** The first words of a long sentence. */
const beginning = (words: string, most = 70): string =>
  words.length <= most ? words : `${words.slice(0, words.lastIndexOf(' ', most))} …`;

function namedIncidents(model: JournalModel): Findable[] {
  return model.incidents.map(({ entry, what, learned, reagents }) => ({
    thing: {
      address: `/${entry.number}/#incidents`,
      kind: 'incident',
      title: beginning(what),
      facts: `what went wrong in ${entry.number} ${entry.title}`,
    },
    words: together([what, learned]),
    names: of('incident', [entry.title, ...reagents.map((id) => model.journal.shelf.reagents.get(id)?.name ?? id)]),
  }));
}

const fixedPages: readonly (readonly [address: string, title: string, facts: string])[] = [
  ['/series/', 'Series by element', 'every element across the colours'],
  ['/colours/', 'Colours', 'every sample by colour'],
  ['/reagents/', 'Reagents on the shelf', 'hazards, and where they were used'],
  ['/results/', 'Results', 'every sample in one table'],
  ['/incidents/', 'Incidents', 'what went wrong, and what was learned'],
  ['/ideas/', 'Ideas for next time', 'gathered from every entry'],
  ['/elements/', 'Elements', 'made, and known to the trade'],
  ['/data/', 'Data', 'JSON and CSV'],
];

const namedPages = (model: JournalModel): Findable[] => [
  ...fixedPages.map(
    ([address, title, facts]): Findable => ({
      thing: { address, kind: 'page', title, facts },
      words: '',
      names: of('page', [title]),
    }),
  ),
  ...model.journal.pages.map(
    ({ name, title, body }): Findable => ({
      thing: { address: `/${name}/`, kind: 'page', title: title ?? name, facts: 'page' },
      words: shownWords(body),
      names: of('page', [title, name]),
    }),
  ),
];

/** What each entry is found by, by number. */
export function foundBy(model: JournalModel): readonly FoundBy[] {
  const rowsOf = samplesByEntry(model);
  const names = new Map(model.series.map(({ element, name }) => [element, name]));
  return [...model.entries]
    .sort((a, b) => a.entry.number - b.entry.number)
    .map((reckoned) => ({
      reckoned,
      rows: rowsOf.get(reckoned.entry.number) ?? [],
      elementNames: namesAmong(reckoned.elements, names),
    }));
}

/** Names of elements that have one, by symbol. */
export const namesAmong = (
  elements: readonly string[],
  names: ReadonlyMap<string, string>,
): Readonly<Record<string, string>> =>
  Object.fromEntries(elements.flatMap((symbol) => (names.has(symbol) ? [[symbol, names.get(symbol)!] as const] : [])));

/**
 * Everything that can be found by name; entries last, by number, so that new ones change no number of the others.
 * @param entries what was made of the entries before
 * @param kept what was made of the same before
 */
export const everything = (
  model: JournalModel,
  entries: readonly Findable[] = foundBy(model).map((one) => namedEntry(one, model.journal.shelf.reagents)),
  kept: Kept = keptNowhere,
): Findable[] => [
  ...namedPages(model),
  ...namedSeries(model),
  ...namedFamilies(model),
  ...namedReagents(model, kept),
  ...namedIncidents(model),
  ...entries,
];

export function searchChoices(model: JournalModel): SearchChoices {
  return {
    elements: model.series.map(({ element, name }) => ({ symbol: element, name })),
    families: model.families.map(({ family }) => family).sort((a, b) => familyOrder(a) - familyOrder(b)),
    statuses: [...new Set(model.entries.map(({ entry }) => entry.status))],
    hazards: [...new Set(model.entries.flatMap(({ gist }) => gist.hazards))].sort(),
    years: [...new Set(model.entries.map(({ entry }) => entry.date.slice(0, 4)))].sort().reverse(),
  };
}
