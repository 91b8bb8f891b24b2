// Bad input of every kind: each gives a remark or harmless text; nothing runs, nothing outside is read, nothing hangs.
import { execFileSync } from 'node:child_process';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  printRemarks,
  readEntry,
  readJournal,
  readPage,
  readSettings,
  readShelf,
  remarksAsJson,
} from '../../src/journal/index.js';
import { engines } from '../../src/journal/split.js';
import { entryOf, journalOf, told } from '../journal/folder.js';

const good = { 'entries/001-good.md': entryOf(1) };
const tellOf = async (files: Record<string, string | Buffer>) => {
  const { journal, remarks } = await readJournal(journalOf({ ...good, ...files }));
  expect(journal?.entries.map(({ number }) => number)).toContain(1);
  return told(remarks);
};

describe('front matter that would run code', () => {
  const ran = globalThis as { ranFromContent?: boolean };
  const code = 'globalThis.ranFromContent = true; module.exports = { number: 2 }';

  test.each(['js', 'javascript', 'JS', ' js', 'json', 'coffee', 'cson', 'toml', 'constructor', '__proto__', 'yaml js'])(
    '---%s is a remark, and nothing runs',
    async (language) => {
      for (const matter of [
        code,
        'globalThis.ranFromContent = true',
        '(globalThis.ranFromContent = true, { number: 2 })',
        '{ "number": 2 }',
      ]) {
        expect(await tellOf({ 'entries/002-x.md': `---${language}\n${matter}\n---\nWords.\n` })).toEqual([
          'entries/002-x.md:1:1 error front-matter-language',
        ]);
        expect(await tellOf({ 'pages/x.md': `---${language}\n${matter}\n---\nWords.\n` })).toEqual([
          'pages/x.md:1:1 error front-matter-language',
        ]);
      }
      expect(ran.ranFromContent).toBeUndefined();
    },
  );

  test('the same text does run in the splitter as it comes, so that this proves something', () => {
    const matter = createRequire(import.meta.url)('gray-matter') as (text: string) => { data: { number?: number } };
    expect(matter('---js\n(globalThis.ranFromContent = true, { number: 2 })\n---\n').data.number).toBe(2);
    expect(ran.ranFromContent).toBe(true);
    delete ran.ranFromContent;
  });

  test('the engines given to the splitter refuse every language but YAML, also where they are reached another way', () => {
    const matter = createRequire(import.meta.url)('gray-matter') as (text: string, options: object) => unknown;
    for (const language of [
      'js',
      'javascript',
      'JavaScript',
      'json',
      'coffee',
      'coffeescript',
      'cson',
      'toml',
      'none',
    ]) {
      expect(() =>
        matter(`---${language}\n(globalThis.ranFromContent = true, { number: 2 })\n---\n`, { engines }),
      ).toThrow();
    }
    expect(ran.ranFromContent).toBeUndefined();
  });

  test('tags that name functions are remarks', async () => {
    for (const tag of [
      '!!js/function "function () { globalThis.ranFromContent = true }"',
      '!!js/undefined ""',
      '!!python/object/apply:os.system ["x"]',
      '!<tag:yaml.org,2002:js/regexp> /x/',
    ]) {
      expect(await tellOf({ 'entries/002-x.md': entryOf(2, `question: ${tag}`) })).toEqual([
        'entries/002-x.md:6:11 error yaml',
      ]);
    }
    expect(ran.ranFromContent).toBeUndefined();
  });
});

