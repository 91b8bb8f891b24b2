// Whether samples differ: single ones by weighing alone, repeats by their scatter, one against repeats by the t test of
// a single case. Closed form of the two-sided probability with two degrees of freedom: p = 1 − t/√(2 + t²). Source: W.
// S. Gosset's distribution integrated by hand; the same is checked against printed tables in
// tests/chemistry/statistics.test.ts.
import { describe, expect, test } from 'vitest';
import { exact, type UncertainDecimal } from '../../../src/chemistry/index.js';
import { compare, outliersOf, type Result } from '../../../src/reckoning/amounts/comparison.js';
import { referenceRows } from '../../reference/read.js';

/** A value with the standard uncertainties that its inputs contribute. */
const value = (text: string, contributions: Readonly<Record<string, number>> = {}): UncertainDecimal => ({
  value: exact(text),
  approximateValue: Number(text),
  contributions: { inputs: Object.keys(contributions), parts: Object.values(contributions) },
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
  test('every pair', () => {
    expect(pairsOf(of('ABCD'))).toEqual(['A B', 'A C', 'A D', 'B C', 'B D', 'C D']);
    expect(pairsOf(of('ABCDE'))).toHaveLength(10);
  });
  test('or each with the stated control, wherever it stands', () => {
    const pairs = compare(of('ABCDE'), 'C').map(({ a, b }) => `${a.samples.join('+')} ${b.samples.join('+')}`);
    expect(pairs).toEqual(['C A', 'C B', 'C D', 'C E']);
    expect(compare(of('ABC'), 'X')).toHaveLength(3);
  });
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
  test('repeats of a sample that gave nothing are repeats of each other, through it too', () => {
    const lost = (sample: string, replicateOf?: string): Result => ({
      sample,
      weighings: unweighed,
      ...(replicateOf !== undefined && { replicateOf }),
    });
    const [x, y] = [yielded('X', '80'), yielded('Y', '81')];
    const two = [
      { ...yielded('B', '92'), replicateOf: 'A' },
      { ...yielded('C', '95'), replicateOf: 'A' },
    ];
    expect(pairsOf([lost('A'), ...two, x])).toEqual(['B+C X']);
    expect(pairsOf([...two, x])).toEqual(['B+C X']);
    const chained = [yielded('A', '90'), lost('B', 'A'), { ...yielded('C', '95'), replicateOf: 'B' }];
    expect(pairsOf([...chained, y])).toEqual(['A+C Y']);
  });
  test('the stated control may be named by one of its repeats', () =>
    expect(compare([...repeats('A', [90, 92]), ...of('XY')], 'A2').map(({ b }) => b.samples)).toEqual([['X'], ['Y']]));
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
  test('without any scatter that is said, and weighing decides', () => {
    const [found] = compare([...repeats('A', [90, 90]), ...repeats('B', [96, 96])]);
    expect(found).toMatchObject({ basis: 'replicates', differs: true, difference: { value: '-6' } });
    expect(found).not.toHaveProperty('p');
    expect(found!.verdict).toMatch(/^The repeats do not scatter at all .*judged by weighing: they are 6 .*more than/);
    expect(compare([...repeats('A', [90, 90]), ...repeats('B', [90, 90])])[0]).toMatchObject({ differs: false });
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
    expect(found!.leavesOut).toMatch(/^Errors that all repeats share/);
    expect(found!.madeOnce).toBe('Sample X was made only once.');
  });
  test('lies within it', () => {
    const [found] = compare([...several, yielded('X', '99')]);
    expect(found).toMatchObject({ differs: false, t: '3.031', p: '0.0938', difference: { value: '-7' } });
    expect(found!.verdict).toMatch(/^Sample X lies within .*t = 3\.03, 2 degrees of freedom, p = 0\.094\)\.$/);
  });
  // t with one degree of freedom: 12.706 (t table); mean 93, s 1.414: 93 ± 12.706 · 1.414 · √1.5 = 93 ± 22.
  test('can hardly be judged where there are two: that it cannot be told is said, and how wide two leave it', () => {
    const [found] = compare([...repeats('R', [92, 94]), yielded('X', '98.7')]);
    expect(found!.differs).toBe(false);
    expect(found!.verdict).toMatch(
      /^Whether sample X differs cannot be told: two repeats can hardly show anything, .* 71\.0 to 115\.0 % \(.*1 degree of/,
    );
    expect(compare([...repeats('R', [20, 94]), yielded('X', '98.7')])[0]!.verdict).toContain(' 0.0 to ');
  });
  test('of several, one that the number of comparisons takes back is not said to differ', () => {
    const found = compare([yielded('X', '102'), yielded('Y', '92'), ...several]);
    const x = found.find(
      ({ basis, a, b }) => basis !== 'weighing' && [a, b].some(({ samples }) => samples[0] === 'X'),
    )!;
    expect(x.differs).toBe(false);
    expect(x.verdict).toMatch(/^Whether sample X differs cannot be told .* corrected by Holm p = 0\.099\.$/);
  });
  test('below them t is negative', () =>
    expect(compare([yielded('X', '82'), ...several])[0]).toMatchObject({ t: '-4.330', differs: true }));
  test('cannot be judged against repeats that do not scatter', () => {
    const [found] = compare([yielded('X', '99'), ...repeats('R', [92, 92])]);
    expect(found).toMatchObject({ basis: 'single against replicates', differs: true, difference: { value: '7' } });
    expect(found).not.toHaveProperty('t');
    expect(found!.verdict).toMatch(/^The repeats do not scatter at all .*judged by weighing/);
  });
});

