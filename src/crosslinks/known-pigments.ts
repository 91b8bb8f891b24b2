// What the trade knows: published pigments by colour-giving element, and which of them a journal has made.
import { memoise } from '../memoise.js';
import { onceFor } from '../once.js';
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
    reactions: row.reactions,
    colourWords: row.colour_words,
    facts: row.facts,
    caution: row.caution,
    source: row.source,
  }));
  return known;
}

/** The same words stand in many entries and are asked for by many pigments. */
const readOnce = (read: (text: string) => string): ((text: string) => string) =>
  memoise((text: string) => text, read, 5000);

const plain = readOnce((text) => text.toLowerCase().replace(/[^a-z0-9]/g, ''));
/** A formula without its water, brackets kept, so that hydrates of one pigment count as one. */
const dry = readOnce((formula) => formula.replace(/[·*.]\s*[0-9nx.]*H2O.*$/i, '').replace(/\s/g, ''));

/** A pigment as an entry or a sample names it. */
export interface NamedPigment {
  readonly name?: string;
  readonly formula?: string;
}

/** Whether what is named is this pigment: by a name of the trade, or by formula, its water apart. */
export function isPigment(known: KnownPigment, { name, formula }: NamedPigment): boolean {
  const { names, formulas } = wordsOf(known);
  return (name !== undefined && names.has(plain(name))) || (formula !== undefined && formulas.has(dry(formula)));
}

/** What a pigment goes by, as it is compared. */
const wordsOf = onceFor(({ names, formulas }: KnownPigment) => ({
  names: new Set(names.map(plain)),
  formulas: new Set(formulas.map(dry)),
}));

/** Finds what names a pigment in such a way, among many things that are gone through once. */
export function byPigment<Of>(
  all: readonly Of[],
  namedIn: (of: Of) => NamedPigment | undefined,
): (known: KnownPigment) => readonly Of[] {
  const byWord = new Map<string, Of[]>();
  const put = (word: string, of: Of): unknown => byWord.get(word)?.push(of) ?? byWord.set(word, [of]);
  for (const of of all) {
    const { name, formula } = namedIn(of) ?? {};
    if (name !== undefined) put(`name ${plain(name)}`, of);
    if (formula !== undefined) put(`formula ${dry(formula)}`, of);
  }
  return (known) => {
    const { names, formulas } = wordsOf(known);
    const words = [...[...names].map((name) => `name ${name}`), ...[...formulas].map((one) => `formula ${one}`)];
    return [...new Set(words.flatMap((word) => byWord.get(word) ?? []))];
  };
}

/** Whether any finished sample is this pigment. */
export const isMade = (known: KnownPigment, samples: readonly SampleRow[]): boolean =>
  samples.some(
    ({ entry, pigment, formula }) => entry.status === 'finished' && isPigment(known, { name: pigment, formula }),
  );
