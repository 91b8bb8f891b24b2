// The other side of `threads.ts`: runs in a worker thread and answers what it is asked.
import { parentPort } from 'node:worker_threads';
import type { Answered } from './threads.js';

/** Answers questions by their kinds, one after the other. */
export function answering(answers: Readonly<Record<string, (question: never) => unknown>>): void {
  parentPort?.on('message', ([kind, question]: [string, never]) => {
    parentPort!.postMessage(answerTo(answers[kind]!, question));
  });
}

function answerTo(answer: (question: never) => unknown, question: never): Answered {
  try {
    return { answer: answer(question) };
  } catch (error) {
    const { message, code, path, syscall, stack } = error as NodeJS.ErrnoException;
    return { fault: { message, code, path, syscall, stack } };
  }
}
