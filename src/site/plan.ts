// Every page of the site, each with the function that renders it: a publication calls them all, the reading copy one
// at a time.
import type { ElementContent, Root } from 'hast';
import { familiesPage, familyPage } from '../../templates/colours.js';
import { dataPage } from '../../templates/data.js';
import type { SiteContext } from '../../templates/frame.js';
import { entriesOnLeaf, entriesPage, homePage } from '../../templates/home.js';
import { leafAddress, leavesOf } from '../../templates/leaves.js';
import { elementsPage, ideasPage, incidentsPage, missingPage, otherPage } from '../../templates/lists.js';
import { samplesByEntry } from '../../templates/parts/listed.js';
import { reagentPage, reagentsPage, type ReagentPageData } from '../../templates/reagents.js';
import { resultsPage, samplesOnLeaf } from '../../templates/results.js';
import { searchPage } from '../../templates/search.js';
import { seriesIndexPage, seriesPage } from '../../templates/series.js';
import { families } from '../crosslinks/families.js';
import { gapsOf } from '../crosslinks/gaps.js';
import type { JournalModel } from '../crosslinks/model.js';
import type { Page } from '../journal/entry.js';
import type { LotFacts } from '../reckoning/contracts.js';
import { lotsOf } from '../reckoning/lots.js';
import { reckonReagent } from '../reckoning/reagent.js';
import { typesetOf } from '../reckoning/typeset.js';
import { gatherAssets } from './assets.js';
import { siteContext } from './context.js';
import { dataFiles } from './data.js';
import {
  addressIn,
  entryBody,
  formulaElement,
  hasBenchSheet,
  picturesIn,
  renderBench,
  renderEntry,
  stringify,
  type EntryBody,
  type EntryWork,
  type Rendered,
  type SharedByEntries,
} from './entry-pages.js';
import { idsIn } from './html.js';
import { labelsPage } from './labels/page.js';
import { noBody, renderBody, type BodyContext, type RenderedBody } from './markdown.js';
import { searchChoices } from './search-things.js';

/** The site of a journal, nothing rendered yet. */
export interface SitePlan {
  readonly context: SiteContext;
  readonly model: JournalModel;
  /** By address (`/14/`, `/404.html`), in the order in which they are written. */
  readonly pages: ReadonlyMap<string, () => Rendered>;
  /** The journal's file behind a page, by the page's address. */
  readonly fileOf: ReadonlyMap<string, string>;
  /** What the maker wrote for each page that shows such words: all that can be remarked in rendering. */
  readonly bodies: readonly (() => RenderedBody)[];
  /** The entries' pages as plain data, for worker threads. */
  readonly shared: SharedByEntries;
  readonly works: readonly EntryWork[];
}

const still = (render: () => Root) => (): Rendered => ({ html: stringify(render()), remarks: [], partLinks: [] });

export interface PlanOptions {
  readonly reading?: SiteContext['reading'];
  /** Sheets of labels too, which the reading copy always has. */
  readonly labels?: boolean;
}

