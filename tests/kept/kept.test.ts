// What is kept is found again by what it was made of, and by nothing else; what is damaged, old or of other code is not.
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { readJournal } from '../../src/journal/index.js';
import { codeVersion } from '../../src/kept/code-version.js';
import { identify, identityOf } from '../../src/kept/inputs.js';
import { KeptForOneRun, KeptInMemory, madeOf } from '../../src/kept/kept.js';
import { KeptOnDisk } from '../../src/kept/store.js';
import { lookedUp } from '../../src/looked-up.js';
import { recentlyFor } from '../../src/once.js';
import { folderOf } from '../journal-folder.js';

describe('the identity of inputs', () => {
  it('is that of their data', () => {
    expect(identityOf({ amount: '2 g', of: ['a', 'b'] })).toBe(identityOf({ amount: '2 g', of: ['a', 'b'] }));
    expect(identityOf(['a', 'bc'])).not.toBe(identityOf(['ab', 'c']));
    expect(identityOf(new Map([['a', 1]]))).not.toBe(identityOf(new Map([['a', 2]])));
    expect(identityOf(undefined)).not.toBe(identityOf(null));
    expect(identityOf('1')).not.toBe(identityOf(1));
  });
  it('is what was said of an object, wherever that stands', () => {
    const large = identify({ never: 'read' }, 'one');
    expect(identityOf([large])).toBe(identityOf([identify({}, 'one')]));
    expect(identityOf([large])).not.toBe(identityOf([identify({ never: 'read' }, 'two')]));
  });
  it('is refused to functions, which do not say what they draw on', () => {
    expect(() => identityOf({ render: () => '' })).toThrow(TypeError);
  });
});

describe('what is kept in memory', () => {
  it('is made once of the same inputs, and anew of others', () => {
    const kept = new KeptInMemory();
    let times = 0;
    const make = (inputs: unknown): number => madeOf(kept, 'times', inputs, () => (times += 1));
    expect([make(['a']), make(['a']), make(['b']), make(['a'])]).toEqual([1, 1, 2, 1]);
    expect(madeOf(kept, 'other', ['a'], () => 7)).toBe(7);
  });
  it('is forgotten when nobody has asked for it between two turns', () => {
    const kept = new KeptInMemory();
    kept.put('asked', 1);
    kept.put('not asked', 1);
    kept.turn();
    expect(kept.get('asked')).toBe(1);
    kept.turn();
    expect([kept.get('asked'), kept.get('not asked')]).toEqual([1, undefined]);
  });
});

