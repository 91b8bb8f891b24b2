// Substances that are published under a name, a formula and a CAS number: the one table of those, which hazards read
// too.
import { knownSubstancesRow, knownSubstancesTable } from '../tables/compiled/reagents/known-substances.js';
import { preparedByKey } from '../tables/prepared.js';
import { nameKey, plainNameKey, statelessKey } from './name-keys.js';

/** A substance by its names. */
export interface KnownSubstance {
  readonly name: string;
  /** Every name, the first one and its parts between semicolons included. */
  readonly names: readonly string[];
  readonly synonyms: readonly string[];
  /** As the source writes them; more than one where it is an entry for several substances. */
  readonly formulae: readonly string[];
  /** Those of its hydrates included. */
  readonly casNumbers: readonly string[];
  /** It stands for all compounds of an element. */
  readonly group: boolean;
}

export const casPattern = /\b\d{2,7}-\d{2}-\d\b/;

const substancesAt = new Map<number, KnownSubstance>();
/** The substance of a row, by its place from 0 in the table. */
export function knownSubstanceAt(place: number): KnownSubstance {
  let substance = substancesAt.get(place);
  if (!substance) {
    const { name, synonyms, formula: formulae, cas: casNumbers, group } = knownSubstancesRow(place);
    const names = [name, ...name.split(';').map((part) => part.trim()), ...synonyms];
    substancesAt.set(place, (substance = { name, names, synonyms, formulae, casNumbers, group }));
  }
  return substance;
}

let substances: readonly KnownSubstance[] | undefined;
/** Every known substance, in the order of the table. */
export function knownSubstances(): readonly KnownSubstance[] {
  substances ??= knownSubstancesTable().map((_, place) => knownSubstanceAt(place));
  return substances;
}

/** Substances by a key that each of them has, in the order of the table. */
function lookup(
  name: string,
  keysOf: (substance: KnownSubstance) => readonly string[],
): (key: string) => readonly KnownSubstance[] | undefined {
  const placesOf = preparedByKey<readonly number[]>(`known-substances/${name}`, () => {
    const grouped = new Map<string, number[]>();
    knownSubstances().forEach((substance, place) => {
      for (const key of new Set(keysOf(substance)))
        if (key !== '') grouped.set(key, [...(grouped.get(key) ?? []), place]);
    });
    return grouped;
  });
  return (key) => placesOf(key)?.map(knownSubstanceAt);
}

const byName = lookup('by-name', ({ names }) => names.map(nameKey));
const byPlainName = lookup('by-plain-name', ({ names }) => names.map(plainNameKey));
const byStatelessName = lookup('by-stateless-name', ({ names }) => names.map(statelessKey));
const byCas = lookup('by-cas', ({ casNumbers }) => casNumbers);

const hasOxidationState = (key: string): boolean => /\((?:i|ii|iii|iv|v|vi|vii)(?:,[iv]+)*\)/.test(key);
const tellsOxidationState = ({ names }: KnownSubstance): boolean =>
  names.some((name) => hasOxidationState(nameKey(name)));

/** Substances that a name may mean, and whether an oxidation state was left out or added to find them. */
export interface NameMatch {
  readonly substances: readonly KnownSubstance[];
  readonly exactly: boolean;
}

/**
 * What a name means among the known substances: by the name as it is, without words of water and form, or without its
 * oxidation state. A name that states one never finds a substance of another.
 * @example substancesNamed('Copper(II) sulphate').substances[0]?.formulae[0] // 'CuSO4'
 */
export function substancesNamed(name: string): NameMatch {
  const plain = plainNameKey(name);
  const found = byName(nameKey(name)) ?? byName(plain) ?? byPlainName(plain);
  if (found) return { substances: found, exactly: true };
  const stateless = byStatelessName(statelessKey(name)) ?? [];
  const fitting = hasOxidationState(plain) ? stateless.filter((one) => !tellsOxidationState(one)) : stateless;
  return { substances: fitting, exactly: false };
}

/**
 * Substances of a CAS number, its hydrates' included.
 * @example substancesOfCas('7664-93-9')[0]?.formulae[0] // 'H2SO4'
 */
export const substancesOfCas = (cas: string): readonly KnownSubstance[] => byCas(casPattern.exec(cas)?.[0] ?? '') ?? [];

/** Formula of the first of them that has one. */
export const formulaOf = (found: readonly KnownSubstance[]): string | undefined =>
  found.find(({ formulae, group }) => formulae.length > 0 && !group)?.formulae[0];
