// Gases that rules and reactions give off, with their published properties.
import { exposureLimits, strictestLimit } from '../exposure-limits.js';
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
export const gasFormulae = (shown: string): readonly string[] =>
  shown
    .split(/ \+ |; ?/)
    .map((text) => text.replace(/ fume$/, '').trim())
    .filter(Boolean);

/** What is published of the gases that a gas column shows. */
export const gasFacts = (shown: string): readonly GasFacts[] =>
  gasFormulae(shown).flatMap((written) => {
    const gas = gasNamed(written);
    if (!gas) return [];
    const { formula, name, smell, smellWarns, late, source } = gas;
    return [{ formula, name, smell, smellWarns, late, source }];
  });

const strictest = new Map<string, number>();

/**
 * ppm of the lowest published work limit of a gas, in force; Infinity where there is none.
 * @example strictestPpm('HCN') < strictestPpm('CO') // true
 */
export function strictestPpm(formula: string): number {
  let ppm = strictest.get(formula);
  if (ppm === undefined) {
    const limits = exposureLimits(gases().get(formula)?.limitsOf ?? '');
    ppm = Number(strictestLimit(limits, ['TWA', 'STEL', 'ceiling', 'IDLH'], 'ppm')?.value ?? Infinity);
    strictest.set(formula, ppm);
  }
  return ppm;
}