describe('what is kept on the disk', () => {
  const filled = (): string => {
    const journal = folderOf({});
    const kept = new KeptOnDisk(journal, 'v1');
    kept.put('small', { text: 'a\tb\nc', number: 1.5 });
    kept.putLarge('whole', { much: 'x'.repeat(5000) });
    kept.end();
    return journal;
  };
  const index = (journal: string): string => join(journal, '.kept/index');

  it('is only read by who says so, also where it is of other code or nothing is there', () => {
    const journal = filled();
    const before = readFileSync(index(journal), 'utf8');
    for (const version of ['v1', 'v2']) {
      const kept = new KeptOnDisk(journal, version, { toRead: true });
      expect(kept.isEmpty).toBe(version === 'v2');
      expect(kept.getLarge('whole')).toEqual(version === 'v1' ? { much: 'x'.repeat(5000) } : undefined);
      kept.put('small', 'another');
      kept.putLarge('more', { much: 'y' });
      kept.end();
    }
    expect(readFileSync(index(journal), 'utf8')).toBe(before);
    expect(readdirSync(join(journal, '.kept/large'))).toHaveLength(1);
    const empty = folderOf({});
    new KeptOnDisk(empty, 'v1', { toRead: true }).end();
    expect(readdirSync(empty)).toEqual([]);
  });

  it('is there in the next run', () => {
    const kept = new KeptOnDisk(filled(), 'v1');
    expect(kept.get('small')).toEqual({ text: 'a\tb\nc', number: 1.5 });
    expect(kept.hasLarge('whole')).toBe(true);
    expect(kept.getLarge('whole')).toEqual({ much: 'x'.repeat(5000) });
    expect([kept.get('other'), kept.getLarge('other')]).toEqual([undefined, undefined]);
  });
  it('is not taken by other code', () => {
    const kept = new KeptOnDisk(filled(), 'v2');
    expect([kept.get('small'), kept.hasLarge('whole'), kept.getLarge('whole')]).toEqual([undefined, false, undefined]);
  });
  it('is not believed when any byte of the index is another, or it is cut short', () => {
    const journal = filled();
    const whole = readFileSync(index(journal));
    for (let at = 0; at < whole.length; at += 1) {
      const damaged = Buffer.from(whole);
      damaged[at]! ^= 1;
      writeFileSync(index(journal), damaged);
      expect(new KeptOnDisk(journal, 'v1').get('small'), `byte ${at}`).toBeUndefined();
      writeFileSync(index(journal), whole.subarray(0, at));
      expect(new KeptOnDisk(journal, 'v1').get('small'), `cut at ${at}`).toBeUndefined();
    }
  });
  it('has no large part that is damaged or gone', () => {
    for (const damage of ['damage', 'remove']) {
      const journal = filled();
      const [name] = readdirSync(join(journal, '.kept/large'));
      const file = join(journal, '.kept/large', name!);
      const bytes = readFileSync(file);
      bytes[30]! ^= 1;
      if (damage === 'damage') writeFileSync(file, bytes);
      else rmSync(file);
      const kept = new KeptOnDisk(journal, 'v1');
      expect([kept.getLarge('whole'), kept.hasLarge('whole')], damage).toEqual([undefined, false]);
    }
  });
  it('goes when no run has asked for it for a while, its files too, so that it does not grow', () => {
    const journal = filled();
    for (let run = 1; run <= 4; run += 1) {
      const kept = new KeptOnDisk(journal, 'v1');
      kept.put(`of run ${run}`, run);
      kept.end();
    }
    const kept = new KeptOnDisk(journal, 'v1');
    expect([kept.get('small'), kept.hasLarge('whole'), kept.get('of run 4')]).toEqual([undefined, false, 4]);
    expect(readdirSync(join(journal, '.kept/large'))).toEqual([]);
  });
  it('is nothing where the folder cannot be written to, and no fault', () => {
    const journal = folderOf({ '.kept': 'a file of somebody’s' });
    const kept = new KeptOnDisk(journal, 'v1');
    kept.put('small', 1);
    kept.putLarge('whole', 1);
    kept.end();
    expect(readFileSync(join(journal, '.kept'), 'utf8')).toBe('a file of somebody’s');
  });
  it('is out of the sight of git', () => {
    expect(readFileSync(join(filled(), '.kept/.gitignore'), 'utf8')).toBe('*\n');
  });
});

describe('what is kept for one run', () => {
  const [key, value] = ['one', { words: 'x'.repeat(5000) }];
  const before = process.env['TMPDIR'];
  afterEach(() => {
    if (before === undefined) delete process.env['TMPDIR'];
    else process.env['TMPDIR'] = before;
  });

  it('lies in a file without a name, and is there again', () => {
    const temporary = mkdtempSync(join(tmpdir(), 'kept-for-one-run-'));
    process.env['TMPDIR'] = temporary;
    const kept = new KeptForOneRun();
    for (const one of [key, 'other']) kept.putLarge(one, { ...value, one });
    for (const one of [key, 'other']) kept.put(one, ['ψ', one]);
    expect(readdirSync(temporary)).toEqual([]);
    expect([kept.get(key), kept.get('other'), kept.get('third')]).toEqual([['ψ', key], ['ψ', 'other'], undefined]);
    expect([kept.has(key), kept.has('third')]).toEqual([true, false]);
    expect(kept.getLarge(key)).toEqual({ ...value, one: key });
    expect(kept.getLarge('other')).toEqual({ ...value, one: 'other' });
    expect([kept.hasLarge(key), kept.hasLarge('third'), kept.getLarge('third')]).toEqual([true, false, undefined]);
    rmSync(temporary, { recursive: true });
  });

  it('is held where there is no room for a file', () => {
    process.env['TMPDIR'] = '/dev/null/nowhere';
    const kept = new KeptForOneRun();
    kept.putLarge(key, value);
    expect(kept.getLarge(key)).toEqual(value);
  });
});

