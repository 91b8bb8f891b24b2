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
