// The list of files that a publication wrote. It lies in the site: what is in the site's folder and not on it is
// somebody else's.
import { createHash } from 'node:crypto';
import { hashAtOnce } from '../kept/inputs.js';

/** Lies in every published site, so that a folder of somebody's own is never taken for one. */
export const manifestFile = '.masstone-site';

export interface Manifest {
  /** Address of the journal that was published here. */
  readonly journal: string;
  /** The register of published addresses as it was then: `/14/`, `/14/#A`. */
  readonly registered: readonly string[];
  /** Hash of the content of each file, by its path in the site. */
  readonly files: ReadonlyMap<string, string>;
}

// Looked at by hand: the list has as many lines as the site has files, and is read several times.
const isTexts = (value: unknown): value is readonly string[] =>
  Array.isArray(value) && value.every((one) => typeof one === 'string');
const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The manifest as the text of its file. */
export const manifestText = ({ journal, registered, files }: Manifest): string =>
  `${JSON.stringify(
    {
      what: 'Files published by Masstone. Whatever else lies in this folder is left as it is.',
      journal,
      registered,
      files: Object.fromEntries([...files].sort(([a], [b]) => (a < b ? -1 : 1))),
    },
    undefined,
    1,
  )}\n`;

/**
 * The text of a manifest in which some files have another hash: the same as if it were printed anew.
 * @param text as `manifestText` prints it
 * @returns undefined where one of the files does not stand in it
 */
export function withOtherHashes(text: string, others: ReadonlyMap<string, string>): string | undefined {
  let now = text;
  for (const [path, hash] of others) {
    // A line of its own, deeper than the keys of the manifest itself.
    const line = `\n  ${JSON.stringify(path)}: "`;
    const at = now.indexOf(line);
    if (at < 0) return undefined;
    const from = at + line.length;
    now = `${now.slice(0, from)}${hash}${now.slice(from + hashLength)}`;
  }
  return now;
}

/**
 * Reads the manifest's file; undefined where it is not whole (it was cut short or edited, or is of an older version).
 */
export function readManifest(text: string): Manifest | undefined {
  try {
    const { journal, registered, files } = JSON.parse(text) as Readonly<Record<string, unknown>>;
    if (typeof journal !== 'string' || !isTexts(registered) || !isRecord(files)) return undefined;
    const hashes = Object.entries(files);
    if (!isTexts(hashes.map(([, hash]) => hash))) return undefined;
    return { journal, registered, files: new Map(hashes as [string, string][]) };
  } catch {
    return undefined;
  }
}

const hashLength = 24;

/** Hash of a file's content, as it stands in a manifest. */
export const contentHash = (content: string | Uint8Array): string =>
  hashAtOnce ? hashAtOnce('sha256', content, 'hex').slice(0, hashLength) : finishHash(beginHash().update(content));

export const beginHash = (): ReturnType<typeof createHash> => createHash('sha256');
export const finishHash = (hash: ReturnType<typeof createHash>): string => hash.digest('hex').slice(0, hashLength);
