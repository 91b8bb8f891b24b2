// Puts down after a publication what the next has to know to make only what edited words change.
import { closeSync, openSync, writeSync } from 'node:fs';
import { basename, join } from 'node:path';
import { randomBytes } from 'node:crypto';
import type { ReadingNotes } from '../../journal/read.js';
import { hashOf } from '../../kept/inputs.js';
import { registerFile } from '../../journal/index.js';
import type { Kept } from '../../kept/kept.js';
import { writePutDown } from '../../kept/put-down.js';
import type { SitePlan } from '../plan.js';
import type { PublishOptions } from '../publication.js';
import { manifestHash } from '../site-folder.js';
import type { Swapped } from '../staging.js';
import { writeAround } from './around.js';
import { folderStamps, foldersOf } from './as-it-was.js';
import { lineOf } from './entry-again.js';
import { knownOfFolder } from './journal-again.js';
import {
  isForWordsAlone,
  makeRoom,
  nameBeside,
  optionsIdentity,
  readKnown,
  writeKnown,
  type Known,
  type KnownEntry,
  type KnownSearch,
  type KnownSite,
} from './known.js';
import { madeNow, type SaidByPages } from './said.js';
import { areSecondNames } from './site-again.js';
import { writeTold, type Told } from './told.js';

export interface Publication {
  /** The journal's folder. */
  readonly folder: string;
  readonly version: string;
  readonly options: PublishOptions;
  readonly notes: ReadingNotes;
  /** When the journal began to be read, in milliseconds. */
  readonly began: number;
  readonly plan: SitePlan;
  readonly said: SaidByPages;
  /** Every remark, those that were accepted too. */
  readonly remarks: Told['remarks'];
  readonly told: Omit<Told, 'shared'> & { readonly bytes: number };
  readonly site: string;
  readonly swapped: Swapped;
  /** What is known of its search index, where that was made now. */
  readonly search: KnownSearch | undefined;
  /** The register as it is now. */
  readonly registered: readonly string[];
  /** What was made before, and now. */
  readonly kept: Kept;
  /** Nothing of others lies in the site. */
  readonly isAlone: boolean;
}

/** Files of entries of whose words something is remarked: remarks of words have a line. */
function remarkedWords({ plan, remarks }: Publication): ReadonlySet<string> {
  const bodyLines = new Map(plan.model.entries.map(({ entry }) => [entry.file, entry.bodyLine]));
  return new Set(remarks.flatMap(({ file, line }) => (line >= (bodyLines.get(file) ?? Infinity) ? [file] : [])));
}

/** Writes the lines of entries; tells where each stands. */
function writeLines(file: string, of: Publication): Map<string, NonNullable<KnownEntry['line']>> {
  const { plan, notes, said } = of;
  const { shelf } = plan.model.journal;
  const places = new Map<string, NonNullable<KnownEntry['line']>>();
  const remarked = remarkedWords(of);
  const handle = openSync(file, 'w');
  let at = 0;
  try {
    for (const { number, work } of plan.works) {
      const own = work();
      const { file: path } = own.reckoned.entry;
      const text = notes.texts.get(path);
      const pages = remarked.has(path) ? undefined : said.ofEntry(number, plan.pages);
      const bytes = text === undefined ? undefined : lineOf(own, text, pages, shelf);
      if (!bytes) continue;
      writeSync(handle, bytes);
      places.set(path, { at, bytes: bytes.length, hash: hashOf(bytes) });
      at += bytes.length;
    }
  } finally {
    closeSync(handle);
  }
  return places;
}

function siteNow({ site, swapped, isAlone }: Publication): KnownSite | undefined {
  const manifest = manifestHash(site);
  if (manifest === undefined) return undefined;
  const { files, written, spare, spareIsSame, at } = swapped;
  if (!isAlone) return { site, older: [], manifest, files, folders: new Map() };
  const older = new Set(spareIsSame ? [] : written);
  const common = [...files.keys()].find((path) => !older.has(path));
  const isOf = spare !== undefined && common !== undefined && areSecondNames(site, spare, common);
  const folders = folderStamps(site, isOf ? spare : undefined, foldersOf(files.keys()), at);
  return { site, ...(isOf && { spare: basename(spare) }), older: isOf ? [...older] : [], manifest, files, folders };
}

/** What was known of the search index of the site before, where it was taken over as it was. */
function searchTakenOver({ folder, site, version, options }: Publication, now: KnownSite): KnownSearch | undefined {
  if (options.search === false) return undefined;
  const before = readKnown(folder, site, version);
  const filesOf = ({ files }: KnownSite): string =>
    [...files]
      .flatMap(([path, { hash }]) => (path.startsWith('find/') ? [`${path} ${hash}`] : []))
      .sort()
      .join('\n');
  return before?.search && filesOf(before) === filesOf(now) ? before.search : undefined;
}

/** Puts down what is known now. What cannot be written is not known: then the next publication takes longer. */
export function remember(of: Publication): void {
  const { folder, version, options, notes, began, plan, site } = of;
  const { bytes, ...told } = of.told;
  const now = siteNow(of);
  if (!now || !notes.asked) return;
  const search = of.search ?? searchTakenOver(of, now);
  const room = makeRoom(folder, site, search && [search.file]);
  const token = randomBytes(6).toString('hex');
  const [lines, toldIn] = [nameBeside(site, 'lines', token), nameBeside(site, 'told', token)];
  const [around, made] = [nameBeside(site, 'around', token), nameBeside(site, 'made', token)];
  const { answers, ...journal } = knownOfFolder(notes.asked, notes.texts, began);
  // What is said of the register is mended by a publication.
  const isRegisterFine = of.remarks.every(({ file }) => file !== registerFile);
  const isOfUse = now.folders.size > 0 && isForWordsAlone(options) && isRegisterFine;
  const places = isOfUse ? writeLines(join(room, lines), of) : undefined;
  if (isOfUse) {
    writeTold(join(room, toldIn), version, { ...told, shared: plan.shared });
    writeAround(join(room, around), version, { ...of, drafts: notes.leftOut ?? [] });
    writePutDown(join(room, made), version, madeNow(of));
  }
  const entries = new Map<string, KnownEntry>();
  for (const [file, text] of notes.texts) {
    const line = places?.get(file);
    entries.set(file, { answer: answers.get(file) ?? '', text: hashOf(text), ...(line && { line }) });
  }
  const known: Known = {
    ...now,
    ...journal,
    options: optionsIdentity(options),
    root: notes.asked.root,
    entries,
    bytes,
    lines,
    told: toldIn,
    around,
    made,
    ...(search && { search }),
  };
  writeKnown(folder, known, version);
}
