// Loaded before a journal is opened: from here on a function is compiled optimised only when it has long been busy.
import { setFlagsFromString } from 'node:v8';

/**
 * The work on a journal is spread over a thousand functions, none of them very busy. As V8 is by itself, optimising
 * them took a third of the processor time of reckoning 1,000 entries, on threads of V8's own, and once more in every
 * thread of ours. Looked at three times as late (67,584 bytes of bytecode by itself), and with a third of the code of
 * others taken into each (920 bytes by itself), it takes half of that, and the entries take as long as before. Measured
 * with Node 20 at 300 and 1,000 entries; six times as late costs more than it saves.
 */
setFlagsFromString('--interrupt-budget=200000');
setFlagsFromString('--max-inlined-bytecode-size-cumulative=300');

/**
 * A regular expression is by itself first compiled for an interpreter and at its second use once more, for the
 * processor. Of the eight hundred that a journal meets nearly all are used again: compiled once, they take a sixth less
 * of the processor time of the first 34 entries, in every thread. Not `--no-regexp-tier-up`, by which Node ends at one
 * that was compiled for the interpreter before.
 */
setFlagsFromString('--regexp-tier-up-ticks=0');
