// The strength of what stands in a bottle: stated in any of the ways of the trade, told by its density or by its name
// alone, and brought into every other term here and nowhere else.
import {
  dividedBy,
  exact,
  minus,
  molarMass,
  plus,
  reading,
  rectangular,
  scaled,
  times,
  waterDensity,
  withoutUncertainty,
  withUncertainty,
  type Decimal,
  type Formula,
  type Quantity,
  type UncertainDecimal,
} from '../chemistry/index.js';
import { bulkDensity } from './bulk-densities.js';
import type { Doubt, NamedStrength, ResolvedStrength, StrengthTerms } from './contracts.js';
import {
  densityRuleOf,
  strengthsAtDensity,
  undilutedDensity,
  type DensityRule,
  type DensityTable,
} from './densities.js';
import { isWater } from './water.js';

/** What is said of a strength, and of what. */
export interface StrengthGiven {
  /** Name of the stuff, shared by all uses of it, to which the uncertainty of its strength belongs. */
  readonly stuff: string;
  readonly formula?: Formula;
  readonly strength?: Quantity;
  readonly purity?: Quantity;
  readonly density?: Quantity;
  /** Told by the name or a word of state, where nothing else tells. */
  readonly named?: NamedStrength;
  /** It is called a solution. */
  readonly dissolved?: boolean;
  /** It is measured by volume; then, or where it is called a solution, a density alone tells a strength. */
  readonly byVolume?: boolean;
  /** A spoon or a cup of it was taken: a powder weighs what it weighs as it is poured. */
  readonly asPoured?: boolean;
  /** What it is called; default: `stuff`. */
  readonly called?: string;
}

/**
 * Water weighs the same everywhere: 0.9991 g/mL at 15 °C to 0.9970 at 25 °C. Source: IAPWS R7-97, as `waterDensity`.
 */
const ofWater = withUncertainty(waterDensity, rectangular('0.001'), 'density:water');

const upper = (quantity: Quantity): Decimal => quantity.high ?? quantity.base.plus(quantity.tolerance ?? 0);
const atMostHundred = (percent: Decimal): Decimal => (percent.gt(100) ? exact(100) : percent);
const densityText = (density: Decimal): string => density.toSignificantDigits(4).toFixed();

/** Half of what a reading may be off, in the base unit. */
function halfReading(quantity: Quantity): Decimal {
  if (quantity.tolerance) return quantity.tolerance;
  const factor = quantity.value.isZero() ? exact(1) : quantity.base.div(quantity.value);
  return quantity.resolution.times(factor).div(2);
}

/** y at x, with the uncertainty that x brings along a line of this slope. */
const along = (x: UncertainDecimal, slope: Decimal, y: Decimal): UncertainDecimal =>
  plus(scaled(minus(x, withoutUncertainty(x.value)), slope), withoutUncertainty(y));

const off = (value: UncertainDecimal, halfWidth: Decimal, input: string): UncertainDecimal =>
  plus(value, withUncertainty('0', rectangular(halfWidth), input));

/**
 * 145/(145 − °Bé) for liquids heavier than water, 140/(130 + °Bé) for lighter ones, at 60 °F; water there is 0.9990
 * g/mL.
 */
const baumeDensity = (degrees: Decimal, lighter: boolean): Decimal | undefined => {
  const below = lighter ? degrees.plus(130) : exact(145).minus(degrees);
  return below.lte(0)
    ? undefined
    : exact(lighter ? 140 : 145)
        .div(below)
        .times('0.9990');
};
/** 1 + 0.005 · °Tw at 60 °F. */
const twaddellDensity = (degrees: Decimal): Decimal => degrees.times('0.005').plus(1).times('0.9990');

/** g of peroxide in a mL that gives one volume of oxygen: 2 · 34.014 g/mol / 22 414 mL/mol (0 °C, 1 atm). */
const gramsPerVolume = exact(2).times('34.014').div('22414');

type Content =
  | { readonly of: 'massFraction' | 'massConcentration' | 'molarConcentration'; readonly value: UncertainDecimal }
  | { readonly of: 'nothing' };

