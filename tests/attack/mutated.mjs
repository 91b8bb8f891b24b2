// Mutated journals and reading files: whatever is in them, remarks with a place and never an exception, a hang or a
// site.
import { mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { printRemarks, remarksAsJson } from '../../dist/src/journal/index.js';
import { proof } from '../../dist/src/site/proof.js';
import { publish } from '../../dist/src/site/publish.js';
import { demo, newFolder, removeFolder } from './folders.mjs';

/** Pieces that a parser may stumble over. */
const pieces = [
  ...[
    '---\n',
    '\n---\n',
    ': ',
    '- ',
    '[',
    ']',
    '{',
    '}',
    '"',
    "'",
    '|',
    '>',
    '&a',
    '*a',
    '!!js/function',
    '#',
    '%',
    '\t',
  ],
  ...['\0', '\ufeff', '\u202e', '\ud800', '\u2028', '\r', '\u00a0', 'é', '𝔸', '·', '−', '⁻', '½', '…', '°', '±'],
  ...[
    '~9 mL',
    '2 tsp',
    'a pinch',
    '0.333333333333333333333333333333333333 g',
    '1e999',
    '-1',
    '1/0',
    'NaN',
    '5 - 3 g',
    '12/A',
  ],
  ...[
    'Cu(NO3)2·xH2O',
    'CuSO4·5H2O',
    '(((((',
    'Xx9',
    'H2O^2-',
    '->',
    '<=>',
    'C60H999999',
    '8-10',
    'x',
    '0',
    '99999999999999999',
  ],
  ...[
    ':chem[',
    ':value[A.yield]',
    ':swatch[Z]',
    '](../',
    '![x](',
    '<script>alert(1)</script>',
    '[^1]',
    '](javascript:x)',
  ],
  ...[
    'reagent: ',
    'lot: 1/A',
    'amount: 5.00 g',
    'status: planned',
    'number: 1',
    'samples: []',
    '__proto__: x',
    'constructor: x',
  ],
  ...[
    'BEGIN_DATA\n',
    'END_DATA\n',
    'NUMBER_OF_FIELDS 3\n',
    '400;10,5\n',
    '<cc:ReflectanceSpectrum',
    '<!DOCTYPE x [',
    '&lol;',
    ']]>',
  ],
];

/** Changes a text at one place. */
function mutated(text, random, texts) {
  const at = random.below(text.length + 1);
  const length = random.oneOf([0, 1, 1, 2, 5, 20, 200]);
  switch (random.below(9)) {
    case 0:
      return text.slice(0, at) + text.slice(at + length);
    case 1:
      return text.slice(0, at) + random.oneOf(pieces) + text.slice(at);
    case 2:
      return text.slice(0, at) + random.oneOf(pieces) + text.slice(at + length);
    case 3:
      return (
        text.slice(0, at) + String.fromCharCode(random.below(random.oneOf([128, 256, 65536]))) + text.slice(at + 1)
      );
    case 4: {
      const lines = text.split('\n');
      const [from, to] = [random.below(lines.length), random.below(lines.length)];
      lines.splice(to, random.below(2), lines[from]);
      return lines.join('\n');
    }
    case 5:
      return text.slice(0, at);
    case 6: {
      const other = random.oneOf(texts);
      const from = random.below(other.length + 1);
      return text.slice(0, at) + other.slice(from, from + 200) + text.slice(at);
    }
    case 7:
      return text.slice(0, at) + text.slice(at, at + length).repeat(random.oneOf([2, 3, 50])) + text.slice(at + length);
    default:
      return text.replace(/\d+(\.\d+)?/g, (figure) =>
        random.isOneIn(12) ? random.oneOf(['0', '-1', '1e30', '', figure.repeat(9)]) : figure,
      );
  }
}

function filesOf(folder, below = '') {
  return readdirSync(join(folder, below), { withFileTypes: true }).flatMap((one) => {
    const path = below === '' ? one.name : `${below}/${one.name}`;
    return one.isDirectory() ? filesOf(folder, path) : [path];
  });
}

/** What is wrong with the remarks on a journal; each must have a place, a rule and a cure. */
function wrongIn(remarks) {
  for (const one of remarksAsJson(remarks)) {
    if (!(one.line >= 1 && one.column >= 1)) return `a remark without a place: ${one.found}`;
    if (!/^[a-z][a-z0-9-]*$/.test(one.rule) || !one.found || !one.cure)
      return `a remark that lacks something: ${JSON.stringify(one)}`;
  }
  printRemarks(remarks);
  return undefined;
}

/** A text that needs no other entry of its journal, so that a few together are a whole one. */
const alone = (text) =>
  text
    .replace(/^(?:follows|repeats|  lot):.*\n/gm, '')
    .replace(/\]\((?:\.\.\/)?(?:entries\/)?\d+-[^)]*\)/g, '](https://a.example/)');

