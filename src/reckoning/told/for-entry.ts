// What the words of an entry tell is worked out once, and of a large journal not held for all of its entries: together
// it is more than what was read.
import { fewEntries, manyEntries } from '../../many-entries.js';
import { recentlyFor } from '../../once.js';

/**
 * The function, asked but once for each entry of a journal whose memory does not count, and of a larger one for the
 * last of those that were asked for.
 * @example const wordsOf = forEntry(({ body }: { body: string }) => body.split(' '));
 */
export const forEntry = <Of extends object, Made extends {}>(make: (of: Of) => Made): ((of: Of) => Made) =>
  recentlyFor(make, manyEntries, fewEntries);