/** A strength as stated, in g per g, g per mL or mol per mL; what is read is of the formula as written. */
function contentOf(strength: Quantity, stuff: string, formula: Formula | undefined): Content {
  const read = reading(strength, `strength:${stuff}`);
  switch (strength.dimension) {
    case 'mass-percent':
      return { of: 'massFraction', value: scaled(read, '0.01') };
    case 'mass-volume-percent':
      return { of: 'massConcentration', value: scaled(read, '0.01') };
    case 'density':
      return { of: 'massConcentration', value: read };
    case 'concentration':
      return { of: 'molarConcentration', value: scaled(read, '0.001') };
    case 'oxygen-volumes':
      return { of: 'massConcentration', value: scaled(read, gramsPerVolume) };
    case 'volume-percent': {
      const pure = formula && undilutedDensity(formula);
      return pure ? { of: 'massConcentration', value: scaled(read, pure.div(100)) } : { of: 'nothing' };
    }
    default:
      return { of: 'nothing' };
  }
}

/** A density that is stated as such, or as a degree. */
function densityGiven({ density, strength, stuff, formula }: StrengthGiven): DensityReading | undefined {
  if (strength && (strength.dimension === 'degrees-baume' || strength.dimension === 'degrees-twaddell')) {
    const half = halfReading(strength);
    const of = (degrees: Decimal): Decimal | undefined =>
      strength.dimension === 'degrees-twaddell' ? twaddellDensity(degrees) : baumeDensity(degrees, isLighter(formula));
    const [middle, end] = [of(strength.base), of(strength.base.plus(half))];
    if (!middle || !end) return undefined;
    const halfWidth = end.minus(middle).abs();
    return {
      value: withUncertainty(middle, rectangular(halfWidth), `density:${stuff}`),
      half: halfWidth,
      written: strength.written,
    };
  }
  return density && density.base.gt(0)
    ? { value: reading(density, `density:${stuff}`), half: halfReading(density), written: density.written }
    : undefined;
}

interface DensityReading {
  readonly value: UncertainDecimal;
  readonly half: Decimal;
  readonly written: string;
}

const isLighter = (formula: Formula | undefined): boolean =>
  formula !== undefined && densityRuleOf(formula).at(exact(10)).density.lt(waterDensity);

interface Filled {
  readonly terms: Omit<ResolvedStrength, 'basis' | 'atMost' | 'doubts' | 'stated'>;
  readonly doubts: readonly Doubt[];
}

const beyondTable = (rule: DensityRule, percent: Decimal): readonly Doubt[] =>
  rule.from === 'table' && percent.gt(rule.upTo)
    ? [
        {
          code: 'beyond-table',
          facts: { percent: percent.toSignificantDigits(3).toFixed(), upTo: rule.upTo.toFixed() },
        },
      ]
    : [];

const densityDoubt = (rule: DensityRule, density: Decimal): Doubt => ({
  code: rule.from === 'table' ? 'density-from-table' : 'density-assumed',
  facts: { density: densityText(density), source: rule.source },
});

/** The density of a solution from its percent by mass, by the table or by what is usual. */
function densityFor(massFraction: UncertainDecimal, rule: DensityRule, stuff: string): UncertainDecimal {
  const percent = scaled(massFraction, rule.dryShare.times(100));
  const { density, rise } = rule.at(percent.value);
  return off(along(percent, rise, density), rule.doubtAt(percent.value), `density of ${stuff} by the table`);
}

/** Percent of the dry solute from what a mL holds, and the density there. */
function fromContent(
  grams: UncertainDecimal,
  rule: DensityRule,
  stuff: string,
): { readonly massFraction: UncertainDecimal; readonly density: UncertainDecimal; readonly percent: Decimal } {
  const percent = rule.percentHolding(grams.value.times(rule.dryShare));
  const { density, rise } = rule.at(percent);
  // w·ρ = c, so dw = dc/(ρ + w·dρ/dw).
  const dried = percent.div(100);
  const slope = exact(1).div(density.plus(dried.times(rise).times(100)));
  const massFraction = along(grams, slope, dried.div(rule.dryShare));
  const rho = off(
    along(massFraction, rise.times(100).times(rule.dryShare), density),
    rule.doubtAt(percent),
    `density of ${stuff} by the table`,
  );
  return { massFraction, density: rho, percent };
}

