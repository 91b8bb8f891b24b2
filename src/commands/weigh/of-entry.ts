// A weighing list of an entry of the journal, as it is or scaled to an amount of product.
import {
  parseEquation,
  printEquation,
  type Decimal,
  type Equation,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import type { LeftOut } from '../../journal/check.js';
import type { Entry } from '../../journal/entry.js';
import type { Sample } from '../../journal/schema.js';
import { takePortion, writtenQuantity } from '../../reagents/index.js';
import type { AmountsReckoning, ReckoningContext, SampleAmounts } from '../../reckoning/contracts.js';
import { reckonAmounts } from '../../reckoning/amounts/amounts.js';
import { foreseeWithAnswers } from '../../reckoning/dangers/foreseen-and-answered.js';
import { ingredientsOf, type Ingredient } from '../../reckoning/ingredients.js';
import { meantPartner, productOfSample, takesPart } from '../../reckoning/amounts/pot-amounts.js';
import { shortages, shortageWords } from '../../reckoning/amounts/shortage.js';
import {
  wantedSubstance,
  weighingList,
  weighingNoteWords,
  type WeighingLine,
  type WeighingList,
} from '../../reckoning/amounts/weighing.js';
import { formulaAsWeighed } from '../../reckoning/treatment/stands.js';
import { freeAcidOf } from '../../reckoning/amounts/acid-and-alkali.js';
import { takesPartInTarget } from '../../reckoning/amounts/aimed-at.js';
import type { Finding } from '../../remarks/findings.js';
import { contextOf, entryReader, type JournalAtHand } from '../entry-reader.js';
import { about, decimal, jsonOf, refuse, type Answer, type Weighed } from './answer.js';
import { yieldsOf } from '../../crosslinks/best-yield.js';
import { named } from '../../reckoning/comparison-verdicts.js';
import { dangerLines, jsonDangers, type DangersShown } from './foreseen.js';
import { listAnswer } from './list.js';
import { lotsShort, shortWords, type LotShort } from './lots-short.js';
import { amountText, productOf, stepOf, sure, usualStep } from './options.js';
import { planOf, waterOfSteps } from '../../reckoning/amounts/planning.js';
import { expectedShare, withExcess, type PlanText } from './planning.js';
import { scaleCaution } from './scale.js';
import { jsonTreatment, treatmentLines } from './treatment.js';

/** What is asked of an entry, as it was written. */
export interface EntryText {
  readonly number: number;
  readonly sample?: string;
  readonly product?: string;
  readonly for?: string;
  readonly balance?: string;
  readonly plan: PlanText;
}

/** An entry that is weighed, with all that is known of it. */
interface Opened {
  readonly asked: EntryText;
  readonly reader: JournalAtHand;
  readonly context: ReckoningContext;
  readonly entry: Entry;
  readonly amounts: AmountsReckoning;
  readonly findings: readonly Finding[];
  /** Position of the sample; undefined where the entry has none. */
  readonly index?: number;
  readonly sample?: Sample;
  readonly sampleAmounts?: SampleAmounts;
  readonly step: Decimal;
  readonly ingredients: readonly Ingredient[];
}

/** Position of the sample that is asked for; the first where none is named, undefined where the entry has none. */
function sampleIndex({ number, sample }: EntryText, entry: Entry): Weighed<number | undefined> {
  if (sample === undefined) return { ok: true, value: entry.samples.length > 0 ? 0 : undefined };
  const ids = entry.samples.map((one) => one.sample);
  const inCapitals = ids.map((id) => id.toUpperCase());
  const value = ids.includes(sample) ? ids.indexOf(sample) : inCapitals.indexOf(sample.toUpperCase());
  if (value >= 0) return { ok: true, value };
  const cure = `It has ${entry.samples.map((one) => one.sample).join(', ')}.`;
  return refuse({ code: 'no-sample', message: `Entry ${number} has no sample ${sample}.`, cure }, sample);
}

/** Reads the entry and what it rests on. */
async function openEntry(asked: EntryText, journal: string): Promise<Weighed<Opened>> {
  const reader = await entryReader(journal);
  const number = String(asked.number);
  if (!reader.ok) return refuse(reader.fault, number);
  const found = about(reader.value.entry(asked.number), number);
  if (!found.ok) return found;
  const entry = found.value;
  const context = await contextOf(reader.value);
  const { amounts, findings } = reckonAmounts(entry, context);
  const at = sampleIndex(asked, entry);
  if (!at.ok) return at;
  const index = at.value;
  const sample = index === undefined ? undefined : entry.samples[index]!;
  const sampleAmounts = amounts.samples.find((one) => one.sample === (sample?.sample ?? ''));
  const own = reader.value.settings.balance;
  const step = stepOf(asked.balance ?? (typeof own === 'object' ? own.step : own) ?? usualStep);
  const ingredients = ingredientsOf(entry, index, context, step.div(2));
  return {
    ok: true,
    value: {
      asked,
      reader: reader.value,
      context,
      entry,
      amounts,
      findings,
      ...(index !== undefined && { index }),
      ...(sample && { sample }),
      ...(sampleAmounts && { sampleAmounts }),
      step,
      ingredients,
    },
  };
}

/** The entry's reaction, where it can be reckoned. */
function reactionOf({ asked: { number }, entry: { reaction }, amounts }: Opened): Weighed<Equation> {
  const cure = 'Write a balanced reaction: in the entry.';
  if (reaction === undefined)
    return refuse({ code: 'no-reaction', message: `Entry ${number} has no reaction.`, cure }, '');
  if (!amounts.reaction?.balanced) {
    const message = `The reaction of entry ${number} cannot be reckoned: ${amounts.reaction?.fault ?? ''}`;
    return refuse({ code: 'no-reaction', message, cure }, reaction);
  }
  return about(parseEquation(reaction), reaction);
}

/** What the yield asked for comes to with the yield that the sample, or it and its repeats, gave before. */
function experience(list: WeighingList, { asked, sample, amounts }: Opened): readonly string[] {
  const before = sample && yieldsOf(amounts.samples).find(({ samples }) => samples.includes(sample.sample));
  const hoped = list.theoretical.mass;
  if (!list.factor || !before || !hoped || asked.plan.expect !== undefined) return [];
  const expected = hoped.value.times(before.percent).div(100).toSignificantDigits(3).toFixed();
  const whom = before.samples.length > 1 ? `samples ${named(before.samples)}` : `sample ${before.samples[0]!}`;
  return [
    `The amount asked for is the theoretical yield. With the ${before.text} that ${whom} gave, ` +
      `about ${expected} g are to be expected.`,
  ];
}

/** What the list fills in although it was taken: nobody knows how much of it there was. */
function filledInWords({ entry, ingredients }: Opened, { lines }: WeighingList): readonly string[] {
  if (entry.status === 'planned') return [];
  return ingredients.flatMap(({ name, use }, at) => {
    if (!lines[at]?.filledIn) return [];
    // A weighed one is listed so because more of it is asked for: nothing of it is untold.
    if (use.amount !== undefined && writtenQuantity(use.amount)?.dimension === 'mass') return [];
    const untold =
      use.amount === undefined
        ? `nothing says how much of it there was`
        : `“${use.amount}” does not say how much of it there was`;
    return [`${name}: ${untold}; what is listed is what the reaction needs, and was not weighed.`];
  });
}

const noAssayWords = ({ lot, atMostPure }: SampleAmounts['ingredients'][number]): string =>
  `Lot ${lot} has no assay: it is reckoned as if pure` +
  (atMostPure === undefined ? '.' : `, though more came out of it than can be pure: it is at most ${atMostPure}.`);

/** Lots that were made here and have no assay. */
function asIfPureWords(sample: SampleAmounts | undefined): readonly string[] {
  const lots = sample?.ingredients.filter(({ asIfPure }) => asIfPure) ?? [];
  return [...new Set(lots.map(noAssayWords))];
}

/** The dangers of the entry, with so many times as much of everything. */
function dangersOf({ entry, context }: Opened, factor: Decimal | undefined): DangersShown {
  const { foreseen, foresight } = foreseeWithAnswers(entry, context, factor);
  const { taken, unknown, besides } = foresight;
  return { foreseen, unknown: unknown.map(({ name }) => name), taken, toldNotJudged: besides().notJudged };
}

/** The lots of which less is left than this list asks for. */
function shortOf({ ingredients, reader, context, asked }: Opened, list: WeighingList): Promise<readonly LotShort[]> {
  const needed = ingredients.flatMap(({ lot }, at) => {
    const grams = list.lines[at]?.taken.mass?.value;
    return lot === undefined || !grams ? [] : [{ lot, grams }];
  });
  return lotsShort(needed, { number: asked.number, again: list.factor !== undefined }, reader, context);
}

/** What must stand above a list of work that nobody is to take to the bench as it is. */
const notDone: Readonly<Record<string, string>> = {
  abandoned: 'NOT DONE: this was given up, and nothing here is ready to be followed.',
  failed: 'FAILED: this did not give what it was meant to give.',
  withdrawn: 'WITHDRAWN: its results should not be used.',
};

const notReadWords = ({ path, value }: LeftOut): string => {
  const place = path.map((step) => (typeof step === 'number' ? `item ${step + 1}` : step)).join(', ');
  const isPlain = typeof value === 'string' || typeof value === 'number';
  const written = isPlain ? `: ‘${value}’` : '';
  return `NOT READ, and left out below: ${place}${written}. masstone proof says how to mend it.`;
};

/** What of the jars of an entry could not be read, each jar once. */
const leftOutOfJars = ({ ingredients, reader }: Opened): readonly LeftOut[] =>
  [...new Set(ingredients.flatMap(({ use }) => (typeof use.reagent === 'string' ? use.reagent : [])))]
    .flatMap((id) => reader.jarNotRead(id))
    .map(({ path, value }) => ({ path: ['shelf.yaml', ...path], value }));

/**
 * What of the entry and its jars could not be read, so that the list is made without it: `reagents, item 2, amount:
 * ‘2,6o g’`.
 */
const notReadOf = (opened: Opened): readonly string[] =>
  [...(opened.entry.leftOut ?? []), ...leftOutOfJars(opened)].map(notReadWords);

const ofPurity: ReadonlySet<unknown> = new Set(['purity', 'strength']);

/** Names of what has a purity or strength written that could not be read. */
function purityNotRead({ entry, ingredients, reader }: Opened): ReadonlySet<string> {
  const concerns = ({ path }: LeftOut): boolean => ofPurity.has(path.at(-1));
  const inEntry = (entry.leftOut ?? []).filter(concerns).map(({ path }) => path);
  const isIn = (one: Ingredient): boolean =>
    inEntry.some((path) => one.path.every((step, at) => step === path[at])) ||
    (typeof one.use.reagent === 'string' && reader.jarNotRead(one.use.reagent).some(concerns));
  return new Set(ingredients.filter(isIn).map(({ name }) => name));
}

function headingOf(opened: Opened, equation: Equation | undefined): readonly string[] {
  const { entry, sample } = opened;
  const differs = sample?.differs ? ` (${sample.differs})` : '';
  const ofSample = sample ? `, sample ${sample.sample}${differs}` : '';
  const undone = notDone[entry.status];
  return [
    `No. ${entry.number}, ${entry.title}${ofSample}`,
    ...(undone === undefined ? [] : [undone]),
    ...notReadOf(opened),
    ...(equation ? [printEquation(equation)] : []),
  ];
}

async function asideOf({ entry, findings }: Opened): Promise<string> {
  const { remarksOn } = await import('../../journal/place.js');
  return remarksOn(entry, findings)
    .map((one) => `${one.file}:${one.line}:${one.column} ${one.reason} ${one.note}\n`)
    .join('');
}

/** What is known of a sample without a reaction: how dry it is, what it lost, what was found in it. */
async function withoutReaction(opened: Opened): Promise<Answer | undefined> {
  const { entry, sample, sampleAmounts } = opened;
  const treatment = sampleAmounts && jsonTreatment(sampleAmounts, false);
  if (!treatment || Object.keys(treatment).length === 0) return undefined;
  const dangers = dangersOf(opened, undefined);
  const before = await dangerLines(dangers);
  const lines = [...headingOf(opened, undefined), '', ...before, '', ...treatmentLines(sampleAmounts, false)];
  return {
    json: {
      entry: entry.number,
      ...(sample && { sample: sample.sample }),
      ...treatment,
      ...jsonDangers(dangers),
    },
    text: `${lines.join('\n')}\n`,
    aside: await asideOf(opened),
  };
}

/** The list of an entry that aims at a composition; undefined where it does not, or its sources have no formula. */
async function forTarget(opened: Opened): Promise<Weighed<Answer> | undefined> {
  const { asked, entry, sample, sampleAmounts, ingredients, step } = opened;
  const expect = expectedShare(asked.plan.expect);
  const target = entry.pigment?.target;
  const sources = ingredients.filter(({ use }) => takesPartInTarget(use.role)).map(({ reagent }) => reagent);
  if (target === undefined || sources.length === 0 || !sources.every(({ portion }) => portion.formula))
    return undefined;
  const { weighSources } = await import('./of-target.js');
  const answer = await weighSources({
    target,
    sources,
    step,
    expect,
    ...(asked.for !== undefined && { for: asked.for }),
    // What the sample itself took, where the list is not of another size.
    ...(asked.for === undefined && sampleAmounts?.target && { remarks: [sampleAmounts.target.words] }),
  });
  if (!answer.ok) return answer;
  const { json, text } = answer.value;
  const heading = `${headingOf(opened, undefined).join('\n')}\n`;
  return {
    ok: true,
    value: {
      json: { ...json, entry: entry.number, ...(sample && { sample: sample.sample }) },
      text: `${heading}${text}`,
      aside: await asideOf(opened),
    },
  };
}

/** Acid that an ingredient carries. */
function carriedFreeAcid(ingredient: Ingredient): Pick<WeighingLine, 'freeAcid'> {
  const freeAcid = freeAcidOf(ingredient);
  return freeAcid ? { freeAcid } : {};
}

/** The formula of what the sample, or an entry that has none, weighed, where that is not the pigment's. */
const asWeighed = ({ entry, index, amounts }: Opened): string | undefined =>
  formulaAsWeighed(entry, index, amounts.product?.formula);

/** The list itself. */
function listOf(opened: Opened, equation: Equation, takesPart: (one: Ingredient) => boolean): Weighed<WeighingList> {
  const { asked, entry, amounts, ingredients, step } = opened;
  const reaction = entry.reaction!;
  const made = about(productOf(equation, asked.product ?? amounts.product?.formula), reaction);
  if (!made.ok) return made;
  const isOwn = asked.for === undefined && asked.product === undefined;
  const product = isOwn ? productOfSample(made.value, asWeighed(opened)) : made.value;
  const wanted =
    asked.for === undefined
      ? undefined
      : about(wantedSubstance(sure(amountText(asked.for).amount, 'for'), product), asked.for);
  if (wanted && !wanted.ok) return wanted;
  const lines = ingredients.map(
    (ingredient): WeighingLine => ({
      measure: ingredient.measure,
      role: ingredient.use.role ?? 'reactant',
      takesPart: takesPart(ingredient),
      ...carriedFreeAcid(ingredient),
    }),
  );
  const expect = expectedShare(asked.plan.expect);
  const units = expect ? wanted?.value.div(expect) : wanted?.value;
  const planned = withExcess(lines, asked.plan.excess);
  return about(weighingList({ equation, product, lines: planned, wanted: units, step, absent: 'ambient' }), reaction);
}

/** What the sample gave, where the list is that of the sample. */
function obtainedOf({ asked, sample, step }: Opened, list: WeighingList): UncertainDecimal | undefined {
  if (asked.for !== undefined || sample?.obtained === undefined) return undefined;
  const amount = writtenQuantity(sample.obtained);
  if (amount?.dimension !== 'mass') return undefined;
  return takePortion({
    id: 'obtained',
    name: 'product',
    formula: list.product.formula,
    amount,
    balance: step.div(2),
  }).pure;
}

/** That the list is none of what the sample had. */
const onlyInWords = (amounts: SampleAmounts | undefined): readonly string[] =>
  amounts?.onlyInWords === undefined
    ? []
    : [
        `This list is of what is written for all samples: only its words (“${amounts.onlyInWords}”) tell what sample ` +
          `${amounts.sample} had, so that neither what limits nor the theoretical yield is its own.`,
      ];

/** Reckons the list of an entry. */
export async function weighEntry(asked: EntryText, journal: string): Promise<Weighed<Answer>> {
  const opening = await openEntry(asked, journal);
  if (!opening.ok) return opening;
  const opened = opening.value;
  const { entry, sample, sampleAmounts } = opened;
  const equation = reactionOf(opened);
  if (!equation.ok) {
    const aimed = entry.reaction === undefined ? await forTarget(opened) : undefined;
    if (aimed) return aimed;
    const bare = entry.reaction === undefined ? await withoutReaction(opened) : undefined;
    return bare ? { ok: true, value: bare } : equation;
  }
  const found = listOf(opened, equation.value, takesPart);
  if (!found.ok) return found;
  const list = found.value;
  const meant = opened.ingredients.map((one, at) => ({ ...meantPartner(one), taken: list.lines[at]!.taken }));
  const tooLittle = shortages(list.limitation, meant, list.product);
  const [dangers, short] = [dangersOf(opened, list.factor), await shortOf(opened, list)];
  const scaled = list.factor !== undefined;
  const remarks = [
    ...onlyInWords(sampleAmounts),
    ...tooLittle.map(shortageWords),
    ...filledInWords(opened, list),
    ...list.notes.map(weighingNoteWords),
    ...asIfPureWords(sampleAmounts),
    ...experience(list, opened),
    ...scaleCaution(list.factor),
  ];
  const shown = {
    list,
    heading: headingOf(opened, equation.value),
    before: [...(await dangerLines(dangers)), ...short.map(shortWords)],
    obtained: obtainedOf(opened, list),
    step: opened.step,
    expect: expectedShare(asked.plan.expect),
    plan: planOf(list.lines, equation.value, waterOfSteps(entry, sample?.sample).times(list.factor ?? 1)),
    after: sampleAmounts ? treatmentLines(sampleAmounts, scaled) : [],
    remarks,
    noYield: scaled ? undefined : sampleAmounts?.noYield,
    purityNotRead: purityNotRead(opened),
  };
  const notRead = notReadOf(opened);
  const more = {
    entry: asked.number,
    ...(notRead.length > 0 && { notRead }),
    ...(sample && { sample: sample.sample }),
    reaction: printEquation(equation.value),
    ...(sampleAmounts && jsonTreatment(sampleAmounts, scaled)),
    ...jsonDangers(dangers),
    short: tooLittle.map(({ name, percent, needed, yieldThen }) => ({
      reagent: name,
      percent: decimal(percent),
      needed: jsonOf(needed.amount, needed.unit),
      theoreticalYieldThen: yieldThen ? jsonOf(yieldThen, 'g') : null,
    })),
    lotsShort: short,
  };
  return { ok: true, value: { ...listAnswer(shown, more), aside: await asideOf(opened) } };
}
