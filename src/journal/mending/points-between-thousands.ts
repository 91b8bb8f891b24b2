// Full stops that may stand between thousands: in an entry whose other numbers have a decimal comma, `1.000 mL` is a
// litre to most who write so, and a millilitre to the format.
import { parseQuantity } from '../../chemistry/quantity/index.js';
import type { Finding, Findings, Path } from '../../remarks/findings.js';
import type { LeftOut } from '../check.js';

const grouped = /(?<![\d.,])[1-9]\d{0,2}(?:\.\d{3})+(?![\d.,])/;

/** Whether a number was written with a decimal comma, as what was read of it tells. */
export const isDecimalComma = ({ rule, facts }: Finding): boolean =>
  rule === 'read-as' && /\d,\d/.test(facts.written) && !/\d,\d/.test(facts.meant);

/** What can be without its amount: nothing is then reckoned of it. */
const canBeWithout: ReadonlySet<string | number> = new Set(['amount', 'obtained', 'liquor']);

/**
 * Looks for such amounts in data of an entry, where its other numbers have a decimal comma: each is found, and left out
 * where it can be.
 * @param read what was found of the same data so far
 * @param data is changed
 */
export function findPointsBetweenThousands(data: object, read: readonly Finding[], findings: Findings): LeftOut[] {
  return read.some(isDecimalComma) ? amountsBelow(data, [], findings, workedOut(read)) : [];
}

/** Amounts that nobody wrote so, as they were worked out of two weighings. */
const workedOut = (findings: readonly Finding[]): ReadonlySet<string> =>
  new Set(
    findings.flatMap(({ rule, facts }) =>
      rule === 'read-as' && !facts.written.replaceAll(',', '.').includes(facts.meant) ? [facts.meant] : [],
    ),
  );

function amountsBelow(data: object, above: Path, findings: Findings, known: ReadonlySet<string>): LeftOut[] {
  return Object.entries(data).flatMap(([key, value]: [string, unknown]): LeftOut[] => {
    const path = [...above, Array.isArray(data) ? Number(key) : key];
    if (typeof value === 'object' && value !== null) return amountsBelow(value, path, findings, known);
    if (typeof value !== 'string' || known.has(value) || !grouped.test(value) || !parseQuantity(value).ok) return [];
    const whole = value.replace(grouped, (number) => number.replaceAll('.', ''));
    findings.add('points-or-thousands', path, { key, written: value, whole, actual: value, expected: [whole] });
    if (!canBeWithout.has(key)) return [];
    delete (data as Record<string, unknown>)[key];
    return [{ path, value }];
  });
}
