// The pages of one entry (the entry, its bench sheet), rendered from plain data: the unit of work that can go to a
// worker thread.
import GithubSlugger from 'github-slugger';
import type { Element, ElementContent, Root } from 'hast';
import { toString } from 'hast-util-to-string';
import { benchPage } from '../../templates/bench.js';
import { curvesAddress, entryCurvesPage } from '../../templates/entry-curves.js';
import { entryPage, ownAnchors } from '../../templates/entry.js';
import type { EntryPageData, WriteUpPart } from '../../templates/parts/entry-data.js';
import { fileHref, type SiteContext } from '../../templates/frame.js';
import { formula as setFormula } from '../../templates/parts/formula.js';
import { photographFigure, photographPicture } from '../../templates/parts/photograph.js';
import { swatchName } from '../../templates/parts/strips.js';
import { looksWords, seenByEye } from '../../templates/parts/looks.js';
import { momentLink } from '../../templates/parts/video.js';
import { swatchStrip } from '../../templates/pictures/swatch-strip.js';
import { bestYield } from '../crosslinks/best-yield.js';
import type { EntryLinks, SampleRow } from '../crosslinks/model.js';
import type { Entry, Page } from '../journal/entry.js';
import { isPublishedFile } from '../journal/folder.js';
import { bodyLinks } from '../journal/links.js';
import { photographsOf, type Photograph } from '../journal/photographs.js';
import { memoise } from '../memoise.js';
import type { Remark } from '../remarks/remark.js';
import type { ReckonedEntry } from '../reckoning/contracts.js';
import { identificationOf } from '../reckoning/appearance/identification.js';
import { isFormula, typesetOf } from '../reckoning/typeset.js';
import type { PageParts } from './html.js';
import { pageText } from './page-text.js';
import { linkedFile, noBody, renderBody, type BodyContext, type PartLink, type RenderedBody } from './markdown.js';
import { valuesOf } from './values.js';

/** What every entry's pages may draw on; plain data. */
export interface SharedByEntries {
  readonly context: Omit<SiteContext, 'pictures'>;
}

/** Address, base path included, of files of the journal that have a page of their own. */
export type Addresses = ReadonlyMap<string, string>;

/** What one entry's pages are made of; plain data. */
export interface EntryWork {
  readonly reckoned: ReckonedEntry;
  readonly links: EntryLinks;
  readonly rows: readonly SampleRow[];
  /** Where its links lead. */
  readonly addresses: Addresses;
  /** Names of its colour-giving elements that have a series, by symbol. */
  readonly elementNames: Readonly<Record<string, string>>;
  /** Sizes and forms of its photographs. */
  readonly pictures?: SiteContext['pictures'];
}

export interface Rendered {
  readonly html: string;
  readonly remarks: readonly Remark[];
  readonly partLinks: readonly PartLink[];
  /** Its ids and links, where its writer gathered them. */
  readonly parts?: PageParts;
}

/** A page with what is to be said of its write-up; most have none. */
export const renderedPage = (
  tree: Root,
  { remarks, partLinks }: Pick<Rendered, 'remarks' | 'partLinks'> = noBody,
): Rendered => ({ ...pageText(tree), remarks, partLinks });

/** So many formulae of bodies are held. */
const mostFormulae = 2000;

/** `:chem[…]` in a body; undefined where it is no formula. */
export const formulaElement = memoise(
  (written: string) => written,
  (written): Element | undefined => (isFormula(written) ? setFormula(typesetOf(written)) : undefined),
  mostFormulae,
);

/** The site as an entry's pages see it, with the entry's own photographs. */
const contextOf = ({ context }: SharedByEntries, { pictures }: EntryWork): SiteContext =>
  pictures ? { ...context, pictures } : context;

/** Where a link to a file of the journal leads. */
export const addressIn =
  (context: SiteContext, addresses: Addresses): BodyContext['addressOf'] =>
  (file) =>
    addresses.get(file) ?? (isPublishedFile(file) ? fileHref(context, file) : undefined);

