// Dates as they are written by hand in six languages: read where only one day can be meant, asked where two can.
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../src/journal/index.js';

const dated = (date: string) =>
  readEntry('entries/001-x.md', `---\nnumber: 1\ntitle: T\ndate: ${date}\nstatus: finished\n---\nWords.\n`);

describe('a date that can only mean one day is read, and said', () => {
  it.each([
    ['Samstag, der 7. März 2026', '2026-03-07'],
    ['Samstag, 7. März 2026', '2026-03-07'],
    ['Sa., den 7. 3. 2026', '2026-03-07'],
    ['Sat 7 March 2026', '2026-03-07'],
    ['Saturday the 7th of March, 2026', '2026-03-07'],
    ['on Saturday, March 7, 2026', '2026-03-07'],
    ['samedi 7 mars 2026', '2026-03-07'],
    ['le samedi 7 mars 2026', '2026-03-07'],
    ['sábado, 7 de marzo de 2026', '2026-03-07'],
    ['el sábado 7 de marzo del 2026', '2026-03-07'],
    ['sabato 7 marzo 2026', '2026-03-07'],
    ['zaterdag 7 maart 2026', '2026-03-07'],
    ['mar. 3 mars 2026', '2026-03-03'],
    ['2026 März 7', '2026-03-07'],
    ['14.2.26', '2026-02-14'],
    ['14/2/26', '2026-02-14'],
    ['2/14/26', '2026-02-14'],
    ['14.02.26', '2026-02-14'],
    ['Sa 14.2.26', '2026-02-14'],
    ['14 Feb 26', '2026-02-14'],
    ['14. Feb. ’26', '2026-02-14'],
    ['2.2.26', '2026-02-02'],
    ['Sat 7/3/2026', '2026-03-07'],
    ['3.14.2026', '2026-03-14'],
    ['2026-03-07 14:30', '2026-03-07'],
    ['2026-03-07T14:30:00', '2026-03-07'],
    ['7 March 2026, 14:30', '2026-03-07'],
    ['7. März 2026 um 9.30 Uhr', '2026-03-07'],
    ['7 March 2026, evening', '2026-03-07'],
    ['1º de agosto de 2026', '2026-08-01'],
    ['3 aout 98', '1998-08-03'],
  ])('%s is %s', (written, meant) => {
    const { entry, remarks } = dated(written);
    expect(entry?.date).toBe(meant);
    expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['read-as']);
  });

  it('and a month alone stays a month', () => {
    expect(dated('im März 2026').entry?.date).toBe('2026-03');
    expect(dated('marzo de 2026').entry?.date).toBe('2026-03');
  });
});

describe('a date that may be two days is asked, with both', () => {
  it.each([
    ['3/4/26', '2026-04-03 or 2026-03-04'],
    ['3.2.26', '2026-02-03 or 2026-03-02'],
    ['14-02-26', '2026-02-14 or 2014-02-26'],
  ])('%s may be %s', (written, either) => {
    const [one] = dated(written).remarks;
    expect(one).toMatchObject({ ruleId: 'date', fatal: true });
    expect(one?.reason).toContain(`may be ${either}`);
  });

  it('and a weekday that does not fit its day is told', () => {
    const [one] = dated('Monday 7 March 2026').remarks;
    expect(one?.reason).toContain('that day was a Saturday');
  });

  it.each(['31.2.26', 'some day in March', '7 March or 8 March 2026', '14.2', 'March', '7 Smarch 2026', '40/50/26'])(
    '%s is none',
    (written) => {
      expect(dated(written).entry).toBeUndefined();
      expect(dated(written).remarks[0]).toMatchObject({ ruleId: 'date', fatal: true });
    },
  );
});
