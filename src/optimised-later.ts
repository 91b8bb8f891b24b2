// Loaded before a journal is opened: from here on a function is compiled optimised only when it has been busy for longer.
import { setFlagsFromString } from 'node:v8';

/**
 * The work on a journal is spread over a thousand functions, none of them very busy. With the 67,584 bytes of bytecode
 * after which V8 looks whether a function is worth optimising, doing so took a third of the processor time of reckoning
 * 1,000 entries, on threads of V8's own, and once more in every thread of ours. Three times as many halve that, and the
 * entries take as long as before. Measured with Node 20, 300 and 1,000 entries; four and eight times cost more than
 * they save.
 */
setFlagsFromString('--interrupt-budget=200000');
