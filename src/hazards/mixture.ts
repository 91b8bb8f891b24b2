// What a solution or mixture is classified as: specific concentration limits first, then the generic ones,
// sums for what adds up, acute toxicity by its estimates, aquatic classes with M-factors.
// Source: CLP Annex I, tables named in mixture-limits.csv and mixture-acute.csv.
import { Decimal, exact, parseQuantity } from '../chemistry/index.js';
import { bad, good, type Outcome } from '../outcome.js';
import { mixtureAcuteTable } from '../tables/compiled/hazards/mixture-acute.js';
import { mixtureDensitiesTable } from '../tables/compiled/hazards/mixture-densities.js';
import { mixtureLimitsTable } from '../tables/compiled/hazards/mixture-limits.js';
import { mixturePhysicalTable } from '../tables/compiled/hazards/mixture-physical.js';
import { classLabels, classOfCode, labelOf, rootCode } from './statements-classes.js';
import type { AcuteToxicityEstimate, HazardClass, SpecificLimit, Substance } from './substances.js';

type Amount = InstanceType<typeof Decimal>;

/** What is known of one ingredient, whatever it rests on. */
export interface Known {
  readonly name: string;
  readonly unknown: boolean;
  readonly classes: readonly HazardClass[];
  readonly supplementary: readonly string[];
  readonly limits: readonly SpecificLimit[];
  readonly estimates: readonly AcuteToxicityEstimate[];
  readonly multiplyAcute: number;
  readonly multiplyChronic: number;
  readonly formula?: string;
}

export interface Ingredient {
  readonly known: Known;
  /** Percent by weight of the mixture, decimal as text. */
  readonly percent: string;
}

/** A class of the mixture, with the ingredients that bring it and the rule that gives it. */
export interface MixtureClass extends HazardClass {
  readonly from: readonly string[];
  /** The rule, ready to print: `15 % is over the specific limit of 10 %`. */
  readonly why: string;
}

export interface MixtureResult {
  readonly classes: readonly MixtureClass[];
  readonly supplementary: readonly {
    readonly code: string;
    readonly from: string;
    readonly why: string;
    readonly sensitiser?: string;
  }[];
  readonly notes: readonly string[];
}

/** Strength of a solution; decimals as text. */
export type Strength =
  | { readonly of: 'mass'; readonly percent: string } // w/w %
  | { readonly of: 'mass-per-volume'; readonly percent: string; readonly density?: string } // g in 100 mL; g/mL
  | { readonly of: 'amount'; readonly molPerLitre: string; readonly density?: string };

/**
 * A strength as a maker writes it; of a range the upper end is taken.
 * @param written `60 %`, `10 % w/v`, `2.0 mol/L`
 * @param density `1.18 g/mL`
 */
export function readStrength(written: string, density?: string): Outcome<Strength> {
  const quantity = parseQuantity(written);
  if (!quantity.ok) return quantity;
  const heavy = density === undefined ? undefined : parseQuantity(density);
  if (heavy && !heavy.ok) return heavy;
  const dense = heavy && heavy.value.dimension === 'density' ? { density: heavy.value.base.toString() } : {};
  const value = (quantity.value.high ?? quantity.value.base).toString();
  switch (quantity.value.dimension) {
    case 'mass-percent':
      return good({ of: 'mass', percent: value });
    case 'mass-volume-percent':
      return good({ of: 'mass-per-volume', percent: value, ...dense });
    case 'concentration':
      return good({ of: 'amount', molPerLitre: value, ...dense });
    case 'density':
      return good({ of: 'mass-per-volume', percent: exact(value).times(100).toString(), ...dense });
    default:
      return bad({
        code: 'strength',
        message: `'${written}' is not a strength.`,
        expected: '60 %, 10 % w/v or 2.0 mol/L',
        cure: 'Write the strength by mass, by mass in volume, or in mol/L.',
      });
  }
}

const roundText = (value: Amount): string => value.toSignificantDigits(3).toString();

/**
 * A strength in percent by weight, between 0 and 100, with what had to be assumed.
 * @param molarMass g/mol of the solute, for a strength in mol/L
 * @param hill composition of the solute in Hill order, which tells the density to assume where none is given
 */
