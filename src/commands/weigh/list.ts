// A weighing list as it is printed, and as JSON.
import {
  expandedUncertainty,
  roundToUncertainty,
  showWithUnit,
  type Decimal,
  type TheoreticalYield,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import { roughlyStatedWords } from '../../reckoning/amounts/limiting.js';
import { planWords, type Plan } from '../../reckoning/amounts/planning.js';
import { boundsText, figureWithin, leftUpTo } from '../../reckoning/undecided.js';
import { weighingPercent, yieldOf, type WeighingList } from '../../reckoning/amounts/weighing.js';
import { decimal, jsonOf, type Answer } from './answer.js';

/** A list with what stands around it. */
export interface WeighingShown {
  readonly list: WeighingList;
  readonly heading: readonly string[];
  /** What is printed before the list: dangers, lots that run short. */
  readonly before?: readonly string[];
  readonly obtained?: UncertainDecimal;
  readonly remarks: readonly string[];
  /** Smallest step of the balance, g. */
  readonly step: Decimal;
  /** Share of the theoretical yield that is expected, 0 to 1. */
  readonly expect?: Decimal | undefined;
  readonly plan: Plan;
  /** What was done with the product of the sample. */
  readonly after?: readonly string[];
  /** Why the sample has no yield, as half a sentence: the page says the same. */
  readonly noYield?: string | undefined;
  /** Names of what has a purity written that could not be read. */
  readonly purityNotRead?: ReadonlySet<string>;
}

/** A theoretical yield as JSON has it: a mass, or the least it can be where the product's water is unknown. */
const jsonYield = ({ mass, massAtLeast, substance }: TheoreticalYield): Record<string, unknown> => ({
  ...(mass && jsonOf(mass, 'g')),
  ...(massAtLeast && { atLeast: decimal(massAtLeast.value), unit: 'g' }),
  amount: decimal(substance.value),
});

/** Where it is undecided what limits, the bounds; the uncertainty reaches to the farther one. */
function jsonWithin({ theoretical: { mass }, possible }: WeighingList): Record<string, unknown> {
  if (!mass || !possible) return {};
  const { uncertainty, within } = figureWithin(mass, possible, 'g');
  return { expandedUncertainty: uncertainty, ...within };
}

const shownYield = ({ theoretical: { mass, massAtLeast, substance }, possible }: WeighingList): string => {
  if (mass && possible) return boundsText(possible, 'g');
  if (mass) return showWithUnit(mass, 'g');
  return massAtLeast ? `at least ${showWithUnit(massAtLeast, 'g')}` : showWithUnit(substance, 'mol');
};

/** Percent that weighing alone is off by, of a mass of few steps of the balance. */
function weighingError(
  measured: string | undefined,
  mass: Decimal | undefined,
  step: Decimal,
): Record<string, unknown> {
  const percent = measured !== undefined && mass ? weighingPercent(mass, step) : undefined;
  return percent ? { weighingErrorPercent: percent.toSignificantDigits(3).toFixed() } : {};
}

/** What is expected of the theoretical yield, g. */
const expectedOf = ({ list, expect }: WeighingShown): Decimal | undefined =>
  expect && list.theoretical.mass?.value.times(expect);

/** What the list asks of water and vessel, as JSON has it. */
function jsonPlan({ tooMuch, room }: Plan): Record<string, unknown> {
  return {
    ...(tooMuch.length > 0 && {
      moreThanDissolves: tooMuch.map(({ name, grams, takes, at, source }) => ({
        name,
        mass: { value: decimal(grams), unit: 'g' },
        dissolves: { value: decimal(takes), unit: 'g' },
        at,
        source,
      })),
    }),
    ...(room && {
      volume: { value: decimal(room.volume), unit: 'mL' },
      vessel: { value: decimal(room.vessel), unit: 'mL', froths: room.froths },
    }),
  };
}

const jsonRemarks = (remarks: readonly string[]): Record<string, unknown> => (remarks.length > 0 ? { remarks } : {});

function jsonShape(shown: WeighingShown): Record<string, unknown> {
  const { list, obtained, remarks, step, plan } = shown;
  const expected = expectedOf(shown);
  const result = shown.noYield === undefined && obtained ? yieldOf(list, obtained) : undefined;
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
        purityNotStated,
        roughlyStated: rough,
        measured,
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
        ...(purityNotStated && { asIfPure: true, purityNote: purityNote(name, shown.purityNotRead) }),
        ...(rough !== undefined && { purityNote: roughlyStatedWords(name, rough) }),
        ...weighingError(measured?.mass, taken.mass?.value, step),
      }),
    ),
    limiting: list.limiting,
    product: {
      formula: list.product.label,
      theoreticalYield: { ...jsonYield(list.theoretical), ...jsonWithin(list) },
      ...(expected && { expected: { value: decimal(expected), unit: 'g' } }),
      ...(obtained && { obtained: jsonOf(obtained, 'g') }),
      ...(shown.noYield !== undefined && { noYield: shown.noYield }),
      ...(result && {
        percentYield: {
          value: result.percent.value,
          expandedUncertainty: result.percent.uncertainty ?? '0',
          ...result.percent.within,
        },
      }),
    },
    products: list.products.map(({ label, mass }) => ({
      formula: label,
      theoreticalYield: mass ? jsonOf(mass, 'g') : null,
    })),
    atomEconomy: list.atomEconomy ? decimal(list.atomEconomy.value) : null,
    ...(list.factor && { factor: decimal(list.factor) }),
    ...jsonPlan(plan),
    ...jsonRemarks([...planWords({ tooMuch: plan.tooMuch }), ...remarks]),
  };
}

