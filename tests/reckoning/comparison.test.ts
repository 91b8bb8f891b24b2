// Whether samples differ: single ones by weighing alone, repeats by their scatter, one against repeats by the t test of
// a single case. Closed form of the two-sided probability with two degrees of freedom: p = 1 − t/√(2 + t²). Source: W.
// S. Gosset's distribution integrated by hand; the same is checked against printed tables in
// tests/chemistry/statistics.test.ts.
import { describe, expect, test } from 'vitest';
import { exact, type UncertainDecimal } from '../../src/chemistry/index.js';
import { compare, type Result } from '../../src/reckoning/comparison.js';
import { referenceRows } from '../reference/read.js';

/** A value with the standard uncertainties that its inputs contribute. */
const value = (text: string, contributions: Readonly<Record<string, number>> = {}): UncertainDecimal => ({
  value: exact(text),
  approximateValue: Number(text),
  contributions: new Map(Object.entries(contributions)),
});
/** A yield whose inputs, but for the purity of a reagent, are readings of the balance. */
const yielded = (sample: string, percent: string, contributions: Readonly<Record<string, number>> = {}): Result => ({
  sample,
  percentYield: value(percent, contributions),
  weighings: new Set(Object.keys(contributions).filter((input) => input !== 'purity')),
});
const unweighed: ReadonlySet<string> = new Set();
/** Repeats of one preparation, the first of which the others name. */
const repeats = (first: string, percents: readonly number[]): Result[] =>
  percents.map((percent, index) => ({
    sample: index === 0 ? first : `${first}${index + 1}`,
    ...(index > 0 && { replicateOf: first }),
    percentYield: value(String(percent)),
    weighings: unweighed,
  }));
const pairsOf = (results: readonly Result[]): string[] =>
  compare(results).map(({ a, b }) => `${a.samples.join('+')} ${b.samples.join('+')}`);

describe('single samples', () => {
  // GUM 5.1.2 and 6.2: u = √(0.3² + 0.4²) = 0.5, U = 2u = 1.0; by hand.
  const a = yielded('A', '90.0', { 'reading:A obtained': 0.3, purity: 5 });
  const b = (percent: string): Result => yielded('B', percent, { 'reading:B obtained': 0.4, purity: 2 });

  test('differ where they are further apart than the expanded uncertainty of weighing', () => {
    const [found] = compare([a, b('91.1')]);
    expect(found).toMatchObject({
      a: { samples: ['A'], mean: '90.0 %', n: 1 },
      b: { samples: ['B'], mean: '91.1 %', n: 1 },
      measure: 'percent yield',
      basis: 'weighing',
      differs: true,
      difference: { value: '-1.1', uncertainty: '1', unit: '%' },
    });
    expect(found!.a).not.toHaveProperty('deviation');
    expect(found!.verdict).toMatch(/^Sample B gave 1\.1 ± 1\.0 percentage points more than sample A, .*weighing/);
    expect(found!.leavesOut).toMatch(/single samples cannot tell, repeats could/);
  });
  test('are named the other way round where the first gave more', () => {
    const [found] = compare([b('91.1'), a]);
    expect(found!.verdict).toMatch(/^Sample B gave 1\.1 ± 1\.0 percentage points more than sample A/);
    expect(found!.difference.value).toBe('1.1');
  });
  test('cannot be told apart at just that distance, nor below', () => {
    for (const percent of ['91.0', '89.0', '90.4']) {
      const [found] = compare([a, b(percent)]);
      expect(found!.differs).toBe(false);
      expect(found!.verdict).toMatch(/^The yield of samples A and B cannot be told apart by weighing: /);
    }
    expect(compare([a, b('90.4')])[0]!.verdict).toContain('they are 0.4 ± 1.0 percentage points apart');
  });
  test('what both share does not set them apart', () => {
    const shared = { 'reading:soda': 3 };
    const [found] = compare([yielded('A', '90', shared), yielded('B', '91', shared)]);
    expect(found).toMatchObject({ differs: true, difference: { value: '-1' } });
    expect(found!.difference).not.toHaveProperty('uncertainty');
    expect(found!.verdict).toContain('gave 1 percentage points more');
  });
  test('are compared by mass, in grams to a milligram, where there are no two yields', () => {
    const mass = (sample: string, grams: string): Result => ({
      sample,
      obtained: value(grams, { [`reading:${sample}`]: 0.003 }),
      weighings: new Set([`reading:${sample}`]),
    });
    const [found] = compare([{ ...mass('A', '1.98'), percentYield: value('90') }, mass('B', '1.95')]);
    expect(found).toMatchObject({
      measure: 'mass obtained',
      a: { mean: '1.980 g' },
      b: { mean: '1.950 g' },
      difference: { value: '0.03', unit: 'g' },
      differs: true,
    });
    expect(found!.verdict).toMatch(/^Sample A gave 0\.0300 ± 0\.0085 g more than sample B/);
    expect(compare([mass('A', '1.980'), mass('B', '1.979')])[0]!.verdict).toMatch(
      /^The mass of samples A and B cannot/,
    );
  });
  test('a yield decides where two have one, and who has none is left out', () => {
    const results = [
      yielded('A', '90'),
      { sample: 'B', obtained: value('2'), weighings: unweighed },
      yielded('C', '95'),
    ];
    expect(compare(results).map(({ measure }) => measure)).toEqual(['percent yield']);
    expect(pairsOf(results)).toEqual(['A C']);
    expect(compare([yielded('A', '90')])).toEqual([]);
    expect(compare([])).toEqual([]);
  });
});