export function massPercent(
  strength: Strength,
  molarMass?: string,
  hill = '',
): Outcome<{ readonly percent: string; readonly notes: readonly string[] }> {
  if (strength.of === 'mass') return good({ percent: Decimal.min(100, strength.percent).toString(), notes: [] });
  const rows = mixtureDensitiesTable();
  const assumed = rows.find((row) => row.hill === hill && hill !== '') ?? rows.find((row) => row.hill === '')!;
  const density = exact(strength.density ?? assumed.density_g_ml);
  if (!density.isPositive() || density.isZero())
    return bad({ code: 'density', message: 'A density must be more than nothing.' });
  const grams =
    strength.of === 'mass-per-volume'
      ? exact(strength.percent).times(10)
      : molarMass === undefined
        ? undefined
        : exact(strength.molPerLitre).times(molarMass);
  if (!grams)
    return bad({
      code: 'molar-mass',
      message: 'A strength in mol/L needs the formula of what is dissolved.',
      cure: 'Give the formula, or the strength in percent by mass.',
    });
  const percent = Decimal.min(100, grams.div(density.times(1000)).times(100));
  return good({
    percent: percent.toString(),
    notes: strength.density
      ? []
      : [
          `No density given: ${assumed['density_g_ml']} g/mL assumed (${assumed['of']}), which makes the strength ${roundText(percent)} % by mass.`,
        ],
  });
}

const gravest = (a: HazardClass, b: HazardClass): number => (labelOf(a)?.rank ?? 0) - (labelOf(b)?.rank ?? 0);
const letters = (code: string): readonly string[] => [...code.replace(/^H36[01]/, '').toLowerCase()];

/** Of one class, only the gravest category; but each effect on reproduction, each organ statement and each route stays. */
export function withoutLesser<Held extends HazardClass>(held: readonly Held[]): readonly Held[] {
  const family = (one: HazardClass): string =>
    (one.hazardClass === 'STOT SE' && one.category === '3') || one.hazardClass === 'Repr.'
      ? one.code
      : `${one.hazardClass} ${one.route ?? one.organs ?? ''}`;
  const kept = new Map<string, Held>();
  for (const one of held) {
    const other = kept.get(family(one));
    if (!other || gravest(one, other) < 0) kept.set(family(one), one);
  }
  const result = [...kept.values()];
  const carries = (hazardClass: string): boolean => result.some((one) => one.hazardClass === hazardClass);
  return result.filter((one) => {
    if (one.hazardClass === 'Skin Irrit.' && carries('Skin Corr.')) return false;
    if (one.hazardClass === 'Eye Irrit.' && (carries('Skin Corr.') || carries('Eye Dam.'))) return false;
    if (rootCode(one.code) === 'H361')
      return !result.some(
        (grave) =>
          rootCode(grave.code) === 'H360' &&
          letters(one.code).length > 0 &&
          letters(one.code).every((letter) => letters(grave.code).includes(letter)),
      );
    return true;
  });
}

/** Rows that all apply to one substance, as one: every class, the lowest estimate, the highest M-factor. */
export function knownOf(name: string, rows: readonly Substance[]): Known {
  return {
    name,
    unknown: rows.length === 0,
    classes: withoutLesser(rows.flatMap((row) => row.classes)),
    supplementary: [...new Set(rows.flatMap((row) => row.supplementary))],
    limits: rows.flatMap((row) => row.limits),
    estimates: rows.flatMap((row) => row.estimates),
    multiplyAcute: Math.max(1, ...rows.map((row) => row.multiplyAcute)),
    multiplyChronic: Math.max(1, ...rows.map((row) => row.multiplyChronic)),
    ...(rows[0]?.formula && { formula: rows[0].formula }),
  };
}

/** A maker's sheet, of which only the statements are known: each stands for the gravest class it can. */
export function knownOfCodes(name: string, codes: readonly string[]): Known {
  const classes = codes
    .flatMap((code) => classOfCode(code) ?? [])
    .filter((held) => held.hazardClass !== '' && !held.code.startsWith('EUH'));
  return {
    name,
    unknown: false,
    classes: withoutLesser(classes),
    supplementary: codes.filter((code) => code.startsWith('EUH')),
    limits: [],
    estimates: [],
    multiplyAcute: 1,
    multiplyChronic: 1,
  };
}

