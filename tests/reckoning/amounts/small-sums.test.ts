// Small sums keep two digits: one gram of soda for 0.0056 EUR is not one for 0.01.
import { expect, test } from 'vitest';
import { exact } from '../../../src/chemistry/index.js';
import { moneyFigure } from '../../../src/reckoning/amounts/cost.js';

// Own arithmetic: 3.50 EUR a kilogram, 50 g of it for 31.2 g: 0.175 / 31.2.
test.each([
  ['0.00560897', '0.0056 EUR'],
  ['0.0999', '0.10 EUR'],
  ['0.175', '0.18 EUR'],
  ['12.3', '12.30 EUR'],
  ['0', '0.00 EUR'],
])('%s is told as %s', (value, text) => expect(moneyFigure({ value: exact(value), currency: 'EUR' }).text).toBe(text));
