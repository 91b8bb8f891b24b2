// Journals and sites for attacks: small ones in a folder of their own, and pictures of what lies in a folder, to be
// compared.
import {
  cpSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  readlinkSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const program = fileURLToPath(new URL('../../dist/command-line/masstone.cjs', import.meta.url));
export const demo = fileURLToPath(new URL('../../content', import.meta.url));

export const newFolder = () => mkdtempSync(join(tmpdir(), 'masstone-attack-'));
export const removeFolder = (folder) => rmSync(folder, { recursive: true, force: true });

/** Writes files, by path below a folder. */
export function writeFiles(folder, files) {
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
}

const entry = (number, more, body) =>
  `---\nnumber: ${number}\ntitle: Entry ${number}\ndate: 2026-01-${10 + number}\nstatus: ` +
  `finished\n${more}---\n${body}\n`;

/** A journal of few entries; `word` stands on every page of an entry and of the pages. */
export const fewEntries = (word, count = 3) => ({
  'journal/journal.yaml': 'title: Attacked\naddress: https://test.example/base/\nauthor: A tester\n',
  'journal/shelf.yaml': 'blue-vitriol: { name: blue vitriol, formula: CuSO4·5H2O }\n',
  'journal/pages/about.md': `${word} about.\n`,
  ...Object.fromEntries(
    Array.from({ length: count }, (_, at) => [
      `journal/entries/00${at + 1}-x.md`,
      entry(at + 1, 'samples: [{ sample: A, obtained: 1.98 g }]\n', `${word} words.`),
    ]),
  ),
});

/** What others have put into the site's folder. */
export const others = {
  'site/.git/HEAD': 'ref: refs/heads/main\n',
  'site/.git/objects/ab/cdef': 'an object',
  'site/CNAME': 'pigments.example\n',
  'site/1/verification.txt': 'beside a page',
};

/**
 * Everything in a folder by path, with what it holds; folders only where they are empty. What a journal keeps between
 * runs is no part of it: it may be anything at any time, and is believed only where it is whole.
 */
export function pictureOf(folder, below = '') {
  const picture = {};
  for (const name of readdirSync(join(folder, below)).filter((one) => one !== '.kept')) {
    const path = below === '' ? name : `${below}/${name}`;
    const stats = lstatSync(join(folder, path));
    if (stats.isSymbolicLink()) picture[path] = `-> ${readlinkSync(join(folder, path))}`;
    else if (!stats.isDirectory()) picture[path] = readFileSync(join(folder, path), 'latin1');
    else {
      const inside = pictureOf(folder, path);
      if (Object.keys(inside).length === 0) picture[`${path}/`] = 'empty';
      Object.assign(picture, inside);
    }
  }
  return picture;
}

/** The first way in which two pictures differ, in words; undefined where they do not. */
export function difference(picture, expected) {
  for (const path of new Set([...Object.keys(expected), ...Object.keys(picture)])) {
    if (!(path in picture)) return `${path} is missing`;
    if (!(path in expected)) return `${path} is there`;
    if (picture[path] !== expected[path]) return `${path} is another`;
  }
  return undefined;
}

export const copyFolder = (from, to) => cpSync(from, to, { recursive: true, verbatimSymlinks: true });
export const textOf = (file) => (existsSync(file) ? readFileSync(file, 'utf8') : undefined);
