// What a solution or mixture is classified as: specific concentration limits first, then the generic ones,
// sums for what adds up, acute toxicity by its estimates, aquatic classes with M-factors. Source: CLP Annex I.
import { exact } from '../../chemistry/index.js';
import { acuteToxicity } from './acute-toxicity.js';
import { aquaticClasses } from './aquatic.js';
import { classesAlone, percentOf, summedClasses, threeFigures } from './concentration-limits.js';
import type {
  HazardNote,
  Ingredient,
  MixtureClass,
  MixtureClassification,
  SupplementaryStatement,
} from './contracts.js';
import { classifyUndiluted, gravestOfEach, isWithin } from './ingredient-classification.js';
import { physicalClasses } from './physical-hazards.js';

/** One class that several ingredients or rules give, once, with all that bring it. */
function mergeSame(held: readonly MixtureClass[]): readonly MixtureClass[] {
  const merged = new Map<string, MixtureClass>();
  for (const one of held) {
    const key = `${one.hazardClass} ${one.category} ${one.code} ${one.organs ?? ''}`;
    const other = merged.get(key);
    const both = other && {
      ...other,
      from: [...new Set([...other.from, ...one.from])],
      grounds: [...other.grounds, ...one.grounds],
    };
    merged.set(key, both ?? one);
  }
  return [...merged.values()];
}

interface Supplementary {
  readonly statements: readonly SupplementaryStatement[];
  readonly notes: readonly HazardNote[];
}

/** EUH statements that an ingredient brings: its own, or those of its limits. */
function supplementaryOf(ingredient: Ingredient, corrosive: boolean): Supplementary {
  const { name, limits, supplementary } = ingredient.classification;
  const percent = percentOf(ingredient);
  const limited = limits.filter((limit) => !limit.gives);
  const own = supplementary.filter((code) => !limited.some((limit) => limit.code === code));
  const kept = own.filter((code) => code !== 'EUH071' || corrosive);
  const text = `EUH071 goes with what burns the skin, and is left off at ${threeFigures(percent)} % (from memory).`;
  return {
    statements: [...kept, ...limited.filter((limit) => isWithin(percent, limit)).map((limit) => limit.code)].map(
      (code) => ({ code, from: name, ground: { rule: 'statement-of-ingredient' } }),
    ),
    notes: kept.length < own.length ? [{ kind: 'statement-left-off-solution', about: name, text }] : [],
  };
}

/**
 * Classification of a mixture from its ingredients.
 * @param ingredients percent by weight of the whole; what is missing to 100 % is taken as water or another thing
 *   without classes
 * @param dissolved true for one substance dissolved in water
 * @example classifyMixture([{ classification: classificationOfRows('nitric acid', rows), percent: '10' }]).classes
 *   // Skin Corr. 1B
 */
export function classifyMixture(
  ingredients: readonly Ingredient[],
  dissolved = ingredients.length === 1,
): MixtureClassification {
  const present = ingredients.filter((one) => exact(one.percent).gt(0));
  const [only] = present;
  if (only && present.length === 1 && percentOf(only).gte(100)) return classifyUndiluted(only.classification);
  const physical = present.map((ingredient) => physicalClasses(ingredient, dissolved));
  const alone = present.map((ingredient) => ({ ingredient, ...classesAlone(ingredient) }));
  const classes = gravestOfEach(
    mergeSame([
      ...physical.flatMap((one) => one.classes),
      ...acuteToxicity(present),
      ...summedClasses(present),
      ...alone.flatMap((one) => one.classes),
      ...aquaticClasses(present),
    ]),
  );
  const corrosive = classes.some((held) => held.hazardClass === 'Skin Corr.');
  const supplementary = present.map((ingredient) => supplementaryOf(ingredient, corrosive));
  const sensitisers = alone
    .filter((one) => one.sensitises)
    .map(
      ({ ingredient: { classification } }): SupplementaryStatement => ({
        code: 'EUH208',
        from: classification.name,
        ground: { rule: 'sensitiser-below-limit' },
        sensitiser: classification.name,
      }),
    );
  return {
    classes,
    supplementary: [...supplementary.flatMap((one) => one.statements), ...sensitisers],
    notes: [...physical, ...supplementary].flatMap((one) => one.notes),
  };
}
