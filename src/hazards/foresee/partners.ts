// What one thing more would make a danger of what is there: the groups for which rules of mixing wait.
import { resolveNamed } from '../../reagents/index.js';
import { once } from '../../once.js';
import { prepared } from '../../tables/prepared.js';
import type { MixedReagent } from './contracts.js';
import { groups, type Group } from './groups.js';
import { resolveMixture } from './resolve-mixture.js';
import { isMet, pairRules, type PairRule } from './rules.js';

/** A rule that may tell a danger, by the groups of its sides. */
interface DangerSides {
  readonly sides: readonly (readonly string[])[];
  /** It asks for more than that they meet: how strong or how much of it there is. */
  readonly isConditional: boolean;
}

/** Its gas may come to so much that what is a warning is a danger. */
const mayBeADanger = ({ severity, otherwise, gases }: PairRule): boolean =>
  severity === 'danger' || otherwise === 'danger' || (severity === 'warning' && gases.length > 0);

const dangers = prepared<readonly DangerSides[]>('sides-of-dangers', () =>
  pairRules()
    .filter(mayBeADanger)
    .map((rule) => ({ sides: rule.groups.map(({ any }) => any), isConditional: rule.when.length > 0 })),
);

/** Whether a thing is of a group by what it is, and not by all that stands in its pot. */
const isOfThings = ({ test }: Group): boolean => !test.startsWith('pot ') || test === 'pot named';

/** Groups of things that take part in a danger of mixing; water is everywhere, and makes none of what is said. */
export const groupsOfDangers = once((): ReadonlySet<string> => {
  const all = new Set(dangers().flatMap(({ sides }) => sides.flat()));
  return new Set([...all].filter((group) => !waters().has(group) && isOfThings(groups().get(group)!)));
});

const water = once((): MixedReagent => ({ reagent: resolveNamed('water') }));
const waters = once(() => resolveMixture({ ingredients: [water()] }).present);

/** Groups of what is there, by itself and in water, which is at hand in every pot. */
const presentWith = (ingredients: readonly MixedReagent[]): ReadonlySet<string> =>
  new Set([ingredients, [...ingredients, water()]].flatMap((all) => [...resolveMixture({ ingredients: all }).present]));

/** The dangers that a group takes part in. */
const dangersOfGroup = once((): ReadonlyMap<string, readonly DangerSides[]> => {
  const byGroup = new Map<string, DangerSides[]>();
  for (const danger of dangers())
    for (const group of new Set(danger.sides.flat())) {
      const before = byGroup.get(group);
      if (before) before.push(danger);
      else byGroup.set(group, [danger]);
    }
  return byGroup;
});

/** Whether things of some groups, with what is there, come to a danger in which one of the groups takes part. */
function joins(
  group: string,
  danger: DangerSides,
  present: ReadonlySet<string>,
  further: ReadonlySet<string>,
): boolean {
  const unmet = danger.sides.filter((side) => !isMet(side, present));
  if (unmet.length === 0) return danger.isConditional;
  return unmet.every((side) => isMet(side, further)) && unmet.some((side) => side.includes(group));
}

/**
 * What tells those of some groups by which things would make a danger with what is there, and with each other, or a
 * graver one than there is.
 * @example partnersOf([{ reagent: resolveNamed('bleach') }])(new Set(['strong_acid', 'carbonate'])).size // 1
 */
export function partnersOf(
  ingredients: readonly MixedReagent[],
): (further: ReadonlySet<string>) => ReadonlySet<string> {
  const present = once(() => presentWith(ingredients));
  return (further) => {
    if (further.size === 0) return further;
    const isJoining = (group: string): boolean =>
      (dangersOfGroup().get(group) ?? []).some((danger) => joins(group, danger, present(), further));
    return new Set([...further].filter(isJoining));
  };
}

/**
 * What burns or rots is of so many ordinary things that the bare name of one says nothing (`size`, `violet`, `curd`),
 * and a gas that burns is more often what came off.
 */
const ofOrdinaryThings: ReadonlySet<string> = new Set([
  'organic_combustible',
  'organic_salt',
  'organic_acid',
  'nitrogen_matter',
  'polyol_or_cellulose',
  'absorbent',
  'fermenting',
  'sour_food',
  'airless_store',
  'heating_heap',
  'wood',
  'fine_dust',
  'flammable_gas',
  'pyrotechnic',
]);

/** Those of some groups that a thing has which is no more than named. */
export const groupsOfMereNames = (groups: ReadonlySet<string>): ReadonlySet<string> =>
  new Set([...groups].filter((group) => !ofOrdinaryThings.has(group)));
