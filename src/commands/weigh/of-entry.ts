// A weighing list of an entry of the journal, as it is or scaled to an amount of product.
import {
  parseEquation,
  parseQuantity,
  printEquation,
  type Equation,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import type { Entry } from '../../journal/entry.js';
import type { Sample } from '../../journal/schema.js';
import { takePortion } from '../../reagents/index.js';
import type { AmountsReckoning, ReckoningContext } from '../../reckoning/contracts.js';
import {
  wantedSubstance,
  weighingList,
  weighingNoteWords,
  type WeighingLine,
  type WeighingList,
} from '../../reckoning/weighing.js';
import { contextOf, entryReader } from '../entry-reader.js';
import { about, refuse, type Answer, type Weighed } from './answer.js';
import { listAnswer } from './list.js';
import { amountText, productOf, stepOf, sure, usualStep } from './options.js';
import { scaleCaution } from './scale.js';

/** What is asked of an entry, as it was written. */
export interface EntryText {
  readonly number: number;
  readonly sample?: string;
  readonly product?: string;
  readonly for?: string;
  readonly balance?: string;
}

/** Position of the sample that is asked for; the first where none is named, undefined where the entry has none. */
function sampleIndex({ number, sample }: EntryText, entry: Entry): Weighed<number | undefined> {
  if (sample === undefined) return { ok: true, value: entry.samples.length > 0 ? 0 : undefined };
  const value = entry.samples.findIndex((one) => one.sample === sample);
  if (value >= 0) return { ok: true, value };
  const cure = `It has ${entry.samples.map((one) => one.sample).join(', ')}.`;
  return refuse({ code: 'no-sample', message: `Entry ${number} has no sample ${sample}.`, cure }, sample);
}

/** The entry's reaction, where it can be reckoned. */
function reactionOf({ number }: EntryText, { reaction }: Entry, amounts: AmountsReckoning): Weighed<Equation> {
  const cure = 'Write a balanced reaction: in the entry.';
  if (reaction === undefined)
    return refuse({ code: 'no-reaction', message: `Entry ${number} has no reaction.`, cure }, '');
  if (!amounts.reaction?.balanced) {
    const message = `The reaction of entry ${number} cannot be reckoned: ${amounts.reaction?.fault ?? ''}`;
    return refuse({ code: 'no-reaction', message, cure }, reaction);
  }
  return about(parseEquation(reaction), reaction);
}

/** What the yield asked for comes to with the yield that the sample gave before. */
function experience(list: WeighingList, sample: Sample | undefined, amounts: AmountsReckoning): readonly string[] {
  const before = amounts.samples.find((one) => one.sample === sample?.sample)?.percentYield;
  const hoped = list.theoretical.mass;
  if (!list.factor || !before || !sample || !hoped) return [];
  const expected = hoped.value.times(before.value).div(100).toSignificantDigits(3).toFixed();
  return [
    `The amount asked for is the theoretical yield. With the ${before.text} that sample ${sample.sample} gave, ` +
      `about ${expected} g are to be expected.`,
  ];
}

async function hasDangers(entry: Entry, context: ReckoningContext): Promise<boolean> {
  const { reckonDangers } = await import('../../reckoning/dangers.js');
  const { dangers } = reckonDangers(entry, context);
  return (
    (dangers.foreseen?.length ?? 0) > 0 || (dangers.notJudged?.length ?? 0) > 0 || dangers.box.signalWord !== undefined
  );
}

async function scaledDangers(list: WeighingList, entry: Entry, context: ReckoningContext): Promise<readonly string[]> {
  const cautions = scaleCaution(list.factor);
  return cautions.length > 0 && (await hasDangers(entry, context))
    ? cautions.map((caution) => `Dangers are foreseen for this entry. ${caution}`)
    : [];
}

function headingOf(entry: Entry, sample: Sample | undefined, equation: Equation): readonly string[] {
  const differs = sample?.differs ? ` (${sample.differs})` : '';
  const ofSample = sample ? `, sample ${sample.sample}${differs}` : '';
  return [`No. ${entry.number}, ${entry.title}${ofSample}`, printEquation(equation)];
}

/** Reckons the list of an entry. */
export async function weighEntry(asked: EntryText, journal: string): Promise<Weighed<Answer>> {
  const [reader, { reckonAmounts }, { ingredientsOf }, { takesPart }, { remarksOn }] = await Promise.all([
    entryReader(journal),
    import('../../reckoning/amounts.js'),
    import('../../reckoning/ingredients.js'),
    import('../../reckoning/sample-amounts.js'),
    import('../../journal/place.js'),
  ]);
  const number = String(asked.number);
  if (!reader.ok) return refuse(reader.fault, number);
  const found = about(reader.value.entry(asked.number), number);
  if (!found.ok) return found;
  const entry = found.value;
  const context = await contextOf(reader.value);
  const { amounts, findings } = reckonAmounts(entry, context);
  const index = sampleIndex(asked, entry);
  if (!index.ok) return index;
  const equation = reactionOf(asked, entry, amounts);
  if (!equation.ok) return equation;
  const reaction = entry.reaction!;
  const product = about(productOf(equation.value, asked.product ?? amounts.product?.formula), reaction);
  if (!product.ok) return product;
  const step = stepOf(asked.balance ?? reader.value.settings.balance ?? usualStep);
  const wanted =
    asked.for === undefined
      ? undefined
      : about(wantedSubstance(sure(amountText(asked.for).amount, 'for'), product.value), asked.for);
  if (wanted && !wanted.ok) return wanted;
  const lines = ingredientsOf(entry, index.value, context, step.div(2)).map(
    (ingredient): WeighingLine => ({
      measure: ingredient.measure,
      role: ingredient.use.role ?? 'reactant',
      takesPart: takesPart(ingredient),
    }),
  );
  const list = about(
    weighingList({ equation: equation.value, product: product.value, lines, wanted: wanted?.value, step }),
    reaction,
  );
  if (!list.ok) return list;
  const sample = index.value === undefined ? undefined : entry.samples[index.value]!;
  const obtainedText = wanted === undefined ? sample?.obtained : undefined;
  const obtained: UncertainDecimal | undefined =
    obtainedText === undefined
      ? undefined
      : takePortion({
          id: 'obtained',
          name: 'product',
          formula: product.value.formula,
          amount: sure(parseQuantity(obtainedText), 'obtained'),
          balance: step.div(2),
        }).pure;
  const remarks = [
    ...list.value.notes.map(weighingNoteWords),
    ...experience(list.value, sample, amounts),
    ...(await scaledDangers(list.value, entry, context)),
  ];
  const shown = { list: list.value, heading: headingOf(entry, sample, equation.value), obtained, remarks };
  const aside = remarksOn(entry, findings)
    .map((one) => `${one.file}:${one.line}:${one.column} ${one.reason} ${one.note}\n`)
    .join('');
  const more = {
    entry: asked.number,
    ...(sample && { sample: sample.sample }),
    reaction: printEquation(equation.value),
  };
  return { ok: true, value: { ...listAnswer(shown, more), aside } };
}
