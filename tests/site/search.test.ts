// Search without a page: how words are compared, ranked and mended, and what the index knows of an entry.
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import * as asked from '../../public/scripts/search-key.js';
import {
  countNamed,
  distance,
  excerptParts,
  fit,
  isKnown,
  partsKnowing,
  rankNames,
  rankPartly,
  suggestion,
  tellingWords,
  withoutNumbering,
} from '../../public/scripts/search-rank.js';
import { openJournal } from '../../src/open.js';
import { colourIndexNames } from '../../src/reckoning/names.js';
import type { SiteFile } from '../../src/site/assets.js';
import { isOfLibrary, searchIndex, type LibraryBefore } from '../../src/site/search-index.js';
import { littleWords, searchKey, searchWords } from '../../src/site/search-key.js';
import type { Pieces } from '../../src/site/search-library.js';
import { partByPart, partOfThing, partsFor, thingsOfPart } from '../../src/site/search-parts.js';
import { relations, type Findable } from '../../src/site/search-things.js';
import { VocabularyCount } from '../../src/site/search-vocabulary.js';
import { shownWords } from '../../src/site/search-words.js';

const demo = fileURLToPath(new URL('../../content', import.meta.url));

describe('how words are compared', () => {
  it.each([
    ['CuSO₄·5H₂O', 'CuSO4.5H2O'],
    ['copper sulphate', 'Copper sulfate'],
    ['gray', 'grey'],
    ['yellow ocher', 'yellow ochre'],
    ['aluminum', 'aluminium'],
    ['Hatchett’s brown', 'hatchetts brown'],
    ['colored vapors', 'coloured vapours'],
    ['oxidizer', 'oxidiser'],
    ['verdâtre', 'verdatre'],
  ])('%s is %s', (one, other) => expect(searchKey(one)).toBe(searchKey(other)));
  it.each([
    ['copper', 'chopper'],
    ['chlorine', 'chlorite'],
    ['orange', 'ourange'],
  ])('%s is not %s', (one, other) => expect(searchKey(one)).not.toBe(searchKey(other)));
  it('is the same where the index is made and where it is asked', () => {
    for (const text of ['CuSO₄·5H₂O', 'Grays and sulphides, oxidized', 'Hatchett’s', 'a, b; litre/liter', ''])
      expect(asked.searchWords(text)).toEqual(searchWords(text));
    expect([...asked.littleWords]).toEqual([...littleWords]);
  });
  it.each([
    ['entry 9', '9'],
    ['No. 14', '14'],
    ['entry no. 4', '4'],
    ['number theory', 'number theory'],
  ])('%s asks for %s', (question, words) => expect(withoutNumbering(question)).toBe(words));
});

describe('names', () => {
  const is = relations.indexOf('is');
  const uses = relations.indexOf('uses');
  it('of the thing itself come before names of what it uses', () => {
    const ranked = rankNames('caustic soda', [
      ['caustic soda', [1, uses, 2, is]],
      ['soda', [3, is]],
    ]);
    expect(ranked.map(({ thing }: { thing: number }) => thing)).toEqual([2, 1]);
  });
  it('are met whole, then as a beginning, then by their words, then by beginnings of words', () => {
    const fits = ['malachite', 'malachite synthetic', 'cold malachite', 'malachites of old'].map((name) =>
      fit(searchWords(name), ['malachite']),
    );
    expect(fits[0]).toBe(4);
    expect(fits[1]!).toBeLessThan(fits[0]!);
    expect(fits[2]!).toBeLessThan(fits[1]!);
    expect(fit(['malachite'], ['mala'])).toBeGreaterThan(0);
    expect(fit(['malachite'], ['azurite'])).toBe(0);
  });
  it('in the plural are the same', () => expect(fit(['yellow'], ['yellows'])).toBe(4));
  it('that hold some of the words are counted', () => {
    expect([
      ...countNamed(
        ['green', 'copper'],
        [
          ['copper', [1, is]],
          ['green earth', [1, is, 2, is]],
        ],
      ),
    ]).toEqual([
      [1, 2],
      [2, 1],
    ]);
  });
  it('of the Colour Index are found in every way of writing them', () => {
    expect(colourIndexNames('PB27')).toEqual([
      'PB27',
      'PB 27',
      'C.I. PB 27',
      'Pigment Blue 27',
      'C.I. Pigment Blue 27',
    ]);
    expect(colourIndexNames('PBk11')).toContain('Pigment Black 11');
    expect(colourIndexNames('NR9')).toContain('Natural Red 9');
    expect(colourIndexNames('none')).toEqual(['none']);
  });
});

describe('a misspelt word', () => {
  const vocabulary = ['prussian', 'blue', 'verdigris', 'malachite', 'manganese'];
  it.each([
    ['prusian blue', 'prussian blue'],
    ['prussain blue', 'prussian blue'],
    ['verdigirs', 'verdigris'],
    ['amlachite', 'malachite'],
  ])('%s is put as %s', (question, better) => expect(suggestion(question, vocabulary)).toBe(better));
  it('is left where it is known, the beginning of a word, or far from all', () => {
    for (const question of ['malachite', 'mala', 'quartz']) expect(suggestion(question, vocabulary)).toBeUndefined();
  });
  it('differs by letters added, dropped, changed or swapped', () => {
    expect(distance('blue', 'bleu', 2)).toBe(1);
    expect(distance('blue', 'blu', 2)).toBe(1);
    expect(distance('blue', 'glue', 2)).toBe(1);
    expect(distance('blue', 'malachite', 2)).toBe(3);
  });
  it('is not one that has another ending', () => {
    expect(isKnown('calcining', ['calcined'])).toBe(true);
    expect(isKnown('calcium', ['calcined'])).toBe(false);
  });
});

