// A leaf of the table of results after an edit that shows other pages nothing else but what was weighed: the rows of
// the edited entries take the place of those that stand in the leaf, and of all other entries nothing is read.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { SiteContext } from '../../../templates/frame.js';
import type { Leaf } from '../../../templates/leaves.js';
import { resultsPage } from '../../../templates/results.js';
import type { SampleRow } from '../../crosslinks/model.js';
import { renderedPage } from '../entry-pages.js';
import type { SitePage } from '../page-list.js';
import { recordOf } from '../page-record.js';
import type { SiteAddress } from '../site-links.js';
import { fileOfAddress } from '../staging.js';
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

type LeafInputs = readonly [SiteContext, Leaf<SampleRow>, all: number, script: string];

const [begin, row, end] = ['<tbody>', '<tr>', '</table>'];

/** The rows of a leaf that shows some alone. */
function standing({ address, inputs }: SitePage, items: readonly SampleRow[], site: SiteAddress): Standing | undefined {
  const [context, leaf, all, script] = inputs as LeafInputs;
  const rendered = renderedPage(resultsPage(context, { ...leaf, items }, all, script));
  const said = saidOf(recordOf(address, rendered, { path: '', bytes: 0, hash: '' }, site));
  const pieces = rendered.html.split(begin);
  const to = pieces[1]?.indexOf(end) ?? -1;
  return said === undefined || pieces.length !== 2 || to < 0 ? undefined : { text: pieces[1]!.slice(0, to), said };
}

/** Puts rows in the place of others; undefined where those do not stand there once, and whole. */
function exchanged(whole: string, was: string, is: string): string | undefined {
  const at = was.startsWith(row) ? whole.indexOf(was) : -1;
  if (at < 0 || whole.includes(was, at + 1)) return undefined;
  const behind = at + was.length;
  const isWhole = whole.startsWith(row, behind) || whole.startsWith(end, behind);
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
    text = exchanged(text, before.text, now.text);
    if (text === undefined) return undefined;
  }
  return text;
}