const slowAt = 8000;

/** Journals of a few entries of the demonstration, changed by chance. */
export async function attackJournals({ random, until, report, only: most = Infinity }) {
  const home = newFolder();
  const journal = join(home, 'journal');
  const all = filesOf(demo).filter((path) => path !== 'register.txt');
  const texts = new Map(all.map((path) => [path, alone(readFileSync(join(demo, path), 'utf8'))]));
  const entries = all.filter((path) => path.startsWith('entries/') && !/\blot:/.test(texts.get(path)));
  const found = [];
  let [tried, published, slowest] = [0, 0, 0];
  const one = async (label) => {
    const began = performance.now();
    let wrong;
    try {
      const { remarks } = await proof(journal);
      wrong = wrongIn(remarks);
      if (random.isOneIn(20)) {
        const publication = await publish(journal, { to: join(home, 'site'), drafts: true, search: false, threads: 0 });
        if (publication.published) published += 1;
        wrong ??= wrongIn(publication.remarks);
      }
    } catch (error) {
      wrong = error.stack;
    }
    const took = performance.now() - began;
    slowest = Math.max(slowest, took);
    if (took > slowAt) wrong ??= `took ${Math.round(took)} ms`;
    if (wrong) found.push(`${label}: ${wrong}`);
  };
  const write = (path, text) => {
    mkdirSync(dirname(join(journal, path)), { recursive: true });
    writeFileSync(join(journal, path), text);
  };
  try {
    while (tried < most && Date.now() < until) {
      rmSync(journal, { recursive: true, force: true });
      const some = new Set(Array.from({ length: 3 }, () => random.oneOf(entries)));
      const numbers = [...some].map((path) => /\/(\d+)/.exec(path)[1]);
      const readings = all.filter((path) => numbers.some((number) => path.startsWith(`spectra/${number}-`)));
      const others = [
        'journal.yaml',
        'shelf.yaml',
        random.oneOf(all.filter((path) => /^(pages|series|colours)\//.test(path))),
      ];
      const files = [...some, ...readings, ...others];
      const base = new Map(files.map((path) => [path, texts.get(path)]));
      for (const path of files) write(path, texts.get(path));
      // The same journal is changed further and further, so that what holds it up is not always the first line of a
      // file.
      const now = new Map(files.map((path) => [path, texts.get(path)]));
      for (let step = 0; step < 12 && tried < most && Date.now() < until; step += 1) {
        tried += 1;
        const path = random.isOneIn(40) ? 'register.txt' : random.oneOf(files);
        now.set(path, mutated(now.get(path) ?? '/1/\n/1/#A\n', random, [...texts.values()]));
        const bytes = Buffer.from(now.get(path));
        if (random.isOneIn(15) && bytes.length > 0) bytes[random.below(bytes.length)] = random.below(256);
        write(path, bytes);
        await one(`journal ${tried} (${path})`);
        // What stops everything else from being looked at is taken back now and then.
        if (random.isOneIn(2)) {
          now.set(path, base.get(path) ?? '');
          write(path, now.get(path));
        }
      }
    }
  } finally {
    removeFolder(home);
  }
  report({ tried, found, words: `${published} of them published, the slowest ${Math.round(slowest)} ms` });
}
