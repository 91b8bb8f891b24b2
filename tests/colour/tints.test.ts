// Tints from measured tints, against other measured tints of the same paint; films as dark and as light as they were
// read.
import { describe, expect, it } from 'vitest';
import { deltaE00 } from '../../src/colour/difference.js';
import { filmsFromLuminance } from '../../src/colour/films.js';
import type { Triple } from '../../src/colour/numbers.js';
import { xyzFromSrgb } from '../../src/colour/screen.js';
import { atTableWavelengths } from '../../src/colour/spectrum.js';
import { tintLadder, tintsFromMeasured } from '../../src/colour/tints.js';
import { labFromXyz, whiteOf, xyzFromTableValues } from '../../src/colour/tristimulus.js';
import { referenceRows } from '../reference/read.js';
import { measured } from './reference.js';

const lab = (values: Float64Array): Triple => labFromXyz(xyzFromTableValues(values, 'D65', 2), whiteOf('D65', 2));
const over = (name: string) => atTableWavelengths(measured(`reflectance/${name}-over-white.csv`));
const white = over('zinc-white');
const tint = (pigment: string, share: number, name: string) => ({
  share,
  reflectance: over(share === 1 ? pigment : `${pigment}-${name}`),
});

// Source: Revigo spectra (CC0): tints of one pigment in zinc white, by their stated proportions.
const ladders = [
  ['cobalt-blue', [1, ''], [0.5, '50-zincwhite-50'], [0.1, '10-zincwhite-90']],
  ['vermilion', [1, ''], [0.5, '50-zincwhite-50'], [0.1, '10-zincwhite-90']],
  ['ultramarine', [1, ''], [0.51, '51-zincwhite-49'], [0.107, '10.7-zincwhite-89.3']],
  ['viridian', [1, ''], [0.497, '49.7-zincwhite-50.3'], [0.116, '11.6-zincwhite-88.4']],
  ['emerald-green', [1, ''], [0.5, '50-zincwhite-50'], [0.104, '10.4-zincwhite-89.6']],
  ['minium', [1, ''], [0.508, '50.8-zincwhite-49.2'], [0.092, '9.2-zincwhite-90.8']],
] as const;

describe('tints computed from measured ones', () => {
  const errors = ladders.map(([pigment, full, half, tenth]) => {
    const [one, two, three] = [full, half, tenth].map(([share, name]) => tint(pigment, share, name));
    const wanted = lab(three!.reflectance);
    const error = (values: Float64Array) => deltaE00(lab(values), wanted);
    const masstone = measured(`reflectance/${pigment}-over-white.csv`);
    const [alone] = tintLadder(masstone, measured('reflectance/zinc-white-over-white.csv'), [three!.share]);
    return {
      fromMasstone: error(alone!.reflectance),
      fromOne: error(tintsFromMeasured(white, [two!])(three!.share)),
      fromTwo: error(tintsFromMeasured(white, [one!, two!])(three!.share)),
    };
  });
  const mean = (of: (one: (typeof errors)[number]) => number) =>
    errors.reduce((sum, one) => sum + of(one), 0) / errors.length;

  it('from one tint are far better than from the masstone alone', () => {
    expect(mean(({ fromOne }) => fromOne)).toBeLessThan(0.5 * mean(({ fromMasstone }) => fromMasstone));
  });
  it('from masstone and a tint, with two constants, as well', () => {
    expect(mean(({ fromTwo }) => fromTwo)).toBeLessThan(0.5 * mean(({ fromMasstone }) => fromMasstone));
  });
  it('give back the tints that they were made from', () => {
    for (const [pigment, , half, tenth] of ladders) {
      const two = [half, tenth].map(([share, name]) => tint(pigment, share, name));
      const ladder = tintsFromMeasured(white, two);
      for (const { share, reflectance } of two)
        expect(deltaE00(lab(ladder(share)), lab(reflectance))).toBeLessThan(2.5);
    }
  });
  it('end at the white', () => {
    const ladder = tintsFromMeasured(white, [tint('cobalt-blue', 0.5, '50-zincwhite-50')]);
    expect(deltaE00(lab(ladder(0)), lab(white))).toBeLessThan(1e-6);
  });
});

describe('a film that is drawn', () => {
  const lightness = (hex: string): number => {
    const xyz = xyzFromSrgb(hex);
    if (!xyz.ok) throw new Error(hex);
    return labFromXyz(xyz.value, whiteOf('D65', 2))[0];
  };
  const lightnessOf = (y: number) => labFromXyz([0, y, 0], whiteOf('D65', 2))[0];
  const paints = referenceRows('colour/opacity-cases.csv');

  it.each(paints)('$paint has the lightness that was read, over black and over white', (row) => {
    const [black, overWhite] = [Number(row.Yb_D65_10), Number(row.Yw_D65_10)];
    const films = filmsFromLuminance(black, overWhite, atTableWavelengths(measured(row.over_white_file!)));
    expect(Math.abs(lightness(films.overBlack.hex) - lightnessOf(black))).toBeLessThan(1);
    expect(Math.abs(lightness(films.overWhite.hex) - lightnessOf(overWhite))).toBeLessThan(1);
  });
  it('has it when only Lab is known of the masstone', () => {
    const films = filmsFromLuminance(20, 55, [30, 28, 60]);
    expect(Math.abs(lightness(films.overBlack.hex) - lightnessOf(20))).toBeLessThan(1);
    expect(Math.abs(lightness(films.overWhite.hex) - lightnessOf(55))).toBeLessThan(1);
  });
});
