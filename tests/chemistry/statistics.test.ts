// Statistics of replicates against printed tables and worked examples.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  grubbs,
  grubbsCritical,
  holm,
  incompleteBeta,
  sampleStatistics,
  singleAgainstSample,
  studentCritical,
  studentProbability,
  welch,
  welchOf,
} from '../../src/chemistry/index.js';
import { referenceRows } from '../reference/read.js';

const rows = referenceRows('chem/statistics.csv');
const of = (kind: string): Record<string, string>[] => rows.filter((row) => row.kind === kind);
/** Half a unit of the last digit printed. */
const printed = (value: string): number => 0.5 * 10 ** -(value.split('.')[1] ?? '').length * 1.0001;

describe('mean and standard deviation', () => {
  test('of a worked example', () =>
    // Source: Wikipedia, Standard deviation, "Basic examples"; 4.571 = 32 / 7; from memory.
    expect(sampleStatistics([2, 4, 4, 4, 5, 5, 7, 9])).toEqual({
      mean: 5,
      n: 8,
      standardDeviation: expect.closeTo(Math.sqrt(32 / 7), 12),
    }));
  test('of one value there is no deviation', () => expect(sampleStatistics([3]).standardDeviation).toBeNaN());
});

describe('Student’s t', () => {
  test.each(of('student t').map((row) => [row.id, Number(row.n_or_df), Number(row.alpha), row] as const))(
    '%s: critical value for %i degrees of freedom at %f',
    (_, degrees, alpha, row) => {
      expect(Math.abs(studentCritical(degrees, alpha) - Number(row.published))).toBeLessThan(printed(row.published!));
      expect(studentCritical(degrees, alpha)).toBeCloseTo(Number(row.computed), 5);
      expect(studentProbability(-Number(row.computed), degrees)).toBeCloseTo(alpha, 5);
    },
  );
  test('every row was run', () => expect(of('student t').length).toBe(66));
  test('with one degree of freedom it is Cauchy’s distribution, in closed form', () => {
    for (const t of [0.01, 0.5, 1, 3, 40])
      expect(studentProbability(t, 1)).toBeCloseTo(1 - (2 / Math.PI) * Math.atan(t), 12);
    // With two: 1 − t/√(2 + t²).
    for (const t of [0.01, 0.5, 1, 3, 40])
      expect(studentProbability(t, 2)).toBeCloseTo(1 - t / Math.sqrt(2 + t * t), 12);
  });
  test('the incomplete beta function in closed form, and mirrored', () => {
    // Source: NIST DLMF 8.17.5 for whole a, b: I_x(a, 1) = x^a, I_x(1, b) = 1 − (1 − x)^b; 8.17.4: I_x(a, b) = 1 −
    // I_{1−x}(b, a).
    for (const x of [0.001, 0.2, 0.5, 0.8, 0.999]) {
      expect(incompleteBeta(x, 3, 1)).toBeCloseTo(x ** 3, 13);
      expect(incompleteBeta(x, 1, 4)).toBeCloseTo(1 - (1 - x) ** 4, 13);
      expect(incompleteBeta(x, 2, 2)).toBeCloseTo(3 * x ** 2 - 2 * x ** 3, 13);
      expect(incompleteBeta(x, 7.5, 0.5)).toBeCloseTo(1 - incompleteBeta(1 - x, 0.5, 7.5), 13);
    }
    expect([
      incompleteBeta(0, 2, 3),
      incompleteBeta(1, 2, 3),
      incompleteBeta(-1, 2, 3),
      incompleteBeta(2, 2, 3),
    ]).toEqual([0, 1, 0, 1]);
  });
});

