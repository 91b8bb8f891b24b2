// What was measured to tell how strong or how pure something is → its strength or purity with its uncertainty.
import {
  acidBaseOf,
  composition,
  dividedBy,
  exact,
  expandedUncertainty,
  minus,
  molarMass,
  parseEquation,
  parseQuantity,
  plus,
  reading,
  scaled,
  standardUncertainty,
  suppliedBy,
  times,
  weighingInput,
  withoutWater,
  type Decimal,
  type Equation,
  type Formula,
  type Quantity,
  type Term,
  type UncertainDecimal,
} from '../chemistry/index.js';
import { bad, good, type Outcome } from '../outcome.js';
import type { AssayMeasured, AssayWritten } from './assay-written.js';
import type { ResolvedReagent } from './contracts.js';
import { resolveStrength } from './strength.js';

/** What an assay came to. */
export interface Assayed {
  readonly value: UncertainDecimal;
  /** Percent by mass, of the formula as written; or mol/L. */
  readonly unit: '%' | 'mol/L';
  /** `stated`: what it came to was written down, and not what was measured. */
  readonly by: AssayMeasured['by'] | 'stated';
}

/** What it is made with: the substance, how a line is resolved, and what the balance can do. */
export interface AssayOf {
  readonly formula: Formula | undefined;
  readonly resolve: (line: string) => Outcome<ResolvedReagent>;
  /** Half-width of a reading of the balance, g. */
  readonly balance?: Decimal;
}

type Result<T> = Outcome<T, 'assay-not-reckoned'>;

const fault = (message: string, cure: string): Result<never> => bad({ code: 'assay-not-reckoned', message, cure });
const needs = (what: string, example: string): Result<never> =>
  fault(`Nothing says ${what}: of the assay, so it is not reckoned.`, `Write ${what}: ${example}.`);

const quantityOf = (written: string | undefined): Quantity | undefined => {
  const read = written === undefined ? undefined : parseQuantity(written);
  return read?.ok ? read.value : undefined;
};

/** g, mL of a reading; undefined where it is of another kind. */
function measured(
  written: string | undefined,
  dimension: 'mass' | 'volume',
  input: string,
  balance: Decimal | undefined,
): UncertainDecimal | undefined {
  const quantity = quantityOf(written);
  if (quantity?.dimension !== dimension || !quantity.base.gt(0)) return undefined;
  // Scales in an assay are often finer than the journal’s: a reading with more digits is taken at its word.
  const inBase = quantity.value.isZero() ? exact(1) : quantity.base.div(quantity.value);
  const finer = balance && quantity.resolution.times(inBase).lt(balance.times(2));
  return reading(quantity, weighingInput(`assay/${input}`), finer ? undefined : balance);
}

const perMoleOf = (formula: Formula): UncertainDecimal | undefined => {
  const mass = molarMass(formula);
  return mass.ok && mass.value.middle.value.gt(0) ? mass.value.middle : undefined;
};

/** mol of the substance in what was taken, as percent or as mol/L. */
function inTaken(
  moles: UncertainDecimal,
  formula: Formula,
  { taken, by }: AssayMeasured,
  balance: Decimal | undefined,
): Result<Assayed> {
  const volume = measured(taken, 'volume', 'taken', balance);
  const perLitre = volume && dividedBy(scaled(moles, 1000), volume);
  if (perLitre) return good({ value: perLitre, unit: 'mol/L', by });
  const mass = measured(taken, 'mass', 'taken', balance);
  const perMole = perMoleOf(formula);
  const share = mass && perMole && dividedBy(times(moles, perMole), mass);
  return share ? good({ value: scaled(share, 100), unit: '%', by }) : needs('taken', '2.00 mL, or 0.455 g');
}

/** The term of an equation that a substance supplies, and how many of it one formula unit supplies. */
function termOf(terms: readonly Term[], formula: Formula): { readonly term: Term; readonly each: Decimal } | undefined {
  for (const term of terms) {
    const each = suppliedBy(formula, term.formula);
    if (!each.isZero()) return { term, each };
    const back = suppliedBy(term.formula, formula);
    if (!back.isZero()) return { term, each: exact(1).div(back) };
  }
  return undefined;
}

function equationOf(written: string): Result<Equation> {
  const read = parseEquation(written);
  return read.ok
    ? good(read.value)
    : fault(`Its equation cannot be read: ${read.fault.message}`, 'Write it like NaOH + HCl -> NaCl + H2O.');
}

/** mol of one substance for a mol of another, by an equation that has both. */
function ratioByEquation(written: string, wanted: Formula, known: Formula): Result<Decimal> {
  const equation = equationOf(written);
  if (!equation.ok) return equation;
  const terms = [...equation.value.reactants, ...equation.value.products];
  const [of, per] = [termOf(terms, wanted), termOf(terms, known)];
  if (!of || !per)
    return fault(
      'Its equation does not have both substances.',
      'Write an equation with what is assayed and the other.',
    );
  return good(of.term.coefficient.div(of.each).div(per.term.coefficient.div(per.each)));
}

