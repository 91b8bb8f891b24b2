// Photographs as they are published: upright, in sRGB, of a width that a page needs, without place, serial number or thumbnail.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Sharp } from 'sharp';
import { good, type Outcome } from '../outcome.js';
import { largest, pictureFault } from './pixels.js';

/** No published photograph is wider or higher than this, in pixels. */
const widest = 1600;

/** Kinds of pictures that are made anew; other files (drawings, data) are published as they are. */
const kinds = /\.(?:jpe?g|png|webp|avif|tiff?|heic|heif)$/i;

/** Changes when what is made of a photograph changes, so that nothing old is taken from the cache. */
const recipe = 'upright-srgb-1600-1';

/** Whether a file below the journal is a photograph that is made anew for publication. */
export const isPhotograph = (path: string): boolean => /^photos\//.test(path) && kinds.test(path);

/** Of the same kind as the name says, so that its address stays what it is. */
function encoded(image: Sharp, path: string): Sharp {
  if (/\.png$/i.test(path)) return image.png();
  if (/\.webp$/i.test(path)) return image.webp({ quality: 82 });
  if (/\.avif$/i.test(path)) return image.avif({ quality: 60 });
  if (/\.tiff?$/i.test(path)) return image.tiff();
  return image.jpeg({ quality: 82, mozjpeg: true });
}

async function made(bytes: Buffer, path: string): Promise<Buffer> {
  // Loaded only where a photograph is made that is not in the cache.
  const { default: sharp } = await import('sharp');
  const image = sharp(bytes, { limitInputPixels: largest.pixels, failOn: 'error' })
    .autoOrient()
    .resize({ width: widest, height: widest, fit: 'inside', withoutEnlargement: true })
    .toColourspace('srgb');
  // Without being told to keep them, all metadata are left behind, the profile too: what is written is sRGB.
  return encoded(image, path).toBuffer();
}

/** Name in the cache: by what the photograph holds and what is made of it. */
const nameInCache = (bytes: Buffer, path: string): string =>
  `${createHash('sha256').update(recipe).update(bytes).digest('hex').slice(0, 32)}${/\.[^.]+$/.exec(path)![0].toLowerCase()}`;

/**
 * The published form of a photograph, from the cache or made now.
 * @param file its real path
 * @param path its path below the journal
 * @param cache folder that keeps what was made
 * @returns path of the file to publish; or a fault: too large, damaged, HEIC
 */
export async function publishedPicture(file: string, path: string, cache: string): Promise<Outcome<string>> {
  if (statSync(file).size > largest.bytes) return pictureFault(new Error('pixel limit'), undefined);
  const bytes = readFileSync(file);
  const kept = join(cache, nameInCache(bytes, path));
  if (existsSync(kept)) return good(kept);
  try {
    const picture = await made(bytes, path);
    mkdirSync(cache, { recursive: true });
    // Written beside and renamed, so that a kill leaves no half picture.
    const half = `${kept}.${process.pid}`;
    writeFileSync(half, picture);
    renameSync(half, kept);
    return good(kept);
  } catch (error) {
    return pictureFault(error, /\.hei[cf]$/i.test(path) ? 'heif' : undefined);
  }
}

export interface PictureFault {
  readonly message: string;
  readonly cure?: string;
  /** The file is no picture at all, and holds none of the metadata of one: it is published as it is. */
  readonly noPicture: boolean;
}

export interface PublishedPictures {
  /** File to publish for each photograph, by its path below the journal. */
  readonly files: ReadonlyMap<string, string>;
  /** Photographs that cannot be made anew, by their path. */
  readonly faults: ReadonlyMap<string, PictureFault>;
}

/** First bytes of JPEG, PNG, RIFF (WebP), TIFF; `ftyp` of HEIC and AVIF stands behind a length. */
function looksLikePicture(file: string): boolean {
  const head = readFileSync(file).subarray(0, 12).toString('latin1');
  return /^(?:\u00ff\u00d8|\u0089PNG|RIFF|II\*|MM)/.test(head) || head.slice(4, 8) === 'ftyp';
}

/** What was made of a photograph that has not changed since: asked for at every save while the reading copy runs. */
const remembered = new Map<string, { readonly stamp: string; readonly made: Outcome<string> }>();
const mostRemembered = 5_000;

async function publishedOnce(file: string, path: string, cache: string): Promise<Outcome<string>> {
  const { size, mtimeMs } = statSync(file);
  const stamp = `${size} ${mtimeMs}`;
  const known = remembered.get(file);
  if (known?.stamp === stamp && (!known.made.ok || existsSync(known.made.value))) return known.made;
  const made = await publishedPicture(file, path, cache);
  if (remembered.size >= mostRemembered) remembered.clear();
  remembered.set(file, { stamp, made });
  return made;
}

/** The published forms of all photographs of a journal. */
export async function publishedPictures(folder: string, paths: readonly string[]): Promise<PublishedPictures> {
  const files = new Map<string, string>();
  const faults = new Map<string, PictureFault>();
  for (const path of paths.filter(isPhotograph)) {
    const made = await publishedOnce(join(folder, path), path, join(folder, '.pictures'));
    if (made.ok) files.set(path, made.value);
    else faults.set(path, { ...made.fault, noPicture: !looksLikePicture(join(folder, path)) });
  }
  return { files, faults };
}