describe('files that hold no entry', () => {
  test.each<[string, string | Buffer, string, number?]>([
    ['an empty file', '', 'empty-file'],
    ['white space only', ' \n\t\n', 'empty-file'],
    ['a lone byte order mark', '\uFEFF', 'empty-file'],
    ['words without front matter', 'Just words.\n', 'no-front-matter'],
    ['front matter without end', '---\nnumber: 2\ntitle: x\n', 'front-matter-end'],
    ['old line ends', '---\rnumber: 2\r---\r', 'front-matter-end'],
    ['an end that goes on', '---\nnumber: 2\n---------\nx', 'front-matter-end', 3],
    ['zero bytes', Buffer.from([0x2d, 0x2d, 0x2d, 0x0a, 0, 1, 2]), 'not-text'],
    ['a picture', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0xff, 0xfe]), 'not-utf-8'],
    ['Latin-1', Buffer.from('---\ntitle: \xe9tude\n---\n', 'latin1'), 'not-utf-8'],
    ['UTF-16', Buffer.from('\uFEFF---\ntitle: x\n---\n', 'utf16le'), 'not-utf-8'],
    ['a list as front matter', '---\n- a\n---\n', 'wrong-type', 2],
    ['a word as front matter', '---\na\n---\n', 'wrong-type', 2],
  ])('%s is one remark', async (_, content, rule, line = 1) => {
    expect(await tellOf({ 'entries/002-x.md': content })).toEqual([`entries/002-x.md:${line}:1 error ${rule}`]);
  });

  test('empty front matter is told what it lacks', async () => {
    expect(await tellOf({ 'entries/002-x.md': '---\n---\nWords.' })).toEqual(
      Array(4).fill('entries/002-x.md:2:1 error missing-key'),
    );
  });

  test('the same as pages, shelf and settings', async () => {
    expect(
      await tellOf({
        'pages/x.md': '',
        'series/Cu.md': Buffer.from([0xff, 0x00, 0x01]),
        'shelf.yaml': Buffer.from([0xff, 0x00]),
      }),
    ).toEqual(['series/Cu.md:1:1 error not-text', 'shelf.yaml:1:1 error not-text']);
    expect(await tellOf({ 'shelf.yaml': '' })).toEqual([]);
    expect(await tellOf({ 'shelf.yaml': '- a\n' })).toEqual(['shelf.yaml:1:1 error shelf-as-list']);
    const { journal, remarks } = await readJournal(journalOf({ ...good, 'journal.yaml': Buffer.from([0, 1, 2]) }));
    expect(journal?.stoodIn).toEqual(['title', 'author', 'address']);
    expect(told(remarks)).toEqual(['journal.yaml:1:1 error not-text']);
  });
});

describe('files that are too much', () => {
  test('5 MB of front matter is not parsed', async () => {
    expect(await tellOf({ 'entries/002-x.md': entryOf(2, `waste: ${'x'.repeat(5 * 1024 * 1024)}`) })).toEqual([
      'entries/002-x.md:1:1 error file-size',
    ]);
    expect(await tellOf({ 'entries/002-x.md': entryOf(2, `waste: ${'x'.repeat(1024 * 1024)}`) })).toEqual([
      'entries/002-x.md:1:1 error front-matter-size',
    ]);
    expect(readEntry('entries/002-x.md', entryOf(2, `waste: ${'x'.repeat(5 * 1024 * 1024)}`)).remarks).toHaveLength(1);
  });

  test('front matter of empty lines does not hold the splitter up', async () => {
    expect(await tellOf({ 'entries/002-x.md': `---\n${'\n'.repeat(120_000)}x\n---\n` })).toEqual([
      'entries/002-x.md:1:1 error front-matter-size',
    ]);
    expect(await tellOf({ 'entries/003-x.md': `---\n${`${'\n'.repeat(390)}x`.repeat(300)}\n---\n` })).toHaveLength(1);
  });

  test('aliases that multiply are not followed', async () => {
    const bomb = [
      'a: &a [x, x, x, x, x, x, x, x, x]',
      ...[...'bcdefghi'].map(
        (name, index) => `${name}: &${name} [${Array(9).fill(`*${'abcdefgh'[index]}`).join(', ')}]`,
      ),
    ].join('\n');
    expect(await tellOf({ 'entries/002-x.md': entryOf(2, bomb) })).toEqual(['entries/002-x.md:2:1 error yaml-aliases']);
    expect(await tellOf({ 'shelf.yaml': bomb })).toEqual(['shelf.yaml:1:1 error yaml-aliases']);
  });

  test('brackets in brackets in brackets', async () => {
    expect(await tellOf({ 'entries/002-x.md': entryOf(2, `ideas: ${'['.repeat(100_000)}`) })).toEqual([
      'entries/002-x.md:2:1 error yaml-depth',
    ]);
    expect(await tellOf({ 'entries/002-x.md': entryOf(2, `ideas:\n${'- '.repeat(50_000)}`) })).toEqual([
      'entries/002-x.md:2:1 error yaml-depth',
    ]);
  });

  test('formulae and amounts without end', async () => {
    const long = `${'('.repeat(10_000)}Cu${')'.repeat(10_000)}`;
    expect(
      await tellOf({
        'entries/002-x.md': entryOf(
          2,
          `pigment: { name: x, formula: "${long}" }\nsamples: [{ sample: A, obtained: ${'9'.repeat(5000)} g }]`,
        ),
      }),
    ).toEqual(['entries/002-x.md:6:30 error formula', expect.stringMatching(/entries\/002-x\.md:7:34 error quantity/)]);
  });

  test('a body full of brackets is scanned, and nothing hangs', async () => {
    const rules = async (body: string) => [
      ...new Set((await tellOf({ 'entries/002-x.md': entryOf(2, '', body) })).map((line) => line.replace(/^\S+ /, ''))),
    ];
    for (const body of ['['.repeat(50_000), '![](('.repeat(20_000), '[a](001-good.md) '.repeat(5_000)])
      expect(await rules(body)).toEqual([]);
    expect(await rules('[a](b'.repeat(20_000))).toEqual(['error dangling-link']);
  });
});

