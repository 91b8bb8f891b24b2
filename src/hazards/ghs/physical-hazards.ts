// Physical classes of a mixture: by specific limits where the entry has them; a few lose their sense in water; else
// they stay, and that is said.
import type { Decimal } from '../../chemistry/index.js';
import { physicalInSolutionTable } from '../../tables/compiled/hazards/ghs/physical-in-solution.js';
import type {
  HazardClass,
  HazardNote,
  Ingredient,
  IngredientClassification,
  MixtureClass,
  SpecificLimit,
} from './contracts.js';
import { percentOf, threeFigures } from './concentration-limits.js';
import { labelOf } from './hazard-classes.js';
import { isWithin } from './ingredient-classification.js';

/**
 * Statements of physical hazards are numbered H2.. (UN GHS Annex 3); that of a gas under pressure depends on the
 * packing.
 */
const isPhysical = (held: HazardClass): boolean =>
  held.hazardClass === 'Press. Gas' || (labelOf(held)?.code.startsWith('H2') ?? false);

/** The row by which a class is left off a solution of this strength. */
const solutionRule = (held: HazardClass, known: IngredientClassification, percent: Decimal) =>
  physicalInSolutionTable().find(
    (row) =>
      row.class === held.hazardClass &&
      (row.formula === undefined || row.formula === known.formula) &&
      (row.up_to_percent === undefined || percent.lte(row.up_to_percent)),
  );

interface Judgement {
  readonly classes: readonly MixtureClass[];
  readonly notes: readonly HazardNote[];
}

/** A physical class for which the entry has no limit. */
function withoutLimit(held: HazardClass, ingredient: Ingredient, dissolved: boolean): Judgement {
  const known = ingredient.classification;
  const percent = percentOf(ingredient);
  const about = known.name;
  const leftOff = dissolved ? solutionRule(held, known, percent) : undefined;
  if (leftOff) {
    const text = `${held.code} left off the solution; ${leftOff.why} (${leftOff.source}).`;
    return { classes: [], notes: [{ kind: 'class-left-off-solution', about, text }] };
  }
  const what = held.code || held.hazardClass;
  const text = `${what} kept at ${threeFigures(percent)} %: no rule here says below what strength it ceases.`;
  return {
    classes: [{ ...held, from: [about], grounds: [{ rule: 'kept-without-limit' }] }],
    notes: [{ kind: 'class-kept', about, text }],
  };
}

function byLimit(limit: SpecificLimit, gives: HazardClass, ingredient: Ingredient): readonly MixtureClass[] {
  const percent = percentOf(ingredient);
  if (!isWithin(percent, limit)) return [];
  const { name } = ingredient.classification;
  const share = { name, percent: threeFigures(percent), limit: limit.low, specific: true };
  return [{ ...gives, from: [name], grounds: [{ rule: 'concentration-limits', shares: [share] }] }];
}

/**
 * Physical classes that an ingredient brings to a mixture.
 * @param dissolved true for one substance dissolved in water
 */
export function physicalClasses(ingredient: Ingredient, dissolved: boolean): Judgement {
  const { classes, limits } = ingredient.classification;
  const physical = limits.flatMap((limit) =>
    limit.gives && isPhysical(limit.gives) ? [{ limit, gives: limit.gives }] : [],
  );
  const unlimited = classes
    .filter((held) => isPhysical(held) && !physical.some(({ gives }) => gives.hazardClass === held.hazardClass))
    .map((held) => withoutLimit(held, ingredient, dissolved));
  return {
    classes: [
      ...unlimited.flatMap((one) => one.classes),
      ...physical.flatMap(({ limit, gives }) => byLimit(limit, gives, ingredient)),
    ],
    notes: unlimited.flatMap((one) => one.notes),
  };
}
