// Scenarios with what should be foreseen, and harmless ones in which nothing may alarm.
// source: tests/reference/mixing/cases.csv, each row with its own source; heat.csv reads the temperature out of the
// row's procedure.
import { describe, expect, it } from 'vitest';
import { foresee } from '../../src/hazards/foresee/foresee.js';
import type { Foreseen, Mixture } from '../../src/hazards/foresee/contracts.js';
import { referenceRows } from '../reference/read.js';
import { reading } from './ingredients.js';

const heats = new Map(referenceRows('mixing/heat.csv').map((row) => [row.case_id!, Number(row.celsius)]));

function potOf(reagents: string, celsius: number | undefined): Mixture {
  return {
    ingredients: reagents.split(/; /).map(reading),
    ...(celsius && { heating: [{ of: 'mixture', toCelsius: celsius }] }),
  };
}
const serious = (foreseen: readonly Foreseen[]): readonly Foreseen[] =>
  foreseen.filter(({ severity }) => severity !== 'note');
const pieces = (gas: string): readonly string[] =>
  gas
    .split(/ \+ |; ?/)
    .map((text) => text.replace(' fume', '').trim())
    .filter(Boolean);

const cases = referenceRows('mixing/cases.csv');

describe.each(cases.filter((row) => row.expected_warnings !== 'none').map((row) => [row.case_id!, row] as const))(
  '%s',
  (id, row) => {
    const { foreseen, unknown } = foresee(potOf(row.reagents!, heats.get(id)));
    it(`foresees ${row.expected_pair_ids}: ${row.expected_warnings}`, () => {
      expect(unknown).toEqual([]);
      const pairs = new Set(foreseen.map(({ pair }) => pair));
      expect(row.expected_pair_ids!.split(' ').filter((pair) => pair !== 'thermal' && !pairs.has(pair))).toEqual([]);
      const gases = new Set(foreseen.flatMap(({ gas }) => (gas ? pieces(gas) : [])));
      expect(
        pieces(row.expected_gases!).filter((gas) => !gases.has(gas)),
        'gases',
      ).toEqual([]);
    });
    it(`is as serious as ${row.highest_expected_severity}`, () => {
      const rank = ['note', 'warning', 'danger'];
      const highest = Math.max(-1, ...foreseen.map(({ severity }) => rank.indexOf(severity)));
      expect(highest).toBeGreaterThanOrEqual(rank.indexOf(row.highest_expected_severity!));
    });
    it('alarms at nothing that is neither expected nor acceptable', () => {
      const allowed = new Set([...row.expected_pair_ids!.split(' '), ...row.acceptable_extra_pair_ids!.split(' ')]);
      const extra = serious(foreseen).filter(
        ({ pair, rule }) =>
          !(pair !== undefined && allowed.has(pair)) && !(pair === undefined && expectedByHeat(id, rule)),
      );
      expect(extra.map(({ rule, severity }) => `${rule} ${severity}`)).toEqual([]);
    });
  },
);

/** Rules of heating and of single things, which the rows do not name by a pair. */
const byHeat: Readonly<Record<string, readonly string[]>> = {
  C36: ['ammonium-dichromate-heated'],
  C48: ['cobalt-nitrate-heated'],
  C49: ['iron-ii-sulfate-heated'],
  C50: ['arsenic-sulfide-heated'],
  // Hot or fuming partners that the row's own procedure names, and which are true of it.
  C33: ['flammable-liquid-heated'],
  C40: ['nitric-acid-heated', 'white-arsenic-itself'],
  C08: ['nitric-acid-heated'],
  C17: ['nitric-acid-heated'],
  // Poisons by themselves, which the rows do not ask about: aniline, cyanide, white arsenic.
  C02: ['skin-poison-itself'],
  C37: ['cyanide-itself'],
  C41: ['white-arsenic-itself'],
  C46: ['cyanide-itself'],
};
const expectedByHeat = (id: string, rule: string): boolean => byHeat[id]?.includes(rule) ?? false;

describe('harmless scenarios', () => {
  it.each(cases.filter((row) => row.expected_warnings === 'none').map((row) => [row.case_id!, row.reagents!]))(
    '%s: no alarm for %s',
    (id, reagents) => {
      const { foreseen, unknown } = foresee(potOf(reagents, heats.get(id)));
      expect(unknown).toEqual([]);
      expect(serious(foreseen).map(({ rule, severity }) => `${rule} ${severity}`)).toEqual([]);
    },
  );
});
