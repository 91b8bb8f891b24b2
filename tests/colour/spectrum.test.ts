// What may be a spectrum: the limits of step, gap and range, each on either side; what a coarse step is off by.
import { describe, expect, it } from 'vitest';
import { deltaE00 } from '../../src/colour/difference.js';
import { colourFromSpectra } from '../../src/colour/sample-colour.js';
import { atTableWavelengths, makeSpectrum, meanSpectrum, wavelengthFault } from '../../src/colour/spectrum.js';
import { referenceRows } from '../reference/read.js';
import { measured } from './reference.js';

const every = (step: number, from = 400, to = 700) =>
  Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => from + i * step);
const code = (wavelengths: readonly number[]) => wavelengthFault(wavelengths)?.code;

describe('wavelengths that will do', () => {
  // ASTM E308 gives weights for 10 and 20 nm; nothing is tabulated for coarser steps.
  it('steps of exactly 20 nm will do; 20.1 will not', () => {
    expect(code(every(20))).toBeUndefined();
    expect(code(every(20.1, 400, 721))).toBe('step-too-coarse');
  });
  it('a gap of up to one and a half steps will do, and never one over 20 nm', () => {
    expect(code([...every(10, 400, 500), ...every(10, 515, 705)])).toBeUndefined();
    expect(code([...every(10, 400, 500), ...every(10, 516, 706)])).toBe('gap');
    expect(code([...every(16, 400, 496), ...every(16, 516, 708)])).toBeUndefined();
    expect(code([...every(16, 400, 496), ...every(16, 517, 709)])).toBe('gap');
  });
  it('a gap is told at the wavelength after it', () => {
    const wavelengths = every(10).filter((nm) => nm !== 550);
    expect(wavelengthFault(wavelengths)).toMatchObject({ code: 'gap', at: 15, expected: 'a value at 550 nm' });
  });
  it('the visible range may begin and end within a nanometre of 400 and 700', () => {
    expect(code(every(10, 400.9, 701))).toBeUndefined();
    expect(code(every(10, 401, 711))).toBe('range-too-short');
    expect(code(every(10, 399.1, 700))).toBeUndefined();
    expect(code(every(10, 399, 700))).toBe('range-too-short');
  });
  it('150 to 3000 nm are wavelengths', () => {
    expect(code(every(10, 150, 3000))).toBeUndefined();
    expect(code([149, ...every(10)])).toBe('not-a-wavelength');
    expect(code([...every(10), 3001])).toBe('not-a-wavelength');
  });
  it('two wavelengths at least', () => {
    expect(code([])).toBe('too-few-values');
    expect(code([400])).toBe('too-few-values');
    expect(code([400, 700])).toBe('step-too-coarse');
  });
  it.each([
    [[0.4, 0.41], /micrometres/],
    [[4000, 4100], /ångströms/],
    [[3, 4], /Give wavelengths in nanometres/],
  ])('%j: the cure names the unit it looks like', (wavelengths, cure) => {
    expect(wavelengthFault(wavelengths)?.cure).toMatch(cure);
  });
});

describe('a step of 20 nm', () => {
  // Own check: measured paints (Revigo spectra, CC0) thinned from 10 nm, and logistic edges thinned from 5 nm.
  const paints = referenceRows('colour/reflectance/SOURCES.csv').map(({ file }) => measured(`reflectance/${file}`));
  const fine = every(5, 400, 700);
  const edges = [480, 500, 520, 555, 570, 580, 590, 600, 610, 620].flatMap((centre) =>
    [3, 5, 8, 12, 20].map((width) => ({
      wavelengths: fine,
      reflectance: fine.map((nm) => 0.05 + 0.8 / (1 + Math.exp((centre - nm) / width))),
    })),
  );
  const thinned = [...paints, ...edges].map((spectrum) => {
    const every20 = 20 / (spectrum.wavelengths[1]! - spectrum.wavelengths[0]!);
    const kept = (values: readonly number[]) => values.filter((_, i) => i % every20 === 0);
    const coarse = { wavelengths: kept(spectrum.wavelengths), reflectance: kept(spectrum.reflectance) };
    const read = colourFromSpectra([coarse], 10);
    return { error: deltaE00(read.lab!, colourFromSpectra([spectrum], 10).lab!), stated: read.stepError ?? 0.1 };
  });
  it('is off by no more than is stated in 95 of 100', () => {
    const within = thinned.filter(({ error, stated }) => error <= stated).length;
    expect(within / thinned.length).toBeGreaterThanOrEqual(0.95);
  });
  it('is not stated to be off where the curve is flat, nor for 10 nm', () => {
    const flat = { wavelengths: every(20), reflectance: every(20).map(() => 0.4) };
    expect(colourFromSpectra([flat], 10).stepError).toBeUndefined();
    expect(colourFromSpectra([measured('reflectance/vermilion-over-white.csv')], 10).stepError).toBeUndefined();
  });
});

describe('a spectrum', () => {
  it('needs a finite value of 0 or more for each wavelength', () => {
    const made = (reflectance: number[]) => {
      const found = makeSpectrum(every(20), reflectance);
      return found.ok ? 'made' : found.fault.code;
    };
    const flat = every(20).map(() => 0.5);
    expect(made(flat)).toBe('made');
    expect(made(flat.map(() => 0))).toBe('made');
    expect(made(flat.slice(1))).toBe('missing-value');
    expect(made([-0.001, ...flat.slice(1)])).toBe('negative-reflectance');
    expect(made([Number.NaN, ...flat.slice(1)])).toBe('not-a-number');
  });
  it('the mean of readings at other wavelengths is taken where both have values', () => {
    const one = { wavelengths: every(20, 380, 720), reflectance: every(20, 380, 720).map(() => 0.2) };
    const two = { wavelengths: every(10), reflectance: every(10).map(() => 0.4) };
    const mean = meanSpectrum([one, two]);
    expect([mean.wavelengths[0], mean.wavelengths.at(-1)]).toEqual([400, 700]);
    for (const r of mean.reflectance) expect(r).toBeCloseTo(0.3, 12);
  });
  it('of fewer than six even steps is read by the spline, straight through straight points', () => {
    const values = atTableWavelengths({ wavelengths: [380, 480, 580, 680, 780], reflectance: [0, 0.1, 0.2, 0.3, 0.4] });
    expect(values[10]).toBeCloseTo(0.05, 12);
  });
});
