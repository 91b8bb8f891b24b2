// The file of a picture that is shown where a page is linked to; what draws is loaded only where there is a new one.
import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { recipe, type SharePicture } from './share-picture-list.js';

/** Name in the cache: by what the picture shows and how it is drawn. */
const nameInCache = (picture: SharePicture): string =>
  `share-${createHash('sha256').update(recipe).update(JSON.stringify(picture)).digest('hex').slice(0, 32)}.png`;

/**
 * A picture's file, where it has been drawn before.
 * @param cache folder that keeps what was made
 */
export function sharePictureDrawn(picture: SharePicture, cache: string): string | undefined {
  const file = join(cache, nameInCache(picture));
  return existsSync(file) ? file : undefined;
}

/** The same, or else made now. */
export async function sharePictureFile(picture: SharePicture, cache: string): Promise<string> {
  const file = join(cache, nameInCache(picture));
  if (existsSync(file)) return file;
  // What draws opens the site's letters, which takes longer than looking whether anything is to be drawn.
  const { drawSharePicture } = await import('./share-pictures.js');
  await drawSharePicture(picture, file);
  return file;
}
