// A weighing list for a composition that is aimed at: mixed oxides, spinels, solid solutions, recipes by oxides.
import {
  expandedUncertainty,
  oxideEquivalents,
  parseFormula,
  parseTarget,
  sharesTaken,
  solveTarget,
  type Decimal,
  type Target,
} from '../../chemistry/index.js';
import {
  assumptionsOf,
  readReagentText,
  withPlainPoints,
  resolveReagent,
  takePortion,
  type ResolvedReagent,
  type TakenPortion,
} from '../../reagents/index.js';
import { portionOf } from '../../reckoning/amounts/scaling.js';
import { coarseNote, weighingNoteWords } from '../../reckoning/amounts/weighing.js';
import { WrongUse } from '../command.js';
import { cupboardAt } from '../entry-reader.js';
import { about, decimal, jsonOf, refuse, type Answer, type Weighed } from './answer.js';
import { dangerLines, jsonDangers, type DangersShown } from './foreseen.js';
import { amountText, nameFault, sure } from './options.js';

/** What is asked, as it was written. */
export interface TargetText {
  readonly target: string;
  readonly from: readonly string[];
  readonly for?: string;
  /** Smallest step of the balance, g. */
  readonly step: Decimal;
  /** Share of the theoretical yield that experience gives, 0 to 1. */
  readonly expect?: Decimal | undefined;
}

async function sourcesOf(
  { from, step }: Pick<TargetText, 'from' | 'step'>,
  journal: string,
): Promise<Weighed<readonly ResolvedReagent[]>> {
  const names = from.map(readReagentText).flatMap((read) => (read.ok ? [read.value.name] : []));
  const cupboard = await cupboardAt(journal, names);
  const sources: ResolvedReagent[] = [];
  for (const [index, text] of from.entries()) {
    const read = readReagentText(withPlainPoints(text));
    if (!read.ok) return refuse(read.fault, text);
    const reagent = resolveReagent(read.value, cupboard, { id: `${index}/${read.value.name}`, balance: step.div(2) });
    if (!reagent.portion.formula) return refuse(nameFault(read.value.name), text);
    sources.push(reagent);
  }
  return { ok: true, value: sources };
}

/** Units of the target that are to be made: for a mass of it, or from the source that has an amount. */
function unitsWanted(
  asked: TargetAsked,
  target: Target,
  sources: readonly ResolvedReagent[],
  moles: readonly Decimal[],
): Decimal {
  if (asked.for !== undefined) {
    const amount = sure(amountText(asked.for).amount, 'for');
    if (amount.dimension === 'amount') return amount.base;
    if (amount.dimension !== 'mass' || !amount.base.gt(0))
      throw new WrongUse('--for takes a mass of product, like "5 g".');
    const wanted = asked.expect ? amount.base.div(asked.expect) : amount.base;
    return wanted.div(target.unitMass.value);
  }
  const given = sources.flatMap(({ taken }, at) => {
    const substance = taken.substance?.value;
    return substance && moles[at]!.gt(0) ? [substance.div(moles[at]!)] : [];
  });
  if (given.length === 0) throw new WrongUse('Say how much is wanted with --for "5 g", or give one source an amount.');
  return given.reduce((least, units) => (units.lt(least) ? units : least));
}

/** A source as it is weighed out. */
interface Weighing {
  readonly reagent: ResolvedReagent;
  /** As it is read on the balance: `2.20 g`. */
  readonly measured?: string;
  readonly taken: TakenPortion;
}

function weighings(
  sources: readonly ResolvedReagent[],
  moles: readonly Decimal[],
  units: Decimal,
  step: Decimal,
): readonly Weighing[] {
  return sources.map((reagent, at) => {
    const portion = { ...portionOf(reagent.portion, moles[at]!.times(units), step), balance: step.div(2) };
    const measured = portion.amount?.written;
    return { reagent, ...(measured !== undefined && { measured }), taken: takePortion(portion) };
  });
}

const percentOf = (part: Decimal | undefined, whole: Decimal): string | undefined =>
  part && whole.gt(0) ? part.div(whole).times(100).toSignificantDigits(6).toFixed() : undefined;

const sumOf = (values: readonly (Decimal | undefined)[], none: Decimal): Decimal =>
  values.reduce<Decimal>((total, value) => (value ? total.plus(value) : total), none);

/** Oxides of the product, percent by mass. */
function oxidesOf({ written }: Target): readonly { readonly formula: string; readonly percent: string }[] {
  const parsed = parseFormula(written);
  if (!parsed.ok) return [];
  return oxideEquivalents(parsed.value).map(({ oxide, percent }) => ({ formula: oxide, percent: percent.toFixed(2) }));
}

/** What is fired is judged at the heat that makes oxides. */
const firing = 1000;

async function dangersOf(lines: readonly Weighing[]): Promise<DangersShown> {
  const { foresee } = await import('../../hazards/foresee/foresee.js');
  const ingredients = lines.map(({ reagent, taken }) => ({ reagent: { ...reagent, taken } }));
  const { foreseen, unknown, taken } = foresee({ ingredients, heating: [{ of: 'mixture', toCelsius: firing }] });
  return { foreseen, unknown, taken };
}

/** Of what is weighed out in few steps of the balance: how far off weighing alone makes it. */
const coarseWords = ({ measured, taken }: Weighing, step: Decimal): readonly string[] =>
  measured === undefined ? [] : coarseNote(taken, measured, step).map(weighingNoteWords);

