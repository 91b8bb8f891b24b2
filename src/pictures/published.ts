// Photographs as they are published: upright, in sRGB, of a width that a page needs, without place, serial number or
// thumbnail.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Sharp } from 'sharp';
import type { PictureSizes } from '../journal/entry.js';
import { isDrawing, isPhotograph } from '../journal/folder.js';
import { good, type Outcome } from '../outcome.js';
import { harmlessDrawing } from './drawing.js';
import { isRaw, largest, limits, pictureFault, rawPicture, tooLarge } from './pixels.js';

/** No published photograph is wider than this, in pixels; a tall one may be twice as high. */
const widest = 1600;
const highest = 2 * widest;

/** Changes when what is made of a photograph changes, so that nothing old is taken from the cache. */
const recipe = 'upright-srgb-1600-960-480-3';

/** Of the same kind as the name says, so that its address stays what it is. */
function encoded(image: Sharp, path: string): Sharp {
  if (/\.png$/i.test(path)) return image.png();
  if (/\.webp$/i.test(path)) return image.webp({ quality: 82 });
  if (/\.avif$/i.test(path)) return image.avif({ quality: 60 });
  if (/\.tiff?$/i.test(path)) return image.tiff();
  return image.jpeg({ quality: 82, mozjpeg: true });
}

/** Widths of the smaller forms; the formats that they and the large form are made in. */
const widths = [480, 960] as const;
const formats: readonly PictureFormat[] = ['avif', 'webp', 'jpeg'];
export type PictureFormat = PictureForm['format'];

/** A form of a photograph beside the one that keeps its name. */
export type PictureForm = PictureSizes['forms'][number];

/** Path of such a form below the site: `photos/14.jpg.480.avif`. */
export const pathOfForm = (path: string, { width, format }: PictureForm): string => `${path}.${width}.${format}`;

const inFormat = (image: Sharp, format: PictureFormat): Sharp => {
  if (format === 'avif') return image.avif({ quality: 50, effort: 2 });
  if (format === 'webp') return image.webp({ quality: 80 });
  return image.flatten({ background: '#fff' }).jpeg({ quality: 80, mozjpeg: true });
};

/** The format of a photograph's own kind, which needs no form of that format in its full width. */
const ownFormat = (path: string): PictureFormat | undefined => {
  const kind = kindOf(path).slice(1);
  return kind === 'jpg' ? 'jpeg' : formats.find((format) => format === kind);
};

/** Forms that are made of a photograph of a width: the smaller ones, and its full width in the other formats. */
export function formsOf(path: string, width: number): PictureForm[] {
  const smaller = widths
    .filter((narrow) => narrow < width)
    .flatMap((narrow) => formats.map((format): PictureForm => ({ width: narrow, format })));
  const others = formats.filter((format) => format !== ownFormat(path));
  return [...smaller, ...others.map((format): PictureForm => ({ width, format }))];
}

/** A moving picture keeps its frames, and has no other forms. */
async function madeMoving(bytes: Buffer, path: string, name: string): Promise<Map<string, Buffer>> {
  const { default: sharp } = await import('sharp');
  const { data, info } = await sharp(bytes, { ...limits, animated: true })
    .gif()
    .toBuffer({ resolveWithObject: true });
  const sizes: PictureSizes = { width: info.width, height: info.pageHeight ?? info.height, forms: [] };
  return new Map([
    [largeName(name, path), data],
    [`${name}.json`, Buffer.from(JSON.stringify(sizes))],
  ]);
}

/**
 * The large form and the others, with their names in the cache; all metadata are left behind, the profile too.
 */
async function made(bytes: Buffer, path: string, name: string): Promise<Map<string, Buffer>> {
  if (/\.gif$/i.test(path)) return madeMoving(bytes, path, name);
  // Loaded only where a photograph is made that is not in the cache.
  const { default: sharp } = await import('sharp');
  const upright = await sharp(bytes, limits)
    .autoOrient()
    .resize({ width: widest, height: highest, fit: 'inside', withoutEnlargement: true })
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { width, height, channels } = upright.info;
  const image = (): Sharp => sharp(upright.data, { raw: { width, height, channels } });
  const files = new Map([[largeName(name, path), await encoded(image(), path).toBuffer()]]);
  const forms = formsOf(path, width);
  for (const form of forms)
    files.set(formName(name, form), await inFormat(image().resize({ width: form.width }), form.format).toBuffer());
  const sizes: PictureSizes = { width, height, forms };
  // Written last: what it lists is there.
  files.set(`${name}.json`, Buffer.from(JSON.stringify(sizes)));
  return files;
}

/** Changes when what is kept of a drawing changes. */
const drawingRecipe = 'drawing-1';

/** Name in the cache: by what the photograph holds and what is made of it. */
const nameInCache = (bytes: Buffer, path: string): string =>
  createHash('sha256')
    .update(isDrawing(path) ? drawingRecipe : recipe)
    .update(kindOf(path))
    .update(bytes)
    .digest('hex')
    .slice(0, 32);
const kindOf = (path: string): string => /\.[^.]+$/.exec(path)![0].toLowerCase();
const largeName = (name: string, path: string): string => `${name}${kindOf(path)}`;
const formName = (name: string, { width, format }: PictureForm): string => `${name}.${width}.${format}`;

/** What lies beside a picture in the cache: its sizes, where they are known, and what was left out of a drawing. */
interface CachedIndex extends Partial<PictureSizes> {
  readonly taken?: readonly string[];
}

