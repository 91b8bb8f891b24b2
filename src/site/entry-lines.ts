// Lines of a file that has one for each entry: a line is written down where the entry is at hand, and put in its place
// when all are there. A line of the former file is taken as it stands where its entry is the same.
import { closeSync, openSync, readSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { once } from '../once.js';
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
const mostAtOnce = 1 << 18;

/**
 * Places of which one stands behind the other, with what is between them, as one place.
 * @param between how many bytes stand between two lines
 */
export function* joined(places: readonly LinePlace[], between: number): Iterable<LinePlace> {
  let run: LinePlace | undefined;
  for (const place of places) {
    const isNext = run !== undefined && place.file === run.file && place.at === run.at + run.bytes + between;
    if (run && isNext) run = { ...run, bytes: run.bytes + between + place.bytes };
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
  private readonly room = once(() => Buffer.allocUnsafeSlow(mostAtOnce));

  /** @throws where a file is shorter than it was */
  read(place: LinePlace): Uint8Array {
    const line = Buffer.allocUnsafe(place.bytes);
    for (let read = 0; read < line.length; ) read += this.readInto(line.subarray(read), place, read);
    return line;
  }

  /**
   * The same, some at a time.
   * @returns what is large lies in one room, and is there until the next is asked for: memory for all of a file, made
   * and cleared away, took as long as the reading
   * @throws where a file is shorter than it was
   */
  *readInTurn(place: LinePlace): Iterable<Uint8Array> {
    for (let read = 0; read < place.bytes; ) {
      const wanted = Math.min(place.bytes - read, mostAtOnce);
      const room = wanted === mostAtOnce ? this.room() : Buffer.allocUnsafe(wanted);
      const more = this.readInto(room.subarray(0, wanted), place, read);
      yield room.length === more ? room : Buffer.from(room.subarray(0, more));
      read += more;
    }
  }

  private readInto(room: Uint8Array, { file, at }: LinePlace, from: number): number {
    const handle = this.handles.get(file) ?? openSync(file, 'r');
    this.handles.set(file, handle);
    const read = readSync(handle, room, 0, room.length, at + from);
    if (read === 0) throw new Error(`${file} was cut short`);
    return read;
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
