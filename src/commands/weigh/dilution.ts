// Making up and diluting: stock, water, what is made, and the order in which it is poured.
import {
  molarMass,
  parseQuantity,
  reading,
  solubilityOf,
  standardUncertainty,
  withoutWater,
  type Decimal,
  type Formula,
  type Quantity,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import {
  assumptionsOf,
  dilute,
  doubtSentence,
  readReagentText,
  withPlainPoints,
  resolveNamed,
  resolveReagent,
  resolveStrength,
  termsOf,
  type Cupboard,
  type Dilution,
  type ReagentWritten,
  type ResolvedReagent,
  type ResolvedStrength,
  type StrengthGiven,
  type StrengthTerms,
} from '../../reagents/index.js';
import { WrongUse } from '../command.js';
import { about, decimal, refuse, type Answer, type JsonQuantity, type Weighed } from './answer.js';
import { dangerLines, jsonDangers, type DangersShown } from './foreseen.js';
import { sure } from './options.js';

const strengthWords = ({ massFraction, molarConcentration, massConcentration }: StrengthTerms): string =>
  [
    massFraction && `${massFraction.times(100).toSignificantDigits(4).toFixed()} % by mass`,
    molarConcentration && `${molarConcentration.times(1000).toSignificantDigits(4).toFixed()} mol/L`,
    !massFraction &&
      !molarConcentration &&
      massConcentration &&
      `${massConcentration.times(100).toSignificantDigits(4).toFixed()} % w/v`,
  ]
    .filter(Boolean)
    .join(', ');

const inGramsOrMillilitres = (quantity: Quantity, option: string): { mass?: Decimal; volume?: Decimal } => {
  if (quantity.dimension === 'mass') return { mass: quantity.base };
  if (quantity.dimension === 'volume') return { volume: quantity.base };
  throw new WrongUse(`--${option} takes a mass or a volume, like "100 mL".`);
};

/** What is said of a solute by itself, by its formula. */
const cautionsOf: Readonly<Record<string, string>> = {
  NH3:
    'Ammonia gas leaves it: open the stock cold, outdoors or under extraction, goggles and gloves on, ' +
    'and pour it into cold water.',
  H2O2:
    'Peroxide is poured into clean cold water, never with metal or dirt in it, and is never kept in a bottle that is ' +
    'shut tight. Goggles and gloves on.',
};

/** The way in which it is poured, where that matters. */
function pouring(order: Dilution['order'], name: string, known: boolean, dry: string): string | undefined {
  const own = cautionsOf[dry];
  if (own !== undefined) return own;
  if (order === 'acid-into-water')
    return (
      'Pour the acid into the water, slowly and stirring, never water into the acid: it heats and may spit. ' +
      'Goggles and gloves on.'
    );
  if (order === 'base-into-water')
    return (
      'Add the alkali to the water, slowly and stirring, never water to the alkali: it heats and may spit. ' +
      'Goggles and gloves on.'
    );
  return known
    ? undefined
    : `Nothing here says what ${name} is made of: add it to the water, slowly and stirring, not the other way round, ` +
        'and read its safety data sheet first.';
}

const strengthSaid = ({ strength, density, purity }: ReagentWritten): Partial<StrengthGiven> => ({
  strength,
  density,
  purity,
});

/** What had to be assumed of what is made; the density of something filled up to a mark plays no part. */
const madeAssumptions = (wanted: ResolvedStrength | undefined, make: Quantity | undefined): readonly string[] =>
  !wanted || make?.dimension !== 'volume' || termsOf(wanted).byVolume
    ? []
    : wanted.doubts.map((doubt) => `Of what is made: ${doubtSentence(doubt)}`);

/** Mass and volume of one part of a dilution. */
interface Part {
  readonly mass?: Decimal;
  readonly volume?: Decimal;
}

const jsonPart = ({ mass, volume }: Part): Record<string, JsonQuantity> => ({
  ...(mass && { mass: { value: decimal(mass), unit: 'g' } }),
  ...(volume && { volume: { value: decimal(volume), unit: 'mL' } }),
});

const partWords = ({ mass, volume }: Part): string =>
  [volume && `${volume.toSignificantDigits(4).toFixed()} mL`, mass && `${mass.toSignificantDigits(4).toFixed()} g`]
    .filter(Boolean)
    .join(' or ');

const jsonStrength = ({ massFraction, massConcentration, molarConcentration }: StrengthTerms) => ({
  ...(massFraction && { massPercent: decimal(massFraction.times(100)) }),
  ...(massConcentration && { massVolumePercent: decimal(massConcentration.times(100)) }),
  ...(molarConcentration && { concentration: { value: decimal(molarConcentration.times(1000)), unit: 'mol/L' } }),
});

/** The density that was reckoned with, for JSON: where it comes from, and at what heat it holds. */
function jsonDensity(wanted: ResolvedStrength | undefined): Record<string, unknown> {
  const { density, densityFrom, densitySource } = wanted ?? {};
  if (!density) return {};
  const source = densitySource ?? (densityFrom === 'stated' ? 'as stated' : `reckoned (${densityFrom ?? 'unknown'})`);
  return { density: { value: decimal(density.value), unit: 'g/mL', source, at: '20 °C' } };
}

/** What can be foreseen of stock and water together. */
async function dangersOf(stock: ResolvedReagent): Promise<DangersShown> {
  const { foresee } = await import('../../hazards/foresee/foresee.js');
  const water = resolveNamed('water', 'H2O');
  const { foreseen, unknown, taken } = foresee({ ingredients: [{ reagent: stock }, { reagent: water }] });
  return { foreseen, unknown, taken };
}

interface DilutionShown {
  readonly dangers: DangersShown;
  readonly before: readonly string[];
  readonly name: string;
  readonly made: Dilution;
  readonly wanted: ResolvedStrength | undefined;
  readonly pour: string | undefined;
  readonly steps: readonly string[];
  readonly assumed: readonly string[];
  /** Of the strength of what is made, percent of it (k = 2). */
  readonly uncertain: number;
}

function answerOf(shown: DilutionShown): Answer {
  const { name, made, wanted, pour, steps, assumed, uncertain, dangers, before } = shown;
  const strength = strengthWords(made.strength);
  const ofStrength = strength === '' ? '' : ` of ${strength}, ± ${uncertain.toPrecision(2)} % of that`;
  const water = partWords(made.water);
  return {
    json: {
      stock: { name, ...jsonPart(made.stock) },
      water: jsonPart(made.water),
      makes: {
        ...jsonPart(made.made),
        ...jsonStrength(made.strength),
        ...jsonDensity(wanted),
        strengthUncertaintyPercent: uncertain.toPrecision(2),
      },
      steps,
      order: made.order,
      ...(pour && { caution: pour }),
      ...(assumed.length > 0 && { remarks: assumed }),
      ...jsonDangers(dangers),
    },
    text: `${[
      ...before,
      '',
      `${name}: ${partWords(made.stock)} of stock`,
      ...(water === '' ? [] : [`Water: ${water}`]),
      `Makes ${partWords(made.made)}${ofStrength}`,
      ...steps,
      ...(pour ? ['', pour] : []),
      ...(assumed.length > 0 ? ['', ...assumed] : []),
    ].join('\n')}\n`,
  };
}

/** Solutes with cautions of their own, by their atoms. */
const solutes: Readonly<Record<string, string>> = { H3N: 'NH3', H2O2: 'H2O2' };

/** The density of what is made was not known, and so not reckoned with. */
const densityNotUsed = (wanted: ResolvedStrength | undefined, { made, water }: Dilution): readonly string[] =>
  wanted?.density === undefined && made.volume && !water.mass
    ? ['The density of what is made is not known and was not reckoned with: fill up to the mark.']
    : [];

/** Whether cold water takes so much of a solid. */
function beyondSaturation(formula: Formula | undefined, { stock, water }: Dilution): readonly string[] {
  const known = formula && solubilityOf(formula);
  const [whole, dry] = [formula, formula && (withoutWater(formula) ?? formula)].map((one) => one && molarMass(one));
  if (!known || !stock.mass || !water.mass || !whole?.ok || !dry?.ok) return [];
  const solute = stock.mass.times(dry.value.middle.value).div(whole.value.middle.value);
  const liquid = water.mass.plus(stock.mass.minus(solute));
  const takes = liquid.times(known.grams).div(100);
  if (solute.lte(takes)) return [];
  return [
    `That is more than the water will take at ${known.at} °C: ${solute.toSignificantDigits(3).toFixed()} g without ` +
      `crystal water, where it takes ${takes.toSignificantDigits(3).toFixed()} g (${known.source}).`,
  ];
}

const isSolid = ({ portion, strength }: ResolvedReagent): boolean =>
  strength.basis === 'undiluted' && portion.density === undefined && strength.densityFrom === undefined;

/**
 * The water that is there first, in mL: seven tenths of the vessel; where the stock takes so much of the vessel that
 * the mark would be passed, seven tenths of the water that goes in at all.
 */
function waterFirst({ made, water, stock }: Dilution, solid: boolean): string {
  const vessel = made.volume!;
  const missing = solid || !stock.volume ? vessel : (water.volume ?? vessel.minus(stock.volume));
  const usual = vessel.times('0.7').toSignificantDigits(1);
  return (usual.lte(missing.times('0.9')) ? usual : missing.times('0.7').toSignificantDigits(1)).toFixed();
}

/** How it is made up: what is dissolved warms or cools, and a mark is for 20 °C. */
function stepsFor(stock: ResolvedReagent, dilution: Dilution): readonly string[] {
  const { made, order } = dilution;
  if (!made.volume) return [];
  const about = waterFirst(dilution, isSolid(stock));
  const doing = isSolid(stock) ? 'Dissolve it in' : 'Pour it into';
  const heats = order === 'none' ? '' : ', stirring';
  return [`${doing} about ${about} mL of water${heats}; let it cool to 20 °C; then fill up to the mark.`];
}

/** A quantity whose ± stands beside it. */
const hasOwnUncertainty = ({ tolerance, standardUncertainty: own }: Quantity): boolean =>
  (tolerance ?? own) !== undefined;

/**
 * Whether a stock's strength is what it was made to be (`1 mol/L`), and not what was found: in so many digits that half
 * of the last one would be a tenth of it and more, its digits are no measurement.
 */
function isNominal({ strength: { stated } }: ResolvedReagent): boolean {
  if (!stated || hasOwnUncertainty(stated) || stated.rough || stated.value.isZero()) return false;
  return stated.resolution.div(2).div(stated.value).gte('0.1');
}

const nominalWords = (stock: ResolvedReagent): readonly string[] =>
  isNominal(stock)
    ? [`The stock’s ${stock.strength.stated!.written} is taken as what it was made to be; its digits count as no ±.`]
    : [];

/** The content in the terms in which it was stated: what was reckoned from it has a density's doubts besides. */
const contentOf = ({ stated, massFraction, molarConcentration, massConcentration }: ResolvedStrength) =>
  (stated?.dimension === 'concentration' ? molarConcentration : undefined) ??
  massFraction ??
  molarConcentration ??
  massConcentration;

/** Percent of the strength that it may be off by: the stock’s strength, its weighing, and the mark (k = 2). */
function uncertaintyPercent(from: ResolvedReagent, { stock }: Dilution, make: Quantity | undefined): number {
  const of = (value: UncertainDecimal | undefined): number =>
    value && !value.value.isZero() ? standardUncertainty(value).div(value.value).toNumber() : 0;
  const read = (half: number, value: Decimal | undefined): number =>
    value?.gt(0) ? half / Math.sqrt(3) / value.toNumber() : 0;
  const { strength } = from;
  const content = isNominal(from) ? 0 : of(contentOf(strength));
  const measured = stock.mass && !strength.stated ? read(0.005, stock.mass) : read(0.05, stock.volume ?? stock.mass);
  // How much is to be made is an aim: it is filled up to a mark, whatever digits it is written with.
  const mark = make && hasOwnUncertainty(make) && !make.value.isZero() ? of(reading(make, 'mark')) : 0;
  return 200 * Math.hypot(content, measured, mark);
}

/** What is asked of a dilution, as it was written. */
export interface DilutionText {
  readonly stock: string;
  readonly to?: string;
  readonly make?: string;
}

/** Reckons a dilution. */
export async function weighDilution(
  asked: DilutionText,
  cupboardFor: (names: readonly string[]) => Promise<Cupboard>,
): Promise<Weighed<Answer>> {
  const read = readReagentText(withPlainPoints(asked.stock));
  if (!read.ok) return refuse(read.fault, asked.stock);
  const stock = resolveReagent(read.value, await cupboardFor([read.value.name]));
  const { formula, amount } = stock.portion;
  const to = asked.to === undefined ? undefined : readReagentText(withPlainPoints(`wanted ${asked.to}`));
  if (to && !to.ok) return refuse(to.fault, asked.to!);
  const make = asked.make === undefined ? undefined : sure(parseQuantity(withPlainPoints(asked.make)), 'make');
  const wanted = to && resolveStrength({ ...strengthSaid(to.value), stuff: 'made', formula, dissolved: true });
  const made = about(
    dilute({
      formula,
      stock: termsOf(stock.strength),
      ...(amount && { have: inGramsOrMillilitres(amount, 'dilute') }),
      ...(wanted && { to: termsOf(wanted) }),
      ...(make && { make: inGramsOrMillilitres(make, 'make') }),
    }),
    asked.stock,
  );
  if (!made.ok) return made;
  const assumed = [
    ...assumptionsOf(stock),
    ...madeAssumptions(wanted, make),
    ...made.value.assumed,
    ...densityNotUsed(wanted, made.value),
    ...beyondSaturation(formula, made.value),
    ...nominalWords(stock),
  ];
  const dry = stock.substance?.constituents.dry ?? '';
  const pour = pouring(made.value.order, stock.name, formula !== undefined, solutes[dry] ?? '');
  const dangers = await dangersOf(stock);
  const shown = {
    dangers,
    before: await dangerLines(dangers),
    name: stock.name,
    made: made.value,
    wanted,
    pour,
    steps: make?.dimension === 'volume' ? stepsFor(stock, made.value) : [],
    assumed,
    uncertain: uncertaintyPercent(stock, made.value, make),
  };
  return { ok: true, value: answerOf(shown) };
}
