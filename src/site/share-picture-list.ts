// Which pictures a site shows where it is linked to, and what is on each.
import type { SiteContext } from '../../templates/frame.js';
import { samplesByEntry } from '../../templates/parts/listed.js';
import type { PaintedSwatch } from '../../templates/pictures/swatch-strip.js';
import type { JournalModel, SampleRow } from '../crosslinks/model.js';
import { hashOf, identify, identityOf } from '../kept/inputs.js';
import { lookedUp } from '../looked-up.js';

/** What one picture shows: all that it is made of. */
export interface SharePicture {
  /** Address below the base: `/share/4.png`. */
  readonly address: string;
  /** The line above the title: number, journal. */
  readonly above: string;
  readonly title: string;
  readonly swatches: readonly { readonly letter: string; readonly swatch: PaintedSwatch }[];
}

/** Changes when pictures are drawn otherwise, so that nothing old is taken from the cache. */
export const recipe = 'share-1200-630-5';

const swatchesOf = (rows: readonly SampleRow[]): SharePicture['swatches'] =>
  rows.flatMap(({ sample, appearance }) => (appearance?.swatch ? [{ letter: sample, swatch: appearance.swatch }] : []));

const stateWords: Readonly<Record<string, string>> = {
  planned: 'planned, not done',
  running: 'not finished',
  failed: 'failed',
  abandoned: 'not done',
  withdrawn: 'withdrawn',
};

/** One sample of each family that a series was made in. */
const ofSeries = (rows: readonly SampleRow[]): SharePicture['swatches'] => {
  const byFamily = new Map<string, SampleRow>();
  for (const row of rows)
    if (row.family && row.appearance?.swatch && !byFamily.has(row.family)) byFamily.set(row.family, row);
  return swatchesOf([...byFamily.values()]).map(({ swatch }) => ({ letter: '', swatch }));
};

interface Shown {
  readonly rows: readonly SampleRow[];
  readonly swatchesIn: (rows: readonly SampleRow[]) => SharePicture['swatches'];
}

const withSwatches = lookedUp<Shown, Pick<SharePicture, 'swatches'>>({
  swatches: ({ rows, swatchesIn }) => swatchesIn(rows),
});

/** A picture whose swatches are looked up when it is drawn, known by the rows that they are of. */
function pictureOf(
  words: Omit<SharePicture, 'swatches'>,
  rows: Shown['rows'],
  swatchesIn: Shown['swatchesIn'],
): SharePicture {
  const picture: SharePicture = withSwatches({ ...words }, { rows, swatchesIn });
  return identify(picture, hashOf(recipe, JSON.stringify(words), ...rows.map(identityOf)));
}

/** Every picture of the site: the journal's, one for each series, one for each entry. */
export function sharePictures(site: SiteContext, model: JournalModel): SharePicture[] {
  const rowsOf = samplesByEntry(model);
  const ofJournal = { address: '/share/journal.png', above: site.subtitle ?? '', title: site.title };
  const series = model.series.map(({ element, name, cells }) =>
    pictureOf(
      {
        address: `/share/series-${element}.png`,
        above: site.title,
        title: `${name[0]?.toUpperCase()}${name.slice(1)} across the colours`,
      },
      cells.flatMap(({ entries }) => entries.flatMap(({ samples }) => samples)),
      ofSeries,
    ),
  );
  const entries = model.entries.map(({ entry }) =>
    pictureOf(
      {
        address: `/share/${entry.number}.png`,
        above: [String(entry.number), stateWords[entry.status], site.title].filter(Boolean).join(' · '),
        title: entry.title,
      },
      rowsOf.get(entry.number) ?? [],
      swatchesOf,
    ),
  );
  return [pictureOf(ofJournal, model.samples, ofSeries), ...series, ...entries];
}
