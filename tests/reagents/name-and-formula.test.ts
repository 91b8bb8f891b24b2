// Names and formulae that stand side by side: which are of one substance, and which are not.
import { describe, expect, it } from 'vitest';
import { formulaContradicted } from '../../src/reagents/index.js';
import { referenceRows } from '../reference/read.js';

describe('a name and the formula beside it', () => {
  it.each(referenceRows('reagents/name-and-formula.csv').map((row) => [row.name!, row.formula!, row.kind!] as const))(
    '%s, %s: %s',
    (name, formula, kind) => expect(formulaContradicted(name, formula) !== undefined).toBe(kind === 'another'),
  );
});