/** mol of one substance that neutralises a mol of the other; where both are acids or bases no equation is needed. */
function ratioByProtons(wanted: Formula, known: Formula, indicator: string | undefined): Result<Decimal> {
  const [of, per] = [acidBaseOf(wanted, indicator), acidBaseOf(known, indicator)];
  if (of && per && of.kind !== per.kind) return good(per.equivalents.div(of.equivalents));
  return fault('Nothing tells in what ratio they react.', 'Write equation: with what is assayed and the other in it.');
}

const ratioOf = (assay: AssayMeasured, wanted: Formula, known: Formula): Result<Decimal> =>
  assay.equation === undefined
    ? ratioByProtons(wanted, known, assay.indicator)
    : ratioByEquation(assay.equation, wanted, known);

interface Known {
  readonly formula: Formula;
  readonly moles: UncertainDecimal;
}

/** What was weighed and is known: `C8H5KO4 0.442 g`, `BaSO4 0.6168 g`. */
function weighedKnown(line: string, { resolve, balance }: AssayOf, key: string, example: string): Result<Known> {
  const read = resolve(line);
  const { substance, portion, strength } = read.ok ? read.value : {};
  const amount = portion?.amount;
  if (!substance || amount?.dimension !== 'mass') return needs(key, example);
  const mass = measured(amount.written, 'mass', key, balance);
  const perMole = perMoleOf(substance.parsed);
  const share = strength?.massFraction;
  const moles = mass && perMole && dividedBy(share ? times(mass, share) : mass, perMole);
  return moles ? good({ formula: substance.parsed, moles }) : needs(key, example);
}

/** What ran from the burette and is known: `NaOH 0.108 mol/L`. */
function titrantKnown(line: string, used: UncertainDecimal, { resolve }: AssayOf): Result<Known> {
  const read = resolve(line);
  const { substance, strength } = read.ok ? read.value : {};
  const perMillilitre = strength?.molarConcentration;
  if (!substance || !perMillilitre) return needs('titrant', 'NaOH 0.108 mol/L');
  return good({ formula: substance.parsed, moles: times(used, perMillilitre) });
}

function byTitration(assay: AssayMeasured, of: AssayOf, formula: Formula): Result<Assayed> {
  const used = measured(assay.used, 'volume', 'used', of.balance);
  if (!used) return needs('used', '31.43 mL');
  if (assay.titrant !== undefined) {
    const titrant = titrantKnown(assay.titrant, used, of);
    if (!titrant.ok) return titrant;
    const ratio = ratioOf(assay, formula, titrant.value.formula);
    return ratio.ok ? inTaken(scaled(titrant.value.moles, ratio.value), formula, assay, of.balance) : ratio;
  }
  if (assay.standard === undefined) return needs('titrant', 'NaOH 0.108 mol/L');
  const standard = weighedKnown(assay.standard, of, 'standard', 'C8H5KO4 0.442 g');
  if (!standard.ok) return standard;
  const ratio = ratioOf(assay, formula, standard.value.formula);
  if (!ratio.ok) return ratio;
  const perLitre = dividedBy(scaled(standard.value.moles, ratio.value.times(1000)), used);
  return perLitre ? good({ value: perLitre, unit: 'mol/L', by: assay.by }) : needs('used', '31.43 mL');
}

/** Elements that come from the reagents or the air and say nothing of what was taken. */
const common = new Set(['H', 'O']);

/** mol of the substance in a mol of what was weighed, by the elements that only both have. */
function ratioByElements(wanted: Formula, known: Formula): Result<Decimal> {
  const [ours, theirs] = [composition(wanted), composition(known)];
  const shares = [...theirs]
    .filter(([symbol]) => !common.has(symbol) && ours.has(symbol))
    .map(([symbol, count]) => exact(count.low).div(ours.get(symbol)!.low));
  const [first] = shares;
  if (first && shares.every((share) => share.minus(first).abs().lt('1e-9'))) return good(first);
  return fault('Nothing tells how much of it one of what was weighed stands for.', 'Write equation: with both in it.');
}

function byWeighing(assay: AssayMeasured, of: AssayOf, formula: Formula): Result<Assayed> {
  if (assay.weighed === undefined) return needs('weighed', 'BaSO4 0.6168 g');
  const weighed = weighedKnown(assay.weighed, of, 'weighed', 'BaSO4 0.6168 g');
  if (!weighed.ok) return weighed;
  const { formula: known, moles } = weighed.value;
  const ratio =
    assay.equation === undefined ? ratioByElements(formula, known) : ratioByEquation(assay.equation, formula, known);
  return ratio.ok ? inTaken(scaled(moles, ratio.value), formula, assay, of.balance) : ratio;
}

function byDensity(assay: AssayMeasured, formula: Formula): Result<Assayed> {
  const density = quantityOf(assay.density);
  if (density?.dimension !== 'density') return needs('density', '1.18 g/mL');
  const { massFraction, basis } = resolveStrength({ stuff: 'assay', formula, density, dissolved: true });
  if (!massFraction || basis !== 'density')
    return fault('No table tells its strength from its density.', 'Titrate it, or state its strength.');
  return good({ value: scaled(massFraction, 100), unit: '%', by: assay.by });
}

