// A photograph as a browser can show it while a chart is placed on it: upright, its size in pixels said.
import type { Outcome } from '../outcome.js';
import { limits, readPicture } from './pixels.js';

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
export const uprightPicture = (path: string): Promise<Outcome<UprightPicture>> =>
  readPicture(path, async (sharp, { autoOrient: { width, height } }) => {
    const jpeg = await sharp(path, limits)
      .autoOrient()
      .resize({ width: widestShown, withoutEnlargement: true })
      .flatten({ background: '#fff' })
      .toColourspace('srgb')
      .jpeg({ quality: 88 })
      .toBuffer();
    return { width, height, jpeg };
  });
