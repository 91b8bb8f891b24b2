// How many protons one formula unit gives as an acid or takes as a base.
import { onceFor } from '../../once.js';
import { acidBaseRow, acidBaseTable } from '../../tables/compiled/chemistry/ions/acid-base.js';
import { preparedByKey } from '../../tables/prepared.js';
import { exact, zero, type Decimal } from '../exact.js';
import { parseFormula, type Formula } from '../formula/index.js';
import { ionsOf } from './dissociation.js';
import { speciesKey, withoutWater } from './supply.js';

export interface AcidBase {
  readonly kind: 'acid' | 'base';
  /** Protons that one formula unit gives or takes in all. */
  readonly equivalents: Decimal;
  /** In excess it sets the pH by itself. */
  readonly strong: boolean;
}

type Row = ReturnType<typeof acidBaseTable>[number];

/** Places of rows of substances, by composition. */
const placeOfSubstance = preparedByKey<number>('acids-and-bases', () =>
  acidBaseTable().flatMap(({ species }, place) => {
    const read = /^[A-Z]/.test(species) ? parseFormula(species) : undefined;
    return read?.ok ? [[speciesKey(read.value), place] as const] : [];
  }),
);

/** Protons up to the end that an indicator shows; all of them where none is named or the row knows another. */
const protonsOf = ({ equivalents, indicator, at_indicator: atIndicator }: Row, named: string | undefined): number =>
  atIndicator !== undefined && named?.toLowerCase() === indicator ? atIndicator : equivalents;

/**
 * What a substance is against acid or alkali, by its formula: its protons as an acid, or those that it takes as a base;
 * undefined where it is neither, or nothing is known of it.
 * @param indicator what shows the end of a titration: `phenolphthalein`
 * @example acidBaseOf('Na2CO3')?.equivalents.toNumber() // 2
 */
export function acidBaseOf(written: string | Formula, indicator?: string): AcidBase | undefined {
  if (typeof written !== 'string') return indicator === undefined ? byFormulaAlone(written) : tell(written, indicator);
  const read = parseFormula(written);
  return read.ok ? acidBaseOf(read.value, indicator) : undefined;
}

const byFormulaAlone = onceFor((formula: Formula) => tell(formula, undefined));

function tell(formula: Formula, indicator: string | undefined): AcidBase | undefined {
  const dry = withoutWater(formula) ?? formula;
  const place = placeOfSubstance(speciesKey(dry));
  if (place === undefined) return byIons(dry, indicator);
  const listed = acidBaseRow(place);
  return asAcidBase(listed, exact(protonsOf(listed, indicator)));
}

const asAcidBase = ({ kind, strong }: Row, equivalents: Decimal): AcidBase | undefined =>
  equivalents.isZero() ? undefined : { kind, equivalents, strong };

function byIons(formula: Formula, indicator: string | undefined): AcidBase | undefined {
  const ions = ionsOf(formula);
  if (!ions.ok) return undefined;
  const { kind, ions: all } = ions.value;
  if (kind === 'acid') {
    const protons = all.filter(({ id }) => id === 'hydrogen').reduce((total, { count }) => total.plus(count), zero);
    return protons.gt(0) ? { kind: 'acid', equivalents: protons, strong: false } : undefined;
  }
  const rows = acidBaseTable();
  for (const side of ['acid', 'base'] as const) {
    const found = all.flatMap(({ id, count }) => {
      const row = rows.find(({ species, kind: of }) => species === id && of === side);
      return row ? [{ row, protons: count.times(protonsOf(row, indicator)) }] : [];
    });
    const [first] = found;
    const total = found.reduce((sum, { protons }) => sum.plus(protons), zero);
    if (first && total.gt(0)) return { kind: side, equivalents: total, strong: found.some(({ row }) => row.strong) };
  }
  return undefined;
}
