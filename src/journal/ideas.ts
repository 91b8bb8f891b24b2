// Ideas for next time: numbered, and open until an entry that takes one up is finished.
import type { Entry } from './entry.js';

/** An idea, with the numbers of the entries that take it up. */
export interface Idea {
  /** Place among all ideas, by entry: what `masstone begin --idea` takes. */
  readonly number: number;
  /** What an entry that takes it up names it by: `14/2`. */
  readonly id: string;
  readonly entry: number;
  readonly idea: string;
  readonly takenUpBy: readonly number[];
  /** An entry that takes it up has been done, whatever came of it. */
  readonly closed: boolean;
}

type WithIdeas = Pick<Entry, 'number' | 'status' | 'ideas' | 'takes-up'>;

/** Statuses of entries whose experiment is not done: they take an idea up and do not answer it. */
const undone = new Set<string>(['planned', 'running', 'abandoned', 'withdrawn']);

/**
 * Every idea of a journal, by entry and place.
 * @param entries in any order
 */
export function ideasOf(entries: readonly WithIdeas[]): readonly Idea[] {
  const takers = new Map<string, WithIdeas[]>();
  for (const entry of entries) for (const id of entry['takes-up']) takers.set(id, [...(takers.get(id) ?? []), entry]);
  return [...entries]
    .sort((a, b) => a.number - b.number)
    .flatMap((entry) => entry.ideas.map((idea, at) => ({ idea, entry: entry.number, id: `${entry.number}/${at + 1}` })))
    .map((one, at): Idea => {
      const by = takers.get(one.id) ?? [];
      return {
        number: at + 1,
        ...one,
        takenUpBy: by.map(({ number }) => number).sort((a, b) => a - b),
        closed: by.some(({ status }) => !undone.has(status)),
      };
    });
}
