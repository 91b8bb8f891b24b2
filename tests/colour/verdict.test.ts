// Verdicts on differences: published thresholds, scatter of readings, what can be compared at all.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deltaE00, deltaE76, lchDifference } from '../../src/colour/difference.js';
import { colourFromLab, colourFromSpectra, colourFromSrgb, compare } from '../../src/colour/sample-colour.js';
import type { Spectrum } from '../../src/colour/spectrum.js';
import { xyzFromSpectrum } from '../../src/colour/tristimulus.js';
import { scatterOf, scatterOfDifference, thresholds, verdict, withinTolerance } from '../../src/colour/verdict.js';
import { referenceRows } from '../reference/read.js';
import { measured } from './reference.js';

describe('the verdict', () => {
  // Thresholds: 0.8 Paravina et al. 2015 (50:50 perceptibility, tooth ceramics); 5 Mokrzycki and Tatol 2011 (a verbal
  // scale).
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
  it('names where its thresholds come from, what they are and of what', () => {
    expect(verdict(1).source).toMatch(/Paravina et al\..*Mokrzycki and Tatol 2011/);
    expect(thresholds().map(({ code, de00 }) => [code, de00])).toEqual([
      ['visible-side-by-side', 0.8],
      ['called-the-same', 1.8],
      ['visible-apart', 5],
    ]);
    expect(thresholds().map(({ kind }) => kind.split(':')[0])).toEqual(['50', '50', 'verbal scale']);
    for (const { field, source } of thresholds()) expect([field, source]).not.toContain('');
  });
  it('scatter wider than the difference: it cannot be told, and is never called none', () => {
    expect(verdict(2, { repeatability: 2.5 })).toMatchObject({ code: 'cannot-be-told', words: 'cannot be told' });
    expect(verdict(2, { repeatability: 2 }).words).toBe('cannot be told');
    expect(verdict(0, { repeatability: 0.1 }).words).toBe('cannot be told');
    expect(verdict(2, { repeatability: 1.99 }).words).toBe('visible side by side');
  });
  it('no verdict below a stated uncertainty', () => {
    expect(verdict(3, { uncertainty: 3.5 }).code).toBe('cannot-be-told');
    expect(verdict(3.6, { uncertainty: 3.5 }).code).toBe('visible-side-by-side');
    // Whether the threshold is passed is open: 3.6 ± 3.5 begins at 0.1, below 0.8.
    expect(verdict(3.6, { uncertainty: 3.5 })).toMatchObject({
      words: 'perhaps visible side by side',
      sentence: 'Perhaps visible side by side: ΔE00 3.6 ± 3.5; it begins at about 0.8.',
    });
    expect(verdict(3.6, { uncertainty: 2 }).sentence).toBe('Visible side by side, hardly apart: ΔE00 3.6 ± 2.0.');
    expect(verdict(6.7, { uncertainty: 2 })).toMatchObject({
      code: 'visible-apart',
      words: 'perhaps visible apart',
      sentence: 'Visible side by side, perhaps apart: ΔE00 6.7 ± 2.0; it begins at about 5.',
    });
    expect(verdict(6.7, { uncertainty: 1.5 }).words).toBe('visible apart');
  });
  it('single readings are warned of up to three times the usual repeatability', () => {
    const warned = /up to 0\.3 may be the instrument’s own/;
    expect(verdict(0.29, { usual: 0.1 }).sentence).toMatch(warned);
    expect(verdict(0.31, { usual: 0.1 }).sentence).not.toMatch(warned);
    expect(verdict(0.31, { usual: 0.1 }).sentence).toContain('how far they repeat is not known');
    expect(verdict(1, { usual: 0.4 }).sentence).toMatch(/up to 1\.2 may/);
    expect(verdict(0.29, { usual: 0.1, repeatability: 0.1 }).sentence).not.toContain('Single');
  });
  it('a tolerance against an aim is judged only as far as doubt allows', () => {
    expect(withinTolerance(0.6, 1, { repeatability: 0.3 }).within).toBe(true);
    expect(withinTolerance(0.8, 1, { repeatability: 0.3 }).within).toBeUndefined();
    expect(withinTolerance(1.2, 1, { repeatability: 0.3 }).within).toBeUndefined();
    expect(withinTolerance(1.4, 1, { repeatability: 0.3 }).within).toBe(false);
    expect(withinTolerance(0.8, 1, { usual: 0.1 }).within).toBeUndefined();
    expect(withinTolerance(0.6, 1, { usual: 0.1 }).within).toBe(true);
    expect(withinTolerance(4, 2, { uncertainty: 3 }).sentence).toMatch(/cannot be told/);
    expect(withinTolerance(1, 1).within).toBe(true);
  });
});

