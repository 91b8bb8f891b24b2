// Which sample repeats which: as it is said, or because nothing differs between them.
import type { Entry } from '../journal/entry.js';
import { onceFor } from '../once.js';
import type { Sample } from '../journal/schema.js';

const plain = (text: string): string => text.normalize('NFKC').toLowerCase().replace(/\s+/g, ' ').trim();

/** What is said to set a sample apart, as it is compared; undefined where nothing is. */
const differsAs = onceFor(({ differs }: Sample): string | undefined =>
  differs === undefined ? undefined : plain(differs),
);

/** What is taken otherwise for a sample, as one text. */
const takenApart = ({ add, omit, change, formula }: Sample): string => JSON.stringify([add, omit, change, formula]);

/** Whether nothing differs between two samples of which each is said to differ from others. */
const areAlike = (a: Sample, b: Sample): boolean =>
  differsAs(a) !== undefined && differsAs(a) === differsAs(b) && takenApart(a) === takenApart(b);

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
  const alike = samples.find((other, at) => at < index && areAlike(sample, other));
  return alike && { sample: alike.sample, said: false };
}

/**
 * The sample that a replicate repeats in the end, whether or not it gave anything itself; a ring of replicates ends
 * where it began.
 */
function rootOf(sample: string, parents: ReadonlyMap<string, string | undefined>): string {
  let root = sample;
  const passed = new Set([root]);
  for (let parent = parents.get(root); parent !== undefined; parent = parents.get(root)) {
    if (passed.has(parent)) return root;
    passed.add(parent);
    root = parent;
  }
  return root;
}

/**
 * Samples by preparation: each with those that repeat it, in the order in which they were written.
 * @param samples each with the sample that it repeats, if it does
 * @param counts whether there is anything to compare of a sample; one of which there is not still joins its repeats
 * @example preparationsOf([{ sample: 'A' }, { sample: 'B', replicateOf: 'A' }], () => true).length // 1
 */
export function preparationsOf<Sample extends { readonly sample: string; readonly replicateOf?: string | undefined }>(
  samples: readonly Sample[],
  counts: (one: Sample) => boolean,
): readonly (readonly Sample[])[] {
  const parents = new Map(samples.map(({ sample, replicateOf }) => [sample, replicateOf]));
  const byRoot = new Map<string, Sample[]>();
  for (const one of samples) {
    if (!counts(one)) continue;
    const root = rootOf(one.sample, parents);
    byRoot.set(root, [...(byRoot.get(root) ?? []), one]);
  }
  return [...byRoot.values()];
}
