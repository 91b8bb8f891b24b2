// Leaves of the table of results, and series, after an edit that shows other pages nothing else but what was weighed:
// what they show of the edited entries takes the place of what stands there, and of all other entries nothing is read.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Root } from 'hast';
import { href, type SiteContext } from '../../../templates/frame.js';
import type { Leaf } from '../../../templates/leaves.js';
import { resultsPage } from '../../../templates/results.js';
import { madeInCell } from '../../../templates/series.js';
import { seriesEntry } from '../../crosslinks/crosslink.js';
import type { SampleRow } from '../../crosslinks/model.js';
import { typesetOf } from '../../reckoning/typeset.js';
import { renderedPage } from '../entry-pages.js';
import type { SitePage } from '../page-list.js';
import { recordOf } from '../page-record.js';
import type { SiteAddress } from '../site-links.js';
import { fileOfAddress } from '../file-writing.js';
import { saidOf } from './said.js';

/** The rows of one edited entry as they were listed, and as they are. */
export interface EditedRows {
  readonly was: readonly SampleRow[];
  readonly is: readonly SampleRow[];
}

/** Rows as they stand in a leaf, and what they say to other pages. */
interface Standing {
  readonly text: string;
  readonly said: string;
}

const isLeaf = (address: string): boolean => /^\/results\/(?:\d+\/)?$/.test(address);
const isFileOfLeaf = (path: string): boolean => /^results\/(?:\d+\/)?index\.html$/.test(path);

type LeafInputs = readonly [SiteContext, Leaf<SampleRow>, all: number, script: string];

/** What things of a list stand between, and how each of them begins. */
interface List {
  readonly begin: string;
  readonly thing: string;
  readonly end: string;
}
const inResults: List = { begin: '<tbody>', thing: '<tr>', end: '</table>' };
const inSeries: List = { begin: '<ul>', thing: '<li class=made>', end: '</ul>' };

/** What stands in the only list of a page, and what that says to other pages. */
function standingIn({ begin, end }: List, address: string, tree: Root, site: SiteAddress): Standing | undefined {
  const rendered = renderedPage(tree);
  const said = saidOf(recordOf(address, rendered, { path: '', bytes: 0, hash: '' }, site));
  const pieces = rendered.html.split(begin);
  const to = pieces[1]?.indexOf(end) ?? -1;
  return said === undefined || pieces.length !== 2 || to < 0 ? undefined : { text: pieces[1]!.slice(0, to), said };
}

/** The rows of a leaf that shows some alone. */
function standing({ address, inputs }: SitePage, items: readonly SampleRow[], site: SiteAddress): Standing | undefined {
  const [context, leaf, all, script] = inputs as LeafInputs;
  return standingIn(inResults, address, resultsPage(context, { ...leaf, items }, all, script), site);
}

/** Puts things of a list in the place of others; undefined where those do not stand there once, and whole. */
function exchanged({ thing, end }: List, whole: string, was: string, is: string): string | undefined {
  const at = was.startsWith(thing) ? whole.indexOf(was) : -1;
  if (at < 0 || whole.includes(was, at + 1)) return undefined;
  const behind = at + was.length;
  const isWhole = whole.startsWith(thing, behind) || whole.startsWith(end, behind);
  return isWhole ? `${whole.slice(0, at)}${is}${whole.slice(behind)}` : undefined;
}

/**
 * The text of a leaf of the results as it is now; it says to other pages what it said.
 * @param edited every entry of which rows are others, and nothing but what was weighed
 * @param folder of the site, where the leaf lies as it was
 * @returns undefined where the page is none, or has to be rendered
 */
export function resultsAgain(
  page: SitePage,
  edited: () => readonly EditedRows[],
  folder: string,
  site: SiteAddress,
): string | undefined {
  if (!isLeaf(page.address)) return undefined;
  const [, { items }] = page.inputs as LeafInputs;
  const numbers = new Set(items.map(({ entry }) => entry.number));
  let text: string | undefined = readFileSync(join(folder, fileOfAddress(page.address)), 'utf8');
  for (const { was, is } of edited()) {
    if (!is[0] || !numbers.has(is[0].entry.number)) continue;
    const [before, now] = [standing(page, was, site), standing(page, is, site)];
    // What is chosen from, elements and families, stands in the page too: it is what it was, as are ids and links.
    if (!before || before.said !== now?.said) return undefined;
    text = exchanged(inResults, text, before.text, now.text);
    if (text === undefined) return undefined;
  }
  return text;
}

/** A site as it was, of which texts of pages are exchanged. */
export interface SiteBefore {
  /** Paths of its files. */
  readonly paths: Iterable<string>;
  /** Text of a page by the path of its file. */
  readonly read: (path: string) => string;
  readonly write: (path: string, text: string) => void;
  readonly context: SiteContext;
  readonly at: SiteAddress;
}

/**
 * Exchanges the rows of edited entries in the leaf that has them.
 * @returns whether there is one, and only one, that says the same to other pages then
 */
export function rowsExchanged(edited: readonly EditedRows[], { paths, read, write, context, at }: SiteBefore): boolean {
  const leaves = [...paths].filter(isFileOfLeaf);
  const alone = (items: readonly SampleRow[]): Standing | undefined =>
    standingIn(inResults, '/results/', resultsPage(context, { number: 1, of: 1, items }, items.length, ''), at);
  return edited.every(({ was, is }) => {
    if (is.length === 0) return was.length === 0;
    const [before, now] = [alone(was), alone(is)];
    if (!before || before.said !== now?.said) return false;
    const own = leaves.filter((path) => read(path).includes(before.text));
    const text = own.length === 1 ? exchanged(inResults, read(own[0]!), before.text, now.text) : undefined;
    if (text !== undefined) write(own[0]!, text);
    return text !== undefined;
  });
}

type Rows = readonly SampleRow[];

/** Exchanges what a series shows of one entry in a colour family; undefined where that is not sure. */
function inSeriesAgain(page: string, was: Rows, is: Rows, site: SiteBefore): string | undefined {
  if (was.length === 0 || is.length === 0) return undefined;
  const alone = (rows: readonly SampleRow[]): Standing | undefined => {
    const list = madeInCell(site.context, { typeset: typesetOf }, [seriesEntry(rows)]);
    return standingIn(inSeries, '/series/', { type: 'root', children: [list] }, site.at);
  };
  const [before, now] = [alone(was), alone(is)];
  if (!before || before.said !== now?.said) return undefined;
  if (before.text === now.text) return page;
  const own = href(site.context, `/${is[0]!.entry.number}/`);
  // Of each colour only the newest entries are shown.
  const isShown = [`href=${own}`, `href="${own}`].some((link) => page.includes(link));
  return isShown ? exchanged(inSeries, page, before.text, now.text) : page;
}

/**
 * Exchanges what the series of their elements show of edited entries.
 * @returns whether all could be exchanged
 */
export function seriesExchanged(edited: readonly EditedRows[], site: SiteBefore): boolean {
  return edited.every(({ was, is }) => {
    const families = [...new Set([...was, ...is].map(({ family }) => family))];
    return (is[0]?.elements ?? []).every((element) => {
      const path = fileOfAddress(`/series/${element}/`);
      let page: string | undefined = site.read(path);
      for (const family of families) {
        const own = (rows: Rows): Rows => rows.filter((row) => row.family === family);
        page = page && inSeriesAgain(page, own(was), own(is), site);
      }
      if (page !== undefined) site.write(path, page);
      return page !== undefined;
    });
  });
}