describe('Welch’s test', () => {
  const numbers = (text: string): number[] => text.trim().split(/\s+/).map(Number);
  test.each(of('welch').map((row) => [row.id, row] as const))('%s', (_, row) => {
    const [a, b] = row.data_or_givens!.replace(/[AB]:/g, '').split(';').map(numbers) as [number[], number[]];
    const said = /t (\S+); df (\S+); p (\S+); difference (\S+); 95 % CI (\S+) to (\S+)/.exec(row.computed!)!;
    const [t, degrees, p, difference, low, high] = said.slice(1).map(Number) as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    const found = welch(a, b)!;
    expect(found.t).toBeCloseTo(t, 4);
    expect(found.degreesOfFreedom).toBeCloseTo(degrees, 3);
    expect(found.p / p).toBeCloseTo(1, 4);
    expect(found.difference).toBeCloseTo(difference, 4);
    expect(found.interval.low).toBeCloseTo(low, 5);
    expect(found.interval.high).toBeCloseTo(high, 5);
  });
  test('every row was run', () => expect(of('welch').length).toBe(5));
  test('one value, or no scatter, is no test', () => {
    expect(welch([1], [1, 2])).toBeUndefined();
    expect(welch([1, 2], [])).toBeUndefined();
    expect(welch([1, 1], [2, 2])).toBeUndefined();
    expect(welch([1, 1], [2, 3])).toBeDefined();
  });
  test('Welch’s test on a published example', () => {
    // Source: Wikipedia, Welch's t-test, examples 1 to 3 (t = −2.46, ν = 25.0, p = 0.021; −1.57, 9.9, 0.149; −2.22,
    // 24.5, 0.036); from memory.
    const cases: [number[], number[], number, number, number][] = [
      [
        [27.5, 21.0, 19.0, 23.6, 17.0, 17.9, 16.9, 20.1, 21.9, 22.6, 23.1, 19.6, 19.0, 21.7, 21.4],
        [27.1, 22.0, 20.8, 23.4, 23.4, 23.5, 25.8, 22.0, 24.8, 20.2, 21.9, 22.1, 22.9, 20.5, 24.4],
        -2.46,
        25.0,
        0.021,
      ],
      [
        [17.2, 20.9, 22.6, 18.1, 21.7, 21.4, 23.5, 24.2, 14.7, 21.8],
        [
          21.5, 22.8, 21.0, 23.0, 21.6, 23.6, 22.5, 20.7, 23.4, 21.8, 20.7, 21.7, 21.5, 22.5, 23.6, 21.5, 22.5, 23.5,
          21.5, 21.8,
        ],
        -1.57,
        9.9,
        0.149,
      ],
      [
        [19.8, 20.4, 19.6, 17.8, 18.5, 18.9, 18.3, 18.9, 19.5, 22.0],
        [
          28.2, 26.6, 20.1, 23.3, 25.2, 22.1, 17.7, 27.6, 20.6, 13.7, 23.2, 17.5, 20.6, 18.0, 23.9, 21.6, 24.3, 20.4,
          24.0, 13.2,
        ],
        -2.22,
        24.5,
        0.036,
      ],
    ];
    for (const [a, b, t, degrees, p] of cases) {
      const found = welch(a, b)!;
      expect(found.t).toBeCloseTo(t, 2);
      expect(found.degreesOfFreedom).toBeCloseTo(degrees, 0);
      expect(found.p).toBeCloseTo(p, 2);
    }
  });
  test('one value has no scatter to test', () => expect(welch([1], [2, 3])).toBeUndefined());
});

describe('one value against a sample', () => {
  test('a value of a sample of two lies where geometry says', () => {
    // s = √2·d, t = (x − mean)/(s·√1.5), one degree of freedom: p = 1 − (2/π)·atan t. By hand.
    const found = singleAgainstSample(5, [0, 2])!;
    expect(found.t).toBeCloseTo(4 / (Math.SQRT2 * Math.sqrt(1.5)), 12);
    expect(found.degreesOfFreedom).toBe(1);
    expect(found.p).toBeCloseTo(1 - (2 / Math.PI) * Math.atan(found.t), 12);
  });
  test('it is Welch’s test, were the one value’s scatter that of the sample: Student’s test of n and 1', () => {
    // Source: the pooled two-sample t test with n2 = 1, of which it is the special case (Crawford & Howell 1998, from
    // memory).
    const sample = [71.2, 73.9, 70.4, 72.5, 74.1];
    const { mean, standardDeviation, n } = sampleStatistics(sample);
    const pooled = (66 - mean) / Math.sqrt(standardDeviation ** 2 * (1 / n + 1));
    expect(singleAgainstSample(66, sample)!.t).toBeCloseTo(pooled, 12);
    expect(singleAgainstSample(66, sample)!.p).toBeCloseTo(studentProbability(pooled, 4), 12);
  });
  test('against one value or none it is no test', () => {
    expect(singleAgainstSample(1, [2])).toBeUndefined();
    expect(singleAgainstSample(1, [2, 2])).toBeUndefined();
  });
});

