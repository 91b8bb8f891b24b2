// Text for a video's description: what stays, what goes first where room is short, chapters, the table of addresses.
import fc from 'fast-check';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import type { JournalModel } from '../../src/crosslinks/model.js';
import { openJournal } from '../../src/open.js';
import { blurb, chaptersOf, leavesFirst, videoAddresses } from '../../src/site/blurb.js';
import { bestYield } from '../../src/crosslinks/best-yield.js';
import { flatSample } from '../../src/site/data.js';
import { valuesOf } from '../../src/site/values.js';
import { findings } from '../../templates/parts/findings.js';
import { entry, folderOf, smallJournal } from '../journal-folder.js';

const facts = `question: Is it green?
answer: It is.
pigment: { name: malachite, formula: Cu2CO3(OH)2, colour-index: PG39 }
reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: { name: dragon's blood }, amount: 1 g }
samples:
  - { sample: A, differs: cold, obtained: 1.98 g }
videos:
  - url: https://video.example/1
    moments: [{ at: "3:40", shows: first precipitate }, { at: "5:15", shows: froth }]
follows: [1]
waste: Kept.
`;
let model: JournalModel;
beforeEach(async () => {
  const folder = folderOf(smallJournal({ 'journal/entries/014-malachite.md': entry(14, facts) }));
  model = (await openJournal(join(folder, 'journal'))).model!;
});
const made = (asked = {}) => {
  const outcome = blurb(model, 14, asked);
  if (!outcome.ok) throw new Error(outcome.fault.message);
  return outcome.value;
};

