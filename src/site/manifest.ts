// The list of files that a publication wrote. It lies in the site: what is in the site's folder and not on it is
// somebody else's.
import { createHash } from 'node:crypto';
import { z } from 'zod';

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

const written = z.object({
  journal: z.string(),
  registered: z.array(z.string()),
  files: z.record(z.string(), z.string()),
});

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
 * Reads the manifest's file; undefined where it is not whole (it was cut short or edited, or is of an older version).
 */
export function readManifest(text: string): Manifest | undefined {
  try {
    const { journal, registered, files } = written.parse(JSON.parse(text));
    return { journal, registered, files: new Map(Object.entries(files)) };
  } catch {
    return undefined;
  }
}

/** Hash of a file's content, as it stands in a manifest. */
export const contentHash = (content: string | Uint8Array): string => finishHash(beginHash().update(content));

export const beginHash = (): ReturnType<typeof createHash> => createHash('sha256');
export const finishHash = (hash: ReturnType<typeof createHash>): string => hash.digest('hex').slice(0, 24);
