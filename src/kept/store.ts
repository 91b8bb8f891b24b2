// What is kept from one run to the next, in a folder of its own beside the journal. It can be deleted at any time, and
// nothing in it is believed: the index must be whole and written by the same code, and so must each large part.
import { readFileSync, readdirSync, rmSync, unlinkSync } from 'node:fs';
import { join } from 'node:path';
import { readChecked, writeBeside, writeCheckedPieces } from './checked-file.js';
import { hashOf } from './inputs.js';
import { keptFolder, makeKeptFolder } from './kept-folder.js';
import type { Kept } from './kept.js';
import { PackFile } from './pack-file.js';
import { pack, unpack } from './packed.js';

/** What none of so many runs has asked for is dropped. */
const oldest = 3;

const indexFile = 'index';
const largeFolder = 'large';
/** Lines that say only that a large part lies in a file of its own. */
const aside = 'large ';

/** A line of the index, taken apart only when it is asked for: as text it takes the least room. */
interface Line {
  /** Runs since it was asked for. */
  age: number;
  /** Length of the text in signs. */
  readonly length: number;
  /** What was put down in this run lies on the disk until the index is written. */
  readonly json?: string;
}

const fieldsOf = (line: string): [age: string, key: string, json: string] => {
  const first = line.indexOf('\t');
  const second = line.indexOf('\t', first + 1);
  return [line.slice(0, first), line.slice(first + 1, second), line.slice(second + 1)];
};

/** What stands in a line before its text. */
const headOf = (key: string, { age }: Line): string => `${age}\t${key}\t`;

/** Lines of an index by their keys; none where it is missing, damaged or of other code. */
function readIndex(file: string, version: string): Map<string, Line> {
  const lines = new Map<string, Line>();
  const rest = readChecked(file, version) ?? '';
  for (let at = 0; at < rest.length; ) {
    const stop = rest.indexOf('\n', at);
    const [age, key, json] = fieldsOf(rest.slice(at, stop));
    lines.set(key, { age: Number(age) + 1, length: json.length, json });
    at = stop + 1;
  }
  return lines;
}

/** Does what may fail without harm: then less is kept, and more is made anew. */
function quietly(work: () => void): void {
  try {
    work();
  } catch {
    // A folder that cannot be written to, a full disk: nothing is kept.
  }
}

/** What is kept on the disk. */
export class KeptOnDisk implements Kept {
  private readonly lines: Map<string, Line>;
  /** Texts of lines that were put down in this run. */
  private readonly texts = new PackFile();
  private readonly folder: string;
  private changed = false;
  private willWrite = true;

  /**
   * @param journal folder of the journal
   * @param version what was kept by code of another version is not taken
   * @param how `toRead`: nothing on the disk is made or changed
   */
  constructor(
    private readonly journal: string,
    private readonly version: string,
    how: { readonly toRead?: boolean } = {},
  ) {
    this.folder = join(journal, keptFolder);
    this.lines = readIndex(join(this.folder, indexFile), version);
    if (how.toRead) this.willWrite = false;
    else if (this.lines.size === 0) this.begin();
  }

  /** Whether nothing was found that could be taken. */
  get isEmpty(): boolean {
    return this.lines.size === 0;
  }

  readonly get = (key: string): unknown => {
    const line = this.lines.get(key);
    if (!line) return undefined;
    line.age = 0;
    const json = this.textOf(key, line);
    return json && JSON.parse(json);
  };

  readonly has = (key: string): boolean => this.lines.has(key);

  readonly put = (key: string, value: unknown): void => {
    this.putJson(key, JSON.stringify(value));
  };

  readonly putJson = (key: string, json: string): void => {
    this.changed = true;
    this.texts.put(key, Buffer.from(json));
    this.lines.set(key, { age: 0, length: json.length });
  };

  readonly hasLarge = (key: string): boolean => {
    const line = this.lines.get(aside + key);
    if (line) line.age = 0;
    return line !== undefined;
  };

  readonly getLarge = (key: string): unknown => {
    if (!this.hasLarge(key)) return undefined;
    try {
      return unpack(readFileSync(this.fileOf(key)));
    } catch {
      this.changed = true;
      this.lines.delete(aside + key);
      return undefined;
    }
  };

  readonly putLarge = (key: string, value: unknown): void => {
    if (this.willWrite) this.putPacked(key, pack(value));
  };

  readonly putPacked = (key: string, packed: Uint8Array): void => {
    if (!this.willWrite) return;
    quietly(() => {
      writeBeside(this.fileOf(key), packed);
      this.put(aside + key, 1);
    });
  };

  /** Writes down what is kept for the next run, without what nobody has asked for lately. */
  end(): void {
    const all = [...this.lines];
    if (!this.willWrite || (!this.changed && all.every(([, { age }]) => age === 0))) return;
    quietly(() => {
      const kept = all.filter(([, { age }]) => age <= oldest);
      this.writeIndex(kept);
      this.clear(
        new Set(kept.flatMap(([key]) => (key.startsWith(aside) ? [this.nameOf(key.slice(aside.length))] : []))),
      );
    });
  }

  /** @throws where the disk does not give back what was put down */
  private writeIndex(kept: readonly (readonly [key: string, line: Line])[]): void {
    const length = kept.reduce((sum, [key, line]) => sum + headOf(key, line).length + line.length + 1, 0);
    const textOf = (key: string, line: Line): string => {
      const text = this.textOf(key, line);
      if (text === undefined) throw new Error(`what was kept under ${key} could not be read again`);
      return text;
    };
    const pieces = function* (): Iterable<string> {
      for (const [key, line] of kept) yield `${headOf(key, line)}${textOf(key, line)}\n`;
    };
    writeCheckedPieces(join(this.folder, indexFile), this.version, { length, pieces: pieces() });
  }

  private textOf(key: string, { json }: Line): string | undefined {
    if (json !== undefined) return json;
    const text = this.texts.get(key);
    return text && Buffer.from(text).toString('utf8');
  }

  /** Takes away large parts that the index has not, and what killed runs have left. */
  private clear(names: ReadonlySet<string>): void {
    const folder = join(this.folder, largeFolder);
    for (const name of readdirSync(folder)) if (!names.has(name)) quietly(() => unlinkSync(join(folder, name)));
  }

  /** A folder with nothing in it that could be taken for ours later. */
  private begin(): void {
    this.changed = true;
    quietly(() => rmSync(join(this.folder, largeFolder), { recursive: true, force: true }));
    try {
      makeKeptFolder(this.journal, largeFolder);
    } catch {
      this.willWrite = false;
    }
  }

  private nameOf(key: string): string {
    return hashOf(this.version, key);
  }

  private fileOf(key: string): string {
    return join(this.folder, largeFolder, this.nameOf(key));
  }

  /** What was asked for in this run of what is kept under one of some names, as JSON. */
  *askedFor(names: readonly string[]): Iterable<readonly [key: string, json: string]> {
    for (const [key, line] of this.lines) {
      if (line.age > 0 || !names.some((name) => key.startsWith(name))) continue;
      const json = this.textOf(key, line);
      if (json !== undefined) yield [key, json];
    }
  }
}

/** Where what is large lies that is kept under a key. */
export const largeFileOf = (journal: string, version: string, key: string): string =>
  join(journal, keptFolder, largeFolder, hashOf(version, key));

/** What is large of what is kept, without all that is kept besides; undefined where it is damaged or gone. */
export function readLarge(journal: string, version: string, key: string): unknown {
  try {
    return unpack(readFileSync(largeFileOf(journal, version, key)));
  } catch {
    return undefined;
  }
}