type Line = WeighingList['lines'][number];

const shownNumber = (measured: UncertainDecimal, factor: number): string =>
  roundToUncertainty(measured.value.times(factor), expandedUncertainty(measured).times(factor)).value;

function shownMass({ excess, measured, taken }: Line): string {
  if (excess) return 'excess';
  return measured?.mass ?? (taken.mass ? `${shownNumber(taken.mass, 1)} g` : '');
}

function shownVolume({ drops, measured, taken }: Line): string {
  if (drops) return `${drops} drops`;
  return measured?.volume ?? (taken.volume ? `${shownNumber(taken.volume, 1)} mL` : '');
}

/** A number of a reactant; of the limiting one it is exact. */
function shownOf(line: Line, number: UncertainDecimal | undefined, ofLimiting: string): string {
  if (number === undefined) return '';
  return line.limiting ? ofLimiting : shownNumber(number, 1);
}

function shownRole({ limiting, tooClose, filledIn }: Line): string {
  const limits = limiting ? 'limits' : tooClose && 'may limit';
  return [limits, filledIn && 'as much as is needed'].filter(Boolean).join(', ');
}

const head = ['reagent', 'role', 'mass', 'volume', 'mmol', 'equiv.', 'left g', ''] as const;
/** Columns of words; the others hold numbers, which line up on their right. */
const wordColumns = new Set([0, 1, 7]);

const cellsOf = (line: Line): readonly string[] => [
  line.formula && line.formula !== line.name ? `${line.name}, ${line.formula}` : line.name,
  line.role,
  shownMass(line),
  shownVolume(line),
  line.taken.substance ? shownNumber(line.taken.substance, 1000) : '',
  shownOf(line, line.equivalents, '1'),
  line.left && line.leftAtMost ? leftUpTo(line.left, line.leftAtMost, '').text.trim() : shownOf(line, line.left, '0'),
  shownRole(line),
];

function table(lines: readonly Line[]): readonly string[] {
  const rows = lines.map(cellsOf);
  const widths = head.map((title, column) => Math.max(title.length, ...rows.map((row) => row[column]!.length)));
  const printed = (cells: readonly string[]): string =>
    cells
      .map((cell, column) => (wordColumns.has(column) ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!)))
      .join('  ')
      .trimEnd();
  return [printed(head), ...rows.map(printed)];
}