const reaches = (percent: Amount, limit: SpecificLimit): boolean =>
  (limit.lowIncluded ? percent.gte(limit.low) : percent.gt(limit.low)) &&
  (limit.high === undefined || percent.lt(limit.high));

/** A substance as it is, undiluted: its classes, and those that a specific limit adds at full strength. */
export function undiluted(known: Known): MixtureResult {
  const full = exact(100);
  const own = known.classes.map(
    (held): MixtureClass => ({ ...held, from: [known.name], why: 'classification of the substance' }),
  );
  const added = known.limits.flatMap((limit): MixtureClass[] => {
    const repeats =
      limit.gives &&
      own.some(
        (held) =>
          held.hazardClass === limit.gives!.hazardClass &&
          rootCode(held.code) === rootCode(limit.code) &&
          gravest(held, limit.gives!) <= 0,
      );
    return limit.gives && reaches(full, limit) && !repeats
      ? [{ ...limit.gives, from: [known.name], why: `specific concentration limit of ${limit.low} %` }]
      : [];
  });
  const extra = known.limits
    .filter((limit) => !limit.gives && reaches(full, limit) && !known.supplementary.includes(limit.code))
    .map((limit) => limit.code);
  return {
    classes: keepOwn(own, added),
    supplementary: [...known.supplementary, ...extra].map((code) => ({
      code,
      from: known.name,
      why: 'statement of the substance',
    })),
    notes: [],
  };
}

/** What limits add stays only where the substance's own classes do not already say as much; its own are all kept. */
const keepOwn = (own: readonly MixtureClass[], added: readonly MixtureClass[]): readonly MixtureClass[] => [
  ...own,
  ...withoutLesser([...own, ...added]).filter((held) => added.includes(held)),
];

const tierOf = (held: HazardClass): string =>
  /^Skin (Corr|Irrit)/.test(held.hazardClass)
    ? held.hazardClass === 'Skin Corr.'
      ? 'skin 1'
      : `skin ${held.category}`
    : /^Eye/.test(held.hazardClass)
      ? held.hazardClass === 'Eye Dam.'
        ? 'eye 1'
        : held.category === '2B'
          ? 'eye 2B'
          : 'eye 2'
      : held.hazardClass === 'STOT SE' && held.category === '3'
        ? held.code
        : `${held.hazardClass} ${held.category.slice(0, 1)}`;

interface Share {
  readonly ingredient: Ingredient;
  readonly limit: Amount;
  readonly specific: boolean;
  readonly subject: HazardClass;
}

/** What the generic limits make of a class in a mixture: itself, or a lesser class at a lower percentage. */
function genericOf(
  held: HazardClass,
  adds: 'sum' | 'each',
): readonly { readonly subject: HazardClass; readonly limit: Amount }[] {
  return mixtureLimitsTable().flatMap((row) => {
    if (
      row.adds !== adds ||
      (`${held.hazardClass} ${held.category}`.trim() !== row.ingredient && held.hazardClass !== row.ingredient)
    )
      return [];
    const result = /^(?<hazardClass>.*?)(?: (?<category>\d[A-C]?))?$/.exec(row.mixture)!.groups!;
    const category = result['category'] ?? '';
    const same = held.hazardClass === result['hazardClass'] && held.category === category;
    const label = classLabels().find((one) => one.hazardClass === result['hazardClass'] && one.category === category);
    return [
      {
        subject: same
          ? held
          : {
              hazardClass: result['hazardClass']!,
              category,
              code: label?.code ?? '',
              ...(held.organs && { organs: held.organs }),
            },
        limit: exact(row.percent),
      },
    ];
  });
}

const lowest = (limits: readonly SpecificLimit[]): SpecificLimit =>
  limits.reduce((a, b) => (exact(a.low).lte(b.low) ? a : b));

