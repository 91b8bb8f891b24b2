// How one reagent stands to what limits a reaction.
import {
  dividedBy,
  exact,
  expandedUncertainty,
  minus,
  times,
  type Decimal,
  type LimitingReagent,
  type ReactantSupply,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import { lastFor } from '../../once.js';
import type { Portion, TakenPortion } from '../../reagents/index.js';

/** One reagent in a reaction. */
export interface InReaction {
  /** Reactants that it supplies. */
  readonly supplies: readonly ReactantSupply[];
  /** Of several reactants that it supplies, the one it runs out of first. */
  readonly scarcest?: ReactantSupply;
  readonly limiting: boolean;
  /** Its amount cannot be told from the limiting one's. */
  readonly tooClose: boolean;
  /** Share of it that is left when the limiting reagent is used up. */
  readonly shareLeft?: UncertainDecimal;
  /** Where weighing cannot tell what runs out first: the most of it, from 0 to 1, that may be left (about 95 %). */
  readonly mostLeft?: Decimal;
}

/** Where nothing reacts. */
const idle: InReaction = { supplies: [], limiting: false, tooClose: false };

/** How a reagent stands in a reaction: asked for its amounts, for its salts and for acid and alkali. */
export function inReaction({ id }: Pick<TakenPortion, 'id'>, limitation: LimitingReagent | undefined): InReaction {
  if (!limitation) return idle;
  const known = knownIn(limitation);
  let found = known.get(id);
  if (!found) known.set(id, (found = standing(id, limitation)));
  return found;
}

/** One sample is reckoned after the other. */
const knownIn = lastFor((_: LimitingReagent) => new Map<string, InReaction>());

const scarcestOf = (supplies: readonly ReactantSupply[]): ReactantSupply | undefined =>
  supplies.filter(({ equivalents }) => equivalents).sort((a, b) => a.equivalents!.value.cmp(b.equivalents!.value))[0];

/** The most that may be left of one of those that may limit, beside the others of them, as a share of it. */
function mostLeftOf(
  one: ReactantSupply | undefined,
  { limiting, possiblyLimiting }: Pick<LimitingReagent, 'limiting' | 'possiblyLimiting'>,
): Decimal | undefined {
  if (!one?.extent?.value.gt(0) || possiblyLimiting.length === 0) return undefined;
  const undecided = [limiting, ...possiblyLimiting];
  if (!undecided.some((other) => other?.term === one.term)) return undefined;
  const beyond = undecided.flatMap((other) => {
    if (!other?.extent || other.term === one.term) return [];
    const apart = minus(one.extent!, other.extent);
    return apart.value.plus(exact(expandedUncertainty(apart).toFixed()));
  });
  const most = beyond.reduce((a, b) => (b.gt(a) ? b : a), exact(0)).div(one.extent.value);
  return most.gt(1) ? exact(1) : most;
}

function standing(id: string, limitation: LimitingReagent): InReaction {
  const { reactants, possiblyLimiting } = limitation;
  const supplies = reactants.filter(({ suppliedBy }) => suppliedBy.includes(id));
  if (supplies.length === 0) return idle;
  const scarcest = scarcestOf(supplies);
  const shareLeft =
    scarcest?.left && scarcest.amountOfSubstance && dividedBy(scarcest.left, scarcest.amountOfSubstance);
  return {
    supplies,
    scarcest,
    limiting: supplies.some(({ limiting }) => limiting),
    tooClose: supplies.some((supply) => possiblyLimiting.includes(supply)),
    shareLeft,
    mostLeft: mostLeftOf(scarcest, limitation),
  };
}

/** Mass of the pure substance that is left, g; undefined where it cannot be told. */
export const leftOf = ({ pure, substance, molarMass }: TakenPortion, share: UncertainDecimal | undefined) =>
  share && pure && substance && molarMass ? times(pure, share) : undefined;

/** Names of what supplies a reactant; the reactant's own formula where nothing on the bench does. */
export function supplierNames(
  { suppliedBy, term }: ReactantSupply,
  takens: readonly Pick<TakenPortion, 'id' | 'name'>[],
): string {
  const names = suppliedBy.map((id) => takens.find((taken) => taken.id === id)!.name);
  return [...new Set(names)].join(' and ') || term.label;
}

/** What was measured out and how strong or pure it is said to be. */
type Stated = Pick<Portion, 'purity' | 'strength'>;

/** Whether a substance is counted as if it were pure, since neither purity nor strength is stated. */
export const isPurityNotStated = ({ purity, strength }: Stated, { substance, strength: read }: TakenPortion): boolean =>
  purity === undefined && strength === undefined && substance !== undefined && read.basis === 'undiluted';

/** A purity or strength that is only roughly so, as it is written: `ca. 97 %`. */
export const roughlyStated = ({ purity, strength }: Stated): string | undefined =>
  [purity, strength].find((one) => one?.rough)?.written;

/**
 * What `ca.` does to a figure, in words.
 * @example roughlyStatedWords('chrome alum', 'ca. 97 %') // 'chrome alum: “ca. 97 %” is read as up to a tenth of it …'
 */
export const roughlyStatedWords = (name: string, written: string): string =>
  `${name}: “${written}” is read as up to a tenth of it more or less, which widens every ± that rests on it.`;
