// Dates and moments: whatever is written there is taken or refused with a sentence, and never throws.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { refusal } from '../../src/journal/check.js';
import { date, dateFault, moment, secondsOf } from '../../src/journal/values.js';
import { arbitraryText, mutated } from '../any-text.js';

const twoDigits = (value: number): string => String(value).padStart(2, '0');
const fewDigits = fc.stringMatching(/^\d{1,5}[-/. ]\d{0,3}[-/. ]\d{0,3}$/);

describe('a date', () => {
  test('is taken or refused in a sentence, whatever is written', () => {
    fc.assert(
      fc.property(fc.oneof(arbitraryText, mutated(['2026-03-14', '2024-02-29']), fewDigits), (text) => {
        const refused = refusal(date, text, 'it');
        if (refused === undefined) expect(text).toMatch(/^\d{4}-\d{2}-\d{2}$/);
        else expect(refused).toMatch(/^it is .*\.$/s);
      }),
      { numRuns: 2000 },
    );
  });

  // The calendar of the platform, asked the other way: does it give back the day that it was given?
  test('is a day of the calendar, and no other', () => {
    const part = (max: number) => fc.integer({ min: 0, max });
    fc.assert(
      fc.property(fc.integer({ min: 1000, max: 9999 }), part(14), part(33), (year, month, day) => {
        const text = `${year}-${twoDigits(month)}-${twoDigits(day)}`;
        const there = new Date(`${text}T00:00:00Z`);
        const exists = !Number.isNaN(there.getTime()) && there.toISOString().slice(0, 10) === text;
        expect(dateFault(text) === undefined, text).toBe(exists);
      }),
      { numRuns: 5000 },
    );
  });
});

describe('a moment of a video', () => {
  test('is taken or refused in a sentence, whatever is written', () => {
    fc.assert(
      fc.property(fc.oneof(arbitraryText, mutated(['3:40', '1:02:09', '0:00'])), (text) => {
        const refused = refusal(moment, text, 'it');
        if (refused === undefined) expect(Number.isInteger(secondsOf(text))).toBe(true);
        else expect(refused).toMatch(/^it is .*\.$/s);
      }),
      { numRuns: 2000 },
    );
  });

  test('says how many seconds from the start it is', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 99 * 3600 + 3599 }), (seconds) => {
        const [hours, minutes, rest] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
        const text = `${hours > 0 ? `${hours}:${twoDigits(minutes)}` : minutes}:${twoDigits(rest)}`;
        expect(refusal(moment, text, 'it')).toBeUndefined();
        expect(secondsOf(text)).toBe(seconds);
      }),
    );
  });
});
