// What is said where an entry is asked for that a journal has not, or that could not be read.
import type { Fault } from '../outcome.js';
import { numberInName } from './catalogue.js';
import type { Journal } from './entry.js';

/**
 * Files of entries of a number that could not be read, or in part only.
 * @example unreadOfNumber(5, journal) // ['entries/005-green.md']
 */
export function unreadOfNumber(number: number, { unread = [], inPart = [] }: Journal): readonly string[] {
  const inParts = new Set(inPart.flatMap((entry) => (entry.number === number ? [entry.file] : [])));
  return unread.filter((file) => numberInName(file) === number || inParts.has(file));
}

/**
 * Fault `no-entry`: there is none of that number, or it cannot be read.
 * @example noEntry(99, journal).message // 'There is no entry 99 in this journal.'
 */
export function noEntry(number: number, journal: Journal): Fault {
  if (unreadOfNumber(number, journal).length > 0)
    return {
      code: 'no-entry',
      message: `Entry ${number} cannot be read, as something of it is wrong that nothing can stand in for.`,
      cure: `Run masstone proof ${number}: it says what and where.`,
    };
  return {
    code: 'no-entry',
    message: `There is no entry ${number} in this journal.`,
    cure: `Entries go up to ${Math.max(0, ...journal.entries.map((entry) => entry.number))}.`,
  };
}
