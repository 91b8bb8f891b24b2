// Uncertainty after the GUM, against published budgets; rounding to it.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  contributionsFrom,
  exact,
  expandedUncertainty,
  forMachines,
  inPlaces,
  minus,
  dividedBy,
  parseFormula,
  parseQuantity,
  plus,
  reading,
  roundToUncertainty,
  scaled,
  showWithUnit,
  standardUncertainty,
  sum,
  tenToThe,
  times,
  triangular,
  rectangular,
  withoutUncertainty,
  withUncertainty,
  type UncertainDecimal,
  type Quantity,
} from '../../src/chemistry/index.js';
import { nearestNumber } from '../../src/chemistry/exact.js';
import { takePortion } from '../../src/reagents/index.js';
import { referenceRows } from '../reference/read.js';

const rows = referenceRows('chem/uncertainty-cases.csv');
type Inputs = Readonly<Record<string, UncertainDecimal>>;
const thousand = withoutUncertainty(1000);
const quotient = (a: UncertainDecimal, b: UncertainDecimal): UncertainDecimal => dividedBy(a, b)!;

/** The models of the table, in the operations of this room. */
const models: Readonly<Record<string, (of: Inputs) => UncertainDecimal>> = {
  '1000*m*P/V': ({ m, P, V }) => quotient(times(times(thousand, m!), P!), V!),
  'Vn*fcal*ftemp*frep': ({ Vn, fcal, ftemp, frep }) => times(times(Vn!, fcal!), times(ftemp!, frep!)),
  '1000*rep*m*P/(M*V)': ({ rep, m, P, M, V }) => quotient(times(times(thousand, rep!), times(m!, P!)), times(M!, V!)),
  '8*C+5*H+4*O+K': ({ C, H, O, K }) => sum([scaled(C!, 8), scaled(H!, 5), scaled(O!, 4), K!]),
  '1000*rep*m*P*V2/(V1*M*Va)': ({ rep, m, P, V2, V1, M, Va }) =>
    quotient(times(times(times(thousand, rep!), times(m!, P!)), V2!), times(times(V1!, M!), Va!)),
  'a+b': ({ a, b }) => plus(a!, b!),
  'i*t': ({ i, t }) => times(i!, t!),
  '10**(-pH)': ({ pH }) => tenToThe(scaled(pH!, -1)),
  'p-q+r': ({ p, q, r }) => plus(minus(p!, q!), r!),
  'o*p/(q*r)': ({ o, p, q, r }) => quotient(times(o!, p!), times(q!, r!)),
  '(S-R)/k': ({ S, R, k }) => quotient(minus(S!, R!), k!),
  'm/V': ({ m, V }) => quotient(m!, V!),
  '3*K+Co+6*N+12*O': ({ K, Co, N, O }) => sum([scaled(K!, 3), Co!, scaled(N!, 6), scaled(O!, 12)]),
  'gross-tare': ({ gross, tare }) => minus(gross!, tare!),
  '100*m/(n*M)': ({ m, n, M }) => scaled(quotient(m!, times(n!, M!)), 100),
  x: ({ x }) => x!,
};

