// XYZ and CIELAB from measured reflectance, and the white points, against published and independently computed values.
import { describe, expect, it } from 'vitest';
import { deltaE76 } from '../../src/colour/difference.js';
import { illuminants, type Illuminant, type Observer } from '../../src/colour/numbers.js';
import { atTableWavelengths } from '../../src/colour/spectrum.js';
import { labFromXyz, lchFromLab, whiteOf, xyzFromLab, xyzFromSpectrum } from '../../src/colour/tristimulus.js';
import { referenceRows } from '../reference/read.js';
import { measured, triple } from './reference.js';

describe('white points', () => {
  it.each(referenceRows('colour/white-points.csv'))(
    '$illuminant/$observer° of $source is what the tables sum to',
    (row) => {
      const white = xyzFromSpectrum(
        { wavelengths: [380, 780], reflectance: [1, 1] },
        row.illuminant as Illuminant,
        Number(row.observer) as Observer,
      );
      // Published sets differ from the plain sum by up to 0.02 in Z (ASTM E308, D65/10°); the LED rests on 4-figure
      // chromaticities.
      const tolerance = row.illuminant === 'LED-B3' ? 0.03 : 0.021;
      triple(row, 'X', 'Y', 'Z').forEach((value, i) =>
        expect(Math.abs(white[i]! - value)).toBeLessThanOrEqual(tolerance),
      );
    },
  );

  it('the white that Lab is reckoned against is the published one', () => {
    for (const row of referenceRows('colour/white-points.csv').filter(({ source }) => source!.startsWith('ASTM'))) {
      expect(whiteOf(row.illuminant as Illuminant, Number(row.observer) as Observer)).toEqual(
        triple(row, 'X', 'Y', 'Z'),
      );
    }
  });

  it('every white has Lab 100, 0, 0', () => {
    for (const illuminant of illuminants)
      for (const observer of [2, 10] as const)
        expect(labFromXyz(whiteOf(illuminant, observer), whiteOf(illuminant, observer))).toEqual([100, 0, 0]);
  });
});

describe('Lab from a measured spectrum', () => {
  it.each(referenceRows('colour/lab-from-spectrum-cases.csv'))(
    '$case $spectrum under $illuminant/$observer°',
    (row) => {
      const illuminant = row.illuminant as Illuminant;
      const observer = Number(row.observer) as Observer;
      expect(whiteOf(illuminant, observer)).toEqual(triple(row, 'white_X', 'white_Y', 'white_Z'));
      const xyz = xyzFromSpectrum(measured(row.spectrum!), illuminant, observer);
      const lab = labFromXyz(xyz, whiteOf(illuminant, observer));
      expect(deltaE76(lab, triple(row, 'L', 'a', 'b'))).toBeLessThanOrEqual(Number(row.tol_dE76_spline_or_E308));
    },
  );
});

describe('Lab from a measured spectrum, by another interpolation in another language', () => {
  it.each(referenceRows('colour/lab-from-spectrum-spline.csv'))('$spectrum under $illuminant/$observer°', (row) => {
    const [illuminant, observer] = [row.illuminant as Illuminant, Number(row.observer) as Observer];
    const lab = labFromXyz(
      xyzFromSpectrum(measured(row.spectrum!), illuminant, observer),
      whiteOf(illuminant, observer),
    );
    expect(deltaE76(lab, triple(row, 'L', 'a', 'b'))).toBeLessThanOrEqual(Number(row.tol_dE76));
  });
});

describe('Lab, XYZ and LCh', () => {
  it('go there and back', () => {
    for (const lab of [
      [0, 0, 0],
      [3, 1, -2],
      [50, -60, 40],
      [95, 3, 90],
    ] as const) {
      const back = labFromXyz(xyzFromLab(lab, whiteOf('A', 10)), whiteOf('A', 10));
      expect(deltaE76(lab, back)).toBeLessThan(1e-9);
    }
  });
  it('hue angle runs from 0 to 360', () => {
    expect(lchFromLab([50, 0, -20])).toEqual([50, 20, 270]);
    expect(lchFromLab([50, -20, 0])).toEqual([50, 20, 180]);
  });
});

describe('interpolation to the table wavelengths', () => {
  // Sprague's formula is exact for polynomials up to the fourth degree, its end formula for straight lines: CIE
  // 167:2005.
  it('Sprague’s formula restores a fourth-degree curve exactly between the ends, a straight line everywhere', () => {
    const wavelengths = Array.from({ length: 21 }, (_, i) => 380 + 20 * i);
    const curve = (nm: number) => {
      const t = (nm - 550) / 150;
      return 0.4 + 0.2 * t - 0.1 * t ** 2 + 0.05 * t ** 3 - 0.03 * t ** 4;
    };
    const values = atTableWavelengths({ wavelengths, reflectance: wavelengths.map(curve) });
    for (let i = 8; i <= 72; i += 1) expect(values[i]).toBeCloseTo(curve(380 + 5 * i), 12);
    const line = (nm: number) => 0.1 + (nm - 380) / 800;
    atTableWavelengths({ wavelengths, reflectance: wavelengths.map(line) }).forEach((value, i) =>
      expect(value).toBeCloseTo(line(380 + 5 * i), 12),
    );
  });
  it('uneven steps are read by a cubic spline through every point', () => {
    const wavelengths = [
      398, 405, 411, 420, 428, 435, 447, 455, 468, 480, 490, 503, 515, 525, 540, 550, 565, 580, 590, 605, 620, 635, 650,
      660, 675, 690, 705,
    ];
    const curve = (nm: number) => 0.4 + 0.3 * Math.sin((nm - 400) / 80);
    const values = atTableWavelengths({ wavelengths, reflectance: wavelengths.map(curve) });
    for (let i = 5; i < 64; i += 1) expect(Math.abs(values[i]! - curve(380 + 5 * i))).toBeLessThan(2e-3);
    expect(values[5]).toBeCloseTo(curve(405), 12);
  });
  it('the first and last value are held outside what was measured', () => {
    const values = atTableWavelengths(measured('reflectance/cobalt-blue-over-white.csv'));
    expect(values[0]).toBe(values[4]);
    expect(values[80]).toBe(values[64]);
  });
});
