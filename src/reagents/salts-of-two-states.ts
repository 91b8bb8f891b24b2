// Names that do not tell which of two salts is meant: `iron chloride`.
import { once } from '../once.js';
import { saltsOfTwoStatesTable } from '../tables/compiled/reagents/salts-of-two-states.js';
import type { ResolvedSubstance } from './contracts.js';
import { inEnglish } from './other-languages.js';

type TwoStates = ReturnType<typeof saltsOfTwoStatesTable>[number];
const byName = once(() => new Map<string, TwoStates>(saltsOfTwoStatesTable().map((row) => [row.name, row])));

/**
 * What a name is taken for, and what it may be as well; undefined where it tells.
 * @example saltOfTwoStates('chlorure de fer', identify({ name: 'chlorure de fer' }).substance)?.other // 'FeCl3', …
 */
export function saltOfTwoStates(
  name: string,
  { takenAs, formula }: Pick<ResolvedSubstance, 'takenAs' | 'formula'>,
): TwoStates | undefined {
  if (takenAs === 'formula' || takenAs === 'cas' || takenAs === 'name-is-formula') return undefined;
  const plain = name.trim().toLowerCase();
  const row = byName().get(inEnglish(plain) ?? plain);
  return row?.formula === formula ? row : undefined;
}
