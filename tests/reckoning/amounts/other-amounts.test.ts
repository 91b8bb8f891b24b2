// Words that set a sample apart and tell of another amount than is written for it. The sentences are invented in the
// voices of makers; what each tells is common practice, no source.
import { describe, expect, it } from 'vitest';
import { reckonAmounts } from '../../../src/reckoning/amounts/amounts.js';
import { emptyRoom, entry } from '../entries.js';

interface Facts {
  readonly id?: string;
  readonly instead?: string;
  readonly isLeftOut: boolean;
}

/** What is found of a sample B that differs so, with borax 15.0 g, chalk 8.0 g and water 200 mL for all. */
function found(differs: string, more = ''): readonly Facts[] {
  const { findings } = reckonAmounts(
    entry(
      14,
      `reagents: [borax 15.0 g, chalk 8.0 g, water 200 mL]
samples:
  - { sample: A, obtained: 1.98 g }
  - { sample: B, differs: ${JSON.stringify(differs)}, obtained: 1.02 g${more} }`,
    ),
    emptyRoom,
  );
  return findings.filter(({ rule }) => rule === 'amount-in-words-only').map(({ facts }) => facts as unknown as Facts);
}

describe('the words of a sample tell of another amount', () => {
  it.each([
    ['boiling water and half the borax', 'borax', '7.5 g'],
    ['twice as much chalk', 'chalk', '16 g'],
    ['12 g of borax instead of 15', 'borax', '12 g'],
    ['1.5 x the borax', 'borax', '22.5 g'],
    ['chalk doubled', 'chalk', '16 g'],
    ['borax upped from 15.0 to 18 g', 'borax', '18 g'],
    ['80 % of the chalk', 'chalk', '6.4 g'],
    ['doppelt so viel Borax, sonst gleich', 'borax', '30 g'],
    ['la moitié de la craie', 'chalk', '4 g'],
    ['in twice the water', 'water', '400 mL'],
  ])('%s', (differs, id, instead) => {
    expect(found(differs)).toMatchObject([{ id, instead, isLeftOut: false }]);
  });

  it.each([
    ['without the chalk', 'chalk'],
    ['chalk left out', 'chalk'],
    ['ohne Borax', 'borax'],
  ])('%s: it was left out', (differs, id) => {
    expect(found(differs)).toMatchObject([{ id, isLeftOut: true }]);
  });

  it.each([
    ['a bit more borax', 'borax'],
    ['lost some of the chalk on the bench', 'chalk'],
    ['borax, a third less than in A', 'borax'],
  ])('%s: nobody says how much', (differs, id) => {
    expect(found(differs)).toMatchObject([{ id, isLeftOut: false }]);
    expect(found(differs)[0]!.instead).toBeUndefined();
  });

  it.each(['half batch', 'double scale', 'whole recipe x3', 'borax to chalk 2:1 instead of 15:8'])(
    '%s: all amounts are others',
    (differs) => {
      expect(found(differs)).toHaveLength(1);
      expect(found(differs)[0]!.id).toBeUndefined();
    },
  );
});

describe('they tell of none', () => {
  it.each([
    'half an hour longer, then the borax',
    'coarser chalk',
    '15.0 g borax as in A, but ground finer',
    '5 g of the borax first, then the others',
    'no more borax than A, slower ramp',
    'no chalk until it was cold',
    'washed with 500 mL water',
    'twice the stirring while the borax went in',
    'hotter water, 70 °C',
    'chalk from another supplier',
  ])('%s', (differs) => {
    expect(found(differs)).toEqual([]);
  });

  it('where the sample has them written', () => {
    expect(found('half the borax', ', change: [{ reagent: borax, amount: 7.5 g }]')).toEqual([]);
    expect(found('without chalk', ', omit: [chalk]')).toEqual([]);
    expect(found('half batch', ', change: [{ reagent: borax, amount: 7.5 g }]')).toEqual([]);
  });
});
