// From measured values to figures: decimals as text for machines, rounded text for readers.
import {
  expandedSize,
  forMachines,
  roundedValue,
  showWithUnit,
  toSignificantDigits,
  withMinus,
  type UncertainDecimal,
} from '../chemistry/index.js';

/** A number to show: exact decimal text for machines, rounded text for readers. */
export interface Figure {
  /** Decimal as text, unrounded to the reckoning's precision: `4.4286`. */
  readonly value: string;
  /** Expanded uncertainty (k = 2), same unit. */
  readonly uncertainty?: string;
  readonly unit: string;
  /** For readers, rounded to its uncertainty, with unit: `4.43 ± 0.01 g`. */
  readonly text: string;
  /** Where it is known between bounds only, these; readers see them, and the uncertainty reaches to the farther one. */
  readonly within?: { readonly low: string; readonly high: string };
}

/**
 * Whether a yield lies above 100 % by more than its doubt: 102 ± 1 % does, and 100.2 ± 4 % is a good yield.
 * @param figure in percent, its uncertainty expanded
 */
export const liesAbove100 = ({ value, uncertainty = '0', within }: Figure): boolean =>
  Number(within?.low ?? Number(value) - Number(uncertainty)) > 100;

/** A figure with its expanded uncertainty (k = 2), in words that are known. */
export const figureInWords = (measured: UncertainDecimal, unit: string, text: string): Figure =>
  inWords(measured, expandedSize(measured), unit, text);

function inWords({ value: measured }: UncertainDecimal, expanded: number, unit: string, text: string): Figure {
  const value = forMachines(measured);
  return expanded === 0 ? { value, unit, text } : { value, uncertainty: toSignificantDigits(expanded, 3), unit, text };
}

/** A figure with its expanded uncertainty (k = 2). @example figure(yield, '%').text // '91.2 ± 0.4 %' */
export function figure(measured: UncertainDecimal, unit: string): Figure {
  const expanded = expandedSize(measured);
  return inWords(measured, expanded, unit, showWithUnit(measured, unit, expanded));
}

/** The same without its uncertainty in the words: a column of a table, where ± would crowd. */
export function bareFigure(
  measured: UncertainDecimal,
  unit: string,
  shownIn: { readonly unit: string; readonly factor: number } = { unit, factor: 1 },
): Figure {
  const expanded = expandedSize(measured);
  const { factor } = shownIn;
  const value = roundedValue(factor === 1 ? measured.value : measured.value.times(factor), expanded * factor);
  const space = shownIn.unit === '' ? '' : ' ';
  return inWords(measured, expanded, unit, `${withMinus(value)}${space}${shownIn.unit}`);
}
