// What a list asks of the bench: whether the water takes what is to be dissolved, how much liquor there is,
// and how large the vessel must be.
import { exact, molarMass, solubilityOf, withoutWater, type Decimal, type Equation } from '../../chemistry/index.js';
import { parseQuantity } from '../../chemistry/quantity/index.js';
import { gases } from '../../hazards/foresee/gases.js';
import type { Entry } from '../../journal/entry.js';
import { isWater } from '../../reagents/index.js';
import type { WeighedLine } from './weighing.js';
import { wordsOfStep } from '../steps.js';

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

function roomOf(lines: readonly WeighedLine[], { products }: Equation, poured: Decimal): Room | undefined {
  const liquids = lines.filter((line) => isLiquidWater(line) || isSolution(line));
  if (liquids.length === 0 && poured.lte(0)) return undefined;
  const volumes = lines.map(({ taken }) => taken.volume?.value ?? taken.mass?.value.div(solidDensity));
  const volume = volumes.reduce<Decimal>((total, one) => total.plus(one ?? 0), poured);
  const froths = products.some(
    ({ label, formula }) => formula.state === 'g' || (gases().has(label) && label !== 'H2O'),
  );
  return { volume, vessel: volume.times(froths ? frothing : ordinary), froths };
}

/** Water of which nobody said how much: what the reaction needs of it says nothing of what it was poured in. */
const isUntoldWater = (line: WeighedLine): boolean =>
  isLiquidWater(line) && (line.filledIn || line.taken.mass === undefined);

/** What a weighing list asks of water and vessel. @param told mL of water that steps pour in */
export function planOf(lines: readonly WeighedLine[], equation: Equation, told: Decimal = exact(0)): Plan {
  if (told.isZero() && lines.some(isUntoldWater)) return { tooMuch: [] };
  // What the steps pour in may be the water of the list.
  const listed = lines.filter(isLiquidWater).reduce((total, { taken }) => total.plus(taken.mass?.value ?? 0), exact(0));
  const poured = told.gt(listed) ? told.minus(listed) : exact(0);
  const water = waterOf(lines).plus(poured);
  const isWet = lines.some(isLiquidWater) || poured.gt(0);
  const tooMuch = isWet ? lines.flatMap((line) => tooMuchFor(line, water)) : [];
  const room = roomOf(lines, equation, poured);
  return { tooMuch, ...(room && { room }) };
}

const waterBehind =
  /(?<![a-zß-ɏ\d.,])(\d+(?:[.,]\d+)?\s?(?:m[lL]|c[lL]|d[lL]|[lL]|litres?|liters?|litros?|Liter))\s+(?:(?:of|de|d['’])\s*)?(?:[a-zß-ɏ]+\s+){0,2}?(?:water|Wasser|eau|agua)(?![a-zß-ɏ])/giu;
const waterBefore =
  /(?<![a-zß-ɏ])(?:water|Wasser|eau|agua)\s*[,(:]?\s*(\d+(?:[.,]\d+)?\s?(?:m[lL]|c[lL]|d[lL]|[lL]|litres?|liters?|litros?|Liter))(?![a-zß-ɏ])/giu;
/** From here on the pot is parted, and water is poured on what was filtered off; water of a bath is in no pot. */
const isParted = /\b(?:filt|wash|rins|decant|strain|siphon|gewasch|wasch|dekant|abfiltr|lav[ée]|enjuag)/iu;
const isBath = /\b(?:bath|Wasserbad|bain|baño)/iu;

/** mL of water that the steps of an entry pour together before anything is filtered off or washed. */
export function waterOfSteps({ steps = [] }: Pick<Entry, 'steps'>, sample?: string): Decimal {
  let total = exact(0);
  for (const step of steps) {
    const words = wordsOfStep(step);
    if (isParted.test(words)) break;
    if (isBath.test(words) || (typeof step === 'object' && step.sample !== undefined && step.sample !== sample))
      continue;
    for (const [, volume = ''] of [...words.matchAll(waterBehind), ...words.matchAll(waterBefore)]) {
      const read = parseQuantity(volume.replace(',', '.').replace(/(?:litr|liter|lit)[a-zß-ɏ]*$/iu, 'L'));
      if (read.ok && read.value.dimension === 'volume') total = total.plus(read.value.base);
    }
  }
  return total;
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
