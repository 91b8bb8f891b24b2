// Precautionary statements that go with hazard statements, or those of a maker's sheet for its substance.
import { coveredPrecautionsTable } from '../../tables/compiled/hazards/ghs/covered-precautions.js';
import { precautionsTable } from '../../tables/compiled/hazards/ghs/precautions.js';
import type { LabelStatement, Origin, SubstanceHazards } from './contracts.js';
import { groupBy } from './group-by.js';
import { rootCode } from './hazard-classes.js';
import { statementText } from './statements.js';

export interface Advice {
  readonly code: string;
  /** 1 is the most general; a label takes the lowest first. */
  readonly weight: number;
  readonly source: string;
}

let byHazard: ReadonlyMap<string, readonly (Advice & { readonly hazard: string })[]> | undefined;

/** Precautionary statements that go with a hazard statement. */
export function precautionsFor(hazardCode: string): readonly Advice[] {
  byHazard ??= groupBy(
    precautionsTable().map((row) => ({
      hazard: row.h_code,
      code: row.p_code,
      weight: row.weight,
      source: row.source,
    })),
    ({ hazard }) => [hazard],
  );
  return byHazard.get(rootCode(hazardCode)) ?? [];
}

/** A precautionary statement while it is gathered. */
interface Gathered {
  readonly code: string;
  readonly from: Set<string>;
  readonly origins: Origin[];
  weight: number;
  /** How often it is asked for. */
  count: number;
}

class Gathering {
  readonly #statements = new Map<string, Gathered>();

  add(code: string, weight: number, origin: Origin): void {
    const one = this.#statements.get(code) ?? { code, from: new Set(), origins: [], weight, count: 0 };
    this.#statements.set(code, one);
    if (!one.from.has(origin.from)) one.origins.push(origin);
    one.from.add(origin.from);
    one.weight = Math.min(one.weight, weight);
    one.count += 1;
  }

  /** Leaves out what another statement says too. */
  leaveOutCovered(): void {
    for (const row of coveredPrecautionsTable()) {
      const keeps = this.#statements.get(row.keeps);
      const covered = this.#statements.get(row.covers);
      if (!keeps || !covered) continue;
      for (const name of covered.from) keeps.from.add(name);
      this.#statements.delete(row.covers);
    }
  }

  statements(): readonly Gathered[] {
    return [...this.#statements.values()];
  }
}

/** Source: CLP Article 28(3): not more than six precautionary statements on a label unless needed. */
const mostOnLabel = 6;

const byCode = (a: { readonly code: string }, b: { readonly code: string }): number => (a.code < b.code ? -1 : 1);

/** The most general first; of those alike, what is asked for most often. */
const byImportance = (a: Gathered, b: Gathered): number => a.weight - b.weight || b.count - a.count || byCode(a, b);

function addOwn(gathering: Gathering, substances: readonly SubstanceHazards[]): void {
  for (const { precautionary = [], originOf } of substances)
    for (const printed of precautionary) gathering.add(printed.replace(/\s/g, '').toUpperCase(), 1, originOf(''));
}

function addAdvised(gathering: Gathering, statements: readonly LabelStatement[], haveOwn: ReadonlySet<string>): void {
  for (const { code, from } of statements)
    for (const advice of precautionsFor(code))
      for (const name of from)
        if (!haveOwn.has(name))
          gathering.add(advice.code, advice.weight, { from: name, basis: 'memory', source: advice.source });
}

/**
 * Precautionary statements for all of a box, in the order of their numbers, those that a label would carry marked
 * `first`.
 * @param statements hazard statements of the box
 */
export function precautionaryStatements(
  substances: readonly SubstanceHazards[],
  statements: readonly LabelStatement[],
): readonly LabelStatement[] {
  const gathering = new Gathering();
  const haveOwn = new Set(substances.filter((one) => one.precautionary).map((one) => one.summary.name));
  addOwn(gathering, substances);
  addAdvised(gathering, statements, haveOwn);
  gathering.leaveOutCovered();
  const all = gathering.statements();
  const onLabel = new Set([...all].sort(byImportance).slice(0, mostOnLabel));
  return all
    .map(
      (one): LabelStatement => ({
        code: one.code,
        text: statementText(one.code),
        from: [...one.from],
        origins: one.origins,
        ...(onLabel.has(one) && { first: true }),
      }),
    )
    .sort(byCode);
}
