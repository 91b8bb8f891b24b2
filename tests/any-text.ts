// Text that nobody would write and text that is nearly right: what every reader must answer with an outcome.
import fc from 'fast-check';
import { expect } from 'vitest';

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
  '(Zn,Mn)',
  '1-x',
  '1-x-y',
  '8-10',
  '3.5-2',
  'H20',
  '203',
  '^3',
  '0.3333333333333333333333333333333',
  ' - ',
  '99-95 %',
  '-300 K',
  '≥',
  'Tc',
);
/** Scraps of formulae and quantities in any order, and any characters at all. */
export const arbitraryText = fc.oneof(
  fc.array(scraps, { maxLength: 24 }).map((parts) => parts.join('')),
  fc.string({ maxLength: 60 }),
  fc.string({ unit: 'grapheme', maxLength: 40 }),
);

/** Text that is right, with one to four slips of the hand. */
export function mutated(samples: readonly string[]): fc.Arbitrary<string> {
  const slip = fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    kind: fc.constantFrom('delete', 'insert', 'repeat', 'swap'),
    scrap: scraps,
    length: fc.integer({ min: 1, max: 6 }),
  });
  return fc.tuple(fc.constantFrom(...samples), fc.array(slip, { maxLength: 4 })).map(([sample, slips]) =>
    slips.reduce((text, { at, kind, scrap, length }) => {
      const from = Math.floor(at * text.length);
      const [before, here, after] = [text.slice(0, from), text.slice(from, from + length), text.slice(from + length)];
      const pieces = {
        delete: [before, after],
        insert: [before, scrap, here, after],
        repeat: [before, here, here, after],
        swap: [before, after, here],
      };
      return pieces[kind].join('');
    }, sample),
  );
}

/** A fault a maker can act on: a stable code, a sentence, a place within the text. */
export function expectFault(
  { code, message, column }: { code: string; message: string; column?: number },
  written: string,
): void {
  expect(code).toMatch(/^[a-z0-9-]+$/);
  expect(message).toMatch(/\.$/);
  if (column === undefined) return;
  expect(Number.isInteger(column)).toBe(true);
  expect(column).toBeGreaterThanOrEqual(1);
  expect(column).toBeLessThanOrEqual(written.length + 1);
}
