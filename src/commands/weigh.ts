// masstone weigh: a weighing list of an entry or of a reaction, as it is or scaled to an amount of product; dilutions.
import {
  balancedOrAfresh,
  expandedUncertainty,
  imbalances,
  imbalanceSentence,
  parseEquation,
  parseQuantity,
  printEquation,
  printFormula,
  productAsWeighed,
  roundToUncertainty,
  showWithUnit,
  suppliedBy,
  parseFormula,
  type Decimal,
  type Equation,
  type TheoreticalYield,
  type UncertainDecimal,
  type Quantity,
  type Term,
} from '../chemistry/index.js';
import type { Entry } from '../journal/entry.js';
import { bad, good, type Fault, type Outcome } from '../outcome.js';
import {
  assumptionsOf,
  dilute,
  doubtSentence,
  readReagentText,
  resolveReagent,
  resolveStrength,
  takePortion,
  termsOf,
  type Cupboard,
  type Dilution,
  type ReagentWritten,
  type ResolvedStrength,
  type StrengthGiven,
  type StrengthTerms,
} from '../reagents/index.js';
import type { ReckoningContext } from '../reckoning/contracts.js';
import { anhydrousWords, usualHydrate } from '../reckoning/hydrates.js';
import { wantedSubstance, weighingList, yieldOf, type WeighingLine, type WeighingList } from '../reckoning/weighing.js';
import { answerFault } from './formula.js';
import { WrongUse, type Command, type ExitCode, type Given, type Streams } from './command.js';
import { contextOf, cupboardAt, entryReader } from './entry-reader.js';

const usual = '0.01 g';
/** Above this factor a preparation with foreseen dangers is not a scaled one but a new one. */
const caution = 10;

interface JsonQuantity {
  readonly value: string;
  readonly unit: string;
  readonly expandedUncertainty?: string;
}

const decimal = (value: Decimal): string => value.toSignificantDigits(12).toFixed();
function jsonOf(measured: UncertainDecimal, unit: string): JsonQuantity {
  const uncertainty = expandedUncertainty(measured);
  return {
    value: decimal(measured.value),
    unit,
    ...(!uncertainty.isZero() && { expandedUncertainty: uncertainty.toSignificantDigits(3).toFixed() }),
  };
}

const sure = (outcome: Outcome<Quantity>, option: string): Quantity => {
  if (!outcome.ok) throw new WrongUse(`--${option}: ${outcome.fault.message} ${outcome.fault.cure ?? ''}`.trim());
  return outcome.value;
};
const texts = (value: Given['values'][string]): string[] =>
  Array.isArray(value) ? value.map(String) : typeof value === 'string' ? [value] : [];

