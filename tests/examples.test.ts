// The examples of the doc comments are run: what stands behind `//` is what stands before it gives. `@example
// expression // value`: numbers are held to the digits that are printed, objects to the keys that are named. An example
// that only shows the shape of a call has an ellipsis or no value. What is public must be runnable as it stands: with
// the names that its own file, its room's index.ts and the rooms of chemistry and reagents export.
/// <reference types="vite/types/importMeta.d.ts" />
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { folderOf } from './journal-folder.js';

type Names = Readonly<Record<string, unknown>>;
const modules = import.meta.glob<Names>('../src/**/*.ts');
const project = fileURLToPath(new URL('..', import.meta.url));

interface Example {
  readonly file: string;
  readonly line: number;
  readonly expression: string;
  /** What is said to come out, as a literal. */
  readonly value: string;
}

const literal = /^(?:'(?:[^'\\]|\\.)*'|"[^"]*"|-?\d[\d.]*(?:e-?\d+)?|true|false|null|undefined|\[.*\]|\{.*\})/;
/** The literal that a comment begins with; what follows after a word such as `for` or a colon explains it. */
function literalOf(comment: string): string | undefined {
  const found = literal.exec(comment)?.[0];
  const rest = found === undefined ? '' : comment.slice(found.length);
  return /^(?:$|:? (?:for|in|at|of) )/.test(rest) ? found : undefined;
}

function examplesIn(file: string): Example[] {
  const text = readFileSync(`${project}/${file}`, 'utf8');
  return [...text.matchAll(/@example\s+([\s\S]*?)(?=\n\s*\*\s*@|\n\s*\*\s*\n|\s*\*\/)/g)].flatMap((match) => {
    const example = match[1]!.replaceAll(/(?:^|\n)\s*\*\s?/g, ' ').trim();
    const cut = / \/\/ (?=[^/]*$)/.exec(example);
    if (!cut || example.includes('…')) return [];
    const value = literalOf(example.slice(cut.index + cut[0].length));
    if (value === undefined) return [];
    const line = text.slice(0, match.index).split('\n').length;
    return [{ file, line, expression: example.slice(0, cut.index), value }];
  });
}

const isNumeric = (value: unknown): boolean =>
  typeof value === 'number' || (typeof value === 'object' && value !== null && 'toSignificantDigits' in value);

/** A printed number: a whole one as such, another to half a unit of its last digit. */
const printed = (digits: string) => ({
  asymmetricMatch: (actual: unknown) => {
    if (!isNumeric(actual)) return false;
    const half = digits.includes('.') ? 0.50005 * 10 ** -digits.split('.')[1]!.length : 1e-9;
    return Math.abs(Number(actual) - Number(digits)) <= half;
  },
  toString: () => digits,
  toAsymmetricMatcher: () => digits,
});

/** The literal as what is compared with: numbers as printed. */
function expected(value: string): unknown {
  const withNumbers = value.replace(
    /('(?:[^'\\]|\\.)*'|"[^"]*")|(?<![\w$])(-?\d+(?:\.\d+)?)(?![\w.])/g,
    (whole, text, digits) => (text === undefined ? `printed('${digits}')` : whole),
  );
  return new Function('printed', `return (${withNumbers});`)(printed);
}

async function namesFor(file: string): Promise<Names> {
  const load = async (path: string): Promise<Names> => (await modules[path]?.()) ?? {};
  const room = /^src\/[^/]+\//.exec(file)?.[0];
  const chemistry = await load('../src/chemistry/index.ts');
  const reagents = await load('../src/reagents/index.ts');
  const emptyFolder = file === 'src/index.ts' && join(folderOf({}), 'site');
  return {
    emptyFolder,
    ...chemistry,
    ...reagents,
    ...(room && (await load(`../${room}index.ts`))),
    ...(await load(`../${file}`)),
  };
}

const AsyncFunction = (async () => undefined).constructor as FunctionConstructor;

async function run({ file, expression }: Example): Promise<unknown> {
  const names = await namesFor(file);
  const usable = Object.keys(names).filter((name) => /^[\w$]+$/.test(name) && name !== 'default');
  return new AsyncFunction(...usable, `return (${expression});`)(...usable.map((name) => names[name]));
}

const files = Object.keys(modules)
  .map((path) => path.replace('../', ''))
  .filter((file) => !file.includes('/compiled/'))
  .sort();
const examples = files.flatMap(examplesIn);

/** The first name called is one that a room's index.ts exports, or all of it stands in the public face. */
async function isPublic({ file, expression }: Example): Promise<boolean> {
  if (file === 'src/index.ts') return true;
  const room = /^src\/[^/]+\//.exec(file)?.[0];
  const face = room ? ((await modules[`../${room}index.ts`]?.()) ?? {}) : {};
  const name = /[\w$]+/.exec(expression)?.[0];
  return name !== undefined && Object.hasOwn(face, name);
}

describe('examples of the doc comments', () => {
  test.each(examples.map((example) => [`${example.file}:${example.line} ${example.expression}`, example] as const))(
    '%s',
    async (_, example) => {
      let actual: unknown;
      try {
        actual = await run(example);
      } catch (error) {
        const shapeOnly = error instanceof ReferenceError || error instanceof SyntaxError;
        if (shapeOnly && !(await isPublic(example))) return;
        throw error;
      }
      const wanted = expected(example.value);
      if (typeof wanted === 'object' && wanted !== null && !Array.isArray(wanted) && !('asymmetricMatch' in wanted))
        expect(actual).toMatchObject(wanted);
      else expect(actual).toEqual(wanted);
    },
  );
  test('there are some in every pure room, and one for each thing that the public face is for', () => {
    for (const room of ['chemistry', 'reagents', 'hazards', 'colour'])
      expect(examples.filter(({ file }) => file.startsWith(`src/${room}/`)).length, room).toBeGreaterThan(0);
    const shown = examples.filter(({ file }) => file === 'src/index.ts').map(({ expression }) => expression);
    const called = [
      'readJournal',
      'reckonJournal',
      'foresee',
      'weighingList',
      'molarMass',
      'balance',
      'colour',
      'publish',
    ];
    expect(called.filter((name) => !shown.some((expression) => expression.includes(name)))).toEqual([]);
  });
});