describe('who is compared with whom', () => {
  const of = (names: string): Result[] => [...names].map((name, index) => yielded(name, String(80 + index)));
  test('all pairs of up to four preparations', () =>
    expect(pairsOf(of('ABCD'))).toEqual(['A B', 'A C', 'A D', 'B C', 'B D', 'C D']));
  test('each with the first beyond that', () => expect(pairsOf(of('ABCDE'))).toEqual(['A B', 'A C', 'A D', 'A E']));
  test('repeats count as one preparation, whatever the order and however they are chained', () => {
    const results: Result[] = [
      { ...yielded('C', '91'), replicateOf: 'B' },
      yielded('A', '90'),
      { ...yielded('B', '92'), replicateOf: 'A' },
      yielded('D', '95'),
      { ...yielded('E', '95'), replicateOf: 'D' },
    ];
    expect(pairsOf(results)).toEqual(['C+A+B D+E']);
  });
  test('a repeat of a sample without a result stands for itself', () =>
    expect(pairsOf([{ ...yielded('B', '92'), replicateOf: 'A' }, yielded('C', '95')])).toEqual(['B C']));
  test('samples that name each other as their originals are still compared', () => {
    const circle: Result[] = [
      { ...yielded('A', '90'), replicateOf: 'B' },
      { ...yielded('B', '92'), replicateOf: 'A' },
      { ...yielded('C', '95'), replicateOf: 'C' },
    ];
    expect(
      compare(circle)
        .flatMap(({ a, b }) => [...a.samples, ...b.samples])
        .sort(),
    ).toContain('C');
  });
});

