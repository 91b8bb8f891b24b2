// Verdicts on differences: published thresholds, scatter of readings, what can be compared at all.
import { describe, expect, it } from 'vitest';
import { deltaE00 } from '../../src/colour/difference.js';
import { colourFromLab, colourFromSpectra, colourFromSrgb, compare } from '../../src/colour/sample-colour.js';
import { scatterOf, scatterOfDifference, verdict } from '../../src/colour/verdict.js';
import { referenceRows } from '../reference/read.js';
import { measured } from './reference.js';

describe('the verdict', () => {
  // Thresholds: 0.8 Paravina et al. 2015 (perceptibility, CIEDE2000); 5 Mokrzycki and Tatol 2011.
  it.each([
    [0, 'no difference'],
    [0.3, 'measured'],
    [0.79, 'measured'],
    [0.8, 'visible side by side'],
    [4.99, 'visible side by side'],
    [5, 'visible apart'],
    [40, 'visible apart'],
  ])('ΔE00 %s is %s', (de00, words) => {
    expect(verdict(de00).words).toBe(words);
  });
  it('names where its thresholds come from', () => {
    expect(verdict(1).source).toMatch(/Paravina et al\. 2015.*Mokrzycki and Tatol 2011/);
  });
  it('a difference within the scatter of the readings is none, however large', () => {
    expect(verdict(2, 2.5).words).toBe('no difference');
    expect(verdict(2, 1.5).words).toBe('visible side by side');
  });
  it('single readings are said to be single where it matters', () => {
    expect(verdict(0.4).sentence).toContain('Single readings');
    expect(verdict(0.4, 0.1).sentence).not.toContain('Single readings');
  });
});

describe('scatter', () => {
  it('is the mean distance of readings from their mean', () => {
    const labs = [
      [50, 0, 0],
      [52, 0, 0],
    ] as const;
    const scatter = scatterOf(labs, [51, 0, 0])!;
    expect(scatter.mean).toBeCloseTo((deltaE00(labs[0], [51, 0, 0]) + deltaE00(labs[1], [51, 0, 0])) / 2, 12);
    expect(scatterOf([[50, 0, 0]], [50, 0, 0])).toBeUndefined();
  });
  it('of a difference grows with either scatter and shrinks with more readings; unknown if one is', () => {
    const few = { readings: 2, mean: 0.3, largest: 0.3 };
    const many = { readings: 10, mean: 0.3, largest: 0.5 };
    expect(scatterOfDifference(few, few)).toBeCloseTo(2 * Math.sqrt(0.18), 12);
    expect(scatterOfDifference(many, many)!).toBeLessThan(scatterOfDifference(few, few)!);
    expect(scatterOfDifference(few, undefined)).toBeUndefined();
  });
});

describe('pairs of measured spectra', () => {
  it.each(referenceRows('colour/metamerism-spline.csv'))(
    '$first and $second in daylight and under $lamp/$observer°',
    (row) => {
      const [first, second] = [row.first, row.second].map((path) =>
        colourFromSpectra([measured(path!)], Number(row.observer) as 2 | 10),
      );
      const found = compare(first!, second!);
      if (!found.ok) throw new Error(found.fault.message);
      const under = found.value.perLamp!.find(({ lamp }) => lamp === row.lamp)!;
      const index = found.value.metamerism!.find(({ lamp }) => lamp === row.lamp)!;
      // The lines of F11 lie between the measured wavelengths: there the two interpolations differ most.
      const near = (value: number, column: string) =>
        expect(Math.abs(value - Number(row[column]))).toBeLessThan(row.lamp === 'F11' ? 0.05 : 0.005);
      near(found.value.de00, 'de00_D65');
      near(under.de00, 'de00_lamp');
      near(index.index00, 'index00');
      near(index.index76, 'index76');
    },
  );
});

describe('what can be compared', () => {
  const cobalt = colourFromSpectra([measured('reflectance/cobalt-blue-over-white.csv')], 10);
  it('a spectrum with Lab of any illuminant and observer: under those', () => {
    const lamplight = cobalt.under.find(({ lamp }) => lamp === 'A')!.lab;
    const found = compare(cobalt, colourFromLab([lamplight], 'A', 10));
    expect(found.ok && [found.value.illuminant, found.value.observer]).toEqual(['A', 10]);
    expect(found.ok && found.value.de00).toBeLessThan(1e-9);
    const two = colourFromSpectra([measured('reflectance/cobalt-blue-over-white.csv')], 2);
    const across = compare(cobalt, colourFromLab([two.lab!], 'D65', 2));
    expect(across.ok && across.value.de00).toBeLessThan(1e-9);
  });
  it('two spectra whatever observer they are told for', () => {
    const two = colourFromSpectra([measured('reflectance/cobalt-blue-over-white.csv')], 2);
    const found = compare(two, cobalt);
    expect(found.ok && found.value.de00).toBe(0);
  });
  it('Lab with Lab of another illuminant: D50 with D65 roughly, lamplight not at all', () => {
    const rough = compare(colourFromLab([[50, 10, 10]], 'D65', 2), colourFromLab([[50, 10, 10]], 'D50', 2));
    expect(rough.ok && rough.value.approximate).toBe(true);
    expect(compare(colourFromLab([[50, 10, 10]], 'D65', 2), colourFromLab([[50, 10, 10]], 'A', 2)).ok).toBe(false);
    expect(compare(colourFromLab([[50, 10, 10]], 'D65', 2), colourFromLab([[50, 10, 10]], 'D65', 10)).ok).toBe(false);
  });
  it('an sRGB estimate, said to be one', () => {
    const rough = colourFromSrgb(cobalt.screen.hex);
    if (!rough.ok) throw new Error();
    const found = compare(cobalt, rough.value);
    expect(found.ok && found.value.approximate).toBe(true);
    // The swatch of a colour inside sRGB, read back, is that colour to the rounding of eight bits.
    expect(found.ok && found.value.de00).toBeLessThan(0.5);
  });
});
