// The question whether a salt was weighed with its water is asked whatever way its formula is spelt.
import { describe, expect, it } from 'vitest';
import { usualHydrate } from '../../src/reckoning/hydrates.js';

describe('the hydrate in which a salt is usually sold', () => {
  it.each([
    ['CuSO4', 'CuSO4·5H2O'],
    ['CuO4S', 'CuSO4·5H2O'],
    ['CuSO₄', 'CuSO4·5H2O'],
    ['Cu(NO3)2', 'Cu(NO3)2·3H2O'],
    ['CuN2O6', 'Cu(NO3)2·3H2O'],
    ['Cu(C2H3O2)2', 'Cu(CH3COO)2·H2O'],
  ])('%s', (formula, hydrate) => expect(usualHydrate(formula)).toBe(hydrate));

  it.each(['CuSO4·5H2O', 'CuSO4.H2O', 'CuS', 'verdigris', ''])('none of %s', (formula) =>
    expect(usualHydrate(formula)).toBeUndefined(),
  );
});