/** Substances that leave on ignition whatever else is there. */
const leaves = new Set(['H2O', 'CO2', 'CO', 'SO2', 'SO3', 'NH3', 'NO', 'NO2', 'N2', 'HCl', 'H2S', 'O2']);

/** Share of the mass that leaves by the equation, or with the water of crystallisation; undefined where none does. */
function lossInTheory(assay: AssayMeasured, formula: Formula): Result<UncertainDecimal> {
  const perMole = perMoleOf(formula);
  if (!perMole) return fault('It has no molar mass.', 'Write a definite formula.');
  if (assay.equation === undefined) {
    const dry = withoutWater(formula);
    const left = dry && perMoleOf(dry);
    const lost = left && dividedBy(minus(perMole, left), perMole);
    return lost ? good(lost) : needs('equation', 'CaCO3 -> CaO + CO2');
  }
  const equation = equationOf(assay.equation);
  if (!equation.ok) return equation;
  const { reactants, products } = equation.value;
  const own = termOf(reactants, formula);
  const mass = ({ formula: one, coefficient }: Term): UncertainDecimal | undefined => {
    const each = perMoleOf(one);
    return each && scaled(each, coefficient);
  };
  const gone = products.filter(({ label }) => leaves.has(label));
  const lost = gone.flatMap((term) => mass(term) ?? []);
  const whole = own && scaled(perMole, own.term.coefficient.div(own.each));
  const total = lost.length > 0 && lost.length === gone.length ? lost.reduce(plus) : undefined;
  const share = whole && total && dividedBy(total, whole);
  return share ? good(share) : fault('Its equation has no gas or water that leaves.', 'Write CaCO3 -> CaO + CO2.');
}

function byIgnition(assay: AssayMeasured, { balance }: AssayOf, formula: Formula): Result<Assayed> {
  const before = measured(assay.before ?? assay.taken, 'mass', 'before', balance);
  const after = measured(assay.after, 'mass', 'after', balance);
  if (!before) return needs('before', '2.497 g');
  if (!after) return needs('after', '1.596 g');
  const theory = lossInTheory(assay, formula);
  if (!theory.ok) return theory;
  const lost = dividedBy(minus(before, after), before);
  const share = lost && dividedBy(lost, theory.value);
  return share ? good({ value: scaled(share, 100), unit: '%', by: assay.by }) : needs('before', '2.497 g');
}

/** Dimensions that an assay's result may be written in, and their unit here. */
const resultUnits: Readonly<Partial<Record<Quantity['dimension'], Assayed['unit']>>> = {
  'mass-percent': '%',
  concentration: 'mol/L',
};

/** What an assay came to, as somebody wrote it down: `0.8 ± 0.1 mol/L`, `titrated twice: 0.3–0.4 mol/L`. */
function asStated(written: string): Result<Assayed> {
  for (const part of [written, ...written.split(/[,;:(]\s+|\)/)]) {
    const quantity = quantityOf(part.trim());
    const unit = quantity && resultUnits[quantity.dimension];
    if (quantity && unit) return good({ value: reading(quantity, 'assay/stated'), unit, by: 'stated' });
  }
  return fault('No strength or purity could be read from its assay.', 'Write what it came to: 0.8 mol/L, or 95-99 %.');
}

/**
 * Reckons an assay. A titration by the protons of acid and base up to its indicator, or by its equation; a weighing by
 * the element that both have, or by its equation; a density by the tables; an ignition by what its loss is of the loss
 * in theory. A hydrate’s percent counts the substance as its formula is written.
 * Errors: `assay-not-reckoned`, with what is lacking.
 * Source: worked examples in tests/reference/workshop/assays.csv.
 */
export function reckonAssay(assay: AssayWritten, of: AssayOf): Result<Assayed> {
  if (typeof assay === 'string') return asStated(assay);
  const { formula } = of;
  if (!formula) return fault('Nothing says what it is made of.', 'Give its formula.');
  switch (assay.by) {
    case 'titration':
      return byTitration(assay, of, formula);
    case 'gravimetric':
      return byWeighing(assay, of, formula);
    case 'density':
      return byDensity(assay, formula);
    case 'ignition':
      return byIgnition(assay, of, formula);
  }
}

/** What an assay came to, as text that is read as a strength or purity: `1.697 mol/L u = 0.0021 mol/L`. */
export function assayedText({ value, unit }: Assayed): string {
  const uncertainty = standardUncertainty(value);
  const shown = value.value.toSignificantDigits(10).toFixed();
  return uncertainty.isZero()
    ? `${shown} ${unit}`
    : `${shown} ${unit} u = ${uncertainty.toSignificantDigits(3).toFixed()} ${unit}`;
}

/** For data: value, unit and expanded uncertainty as text. */
export function assayedFigure({ value, unit }: Assayed): {
  readonly value: string;
  readonly unit: string;
  readonly uncertainty: string;
} {
  return {
    value: value.value.toSignificantDigits(12).toFixed(),
    unit,
    uncertainty: expandedUncertainty(value).toSignificantDigits(3).toFixed(),
  };
}
