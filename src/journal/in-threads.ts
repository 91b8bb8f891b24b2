// Where entries are many, other threads read the last of them while this one reads the first. What they have read is
// kept by the text of each file, and believed no more than what was read before: only where a file still has that text.
import { KeptForOneRun, keptNowhere, type Kept } from '../kept/kept.js';
import { others, portion, type AskedThread } from '../threads.js';
import { openFolder } from './folder.js';
import { readEntryOnce } from './kept-entry.js';

/** Files in one question to a thread, and questions that it has at a time. */
const [mostAsked, askedAtOnce] = [16, 2];

/** Files of entries that a thread reads, of the journal in a folder. */
export interface ToReadThere {
  readonly folder: string;
  readonly files: readonly string[];
}

/** What entries were read as, as it is kept. */
export type ReadThere = readonly (readonly [key: string, json: string])[];

/** Reads files of entries in another thread. What cannot be read is found by whoever reads the journal. */
export function readThere({ folder, files }: ToReadThere): ReadThere {
  const read: [key: string, json: string][] = [];
  const kept: Kept = { ...keptNowhere, put: (key, value) => read.push([key, JSON.stringify(value)]) };
  const there = openFolder(folder);
  for (const file of files) {
    const text = there?.read(file);
    if (text?.ok) readEntryOnce(file, text.text, kept);
  }
  return read;
}

/** Entries that are read in other threads besides this one. */
export class ReadBeside {
  /** What they have read. */
  readonly kept: Kept;
  /** What nobody has begun to read stands between the two. */
  private unread: { readonly files: readonly string[]; from: number; to: number } = { files: [], from: 0, to: 0 };
  /** What is being read in other threads, and what they have read. */
  private readonly asked = new Set<string>();
  private readonly there: string[] = [];

  /** @param threads that answer `read` */
  constructor(
    private readonly folder: string,
    kept: Kept,
    private readonly threads: readonly AskedThread[],
  ) {
    // What is read in this thread is taken at once, and need not be kept for that.
    this.kept = kept === keptNowhere ? { ...new KeptForOneRun(), put: () => undefined } : kept;
  }

  /**
   * Files as this thread is to come to them: what others have read as soon as it is there, else the first of what
   * nobody has begun to read. In the end nobody is waited for: what others are still reading is read here as well.
   */
  async *inTurn(files: readonly string[]): AsyncIterable<string> {
    this.unread = { files, from: 0, to: files.length };
    // What fails in a thread is read here, and fails here.
    for (const thread of this.threads)
      for (let asked = 0; asked < askedAtOnce; asked++) this.askFor(thread).catch(() => undefined);
    for (let file = this.next(); file !== undefined; file = this.next()) {
      yield file;
      await others();
    }
  }

  private next(): string | undefined {
    const { files, from, to } = this.unread;
    if (this.there.length > 0) return this.there.pop();
    if (from < to) {
      this.unread.from += 1;
      return files[from];
    }
    const [file] = this.asked;
    if (file !== undefined) this.asked.delete(file);
    return file;
  }

  private async askFor(thread: AskedThread): Promise<void> {
    for (let files = this.take(); files.length > 0; files = this.take()) {
      for (const file of files) this.asked.add(file);
      const read = await thread.ask<ReadThere>('read', { folder: this.folder, files });
      for (const [key, json] of read) this.kept.putJson(key, json);
      for (const file of files) if (this.asked.delete(file)) this.there.push(file);
    }
  }

  private take(): readonly string[] {
    const { files, from, to } = this.unread;
    if (to === from) return [];
    this.unread.to -= Math.min(to - from, portion(to - from, this.threads.length, mostAsked));
    return files.slice(this.unread.to, to);
  }
}
