// Every page of the site, each with the function that renders it: a publication calls them all, the reading copy one
// at a time.
import { colourMethodAddress, colourMethodPage } from '../../templates/colour-method.js';
import { comparePage } from '../../templates/compare.js';
import { yieldMethodAddress, yieldMethodPage } from '../../templates/yield-method.js';
import { familiesPage, familyPage, lightestFirst, samplesOfColourOnLeaf } from '../../templates/colours.js';
import { dataPage } from '../../templates/data.js';
import type { SiteContext } from '../../templates/frame.js';
import { curvesAddress } from '../../templates/entry-curves.js';
import { entriesOnLeaf, entriesPage, homePage, newestOnHome } from '../../templates/home.js';
import { leafAddress, leafNumbers, leafOf, leavesOf } from '../../templates/leaves.js';
import {
  elementsPage,
  emptiedPage,
  ideasInOrder,
  ideasOnLeaf,
  ideasPage,
  incidentsOnLeaf,
  incidentsPage,
  missingPage,
  movedPage,
  otherPage,
} from '../../templates/lists.js';
import { listed, samplesByEntry } from '../../templates/parts/listed.js';
import { reagentPage, reagentsPage, type ReagentPageData } from '../../templates/reagents.js';
import { resultsPage, samplesOnLeaf } from '../../templates/results.js';
import { searchPage, type SearchChoices } from '../../templates/search.js';
import { cellPage, entriesOfCellOnLeaf, mostInCell, seriesIndexPage, seriesPage } from '../../templates/series.js';
import { timelineMarks, timelinePage, type TimelineMark } from '../../templates/timeline.js';
import { families as familiesInOrder } from '../crosslinks/families.js';
import { gapsByShelf, gapsOf } from '../crosslinks/gaps.js';
import { lotsIn } from '../crosslinks/lots.js';
import type { Family, JournalModel, ReagentPage, SampleRow } from '../crosslinks/model.js';
import { bodyLinks } from '../journal/links.js';
import { isGathered } from '../journal/register.js';
import { identityOf } from '../kept/inputs.js';
import { keptNowhere, madeOf, type Kept } from '../kept/kept.js';
import { lastFor, once } from '../once.js';
import { colourMethod } from '../reckoning/appearance/colour-method.js';
import { scatterLeavesOut, weighingLeavesOut } from '../reckoning/comparison-verdicts.js';
import type { LotFacts, ReckonedEntry } from '../reckoning/contracts.js';
import { reckonReagent } from '../reckoning/reagent.js';
import { typesetOf } from '../reckoning/typeset.js';
import { assetAddresses } from './assets.js';
import { siteContext } from './context.js';
import { dataFiles } from './data.js';
import {
  addressesNamed,
  entryBody,
  hasBenchSheet,
  hasCurves,
  renderBench,
  renderCurves,
  renderEntry,
  type Addresses,
  type EntryBody,
  type EntryWork,
  type Rendered,
  type SharedByEntries,
} from './entry-pages.js';
import { idsIn } from './html.js';
import { labelsPage } from './labels/page.js';
import { linkedFile, type RenderedBody } from './markdown.js';
import { PageList, type SitePage } from './page-list.js';
import { namesAmong, searchChoices } from './search-things.js';

/** The site of a journal, nothing rendered yet. */
export interface SitePlan {
  readonly context: SiteContext;
  readonly model: JournalModel;
  /** By address (`/14/`, `/404.html`), in the order in which they are written. */
  readonly pages: ReadonlyMap<string, SitePage>;
  /** The journal's file behind a page, by the page's address. */
  readonly fileOf: ReadonlyMap<string, string>;
  /** What the maker wrote for each page that shows such words: all that can be remarked in rendering. */
  readonly bodies: readonly (() => RenderedBody)[];
  /** The entries' pages as plain data, for worker threads. */
  readonly shared: SharedByEntries;
  readonly works: readonly LaidOutEntry[];
  /** Of the journal's files that have a page. */
  readonly addresses: Addresses;
  readonly jars: Jars;
}

