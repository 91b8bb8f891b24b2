// A photograph as a browser can show it while a chart is placed on it: upright, its size in pixels said.
import { stat } from 'node:fs/promises';
import { good, type Outcome } from '../outcome.js';
import { largest, noSuchPicture, pictureFault, tooLarge } from './pixels.js';

export interface UprightPicture {
  /** Of the upright picture as it is read, in pixels; what is shown may be smaller. */
  readonly width: number;
  readonly height: number;
  readonly jpeg: Uint8Array;
}

/** Wide enough to be magnified on a screen. */
const widestShown = 2400;

/**
 * Opens a photograph to be looked at.
 * @returns JPEG with the size of the whole picture; or a fault: not there, too large, damaged, a kind that cannot be
 * read
 */
export async function uprightPicture(path: string): Promise<Outcome<UprightPicture>> {
  try {
    const { size } = await stat(path);
    if (size > largest.bytes) return tooLarge(`${Math.round(size / 1024 / 1024)} MB`);
  } catch {
    return noSuchPicture(path);
  }
  let format: string | undefined;
  try {
    const { default: sharp } = await import('sharp');
    const limits = { limitInputPixels: largest.pixels, failOn: 'error' } as const;
    const about = await sharp(path, limits).metadata();
    format = about.format;
    const { width, height } = about.autoOrient;
    const jpeg = await sharp(path, limits)
      .autoOrient()
      .resize({ width: widestShown, withoutEnlargement: true })
      .flatten({ background: '#fff' })
      .toColourspace('srgb')
      .jpeg({ quality: 88 })
      .toBuffer();
    return good({ width, height, jpeg });
  } catch (error) {
    return pictureFault(error, format);
  }
}