/** The percentage from which an ingredient counts in full towards a tier that adds up, or undefined if it does not count. */
function shareOf(ingredient: Ingredient, tier: string): Share | undefined {
  const own = ingredient.known.limits.filter((limit) => limit.gives);
  const specific = own.filter((limit) => tierOf(limit.gives!) === tier);
  if (specific.length > 0)
    return { ingredient, limit: exact(lowest(specific).low), specific: true, subject: lowest(specific).gives! };
  const corrosive = own.filter((limit) => limit.gives!.hazardClass === 'Skin Corr.');
  const eyesHaveLimits = own.some((limit) => tierOf(limit.gives!).startsWith('eye'));
  const shares = ingredient.known.classes.flatMap((held) =>
    genericOf(held, 'sum')
      .filter(({ subject }) => tierOf(subject) === tier)
      .flatMap(({ subject, limit }): Share[] => {
        // A corrosive whose entry has limits for eyes does to eyes what those say; from its limit for skin corrosion it harms them too.
        if (tier.startsWith('eye') && held.hazardClass === 'Skin Corr.' && eyesHaveLimits) {
          return tier === 'eye 1' && corrosive.length > 0
            ? [{ ingredient, limit: exact(lowest(corrosive).low), specific: true, subject }]
            : [];
        }
        return [{ ingredient, limit, specific: false, subject }];
      }),
  );
  return shares.length === 0 ? undefined : shares.reduce((a, b) => (a.limit.lte(b.limit) ? a : b));
}

const percentOf = (ingredient: Ingredient): Amount => exact(ingredient.percent);

/** Classes that add up over the ingredients: corrosion, irritation, eye damage, STOT SE 3, aspiration. */
function summed(ingredients: readonly Ingredient[]): readonly MixtureClass[] {
  const found: MixtureClass[] = [];
  for (const tier of [
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
  ]) {
    const shares = ingredients.flatMap((ingredient) => shareOf(ingredient, tier) ?? []);
    const reached = shares.reduce((sum, share) => sum.plus(percentOf(share.ingredient).div(share.limit)), exact(0));
    if (shares.length === 0 || reached.lt(1)) continue;
    const counted = shares.filter(
      (share) => percentOf(share.ingredient).isPositive() && !percentOf(share.ingredient).isZero(),
    );
    const worst = tier === 'skin 1' ? skinCategory(counted) : counted.map((share) => share.subject).sort(gravest)[0]!;
    found.push({
      ...worst,
      from: counted.map((share) => share.ingredient.known.name),
      why: counted.map(reason).join('; '),
    });
  }
  return found;
}

/** 1A where the 1A ingredients alone reach their limits, 1B with those of 1B, 1C with all of a named subcategory, else 1. */
function skinCategory(shares: readonly Share[]): HazardClass {
  for (const category of ['1A', '1B', '1C']) {
    const total = shares.reduce((sum, { ingredient }) => {
      const own = ingredient.known.limits.filter(
        (limit) =>
          limit.gives?.hazardClass === 'Skin Corr.' && limit.gives.category <= category && limit.gives.category !== '1',
      );
      const generic = ingredient.known.classes.some(
        (held) => held.hazardClass === 'Skin Corr.' && held.category !== '1' && held.category <= category,
      )
        ? exact(5)
        : undefined;
      const limit =
        own.length > 0
          ? own.map((one) => exact(one.low)).reduce((a, b) => Decimal.min(a, b))
          : ingredient.known.limits.some((one) => one.gives?.hazardClass === 'Skin Corr.')
            ? undefined
            : generic;
      return limit ? sum.plus(percentOf(ingredient).div(limit)) : sum;
    }, exact(0));
    if (total.gte(1)) return { hazardClass: 'Skin Corr.', category, code: 'H314' };
  }
  return { hazardClass: 'Skin Corr.', category: '1', code: 'H314' };
}

const reason = (share: Share): string =>
  `${share.ingredient.known.name} ${roundText(percentOf(share.ingredient))} %, ${share.specific ? 'specific' : 'generic'} limit ${share.limit.toString()} %`;

const standsAlone = (held: HazardClass): boolean =>
  /^(Carc|Muta|Repr|Lact|Resp\. Sens|Skin Sens|STOT RE|Ozone)/.test(held.hazardClass) ||
  (held.hazardClass === 'STOT SE' && held.category !== '3');

