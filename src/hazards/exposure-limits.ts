// Published limits of exposure at work, by substance.
import { Decimal, exact } from '../chemistry/index.js';
import {
  exposureLimitsRow,
  exposureLimitsTable,
  type ExposureLimitsRow,
} from '../tables/compiled/hazards/exposure-limits.js';
import { exposureStandInsTable } from '../tables/compiled/hazards/exposure-stand-ins.js';
import { preparedByKey } from '../tables/prepared.js';

/**
 * `TWA` over a working day; `STEL` over a short time, mostly 15 minutes; `ceiling` at no moment; `IDLH` immediately
 * dangerous to life or health; `ERPG-1` to `-3` for an emergency of one hour; `reference` a value that is no limit.
 */
export type LimitKind = ExposureLimitsRow['kind'];

/** Limits on short stays: what a sudden gas is held against first. */
export const shortTermKinds: readonly LimitKind[] = ['STEL', 'ceiling'];

export interface ExposureLimit {
  readonly substance: string;
  readonly cas: string;
  readonly kind: LimitKind;
  /** The time over which it is counted: `8 h`, `15 min`; empty for a ceiling and an IDLH. */
  readonly averaging: string;
  /** Decimal as text. */
  readonly value: string;
  readonly unit: 'ppm' | 'mg/m3';
  /** `NIOSH`, `OSHA`, `ACGIH`, `EU (IOELV)`, `EU (binding)` … */
  readonly authority: string;
  /** As it is printed: `NIOSH REL TWA`, `IDLH`, `EU IOELV short-term` … */
  readonly name: string;
  readonly status: ExposureLimitsRow['status'];
  /** It counts this element only: `Mn`, `Cr(VI)`; empty where it counts the substance. */
  readonly asElement: string;
  readonly note: string;
  readonly basis: 'seen' | 'derived' | 'memory';
  readonly source: string;
  readonly url: string;
  /** The substance asked for has no work limit of its own, and this one stands in for it: why. */
  readonly standsIn?: string;
  /** Formula of the substance that stands in. */
  readonly standsInFormula?: string;
}

const limitOf = (row: ExposureLimitsRow): ExposureLimit => ({
  substance: row.substance,
  cas: row.cas ?? '',
  kind: row.kind,
  averaging: row.averaging,
  value: row.value,
  unit: row.unit,
  authority: row.authority,
  name: row.name,
  status: row.status,
  asElement: row.as_element,
  note: row.note,
  basis: row.basis,
  source: row.source_title,
  url: row.source_url,
});

/** What a limit may be asked for by. */
const keysOf = ({ cas, substance }: ExposureLimitsRow): ReadonlySet<string> =>
  new Set([...(cas === undefined ? [] : [cas]), substance.toLowerCase()]);

/** Places of rows by those keys. */
const placesOfLimits = preparedByKey<readonly number[]>('exposure-limits', () => {
  const places = new Map<string, number[]>();
  for (const [place, row] of exposureLimitsTable().entries())
    for (const key of keysOf(row)) places.set(key, [...(places.get(key) ?? []), place]);
  return places;
});

const matches = (row: { readonly substance: string; readonly cas?: string | undefined }, wanted: string): boolean =>
  wanted !== '' && (row.cas === wanted || row.substance.toLowerCase() === wanted);

const isWorkLimit = ({ kind }: ExposureLimit): boolean => ['TWA', 'STEL', 'ceiling', 'IDLH'].includes(kind);

/**
 * Limits printed for a substance, by CAS number or by the table's name; of a gas without one also those of what stands
 * in for it, which say so.
 * @example exposureLimits('7783-06-4')[2]?.kind // 'IDLH'
 */
export function exposureLimits(casOrName: string): readonly ExposureLimit[] {
  const wanted = casOrName.trim().toLowerCase();
  const own = (placesOfLimits(wanted) ?? []).map((place) => limitOf(exposureLimitsRow(place)));
  const standIns = exposureStandInsTable()
    .filter((row) => matches(row, wanted))
    .flatMap(({ limits_of: cas, formula, why }) =>
      exposureLimits(cas)
        .filter(isWorkLimit)
        .map((limit) => ({ ...limit, standsIn: why, standsInFormula: formula })),
    );
  return [...own, ...standIns];
}

/**
 * L/mol of an ideal gas at 25 °C and 101.325 kPa, by which limits are converted. Source: NIOSH Pocket Guide, preface.
 */
const molarVolume = exact('24.45');

/**
 * A limit in ppm, for a gas or vapour.
 * @param gramsPerMole molar mass of what the limit counts
 * @example limitInPpm({ value: '0.002', unit: 'mg/m3' }, '77.95') // 0.000627… : arsine
 */
export const limitInPpm = ({ value, unit }: Pick<ExposureLimit, 'value' | 'unit'>, gramsPerMole: string): Decimal =>
  unit === 'ppm' ? exact(value) : exact(value).times(molarVolume).div(gramsPerMole);

/**
 * The lowest of the limits of some kinds in one unit, superseded ones left out; undefined where there is none.
 * @example strictestLimit(exposureLimits('arsine'), ['TWA'], 'ppm')?.value // '0.005'
 */
export function strictestLimit(
  limits: readonly ExposureLimit[],
  kinds: readonly LimitKind[],
  unit: ExposureLimit['unit'],
): ExposureLimit | undefined {
  const counted = limits.filter(
    (limit) => limit.status !== 'superseded' && kinds.includes(limit.kind) && limit.unit === unit,
  );
  if (counted.length === 0) return undefined;
  return counted.reduce((lowest, limit) => (exact(limit.value).lt(lowest.value) ? limit : lowest));
}