/** A product and how much of it: `10 g`, `Cu 10 g`, `10 g Cu`. */
function amountText(text: string): {
  readonly amount: Outcome<Quantity>;
  readonly density?: Quantity;
  readonly purity?: Quantity;
  readonly formula?: string;
} {
  const alone = parseQuantity(text);
  if (alone.ok) return { amount: alone };
  const behind = /^(\d.*?\S)\s+(?:of\s+)?(\S+)$/.exec(text.trim());
  const before = behind && parseQuantity(behind[1]!);
  if (before?.ok) return { amount: before, formula: behind![2]! };
  const line = readReagentText(/^[\d.≥>(+-]/.test(text.trim()) ? `product ${text}` : text);
  if (!line.ok) return { amount: alone };
  const { amount, density, purity, name } = line.value;
  if (amount?.kind !== 'measured') return { amount: alone };
  return { amount: good(amount.quantity), density, purity, ...(name !== 'product' && { formula: name }) };
}

function productOf(equation: Equation, wanted: string | undefined): Outcome<Term> {
  const named = wanted === undefined ? undefined : parseFormula(wanted);
  const found = named
    ? named.ok &&
      equation.products.find(({ formula, label }) => label === wanted || !suppliedBy(named.value, formula).isZero())
    : equation.products[0];
  return found
    ? good(named?.ok ? productAsWeighed(found, named.value, wanted!) : found)
    : bad({
        code: 'product',
        message: `${wanted} is not among the products: ${equation.products.map(({ label }) => label).join(', ')}.`,
        cure: 'Name one of them with --product.',
      });
}

interface Shown {
  readonly list: WeighingList;
  readonly heading: readonly string[];
  readonly obtained?: UncertainDecimal;
  readonly remarks: readonly string[];
}

/** A theoretical yield as JSON has it: a mass, or the least it can be where the product's water is unknown. */
const jsonYield = ({ mass, massAtLeast, substance }: TheoreticalYield): Record<string, unknown> => ({
  ...(mass && jsonOf(mass, 'g')),
  ...(massAtLeast && { atLeast: decimal(massAtLeast.value), unit: 'g' }),
  amount: decimal(substance.value),
});

const shownYield = ({ mass, massAtLeast, substance }: TheoreticalYield): string => {
  if (mass) return showWithUnit(mass, 'g');
  return massAtLeast ? `at least ${showWithUnit(massAtLeast, 'g')}` : showWithUnit(substance, 'mol');
};

function jsonShape({ list, obtained, remarks }: Shown): Record<string, unknown> {
  const result = obtained && yieldOf(list, obtained);
  return {
    reagents: list.lines.map(
      ({
        name,
        formula,
        role,
        excess,
        drops,
        taken,
        equivalents,
        limiting,
        tooClose,
        left,
        leftSubstance,
        filledIn,
      }) => ({
        name,
        formula,
        role,
        ...(taken.mass && { mass: jsonOf(taken.mass, 'g') }),
        ...(taken.volume && { volume: jsonOf(taken.volume, 'mL') }),
        ...(drops && { drops: drops.toNumber() }),
        amount: taken.substance ? jsonOf(taken.substance, 'mol') : null,
        ...(excess && { excess: true }),
        equivalents: equivalents ? decimal(equivalents.value) : null,
        limiting,
        ...(tooClose && { tooCloseToCall: true }),
        left: left ? { ...jsonOf(left, 'g'), amount: decimal(leftSubstance!.value) } : null,
        ...(filledIn && { reckoned: true }),
      }),
    ),
    limiting: list.limiting,
    product: {
      formula: list.product.label,
      theoreticalYield: jsonYield(list.theoretical),
      ...(obtained && { obtained: jsonOf(obtained, 'g') }),
      ...(result && {
        percentYield: {
          value: decimal(result.percent.value),
          expandedUncertainty: expandedUncertainty(result.percent).toSignificantDigits(3).toFixed(),
        },
      }),
    },
    products: list.products.map(({ label, mass }) => ({
      formula: label,
      theoreticalYield: mass ? jsonOf(mass, 'g') : null,
    })),
    atomEconomy: list.atomEconomy ? decimal(list.atomEconomy.value) : null,
    ...(list.factor && { factor: decimal(list.factor) }),
    ...(remarks.length > 0 && { remarks }),
  };
}

function plainShape({ list, heading, obtained, remarks }: Shown): string {
  const number = (measured: UncertainDecimal, factor: number): string =>
    roundToUncertainty(measured.value.times(factor), expandedUncertainty(measured).times(factor)).value;
  const rows = list.lines.map(
    ({ name, formula, role, excess, drops, measured, taken, equivalents, limiting, tooClose, left, filledIn }) => [
      formula && formula !== name ? `${name}, ${formula}` : name,
      role,
      excess ? 'excess' : (measured?.mass ?? (taken.mass ? `${number(taken.mass, 1)} g` : '')),
      drops ? `${drops} drops` : (measured?.volume ?? (taken.volume ? `${number(taken.volume, 1)} mL` : '')),
      taken.substance ? number(taken.substance, 1000) : '',
      equivalents ? (limiting ? '1' : number(equivalents, 1)) : '',
      left ? (limiting ? '0' : number(left, 1)) : '',
      [limiting ? 'limits' : tooClose ? 'may limit' : '', filledIn ? 'as much as is needed' : '']
        .filter(Boolean)
        .join(', '),
    ],
  );
  const head = ['reagent', 'role', 'mass', 'volume', 'mmol', 'equiv.', 'left g', ''];
  const widths = head.map((title, column) => Math.max(title.length, ...rows.map((row) => row[column]!.length)));
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, column) =>
        column < 2 || column === 7 ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!),
      )
      .join('  ')
      .trimEnd();
  const result = obtained && yieldOf(list, obtained);
  return `${[
    ...heading,
    '',
    line(head),
    ...rows.map(line),
    '',
    `Theoretical yield of ${list.product.label}: ${shownYield(list.theoretical)}`,
    ...(obtained && result
      ? [`Obtained: ${showWithUnit(obtained, 'g')}, which is ${showWithUnit(result.percent, '%')}`]
      : []),
    ...(result?.overHundred
      ? [
          'More than 100 % cannot all be the pure product: it is wet, holds salts or unspent reagent, or is not quite what its formula says.',
        ]
      : []),
    ...(list.atomEconomy ? [`Atom economy: ${showWithUnit(list.atomEconomy, '%')}`] : []),
    ...(remarks.length > 0 ? ['', ...remarks] : []),
    '',
    'Uncertainties are expanded (k = 2), from weighing, purity and atomic weights as far as they are stated.',
  ].join('\n')}\n`;
}

