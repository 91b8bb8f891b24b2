// Lots of which less is left than a list asks for.
import { exact, type Decimal } from '../../chemistry/index.js';
import type { ReckoningContext } from '../../reckoning/contracts.js';
import type { Entry } from '../../journal/entry.js';
import type { JournalAtHand } from '../entry-reader.js';
import { decimal, type JsonQuantity } from './answer.js';

/** A lot of which there is not enough. */
export interface LotShort {
  readonly lot: string;
  readonly needed: JsonQuantity;
  readonly left: JsonQuantity;
}

/** What a list takes of a lot, g. */
export interface LotNeeded {
  readonly lot: string;
  readonly grams: Decimal;
}

const inGrams = (value: Decimal): JsonQuantity => ({ value: decimal(value), unit: 'g' });

/** What is needed of each lot, all lines of it together. */
function together(needed: readonly LotNeeded[]): ReadonlyMap<string, Decimal> {
  const sums = new Map<string, Decimal>();
  for (const { lot, grams } of needed) sums.set(lot, sums.get(lot)?.plus(grams) ?? grams);
  return sums;
}

/** The entry whose list it is; `again` where the list is for another batch than the one that it tells of. */
export interface Asking {
  readonly number: number;
  readonly again: boolean;
}

/** The entries that say what is left of lots: those that made them, and those that may have taken of them. */
function entriesAbout(lots: readonly string[], asking: Asking | undefined, reader: JournalAtHand): readonly Entry[] {
  const makers = lots.flatMap((lot) => {
    const maker = reader.entry(Number(lot.split('/')[0]));
    return maker.ok ? [maker.value] : [];
  });
  // What is only planned is not yet taken. What an entry took itself is what its own list asks for, unless that is to
  // be done once more.
  const notYet = ({ number, status }: Entry): boolean =>
    status === 'planned' || (number === asking?.number && (status === 'running' || !asking.again));
  const takers = reader.entriesWith(lots).filter((entry) => !notYet(entry));
  return [...new Map([...makers, ...takers].map((entry) => [entry.number, entry])).values()];
}

/**
 * The lots of which less is left than is needed.
 * @param asking undefined where it is no entry's list
 */
export async function lotsShort(
  needed: readonly LotNeeded[],
  asking: Asking | undefined,
  reader: JournalAtHand,
  context: ReckoningContext,
): Promise<readonly LotShort[]> {
  if (needed.length === 0) return [];
  const [{ reckonAmounts }, { stockOfLots }] = await Promise.all([
    import('../../reckoning/amounts/amounts.js'),
    import('../../reckoning/lots.js'),
  ]);
  const sums = together(needed);
  const reckoned = entriesAbout([...sums.keys()], asking, reader).map((entry) => ({
    entry,
    amounts: reckonAmounts(entry, context).amounts,
  }));
  const stocks = stockOfLots(reckoned);
  return [...sums].flatMap(([lot, grams]) => {
    const stock = stocks.get(lot);
    const known = stock ? stock.left : context.lot(lot)?.obtained;
    const left = known && exact(known.value);
    return left?.lt(grams) ? [{ lot, needed: inGrams(grams), left: inGrams(left) }] : [];
  });
}

/** @example shortWords({ lot: '9/A', needed: { value: '3', unit: 'g' }, left: { value: '1', unit: 'g' } }) */
export function shortWords({ lot, needed, left }: LotShort): string {
  const rest = left.value.startsWith('-') ? 'none is left' : `${left.value} g are left`;
  return `Lot ${lot}: ${needed.value} g are needed and ${rest}.`;
}
