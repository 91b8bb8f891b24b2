// What was done with a product, in sentences: for pages and for the command line.
import { exact, withMinus, type Decimal } from '../../chemistry/index.js';
import type {
  AssayedFigure,
  DryBasis,
  HeatedPast,
  HeldWater,
  IgnitionReckoning,
  SaltLeft,
  TreatmentReckoning,
  WashingReckoning,
} from './treatment-contracts.js';

/** A percentage for a reader: two significant digits. */
function percentWords(percent: string): string {
  const value = Number(percent);
  return value !== 0 && value < 0.01 ? 'under 0.01 %' : `${Number(value.toPrecision(2))} %`;
}

const andBetween = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)!}`;

/** Less than this is not told as a number, mg; from a thousand times as much on it is told in grams. */
const leastTold = exact('0.01');

/** The most of a salt that there may be, mg. */
const milligrams = ({ mass }: SaltLeft): Decimal => exact(mass.within?.high ?? mass.value).times(1000);

/** A mass for a reader: at best, if each wash mixes fully, it is known to two digits. */
function saltMass({ mass }: SaltLeft, mg: Decimal): string {
  if (mass.within) return mg.gte(1) ? mass.text : `0 to ${mg.toSignificantDigits(2).toFixed()} mg`;
  const [shown, unit] = mg.gte(1) ? [exact(mass.value), 'g'] : [mg, 'mg'];
  return `${shown.toSignificantDigits(2).toFixed()} ${unit}`;
}

/** `0.020 g Na2SO4 (freed, 0.9 % of what was obtained)` */
function saltWords(salt: SaltLeft, mg: Decimal, of: string): string {
  const { formula, from, percent, mass } = salt;
  const share = percent === undefined || mass.within ? '' : `, ${percentWords(percent)} of ${of}`;
  return `${saltMass(salt, mg)} ${formula} (${from === 'freed' ? 'freed' : 'left over'}${share})`;
}

/** `At best, if each wash mixes fully, washing leaves 0.02 g Na2SO4 …` */
export function washingWords(washing: WashingReckoning): readonly string[] {
  const { salts, percentOf, volume, metals = [] } = washing;
  const liquid = `The washes come to ${volume.text}`;
  const carried = metals.map(({ name, mass }) => `${mass.text} of ${name}`);
  const waste = carried.length > 0 ? `${liquid} and carry off ${andBetween(carried)}.` : `${liquid}.`;
  if (salts.length === 0)
    return ['What washing leaves is not known: nothing here tells which salts there were.', waste];
  const of = percentOf === 'obtained' ? 'what was obtained' : 'the theoretical yield';
  const each: string[] = [];
  const traces: string[] = [];
  for (const salt of salts) {
    const mg = milligrams(salt);
    if (mg.gte(leastTold)) each.push(saltWords(salt, mg, of));
    else traces.push(salt.formula);
  }
  if (traces.length > 0) each.push(`under ${leastTold.toFixed()} mg of ${traces.join(', ')}`);
  return [`At best, if each wash mixes fully, washing leaves ${andBetween(each)}.`, waste];
}

/** Molecules with their ±; from nothing on where weighing cannot tell them from nothing. */
function moleculesWords({ value, uncertainty: expanded }: NonNullable<IgnitionReckoning['waterHeld']>): string {
  const [molecules, uncertainty] = [Number(value), Number(expanded)];
  const places = uncertainty > 0 && uncertainty < 0.095 ? 2 : 1;
  if (Math.abs(molecules) <= uncertainty) return `0 to ${(molecules + uncertainty).toFixed(places)}`;
  return `${withMinus(molecules.toFixed(places))} ± ${uncertainty.toFixed(places)}`;
}

const onePlace = (percent: string): string => `${withMinus(Number(percent).toFixed(1))} %`;

function ignitionWords(ignition: IgnitionReckoning): string {
  const { lossPercent, waterPerFormula, residue, to, ownLossPercent, waterHeld, of, notKnownOf } = ignition;
  const at = to === undefined ? '' : ` at ${to}`;
  const loss = `Ignition${at} took ${onePlace(lossPercent)}`;
  const { reactionLossPercent } = ignition;
  if (reactionLossPercent !== undefined)
    return `${loss} of what went in; the reaction takes ${onePlace(reactionLossPercent)} of it.`;
  if (notKnownOf !== undefined)
    return `${loss}. Nothing here says what that leaves of ${notKnownOf}, so that its water is not reckoned.`;
  if (ownLossPercent !== undefined && waterHeld)
    return (
      `${loss}; ${of} loses ${onePlace(ownLossPercent)} of its own when ${residue} is left. ` +
      `Beside that each ${of} had held ${moleculesWords(waterHeld)} H2O, as if the rest was water.`
    );
  if (!waterPerFormula || residue === undefined) return `${loss}.`;
  return `${loss}: ${moleculesWords(waterPerFormula)} H2O for each ${residue}, as if all of it was water.`;
}

function heldWords({ name, low, high, condition, finding, source }: HeldWater): string {
  const between = low === high ? low : `${low} to ${high}`;
  const holds = low === undefined ? 'holds water' : `is known to hold ${between} H2O`;
  const found = finding === undefined ? '' : `; ${finding}`;
  const subject = `${name.charAt(0).toUpperCase()}${name.slice(1)}`;
  return `${subject} ${holds} that the formula does not say (${condition}${found}; ${source}).`;
}

/**
 * What the yields would be with the water that products are known to hold, all samples in one sentence.
 * @example heldYieldWords([{ sample: 'A', heldWater }]) // ['With that water the yield would be about 68 to 74 %.']
 */
export function heldYieldWords(
  samples: readonly { readonly sample: string; readonly heldWater?: HeldWater }[],
): readonly string[] {
  const known = samples.flatMap(({ sample, heldWater }) => {
    const { low, high } = heldWater?.yieldIfSo ?? {};
    if (low === undefined || high === undefined) return [];
    const percents = new Set([low, high].map((one) => Number(one).toFixed(0)));
    return [{ sample, text: `${[...percents].join(' to ')} %` }];
  });
  const [first] = known;
  if (!first) return [];
  if (samples.length === 1) return [`With that water the yield would be about ${first.text}.`];
  return [`With that water the yield would be about ${known.map((one) => `${one.sample} ${one.text}`).join(', ')}.`];
}

/** What a sample is reckoned as that got hotter than it stands; of what is only on its way a yield's absence tells. */
export function heatedWords({ written, at, left, goneBy, going, source }: HeatedPast): readonly string[] {
  if (left === undefined) return [];
  const how = [going || goneBy === undefined ? undefined : `by ${goneBy} °C`, source].filter(
    (one) => one !== undefined,
  );
  const known = how.length > 0 ? ` (${how.join('; ')})` : '';
  return [`At ${at} ${written} has turned into ${left}${known}: it is reckoned as ${left}.`];
}

const assayWords: Readonly<Record<AssayedFigure['by'], string>> = {
  titration: 'by titration',
  gravimetric: 'by weighing a precipitate',
  density: 'by density',
  ignition: 'by ignition',
  stated: 'as written down',
};

const assayedWords = ({ by, text, written }: AssayedFigure): string =>
  written === undefined || written === text
    ? `Assay (${assayWords[by]}): ${text}.`
    : `Assay (${assayWords[by]}, “${written}”): ${text}.`;

/** @param isLosing its last weighings show that it was not dry yet */
function dryBasisWords(
  { by, percentYield: { text } }: DryBasis,
  asWeighed: string | undefined,
  isLosing: boolean,
): string {
  if (isLosing && by === 'drying') return `On the dry basis the yield is at most ${text}.`;
  if (text === asWeighed) return 'It was weighed dry: the yield on the dry basis is the same.';
  return `On the dry basis the yield is ${text}.`;
}

/**
 * All that is known of what was done with a product.
 * @param asWeighed the yield as it was weighed, in words: said once where the dry basis is the same
 * @example treatmentWords({}) // []
 */
export function treatmentWords(
  {
    washing,
    drying,
    ignition,
    dryBasis,
    heldWater,
    heatedPast,
    assayed,
    assayedYield,
  }: Omit<TreatmentReckoning, 'treatment'>,
  asWeighed?: string,
): readonly string[] {
  const { dryMass, constant, weighings } = drying ?? {};
  const isLosing = (weighings?.length ?? 0) > 1 && constant === false;
  const still = isLosing ? ', and still losing' : ', weighed once';
  return [
    ...(washing ? washingWords(washing) : []),
    ...(heatedPast ? heatedWords(heatedPast) : []),
    ...(dryMass ? [`Dry mass ${dryMass.text}${constant ? ', constant' : still}.`] : []),
    ...(ignition ? [ignitionWords(ignition)] : []),
    ...(dryBasis ? [dryBasisWords(dryBasis, asWeighed, isLosing)] : []),
    ...(heldWater ? [heldWords(heldWater)] : []),
    ...(assayed ? [assayedWords(assayed)] : []),
    ...(assayedYield ? [`Counted by its assay the yield is ${assayedYield.text}.`] : []),
  ];
}