function answer(shown: Shown, json: boolean, streams: Streams, more: Record<string, unknown> = {}): ExitCode {
  streams.result(json ? `${JSON.stringify({ ...jsonShape(shown), ...more })}\n` : plainShape(shown));
  return 0;
}

/** What is wrong with a name that is no formula and no reactant: after a formula, what follows was meant as a quantity. */
function nameFault(name: string): Fault {
  const [first, ...rest] = name.split(' ');
  if (rest.length > 0 && /\d|[A-Z].*[A-Z]/.test(first!) && parseFormula(first!).ok)
    return {
      code: 'number',
      column: first!.length + 2,
      message: `'${rest.join(' ')}' is no quantity.`,
      expected: 'a number and a unit',
      cure: `Write e.g. ${first} 5.00 g.`,
    };
  return {
    code: 'formula-missing',
    column: 1,
    message: `'${name}' is not a formula.`,
    expected: 'a formula, or a name and a formula',
    cure: 'Write e.g. acetic acid CH3COOH 10 mL 60 % 1.06 g/mL.',
  };
}

/** One reagent of a reaction as a line of the list, with what had to be assumed of it. */
function lineOf(
  written: ReagentWritten,
  id: string,
  equation: Equation,
  balance: Decimal | undefined,
  cupboard: Cupboard,
): Outcome<{ readonly line: WeighingLine; readonly remarks: readonly string[] }> {
  const reagent = resolveReagent(written, cupboard, { id, ...(balance && { balance }) });
  const { name, substance, portion } = reagent;
  const term = equation.reactants.find(({ label }) => label === written.name);
  const formula = portion.formula ?? term?.formula;
  if (!formula) return bad(nameFault(written.name));
  const weighedDry = portion.amount?.dimension === 'mass' && !portion.strength;
  const hydrate = weighedDry ? usualHydrate(printFormula(formula)) : undefined;
  return good({
    line: { role: 'reactant', takesPart: true, measure: { ...portion, formula } },
    remarks: [
      ...(substance?.parsed.doubts.map(({ message }) => message) ?? []),
      ...assumptionsOf(reagent),
      ...(hydrate !== undefined && !anhydrousWords.test(name)
        ? [`${name} is reckoned without water; it is often sold as ${hydrate}. Look at the label.`]
        : []),
    ],
  });
}