/** What a content is brought into other terms with. */
interface Conversion {
  readonly perMole?: UncertainDecimal;
  readonly rule?: DensityRule;
  readonly stated?: UncertainDecimal;
  readonly stuff: string;
}

/** A share by mass in every other term, with the density that is stated, or the table's. */
function fillFromShare(massFraction: UncertainDecimal, { perMole, rule, stated, stuff }: Conversion): Filled {
  const own = stated ?? (rule && densityFor(massFraction, rule, stuff));
  const massConcentration = own && times(massFraction, own);
  const percent = rule && massFraction.value.times(rule.dryShare).times(100);
  return {
    terms: {
      massFraction,
      ...(own && { density: own, ...densityOrigin(stated, rule) }),
      ...(massConcentration && { massConcentration }),
      ...(massConcentration && perMole && { molarConcentration: dividedBy(massConcentration, perMole) }),
    },
    doubts: !stated && rule && own ? [densityDoubt(rule, own.value), ...beyondTable(rule, percent!)] : [],
  };
}

/** A content of a volume in every other term; the table tells which density goes with it where none is stated. */
function fillFromVolume(content: Content, { perMole, rule, stated, stuff }: Conversion): Filled {
  const massConcentration = contentByMass(content, perMole);
  const molarConcentration = contentByMole(content, perMole);
  const found = massConcentration && !stated && rule ? fromContent(massConcentration, rule, stuff) : undefined;
  const massFraction = found?.massFraction ?? (massConcentration && stated && dividedBy(massConcentration, stated));
  const density = stated ?? found?.density;
  return {
    terms: {
      ...(massFraction && { massFraction }),
      ...(massConcentration && { massConcentration }),
      ...(molarConcentration && { molarConcentration }),
      ...(density && { density, ...densityOrigin(stated, rule) }),
    },
    doubts: found && rule ? [densityDoubt(rule, found.density.value), ...beyondTable(rule, found.percent)] : [],
  };
}

/** Brings a content into every other term, with the density that is given, or the one that goes with it. */
function fill(content: Content, stated: UncertainDecimal | undefined, given: StrengthGiven, solution: boolean): Filled {
  const { formula, stuff } = given;
  if (content.of === 'nothing') return { terms: stated ? { density: stated, densityFrom: 'stated' } : {}, doubts: [] };
  const mass = formula && molarMass(formula);
  const conversion: Conversion = {
    perMole: mass?.ok && mass.value.middle.value.gt(0) ? mass.value.middle : undefined,
    rule: formula && solution ? densityRuleOf(formula) : undefined,
    stated,
    stuff,
  };
  return content.of === 'massFraction' ? fillFromShare(content.value, conversion) : fillFromVolume(content, conversion);
}

const densityOrigin = (
  stated: UncertainDecimal | undefined,
  rule: DensityRule | undefined,
): Pick<ResolvedStrength, 'densityFrom' | 'densitySource'> =>
  stated || !rule ? { densityFrom: 'stated' } : { densityFrom: rule.from, densitySource: rule.source };

const contentByMass = (content: Content, perMole: UncertainDecimal | undefined): UncertainDecimal | undefined => {
  if (content.of === 'massConcentration') return content.value;
  return content.of === 'molarConcentration' && perMole ? times(content.value, perMole) : undefined;
};
const contentByMole = (content: Content, perMole: UncertainDecimal | undefined): UncertainDecimal | undefined => {
  if (content.of === 'molarConcentration') return content.value;
  return content.of === 'massConcentration' && perMole ? dividedBy(content.value, perMole) : undefined;
};

/** Purity lessens every content alike; it is a share of the stuff that was dissolved. */
const purified = (content: Content, share: UncertainDecimal | undefined): Content =>
  share && content.of !== 'nothing' ? { ...content, value: times(content.value, share) } : content;

const bare = ({ massFraction, massConcentration, molarConcentration, density }: Filled['terms']): StrengthTerms => ({
  ...(massFraction && { massFraction: massFraction.value.gt(1) ? exact(1) : massFraction.value }),
  ...(massConcentration && { massConcentration: massConcentration.value }),
  ...(molarConcentration && { molarConcentration: molarConcentration.value }),
  ...(density && { density: density.value }),
});