/** Classes for which each ingredient is judged alone: cancer, mutation, reproduction, sensitisers, organs, ozone. */
function judgedAlone(ingredient: Ingredient): {
  readonly classes: readonly MixtureClass[];
  readonly sensitises: boolean;
} {
  const { known } = ingredient;
  const percent = percentOf(ingredient);
  const own = known.limits.filter((limit) => limit.gives && standsAlone(limit.gives));
  const generic = known.classes.filter(standsAlone).flatMap((held) =>
    genericOf(held, 'each').map(({ subject, limit }): Share => {
      const specific = own.filter((one) => tierOf(one.gives!) === tierOf(subject));
      return specific.length > 0
        ? { ingredient, subject, limit: exact(lowest(specific).low), specific: true }
        : { ingredient, subject, limit, specific: false };
    }),
  );
  const further = own
    .filter((limit) => !generic.some((share) => tierOf(share.subject) === tierOf(limit.gives!)))
    .map((limit): Share => ({ ingredient, subject: limit.gives!, limit: exact(limit.low), specific: true }));
  const shares = [...generic, ...further];
  return {
    classes: shares
      .filter((share) => percent.gte(share.limit))
      .map((share) => ({ ...share.subject, from: [known.name], why: reason(share) })),
    sensitises: shares.some(
      (share) =>
        /Sens/.test(share.subject.hazardClass) &&
        percent.lt(share.limit) &&
        percent.gte(!share.specific && share.limit.eq(1) ? exact('0.1') : share.limit.div(10)),
    ),
  };
}

const bands = (
  route: string,
): readonly { readonly category: string; readonly upTo: Amount; readonly point: Amount }[] =>
  mixtureAcuteTable()
    .filter((row) => row.route === route)
    .map((row) => ({ category: row.category, upTo: exact(row.up_to), point: exact(row.point) }));

const gasClass = (known: Known): boolean => known.classes.some((held) => /Gas$/.test(held.hazardClass));

/** Acute toxicity, a route at a time: 100 / ATE = Σ C/ATE, never graver than the gravest ingredient. */
function acute(ingredients: readonly Ingredient[]): readonly MixtureClass[] {
  const found: MixtureClass[] = [];
  const unknownPercent = ingredients
    .filter((one) => one.known.unknown)
    .reduce((sum, one) => sum.plus(one.percent), exact(0));
  for (const route of ['oral', 'dermal', 'inhalation'] as const) {
    const counted = ingredients.flatMap((ingredient) => {
      const held = ingredient.known.classes.find((one) => one.hazardClass === 'Acute Tox.' && one.route === route);
      if (!held || percentOf(ingredient).lt(1)) return [];
      const estimate = ingredient.known.estimates
        .filter((one) => one.route === route)
        .sort((a, b) => Number(a.value) - Number(b.value))[0];
      const band =
        route !== 'inhalation'
          ? route
          : (estimate?.form ??
            (gasClass(ingredient.known)
              ? 'gas'
              : ingredient.known.classes.some((one) => one.hazardClass === 'Flam. Liq.')
                ? 'vapour'
                : 'dust'));
      const point = bands(band).find((one) => one.category === held.category)?.point;
      const value = estimate ? exact(estimate.value) : point;
      return value ? [{ ingredient, held, band, value, estimate }] : [];
    });
    // Gas, vapour and dust have different units: each is summed alone, and the gravest result stands.
    const results = [...new Set(counted.map((one) => one.band))].flatMap((band): MixtureClass[] => {
      const here = counted.filter((one) => one.band === band);
      const sum = here.reduce((total, one) => total.plus(percentOf(one.ingredient).div(one.value)), exact(0));
      const numerator = unknownPercent.gt(10) ? exact(100).minus(unknownPercent) : exact(100);
      const estimate = numerator.div(sum);
      const category = bands(band)
        .filter((one) => estimate.lte(one.upTo))
        .map((one) => one.category)
        .sort()[0];
      if (category === undefined) return [];
      const cap = here.map((one) => one.held).sort(gravest)[0]!;
      const grade = category < cap.category ? cap.category : category;
      const label = classLabels().find(
        (one) => one.hazardClass === 'Acute Tox.' && one.route === route && one.category === grade,
      )!;
      if (grade === '5' && !here.some((one) => one.held.category === '5')) return [];
      return [
        {
          hazardClass: 'Acute Tox.',
          category: grade,
          route,
          code: label.code,
          from: here.map((one) => one.ingredient.known.name),
          why: `acute toxicity estimate of the mixture ${roundText(estimate)} ${band === 'gas' ? 'ppmV' : route === 'inhalation' ? 'mg/L' : 'mg/kg'}${unknownPercent.gt(10) ? ', with a part of unknown toxicity' : ''}`,
        },
      ];
    });
    found.push(...withoutLesser(results));
  }
  return found;
}