describe('a blurb', () => {
  it('answers first, then gives permanent addresses, hazards, chapters, series and what it follows', () => {
    const { text, address } = made();
    expect(address).toBe('https://test.example/base/14/');
    const order = [
      'Entry 14\nIs it green? It is.',
      'https://test.example/base/14/',
      'Sample A (cold): https://test.example/base/14/#A',
      'Hazards: signal word',
      'read the safety data sheets',
      '0:00 Beginning\n3:40 first precipitate',
      'https://test.example/base/series/Cu/',
      'Follows Entry 1: https://test.example/base/1/',
      'Pigment: malachite, Cu2CO3(OH)2, PG39',
    ].map((part) => text.indexOf(part));
    expect(order).not.toContain(-1);
    expect(order).toEqual([...order].sort((a, b) => a - b));
  });

  it('of what is only planned tells of no record, and of no page that is there', async () => {
    const at = async (status: string): Promise<string> => {
      const text = entry(14, `${facts}status: ${status}\n`);
      const folder = folderOf(smallJournal({ 'journal/entries/014-malachite.md': text }));
      model = (await openJournal(join(folder, 'journal'), { drafts: true })).model!;
      return made().text;
    };
    for (const status of ['planned', 'running']) {
      const text = await at(status);
      expect(text).toContain('once the entry is published: https://test.example/base/14/');
      expect(text).not.toContain('what was done');
      expect(text).toContain('not a procedure to follow: read the safety data sheets');
    }
    expect(await at('finished')).toContain('A record of what was done, not a procedure to follow');
  });

  it('names the gas that is foreseen', async () => {
    const matter = `reagents:
  - { reagent: { name: manganese dioxide, formula: MnO2 }, amount: 5 g }
  - { reagent: { name: hydrochloric acid, strength: 30 % }, amount: 20 mL }
precautions: [{ against: chlorine, do: "Outdoors only, upwind, in small portions." }]
`;
    const folder = folderOf(smallJournal({ 'journal/entries/014-malachite.md': entry(14, matter) }));
    model = (await openJournal(join(folder, 'journal'))).model!;
    expect(made().text).toContain('toxic gas: chlorine (higher metal oxide with hydrochloric acid)');
  });

  it('tells repeats of one recipe as one yield, the mean of them, and which sample repeats which', async () => {
    const matter = `pigment: { name: chalk, formula: CaCO3 }
reaction: CaCl2 + Na2CO3 -> CaCO3 + 2 NaCl
reagents:
  - { reagent: { name: calcium chloride, formula: CaCl2, purity: 100 % }, amount: 11.098 g }
  - { reagent: { name: soda, formula: Na2CO3, purity: 100 % }, amount: 12.0 g }
samples:
  - { sample: A, differs: cold, obtained: 9.00 g }
  - { sample: B, replicate-of: A, obtained: 9.40 g }
  - { sample: C, differs: warm, obtained: 9.30 g }
`;
    const folder = folderOf(
      smallJournal({ 'journal/entries/014-chalk.md': entry(14, matter, ':value[B.mean-yield]\n') }),
    );
    const opened = (await openJournal(join(folder, 'journal'))).model!;
    const told = blurb(opened, 14);
    const lines = told.ok ? told.value.text.split('\n').filter((line) => line.startsWith('Sample')) : [];
    const at = 'https://test.example/base/14/#';
    // 11.098 g CaCl2 are 0.1000 mol and give 10.009 g: 89.9, 93.9 and 92.9 %; by hand.
    expect(lines).toEqual([
      `Sample A (cold), yield of A and B 91.9 %, mean of 2, s 2.8: ${at}A`,
      `Sample B (repeats A): ${at}B`,
      expect.stringMatching(/^Sample C \(warm\), yield 92\.9 ± 0\.\d+ %: /) as string,
    ]);
    const [reckoned] = opened.entries.filter(({ entry: { number } }) => number === 14);
    const rows = opened.samples.filter(({ entry: { number } }) => number === 14);
    // The luckiest of two repeats is not the best: C is, by itself.
    expect(bestYield(reckoned!.amounts.samples)).toMatchObject({ samples: ['C'], over: false });
    expect(rows.map((row) => flatSample(row).repeats)).toEqual([undefined, 'A', undefined]);
    expect(valuesOf(reckoned!).get('B.mean-yield')).toBe('91.9 % (s 2.83, n 2)');
    const head = findings(reckoned!.amounts, reckoned!.appearance, bestYield(reckoned!.amounts.samples));
    expect(head[0]).toMatch(/^Best yield 92\.9 ± 0\.\d+ % \(C\)$/);
  });

  // By hand in tests/reckoning/amounts/amounts-found.test.ts: 2.4 g of what 3 g and 2.5 g make are 114.1 to 149.4 %.
  it('tells a yield by its bounds where it is undecided what limits, and above 100 % what that means', async () => {
    const matter = `pigment: { name: Hatchett's brown, formula: Cu2Fe(CN)6 }
reaction: 2 CuSO4 + K4Fe(CN)6 -> Cu2Fe(CN)6 + 2 K2SO4
reagents:
  - { reagent: blue-vitriol, amount: 3 g }
  - { reagent: { name: prussiate, formula: K4Fe(CN)6·3H2O }, amount: 2.5 g }
samples: [{ sample: A, obtained: 2.4 g }]
`;
    const folder = folderOf(smallJournal({ 'journal/entries/014-brown.md': entry(14, matter) }));
    model = (await openJournal(join(folder, 'journal'))).model!;
    expect(made().text).toContain('Sample A, yield 114 to 150 %, above 100 %: wet or impure: https://');
    expect(flatSample(model.samples.find((row) => row.entry.number === 14)!)).toMatchObject({
      percent_yield_expanded_uncertainty: '29.8',
      percent_yield_at_least: '114.087',
      percent_yield_at_most: '149.415',
      percent_yield_remark: 'above 100 %: wet or impure',
    });
  });

  it('names what has no hazard data', () => {
    const [line = ''] = made().text.match(/^Hazards: .*$/m) ?? [];
    expect(line).toContain("no hazard data for dragon's blood, to be treated as hazardous");
    expect(line).toContain('H302');
  });

  it('keeps within a length by leaving out whole parts in the stated order, hazards and where they are told never', () => {
    const whole = made();
    const shortest = [...made({ length: 100_000 }).text].length;
    expect(shortest).toBe([...whole.text].length);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: shortest + 10 }), (length) => {
        const outcome = blurb(model, 14, { length });
        if (!outcome.ok) {
          expect(outcome.fault.code).toBe('too-short');
          expect(Number(/at least (\d+)/.exec(outcome.fault.cure ?? '')?.[1])).toBeGreaterThan(length);
          return;
        }
        const { text, leftOut } = outcome.value;
        expect([...text].length).toBeLessThanOrEqual(length);
        for (const kept of ['Hazards:', 'https://test.example/base/14/']) expect(text).toContain(kept);
        expect(text).toMatch(/A record of what was done|A record, not instructions/);
        // Answer and cautions go last, and not before all else has gone.
        for (const [name, kept] of [
          ['answer', 'It is.'],
          ['cautions', 'A record of what was done'],
        ] as const)
          if (!leftOut.includes(name)) expect(text).toContain(kept);
        // Each part that is left stands there to the letter, and those left out are a beginning of the stated order.
        for (const part of text.split('\n\n').filter((one) => !one.startsWith('A record, not'))) {
          expect(whole.text).toContain(part);
        }
        const here = leavesFirst.filter((name) => name !== 'support');
        expect(leftOut).toEqual(here.slice(0, leftOut.length));
      }),
    );
  });

  it('as a comment is answer, address and hazards alone', () => {
    const { text } = made({ comment: true });
    expect(text.split('\n\n').length).toBe(3);
    expect(text).toMatch(/It is\.[^]*https:\/\/test\.example\/base\/14\/[^]*Hazards: signal word/);
  });

  it('says what there is when asked for what is not', () => {
    expect(blurb(model, 99)).toMatchObject({
      ok: false,
      fault: { code: 'no-entry', cure: expect.stringContaining('14') as string },
    });
    expect(blurb(model, 14, { video: 2 })).toMatchObject({ ok: false, fault: { code: 'no-video' } });
  });

  it('says of an entry that cannot be read that it cannot, and not that there is none', async () => {
    const wrong = entry(14, facts).replace(/date: .*/, 'date: last March');
    const folder = folderOf(smallJournal({ 'journal/entries/014-malachite.md': wrong }));
    const asked = blurb((await openJournal(join(folder, 'journal'))).model!, 14);
    if (asked.ok) throw new Error('it was read');
    expect(asked.fault).toMatchObject({ code: 'no-entry', cure: expect.stringContaining('proof 14') as string });
    expect(asked.fault.message).toContain('cannot be read');
  });
});