describe('ways out of the journal', () => {
  const outside = () =>
    journalOf({
      'secret.md': entryOf(9, 'question: secret'),
      'secret.csv': '400,1\n',
      'folder/x.md': entryOf(8, 'question: secret'),
    });

  test('symbolic links that lead out are not followed', async () => {
    const away = outside();
    const folder = journalOf({
      ...good,
      'spectra/kept.csv': '',
      'entries/002-x.md': entryOf(
        2,
        'samples:\n  - sample: A\n    colour: { spectrum: spectra/link.csv }\n    photo: photos/x.jpg\n    ' +
          'photo-shows: x\n  - sample: B\n    colour: { spectrum: linked/secret.csv }',
      ),
    });
    symlinkSync(join(away, 'secret.md'), join(folder, 'entries/003-secret.md'));
    symlinkSync(join(away, 'secret.csv'), join(folder, 'spectra/link.csv'));
    symlinkSync(away, join(folder, 'linked'));
    symlinkSync(join(away, 'folder'), join(folder, 'pages'));
    symlinkSync('nowhere', join(folder, 'entries/004-dangling.md'));
    symlinkSync('005-loop.md', join(folder, 'entries/005-loop.md'));
    mkdirSync(join(folder, 'photos'));
    symlinkSync('/dev/zero', join(folder, 'photos/x.jpg'));
    const { journal, remarks } = await readJournal(folder);
    expect(told(remarks)).toEqual([
      'entries/002-x.md:8:25 error outside-journal',
      'entries/002-x.md:9:12 error outside-journal',
      'entries/002-x.md:12:25 error outside-journal',
      'entries/003-secret.md:1:1 error outside-journal',
      'entries/004-dangling.md:1:1 error missing-file',
      'entries/005-loop.md:1:1 error not-a-file',
      'pages:1:1 error outside-journal',
    ]);
    expect(JSON.stringify([journal, [...(journal?.readings ?? [])], remarksAsJson(remarks)])).not.toMatch(
      /"secret"|400,1/,
    );
    expect(journal?.files).toEqual([]);
  });

  test('symbolic links inside the journal are followed', async () => {
    const folder = journalOf({ ...good, 'drafts/real.md': entryOf(2) });
    symlinkSync('../drafts/real.md', join(folder, 'entries/002-x.md'));
    const { journal, remarks } = await readJournal(folder);
    expect(told(remarks)).toEqual([]);
    expect(journal?.entries).toHaveLength(2);
  });

  test('a journal that is itself reached by a link is read', async () => {
    const folder = journalOf(good);
    symlinkSync(folder, `${folder}-link`);
    const { rmSync } = await import('node:fs');
    const { journal, remarks } = await readJournal(`${folder}-link`);
    rmSync(`${folder}-link`);
    expect(told(remarks)).toEqual([]);
    expect(journal?.entries).toHaveLength(1);
  });

  test('../ in front matter and in bodies is a remark, and is not read', async () => {
    expect(
      await tellOf({
        'entries/002-x.md': entryOf(
          2,
          'samples:\n  - sample: A\n    colour: { spectrum: spectra/../../secret.csv }',
          '[a](../../secret.md) ![b](..%2F..%2Fsecret.csv) [c](..\\..\\secret.md)',
        ),
      }),
    ).toEqual([
      'entries/002-x.md:8:25 error outside-journal',
      'entries/002-x.md:10:1 error outside-journal',
      'entries/002-x.md:10:22 error outside-journal',
      'entries/002-x.md:10:49 error outside-journal',
    ]);
  });

  test('what is no ordinary file is not opened', async () => {
    const folder = journalOf(good);
    mkdirSync(join(folder, 'entries/002-folder.md'));
    execFileSync('mkfifo', [join(folder, 'entries/003-pipe.md')]);
    expect(told((await readJournal(folder)).remarks)).toEqual(['entries/003-pipe.md:1:1 error not-a-file']);
    const other = journalOf({});
    writeFileSync(join(other, 'entries'), 'not a folder');
    expect(told((await readJournal(other)).remarks)).toContain('entries:1:1 error not-a-folder');
  });
});

