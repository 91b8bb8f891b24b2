// Series pages: one colour-giving element laid out across the colour families, and what is still to be made.
import type { Element, ElementContent, Root } from 'hast';
import { bestYieldWords } from './parts/findings.js';
import type { KnownPigment, Series, SeriesCell, SeriesEntry } from '../src/crosslinks/model.js';
import { href, inOwnLanguage, page, type SiteContext } from './frame.js';
import { leafAddress, leafLinks, type Leaf } from './leaves.js';
import { entriesByYear, entryCount, entryLink, sampleSwatch } from './parts/entry-list.js';
import { statusWord } from './parts/status.js';
import type { Typeset } from '../src/chemistry/index.js';
import { formula, formulaWords } from './parts/formula.js';
import { coloursInPlace } from './pictures/colours-in-place.js';
import { seriesGrid } from './pictures/series-grid.js';

/** How many entries a cell shows, newest first; all of them stand on a page of their own. */
export const mostInCell = 6;

/** So many colours lie in one drawing before none can be told from another. */
const mostPlaced = 300;

/** How many entries one leaf of such a page shows. */
export const entriesOfCellOnLeaf = 100;

const cellAddress = ({ element }: Pick<Series, 'element'>, { family }: Pick<SeriesCell, 'family'>): string =>
  `/series/${element}/${family}/`;

export interface SeriesPageData {
  readonly series: Series;
  readonly body: readonly ElementContent[];
  /** Typeset form of a formula as written. */
  readonly typeset: (text: string) => Typeset;
}

function made(site: SiteContext, data: Pick<SeriesPageData, 'typeset'>, one: SeriesEntry): Element {
  return (
    <li class="made">
      <span class="made-swatches">
        {one.samples.some((row) => row.appearance?.swatch) ? (
          one.samples.map((row) => sampleSwatch(site, row))
        ) : (
          <span class="no-swatch">Colour not measured</span>
        )}
      </span>
      <a href={href(site, `/${one.entry.number}/`)}>{one.pigment ?? one.entry.title}</a>
      {one.formula || one.colourIndex ? (
        <span class="small quiet">
          {one.formula ? formula(data.typeset(one.formula)) : null}
          {one.formula && one.colourIndex ? ', ' : ''}
          {one.colourIndex ?? ''}
        </span>
      ) : null}
      <span class="small quiet">
        {`No. ${one.entry.number}`}
        {statusWord(one.entry) ? <strong>{`, ${statusWord(one.entry)}`}</strong> : ''}
        {one.bestYield
          ? [', ', <span class={one.bestYield.over ? undefined : 'nowrap'}>{bestYieldWords(one.bestYield)}</span>]
          : ''}
      </span>
    </li>
  ) as Element;
}

/** Entries as they stand in a cell of a series, nothing around them. */
export const madeInCell = (
  site: SiteContext,
  data: Pick<SeriesPageData, 'typeset'>,
  entries: readonly SeriesEntry[],
): Element => (<ul>{entries.map((one) => made(site, data, one))}</ul>) as Element;

/** A formula, several of a mixture, or one with words beside it: `ZnS + BaSO4`, `CuHAsO3 (variable)`. */
const mixed = (data: SeriesPageData, text: string): Element =>
  (
    <span>
      {text
        .split(' ')
        .flatMap((part, at) => [
          at > 0 ? ' ' : '',
          ...(data.typeset(part).runs.length > 1 ? [formula(data.typeset(part))] : formulaWords(part)),
        ])}
    </span>
  ) as Element;

function notMade(data: SeriesPageData, pigment: KnownPigment): Element {
  return (
    <li class="not-made">
      <span>{pigment.names[0]}</span>
      <span class="small quiet">
        {pigment.formulas.flatMap((text, at) => [at > 0 ? '; ' : '', mixed(data, text)] as (string | Element)[])}
        {pigment.colourIndex ? `, ${pigment.colourIndex}` : ''}
        {pigment.colourIndexNumber ? ` (${pigment.colourIndexNumber})` : ''}
      </span>
      {pigment.caution ? <span class="small caution-words">{`Caution: ${pigment.caution}`}</span> : null}
    </li>
  ) as Element;
}

/** What is said of entries without a colour, by their status. */
const untoldAs = [
  ['finished', 'Made, its colour not measured: '],
  ['failed', 'Tried, and it failed: '],
] as const;

/** Said of a cell without entries: what was made stands elsewhere, as long as no colour of it is told. */
function nothingMeasured(site: SiteContext, { untold = [] }: SeriesCell): Element {
  if (untold.length === 0) return (<p class="small quiet">Nothing made yet.</p>) as Element;
  const told = untoldAs.flatMap(([status, words]) => {
    const entries = untold.filter((one) => one.status === status);
    return entries.length === 0
      ? []
      : [[words, ...entries.flatMap((entry, at) => [at > 0 ? ', ' : '', entryLink(site, entry)]), '.']];
  });
  return (<p class="small quiet">{told.flatMap((part, at) => (at > 0 ? [' ', ...part] : part))}</p>) as Element;
}

