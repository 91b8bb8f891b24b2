// What was done with the products after they were made: what washing leaves, how dry they are, what ignition took.
import type { Element } from 'hast';
import type { SampleAmounts } from '../../src/reckoning/contracts.js';
import { formulaWords } from './formula.js';

/** Each sentence once, with the samples that it is told of, in the order in which they are told. */
function sentencesBySample(samples: readonly SampleAmounts[]): ReadonlyMap<string, readonly string[]> {
  const told = new Map<string, string[]>();
  for (const { sample, treatment = [] } of samples)
    for (const sentence of treatment) told.set(sentence, [...(told.get(sentence) ?? []), sample]);
  return told;
}

/**
 * A paragraph for what is true of all samples, and one for each group of which something else is.
 * @param ofAll sentences on all samples together
 */
export function treatmentContent(samples: readonly SampleAmounts[], ofAll: readonly string[] = []): Element[] {
  const byGroup = new Map<string, string[]>();
  for (const [sentence, of] of sentencesBySample(samples)) {
    const group = of.length === samples.length ? '' : of.join(', ');
    byGroup.set(group, [...(byGroup.get(group) ?? []), sentence]);
  }
  if (ofAll.length > 0) byGroup.set('', [...(byGroup.get('') ?? []), ...ofAll]);
  return [...byGroup].map(
    ([group, sentences]) =>
      (
        <p class="treatment">
          {group === '' ? null : <strong>{`${group}: `}</strong>}
          {formulaWords(sentences.join(' '))}
        </p>
      ) as Element,
  );
}
