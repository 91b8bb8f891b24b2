// Gas at worst: limiting partner, moles, litres and ppm against sums made by hand, with hydrates, strengths and
// densities.
import { describe, expect, it } from 'vitest';
import { foresee } from '../../src/hazards/foresee/foresee.js';
import { gasFormulae } from '../../src/hazards/foresee/gases.js';
import { referenceRows } from '../reference/read.js';
import { reading } from './ingredients.js';

/** What is foreseen of a row's pot in its room, heated where it says so. */
const foreseenOf = (row: Record<string, string>) =>
  foresee({
    ingredients: row.reagents!.split('; ').map(reading),
    roomCubicMetres: row.cubic_metres!,
    ...(row.celsius && { heating: [{ of: 'mixture', toCelsius: Number(row.celsius) }] }),
  });

describe('a pinch and kilograms of the same', () => {
  // source: tests/reference/mixing/severity-by-amount.csv, written by hand sums before the first run
  it.each(referenceRows('mixing/severity-by-amount.csv').map((row) => [`${row.id} ${row.reagents}`, row] as const))(
    '%s',
    (_title, row) => {
      const { foreseen } = foreseenOf(row);
      expect(foreseen.find(({ rule }) => rule === row.rule)?.severity ?? 'silent').toBe(row.severity);
    },
  );
});

describe('gas at worst', () => {
  // source: tests/reference/mixing/amounts.csv, each row with its sum; half a per cent for other tables of atomic
  // weights
  it.each(referenceRows('mixing/gas-sums.csv').map((row) => [`${row.rule}: ${row.reagents}`, row] as const))(
    '%s',
    (_title, row) => {
      const { foreseen } = foreseenOf(row);
      const one = foreseen.find(({ rule }) => rule === row.rule)!;
      expect(gasFormulae(one.gas!)).toContain(row.gas);
      expect(Math.abs(Number(one.worstCase!.mol) / Number(row.mol) - 1)).toBeLessThan(0.02);
      // 24.4654 L/mol at 25 °C and 101.325 kPa.
      expect(Number(one.worstCase!.litres) / Number(row.mol)).toBeCloseTo(24.4654, 0);
    },
  );
  it.each(referenceRows('mixing/amounts.csv').map((row) => [`${row.rule}: ${row.reagents}`, row] as const))(
    '%s',
    (_title, row) => {
      const ingredients = row.reagents!.split('; ').map(reading);
      const { foreseen } = foresee({
        ingredients,
        roomCubicMetres: row.cubic_metres!,
        ...(row.celsius && { heating: [{ of: 'mixture', toCelsius: Number(row.celsius) }] }),
      });
      const worst = foreseen.find(({ rule }) => rule === row.rule)?.worstCase;
      for (const [key, wanted] of [
        ['mol', row.mol],
        ['litres', row.litres],
        ['roomPpm', row.room_ppm],
      ] as const) {
        expect(
          Math.abs(Number(worst?.[key]) / Number(wanted) - 1),
          `${key} ${worst?.[key]} against ${wanted}`,
        ).toBeLessThan(0.005);
      }
      // Each multiple is that of the gas it names, which is never more than all the gas there is.
      for (const { ppm, times } of worst!.limits)
        expect(Number(ppm) * Number(times)).toBeLessThanOrEqual(Number(worst!.roomPpm) * 1.0001);
    },
  );
});
