// Words that set a sample apart and tell of another reagent, another strength, or a share more or less, in five
// languages. The sentences are invented; what each tells is common practice, no source.
import { describe, expect, it } from 'vitest';
import { reckonAmounts } from '../../../src/reckoning/amounts/amounts.js';
import { emptyRoom, entry } from '../entries.js';

interface Facts {
  readonly name?: string;
  readonly instead?: string;
  readonly strength?: string;
  readonly replacedBy?: string;
  readonly isLeftOut: boolean;
}

function found(differs: string, more = '', wanted = 'amount-in-words-only'): readonly Facts[] {
  const { findings } = reckonAmounts(
    entry(
      14,
      `reagents:
  - { reagent: { name: soda, formula: Na2CO3 }, amount: 2.50 g }
  - { reagent: { name: lye, formula: NaOH, strength: 2.00 mol/L }, amount: 40.0 mL }
  - { reagent: { name: vinegar, formula: CH3COOH, strength: 5 % }, amount: 60 mL }
  - { reagent: { name: trisodium phosphate dodecahydrate, formula: Na3PO4·12H2O }, amount: 3.80 g }
  - { reagent: carbonato di stronzio, amount: 3.00 g }
  - { reagent: water, amount: 100 mL }
samples:
  - { sample: A, obtained: 1.98 g }
  - { sample: B, differs: ${JSON.stringify(differs)}, obtained: 1.02 g${more} }`,
    ),
    emptyRoom,
  );
  return findings.filter(({ rule }) => rule === wanted).map(({ facts }) => facts as unknown as Facts);
}

describe('another reagent', () => {
  it.each([
    ['potash in place of the soda', 'soda'],
    ['potash instead of soda', 'soda'],
    ['Ammoniak statt Soda', 'soda'],
    // `soude` and `sosa` alone are the caustic one.
    ['de la potasse au lieu de la soude', 'lye'],
    ['con potassa invece della soda', 'soda'],
    ['soda swapped for potash', 'soda'],
    ['soda replaced by sodium bicarbonate', 'soda'],
    ['Soda ersetzt durch Pottasche', 'soda'],
    ['Essigessenz statt Essig', 'vinegar'],
    ['potasa en vez de sosa', 'lye'],
  ])('%s', (differs, name) => {
    expect(found(differs)).toMatchObject([{ name, isLeftOut: true }]);
    expect(found(differs)[0]!.replacedBy).toBeTruthy();
  });
});

describe('another strength', () => {
  it.each([
    ['weaker lye', 'lye', ''],
    ['lye at 1 mol/L', 'lye', '1 mol/L'],
    ['the lye only 1 M', 'lye', '1 M'],
    ['1.0 M lye', 'lye', '1.0 M'],
    ['the lye twice as strong', 'lye', ''],
    ['10 % vinegar', 'vinegar', '10 %'],
    ['vinegar, 25 % rather than 5 %', 'vinegar', '25 %'],
    ['Essig von 10 %', 'vinegar', '10 %'],
    ['stärkerer Essig', 'vinegar', ''],
    ['vinagre más fuerte', 'vinegar', ''],
  ])('%s', (differs, name, strength) => {
    expect(found(differs)).toMatchObject([{ name, strength, isLeftOut: false }]);
  });
});

describe('a share more or less', () => {
  it.each([
    ['un quinto di soda in meno', 'soda', '2 g'],
    ['con il doppio della soda', 'soda', '5 g'],
    ['metà della soda', 'soda', '1.25 g'],
    ['one and a half times the soda', 'soda', '3.75 g'],
    ['half as much soda again', 'soda', '3.75 g'],
    ['ein Drittel mehr Soda', 'soda', '3.33 g'],
    ['un tiers de soude en plus', 'lye', '53.3 mL'],
    ['20 % more soda', 'soda', '3 g'],
    ['10 % less soda', 'soda', '2.25 g'],
    ['moitié moins de soude', 'lye', '20 mL'],
    ['half the phosphate', 'trisodium phosphate dodecahydrate', '1.9 g'],
    ['con un terzo di carbonato in più', 'carbonato di stronzio', '4 g'],
  ])('%s', (differs, name, instead) => {
    expect(found(differs)).toMatchObject([{ name, instead, isLeftOut: false }]);
  });

  it.each(['senza soda', 'niente soda'])('%s: it was left out', (differs) => {
    expect(found(differs)).toMatchObject([{ name: 'soda', isLeftOut: true }]);
  });

  it('nobody says how much', () => {
    expect(found('un pizzico di soda in più')).toMatchObject([{ name: 'soda', isLeftOut: false }]);
    expect(found('un pizzico di soda in più')[0]!.instead).toBeUndefined();
  });
});

describe('the same went in', () => {
  it.each([
    'soda dissolved hot instead of cold',
    'soda from another shop',
    'stirred twice as long after the soda',
    'senza agitare',
    'half an hour after the soda',
    'in half the time',
    'diluted to 200 mL',
    'warm water instead of cold',
    'soda stirred in slowly instead of poured',
    'lye 2 mol/L as always, dripped slowly',
    'lye of 2.00 M',
    'washed with 10 % vinegar',
    'washed with potash instead of soda',
    'rinsed with weaker lye',
    '5 % vinegar, warm',
    'prima la soda, poi il resto',
  ])('%s', (differs) => {
    expect(found(differs)).toEqual([]);
  });
});

describe('words against what is written for the sample', () => {
  const against = (differs: string, amount: string, reagent = 'soda') =>
    found(differs, `, change: [{ reagent: ${reagent}, amount: ${amount} }]`, 'words-against-change');

  it.each([
    ['half the soda', '2.00 g', '1.25 g'],
    ['half as much soda again', '5.00 g', '3.75 g'],
    ['10 % less soda', '2.00 g', '2.25 g'],
    ['doppelt so viel Soda', '3.75 g', '5 g'],
    ['un tercio de carbonato de sodio', '1.25 g', '0.833 g'],
    ['con il doppio della soda', '1.25 g', '5 g'],
    ['3 g of soda instead of 2.5 g', '3.5 g', '3 g'],
  ])('%s, and %s', (differs, amount, told) => {
    expect(against(differs, amount)).toMatchObject([{ name: 'soda', told, written: amount }]);
  });

  it.each([
    ['half the soda', '1.25 g'],
    ['a third of the soda', '0.83 g'],
    ['10 % less soda', '2.24 g'],
    ['less soda', '1.00 g'],
    ['soda dissolved hot', '2.00 g'],
    ['mehr Soda', '4 g'],
    ['2 °C, with lime in place of a third of the soda', '1.45 g'],
    ['Kalk statt eines Viertels der Soda', '1.9 g'],
    ['lime rather than half the soda', '1.10 g'],
  ])('%s, and %s: they tell the same', (differs, amount) => {
    expect(against(differs, amount)).toEqual([]);
  });
});