/** An entry's work, put together when it is asked for. */
export interface LaidOutEntry {
  readonly number: number;
  readonly work: () => EntryWork;
}

export interface PlanOptions {
  readonly reading?: SiteContext['reading'];
  /** Sheets of labels too, which the reading copy always has. */
  readonly labels?: boolean;
  /** What was made before. */
  readonly kept?: Kept;
}

/** Address of every file of the journal that has a page of its own. */
function addressesOf({ journal, numberOfFile, series, families }: JournalModel, { base }: SiteContext): Addresses {
  const addresses = new Map<string, string>();
  const put = (file: string, address: string): unknown => addresses.set(file, `${base}${address}`);
  for (const [file, number] of numberOfFile) put(file, `/${number}/`);
  for (const page of journal.pages) put(page.file, `/${page.name}/`);
  for (const { element } of series) put(`series/${element}.md`, `/series/${element}/`);
  for (const { family } of families) put(`colours/${family}.md`, `/colours/${family}/`);
  return addresses;
}

/** Adds every text in plain data that is wanted. */
function addTexts(data: unknown, isWanted: (text: string) => boolean, into: Set<string>): void {
  if (typeof data === 'string') {
    if (isWanted(data)) into.add(data);
  } else if (typeof data === 'object' && data !== null)
    for (const value of Object.values(data)) addTexts(value, isWanted, into);
}

/** Published photographs that an entry names, wherever it does. */
export function picturesOf({ entry }: ReckonedEntry, pictures: SiteContext['pictures']): Pick<EntryWork, 'pictures'> {
  if (!pictures) return {};
  const named = bodyLinks(entry).map(({ written }) => linkedFile(entry.file, written));
  // Photographs lie below one folder; a text with escapes may name it in other signs.
  const mayName = /photos|\\/.test(entry.matter);
  const own = new Set<string>();
  addTexts(mayName ? [entry, named] : named, (text) => Object.hasOwn(pictures, text), own);
  return own.size > 0 ? { pictures: Object.fromEntries([...own].map((text) => [text, pictures[text]!])) } : {};
}

/** What the pages of each entry are made of, newest entry first. */
function worksOf(model: JournalModel, addresses: Addresses, pictures: SiteContext['pictures']): LaidOutEntry[] {
  const rowsOf = samplesByEntry(model);
  const names = new Map(model.series.map(({ element, name }) => [element, name]));
  // What the page of an entry is made of is let go when the next is asked for.
  const workOf = lastFor((reckoned: ReckonedEntry): EntryWork => {
    const { entry, elements } = reckoned;
    return {
      reckoned,
      links: model.links.get(entry.number)!,
      rows: rowsOf.get(entry.number) ?? [],
      addresses: addressesNamed(entry, addresses),
      elementNames: namesAmong(elements, names),
      ...picturesOf(reckoned, pictures),
    };
  });
  return model.entries.map((reckoned) => ({ number: reckoned.entry.number, work: () => workOf(reckoned) }));
}

/** The pages of the entries: each entry's own, its bench sheet and its curves. */
function addEntries(
  list: PageList,
  shared: SharedByEntries,
  entries: readonly ReckonedEntry[],
  works: readonly LaidOutEntry[],
): void {
  // The entry's page and its bench sheet stand on one rendering of the body; only the last is kept.
  const bodyOf = lastFor((work: EntryWork): EntryBody => entryBody(shared, work));
  const inputsOf = lastFor((work: EntryWork): readonly unknown[] => {
    // The rows are part of what was reckoned.
    const { rows: _, ...own } = work;
    // Several pages are made of the same: they are read for their identity once.
    identityOf(own);
    return [shared, own];
  });
  for (const [at, { number, work }] of works.entries()) {
    const inputs = (): readonly unknown[] => inputsOf(work());
    const take = (address: string, render: () => Rendered): void => list.take(address, inputs, render);
    list.bodies.push(() => bodyOf(work()));
    take(`/${number}/`, () => renderEntry(shared, work(), bodyOf(work())));
    if (hasBenchSheet(entries[at]!)) take(`/${number}/bench/`, () => renderBench(shared, work(), bodyOf(work())));
    if (hasCurves(entries[at]!)) take(curvesAddress(number), () => renderCurves(shared, work()));
  }
}

