// Whether a product stands the heat that it got before it was weighed, and what that heat leaves of it.
import { printFormula, unitsInResidue, withoutWater, type Formula } from '../../chemistry/index.js';
import type { Entry } from '../../journal/entry.js';
import { onceFor } from '../../once.js';
import type { Path } from '../../remarks/findings.js';
import { formulaOf } from '../parse-cache.js';
import { hottestOfProduct } from '../told/product-heat.js';
import { ovenDry, residueRow } from './residues.js';
import type { HeatedPast } from './treatment-contracts.js';

/** One thing that heat makes of another. */
interface Turning {
  readonly from: Formula;
  /** Absent where what is left hangs on how it was done. */
  readonly into?: Formula;
  readonly staysTo: number;
  /** °C by which all of it has turned; absent where nothing tells. */
  readonly goneBy?: number;
  readonly source: string;
}

/** What some heat makes of a formula, first of its water; undefined where it stays or nothing is known. */
function turningOf(formula: Formula, celsius: number): Turning | undefined {
  const row = residueRow(formula);
  const dry = withoutWater(formula);
  if (!row && dry) {
    const ofDry = residueRow(dry);
    const isPast = ofDry !== undefined && celsius > ofDry.stays_to;
    // Where more than the water begins to go, the water went before.
    if (isPast) return { from: formula, into: dry, staysTo: ovenDry, goneBy: ofDry.stays_to, source: sourceOf(ofDry) };
    return celsius > ovenDry ? { from: formula, into: dry, staysTo: ovenDry, source: '' } : undefined;
  }
  if (!row || celsius <= row.stays_to) return undefined;
  const into = row.residue === undefined ? undefined : formulaOf(row.residue);
  return {
    from: formula,
    ...(into?.ok && { into: into.value }),
    staysTo: row.stays_to,
    ...(row.gone_by !== undefined && { goneBy: row.gone_by }),
    source: sourceOf(row),
  };
}

const sourceOf = (row: NonNullable<ReturnType<typeof residueRow>>): string => row.source_title;

/** More turnings than any row needs: a hydrate, its dry salt, what that leaves. */
const mostTurnings = 4;

/** All that a heat makes of a formula, one after the other; the last may not be done. */
function turningsOf(formula: Formula, celsius: number): readonly Turning[] {
  const all: Turning[] = [];
  let now: Formula | undefined = formula;
  while (now && all.length < mostTurnings) {
    const next: Turning | undefined = turningOf(now, celsius);
    if (next) all.push(next);
    const isDone = next?.into !== undefined && next.goneBy !== undefined && celsius >= next.goneBy;
    now = isDone && unitsInResidue(formula, next.into!) ? next.into : undefined;
  }
  return all;
}

/** What heat has made of the product of a sample before it was weighed, with the place where the heat is told. */
export interface HeatedPastTold extends HeatedPast {
  readonly path: Path;
}

const writtenOf = (
  { samples, pigment }: Entry,
  index: number | undefined,
  made: string | undefined,
): string | undefined => (index === undefined ? undefined : samples[index]!.formula) ?? made ?? pigment?.formula;

/** Of each entry and sample asked for, as long as the entry is the same. */
const known = onceFor((_: Entry) => new Map<string, HeatedPastTold | undefined>());

/**
 * What heat has made of a sample's product; undefined where it stands what it got, where nothing tells how hot it was,
 * and where nothing is known of it.
 * @param made the formula of the product as the reaction or the pigment has it
 */
export function heatedPast(
  entry: Entry,
  index: number | undefined,
  made: string | undefined,
): HeatedPastTold | undefined {
  const written = writtenOf(entry, index, made);
  if (written === undefined) return undefined;
  const key = `${index} ${written}`;
  const all = known(entry);
  if (!all.has(key)) all.set(key, judged(entry, index, written));
  return all.get(key);
}

function judged(entry: Entry, index: number | undefined, written: string): HeatedPastTold | undefined {
  const read = formulaOf(written);
  const heat = read.ok ? hottestOfProduct(entry, index) : undefined;
  if (!read.ok || !heat) return undefined;
  const turnings = turningsOf(read.value, heat.low);
  const last = turnings.at(-1);
  if (!last) return undefined;
  const isDone = last.goneBy !== undefined && heat.low >= last.goneBy && last.into !== undefined;
  const done = turnings.filter((one) => one !== last || isDone);
  const left = done.at(-1)?.into;
  const source = [...new Set(turnings.map((one) => one.source))].filter((one) => one !== '').join('; ');
  return {
    written,
    at: heat.words,
    path: heat.path,
    ...(left && { left: printFormula(left) }),
    ...(!isDone && {
      going: {
        from: printFormula(last.from),
        staysTo: last.staysTo,
        ...(last.into && { into: printFormula(last.into) }),
        ...(last.goneBy !== undefined && { goneBy: last.goneBy }),
      },
    }),
    ...(isDone && { goneBy: last.goneBy! }),
    ...(source !== '' && { source }),
  };
}

/** The formula of a sample as it was weighed, where it is another than the pigment's: its own, or what heat left. */
export const formulaAsWeighed = (
  entry: Entry,
  index: number | undefined,
  made: string | undefined,
): string | undefined =>
  heatedPast(entry, index, made)?.left ?? (index === undefined ? undefined : entry.samples[index]!.formula);
