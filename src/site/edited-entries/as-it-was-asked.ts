// Asks whether a site is as it was. Where that takes long, a thread of its own begins with it while other work is done,
// and whoever needs the answer does the rest together with it.
import { statSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { AskedThread } from '../../threads.js';
import { isRestAsItWas, stampedIn } from './as-it-was.js';
import { fileOfKnown, readKnown, type Known } from './known.js';

/** Where what is known of a site is put down. */
export interface WhereKnown {
  readonly journal: string;
  readonly site: string;
  readonly version: string;
}

/** What both sides count in: how many were taken, whether the thread has begun, and whether one was found changed. */
const [taken, begun, changed] = [0, 1, 2];

const newCounts = (): Int32Array => new Int32Array(new SharedArrayBuffer(3 * Int32Array.BYTES_PER_ELEMENT));

/** So many are taken at a time. */
const portion = 128;

/** Looks at what nobody has taken yet, until nothing is left or something is not as it was. */
function lookThrough(known: Known, counts: Int32Array): void {
  const stamped = stampedIn(known);
  for (;;) {
    const from = Atomics.add(counts, taken!, portion);
    if (from >= stamped.length || Atomics.load(counts, changed!) > 0) return;
    if (!stamped.slice(from, from + portion).every((isAsItWas) => isAsItWas())) Atomics.store(counts, changed!, 1);
  }
}

/** The thread's part. @returns when it has looked at all that it took */
export function lookInThread({ where, counts }: { readonly where: WhereKnown; readonly counts: Int32Array }): void {
  // Before anything is taken, so that nobody goes without the answer to what is.
  Atomics.store(counts, begun!, 1);
  try {
    lookThrough(readKnown(where.journal, where.site, where.version)!, counts);
  } catch {
    // Something is not there.
    Atomics.store(counts, changed!, 1);
  }
}

/** Bytes of what is known of a site from which on a thread is worth its start; those of some 400 entries. */
const large = 400_000;

function isWorthThread({ journal, site }: WhereKnown, threads: number | undefined): boolean {
  if ((threads ?? availableParallelism()) < 2) return false;
  return statSync(fileOfKnown(journal, site)).size > large;
}

/** One question, which may be asked several times. */
export class SiteAsked {
  private readonly counts = newCounts();
  private thread: AskedThread | undefined;
  private answer: Promise<unknown> = Promise.resolve();
  private asked: Promise<boolean> | undefined;

  constructor(private readonly where: WhereKnown) {}

  /**
   * Begins with it in another thread, where there is other work to do meanwhile: starting one takes as long as half of
   * the answer.
   * @param threads how many may work, this one among them; by itself as many as the machine has
   */
  begin(threads?: number): void {
    const { where, counts } = this;
    if (this.thread || !isWorthThread(where, threads)) return;
    this.thread = new AskedThread(new URL('./as-it-was-thread.js', import.meta.url));
    // A thread that fails has looked at nothing for sure.
    const fails = (): number => Atomics.store(counts, changed!, 1);
    this.answer = this.thread.ask('look', { where, counts }).catch(fails);
  }

  /** Whether the site and the one before are as they were left. @param known what is known of them, always the same */
  isAsItWas(known: Known): Promise<boolean> {
    return (this.asked ??= this.looked(known));
  }

  end(): void {
    void this.thread?.end();
  }

  private async looked(known: Known): Promise<boolean> {
    if (known.folders.size === 0) return false;
    try {
      if (!isRestAsItWas(known)) return false;
      lookThrough(known, this.counts);
      if (Atomics.load(this.counts, begun!) > 0) await this.answer;
      return Atomics.load(this.counts, changed!) === 0;
    } catch {
      // Something is not there.
      return false;
    }
  }
}