/** What a reagent's page says, from the jar and from the lot that it holds. */
function reagentData(reagent: ReagentPage, lot: LotFacts | null): ReagentPageData {
  const lotOf = (name: string): LotFacts | undefined => (name === lot?.lot ? lot : undefined);
  const { box, rules } = reckonReagent(reagent.reagent, lotOf);
  return { reagent, box, rules, typeset: reagent.reagent.formula ? typesetOf(reagent.reagent.formula) : undefined };
}

/** Jars of the shelf, each with the lot that it holds. */
type Jar = readonly [ReagentPage, LotFacts | null];

/** Found when they are asked for: what is known of a lot is loaded for it. */
type Jars = () => readonly Jar[];

function jarsOf(model: JournalModel, kept: Kept): readonly Jar[] {
  const lotOf = lotsIn(model);
  // Several pages are made of a jar: it is read for its identity once.
  if (kept !== keptNowhere) for (const one of model.reagents) identityOf(one);
  return model.reagents.map((one) => [one, (one.reagent.lot !== undefined && lotOf(one.reagent.lot)) || null]);
}

/** Sheets of labels: a label says what the entry, the shelf and the lots on it say. */
function addLabels(
  list: PageList,
  model: JournalModel,
  context: SiteContext,
  jars: Jars,
  entries = model.entries,
): void {
  for (const reckoned of entries) {
    const { number, samples } = reckoned.entry;
    if (samples.length === 0) continue;
    const render = (): Rendered => ({ html: labelsPage(model, context, number), remarks: [], partLinks: [] });
    list.take(`/${number}/labels/`, () => [context, reckoned, jars()], render);
  }
}

function addReagents(list: PageList, { reagents }: JournalModel, jars: Jars): void {
  // The list and the pages show the same, so that each is reckoned once.
  const known = new Map<ReagentPage, ReagentPageData>();
  const dataOf = (reagent: ReagentPage, lot: LotFacts | null): ReagentPageData => {
    const data = known.get(reagent) ?? reagentData(reagent, lot);
    known.set(reagent, data);
    return data;
  };
  list.addLater(
    '/reagents/',
    () => [jars()],
    (site, all) =>
      reagentsPage(
        site,
        all.map(([reagent, lot]) => dataOf(reagent, lot)),
      ),
  );
  for (const [at, { id, reagent }] of reagents.entries()) {
    const address = `/reagents/${id}/`;
    list.addLater(
      address,
      () => jars()[at]!,
      (site, one, lot) => reagentPage(site, dataOf(one, lot)),
    );
    for (const old of reagent['moved-from'] ?? [])
      list.add(`/reagents/${old}/`, [`/reagents/${old}/`, address, reagent.name] as const, movedPage);
  }
}

/** Home, and the list of all entries. */
function addEntryLists(list: PageList, model: JournalModel, kept: Kept): void {
  const { series, families, entries, samples } = model;
  const newest = listed(model, entries.slice(0, newestOnHome));
  list.add('/', [{ series, families, samples, newest, entries: entries.length }], homePage);
  for (const number of leafNumbers(entries.length, entriesOnLeaf)) {
    const leaf = once(() => leafOf(entries, entriesOnLeaf, number));
    list.addLater(
      leafAddress('/entries/', number),
      () => [{ ...leaf(), items: listed(model, leaf().items) }],
      entriesPage,
    );
  }
  const marks = (): readonly TimelineMark[] =>
    listed(model, entries).map((one) => madeOf(kept, 'mark', one, () => timelineMarks([one])[0]!));
  list.addLater('/timeline/', () => [marks()], timelinePage);
}

/** The samples of a family in the order of its pages; the order is kept, as it asks for the colour of each. */
function inOrderOfLightness(family: Family, kept: Kept): readonly SampleRow[] {
  const places = new Map(family.samples.map((row, at) => [row, at]));
  const order = madeOf(kept, 'lightest first', family, () => lightestFirst(family).map((row) => places.get(row)!));
  return order.map((at) => family.samples[at]!);
}