describe('the interval of a difference', () => {
  test('of single samples is that of weighing', () => {
    const a = yielded('A', '90.0', { 'reading:A': 0.3 });
    const b = yielded('B', '91.1', { 'reading:B': 0.4 });
    const [found] = compare([a, b]);
    // −1.1 ± 2 · √(0.3² + 0.4²)
    expect(found!.interval.low).toBeCloseTo(-2.1, 9);
    expect(found!.interval.high).toBeCloseTo(-0.1, 9);
    expect(found!.interval.level).toBe(95);
  });
  test('of repeats is Welch’s: two each with s² = 2 and ν = 2 have t = 4.303', () => {
    // Source: t table, two-sided 5 %, 2 degrees of freedom: 4.303; standard error √2, by hand.
    const { interval } = compare([...repeats('A', [90, 92]), ...repeats('B', [96.2, 98.2])])[0]!;
    expect(interval.low).toBeCloseTo(-6.2 - 4.303 * Math.SQRT2, 2);
    expect(interval.high).toBeCloseTo(-6.2 + 4.303 * Math.SQRT2, 2);
  });
  test('of one against repeats is where another one would lie: 4.303 · 2 · √(4/3) about 10', () => {
    const { interval } = compare([yielded('X', '102'), ...repeats('R', [90, 92, 94])])[0]!;
    expect(interval.low).toBeCloseTo(10 - 4.303 * 2 * Math.sqrt(4 / 3), 1);
    expect(interval.high).toBeCloseTo(10 + 4.303 * 2 * Math.sqrt(4 / 3), 1);
  });
  test('holds nothing of zero exactly where a difference is shown', () => {
    for (const apart of [2, 4, 6, 6.2, 8]) {
      const [found] = compare([...repeats('A', [90, 92]), ...repeats('B', [90 + apart, 92 + apart])]);
      expect(found!.interval.high < 0 || found!.interval.low > 0).toBe(found!.differs);
    }
  });
});

describe('the purity of a bottle', () => {
  const of = (sample: string, percent: string, bottle: string): Result =>
    yielded(sample, percent, { [`reading:${sample}`]: 0.1, [bottle]: 1 });
  const pure = (one: Result): Result => ({ ...one, weighings: new Set([`reading:${one.sample}`]) });
  test('cancels where both came out of it', () =>
    expect(compare([pure(of('A', '90', 'purity:soda')), pure(of('B', '91', 'purity:soda'))])[0]).toMatchObject({
      differs: true,
    }));
  test('counts where each had its own', () => {
    const [found] = compare([pure(of('A', '90', 'purity:soda')), pure(of('B', '91', 'purity:other'))]);
    expect(found!.differs).toBe(false);
    expect(found!.verdict).toContain('cannot be told apart by weighing and stated purity');
    expect(Number(found!.difference.uncertainty)).toBeCloseTo(2 * Math.sqrt(2 * (0.01 + 1)), 1);
  });
});

describe('many comparisons', () => {
  // Source: S. Holm's rule, the smallest of m probabilities times m, the next times m − 1, never falling; by hand from
  // the probabilities that are printed beside them.
  const three = [...repeats('A', [90, 92]), ...repeats('B', [96.2, 98.2]), ...repeats('C', [90.5, 92.5])];
  test('are corrected by Holm, and a difference that chance could bring is taken back', () => {
    const found = compare(three);
    expect(found.map(({ correction }) => correction)).toEqual(['Holm', 'Holm', 'Holm']);
    const sorted = found.map(({ p, adjustedP }) => [Number(p), Number(adjustedP)] as const).sort((a, b) => a[0] - b[0]);
    expect(sorted[0]![1]).toBeCloseTo(3 * sorted[0]![0], 3);
    expect(sorted[1]![1]).toBeCloseTo(Math.max(3 * sorted[0]![0], 2 * sorted[1]![0]), 3);
    const ab = found.find(({ a, b }) => a.samples[0] === 'A' && b.samples[0] === 'B')!;
    expect(Number(ab.p)).toBeLessThan(0.05);
    expect(ab.differs).toBe(false);
    expect(ab.verdict).toContain('corrected by Holm');
  });
  test('a difference that stands after it is told with the corrected probability, one that never was as well', () => {
    const found = compare([...repeats('A', [90, 90.2]), ...repeats('B', [99, 99.1]), ...repeats('C', [90.1, 90.3])]);
    const of = (a: string, b: string) => found.find((one) => one.a.samples[0] === a && one.b.samples[0] === b)!;
    expect([of('A', 'B').differs, of('A', 'C').differs]).toEqual([true, false]);
    expect(of('A', 'B').verdict).toMatch(/ Corrected for 3 comparisons by Holm: p [=<] 0\.\d+\.$/);
    expect(of('A', 'C').verdict).toMatch(/ Corrected for 3 comparisons by Holm: p = 0\.\d+\.$/);
    expect(of('A', 'C').verdict).not.toContain('chance alone');
    const ab = compare(three).find(({ a, b }) => a.samples[0] === 'A' && b.samples[0] === 'B')!;
    expect(ab.verdict).toMatch(
      /^No difference in yield is shown .* With 3 comparisons chance alone may well give one as large: corrected by/,
    );
    expect(ab.verdict).not.toMatch(/differs|seldom/);
  });
  test('counts those that have a probability; what weighing decided is left as it is', () => {
    const found = compare([...repeats('A', [90, 92]), ...repeats('B', [90, 90]), ...repeats('C', [96, 96])]);
    expect(found.map(({ correction }) => correction)).toEqual(['Holm', 'Holm', undefined]);
    expect(found[0]!.verdict).toContain('Corrected for 2 comparisons');
    expect(found[2]).not.toHaveProperty('adjustedP');
    expect(found[2]!.verdict).not.toContain('Holm');
  });
  test('one alone needs no correction', () => expect(compare(three.slice(0, 4))[0]).not.toHaveProperty('correction'));
});

