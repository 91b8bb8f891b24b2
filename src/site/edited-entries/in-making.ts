// The next site as what makes pages and files sees it: what is asked for stays as it is in the site before, and all
// else may be written.
import { join } from 'node:path';
import type { FileContent } from '../assets.js';
import { contentHash } from '../manifest.js';
import { bytesInStamp } from '../site-folder.js';
import { fileOfAddress, type WrittenFile } from '../file-writing.js';
import type { SiteInMaking } from '../staging.js';
import type { Known } from './known.js';
import { folderOf, type SiteAgain } from './site-again.js';

export interface InMaking {
  readonly staging: SiteInMaking;
  /** Sizes of files that are written, by path. */
  readonly written: ReadonlyMap<string, number>;
  /** Paths of files that stay as they are, as far as they were asked for. */
  readonly stayed: ReadonlySet<string>;
}

/** A file as it is there already; undefined where it is another, or has to be written to tell. */
function sameAs(hash: string | undefined, path: string, content: FileContent): WrittenFile | undefined {
  if (typeof content !== 'string' && !(content instanceof Uint8Array)) return undefined;
  return contentHash(content) === hash ? { path, bytes: Buffer.byteLength(content), hash } : undefined;
}

/** Tells where a file of the site lies that is as it was. */
export const wholeIn =
  ({ site, files }: Known): SiteInMaking['whole'] =>
  ({ path, hash }) =>
    files.get(path)?.hash === hash ? join(site, path) : undefined;

export function inMaking(site: SiteAgain, known: Known): InMaking {
  const written = new Map<string, number>();
  const stayed = new Set<string>();
  const isThere: SiteInMaking['takeOver'] = ({ path, hash }) =>
    !written.has(path) && known.files.get(path)?.hash === hash;
  const staging: SiteInMaking = {
    site: known.site,
    folder: site.folder,
    write: (address, content) => {
      const path = fileOfAddress(address);
      const same = sameAs(known.files.get(path)?.hash, path, content);
      if (same) {
        stayed.add(path);
        return same;
      }
      const mayBeNew = path.startsWith('find/') && known.folders.has(folderOf(path));
      if (!known.files.has(path) && !mayBeNew) throw new Error(`${path} was not in the site`);
      const file = site.write(address, content);
      written.set(path, file.bytes);
      return file;
    },
    takeOver: (file) => {
      const stays = isThere(file);
      if (stays) stayed.add(file.path);
      return stays;
    },
    whole: (file) => (isThere(file) ? join(known.site, file.path) : undefined),
    makeRoom: () => ({}),
    note: () => undefined,
    has: (path) => known.files.has(path),
  };
  return { staging, written, stayed };
}

/** By how many bytes the site is larger with files as they are written. */
export const growthOf = ({ files }: Known, written: ReadonlyMap<string, number>): number =>
  [...written].reduce((sum, [path, bytes]) => sum + bytes - bytesInStamp(files.get(path)), 0);