async function ofReaction(written: string, { values, json, journal }: Given, streams: Streams): Promise<ExitCode> {
  const step = stepOf(texts(values.balance)[0] ?? usual);
  const parsed = parseEquation(written);
  if (!parsed.ok) return answerFault(parsed.fault, written, json, streams);
  const balanced = balancedOrAfresh(parsed.value);
  if (!balanced.ok)
    return answerFault(
      {
        ...balanced.fault,
        message: `The reaction does not balance. ${imbalanceSentence(imbalances(parsed.value))} ${balanced.fault.message}`,
      },
      written,
      json,
      streams,
    );
  const { equation, afresh } = balanced.value;
  const remarks: string[] = parsed.value.doubts.map(({ message }) => message);
  if (afresh) remarks.push(`As written the reaction does not balance; it is reckoned as ${printEquation(equation)}.`);
  const wantedText = texts(values.for)[0];
  const obtainedText = texts(values.obtained)[0];
  const wanted = wantedText === undefined ? undefined : amountText(wantedText);
  const obtained = obtainedText === undefined ? undefined : amountText(obtainedText);
  const product = productOf(equation, texts(values.product)[0] ?? obtained?.formula ?? wanted?.formula);
  if (!product.ok) return answerFault(product.fault, written, json, streams);

  const inEquation = equation.products.find(({ column }) => column === product.value.column)!;
  if (inEquation.label !== product.value.label)
    remarks.push(`The reaction makes ${inEquation.label}; its yield is reckoned as ${product.value.label}.`);

  const lines: WeighingLine[] = [];
  const balance = values.balance === undefined ? undefined : step.div(2);
  const reagents = texts(values.reagent).map((text) => ({ text, read: readReagentText(text) }));
  const cupboard = await cupboardAt(
    journal,
    reagents.flatMap(({ read }) => (read.ok ? [read.value.name] : [])),
  );
  for (const [index, { text, read }] of reagents.entries()) {
    if (!read.ok) return answerFault(read.fault, text, json, streams);
    const line = lineOf(read.value, `${index}/${read.value.name}`, equation, balance, cupboard);
    if (!line.ok) return answerFault(line.fault, text, json, streams);
    lines.push(line.value.line);
    remarks.push(...line.value.remarks);
  }
  if (lines.length === 0)
    for (const { label, formula } of equation.reactants)
      lines.push({ role: 'reactant', takesPart: true, measure: { id: label, name: label, formula } });
  const substance = wanted && wantedSubstance(sure(wanted.amount, 'for'), product.value);
  if (substance && !substance.ok) return answerFault(substance.fault, wantedText!, json, streams);
  const list = weighingList({ equation, product: product.value, lines, wanted: substance?.value, step });
  if (!list.ok) return answerFault(list.fault, written, json, streams);
  const mass =
    obtained &&
    takePortion({
      id: 'obtained',
      name: 'product',
      formula: product.value.formula,
      amount: sure(obtained.amount, 'obtained'),
      density: obtained.density,
      purity: obtained.purity,
    }).pure;
  if (obtained && !mass)
    return answerFault(
      {
        code: 'obtained',
        message: `Nothing says what ${obtainedText} weighs.`,
        cure: 'Give a mass, or a volume with its density.',
      },
      obtainedText!,
      json,
      streams,
    );
  remarks.push(...list.value.remarks);
  if (list.value.factor?.gt(caution)) remarks.push(scaleCaution(list.value.factor));
  return answer({ list: list.value, heading: [printEquation(equation)], obtained: mass, remarks }, json, streams, {
    reaction: printEquation(equation),
  });
}

const scaleCaution = (factor: Decimal): string =>
  `This is ${factor.toSignificantDigits(2).toFixed()} times as much. Heat, froth and gas grow faster than a bench scales: go up in steps, and foresee the dangers anew for each (masstone foresee).`;

const stepOf = (text: string): Decimal => {
  const quantity = sure(parseQuantity(text), 'balance');
  if (quantity.dimension !== 'mass' || quantity.base.isZero())
    throw new WrongUse('--balance takes the smallest step of the balance, like "0.01 g".');
  return quantity.base;
};

