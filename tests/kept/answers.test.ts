// Answers of short commands that are kept beside the journal: what is told again is what would be reckoned, whatever
// was edited, damaged or done at the same time.
import { spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { entry, folderOf, program, settings } from '../journal-folder.js';

const malachite = `pigment: { name: malachite, formula: Cu2CO3(OH)2 }
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: soda, amount: 2.50 g }
samples: [{ sample: A, obtained: 1.98 g }]
`;
const tenorite = `pigment: { name: tenorite, formula: CuO }
reaction: Cu2CO3(OH)2 -> 2 CuO + CO2 + H2O
reagents:
  - { lot: 1/A, amount: 1.50 g }
heating: [{ of: mixture, to: 300 °C }]
samples: [{ sample: A, obtained: 1.00 g }]
`;

const files = {
  'journal.yaml': `${settings}balance: 0.01 g\nworkspace: { volume: 30 m3 }\n`,
  'shelf.yaml':
    'blue-vitriol: { name: blue vitriol, formula: CuSO4·5H2O, purity: 98 % }\n' +
    'soda: { name: washing soda, formula: Na2CO3 }\n' +
    'whitener: { name: bleach, strength: 5 % }\n',
  'entries/001-malachite.md': entry(1, malachite),
  'entries/002-tenorite.md': entry(2, tenorite, 'Heated slowly.\n'),
  'entries/003-other.md': entry(3),
};

const journalFolder = (): string =>
  folderOf(Object.fromEntries(Object.entries(files).map(([path, text]) => [`journal/${path}`, text])));

interface Told {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}
const environment = { ...process.env, NODE_OPTIONS: '' };

function ask(folder: string, words: readonly string[], more: Parameters<typeof spawnSync>[2] = {}): Told {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...words], {
    cwd: folder,
    env: environment,
    ...more,
    encoding: 'utf8',
    timeout: 60_000,
  });
  return { status, stdout, stderr };
}

const keptIn = (folder: string): string => join(folder, 'journal/.kept');
const answersIn = (folder: string): string => join(keptIn(folder), 'answers');

/** The files of the kept answers, each with what changes when it is written. */
const written = (folder: string): readonly string[] =>
  existsSync(answersIn(folder))
    ? readdirSync(answersIn(folder))
        .sort()
        .map((name) => {
          const { mtimeMs, ino, size } = statSync(join(answersIn(folder), name));
          return `${name} ${mtimeMs} ${ino} ${size}`;
        })
    : [];

/** What is told, and whether it was told again from what was kept: then nothing is kept anew. */
function askNoted(folder: string, words: readonly string[]): Told & { readonly again: boolean } {
  const before = written(folder);
  const told = ask(folder, words);
  return { ...told, again: before.length > 0 && JSON.stringify(written(folder)) === JSON.stringify(before) };
}

/** What is told where nothing is kept; what is kept lies aside meanwhile. */
function reckoned(folder: string, words: readonly string[]): Told {
  const aside = join(folder, 'aside');
  const isKept = existsSync(keptIn(folder));
  if (isKept) renameSync(keptIn(folder), aside);
  try {
    return ask(folder, words);
  } finally {
    rmSync(keptIn(folder), { recursive: true, force: true });
    if (isKept) renameSync(aside, keptIn(folder));
  }
}

const weigh = ['weigh', '2', '--journal', 'journal'];
const foresee = ['foresee', '2', '--journal', 'journal'];

/** Changes a file of the journal, if it is there and a file. */
function change(path: string, by: (text: string) => string) {
  return (folder: string): void => {
    const file = join(folder, 'journal', path);
    if (existsSync(file) && statSync(file).isFile()) writeFileSync(file, by(readFileSync(file, 'utf8')));
  };
}
const put = (path: string, text: string) => (folder: string) => {
  const file = join(folder, 'journal', path);
  rmSync(file, { recursive: true, force: true });
  writeFileSync(file, text);
};
const take = (path: string) => (folder: string) =>
  rmSync(join(folder, 'journal', path), { recursive: true, force: true });
const swapped =
  (one: string, other: string) =>
  (text: string): string =>
    text.includes(one) ? text.replace(one, other) : text.replace(other, one);
