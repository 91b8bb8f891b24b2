// What a label says of what is in the pack: a sample, a lot, a jar of the shelf. Plain data; how it is laid out is the
// site's.
import { composition, elementName, parseFormula } from '../chemistry/index.js';
import {
  labelElements,
  labelSizes,
  packagingNeeds,
  transportAdvice,
  type HazardBox,
  type LabelElements,
  type LabelSizes,
  type Pack,
  type PackagingNeeds,
  type TransportAdvice,
} from '../hazards/ghs/index.js';
import type { ShelfReagent } from '../journal/schema.js';
import {
  cupboardOf,
  resolveJar,
  resolveNamed,
  resolveUse,
  type LotProduct,
  type ResolvedReagent,
} from '../reagents/index.js';
import type { Swatch } from './appearance/appearance-contracts.js';
import type { LotFacts, ReckonedEntry } from './contracts.js';
import { boxOfReagents } from '../hazards/box-of-reagent.js';
import { typesetOf, type Typeset } from './typeset.js';

export type { LabelSizes, Pack } from '../hazards/ghs/index.js';
export { isOnlyOfUn, othersDiffer, othersDifferShort } from '../hazards/ghs/index.js';

/** What a label says, hazards apart. */
export interface LabelFacts {
  /** What it holds: `malachite, synthetic`. */
  readonly name: string;
  /** `14/A`, or the id on the shelf. */
  readonly id: string;
  readonly date?: string;
  readonly formula?: Typeset;
  readonly colourIndex?: string;
  /** Strength, purity, what it was made from …, a line each; the first ones matter most. */
  readonly lines: readonly string[];
  readonly swatch?: Swatch & { readonly said: string };
  /** Permanent address below the site: `/14/#A`. */
  readonly address: string;
  /** What it may still hold of what it was made from. */
  readonly remains: readonly string[];
}

/** A label with its hazards. */
export interface Labelled {
  readonly facts: LabelFacts;
  readonly box: HazardBox;
}

/** The rules that a pack of this size and kind is under. */
export interface PackRules {
  readonly elements: LabelElements;
  readonly sizes: LabelSizes;
  readonly packaging: PackagingNeeds;
  readonly transport: TransportAdvice;
}

function colourSaid(basis: string | undefined): string {
  if (basis === 'srgb-estimate') return 'a rough estimate, printing differs';
  return basis === 'photograph' ? 'from a photograph, printing differs' : 'as measured, printing differs';
}

/** Names of what was bought or made for a sample, in the order of the entry. */
function madeFrom({ lineage }: Pick<LotFacts, 'lineage'>): readonly string[] {
  const names = lineage?.from.map(({ name, lot }) => (lot === undefined ? name : `${name} ${lot}`)) ?? [];
  return names.length === 0 ? [] : [`made from ${[...new Set(names)].join(', ')}`];
}

const colourIndexOf = ({ entry }: ReckonedEntry): string | undefined => entry.pigment?.['colour-index'];

/** What a sample's own words say beside name and formula. */
function factsOfLot(reckoned: ReckonedEntry, lot: LotFacts, remains: readonly string[]): Omit<LabelFacts, 'lines'> {
  const { entry, appearance } = reckoned;
  const seen = appearance.samples.find((one) => one.sample === lot.sample);
  const colourIndex = colourIndexOf(reckoned);
  return {
    name: lot.name,
    id: lot.lot,
    date: entry.date,
    ...(lot.formula !== undefined && { formula: typesetOf(lot.formula) }),
    ...(colourIndex !== undefined && { colourIndex }),
    ...(seen?.swatch && { swatch: { ...seen.swatch, said: colourSaid(seen.basis) } }),
    address: `/${entry.number}/#${lot.sample}`,
    remains,
  };
}

/** The product of a sample as a reagent: by a jar that holds it, where the shelf has one, so that its sheet counts. */
function lotAsReagent(
  lot: LotFacts,
  shelf: ReadonlyMap<string, ShelfReagent>,
  lotOf: (name: string) => LotProduct | undefined,
): ResolvedReagent {
  return resolveUse({ lot: lot.lot }, cupboardOf(shelf, lotOf));
}