/** Aquatic classes by the summation of CLP Tables 4.1.1 and 4.1.2; the UN's Acute 2 and 3 only where an ingredient has them. */
function aquatic(ingredients: readonly Ingredient[]): readonly MixtureClass[] {
  const category = (ingredient: Ingredient, hazardClass: string): string | undefined =>
    ingredient.known.classes.find((held) => held.hazardClass === hazardClass)?.category;
  const relevant = (ingredient: Ingredient, hazardClass: string, factor: number): boolean =>
    percentOf(ingredient).gte(category(ingredient, hazardClass) === '1' ? exact('0.1').div(factor) : 1);
  const sumOf = (
    hazardClass: string,
    weights: Readonly<Record<string, number>>,
    factorOf: (known: Known) => number,
  ): { total: Amount; from: string[] } => {
    let total = exact(0);
    const from: string[] = [];
    for (const ingredient of ingredients) {
      const held = category(ingredient, hazardClass);
      const factor = held === '1' ? factorOf(ingredient.known) : 1;
      if (held === undefined || !(held in weights) || !relevant(ingredient, hazardClass, factor)) continue;
      total = total.plus(percentOf(ingredient).times(weights[held]!).times(factor));
      from.push(ingredient.known.name);
    }
    return { total, from };
  };
  const acuteFactor = (known: Known): number => known.multiplyAcute;
  const chronicFactor = (known: Known): number => known.multiplyChronic;
  const found: MixtureClass[] = [];
  const judge = (
    hazardClass: string,
    grade: string,
    code: string,
    weights: Readonly<Record<string, number>>,
    factorOf: (known: Known) => number,
  ): boolean => {
    const { total, from } = sumOf(hazardClass, weights, factorOf);
    if (total.lt(25)) return false;
    found.push({ hazardClass, category: grade, code, from, why: `weighted sum ${roundText(total)} %, limit 25 %` });
    return true;
  };
  judge('Aquatic Acute', '1', 'H400', { 1: 1 }, acuteFactor) ||
    (ingredients.some((one) => category(one, 'Aquatic Acute') === '2') &&
      judge('Aquatic Acute', '2', 'H401', { 1: 10, 2: 1 }, acuteFactor)) ||
    (ingredients.some((one) => ['2', '3'].includes(category(one, 'Aquatic Acute') ?? '')) &&
      judge('Aquatic Acute', '3', 'H402', { 1: 100, 2: 10, 3: 1 }, acuteFactor));
  judge('Aquatic Chronic', '1', 'H410', { 1: 1 }, chronicFactor) ||
    judge('Aquatic Chronic', '2', 'H411', { 1: 10, 2: 1 }, chronicFactor) ||
    judge('Aquatic Chronic', '3', 'H412', { 1: 100, 2: 10, 3: 1 }, chronicFactor) ||
    judge('Aquatic Chronic', '4', 'H413', { 1: 1, 2: 1, 3: 1, 4: 1 }, () => 1);
  return found;
}

const physical = /^(Unst|Expl|Desen|Flam|Pyr|Chem|Aerosol|Self|Org|Water|Ox|Press|Met)/;

