// Where what was prepared lies, and how a command reads it.
import { fstatSync, openSync, readFileSync, readSync } from 'node:fs';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ItemsAtHand, type TextAtHand } from './items-at-hand.js';
import { packageFolder } from '../package-folder.js';

/** Folder of what `src/tables/prepare.ts` wrote. */
export const preparedFolder: string = join(packageFolder, 'dist', 'prepared');

/** All texts one after the other, of which few are read, and where each begins and how long it is, by name. */
export const [textsName, placesName] = ['texts', 'places.json'];

export type Places = Readonly<Record<string, readonly [from: number, length: number]>>;

/** So much of the file is read at once: what is asked for next often lies beside. */
const pageSize = 32_768;

/** Reads parts of a file, each page of it once. It stays open as long as the program runs. */
function partsOf(path: string): (from: number, length: number) => string {
  const file = openSync(path, 'r');
  // Room of which the system gives only what is written to.
  const bytes = Buffer.alloc(fstatSync(file).size);
  const isRead = new Uint8Array(Math.ceil(bytes.length / pageSize));
  return (from, length) => {
    const last = Math.floor((from + length - 1) / pageSize);
    for (let page = Math.floor(from / pageSize); page <= last; page += 1)
      if (isRead[page] === 0) {
        readSync(file, bytes, page * pageSize, Math.min(pageSize, bytes.length - page * pageSize), page * pageSize);
        isRead[page] = 1;
      }
    return bytes.toString('latin1', from, from + length);
  };
}

/** The texts of such a folder, by name. They are plain ASCII, which is read fastest as Latin-1. */
export function textsIn(folder: string): (name: string) => TextAtHand | undefined {
  const places = JSON.parse(readFileSync(join(folder, placesName), 'latin1')) as Places;
  const read = partsOf(join(folder, textsName));
  return (name) => {
    const place = places[name];
    if (!place) return undefined;
    const [begin, whole] = place;
    const part = (from: number, length: number): string => read(begin + from, Math.min(length, whole - from));
    return { length: whole, part };
  };
}

/** The sources, run as they are, may be newer than what was prepared of them. */
const isCompiled = fileURLToPath(import.meta.url).startsWith(join(packageFolder, 'dist') + sep);

let texts: ReturnType<typeof textsIn> | undefined;

/** What was prepared under a name; undefined where it is not there, and is then made. */
export function preparedText(name: string): TextAtHand | undefined {
  if (!isCompiled) return undefined;
  try {
    return (texts ??= textsIn(preparedFolder))(name);
  } catch {
    return undefined;
  }
}

/** Rows of a table as they were prepared, of which those are parsed that are asked for. */
export function preparedRows<Row>(table: string): ItemsAtHand<Row> {
  const text = preparedText(`tables/${table}`);
  if (text === undefined) throw new Error(`the table ${table} was not prepared; npm run build prepares it`);
  return new ItemsAtHand(text);
}
