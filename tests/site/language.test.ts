// A journal in another language: pages are in English, and say so; what the maker wrote says in which language it is.
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { publish } from '../../src/index.js';
import { readSettings } from '../../src/journal/yaml-file.js';
import { entryOf, journalOf } from '../journal/folder.js';
import { quoted } from '../quoted.js';

const pageOf = async (language: string): Promise<string> => {
  const folder = journalOf({
    'entries/001-a.md': entryOf(1),
    'journal.yaml': `title: T\nauthor: A\naddress: https://a.example/\nlanguage: ${language}\n`,
  });
  const site = join(mkdtempSync(join(tmpdir(), 'masstone-language-')), 'site');
  await publish(folder, { to: site, search: false });
  return quoted(readFileSync(join(site, '1/index.html'), 'utf8'));
};

it('marks the page as English and the write-up as German', async () => {
  const page = await pageOf('de');
  expect(page).toContain('<html lang="en">');
  expect(page).toMatch(/<h1 lang="de">/);
  expect(page).toMatch(/<div lang="de">/);
});

it('marks nothing twice where the journal is in English', async () => {
  const page = await pageOf('en-US');
  expect(page).toContain('<html lang="en-US">');
  expect(page.match(/ lang=/g)).toHaveLength(1);
});

it.each(['klingon', 'xx', 'english please', 'de_XX_yy'])('%s is no language', (language) => {
  const { remarks, settings } = readSettings(
    'journal.yaml',
    `title: T\nauthor: A\naddress: https://a.example/\nlanguage: ${language}\n`,
  );
  expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['language']);
  expect(settings.language).toBe('en-GB');
});

it.each(['tlh', 'de', 'pt-BR', 'Deutsch', 'français', 'gsw'])('%s is one', (language) => {
  const { remarks } = readSettings(
    'journal.yaml',
    `title: T\nauthor: A\naddress: https://a.example/\nlanguage: ${language}\n`,
  );
  expect(remarks.filter(({ fatal }) => fatal === true)).toEqual([]);
});
