// What heat leaves of products: the table, by their atoms.
import type { Formula } from '../../chemistry/index.js';
import {
  ignitionResiduesRow,
  ignitionResiduesTable,
} from '../../tables/compiled/reckoning/treatment/ignition-residues.js';
import { preparedByKey } from '../../tables/prepared.js';
import { formulaOf } from '../parse-cache.js';
import { atomsOf } from './drying.js';

const placeOfResidue = preparedByKey<number>('ignition-residues', () =>
  ignitionResiduesTable().flatMap((row, place) => {
    const formula = formulaOf(row.formula);
    return formula.ok ? [[atomsOf(formula.value), place] as const] : [];
  }),
);

/** Up to this heat, °C, anything is taken to lose only water that it held; practice of drying ovens, no source. */
export const ovenDry = 110;

/** What is known of a formula, in any spelling, in heat; undefined where nothing is. */
export function residueRow(formula: Formula): ReturnType<typeof ignitionResiduesRow> | undefined {
  const place = placeOfResidue(atomsOf(formula));
  return place === undefined ? undefined : ignitionResiduesRow(place);
}
