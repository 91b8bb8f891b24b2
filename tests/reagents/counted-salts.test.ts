// Names that count a salt's metal or its hydrogen, against formulae of published nomenclature. source:
// tests/reference/reagents/counted-salts.csv, each row with its own.
import { describe, expect, it } from 'vitest';
import { hillFormula, parseFormula } from '../../src/chemistry/index.js';
import { cupboardOf, readReagentText, resolveReagent } from '../../src/reagents/index.js';
import { referenceRows } from '../reference/read.js';

/** The formula that a line as it is typed is taken for. */
function takenFor(line: string): string | undefined {
  const read = readReagentText(line);
  return read.ok
    ? resolveReagent(
        read.value,
        cupboardOf(new Map(), () => undefined),
      ).substance?.formula
    : undefined;
}
/** A formula by its atoms alone, however its groups are written. */
function atomsOf(formula = ''): string {
  const parsed = parseFormula(formula);
  return parsed.ok ? hillFormula(parsed.value) : `no formula: ${formula}`;
}

describe('salts whose names count', () => {
  it.each(referenceRows('reagents/counted-salts.csv').map(({ name, formula }) => [name!, formula!]))(
    '%s is %s',
    (name, formula) => {
      expect(atomsOf(takenFor(`${name} 5 g`))).toEqual(atomsOf(formula));
    },
  );

  it('that are basic salts, or whose count says nothing of hydrogen, are left to the tables', () => {
    expect(takenFor('tribasic lead sulfate')).not.toBe('Pb3SO4');
    expect(takenFor('sodium sesquisilicate')).toBeUndefined();
    expect(takenFor('dilead trioxide')).toBe('Pb2O3');
  });
});
