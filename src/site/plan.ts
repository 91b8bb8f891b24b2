// Every page of the site, each with the function that renders it: a publication calls them all, the reading copy one at a time.
import type { ElementContent, Root } from 'hast';
import rehypeStringify from 'rehype-stringify';
import { unified } from 'unified';
import { benchPage } from '../../templates/bench.js';
import { familiesPage, familyPage } from '../../templates/colours.js';
import { dataPage } from '../../templates/data.js';
import { entryPage } from '../../templates/entry.js';
import type { SiteContext } from '../../templates/frame.js';
import { entriesPage, homePage } from '../../templates/home.js';
import { elementsPage, ideasPage, incidentsPage, missingPage, otherPage } from '../../templates/lists.js';
import { samplesByEntry } from '../../templates/parts/listed.js';
import { swatchStrip } from '../../templates/pictures/swatch-strip.js';
import { reagentPage, reagentsPage, type ReagentPageData } from '../../templates/reagents.js';
import { resultsPage } from '../../templates/results.js';
import { searchPage } from '../../templates/search.js';
import { seriesIndexPage, seriesPage } from '../../templates/series.js';
import { families } from '../crosslinks/families.js';
import type { JournalModel } from '../crosslinks/model.js';
import type { Page } from '../journal/entry.js';
import type { Remark } from '../journal/remarks.js';
import { reagentDangers } from '../reckoning/reagent.js';
import type { ReckonedEntry } from '../reckoning/reckoned.js';
import { gatherAssets } from './assets.js';
import { siteContext } from './context.js';
import { dataFiles } from './data.js';
import { renderBody, type BodyContext } from './markdown.js';
import { searchChoices } from './search-records.js';
import { formulaElement, typesetOnce } from './typeset.js';
import { valuesOf } from './values.js';

export interface Rendered {
  readonly html: string;
  readonly remarks: readonly Remark[];
}

/** The site of a journal, nothing rendered yet. */
export interface SitePlan {
  readonly context: SiteContext;
  readonly model: JournalModel;
  /** By address (`/14/`, `/404.html`), in the order in which they are written. */
  readonly pages: ReadonlyMap<string, () => Rendered>;
}

const processor = unified().use(rehypeStringify).freeze();
export const stringify = (tree: Root): string => processor.stringify(tree);

const still = (render: () => Root) => (): Rendered => ({ html: stringify(render()), remarks: [] });

export interface PlanOptions {
  readonly reading?: SiteContext['reading'];
}

