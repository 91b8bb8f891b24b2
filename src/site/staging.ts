// Atomic publication: a site is built whole in a staging folder beside the old one and then takes its place.
import {
  closeSync,
  existsSync,
  lstatSync,
  mkdirSync,
  openSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import type { FileContent } from './assets.js';

/** Lies in every published site, so that a folder of somebody's own is never taken for one. */
export const marker = '.masstone-site';

export class NotOurs extends Error {}

const stagingOf = (site: string): string => join(dirname(site), `.${basename(site)}.staging`);
const formerOf = (site: string): string => join(dirname(site), `.${basename(site)}.former`);

/** Puts back a site whose replacement was cut off between the two renames, and clears what a killed run left. */
export function heal(site: string): void {
  const former = formerOf(site);
  if (existsSync(former)) {
    if (existsSync(site)) rmSync(former, { recursive: true, force: true });
    else renameSync(former, site);
  }
  rmSync(stagingOf(site), { recursive: true, force: true });
}

/** Throws NotOurs if `site` is there and is not a site of ours. */
export function refuseForeign(site: string): void {
  if (!existsSync(site)) return;
  if (!lstatSync(site).isDirectory()) throw new NotOurs(`${site} is not a folder`);
  if (!existsSync(join(site, marker)) && readdirSync(site).length > 0)
    throw new NotOurs(`${site} holds files that Masstone did not publish`);
}

export interface Staging {
  readonly folder: string;
  /** Writes the file of an address and tells its bytes. */
  readonly write: (address: string, content: FileContent) => number;
  /** The staged site takes the old one's place. */
  readonly swap: () => void;
  /** Everything staged is thrown away; the old site was never touched. */
  readonly abandon: () => void;
}

/** File of an address: `/14/` → `14/index.html`. */
export const fileOfAddress = (address: string): string =>
  (address.endsWith('/') ? `${address}index.html` : address).slice(1);

/** Writes files by address into a folder and tells their bytes. */
export function writerInto(folder: string): (address: string, content: FileContent) => number {
  const made = new Set<string>();
  const make = (parent: string): void => {
    if (made.has(parent)) return;
    // Most folders lie in one that is there, and making just them takes half the time.
    try {
      mkdirSync(parent);
    } catch {
      mkdirSync(parent, { recursive: true });
    }
    made.add(parent);
  };
  return (address, content) => {
    const file = join(folder, fileOfAddress(address));
    make(dirname(file));
    if (typeof content === 'string' || content instanceof Uint8Array) {
      writeFileSync(file, content);
      return Buffer.byteLength(content);
    }
    let bytes = 0;
    const handle = openSync(file, 'w');
    try {
      for (const piece of content.pieces()) bytes += writeSync(handle, piece);
    } finally {
      closeSync(handle);
    }
    return bytes;
  };
}

/** Opens a staging folder for the site that will stand at `target`. */
export function stage(target: string): Staging {
  const site = resolve(target);
  const folder = stagingOf(site);
  heal(site);
  refuseForeign(site);
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, marker), 'Published by Masstone; every publication replaces this folder whole.\n');
  return {
    folder,
    write: writerInto(folder),
    swap: () => {
      const former = formerOf(site);
      if (existsSync(site)) renameSync(site, former);
      try {
        renameSync(folder, site);
      } catch (error) {
        if (existsSync(former)) renameSync(former, site);
        throw error;
      }
      rmSync(former, { recursive: true, force: true });
    },
    abandon: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** Bytes of a file as published, for tests and the reading copy. */
export const readPublished = (site: string, address: string): Buffer =>
  readFileSync(join(site, fileOfAddress(address)));
