// The tables of ions, oxidation states and molecules, by what they are looked up with.
import { ionsTable } from '../../tables/compiled/chemistry/ions/ions.js';
import { moleculesTable } from '../../tables/compiled/chemistry/ions/molecules.js';
import { oxidationStatesTable } from '../../tables/compiled/chemistry/ions/oxidation-states.js';
import { oxyanionFamiliesTable } from '../../tables/compiled/chemistry/ions/oxyanion-families.js';
import { prepared } from '../../tables/prepared.js';
import { composition, parseFormula } from '../formula/index.js';
import { compositionKey } from './model.js';

export interface ListedIon {
  readonly id: string;
  readonly name: string;
  readonly formula: string;
  readonly charge: number;
}

interface Tables {
  /** By the order-free name of their composition. */
  readonly anions: ReadonlyMap<string, readonly ListedIon[]>;
  readonly cations: ReadonlyMap<string, readonly ListedIon[]>;
  /** Charges of an element's ions, in the order in which they are tried. */
  readonly states: ReadonlyMap<string, readonly number[]>;
  readonly families: ReadonlyMap<string, { readonly state: number; readonly id: string }>;
  readonly molecules: ReadonlyMap<string, { readonly name: string; readonly ions: string }>;
}

type IonsByComposition = readonly (readonly [composition: string, ions: readonly ListedIon[]])[];

function ionsByComposition(): Record<'anions' | 'cations', IonsByComposition> {
  const anions = new Map<string, ListedIon[]>();
  const cations = new Map<string, ListedIon[]>();
  for (const { formula: written, charge, id, name } of ionsTable()) {
    const formula = parseFormula(written);
    if (!formula.ok) throw new Error(`ions.csv: ${written}`);
    const into = charge < 0 ? anions : cations;
    const key = compositionKey(composition(formula.value));
    into.set(key, [...(into.get(key) ?? []), { id, name, formula: written, charge }]);
  }
  return { anions: [...anions], cations: [...cations] };
}

const ions = prepared<ReturnType<typeof ionsByComposition>>('ions', ionsByComposition);
let tables: Tables | undefined;

export function ionTables(): Tables {
  tables ??= {
    anions: new Map(ions().anions),
    cations: new Map(ions().cations),
    states: new Map(oxidationStatesTable().map(({ symbol, states }) => [symbol, states])),
    families: new Map(oxyanionFamiliesTable().map(({ symbol, state, id }) => [symbol, { state, id }])),
    molecules: new Map(
      moleculesTable().flatMap(({ spellings, name, ions }) =>
        spellings.map((spelling) => [spelling, { name, ions }] as const),
      ),
    ),
  };
  return tables;
}
