// What of an entry has a part in its reckoning, told from its words, which have none.
import { hashOf, identityOf } from '../kept/inputs.js';
import type { Kept } from '../kept/kept.js';
import type { Entry, Journal } from '../journal/entry.js';
import { reckonedWith, type ReckoningSettings } from './contracts.js';
import { toldInWords } from './told/told-in-words.js';

/** What of an entry has a part in its reckoning; plain data. */
export interface EntryPart {
  /** Identity of the settings that it was worked out for. */
  readonly settings: string;
  /** What of the write-up has a part in it. */
  readonly told: string;
  readonly key: string;
  /** Hash of what has no part in it. */
  readonly written: string;
}

const entryParts = new WeakMap<Entry, EntryPart>();

/** The settings that have a part in a reckoning. */
export const settingsOf = ({ settings }: Pick<Journal, 'settings'>): ReckoningSettings =>
  Object.fromEntries(reckonedWith.map((key) => [key, settings[key]])) as ReckoningSettings;

/** Hash of what of an entry has no part in its reckoning: its words, and where they stand. */
export const writtenOf = ({ body, matterLine, bodyLine }: Entry): string =>
  hashOf(body, String(matterLine), String(bodyLine));

/** What of an entry has a part in its reckoning, and what that is kept under; worked out once for an entry as read. */
export function entryPart(entry: Entry, of: ReckoningSettings): EntryPart {
  const settings = identityOf(of);
  const before = entryParts.get(entry);
  if (before?.settings === settings) return before;
  const told = toldInWords(entry);
  const key = `reckoned ${hashOf(settings, entry.file, entry.matter, told)}`;
  const written = writtenOf(entry);
  const part = { settings, told, key, written };
  entryParts.set(entry, part);
  return part;
}

/** The same where it has been worked out, here or for the same entry in another thread; else undefined. */
export const partWorkedOut = (entry: Entry): EntryPart | undefined => entryParts.get(entry);

/** Takes it as another thread has worked it out. */
export const takePart = (entry: Entry, part: EntryPart): void => void entryParts.set(entry, part);

/** Whether anything is kept that may be the reckoning of an entry still. */
export const wasReckoned = (entry: Entry, journal: Pick<Journal, 'settings'>, kept: Kept): boolean =>
  kept.has(entryPart(entry, settingsOf(journal)).key);
