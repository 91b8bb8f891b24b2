// What can be foreseen when the things in a pot meet and are heated: rules on groups, never on names.
import type { Foresight, Pot } from './foreseen.js';

export function foresee(_pot: Pot): Foresight { throw new Error('being written'); }