/** Of the addresses those that a write-up can link to: its own, and those of the files that its links name. */
export function addressesNamed(of: Entry | Page, addresses: Addresses): Addresses {
  const named = bodyLinks(of).map(({ written }) => linkedFile(of.file, written));
  const files = new Set([of.file, ...named]);
  return new Map([...files].flatMap((file) => (addresses.has(file) ? [[file, addresses.get(file)!] as const] : [])));
}

/** A body with the reckoned values that it states and the moments of videos that it places. */
export interface EntryBody extends RenderedBody {
  readonly said: ReadonlySet<string>;
  readonly placedMoments: ReadonlySet<string>;
}

/** The pictures of a body in their published forms; what the front matter says of them stands below. */
export const picturesIn =
  (context: SiteContext, entry?: Entry): NonNullable<BodyContext['picture']> =>
  ({ file, alt, title, alone, linked }) => {
    if (!context.pictures?.[file]) return undefined;
    const named = entry && photographsOf(entry).find((one) => one.file === file);
    const shows = alt === '' ? named?.shows : alt;
    const one: Photograph = { path: [], ...named, file, ...(shows && { shows }), ...(title && { caption: title }) };
    if (alone && (one.caption !== undefined || named)) return photographFigure(context, one, entry, { lazy: true });
    return photographPicture(context, file, shows ?? '', { lazy: true, linked });
  };

/** The body of an entry as a tree, with what its directives ask for. */
export function entryBody(shared: SharedByEntries, work: EntryWork): EntryBody {
  const { reckoned, addresses } = work;
  const { entry } = reckoned;
  const context = contextOf(shared, work);
  const said = new Set<string>();
  const placedMoments = new Set<string>();
  if (entry.body.trim() === '') return { ...noBody, said, placedMoments };
  let values: Map<string, string> | undefined;
  const moments = entry.videos.flatMap((video) => video.moments.map((moment) => ({ video, moment })));
  const rendered = renderBody(entry.body, {
    file: entry.file,
    bodyLine: entry.bodyLine,
    addressOf: addressIn(context, addresses),
    chem: formulaElement,
    value: (path) => {
      said.add(path);
      return (values ??= valuesOf(reckoned)).get(path);
    },
    valueNames: () => [...(values ??= valuesOf(reckoned)).keys()],
    swatch: (sample) => {
      const seen = reckoned.appearance.samples.find((one) => one.sample === sample);
      if (seen?.swatch) return swatchStrip(seen.swatch, swatchName(sample, seen));
      const looks = looksWords(entry.samples.find((one) => one.sample === sample)?.looks);
      return looks === undefined ? undefined : seenByEye(looks);
    },
    moment: (at) => {
      const found = moments.find(({ moment }) => moment.at === at);
      if (!found) return undefined;
      placedMoments.add(at);
      return momentLink(found.video, found.moment);
    },
    momentTimes: () => moments.map(({ moment }) => moment.at),
    picture: picturesIn(context, entry),
  });
  return { ...rendered, said, placedMoments };
}

const isHeading = (node: ElementContent): node is Element => node.type === 'element' && node.tagName === 'h2';

/** Names that are given away on every page, as a slugger counts them. */
const ownNames: Readonly<Record<string, number>> = Object.fromEntries(ownAnchors.map((name) => [name, 0]));

/** Names the headings of a write-up, none like an anchor of the page's own or of a sample, and cuts it at them. */
function cutAtHeadings(
  children: readonly ElementContent[],
  samples: readonly string[],
): { readonly lead: readonly ElementContent[]; readonly parts: readonly WriteUpPart[] } {
  const first = children.findIndex(isHeading);
  if (first < 0) return { lead: [], parts: [] };
  const slugger = new GithubSlugger();
  Object.assign(slugger.occurrences, ownNames);
  for (const sample of samples) slugger.slug(sample.toLowerCase());
  const parts: { id: string; title: string; content: ElementContent[] }[] = [];
  for (const node of children.slice(first)) {
    if (isHeading(node)) {
      const title = toString(node);
      parts.push({ id: slugger.slug(title) || slugger.slug('part'), title, content: [] });
    } else parts.at(-1)!.content.push(node);
  }
  return { lead: children.slice(0, first), parts };
}