/** The same with every stated number at its upper end. */
const upperEnds = (given: StrengthGiven): StrengthGiven => ({
  ...given,
  ...(given.strength && { strength: raised(given.strength) }),
  ...(given.purity && { purity: raised(given.purity) }),
  ...(given.named && { named: { ...given.named, usual: given.named.high } }),
});
const raised = (quantity: Quantity): Quantity => ({
  ...quantity,
  base: quantity.dimension === 'mass-percent' ? atMostHundred(upper(quantity)) : upper(quantity),
});

interface FromDensity {
  readonly percent: Decimal;
  readonly low: Decimal;
  readonly high: Decimal;
  readonly rise: Decimal;
  readonly doubts: readonly Doubt[];
}

/**
 * What a density alone tells; undefined where it is that of no solution, or the substance is no liquid and was
 * weighed.
 */
function strengthByDensity(given: StrengthGiven, density: DensityReading): FromDensity | undefined {
  const { formula, dissolved, byVolume } = given;
  const rule = formula && !isWater(formula) ? densityRuleOf(formula) : undefined;
  if (!rule?.table || (rule.table.undiluted === 'solid' && !dissolved && !byVolume)) return undefined;
  // A table is good to about this much, however finely the density is written.
  const half = density.half.lt('0.0015') ? exact('0.0015') : density.half;
  const found = strengthsAtDensity(rule.table, density.value.value, half);
  if (!found) return undefined;
  const percent = found.undiluted ? exact(100) : found.percents.at(-1)!;
  const { rise } = rule.at(percent);
  const facts = { density: density.written, percent: percent.toSignificantDigits(3).toFixed(), source: rule.source };
  const several = found.percents.length > 1 || (found.undiluted && found.percents.some((one) => one.lt(95)));
  return {
    percent,
    low: found.low,
    high: found.high,
    rise,
    doubts: [
      { code: 'strength-from-density', facts },
      ...(several
        ? [
            {
              code: 'density-fits-two-strengths' as const,
              facts: {
                ...facts,
                percents: found.percents.map((one) => one.toSignificantDigits(3).toFixed()).join(', '),
              },
            },
          ]
        : []),
      ...beyondTable(rule, percent),
    ],
  };
}

/** How far a stated density may lie from the table's before it is doubted, as a share. Common practice, no source. */
const misfit = exact('0.02');
function fitDoubt(given: StrengthGiven, filled: Filled, stated: DensityReading | undefined): readonly Doubt[] {
  const { massFraction } = filled.terms;
  const rule = given.formula && densityRuleOf(given.formula);
  if (!stated || !massFraction || rule?.from !== 'table') return [];
  const percent = massFraction.value.times(rule.dryShare).times(100);
  if (percent.gt(rule.upTo) || percent.gte(100)) return [];
  const { density } = rule.at(percent);
  if (density.minus(stated.value.value).abs().lte(density.times(misfit))) return [];
  const facts = {
    density: stated.written,
    table: densityText(density),
    percent: percent.toSignificantDigits(3).toFixed(),
  };
  return [{ code: 'density-does-not-fit', facts }];
}

/**
 * From this percent on a solid of which no solution is listed is taken to be as good as dry. Common practice, no
 * source.
 */
const asGoodAsDry = 80;
/** How far beyond its last row a table's solutions may reach. */
const stillDissolved = exact('1.2');

/** A percent of something weighed out that no solution of it can have says how pure the solid is: `NaOH 98 %`. */
function isPurity({ formula, purity, dissolved, byVolume, density }: StrengthGiven, strength: Quantity): boolean {
  if (!formula || purity || dissolved || byVolume || density || strength.dimension !== 'mass-percent') return false;
  const { table, dryShare } = densityRuleOf(formula);
  if (!table) return strength.base.gte(asGoodAsDry);
  return (
    table.undiluted === 'solid' && strength.base.times(dryShare).gt(table.points.at(-1)!.percent.times(stillDissolved))
  );
}