describe('combined uncertainty', () => {
  test.each(rows.map((row) => [`${row.id} ${row.title}`, row] as const))('%s', (_, row) => {
    const inputs = Object.fromEntries(
      row.inputs_value_and_standard_uncertainty!.split('; ').map((text) => {
        const [name, numbers] = text.split('=') as [string, string];
        const [value, u] = numbers.split('+-') as [string, string];
        return [name, withUncertainty(value, u, name)];
      }),
    );
    const result = models[row.model!]!(inputs);
    expect(Number(result.value) / Number(row.computed_value)).toBeCloseTo(1, 6);
    expect(Number(standardUncertainty(result)) / Number(row.computed_u_quadrature)).toBeCloseTo(1, 4);
    // The printed value and uncertainty, to the digits that were printed; where a source contradicts its own inputs,
    // the note says so.
    expect(Math.abs(Number(result.value) / Number(row.expected_value) - 1)).toBeLessThan(6e-3);
    if (row.expected_combined_standard_uncertainty && !/differs from quadrature/.test(row.note!)) {
      const printed = row.expected_combined_standard_uncertainty.replace(/E.*/, '').replace(/^0\.0*|\./g, '');
      expect(
        Math.abs(Number(standardUncertainty(result)) / Number(row.expected_combined_standard_uncertainty) - 1),
      ).toBeLessThan(printed.length === 1 ? 0.1 : 0.05);
    }
  });
  test('every row was run', () => expect(rows.length).toBe(17));

  test('half-widths of rectangle and triangle', () => {
    // Source: GUM 4.3.7 and 4.3.9.
    expect(rectangular('0.01')).toBeCloseTo(0.0057735, 7);
    expect(triangular('0.1')).toBeCloseTo(0.0408248, 7);
  });

  test('an input that enters twice is counted once', () => {
    const lead = withUncertainty('207.2', '0.635', 'Ar:Pb');
    expect(standardUncertainty(quotient(lead, lead)).toNumber()).toBe(0);
    expect(standardUncertainty(minus(scaled(lead, 2), lead)).toNumber()).toBeCloseTo(0.635, 6);
  });
});

const quantity = (text: string): Quantity => {
  const outcome = parseQuantity(text);
  if (!outcome.ok) throw new Error(outcome.fault.message);
  return outcome.value;
};
const u = (text: string, balance?: string): number =>
  standardUncertainty(reading(quantity(text), 'x', balance === undefined ? undefined : exact(balance))).toNumber();

describe('arithmetic of uncertain values', () => {
  const a = withUncertainty('6', '0.3', 'a');
  const b = withUncertainty('2', '0.1', 'b');
  test('a divisor of 0 has no quotient, however it came to 0', () => {
    expect(dividedBy(a, withoutUncertainty(0))).toBeUndefined();
    expect(dividedBy(a, minus(b, b))).toBeUndefined();
    expect(dividedBy(withoutUncertainty(0), b)!.value.isZero()).toBe(true);
  });
  test('the quotient of two very small values keeps their relative uncertainty', () => {
    // 5 % each, √2 together; the square of such a divisor is 0.
    const quotient = dividedBy(withUncertainty('6e-170', '3e-171', 'a'), withUncertainty('2e-170', '1e-171', 'b'))!;
    expect(quotient.value.toString()).toBe('3');
    expect(standardUncertainty(quotient).toNumber()).toBeCloseTo(3 * 0.05 * Math.SQRT2, 9);
  });
  test('one input’s part can be told from the rest', () => {
    const sumOfBoth = plus(a, b);
    expect(standardUncertainty(contributionsFrom(sumOfBoth, (input) => input === 'a')).toNumber()).toBeCloseTo(0.3, 9);
    expect(standardUncertainty(contributionsFrom(sumOfBoth, () => false)).toNumber()).toBe(0);
    expect(contributionsFrom(sumOfBoth, () => false).value.toString()).toBe('8');
  });
});

