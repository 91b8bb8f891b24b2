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
  type Quantity,
  type Term,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import { bad, good, type Outcome } from '../../outcome.js';
import {
  assumptionsOf,
  readReagentText,
  resolveReagent,
  takePortion,
  type Cupboard,
  type ReagentWritten,
} from '../../reagents/index.js';
import { anhydrousWords, usualHydrate } from '../../reckoning/hydrates.js';
import { wantedSubstance, weighingList, weighingNoteWords, type WeighingLine } from '../../reckoning/weighing.js';
import { about, refuse, type Answer, type Weighed } from './answer.js';
import { listAnswer } from './list.js';
import { amountText, nameFault, productOf, stepOf, sure, usualStep } from './options.js';
import { scaleCaution } from './scale.js';

/** What is asked of a reaction, as it was written. */
export interface ReactionText {
  readonly reaction: string;
  readonly reagents: readonly string[];
  readonly product?: string;
  readonly obtained?: string;
  readonly for?: string;
  readonly balance?: string;
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
  readonly remarks: readonly string[];
}

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
  if (!formula || meant) return bad(nameFault([written.name, ...(meant ?? [])].join(' ')));
  const weighedDry = portion.amount?.dimension === 'mass' && !portion.strength;
  const hydrate = weighedDry ? usualHydrate(printFormula(formula)) : undefined;
  return good({
    line: { role: 'reactant', takesPart: true, measure: { ...portion, formula } },
    remarks: [
      ...(substance?.parsed.doubts.map(({ message }) => message) ?? []),
      ...assumptionsOf(reagent),
      ...(hydrate !== undefined && !anhydrousWords.test([name, ...reagent.state].join(' '))
        ? [`${name} is reckoned without water; it is often sold as ${hydrate}. Look at the label.`]
        : []),
    ],
  });
}

/** Every reagent as a line of the list; where none is named, every reactant, to be filled in. */
function linesOf(asked: ReactionText, equation: Equation, cupboard: Cupboard): Weighed<readonly LineRead[]> {
  const lines: LineRead[] = [];
  const balance = asked.balance === undefined ? undefined : stepOf(asked.balance).div(2);
  for (const [index, text] of asked.reagents.entries()) {
    const read = readReagentText(text);
    if (!read.ok) return refuse(read.fault, text);
    const line = lineOf(read.value, `${index}/${read.value.name}`, equation, balance, cupboard);
    if (!line.ok) return refuse(line.fault, text);
    lines.push(line.value);
  }
  const filled = (term: Term): LineRead => ({
    line: { role: 'reactant', takesPart: true, measure: { id: term.label, name: term.label, formula: term.formula } },
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

/** Reckons the list of a reaction. */
export async function weighReaction(
  asked: ReactionText,
  cupboardFor: (names: readonly string[]) => Promise<Cupboard>,
): Promise<Weighed<Answer>> {
  const step = stepOf(asked.balance ?? usualStep);
  const read = readReaction(asked.reaction);
  if (!read.ok) return read;
  const { equation } = read.value;
  const wanted = readAmount(asked.for);
  const obtained = readAmount(asked.obtained);
  const product = about(productOf(equation, asked.product ?? obtained?.formula ?? wanted?.formula), asked.reaction);
  if (!product.ok) return product;
  const lines = linesOf(asked, equation, await cupboardFor(namesIn(asked.reagents)));
  if (!lines.ok) return lines;
  const substance = wanted && about(wantedSubstance(sure(wanted.amount, 'for'), product.value), asked.for!);
  if (substance && !substance.ok) return substance;
  const list = about(
    weighingList({
      equation,
      product: product.value,
      lines: lines.value.map(({ line }) => line),
      wanted: substance?.value,
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
  return {
    ok: true,
    value: listAnswer({ list: list.value, heading: [reaction], obtained: mass?.value, remarks }, { reaction }),
  };
}
