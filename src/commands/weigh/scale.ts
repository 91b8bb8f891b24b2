// What is said of a preparation that is made much larger than it was tried.
import type { Decimal } from '../../chemistry/index.js';

/** Above this factor a preparation with foreseen dangers is not a scaled one but a new one. */
const limit = 10;

/** The caution of a scaled preparation; none up to ten times. */
export const scaleCaution = (factor: Decimal | undefined): readonly string[] =>
  factor?.gt(limit)
    ? [
        `This is ${factor.toSignificantDigits(2).toFixed()} times as much. Heat, froth and gas grow faster ` +
          'than a bench ' +
          'scales: go up in steps, and foresee the dangers anew for each (masstone foresee).',
      ]
    : [];