describe('a large index', () => {
  it.each([1, 499, 500, 501, 999, 1000, 1003, 20_001])('of %i things has each of them in one part', (things) => {
    const order = partByPart(things);
    expect([...order].sort((one, other) => one - other)).toEqual(Array.from({ length: things }, (_, at) => at));
    const parts = Array.from({ length: partsFor(things) }, (_, part) => part);
    const elsewhere = (part: number): readonly number[] =>
      thingsOfPart(part, things).filter((thing) => partOfThing(thing, things) !== part);
    expect(parts.flatMap(elsewhere)).toEqual([]);
  });
  it('knows in which of its parts words stand, and takes them back', () => {
    const things = 1000;
    const vocabulary = new VocabularyCount(things);
    const saying = (...words: string[]) => ({ texts: words.map((word) => [word, 1] as const), names: [] });
    vocabulary.take(0, saying('azurite', 'alum'));
    vocabulary.take(4, saying('alum'));
    vocabulary.take(3, saying('alum'));
    const under = () => vocabulary.end().get('a')!;
    expect(partsKnowing(['azurite'], under(), 4)).toEqual([0]);
    expect(partsKnowing(['alum'], under(), 4)).toEqual([0, 3]);
    expect(partsKnowing(['alum', 'azurite'], under(), 4)).toEqual([0]);
    vocabulary.takeBack(0, saying('azurite', 'alum'));
    expect(partsKnowing(['alum'], new VocabularyCount(things, vocabulary.counts).end().get('a')!, 4)).toEqual([0, 3]);
    vocabulary.takeBack(4, saying('alum'));
    expect(partsKnowing(['alum'], under(), 4)).toEqual([3]);
    expect(partsKnowing(['azurite'], under(), 4)).toEqual([]);
  });
  it('of one part says nothing of parts', () => {
    const vocabulary = new VocabularyCount(10);
    vocabulary.take(7, { texts: [['alum', 1]], names: [] });
    expect(vocabulary.end().get('a')).toEqual({ texts: ['alum'], names: [] });
    expect(partsKnowing(['alum'], vocabulary.end().get('a')!, 1)).toEqual([0]);
    expect(partsKnowing(['azurite'], vocabulary.end().get('a')!, 1)).toEqual([]);
  });
});

describe('an index in parts', () => {
  const things = (saying: string): Findable[] =>
    Array.from({ length: 500 }, (_, at) => ({
      thing: { address: `/filler/${at}/`, title: `Filler ${at}`, kind: 'page', facts: '' },
      names: [],
      words: at === 123 ? saying : `Of mineral ${at}.`,
    }));

  it('after an edit makes only the part again that it is in, and is what is made of everything', async () => {
    const { model } = await openJournal(demo, { drafts: true });
    const made = async (entries: readonly Findable[], before?: LibraryBefore) => {
      const files = new Map<string, string>();
      const noted: string[] = [];
      const notes = { take: (words: readonly string[]) => noted.push(...words), end: () => undefined };
      const give = ({ address, content }: SiteFile): unknown =>
        files.set(address.slice(1), Buffer.from(content as string).toString('base64'));
      await searchIndex(model!, give, { entries, notes, ...(before && { before }) });
      return { files, noted };
    };
    const was = await made(things('Of malachite.'));
    const whole = await made(things('Of azurite.'));
    const pieces = JSON.parse(Buffer.from(was.files.get('find/pieces.json')!, 'base64').toString()) as Pieces;
    const words: string[] = [];
    for (const [line, thing] of partByPart(was.noted.length).entries()) words[thing] = was.noted[line]!;
    const stayed = new Map<string, string>();
    const takeOver: LibraryBefore['takeOver'] = (stays) => {
      for (const [path, content] of was.files) if (isOfLibrary(path) && stays(path)) stayed.set(path, content);
    };
    const again = await made(things('Of azurite.'), { words, pieces, takeOver });
    expect(stayed.size).toBeGreaterThan(3);
    expect([...stayed.keys()].filter((path) => again.files.has(path))).toEqual([]);
    expect(new Map([...again.files, ...stayed])).toEqual(whole.files);
    expect(again.noted).toEqual(whole.noted);
  });
});

describe('texts', () => {
  it('that hold more of the words come first where none holds all', () => {
    expect(rankPartly([[1, 2], [2], [3]], 10)).toEqual([2]);
    expect(
      rankPartly(
        [
          [1, 2],
          [2, 3],
        ],
        10,
      ),
    ).toEqual([2, 1, 3]);
  });
  it('are cut about the words that were asked for', () => {
    const text = `${'Nothing of note here. '.repeat(20)}The sleeve has a hole. ${'And so on. '.repeat(30)}`;
    const parts = excerptParts(text, ['hole', 'sleeve']);
    expect(parts.filter((_, at) => at % 2 === 1)).toEqual(['sleeve', 'hole']);
    expect(parts.join('').length).toBeLessThan(300);
    expect(excerptParts('Nothing', ['hole'])).toEqual([]);
  });
  it('are what a page shows', () => {
    const shown = shownWords(
      'The **yield** is :value[A.yield] of :chem[CuSO4·5H2O] ([see](004-x.md)); `hot`.\n\n' +
        '| a | b |\n|---|---|\n| 1 | 2 |',
      new Map([['A.yield', '95.8 ± 0.6 %']]),
    );
    expect(shown).toBe('The yield is 95.8 ± 0.6 % of CuSO4·5H2O (see); hot. a b 1 2');
  });
  it('leave little words out of a question, unless there is nothing else', () => {
    expect(tellingWords(['hole', 'in', 'the', 'sleeve'])).toEqual(['hole', 'sleeve']);
    expect(tellingWords(['the'])).toEqual(['the']);
  });
});
