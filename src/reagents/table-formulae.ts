// Every formula that stands in a table, for what is prepared of each.
import { bulkDensitiesTable } from '../tables/compiled/reagents/bulk-densities.js';
import { classWordsTable } from '../tables/compiled/reagents/contents/class-words.js';
import { productsTable } from '../tables/compiled/reagents/contents/products.js';
import { densityTable } from '../tables/compiled/reagents/density.js';
import { knownSubstancesTable } from '../tables/compiled/reagents/known-substances.js';
import { namedMaterialsTable } from '../tables/compiled/reagents/named-materials.js';
import { soldAsTable } from '../tables/compiled/reagents/sold-as.js';

const more: (() => readonly string[])[] = [];

/** Names formulae that stand in tables of another room, and are looked up by their composition there. */
export const alsoInTables = (formulae: () => readonly string[]): void => void more.push(formulae);

/** Every formula of what this room knows by name, as it is written there. */
export const namedFormulae = (): readonly string[] => [
  ...namedMaterialsTable().map(({ formula }) => formula),
  ...soldAsTable().flatMap(({ formula }) => formula ?? []),
  ...knownSubstancesTable().flatMap(({ formula }) => formula),
  ...productsTable().map(({ formula }) => formula),
  ...classWordsTable().flatMap(({ formulas }) => formulas),
  ...densityTable().map(({ formula }) => formula),
  ...bulkDensitiesTable().flatMap(({ formulae }) => formulae),
];

/** Every formula of the tables, as it is written there, once. */
export const tableFormulae = (): readonly string[] => [
  ...new Set([...namedFormulae(), ...more.flatMap((formulae) => formulae())]),
];
