// What a formula that stands for a natural or mixed stuff is to be called.
import { once } from '../../once.js';
import { roughNamesTable } from '../../tables/compiled/reagents/contents/rough-names.js';
import { dryComposition } from '../constituents.js';

const names = once(
  (): ReadonlyMap<string, string> => new Map(roughNamesTable().map((row) => [dryComposition(row.formula), row.name])),
);

/** @example roughNameOf('C6H10O5') // 'cellulose, starch or other plant matter' */
export const roughNameOf = (formula: string): string | undefined => names().get(dryComposition(formula));
