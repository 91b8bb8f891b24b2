// The families' map is what `familyOf` says, cell by cell, and covers the whole cut.
import { describe, expect, it } from 'vitest';
import { familyCut } from '../../src/colour/family-map.js';
import { familyOf } from '../../src/colour/families.js';
import { familyMap } from '../../templates/pictures/family-map.js';

const area = ({ from, to, inner, outer }: { from: number; to: number; inner: number; outer: number }): number =>
  ((to - from) / 360) * (outer ** 2 - inner ** 2);

describe.each([20, 30, 55, 80, 92])('a cut through the families at L* %i', (lightness) => {
  const cut = familyCut(lightness);
  it('covers the whole disc, each place once', () => {
    const sum = cut.regions.flatMap(({ sectors }) => sectors).reduce((total, one) => total + area(one), 0);
    expect(sum).toBeCloseTo(cut.mostChroma ** 2, 6);
    expect(cut.regions.reduce((total, { share }) => total + share, 0)).toBeCloseTo(1, 9);
  });
  it('has each place in the family that it is named as', () => {
    for (let hue = 0.5; hue < 360; hue += 7)
      for (let chroma = 2; chroma < cut.mostChroma; chroma += 4) {
        const holds = cut.regions.filter(({ sectors }) =>
          sectors.some(({ from, to, inner, outer }) => from <= hue && hue < to && inner <= chroma && chroma < outer),
        );
        const [a, b] = [Math.cos, Math.sin].map((f) => chroma * f((hue * Math.PI) / 180));
        expect(holds.map(({ family }) => family)).toEqual([familyOf([lightness, a!, b!])]);
      }
  });
  it('names its middle by its own family', () => {
    for (const { family, middle } of cut.regions) {
      const [a, b] = [Math.cos, Math.sin].map((f) => middle.chroma * f((middle.hue * Math.PI) / 180));
      expect(familyOf([lightness, a!, b!])).toBe(family);
    }
  });
  it('is drawn as one field a family, without a number that is none', () => {
    const drawn = JSON.stringify(familyMap(cut));
    expect(drawn.match(/"tagName":"path"/g)).toHaveLength(cut.regions.length);
    expect(drawn).not.toMatch(/NaN|Infinity|undefined/);
  });
});
