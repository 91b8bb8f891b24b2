// Published limits of exposure at work, by substance.
import { exposureLimitsTable } from '../tables/compiled/hazards/exposure-limits.js';

export interface ExposureLimit {
  readonly substance: string;
  readonly cas: string;
  /** `NIOSH REL TWA`, `IDLH`, `EU IOELV STEL` … */
  readonly kind: string;
  readonly value: string;
  /** `ppm`, `mg/m3` */
  readonly unit: string;
  readonly note: string;
  readonly basis: 'source' | 'memory';
  readonly source: string;
  readonly url: string;
}

/**
 * Limits printed for a substance, by CAS number or by the table's name.
 * @example exposureLimits('7783-06-4')[2]?.kind // 'IDLH'
 */
export function exposureLimits(casOrName: string): readonly ExposureLimit[] {
  const wanted = casOrName.trim().toLowerCase();
  return exposureLimitsTable()
    .filter((row) => wanted !== '' && (row.cas === wanted || row.substance.toLowerCase() === wanted))
    .map((row) => ({
      substance: row.substance,
      cas: row.cas ?? '',
      kind: row.limit_type,
      value: row.value,
      unit: row.unit,
      note: row.note,
      basis: row.basis,
      source: row.source_title,
      url: row.source_url,
    }));
}
