// Reading a whole journal: what hangs together and what does not, each finding at its place.
import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { bodyLinks, extendRegister, hasErrors, readJournal, registerText } from '../../src/journal/index.js';
import { entryOf, journalOf, told } from './folder.js';

const shelf =
  'blue-vitriol:\n  name: copper(II) sulfate pentahydrate\n  also-called: [bluestone]\n  formula: ' +
  'CuSO4·5H2O\nwater:\n  name: water\n  formula: H2O\n';
const tellOf = async (files: Record<string, string>, options = {}) =>
  told((await readJournal(journalOf(files), options)).remarks);

describe('a journal that hangs together', () => {
  test('the demonstration journal is read without an error of reading', async () => {
    const { journal, remarks } = await readJournal('content');
    expect(journal?.entries.length).toBeGreaterThan(0);
    expect(told(remarks.filter((one) => hasErrors([one])))).toEqual([]);
  });

  test('gives entries by number, pages, shelf, register and the readings that entries name', async () => {
    const { journal, remarks } = await readJournal(
      journalOf({
        'shelf.yaml': shelf,
        'entries/002-second.md': entryOf(
          2,
          'samples:\n  - sample: A\n    colour: { spectrum: spectra/2.csv }\n    photo: photos/2.jpg\n    ' +
            'photo-shows: a dish\nreagents: [{ reagent: blue-vitriol, amount: 5.00 g }]',
          'As in [one](001-first.md#A), see ![a dish](../photos/2.jpg).',
        ),
        'entries/001-first.md': entryOf(1, 'samples: [{ sample: A }]'),
        'entries/10-tenth.md': entryOf(10, 'reagents: [{ lot: 1/A, amount: 1 g }]\nfollows: [2]'),
        'pages/about.md': '---\ntitle: About\norder: 2\n---\nThis is [the first](../entries/001-first.md).',
        'series/Cu.md': 'Copper.',
        'colours/green.md': '# Green',
        'spectra/2.csv': '400,1\n',
        'photos/2.jpg': 'jpeg',
        'register.txt': '/1/\n/1/#A\n',
      }),
    );
    expect(told(remarks)).toEqual([]);
    expect(journal?.entries.map(({ number }) => number)).toEqual([1, 2, 10]);
    expect(journal?.pages).toEqual([
      {
        file: 'pages/about.md',
        name: 'about',
        title: 'About',
        order: 2,
        body: 'This is [the first](../entries/001-first.md).',
        bodyLine: 5,
      },
    ]);
    expect(journal?.series).toMatchObject([{ name: 'Cu', body: 'Copper.', bodyLine: 1 }]);
    expect(journal?.colours).toMatchObject([{ name: 'green', bodyLine: 1 }]);
    expect(journal?.register).toEqual(['/1/', '/1/#A']);
    expect(journal?.readings.get('spectra/2.csv')).toBe('400,1\n');
    expect(journal?.files).toEqual(['photos/2.jpg', 'spectra/2.csv']);
    expect(journal?.settings).toMatchObject({ title: 'Test journal', language: 'en-GB', cautions: [] });
    expect(journal?.shelf.reagents.get('blue-vitriol')?.formula).toBe('CuSO4·5H2O');
  });

  test('is plain data that can be sent to a worker thread', async () => {
    const { journal } = await readJournal('content');
    expect(structuredClone(journal)).toEqual(journal);
  });

  test('file names in other scripts are read and linked, also written as an address', async () => {
    expect(
      await tellOf({
        'entries/001-зелень-緑.md': entryOf(1),
        'entries/002-x.md': entryOf(
          2,
          '',
          '[one](001-зелень-緑.md) [same](001-%D0%B7%D0%B5%D0%BB%D0%B5%D0%BD%D1%8C-%E7%B7%91.md)',
        ),
      }),
    ).toEqual([]);
  });
});

