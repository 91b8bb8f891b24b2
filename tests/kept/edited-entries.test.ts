// After an edit of words only the pages of the edited entries are made, wherever it is sure that nothing else has changed;
// and the site is the one that a publication of everything makes.
import { appendFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, unlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { publish, type Publication } from '../../src/site/publish.js';

interface Folders {
  readonly fewEntries: (word: string) => Readonly<Record<string, string>>;
  readonly writeFiles: (folder: string, files: Readonly<Record<string, string>>) => void;
  readonly pictureOf: (folder: string) => Record<string, string>;
}
const { fewEntries, writeFiles, pictureOf } = (await import('../attack/folders.mjs' as string)) as Folders;

let folder = '';
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const at = (...path: string[]): string => join(folder, ...path);
const add = (path: string, text: string) => (): void => appendFileSync(at('journal', path), text);
const change = (path: string, was: string, is: string) => (): void =>
  writeFileSync(at('journal', path), readFileSync(at('journal', path), 'utf8').replace(was, is));
const oneOf = (...path: string[]): string => at(...path, readdirSync(at(...path))[0]!);

const published = (to: string, more = {}): Promise<Publication> =>
  publish(at('journal'), { to: at(to), search: false, threads: 0, spareFrom: 0, ...more });
/** What only an ordinary publication does. */
const isOrdinary = ({ took }: Publication): boolean => took['crosslink'] !== undefined;

/** With a search index. */
const found = { search: true };

async function publishedTwice(more = {}): Promise<void> {
  folder = mkdtempSync(join(tmpdir(), 'masstone-words-'));
  writeFiles(folder, fewEntries('Old'));
  writeFiles(folder, { 'journal/spectra/a.txt': 'A file that is linked to.', 'journal/entries/001-x.md': linking });
  for (let times = 0; times < 2; times += 1) await published('site', more);
}
const linking = `---
number: 1
title: Entry 1
date: 2026-01-11
status: finished
question: How blue is it?
reagents: [{ reagent: blue-vitriol, amount: 2.00 g }]
samples: [{ sample: A, obtained: 1.98 g }]
---
As in [the second](002-x.md#A) and [there](../spectra/a.txt).
`;

const drawing = `---
number: 2
title: Entry 2
date: 2026-01-12
status: finished
reagents: [{ lot: 1/A, amount: 0.50 g }]
samples: [{ sample: A, obtained: 0.45 g }]
---
Ground finer.
`;

const first = 'entries/001-x.md';
const second = 'entries/002-x.md';

/** Edits of words alone. */
const edits: readonly (readonly [what: string, edit: () => void])[] = [
  ['nothing', () => undefined],
  ['words of an entry', add(first, '\nA sentence more.\n')],
  ['words of two entries', () => [first, second].map((file) => add(file, '\nMore of that & *that*.\n')())],
  ['a formula, a value and a list', add(first, '\n- :chem[CuSO4·5H2O]\n- :value[A.obtained]\n')],
  ['a line like the end of front matter', change(first, ' }]\n---\nAs', ' }]\n---\n---\nAs')],
  ['a file saved as it was', add(first, '')],
];

/** Edits of front matter, of which others see nothing but figures. */
const matters: readonly (readonly [what: string, edit: () => void])[] = [
  ['what was obtained', change(first, '1.98 g', '1.97 g')],
  [
    'an amount, and words of another entry',
    () => [change(first, '2.00 g', '2.10 g'), add(second, '\nMore.\n')].map((one) => one()),
  ],
  ['a precaution', change(first, 'status:', 'precautions: [{ against: dust, do: Kept it wet. }]\nstatus:')],
  ['a key that nobody knows', change(first, 'status: finished', 'status: finished\nobtaind: 2 g')],
  ['a word of heat', add(first, '\nIt was calcined.\n')],
];

/** What is not words alone, or is not only for the page of the entry. */
const others: readonly (readonly [what: string, edit: () => void])[] = [
  ['a heading', add(first, '\n## What else\n\nNothing.\n')],
  ['a link', add(first, '\nAnd in [the third](003-x.md).\n')],
  ['a picture with spaces in its name', add(first, '\n![two](../photos/two dishes.jpg)\n')],
  ['a formula that is none', add(first, '\n:chem[Qq]\n')],
  ['a title', change(first, 'title: Entry 1', 'title: Another 1')],
  ['a date', change(first, '2026-01-11', '2026-01-12')],
  ['a colour of which there was none', change(first, 'obtained: 1.98 g', 'colour: { lab: [50, -20, 5] }')],
  ['front matter that cannot be read', change(first, 'number: 1', 'number: x')],
  ['the shelf', change('shelf.yaml', 'name: blue vitriol', 'name: blue stone')],
  ['the settings', change('journal.yaml', 'Attacked', 'Another')],
  ['a page', add('pages/about.md', '\nMore.\n')],
  ['another page', () => writeFiles(folder, { 'journal/pages/other.md': 'Other words.\n' })],
  ['a file that is linked to', add('spectra/a.txt', 'More.')],
  ['a published page', () => appendFileSync(at('site/2/index.html'), ' ')],
  ['a published page that is gone', () => unlinkSync(at('site/2/index.html'))],
  ['a page of the site before', () => unlinkSync(at(spare(), '3/index.html'))],
  ['what is known of the site', () => appendFileSync(oneOf('journal/.kept/sites'), ' ')],
];
const spare = (): string => readdirSync(folder).find((name) => name.startsWith('.site.spare-'))!;

const told = ({ took: _, kept: __, ...rest }: Publication): unknown => JSON.parse(JSON.stringify(rest));

describe('after an edit of', () => {
  it.each(edits)('%s only the pages of entries are made', async (_, edit) => {
    await publishedTwice();
    edit();
    const some = await published('site');
    expect(isOrdinary(some)).toBe(false);
    expect(told(some)).toEqual(told(await published('whole', { keep: false })));
    expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
  });

  it.each(matters)('%s only what is made of it is made', async (_, edit) => {
    await publishedTwice();
    edit();
    const some = await published('site');
    expect(isOrdinary(some)).toBe(false);
    expect(told(some)).toEqual(told(await published('whole', { keep: false })));
    expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
    // And words after it.
    add(first, '\nA sentence more.\n')();
    expect(isOrdinary(await published('site'))).toBe(false);
    await published('whole', { keep: false });
    expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
    // And what lists show.
    change(first, 'How blue', 'How green')();
    expect(isOrdinary(await published('site'))).toBe(false);
    await published('whole', { keep: false });
    expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
  });

  it('what was weighed of an entry that stands alone nothing else is taken up', async () => {
    await publishedTwice();
    const toldIn = (): unknown => readdirSync(at('journal/.kept/sites')).find((name) => name.includes('.told-'));
    const before = toldIn();
    for (const [was, is] of [
      ['1.98 g', '1.97 g'],
      ['1.97 g', '1.5 g'],
    ] as const) {
      change(first, was, is)();
      expect(isOrdinary(await published('site'))).toBe(false);
      // Whoever takes up the whole journal tells all of it anew.
      expect(toldIn()).toBe(before);
      await published('whole', { keep: false });
      expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
    }
  });

  it('what was weighed of a lot those that draw on it are made', async () => {
    await publishedTwice();
    writeFiles(folder, { [`journal/${second}`]: drawing });
    for (let times = 0; times < 2; times += 1) await published('site');
    for (const [file, was, is] of [
      [first, '1.98 g', '1.90 g'],
      [second, '0.45 g', '0.44 g'],
      [first, '1.90 g', '0.10 g'],
      [first, '0.10 g', '1.80 g'],
    ] as const) {
      change(file, was, is)();
      const some = await published('site');
      expect(isOrdinary(some)).toBe(false);
      expect(told(some)).toEqual(told(await published('whole', { keep: false })));
      expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
    }
  });

  it.each([
    ['with a spare made of it', 0],
    ['with none, as it is small', Number.POSITIVE_INFINITY],
  ])('words after a first publication, %s, only the pages of entries are made', async (_, spareFrom) => {
    await publishedTwice();
    for (const gone of ['site', 'journal/.kept']) rmSync(at(gone), { recursive: true, force: true });
    rmSync(at(spare()), { recursive: true });
    expect(isOrdinary(await published('site', { spareFrom }))).toBe(true);
    for (const file of [first, second, first]) {
      add(file, '\nA sentence more.\n')();
      expect(isOrdinary(await published('site', { spareFrom }))).toBe(false);
      await published('whole', { keep: false });
      expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
    }
    expect(readdirSync(folder).filter((name) => /staging|former/.test(name))).toEqual([]);
  });

  it('front matter after the same site was made of everything the parts of files are at hand', async () => {
    await publishedTwice();
    for (const more of [{ keep: false }, {}]) await published('site', more);
    const sites = at('journal/.kept/sites');
    const made = readdirSync(sites).find((name) => name.includes('.made-'))!;
    const known = readFileSync(join(sites, made), 'utf8');
    for (const key of ['lines of entries', 'parts /data/samples.csv', 'parts /data/samples.json'])
      expect(known).toContain(`\n${key}\t`);
  });

  it('words after the same site was made of other files only the pages of entries are made', async () => {
    await publishedTwice();
    for (const more of [{ keep: false }, {}]) await published('site', more);
    add(first, '\nA sentence more.\n')();
    expect(isOrdinary(await published('site'))).toBe(false);
  });

  it('anything else everything is looked at again', async () => {
    await publishedTwice();
    const before = [first, 'shelf.yaml', 'journal.yaml', 'pages/about.md'].map(
      (file) => [`journal/${file}`, readFileSync(at('journal', file), 'utf8')] as const,
    );
    for (const [what, edit] of others) {
      edit();
      expect(isOrdinary(await published('site')), what).toBe(true);
      writeFiles(folder, Object.fromEntries(before));
      expect((await published('site')).published, `taken back: ${what}`).toBe(true);
      expect(isOrdinary(await published('site')), `after ${what}`).toBe(false);
    }
    // A jar that was published stays on the shelf.
    add('shelf.yaml', 'lye: { name: lye, formula: NaOH }\n')();
    expect(isOrdinary(await published('site'))).toBe(true);
    // And so does a sample.
    change(first, '{ sample: A,', '{ sample: B }, { sample: A,')();
    expect(isOrdinary(await published('site'))).toBe(true);
  }, 60_000);

  it.each([edits[0]!, edits[2]!])('%s only their pages and what search finds are made', async (_, edit) => {
    await publishedTwice(found);
    edit();
    const some = await published('site', found);
    expect(isOrdinary(some)).toBe(false);
    expect(told(some)).toEqual(told(await published('whole', { ...found, keep: false })));
    expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
  });

  it.each(matters)('%s search finds it as in what is made of everything', async (_, edit) => {
    await publishedTwice(found);
    edit();
    expect(isOrdinary(await published('site', found))).toBe(false);
    add(first, '\nA sentence more.\n')();
    expect(isOrdinary(await published('site', found))).toBe(false);
    await published('whole', { ...found, keep: false });
    expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
  });

  it('words again and again the index of search follows, taken over where it is the same', async () => {
    await publishedTwice(found);
    const library = (): string[] => readdirSync(at('site/find/index')).sort();
    const before = library();
    const wasMade: boolean[] = [];
    for (const words of ['Stirred.', 'Stirred. Stirred.', 'Stirred.', '(STIRRED)', 'Unheard of.']) {
      add(first, `\n${words}\n`)();
      const was = library().join();
      expect(isOrdinary(await published('site', found))).toBe(false);
      wasMade.push(library().join() !== was);
    }
    // A word counts twice on a page and no oftener.
    expect(wasMade).toEqual([true, true, false, false, true]);
    expect(library()).not.toEqual(before);
    await published('whole', { ...found, keep: false });
    expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
    // What is not words goes on from there, and words after it.
    change(first, '1.98 g', '1.97 g')();
    expect(isOrdinary(await published('site', found))).toBe(false);
    await published('whole', { ...found, keep: false });
    expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
    change(first, 'Unheard of.', 'Heard of.')();
    expect(isOrdinary(await published('site', found))).toBe(false);
    await published('whole', { ...found, keep: false });
    expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
  });

  it('words, where what is known of search is not what was put down everything is looked at again', async () => {
    await publishedTwice(found);
    for (const name of readdirSync(at('journal/.kept/sites')).filter((one) => one.includes('.search-')))
      appendFileSync(at('journal/.kept/sites', name), ' ');
    add(first, '\nA sentence more.\n')();
    expect(isOrdinary(await published('site', found))).toBe(true);
    await published('whole', { ...found, keep: false });
    expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
  });

  it('words again and again, the site before last goes on to the next', async () => {
    await publishedTwice();
    for (const file of [first, second, first, first]) {
      add(file, '\nA sentence more.\n')();
      expect(isOrdinary(await published('site'))).toBe(false);
    }
    await published('whole', { keep: false });
    expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
  });

  it('words, what others have put into the site stays', async () => {
    await publishedTwice();
    writeFileSync(at('site/2/theirs.txt'), 'Theirs.');
    add(first, '\nA sentence more.\n')();
    expect((await published('site')).kept).toEqual(['2/theirs.txt']);
    expect(readFileSync(at('site/2/theirs.txt'), 'utf8')).toBe('Theirs.');
    expect(readFileSync(at('site/1/index.html'), 'utf8')).toContain('A sentence more.');
  });

  it('words, with a reckoning damaged that is kept: it is not believed', async () => {
    await publishedTwice();
    for (const name of readdirSync(at('journal/.kept/large'))) appendFileSync(at('journal/.kept/large', name), ' ');
    add(first, '\nA sentence more.\n')();
    expect(isOrdinary(await published('site'))).toBe(true);
    await published('whole', { keep: false });
    expect(pictureOf(at('site'))).toEqual(pictureOf(at('whole')));
  });
});
