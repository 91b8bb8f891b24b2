// Quantities that were said rather than read off: `~9 mL`, `about an hour`, `half a litre`, `a few drops`.
import { good, type Outcome } from '../../outcome.js';
import { exact, type Decimal } from '../exact.js';
import { from, quantityOf, type Written } from './amount.js';
import { roughlyBefore, roughlyBehind, saidCount, type Count } from './count.js';
import type { Quantity } from './model.js';
import { unitOf } from './units.js';

/** How far off `about` may be, as a share. Common practice, no source. */
const tenth = exact('0.1');

const least = (a: Decimal, b: Decimal): Decimal => (a.lt(b) ? a : b);
const greatest = (a: Decimal, b: Decimal): Decimal => (a.gt(b) ? a : b);

/** `half a litre`: a count in words or fractions, and a unit. */
function ofCount(written: Written, { low, usual, high, length }: Count): Outcome<Quantity> {
  const rest = from(written, length);
  const unit = unitOf(rest.text, rest.column(0));
  if (!unit.ok) return unit;
  const width = usual.times(tenth);
  const ends = { low: least(low, usual.minus(width)), high: greatest(high, usual.plus(width)) };
  const read = quantityOf(written, unit.value, { value: usual, resolution: usual }, { ends });
  return read.ok ? good({ ...read.value, rough: true }) : read;
}

/** A quantity that was written with a number and is only roughly so: a tenth either way, or half of its last digit. */
function widened(quantity: Quantity): Quantity {
  if (quantity.tolerance || quantity.standardUncertainty) return { ...quantity, rough: true };
  const { value, base, resolution, dimension } = quantity;
  const inBase = value.isZero() || dimension === 'temperature' ? exact(1) : base.div(value);
  const width = greatest(base.abs().times(tenth), resolution.times(inBase).div(2));
  const most = base.plus(width);
  return {
    ...quantity,
    rough: true,
    low: base.minus(width),
    high: dimension === 'mass-percent' ? least(most, greatest(base, exact(100))) : most,
    tolerance: width,
  };
}

/**
 * Reads what is said to be only roughly so; undefined where the text does not say that.
 * @param exactly how a quantity is read that says nothing of the kind
 */
export function readRoughly(
  written: Written,
  exactly: (written: Written) => Outcome<Quantity>,
): Outcome<Quantity> | undefined {
  const before = roughlyBefore.exec(written.text)?.[0] ?? '';
  const behind = roughlyBehind.exec(written.text)?.[0] ?? '';
  const end = written.text.length - behind.length;
  const inner = { ...from(written, before.length), text: written.text.slice(before.length, end) };
  const count = saidCount(inner.text);
  if (count) return ofCount(inner, count);
  if (before === '' && behind === '') return undefined;
  const read = exactly(inner);
  return read.ok && read.value.dimension !== 'excess' ? good(widened(read.value)) : read;
}