describe('an outlier', () => {
  // Source: NIST/SEMATECH e-Handbook 1.3.5.17.1: G = 2.4688, critical value 2.126 for n = 8, two-sided 5 %.
  const masses = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];
  test('is named with its figures, and not dropped', () => {
    const [found] = compare([...repeats('R', masses), yielded('X', '200')]);
    expect(found!.outliers).toHaveLength(1);
    expect(found!.outliers![0]).toMatchObject({ sample: 'R8', rule: 'Grubbs', alpha: 0.05 });
    expect(found!.outliers![0]!.statistic).toBeCloseTo(2.4688, 4);
    expect(found!.outliers![0]!.critical).toBeCloseTo(2.127, 2);
    expect(found!.a.n).toBe(8);
    expect(found!.verdict).toMatch(
      / R8 lies far from the repeats \(Grubbs’s test, two-sided, 5 %\); it is named here and stays in the figures\.$/,
    );
  });
  test('two are named together, and none is no list', () => {
    const [both] = compare([...repeats('R', masses), ...repeats('S', masses)]);
    expect(both!.outliers!.map(({ sample }) => sample)).toEqual(['R8', 'S8']);
    expect(both!.verdict).toMatch(
      / R8 and S8 lie far from the repeats .*; they are named here and stay in the figures\.$/,
    );
    const [none] = compare([...repeats('R', [90, 91, 92]), yielded('X', '91')]);
    expect(none).not.toHaveProperty('outliers');
    expect(none!.verdict).not.toContain('Grubbs');
  });
  test('is looked for among those that gave something', () =>
    expect(outliersOf([...repeats('R', masses), { sample: 'X', weighings: unweighed }])).toHaveLength(1));
  test('is named where nothing is compared', () =>
    expect(outliersOf(repeats('R', masses)).map(({ sample }) => sample)).toEqual(['R8']));
  test('is none among repeats that agree', () => expect(outliersOf(repeats('R', [90, 91, 92, 93]))).toEqual([]));
});

describe('yields above 100 %', () => {
  const over = (sample: string, percent: string, grams: string): Result => ({
    ...yielded(sample, percent),
    obtained: value(grams, { [`reading:${sample}`]: 0.003 }),
    above100: Number(percent) > 100,
    weighings: new Set([`reading:${sample}`]),
  });
  test('are not compared as yields, but by what was weighed', () => {
    const found = compare([over('A', '104', '2.10'), over('B', '90', '1.82'), over('C', '91', '1.84')]);
    expect(found.map(({ measure }) => measure)).toEqual(['mass obtained', 'mass obtained', 'percent yield']);
    expect(found[0]!.verdict).toContain('Above 100 % they are not compared as yields');
  });
  test('one repeat above 100 % is enough', () => {
    const [found] = compare([
      over('A', '99', '2.00'),
      { ...over('A2', '104', '2.10'), replicateOf: 'A' },
      over('B', '90', '1.82'),
    ]);
    expect(found!.measure).toBe('mass obtained');
  });
  test('are not spoken of where there were no yields to compare', () => {
    const { percentYield: _, ...massOnly } = over('B', '90', '1.82');
    expect(compare([over('A', '104', '2.10'), massOnly])[0]!.verdict).not.toContain('Above 100 %');
  });
  test('nor where only one of the two was weighed', () =>
    expect(compare([over('A', '104', '2.10'), yielded('B', '90')])).toEqual([]));
  test('and not at all where nothing was weighed', () =>
    expect(compare([{ ...yielded('A', '104'), above100: true }, yielded('B', '90')])).toEqual([]));
});
