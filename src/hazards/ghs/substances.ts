// The table of substances: what is published of each one's hazards, row by row.
import { substancesRow, substancesTable, type SubstancesRow } from '../../tables/compiled/hazards/ghs/substances.js';
import { prepared, preparedByKey, preparedList } from '../../tables/prepared.js';
import { compositionOf, type SubstanceComposition } from './composition.js';
import type { AcuteToxicityEstimate, SpecificLimit, Substance } from './contracts.js';
import { knownSubstanceAt, knownSubstances, type KnownSubstance } from '../../reagents/known-substances.js';
import { readClassification } from './hazard-classes.js';

const limitPattern = /^(?:(?<low>[\d.]+)%(?<lowSign><=?)C<(?:=)?(?<high>[\d.]+)%|C>=(?<from>[\d.]+)%)\s+(?<gives>.+)$/;
type Groups = Readonly<Record<string, string | undefined>>;

function limitOf({ low, lowSign, high, from, gives }: Groups): SpecificLimit {
  const words = gives!.split(' ');
  const code = words.pop()!;
  return {
    low: (low ?? from)!,
    lowIncluded: lowSign !== '<',
    ...(high && { high }),
    code,
    ...(words.length > 0 && { gives: readClassification(words.join(' '), code)[0] }),
  };
}

function readLimit(written: string): SpecificLimit {
  const limit = limitPattern.exec(written)?.groups;
  if (!limit) throw new Error(`hazards/ghs/substances.csv: a limit that cannot be read: ${written}`);
  return limitOf(limit);
}

const estimateOf = ({ form, value }: SubstancesRow['ate'][number]): AcuteToxicityEstimate =>
  form === 'oral' || form === 'dermal' ? { route: form, value } : { route: 'inhalation', value, form };

function substanceOf(row: SubstancesRow, known: KnownSubstance): Substance {
  const { synonyms, formulae, casNumbers, group } = known;
  const codes = row.h_codes;
  const notClassified = row.classification === 'not classified';
  const statements = codes.filter((code) => !code.startsWith('EUH'));
  return {
    name: row.name,
    synonyms,
    formulae,
    casNumbers,
    indexNumber: row.ec_index_no,
    classes: notClassified ? [] : readClassification(row.classification, statements.join('; ')),
    supplementary: codes.filter((code) => code.startsWith('EUH')),
    codes,
    labelCodes: row.label_h_codes,
    pictograms: row.pictograms,
    ...(row.signal_word !== '' && { signalWord: row.signal_word }),
    limits: row.specific_conc_limits.map(readLimit),
    limitsCountMetal: row.clp_notes.includes('1'),
    soldInSolution: row.clp_notes.includes('B'),
    acuteMFactor: row.m_acute ?? 1,
    chronicMFactor: row.m_chronic ?? row.m_acute ?? 1,
    estimates: row.ate.map(estimateOf),
    notClassified,
    group,
    form: row.form,
    elsewhere: row.elsewhere,
    caveat: row.caveat,
    note: row.note,
    basis: row.basis,
    source: row.source_title || 'from memory, no document seen',
    url: row.source_url,
  };
}

/** By the place of a row, that of its names in the table of known substances. */
const knownAt = preparedList<number>('known substances by row of hazards', () => {
  const places = new Map(knownSubstances().map(({ name }, place) => [name, place]));
  return substancesTable().map(({ name }) => {
    const place = places.get(name);
    if (place === undefined) throw new Error(`reagents/known-substances.csv: has no ${name}`);
    return place;
  });
});

const read = new Map<number, Substance>();
const placeOf = new WeakMap<Substance, number>();

/** The substance of a row, by its place from 0 in the table: the same object however often it is asked for. */
function substanceAt(place: number): Substance {
  const before = read.get(place);
  if (before) return before;
  const substance = substanceOf(substancesRow(place), knownSubstanceAt(knownAt(place)));
  read.set(place, substance);
  placeOf.set(substance, place);
  return substance;
}

let rows: readonly Substance[] | undefined;

/** Every row of the table, group entries included. @example substances().length > 160 */
export const substances = (): readonly Substance[] =>
  (rows ??= substancesTable().map((_, place) => substanceAt(place)));

type MadeOf = Omit<SubstanceComposition, 'elements'> & { readonly elements: readonly (readonly [string, number])[] };

const madeOfAt = preparedList<readonly MadeOf[]>('compositions by row of hazards', () =>
  substances().map(({ formulae }) =>
    formulae.flatMap((formula) => {
      const made = compositionOf(formula);
      return made ? [{ ...made, elements: [...made.elements] }] : [];
    }),
  ),
);

const compositions = new WeakMap<Substance, readonly SubstanceComposition[]>();

/** Compositions of the formulae of a row of the table that can be read; none of what is no row of it. */
export function compositionsOf(row: Substance): readonly SubstanceComposition[] {
  const place = placeOf.get(row);
  if (place === undefined) return [];
  const before = compositions.get(row);
  if (before) return before;
  const found = madeOfAt(place).map((made) => ({ ...made, elements: new Map(made.elements) }));
  compositions.set(row, found);
  return found;
}

/**
 * Rows of the table by a key, in their order; none where no row has it.
 * @param name under which it is kept
 */
export function rowsBy(
  name: string,
  keysOf: (row: Substance) => readonly string[],
): (key: string) => readonly Substance[] {
  const placesOf = preparedByKey<readonly number[]>(`rows of hazards/${name}`, () => {
    const places = new Map<string, number[]>();
    substances().forEach((row, place) => {
      for (const key of new Set(keysOf(row))) if (key !== '') places.set(key, [...(places.get(key) ?? []), place]);
    });
    return places;
  });
  return (key) => placesOf(key)?.map(substanceAt) ?? [];
}

const groupPlaces = prepared<readonly number[]>('group entries of hazards', () =>
  substances().flatMap(({ group }, place) => (group ? [place] : [])),
);

/** The rows that stand for all compounds of an element. */
export const groupSubstances = (): readonly Substance[] => groupPlaces().map(substanceAt);