const move = (from: string, to: string) => (folder: string) => {
  const [here, there] = [join(folder, 'journal', from), join(folder, 'journal', to)];
  if (existsSync(here)) renameSync(here, there);
};

const own = 'entries/002-tenorite.md';
const lot = 'entries/001-malachite.md';

/** What a maker may do; each so that it can be done again. */
const edits: Readonly<Record<string, (folder: string) => void>> = {
  nothing: () => undefined,
  'another amount of the same length': change(own, swapped('1.50 g', '1.90 g')),
  'the words of the write-up': change(own, swapped('Heated slowly.', 'Vinegar and bleach were poured in.')),
  'line ends of Windows': change(own, (text) =>
    text.includes('\r') ? text.replaceAll('\r', '') : text.replaceAll('\n', '\r\n'),
  ),
  'what the lot is made of': change(lot, swapped('formula: Cu2CO3(OH)2 }', 'formula: CuCO3 }')),
  'what came out of the lot': change(lot, swapped('obtained: 1.98 g', 'obtained: 0.18 g')),
  'the lot withdrawn': change(lot, swapped('status: finished', 'status: withdrawn')),
  'the lot of another number': change(lot, swapped('number: 1\n', 'number: 7\n')),
  'the lot taken away': take(lot),
  'the lot as it was': put(lot, files[lot]),
  'the entry taken away': take(own),
  'the entry as it was': put(own, files[own]),
  'the entry under another name': move(own, 'entries/002-black.md'),
  'the entry under its name': move('entries/002-black.md', own),
  'a second entry of the number': put('entries/0002-again.md', entry(2, malachite)),
  'no second entry of the number': take('entries/0002-again.md'),
  'the entry a folder': (folder) => {
    take(own)(folder);
    mkdirSync(join(folder, 'journal', own));
  },
  'another entry that takes the lot': put('entries/004-more.md', entry(4, tenorite)),
  'no other entry that takes the lot': take('entries/004-more.md'),
  'a jar of another purity': change('shelf.yaml', swapped('purity: 98 %', 'purity: 68 %')),
  'no shelf': take('shelf.yaml'),
  'the shelf as it was': put('shelf.yaml', files['shelf.yaml']),
  'a coarser balance': change('journal.yaml', swapped('balance: 0.01 g', 'balance: 0.50 g')),
  'a smaller room': change('journal.yaml', swapped('30 m3', '3 m3 ')),
  'no settings': take('journal.yaml'),
  'settings as they were': put('journal.yaml', files['journal.yaml']),
};

/** So many steps by chance; each edit is among them once at least. */
const steps = fc.sample(fc.shuffledSubarray(Object.keys(edits), { minLength: Object.keys(edits).length }), 1)[0]!;
const questions = [weigh, foresee, [...foresee, '--reagent', 'whitener 10 mL'], [...weigh, '--json', '--for', '2 g']];

