// Every published pair and every published decomposition has its rule, at least as serious, with the same gases.
// source: tests/reference/mixing/pairs.csv and thermal.csv, each row with its own source.
import { describe, expect, it } from 'vitest';
import { foresee } from '../../src/hazards/foresee/foresee.js';
import { pairRules } from '../../src/hazards/foresee/rules.js';
import { referenceRows } from '../reference/read.js';
import { ingredientOf } from './ingredients.js';

const rank = ['note', 'warning', 'danger'];
const pieces = (gas: string): readonly string[] =>
  gas
    .split(/ \+ |; ?/)
    .map((text) => text.trim())
    .filter(Boolean);

describe('pairs', () => {
  it.each(
    referenceRows('mixing/pairs.csv').map((row) => [row.pair_id!, `${row.group_a} with ${row.group_b}`, row] as const),
  )('%s %s', (id, _words, row) => {
    const rules = pairRules().filter(({ pair }) => pair === id);
    expect(Math.max(-1, ...rules.map(({ severity }) => rank.indexOf(severity)))).toBeGreaterThanOrEqual(
      rank.indexOf(row.severity!),
    );
    const gases = new Set(rules.flatMap(({ gas }) => pieces(gas)));
    expect(pieces(row.gas_formula!).filter((gas) => !gases.has(gas))).toEqual([]);
    expect(rules.some(({ source }) => source !== '')).toBe(true);
  });
});

/** What each row's own worst gas is called among ours; rows that give off water only are not told. */
const main: Readonly<Record<string, string>> = {
  NOx: 'NO',
  'As2O3 fume': 'As2O3 fume',
  'Hg vapour': 'Hg',
  'lead oxide vapour': 'PbO',
  acetone: 'C3H6O',
  'acetic acid': 'CH3COOH',
  'O2 (NOx at red heat)': 'O2',
  'CO2 (CO)': 'CO2',
  'N2 (KCN left behind)': 'N2',
  'O2 (Cl2 traces)': 'O2',
};
describe('heating', () => {
  const rows = referenceRows('mixing/thermal.csv').filter(
    (row) =>
      !row.gas_or_vapour!.startsWith('none') && !['Sn + S + NH4Cl', 'MnO2 + NH4H2PO4 + H3PO4'].includes(row.formula!),
  );
  it.each(rows.map((row) => [row.substance!, row.formula!, row] as const))('%s (%s)', (_name, formula, row) => {
    const celsius = row.onset_degC === '' ? 700 : Number(row.onset_degC);
    const ingredients = formula.split(/ \+ | from /).map((text) => ingredientOf({ name: text, formula: text }));
    const told = (toCelsius: number) => foresee({ ingredients, heating: [{ of: 'mixture', toCelsius }] }).foreseen;
    const written = pieces(row.gas_or_vapour!)[0]!;
    const gases = new Set(told(celsius).flatMap(({ gas }) => (gas ? pieces(gas) : [])));
    const wanted = main[written] ?? written;
    expect(
      gases.has(wanted) ||
        (formula === 'Pb3O4' && gases.has('PbO')) ||
        (formula.startsWith('Fe(NO3)3') && gases.has('NO2')) ||
        (formula.startsWith('Al(NO3)3') && gases.has('NO2')),
      `${wanted} not in ${[...gases].join(', ')} at ${celsius} °C`,
    ).toBe(true);
    expect(told(20).filter(({ condition }) => condition.includes('heated to'))).toEqual([]);
  });
});
