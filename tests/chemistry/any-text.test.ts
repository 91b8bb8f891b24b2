// Whatever is typed, the readers answer with a value or a fault that can be acted on; none throws.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  balance,
  formulaRuns,
  ionsOf,
  molarMass,
  parseEquation,
  parseFormula,
  parseQuantity,
  spokenFormula,
} from '../../src/chemistry/index.js';

const scraps = fc.constantFrom(
  'Cu',
  'SO4',
  'Na2',
  'CO3',
  '(',
  ')',
  '[',
  ']',
  '{',
  '}',
  '·',
  '.',
  '*',
  '^',
  '2-',
  '3+',
  '+',
  '-',
  '->',
  '=',
  '→',
  ' ',
  '5',
  '0',
  '½',
  'x',
  'n',
  'H2O',
  'e^-',
  '²',
  '₂',
  ',',
  '5.00 g',
  '±',
  '%',
  'mol/L',
  'purity',
  'excess',
  '<sub>',
  '</sup>',
  '\\ce{',
  '$',
  '_{2}',
  'α-',
  '↓',
  '(III)',
  ' x ',
  '⁻',
  'of',
  '(37 %)',
  '~',
  "'",
  '/',
  '1e9',
  '99999',
  '\u0000',
  '🙂',
  'ﬀ',
  '（',
  'Ω',
);
const text = fc.oneof(
  fc.array(scraps, { maxLength: 24 }).map((parts) => parts.join('')),
  fc.string({ maxLength: 60 }),
  fc.string({ unit: 'grapheme', maxLength: 40 }),
);

describe('for any text', () => {
  test.each([
    ['formula', parseFormula],
    ['quantity', parseQuantity],
    ['equation', parseEquation],
    ['balance', balance],
  ] as const)('%s: a value, or a fault with a sentence and a place within the text', (_, read) => {
    fc.assert(
      fc.property(text, (written) => {
        const outcome = read(written);
        if (outcome.ok) return;
        expect(outcome.fault.code).toMatch(/^[a-z0-9-]+$/);
        expect(outcome.fault.message).toMatch(/\.$/);
        if (outcome.fault.column !== undefined) {
          expect(outcome.fault.column).toBeGreaterThanOrEqual(1);
          expect(outcome.fault.column).toBeLessThanOrEqual(written.length + 1);
        }
      }),
      { numRuns: 1500 },
    );
  });
  test('what was read can be weighed, taken apart, set and spoken', () => {
    fc.assert(
      fc.property(text, (written) => {
        const outcome = parseFormula(written);
        formulaRuns(written);
        spokenFormula(written);
        ionsOf(written);
        if (outcome.ok) molarMass(outcome.value);
      }),
      { numRuns: 1500 },
    );
  });
  test('the largest equation that is let in has more kinds of atoms than substances, and is said to have no solution', () => {
    const symbols = [
      'H',
      'C',
      'N',
      'O',
      'Na',
      'S',
      'Cl',
      'Fe',
      'Cu',
      'Pb',
      'K',
      'Ca',
      'Ba',
      'Zn',
      'Cd',
      'Hg',
      'Mg',
      'Al',
      'Si',
      'P',
      'Mn',
      'Cr',
      'Co',
      'Ni',
      'Ag',
      'Au',
      'Sn',
      'Sb',
      'Bi',
      'V',
    ];
    const wild = (n: number): string =>
      symbols.map((symbol, index) => `${symbol}${(((n + 7) * (index + 13) * 7919) % 99991) + 1}`).join('');
    const side = (from: number): string =>
      Array.from({ length: 17 }, (_, index) => wild(from + index))
        .join(' + ')
        .slice(0, 1900)
        .replace(/\s*\+\s*[^+]*$/, '');
    const text = `${side(1)} -> ${side(100)}`;
    expect(text.length).toBeGreaterThan(3000);
    expect(balance(text)).toMatchObject({ ok: false, fault: { code: 'no-solution' } });
  });
});
