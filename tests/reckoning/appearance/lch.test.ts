// A colour that an instrument tells as lightness, chroma and hue is the same as its Lab. Figures by hand:
// a* = C* cos h, b* = C* sin h; 41.5 at 75.5° is 10.39, 40.18.
import { expect, it } from 'vitest';
import { reckonAppearance } from '../../../src/reckoning/appearance/appearance.js';
import { emptyRoom, entry } from '../entries.js';

const colours = (a: string, b: string) =>
  reckonAppearance(
    entry(
      15,
      `samples:
  - { sample: A, colour: { ${a}, illuminant: D65, observer: 10 } }
  - { sample: B, colour: { ${b}, illuminant: D65, observer: 10 } }`,
    ),
    emptyRoom,
  );

it('is read as Lab', () => {
  const { appearance, findings } = colours('lab: [60, 10, 40]', 'lch: [60, 41.5, 75.5]');
  expect(findings).toEqual([]);
  const [, b] = appearance.samples;
  expect(b!.lab!.map((one) => one.toFixed(1))).toEqual(['60.0', '10.4', '40.2']);
});

it('several drawdowns have their mean', () => {
  const { appearance } = colours(
    'readings: [{ lch: [62, 38, 355], drawdown: 1 }, { lch: [62, 38, 5], drawdown: 2 }]',
    'lab: [62, 38, 0]',
  );
  // The mean of hues either side of 0° is red, not cyan.
  const [a] = appearance.samples;
  const [, red, yellow] = a!.lab!;
  expect(red).toBeGreaterThan(37);
  expect(Math.abs(yellow!)).toBeLessThan(0.1);
});
