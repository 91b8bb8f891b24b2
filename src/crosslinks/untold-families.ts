// Entries of which no colour is told, though the trade knows what colour their pigment has.
import { remarksOn } from '../journal/place.js';
import { onceFor } from '../once.js';
import type { ReckonedEntry } from '../reckoning/contracts.js';
import { Findings } from '../remarks/findings.js';
import type { Remark } from '../remarks/remark.js';
import { isPigment, knownPigments } from './known-pigments.js';

const untoldIn = onceFor(({ entry, gist }: ReckonedEntry): readonly Remark[] => {
  const { pigment, samples, status } = entry;
  if (status !== 'finished' || !pigment || samples.length === 0) return [];
  if (gist.samples.some(({ family }) => family !== undefined)) return [];
  const { name, formula, 'colour-index': colourIndex } = pigment;
  const families = new Set(
    knownPigments().flatMap((known) => (isPigment(known, { name, formula, colourIndex }) ? known.family : [])),
  );
  const [family] = families;
  if (family === undefined || families.size > 1) return [];
  const findings = new Findings();
  findings.add('colour-not-told', ['pigment'], { pigment: name, family });
  return remarksOn(entry, findings.all);
});

/** Remarks on finished entries that stand under no colour, with the family in which the trade has their pigment. */
export const untoldFamilies = (reckoned: readonly ReckonedEntry[]): readonly Remark[] => reckoned.flatMap(untoldIn);
