// How the reader of formulae stops at what it cannot read; nothing outside this folder sees the exception.
import type { Fault } from '../../outcome.js';

/** Thrown by the parts of the reader and caught by `parseFormula`, which answers with the fault. */
export class Misread extends Error {
  constructor(readonly fault: Fault) {
    super(fault.message);
  }
}

export const refuse = (fault: Fault): never => {
  throw new Misread(fault);
};
