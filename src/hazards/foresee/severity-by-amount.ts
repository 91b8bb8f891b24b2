// How serious a hazard is by how much there is: up where the gas would fill the room above published limits, down where
// it is a trace of them; by the warmth of mixing; by the mass of what could burn.
import { memoise } from '../../memoise.js';
import { compareSeverity, type ForeseenSeverity, type WorstCase } from './contracts.js';
import { gases } from './gases.js';
import { gramsOf, isDrowned, type WaterBeside } from './match-rule.js';
import type { RuledIngredient } from './ruled-ingredient.js';
import { timesShortTermLimit, aboveDangerLevel, strictestTimes, timesBesideVessel } from './worst-case-gas.js';

/** What is known of the amounts behind a hazard. */
export interface AmountsBehind {
  readonly consequence: string;
  readonly worst?: WorstCase;
  /** Litres of each gas, by formula. */
  readonly litres: readonly (readonly [string, number])[];
  /** Everyone on each side of a rule. */
  readonly sides: readonly (readonly RuledIngredient[])[];
  /** K by which mixing would warm it, all at once. */
  readonly rise?: number;
  /** There is a liquid to froth. */
  readonly isLiquid?: boolean;
  /** g of all that takes part. */
  readonly grams?: number;
  /** Water that is named beside it and takes no part. */
  readonly besides?: WaterBeside;
}

const atLeast = (severity: ForeseenSeverity, least: ForeseenSeverity): ForeseenSeverity =>
  compareSeverity(least, severity) < 0 ? least : severity;

/** A tenth of the limit in the room, three tenths of the level immediately dangerous beside the vessel: judgement. */
const traceInRoom = 0.1;
const traceBesideVessel = 0.3;
/** Share of the lower flammable limit that counts as an alarm: the practice of gas detectors. */
const alarmShare = 0.1;
/**
 * The air around a vessel, L. A hemisphere of 0.8 m about the vessel, the near field of two-zone models; from memory.
 */
const nearField = 1000;
/** L of flammable gas that nobody would notice in a test tube's worth of work: judgement. */
const flammableTrace = 1.5;
/** g of one partner below which nothing is left to burn or burst: judgement. */
const burnableTrace = 0.005;

/** So many times a limit on short stays is a danger whatever the rule says: judgement. */
const farAbove = 10;

/** L of a gas without a published limit: one ppm about the vessel. Judgement. */
const unlimitedTrace = 0.001;

/** What a rule says may follow, each by itself. */
const feared = memoise(
  (consequence: string) => consequence,
  (consequence): readonly string[] => [
    ...new Set(consequence.split(';').map((part) => part.trim().replace(/\s*\(.*\)$/, ''))),
  ],
  1000,
);
/** Consequences that fall with the amount of gas. */
const fallsWithGas =
  /^(?:trace )?(?:toxic gas|toxic vapour|flammable gas|heat|foaming|gas pressure|toxic gas later|asphyxiant gas|carcinogenic vapour|irritant fume)$/;

const burns = /^(?:fire|explosion)/;

/** Litres of the flammable gases that reach a tenth of what burns in the air around the vessel. */
const flammableAlarm = (litres: AmountsBehind['litres']): boolean =>
  litres.some(([formula, volume]) => {
    const limit = gases().get(formula)?.lowerFlammablePercent;
    return limit !== undefined && volume / nearField >= (limit / 100) * alarmShare;
  });

const onlyFlammable = (litres: AmountsBehind['litres']): boolean =>
  litres.length > 0 && litres.every(([formula]) => gases().get(formula)?.lowerFlammablePercent !== undefined);

const isBurnableTrace = (sides: AmountsBehind['sides']): boolean =>
  sides.some((side) => side.length > 0 && (gramsOf(side) ?? Infinity) <= burnableTrace);

function isTraceOfGas({ consequence, worst, litres }: AmountsBehind): boolean {
  if (!worst || !feared(consequence).every((one) => fallsWithGas.test(one) || burns.test(one))) return false;
  if (onlyFlammable(litres)) return litres.reduce((sum, [, volume]) => sum + volume, 0) <= flammableTrace;
  const inRoom = strictestTimes(worst);
  if (inRoom === undefined) return litres.reduce((sum, [, volume]) => sum + volume, 0) <= unlimitedTrace;
  return inRoom <= traceInRoom && timesBesideVessel(worst, nearField) <= traceBesideVessel;
}

