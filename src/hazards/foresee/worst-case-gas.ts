// Gas at worst: all of the limiting partner reacts, all of the gas leaves at once, evenly mixed in a closed room.
// An upper bound for ranking, never an exposure assessment.
import { exact, type Decimal } from '../../chemistry/index.js';
import { memoise } from '../../memoise.js';
import { shortTermKinds, type ExposureLimit } from '../exposure-limits.js';
import type { LimitReached, Mixture, WorstCase } from './contracts.js';
import { gases, gasLimits } from './gases.js';

/** Litres of one mole of ideal gas at 25 °C and 101.325 kPa: R T / p, R = 8.314462618 J/(mol K) (CODATA 2018). */
export const litresPerMole: Decimal = exact('8.314462618').times('298.15').div('101.325');
/** m³ of the room where none is stated. */
export const assumedRoom = '30';

/** An amount of one gas, mol. */
export interface GasAmount {
  readonly formula: string;
  readonly mol: Decimal;
}

/** Two significant figures, no exponent: `0.033`, `980`, `1.9`. */
export const twoFigures = (value: Decimal): string => (value.isZero() ? '0' : value.toSignificantDigits(2).toFixed());

const ppmIn = (cubicMetres: Decimal, amount: Decimal): Decimal =>
  amount.times(litresPerMole).times(1000).div(cubicMetres);

/** What is told of a limit, however much there is of the gas. */
interface LimitTold {
  readonly name: string;
  readonly source: string;
  readonly isShort: boolean;
  readonly isDangerous: boolean;
  readonly ppm: Decimal;
  readonly ppmShown: string;
}

/** A limit, and how many times it the bound of its own gas is. */
interface LimitHeld {
  readonly gas: string;
  readonly ppm: Decimal;
  readonly limit: LimitTold;
  readonly ratio: Decimal;
}

/** `NIOSH REL ceiling, arsine (0.002 mg/m³)`; what stands in for it is named instead of the gas. */
function limitName({ name, substance, unit, value, note, standsIn, status }: ExposureLimit, gas: string): string {
  const told = [status === 'proposed' ? 'proposed' : '', unit === 'mg/m3' ? `${value} mg/m³` : '', note];
  const inBrackets = told.filter(Boolean).join('; ');
  const of = standsIn === undefined ? gas : `${substance}, in place of ${gas}`;
  return `${name}, ${of}${inBrackets === '' ? '' : ` (${inBrackets})`}`;
}

/** The published limits of a gas, as they are told. */
const limitsTold = memoise(
  (formula: string) => formula,
  (formula): readonly LimitTold[] => {
    const gas = gases().get(formula);
    if (!gas) return [];
    return gasLimits(formula).map(({ limit, ppm }) => ({
      name: limitName(limit, gas.name),
      source: `${limit.basis === 'memory' ? 'from memory: ' : ''}${limit.source}`,
      isShort: shortTermKinds.includes(limit.kind),
      isDangerous: limit.kind === 'IDLH',
      ppm,
      ppmShown: limit.unit === 'ppm' ? limit.value : ppm.toSignificantDigits(3).toFixed(),
    }));
  },
  500,
);

/** The published limits of a gas, each held against the bound. */
function limitsHeld({ formula, mol }: GasAmount, cubicMetres: Decimal): readonly LimitHeld[] {
  const limits = limitsTold(formula);
  if (limits.length === 0) return [];
  const bound = ppmIn(cubicMetres, mol);
  return limits.map((limit) => ({ gas: formula, ppm: bound, limit, ratio: bound.div(limit.ppm) }));
}

const reached = ({ gas, limit: { name, source, isShort, isDangerous, ppmShown }, ratio }: LimitHeld): LimitReached => ({
  name,
  gas,
  ppm: ppmShown,
  ...(isDangerous && { immediatelyDangerous: true as const }),
  ...(isShort && { shortTerm: true as const }),
  times: ratio.toSignificantDigits(6).toFixed(),
  source,
});

const litresShown = (litres: Decimal): string =>
  litres.gte(1) ? `${twoFigures(litres)} L` : `${twoFigures(litres.times(1000))} mL`;

/** The limits that sudden gases are held against: of each those on short stays, or over a day where it has no other. */
function sudden<Limit extends { readonly gas: string }>(
  limits: readonly Limit[],
  isShort: (limit: Limit) => boolean,
): readonly Limit[] {
  const withShort = new Set(limits.filter(isShort).map(({ gas }) => gas));
  return limits.filter((one) => isShort(one) || !withShort.has(one.gas));
}

const allOfIt = exact(1_000_000);
const atMostAll = (ppm: Decimal): Decimal => (ppm.gt(allOfIt) ? allOfIt : ppm);