async function ofEntry(number: number, given: Given, streams: Streams): Promise<ExitCode> {
  const { values, json } = given;
  const [reader, { reckonAmounts }, { ingredientsOf }, { takesPart }, { remarksOn }] = await Promise.all([
    entryReader(given.journal),
    import('../reckoning/amounts.js'),
    import('../reckoning/ingredients.js'),
    import('../reckoning/sample-amounts.js'),
    import('../journal/place.js'),
  ]);
  if (!reader.ok) return answerFault(reader.fault, String(number), json, streams);
  const { settings } = reader.value;
  const found = reader.value.entry(number);
  if (!found.ok) return answerFault(found.fault, String(number), json, streams);
  const entry = found.value;
  const context = await contextOf(reader.value);
  const { amounts, findings } = reckonAmounts(entry, context);
  for (const one of remarksOn(entry, findings))
    streams.aside(`${one.file}:${one.line}:${one.column} ${one.reason} ${one.note}\n`);
  const asked = texts(values.sample)[0];
  const index =
    asked === undefined
      ? entry.samples.length > 0
        ? 0
        : undefined
      : entry.samples.findIndex(({ sample }) => sample === asked);
  if (index === -1)
    return answerFault(
      {
        code: 'no-sample',
        message: `Entry ${number} has no sample ${asked}.`,
        cure: `It has ${entry.samples.map(({ sample }) => sample).join(', ')}.`,
      },
      asked!,
      json,
      streams,
    );
  if (entry.reaction === undefined || !amounts.reaction?.balanced)
    return answerFault(
      {
        code: 'no-reaction',
        message:
          entry.reaction === undefined
            ? `Entry ${number} has no reaction.`
            : `The reaction of entry ${number} cannot be reckoned: ${amounts.reaction?.fault ?? ''}`,
        cure: 'Write a balanced reaction: in the entry.',
      },
      entry.reaction ?? '',
      json,
      streams,
    );
  const equation = parseEquation(entry.reaction);
  if (!equation.ok) return answerFault(equation.fault, entry.reaction, json, streams);
  const product = productOf(equation.value, texts(values.product)[0] ?? amounts.product?.formula);
  if (!product.ok) return answerFault(product.fault, entry.reaction, json, streams);
  const step = stepOf(texts(values.balance)[0] ?? settings.balance ?? usual);
  const wantedText = texts(values.for)[0];
  const substance =
    wantedText === undefined ? undefined : wantedSubstance(sure(amountText(wantedText).amount, 'for'), product.value);
  if (substance && !substance.ok) return answerFault(substance.fault, wantedText!, json, streams);
  const lines = ingredientsOf(entry, index, context, step.div(2)).map(
    (ingredient): WeighingLine => ({
      measure: ingredient.measure,
      role: ingredient.use.role ?? 'reactant',
      takesPart: takesPart(ingredient),
    }),
  );
  const list = weighingList({
    equation: equation.value,
    product: product.value,
    lines,
    wanted: substance?.value,
    step,
  });
  if (!list.ok) return answerFault(list.fault, entry.reaction, json, streams);
  const sample = index === undefined ? undefined : entry.samples[index]!;
  const obtainedText = wantedText === undefined ? sample?.obtained : undefined;
  const obtained =
    obtainedText === undefined
      ? undefined
      : takePortion({
          id: 'obtained',
          name: 'product',
          formula: product.value.formula,
          amount: sure(parseQuantity(obtainedText), 'obtained'),
          balance: step.div(2),
        }).pure;
  const remarks = [...list.value.remarks];
  const before = amounts.samples.find(({ sample: one }) => one === sample?.sample)?.percentYield;
  const hoped = list.value.theoretical.mass;
  if (list.value.factor && before && sample && hoped)
    remarks.push(
      `The amount asked for is the theoretical yield. With the ${before.text} that sample ${sample.sample} gave, about ${hoped.value.times(before.value).div(100).toSignificantDigits(3).toFixed()} g are to be expected.`,
    );
  if (list.value.factor?.gt(caution) && (await hasDangers(entry, context)))
    remarks.push(`Dangers are foreseen for this entry. ${scaleCaution(list.value.factor)}`);
  const heading = [
    `No. ${number}, ${entry.title}${sample ? `, sample ${sample.sample}${sample.differs ? ` (${sample.differs})` : ''}` : ''}`,
    printEquation(equation.value),
  ];
  return answer({ list: list.value, heading, obtained, remarks }, json, streams, {
    entry: number,
    ...(sample && { sample: sample.sample }),
    reaction: printEquation(equation.value),
  });
}

async function hasDangers(entry: Entry, context: ReckoningContext): Promise<boolean> {
  const { reckonDangers } = await import('../reckoning/dangers.js');
  const { dangers } = reckonDangers(entry, context);
  return (
    (dangers.foreseen?.length ?? 0) > 0 || (dangers.notJudged?.length ?? 0) > 0 || dangers.box.signalWord !== undefined
  );
}

