// The colour of entries of which none is told: what the trade says of their pigment.
import { onceFor } from '../once.js';
import type { ReckonedEntry } from '../reckoning/contracts.js';
import { isPigment, knownPigments } from './known-pigments.js';

/**
 * The family in which the trade has the pigment of a finished entry that stands under no colour; undefined where a
 * colour is told, or the trade does not know the pigment or has it in several.
 */
export const untoldFamily = onceFor(({ entry, gist }: ReckonedEntry): string | undefined => {
  const { pigment, samples, status } = entry;
  if (status !== 'finished' || !pigment || samples.length === 0) return undefined;
  if (gist.samples.some(({ family }) => family !== undefined)) return undefined;
  const { name, formula, 'colour-index': colourIndex } = pigment;
  const known = knownPigments().filter((one) => isPigment(one, { name, formula, colourIndex }));
  const families = new Set(known.map(({ family }) => family));
  return families.size === 1 ? [...families][0] : undefined;
});