describe('repeats', () => {
  // Two each with s² = 2: u = √(2/2 + 2/2) = √2, ν = 2² / (1 + 1) = 2; t = −6.2/√2 = −4.384, p = 0.0483; by hand.
  test('differ where Welch’s test gives p below 0.05', () => {
    const [found] = compare([...repeats('A', [90, 92]), ...repeats('B', [96.2, 98.2])]);
    expect(found).toMatchObject({
      basis: 'replicates',
      a: { samples: ['A', 'A2'], mean: '91.0 %', deviation: '1.41', n: 2 },
      b: { samples: ['B', 'B2'], mean: '97.2 %', deviation: '1.41', n: 2 },
      difference: { value: '-6.2', unit: '%', text: '−6.2 percentage points' },
      differs: true,
      t: '-4.384',
      degreesOfFreedom: '2.00',
      p: '0.0483',
    });
    expect(found!.verdict).toMatch(
      /^The yield differs between the preparations \(A and A2: mean 91\.0 %, s 1\.41, n 2; B/,
    );
    expect(found!.verdict).toContain('t = −4.38, 2.0 degrees of freedom, p = 0.048');
    expect(found!.leavesOut).toMatch(/^Errors that all repeats share/);
    expect(found!.leavesOut).not.toContain('made only once');
  });
  // t = −6/√2 = −4.243, p = 1 − 4.243/√20 = 0.0513; by hand.
  test('show no difference where p is above, which is not called sameness', () => {
    const [found] = compare([...repeats('A', [90, 92]), ...repeats('B', [96, 98])]);
    expect(found).toMatchObject({ differs: false, t: '-4.243', p: '0.0513' });
    expect(found!.verdict).toMatch(
      /^No difference in yield is shown .*p = 0\.051\); with so few repeats a small one could/,
    );
  });
  test('a probability is said with as many digits as it has, and a very small one as small', () => {
    const p = (distance: number): string =>
      /p [=<] [\d.]+/.exec(
        compare([...repeats('A', [90, 92]), ...repeats('B', [90 + distance, 92 + distance])])[0]!.verdict,
      )![0];
    // 1 − t/√(2 + t²) with t = d/√2: d = 2 gives 0.2929 (three digits would be too many), d = 60 gives 0.00055.
    expect([p(2), p(60)]).toEqual(['p = 0.29', 'p < 0.001']);
    // Between: d = 4 gives 0.1056, d = 4.2 gives 0.0971.
    expect([p(4), p(4.2)]).toEqual(['p = 0.11', 'p = 0.097']);
  });
  test.each(
    referenceRows('chem/statistics.csv')
      .filter(({ kind }) => kind === 'welch')
      .map((row) => [row.id, row] as const),
  )('%s: as in the worked example', (_, row) => {
    const [x, y] = row
      .data_or_givens!.replace(/[AB]:/g, '')
      .split(';')
      .map((text) => text.trim().split(/\s+/).map(Number)) as [number[], number[]];
    const [, t, degrees, p, difference] = /t (\S+); df (\S+); p (\S+); difference (\S+);/
      .exec(row.computed!)!
      .map(Number);
    const [found] = compare([...repeats('A', x), ...repeats('B', y)]);
    expect(Number(found!.t)).toBeCloseTo(t!, 2);
    expect(Number(found!.degreesOfFreedom)).toBeCloseTo(degrees!, 1);
    expect(Number(found!.p) / p!).toBeCloseTo(1, 2);
    expect(Number(found!.difference.value)).toBeCloseTo(difference!, 4);
    expect(found!.differs).toBe(p! < 0.05);
  });
  test('without any scatter there is no test, and that is said', () => {
    const [found] = compare([...repeats('A', [90, 90]), ...repeats('B', [96, 96])]);
    expect(found).toMatchObject({ basis: 'replicates', differs: false, difference: { value: '-6' } });
    expect(found).not.toHaveProperty('p');
    expect(found!.verdict).toMatch(/^The repeats do not scatter at all .*no test of their difference/);
    expect(found!.leavesOut).toMatch(/^Errors that all repeats share/);
  });
  test('of masses are said in grams', () => {
    const mass = (sample: string, grams: number, replicateOf?: string): Result => ({
      sample,
      obtained: value(String(grams)),
      weighings: unweighed,
      ...(replicateOf !== undefined && { replicateOf }),
    });
    const [found] = compare([mass('A', 1.9), mass('B', 1.92, 'A'), mass('C', 1.962), mass('D', 1.982, 'C')]);
    expect(found).toMatchObject({
      a: { mean: '1.910 g', deviation: '0.0141' },
      difference: { value: '-0.062', unit: 'g', text: '−0.062 g' },
      t: '-4.384',
    });
    expect(found!.verdict).toMatch(/^The mass differs between the preparations/);
  });
});

describe('one sample against repeats', () => {
  // Mean 92, s 2, n 3: t = (x − 92)/(2·√(4/3)), two degrees of freedom; 102: t = 4.330, p = 0.0494; 99: 3.031,
  // 0.0938; by hand.
  const several = repeats('R', [90, 92, 94]);
  test('lies outside what they lead one to expect', () => {
    const [found] = compare([yielded('X', '102'), ...several]);
    expect(found).toMatchObject({
      basis: 'single against replicates',
      a: { samples: ['X'], n: 1 },
      b: { samples: ['R', 'R2', 'R3'], mean: '92.0 %', deviation: '2.00', n: 3 },
      difference: { value: '10', text: '10.0 percentage points' },
      differs: true,
      t: '4.330',
      degreesOfFreedom: '2',
      p: '0.0494',
    });
    expect(found!.verdict).toMatch(
      /^Sample X lies outside .* \(X: mean 102\.0 %, n 1; R, R2 and R3: mean 92\.0 %, s 2\.00, n 3; t = 4\.33, 2 degrees of freedom, p = 0\.049\)\.$/,
    );
    expect(found!.leavesOut).toMatch(/^Errors that all repeats share.* One of the two was made only once\.$/);
  });
  test('lies within it', () => {
    const [found] = compare([...several, yielded('X', '99')]);
    expect(found).toMatchObject({ differs: false, t: '3.031', p: '0.0938', difference: { value: '-7' } });
    expect(found!.verdict).toMatch(/^Sample X lies within .*t = 3\.03, 2 degrees of freedom, p = 0\.094\)\.$/);
  });
  test('below them t is negative', () =>
    expect(compare([yielded('X', '82'), ...several])[0]).toMatchObject({ t: '-4.330', differs: true }));
  test('cannot be judged against repeats that do not scatter', () => {
    const [found] = compare([yielded('X', '99'), ...repeats('R', [92, 92])]);
    expect(found).toMatchObject({ basis: 'single against replicates', differs: false, difference: { value: '7' } });
    expect(found).not.toHaveProperty('t');
    expect(found!.verdict).toMatch(/^The repeats do not scatter at all .*the single sample cannot be judged/);
  });
});
