// Compiles every CSV of src/ into a typed module, `src/tables/compiled/<room>/<table>.ts`, which git does not keep:
// the cells are read and checked once, when the house is built, and no command reads a CSV or loads a schema.
import { isDeepStrictEqual } from 'node:util';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, extname, join, relative } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { z } from 'zod';
import { packageFolder } from '../package-folder.js';
import { checkTable } from './check.js';

/** `observer-10deg` is `observer10deg`, `h-statements` is `hStatements`. */
const camelCase = (name: string): string => name.replace(/-(.)/g, (_, letter: string) => letter.toUpperCase());

const slashes = (path: string): string => path.replaceAll('\\', '/');

const filesBelow = (folder: string, ending: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map(slashes)
    .filter((path) => path.endsWith(ending))
    .sort();

/** A text as a literal of the code; in single quotes, since its own are double ones. */
const quoted = (text: string): string => `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;

/**
 * The module of a table: its rows wait as text until they are first asked for, which costs least where they never
 * are.
 */
function moduleOf(table: string, rows: readonly unknown[]): string {
  const name = camelCase(basename(table, '.csv'));
  const up = '../'.repeat(table.split('/').length + 1);
  const type = `${name[0]!.toUpperCase()}${name.slice(1)}Row`;
  return `// Made from src/${table} by src/tables/compile.ts. Edit that table, not this file, then \`npm run tables\`.
import type { ${name} } from '${up}${dirname(table)}/tables.schema.js';
import type { RowOf } from '${up}tables/rows.js';

export type ${type} = RowOf<typeof ${name}>;
let rows: readonly ${type}[] | undefined;

/** Rows of src/${table}, in its order. */
export function ${name}Table(): readonly ${type}[] {
  rows ??= JSON.parse(
    ${quoted(JSON.stringify(rows))},
  ) as readonly ${type}[];
  return rows;
}
/** The row at a place from 0, where few are asked for. */
export const ${name}Row = (place: number): ${type} => ${name}Table()[place]!;
`;
}

/** What the code will read is what the schema made: text, numbers, truth values, lists and objects of them. */
const isPlain = (rows: readonly unknown[]): boolean =>
  isDeepStrictEqual(JSON.parse(JSON.stringify(rows)), rows.map(withoutUndefined));
const withoutUndefined = (row: unknown): unknown =>
  Object.fromEntries(Object.entries(row as object).filter(([, cell]) => cell !== undefined));

/** Folders of a compilation, for the tests; those of the house where nothing is said. */
export interface Folders {
  /** Where the tables lie. */
  readonly source: string;
  /** Where the modules go. */
  readonly target: string;
  /** Where the schemas lie, as code that can be loaded; below it the folders are those of `source`. */
  readonly schemas: string;
}

const here = dirname(fileURLToPath(import.meta.url));
export const ownFolders: Folders = {
  source: join(packageFolder, 'src'),
  target: join(packageFolder, 'src/tables/compiled'),
  schemas: dirname(here),
};

/**
 * Checks every table and, if none has a fault, writes the modules that changed and removes those whose table is gone.
 * @returns every fault, `src/chemistry/quantity/units.csv:3:4: factor: must be a decimal number; it is 'x'`; empty
 * where all is well
 */
export async function compileTables(folders: Folders = ownFolders): Promise<readonly string[]> {
  const faults: string[] = [];
  const modules = new Map<string, string>();
  const schemasIn = new Map<string, Readonly<Record<string, unknown>>>();
  const ending = extname(fileURLToPath(import.meta.url));
  for (const table of filesBelow(folders.source, '.csv')) {
    const place = slashes(relative(dirname(folders.source), join(folders.source, table)));
    const room = dirname(table);
    if (!schemasIn.has(room)) {
      const file = pathToFileURL(join(folders.schemas, room, `tables.schema${ending}`)).href;
      schemasIn.set(room, (await import(/* @vite-ignore */ file)) as Record<string, unknown>);
    }
    const name = camelCase(basename(table, '.csv'));
    const schema = schemasIn.get(room)![name];
    if (!(schema instanceof z.ZodObject)) {
      faults.push(`${place}:1:1: ${dirname(place)}/tables.schema.ts has no schema '${name}' for this table`);
      continue;
    }
    const checked = checkTable(readFileSync(join(folders.source, table), 'utf8'), schema);
    faults.push(...checked.faults.map(({ line, column, message }) => `${place}:${line}:${column}: ${message}`));
    if (checked.faults.length === 0 && !isPlain(checked.rows))
      faults.push(`${place}:1:1: its schema makes something that cannot be kept as JSON`);
    modules.set(table.replace(/csv$/, 'ts'), moduleOf(table, checked.rows));
  }
  if (faults.length === 0) write(modules, folders.target);
  return faults;
}

function write(modules: ReadonlyMap<string, string>, target: string): void {
  mkdirSync(target, { recursive: true });
  for (const old of filesBelow(target, '.ts')) if (!modules.has(old)) rmSync(join(target, old));
  for (const [path, code] of modules) {
    const file = join(target, path);
    mkdirSync(dirname(file), { recursive: true });
    if (!isThere(file, code)) writeFileSync(file, code);
  }
}

/** Files that would stay the same are left alone, so that nothing is compiled again for them. */
function isThere(file: string, code: string): boolean {
  try {
    return readFileSync(file, 'utf8') === code;
  } catch {
    return false;
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const faults = await compileTables();
  for (const fault of faults) process.stderr.write(`${fault}\n`);
  if (faults.length > 0) process.exitCode = 1;
}
