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
/** A formula in one spelling, with its water. */
const spelt = readOnce((formula) => formula.replace(/\s/g, '').replace(/[*.•⋅∙](?=[0-9nx.]*H2O)/gi, '·'));
/** A formula without its water, brackets kept. */
const dry = readOnce((formula) => spelt(formula).replace(/·[0-9nx.]*H2O.*$/i, ''));
const isHydrate = (formula: string): boolean => dry(formula) !== spelt(formula);

/** A pigment as an entry or a sample names it. */
export interface NamedPigment {
  readonly name?: string;
  readonly formula?: string;
  /** Colour Index Generic Name. */
  readonly colourIndex?: string;
}

/** What a pigment goes by, as it is compared. */
const wordsOf = onceFor(({ names, formulas }: KnownPigment) => ({
  names: new Set(names.map(plain)),
  spelt: new Set(formulas.map(spelt)),
  dry: new Set(formulas.map(dry)),
  hydrated: formulas.some(isHydrate),
}));

/** Those of several for which something holds, or all of them where it holds for none. */
function preferred(some: readonly KnownPigment[], holds: (one: KnownPigment) => boolean): readonly KnownPigment[] {
  const kept = some.filter(holds);
  return kept.length > 0 ? kept : some;
}

function findNamed({ name, formula, colourIndex }: NamedPigment): readonly KnownPigment[] {
  const isCalled = (one: KnownPigment): boolean => name !== undefined && wordsOf(one).names.has(plain(name));
  const hasDry = (one: KnownPigment): boolean => formula !== undefined && wordsOf(one).dry.has(dry(formula));
  const hasIndex = (one: KnownPigment): boolean => colourIndex !== undefined && one.colourIndex === colourIndex;
  const alike = knownPigments().filter((one) => isCalled(one) || hasDry(one));
  if (alike.length === 0) {
    const ofIndex = knownPigments().filter(hasIndex);
    return ofIndex.length === 1 ? ofIndex : [];
  }
  const called = preferred(preferred(alike, hasIndex), isCalled);
  if (formula === undefined) return called;
  const same = preferred(called, (one) => wordsOf(one).spelt.has(spelt(formula)));
  return preferred(same, (one) => wordsOf(one).hydrated === isHydrate(formula));
}

const named = memoise(
  ({ name = '', formula = '', colourIndex = '' }: NamedPigment) => [name, formula, colourIndex].join('\n'),
  findNamed,
  5000,
);

/**
 * Whether what is named is this pigment. Of several that share a formula but for its water (chromium oxide green and
 * viridian) it is the one of the Colour Index name that is stated, else of the name, else of the very formula, else
 * the one that holds water or none as the formula does; a hydrate of which the trade has only one is that one.
 * Where neither name nor formula is known, a Colour Index name decides that only one pigment has.
 * @example isPigment(viridian, { formula: 'Cr2O3', … }) // false
 */
export const isPigment = (known: KnownPigment, pigment: NamedPigment): boolean =>
  named(pigment).some(({ id }) => id === known.id);

/** Finds what names a pigment in such a way, among many things that are gone through once. */
export function byPigment<Of>(
  all: readonly Of[],
  namedIn: (of: Of) => NamedPigment | undefined,
): (known: KnownPigment) => readonly Of[] {
  const found = new Map<string, Of[]>();
  for (const of of all) {
    const pigment = namedIn(of);
    for (const { id } of pigment ? named(pigment) : []) found.get(id)?.push(of) ?? found.set(id, [of]);
  }
  return ({ id }) => found.get(id) ?? [];
}

/** Whether any finished sample is this pigment. */
export const isMade = (known: KnownPigment, samples: readonly SampleRow[]): boolean =>
  samples.some(
    ({ entry, pigment, formula, colourIndex }) =>
      entry.status === 'finished' && isPigment(known, { name: pigment, formula, colourIndex }),
  );
