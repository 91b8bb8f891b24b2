// What a fire makes of a mixture and leaves in it, so that a lot of it brings it along.
import { once } from '../../once.js';
import { dryComposition } from '../../reagents/index.js';
import { madeOnTheWayTable, type MadeOnTheWayRow } from '../../tables/compiled/hazards/foresee/made-on-the-way.js';
import type { Mixture } from './contracts.js';
import { foreseer } from './foresee.js';

/** A solid that is in what was fired. */
export interface MadeByFire {
  readonly name: string;
  readonly formula: string;
}

const staying = once(() => madeOnTheWayTable().filter(({ stays }) => stays));
const makers = once(() => new Set(staying().flatMap(({ by }) => by.map(({ rule }) => rule))));

const isMadeBy = (row: MadeOnTheWayRow, rules: ReadonlySet<string>, dry: ReadonlySet<string>): boolean =>
  row.by.some(({ rule }) => rules.has(rule)) && (row.of === undefined || dry.has(dryComposition(row.of)));

/**
 * What stays in a mixture that was fired, and was not in it before; of a sulfide the one of the metal that is there.
 * @example madeByFire({ ingredients: [], heating: [] }) // []
 */
export function madeByFire(mixture: Mixture): readonly MadeByFire[] {
  const found = foreseer().foreseeOnly(mixture, (rule) => makers().has(rule));
  const rules = new Set(found.filter(({ severity }) => severity !== 'note').map(({ rule }) => rule));
  if (rules.size === 0) return [];
  const dry = new Set(mixture.ingredients.flatMap(({ reagent }) => reagent.substance?.constituents.dry ?? []));
  const made = staying().filter((row) => isMadeBy(row, rules, dry));
  const closer = new Set(made.filter(({ of }) => of !== undefined).flatMap(({ by }) => by.map(({ rule }) => rule)));
  const told = made.filter(
    ({ of, by }) => of !== undefined || !by.some(({ rule }) => rules.has(rule) && closer.has(rule)),
  );
  return [...new Map(told.map(({ makes, name }) => [makes, { name, formula: makes }])).values()];
}
