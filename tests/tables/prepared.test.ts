// What was prepared when the house was built is what the code finds by itself, and the command line reads it.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import '../../src/crosslinks/gaps.js';
import '../../src/hazards/index.js';
import '../../src/journal/json-schema.js';
import { dryComposition } from '../../src/reagents/index.js';
import { tableFormulae } from '../../src/reagents/table-formulae.js';
import { ItemsAtHand } from '../../src/tables/items-at-hand.js';
import { preparedFolder, textsIn } from '../../src/tables/prepared-files.js';
import { preparations } from '../../src/tables/prepared.js';
import { densityTable } from '../../src/tables/compiled/reagents/density.js';
import { packageFolder } from '../../src/package-folder.js';
import { putTogether } from '../../src/put-together.js';
import { compiledBefore, filesStarted } from '../commands/bench.js';
import { folderOf } from '../journal-folder.js';

const textOf = textsIn(preparedFolder);

const whole = (name: string): string => {
  const text = textOf(name)!;
  return text.part(0, text.length);
};
const list = <Item>(name: string): readonly Item[] => new ItemsAtHand<Item>(textOf(name)!).all();

describe('what is prepared', () => {
  it.each([...preparations()])(
    '%s is what the code makes of the tables',
    (name, make) => {
      expect(whole(name)).toBe(make());
      // The words of dangers are made of every name of the tables.
    },
    180_000,
  );

  it('tells the composition of every formula in a table as reading it does', () => {
    const told = new Map(list<[string, string][]>('dry-compositions').flat());
    expect(told.size).toBeGreaterThan(500);
    for (const formula of tableFormulae()) expect(told.get(formula), formula).toBe(dryComposition(formula));
    expect(told.get('CuSO4·5H2O')).toBe('CuO4S');
  });

  it('has each table whole', () => expect(list('tables/reagents/density')).toEqual(densityTable()));
});

/** A journal with one entry of the demonstration, of which nothing has been asked. */
const unasked = (): string =>
  folderOf(
    Object.fromEntries(
      ['journal.yaml', 'shelf.yaml', 'entries/004-malachite-cold-and-warm.md'].map((path) => [
        path,
        readFileSync(join(packageFolder, 'content', path)),
      ]),
    ),
  );

describe('the command line', () => {
  it.each([
    ['formula', 'CuSO4·5H2O'],
    ['balance', 'Fe + O2 -> Fe2O3'],
    ['foresee', 'bleach', 'vinegar'],
  ])('starts %s from few files', (...words) => {
    const files = filesStarted(...words, ...(words[0] === 'foresee' ? ['--journal', unasked()] : []));
    expect(files).toContain('dist/command-line/masstone.cjs');
    expect(files.length).toBeLessThan(20);
    expect(files.filter((path) => /^dist\/src|node_modules/.test(path))).toEqual([]);
  });

  it.each([
    [['formula', 'CuSO4·5H2O'], 'formulae'],
    [['weigh', '4', '--journal', 'JOURNAL'], 'entries'],
    [['--journal', 'JOURNAL', 'weigh', '4'], 'entries'],
    [['--json', '--journal=JOURNAL', 'foresee', '4'], 'entries'],
  ])('takes what was compiled for %s', (words, file) => {
    const journal = unasked();
    expect(compiledBefore(...words.map((word) => word.replace('JOURNAL', journal)))).toContain(file);
  });
  it.each([['weigh'], ['foresee']])('tells what %s answered before from hardly any files, compiled before', (name) => {
    const words = [name, '4', '--journal', unasked()];
    expect(compiledBefore(...words)).toContain('main');
    expect(compiledBefore(...words)).toEqual(expect.arrayContaining(['told']));
    expect(compiledBefore(...words)).not.toContain('main');
    filesStarted(...words);
    expect(filesStarted(...words).length).toBeLessThan(5);
  });

  it('starts a publication of a journal that is not there from few files', () => {
    const files = filesStarted('publish', '--journal', 'nowhere');
    expect(files).toContain('dist/publication/loader.cjs');
    expect(files.length).toBeLessThan(40);
    expect(files.filter((path) => path.startsWith('dist/src'))).toEqual([]);
  });
});

describe('what is put together for a publication', () => {
  // Without that V8 of Node 20 gives each of them a shape of its own.
  it('begins with nothing what would begin with the properties of another object and has more', () => {
    const folder = new URL('../../dist/publication/', import.meta.url);
    const files = readdirSync(folder).filter((name) => name.endsWith('.cjs'));
    const texts = files.map((name) => readFileSync(new URL(name, folder), 'latin1'));
    expect(texts.some((text) => text.includes('{...null,...'))).toBe(true);
    expect(texts.flatMap((text) => text.match(/\{\.\.\.(?!null,)[\w$.]+,[\w$.]/g) ?? [])).toEqual([]);
  });

  it('is found by those who import the library, as long as it is of the same code', async () => {
    const { putTogether } = (await import(
      '../../dist/src/put-together.js' as string
    )) as typeof import('../../src/put-together.js');
    expect(Object.keys(putTogether('publish-journal') ?? {})).toEqual(['publishJournal']);
  });

  it('is left to code that was built; the sources run as they are', () =>
    expect(putTogether('publish-journal')).toBeUndefined());
});