const strengthWords = ({ massFraction, molarConcentration, massConcentration }: StrengthTerms): string =>
  [
    massFraction && `${massFraction.times(100).toSignificantDigits(4).toFixed()} % by mass`,
    molarConcentration && `${molarConcentration.times(1000).toSignificantDigits(4).toFixed()} mol/L`,
    !massFraction &&
      !molarConcentration &&
      massConcentration &&
      `${massConcentration.times(100).toSignificantDigits(4).toFixed()} % w/v`,
  ]
    .filter(Boolean)
    .join(', ');

const inGramsOrMillilitres = (quantity: Quantity, option: string): { mass?: Decimal; volume?: Decimal } => {
  if (quantity.dimension === 'mass') return { mass: quantity.base };
  if (quantity.dimension === 'volume') return { volume: quantity.base };
  throw new WrongUse(`--${option} takes a mass or a volume, like "100 mL".`);
};

/** The way in which it is poured, where that matters. */
function pouring(order: Dilution['order'], name: string, known: boolean): string | undefined {
  if (order === 'acid-into-water')
    return 'Pour the acid into the water, slowly and stirring, never water into the acid: it heats and may spit. Goggles and gloves on.';
  if (order === 'base-into-water')
    return 'Add the alkali to the water, slowly and stirring, never water to the alkali: it heats and may spit. Goggles and gloves on.';
  return known
    ? undefined
    : `Nothing here says what ${name} is made of: add it to the water, slowly and stirring, not the other way round, and read its safety data sheet first.`;
}

const strengthSaid = ({ strength, density, purity }: ReagentWritten): Partial<StrengthGiven> => ({
  strength,
  density,
  purity,
});

/** What had to be assumed of what is made; the density of something filled up to a mark plays no part. */
const madeAssumptions = (wanted: ResolvedStrength | undefined, make: Quantity | undefined): readonly string[] =>
  !wanted || make?.dimension !== 'volume' || termsOf(wanted).byVolume
    ? []
    : wanted.doubts.map((doubt) => `Of what is made: ${doubtSentence(doubt)}`);

async function dilution(stockText: string, { values, json, journal }: Given, streams: Streams): Promise<ExitCode> {
  const read = readReagentText(stockText);
  if (!read.ok) return answerFault(read.fault, stockText, json, streams);
  const stock = resolveReagent(read.value, await cupboardAt(journal, [read.value.name]));
  const { name, portion } = stock;
  const { formula, amount } = portion;
  const toText = texts(values.to)[0];
  const makeText = texts(values.make)[0];
  const to = toText === undefined ? undefined : readReagentText(`wanted ${toText}`);
  if (to && !to.ok) return answerFault(to.fault, toText!, json, streams);
  const make = makeText === undefined ? undefined : sure(parseQuantity(makeText), 'make');
  const wanted = to?.ok
    ? resolveStrength({ ...strengthSaid(to.value), stuff: 'made', formula, dissolved: true })
    : undefined;
  const outcome = dilute({
    formula,
    stock: termsOf(stock.strength),
    ...(amount && { have: inGramsOrMillilitres(amount, 'dilute') }),
    ...(wanted && { to: termsOf(wanted) }),
    ...(make && { make: inGramsOrMillilitres(make, 'make') }),
  });
  if (!outcome.ok) return answerFault(outcome.fault, stockText, json, streams);
  const { stock: taken, water, made, strength, order } = outcome.value;
  const assumed = [...assumptionsOf(stock), ...madeAssumptions(wanted, make), ...outcome.value.assumed];
  const pour = pouring(order, name, formula !== undefined);
  if (json) {
    const both = ({ mass, volume }: { mass?: Decimal; volume?: Decimal }): Record<string, JsonQuantity> => ({
      ...(mass && { mass: { value: decimal(mass), unit: 'g' } }),
      ...(volume && { volume: { value: decimal(volume), unit: 'mL' } }),
    });
    streams.result(
      `${JSON.stringify({
        stock: { name, ...both(taken) },
        water: both(water),
        makes: {
          ...both(made),
          ...(strength.massFraction && { massPercent: decimal(strength.massFraction.times(100)) }),
          ...(strength.massConcentration && { massVolumePercent: decimal(strength.massConcentration.times(100)) }),
          ...(strength.molarConcentration && {
            concentration: { value: decimal(strength.molarConcentration.times(1000)), unit: 'mol/L' },
          }),
        },
        order,
        ...(pour && { caution: pour }),
        ...(assumed.length > 0 && { remarks: assumed }),
      })}\n`,
    );
    return 0;
  }
  const both = ({ mass, volume }: { mass?: Decimal; volume?: Decimal }): string =>
    [volume && `${volume.toSignificantDigits(4).toFixed()} mL`, mass && `${mass.toSignificantDigits(4).toFixed()} g`]
      .filter(Boolean)
      .join(' or ');
  streams.result(
    `${[
      `${name}: ${both(taken)} of stock`,
      ...(both(water) === '' ? [] : [`Water: ${both(water)}`]),
      `Makes ${both(made)}${strengthWords(strength) === '' ? '' : ` of ${strengthWords(strength)}`}`,
      ...(pour ? ['', pour] : []),
      ...(assumed.length > 0 ? ['', ...assumed] : []),
    ].join('\n')}\n`,
  );
  return 0;
}