it('texts of entries that are put aside are there when they are asked for, and so is all else as it was read', async () => {
  const { journal } = await readJournal('content');
  const { journal: aside } = await readJournal('content', { textsAside: true });
  expect(aside!.entries.length).toBeGreaterThan(0);
  expect(aside!.entries.map(({ file }) => file)).toEqual(journal!.entries.map(({ file }) => file));
  for (const [at, entry] of aside!.entries.entries()) {
    expect(structuredClone(entry), entry.file).toEqual(journal!.entries[at]);
    expect(Object.getOwnPropertyDescriptor(entry, 'body')!.get, entry.file).toBeDefined();
  }
});

it('what is asked for often is made once, and let go when enough others have been asked for', () => {
  const made: number[] = [];
  const doubled = recentlyFor((of: { readonly n: number }) => {
    made.push(of.n);
    return { n: 2 * of.n };
  }, 2);
  const [one, two, three, four, five] = [1, 2, 3, 4, 5].map((n) => ({ n }));
  expect([one, two, one, three, one].map((of) => doubled(of!).n)).toEqual([2, 4, 2, 6, 2]);
  expect(made).toEqual([1, 2, 3]);
  for (const of of [four, five, two]) doubled(of!);
  expect(made).toEqual([1, 2, 3, 4, 5, 2]);
});

it('of more than can be held only the last few are held', () => {
  const made: number[] = [];
  const named = recentlyFor(
    (of: { readonly n: number }) => {
      made.push(of.n);
      return '';
    },
    3,
    1,
  );
  const all = [1, 2, 3, 4, 5, 6].map((n) => ({ n }));
  for (const of of [...all.slice(0, 3), ...all.slice(0, 3)]) named(of);
  expect(made).toEqual([1, 2, 3]);
  for (const of of all.slice(3)) named(of);
  named(all[5]!);
  named(all[4]!);
  expect(made).toEqual([1, 2, 3, 4, 5, 6]);
  named(all[0]!);
  expect(made.at(-1)).toBe(1);
});

it('the code has a version, the same for as long as it runs', () => {
  expect(codeVersion()).toMatch(/^[\w-]{22}$/);
  expect(codeVersion()).toBe(codeVersion());
});

describe('what is looked up when it is asked for', () => {
  const withMass = lookedUp<{ grams: number }, { mass: string }>({ mass: ({ grams }) => `${grams} g` });
  it('is worked out anew each time, of what its own object came with', () => {
    const [from, other] = [{ grams: 2 }, { grams: 7 }];
    const [one, two] = [withMass({ of: 'ochre' }, from), withMass({ of: 'umber' }, other)];
    from.grams = 3;
    expect([one.mass, two.mass]).toEqual(['3 g', '7 g']);
  });
  it('is copied and written out as any other property, and nothing of what it came with', () => {
    const one = withMass({ of: 'ochre' }, { grams: 2 });
    expect(JSON.stringify(one)).toBe('{"of":"ochre","mass":"2 g"}');
    expect(structuredClone(one)).toEqual({ of: 'ochre', mass: '2 g' });
    expect(Reflect.ownKeys({ ...one })).toEqual(['of', 'mass']);
  });
  it('is not copied where it is hidden', () => {
    const hidden = lookedUp<number, { mass: number }>({ mass: (grams) => grams }, { hidden: true })({ of: 'ochre' }, 2);
    expect(hidden.mass).toBe(2);
    expect({ ...hidden }).toEqual({ of: 'ochre' });
    expect(structuredClone(hidden)).toEqual({ of: 'ochre' });
  });
  it('is the same function for all, so that a journal of many takes little room', () => {
    const getOf = (one: object): unknown => Object.getOwnPropertyDescriptor(one, 'mass')?.get;
    expect(getOf(withMass({}, { grams: 1 }))).toBe(getOf(withMass({}, { grams: 2 })));
  });
});
