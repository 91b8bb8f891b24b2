// Quantities: every way of writing them, and what is wrong with the rest.
import { describe, expect, test } from 'vitest';
import { parseQuantity, type Quantity } from '../../src/chemistry/index.js';

const quantity = (text: string): Quantity => {
  const outcome = parseQuantity(text);
  if (!outcome.ok) throw new Error(`${text}: ${outcome.fault.message}`);
  return outcome.value;
};

describe('a quantity', () => {
  test.each([
    ['5.00 g', 'mass', '5', '0.01'],
    ['25mL', 'volume', '25', '1'],
    ['1 000 g', 'mass', '1000', '1'],
    ['250 mg', 'mass', '0.25', '1'],
    ['5.0 µL', 'volume', '0.005', '0.1'],
    ['5.0 μL', 'volume', '0.005', '0.1'],
    ['1.5 L', 'volume', '1500', '0.1'],
    ['0.050 mol', 'amount', '0.05', '0.001'],
    ['20 mmol', 'amount', '0.02', '1'],
    ['2.0 mol/L', 'concentration', '2', '0.1'],
    ['0.5M', 'concentration', '0.5', '0.1'],
    ['60 %', 'mass-percent', '60', '1'],
    ['30 wt%', 'mass-percent', '30', '1'],
    ['10 % w/v', 'mass-volume-percent', '10', '1'],
    ['1.049 g/mL', 'density', '1.049', '0.001'],
    ['30 g/L', 'density', '0.03', '1'],
    ['-5 °C', 'temperature', '-5', '1'],
    // Source: SI Brochure, 9th edition (2019), 2.3.1: t/°C = T/K − 273.15.
    ['300 K', 'temperature', '26.85', '1'],
    ['0 K', 'temperature', '-273.15', '1'],
    ['-5 to 5 °C', 'temperature', '0', '1'],
    ['3 h', 'time', '10800', '1'],
    ['25 m3', 'volume', '25000000', '1'],
    ['3 drops', 'drops', '3', '1'],
    ['1.2e-3 mol', 'amount', '0.0012', '0.0001'],
    ['2.2E2 g', 'mass', '220', '10'],
    ['4.2×10^-3 mol', 'amount', '0.0042', '0.0001'],
    ['4.2×10⁻³ mol', 'amount', '0.0042', '0.0001'],
    ['excess', 'excess', '1', '1'],
    ['62 g/100 g', 'ratio', '62', '1'],
  ])('%s is a %s of %s, written to %s', (text, dimension, base, resolution) => {
    const read = quantity(text);
    expect([read.dimension, read.base.toString(), read.resolution.toString()]).toEqual([dimension, base, resolution]);
  });
  test('ranges, bounds and tolerances', () => {
    expect(quantity('95-99 %')).toMatchObject({ dimension: 'mass-percent' });
    expect(quantity('95-99 %').tolerance!.toString()).toBe('2');
    expect(quantity('≥ 95 %').base.toString()).toBe('97.5');
    expect(quantity('5.00 ± 0.01 g').tolerance!.toString()).toBe('0.01');
    expect(quantity('(5.00 ± 0.01) g').tolerance!.toString()).toBe('0.01');
    expect(quantity('250 mg ± 0.002 g').tolerance!.toString()).toBe('0.002');
    expect(quantity('50.0 mL ± 0.5 %').tolerance!.toString()).toBe('0.25');
    expect(quantity('5.000(6) g').standardUncertainty!.toString()).toBe('0.006');
  });
  test('the ends of a range are in the base unit, its width without the zero of the scale', () => {
    const ends = ({ low, base, high, tolerance }: Quantity): (string | undefined)[] =>
      [low, base, high, tolerance].map((value) => value?.toString());
    expect(ends(quantity('290-310 K'))).toEqual(['16.85', '26.85', '36.85', '10']);
    expect(ends(quantity('0.2 L - 0.3 L'))).toEqual(['200', '250', '300', '50']);
    expect(ends(quantity('at least 95 %'))).toEqual(['95', '97.5', '100', '2.5']);
    expect(quantity('300 K ± 2 °C').tolerance!.toString()).toBe('2');
  });
  test('a price is money for an amount', () => {
    const price = quantity('4.20 EUR / 500 g');
    expect([price.dimension, price.currency, price.value.toString(), price.per!.base.toString()]).toEqual([
      'money-per-amount',
      'EUR',
      '4.2',
      '500',
    ]);
    expect(quantity('£3.50 per 100 mL').currency).toBe('GBP');
    expect(quantity('12 EUR/L').per!.base.toString()).toBe('1000');
  });
  test('a cure does not lead into another fault without telling it', () => {
    const read = parseQuantity('1,5og');
    expect(read.ok ? undefined : read.fault.cure).toContain("'og' is no unit known here");
  });
  test.each([
    ['1,250 g', '1.250', '1250', 'Write 1.250 g, with a full stop, or 1250 g, whichever is meant.'],
    ['12,500 mL', '12.500', '12500', 'Write 12.500 mL, with a full stop, or 12500 mL, whichever is meant.'],
  ])('%s: both readings are named, and that neither was taken', (text, decimal, thousands, cure) => {
    const read = parseQuantity(text);
    const fault = read.ok ? undefined : read.fault;
    expect(fault?.message).toContain(`is ${decimal} with a decimal comma and ${thousands} with thousands. Neither`);
    expect(fault?.cure).toBe(cure);
  });
  test.each(['1,5 g', '0,250 g', '1.250,5 g', '1,250.5 g'])(
    '%s can be read in one way, and no second is named',
    (text) => {
      const read = parseQuantity(text);
      expect(read.ok ? undefined : read.fault.message).not.toContain('two ways');
    },
  );
  test.each([
    ['5', 'unit-missing'],
    ['5 gg', 'unit'],
    ['10 G', 'unit'],
    ['1,5 g', 'comma'],
    ['g', 'number'],
    ['', 'number'],
    ['-5 g', 'number'],
    ['99-95 %', 'range'],
    ['≥ 5 g', 'range'],
    ['5.00 g ± 3 mL', 'tolerance'],
    ['3 EUR / 5 h', 'price'],
    [`${'9'.repeat(300)} g`, 'number'],
    [`${'9'.repeat(60)} g`, 'number'],
    [`5 - 0.${'3'.repeat(31)} g`, 'number'],
    [`0.${'3'.repeat(31)} - 5 g`, 'number'],
    [`${'9'.repeat(31)}(3) g`, 'number'],
    [`5.00(${'9'.repeat(31)}) g`, 'number'],
    [`${'9'.repeat(31)} EUR / 5 g`, 'price'],
    [`5 g ± ${'9'.repeat(31)} g`, 'tolerance'],
    ['-1 K', 'number'],
    ['-300 °C', 'number'],
    ['-3 to 5 g', 'number'],
    ['≥ 101 %', 'range'],
    ['< 5 %', 'range'],
  ])('%s is refused: %s', (text, code) => {
    const outcome = parseQuantity(text);
    expect(!outcome.ok && outcome.fault.code).toBe(code);
    expect(!outcome.ok && outcome.fault.cure).toBeTruthy();
  });
});
