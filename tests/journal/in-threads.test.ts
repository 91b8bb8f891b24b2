// Entries that other threads read are the same, with the same remarks, as those that are read in one; what they hand
// back is taken only for the text that a file has.
import { expect, test } from 'vitest';
import { readThere, type ToReadThere } from '../../src/journal/in-threads.js';
import { readJournal } from '../../src/journal/index.js';
import type { AskedThread, Threads } from '../../src/threads.js';
import { entryOf, journalOf } from './folder.js';

/** Threads that have begun, one of them, with these answers. */
const oneThread = (answer: (question: ToReadThere) => unknown): Pick<Threads, 'all'> => ({
  all: [{ ask: async (_: string, question: ToReadThere) => answer(question) } as unknown as AskedThread],
});

const numbers = Array.from({ length: 40 }, (_, at) => at + 1);
/** Entries of which some have something to be said of them, and two cannot be read. */
const files = Object.fromEntries(
  numbers.map((number) => [
    `entries/${String(number).padStart(3, '0')}.md`,
    entryOf(
      number,
      number % 5 === 0 ? 'samples: [{ sample: A, obtaned: 2 g }, { sample: a }]' : 'samples: [{ sample: A }]',
      `Of ${number}, [the next](${String(number + 1).padStart(3, '0')}.md).\n`,
    ).replace(number % 19 === 0 ? 'status: finished' : '', ''),
  ]),
);

test('what threads have read is as it would have been read here', async () => {
  const folder = journalOf(files);
  const alone = await readJournal(folder);
  const there: string[] = [];
  const threads = oneThread((question) => {
    there.push(...question.files);
    return readThere(question);
  });
  const shared = await readJournal(folder, { threads });
  expect(shared).toEqual(alone);
  expect(JSON.stringify(shared.journal!.entries)).toBe(JSON.stringify(alone.journal!.entries));
  expect(shared.remarks.map(String)).toEqual(alone.remarks.map(String));
  // The thread begins with the last, and reads nothing twice.
  expect(there[0]! > 'entries/020.md' && there.length > 10).toBe(true);
  expect(new Set(there).size).toBe(there.length);
});

test('what was read of another text is not taken, and of a file that is not there nothing is', async () => {
  const folder = journalOf(files);
  const former = journalOf(
    Object.fromEntries(
      Object.entries(files).map(([file, text]) => [file, text.replace('title: Entry', 'title: Former')]),
    ),
  );
  const threads = oneThread(({ files: asked }) => readThere({ folder: former, files: [...asked, 'entries/999.md'] }));
  expect(await readJournal(folder, { threads })).toEqual(await readJournal(folder));
});

test('a thread that fails is none', async () => {
  const folder = journalOf(files);
  const threads = oneThread(() => {
    throw new Error('no more threads');
  });
  expect(await readJournal(folder, { threads })).toEqual(await readJournal(folder));
});
