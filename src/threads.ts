// Worker threads that stay for as long as there is work of a kind, so that what one of them has made it has at hand
// when the next question is about it.
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';

const mostThreads = 8;

/**
 * Megabytes for what a thread makes and soon drops. With the few that Node gives it, a tenth of the time goes into
 * clearing up; where entries are many and memory counts, a quarter of it has to do.
 */
const youngGeneration = { ample: 96, little: 24 } as const;
export type Room = keyof typeof youngGeneration;

/** What a thread sends back; an error's own fields are lost between threads, so that they are named. */
export type Answered =
  | { readonly answer: unknown }
  | { readonly fault: Pick<NodeJS.ErrnoException, 'message' | 'code' | 'path' | 'syscall' | 'stack'> };

interface Waiting {
  readonly resolve: (answer: unknown) => void;
  readonly reject: (error: Error) => void;
}

/** One thread: it answers its questions one after the other. */
export class AskedThread {
  private readonly worker: Worker;
  private readonly waiting: Waiting[] = [];
  private ended: Error | undefined;

  constructor(module: URL, room: Room = 'ample') {
    this.worker = new Worker(module, { resourceLimits: { maxYoungGenerationSizeMb: youngGeneration[room] } });
    this.worker.on('message', (answered: Answered) => {
      const { resolve, reject } = this.waiting.shift()!;
      if ('fault' in answered) reject(Object.assign(new Error(answered.fault.message), answered.fault));
      else resolve(answered.answer);
    });
    this.worker.on('error', (error) => this.fail(error));
    this.worker.on('exit', (code) =>
      this.fail(new Error(`a thread ended before its work was done (exit code ${code})`)),
    );
    // A thread that nobody waits for keeps no program from its end.
    this.worker.unref();
  }

  /** @param question plain data, which is copied */
  ask<Answer>(kind: string, question: unknown): Promise<Answer> {
    if (this.ended) return Promise.reject(this.ended);
    if (this.waiting.length === 0) this.worker.ref();
    const answer = new Promise<Answer>((resolve, reject) => {
      this.waiting.push({ resolve: resolve as Waiting['resolve'], reject });
    });
    this.worker.postMessage([kind, question]);
    return answer.finally(() => {
      if (this.waiting.length === 0) this.worker.unref();
    });
  }

  async end(): Promise<void> {
    this.ended = new Error('the thread was ended');
    await this.worker.terminate();
  }

  private fail(error: Error): void {
    this.ended ??= error;
    for (const { reject } of this.waiting.splice(0)) reject(this.ended);
  }
}

/** The threads of one piece of work; started when they are first worth it. */
export class Threads {
  private readonly started: AskedThread[] = [];
  /** By what a thread has made: an entry by its number. */
  readonly owners = new Map<number, AskedThread>();

  /**
   * @param module what runs in a thread; it says what it answers by `answering`
   * @param wanted how many threads work, this one among them; default: by the amount of work and the machine
   */
  constructor(
    private readonly module: URL,
    private readonly wanted?: number,
    private readonly room: Room = 'ample',
  ) {}

  /** The threads that are there, this one not counted. */
  get all(): readonly AskedThread[] {
    return this.started;
  }

  /**
   * The threads for so much work besides this one, which has its share in it.
   * @param worth below this many things to do, starting threads costs more than it saves
   */
  for(count: number, worth: number): readonly AskedThread[] {
    const byMachine = count < worth ? 1 : Math.min(mostThreads, availableParallelism());
    const more = Math.min(this.wanted ?? byMachine, count) - 1;
    while (this.started.length < more) this.started.push(new AskedThread(this.module, this.room));
    return this.started;
  }

  async end(): Promise<void> {
    this.owners.clear();
    await Promise.all(this.started.splice(0).map((thread) => thread.end()));
  }
}

/** Where this thread does all the work. */
export const noThreads = new Threads(new URL(import.meta.url), 0);

/** Lets other threads be heard. */
export const others = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** Waits until all has come to its end, so that nothing goes on any more. @throws what failed, the first of the list */
export async function allDone(works: readonly Promise<unknown>[]): Promise<void> {
  for (const outcome of await Promise.allSettled(works)) if (outcome.status === 'rejected') throw outcome.reason;
}

/** So many questions a thread has at a time, so that it need not wait for the next. */
const askedAtOnce = 2;

/** Work that is shared out: who takes the next piece takes it from here. */
export interface Shared {
  /** The next piece of work of another thread; undefined where there is none for it (any more). */
  readonly ask: (thread: AskedThread) => Promise<void> | undefined;
  /** Does a small piece of work here; false where there is none any more. */
  readonly here: () => boolean;
}

/**
 * Does all the work, in other threads and in this one, each taking the next piece when it is done with the last.
 * @throws what failed first
 */
export async function shareOut(threads: readonly AskedThread[], { ask, here }: Shared): Promise<void> {
  let failed = false;
  const inThread = async (thread: AskedThread): Promise<void> => {
    for (let asked = ask(thread); asked !== undefined && !failed; asked = ask(thread)) await asked;
  };
  const inThis = async (): Promise<void> => {
    while (!failed && here()) if (threads.length > 0) await others();
  };
  const loops = [...threads.flatMap((thread) => Array.from({ length: askedAtOnce }, () => inThread(thread))), inThis()];
  await allDone(
    loops.map((loop) =>
      loop.catch((error: unknown) => {
        failed = true;
        throw error;
      }),
    ),
  );
}

/** How many pieces are taken at once: fewer towards the end, so that all end together. */
export const portion = (left: number, threads: number, most: number): number =>
  Math.max(1, Math.min(most, Math.ceil(left / (4 * (threads + 1)))));