/**
 * A strength in every term that can be told: share by mass, g and mol in a mL, density.
 * What is stated goes before what a density tells, that before what the name tells. Nothing said of a solid or a liquid
 * means undiluted; of something that is only sold diluted (hydrochloric acid, ammonia) it means that the strength is
 * not known.
 * @example resolveStrength({ stuff: 'acid', formula: …, strength: … }).massFraction // 0.487 of 10 mol/L nitric acid
 */
export function resolveStrength(given: StrengthGiven): ResolvedStrength {
  if (given.strength && isPurity(given, given.strength))
    return resolveStrength({ ...given, strength: undefined, purity: given.strength });
  const { stuff, formula, strength, purity } = given;
  const share = purity && scaled(reading(purity, `purity:${stuff}`), '0.01');
  const density = densityGiven(given);
  const content = strength ? contentOf(strength, stuff, formula) : ({ of: 'nothing' } as const);
  if (strength && content.of !== 'nothing') {
    const filled = fill(purified(content, share), density?.value, given, true);
    const high = upperEnds(given);
    const most = fill(
      purified(contentOf(high.strength!, stuff, formula), high.purity && scaled(reading(high.purity, ''), '0.01')),
      density?.value,
      given,
      true,
    );
    return {
      basis: 'stated',
      stated: strength,
      ...filled.terms,
      atMost: bare(most.terms),
      doubts: [...filled.doubts, ...fitDoubt(given, filled, density)],
    };
  }
  const degrees = strength?.dimension === 'degrees-baume' || strength?.dimension === 'degrees-twaddell';
  const told = density && strengthByDensity(given, density);
  if (told && density) return tellByDensity(given, told, density, share);
  if (given.named) return tellByName(given, given.named, density, share);
  // A degree is that of a solution; of one that is in no table it tells the density, and nothing more.
  if (degrees) return unknownStrength(given, density?.value);
  return undiluted(given, density, share);
}

function tellByDensity(
  given: StrengthGiven,
  told: FromDensity,
  density: DensityReading,
  purity: UncertainDecimal | undefined,
): ResolvedStrength {
  const { dryShare } = densityRuleOf(given.formula!);
  const share = told.percent.div(100).div(dryShare);
  const halfWidth = told.high.minus(told.percent).abs().div(100).div(dryShare);
  const massFraction = withUncertainty(share, rectangular(halfWidth), `strength:${given.stuff}`);
  const content: Content = { of: 'massFraction', value: massFraction };
  const filled = fill(purified(content, purity), density.value, given, true);
  const most = fill(
    { of: 'massFraction', value: withoutUncertainty(told.high.div(100).div(dryShare)) },
    density.value,
    given,
    true,
  );
  return {
    basis: 'density',
    ...(given.strength && { stated: given.strength }),
    ...filled.terms,
    atMost: bare(most.terms),
    doubts: told.doubts,
  };
}

function tellByName(
  given: StrengthGiven,
  named: NamedStrength,
  density: DensityReading | undefined,
  purity: UncertainDecimal | undefined,
): ResolvedStrength {
  const half = named.high.minus(named.low).div(2).div(100);
  const usual = withUncertainty(named.usual.div(100), rectangular(half), `strength:${given.stuff}`);
  const printed = named.density && off(withoutUncertainty(named.density), exact('0.01'), `density:${given.stuff}`);
  const own = density?.value ?? printed;
  const filled = fill(purified({ of: 'massFraction', value: usual }, purity), own, given, true);
  const most = fill(
    { of: 'massFraction', value: withoutUncertainty(named.high.div(100)) },
    density?.value,
    given,
    true,
  );
  const facts = {
    name: named.name,
    percent: named.usual.toFixed(),
    low: named.low.toFixed(),
    high: named.high.toFixed(),
    source: named.source,
    ...(named.note && { note: named.note }),
  };
  return {
    basis: 'name',
    ...filled.terms,
    ...(printed && !density && { densityFrom: 'product', densitySource: named.source }),
    atMost: bare(most.terms),
    doubts: [{ code: 'strength-from-name', facts }, ...filled.doubts],
  };
}