describe('an answer that is kept', () => {
  // One question a while, so that what is kept is of the journal before the edit.
  it('is what would be reckoned, whatever is edited', () => {
    const folder = journalFolder();
    const wrong: unknown[] = [];
    let again = 0;
    for (const [at, name] of ['nothing', ...steps].entries()) {
      edits[name]!(folder);
      const words = questions[Math.floor(at / 7) % questions.length]!;
      const expected = reckoned(folder, words);
      for (let time = 0; time < 2; time += 1) {
        const { again: isAgain, ...told } = askNoted(folder, words);
        if (isAgain) again += 1;
        if (JSON.stringify(told) !== JSON.stringify(expected)) wrong.push([name, words, told, expected]);
      }
    }
    expect(wrong).toEqual([]);
    // The second time at least, but where the folder is no journal at the time.
    expect(again).toBeGreaterThan(steps.length / 2);
  }, 240_000);

  const isTold = (folder: string, words: readonly string[]): boolean => {
    const { again, ...told } = askNoted(folder, words);
    expect(told).toEqual(reckoned(folder, words));
    return again;
  };
  /** Whether it is told again after something was done between. */
  const afterwards = (done: (folder: string) => void, words = weigh): boolean => {
    const folder = journalFolder();
    isTold(folder, words);
    expect(isTold(folder, words)).toBe(true);
    done(folder);
    return isTold(folder, words);
  };

  it('is told again where files were only touched, and what is no file of the journal was changed', () => {
    const touch = (folder: string) => utimesSync(join(folder, 'journal', own), new Date(0), new Date(0));
    expect(afterwards(touch)).toBe(true);
    expect(afterwards((folder) => writeFileSync(join(folder, 'journal/other.txt'), 'x'))).toBe(true);
  });

  it('is reckoned anew where a file has other bytes, though as many and of the same time', () => {
    const done = (folder: string): void => {
      const file = join(folder, 'journal', own);
      const { atime, mtime } = statSync(file);
      edits['another amount of the same length']!(folder);
      utimesSync(file, atime, mtime);
    };
    expect(afterwards(done)).toBe(false);
  });

  it.each([
    'a second entry of the number',
    'the lot of another number',
    'what the lot is made of',
    'no shelf',
    'a coarser balance',
    'the entry under another name',
  ])('is reckoned anew after an edit: %s', (name) => expect(afterwards(edits[name]!)).toBe(false));

  it('is reckoned anew where a file that was not read has a name by which it is looked at first', () => {
    const folder = journalFolder();
    put('entries/003-other.md', entry(2, malachite))(folder);
    const before = ask(folder, foresee);
    expect(isTold(folder, foresee)).toBe(true);
    move('entries/003-other.md', 'entries/0002-first.md')(folder);
    expect(isTold(folder, foresee)).toBe(false);
    expect(ask(folder, foresee)).not.toEqual(before);
  });

  it('of a line on its own is reckoned anew once the shelf has a jar of that name', () => {
    const folder = journalFolder();
    const words = ['foresee', 'bleach', 'limewash', '--journal', 'journal'];
    take('shelf.yaml')(folder);
    isTold(folder, words);
    expect(isTold(folder, words)).toBe(true);
    put('shelf.yaml', 'limewash: { name: hydrochloric acid, strength: 30 % }\n')(folder);
    expect(isTold(folder, words)).toBe(false);
    expect(ask(folder, words).stdout).toContain('chlorine');
  });

  it('is not told of another journal, nor through a link that leads elsewhere now', () => {
    const done = (folder: string): void => {
      renameSync(join(folder, 'journal'), join(folder, 'one'));
      edits['another amount of the same length']!(journalBeside(folder, 'two'));
      symlinkSync(join(folder, 'two/journal'), join(folder, 'journal'));
      renameSync(join(folder, 'one/.kept'), join(folder, 'two/journal/.kept'));
    };
    const journalBeside = (folder: string, name: string): string => {
      for (const [path, text] of Object.entries(files)) {
        mkdirSync(join(folder, name, 'journal/entries'), { recursive: true });
        writeFileSync(join(folder, name, 'journal', path), text);
      }
      return join(folder, name);
    };
    expect(afterwards(done)).toBe(false);
  });

  it('tells errors again with their exit codes, and wrong use anew', () => {
    const folder = journalFolder();
    const words = ['weigh', '9', '--journal', 'journal'];
    expect(isTold(folder, words)).toBe(false);
    expect(isTold(folder, words)).toBe(true);
    expect(ask(folder, words).status).toBe(1);
    expect(ask(folder, ['weigh', '--journal', 'journal']).status).toBe(2);
    expect(ask(folder, ['weigh', '--journal', 'journal']).status).toBe(2);
  });

  it('is another for other words, another folder of the command and another day', () => {
    const folder = journalFolder();
    const told = (words: readonly string[], more?: Parameters<typeof spawnSync>[2]): number => {
      ask(folder, words, more);
      return written(folder).length;
    };
    expect(told(weigh)).toBe(1);
    expect(told([...weigh, '--for', '10 g'])).toBe(2);
    expect(told([...weigh, '--for=10 g'])).toBe(3);
    expect(told(['weigh', '2', '--journal', '.'], { cwd: join(folder, 'journal') })).toBe(4);
    expect(told(weigh, { env: { ...environment, LANG: 'sv_SE.UTF-8' } })).toBe(5);
    expect(told(weigh)).toBe(5);
    const name = readdirSync(answersIn(folder))[0]!;
    const [key] = /"key":\[.*?\]/.exec(readFileSync(join(answersIn(folder), name), 'utf8'))!;
    expect(key).toContain(`"${Math.floor(Date.now() / 86_400_000)}"`);
    expect(key).toContain(`"${process.version}"`);
  });
});

