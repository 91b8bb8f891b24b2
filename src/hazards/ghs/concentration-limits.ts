// Classes of a mixture by concentration limits: those that add up over the ingredients, those judged one by one.
// Specific limits of a substance's entry go before the generic ones. Source: CLP Annex I, tables in
// concentration-limits.csv.
import { Decimal, exact } from '../../chemistry/index.js';
import {
  concentrationLimitsTable,
  type ConcentrationLimitsRow,
} from '../../tables/compiled/hazards/ghs/concentration-limits.js';
import type { HazardClass, Ingredient, LimitShare, MixtureClass, SpecificLimit } from './contracts.js';
import { classLabels } from './hazard-classes.js';
import { byGravity } from './ingredient-classification.js';

export const percentOf = (ingredient: Ingredient): Decimal => exact(ingredient.percent);
export const threeFigures = (value: Decimal): string => value.toSignificantDigits(3).toString();

type ClassLimit = SpecificLimit & { readonly gives: HazardClass };
const classLimitsOf = ({ classification }: Ingredient): readonly ClassLimit[] =>
  classification.limits.filter((limit): limit is ClassLimit => limit.gives !== undefined);

/** Categories that are summed together, whatever their letter: `skin 1` is Skin Corr. 1, 1A, 1B and 1C. */
function tierOf({ hazardClass, category, code }: HazardClass): string {
  switch (hazardClass) {
    case 'Skin Corr.':
      return 'skin 1';
    case 'Skin Irrit.':
      return `skin ${category}`;
    case 'Eye Dam.':
      return 'eye 1';
    case 'Eye Irrit.':
      return category === '2B' ? 'eye 2B' : 'eye 2';
    case 'STOT SE':
      return category === '3' ? code : `STOT SE ${category}`;
    default:
      return `${hazardClass} ${category.slice(0, 1)}`;
  }
}

const summedTiers = [
  'skin 1',
  'skin 2',
  'skin 3',
  'eye 1',
  'eye 2',
  'eye 2B',
  'H335',
  'H336',
  'Asp. Tox. 1',
  'Asp. Tox. 2',
];

/** An ingredient's part in reaching a limit: it alone would give the class from `limit` percent on. */
interface Share {
  readonly ingredient: Ingredient;
  readonly limit: Decimal;
  readonly specific: boolean;
  readonly gives: HazardClass;
}

const lowestLimit = <Limited extends { readonly limit: Decimal }>(shares: readonly Limited[]): Limited =>
  shares.reduce((a, b) => (a.limit.lte(b.limit) ? a : b));

const specificShare = (ingredient: Ingredient, limits: readonly ClassLimit[]): Share =>
  lowestLimit(limits.map(({ low, gives }): Share => ({ ingredient, limit: exact(low), specific: true, gives })));

const mixtureClassPattern = /^(?<hazardClass>.*?)(?: (?<category>\d[A-C]?))?$/;

/** What a row of the generic limits makes of a class: itself, or a lesser class at a lower percentage. */
function givenBy(row: ConcentrationLimitsRow, held: HazardClass): HazardClass {
  const { hazardClass = '', category = '' } = mixtureClassPattern.exec(row.mixture)!.groups!;
  if (held.hazardClass === hazardClass && held.category === category) return held;
  const label = classLabels().find((one) => one.hazardClass === hazardClass && one.category === category);
  return { hazardClass, category, code: label?.code ?? '', ...(held.organs && { organs: held.organs }) };
}

/** Shares of an ingredient by the generic limits for one of its classes. */
function genericShares(ingredient: Ingredient, held: HazardClass, adds: 'sum' | 'each'): readonly Share[] {
  const names = [`${held.hazardClass} ${held.category}`.trim(), held.hazardClass];
  return concentrationLimitsTable()
    .filter((row) => row.adds === adds && names.includes(row.ingredient))
    .map((row) => ({ ingredient, limit: exact(row.percent), specific: false, gives: givenBy(row, held) }));
}

/**
 * What a corrosive does to eyes where its entry has limits for eyes: what those say, and from its limit for skin
 * corrosion it harms them too. Undefined where the generic limits hold.
 */
function corrosiveToEyes(
  ingredient: Ingredient,
  tier: string,
  generic: Share,
  limits: readonly ClassLimit[],
): readonly Share[] | undefined {
  if (!tier.startsWith('eye') || !limits.some((limit) => tierOf(limit.gives).startsWith('eye'))) return undefined;
  const corrosive = limits.filter((limit) => limit.gives.hazardClass === 'Skin Corr.');
  if (tier !== 'eye 1' || corrosive.length === 0) return [];
  return [{ ...specificShare(ingredient, corrosive), gives: generic.gives }];
}

/** The share of an ingredient in a tier that adds up, or undefined if it does not count. */
function shareIn(ingredient: Ingredient, tier: string): Share | undefined {
  const limits = classLimitsOf(ingredient);
  const specific = limits.filter((limit) => tierOf(limit.gives) === tier);
  if (specific.length > 0) return specificShare(ingredient, specific);
  const shares = ingredient.classification.classes.flatMap((held) =>
    genericShares(ingredient, held, 'sum')
      .filter(({ gives }) => tierOf(gives) === tier)
      .flatMap((share) =>
        held.hazardClass === 'Skin Corr.' ? (corrosiveToEyes(ingredient, tier, share, limits) ?? [share]) : [share],
      ),
  );
  return shares.length === 0 ? undefined : lowestLimit(shares);
}

