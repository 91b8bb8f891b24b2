// Whatever is typed as a reagent, it is resolved or refused with a fault that can be acted on; nothing throws.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { assumptionsOf, doubtSentence, resolveText } from '../../src/reagents/index.js';
import { arbitraryText, expectFault, mutated } from '../any-text.js';

const reagents = mutated([
  'CuSO4·5H2O 5.00 g',
  'CuSO4·xH2O 5.00 g',
  '(Zn,Mn)O 2 g',
  'HCl 25 mL 2.0 mol/L',
  'HCl 10 mL 1.18 g/mL',
  '25.0 mL of 0.100 M NaOH',
  'Na2CO3 2.50 g, purity 95-99 %',
  'acetic acid (glacial) 3 mL',
  'vinegar 5 drops drop 0.05 mL',
  'potassium nitrite [KNO2] 3 g',
]);

describe('for any text', () => {
  test('a reagent in one line', () => {
    fc.assert(
      fc.property(fc.oneof(arbitraryText, reagents), (written) => {
        const outcome = resolveText(written);
        if (!outcome.ok) return expectFault(outcome.fault, written);
        expect(outcome.value.taken.substance?.value.isNaN() ?? false).toBe(false);
        assumptionsOf(outcome.value);
        outcome.value.doubts.map(doubtSentence);
        return undefined;
      }),
      { numRuns: 1500 },
    );
  });
});