/** Elements that are said to give its colour and that its formula does not have: what they are in it is not known. */
function unsaidElements({ elements }: ReckonedEntry, { formula }: LotFacts): readonly string[] {
  const read = formula === undefined ? undefined : parseFormula(formula);
  if (!read?.ok) return [];
  const held = composition(read.value);
  return elements.filter((symbol) => !held.has(symbol));
}

/** The box of a sample; where its formula leaves out what gives it its colour, that is unknown, not absent. */
function boxOfLot(reckoned: ReckonedEntry, lot: LotFacts, reagent: ResolvedReagent): HazardBox {
  const unsaid = unsaidElements(reckoned, lot).map((symbol) => resolveNamed(`${elementName(symbol)} in ${lot.name}`));
  return boxOfReagents([reagent, ...unsaid]);
}

const remainsOf = (lot: LotFacts): readonly string[] => [...new Set((lot.carries ?? []).map(({ name }) => name))];

/** A sample as it is posted or put away: pigment, number, colour. */
export function sampleLabel(
  reckoned: ReckonedEntry,
  lot: LotFacts,
  shelf: ReadonlyMap<string, ShelfReagent>,
  lotOf: (name: string) => LotProduct | undefined,
): Labelled {
  const differs = reckoned.entry.samples.find((one) => one.sample === lot.sample)?.differs;
  return {
    facts: { ...factsOfLot(reckoned, lot, remainsOf(lot)), lines: differs === undefined ? [] : [differs] },
    box: boxOfLot(reckoned, lot, lotAsReagent(lot, shelf, lotOf)),
  };
}

/** A sample as a reagent in a bottle: how pure as far as is known, what it was made from. */
export function lotLabel(
  reckoned: ReckonedEntry,
  lot: LotFacts,
  shelf: ReadonlyMap<string, ShelfReagent>,
  lotOf: (name: string) => LotProduct | undefined,
): Labelled {
  const reagent = lotAsReagent(lot, shelf, lotOf);
  const { purity, strength } = reagent.written;
  const { swatch: _, ...facts } = factsOfLot(reckoned, lot, remainsOf(lot));
  const assay = purity ?? strength;
  return {
    facts: {
      ...facts,
      lines: [
        assay ? `assay ${assay.written}` : 'assay not known: made here, not analysed',
        ...(lot.obtained ? [`${lot.obtained.text} obtained`] : []),
        ...madeFrom(lot),
      ],
    },
    box: boxOfLot(reckoned, lot, reagent),
  };
}

/** A jar of the shelf: strength, purity, density, whose sheet its hazards stand on. */
export function jarLabel(id: string, jar: ShelfReagent, lotOf: (name: string) => LotFacts | undefined): Labelled {
  const reagent = resolveJar(jar, cupboardOf(new Map(), lotOf));
  const made = jar.lot === undefined ? undefined : lotOf(jar.lot);
  const formula = jar.formula ?? made?.formula ?? reagent.written.formula;
  return {
    facts: {
      name: jar.name,
      id,
      ...(formula !== undefined && { formula: typesetOf(formula) }),
      lines: [
        ...(jar.strength === undefined ? [] : [`strength ${jar.strength}`]),
        ...(jar.purity === undefined ? [] : [`assay ${jar.purity}`]),
        ...(jar.density === undefined ? [] : [jar.density]),
        ...(jar.lot === undefined ? [] : [`made here, lot ${jar.lot}`]),
        ...(made ? madeFrom(made) : []),
        ...(jar.sds?.date === undefined ? [] : [`safety data sheet of ${jar.sds.date}`]),
        ...(jar.supplier === undefined ? [] : [jar.supplier]),
        'filled on ____-__-__',
      ],
      address: `/reagents/${id}/`,
      remains: made ? remainsOf(made) : [],
    },
    box: boxOfReagents([reagent]),
  };
}

/** What the pack's label must and may have, and what the pack needs besides. */
export const packRules = (box: HazardBox, pack: Pack): PackRules => ({
  elements: labelElements(box, pack),
  sizes: labelSizes(pack.millilitres),
  packaging: packagingNeeds(box, pack.forPublic),
  transport: transportAdvice(box),
});
