// Acute toxicity of a mixture, a route at a time: 100 / ATE = Σ C/ATE. Source: CLP Annex I 3.1.3.6, Tables 3.1.1,
// 3.1.2.
import { exact, type Decimal } from '../../chemistry/index.js';
import { acuteToxicityTable } from '../../tables/compiled/hazards/ghs/acute-toxicity.js';
import type {
  AcuteToxicityEstimate,
  HazardClass,
  Ingredient,
  IngredientClassification,
  MixtureClass,
  Route,
} from './contracts.js';
import { percentOf, threeFigures } from './concentration-limits.js';
import { classLabels } from './hazard-classes.js';
import { byGravity, gravestOfEach } from './ingredient-classification.js';

/** Gas, vapour and dust have different units and are summed apart. */
type Form = 'oral' | 'dermal' | 'gas' | 'vapour' | 'dust';

interface Category {
  readonly category: string;
  /** The greatest estimate that is still of this category. */
  readonly upTo: Decimal;
  /** The estimate taken for a substance of which only the category is known. */
  readonly point: Decimal;
}

const categoriesOf = (form: Form): readonly Category[] =>
  acuteToxicityTable()
    .filter((row) => row.route === form)
    .map((row) => ({ category: row.category, upTo: exact(row.up_to), point: exact(row.point) }));

const unitOf: Readonly<Record<Form, 'mg/kg' | 'mg/L' | 'ppmV'>> = {
  oral: 'mg/kg',
  dermal: 'mg/kg',
  gas: 'ppmV',
  vapour: 'mg/L',
  dust: 'mg/L',
};

const gasClasses = new Set(['Flam. Gas', 'Ox. Gas', 'Press. Gas', 'Chem. Unst. Gas', 'Pyr. Gas']);

function formOf(
  route: Route,
  { classes }: IngredientClassification,
  estimate: AcuteToxicityEstimate | undefined,
): Form {
  if (route !== 'inhalation') return route;
  if (estimate?.form) return estimate.form;
  if (classes.some((held) => gasClasses.has(held.hazardClass))) return 'gas';
  return classes.some((held) => held.hazardClass === 'Flam. Liq.') ? 'vapour' : 'dust';
}

interface ToxicIngredient {
  readonly ingredient: Ingredient;
  readonly held: HazardClass;
  readonly form: Form;
  readonly estimate: Decimal;
}

/**
 * Below this percentage an ingredient is not counted. Source: CLP Annex I 3.1.3.3(a), 1 % unless less is relevant by
 * Table 1.1, which has 0.1 % for categories 1 to 3 (that figure from memory).
 */
const countedFrom = ({ category }: HazardClass): Decimal => exact(category < '4' ? '0.1' : '1');

function toxicBy(route: Route, ingredient: Ingredient): readonly ToxicIngredient[] {
  const { classification } = ingredient;
  const held = classification.classes.find((one) => one.hazardClass === 'Acute Tox.' && one.route === route);
  if (!held || percentOf(ingredient).lt(countedFrom(held))) return [];
  const published = classification.estimates
    .filter((one) => one.route === route)
    .sort((a, b) => Number(a.value) - Number(b.value))[0];
  const form = formOf(route, classification, published);
  const point = categoriesOf(form).find((one) => one.category === held.category)?.point;
  const estimate = published ? exact(published.value) : point;
  return estimate ? [{ ingredient, held, form, estimate }] : [];
}

/** The class of the mixture by one form, from the ingredients that count there. */
function classOf(
  route: Route,
  form: Form,
  toxic: readonly ToxicIngredient[],
  unknownPercent: Decimal,
): readonly MixtureClass[] {
  const sum = toxic.reduce((total, one) => total.plus(percentOf(one.ingredient).div(one.estimate)), exact(0));
  // CLP Annex I 3.1.3.6.2.3: more than a tenth of unknown toxicity is taken out of the hundred.
  const partUnknown = unknownPercent.gt(10);
  const estimate = (partUnknown ? exact(100).minus(unknownPercent) : exact(100)).div(sum);
  const reached = categoriesOf(form)
    .filter((one) => estimate.lte(one.upTo))
    .map((one) => one.category)
    .sort()[0];
  if (reached === undefined) return [];
  const gravest = toxic.map((one) => one.held).sort(byGravity)[0]!;
  // Never graver than the gravest ingredient.
  const category = reached < gravest.category ? gravest.category : reached;
  if (category === '5' && gravest.category !== '5') return [];
  const { code } = classLabels().find(
    (label) => label.hazardClass === 'Acute Tox.' && label.route === route && label.category === category,
  )!;
  return [
    {
      hazardClass: 'Acute Tox.',
      category,
      route,
      code,
      from: toxic.map((one) => one.ingredient.classification.name),
      grounds: [{ rule: 'acute-toxicity-estimate', estimate: threeFigures(estimate), unit: unitOf[form], partUnknown }],
    },
  ];
}

/** Acute toxicity classes of a mixture, at most one for each route. */
export function acuteToxicity(ingredients: readonly Ingredient[]): readonly MixtureClass[] {
  const unknownPercent = ingredients
    .filter((one) => one.classification.unknown)
    .reduce((sum, one) => sum.plus(one.percent), exact(0));
  return (['oral', 'dermal', 'inhalation'] as const).flatMap((route) => {
    const toxic = ingredients.flatMap((ingredient) => toxicBy(route, ingredient));
    const forms = [...new Set(toxic.map((one) => one.form))];
    return gravestOfEach(
      forms.flatMap((form) =>
        classOf(
          route,
          form,
          toxic.filter((one) => one.form === form),
          unknownPercent,
        ),
      ),
    );
  });
}