function addSeries(list: PageList, { series, families }: JournalModel, kept: Kept): void {
  list.add('/series/', [series, familiesInOrder], seriesIndexPage);
  for (const one of series)
    list.addWithWords(
      `/series/${one.element}/`,
      one.words,
      () => [one],
      (site, body, shown) => seriesPage(site, { series: shown, body, typeset: typesetOf }),
    );
  for (const { element, name, cells } of series)
    for (const { family, entries } of cells.filter((cell) => cell.entries.length > mostInCell))
      for (const leaf of leavesOf(entries, entriesOfCellOnLeaf))
        list.add(
          leafAddress(`/series/${element}/${family}/`, leaf.number),
          [{ element, name }, family, leaf],
          cellPage,
        );
  list.add('/colours/', [families, colourMethod()], familiesPage);
  list.add(colourMethodAddress, [colourMethod()], colourMethodPage);
  list.add(yieldMethodAddress, [{ ofSingles: weighingLeavesOut, ofRepeats: scatterLeavesOut }], yieldMethodPage);
  for (const one of families) {
    const inOrder = once(() => inOrderOfLightness(one, kept));
    for (const number of leafNumbers(one.samples.length, samplesOfColourOnLeaf))
      list.addWithWords(
        leafAddress(`/colours/${one.family}/`, number),
        number === 1 ? one.words : undefined,
        () => [one, leafOf(inOrder(), samplesOfColourOnLeaf, number)],
        (site, body, family, own) => familyPage(site, family, own, body),
      );
  }
}

/** Addresses of the series and colours that entries have now. */
export const gatheredAddresses = ({
  series,
  families,
}: Pick<JournalModel, 'series' | 'families'>): readonly string[] => [
  ...series.map(({ element }) => `/series/${element}/`),
  ...families.map(({ family }) => `/colours/${family}/`),
];

/** Series and colours that were published before and of which no entry is left: their addresses say so. */
function addEmptied(list: PageList, register: readonly string[]): void {
  for (const address of register)
    if (isGathered(address) && !list.pages.has(address)) list.add(address, [address] as const, emptiedPage);
}

/** Lays out the site. Pure but for the assets of the package. */
export function planSite(model: JournalModel, options: PlanOptions = {}): SitePlan {
  const { reading, labels = false, kept = keptNowhere } = options;
  const assets = assetAddresses(kept);
  const { scripts } = assets;
  const { journal, series, families, samples } = model;
  const context = { ...siteContext(journal, assets, reading), ...(labels && { labels }) };
  const { pictures, ...framed } = context;
  const shared: SharedByEntries = { context: framed };
  identityOf(shared);
  const addresses = addressesOf(model, context);
  const works = worksOf(model, addresses, pictures);
  const jars = once(() => jarsOf(model, kept));
  const list = new PageList(context, addresses);
  const asset = (address: string): string => `${context.base}${address}`;

  addEntryLists(list, model, kept);
  addEntries(list, shared, model.entries, works);
  if (labels || reading) addLabels(list, model, context, jars);
  addSeries(list, model, kept);
  addReagents(list, model, jars);
  list.add('/elements/', [series], elementsPage);
  for (const leaf of leavesOf(samples, samplesOnLeaf)) {
    const inputs = [leaf, samples.length, asset(scripts.results)] as const;
    list.add(leafAddress('/results/', leaf.number), inputs, resultsPage);
  }
  list.add('/compare/', [asset(scripts.compare)], comparePage);
  const gaps = (): ReturnType<typeof gapsByShelf> => {
    const pigments = model.entries.map(({ entry: { number, status, pigment } }) => [number, status, pigment]);
    return madeOf(kept, 'gaps', [series.map(({ element }) => element), pigments, jars()], () =>
      gapsByShelf(gapsOf(model)),
    );
  };
  for (const leaf of leavesOf(ideasInOrder(model.ideas), ideasOnLeaf))
    list.addLater(leafAddress('/ideas/', leaf.number), () => [leaf, leaf.number === 1 ? gaps() : []], ideasPage);
  for (const leaf of leavesOf(model.incidents, incidentsOnLeaf))
    list.add(leafAddress('/incidents/', leaf.number), [leaf], incidentsPage);
  const choices = (): SearchChoices => {
    const reckonings = model.entries.map((one) => one.identity ?? identityOf(one));
    return madeOf(kept, 'search choices', [reckonings, series, families], () => searchChoices(model));
  };
  list.addLater('/search/', () => [choices(), asset(scripts.search)], searchPage);
  list.add('/data/', [dataFiles.map(({ name, what }) => ({ name, what }))], dataPage);
  for (const page of journal.pages) {
    list.addWithWords(
      `/${page.name}/`,
      page,
      () => [page.title ?? page.name, `/${page.name}/`],
      (site, body, title, at) => otherPage(site, title, at, body),
    );
    for (const old of page.movedFrom ?? [])
      list.add(`/${old}/`, [`/${old}/`, `/${page.name}/`, page.title ?? page.name] as const, movedPage);
  }
  addEmptied(list, journal.register);
  list.add('/404.html', [], missingPage);
  const fileOf = new Map([...addresses].map(([file, address]) => [address.slice(context.base.length), file]));
  return { context, model, pages: list.pages, bodies: list.bodies, fileOf, shared, works, addresses, jars };
}

