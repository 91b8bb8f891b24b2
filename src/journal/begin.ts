// Begins entries and journals: writes the files that a maker then fills in.
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { slug } from 'github-slugger';
import { isMap, isScalar, parseDocument, stringify } from 'yaml';
import { bad, good, type Fault, type Outcome } from '../outcome.js';
import type { Remark } from '../remarks/remark.js';
import { nextNumber } from './catalogue.js';
import type { Entry } from './entry.js';
import { ideasOf, type Idea } from './ideas.js';
import { readJournal } from './read.js';
import { schemaLine } from './schema-address.js';
import { statuses } from './schema.js';
import { yamlOptions } from './yaml.js';

export interface Begun {
  readonly number: number;
  /** Below the journal: `entries/015-malachite-green.md`. */
  readonly file: string;
  /** Absolute. */
  readonly path: string;
}

/** What the next entry copies from the one that it follows. */
const copied = ['pigment', 'reaction', 'reagents', 'heating'] as const;

/** Each key of the format as a maker fills it in; a test reads them all. */
const skeleton: Readonly<Record<string, readonly string[]>> = {
  question: ['question: Does a cold precipitation give a bluer green?'],
  pigment: [
    'pigment:',
    '  name: malachite, synthetic',
    '  formula: Cu2CO3(OH)2',
    '  colour-index: PG39',
    '  family: green             # until a colour is measured',
  ],
  reaction: ['reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2'],
  reagents: [
    'reagents:',
    '  - reagent: blue-vitriol   # an id on the shelf …',
    '    amount: 5.00 g          # digits are kept: 5.00 g is not 5 g',
    '  - reagent: { name: sodium carbonate, formula: Na2CO3 }   # … or described here',
    '    amount: 2.50 g',
    '    intent: excess          # a remark follows if it in fact limits',
  ],
  heating: ['heating:', '  - of: product', '    to: 60 °C', '    for: 3 h'],
  samples: [
    'samples:',
    '  - sample: A',
    '    differs: 5 °C, ice bath',
    '    obtained: 1.98 g',
    '    colour: { lab: [54.1, -30.2, 6.0], illuminant: D65, observer: 10 }',
    '  - sample: B',
    '    differs: 60 °C',
  ],
  precautions: [
    'precautions:',
    '  - against: carbon dioxide froth',
    '    do: Carbonate in small portions, a vessel four times the volume.',
  ],
  'if-it-goes-wrong': ['if-it-goes-wrong: Stop adding, step back, extraction on.'],
  waste: ['waste: What is in the filtrate, and where it goes.'],
  incidents: ['incidents:', '  - what: What went wrong, or nearly did.', '    learned: What is done differently now.'],
  videos: ['videos:', '  - url: https://video.example/…', '    moments: [{ at: "3:40", shows: first precipitate }]'],
  ideas: ['ideas: [What could be tried next.]'],
  sources: ['sources: [{ cite: "Author, Title, year, page" }]'],
};

/**
 * Text of a new entry's file.
 * @param schema the line by which an editor finds the format
 */
export function entryText(
  { number, title, date, schema }: { number: number; title: string; date: string; schema: string },
  after?: Entry,
  idea?: Idea,
): string {
  const taken = after ? sourceOf(after) : new Map<string, string>();
  const lines = [
    '---',
    schema,
    `number: ${number}`,
    `title: ${stringify(title, { lineWidth: 0 }).trim()}`,
    `date: ${date}`,
    `status: planned             # ${statuses.join(' | ')}`,
    ...followsLines(after, idea),
    '# What begins with # is an example: take the # away and write your own.',
    '# What is left out is not computed, never guessed.',
    ...Object.entries(skeleton).map(([key, text]) => taken.get(key) ?? text.map((line) => `# ${line}`).join('\n')),
    '---',
    '',
    '## What was done',
    '',
    '## What was seen',
    '',
    '## What to try next',
    '',
  ];
  return lines.join('\n');
}

/** What the entry stands on: the entry that it follows, and the idea that it takes up, with its words as a comment. */
function followsLines(after: Entry | undefined, idea: Idea | undefined): readonly string[] {
  const follows = [...new Set([after?.number, idea?.entry].filter((number) => number !== undefined))];
  return [
    ...(follows.length > 0 ? [`follows: [${follows.join(', ')}]`] : []),
    ...(idea ? [`takes-up: [${idea.id}]            # ${idea.idea.replace(/\s+/g, ' ')}`] : []),
  ];
}

