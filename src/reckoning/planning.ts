// What a list asks of the bench: whether the water takes what is to be dissolved, how much liquor there is,
// and how large the vessel must be.
import { exact, molarMass, solubilityOf, withoutWater, type Decimal, type Equation } from '../chemistry/index.js';
import { gases } from '../hazards/foresee/gases.js';
import { isWater } from '../reagents/index.js';
import type { WeighedLine } from './weighing.js';

/** Something of which there is more than the water takes. */
export interface TooMuch {
  readonly name: string;
  /** g without its water of crystallisation, and what the water that is there takes. */
  readonly grams: Decimal;
  readonly takes: Decimal;
  readonly at: 20;
  readonly source: string;
}

/** Room that a list takes. */
export interface Room {
  /** mL of liquids and solids together. */
  readonly volume: Decimal;
  /** mL that the vessel holds at least. */
  readonly vessel: Decimal;
  readonly froths: boolean;
}

export interface Plan {
  readonly tooMuch: readonly TooMuch[];
  readonly room?: Room;
}

const isLiquidWater = ({ taken }: WeighedLine): boolean => taken.formula !== undefined && isWater(taken.formula);

const isSolution = ({ taken: { strength } }: WeighedLine): boolean =>
  strength.basis !== 'undiluted' && strength.basis !== 'not-given';

/** g of a substance without its water of crystallisation. */
function dryGrams({ taken: { formula, substance } }: WeighedLine): Decimal | undefined {
  const dry = formula && molarMass(withoutWater(formula) ?? formula);
  return substance && dry?.ok ? substance.value.times(dry.value.middle.value) : undefined;
}

/** g of water that stands ready, that of the crystals included. */
function waterOf(lines: readonly WeighedLine[]): Decimal {
  return lines.reduce((total, line) => {
    if (isLiquidWater(line)) return total.plus(line.taken.mass?.value ?? 0);
    const [pure, dry] = [line.taken.pure?.value, dryGrams(line)];
    return pure && dry ? total.plus(pure.minus(dry)) : total;
  }, exact(0));
}

function tooMuchFor(line: WeighedLine, water: Decimal): readonly TooMuch[] {
  const { formula, name } = line.taken;
  const known = formula && !isLiquidWater(line) && !isSolution(line) ? solubilityOf(formula) : undefined;
  const grams = known && dryGrams(line);
  if (!known || !grams) return [];
  const takes = known.grams.times(water).div(100);
  // What hardly dissolves at all is not meant to.
  return known.grams.lt(1) || grams.lte(takes) ? [] : [{ name, grams, takes, at: known.at, source: known.source }];
}

/** g/mL of a heap of solid under liquor, where nothing is said. Common practice, no source. */
const solidDensity = 2;
/** A vessel holds twice its contents, four times where gas froths them up. Common practice, no source. */
const [ordinary, frothing] = [2, 4];

function roomOf(lines: readonly WeighedLine[], { products }: Equation): Room | undefined {
  const liquids = lines.filter((line) => isLiquidWater(line) || isSolution(line));
  if (liquids.length === 0) return undefined;
  const volumes = lines.map(({ taken }) => taken.volume?.value ?? taken.mass?.value.div(solidDensity));
  const volume = volumes.reduce<Decimal>((total, one) => total.plus(one ?? 0), exact(0));
  const froths = products.some(
    ({ label, formula }) => formula.state === 'g' || (gases().has(label) && label !== 'H2O'),
  );
  return { volume, vessel: volume.times(froths ? frothing : ordinary), froths };
}

/** What a weighing list asks of water and vessel. */
export function planOf(lines: readonly WeighedLine[], equation: Equation): Plan {
  const water = waterOf(lines);
  const tooMuch = lines.some(isLiquidWater) ? lines.flatMap((line) => tooMuchFor(line, water)) : [];
  const room = roomOf(lines, equation);
  return { tooMuch, ...(room && { room }) };
}

const rounded = (value: Decimal): string => value.toSignificantDigits(2).toFixed();

/** The plan in sentences. */
export function planWords({ tooMuch, room }: Plan): readonly string[] {
  return [
    ...tooMuch.map(
      ({ name, grams, takes, at, source }) =>
        `${name}: ${rounded(grams)} g (without crystal water) are more than the water will take at ${at} °C, about ` +
        `${rounded(takes)} g (${source}). Take more water, or warm it.`,
    ),
    ...(room
      ? [
          `About ${rounded(room.volume)} mL together: a vessel of at least ${rounded(room.vessel)} mL` +
            `${room.froths ? ', since gas froths it up' : ''}.`,
        ]
      : []),
  ];
}
