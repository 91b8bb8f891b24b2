// Lines of a file that has one for each entry: a line is written down where the entry is at hand, and put in its place
// when all are there. A line of the former file is taken as it stands where its entry is the same.
import { closeSync, openSync, readSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bytesOf } from './text-bytes.js';

/** Where a line stands. */
export interface LinePlace {
  readonly file: string;
  readonly at: number;
  readonly bytes: number;
}

/** A file that lines are put down in, as they come. */
export class LineSpool {
  private at = 0;

  constructor(private readonly file: string) {}

  put(line: string): LinePlace {
    const bytes = bytesOf(line);
    return this.append(bytes, [bytes.length])[0]!;
  }

  /** Puts down many at once. */
  putAll(lines: readonly string[]): LinePlace[] {
    if (lines.length === 0) return [];
    const all = lines.map((line) => Buffer.from(line));
    return this.append(
      Buffer.concat(all),
      all.map(({ length }) => length),
    );
  }

  private append(all: Uint8Array, lengths: readonly number[]): LinePlace[] {
    const { file } = this;
    writeFileSync(file, all, { flag: this.at === 0 ? 'w' : 'a' });
    return lengths.map((bytes) => {
      const { at } = this;
      this.at += bytes;
      return { file, at, bytes };
    });
  }
}

/** So much of a file is read at once. */
const mostAtOnce = 1 << 20;

/**
 * Places of which one stands behind the other, with what is between them, as one place.
 * @param between how many bytes stand between two lines
 */
export function* joined(places: readonly LinePlace[], between: number): Iterable<LinePlace> {
  let run: LinePlace | undefined;
  for (const place of places) {
    const isNext = run !== undefined && place.file === run.file && place.at === run.at + run.bytes + between;
    if (run && isNext && run.bytes + place.bytes < mostAtOnce)
      run = { ...run, bytes: run.bytes + between + place.bytes };
    else {
      if (run) yield run;
      run = place;
    }
  }
  if (run) yield run;
}

/** Reads lines from where they stand. */
export class LineReader {
  private readonly handles = new Map<string, number>();

  /** @throws where a file is shorter than it was */
  read({ file, at, bytes }: LinePlace): Uint8Array {
    const handle = this.handles.get(file) ?? openSync(file, 'r');
    this.handles.set(file, handle);
    const line = Buffer.allocUnsafe(bytes);
    for (let read = 0; read < bytes; ) {
      const more = readSync(handle, line, read, bytes - read, at + read);
      if (more === 0) throw new Error(`${file} was cut short`);
      read += more;
    }
    return line;
  }

  close(): void {
    for (const handle of this.handles.values()) closeSync(handle);
    this.handles.clear();
  }
}

/** Takes away files of lines that are in their places. */
export const removeSpools = (files: Iterable<string>): void => {
  for (const file of files) rmSync(file, { force: true });
};

/** Where what entries are found by is put down while a site is built. */
export const findablesIn = (folder: string, thread: number | string): string => join(folder, `.findables-${thread}`);
