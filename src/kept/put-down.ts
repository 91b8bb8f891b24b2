// What was made of a journal as one publication put it down for the next: little enough to be read whole, so that the
// index of all that is kept need not be. What is large lies where it always does.
import { existsSync } from 'node:fs';
import { readChecked, writeBeside, writeChecked } from './checked-file.js';
import type { Kept } from './kept.js';
import { pack } from './packed.js';
import { largeFileOf, readLarge } from './store.js';

/** Writes what was made under keys, each with its JSON. */
export function writePutDown(
  file: string,
  version: string,
  made: Iterable<readonly [key: string, json: string]>,
): void {
  let text = '';
  for (const [key, json] of made) text += `${key}\t${json}\n`;
  writeChecked(file, version, text);
}

/** What was put down; what is put under keys now is held until all that was asked for is put down again. */
export class PutDown implements Kept {
  private readonly asked = new Map<string, string>();

  private constructor(
    private readonly journal: string,
    private readonly version: string,
    private readonly before: ReadonlyMap<string, string>,
  ) {}

  /** @returns undefined where it is missing or damaged */
  static read(file: string, journal: string, version: string): PutDown | undefined {
    const text = readChecked(file, version);
    if (text === undefined) return undefined;
    const before = new Map<string, string>();
    for (let at = 0; at < text.length; ) {
      const [tab, end] = [text.indexOf('\t', at), text.indexOf('\n', at)];
      before.set(text.slice(at, tab), text.slice(tab + 1, end));
      at = end + 1;
    }
    return new PutDown(journal, version, before);
  }

  readonly get = (key: string): unknown => {
    const json = this.asked.get(key) ?? this.before.get(key);
    if (json === undefined) return undefined;
    this.asked.set(key, json);
    return JSON.parse(json);
  };
  readonly has = (key: string): boolean => this.asked.has(key) || this.before.has(key);
  readonly put = (key: string, value: unknown): void => this.putJson(key, JSON.stringify(value));
  readonly putJson = (key: string, json: string): void => {
    this.asked.set(key, json);
  };
  readonly hasLarge = (key: string): boolean => existsSync(largeFileOf(this.journal, this.version, key));
  readonly getLarge = (key: string): unknown => readLarge(this.journal, this.version, key);
  readonly putLarge = (key: string, value: unknown): void => this.putPacked(key, pack(value));
  readonly putPacked = (key: string, packed: Uint8Array): void =>
    writeBeside(largeFileOf(this.journal, this.version, key), packed);

  *askedFor(names: readonly string[], isAllAsked = true): Iterable<readonly [key: string, json: string]> {
    // What was not asked for may be asked for the next time, as long as it is not most of all.
    const isLittle = !isAllAsked || this.before.size < 2 * this.asked.size;
    for (const one of isLittle ? new Map([...this.before, ...this.asked]) : this.asked)
      if (names.some((name) => one[0].startsWith(name))) yield one;
  }
}