const overHundred =
  'More than 100 % cannot all be the pure product: it is wet, holds salts or unspent reagent, ' +
  'or is not quite what its formula says.';

function yieldLines(shown: WeighingShown): readonly string[] {
  const { list, obtained } = shown;
  const expected = expectedOf(shown);
  const hoped = expected ? [`Expected of it: about ${expected.toSignificantDigits(3).toFixed()} g`] : [];
  const theoretical = `Theoretical yield of ${list.product.label}: ${shownYield(list)}`;
  const result = obtained && yieldOf(list, obtained);
  if (shown.noYield !== undefined) {
    const got = obtained ? [`Obtained: ${showWithUnit(obtained, 'g')}`] : [];
    return [theoretical, ...hoped, ...got, `No yield is told: ${shown.noYield}.`];
  }
  if (!obtained) return [theoretical, ...hoped];
  const rough = `Obtained: ${showWithUnit(obtained, 'g')}; the amounts are too rough for a yield, or it has no mass.`;
  if (!result) return [theoretical, ...hoped, rough];
  return [
    theoretical,
    ...hoped,
    `Obtained: ${showWithUnit(obtained, 'g')}, which is ${result.percent.text}`,
    ...(result.overHundred ? [overHundred] : []),
  ];
}

const notStated = 'as if pure; purity was not stated';
const statedNotRead = 'as if pure; what is written of its purity was not read';
const purityNote = (name: string, notRead: WeighingShown['purityNotRead']): string =>
  notRead?.has(name) ? statedNotRead : notStated;

function purityWords(lines: readonly Line[], notRead: WeighingShown['purityNotRead']): readonly string[] {
  const asIfPure = [...new Set(lines.filter((one) => one.purityNotStated).map(({ name }) => name))];
  const told = [notStated, statedNotRead].flatMap((note) => {
    const names = asIfPure.filter((name) => purityNote(name, notRead) === note);
    return names.length > 0 ? [`${names.join(', ')}: ${note}.`] : [];
  });
  const rough = lines.flatMap(({ name, roughlyStated: written }) =>
    written === undefined ? [] : roughlyStatedWords(name, written),
  );
  return [...told, ...new Set(rough)];
}

/** What is left is the pure substance: said where a solution was taken. */
function leftWords(lines: readonly Line[]): readonly string[] {
  const dissolved = lines.filter(
    ({ left, limiting, formula, taken: { strength } }) =>
      left && !limiting && formula !== undefined && !['undiluted', 'not-given'].includes(strength.basis),
  );
  if (dissolved.length === 0) return [];
  return [`Left is told of the pure substance: ${dissolved.map((one) => `${one.formula} of ${one.name}`).join(', ')}.`];
}

function textOf(shown: WeighingShown): string {
  const { list, heading, remarks, plan, before = [], after = [] } = shown;
  return `${[
    ...heading,
    '',
    ...(before.length > 0 ? [...before, ''] : []),
    ...table(list.lines),
    '',
    ...yieldLines(shown),
    ...(list.atomEconomy ? [`Atom economy: ${showWithUnit(list.atomEconomy, '%')}`] : []),
    ...planWords(plan),
    ...(after.length > 0 ? ['', ...after] : []),
    ...(remarks.length > 0 ? ['', ...remarks] : []),
    '',
    'Uncertainties are expanded (k = 2), from weighing, purity and atomic weights as far as they are stated.',
    ...purityWords(list.lines, shown.purityNotRead),
    ...leftWords(list.lines),
    'Written digits decide what ± a weighing has, unless the balance is coarser.',
  ].join('\n')}\n`;
}

/** A weighing list as an answer; `more` stands in its JSON too. */
export const listAnswer = (shown: WeighingShown, more: Readonly<Record<string, unknown>>): Answer => ({
  json: { ...jsonShape(shown), ...more },
  text: textOf(shown),
});