describe('a reading', () => {
  test('is uncertain by half its last digit unless something better is known', () => {
    expect(u('5.00 g')).toBeCloseTo(0.005 / Math.sqrt(3), 9);
    expect(u('5 g')).toBeCloseTo(0.5 / Math.sqrt(3), 9);
    expect(u('5.00 g ± 0.02 g')).toBeCloseTo(0.02 / Math.sqrt(3), 9);
    expect(u('5.00 g u = 0.006 g')).toBeCloseTo(0.006, 9);
    expect(u('5.000(6) g')).toBeCloseTo(0.006, 9);
    expect(u('5.000 g', '0.005')).toBeCloseTo(0.005 / Math.sqrt(3), 9);
    expect(u('5 g', '0.005')).toBeCloseTo(0.5 / Math.sqrt(3), 9);
    expect(u('250 mg')).toBeCloseTo(0.0005 / Math.sqrt(3), 9);
    expect(u('95-99 %')).toBeCloseTo(2 / Math.sqrt(3), 9);
    expect(u('7 drops')).toBe(0);
  });
  test('a purity carries its uncertainty into the moles', () => {
    const parsed = parseFormula('Zn');
    const zinc = takePortion({
      id: 'z',
      name: 'Zn',
      formula: parsed.ok ? parsed.value : undefined,
      amount: quantity('10.000 g'),
      purity: quantity('95-99 %'),
    });
    expect(Number(zinc.pure!.value)).toBeCloseTo(9.7, 9);
    // 10 g · 2 % / √3, with the reading's own 0.0003 g beside it.
    expect(standardUncertainty(zinc.pure!).toNumber()).toBeCloseTo(0.11547, 4);
  });
});

describe('rounding to the uncertainty', () => {
  test.each([
    ['4.42861', '0.0113', '4.429', '0.011'],
    ['4.42861', '0.0363', '4.43', '0.04'],
    ['4.42861', '0.0213', '4.429', '0.021'],
    ['4.42861', '0.0299', '4.43', '0.03'],
    ['4.42861', '0.0997', '4.43', '0.10'],
    ['91.234', '0.447', '91.2', '0.4'],
    ['0.0237375', '0.00096', '0.0237', '0.0010'],
    ['1234.5', '17', '1235', '17'],
    ['123456', '3400', '123000', '3000'],
    ['249.677', '0', '249.677', undefined],
  ])('%s with U = %s', (value, uncertainty, shownValue, shownUncertainty) => {
    expect(roundToUncertainty(exact(value), exact(uncertainty))).toEqual(
      shownUncertainty === undefined ? { value: shownValue } : { value: shownValue, uncertainty: shownUncertainty },
    );
  });
  test('in words', () => {
    expect(showWithUnit(withUncertainty('4.42861', '0.005', 'a'), 'g')).toBe('4.429 ± 0.010 g');
    expect(expandedUncertainty(withUncertainty('1', '0.1', 'a')).toNumber()).toBeCloseTo(0.2, 9);
  });
});

test('a decimal as an ordinary number is the one that its text is read as', () => {
  const digits = fc.stringMatching(/^-?\d{1,17}$/);
  fc.assert(
    fc.property(digits, fc.integer({ min: -40, max: 40 }), (whole, power) => {
      const value = exact(`${whole}e${power}`);
      expect(nearestNumber(value)).toBe(Number(`${whole}e${power}`));
    }),
    { numRuns: 2000 },
  );
  for (const text of ['0', '-0', '1e22', '1e23', '9999999', '10000000', '99999999999999', '0.1', '1e-22', 'Infinity'])
    expect(nearestNumber(exact(text)), text).toBe(Number(text));
  expect(nearestNumber(exact(Number.NaN))).toBeNaN();
});

// Held against decimal.js, which rounds by its own arithmetic: ROUND_HALF_UP, digits to 12 or to a place.
test('a figure is rounded as the library of decimals rounds it', () => {
  const digits = fc.stringMatching(/^-?\d{1,20}[059]{0,14}$/);
  fc.assert(
    fc.property(digits, fc.integer({ min: -30, max: 20 }), fc.integer({ min: 1, max: 9 }), (whole, power, places) => {
      const value = exact(`${whole}e${power}`);
      expect(forMachines(value)).toBe(value.toSignificantDigits(12).toFixed());
      expect(inPlaces(value, places)).toBe(value.toFixed(places));
      expect(roundToUncertainty(value, 0).value).toBe(value.toSignificantDigits(6).toFixed());
    }),
    { numRuns: 2000 },
  );
  for (const text of ['0', '-0', '-0.004', '9.995', '0.0049999', '99999999.99995', '-1e30', 'Infinity'])
    expect(inPlaces(exact(text), 2), text).toBe(exact(text).toFixed(2));
});
