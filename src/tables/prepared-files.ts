// Where what was prepared lies, and how a command reads it.
import { openSync, readFileSync, readSync } from 'node:fs';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ItemsAtHand, type TextAtHand } from './items-at-hand.js';
import { packageFolder } from '../package-folder.js';

/** Folder of what `src/tables/prepare.ts` wrote. */
export const preparedFolder: string = join(packageFolder, 'dist', 'prepared');

/** All texts one after the other, of which few are read, and where each begins and how long it is, by name. */
export const [textsName, placesName] = ['texts', 'places.json'];

export type Places = Readonly<Record<string, readonly [from: number, length: number]>>;

/** So much of the file is read at once, and so many such pages are held: what is asked for next often lies beside. */
const [pageSize, mostPages] = [32_768, 64];

/** Reads parts of a file in pages. It stays open as long as the program runs. */
function pagesOf(path: string): (from: number, length: number) => string {
  const file = openSync(path, 'r');
  const onePage = Buffer.alloc(pageSize);
  const read = (from: number, length: number, bytes = Buffer.allocUnsafe(length)): string =>
    bytes.toString('latin1', 0, readSync(file, bytes, 0, length, from));
  const pages = new Map<number, string>();
  const pageAt = (number: number): string => {
    const before = pages.get(number);
    if (before !== undefined) return before;
    const page = read(number * pageSize, pageSize, onePage);
    if (pages.size >= mostPages) pages.clear();
    pages.set(number, page);
    return page;
  };
  return (from, length) => {
    if (length >= pageSize) return read(from, length);
    const number = Math.floor(from / pageSize);
    const begin = from - number * pageSize;
    const first = pageAt(number).slice(begin, begin + length);
    return begin + length <= pageSize ? first : first + pageAt(number + 1).slice(0, begin + length - pageSize);
  };
}

/** The texts of such a folder, by name. They are plain ASCII, which is read fastest as Latin-1. */
export function textsIn(folder: string): (name: string) => TextAtHand | undefined {
  const places = JSON.parse(readFileSync(join(folder, placesName), 'latin1')) as Places;
  const read = pagesOf(join(folder, textsName));
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
