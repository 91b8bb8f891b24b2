// Elements that have many harmonised entries but no group entry: for a compound without an entry of its own, what at
// least half of those entries carry is shown as a precaution. It is read across, not a classification.
import {
  elementPrecautionsTable,
  type ElementPrecautionsRow,
} from '../../tables/compiled/hazards/ghs/element-precautions.js';
import { prepared } from '../../tables/prepared.js';
import type { SubstanceComposition } from './composition.js';
import type { HazardClass, HazardNote, Substance, SubstanceQuery } from './contracts.js';
import { groupBy } from './group-by.js';
import { labelCodesOf, pictogramsOf, signalWordOf } from './pictograms.js';
import { wordsOfSalt } from '../../reagents/name-keys.js';
import { compositionsOf, substances } from './substances.js';

const isCompound = (row: Substance): boolean => !compositionsOf(row).some(({ elements }) => elements.size === 1);

/** The harmonised entries of an element's compounds. */
const entriesOf = ({ index_prefix: prefix }: ElementPrecautionsRow): readonly Substance[] =>
  substances().filter(
    (row) => row.basis === 'harmonised' && !row.group && row.indexNumber.startsWith(prefix) && isCompound(row),
  );

const classKey = ({ hazardClass, category, code }: HazardClass): string => `${hazardClass} ${category} ${code}`;

/** Classes that at least half of some entries carry. */
function sharedClasses(entries: readonly Substance[]): readonly HazardClass[] {
  const carried = groupBy(
    entries.flatMap((row) => row.classes),
    (held) => [classKey(held)],
  );
  return [...carried.values()].filter((held) => held.length * 2 >= entries.length).map(([held]) => held!);
}

function rowOf(precaution: ElementPrecautionsRow): Substance {
  const entries = entriesOf(precaution);
  const classes = sharedClasses(entries);
  const codes = classes.map((held) => held.code);
  const signalWord = signalWordOf(classes);
  const most = (factorOf: (row: Substance) => number): number => Math.max(1, ...entries.map(factorOf));
  return {
    name: precaution.compounds,
    synonyms: [],
    formulae: [],
    casNumbers: [],
    indexNumber: '',
    classes,
    supplementary: [],
    codes,
    labelCodes: labelCodesOf(codes),
    pictograms: pictogramsOf(classes),
    ...(signalWord && { signalWord }),
    limits: [],
    limitsCountMetal: false,
    soldInSolution: false,
    acuteMFactor: most((row) => row.acuteMFactor),
    chronicMFactor: most((row) => row.chronicMFactor),
    estimates: [],
    notClassified: false,
    group: true,
    form: '',
    elsewhere: '',
    caveat: '',
    note: '',
    basis: 'by-element',
    source: `read across from the ${entries.length} harmonised entries of ${precaution.compounds} (CLP Annex VI)`,
    url: entries[0]?.url ?? '',
  };
}

const rows = prepared<readonly Substance[]>('precautions by element', () => elementPrecautionsTable().map(rowOf));
const rowFor = (symbol: string): Substance =>
  rows()[elementPrecautionsTable().findIndex((row) => row.symbol === symbol)]!;

export interface ElementMatch {
  readonly byElement: readonly Substance[];
  readonly notes: readonly HazardNote[];
}

const matchOf = (precautions: readonly ElementPrecautionsRow[]): ElementMatch => ({
  byElement: precautions.map(({ symbol }) => rowFor(symbol)),
  notes: precautions.map(({ compounds, symbol }) => ({
    kind: 'by-element',
    text:
      `No row of its own, and no group entry for ${compounds}: what at least half of the harmonised entries of ` +
      `${compounds} carry is shown for its ${symbol}, as a precaution. What else it may do is not known.`,
  })),
});

/** Precautions for a compound, by its elements; none for an element alone. */
export const elementPrecautionsOf = ({ elements }: SubstanceComposition): ElementMatch =>
  matchOf(elements.size < 2 ? [] : elementPrecautionsTable().filter(({ symbol }) => elements.has(symbol)));

/** Precautions by a systematic name alone: for `cobalt stannate`, not for `cobalt blue hue`. */
export function elementPrecautionsNamed(query: SubstanceQuery): ElementMatch {
  const words = wordsOfSalt([query.name, ...(query.alsoCalled ?? [])]);
  return matchOf(
    elementPrecautionsTable().filter((precaution) => words.some((word) => precaution.words.includes(word))),
  );
}
