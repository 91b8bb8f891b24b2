// A weighing list of a reaction and reagents named on the command line.
import {
  balancedOrAfresh,
  imbalances,
  imbalanceSentence,
  parseEquation,
  printEquation,
  printFormula,
  type Decimal,
  type Equation,
  type Formula,
  type Quantity,
  type Term,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import { bad, good, type Outcome } from '../../outcome.js';
import {
  assumptionsOf,
  readReagentText,
  withPlainPoints,
  resolveNamed,
  resolveReagent,
  saysDry,
  takePortion,
  usualHydrate,
  type Cupboard,
  type ReagentWritten,
  type ResolvedReagent,
} from '../../reagents/index.js';
import {
  wantedSubstance,
  weighingList,
  weighingNoteWords,
  type WeighingLine,
  type WeighingList,
} from '../../reckoning/amounts/weighing.js';
import { cupboardAt } from '../entry-reader.js';
import { about, refuse, type Answer, type Weighed } from './answer.js';
import { dangerLines, jsonDangers, type DangersShown } from './foreseen.js';
import { listAnswer } from './list.js';
import { lotsShort, shortWords, type LotShort } from './lots-short.js';
import { balanceHere } from './balance-here.js';
import { amountText, lotFault, nameFault, productOf, sure } from './options.js';
import { planOf } from '../../reckoning/amounts/planning.js';
import { expectedShare, withExcess, type PlanText } from './planning.js';
import { scaleCaution } from './scale.js';

/** What is asked of a reaction, as it was written. */
export interface ReactionText {
  readonly reaction: string;
  readonly reagents: readonly string[];
  readonly product?: string;
  readonly obtained?: string;
  readonly for?: string;
  readonly balance?: string;
  readonly plan: PlanText;
}

interface Balanced {
  readonly equation: Equation;
  readonly remarks: readonly string[];
}

/** The reaction as it is reckoned: as written where it balances, else with its coefficients found. */
function readReaction(written: string): Weighed<Balanced> {
  const parsed = parseEquation(written);
  if (!parsed.ok) return refuse(parsed.fault, written);
  const balanced = balancedOrAfresh(parsed.value);
  if (!balanced.ok) {
    const off = imbalanceSentence(imbalances(parsed.value));
    const message = `The reaction does not balance. ${off} ${balanced.fault.message}`;
    return refuse({ ...balanced.fault, message }, written);
  }
  const { equation, afresh } = balanced.value;
  const doubts = parsed.value.doubts.map(({ message }) => message);
  const found = `As written the reaction does not balance; it is reckoned as ${printEquation(equation)}.`;
  return { ok: true, value: { equation, remarks: afresh ? [...doubts, found] : doubts } };
}

interface LineRead {
  readonly line: WeighingLine;
  /** What it is, for the judging of dangers. */
  readonly reagent: ResolvedReagent;
  readonly remarks: readonly string[];
}

/** What a formula leaves open, or could mean besides; what was misspelt is among the assumptions. */
const openIn = (formula: Formula | undefined): readonly string[] =>
  (formula?.doubts ?? [])
    .filter(({ code }) => code !== 'zero-for-oxygen' && code !== 'lost-dot')
    .map(({ message }) => message);

/** One reagent of a reaction as a line of the list, with what had to be assumed of it. */
function lineOf(
  written: ReagentWritten,
  id: string,
  equation: Equation,
  balance: Decimal | undefined,
  cupboard: Cupboard,
): Outcome<LineRead> {
  const reagent = resolveReagent(written, cupboard, { id, ...(balance && { balance }) });
  const { name, substance, portion } = reagent;
  const term = equation.reactants.find(({ label }) => label === written.name);
  const formula = portion.formula ?? term?.formula;
  // Words behind a formula, and no amount: one of them was meant as a quantity.
  const meant = written.amount ? undefined : written.unused;
  if (!formula && !meant && reagent.origin) return bad(lotFault(reagent.origin.lot));
  if (!formula || meant) return bad(nameFault([written.name, ...(meant ?? [])].join(' ')));
  const weighedDry = portion.amount?.dimension === 'mass' && !portion.strength;
  const hydrate = weighedDry ? usualHydrate(printFormula(formula)) : undefined;
  return good({
    line: { role: 'reactant', takesPart: true, measure: { ...portion, formula } },
    reagent,
    remarks: [
      ...openIn(substance?.parsed),
      ...assumptionsOf(reagent),
      ...(hydrate !== undefined && !saysDry([name, ...reagent.state].join(' '))
        ? [`${name} is reckoned without water; it is often sold as ${hydrate}. Look at the label.`]
        : []),
    ],
  });
}

/** Every reagent as a line of the list; where none is named, every reactant, to be filled in. */
function linesOf(
  asked: ReactionText,
  equation: Equation,
  cupboard: Cupboard,
  balance: Decimal | undefined,
): Weighed<readonly LineRead[]> {
  const lines: LineRead[] = [];
  for (const [index, text] of asked.reagents.entries()) {
    const read = readReagentText(withPlainPoints(text));
    if (!read.ok) return refuse(read.fault, text);
    const line = lineOf(read.value, `${index}/${read.value.name}`, equation, balance, cupboard);
    if (!line.ok) return refuse(line.fault, text);
    lines.push(line.value);
  }
  const filled = (term: Term): LineRead => ({
    line: { role: 'reactant', takesPart: true, measure: { id: term.label, name: term.label, formula: term.formula } },
    reagent: resolveNamed(term.label, term.label),
    remarks: [],
  });
  return { ok: true, value: lines.length > 0 ? lines : equation.reactants.map(filled) };
}

type AmountRead = ReturnType<typeof amountText>;
const readAmount = (text: string | undefined): AmountRead | undefined =>
  text === undefined ? undefined : amountText(text);

/** What was obtained, in grams of product. */
function massObtained(text: string, { amount, density, purity }: AmountRead, product: Term): Weighed<UncertainDecimal> {
  const quantity: Quantity = sure(amount, 'obtained');
  const { pure } = takePortion({
    id: 'obtained',
    name: 'product',
    formula: product.formula,
    amount: quantity,
    density,
    purity,
  });
  if (pure) return { ok: true, value: pure };
  const message = `Nothing says what ${text} weighs.`;
  return refuse({ code: 'obtained', message, cure: 'Give a mass, or a volume with its density.' }, text);
}

const namesIn = (reagents: readonly string[]): readonly string[] =>
  reagents.map(readReagentText).flatMap((read) => (read.ok ? [read.value.name] : []));

/** What can be foreseen of the reaction, with the amounts of the list; what nothing supplies is there in plenty. */
async function dangersOf(
  written: string,
  lines: readonly LineRead[],
  { lines: weighed, limitation }: WeighingList,
): Promise<DangersShown> {
  const { foresee } = await import('../../hazards/foresee/foresee.js');
  const named = lines.map(({ reagent }, at) => ({ reagent: { ...reagent, taken: weighed[at]!.taken } }));
  const assumed = limitation.assumedPresent.map(({ label }) => ({ reagent: resolveNamed(label, label) }));
  const { foreseen, unknown, taken } = foresee({ ingredients: [...named, ...assumed], reaction: written });
  return { foreseen, unknown, taken };
}

/** The lots of which less is left than the list asks for. */
async function shortOf(
  lines: readonly LineRead[],
  { lines: weighed }: WeighingList,
  journal: string,
): Promise<readonly LotShort[]> {
  const needed = lines.flatMap(({ reagent: { origin } }, at) => {
    const grams = weighed[at]!.taken.mass?.value;
    return origin && grams ? [{ lot: origin.lot, grams }] : [];
  });
  if (needed.length === 0) return [];
  const { contextOf, entryReader } = await import('../entry-reader.js');
  const reader = await entryReader(journal);
  return reader.ok ? lotsShort(needed, undefined, reader.value, await contextOf(reader.value)) : [];
}

/**
 * Reckons the list of a reaction.
 * @param named the journal of whose balance it is, where one is named
 */
export async function weighReaction(
  asked: ReactionText,
  journal: string,
  named: string | undefined,
): Promise<Weighed<Answer>> {
  const { step, halfWidth } = await balanceHere(asked.balance, named);
  const expect = expectedShare(asked.plan.expect);
  const read = readReaction(asked.reaction);
  if (!read.ok) return read;
  const { equation } = read.value;
  const wanted = readAmount(asked.for);
  const obtained = readAmount(asked.obtained);
  const product = about(productOf(equation, asked.product ?? obtained?.formula ?? wanted?.formula), asked.reaction);
  if (!product.ok) return product;
  const cupboard = await cupboardAt(journal, namesIn(asked.reagents));
  const lines = linesOf(asked, equation, cupboard, halfWidth);
  if (!lines.ok) return lines;
  const substance = wanted && about(wantedSubstance(sure(wanted.amount, 'for'), product.value), asked.for!);
  if (substance && !substance.ok) return substance;
  const list = about(
    weighingList({
      equation,
      product: product.value,
      lines: withExcess(
        lines.value.map(({ line }) => line),
        asked.plan.excess,
      ),
      wanted: expect ? substance?.value.div(expect) : substance?.value,
      step,
    }),
    asked.reaction,
  );
  if (!list.ok) return list;
  const mass = obtained && massObtained(asked.obtained!, obtained, product.value);
  if (mass && !mass.ok) return mass;
  const made = equation.products.find(({ column }) => column === product.value.column)!.label;
  const remarks = [
    ...read.value.remarks,
    ...(made === product.value.label
      ? []
      : [`The reaction makes ${made}; its yield is reckoned as ${product.value.label}.`]),
    ...lines.value.flatMap((line) => line.remarks),
    ...list.value.notes.map(weighingNoteWords),
    ...scaleCaution(list.value.factor),
  ];
  const reaction = printEquation(equation);
  const dangers = await dangersOf(reaction, lines.value, list.value);
  const short = await shortOf(lines.value, list.value, journal);
  const before = [...(await dangerLines(dangers)), ...short.map(shortWords)];
  return {
    ok: true,
    value: listAnswer(
      {
        list: list.value,
        heading: [reaction],
        before,
        obtained: mass?.value,
        remarks,
        step,
        expect,
        plan: planOf(list.value.lines, equation),
      },
      { reaction, ...jsonDangers(dangers), lotsShort: short },
    ),
  };
}