/** Everything that search draws on. */
export const whatIsSearched = (
  model: JournalModel,
): Omit<JournalModel, 'journal' | 'numberOfFile' | 'links'> & {
  readonly settings: JournalModel['journal']['settings'];
  readonly pages: JournalModel['journal']['pages'];
} => {
  const { journal, numberOfFile: _, links: __, ...rest } = model;
  return { ...rest, settings: journal.settings, pages: journal.pages };
};

/** Whether two models are the same but for words of entries: then one was put together from the other. */
const areJoinedAlike = (one: JournalModel, other: JournalModel): boolean =>
  one.links === other.links &&
  one.entries.length === other.entries.length &&
  one.journal.pages.length === other.journal.pages.length &&
  one.journal.pages.every((page, at) => page === other.journal.pages[at]) &&
  identityOf(one.journal.pictures) === identityOf(other.journal.pictures);

/**
 * The plan that `planSite` would lay out with the same options, put together from the one before.
 * @returns undefined where more than words of entries has changed
 */
export function planAgain(model: JournalModel, before: SitePlan, options: PlanOptions): SitePlan | undefined {
  if (!areJoinedAlike(model, before.model)) return undefined;
  const { context, shared, addresses, jars, fileOf } = before;
  const changed = model.entries.filter((one, at) => one !== before.model.entries[at]);
  const works = worksOf({ ...model, entries: changed }, addresses, context.pictures);
  const list = new PageList(context, addresses);
  addEntries(list, shared, changed, works);
  if (options.labels || options.reading) addLabels(list, model, context, jars, changed);
  const pages = new Map(before.pages);
  for (const [address, page] of list.pages) pages.set(address, page);
  const workOf = new Map(works.map((one) => [one.number, one]));
  return {
    context,
    shared,
    addresses,
    jars,
    fileOf,
    model,
    pages,
    // Those of all entries, laid out anew where they are asked for.
    get bodies() {
      return planSite(model, options).bodies;
    },
    works: before.works.map((one) => workOf.get(one.number) ?? one),
  };
}

/**
 * Ids of the pages that are linked to in part, by address with the base path; each page is rendered once.
 * @param htmlOf text of a page. Default: it is rendered
 */
export function idsOfPages(
  { context, pages }: Pick<SitePlan, 'context' | 'pages'>,
  htmlOf: (page: SitePage) => string = (page) => page.render().html,
): (address: string) => ReadonlySet<string> | undefined {
  const known = new Map<string, ReadonlySet<string> | undefined>();
  return (address) => {
    if (!known.has(address)) {
      const page = pages.get(address.slice(context.base.length));
      known.set(address, page && idsIn(htmlOf(page)));
    }
    return known.get(address);
  };
}