describe('text that would do harm on a page stays text', () => {
  test('markup in a title is only a title', async () => {
    const { journal } = await readJournal(
      journalOf({ 'entries/001-x.md': entryOf(1).replace('Entry 1', '"</script><script>alert(1)</script>"') }),
    );
    expect(journal?.entries[0]?.title).toBe('</script><script>alert(1)</script>');
  });

  test('links that a browser would run are pointed out', async () => {
    expect(
      await tellOf({
        'entries/002-x.md': entryOf(
          2,
          '',
          '[a](javascript:alert(1)) [b](JaVaScRiPt:x) [c](data:text/html,x) [d](vbscript:x) <javascript:x>',
        ),
      }),
    ).toEqual([1, 26, 44, 66, 82].map((column) => `entries/002-x.md:7:${column} warning link-scheme`));
  });
});

describe('anything at all', () => {
  const readAll = (file: string, text: string) => {
    for (const { remarks } of [
      readEntry(file, text),
      readPage(file, text),
      readShelf('shelf.yaml', text),
      readSettings('journal.yaml', text),
    ]) {
      for (const one of remarks) {
        expect(one.line).toBeGreaterThan(0);
        expect(one.column).toBeGreaterThan(0);
        expect(one.ruleId).toMatch(/^[a-z-]+$/);
        // What the text itself says may be quoted.
        if (!/undefined|\[object/.test(text)) expect(one.reason).not.toMatch(/undefined|\[object/);
        expect(one.note.length).toBeGreaterThan(3);
      }
      printRemarks(remarks);
    }
  };

  test('random text is read without a throw', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary', maxLength: 400 }), fc.string({ maxLength: 400 })), (text) => {
        readAll('entries/001-x.md', text);
        readAll('entries/001-x.md', `---\n${text}\n---\n${text}`);
      }),
      { numRuns: 300 },
    );
  });

  test('random bytes in every file of a journal are read without a throw', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 300 }), fc.boolean(), async (bytes, fenced) => {
        const content = fenced
          ? Buffer.concat([Buffer.from('---\n'), bytes, Buffer.from('\n---\n')])
          : Buffer.from(bytes);
        await readJournal(
          journalOf({
            'journal.yaml': content,
            'shelf.yaml': content,
            'register.txt': content,
            'entries/001-x.md': content,
            'pages/x.md': content,
          }),
        );
      }),
      { numRuns: 40 },
    );
  });

  const key = fc.oneof(
    fc.constantFrom(
      'number',
      'title',
      'date',
      'status',
      'pigment',
      'formula',
      'reagents',
      'reagent',
      'lot',
      'amount',
      'samples',
      'sample',
      'obtained',
      'colour',
      'lab',
      'readings',
      'opacity',
      'over-black',
      'over-white',
      'heating',
      'to',
      'for',
      'of',
      'videos',
      'url',
      'moments',
      'at',
      'incidents',
      'what',
      'add',
      'change',
      'omit',
      'tests',
      'ph',
      'sds',
      'statements',
      'name',
      'follows',
      'elements',
      '__proto__',
      'constructor',
      'toString',
      '',
    ),
    fc.string({ maxLength: 6 }),
  );
  const value = fc.oneof(
    fc.constantFrom(
      '14',
      '2026-03-14',
      'finished',
      '5.00 g',
      '60 °C',
      'A',
      '9/A',
      'Cu2CO3(OH)2',
      'CuSO4·',
      'https://a.example',
      '3:40',
      'D65',
      '10',
      '-1',
      '1e999',
      'NaN',
      'true',
      '2026-02-30',
      '5',
      'spectra/x.csv',
    ),
    fc.string({ maxLength: 12 }),
  );
  const { tree } = fc.letrec((tie) => ({
    tree: fc.oneof(
      { maxDepth: 5, depthSize: 'medium' },
      value,
      fc.array(tie('tree'), { maxLength: 3 }),
      fc.dictionary(key, tie('tree'), { maxKeys: 5 }),
    ),
  }));

  test('random keys and values of the format are read without a throw', async () => {
    const { stringify } = await import('yaml');
    fc.assert(
      fc.property(fc.dictionary(key, tree, { maxKeys: 8 }), fc.boolean(), (data, complete) => {
        const text = stringify(
          complete ? { ...data, number: '14', title: 'x', date: '2026-01-01', status: 'finished' } : data,
        );
        readAll('entries/014-x.md', text);
        readAll('entries/014-x.md', `---\n${text}---\n`);
      }),
      { numRuns: 500 },
    );
    expect(({} as Record<string, unknown>)['number']).toBeUndefined();
  });
});
