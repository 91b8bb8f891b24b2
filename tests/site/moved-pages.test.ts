// Pages that have another name now: who comes to the old address is sent on, without script, under a base path.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openJournal } from '../../src/open.js';
import { remarksAsJson } from '../../src/remarks/print.js';
import { publish } from '../../src/site/publish.js';
import { folderOf, smallJournal } from '../journal-folder.js';
import { quoted } from '../quoted.js';

const about = (moved: string): string => `---\ntitle: The workshop\nmoved-from: [${moved}]\n---\nWords.\n`;

it('the old address sends on to the new one', async () => {
  const folder = folderOf(smallJournal({ 'journal/pages/about.md': about('workshop, shed') }));
  const { published, remarks } = await publish(join(folder, 'journal'), {
    to: join(folder, 'site'),
    search: false,
    threads: 0,
  });
  expect(published, remarks.map(String).join('\n')).toBe(true);
  for (const old of ['workshop', 'shed']) {
    const page = quoted(readFileSync(join(folder, `site/${old}/index.html`), 'utf8'));
    // HTML Living Standard 4.2.5.3, the refresh state: seconds, then the address.
    expect(page).toMatch(/<meta http-equiv="refresh" content="0; url=\/base\/about\/">/);
    expect(page).toContain('href="/base/about/"');
    expect(page).toMatch(/noindex/);
  }
  expect(readFileSync(join(folder, 'site/sitemap.xml'), 'utf8')).not.toContain('/workshop/');
});

it('a reagent that has another id keeps its address, and a series that no entry is left of says so', async () => {
  const pigment =
    'pigment: { name: green, formula: Cu2CO3(OH)2 }\n' +
    'samples: [{ sample: A, colour: { lab: [60, -30, 5], illuminant: D50, observer: 2 } }]';
  const entry = `---\nnumber: 1\ntitle: Green\ndate: 2026-01-01\nstatus: finished\n${pigment}\n---\nWords.\n`;
  const folder = folderOf(
    smallJournal({
      'journal/shelf.yaml': 'caustic: { name: caustic soda, formula: NaOH, moved-from: [lye] }\n',
      'journal/entries/001-first.md': entry,
      'journal/register.txt': '/1/\n/colours/red/\n/reagents/lye/\n/series/Co/\n',
    }),
  );
  const { published, remarks } = await publish(join(folder, 'journal'), {
    to: join(folder, 'site'),
    search: false,
    threads: 0,
  });
  expect(published, remarks.map(String).join('\n')).toBe(true);
  const page = (at: string): string => quoted(readFileSync(join(folder, `site/${at}/index.html`), 'utf8'));
  expect(page('reagents/lye')).toContain('href="/base/reagents/caustic/"');
  expect(page('series/Co')).toMatch(/Nothing of Co any more.*href="\/base\/series\/"/s);
  expect(page('colours/red')).toMatch(/Nothing of red any more/);
  const map = readFileSync(join(folder, 'site/sitemap.xml'), 'utf8');
  for (const gone of ['/reagents/lye/', '/series/Co/', '/colours/red/']) expect(map).not.toContain(gone);
  expect(map).toContain('/series/Cu/');
  expect(readFileSync(join(folder, 'journal/register.txt'), 'utf8').split('\n')).toEqual(
    expect.arrayContaining(['/reagents/caustic/', '/reagents/lye/', '/series/Co/', '/series/Cu/']),
  );
});

it.each([
  ['lye', 'lye: { name: lye, moved-from: [lye] }'],
  ['an id of another', 'lye: { name: lye }\ncaustic: { name: lye, moved-from: [lye] }'],
  ['no id at all', 'lye: { name: lye, moved-from: ["../x"] }'],
])('a reagent cannot have been %s', async (_, shelf) => {
  const folder = folderOf(smallJournal({ 'journal/shelf.yaml': `${shelf}\n` }));
  const { remarks } = await openJournal(join(folder, 'journal'));
  expect(remarksAsJson(remarks).map(({ rule, file }) => [rule, file])).toContainEqual(['moved-from', 'shelf.yaml']);
});

it.each([
  ['a name of the site’s own', 'search'],
  ['the number of an entry', '14'],
  ['the name of another page', 'safety'],
  ['a name that can stand in no address', '"a/b"'],
  ['a way out of the site', '"../x"'],
])('%s is refused', async (_, name) => {
  const folder = folderOf(
    smallJournal({ 'journal/pages/about.md': about(name), 'journal/pages/safety.md': 'Words.\n' }),
  );
  const { remarks } = await openJournal(join(folder, 'journal'));
  expect(remarksAsJson(remarks).map(({ rule, file }) => [rule, file])).toContainEqual(['moved-from', 'pages/about.md']);
  const to = join(folder, 'site');
  await publish(join(folder, 'journal'), { to, search: false, threads: 0 });
  expect(existsSync(to)).toBe(false);
});
