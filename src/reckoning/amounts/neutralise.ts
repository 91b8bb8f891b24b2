// Free acid and alkali in one pot are set against each other before the rest reacts.
import {
  acidBaseOf,
  exact,
  isPositive,
  minus,
  scaled,
  sum,
  suppliedBy,
  times,
  dividedBy,
  withoutUncertainty,
  type AcidBase,
  type Decimal,
  type Equation,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import type { TakenPortion } from '../../reagents/index.js';

/** Something in the pot. */
export interface InPot {
  readonly taken: TakenPortion;
  readonly role: string | undefined;
  /** mol of protons that it carries as free acid besides what its formula says. */
  readonly freeAcid?: UncertainDecimal;
}

/** What acid and alkali leave of each other. */
export interface Neutralised {
  /** Share of each by its id that is there for the reaction, 0 to 1; absent where all of it is. */
  readonly available: ReadonlyMap<string, UncertainDecimal>;
  /** mol of protons given and taken. */
  readonly acid: UncertainDecimal;
  readonly alkali: UncertainDecimal;
  /** mol of protons of the one that is left over, before the reaction. */
  readonly left: UncertainDecimal;
  readonly leftIs: 'acid' | 'alkali';
}

/** One acid or base with its protons. */
interface Party {
  readonly id: string;
  readonly nature: AcidBase;
  /** mol of protons. */
  readonly protons: UncertainDecimal;
  readonly inEquation: boolean;
}

const isSupplied = ({ reactants }: Equation, { formula }: TakenPortion): boolean =>
  formula !== undefined && reactants.some((term) => !suppliedBy(formula, term.formula).isZero());

function partyOf({ taken, role }: InPot, equation: Equation): Party | undefined {
  const nature = taken.formula && acidBaseOf(taken.formula);
  if (!nature || !taken.substance) return undefined;
  const inEquation = isSupplied(equation, taken);
  if (!inEquation && role !== nature.kind) return undefined;
  return { id: taken.id, nature, inEquation, protons: scaled(taken.substance, nature.equivalents) };
}

const none = withoutUncertainty(0);
const totalOf = (parties: readonly Party[]): UncertainDecimal => sum(parties.map(({ protons }) => protons));
/** Strong ones go first. */
const strongFirst = (parties: readonly Party[]): readonly Party[] =>
  [...parties].sort((a, b) => Number(b.nature.strong) - Number(a.nature.strong));

/** Takes protons from one party after the other: what share of each is left. */
function takeFrom(parties: readonly Party[], wanted: UncertainDecimal): Map<string, UncertainDecimal> {
  const available = new Map<string, UncertainDecimal>();
  let open = wanted;
  for (const { id, protons } of strongFirst(parties)) {
    if (!isPositive(open.value)) break;
    const rest = minus(protons, open);
    const share = isPositive(rest.value) ? dividedBy(rest, protons) : undefined;
    available.set(id, share ?? none);
    open = isPositive(rest.value) ? none : scaled(rest, -1);
  }
  return available;
}

/**
 * Sets acid and alkali against each other, where one of them is not in the equation: an acid of `role: acid` takes
 * alkali first, all its protons; a base of `role: base` takes acid first; and so does the free acid that something
 * carries. Undefined where there is nothing to set.
 */
export function neutralise(pot: readonly InPot[], equation: Equation): Neutralised | undefined {
  const parties = pot.flatMap((one) => partyOf(one, equation) ?? []);
  // Free acid alone has nothing that it could be set against.
  if (parties.length === 0) return undefined;
  const carried = sum(pot.flatMap(({ freeAcid }) => freeAcid ?? []));
  const of = (kind: AcidBase['kind']): readonly Party[] => parties.filter(({ nature }) => nature.kind === kind);
  const idle = (some: readonly Party[]): readonly Party[] => some.filter(({ inEquation }) => !inEquation);
  // An acid and a base that are both in the equation react as it says.
  const acids = idle(of('base')).length > 0 ? of('acid') : idle(of('acid'));
  const bases = idle(of('acid')).length > 0 || isPositive(carried.value) ? of('base') : idle(of('base'));
  const [acid, alkali] = [sum([totalOf(acids), carried]), totalOf(bases)];
  if (!isPositive(acid.value) || !isPositive(alkali.value)) return undefined;
  const difference = minus(alkali, acid);
  const leftIs = difference.value.isNegative() ? 'acid' : 'alkali';
  return {
    available: new Map([...takeFrom(bases, acid), ...takeFrom(acids, minus(alkali, carried))]),
    acid,
    alkali,
    left: leftIs === 'acid' ? scaled(difference, -1) : difference,
    leftIs,
  };
}

/** What is left of something for the reaction, in its own figures. */
export function availableOf(taken: TakenPortion, neutralised: Neutralised | undefined): TakenPortion {
  const share = neutralised?.available.get(taken.id);
  if (!share) return taken;
  const of = (one: UncertainDecimal | undefined): UncertainDecimal | undefined => one && times(one, share);
  return { ...taken, substance: of(taken.substance), pure: of(taken.pure) };
}

/** A rough pH of so many mol of protons given or taken in a volume. @param millilitres of the liquor */
export function roughPh(protons: Decimal, leftIs: 'acid' | 'alkali', millilitres: Decimal): number | undefined {
  const perLitre = protons.times(1000).div(millilitres).toNumber();
  // Below a thousandth of a mole in a litre other things in the pot decide.
  if (!(perLitre > 1e-3)) return undefined;
  const acidity = -Math.log10(perLitre);
  return Math.round(Math.min(14, Math.max(0, leftIs === 'acid' ? acidity : 14 - acidity)));
}

/** mol of protons that a volume carries at so many mol/L. */
export const carriedAcid = (volume: UncertainDecimal, perLitre: UncertainDecimal): UncertainDecimal =>
  scaled(times(volume, perLitre), exact('0.001'));
