// Quotes as a word processor sets them, where YAML has straight ones: named as the cause, and what they hold is read.
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../src/journal/index.js';
import { readSettings, readShelf } from '../../src/journal/yaml-file.js';

const read = (matter: string) => readEntry('entries/001-x.md', `---\n${matter}\n---\nWords.\n`);
const four = 'number: 1\ntitle: T\ndate: 2026-03-14\nstatus: finished';

describe('curly quotes around values', () => {
  it.each([
    ['English', '“', '”'],
    ['German', '„', '“'],
    ['French', '«', '»'],
    ['French with spaces', '« ', ' »'],
    ['single', '‘', '’'],
    ['low single', '‚', '‘'],
    ['Swedish', '”', '”'],
  ])('%s', (_, open, close) => {
    const q = (text: string) => `${open}${text}${close}`;
    const { entry, remarks } = read(
      `number: ${q('1')}\ntitle: ${q('Green earth, cold: a try')}\ndate: ${q('2026-03-14')}\nstatus: finished\n` +
        `reagents:\n  - { reagent: ${q('chalk, precipitated')}, amount: ${q('20 g')} }`,
    );
    expect(entry).toMatchObject({ number: 1, title: 'Green earth, cold: a try', date: '2026-03-14' });
    expect(entry?.reagents).toMatchObject([{ reagent: 'chalk, precipitated', amount: '20 g' }]);
    expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['curly-quotes']);
    expect(remarks[0]).toMatchObject({ line: 2, fatal: undefined });
  });

  it('one straight and one curly', () => {
    const { entry, remarks } = read(`${four}\nreagents:\n  - { reagent: "chalk”, amount: “20 g" }`);
    expect(entry?.reagents).toMatchObject([{ reagent: 'chalk', amount: '20 g' }]);
    expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['curly-quotes']);
  });

  it('stay where they belong to the words', () => {
    const words = '“Blue verditer” and “green verditer”: two makings';
    const { entry, remarks } = read(
      `${four.replace('T', '“Verditer”')}\nquestion: "${words}"\nsteps:\n  - “Stir,” said the recipe\n` +
        'sources: [{ cite: “On Verditer” }]',
    );
    expect(entry).toMatchObject({ title: '“Verditer”', question: words, sources: [{ cite: '“On Verditer”' }] });
    expect(remarks).toEqual([]);
  });

  it('on the shelf and in the settings', () => {
    const { shelf, remarks } = readShelf('shelf.yaml', 'chalk:\n  name: chalk\n  formula: “CaCO3”\n  purity: “98 %”\n');
    expect(shelf.reagents.get('chalk')).toMatchObject({ formula: 'CaCO3', purity: '98 %' });
    expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['curly-quotes']);
    const { settings } = readSettings('journal.yaml', 'title: T\nauthor: A\naddress: “https://a.example/”\n');
    expect(settings.address).toBe('https://a.example/');
  });
});
