// Substances that are published under a name, a formula and a CAS number: the one table of those, which hazards read
// too.
import { knownSubstancesTable } from '../tables/compiled/reagents/known-substances.js';
import { prepared } from '../tables/prepared.js';
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

let substances: readonly KnownSubstance[] | undefined;
/** Every known substance, in the order of the table. */
export function knownSubstances(): readonly KnownSubstance[] {
  substances ??= knownSubstancesTable().map(
    ({ name, synonyms, formula: formulae, cas: casNumbers, group }): KnownSubstance => ({
      name,
      names: [name, ...name.split(';').map((part) => part.trim()), ...synonyms],
      synonyms,
      formulae,
      casNumbers,
      group,
    }),
  );
  return substances;
}

type Lookup = ReadonlyMap<string, readonly KnownSubstance[]>;
interface Index {
  readonly byName: Lookup;
  readonly byPlainName: Lookup;
  readonly byStatelessName: Lookup;
  readonly byCas: Lookup;
}

/** Keys with the places of their substances in the table. */
type LookupData = readonly (readonly [key: string, places: readonly number[]])[];

function groupBy(keysOf: (substance: KnownSubstance) => readonly string[]): LookupData {
  const grouped = new Map<string, number[]>();
  knownSubstances().forEach((substance, place) => {
    for (const key of new Set(keysOf(substance)))
      if (key !== '') grouped.set(key, [...(grouped.get(key) ?? []), place]);
  });
  return [...grouped];
}

const indexData = prepared<Readonly<Record<keyof Index, LookupData>>>('known-substances', () => ({
  byName: groupBy(({ names }) => names.map(nameKey)),
  byPlainName: groupBy(({ names }) => names.map(plainNameKey)),
  byStatelessName: groupBy(({ names }) => names.map(statelessKey)),
  byCas: groupBy(({ casNumbers }) => casNumbers),
}));

const lookup = (data: LookupData): Lookup =>
  new Map(data.map(([key, places]) => [key, places.map((place) => knownSubstances()[place]!)]));

let built: Index | undefined;
function index(): Index {
  if (built) return built;
  const { byName, byPlainName, byStatelessName, byCas } = indexData();
  built = {
    byName: lookup(byName),
    byPlainName: lookup(byPlainName),
    byStatelessName: lookup(byStatelessName),
    byCas: lookup(byCas),
  };
  return built;
}

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
  const { byName, byPlainName, byStatelessName } = index();
  const plain = plainNameKey(name);
  const found = byName.get(nameKey(name)) ?? byName.get(plain) ?? byPlainName.get(plain);
  if (found) return { substances: found, exactly: true };
  const stateless = byStatelessName.get(statelessKey(name)) ?? [];
  const fitting = hasOxidationState(plain) ? stateless.filter((one) => !tellsOxidationState(one)) : stateless;
  return { substances: fitting, exactly: false };
}

/**
 * Substances of a CAS number, its hydrates' included.
 * @example substancesOfCas('7664-93-9')[0]?.formulae[0] // 'H2SO4'
 */
export const substancesOfCas = (cas: string): readonly KnownSubstance[] =>
  index().byCas.get(casPattern.exec(cas)?.[0] ?? '') ?? [];

/** Formula of the first of them that has one. */
export const formulaOf = (found: readonly KnownSubstance[]): string | undefined =>
  found.find(({ formulae, group }) => formulae.length > 0 && !group)?.formulae[0];