/** Lays out the site. Pure but for the assets of the package. */
export function planSite(model: JournalModel, options: PlanOptions = {}): SitePlan {
  const assets = gatherAssets();
  const { journal } = model;
  const context = siteContext(journal, assets, options.reading);
  const pages = new Map<string, () => Rendered>();
  const asset = (address: string): string => `${context.base}${address}`;

  const published = new Map<string, string>();
  for (const [file, number] of model.numberOfFile) published.set(file, asset(`/${number}/`));
  for (const page of journal.pages) published.set(page.file, asset(`/${page.name}/`));
  for (const series of model.series) published.set(`series/${series.element}.md`, asset(`/series/${series.element}/`));
  for (const family of model.families) published.set(`colours/${family.family}.md`, asset(`/colours/${family.family}/`));
  const addressOf = (file: string): string | undefined => published.get(file) ?? (/^(photos|spectra)\//.test(file) ? asset(`/${file}`) : undefined);

  const words = (page: Page | undefined): { children: ElementContent[]; remarks: readonly Remark[] } => (page
    ? renderBody(page.body, plainContext(page, addressOf))
    : { children: [], remarks: [] });
  const withWords = (page: Page | undefined, render: (body: ElementContent[]) => Root) => (): Rendered => {
    const { children, remarks } = words(page);
    return { html: stringify(render(children)), remarks };
  };

  const elementNames: Record<string, string> = Object.fromEntries(model.series.map(({ element, name }) => [element, name]));
  const rowsOf = samplesByEntry(model);

  pages.set('/', still(() => homePage(context, model)));
  pages.set('/entries/', still(() => entriesPage(context, model)));
  // The entry's page and its bench sheet stand on one rendering of the body; only the last is kept.
  let last: { of: ReckonedEntry; body: ReturnType<typeof renderBody> } | undefined;
  const bodyOf = (reckoned: ReckonedEntry): ReturnType<typeof renderBody> => {
    if (last?.of !== reckoned) last = { of: reckoned, body: entryBody(reckoned, addressOf) };
    return last.body;
  };
  for (const reckoned of model.entries) {
    const { entry } = reckoned;
    const links = model.links.get(entry.number)!;
    pages.set(`/${entry.number}/`, () => {
      const { children, remarks } = bodyOf(reckoned);
      const formula = entry.pigment?.formula;
      const tree = entryPage(context, { reckoned, links, rows: rowsOf.get(entry.number) ?? [], body: children, formula: formula ? typesetOnce(formula) : undefined, elementNames });
      return { html: stringify(tree), remarks };
    });
    if (entry.status !== 'withdrawn') pages.set(`/${entry.number}/bench/`, still(() => benchPage(context, reckoned, bodyOf(reckoned).children)));
  }
  pages.set('/series/', still(() => seriesIndexPage(context, model.series, families)));
  for (const series of model.series) {
    pages.set(`/series/${series.element}/`, withWords(series.words, (body) => seriesPage(context, { series, body, typeset: typesetOnce })));
  }
  pages.set('/colours/', still(() => familiesPage(context, model.families)));
  for (const family of model.families) pages.set(`/colours/${family.family}/`, withWords(family.words, (body) => familyPage(context, family, body)));
  const reagents = (): ReagentPageData[] => model.reagents.map((reagent) => {
    const { box, rules } = reagentDangers(reagent.id, reagent.reagent);
    return { reagent, box, rules, typeset: reagent.reagent.formula ? typesetOnce(reagent.reagent.formula) : undefined };
  });
  let reagentData: Map<string, ReagentPageData> | undefined;
  const reagentOf = (): Map<string, ReagentPageData> => (reagentData ??= new Map(reagents().map((data) => [data.reagent.id, data])));
  pages.set('/reagents/', still(() => reagentsPage(context, [...reagentOf().values()])));
  for (const { id } of model.reagents) pages.set(`/reagents/${id}/`, still(() => reagentPage(context, reagentOf().get(id)!)));
  pages.set('/elements/', still(() => elementsPage(context, model.series)));
  pages.set('/results/', still(() => resultsPage(context, model.samples, asset(assets.scripts.results.address))));
  pages.set('/ideas/', still(() => ideasPage(context, model.ideas)));
  pages.set('/incidents/', still(() => incidentsPage(context, model.incidents)));
  pages.set('/search/', still(() => searchPage(context, searchChoices(model), asset(assets.scripts.search.address))));
  pages.set('/data/', still(() => dataPage(context, dataFiles.map(({ name, what }) => ({ name, what })))));
  for (const page of journal.pages) pages.set(`/${page.name}/`, withWords(page, (body) => otherPage(context, page.title ?? page.name, `/${page.name}/`, body)));
  pages.set('/404.html', still(() => missingPage(context)));
  return { context, model, pages };
}

/** Pages without an entry behind them can set formulae, but have no samples and no values. */
function plainContext(page: Page, addressOf: BodyContext['addressOf']): BodyContext {
  return { file: page.file, bodyLine: page.bodyLine, addressOf, chem: formulaElement, value: () => undefined, valueNames: () => [], swatch: () => undefined };
}

/** The body of an entry as a tree, with what its directives ask for. */
export function entryBody(reckoned: ReckonedEntry, addressOf: BodyContext['addressOf']): ReturnType<typeof renderBody> {
  const { entry, appearance } = reckoned;
  if (entry.body.trim() === '') return { children: [], remarks: [] };
  let values: Map<string, string> | undefined;
  return renderBody(entry.body, {
    file: entry.file,
    bodyLine: entry.bodyLine,
    addressOf,
    chem: formulaElement,
    value: (path) => (values ??= valuesOf(reckoned)).get(path),
    valueNames: () => [...(values ??= valuesOf(reckoned)).keys()],
    swatch: (sample) => {
      const swatch = appearance.samples.find((one) => one.sample === sample)?.swatch;
      return swatch && swatchStrip({ ...swatch, label: `Sample ${sample}`, seed: `${entry.number}/${sample}`, size: 'small' });
    },
  });
}
