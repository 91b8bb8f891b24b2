// Lots of a journal by their names, each looked up in the reckoning of its entry when it is asked for.
import type { LotFacts } from '../reckoning/contracts.js';
import { lotsOf } from '../reckoning/lots.js';
import type { JournalModel } from './model.js';

/** @example lotsIn(model)('9/A')?.formula // 'CuO' */
export function lotsIn({ entries }: Pick<JournalModel, 'entries'>): (name: string) => LotFacts | undefined {
  const byNumber = new Map(entries.map((one) => [String(one.entry.number), one]));
  const known = new Map<string, readonly LotFacts[]>();
  return (name) => {
    const number = name.split('/', 1)[0]!;
    const reckoned = byNumber.get(number);
    if (!reckoned) return undefined;
    const lots = known.get(number) ?? lotsOf(reckoned.entry, reckoned.amounts);
    known.set(number, lots);
    return lots.find(({ lot }) => lot === name);
  };
}
