// masstone begin: what it writes is read without a remark, and nothing that exists is written over.
import { existsSync, mkdirSync, readFileSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { WrongUse } from '../../src/commands/command.js';
import { command } from '../../src/commands/begin.js';
import { readEntry, readJournal } from '../../src/journal/index.js';
import { jsonSchemaOf } from '../../src/journal/json-schema.js';
import { entryOf, journalOf, told } from '../journal/folder.js';

async function begin(journal: string, positionals: string[], values: Record<string, string> = {}, json = false) {
  let result = '';
  let aside = '';
  const code = await command.run(
    { values, positionals, journal, json },
    {
      result: (text) => {
        result += text;
      },
      aside: (text) => {
        aside += text;
      },
      terminal: false,
    },
  );
  return { code, result, aside };
}

afterEach(() => vi.useRealTimers());

describe('an idea', () => {
  const withIdeas = {
    'entries/001-first.md':
      '---\nnumber: 1\ntitle: First\ndate: 2026-01-02\nstatus: finished\nideas: [Try it cold., Try it warm.]\n---\n',
  };
  test.each(['2', '1/2'])(
    'is taken up by %s: the new entry names it, follows its entry and has its words',
    async (idea) => {
      const folder = journalOf(withIdeas);
      expect(await begin(folder, [], { idea })).toMatchObject({ code: 0 });
      const { journal, remarks } = await readJournal(folder, { drafts: true });
      expect(told(remarks)).toEqual([]);
      expect(journal!.entries[1]).toMatchObject({ title: 'Try it warm', follows: [1], 'takes-up': ['1/2'] });
    },
  );
  test('keeps a title that is given', async () => {
    const folder = journalOf(withIdeas);
    await begin(folder, ['In a warm cupboard'], { idea: '2' });
    expect((await readJournal(folder, { drafts: true })).journal!.entries[1]!.title).toBe('In a warm cupboard');
  });
  test('that no entry has begins nothing, and how many there are is said', async () => {
    const folder = journalOf(withIdeas);
    const { code, aside } = await begin(folder, ['x'], { idea: '3' });
    expect([code, aside]).toEqual([1, expect.stringMatching(/no idea 3[^]*from 1 to 2/)]);
    expect((await begin(journalOf({}), ['x'], { idea: '1' })).aside).toMatch(/No entry of this journal has ideas/);
  });
});

describe('a new entry', () => {
  test('has the next number, today’s date, status planned, and is read without a remark', async () => {
    vi.useFakeTimers({ now: new Date(2026, 2, 5, 0, 30), toFake: ['Date'] });
    const folder = journalOf({ 'entries/007-x.md': entryOf(7) });
    const { code, result } = await begin(folder, ['Malachite green: cold "against" warm #2']);
    expect(code).toBe(0);
    expect(result).toBe(`${join(folder, 'entries/008-malachite-green-cold-against-warm-2.md')}\n`);
    const { journal, remarks } = await readJournal(folder);
    expect(told(remarks)).toEqual([]);
    expect(journal?.entries[1]).toMatchObject({
      number: 8,
      title: 'Malachite green: cold "against" warm #2',
      date: '2026-03-05',
      status: 'planned',
    });
  });

  test('takes no number that a file’s name or the register has, also where the entry is gone or can’t be read', async () => {
    const folder = journalOf({
      'entries/001-x.md': entryOf(1),
      'entries/004-broken.md': '---\n[',
      'register.txt': '/1/\n/3/\n',
    });
    expect((await begin(folder, ['After the one that can’t be read'])).result).toMatch(/005-/);
    writeFileSync(join(folder, 'register.txt'), '/1/\n/6/\n');
    expect(JSON.parse((await begin(folder, ['Next'], {}, true)).result)).toEqual({
      number: 7,
      file: 'entries/007-next.md',
      path: join(folder, 'entries/007-next.md'),
    });
  });

  test('its examples, taken out of their comments, fit the format', async () => {
    const folder = journalOf({});
    const { result } = await begin(folder, ['Blue']);
    const text = readFileSync(result.trim(), 'utf8').replace(/^# (?!yaml-language-server)(?=[a-z ])/gm, '');
    const { entry, remarks } = readEntry('entries/001-blue.md', text);
    expect(told(remarks)).toEqual([]);
    expect(entry?.samples).toHaveLength(2);
    expect(entry?.reagents).toHaveLength(2);
    expect(Object.keys(entry ?? {})).toEqual(
      expect.arrayContaining([
        'question',
        'pigment',
        'reaction',
        'heating',
        'precautions',
        'if-it-goes-wrong',
        'waste',
        'incidents',
        'videos',
        'ideas',
        'sources',
      ]),
    );
  });

  test('--from copies pigment, reaction, reagents and heating to the letter, and follows', async () => {
    const folder = journalOf({
      'entries/001-x.md': entryOf(
        1,
        'pigment:\n  name: green # ours\n\n# about the next\nreaction: A -> B\nreagents:\n  - reagent: { name: ' +
          'soda }\n    amount: 5.00 g\nheating: [{ of: product, to: 60 °C }]\nsamples: [{ sample: A, obtained: ' +
          '1.00 g }]\nprecautions: [{ against: froth, do: slowly }]',
      ),
    });
    const { result } = await begin(folder, ['Again'], { from: '1' });
    const text = readFileSync(result.trim(), 'utf8');
    expect(text).toContain(
      'pigment:\n  name: green # ours\nreaction: A -> B\nreagents:\n  - reagent: { name: soda }\n    amount: ' +
        '5.00 g\nheating: [{ of: product, to: 60 °C }]\n# samples:',
    );
    const { entry, remarks } = readEntry('entries/002-again.md', text);
    expect(told(remarks)).toEqual([]);
    expect(entry).toMatchObject({ number: 2, follows: [1], samples: [], precautions: [] });
  });

  test('--from an entry that is not there is a fault with a way out', async () => {
    const { code, result } = await begin(journalOf({ 'entries/001-x.md': entryOf(1) }), ['Again'], { from: '9' }, true);
    expect(code).toBe(1);
    expect(JSON.parse(result)).toEqual({
      error: {
        code: 'unknown-entry',
        message: 'There is no entry 9 that can be read.',
        cure: 'The numbers go from 1 to 1.',
      },
    });
  });

  test('writes nothing over', async () => {
    const folder = journalOf({});
    mkdirSync(join(folder, 'entries'));
    // A number that the file's name hides from counting.
    const { beginEntry } = await import('../../src/journal/begin.js');
    expect(await beginEntry(folder, 'Blue')).toMatchObject({ ok: true });
    const before = readFileSync(join(folder, 'entries/001-blue.md'), 'utf8');
    expect((await begin(folder, ['Blue'])).result).toContain('002-blue.md');
    expect(readFileSync(join(folder, 'entries/001-blue.md'), 'utf8')).toBe(before);
  });

  test('is not written through a link that leads out of the journal', async () => {
    const away = journalOf({});
    const folder = journalOf({});
    symlinkSync(away, join(folder, 'entries'));
    const { code, aside } = await begin(folder, ['Blue']);
    expect(code).toBe(1);
    expect(aside).toMatch(/leads out/);
    expect(readdirSync(away)).toEqual(['journal.yaml']);
  });

  test('names the format’s schema for editors, by a path that leads there', async () => {
    const folder = join(journalOf({}, { withSettings: false }), 'pigments');
    await begin(folder, ['Blue'], { found: 'Mine' });
    for (const [file, name] of [
      ['journal.yaml', 'journal'],
      ['shelf.yaml', 'shelf'],
      ['entries/001-blue.md', 'entry'],
    ] as const) {
      const lines = readFileSync(join(folder, file), 'utf8').split('\n');
      const [, address] = /^# yaml-language-server: \$schema=(file:\S+)$/.exec(lines[file.endsWith('.md') ? 1 : 0]!)!;
      const schema = JSON.parse(readFileSync(fileURLToPath(address!), 'utf8')) as { required?: string[] };
      expect(schema).toEqual(JSON.parse(JSON.stringify(jsonSchemaOf(name))));
    }
  });

  test('a title in another script gives a readable file name, one without letters still a file', async () => {
    const folder = journalOf({});
    expect((await begin(folder, ['緑青 と étude'])).result).toMatch(/001-緑青-と-étude\.md\n$/);
    expect((await begin(folder, ['!?'])).result).toMatch(/002-entry\.md\n$/);
    expect((await begin(folder, ['../../../etc/passwd'])).result.trim()).toBe(join(folder, 'entries/003-etcpasswd.md'));
    expect((await begin(folder, [`${'word '.repeat(39)}`])).result.length).toBeLessThan(folder.length + 90);
  });
});

describe('a new journal', () => {
  test('a folder that is none is told exactly how to become one', async () => {
    const folder = journalOf({}, { withSettings: false });
    const { code, aside } = await begin(folder, ['Blue']);
    expect(code).toBe(1);
    expect(aside).toMatch(/no journal\.yaml.*masstone begin --found "Title".*title:/s);
    expect(readdirSync(folder)).toEqual([]);
  });

  test('--found writes settings and shelf whose only remarks are on its examples, with a first entry if one is named', async () => {
    const folder = join(journalOf({}, { withSettings: false }), 'new', 'journal');
    const { code, result } = await begin(folder, ['Prussian blue'], { found: 'My: pigments' });
    expect(code).toBe(0);
    expect(result).toBe(`${join(folder, 'entries/001-prussian-blue.md')}\n`);
    const { journal, remarks } = await readJournal(folder);
    const ofExamples = ['journal.yaml:3:9 warning still-an-example', 'journal.yaml:4:10 warning still-an-example'];
    expect(told(remarks)).toEqual(ofExamples);
    expect(journal?.settings.title).toBe('My: pigments');
    expect(journal?.shelf.reagents.get('water')?.formula).toBe('H2O');
    const shelf = readFileSync(join(folder, 'shelf.yaml'), 'utf8');
    writeFileSync(join(folder, 'shelf.yaml'), shelf.replace(/^# (?=[ b])/gm, ''));
    writeFileSync(
      join(folder, 'journal.yaml'),
      readFileSync(join(folder, 'journal.yaml'), 'utf8').replace(/^# (?!yaml-language-server)/gm, ''),
    );
    const uncommented = await readJournal(folder);
    expect(told(uncommented.remarks)).toEqual(ofExamples);
    expect(uncommented.journal?.shelf.reagents.get('blue-vitriol')?.sds?.statements).toEqual(['H302', 'H318', 'H410']);
    expect(uncommented.journal?.settings.workspace?.volume).toBe('25 m3');
  });

  test('is not founded where there is one', async () => {
    const folder = journalOf({});
    const before = readFileSync(join(folder, 'journal.yaml'), 'utf8');
    expect(await begin(folder, [], { found: 'Other' })).toMatchObject({
      code: 1,
      aside: expect.stringMatching(/exists already/),
    });
    expect(readFileSync(join(folder, 'journal.yaml'), 'utf8')).toBe(before);
    expect(existsSync(join(folder, 'shelf.yaml'))).toBe(false);
  });
});

test.each<[string, string[], Record<string, string>]>([
  ['no title', [], {}],
  ['an empty title', [' '], {}],
  ['several words', ['Malachite', 'green'], {}],
  ['a title of two lines', ['a\nb'], {}],
  ['--idea with a word', ['x'], { idea: 'one' }],
  ['--from with a word', ['x'], { from: 'one' }],
  ['--from without a title', [], { from: '1', found: 'x' }],
])('%s is wrong use', async (_, positionals, values) => {
  await expect(begin(journalOf({}), positionals, values)).rejects.toBeInstanceOf(WrongUse);
});