describe('Grubbs’s test', () => {
  test.each(of('grubbs').map((row) => [row.id, Number(row.n_or_df), Number(row.alpha), row] as const))(
    '%s: critical value for n = %i at %f',
    (_, n, alpha, row) => {
      expect(grubbsCritical(n, alpha)).toBeCloseTo(Number(row.computed), 3);
      // Tables are rounded in more than one way: within one of the last digit printed, misprints aside.
      if (row.published && !row.note!.startsWith('PAGE ERRS'))
        expect(Math.abs(grubbsCritical(n, alpha) - Number(row.published))).toBeLessThan(2 * printed(row.published));
    },
  );
  test('every row was run', () => expect(of('grubbs').length).toBe(56));
  test('the outlier of a worked example', () => {
    // Source: NIST/SEMATECH e-Handbook 1.3.5.17.1, G = 2.4687 for 245.57 of eight values; from memory.
    const found = grubbs([199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57])!;
    expect([found.index, found.isOutlier, found.alpha]).toEqual([7, true, 0.05]);
    expect(found.statistic).toBeCloseTo(2.4687, 3);
    expect(found.critical).toBeCloseTo(2.1266, 4);
    expect(grubbs([1, 2, 3, 4, 5])!.isOutlier).toBe(false);
    expect(grubbs([-45, 2, 3, 4, 3, 4, 2])!.index).toBe(0);
  });
  test('two values, or no scatter, have no outlier', () => {
    expect(grubbs([1, 2])).toBeUndefined();
    expect(grubbs([2, 2, 2])).toBeUndefined();
    expect(grubbs([2, 2, 3])).toBeDefined();
  });
});

describe('Holm’s rule', () => {
  test.each(of('holm').map((row) => [row.id, row] as const))('%s', (_, row) => {
    const numbersIn = (text: string): number[] =>
      text
        .replace(/[^\d. ]/g, '')
        .trim()
        .split(/\s+/)
        .map(Number);
    const expected = numbersIn(row.computed!);
    holm(numbersIn(row.data_or_givens!)).forEach((p, index) => expect(p).toBeCloseTo(expected[index]!, 12));
  });
  test('every row was run', () => expect(of('holm').length).toBe(2));
  test('one test is not adjusted, and no probability passes 1', () => {
    expect(holm([0.03])).toEqual([0.03]);
    expect(holm([0.6, 0.9, 0.5])).toEqual([1, 1, 1]);
    expect(holm([])).toEqual([]);
  });
});

describe('for any values', () => {
  const values = fc.array(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), { maxLength: 8 });
  test('every test answers with a probability, or with nothing', () => {
    fc.assert(
      fc.property(values, values, (a, b) => {
        for (const p of [
          welch(a, b)?.p,
          singleAgainstSample(a[0] ?? 0, b)?.p,
          ...holm(a.map((x) => Math.abs(x) / 1e6)),
        ])
          if (p !== undefined) expect(p >= 0 && p <= 1).toBe(true);
        const found = grubbs(a);
        if (found) expect(found.index).toBeLessThan(a.length);
        const test = welch(a, b);
        if (test) expect(test.interval.low <= test.difference && test.difference <= test.interval.high).toBe(true);
      }),
    );
  });
  test('the confidence interval leaves 0 out exactly where p is below 0.05', () => {
    const close = fc.array(fc.double({ noNaN: true, min: 0, max: 10 }), { minLength: 2, maxLength: 6 });
    fc.assert(
      fc.property(close, close, (a, b) => {
        const test = welch(a, b);
        fc.pre(test !== undefined && Math.abs(test.p - 0.05) > 1e-6);
        const { low, high } = test!.interval;
        expect(low > 0 || high < 0).toBe(test!.p < 0.05);
      }),
    );
  });
});

describe('distances from a mean in place of values', () => {
  // Colours scatter in three directions, and are judged as if along one. By simulation, with a fixed seed.
  const uniform = (() => {
    let state = 12345;
    return () => {
      state = (1103515245 * state + 12345) % 2147483648;
      return (state + 1) / 2147483649;
    };
  })();
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  type Point = readonly [number, number, number];
  const three = (widths: Point) => {
    const points = [0, 1, 2].map(() => widths.map((width) => width * normal()));
    const mean = [0, 1, 2].map((at) => (points[0]![at]! + points[1]![at]! + points[2]![at]!) / 3);
    const squares = points.flatMap((point) => point.map((value, at) => (value - mean[at]!) ** 2));
    return { mean, standardDeviation: Math.sqrt(squares.reduce((sum, one) => sum + one, 0) / 2), n: 3 };
  };
  test.each<[string, Point]>([
    ['along a line', [1, 0, 0]],
    ['in a disc', [1, 1, 0]],
    ['in a ball', [1, 1, 1]],
  ])('find a difference by chance in no more than 5 of 100, where they lie %s', (_, widths) => {
    let found = 0;
    for (let trial = 0; trial < 2000; trial += 1) {
      const [a, b] = [three(widths), three(widths)];
      const distance = Math.hypot(...a.mean.map((value, at) => value - b.mean[at]!));
      if (welchOf(distance, a, b)!.p < 0.05) found += 1;
    }
    expect(found / 2000).toBeLessThan(0.055);
  });
});