describe('what is missing or does not hang together', () => {
  test('a folder without journal.yaml gets one remark that says what to write', async () => {
    const { journal, remarks } = await readJournal(
      journalOf({ 'entries/001-x.md': entryOf(1) }, { withSettings: false }),
    );
    // Its entries are read all the same, for their dangers.
    expect(journal?.stoodIn).toEqual(['title', 'author', 'address']);
    expect(told(remarks)).toEqual(['journal.yaml:1:1 error no-journal']);
    expect(remarks[0]?.note).toMatch(/begin --found.*title:.*author:.*address:/s);
  });

  test('a folder that does not exist is a remark too', async () => {
    const { journal, remarks } = await readJournal(join(journalOf({}), 'nowhere'));
    expect(journal).toBeUndefined();
    expect(told(remarks)).toEqual(['journal.yaml:1:1 error no-journal']);
  });

  const withSetting = (line: string) =>
    readJournal(
      journalOf({
        'journal.yaml': `title: T\nauthor: A\naddress: https://a.example/\n${line}\n`,
        'entries/1-x.md': entryOf(1),
      }),
    );

  test.each([
    ['workspace: { volume: 3 x 4 x 2.5 m }', '30 m3'],
    ['workspace: 3 m × 4 m × 2,5 m', '30 m3'],
    ['workspace: { volume: 25 m3 }', '25 m3'],
  ])('a room is told by its volume or by its three sides: %s', async (line, volume) => {
    const { journal, remarks } = await withSetting(line);
    expect(journal?.settings.workspace?.volume).toBe(volume);
    expect(told(remarks)).toEqual(
      volume === '25 m3' ? [] : [expect.stringMatching(/^journal.yaml:4:\d+ note read-as$/)],
    );
  });

  test.each([
    ['english', 'en'],
    ['German', 'de'],
    ['Deutsch', 'de'],
    ['français', 'fr'],
    ['francais', 'fr'],
    ['español', 'es'],
    ['en_GB', 'en-GB'],
    ['de-AT', 'de-AT'],
  ])('a language is told by its tag or by its name: %s', async (written, tag) => {
    const { journal, remarks } = await withSetting(`language: ${written}`);
    expect(journal?.settings.language).toBe(tag);
    expect(told(remarks)).toEqual(written === tag ? [] : ['journal.yaml:4:11 note read-as']);
  });

  test('a price that does not say for how much is told so, and nothing of its comma', async () => {
    const { remarks } = await readJournal(
      journalOf({ 'shelf.yaml': `${shelf}soda: { name: soda, price: "7,90 €" }\n`, 'entries/1-x.md': entryOf(1) }),
    );
    expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['unit']);
    expect(remarks[0]!.reason).toContain('nothing says for how much');
    expect(remarks[0]!.reason).not.toContain('comma');
  });

  test('a key that nobody knows is told without a list of all there are, where they are many', async () => {
    const { remarks } = await readJournal(journalOf({ 'entries/1-x.md': entryOf(1, 'zzzz: x\n') }));
    const [one] = remarks.filter(({ ruleId }) => ruleId === 'unknown-key');
    expect(one!.note.length).toBeLessThan(140);
  });

  test('a mistake in journal.yaml or shelf.yaml has its place', async () => {
    expect(
      await tellOf({
        'journal.yaml': 'title: T\nauthor: A\naddress: example.org\nbalance: 0.01\nbalanced: x\nauthoress: y\n',
        'entries/1-x.md': entryOf(1),
      }),
    ).toEqual([
      'journal.yaml:3:10 error web-address',
      'journal.yaml:4:10 note read-as',
      'journal.yaml:5:1 warning unknown-key',
      'journal.yaml:6:1 warning unknown-key',
    ]);
    expect(
      await tellOf({
        'shelf.yaml':
          `${shelf}Bad Id:\n  name: x\nsoda:\n  nam: soda\n  price: 4.20 EUR\n  cas: 497-19-9\n  sds: { ` +
          `statements: [302], pictograms: [GHS10] }\n`,
        'entries/1-x.md': entryOf(1),
      }),
    ).toEqual([
      'shelf.yaml:8:1 error reagent-id',
      'shelf.yaml:11:3 error missing-key',
      'shelf.yaml:11:3 error unknown-key',
      'shelf.yaml:12:10 error unit',
      'shelf.yaml:13:8 error cas',
      'shelf.yaml:14:23 error statement-code',
      'shelf.yaml:14:42 error choice',
    ]);
  });

  test('two entries of one number name each other', async () => {
    const { remarks } = await readJournal(
      journalOf({ 'entries/001-a.md': entryOf(1), 'entries/001-b.md': entryOf(1).replace('Entry 1', 'Other') }),
    );
    expect(told(remarks)).toEqual(['entries/001-b.md:2:9 error duplicate-number']);
    expect(remarks[0]?.reason).toContain('entries/001-a.md');
  });

  test.each([
    ['2', {}],
    ['10', { 'entries/009-nine.md': entryOf(9) }],
    ['13', { 'entries/012-unreadable.md': 'no front matter' }],
    ['41', { 'register.txt': '/1/\n/40/\n' }],
  ])('the remark on a number that is taken twice names the next free one: %s', async (free, more) => {
    const { remarks } = await readJournal(
      journalOf({
        'entries/001-a.md': entryOf(1),
        'entries/002-b.md': entryOf(1).replace('Entry 1', 'Other'),
        ...more,
      }),
    );
    const one = remarks.find(({ ruleId }) => ruleId === 'duplicate-number');
    expect(one?.note).toContain(`the next free number, ${free};`);
  });

  test('two entries of one title are noted', async () => {
    expect(
      await tellOf({ 'entries/001-a.md': entryOf(1), 'entries/002-b.md': entryOf(2).replace('Entry 2', 'entry  1') }),
    ).toEqual(['entries/002-b.md:3:8 note same-title']);
  });

  test('a reagent that is not on the shelf gets the nearest one, or the one that is also called so', async () => {
    const { remarks } = await readJournal(
      journalOf({
        'shelf.yaml': shelf,
        'entries/001-a.md': entryOf(
          1,
          'reagents:\n  - reagent: blue-vitrol\n  - reagent: bluestone\n  - reagent: sulfuric-acid\nincidents: ' +
            '[{ what: x, reagents: [watr] }]',
        ),
      }),
    );
    expect(told(remarks)).toEqual([
      'entries/001-a.md:7:14 error unknown-reagent',
      'entries/001-a.md:8:14 note unknown-reagent',
      'entries/001-a.md:9:14 note unknown-reagent',
      'entries/001-a.md:10:35 error unknown-reagent',
    ]);
    expect(remarks.map(({ note }) => note)).toEqual([
      'Did you mean blue-vitriol?',
      'Write blue-vitriol.',
      expect.stringMatching(/Add it to shelf.yaml/),
      'Did you mean water?',
    ]);
  });

  test('lots that do not exist, come later, or are made in the same entry', async () => {
    expect(
      await tellOf({
        'entries/001-a.md': entryOf(
          1,
          'samples: [{ sample: A }]\nreagents:\n  - lot: 1/A\n  - lot: 2/A\n  - lot: 2/B\n  - lot: 7/A',
        ),
        'entries/002-b.md': entryOf(2, 'samples: [{ sample: A }]'),
        'shelf.yaml': 'own:\n  name: own green\n  lot: 2/C\n',
      }),
    ).toEqual([
      'entries/001-a.md:8:10 error lot-of-itself',
      'entries/001-a.md:9:10 error lot-later',
      'entries/001-a.md:10:10 error unknown-lot',
      'entries/001-a.md:11:10 error unknown-lot',
      'shelf.yaml:3:8 error unknown-lot',
    ]);
  });

  test('a lot of a day in the month that the entry is of, or the other way round', async () => {
    const dated = (number: number, more: string, date: string) =>
      entryOf(number, more).replace(/date: .*/, `date: ${date}`);
    const told = async (made: string, used: string) => {
      const remarks = await tellOf({
        'entries/001-a.md': dated(1, 'samples: [{ sample: A }]', made),
        'entries/002-b.md': dated(2, 'follows: 1\nreagents: [{ lot: 1/A }]', used),
      });
      return remarks.filter((one) => !one.endsWith('date-as-it-is-known'));
    };
    expect(await told('2025-07-03', '2025-07')).toEqual([]);
    expect(await told('2025-07', '2025-07-03')).toEqual([]);
    expect(await told('2025-08', '2025-07-03')).toEqual([
      expect.stringContaining('follows-later') as string,
      expect.stringContaining('lot-later') as string,
    ]);
  });

  test('lots that go round in a ring', async () => {
    const sameDay = (text: string) => text.replace(/date: .*/, 'date: 2026-01-01');
    const remarks = await tellOf({
      'entries/001-a.md': sameDay(entryOf(1, 'samples: [{ sample: A }]\nreagents: [{ lot: 3/A }]')),
      'entries/002-b.md': sameDay(entryOf(2, 'samples: [{ sample: A }]\nreagents: [{ lot: 1/A }]')),
      'entries/003-c.md': sameDay(entryOf(3, 'samples: [{ sample: A }]\nreagents: [{ lot: 2/A }]')),
    });
    expect(remarks).toEqual([expect.stringMatching(/^entries\/00\d-.\.md:7:19 error lot-cycle$/)]);
  });

  test('numbers that are followed or repeated and do not exist', async () => {
    expect(
      await tellOf({ 'entries/001-a.md': entryOf(1, 'follows: [1, 9]\nrepeats: [2]'), 'entries/002-b.md': entryOf(2) }),
    ).toEqual([
      'entries/001-a.md:6:11 error unknown-entry',
      'entries/001-a.md:6:14 error unknown-entry',
      'entries/001-a.md:7:11 warning follows-later',
    ]);
  });

  test('links and images in a body that lead nowhere, out, or elsewhere', async () => {
    const body = [
      'See [two](002-old-name.md) and [three](003-c.md).',
      '',
      '![a dish](../photos/none.jpg) and [out](../../secret.txt)',
      '',
      '[run](javascript:alert(1)) ![far](https://img.example/x.png) [root](/2/) [fine](https://a.example) ' +
        '[mail](mailto:a@b.example)',
      '',
      '```',
      '[in code](nowhere.md)',
      '```',
      '',
      '`[code](nowhere.md)` [folder](../photos) [notes](../notes.md)',
      '',
      '[by name][n]',
      '',
      '[n]: ../pages/abot.md',
    ].join('\n');
    const { remarks } = await readJournal(
      journalOf({
        'entries/001-a.md': entryOf(1, '', body),
        'entries/002-new-name.md': entryOf(2),
        'photos/x.jpg': '',
        'notes.md': '',
        'pages/about.md': 'x',
      }),
    );
    expect(told(remarks)).toEqual([
      'entries/001-a.md:7:5 error dangling-link',
      'entries/001-a.md:7:32 error dangling-link',
      'entries/001-a.md:9:1 error dangling-link',
      'entries/001-a.md:9:35 error outside-journal',
      'entries/001-a.md:11:1 warning link-scheme',
      'entries/001-a.md:11:28 warning image-elsewhere',
      'entries/001-a.md:11:62 warning link-from-root',
      'entries/001-a.md:17:22 error not-a-file',
      'entries/001-a.md:17:42 error dangling-link',
      'entries/001-a.md:21:1 error dangling-link',
    ]);
    expect(remarks[0]?.note).toBe('Did you mean entries/002-new-name.md? From this file that is 002-new-name.md.');
    expect(remarks.at(-1)?.note).toBe('Did you mean pages/about.md? From this file that is ../pages/about.md.');
  });

  test('what was meant for a link and is words, with the file that it names', async () => {
    const { remarks } = await readJournal(
      journalOf({
        'entries/001-a.md': entryOf(1),
        'entries/002-b.md': entryOf(
          2,
          '',
          'As in [the first](Entry 1) and [[entry 1]],\nand [that one](no. 7), `[code](is none)`, [sic] (as he said).',
        ),
      }),
    );
    expect(told(remarks)).toEqual([
      'entries/002-b.md:7:7 warning link-as-words',
      'entries/002-b.md:7:32 warning link-as-words',
      'entries/002-b.md:8:5 warning link-as-words',
    ]);
    expect(remarks.map(({ note }) => note)).toEqual([
      'Write [words](001-a.md).',
      'Write [words](001-a.md).',
      'Write the name of the file: [words](009-name.md).',
    ]);
  });

  test('a short key that is like no other is taken for none', async () => {
    const { remarks } = await readJournal(
      journalOf({
        'entries/001-a.md': entryOf(1, 'samples: [{ sample: A, wet: 21 g, photp: a.jpg }]'),
      }),
    );
    const notes = remarks.filter(({ ruleId }) => ruleId === 'unknown-key').map(({ note }) => note);
    expect(notes[0]).toMatch(/^Take it out/);
    expect(notes.slice(1).every((note) => note!.startsWith('Did you mean'))).toBe(true);
  });

  test('a photograph that is not there, with the one that is meant', async () => {
    const { remarks } = await readJournal(
      journalOf({
        'entries/001-a.md': entryOf(1, 'photos:\n  - photos/IMG 4432.JPG\n  - photos/other.jpg'),
        'photos/IMG_4432.jpg': 'x',
      }),
    );
    const missing = remarks.filter(({ ruleId }) => ruleId === 'missing-file');
    expect(missing.map(({ note }) => note)).toEqual([
      'Did you mean photos/IMG_4432.jpg?',
      'Correct the path, or put the file there.',
    ]);
  });

  test('a link to a sample that is not there', async () => {
    expect(
      await tellOf({
        'entries/001-a.md': entryOf(1, 'samples: [{ sample: A }]'),
        'entries/002-b.md': entryOf(2, '', '[A](001-a.md#A) [B](001-a.md#B) [words](001-a.md#what-was-done)'),
      }),
    ).toEqual(['entries/002-b.md:7:17 warning dangling-link']);
  });

  test('pages whose names the site needs itself, or that stand nowhere', async () => {
    expect(
      await tellOf({
        'entries/001-a.md': entryOf(1),
        'pages/search.md': 'x',
        'pages/14.md': 'x',
        'pages/a b.md': 'x',
        'pages/über-uns.md': 'x',
        'series/Cu.md': 'x',
        'series/copper.md': 'x',
        'colours/green.md': 'x',
        'colours/gray.md': 'x',
        'colours/beige.md': 'x',
      }),
    ).toEqual([
      'colours/beige.md:1:1 warning family-name',
      'colours/gray.md:1:1 warning family-name',
      'pages/14.md:1:1 error page-name',
      'pages/a b.md:1:1 error page-name',
      'pages/search.md:1:1 error page-name',
      'series/copper.md:1:1 warning series-name',
    ]);
  });

  test('spectra and photos that are not there', async () => {
    expect(
      await tellOf({
        'entries/001-a.md': entryOf(
          1,
          'samples:\n  - sample: A\n    colour: { readings: [{ spectrum: spectra/a.csv }, { spectrum: ' +
            'spectra/a.csv }] }\n    opacity: { over-black: spectra/b.csv, over-white: 54 }\n    photo: photos\n ' +
            '   photo-shows: x',
        ),
        'photos/x.jpg': '',
      }),
    ).toEqual([
      'entries/001-a.md:8:38 error missing-file',
      'entries/001-a.md:8:67 error missing-file',
      'entries/001-a.md:9:28 error missing-file',
      'entries/001-a.md:10:12 error not-a-file',
    ]);
  });

  test('Markdown that is not where it is read is pointed out', async () => {
    expect(
      await tellOf({
        'entries/001-a.md': entryOf(1),
        'entries/002-b.markdown': entryOf(2),
        'entries/2026/003-c.md': entryOf(3),
        'entries/.hidden.md': '',
      }),
    ).toEqual(['entries/002-b.markdown:1:1 warning not-read', 'entries/2026/003-c.md:1:1 warning not-read']);
  });
});

