// The pages of one entry (the entry, its bench sheet), rendered from plain data: the unit of work that can go to a worker thread.
import type { Element, Root } from 'hast';
import rehypeStringify from 'rehype-stringify';
import { unified } from 'unified';
import { benchPage } from '../../templates/bench.js';
import { entryPage } from '../../templates/entry.js';
import { fileHref, type SiteContext } from '../../templates/frame.js';
import { formula as setFormula } from '../../templates/parts/formula.js';
import { swatchStrip } from '../../templates/pictures/swatch-strip.js';
import type { EntryLinks, SampleRow } from '../crosslinks/model.js';
import { isPublishedFile } from '../journal/folder.js';
import type { Remark } from '../journal/remarks.js';
import type { ReckonedEntry } from '../reckoning/contracts.js';
import { isFormula, typesetOf } from '../reckoning/typeset.js';
import { noBody, renderBody, type BodyContext, type PartLink, type RenderedBody } from './markdown.js';
import { valuesOf } from './values.js';

/** What every entry's pages may draw on; plain data. */
export interface SharedByEntries {
  readonly context: SiteContext;
  /** Address, base path included, of each published file of the journal. */
  readonly addresses: ReadonlyMap<string, string>;
  readonly elementNames: Readonly<Record<string, string>>;
}

/** What one entry's pages are made of; plain data. */
export interface EntryWork {
  readonly reckoned: ReckonedEntry;
  readonly links: EntryLinks;
  readonly rows: readonly SampleRow[];
}

export interface Rendered {
  readonly html: string;
  readonly remarks: readonly Remark[];
  readonly partLinks: readonly PartLink[];
}

const processor = unified()
  .use(rehypeStringify, { omitOptionalTags: true, closeEmptyElements: true, tightSelfClosing: true })
  .freeze();
export const stringify = (tree: Root): string => processor.stringify(tree);

/** `:chem[…]` in a body; undefined where it is no formula. */
export const formulaElement = (written: string): Element | undefined =>
  isFormula(written) ? setFormula(typesetOf(written)) : undefined;

/** Where a link to a file of the journal leads. */
export const addressIn =
  ({ context, addresses }: SharedByEntries): BodyContext['addressOf'] =>
  (file) =>
    addresses.get(file) ?? (isPublishedFile(file) ? fileHref(context, file) : undefined);

/** The body of an entry as a tree, with what its directives ask for. */
export function entryBody(reckoned: ReckonedEntry, addressOf: BodyContext['addressOf']): RenderedBody {
  const { entry, appearance } = reckoned;
  if (entry.body.trim() === '') return noBody;
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
      return swatch && swatchStrip(swatch, `Sample ${sample}`);
    },
  });
}

export const hasBenchSheet = ({ entry }: ReckonedEntry): boolean => entry.status !== 'withdrawn';

/** The entry's page from a body already rendered. */
export function renderEntry(
  { context, elementNames }: SharedByEntries,
  { reckoned, links, rows }: EntryWork,
  body: RenderedBody,
): Rendered {
  const formula = reckoned.entry.pigment?.formula;
  const tree = entryPage(context, {
    reckoned,
    links,
    rows,
    body: body.children,
    formula: formula ? typesetOf(formula) : undefined,
    elementNames,
  });
  return { html: stringify(tree), remarks: body.remarks, partLinks: body.partLinks };
}

export const renderBench = ({ context }: SharedByEntries, { reckoned }: EntryWork, body: RenderedBody): Rendered => ({
  html: stringify(benchPage(context, reckoned, body.children)),
  remarks: [],
  partLinks: [],
});

/** Every page of one entry, by address; its body is rendered once. */
export function renderEntryPages(shared: SharedByEntries, work: EntryWork): { address: string; rendered: Rendered }[] {
  const { number } = work.reckoned.entry;
  const body = entryBody(work.reckoned, addressIn(shared));
  return [
    { address: `/${number}/`, rendered: renderEntry(shared, work, body) },
    ...(hasBenchSheet(work.reckoned)
      ? [{ address: `/${number}/bench/`, rendered: renderBench(shared, work, body) }]
      : []),
  ];
}
