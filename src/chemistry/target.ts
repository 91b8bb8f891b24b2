// A composition that is aimed at: mixed oxides, solid solutions, recipes by oxides; and how much of each source it
// takes. Oxygen, hydrogen, carbon and nitrogen come and go in the fire; the others are set in proportion.
import { bad, good, type Outcome } from '../outcome.js';
import { exact, zero, type Decimal } from './exact.js';
import { composition, molarMass, parseFormula, type Formula } from './formula/index.js';
import { plus, scaled, withoutUncertainty, type UncertainDecimal } from './uncertainty.js';

/** Elements that fire takes or brings. */
const comesAndGoes = new Set(['H', 'O', 'C', 'N']);

export interface Target {
  /** As written. */
  readonly written: string;
  /** The elements that are set in proportion, each with its atoms in one unit. */
  readonly atoms: ReadonlyMap<string, Decimal>;
  /** g of product for one unit. */
  readonly unitMass: UncertainDecimal;
  /** Percent that the parts of a recipe came to before they were brought to 100; absent for a formula. */
  readonly percentSum?: Decimal;
}

const fault = (code: string, message: string, cure: string): Outcome<never> => bad({ code, message, cure });

/** Atoms that are set in proportion; undefined where the formula leaves one open. */
function keptAtoms(formula: Formula): ReadonlyMap<string, Decimal> | undefined {
  const atoms = new Map<string, Decimal>();
  for (const [symbol, { low, high, unknown }] of composition(formula)) {
    if (unknown || !low.eq(high)) return undefined;
    if (!comesAndGoes.has(symbol)) atoms.set(symbol, low);
  }
  return atoms;
}

/** One part of a recipe: `CoO 40 %`, `Al2O3 1.5 mol`. */
const recipePart = /^(\S+)\s+(\d+(?:\.\d+)?)\s*(%|mol\s*%|mol|g|parts?)$/i;

function definite(text: string): Outcome<{ readonly formula: Formula; readonly mass: UncertainDecimal }> {
  const parsed = parseFormula(text);
  if (!parsed.ok) return parsed;
  const mass = molarMass(parsed.value);
  return mass.ok ? good({ formula: parsed.value, mass: mass.value.middle }) : mass;
}

function readRecipe(written: string, parts: readonly RegExpExecArray[]): Outcome<Target> {
  const atoms = new Map<string, Decimal>();
  let unitMass = withoutUncertainty(0);
  let sum = zero;
  const byMoles = parts.every(([, , , unit]) => /^mol/i.test(unit!));
  if (!byMoles && parts.some(([, , , unit]) => /^mol/i.test(unit!)))
    return fault('target', 'The recipe mixes parts by mass and by amount.', 'Give all parts in % or all in mol.');
  for (const [, text, number] of parts) {
    const read = definite(text!);
    if (!read.ok) return read;
    const { formula, mass } = read.value;
    const amount = exact(number!);
    const moles = byMoles ? amount : amount.div(mass.value);
    sum = sum.plus(amount);
    unitMass = plus(unitMass, scaled(mass, moles));
    const own = keptAtoms(formula);
    for (const [symbol, count] of own ?? []) atoms.set(symbol, (atoms.get(symbol) ?? zero).plus(count.times(moles)));
  }
  if (atoms.size === 0)
    return fault('target', 'The recipe has no element that stays.', 'Name oxides: CoO 40 %, Al2O3 60 %.');
  const isPercent = parts.every(([, , , unit]) => unit === '%');
  return good({ written, atoms, unitMass, ...(isPercent && { percentSum: sum }) });
}

/**
 * Reads a target: a formula (`Mn0.3Zn0.7O`, `CoAl2O4`), or a recipe of oxides by mass (`CoO 40 %, Al2O3 60 %`) or by
 * amount (`CoO 1 mol, Al2O3 1 mol`).
 * Errors: `target`, and those of `parseFormula` and `molarMass`.
 * @example parseTarget('CoAl2O4').value.atoms.get('Al')?.toNumber() // 2
 */
export function parseTarget(written: string): Outcome<Target> {
  const parts = written.split(/[,;+]\s*/).map((part) => recipePart.exec(part.trim()));
  if (parts.length > 0 && parts.every((part) => part !== null)) return readRecipe(written, parts);
  const read = definite(written.trim());
  if (!read.ok) return read;
  const atoms = keptAtoms(read.value.formula);
  if (!atoms || atoms.size === 0)
    return fault('target', `${written} has no definite proportion of elements that stay.`, 'Write Mn0.3Zn0.7O.');
  return good({ written: written.trim(), atoms, unitMass: read.value.mass });
}

type Row = readonly Decimal[];