/** The lines of an entry's front matter that say one key, as they were written. */
function sourceOf(entry: Entry): Map<string, string> {
  const found = new Map<string, string>();
  const { contents } = parseDocument(entry.matter, yamlOptions);
  if (!isMap(contents)) return found;
  for (const [index, pair] of contents.items.entries()) {
    if (!isScalar(pair.key) || !(copied as readonly string[]).includes(String(pair.key.value))) continue;
    const next = contents.items[index + 1]?.key;
    const end = isScalar(next) ? next.range?.[0] : undefined;
    // Comments and empty lines before the next key are that key's.
    found.set(
      String(pair.key.value),
      entry.matter
        .slice(pair.key.range?.[0] ?? 0, end)
        .replace(/(?:\r?\n[ \t]*(?:#[^\n]*)?)+$/, '')
        .replaceAll('\r\n', '\n'),
    );
  }
  return found;
}

/**
 * A title as a file's name; letters of other scripts stay.
 * @example nameOf('Malachite, étude') // 'malachite-étude'
 */
export function nameOf(title: string): string {
  const whole = slug(title.normalize('NFC'))
    .replace(/-{2,}/g, '-')
    .replace(/^-+|-+$/g, '');
  const short = whole.length <= 60 ? whole : whole.slice(0, 60).replace(/-[^-]*$/, '');
  return short === '' ? 'entry' : short;
}

const today = (now: Date): string =>
  `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, '0')}-${String(now.getDate()).padStart(2, '0')}`;

/** Names of the files in a folder; none where it is not there yet. */
function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

function unknownEntry(from: number, entries: readonly Entry[]): Fault {
  const [first] = entries;
  return {
    code: 'unknown-entry',
    message: `There is no entry ${from} that can be read.`,
    cure: first
      ? `The numbers go from ${first.number} to ${entries.at(-1)!.number}.`
      : 'The journal has no entries yet.',
  };
}

/** A remark that no entry can be begun with. */
const isInTheWay = ({ ruleId, file }: Remark): boolean =>
  ruleId === 'no-journal' || (file === 'entries' && (ruleId === 'outside-journal' || ruleId === 'not-a-folder'));

export interface BeginOptions {
  readonly from?: number;
  readonly idea?: string;
  readonly now?: Date;
}

function unknownIdea(idea: string, ideas: readonly Idea[]): Fault {
  return {
    code: 'unknown-idea',
    message: `There is no idea ${idea}.`,
    cure:
      ideas.length > 0
        ? `The ideas are numbered from 1 to ${ideas.length}; masstone next lists those that are open.`
        : 'No entry of this journal has ideas yet.',
  };
}

const longestTitle = 200;

/**
 * Writes the file of a new entry, with the next number that neither an entry, a file's name nor the register has.
 * Faults: `no-journal`, `unknown-entry`, `unknown-idea`, `exists`, `unwritable`.
 * @param given its title; default: the words of the idea that it takes up
 * @param from number of the entry that it follows
 * @param idea which idea it takes up: its number among all, or its name `14/2`
 */
export async function beginEntry(
  folder: string,
  given: string | undefined,
  { from, idea, now = new Date() }: BeginOptions = {},
): Promise<Outcome<Begun>> {
  const { journal = { entries: [], register: [] }, remarks } = await readJournal(folder);
  const inTheWay = remarks.find(isInTheWay);
  if (inTheWay) return bad({ code: inTheWay.ruleId, message: inTheWay.reason, cure: inTheWay.note });
  const after = from === undefined ? undefined : journal.entries.find((entry) => entry.number === from);
  if (from !== undefined && !after) return bad(unknownEntry(from, journal.entries));
  const ideas = idea === undefined ? [] : ideasOf(journal.entries);
  const taken = ideas.find(({ number, id }) => id === idea || String(number) === idea);
  if (idea !== undefined && !taken) return bad(unknownIdea(idea, ideas));
  const title = given ?? taken?.idea.replace(/\s+/g, ' ').replace(/\.$/, '').slice(0, longestTitle) ?? '';
  const number = nextNumber(journal.entries, namesIn(join(folder, 'entries')), journal.register);
  const file = `entries/${String(number).padStart(3, '0')}-${nameOf(title)}.md`;
  const path = join(folder, file);
  try {
    mkdirSync(join(folder, 'entries'), { recursive: true });
    const schema = schemaLine('entry', path);
    writeFileSync(path, entryText({ number, title, date: today(now), schema }, after, taken), { flag: 'wx' });
  } catch (error) {
    return bad(unwritten(error, file));
  }
  return good({ number, file, path });
}

function unwritten(error: unknown, file: string): Fault {
  const { code } = error as NodeJS.ErrnoException;
  return code === 'EEXIST'
    ? {
        code: 'exists',
        message: `${file} exists already, and is left as it is.`,
        cure: 'Choose another title or folder, or go on with what is there.',
      }
    : {
        code: 'unwritable',
        message: `${file} can’t be written (${code ?? 'unknown'}).`,
        cure: 'Look at the folder’s permissions.',
      };
}

/**
 * Writes the files that make a folder a journal. Nothing that exists is written over.
 * Faults: `exists`, `unwritable`.
 */
export function foundJournal(folder: string, title: string): Outcome<{ readonly files: readonly string[] }> {
  const settings = [
    schemaLine('journal', join(folder, 'journal.yaml')),
    `title: ${stringify(title, { lineWidth: 0 }).trim()}`,
    'author: Your name             # who writes it',
    'address: https://example.org/ # where the site will be published, with its base path',
    'language: en-GB',
    '# balance: 0.01 g             # resolution of your balance',
    '# workspace: { volume: 25 m3, extraction: false }',
    '# currency: EUR',
    '',
  ].join('\n');
  const shelf = [
    schemaLine('shelf', join(folder, 'shelf.yaml')),
    '# The reagents you own, by id. An entry names them: reagent: blue-vitriol',
    '# blue-vitriol:',
    '#   name: copper(II) sulfate pentahydrate',
    '#   formula: CuSO4·5H2O       # water of hydration counts',
    '#   purity: 98 %',
    '#   price: 4.20 EUR / 500 g',
    '#   sds:                      # from the supplier’s safety data sheet',
    '#     statements: [H302, H318, H410]',
    '#     signal-word: Danger',
    'water:',
    '  name: water',
    '  formula: H2O',
    '',
  ].join('\n');
  const files: string[] = [];
  for (const [file, text] of [
    ['journal.yaml', settings],
    ['shelf.yaml', shelf],
  ] as const) {
    try {
      mkdirSync(join(folder, 'entries'), { recursive: true });
      writeFileSync(join(folder, file), text, { flag: 'wx' });
      files.push(file);
    } catch (error) {
      // A shelf that is there already is kept; a journal that is there already is not founded again.
      if (file === 'shelf.yaml' && (error as NodeJS.ErrnoException).code === 'EEXIST') continue;
      return bad(unwritten(error, file));
    }
  }
  return good({ files: [...files, 'entries/'] });
}