describe('chapters', () => {
  const at = (...times: string[]) => times.map((time) => ({ at: time, shows: 'x' }));
  it('begin at 0:00, with a beginning added where none is named', () => {
    expect(chaptersOf(at('3:40', '5:15'))).toMatchObject({
      taken: true,
      lines: ['0:00 Beginning', '3:40 x', '5:15 x'],
    });
    expect(chaptersOf(at('0:00', '0:10', '1:00:00')).lines).toEqual(['0:00 x', '0:10 x', '1:00:00 x']);
  });
  it('are not taken, with the reason, where they are fewer than three or closer than ten seconds', () => {
    expect(chaptersOf(at('3:40'))).toMatchObject({ taken: false, why: expect.stringContaining('2') as string });
    expect(chaptersOf(at('0:30', '0:39', '2:00'))).toMatchObject({
      taken: false,
      why: '0:30 and 0:39 are less than 10 seconds apart',
    });
    expect(chaptersOf(at('0:09', '1:00')).why).toContain('0:00 and 0:09');
    expect(chaptersOf([])).toMatchObject({ taken: false, lines: [] });
  });
});

describe('the table of addresses', () => {
  it('has every video with the addresses of its entry and samples', () => {
    expect(videoAddresses(model)).toEqual([
      {
        entry: 14,
        title: 'Entry 14',
        video: 'https://video.example/1',
        address: 'https://test.example/base/14/',
        samples: [{ sample: 'A', address: 'https://test.example/base/14/#A' }],
      },
    ]);
  });
});
