// What the journal room hands on: plain data that can be sent to a worker thread.
import type { LeftOut } from './check.js';
import type { JournalSettings, Matter, ShelfReagent } from './schema.js';

/** One write-up as read: its checked front matter, its body, and where both stand. */
export interface Entry extends Matter {
  /** Path below the journal folder, with forward slashes: `entries/014-malachite.md`. */
  readonly file: string;
  /** Front matter as written, kept so that a remark can find the place of a value. */
  readonly matter: string;
  /** The same as it stands in the file, where it is read with slips mended and keys as they are meant. */
  readonly written?: string;
  /** Line of the file on which `matter` begins (1-based). */
  readonly matterLine: number;
  /** Markdown after the front matter. */
  readonly body: string;
  /** Line of the file on which `body` begins (1-based). */
  readonly bodyLine: number;
  /** What of the front matter could not be understood and was left out; absent where all of it was. */
  readonly leftOut?: readonly LeftOut[];
}

/** Another page, or the words of a series or colour family page. */
export interface Page {
  readonly file: string;
  /** `about`, `Cu`, `green`: the file's name without folder and ending. */
  readonly name: string;
  readonly title?: string;
  readonly order?: number;
  /** Names that it had before. */
  readonly movedFrom?: readonly string[];
  readonly body: string;
  readonly bodyLine: number;
}

export interface Shelf {
  readonly file: string;
  readonly text: string;
  readonly reagents: ReadonlyMap<string, ShelfReagent>;
}

/** What pages need to know of a published photograph. */
export interface PictureSizes {
  readonly width: number;
  readonly height: number;
  /** Forms in other widths and formats than the one that keeps the photograph's name; none of moving pictures. */
  readonly forms: readonly { readonly width: number; readonly format: 'avif' | 'webp' | 'jpeg' }[];
}

/** A journal as read from its folder. */
export interface Journal {
  /** Absolute path of the folder. */
  readonly folder: string;
  readonly settings: JournalSettings;
  readonly settingsText: string;
  /** Keys that settings cannot do without and that something stands in for; absent where all could be read. */
  readonly stoodIn?: readonly string[];
  readonly shelf: Shelf;
  /** By number, ascending. */
  readonly entries: readonly Entry[];
  /** Entries of which something indispensable could not be read, as far as they could: for their dangers alone. */
  readonly inPart?: readonly Entry[];
  /** Files of entries that could not be read, or in part only. */
  readonly unread?: readonly string[];
  readonly series: readonly Page[];
  readonly colours: readonly Page[];
  readonly pages: readonly Page[];
  /** Published addresses so far, `/14/` and `/14/#A`. */
  readonly register: readonly string[];
  /** Text of a spectrum or other data file that entries name, by its path below the journal. */
  readonly readings: ReadonlyMap<string, string>;
  /**
   * Files below the journal that exist and that entries and pages show or link to (photos, pictures, data), by path,
   * sorted.
   */
  readonly files: readonly string[];
  /** What is published of photographs: without metadata, upright, smaller forms too; by path below the site. */
  readonly published?: ReadonlyMap<string, string>;
  /** Width and height of published photographs, and which smaller forms there are, by path below the journal. */
  readonly pictures?: ReadonlyMap<string, PictureSizes>;
}

/** Statuses that say why in words, under a key of their own. */
export const statusesWithReason = ['failed', 'abandoned', 'withdrawn'] as const;

/** Why an entry has the status that it has, where it says so; if not under its own key, under that of another. */
export function statusReason(entry: Pick<Entry, 'status' | (typeof statusesWithReason)[number]>): string | undefined {
  const key = statusesWithReason.find((one) => one === entry.status);
  return key && (entry[key] ?? entry.abandoned ?? entry.failed);
}

/** Entries that are published only with `--drafts`. */
export const isDraft = ({ status }: Pick<Entry, 'status'>): boolean => status === 'planned' || status === 'running';

/** The washes of a sample as written, in words perhaps: its own, else those of the entry. */
export function washesWritten(entry: Pick<Entry, 'samples' | 'washes'>, index: number | undefined): Entry['washes'] {
  const sample = index === undefined ? undefined : entry.samples[index];
  return sample?.washes ?? entry.washes;
}