const inTurns: readonly (readonly [name: string, damage: (bytes: Buffer) => Buffer | string])[] = [
  [
    'a bit of the answer flipped',
    (bytes) => {
      const at = bytes.indexOf('"said"') + 30;
      bytes[at]! ^= 1;
      return bytes;
    },
  ],
  ['cut off', (bytes) => bytes.subarray(0, bytes.length - 7)],
  ['its half', (bytes) => bytes.subarray(0, bytes.length / 4)],
  ['empty', () => ''],
  ['nothing but zeros', (bytes) => Buffer.alloc(bytes.length)],
  ['no answer', () => '{}{}'],
  ['nothing', () => 'nullnull'],
  [
    'of another build of the program',
    (bytes) => bytes.toString('utf8').replaceAll(/"key":\["[^"]{8}/g, '"key":["other---'),
  ],
  ['of another form', (bytes) => bytes.toString('utf8').replaceAll('"madeOf"', '"madeBy"')],
];

/** Put before the program: does something when the program has read a file for the first time. */
const afterReading = (name: string, done: string): readonly string[] => {
  const code = `import fs from 'node:fs';
    const { readFileSync, writeFileSync } = fs;
    let isDone = false;
    fs.readFileSync = (file, ...more) => {
      const read = readFileSync(file, ...more);
      if (!isDone && String(file).endsWith(${JSON.stringify(name)})) {
        isDone = true;
        const text = readFileSync(file, 'utf8');
        writeFileSync(file, ${done});
      }
      return read;
    };`;
  return ['--import', `data:text/javascript,${encodeURIComponent(code)}`];
};

describe('an answer during which the journal is edited', () => {
  const asked = (folder: string, before: readonly string[], words = foresee): string =>
    spawnSync(process.execPath, [...before, program, ...words], { cwd: folder, env: environment, encoding: 'utf8' })
      .stdout;
  it('is told again only for what it was made of', () => {
    const folder = journalFolder();
    const words = ['weigh', '1', '--journal', 'journal'];
    const edit = afterReading('shelf.yaml', `text.replace('purity: 98 %', 'purity: 68 %')`);
    const old = asked(folder, edit, words);
    expect(written(folder).length).toBe(1);
    const anew = asked(folder, edit, words);
    expect(anew).not.toBe(old);
    expect(anew).toBe(reckoned(folder, words).stdout);
    edits['the shelf as it was']!(folder);
    expect(reckoned(folder, words).stdout).toBe(old);
  });
  it('is not kept where a file was read twice and was another the second time', () => {
    const folder = journalFolder();
    expect(asked(folder, afterReading('journal.yaml', `text.replace('30 m3', '3 m3')`))).not.toBe('');
    expect(written(folder)).toEqual([]);
    expect(ask(folder, foresee)).toEqual(reckoned(folder, foresee));
  });
});