/** Something of the table that nobody meets undiluted, and of which neither a purity nor a density is said. */
const isOnlySoldDiluted = (given: StrengthGiven, table: DensityTable | undefined): table is DensityTable =>
  table !== undefined && table.undiluted !== 'solid' && !given.purity && !given.density;

/** Nothing is said: the stuff is the substance, as far as its purity goes. */
function undiluted(
  given: StrengthGiven,
  density: DensityReading | undefined,
  purity: UncertainDecimal | undefined,
): ResolvedStrength {
  const { formula } = given;
  if (formula && isWater(formula) && !density) return asWater(given, purity);
  if (given.dissolved && !given.purity) return unknownStrength(given, density?.value);
  const bulk = density ? undefined : bulkOf(given);
  const own = density?.value ?? bulk?.density;
  const table = formula && !isWater(formula) ? densityRuleOf(formula).table : undefined;
  const share = (value: UncertainDecimal): Filled['terms'] =>
    fill({ of: 'massFraction', value }, own, given, false).terms;
  const terms = share(purity ?? withoutUncertainty(1));
  if (isOnlySoldDiluted(given, table))
    return {
      basis: 'not-given',
      ...terms,
      atMost: strongestOf(table.points.at(-1)!, formula!),
      doubts: [{ code: 'strength-not-given', facts: { upTo: '100' } }],
    };
  const most = given.purity ? atMostHundred(upper(given.purity)).div(100) : exact(1);
  if (bulk) {
    const { row } = bulk;
    const facts = { low: row.low.toFixed(), usual: row.usual.toFixed(), high: row.high.toFixed(), source: row.source };
    return {
      basis: 'undiluted',
      ...terms,
      densityFrom: 'bulk',
      densitySource: row.source,
      atMost: { massFraction: most, density: row.high },
      doubts: [{ code: 'bulk-density', facts }],
    };
  }
  return {
    basis: 'undiluted',
    ...terms,
    // At most as heavy as its heaviest solution, where nothing says what it weighs.
    atMost: { density: heaviestOf(table), ...bare(share(withoutUncertainty(most))) },
    doubts: [],
  };
}

/** What a powder measured by volume weighs as it is poured. */
function bulkOf({ formula, asPoured, stuff, called = stuff }: StrengthGiven) {
  const row = asPoured ? bulkDensity(formula, called) : undefined;
  if (!row) return undefined;
  const half = row.high.minus(row.low).div(2);
  return { row, density: withUncertainty(row.usual, rectangular(half), `bulk density of ${stuff}`) };
}

const heaviestOf = (table: DensityTable | undefined): Decimal | undefined =>
  table?.points.map(({ density }) => density).reduce((a, b) => (a.gt(b) ? a : b));

/** Water, which weighs the same everywhere. */
function asWater(given: StrengthGiven, purity: UncertainDecimal | undefined): ResolvedStrength {
  const { terms } = fill({ of: 'massFraction', value: purity ?? withoutUncertainty(1) }, ofWater, given, false);
  return {
    basis: 'undiluted',
    ...terms,
    densityFrom: 'water',
    densitySource: 'IAPWS R7-97',
    atMost: bare(terms),
    doubts: [],
  };
}

/** A solution of which nothing more is said: at most all of it is the substance. */
function unknownStrength({ formula }: StrengthGiven, density: UncertainDecimal | undefined): ResolvedStrength {
  const last = formula && densityRuleOf(formula).table?.points.at(-1);
  return {
    basis: 'not-given',
    ...(density && { density, densityFrom: 'stated' }),
    atMost: last ? strongestOf(last, formula) : { massFraction: exact(1) },
    doubts: [{ code: 'strength-not-given', facts: { upTo: '100' } }],
  };
}

/** The strongest solution that a table goes to, as a bound for a liquid of which no strength is said. */
function strongestOf(
  { percent, density }: { readonly percent: Decimal; readonly density: Decimal },
  formula: Formula,
): StrengthTerms {
  const { dryShare } = densityRuleOf(formula);
  const mass = molarMass(formula);
  const share = percent.div(100).div(dryShare);
  const massConcentration = share.times(density);
  return {
    massFraction: exact(1),
    massConcentration,
    density,
    ...(mass.ok && { molarConcentration: massConcentration.div(mass.value.middle.value) }),
  };
}
