// Where what was prepared lies, and how a command reads it.
import { readFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ItemsAtHand } from './items-at-hand.js';
import { packageFolder } from '../package-folder.js';

/** Folder of what `src/tables/prepare.ts` wrote. */
export const preparedFolder: string = join(packageFolder, 'dist', 'prepared');

/** The sources, run as they are, may be newer than what was prepared of them. */
const isCompiled = fileURLToPath(import.meta.url).startsWith(join(packageFolder, 'dist') + sep);

/**
 * What was prepared under a name, as JSON; undefined where it is not there, and is then made. The files are plain
 * ASCII, which is read fastest as Latin-1.
 */
export function readPreparedFile(name: string): string | undefined {
  if (!isCompiled) return undefined;
  try {
    return readFileSync(join(preparedFolder, `${name}.json`), 'latin1');
  } catch {
    return undefined;
  }
}

/** Rows of a table as they were prepared, of which those are parsed that are asked for. */
export function preparedRows<Row>(table: string): ItemsAtHand<Row> {
  const text = readPreparedFile(`tables/${table}`);
  if (text === undefined) throw new Error(`the table ${table} was not prepared; npm run build prepares it`);
  return new ItemsAtHand(text);
}