describe('drafts', () => {
  const files = {
    'entries/001-a.md': entryOf(1, 'samples: [{ sample: A }]').replace('finished', 'running'),
    'entries/002-b.md': entryOf(2, 'follows: [1]\nreagents: [{ lot: 1/A, amount: 1 g }]', 'See [one](001-a.md).'),
    'entries/003-c.md': entryOf(3, 'question:\nfollows: [1]\nwhat: x').replace('finished', 'planned'),
  };

  test('are in the journal unless they are left out', async () => {
    const { journal, remarks } = await readJournal(journalOf(files));
    expect(journal?.entries).toHaveLength(3);
    expect(told(remarks)).toEqual(['entries/003-c.md:6:1 note empty-key', 'entries/003-c.md:8:1 warning unknown-key']);
  });

  test('left out, take their own remarks with them, and what leads to them is a remark', async () => {
    const { journal, remarks } = await readJournal(journalOf(files), { drafts: false });
    expect(journal?.entries.map(({ number }) => number)).toEqual([2]);
    expect(told(remarks)).toEqual([
      'entries/002-b.md:6:11 warning link-to-draft',
      'entries/002-b.md:7:19 error lot-of-draft',
      'entries/002-b.md:9:5 warning link-to-draft',
    ]);
  });
});

describe('the register of published addresses', () => {
  test('grows by what is published, in order, and keeps what it had', async () => {
    const { journal } = await readJournal(
      journalOf({
        'register.txt': '/10/\n/2/#B\n/2/\n',
        'entries/002-b.md': entryOf(2, 'samples: [{ sample: B }, { sample: A }]'),
        'entries/010-j.md': entryOf(10),
        'entries/003-c.md': entryOf(3).replace('finished', 'planned'),
      }),
    );
    const register = extendRegister(journal!.register, journal!);
    expect(register).toEqual(['/2/', '/2/#A', '/2/#B', '/10/']);
    expect(registerText(register)).toBe(
      '# 4 addresses published by masstone, for ever. Keep this file.\n/2/\n/2/#A\n/2/#B\n/10/\n',
    );
  });

  test('holds reagents, pages, series and colours too, after the entries', async () => {
    const { journal } = await readJournal(
      journalOf({
        'register.txt': '/10/\n/colours/green/\n/2/\n',
        'entries/002-b.md': entryOf(2),
        'entries/010-j.md': entryOf(10),
        'pages/shed.md': '---\nmoved-from: [hut]\n---\nWords.\n',
        'shelf.yaml': 'lye: { name: lye, formula: NaOH, moved-from: [drain-cleaner] }\n',
      }),
    );
    expect(extendRegister(journal!.register, journal!, ['/series/Cu/'])).toEqual([
      ...['/2/', '/10/', '/colours/green/', '/hut/', '/reagents/drain-cleaner/', '/reagents/lye/', '/series/Cu/'],
      '/shed/',
    ]);
  });

  test('an address that would be lost is an error, and withdrawing cures it', async () => {
    const register = '/1/\n/1/#A\n/2/\n/2/#A\n/3/\n/3/#A\n';
    const files = {
      'register.txt': register,
      'entries/002-b.md': entryOf(2),
      'entries/003-c.md': entryOf(3, 'samples: [{ sample: A }]').replace('finished', 'planned'),
    };
    expect(await tellOf(files)).toEqual([
      'entries/002-b.md:2:1 error address-lost',
      'entries/003-c.md:5:9 error address-lost',
      'register.txt:1:1 error address-lost',
    ]);
    expect(
      await tellOf({
        'register.txt': register,
        'entries/001-a.md': entryOf(1, 'withdrawn: never dried').replace('finished', 'withdrawn'),
        'entries/002-b.md': entryOf(2, 'withdrawn: spilt').replace('finished', 'withdrawn'),
        'entries/003-c.md': entryOf(3, 'samples: [{ sample: A }]'),
      }),
    ).toEqual([]);
  });

  const published = '/1/\n/1/#A\n/colours/green/\n/reagents/lye/\n/series/Cu/\n/shed/\n';
  const whole = {
    'register.txt': published,
    'entries/001-a.md': entryOf(1, 'samples: [{ sample: A }]'),
    'pages/shed.md': 'Words.\n',
    'shelf.yaml': 'lye: { name: lye, formula: NaOH }\n',
  };
  const { 'shelf.yaml': _, 'pages/shed.md': __, ...bare } = whole;
  test.each([
    ['as it was published', {}, []],
    ['an id that is another', { 'shelf.yaml': 'caustic: { name: lye, formula: NaOH }\n' }, ['register.txt:4:1']],
    [
      'an id that is another, and says so',
      { 'shelf.yaml': 'caustic: { name: lye, formula: NaOH, moved-from: [lye] }\n' },
      [],
    ],
    [
      'a page that says where it was',
      { 'pages/shed.md': undefined, 'pages/hut.md': '---\nmoved-from: [shed]\n---\n' },
      [],
    ],
    ['a page that is another', { 'pages/shed.md': undefined, 'pages/hut.md': 'Words.\n' }, ['register.txt:6:1']],
    ['a shelf that is gone', { 'shelf.yaml': undefined }, ['register.txt:4:1']],
  ])('%s', async (_, changed: Readonly<Record<string, string | undefined>>, lost) => {
    const files = Object.entries({ ...whole, ...changed }).flatMap(([file, text]) => (text ? [[file, text]] : []));
    const said = await tellOf(Object.fromEntries(files) as Record<string, string>);
    expect(said.filter((one) => one.endsWith('address-lost'))).toEqual(lost.map((one) => `${one} error address-lost`));
  });
  test('what cannot be read is not also said to be lost', async () => {
    const said = await tellOf({ ...bare, 'shelf.yaml': 'lye: {', 'pages/shed.md': '---\ntitle: [\n---\n' });
    expect(said.filter((one) => one.endsWith('address-lost'))).toEqual([]);
  });
  test('the plain cure is named: what is new may be what went', async () => {
    const { remarks } = await readJournal(
      journalOf({
        ...bare,
        'entries/001-a.md': entryOf(7, 'samples: [{ sample: A }]'),
        'pages/hut.md': 'Words.\n',
        'shelf.yaml': 'caustic: { name: lye, formula: NaOH }\n',
      }),
    );
    const cures = remarks.filter(({ ruleId }) => ruleId === 'address-lost').map(({ note }) => note);
    expect(cures).toEqual([
      expect.stringMatching(
        /another number \(entries\/001-a\.md, which is number 7 now\), give it its own back: number: 1/,
      ),
      expect.stringMatching(/may be caustic now.*moved-from: \[lye\]/),
      expect.stringMatching(/may be hut now.*moved-from: \[shed\]/),
    ]);
  });

  test('an entry that can’t be read is not also said to be lost', async () => {
    expect(await tellOf({ 'register.txt': '/1/\n', 'entries/001-a.md': '---\nnumber: [\n---\n' })).toEqual([
      expect.stringMatching(/^entries\/001-a\.md:\d:\d+ error yaml$/),
    ]);
  });

  test('lines that are no address are errors', async () => {
    expect(await tellOf({ 'register.txt': '/1/\nhello\n/0/\n', 'entries/001-a.md': entryOf(1) })).toEqual([
      'register.txt:2:1 error register',
      'register.txt:3:1 error register',
    ]);
  });
});

