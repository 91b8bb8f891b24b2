// sRGB of Lab, inside the gamut and mapped into it, against published and twice-computed cases.
import { describe, expect, it } from 'vitest';
import {
  channelsFromLab,
  clippedFromLab,
  screenFromLab50,
  screenFromLab65,
  screenFromXyz,
  xyzFromSrgb,
} from '../../src/colour/screen.js';
import { whiteOf } from '../../src/colour/tristimulus.js';
import { referenceRows } from '../reference/read.js';
import { triple } from './reference.js';

describe('sRGB', () => {
  it.each(referenceRows('colour/srgb-cases.csv'))('$case $name: $hex_css4_gamut_mapped', (row) => {
    const lab = triple(row, 'L', 'a', 'b');
    const white = row.lab_white as 'D65' | 'D50';
    channelsFromLab(lab, white).forEach((value, i) =>
      expect(Math.abs(value - Number([row.r_unclamped, row.g_unclamped, row.b_unclamped][i]))).toBeLessThan(6e-4),
    );
    const shown = white === 'D65' ? screenFromLab65(lab) : screenFromLab50(lab);
    expect(shown.hex).toBe(row.hex_css4_gamut_mapped);
    expect(clippedFromLab(lab, white)).toBe(row.hex_clip);
    expect(shown.mapped).toBe(row.in_srgb_gamut !== 'yes');
    // The published chart values are clipped ones (one of them, cyan, lies outside).
    if (row.published_hex) expect(clippedFromLab(lab, white)).toBe(row.published_hex);
  });

  it('a lamp’s white is white to an eye used to it', () => {
    expect(screenFromXyz(whiteOf('A', 2), whiteOf('A', 2))).toEqual({ hex: '#ffffff', mapped: false });
  });

  it('an sRGB reading is read as #rrggbb, and nothing else', () => {
    const white = xyzFromSrgb('#ffffff');
    if (!white.ok) throw new Error();
    white.value.forEach((value, i) => expect(value).toBeCloseTo([95.046, 100, 108.906][i]!, 2));
    expect(xyzFromSrgb('#0af').ok).toBe(true);
    for (const text of ['', 'red', '#12345', '#gggggg', 'rgb(1,2,3)']) expect(xyzFromSrgb(text).ok).toBe(false);
  });
});