describe('what is kept of answers', () => {
  it('is not believed where it is damaged', () => {
    const folder = journalFolder();
    const before = ask(folder, foresee);
    const file = join(answersIn(folder), readdirSync(answersIn(folder))[0]!);
    for (const [name, damage] of inTurns) {
      writeFileSync(file, damage(readFileSync(file)));
      const { again, ...told } = askNoted(folder, foresee);
      expect([name, again, told]).toEqual([name, false, before]);
    }
    expect(askNoted(folder, foresee).again).toBe(true);
  }, 60_000);

  it('may be deleted, or be something else than a folder', () => {
    const folder = journalFolder();
    const first = ask(folder, weigh);
    rmSync(keptIn(folder), { recursive: true });
    expect(ask(folder, weigh)).toEqual(first);
    rmSync(keptIn(folder), { recursive: true });
    writeFileSync(keptIn(folder), 'a file');
    expect(ask(folder, weigh)).toEqual(first);
    expect(readFileSync(keptIn(folder), 'utf8')).toBe('a file');
  });

  it('is left alone by git, and is not begun in a folder that is no journal', () => {
    const folder = journalFolder();
    ask(folder, weigh);
    expect(readFileSync(join(keptIn(folder), '.gitignore'), 'utf8')).toBe('*\n');
    take('journal.yaml')(folder);
    rmSync(keptIn(folder), { recursive: true });
    ask(folder, weigh);
    ask(folder, ['foresee', 'bleach', 'vinegar', '--journal', 'entries']);
    ask(folder, ['foresee', 'bleach', 'vinegar', '--journal', 'nowhere']);
    expect(existsSync(keptIn(folder))).toBe(false);
    expect(readdirSync(folder)).toEqual(['journal']);
    expect(readdirSync(join(folder, 'journal')).sort()).toEqual(['entries', 'shelf.yaml']);
  });

  it('does not grow without end', () => {
    const folder = journalFolder();
    ask(folder, weigh);
    const [first] = readdirSync(answersIn(folder));
    for (let at = 0; at < 130; at += 1) {
      const file = join(answersIn(folder), `old${at}`);
      writeFileSync(file, 'x');
      utimesSync(file, 1000 + at, 1000 + at);
    }
    ask(folder, foresee);
    const names = readdirSync(answersIn(folder));
    expect(names.length).toBe(100);
    expect(names).toContain(first);
    expect(names).toContain('old129');
    expect(names).not.toContain('old31');
  });

  it('takes no harm from two commands at once', async () => {
    const folder = journalFolder();
    const once = (words: readonly string[]) =>
      new Promise<string>((done) => {
        const child = spawn(process.execPath, [program, ...words], { cwd: folder, env: environment });
        let text = '';
        child.stdout.setEncoding('utf8').on('data', (piece: string) => (text += piece));
        child.on('close', (code) => done(`${code} ${text}`));
      });
    const all = await Promise.all([weigh, weigh, weigh, foresee].map(once));
    expect(new Set(all.slice(0, 3)).size).toBe(1);
    expect(readdirSync(answersIn(folder)).filter((name) => name.includes('.'))).toEqual([]);
    expect(askNoted(folder, weigh).again).toBe(true);
    expect(askNoted(folder, foresee).again).toBe(true);
  });

  const isRoot = process.getuid?.() === 0;
  it.runIf(isRoot)('is silently not kept where the journal’s folder can only be read', () => {
    const folder = journalFolder();
    const other = { uid: 65_534, gid: 65_534 };
    chmodSync(folder, 0o755);
    chmodSync(join(folder, 'journal'), 0o555);
    expect(ask(folder, weigh, other)).toEqual(reckoned(folder, weigh));
    expect(existsSync(keptIn(folder))).toBe(false);
    expect(ask(folder, weigh, other).stderr).toBe('');
    // What could not be read is no answer to keep, and what was kept is not told for it.
    chmodSync(join(folder, 'journal'), 0o777);
    expect(ask(folder, weigh, other).status).toBe(0);
    expect(written(folder).length).toBe(1);
    const file = join(folder, 'journal', lot);
    chownSync(file, 0, 0);
    chmodSync(file, 0o600);
    const refused = ask(folder, weigh, other);
    expect(refused.stdout).not.toBe(ask(folder, weigh).stdout);
    chmodSync(file, 0o644);
    expect(ask(folder, weigh, other)).toEqual(reckoned(folder, weigh));
  });

  it.runIf(process.platform !== 'win32')('is told whole to a reader that is slow, and to one that goes', () => {
    const folder = journalFolder();
    const { stdout } = ask(folder, [...foresee, '--json']);
    const line = `"${process.execPath}" "${program}" ${foresee.join(' ')} --json`;
    const through = (shell: string) =>
      spawnSync('sh', ['-c', shell], { cwd: folder, env: environment, encoding: 'utf8' });
    expect(through(`${line} | (sleep 0.3; cat)`).stdout).toBe(stdout);
    const { stderr, status } = through(`${line} | true`);
    expect([stderr, status]).toEqual(['', 0]);
    expect(ask(folder, [...foresee, '--json']).stdout).toBe(stdout);
  });
});
