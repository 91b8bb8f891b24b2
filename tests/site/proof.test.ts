// The proof says before a publication what the publication says: the same remarks, wherever in the journal they are.
import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Remark } from '../../src/remarks/remark.js';
import { proof } from '../../src/site/proof.js';
import { chosenRemarks, missingEntry } from '../../src/site/proof-choice.js';
import { publish } from '../../src/site/publish.js';
import { demo } from '../browser/browser.js';
import { entry, folderOf, smallJournal } from '../journal-folder.js';

const told = (remarks: readonly Remark[]): string[] => remarks.map((one) => `${String(one)} [${one.ruleId}]`);

/** A remark in every kind of write-up: entry, page, words of a series and of a colour family. */
const remarked = smallJournal({
  'journal/entries/003-copper.md': entry(
    3,
    'pigment: { name: malachite, formula: Cu2CO3(OH)2, family: green }\nsamples: [{ sample: A }]\n',
    '<b>x</b> :value[Q.yield] [results](003-copper.md#results) [no sample](001-first.md#Z) :chem[rust]\n',
  ),
  'journal/pages/about.md': ':swatch[A] and <i>raw</i>, [safety](safety.md#first)\n',
  'journal/pages/safety.md': 'Words.\n',
  'journal/series/Cu.md': ':value[A.yield]\n',
  'journal/colours/green.md': '<u>green</u> [copper](../series/Cu.md#none)\n',
});

describe('a proof', () => {
  it('makes the remarks of a publication, in write-ups, pages and words of series and families', async () => {
    const folder = folderOf(remarked);
    const publication = await publish(join(folder, 'journal'), { to: join(folder, 'site'), search: false });
    expect(publication.published).toBe(true);
    const { remarks } = await proof(join(folder, 'journal'), { drafts: false });
    expect(told(remarks)).toEqual(told(publication.remarks));
    const places = remarks.map(({ file, ruleId }) => `${file} ${ruleId}`);
    expect(places).toEqual(
      expect.arrayContaining([
        'entries/003-copper.md raw-html',
        'entries/003-copper.md value',
        'entries/003-copper.md chem',
        'entries/003-copper.md no-such-part',
        'entries/003-copper.md dangling-link',
        'pages/about.md swatch',
        'pages/about.md raw-html',
        'pages/about.md no-such-part',
        'series/Cu.md value',
        'colours/green.md raw-html',
        'colours/green.md no-such-part',
      ]),
    );
    // A sample that is not there is said once, by the reading of the journal.
    expect(places.filter((place) => place === 'entries/003-copper.md no-such-part')).toHaveLength(1);
  });

  it('of an entry that cannot be read tells why, when that one is asked for', async () => {
    const wrong = entry(3, '').replace(/date: .*/, 'date: last March');
    const journal = join(folderOf(smallJournal({ 'journal/entries/003-copper.md': wrong })), 'journal');
    const proofed = await proof(journal);
    expect(missingEntry(proofed, [3])).toBeUndefined();
    expect(missingEntry(proofed, [3, 99])).toMatchObject({ code: 'no-entry', message: expect.stringContaining('99') });
    const { causes } = chosenRemarks(proofed, journal, { numbers: [3], onlyNew: false });
    expect(causes.map(({ remark }) => `${remark.file} ${remark.ruleId}`)).toContain('entries/003-copper.md date');
  });

  it('makes one remark of an amount of which no figure can be read, not another of each value that hangs on it', async () => {
    const matter = `pigment: { name: malachite, formula: Cu2CO3(OH)2 }
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: { name: blue vitriol, formula: CuSO4·5H2O }, amount: 5.00 gg }
  - { reagent: { name: soda, formula: Na2CO3 }, amount: 2.50 g }
precautions: [{ against: carbon dioxide froth, do: "Poured in slowly, by the spoon." }]
samples: [{ sample: A, obtained: 1.98 g }]
`;
    const body = 'It gave :value[A.yield] of :value[A.theoretical].\n';
    const folder = folderOf(smallJournal({ 'journal/entries/003-copper.md': entry(3, matter, body) }));
    const { remarks } = await proof(join(folder, 'journal'), { drafts: false });
    const rules = remarks.filter(({ file }) => file === 'entries/003-copper.md').map(({ ruleId }) => ruleId);
    expect(rules).toContain('amount-not-read');
    expect(rules).not.toContain('value');
  });

  it('of the demonstration journal is what its publication says, with threads and without', async () => {
    const built = (await import(
      '../../dist/src/site/publish.js' as string
    )) as typeof import('../../src/site/publish.js');
    const folder = folderOf({});
    cpSync(demo, join(folder, 'journal'), { recursive: true });
    const { remarks } = await proof(join(folder, 'journal'), { drafts: true });
    expect(remarks.length).toBeGreaterThan(0);
    for (const threads of [0, 2]) {
      const options = { to: join(folder, 'site'), drafts: true, search: false, threads };
      const publication = await built.publish(join(folder, 'journal'), options);
      expect(told(publication.remarks), `${threads} threads`).toEqual(told(remarks));
    }
  }, 120_000);
});
