// Gases that rules and reactions give off, with their published properties.
import { memoise } from '../../memoise.js';
import type { Decimal } from '../../chemistry/index.js';
import { constituents, gramsPerMole } from '../../reagents/index.js';
import { exposureLimits, limitInPpm, type ExposureLimit } from '../exposure-limits.js';
import { gasesTable } from '../../tables/compiled/hazards/foresee/gases.js';
import type { ForeseenSeverity, GasFacts } from './contracts.js';

export interface Gas extends GasFacts {
  readonly aliases: readonly string[];
  readonly severity: ForeseenSeverity;
  /**
   * Stays in the liquid unless it is hot or concentrated: not counted as given off by a reaction that merely lists
   * it.
   */
  readonly dissolves: boolean;
  /** Harm may come hours after it was breathed. */
  readonly harmLater: boolean;
  readonly limitsOf: string;
  /** % of the air from which it burns, of gases that are feared for that. */
  readonly lowerFlammablePercent?: number;
}

let table: ReadonlyMap<string, Gas> | undefined;

/** Gases by formula. */
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
        harmLater: row.harm_later,
        source: row.basis === 'seen' ? row.source_title : 'from memory',
        aliases: row.also,
        severity: row.severity,
        dissolves: row.dissolves,
        limitsOf: row.limits,
        ...(row.lower_flammable_percent !== undefined && { lowerFlammablePercent: row.lower_flammable_percent }),
      },
    ]),
  );
  return table;
}

/** The formula of the vapour where the solid's is usual: white arsenic. */
const vapourOf: ReadonlyMap<string, string> = new Map([['As2O3', 'As4O6']]);

/** The gas that a formula names, as it is written in a rule. @example gasNamed('As2O3')?.formula // 'As4O6' */
export const gasNamed = (formula: string): Gas | undefined =>
  gases().get(formula) ?? gases().get(vapourOf.get(formula) ?? '');

/** Formulae in a gas column as shown: `NO + NO2`, `HCN; (CN)2`, `As2O3 fume`. */
export const gasFormulae: (shown: string) => readonly string[] = memoise(
  (shown) => shown,
  (shown) =>
    shown
      .split(/ \+ |; ?/)
      .map((text) => text.replace(/ fume$/, '').trim())
      .filter(Boolean),
  500,
);

/** What is published of the gases that a gas column shows. */
export const gasFacts = (shown: string): readonly GasFacts[] =>
  gasFormulae(shown).flatMap((written) => {
    const gas = gasNamed(written);
    if (!gas) return [];
    const { formula, name, smell, smellWarns, late, source } = gas;
    return [{ formula, name, smell, smellWarns, late, source }];
  });

/** A published limit of a gas, with its value in ppm. */
export interface GasLimit {
  readonly limit: ExposureLimit;
  readonly ppm: Decimal;
}

const isWorkKind = ({ kind }: ExposureLimit): boolean => kind !== 'reference' && !kind.startsWith('ERPG');

/** g/mol of what a limit counts: of the gas, or of one of its elements. */
function countedGrams(formula: string, { asElement }: ExposureLimit): string | undefined {
  const symbol = asElement.replace(/\(.*$/, '');
  const known = constituents(formula);
  const count = symbol === '' || !known.ok ? 1 : (known.value.atoms.get(symbol) ?? 0);
  return gramsPerMole(symbol === '' ? formula : symbol)
    ?.times(count)
    .toFixed();
}

/** mg/m3 of an authority that gives the same kind of limit in ppm too would be told twice. */
const isToldInPpm = ({ unit, kind, authority }: ExposureLimit, among: readonly ExposureLimit[]): boolean =>
  unit === 'mg/m3' && among.some((one) => one.unit === 'ppm' && one.kind === kind && one.authority === authority);

function limitsOf(formula: string): readonly GasLimit[] {
  const gas = gases().get(formula);
  if (!gas || gas.limitsOf === '') return [];
  const published = exposureLimits(gas.limitsOf).filter(isWorkKind);
  const inForce = published.filter(({ status }) => status === 'in force');
  const held = inForce.length > 0 ? inForce : published.filter(({ status }) => status === 'proposed');
  return held.flatMap((limit): readonly GasLimit[] => {
    const grams = countedGrams(limit.standsInFormula ?? formula, limit);
    if (isToldInPpm(limit, held)) return [];
    if (limit.unit === 'ppm') return [{ limit, ppm: limitInPpm(limit, '1') }];
    return grams === undefined || Number(grams) === 0 ? [] : [{ limit, ppm: limitInPpm(limit, grams) }];
  });
}

const limits = new Map<string, readonly GasLimit[]>();

/**
 * The published work limits of a gas that are in force, or what is proposed where none is; in ppm, those in mg/m3
 * reckoned to it.
 * @example gasLimits('COS').map(({ ppm }) => ppm.toFixed()) // ['5']
 */
export function gasLimits(formula: string): readonly GasLimit[] {
  const known = limits.get(formula) ?? limitsOf(formula);
  limits.set(formula, known);
  return known;
}

/**
 * ppm of the lowest published work limit of a gas, in force; Infinity where there is none.
 * @example strictestPpm('HCN') < strictestPpm('CO') // true
 */
export const strictestPpm: (formula: string) => number = memoise(
  (formula) => formula,
  (formula) => Math.min(Infinity, ...gasLimits(formula).map(({ ppm }) => ppm.toNumber())),
  500,
);
