// What the journal’s balance can do: its step, how far a reading may be off, and whether a vessel is weighed too.
import { exact, UncertaintyDecimal, type Decimal } from '../chemistry/index.js';
import { onceFor } from '../once.js';
import type { JournalSettings } from '../journal/schema.js';
import { quantityOf } from './parse-cache.js';

export interface Balance {
  /** Smallest step, g. */
  readonly step: Decimal;
  /** Half-width of the rectangle that stands for one weighing: rounding, repeatability and tare together, g. */
  readonly halfWidth: Decimal;
}

function grams(written: string | undefined): Decimal | undefined {
  const read = written === undefined ? undefined : quantityOf(written);
  return read?.ok && read.value.dimension === 'mass' ? read.value.base : undefined;
}

/**
 * The journal’s balance; undefined where it says nothing of it. A weighing with its tare weighed is the difference of
 * two readings: both are rounded, and both scatter.
 * Source: EURACHEM/CITAC Guide CG 4, 3rd ed. (2012), example A1, weighing by difference (from memory).
 */
export const balanceOf = onceFor(({ balance }: Pick<JournalSettings, 'balance'>): Balance | undefined => {
  const stated = typeof balance === 'string' ? { step: balance } : balance;
  const step = grams(stated?.step);
  if (!stated || !step) return undefined;
  const scatter = 'repeatability' in stated ? (grams(stated.repeatability)?.toNumber() ?? 0) : 0;
  const readings = 'tare' in stated && stated.tare === 'weighed' ? 2 : 1;
  if (scatter === 0 && readings === 1) return { step, halfWidth: step.div(2) };
  // a/√3 is the standard uncertainty of a rectangle of half-width a: the same way back.
  const rounding = step.toNumber() ** 2 / 12;
  const halfWidth = Math.sqrt(3 * readings * (rounding + scatter ** 2));
  return { step, halfWidth: exact(new UncertaintyDecimal(halfWidth).toFixed()) };
});