const facts = ({ ingredient, limit, specific }: Share): LimitShare => ({
  name: ingredient.classification.name,
  percent: threeFigures(percentOf(ingredient)),
  limit: limit.toString(),
  specific,
});

const classBy = (shares: readonly Share[], gives: HazardClass): MixtureClass => ({
  ...gives,
  from: shares.map((share) => share.ingredient.classification.name),
  grounds: [{ rule: 'concentration-limits', shares: shares.map(facts) }],
});

/** Parts of one that the ingredients make of their limits; from 1 on the mixture has the class. */
const sumOfParts = (shares: readonly Pick<Share, 'ingredient' | 'limit'>[]): Decimal =>
  shares.reduce((sum, { ingredient, limit }) => sum.plus(percentOf(ingredient).div(limit)), exact(0));

/**
 * Skin corrosion limit of an ingredient for a subcategory and the graver ones; undefined if it does not count there.
 */
function subcategoryLimit(ingredient: Ingredient, category: string): Decimal | undefined {
  const isAsGrave = (held: HazardClass): boolean =>
    held.hazardClass === 'Skin Corr.' && held.category !== '1' && held.category <= category;
  const limits = classLimitsOf(ingredient).filter((limit) => limit.gives.hazardClass === 'Skin Corr.');
  const own = limits.filter((limit) => isAsGrave(limit.gives));
  if (own.length > 0) return Decimal.min(...own.map((limit) => limit.low));
  if (limits.length > 0) return undefined;
  return ingredient.classification.classes.some(isAsGrave) ? exact(5) : undefined;
}

/**
 * 1A where the 1A ingredients alone reach their limits, 1B with those of 1B, 1C with all of a named subcategory, else
 * 1.
 */
function skinCorrosion(shares: readonly Share[]): HazardClass {
  const reached = ['1A', '1B', '1C'].find((category) =>
    sumOfParts(
      shares.flatMap(({ ingredient }) => {
        const limit = subcategoryLimit(ingredient, category);
        return limit ? [{ ingredient, limit }] : [];
      }),
    ).gte(1),
  );
  return { hazardClass: 'Skin Corr.', category: reached ?? '1', code: 'H314' };
}

/** Classes that add up over the ingredients: corrosion, irritation, eye damage, STOT SE 3, aspiration. */
export function summedClasses(ingredients: readonly Ingredient[]): readonly MixtureClass[] {
  return summedTiers.flatMap((tier) => {
    const shares = ingredients.flatMap((ingredient) => shareIn(ingredient, tier) ?? []);
    if (shares.length === 0 || sumOfParts(shares).lt(1)) return [];
    const gives = tier === 'skin 1' ? skinCorrosion(shares) : shares.map((share) => share.gives).sort(byGravity)[0]!;
    return [classBy(shares, gives)];
  });
}

const oneByOne = new Set(['Carc.', 'Muta.', 'Repr.', 'Lact.', 'Resp. Sens.', 'Skin Sens.', 'STOT RE', 'Ozone']);
const isJudgedAlone = (held: HazardClass): boolean =>
  oneByOne.has(held.hazardClass) || (held.hazardClass === 'STOT SE' && held.category !== '3');

/** Limits of an ingredient for the classes that are judged one by one, specific ones in the place of generic ones. */
function sharesAlone(ingredient: Ingredient): readonly Share[] {
  const own = classLimitsOf(ingredient).filter((limit) => isJudgedAlone(limit.gives));
  const byClass = ingredient.classification.classes
    .filter(isJudgedAlone)
    .flatMap((held) => genericShares(ingredient, held, 'each'))
    .map((share): Share => {
      const specific = own.filter((limit) => tierOf(limit.gives) === tierOf(share.gives));
      return specific.length > 0 ? { ...specificShare(ingredient, specific), gives: share.gives } : share;
    });
  const further = own
    .filter((limit) => !byClass.some((share) => tierOf(share.gives) === tierOf(limit.gives)))
    .map((limit) => specificShare(ingredient, [limit]));
  return [...byClass, ...further];
}

const sensitisers = new Set(['Resp. Sens.', 'Skin Sens.']);

/** From here on a sensitiser that is below its limit is named: a tenth of the limit, 0.1 % where that is 1 %. */
const namedFrom = ({ limit, specific }: Share): Decimal => (!specific && limit.eq(1) ? exact('0.1') : limit.div(10));

/**
 * Classes for which each ingredient is judged alone: cancer, mutation, reproduction, sensitisers, organs, ozone.
 * @returns `sensitises`: below its limit, but enough to be named by EUH208
 */
export function classesAlone(ingredient: Ingredient): {
  readonly classes: readonly MixtureClass[];
  readonly sensitises: boolean;
} {
  const percent = percentOf(ingredient);
  const shares = sharesAlone(ingredient);
  return {
    classes: shares.filter((share) => percent.gte(share.limit)).map((share) => classBy([share], share.gives)),
    sensitises: shares.some(
      (share) => sensitisers.has(share.gives.hazardClass) && percent.lt(share.limit) && percent.gte(namedFrom(share)),
    ),
  };
}
