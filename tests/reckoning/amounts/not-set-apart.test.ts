// Single samples of which the figures lie apart, and which are not set apart: by the last digit of the balance alone,
// or where what weighed more was not dry. Invented weighings; 5.8 g of ZnSO4·7H2O (287.6 g/mol) give at most 2.53 g of
// ZnCO3 (125.4 g/mol).
import { describe, expect, it } from 'vitest';
import { reckonAmounts } from '../../../src/reckoning/amounts/amounts.js';
import { emptyRoom, entry } from '../entries.js';

const verdictOf = (a: string, b: string, balance = '0.1 g') => {
  const settings = { ...emptyRoom.settings, balance };
  const { amounts } = reckonAmounts(
    entry(
      5,
      `pigment: { name: zinc carbonate, formula: ZnCO3 }
reaction: ZnSO4 + Na2CO3 -> ZnCO3 + Na2SO4
reagents:
  - { reagent: { name: zinc sulfate, formula: ZnSO4·7H2O }, amount: 5.8 g }
  - { reagent: { name: soda, formula: Na2CO3 }, amount: 2.6 g }
samples:
  - { sample: A, ${a} }
  - { sample: B, ${b} }`,
    ),
    { ...emptyRoom, settings },
  );
  return amounts.comparisons![0]!;
};

describe('one step of the balance', () => {
  it.each([
    ['obtained: 2.3 g', 'obtained: 2.2 g', '0.1 g'],
    ['obtained: 2.28 g', 'obtained: 2.27 g', '0.01 g'],
    // Digits that the balance does not show.
    ['obtained: 2.28 g', 'obtained: 2.20 g', '0.1 g'],
  ])('%s against %s on %s', (a, b, balance) => {
    const { differs, verdict } = verdictOf(a, b, balance);
    expect(differs).toBe(false);
    expect(verdict).toMatch(/cannot be told/);
  });

  it('two steps are more', () => {
    expect(verdictOf('obtained: 2.4 g', 'obtained: 2.2 g').differs).toBe(true);
  });

  it('where other amounts went in, the yield tells them apart', () => {
    const other = 'obtained: 2.2 g, change: [{ reagent: zinc sulfate, amount: 9.0 g }]';
    expect(verdictOf('obtained: 2.3 g', other).differs).toBe(true);
  });
});

describe('not dry', () => {
  it.each([
    'weighed still damp',
    'noch feucht gewogen',
    'encore humide',
    'pesado húmedo',
    'ancora umido',
    'washed once more, not quite dry',
    'ungetrocknet gewogen',
    'pas encore sec',
    'sin secar',
    'as a wet cake',
  ])('%s: what weighed more is not said to be more', (differs) => {
    const { differs: apart, verdict } = verdictOf(
      'obtained: 1.9 g',
      `differs: ${JSON.stringify(differs)}, obtained: 2.4 g`,
    );
    expect(apart).toBe(false);
    expect(verdict).toBe(
      `Sample B was weighed more than sample A, but it was not dry (“${differs}”): the difference may be water, and ` +
        'they are not compared.',
    );
  });

  it('by its weighings', () => {
    const dried = 'dried: [{ dish: 20.0 g, with-product: 23.4 g, after: 1 h }, { with-product: 22.4 g, after: 2 h }]';
    expect(verdictOf('obtained: 1.9 g', dried).verdict).toMatch(/still losing mass/);
  });

  it('what weighed less though it was wet is less', () => {
    expect(verdictOf('obtained: 2.4 g', 'differs: weighed still damp, obtained: 1.9 g').differs).toBe(true);
  });

  it.each(['ground wet', 'dried at 60 °C', 'wet-milled 1 h', 'more water'])('%s tells nothing of it', (differs) => {
    expect(verdictOf('obtained: 1.9 g', `differs: ${JSON.stringify(differs)}, obtained: 2.4 g`).differs).toBe(true);
  });
});