describe('lightness, chroma and hue of a difference', () => {
  // ISO/CIE 11664-4: ΔE² = ΔL² + ΔC² + ΔH², and ΔH* has the sign of the change of hue angle.
  const anyLab = fc.tuple(
    fc.double({ min: 0, max: 100, noNaN: true }),
    fc.double({ min: -100, max: 100, noNaN: true }),
    fc.double({ min: -100, max: 100, noNaN: true }),
  );
  it('make up the CIELAB difference', () => {
    fc.assert(
      fc.property(anyLab, anyLab, (first, second) => {
        const { dL, dC, dH } = lchDifference(first, second);
        expect(Math.hypot(dL, dC, dH)).toBeCloseTo(deltaE76(first, second), 6);
      }),
    );
  });
  it('have the sign of the turn', () => {
    expect(lchDifference([50, 10, 0], [40, 0, 10])).toMatchObject({ dL: -10, dC: 0 });
    expect(lchDifference([50, 10, 0], [40, 0, 10]).dH).toBeCloseTo(14.142, 3);
    expect(lchDifference([50, 0, 10], [50, 10, 0]).dH).toBeCloseTo(-14.142, 3);
    expect(lchDifference([50, 10, -1], [50, 10, 1]).dH).toBeCloseTo(2, 3);
    expect(lchDifference([50, 10, 0], [50, 25, 0])).toEqual({ dL: 0, dC: 15, dH: 0 });
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
  it('of a difference grows with either scatter and shrinks with more readings', () => {
    const few = { readings: 2, mean: 0.3, largest: 0.3 };
    const many = { readings: 10, mean: 0.3, largest: 0.5 };
    expect(scatterOfDifference(few, few)).toBeCloseTo(2 * Math.sqrt(0.18), 12);
    expect(scatterOfDifference(many, many)!).toBeLessThan(scatterOfDifference(few, few)!);
  });
  it('of a single reading is taken from the other; of two single ones, or where the other shows none, unknown', () => {
    const three = { readings: 3, mean: 0.3, largest: 0.3 };
    // s² = m² n ÷ (n − 1), of the mean and of one more: s² (1 + 1 ÷ n).
    expect(scatterOfDifference(three, undefined)).toBeCloseTo(2 * Math.sqrt(0.135 * (1 + 1 / 3)), 12);
    expect(scatterOfDifference(undefined, three)).toBe(scatterOfDifference(three, undefined));
    expect(scatterOfDifference({ ...three, mean: 0 }, undefined)).toBeUndefined();
    expect(scatterOfDifference(undefined, undefined)).toBeUndefined();
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

/**
 * A spectrum with the XYZ of the standard under a lamp: what the lamp sees of it taken from the standard
 * (Cohen–Kappauf).
 */
function matchedUnder(lamp: 'A', standard: Spectrum, sample: Spectrum): Spectrum {
  const size = standard.wavelengths.length;
  const unit = (k: number): Spectrum => ({
    wavelengths: standard.wavelengths,
    reflectance: standard.wavelengths.map((_, i) => (i === k ? 1 : 0)),
  });
  const a = Array.from({ length: size }, (_, k) => xyzFromSpectrum(unit(k), lamp, 10));
  // Gram–Schmidt over the three columns that the eye sees by.
  const base: number[][] = [];
  for (const axis of [0, 1, 2]) {
    let column = a.map((row) => row[axis]!);
    for (const one of base) {
      const along = column.reduce((sum, v, i) => sum + v * one[i]!, 0);
      column = column.map((v, i) => v - along * one[i]!);
    }
    const length = Math.hypot(...column);
    base.push(column.map((v) => v / length));
  }
  const seen = (spectrum: Spectrum) => {
    const parts = base.map((one) => one.reduce((sum, v, i) => sum + v * spectrum.reflectance[i]!, 0));
    return spectrum.reflectance.map((_, i) => parts.reduce((sum, part, k) => sum + part * base[k]![i]!, 0));
  };
  const [wanted, had] = [seen(standard), seen(sample)];
  return {
    wavelengths: sample.wavelengths,
    reflectance: sample.reflectance.map((r, i) => Math.max(0, r - had[i]! + wanted[i]!)),
  };
}

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
  it('a pair that matches under lamplight and parts in daylight is metameric as well', () => {
    // The published metameric pair, moved so that it matches under A: the sample's spectrum plus what A must not see.
    const [standard, sample] = ['standard', 'sample'].map((column) =>
      measured(`iso-metamer-pair-spectra.csv#${column}`),
    );
    const matched = matchedUnder('A', standard!, sample!);
    const found = compare(colourFromSpectra([standard!], 10), colourFromSpectra([matched], 10));
    if (!found.ok) throw new Error(found.fault.message);
    const under = (lamp: string) => found.value.perLamp!.find((one) => one.lamp === lamp)!.de00;
    expect(under('A')).toBeLessThan(0.8);
    expect(under('D65')).toBeGreaterThan(1.8);
    expect(found.value.metameric).toMatchObject({ alikeUnder: 'A' });
    expect(found.value.metameric!.sentence).toMatch(/under lamplight.*different/);
  });
  it('an sRGB estimate, said to be one, and no verdict on it', () => {
    const rough = colourFromSrgb(cobalt.screen.hex);
    if (!rough.ok) throw new Error();
    const found = compare(cobalt, rough.value);
    expect(found.ok && found.value.approximate).toBe(true);
    expect(found.ok && found.value.verdict.words).toBe('no verdict');
    // The swatch of a colour inside sRGB, read back, is that colour to the rounding of eight bits.
    expect(found.ok && found.value.de00).toBeLessThan(0.5);
  });
});
