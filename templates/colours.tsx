// Colour family pages: every sample of one colour, whatever its element.
import type { ElementContent, Root } from 'hast';
import type { Family, SampleRow } from '../src/crosslinks/model.js';
import type { ColourMethod } from '../src/reckoning/appearance/colour-method.js';
import { colourMethodAddress, familyCuts } from './colour-method.js';
import { href, inOwnLanguage, page, type SiteContext } from './frame.js';
import { leafAddress, leafLinks, type Leaf } from './leaves.js';
import { sampleSwatch } from './parts/entry-list.js';
import { familyRemark } from './parts/family-basis.js';
import { apartWords } from './parts/listed.js';
import { coloursInPlace } from './pictures/colours-in-place.js';

const capital = (word: string): string => `${word[0]?.toUpperCase()}${word.slice(1)}`;

/** How many samples one leaf of a colour's page shows. */
export const samplesOfColourOnLeaf = 60;

/** So many colours lie in one drawing before none can be told from another. */
const mostPlaced = 300;

/** The samples of a family, lightest first, those without a reading last. */
export const lightestFirst = ({ samples }: Family): SampleRow[] =>
  // Rows of a large journal are read when they are asked for: once each, not at every comparison.
  samples
    .map((row) => ({ row, lightness: row.appearance?.lab?.[0] ?? -1 }))
    .sort((x, y) => y.lightness - x.lightness)
    .map(({ row }) => row);

/**
 * @param leaf of the family's samples, lightest first
 * @param body the maker's own words, on the first leaf
 */
export function familyPage(
  site: SiteContext,
  family: Family,
  leaf: Leaf<SampleRow>,
  body: readonly ElementContent[],
): Root {
  const address = `/colours/${family.family}/`;
  const placed = (leaf.number === 1 ? family.samples.slice(0, mostPlaced) : []).flatMap((row) =>
    row.appearance?.lab && row.appearance.swatch
      ? [
          {
            label: `${row.entry.number}/${row.sample}`,
            lab: row.appearance.lab,
            hex: row.appearance.swatch.hex,
            family: row.pigment,
          },
        ]
      : [],
  );
  const declared = family.samples.some((row) => row.familyBasis === 'declared');
  const card = (row: SampleRow) => (
    <li>
      {sampleSwatch(site, row) ?? <span class="no-swatch">not measured</span>}
      <div>
        <a href={href(site, `/${row.entry.number}/#${row.sample}`)}>{row.pigment ?? row.entry.title}</a>
        <span class="small quiet">
          {`${row.entry.number}/${row.sample}${apartWords(row) ? `, ${apartWords(row)}` : ''}`}
          {familyRemark(row.familyBasis)}
        </span>
      </div>
    </li>
  );
  return page(site, {
    title: leaf.number === 1 ? capital(family.family) : `${capital(family.family)}, leaf ${leaf.number}`,
    description: `Every ${family.family} sample of this journal.`,
    address: leafAddress(address, leaf.number),
    part: '/colours/',
    swatches: true,
    main: [
      <h1>{capital(family.family)}</h1>,
      ...(leaf.number === 1 ? inOwnLanguage(site, body) : []),
      <p class="kicker">
        {`${family.samples.length} ${family.samples.length === 1 ? 'sample' : 'samples'}, lightest first`}
      </p>,
      leafLinks(site, address, leaf),
      <ul class="sample-list">{leaf.items.map(card)}</ul>,
      leafLinks(site, address, leaf),
      placed.length > 1 ? (
        <section aria-labelledby="plane">
          <h2 id="plane">Where the colours lie</h2>
          {coloursInPlace({ title: `Samples in ${family.family}`, colours: placed, beside: 'Pigment' })}
        </section>
      ) : null,
      declared ? (
        <p class="small quiet">Where a colour is declared, the maker named it and no reading was taken.</p>
      ) : null,
    ] as never,
  });
}

/** How many samples of a family there are, and how many of them have no colour to show. */
function counted(samples: readonly SampleRow[]): string {
  const bare = samples.filter((row) => !row.appearance?.swatch).length;
  return (
    `${samples.length} ` +
    `${samples.length === 1 ? 'sample' : 'samples'}${bare > 0 ? `, ${bare} of them not measured` : ''}`
  );
}

export function familiesPage(site: SiteContext, families: readonly Family[], method: ColourMethod): Root {
  return page(site, {
    title: 'Colours',
    description: 'Every colour family that this journal has reached, with its samples.',
    address: '/colours/',
    part: '/colours/',
    swatches: true,
    main: [
      <h1>Colours</h1>,
      <ul class="series-list families">
        {families.map((family) => (
          <li>
            <h2>
              <a href={href(site, `/colours/${family.family}/`)}>{capital(family.family)}</a>
            </h2>
            <p class="colour-band">{family.samples.slice(0, 24).map((row) => sampleSwatch(site, row))}</p>
            <p class="small quiet">{counted(family.samples)}</p>
          </li>
        ))}
      </ul>,
      <h2>Where a family ends</h2>,
      familyCuts(method),
      <p>
        <a href={href(site, colourMethodAddress)}>How colours are read, named and compared</a>
      </p>,
    ] as never,
  });
}