/** More gas than the room is large leaves nothing but the gas in it. */
function inRoom(roomPpm: Decimal, cubicMetres: Decimal, assumed: string): string {
  const room = `a closed room of ${cubicMetres.toFixed()} m³${assumed}`;
  return roomPpm.gte(allOfIt)
    ? `That fills ${room}, and drives out the air: nobody can breathe there.`
    : `Spread evenly through ${room} that is about ${twoFigures(roomPpm)} ppm; beside the vessel it is far higher.`;
}

/**
 * The sentence on the strictest of them: the one that is exceeded most. Of several gases it says how much of the sum
 * is the one with that limit.
 */
function limitSentence(limits: readonly LimitHeld[], isSum: boolean): readonly string[] {
  if (limits.length === 0) return [];
  const { gas, ppm, limit, ratio } = sudden(limits, (one) => one.limit.isShort).reduce((worst, one) =>
    one.ratio.gt(worst.ratio) ? one : worst,
  );
  if (ratio.lt(1)) return ['Lying under a published limit in this sum is no all-clear.'];
  const times = twoFigures(atMostAll(ratio.times(limit.ppm)).div(limit.ppm));
  const held = `about ${times} times a published limit, ${limit.ppmShown} ppm (${limit.name}).`;
  if (!isSum) return [`That is ${held}`];
  return [`Of it ${twoFigures(atMostAll(ppm))} ppm are ${gases().get(gas)?.name ?? gas}: ${held}`];
}

/**
 * Litres, room concentration and multiples of published limits of an amount of gas.
 * @param parts gas formula and its amount in mol
 * @param limiting names of what runs out first
 * @example
 * worstCase([{ formula: 'Cl2', mol: exact('0.03358') }], 'bleach', { roomCubicMetres: '20' }).roomPpm // '41.0774'
 */
export function worstCase(
  parts: readonly GasAmount[],
  limiting: string,
  { roomCubicMetres: room, extraction }: Pick<Mixture, 'roomCubicMetres' | 'extraction'>,
): WorstCase {
  const cubicMetres = exact(room ?? assumedRoom);
  const mol = parts.reduce((sum, part) => sum.plus(part.mol), exact(0));
  const litres = mol.times(litresPerMole);
  const roomPpm = ppmIn(cubicMetres, mol);
  const limits = parts.flatMap((part) => limitsHeld(part, cubicMetres));
  const names = parts.map(({ formula }) => gases().get(formula)?.name ?? formula).join(' and ');
  const assumed = room === undefined ? ' (no room volume was given)' : '';
  const words = [
    `If all of it reacted and all of the gas left at once: up to about ${litresShown(litres)} of ${names}.`,
    inRoom(roomPpm, cubicMetres, assumed),
    ...limitSentence(limits, parts.length > 1),
    ...(extraction ? ['Extraction is not counted in this sum.'] : []),
    'Litres at 25 °C. A worst-case bound, not an exposure assessment.',
  ].join(' ');
  return {
    mol: mol.toSignificantDigits(8).toFixed(),
    litres: litres.toSignificantDigits(6).toFixed(),
    roomPpm: atMostAll(roomPpm).toSignificantDigits(6).toFixed(),
    limits: limits.map(reached),
    room: cubicMetres.toFixed(),
    roomStated: room !== undefined,
    limiting,
    words,
  };
}

const timesOf = (limits: readonly LimitReached[]): readonly number[] => limits.map(({ times }) => Number(times));
const isShort = ({ shortTerm }: LimitReached): boolean => shortTerm === true;

/** How many times the strictest limit on a short stay, or of a day where there is no other; undefined where none is. */
export function strictestTimes({ limits }: WorstCase): number | undefined {
  const counted = timesOf(sudden(limits, isShort));
  return counted.length > 0 ? Math.max(...counted) : undefined;
}

/** How many times a limit on short stays, evenly through the room; 0 where there is none. */
export const timesShortTermLimit = ({ limits }: WorstCase): number =>
  Math.max(0, ...timesOf(limits.filter(({ shortTerm }) => shortTerm === true)));

/**
 * How many times the level immediately dangerous, all of it in a few litres of air about the vessel; by 25 times the
 * strictest limit where there is no such level.
 */
export function timesBesideVessel(bound: WorstCase, litresOfAir: number): number {
  const nearer = (Number(bound.room) * 1000) / litresOfAir;
  const dangerous = timesOf(bound.limits.filter(({ immediatelyDangerous }) => immediatelyDangerous === true));
  const least = dangerous.length > 0 ? Math.max(...dangerous) : (strictestTimes(bound) ?? Infinity) / 25;
  return least * nearer;
}

/** The bound is above the level immediately dangerous to life or health of one of its gases. */
export const aboveDangerLevel = (bound: WorstCase): boolean =>
  bound.limits.some(({ immediatelyDangerous, times }) => immediatelyDangerous === true && Number(times) >= 1);