/** The row with the largest entry of a column, from a row on. */
function pivotIn(rows: readonly Row[], from: number, column: number): number {
  let best = from;
  for (let at = from + 1; at < rows.length; at += 1)
    if (rows[at]![column]!.abs().gt(rows[best]![column]!.abs())) best = at;
  return best;
}

const tiny = exact('1e-20');

/** Reduced rows, and which column each leads. */
function reduce(matrix: readonly Row[], columns: number): { readonly rows: Row[]; readonly leads: number[] } {
  const rows = [...matrix];
  const leads: number[] = [];
  for (let column = 0; column < columns && leads.length < rows.length; column += 1) {
    const at = leads.length;
    const pivot = pivotIn(rows, at, column);
    if (rows[pivot]![column]!.abs().lt(tiny)) continue;
    [rows[at], rows[pivot]] = [rows[pivot]!, rows[at]!];
    const lead = rows[at]!;
    rows[at] = lead.map((value) => value.div(lead[column]!));
    rows.forEach((row, other) => {
      if (other === at) return;
      const factor = row[column]!;
      rows[other] = row.map((value, cell) => value.minus(factor.times(rows[at]![cell]!)));
    });
    leads.push(column);
  }
  return { rows, leads };
}

/** What the sources bring that the target has not. */
export interface Solved {
  /** mol of each source for one unit of the target, in their order. */
  readonly moles: readonly Decimal[];
  /** Elements of the sources that must leave, besides those that fire takes. */
  readonly mustLeave: readonly string[];
}

/**
 * How much of each source makes one unit of a target.
 * Errors: `no-source` where an element has none, `no-answer` where the sources cannot give the proportion, `several`
 * where they can in more than one way.
 * @example solveTarget(target, [manganeseCarbonate, zincOxide]).value.moles // 0.3 and 0.7 …
 */
export function solveTarget(
  target: Target,
  sources: readonly { readonly name: string; readonly formula: Formula }[],
): Outcome<Solved> {
  const kept = sources.map(({ formula }) => keptAtoms(formula));
  const open = sources.find((_, at) => !kept[at]);
  if (open) return fault('source', `${open.name} leaves a proportion open.`, 'Write a definite formula.');
  const symbols = [...target.atoms.keys()];
  const lacking = symbols.filter((symbol) => !kept.some((atoms) => atoms!.has(symbol)));
  if (lacking.length > 0)
    return fault('no-source', `Nothing supplies ${lacking.join(', ')}.`, 'Name a source of it with --from.');
  const matrix = symbols.map((symbol) => [
    ...kept.map((atoms) => atoms!.get(symbol) ?? zero),
    target.atoms.get(symbol)!,
  ]);
  const { rows, leads } = reduce(matrix, sources.length);
  const unmet = rows.slice(leads.length).some((row) => row[sources.length]!.abs().gt(tiny));
  const moles = sources.map((_, column) => {
    const at = leads.indexOf(column);
    return at < 0 ? zero : rows[at]![sources.length]!;
  });
  if (unmet || moles.some((value) => value.lt(tiny.neg())))
    return fault('no-answer', `These sources cannot give ${target.written}.`, 'Name a source for each element.');
  if (leads.length < sources.length)
    return fault('several', 'There is more than one way to make it of these.', 'Name as many sources as elements.');
  const mustLeave = [...new Set(kept.flatMap((atoms) => [...atoms!.keys()]))].filter(
    (symbol) => !target.atoms.has(symbol),
  );
  return good({ moles, mustLeave });
}

/** Share of each set element in what was taken, and in the target, as mole fractions. */
export interface ElementShare {
  readonly symbol: string;
  readonly target: Decimal;
  readonly taken: Decimal;
}

/** How what was taken stands to a target; undefined where nothing of it was taken. */
export function sharesTaken(
  target: Target,
  taken: readonly { readonly formula: Formula; readonly moles: Decimal }[],
): readonly ElementShare[] | undefined {
  const sums = new Map([...target.atoms.keys()].map((symbol) => [symbol, zero] as const));
  for (const { formula, moles } of taken)
    for (const [symbol, count] of keptAtoms(formula) ?? [])
      if (sums.has(symbol)) sums.set(symbol, sums.get(symbol)!.plus(count.times(moles)));
  const total = [...sums.values()].reduce((a, b) => a.plus(b), zero);
  const whole = [...target.atoms.values()].reduce((a, b) => a.plus(b), zero);
  if (total.isZero()) return undefined;
  return [...target.atoms].map(([symbol, count]) => ({
    symbol,
    target: count.div(whole),
    taken: sums.get(symbol)!.div(total),
  }));
}
