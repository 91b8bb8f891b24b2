// The first page: the journal's own words, all its colours as one painted band, newest entries, series, colours.
import type { Root } from 'hast';
import type { JournalModel, SampleRow, Series } from '../src/crosslinks/model.js';
import { href, page, type SiteContext } from './frame.js';
import { leafAddress, leafLinks, type Leaf } from './leaves.js';
import { entriesByYear, entryCount, entryList, sampleSwatch, yearsOf, type ListedEntry } from './parts/entry-list.js';
import { authorFacts } from './parts/shared-head.js';
import { yearLinks } from './timeline.js';

/** How many entries the first page lists; the rest are a link away. */
export const newestOnHome = 12;

const hue = (row: SampleRow): number => {
  const [, a, b] = row.appearance?.lab ?? [0, 0, 0];
  return Math.hypot(a, b) < 6
    ? 720 - (row.appearance?.lab?.[0] ?? 0)
    : ((Math.atan2(b, a) * 180) / Math.PI + 400) % 360;
};

/** Samples spread evenly over the hues, so that the band stays short in a large journal. */
function band(samples: readonly SampleRow[], most: number): SampleRow[] {
  // Rows of a large journal are read when they are asked for: once each, not at every comparison.
  const sorted = samples
    .flatMap((row) => (row.appearance?.swatch ? [{ row, at: hue(row) }] : []))
    .sort((x, y) => x.at - y.at)
    .map(({ row }) => row);
  if (sorted.length <= most) return sorted;
  return Array.from({ length: most }, (_, at) => sorted[Math.floor((at * sorted.length) / most)]!);
}

/** In how many colours a series was made. */
const colours = (one: Series): string => {
  const made = one.cells.filter((cell) => cell.entries.length > 0 && cell.family !== 'unmeasured').length;
  if (made === 0) return 'colour not measured';
  return `${made} ${made === 1 ? 'colour' : 'colours'}`;
};

/** What the first page is made of. */
export interface HomePageData extends Pick<JournalModel, 'series' | 'families' | 'samples'> {
  readonly newest: readonly ListedEntry[];
  /** How many there are. */
  readonly entries: number;
}

export function homePage(site: SiteContext, { series, families, entries, samples, newest }: HomePageData): Root {
  return page(site, {
    title: site.title,
    description: site.description,
    address: '/',
    shared: { facts: { '@type': 'WebSite', author: authorFacts(site.author), isPartOf: undefined } },
    part: '/',
    swatches: true,
    main: [
      <header class="home-head">
        <h1>{site.title}</h1>
        {site.subtitle ? <p class="subtitle">{site.subtitle}</p> : null}
        {site.description ? <p>{site.description}</p> : null}
        <p class="kicker">{`${entries} entries, ${samples.length} samples, ${series.length} elements`}</p>
      </header>,
      <section aria-labelledby="band">
        <h2 id="band" class="hidden-label">
          Every colour so far, by hue
        </h2>
        <ul class="colour-band">
          {band(samples, 48).map((row) => (
            <li>{sampleSwatch(site, row)}</li>
          ))}
        </ul>
      </section>,
      <section aria-labelledby="newest">
        <h2 id="newest">Newest entries</h2>
        {entryList(site, newest)}
        <p>
          {entries > newest.length ? [<a href={href(site, '/entries/')}>{`All ${entries} entries`}</a>, ' · '] : null}
          <a href={href(site, '/timeline/')}>Timeline</a>
        </p>
      </section>,
      <section aria-labelledby="by-element">
        <h2 id="by-element">Series by element</h2>
        <ul class="element-tiles">
          {series.map((one) => (
            <li>
              <a href={href(site, `/series/${one.element}/`)}>
                <span class="symbol">{one.element}</span>
                <span>{one.name}</span>
              </a>
              <span class="quiet small">{`${entryCount(one)}, ${colours(one)}`}</span>
            </li>
          ))}
        </ul>
      </section>,
      families.length === 0 ? null : (
        <section aria-labelledby="by-colour">
          <h2 id="by-colour">By colour</h2>
          <ul class="family-tiles">
            {families.map((one) => (
              <li>
                <a href={href(site, `/colours/${one.family}/`)}>{one.family}</a>
                <span class="family-swatches">{one.samples.slice(0, 5).map((row) => sampleSwatch(site, row))}</span>
              </li>
            ))}
          </ul>
        </section>
      ),
    ] as never,
  });
}

/** How many entries one leaf of the whole list holds. */
export const entriesOnLeaf = 250;

/** Every entry, newest first. */
export function entriesPage(site: SiteContext, leaf: Leaf<ListedEntry>): Root {
  return page(site, {
    title: leaf.number === 1 ? 'All entries' : `All entries, leaf ${leaf.number}`,
    description: `Every entry of ${site.title}, newest first.`,
    address: leafAddress('/entries/', leaf.number),
    part: '/',
    swatches: true,
    main: [
      <h1>All entries</h1>,
      <p>
        By year, repeats of one pigment folded. <a href={href(site, '/timeline/')}>The same as a timeline of colours</a>
        .
      </p>,
      yearLinks(yearsOf(leaf.items)),
      leafLinks(site, '/entries/', leaf),
      ...entriesByYear(site, leaf.items),
      leafLinks(site, '/entries/', leaf),
    ] as never,
  });
}
