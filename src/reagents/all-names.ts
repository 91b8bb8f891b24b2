// Everything that a substance is called: names, formulae and CAS numbers of all tables that mean the same dry compound.
import { knownSubstancesTable } from '../tables/compiled/reagents/known-substances.js';
import { namedMaterialsTable } from '../tables/compiled/reagents/named-materials.js';
import { soldAsTable } from '../tables/compiled/reagents/sold-as.js';
import { dryComposition } from './constituents.js';
import { formulaOf, substancesNamed } from './known-substances.js';
import { materialNamed } from './names.js';

export interface AllNames {
  readonly names: readonly string[];
  /** As tables write them; dry ones too. */
  readonly formulae: readonly string[];
  readonly casNumbers: readonly string[];
}

interface Gathered {
  /** The systematic name, where a table of substances has one. */
  systematic?: string;
  readonly names: Set<string>;
  readonly formulae: Set<string>;
  readonly casNumbers: Set<string>;
}

/** Longest name worth finding something by; what is longer is a description. */
const longestName = 48;

/** Natural stuffs of these groups have a formula for the rules alone: madder is no cochineal, though both have one. */
const standIns: ReadonlySet<string> = new Set(['organic_combustible', 'organic_salt', 'drying_oil', 'oil_or_wax']);

const plain = (name: string): string => name.replace(/\s*…\s*%/g, '').trim();

function gather(): ReadonlyMap<string, Gathered> {
  const all = new Map<string, Gathered>();
  const put = (formula: string, names: readonly string[], casNumbers: readonly string[] = []): void => {
    const composition = dryComposition(formula);
    if (composition === '') return;
    let one = all.get(composition);
    if (!one) all.set(composition, (one = { names: new Set(), formulae: new Set(), casNumbers: new Set() }));
    for (const name of names.map(plain)) if (name !== '' && name.length <= longestName) one.names.add(name);
    for (const cas of casNumbers) one.casNumbers.add(cas);
    one.formulae.add(formula);
  };
  for (const { name, also, formula, groups } of namedMaterialsTable())
    if (formula && !groups.some((group) => standIns.has(group))) put(formula, [name, ...also]);
  for (const { name, also, formula } of soldAsTable()) if (formula) put(formula, [name, ...also]);
  for (const { name, synonyms, formula: formulae, cas, group } of knownSubstancesTable()) {
    // An entry for several substances names none of them alone.
    if (group || formulae.length !== 1) continue;
    const own = [...name.split(';').map((part) => part.trim()), ...synonyms];
    put(formulae[0]!, own, cas);
    const gathered = all.get(dryComposition(formulae[0]!));
    if (gathered) gathered.systematic ??= plain(own[0]!);
  }
  return all;
}

let byComposition: ReadonlyMap<string, Gathered> | undefined;

const none: AllNames = { names: [], formulae: [], casNumbers: [] };

/**
 * What else a substance is called.
 * @param written its name and, where that is known, its formula; without a formula the name is looked up
 * @returns empty lists where nothing of the kind is in the tables
 * @example allNames({ name: 'sodium hydroxide' }).names.includes('caustic soda') // true
 */
export function allNames({ name, formula }: { readonly name: string; readonly formula?: string }): AllNames {
  const known = formula ?? materialNamed(name)?.formula ?? formulaOf(substancesNamed(name).substances);
  if (known === undefined || known === '') return none;
  byComposition ??= gather();
  const found = byComposition.get(dryComposition(known));
  if (!found) return { ...none, formulae: [known] };
  return {
    names: [...found.names],
    formulae: [...new Set([known, ...found.formulae])],
    casNumbers: [...found.casNumbers],
  };
}

/**
 * Names of the trade and the household, each with the systematic name of what it means.
 * @example otherwiseCalled().get('saltpetre') // 'potassium nitrate'
 */
export function otherwiseCalled(): ReadonlyMap<string, string> {
  byComposition ??= gather();
  const called = new Map<string, string>();
  for (const { systematic, names } of byComposition.values())
    if (systematic !== undefined) for (const name of names) if (name !== systematic) called.set(name, systematic);
  return called;
}
