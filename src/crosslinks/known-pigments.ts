// What the trade knows: published pigments by colour-giving element, and which of them a journal has made.
import { knownPigmentsTable } from '../tables/compiled/crosslinks/known-pigments.js';
import type { KnownPigment, SampleRow } from './model.js';

let known: readonly KnownPigment[] | undefined;

/** Every pigment of known-pigments.csv. */
export function knownPigments(): readonly KnownPigment[] {
  known ??= knownPigmentsTable().map((row) => ({
    id: row.id,
    names: row.names,
    colourIndex: row.colour_index,
    colourIndexNumber: row.colour_index_number,
    formulas: row.formulas,
    elements: row.elements,
    family: row.family,
    colourWords: row.colour_words,
    facts: row.facts,
    caution: row.caution,
    source: row.source,
  }));
  return known;
}

const plain = (text: string): string => text.toLowerCase().replace(/[^a-z0-9]/g, '');
/** A formula without its water, brackets kept, so that hydrates of one pigment count as one. */
const dry = (formula: string): string => formula.replace(/[·*.]\s*[0-9nx.]*H2O.*$/i, '').replace(/\s/g, '');

/**
 * Whether any of the samples is this pigment: by name, by formula, or by Colour Index name where no name of the trade
 * differs.
 */
export function isMade(pigment: KnownPigment, samples: readonly SampleRow[]): boolean {
  const names = new Set(pigment.names.map(plain));
  const formulas = new Set(pigment.formulas.map(dry));
  return samples.some(
    (sample) =>
      (sample.formula !== undefined && formulas.has(dry(sample.formula))) ||
      (sample.pigment !== undefined && names.has(plain(sample.pigment))),
  );
}
