// What is said where an entry is asked for that a journal has not, or that could not be read.
import type { Fault } from '../outcome.js';
import { numberInName } from './catalogue.js';
import type { Journal } from './entry.js';

/**
 * Fault `no-entry`: there is none of that number, or it cannot be read.
 * @example noEntry(99, journal).message // 'There is no entry 99 in this journal.'
 */
export function noEntry(number: number, { entries, unread = [], inPart = [] }: Journal): Fault {
  if (unread.some((file) => numberInName(file) === number) || inPart.some((entry) => entry.number === number))
    return {
      code: 'no-entry',
      message: `Entry ${number} cannot be read, as something of it is wrong that nothing can stand in for.`,
      cure: `Run masstone proof ${number}: it says what and where.`,
    };
  return {
    code: 'no-entry',
    message: `There is no entry ${number} in this journal.`,
    cure: `Entries go up to ${Math.max(0, ...entries.map((entry) => entry.number))}.`,
  };
}
