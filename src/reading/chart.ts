// The reading copy's page on which a chart and samples are placed on a photograph, what it shows and what it asks.
import { join } from 'node:path';
import { chartPage } from '../../templates/chart.js';
import type { SiteContext } from '../../templates/frame.js';
import { chartNames, usualGrid, type PhotographRequest } from '../colour/photograph/index.js';
import type { Journal } from '../journal/entry.js';
import { isPhotograph, openFolder, type Folder } from '../journal/folder.js';
import type { ColourReading } from '../journal/schema.js';
import { readTogether } from '../pictures/entry-colours.js';
import { uprightPicture } from '../pictures/upright.js';
import type { FileContent } from '../site/assets.js';
import { stringify } from '../site/page-text.js';

/** Addresses of the page, of the photograph that it shows, and of the colours that are read from it. */
export const chartAddresses = {
  page: '/~reading/chart',
  picture: '/~reading/chart/picture',
  colours: '/~reading/chart/colours',
} as const;

export interface ChartAnswer {
  readonly status: number;
  /** Ending that tells the type. */
  readonly kind: '.html' | '.jpg' | '.json';
  readonly content: FileContent;
}

/** What the page needs of the reading copy. */
export interface ChartSurroundings {
  readonly context: SiteContext;
  readonly journal: Journal;
  /** Address of the page's script. */
  readonly script: string;
}

/** Photographs below `photos/`, those too that no entry names yet. */
function photographsIn(folder: Folder, below = 'photos'): string[] {
  const { names, folders } = folder.list(below);
  return [
    ...names.map((name) => `${below}/${name}`).filter(isPhotograph),
    ...folders.flatMap((name) => photographsIn(folder, `${below}/${name}`)),
  ];
}

/** Where the entries have placed a chart and samples on a photograph already. */
function placedOn({ entries }: Journal, photo: string): readonly ColourReading[] {
  const colours = entries.flatMap(({ samples, reference }) => [
    ...samples.flatMap(({ colour, aged = [] }) => [colour, ...aged.map((one) => one.colour)]),
    reference?.colour,
  ]);
  return colours.filter((one): one is ColourReading => one?.photo === photo && one.corners !== undefined);
}

const json = (status: number, value: unknown): ChartAnswer => ({
  status,
  kind: '.json',
  content: JSON.stringify(value),
});

async function pageOf(around: ChartSurroundings, photographs: readonly string[], photo: string | undefined) {
  const { context, journal, script } = around;
  const shared = { photographs, address: chartAddresses.page, script };
  const page = (more: Parameters<typeof chartPage>[1]): ChartAnswer => ({
    status: 200,
    kind: '.html',
    content: stringify(chartPage(context, more)),
  });
  if (photo === undefined) return page(shared);
  const picture = await uprightPicture(join(journal.folder, photo));
  if (!picture.ok) return page({ ...shared, fault: `${picture.fault.message} ${picture.fault.cure ?? ''}`.trim() });
  const { width, height } = picture.value;
  const placed = placedOn(journal, photo);
  const [first] = placed;
  return page({
    ...shared,
    placing: {
      photo,
      width,
      height,
      picture: `${chartAddresses.picture}?photo=${encodeURIComponent(photo)}`,
      colours: chartAddresses.colours,
      charts: chartNames,
      chart: first?.chart ?? chartNames[0]!,
      grid: first?.grid ?? usualGrid,
      corners: first?.corners,
      samples: placed.filter(({ corners }) => corners === first?.corners).flatMap(({ sample }) => sample ?? []),
    },
  });
}

async function coloursOf({ journal }: ChartSurroundings, folder: Folder, photo: string, query: URLSearchParams) {
  const samples = query.getAll('sample');
  if (samples.length === 0) return json(200, { fault: 'Place a sample first.' });
  const requests = samples.map(
    (sample): PhotographRequest => ({
      photo,
      chart: query.get('chart') ?? '',
      grid: query.get('grid') ?? usualGrid,
      corners: query.get('corners') ?? '',
      sample,
    }),
  );
  const read = await readTogether(requests, {
    folder: journal.folder,
    has: () => true,
    text: (chart) => {
      const file = folder.read(chart);
      return file.ok ? file.text : undefined;
    },
  });
  if (!read.ok) return json(200, { fault: `${read.fault.message} ${read.fault.cure ?? ''}`.trim() });
  const { chart, uncertainty, notes } = read.value;
  const told = read.value.samples.map(({ lab, uncertainty: de00 }) => ({ lab, de00 }));
  return json(200, { chart, uncertainty, samples: told, notes });
}

/**
 * What is answered at one of the page's addresses; undefined elsewhere.
 * @param query `photo`, a path below the journal's `photos/` that is there: no other file is opened
 */
export async function answerOfChart(
  path: string,
  query: URLSearchParams,
  around: ChartSurroundings,
): Promise<ChartAnswer | undefined> {
  if (!(Object.values(chartAddresses) as string[]).includes(path)) return undefined;
  const folder = openFolder(around.journal.folder);
  const photographs = folder ? photographsIn(folder) : [];
  const asked = query.get('photo') ?? undefined;
  const photo = asked !== undefined && folder?.find(asked).kind === 'file' && photographs.includes(asked);
  if (path === chartAddresses.page) return pageOf(around, photographs, photo ? asked : undefined);
  if (!photo || !folder) return json(404, { fault: 'There is no such photograph below photos/.' });
  if (path === chartAddresses.colours) return coloursOf(around, folder, asked, query);
  const picture = await uprightPicture(join(around.journal.folder, asked));
  if (!picture.ok) return json(404, { fault: picture.fault.message });
  return { status: 200, kind: '.jpg', content: picture.value.jpeg };
}