describe('links of a body', () => {
  const links = (body: string) =>
    bodyLinks({ file: 'entries/002-b.md', body, bodyLine: 10 }).map(({ target, fragment, image, line, column }) => [
      target,
      fragment,
      image,
      line,
      column,
    ]);

  test('are found with their places, whether scanned or parsed', () => {
    const plain =
      'One [a](001-a.md#B), two [b [c]](../pages/x.md "title")\nand ![d](<../photos/a b.jpg>) end [e](x_(1).md).';
    const expected = [
      ['entries/001-a.md', 'B', false, 10, 5],
      ['pages/x.md', undefined, false, 10, 26],
      ['photos/a b.jpg', undefined, true, 11, 5],
      ['entries/x_(1).md', undefined, false, 11, 35],
    ];
    expect(links(plain.replaceAll(/<|>/g, '').replace('a b', 'a%20b'))).toEqual(expected);
    expect(links(plain)).toEqual(expected);
  });

  test('are none in code, in HTML comments and where brackets only look like links', () => {
    expect(links('`[a](b.md)`\n\n    [a](b.md)\n\n<!-- [a](b.md) -->\n\n\\[a](b.md) and :chem[Fe4[Fe(CN)6]3]')).toEqual(
      [],
    );
  });
});

describe('memory between readings', () => {
  test('an unchanged file is not read again, a changed one is', async () => {
    const folder = journalOf({ 'entries/001-a.md': entryOf(1), 'entries/002-b.md': entryOf(2) });
    const memory = new Map();
    const first = await readJournal(folder, { memory });
    const { writeFileSync } = await import('node:fs');
    writeFileSync(join(folder, 'entries/002-b.md'), entryOf(2, 'question: new'));
    const second = await readJournal(folder, { memory });
    expect(second.journal?.entries[0]).toBe(first.journal?.entries[0]);
    expect(second.journal?.entries[1]?.question).toBe('new');
    expect(await readJournal(folder)).toEqual(second);
  });

  test('a file that became a link out of the journal is not answered from memory', async () => {
    const folder = journalOf({ 'entries/001-a.md': entryOf(1) });
    const elsewhere = journalOf({ 'x.md': entryOf(1) });
    const memory = new Map();
    await readJournal(folder, { memory });
    const { rmSync } = await import('node:fs');
    rmSync(join(folder, 'entries/001-a.md'));
    symlinkSync(join(elsewhere, 'x.md'), join(folder, 'entries/001-a.md'));
    const { journal, remarks } = await readJournal(folder, { memory });
    expect(journal?.entries).toEqual([]);
    expect(told(remarks)).toContain('entries/001-a.md:1:1 error outside-journal');
  });
});
