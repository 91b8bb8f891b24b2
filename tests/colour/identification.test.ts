// Curves by which pigments are told apart, and tinting strength, against values worked by hand and measured paints.
import { describe, expect, it } from 'vitest';
import { firstDerivative, kubelkaMunkCurve, tintingStrength } from '../../src/colour/identification.js';
import { kOverS, reflectanceOf } from '../../src/colour/kubelka-munk.js';
import { measured } from './reference.js';

const wavelengths = Array.from({ length: 31 }, (_, i) => 400 + 10 * i);

describe('curves', () => {
  it('K/S of 20 % is 1.6, of 80 % 0.025', () => {
    // Worked: (1 − 0.2)²/(2 · 0.2); (1 − 0.8)²/(2 · 0.8).
    const [first, second] = kubelkaMunkCurve({ wavelengths: [400, 410], reflectance: [0.2, 0.8] });
    expect(first).toEqual({ nm: 400, value: kOverS(0.2) });
    expect(first!.value).toBeCloseTo(1.6, 12);
    expect(second!.value).toBeCloseTo(0.025, 12);
  });
  it('the derivative lies between the wavelengths and has its peak at the edge', () => {
    const edge = { wavelengths, reflectance: wavelengths.map((nm) => 0.1 + 0.7 / (1 + Math.exp((555 - nm) / 8))) };
    const curve = firstDerivative(edge);
    expect(curve).toHaveLength(30);
    const peak = curve.reduce((most, one) => (one.value > most.value ? one : most));
    expect(peak.nm).toBe(555);
    expect(firstDerivative({ wavelengths: [400, 410], reflectance: [0.1, 0.2] })[0]!.value).toBeCloseTo(0.01, 12);
  });
  // Chrome yellow's edge lies in the green-yellow, vermilion's in the orange-red (Revigo spectra, CC0).
  it('the edges of chrome yellow and vermilion are where they should be', () => {
    const peakOf = (name: string) =>
      firstDerivative(measured(`reflectance/${name}-over-white.csv`)).reduce((most, one) =>
        one.value > most.value ? one : most,
      ).nm;
    expect(peakOf('chrome-yellow')).toBeGreaterThan(490);
    expect(peakOf('chrome-yellow')).toBeLessThan(560);
    expect(peakOf('vermilion')).toBeGreaterThan(575);
    expect(peakOf('vermilion')).toBeLessThan(630);
  });
});

describe('tinting strength', () => {
  const white = { wavelengths, reflectance: wavelengths.map(() => 0.9) };
  const tint = (strength: number) => ({
    wavelengths,
    reflectance: wavelengths.map((nm) => {
      const absorption = strength * (0.05 + 0.8 * Math.exp(-(((nm - 600) / 40) ** 2)));
      return reflectanceOf(kOverS(0.9) + absorption);
    }),
  });
  it('is the ratio of absorption where the reference absorbs most', () => {
    const found = tintingStrength(tint(1.3), tint(1), white);
    expect(found.ok && found.value.nm).toBe(600);
    expect(found.ok && found.value.percent).toBeCloseTo(130, 1);
    const same = tintingStrength(tint(1), tint(1));
    expect(same.ok && same.value.percent).toBeCloseTo(100, 9);
  });
  // By hand: K/S of 40 % is 0.45, of 50 % 0.25, of the white's 80 % 0.025; (0.45 − 0.025)/(0.25 − 0.025) = 1.8889. Greys
  // have the same Y as reflectance, so both ways agree. Definition: GB/T 13451.2-92, equivalent to ISO 787-24:1985, the
  // absorption of the sample over that of the reference, per cent.
  it('of greys of 40 and 50 % in a white of 80 % is 188.89 %, either way', () => {
    const grey = (r: number) => ({ wavelengths, reflectance: wavelengths.map(() => r) });
    const found = tintingStrength(grey(0.4), grey(0.5), grey(0.8));
    if (!found.ok) throw new Error(found.fault.message);
    expect(found.value.percent).toBeCloseTo(188.889, 3);
    expect(found.value.byLightness).toBeCloseTo(188.889, 3);
    const without = tintingStrength(grey(0.4), grey(0.5));
    expect(without.ok && without.value.percent).toBeCloseTo(180, 9);
  });
  // A tint that absorbs the more in the blue, where an eye hardly sees, is as strong by lightness and not by absorption.
  it('differs by the way that is taken, where hues differ', () => {
    const two = (blue: number) => ({
      wavelengths,
      reflectance: wavelengths.map((nm) => blue + (0.7 - blue) / (1 + Math.exp((500 - nm) / 8))),
    });
    const found = tintingStrength(two(0.2), two(0.4), white);
    if (!found.ok) throw new Error(found.fault.message);
    // (1.6 − 0.00556)/(0.45 − 0.00556)
    expect(found.value.percent).toBeCloseTo(358.75, 1);
    expect(found.value.byLightness).toBeLessThan(150);
  });
  it('says nothing against a white', () => {
    const found = tintingStrength(tint(1), white, white);
    expect(found.ok ? 'told' : found.fault.code).toBe('no-tinting');
  });
});