/** A photograph or drawing as it is published. */
export interface PublishedPicture {
  /** Absent for a drawing that does not say how large it is. */
  readonly sizes?: PictureSizes;
  /** Files by their paths below the site. */
  readonly files: ReadonlyMap<string, string>;
  /** What was left out of a drawing, in words. */
  readonly taken: readonly string[];
}

/** What the cache has of a photograph; undefined where it was not made yet. */
function kept(cache: string, name: string, path: string): PublishedPicture | undefined {
  const index = join(cache, `${name}.json`);
  if (!existsSync(index)) return undefined;
  const { width, height, forms = [], taken = [] } = JSON.parse(readFileSync(index, 'utf8')) as CachedIndex;
  const smaller = forms.map((form) => [pathOfForm(path, form), join(cache, formName(name, form))] as const);
  const files = new Map([[path, join(cache, largeName(name, path))], ...smaller]);
  if (![...files.values()].every(existsSync)) return undefined;
  const sizes = width !== undefined && height !== undefined ? { width, height, forms } : undefined;
  return { ...(sizes && { sizes }), files, taken };
}

/** A drawing without what runs or loads, and its index. */
async function madeDrawing(bytes: Buffer, path: string, name: string): Promise<Outcome<Map<string, Buffer>>> {
  const drawing = await harmlessDrawing(bytes);
  if (!drawing.ok) return drawing;
  const { svg, size, taken } = drawing.value;
  const index: CachedIndex = { ...(size && { ...size, forms: [] }), taken };
  return good(
    new Map([
      [largeName(name, path), Buffer.from(svg)],
      [`${name}.json`, Buffer.from(JSON.stringify(index))],
    ]),
  );
}

/**
 * The published forms of a photograph, from the cache or made now.
 * @param file its real path
 * @param path its path below the journal
 * @param cache folder that keeps what was made
 * @returns what to publish; or a fault: too large, damaged, HEIC
 */
export async function publishedPicture(file: string, path: string, cache: string): Promise<Outcome<PublishedPicture>> {
  const { size } = statSync(file);
  if (size > largest.bytes) return tooLarge(`${Math.round(size / 1024 / 1024)} MB`);
  if (isRaw(path)) return rawPicture;
  const bytes = readFileSync(file);
  const name = nameInCache(bytes, path);
  const before = kept(cache, name, path);
  if (before) return good(before);
  try {
    const files = isDrawing(path) ? await madeDrawing(bytes, path, name) : good(await made(bytes, path, name));
    if (!files.ok) return files;
    mkdirSync(cache, { recursive: true });
    for (const [part, content] of files.value) {
      // Written beside and renamed, so that a kill leaves no half picture.
      const half = join(cache, `${part}.${process.pid}`);
      writeFileSync(half, content);
      renameSync(half, join(cache, part));
    }
    return good(kept(cache, name, path)!);
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
  /** Files to publish, by their paths below the site. */
  readonly files: ReadonlyMap<string, string>;
  /** What pages need to know of each photograph, by its path below the journal. */
  readonly sizes: ReadonlyMap<string, PictureSizes>;
  /** Photographs that cannot be made anew, by their path. */
  readonly faults: ReadonlyMap<string, PictureFault>;
  /** What was left out of drawings, by their path. */
  readonly taken: ReadonlyMap<string, readonly string[]>;
}

/** First bytes of JPEG, PNG, RIFF (WebP), TIFF; `ftyp` of HEIC and AVIF stands behind a length. */
function looksLikePicture(file: string): boolean {
  const head = readFileSync(file).subarray(0, 12).toString('latin1');
  return /^(?:\u00ff\u00d8|\u0089PNG|GIF8|RIFF|II\*|MM|\u00ff\u000a)/.test(head) || head.slice(4, 8) === 'ftyp';
}

/** What was made of a photograph that has not changed since: asked for at every save while the reading copy runs. */
const remembered = new Map<string, { readonly stamp: string; readonly made: Outcome<PublishedPicture> }>();
const mostRemembered = 5_000;

async function publishedOnce(file: string, path: string, cache: string): Promise<Outcome<PublishedPicture>> {
  const { size, mtimeMs } = statSync(file);
  const stamp = `${size} ${mtimeMs}`;
  const known = remembered.get(file);
  if (known?.stamp === stamp && (!known.made.ok || [...known.made.value.files.values()].every(existsSync)))
    return known.made;
  const made = await publishedPicture(file, path, cache);
  if (remembered.size >= mostRemembered) remembered.clear();
  remembered.set(file, { stamp, made });
  return made;
}

/** Whether a file that could not be made anew is to be published as it is: only what is neither picture nor drawing. */
const isNoPicture = (folder: string, path: string): boolean =>
  !isDrawing(path) && !isRaw(path) && !looksLikePicture(join(folder, path));

/** The published forms of all photographs and drawings of a journal. */
export async function publishedPictures(folder: string, paths: readonly string[]): Promise<PublishedPictures> {
  const files = new Map<string, string>();
  const sizes = new Map<string, PictureSizes>();
  const faults = new Map<string, PictureFault>();
  const taken = new Map<string, readonly string[]>();
  for (const path of paths.filter((one) => isPhotograph(one) || isDrawing(one))) {
    const made = await publishedOnce(join(folder, path), path, join(folder, '.pictures'));
    if (!made.ok) {
      faults.set(path, { ...made.fault, noPicture: isNoPicture(folder, path) });
      continue;
    }
    if (made.value.sizes) sizes.set(path, made.value.sizes);
    for (const [at, file] of made.value.files) files.set(at, file);
    if (made.value.taken.length > 0) taken.set(path, made.value.taken);
  }
  return { files, sizes, faults, taken };
}
