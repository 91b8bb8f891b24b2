// Which sample repeats which: as it is said, or because nothing differs between them.
import type { Entry } from '../journal/entry.js';
import { onceFor } from '../once.js';
import type { Sample } from '../journal/schema.js';

const plain = (text: string): string => text.normalize('NFKC').toLowerCase().replace(/\s+/g, ' ').trim();

/** What sets a sample apart, as one text; undefined where nothing is said to. */
const apartBy = onceFor(({ differs, add, omit, change, formula }: Sample): string | undefined =>
  differs === undefined ? undefined : JSON.stringify([plain(differs), add, omit, change, formula]),
);

/**
 * The sample that one repeats: the one that it names, else the first before it of which the same words tell what
 * differs, with the same things added, left out and changed.
 * @param index of the sample in the entry
 * @example repeatedBy(entry, 1) // { sample: 'A', said: false } where A and B both say `differs: cold`
 */
export function repeatedBy(
  { samples }: Pick<Entry, 'samples'>,
  index: number,
): { readonly sample: string; readonly said: boolean } | undefined {
  const sample = samples[index]!;
  const named = sample['replicate-of'];
  if (named !== undefined) return { sample: named, said: true };
  if (index === 0) return undefined;
  const apart = apartBy(sample);
  const alike = samples.slice(0, index).find((other) => apart !== undefined && apartBy(other) === apart);
  return alike && { sample: alike.sample, said: false };
}
