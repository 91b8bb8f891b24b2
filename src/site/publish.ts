// A publication, by the code that the build put together where it is at hand, which is loaded in a tenth of the time.
import { putTogether } from '../put-together.js';
import type { Publication, PublishOptions } from './publication.js';

export type { Publication, PublishOptions } from './publication.js';

/**
 * Publishes the journal in `folder`.
 * @throws what is named NotOurs if the site's folder is somebody else's, LockTaken if another publication of it goes on
 * for too long, and what the file system refuses; the old site is then as it was, and so is the register
 * @example await publish('content', { to: 'site' })
 */
export async function publish(folder: string, options: PublishOptions): Promise<Publication> {
  const { publishJournal } =
    putTogether<typeof import('./publish-journal.js')>('publish-journal') ?? (await import('./publish-journal.js'));
  return publishJournal(folder, options);
}
