// A photograph's file as plain pixels, upright, in the numbers that the camera stored: what colours are read from.
import { stat } from 'node:fs/promises';
import type sharpLibrary from 'sharp';
import type { Metadata, Sharp } from 'sharp';
import { curvesOfProfile, type Picture } from '../colour/photograph/index.js';
import { bad, good, type Outcome } from '../outcome.js';

/** Files over this many bytes, and pictures over this many pixels, are not opened. */
export const largest = { bytes: 200 * 1024 * 1024, pixels: 120_000_000 } as const;

const noSuchPicture = (path: string): Outcome<never> =>
  bad({ code: 'no-such-file', message: `There is no file ${path}.`, cure: 'Check the path.' });

export const tooLarge = (what: string): Outcome<never> =>
  bad({
    code: 'picture-too-large',
    message: `The picture has ${what}.`,
    expected: `at most ${largest.bytes / 1024 / 1024} MB and ${largest.pixels / 1_000_000} million pixels`,
    cure: 'Export it smaller.',
  });

/** Whether a name is that of a camera's raw data. */
export const isRaw = (path: string): boolean => /\.(?:dng|cr[23]|nef|arw|orf|raf|rw2|pef|srw)$/i.test(path);

export const rawPicture: Outcome<never> = bad({
  code: 'unreadable-picture',
  message: 'The picture is a camera’s raw data, which browsers do not show.',
  expected: 'JPEG, PNG, TIFF or WebP',
  cure: 'Export it as JPEG, in the best quality.',
});

/** What a picture that cannot be opened is called, by its first words from the decoder. */
export function pictureFault(error: unknown, format: string | undefined): Outcome<never> {
  const said = error instanceof Error ? error.message.split('\n')[0]! : String(error);
  if (/pixel limit/i.test(said)) return tooLarge('too many pixels');
  const heic = /heif|heic|avif/i.test(format ?? '') || /heif|heic/i.test(said);
  return bad({
    code: 'unreadable-picture',
    message: heic
      ? 'The picture is HEIC, which cannot be read here.'
      : 'The picture cannot be read: it is damaged, cut short, or of a kind that is not known.',
    expected: 'JPEG, PNG, TIFF or WebP',
    cure: heic ? 'Export it as JPEG, in the best quality.' : 'Export it again, as JPEG, PNG or TIFF.',
  });
}

/** Pictures of other colour models (CMYK, Lab) are converted by their profile first. */
const asStored = ({ space }: Metadata): boolean => ['srgb', 'rgb', 'rgb16'].includes(space ?? '');

/** What a file has that its colours suffer from. */
const notesOn = ({ space, pages }: Metadata): string[] => [
  ...(space === 'cmyk'
    ? ['The picture is in the inks of a printer (CMYK), which hold fewer colours than a camera: take its own file.']
    : []),
  ...((pages ?? 1) > 1 ? ['The file holds several pictures; the first was read.'] : []),
];

async function pixelsOf(image: Sharp, about: Metadata): Promise<Picture> {
  const deep = about.depth === 'ushort';
  const upright = image.autoOrient().removeAlpha();
  const converted = asStored(about) ? upright : upright.toColourspace('srgb');
  const { data, info } = await converted
    .raw({ depth: deep ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true });
  const values = deep ? new Uint16Array(data.buffer, data.byteOffset, data.byteLength / 2) : new Uint8Array(data);
  const { curves } = curvesOfProfile(asStored(about) && about.icc ? new Uint8Array(about.icc) : undefined);
  const notes = notesOn(about);
  return {
    width: info.width,
    height: info.height,
    data: values,
    maximum: deep ? 65535 : 255,
    curves,
    ...(notes.length > 0 && { notes }),
  };
}

/** What every opening of a picture goes by: none larger, none damaged. */
export const limits = { limitInputPixels: largest.pixels, failOn: 'error' } as const;

/**
 * Opens a photograph's file, if it is there and not too large, and lets it be read.
 * @param read gives what is wanted of it; what sharp throws becomes a fault that names the kind of file
 */
export async function readPicture<T>(
  path: string,
  read: (sharp: typeof sharpLibrary, about: Metadata) => Promise<T>,
): Promise<Outcome<T>> {
  try {
    const { size } = await stat(path);
    if (size > largest.bytes) return tooLarge(`${Math.round(size / 1024 / 1024)} MB`);
  } catch {
    return noSuchPicture(path);
  }
  let format: string | undefined;
  try {
    // Loaded only when a picture is opened.
    const { default: sharp } = await import('sharp');
    const about = await sharp(path, limits).metadata();
    format = about.format;
    return good(await read(sharp, about));
  } catch (error) {
    return pictureFault(error, format);
  }
}

/**
 * Opens a photograph: turned upright, not converted (its profile gives the curves), without alpha.
 * @returns the picture; or a fault: not there, too large, damaged, a kind that cannot be read
 */
export const openPicture = (path: string): Promise<Outcome<Picture>> =>
  readPicture(path, (sharp, about) => pixelsOf(sharp(path, { ...limits, ignoreIcc: asStored(about) }), about));
