// Pictograms, signal words and label statements that our precedence derives are those of the published table, row by
// row.
import { describe, expect, test } from 'vitest';
import {
  labelCodesOf,
  pictogramNames,
  pictogramsOf,
  signalWordOf,
  statement,
  substances,
  wording,
} from '../../../src/hazards/ghs/index.js';
import { classLabels, classOfCode, readClassification } from '../../../src/hazards/ghs/hazard-classes.js';
import { referenceRows } from '../../reference/read.js';

const published = referenceRows('hazards/substances.csv');
const sorted = (cell: string | undefined): string[] =>
  (cell ?? '')
    .split(';')
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .sort();

// Where the source's label column does not follow the precedence that CLP asks for, with the reason.
const labelDiffers: Readonly<Record<string, string>> = {
  'copper(II) nitrate': 'row from memory, printed before precedence: H318 beside H314, H400 beside H410',
};

describe('every published row', () => {
  const ours = new Map(substances().map((row) => [row.name, row]));
  test.each(published.map((row) => [row['name']!, row] as const))('%s', (name, row) => {
    const mine = ours.get(name)!;
    expect([...pictogramsOf(mine.classes)]).toEqual(sorted(row['pictograms']));
    expect(signalWordOf(mine.classes) ?? '').toBe(row['signal_word']);
    const derived = [...labelCodesOf(mine.codes)].sort();
    if (name in labelDiffers) expect(derived, labelDiffers[name]).not.toEqual(sorted(row['label_h_codes']));
    else expect(derived).toEqual(sorted(row['label_h_codes']));
  });
});

describe('precedence (hazards/pictogram-rules: UN GHS 1.4.10.5.3.1, CLP Article 26)', () => {
  const of = (classification: string, codes: string): readonly string[] =>
    pictogramsOf(readClassification(classification, codes));
  test('the skull drops the exclamation mark, whatever that stood for', () => {
    expect(of('Acute Tox. 3 (oral); STOT SE 3', 'H301; H335')).toEqual(['GHS06']);
  });
  test('corrosion drops an exclamation mark for skin or eyes only', () => {
    expect(of('Skin Corr. 1B; Eye Irrit. 2', 'H314; H319')).toEqual(['GHS05']);
  });
  test('corrosion of metals alone drops nothing', () => {
    expect(of('Met. Corr. 1; Skin Irrit. 2', 'H290; H315')).toEqual(['GHS05', 'GHS07']);
  });
  test('respiratory sensitisation drops an exclamation mark for skin sensitisation and irritation', () => {
    expect(of('Resp. Sens. 1; Skin Sens. 1; Eye Irrit. 2', 'H334; H317; H319')).toEqual(['GHS08']);
  });
  test('another health hazard does not', () => {
    expect(of('Carc. 1B; Skin Sens. 1', 'H350; H317')).toEqual(['GHS07', 'GHS08']);
  });
  test('hydrochloric acid keeps both (CLP 017-002-01-X)', () => {
    expect(of('STOT SE 3; Skin Corr. 1B', 'H335; H314')).toEqual(['GHS05', 'GHS07']);
  });
  test('Aquatic Chronic 2 has a pictogram and no signal word', () => {
    const held = readClassification('Aquatic Chronic 2', 'H411');
    expect([pictogramsOf(held), signalWordOf(held)]).toEqual([['GHS09'], undefined]);
  });
  test('nothing carries nothing', () => {
    expect([pictogramsOf([]), signalWordOf([])]).toEqual([[], undefined]);
  });
});

describe('statements', () => {
  const hStatements = referenceRows('hazards/h-statements.csv');
  test.each([...hStatements, ...referenceRows('hazards/p-statements.csv')].map((row) => [row['code']!, row['text']!]))(
    '%s has its published wording',
    (code, text) => {
      expect(statement(code)?.text).toBe(text);
      const filled = wording(code)!;
      expect(filled).not.toMatch(/[<>]|…/);
      expect(filled.length).toBeGreaterThan(3);
    },
  );

  test('each code of a single class has a class, and the pictogram of the statement list', () => {
    // H229 goes with H222 or H223, whose flame it shares; alone it is Aerosol 3, without a pictogram.
    for (const row of hStatements.filter((one) => /^H\d{3}$/.test(one['code']!) && one['code'] !== 'H229')) {
      const held = classOfCode(row['code']!);
      expect(held, row['code']).toBeDefined();
      const pictograms = new Set(
        classLabels()
          .filter((label) => label.code === row['code'])
          .flatMap((label) => label.pictograms),
      );
      expect([...pictograms].sort(), row['code']).toEqual(
        [...new Set(row['pictogram']!.match(/GHS0\d/g) ?? [])].sort(),
      );
    }
  });

  test.each([
    ['H350i', undefined, 'May cause cancer by inhalation.'],
    ['H301+H311', undefined, 'Toxic if swallowed or in contact with skin.'],
    ['H360FD', undefined, 'May damage fertility. May damage the unborn child.'],
    [
      'H373',
      { organs: 'kidney, bone' },
      'May cause damage to organs (kidney, bone) through prolonged or repeated exposure.',
    ],
    ['H372', undefined, 'Causes damage to organs through prolonged or repeated exposure.'],
    ['H350', undefined, 'May cause cancer.'],
    ['EUH208', { sensitiser: 'nickel sulfate' }, 'Contains nickel sulfate. May produce an allergic reaction.'],
    ['P302+P352', undefined, 'IF ON SKIN: Wash with plenty of water.'],
    ['P301+P310', undefined, 'IF SWALLOWED: Immediately call a POISON CENTER/doctor.'],
  ] as const)('%s is worded in full', (code, filling, text) => {
    expect(wording(code, filling ?? {})).toBe(text);
  });

  test('the nine pictograms have names', () => {
    expect(Object.keys(pictogramNames)).toEqual([
      'GHS01',
      'GHS02',
      'GHS03',
      'GHS04',
      'GHS05',
      'GHS06',
      'GHS07',
      'GHS08',
      'GHS09',
    ]);
  });
});

// UN GHS, Annex 1 (symbols and their names); CLP Annex V.
describe('the symbols', () => {
  test('are called by the names of the GHS', () => {
    expect(pictogramNames).toEqual({
      GHS01: 'exploding bomb',
      GHS02: 'flame',
      GHS03: 'flame over circle',
      GHS04: 'gas cylinder',
      GHS05: 'corrosion',
      GHS06: 'skull and crossbones',
      GHS07: 'exclamation mark',
      GHS08: 'health hazard',
      GHS09: 'environment',
    });
  });
  test('a class without a label of its own brings neither symbol nor word', () => {
    const nothing = { hazardClass: 'no such class', category: '9', code: 'H999' };
    expect(pictogramsOf([nothing])).toEqual([]);
    expect(signalWordOf([nothing])).toBeUndefined();
    expect(signalWordOf([], ['EUH066'])).toBeUndefined();
  });
});