/** What remarks on a list for a composition rest on. */
interface Remarked {
  readonly target: Target;
  readonly mustLeave: readonly string[];
  readonly lines: readonly Weighing[];
  readonly step: Decimal;
}

function remarksOn({ target, mustLeave, lines, step }: Remarked): readonly string[] {
  const sum = target.percentSum;
  return [
    ...lines.flatMap((line) => coarseWords(line, step)),
    ...lines.flatMap(({ reagent }) => assumptionsOf(reagent)),
    ...(sum && sum.minus(100).abs().gt('0.5')
      ? [`The recipe adds up to ${sum.toFixed()} %; it is brought to 100 %.`]
      : []),
    ...(mustLeave.length > 0
      ? [`${mustLeave.join(', ')} of the sources must leave by washing or in the fire: the product has none of it.`]
      : []),
    `Dangers were judged as if all of it were fired together at ${firing} °C.`,
  ];
}

interface Made {
  readonly target: Target;
  readonly units: Decimal;
  readonly lines: readonly Weighing[];
  readonly remarks: readonly string[];
  readonly dangers: DangersShown;
}

function jsonShape({ target, units, lines, remarks, dangers }: Made): Record<string, unknown> {
  const zero = units.times(0);
  const masses = sumOf(
    lines.map(({ taken }) => taken.mass?.value),
    zero,
  );
  const moles = sumOf(
    lines.map(({ taken }) => taken.substance?.value),
    zero,
  );
  const shares = sharesTaken(
    target,
    lines.flatMap(({ reagent, taken }) =>
      taken.substance ? [{ formula: reagent.portion.formula!, moles: taken.substance.value }] : [],
    ),
  );
  return {
    target: target.written,
    reagents: lines.map(({ reagent, taken }) => ({
      name: reagent.name,
      formula: reagent.substance?.formula,
      role: 'reactant',
      ...(taken.mass && { mass: jsonOf(taken.mass, 'g') }),
      ...(taken.volume && { volume: jsonOf(taken.volume, 'mL') }),
      amount: taken.substance ? jsonOf(taken.substance, 'mol') : null,
      molePercent: percentOf(taken.substance?.value, moles),
      massPercent: percentOf(taken.mass?.value, masses),
      limiting: false,
      left: null,
      reckoned: true,
    })),
    product: {
      formula: target.written,
      theoreticalYield: {
        value: decimal(units.times(target.unitMass.value)),
        unit: 'g',
        expandedUncertainty: expandedUncertainty(target.unitMass)
          .times(units.toNumber())
          .toSignificantDigits(3)
          .toFixed(),
      },
      oxides: oxidesOf(target),
      elements: shares?.map(({ symbol, target: wanted, taken }) => ({
        symbol,
        target: decimal(wanted),
        taken: decimal(taken),
      })),
    },
    ...(remarks.length > 0 && { remarks }),
    ...jsonDangers(dangers),
    lotsShort: [],
  };
}

async function textOf({ target, units, lines, remarks, dangers }: Made): Promise<string> {
  const width = Math.max(...lines.map(({ reagent }) => reagent.name.length));
  const oxides = oxidesOf(target).map(({ formula, percent }) => `${formula} ${percent} %`);
  return `${[
    `For ${units.times(target.unitMass.value).toSignificantDigits(4).toFixed()} g of ${target.written}`,
    '',
    ...(await dangerLines(dangers)),
    '',
    ...lines.map(({ reagent, taken, measured = 'an amount that is not known' }) => {
      const mmol = taken.substance
        ? `, ${taken.substance.value.times(1000).toSignificantDigits(4).toFixed()} mmol`
        : '';
      return `${reagent.name.padEnd(width)}  ${measured}${mmol}`;
    }),
    '',
    ...(oxides.length > 0 ? [`By oxides: ${oxides.join(', ')}`] : []),
    ...remarks,
  ].join('\n')}\n`;
}

/** What is asked of sources that are known already. */
export interface TargetAsked extends Omit<TargetText, 'from'> {
  readonly sources: readonly ResolvedReagent[];
  /** What is to be said of them besides. */
  readonly remarks?: readonly string[];
}

/** Reckons what to weigh for a composition. */
export async function weighTarget(asked: TargetText, journal: string): Promise<Weighed<Answer>> {
  if (asked.from.length === 0) throw new WrongUse('Name what it is made from: --from MnCO3 --from ZnO.');
  const sources = await sourcesOf(asked, journal);
  return sources.ok ? weighSources({ ...asked, sources: sources.value }) : sources;
}

/** The same with sources that are known already, as an entry names them. */
export async function weighSources(asked: TargetAsked): Promise<Weighed<Answer>> {
  const { sources } = asked;
  const target = about(parseTarget(asked.target), asked.target);
  if (!target.ok) return target;
  const formulae = sources.map(({ name, portion }) => ({ name, formula: portion.formula! }));
  const solved = about(solveTarget(target.value, formulae), asked.target);
  if (!solved.ok) return solved;
  const { moles, mustLeave } = solved.value;
  const units = unitsWanted(asked, target.value, sources, moles);
  const lines = weighings(sources, moles, units, asked.step);
  const dangers = await dangersOf(lines);
  const found = remarksOn({ target: target.value, mustLeave, lines, step: asked.step });
  const remarks = [...(asked.remarks ?? []), ...found];
  const made = { target: target.value, units, lines, remarks, dangers };
  return { ok: true, value: { json: jsonShape(made), text: await textOf(made) } };
}
