// Addresses: those of the site's own can't be taken by a page, and files whose names have odd signs are found where
// they are linked.
import { existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openFolder } from '../../src/journal/folder.js';
import { readJournal } from '../../src/journal/index.js';
import { crossCheck } from '../../src/journal/cross-checks.js';
import { publish } from '../../src/site/publish.js';
import { partsIn } from '../../src/site/html.js';
import { linksOn, SiteLinks } from '../../src/site/site-links.js';
import { journalOf, entryOf, told } from '../journal/folder.js';
import { demo } from '../browser/browser.js';
import { entry, folderOf, smallJournal } from '../journal-folder.js';
import { quoted } from '../quoted.js';

const made: string[] = [];
afterAll(() => made.forEach((folder) => rmSync(folder, { recursive: true, force: true })));

describe('an address of the site’s own', () => {
  it('is no page’s: every folder of a published site, and every name of a file of it', async () => {
    const folder = folderOf(
      smallJournal({
        'journal/photos/x.jpg': 'x',
        'journal/entries/003-copper.md': entry(
          3,
          'pigment: { name: malachite, formula: Cu2CO3(OH)2, family: green }\nsamples: [{ sample: A, photo: ' +
            'photos/x.jpg, photo-shows: x, colour: { spectrum: spectra/x.csv } }]\n',
        ),
        'journal/spectra/x.csv': readFileSync(join(demo, 'spectra/001-A.csv'), 'utf8'),
      }),
    );
    const { published, remarks } = await publish(join(folder, 'journal'), { to: join(folder, 'site') });
    expect(published, remarks.map(String).join('\n')).toBe(true);
    const names = readdirSync(join(folder, 'site')).filter((name) => !name.startsWith('.'));
    expect(names).toEqual(expect.arrayContaining(['data', 'find', 'photos', 'script', 'spectra', 'style', '3']));
    for (const name of names) {
      const page = name.replace(/\..*$/, '');
      const reading = await readJournal(journalOf({ [`pages/${page}.md`]: 'Words.\n' }));
      expect(told(reading.remarks), page).toContain(`pages/${page}.md:1:1 error page-name`);
    }
  });
});

describe('names of files', () => {
  it('that differ only in capitals, or in how an accent is put together, are an error', async () => {
    const { remarks } = await readJournal(
      journalOf({
        'pages/About.md': 'x',
        'pages/about.md': 'x',
        'pages/caf\u00e9.md': 'x',
        'pages/cafe\u0301.md': 'x',
        'photos/A.jpg': '',
        'photos/a.jpg': '',
        'photos/b.jpg': '',
        'entries/001-x.md': entryOf(
          1,
          'samples: [{ sample: A, photo: photos/A.jpg }, { sample: B, photo: photos/a.jpg }, { sample: C, ' +
            'photo: photos/b.jpg }]',
        ),
      }),
    );
    expect(told(remarks).filter((one) => one.includes('names-collide'))).toEqual([
      'pages/About.md:1:1 error names-collide',
      'pages/cafe\u0301.md:1:1 error names-collide',
      'photos/A.jpg:1:1 error names-collide',
    ]);
  });

  it('are found as the disk spells them, also where the disk does not tell capitals apart', () => {
    const folder = openFolder(journalOf({ 'photos/Two.JPG': '', 'entries/001-x.md': entryOf(1) }))!;
    expect(folder.spelling('photos/two.jpg')).toBe('photos/Two.JPG');
    expect(folder.spelling('Photos/two.jpg')).toBe('photos/Two.JPG');
    expect(folder.spelling('photos/three.jpg')).toBeUndefined();
    expect(folder.spelling('../photos/two.jpg')).toBeUndefined();
    // A disk that finds the file under any spelling.
    const careless = { ...folder, find: (path: string) => folder.find(folder.spelling(path) ?? path) };
    const body = '![x](../photos/two.jpg)';
    const page = { file: 'pages/x.md', name: 'x', body, bodyLine: 1 };
    const whole = { entries: [], unread: [], shelf: { file: '', text: '', reagents: new Map() }, drafts: true };
    const { remarks } = crossCheck({ ...whole, pages: [page], folder: careless });
    expect(told(remarks)).toEqual(['pages/x.md:1:1 error spelt-otherwise']);
  });

  describe('with odd signs', () => {
    const names = ['50 % & more.jpg', 'a#b?c=d.jpg', "l'été (2) +1.jpg", '100%.jpg', 'a%20b.jpg', '"x" <y>.jpg'];
    let site = '';
    let pages: Record<string, string> = {};
    beforeAll(async () => {
      const folder = oddJournal(names);
      const { published, remarks } = await publish(join(folder, 'journal'), {
        to: join(folder, 'site'),
        search: false,
      });
      expect(published, remarks.map(String).join('\n')).toBe(true);
      site = join(folder, 'site');
      pages = { '/1/': '1/index.html', '/about/': 'about/index.html' };
    });
    it.each(Object.entries({ '/1/': 'the entry', '/about/': 'the page' }))(
      'lead where they should, on %s',
      (address) => {
        const html = readFileSync(join(site, pages[address]!), 'utf8');
        const at = { origin: 'https://test.example', base: '/base' };
        const links = new SiteLinks(at);
        links.take(address, linksOn(address, partsIn(html), at));
        const pictures = [...quoted(html).matchAll(/<img [^>]*src="([^"]*)"/g)].map((match) => match[1]);
        // The one in the head stands on the contact sheet too.
        expect(new Set(pictures).size).toBe(names.length);
        expect(
          links.check(
            (path) => existsSync(join(site, path)),
            () => undefined,
          ),
        ).toEqual([]);
      },
    );
  });
});

/** A journal whose entry and page show pictures of these names. */
function oddJournal(names: readonly string[]): string {
  const samples = names.map((name, at) => `{ sample: S${at}, photo: ${JSON.stringify(`photos/${name}`)} }`);
  const body = names.map((name) => `![x](../photos/${encodeURIComponent(name).replace(/[()]/g, '\\$&')})`).join('\n');
  const folder = mkdtempSync(join(tmpdir(), 'masstone-names-'));
  made.push(folder);
  const files = smallJournal({
    'journal/entries/001-first.md': entry(1, `samples: [${samples.join(', ')}]\n`),
    'journal/pages/about.md': body,
  });
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(join(folder, path, '..'), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  mkdirSync(join(folder, 'journal/photos'), { recursive: true });
  for (const name of names) writeFileSync(join(folder, 'journal/photos', name), '');
  return folder;
}
