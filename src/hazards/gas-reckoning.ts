// Gas at worst: all of the limiting partner reacts, all of the gas leaves at once, evenly mixed in a closed room.
// An upper bound for ranking, never an exposure assessment.
import { exact, type Decimal } from '../chemistry/index.js';
import { gasesTable } from '../tables/compiled/hazards/gases.js';
import type { GasFacts, LimitReached, WorstCase } from './foreseen.js';
import { exposureLimits } from './exposure-limits.js';

/** Litres of one mole of ideal gas at 25 °C and 101.325 kPa: R T / p, R = 8.314462618 J/(mol K) (CODATA 2018). */
export const litresPerMole: Decimal = exact('8.314462618').times('298.15').div('101.325');
export const assumedRoom = '30';

export interface Gas extends GasFacts {
  readonly aliases: readonly string[];
  readonly severity: 'danger' | 'warning' | 'note';
  /** Stays in the liquid unless it is hot or concentrated: not counted as given off by a reaction that merely lists it. */
  readonly dissolves: boolean;
  readonly limitsOf: string;
}

let table: ReadonlyMap<string, Gas> | undefined;

/** Gases by formula, with their published properties. */
export function gases(): ReadonlyMap<string, Gas> {
  table ??= new Map(
    gasesTable().map((row) => [
      row.formula,
      {
        formula: row.formula,
        name: row.gas,
        smell: row.odour,
        smellWarns: row.smell_warns,
        late: row.late,
        source: row.basis === 'seen' ? row.source_title : 'from memory',
        aliases: row.also,
        severity: row.severity,
        dissolves: row.dissolves,
        limitsOf: row.limits,
      },
    ]),
  );
  return table;
}

/** Formulae in a gas column as shown: `NO + NO2`, `HCN; (CN)2`, `As2O3 fume`. */
export const gasFormulae = (shown: string): readonly string[] =>
  shown
    .split(/ \+ |; ?/)
    .map((text) => text.replace(/ fume$/, '').trim())
    .filter(Boolean);

const alike: Readonly<Record<string, string>> = { As2O3: 'As4O6', Sb4O6: 'As4O6' };
export const gasFacts = (shown: string): readonly GasFacts[] =>
  gasFormulae(shown).flatMap((formula) => {
    const gas = gases().get(alike[formula] && !gases().has(formula) && formula === 'As2O3' ? alike[formula]! : formula);
    return gas
      ? [
          {
            formula: gas.formula,
            name: gas.name,
            smell: gas.smell,
            smellWarns: gas.smellWarns,
            late: gas.late,
            source: gas.source,
          },
        ]
      : [];
  });

const shortTerm = /ceiling|STEL|short|IDLH|excursion|peak/i;

/** Two significant figures, no exponent: `0.033`, `980`, `1.9`. */
export function twoFigures(value: Decimal): string {
  if (value.isZero()) return '0';
  return value.toSignificantDigits(2).toFixed();
}

/**
 * Litres, room concentration and multiples of published limits of an amount of gas.
 * @param parts gas formula and its amount in mol
 * @example worstCase([{ formula: 'Cl2', mol: exact('0.03358') }], …).roomPpm // 41.1 in 20 m3
 */
export function worstCase(
  parts: readonly { readonly formula: string; readonly mol: Decimal }[],
  limiting: string,
  room: string | undefined,
  extraction: boolean | undefined,
): WorstCase {
  const cubicMetres = exact(room ?? assumedRoom);
  const mol = parts.reduce((sum, part) => sum.plus(part.mol), exact(0));
  const litres = mol.times(litresPerMole);
  const ppmOf = (amount: Decimal): Decimal => amount.times(litresPerMole).times(1000).div(cubicMetres);
  const roomPpm = ppmOf(mol);
  const limits: (LimitReached & { readonly short: boolean; readonly ratio: Decimal })[] = parts.flatMap(
    ({ formula, mol: amount }) => {
      const gas = gases().get(formula);
      if (!gas || gas.limitsOf === '') return [];
      return exposureLimits(gas.limitsOf)
        .filter((limit) => limit.unit === 'ppm')
        .map((limit) => {
          const ratio = ppmOf(amount).div(limit.value);
          return {
            name: `${limit.kind}, ${gas.name}${limit.note ? ` (${limit.note})` : ''}`,
            ppm: limit.value,
            ...(limit.kind === 'IDLH' && { immediatelyDangerous: true as const }),
            times: ratio.toSignificantDigits(6).toFixed(),
            source: `${limit.basis === 'memory' ? 'from memory: ' : ''}${limit.source}`,
            short: shortTerm.test(limit.kind),
            ratio,
          };
        });
    },
  );
  const names = parts.map(({ formula }) => gases().get(formula)?.name ?? formula).join(' and ');
  const worst = limits.filter(({ short }) => short).sort((a, b) => b.ratio.cmp(a.ratio))[0];
  const words = [
    `If all of it reacted and all of the gas left at once: up to about ${litres.gte(1) ? `${twoFigures(litres)} L` : `${twoFigures(litres.times(1000))} mL`} of ${names}.`,
    `Spread evenly through a closed room of ${cubicMetres.toFixed()} m³${room === undefined ? ' (no room volume was given)' : ''} that is about ${twoFigures(roomPpm)} ppm; beside the vessel it is far higher.`,
    ...(worst && worst.ratio.gte(1)
      ? [`That is about ${twoFigures(worst.ratio)} times a published limit, ${worst.ppm} ppm (${worst.name}).`]
      : worst
        ? ['Lying under a published limit in this sum is no all-clear.']
        : []),
    ...(extraction ? ['Extraction is not counted in this sum.'] : []),
    'A worst-case bound, not an exposure assessment.',
  ].join(' ');
  return {
    mol: mol.toSignificantDigits(8).toFixed(),
    litres: litres.toSignificantDigits(6).toFixed(),
    roomPpm: roomPpm.toSignificantDigits(6).toFixed(),
    limits: limits.map(({ name, immediatelyDangerous, ppm, times, source }) => ({
      name,
      ...(immediatelyDangerous && { immediatelyDangerous }),
      ppm,
      times,
      source,
    })),
    room: cubicMetres.toFixed(),
    roomStated: room !== undefined,
    limiting,
    words,
  };
}

/** The bound is above the level immediately dangerous to life or health of one of its gases. */
export const aboveDangerLevel = (bound: WorstCase): boolean =>
  bound.limits.some(({ immediatelyDangerous, times }) => immediatelyDangerous === true && Number(times) >= 1);
