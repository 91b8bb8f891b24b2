// The dangers of entries that are wrong in something indispensable: told as far as the rest of them can be read.
import { remarksOn } from '../journal/place.js';
import type { Journal } from '../journal/entry.js';
import type { Remark } from '../remarks/remark.js';
import type { LotFacts, ReckonedEntry, ReckoningContext } from './contracts.js';
import { reckonDangers } from './dangers/dangers.js';
import { lotsOf } from './lots.js';

/** Lots of entries that were read, each reckoned when it is asked for. */
function lotIn(reckoned: readonly ReckonedEntry[]): (name: string) => LotFacts | undefined {
  const byNumber = new Map(reckoned.map((one) => [one.entry.number, one]));
  return (name) => {
    const from = byNumber.get(Number(name.split('/')[0]));
    return from && lotsOf(from.entry, from.amounts).find(({ lot }) => lot === name);
  };
}

/** Remarks on the dangers of the entries of a journal that could be read in part only. */
export function dangersInPart(
  { settings, shelf, inPart = [] }: Pick<Journal, 'settings' | 'shelf' | 'inPart'>,
  reckoned: readonly ReckonedEntry[],
): readonly Remark[] {
  if (inPart.length === 0) return [];
  const context: ReckoningContext = {
    settings,
    shelf: shelf.reagents,
    lot: lotIn(reckoned),
    reading: () => undefined,
  };
  return inPart.flatMap((entry) => remarksOn(entry, reckonDangers(entry, context).findings));
}