export const command: Command = {
  name: 'weigh',
  summary: 'a weighing list, as it is or scaled --for an amount of product; dilutions',
  help: `
Use: masstone weigh NUMBER [--sample A] [--for "10 g"]
     masstone weigh --reaction EQUATION --reagent "REAGENT" … [--product F] [--obtained "1.2 g"] [--for "10 g"]
     masstone weigh --dilute "STOCK" --to "STRENGTH" --make "AMOUNT"

What to weigh, what limits, what is left, what to expect.

  masstone weigh 14 --for "10 g"
  masstone weigh --reaction 'CuSO4 + Zn -> Cu + ZnSO4' --reagent 'CuSO4·5H2O 5.00 g' --reagent 'Zn excess' --obtained '1.10 g'
  masstone weigh --reaction 'Pb(NO3)2 + K2CrO4 -> PbCrO4 + 2 KNO3' --for '5 g PbCrO4'
  masstone weigh --dilute 'CH3COOH 99.7 % 1.049 g/mL' --to '10 %' --make '100 mL'

A reagent is a formula and its quantities: 'CuSO4·5H2O 5.00 g', 'HCl 25 mL 2.0 mol/L',
'CH3COOH 3 mL 99.7 % 1.049 g/mL', 'Zn 10 g purity 95 %', 'KMnO4 0.05 mol', 'NaOH excess'.
One without an amount is reckoned as what the reaction needs.

--product F      the product that is wanted; the first of the reaction if it is not said
--obtained M     what was obtained, for the percent yield
--for M          scale to this much product (theoretical yield); masses rounded to the balance
--balance STEP   smallest step of the balance (the journal's, else 0.01 g)
--sample ID      the sample of the entry; the first if it is not said
--to S --make M  strength and amount of a dilution; STOCK may have an amount instead of one of them
`,
  options: {
    reaction: { type: 'string' },
    reagent: { type: 'string', multiple: true },
    product: { type: 'string' },
    obtained: { type: 'string' },
    for: { type: 'string' },
    balance: { type: 'string' },
    sample: { type: 'string' },
    dilute: { type: 'string' },
    to: { type: 'string' },
    make: { type: 'string' },
  },
  run: async (given, streams) => {
    const { values, positionals } = given;
    const reaction = texts(values.reaction)[0];
    const stock = texts(values.dilute)[0];
    const ways = Number(reaction !== undefined) + Number(stock !== undefined) + Number(positionals.length > 0);
    if (ways !== 1)
      throw new WrongUse(
        'Give an entry’s number, or --reaction with --reagent, or --dilute (masstone weigh --help shows each).',
      );
    if (stock !== undefined) return dilution(stock, given, streams);
    if (reaction !== undefined) return ofReaction(reaction, given, streams);
    if (positionals.length !== 1 || !/^\d{1,9}$/.test(positionals[0]!))
      throw new WrongUse('An entry is named by its number: masstone weigh 14.');
    return ofEntry(Number(positionals[0]), given, streams);
  },
};