/** A trace: of gas, and of what could burn. */
function isTrace(amounts: AmountsBehind): boolean {
  const all = feared(amounts.consequence);
  const traceToBurn = isBurnableTrace(amounts.sides);
  if (amounts.worst) return isTraceOfGas(amounts) && (traceToBurn || !all.some((one) => burns.test(one)));
  return traceToBurn;
}

const boilingRise = 80;
const scaldingRise = 30;
/** g from which what boils over is more than a splash: judgement. */
const boilsOver = 100;
/** g of a splash that scalds: of what nearly boils, and of what only becomes hot. Judgement. */
const splash = 10;
const warmSplash = 50;
/** °C of rise from which it nearly boils. */
const hotRise = 60;

function byWarmth(rise: number, grams: number): ForeseenSeverity {
  if (rise < scaldingRise || grams < (rise < hotRise ? warmSplash : splash)) return 'note';
  return rise >= boilingRise && grams >= boilsOver ? 'danger' : 'warning';
}

function byGas(severity: ForeseenSeverity, { worst, litres, consequence }: AmountsBehind): ForeseenSeverity {
  if (!worst) return severity;
  if (aboveDangerLevel(worst)) return 'danger';
  const times = timesShortTermLimit(worst);
  if (severity !== 'note' && times >= farAbove) return 'danger';
  const limited = times >= 1 ? atLeast(severity, 'warning') : severity;
  return flammableAlarm(litres) && consequence.includes('flammable') ? 'danger' : limited;
}

/** Gases that do nothing but press: L of them that a dilute mixture may give off without more ado. Judgement. */
const pressing = new Set(['O2', 'N2']);
const pressingTrace = 0.6;

const onlyPresses = (litres: AmountsBehind['litres']): boolean =>
  litres.length > 0 &&
  litres.every(([formula]) => pressing.has(formula)) &&
  litres.reduce((sum, [, volume]) => sum + volume, 0) <= pressingTrace;

/** L of gas in a froth from which it climbs out of any pot that is at hand: judgement. */
const frothOver = 8;
const frothsOver = ({ consequence, litres, isLiquid = false }: AmountsBehind): boolean =>
  isLiquid && consequence.includes('foaming') && litres.reduce((sum, [, volume]) => sum + volume, 0) >= frothOver;

const allOf = (consequence: string, what: RegExp): boolean => feared(consequence).every((one) => what.test(one));

/** Nothing but what takes fire, warms or spits: it does not in much water. */
const isQuenched = ({ consequence, besides }: AmountsBehind): boolean =>
  isDrowned(besides) &&
  /\b(?:fire|heat)\b/.test(consequence) &&
  allOf(consequence, /^(?:fire|heat|explosion|spattering|smoke)\b/);

/** Times its own mass of water in which a gas stays dissolved: judgement. */
const lostIn = 5000;
/** g of what explodes that is lost in water too; more of it would fall out as a solid and lie there. Judgement. */
const lostExplosive = 0.1;

/**
 * Lost in water: what of its gas could leave it is still held against limits. What poisons, or falls out and explodes,
 * is not lost.
 */
function isLost({ consequence, besides }: AmountsBehind): boolean {
  if (besides === undefined || besides.times < lostIn || !isDrowned(besides)) return false;
  const rest = besides.grams <= lostExplosive ? /^(?:fire|spattering|explosion)\b/ : /^(?:fire|spattering)\b/;
  return feared(consequence).every((one) => fallsWithGas.test(one) || rest.test(one));
}

/** How serious a hazard of this severity is with these amounts; what is not known of them changes nothing. */
export function severityByAmount(stated: ForeseenSeverity, amounts: AmountsBehind): ForeseenSeverity {
  const severity = isQuenched(amounts) || isLost(amounts) ? 'note' : stated;
  const { rise, grams } = amounts;
  if (rise !== undefined && grams !== undefined) return atLeast(byWarmth(rise, grams), byGas('note', amounts));
  if (severity === 'warning' && onlyPresses(amounts.litres)) return 'note';
  if (frothsOver(amounts)) return atLeast(byGas(severity, amounts), 'warning');
  if (severity !== 'note' && isTrace(amounts)) return 'note';
  return byGas(severity, amounts);
}