/** Whether all of it is plain paragraphs and pictures, as an introduction is. */
const isIntroduction = (nodes: readonly ElementContent[]): boolean =>
  nodes.every(
    (node) => node.type === 'text' || (node.type === 'element' && ['p', 'figure', 'a'].includes(node.tagName)),
  );

/**
 * The write-up in the parts of the page: an introduction goes before everything, a text without headings is one part.
 */
function writeUpOf(reckoned: ReckonedEntry, { children }: EntryBody): Pick<EntryPageData, 'lead' | 'writeUp'> {
  const { lead, parts } = cutAtHeadings(
    children,
    reckoned.entry.samples.map(({ sample }) => sample),
  );
  if (children.length === 0) return { lead: [], writeUp: [] };
  const whole = { id: 'write-up', title: 'What was done' };
  if (parts.length === 0) return { lead: [], writeUp: [{ ...whole, content: children }] };
  if (isIntroduction(lead)) return { lead, writeUp: parts };
  return { lead: [], writeUp: [{ ...whole, content: lead }, ...parts] };
}

/** Statuses of work that nobody is to take to the bench. */
const notReady: ReadonlySet<string> = new Set(['withdrawn', 'abandoned']);

export const hasBenchSheet = ({ entry }: ReckonedEntry): boolean => !notReady.has(entry.status);

/** The entry's page from a body already rendered. */
export function renderEntry(shared: SharedByEntries, work: EntryWork, body: EntryBody): Rendered {
  const { reckoned, links, rows, elementNames } = work;
  const formula = reckoned.entry.pigment?.formula;
  const tree = entryPage(contextOf(shared, work), {
    reckoned,
    links,
    rows,
    photographs: photographsOf(reckoned.entry),
    ...writeUpOf(reckoned, body),
    said: body.said,
    placedMoments: body.placedMoments,
    bestYield: bestYield(reckoned.amounts.samples),
    benchSheet: hasBenchSheet(reckoned),
    formula: formula ? typesetOf(formula) : undefined,
    elementNames,
    curves: hasCurves(reckoned),
  });
  return renderedPage(tree, body);
}

export const renderBench = (shared: SharedByEntries, work: EntryWork, body: RenderedBody): Rendered =>
  renderedPage(benchPage(contextOf(shared, work), work.reckoned, body.children));

/** Whether any sample has a spectrum to draw curves of. */
export const hasCurves = ({ gist }: ReckonedEntry): boolean => gist.samples.some(({ curve }) => curve);

export function renderCurves({ context }: SharedByEntries, { reckoned }: EntryWork): Rendered {
  const { entry, appearance } = reckoned;
  const { samples } = appearance;
  const identification = identificationOf(appearance);
  const { number, title } = entry;
  return renderedPage(entryCurvesPage(context, { number, title, samples, identification }));
}

/** Addresses of the pages that an entry of a number may have. */
export const addressesOfEntry = (number: number): readonly string[] => [
  `/${number}/`,
  `/${number}/bench/`,
  curvesAddress(number),
];

/** Pages of one entry, by address; its body is rendered once. @param addresses those to render */
export function renderEntryPages(
  shared: SharedByEntries,
  work: EntryWork,
  addresses: readonly string[],
): { address: string; rendered: Rendered }[] {
  const { number } = work.reckoned.entry;
  let body: EntryBody | undefined;
  const bodyOf = (): EntryBody => (body ??= entryBody(shared, work));
  const rendered = (address: string): Rendered => {
    if (address === `/${number}/`) return renderEntry(shared, work, bodyOf());
    return address === curvesAddress(number) ? renderCurves(shared, work) : renderBench(shared, work, bodyOf());
  };
  return addresses.map((address) => ({ address, rendered: rendered(address) }));
}
