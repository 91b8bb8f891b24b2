// Aquatic classes of a mixture by summation, M-factors counted. Source: CLP Annex I Tables 4.1.0 to 4.1.2; the UN GHS's
// Acute 2 and 3 (Table 4.1.3) only where an ingredient has them.
import { exact, type Decimal } from '../../chemistry/index.js';
import type { Ingredient, IngredientClassification, MixtureClass } from './contracts.js';
import { percentOf, threeFigures } from './concentration-limits.js';

type AquaticClass = 'Aquatic Acute' | 'Aquatic Chronic';

interface Sum {
  readonly hazardClass: AquaticClass;
  readonly category: string;
  readonly code: string;
  /** What a percent of each category of ingredient counts. */
  readonly weights: Readonly<Record<string, number>>;
  /** The M-factor is counted. */
  readonly multiplied: boolean;
}

/** Of each class the first sum that reaches its limit stands. */
const acuteSums: readonly Sum[] = [
  { hazardClass: 'Aquatic Acute', category: '1', code: 'H400', weights: { 1: 1 }, multiplied: true },
  { hazardClass: 'Aquatic Acute', category: '2', code: 'H401', weights: { 1: 10, 2: 1 }, multiplied: true },
  { hazardClass: 'Aquatic Acute', category: '3', code: 'H402', weights: { 1: 100, 2: 10, 3: 1 }, multiplied: true },
];
const chronicSums: readonly Sum[] = [
  { hazardClass: 'Aquatic Chronic', category: '1', code: 'H410', weights: { 1: 1 }, multiplied: true },
  { hazardClass: 'Aquatic Chronic', category: '2', code: 'H411', weights: { 1: 10, 2: 1 }, multiplied: true },
  { hazardClass: 'Aquatic Chronic', category: '3', code: 'H412', weights: { 1: 100, 2: 10, 3: 1 }, multiplied: true },
  {
    hazardClass: 'Aquatic Chronic',
    category: '4',
    code: 'H413',
    weights: { 1: 1, 2: 1, 3: 1, 4: 1 },
    multiplied: false,
  },
];

const limit = 25;

const categoryOf = (ingredient: Ingredient, hazardClass: AquaticClass): string | undefined =>
  ingredient.classification.classes.find((held) => held.hazardClass === hazardClass)?.category;

const factorOf = (known: IngredientClassification, hazardClass: AquaticClass): number =>
  hazardClass === 'Aquatic Acute' ? known.acuteMFactor : known.chronicMFactor;

/** An ingredient's weighted percentage in a sum; undefined where it is of no category there or too little to count. */
function weighted(ingredient: Ingredient, { hazardClass, weights, multiplied }: Sum): Decimal | undefined {
  const category = categoryOf(ingredient, hazardClass);
  const weight = category === undefined ? undefined : weights[category];
  if (weight === undefined) return undefined;
  const factor = category === '1' ? factorOf(ingredient.classification, hazardClass) : 1;
  // CLP Annex I 4.1.3.1: category 1 counts from (0.1/M) %, the others from 1 %.
  const countedFrom = category === '1' ? exact('0.1').div(factor) : exact(1);
  const percent = percentOf(ingredient);
  return percent.gte(countedFrom) ? percent.times(weight).times(multiplied ? factor : 1) : undefined;
}

function classBy(ingredients: readonly Ingredient[], sum: Sum): readonly MixtureClass[] {
  const counted = ingredients.flatMap((ingredient) => {
    const percent = weighted(ingredient, sum);
    return percent ? [{ name: ingredient.classification.name, percent }] : [];
  });
  const total = counted.reduce((all, one) => all.plus(one.percent), exact(0));
  if (total.lt(limit)) return [];
  const { hazardClass, category, code } = sum;
  const from = counted.map((one) => one.name);
  return [
    { hazardClass, category, code, from, grounds: [{ rule: 'aquatic-sum', weightedPercent: threeFigures(total) }] },
  ];
}

const firstReached = (ingredients: readonly Ingredient[], sums: readonly Sum[]): readonly MixtureClass[] =>
  sums.map((sum) => classBy(ingredients, sum)).find((found) => found.length > 0) ?? [];

/** Whether the UN's Acute 2 and 3 are to be reckoned: CLP has only Acute 1. */
const hasMilderAcute = (ingredients: readonly Ingredient[]): boolean =>
  ingredients.some((one) => ['2', '3'].includes(categoryOf(one, 'Aquatic Acute') ?? ''));

/** Aquatic classes of a mixture: at most one acute and one chronic. */
export const aquaticClasses = (ingredients: readonly Ingredient[]): readonly MixtureClass[] => [
  ...firstReached(
    ingredients,
    acuteSums.filter(({ category }) => category === '1' || hasMilderAcute(ingredients)),
  ),
  ...firstReached(ingredients, chronicSums),
];
