// How the reader of formulae stops at what it cannot read; nothing outside this folder sees the exception.
import type { Fault } from '../../outcome.js';

/**
 * Thrown by the parts of the reader and caught by `parseFormula`, which answers with the fault. It is no `Error`: most
 * words that are looked at are found so to be no formula, and an error would note each time where it was made.
 */
export class Misread {
  constructor(readonly fault: Fault) {}
}

export const refuse = (fault: Fault): never => {
  throw new Misread(fault);
};