/** Physical classes: by specific limits where the entry has them; a few lose their sense in water; else they stay, and that is said. */
function physicalOf(
  ingredient: Ingredient,
  dissolved: boolean,
): { readonly classes: readonly MixtureClass[]; readonly notes: readonly string[] } {
  const { known } = ingredient;
  const percent = percentOf(ingredient);
  const limits = known.limits.filter((limit) => limit.gives && physical.test(limit.gives.hazardClass));
  const rules = mixturePhysicalTable();
  const notes: string[] = [];
  const classes = known.classes
    .filter((held) => physical.test(held.hazardClass))
    .flatMap((held): MixtureClass[] => {
      if (limits.some((limit) => limit.gives!.hazardClass === held.hazardClass)) return [];
      const rule = rules.find(
        (row) => row.class === held.hazardClass && (row.formula === undefined || row.formula === known.formula),
      );
      if (rule && dissolved && (rule.up_to_percent === undefined || percent.lte(rule.up_to_percent))) {
        notes.push(`${known.name}: ${held.code} left off the solution; ${rule.why} (${rule.source}).`);
        return [];
      }
      notes.push(
        `${known.name}: ${held.code || held.hazardClass} kept at ${roundText(percent)} %: no rule here says below what strength it ceases.`,
      );
      return [{ ...held, from: [known.name], why: 'kept: no limit known' }];
    });
  const limited = limits
    .filter((limit) => reaches(percent, limit))
    .map(
      (limit): MixtureClass => ({
        ...limit.gives!,
        from: [known.name],
        why: `${known.name} ${roundText(percent)} %, specific limit ${limit.low} %`,
      }),
    );
  return { classes: [...classes, ...limited], notes };
}

/**
 * Classification of a mixture from its ingredients.
 * @param ingredients percent by weight of the whole; what is missing to 100 % is taken as water or another thing without classes
 * @param dissolved true for one substance dissolved in water
 * @example classifyMixture([{ known: knownOf('nitric acid', rows), percent: '10' }], true).classes // Skin Corr. 1B
 */
export function classifyMixture(
  ingredients: readonly Ingredient[],
  dissolved = ingredients.length === 1,
): MixtureResult {
  const present = ingredients.filter((one) => exact(one.percent).gt(0));
  if (present.length === 1 && exact(present[0]!.percent).gte(100)) return undiluted(present[0]!.known);
  const alone = present.map((ingredient) => ({ ingredient, ...judgedAlone(ingredient) }));
  const bodies = present.map((ingredient) => physicalOf(ingredient, dissolved));
  const sameTogether = (held: readonly MixtureClass[]): readonly MixtureClass[] => {
    const into = new Map<string, MixtureClass>();
    for (const one of held) {
      const key = `${one.hazardClass} ${one.category} ${one.code} ${one.organs ?? ''}`;
      const other = into.get(key);
      into.set(
        key,
        other ? { ...other, from: [...new Set([...other.from, ...one.from])], why: `${other.why}; ${one.why}` } : one,
      );
    }
    return [...into.values()];
  };
  const classes = withoutLesser(
    sameTogether([
      ...bodies.flatMap((body) => body.classes),
      ...acute(present),
      ...summed(present),
      ...alone.flatMap((one) => one.classes),
      ...aquatic(present),
    ]),
  );
  const corrosive = classes.some((held) => held.hazardClass === 'Skin Corr.');
  const notes = [...bodies.flatMap((body) => body.notes)];
  const supplementary = present.flatMap(({ known, percent }) => {
    const limited = known.limits.filter((limit) => !limit.gives);
    const kept = known.supplementary.filter((code) => {
      if (limited.some((limit) => limit.code === code)) return false;
      if (code === 'EUH071' && !corrosive) {
        notes.push(
          `${known.name}: EUH071 goes with what burns the skin, and is left off at ${roundText(exact(percent))} % (from memory).`,
        );
        return false;
      }
      return true;
    });
    return [...kept, ...limited.filter((limit) => reaches(exact(percent), limit)).map((limit) => limit.code)].map(
      (code) => ({ code, from: known.name, why: 'statement of the ingredient' }),
    );
  });
  const sensitisers = alone
    .filter((one) => one.sensitises)
    .map(({ ingredient: { known } }) => ({
      code: 'EUH208',
      from: known.name,
      why: 'a tenth of the limit of a sensitiser (from memory)',
      sensitiser: known.name,
    }));
  return { classes, supplementary: [...supplementary, ...sensitisers], notes };
}