/** Lays out the site. Pure but for the assets of the package. */
export function planSite(model: JournalModel, options: PlanOptions = {}): SitePlan {
  const assets = gatherAssets();
  const { journal } = model;
  const context = { ...siteContext(journal, assets, options.reading), ...(options.labels && { labels: true }) };
  const pages = new Map<string, () => Rendered>();
  const bodies: (() => RenderedBody)[] = [];
  const asset = (address: string): string => `${context.base}${address}`;

  const published = new Map<string, string>();
  for (const [file, number] of model.numberOfFile) published.set(file, asset(`/${number}/`));
  for (const page of journal.pages) published.set(page.file, asset(`/${page.name}/`));
  for (const series of model.series) published.set(`series/${series.element}.md`, asset(`/series/${series.element}/`));
  for (const family of model.families)
    published.set(`colours/${family.family}.md`, asset(`/colours/${family.family}/`));
  const elementNames: Record<string, string> = Object.fromEntries(
    model.series.map(({ element, name }) => [element, name]),
  );
  const shared: SharedByEntries = { context, addresses: published, elementNames };
  const rowsOf = samplesByEntry(model);
  const works: EntryWork[] = model.entries.map((reckoned) => ({
    reckoned,
    links: model.links.get(reckoned.entry.number)!,
    rows: rowsOf.get(reckoned.entry.number) ?? [],
  }));

  const words = (page: Page | undefined): RenderedBody =>
    page ? renderBody(page.body, plainContext(page, shared)) : noBody;
  const withWords = (page: Page | undefined, render: (body: ElementContent[]) => Root) => {
    if (page) bodies.push(() => words(page));
    return (): Rendered => {
      const { children, remarks, partLinks } = words(page);
      return { html: stringify(render(children)), remarks, partLinks };
    };
  };

  pages.set(
    '/',
    still(() => homePage(context, model)),
  );
  for (const leaf of leavesOf(model.entries, entriesOnLeaf))
    pages.set(
      leafAddress('/entries/', leaf.number),
      still(() => entriesPage(context, model, leaf)),
    );
  // The entry's page and its bench sheet stand on one rendering of the body; only the last is kept.
  let last: { of: EntryWork; body: EntryBody } | undefined;
  const bodyOf = (work: EntryWork): EntryBody => {
    if (last?.of !== work) last = { of: work, body: entryBody(shared, work.reckoned) };
    return last.body;
  };
  for (const work of works) {
    const { number } = work.reckoned.entry;
    bodies.push(() => bodyOf(work));
    pages.set(`/${number}/`, () => renderEntry(shared, work, bodyOf(work)));
    if (hasBenchSheet(work.reckoned)) pages.set(`/${number}/bench/`, () => renderBench(shared, work, bodyOf(work)));
  }
  if (options.labels || options.reading)
    for (const { entry } of model.entries)
      if (entry.samples.length > 0)
        pages.set(`/${entry.number}/labels/`, () => ({
          html: labelsPage(model, context, entry.number),
          remarks: [],
          partLinks: [],
        }));
  pages.set(
    '/series/',
    still(() => seriesIndexPage(context, model.series, families)),
  );
  for (const series of model.series) {
    pages.set(
      `/series/${series.element}/`,
      withWords(series.words, (body) => seriesPage(context, { series, body, typeset: typesetOf })),
    );
  }
  pages.set(
    '/colours/',
    still(() => familiesPage(context, model.families)),
  );
  for (const family of model.families)
    pages.set(
      `/colours/${family.family}/`,
      withWords(family.words, (body) => familyPage(context, family, body)),
    );
  const lots = (): ReadonlyMap<string, LotFacts> =>
    new Map(
      model.entries.flatMap(({ entry, amounts }) => lotsOf(entry, amounts).map((lot) => [lot.lot, lot] as const)),
    );
  let lotsByName: ReadonlyMap<string, LotFacts> | undefined;
  const lotOf = (name: string): LotFacts | undefined => (lotsByName ??= lots()).get(name);
  const reagents = (): ReagentPageData[] =>
    model.reagents.map((reagent) => {
      const { box, rules } = reckonReagent(reagent.reagent, lotOf);
      return { reagent, box, rules, typeset: reagent.reagent.formula ? typesetOf(reagent.reagent.formula) : undefined };
    });
  let reagentData: Map<string, ReagentPageData> | undefined;
  const reagentOf = (): Map<string, ReagentPageData> =>
    (reagentData ??= new Map(reagents().map((data) => [data.reagent.id, data])));
  pages.set(
    '/reagents/',
    still(() => reagentsPage(context, [...reagentOf().values()])),
  );
  for (const { id } of model.reagents)
    pages.set(
      `/reagents/${id}/`,
      still(() => reagentPage(context, reagentOf().get(id)!)),
    );
  pages.set(
    '/elements/',
    still(() => elementsPage(context, model.series)),
  );
  for (const leaf of leavesOf(model.samples, samplesOnLeaf))
    pages.set(
      leafAddress('/results/', leaf.number),
      still(() => resultsPage(context, leaf, model.samples.length, asset(assets.scripts.results.address))),
    );
  pages.set(
    '/ideas/',
    still(() => ideasPage(context, model.ideas, gapsOf(model))),
  );
  pages.set(
    '/incidents/',
    still(() => incidentsPage(context, model.incidents)),
  );
  pages.set(
    '/search/',
    still(() => searchPage(context, searchChoices(model), asset(assets.scripts.search.address))),
  );
  pages.set(
    '/data/',
    still(() =>
      dataPage(
        context,
        dataFiles.map(({ name, what }) => ({ name, what })),
      ),
    ),
  );
  for (const page of journal.pages)
    pages.set(
      `/${page.name}/`,
      withWords(page, (body) => otherPage(context, page.title ?? page.name, `/${page.name}/`, body)),
    );
  pages.set(
    '/404.html',
    still(() => missingPage(context)),
  );
  const fileOf = new Map([...published].map(([file, address]) => [address.slice(context.base.length), file]));
  return { context, model, pages, bodies, fileOf, shared, works };
}

/** Pages without an entry behind them can set formulae, but have no samples and no values. */
function plainContext(page: Page, shared: SharedByEntries): BodyContext {
  return {
    file: page.file,
    bodyLine: page.bodyLine,
    addressOf: addressIn(shared),
    picture: picturesIn(shared.context),
    chem: formulaElement,
    value: () => undefined,
    valueNames: () => [],
    swatch: () => undefined,
  };
}

/** Ids of the pages that are linked to in part, by address with the base path; each page is rendered once. */
export function idsOfPages({
  context,
  pages,
}: Pick<SitePlan, 'context' | 'pages'>): (address: string) => ReadonlySet<string> | undefined {
  const known = new Map<string, ReadonlySet<string> | undefined>();
  return (address) => {
    if (!known.has(address)) {
      const page = pages.get(address.slice(context.base.length));
      known.set(address, page && idsIn(page().html));
    }
    return known.get(address);
  };
}
