// What every way of weighing answers: an answer in both forms, or a fault with the text that it is about.
import { expandedUncertainty, type Decimal, type UncertainDecimal } from '../../chemistry/index.js';
import type { Fault, Outcome } from '../../outcome.js';

/** The answer as `--json` prints it, and as a maker reads it. */
export interface Answer {
  readonly json: Readonly<Record<string, unknown>>;
  readonly text: string;
  /** Remarks on the entry, for stderr. */
  readonly aside?: string;
}

/** A fault, with the words of the call or of the journal that it is about. */
export interface WeighFault extends Fault {
  readonly about: string;
}

export type Weighed<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly fault: WeighFault };

export const refuse = (fault: Fault, about: string): Weighed<never> => ({ ok: false, fault: { ...fault, about } });

/** An outcome, with what it is about where it is a fault. */
export const about = <T>(outcome: Outcome<T>, words: string): Weighed<T> =>
  outcome.ok ? outcome : refuse(outcome.fault, words);

export interface JsonQuantity {
  readonly value: string;
  readonly unit: string;
  readonly expandedUncertainty?: string;
}

export const decimal = (value: Decimal): string => value.toSignificantDigits(12).toFixed();
/** A value with its expanded uncertainty (k = 2). */
export function jsonOf(measured: UncertainDecimal, unit: string): JsonQuantity {
  const uncertainty = expandedUncertainty(measured);
  return {
    value: decimal(measured.value),
    unit,
    ...(!uncertainty.isZero() && { expandedUncertainty: uncertainty.toSignificantDigits(3).toFixed() }),
  };
}