export function seriesPage(site: SiteContext, data: SeriesPageData): Root {
  const { series } = data;
  const dots = series.cells
    .flatMap((cell) => cell.entries)
    .flatMap((one) => one.samples)
    .slice(0, mostPlaced)
    .flatMap((row) => {
      const lab = row.appearance?.lab;
      const swatch = row.appearance?.swatch;
      return lab && swatch
        ? [{ label: `${row.entry.number}/${row.sample}`, lab, hex: swatch.hex, family: row.family }]
        : [];
    });
  return page(site, {
    title: `${series.name[0]?.toUpperCase()}${series.name.slice(1)} across the colours`,
    description: `Pigments of ${series.name} in this journal, by colour, and those it has not made yet.`,
    address: `/series/${series.element}/`,
    shared: {
      picture: `/share/series-${series.element}.png`,
      pictureWords: `Swatches of ${series.name}, one of each colour made`,
      facts: {
        '@type': 'CollectionPage',
        hasPart: series.entries.map(({ number, title }) => ({
          '@type': 'ScholarlyArticle',
          name: title,
          url: `${site.address}/${number}/`,
        })),
      },
    },
    part: '/series/',
    swatches: true,
    main: [
      <header class="series-head">
        <p class="symbol" aria-hidden="true">
          {series.element}
        </p>
        <div>
          <h1>{`${series.name[0]?.toUpperCase()}${series.name.slice(1)} across the colours`}</h1>
          <p class="kicker">{entryCount(series)}</p>
        </div>
      </header>,
      ...inOwnLanguage(site, data.body),
      <div class="series-grid">
        {series.cells.map((cell) => (
          <section
            class={cell.entries.length > 0 ? 'series-cell' : 'series-cell empty'}
            aria-labelledby={`family-${cell.family}`}
          >
            <h2 id={`family-${cell.family}`}>
              {cell.entries.length > 0 && cell.family !== 'unmeasured' ? (
                <a href={href(site, `/colours/${cell.family}/`)}>{cell.family}</a>
              ) : (
                cell.family
              )}
            </h2>
            {cell.entries.length > 0
              ? madeInCell(site, data, cell.entries.slice(0, mostInCell))
              : nothingMeasured(site, cell)}
            {cell.entries.length > mostInCell ? (
              <p class="small">
                <a href={href(site, cellAddress(series, cell))}>{`All ${cell.entries.length} entries`}</a>
              </p>
            ) : null}
            {cell.notMade.length > 0 ? <h3 class="small">Known to the trade, not made here</h3> : null}
            {cell.notMade.length > 0 ? <ul>{cell.notMade.map((pigment) => notMade(data, pigment))}</ul> : null}
          </section>
        ))}
      </div>,
      dots.length > 0 ? (
        <section aria-labelledby="plane">
          <h2 id="plane">Where the colours lie</h2>
          {coloursInPlace({ title: `Samples of ${series.name}`, colours: dots })}
        </section>
      ) : null,
      <p class="small quiet">
        What the trade knows is a list of published pigments and is not complete. That a pigment stands there is no
        advice to make it: several are poisonous or need licensed practice.
      </p>,
    ] as never,
  });
}

/** Every entry of one element in one colour, where the series has no room for them. */
export function cellPage(
  site: SiteContext,
  { element, name }: Pick<Series, 'element' | 'name'>,
  family: string,
  leaf: Leaf<SeriesEntry>,
): Root {
  const address = cellAddress({ element }, { family });
  const capital = `${name[0]?.toUpperCase()}${name.slice(1)}`;
  return page(site, {
    title: `${capital}, ${family}${leaf.number === 1 ? '' : `, leaf ${leaf.number}`}`,
    description: `Every ${family} entry of ${name}, newest first.`,
    address: leafAddress(address, leaf.number),
    part: '/series/',
    main: [
      <h1>{`${capital}, ${family}`}</h1>,
      <p>
        <a href={href(site, `/series/${element}/`)}>{`${capital} across the colours`}</a>
        {' · '}
        <a href={href(site, `/colours/${family}/`)}>{`All of ${family}`}</a>
      </p>,
      leafLinks(site, address, leaf),
      ...entriesByYear(site, leaf.items),
      leafLinks(site, address, leaf),
    ] as never,
  });
}

export function seriesIndexPage(site: SiteContext, all: readonly Series[], families: readonly string[]): Root {
  const made = families.filter((family) =>
    all.some((series) => series.cells.some((cell) => cell.family === family && cell.entries.length > 0)),
  );
  const grid = seriesGrid({
    caption: 'Elements down, colours across',
    families: made.map((name) => ({ name, href: href(site, `/colours/${name}/`) })),
    rows: all.map((series) => ({
      name: series.name,
      href: href(site, `/series/${series.element}/`),
      cells: series.cells.map((cell) => ({
        family: cell.family,
        notMade: cell.notMade.length,
        made: cell.entries
          .flatMap((one) => one.samples)
          .map((row) => ({
            href: href(site, `/${row.entry.number}/#${row.sample}`),
            label: `${row.entry.number}/${row.sample}`,
            swatch: row.appearance?.swatch,
          })),
      })),
    })),
  });
  return page(site, {
    title: 'Series by element',
    description: 'Every colour-giving element of this journal, laid out across the colours.',
    address: '/series/',
    part: '/series/',
    swatches: true,
    main: [
      <h1>Series by element</h1>,
      <p>A series holds every entry of one colour-giving element, laid out across the colours.</p>,
      grid,
      <ul class="series-list">
        {all.map((series) => (
          <li>
            <a
              href={href(site, `/series/${series.element}/`)}
            >{`${series.name[0]?.toUpperCase()}${series.name.slice(1)} across the colours`}</a>
            <span class="small quiet">{` ${entryCount(series)}, ${series.cells
              .filter((cell) => cell.entries.length > 0)
              .map((cell) => cell.family)
              .join(', ')}`}</span>
          </li>
        ))}
      </ul>,
    ] as never,
  });
}
