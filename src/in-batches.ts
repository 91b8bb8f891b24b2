// Work on many things of a kind in worker threads, a batch at a time.
import { availableParallelism } from 'node:os';

const mostThreads = 8;

/** How many threads are worth starting for so many things. @param worth below this many, starting them costs more */
export const threadsFor = (count: number, worth: number): number =>
  count < worth ? 0 : Math.min(mostThreads, availableParallelism());

/** Who works, and on how much at once. */
export interface Workers {
  /** The module of a worker. */
  readonly module: URL;
  /** What each worker is given when it starts. */
  readonly start: unknown;
  readonly threads: number;
  /** Things in one call of a worker. */
  readonly batch: number;
}

/**
 * Gives all the things to workers, and each answer to `done` as it comes, in no order.
 * @param ask what a worker is given for some of the things, put together only when it is their turn
 */
export async function inBatches<Thing, Answer>(
  things: readonly Thing[],
  { module, start, threads, batch }: Workers,
  ask: (some: readonly Thing[]) => unknown,
  done: (answer: Answer) => void,
): Promise<void> {
  const { Tinypool } = await import('tinypool');
  const pool = new Tinypool({
    filename: module.href,
    minThreads: threads,
    maxThreads: threads,
    workerData: start,
  });
  try {
    let next = 0;
    // Each thread asks for its next batch when it has done the last, so that only a few batches are copied at a time.
    await Promise.all(
      Array.from({ length: threads }, async () => {
        while (next < things.length) done((await pool.run(ask(things.slice(next, (next += batch))))) as Answer);
      }),
    );
  } finally {
    await pool.destroy();
  }
}
