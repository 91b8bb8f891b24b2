// A weighing list as it is printed, and as JSON.
import {
  expandedUncertainty,
  roundToUncertainty,
  showWithUnit,
  type TheoreticalYield,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import { yieldOf, type WeighingList } from '../../reckoning/weighing.js';
import { decimal, jsonOf, type Answer } from './answer.js';

/** A list with what stands around it. */
export interface WeighingShown {
  readonly list: WeighingList;
  readonly heading: readonly string[];
  /** What is printed before the list: dangers, lots that run short. */
  readonly before?: readonly string[];
  readonly obtained?: UncertainDecimal;
  readonly remarks: readonly string[];
  /** What was done with the product of the sample. */
  readonly after?: readonly string[];
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

function jsonShape({ list, obtained, remarks }: WeighingShown): Record<string, unknown> {
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
  shownOf(line, line.left, '0'),
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

function yieldLines({ list, obtained }: WeighingShown): readonly string[] {
  const theoretical = `Theoretical yield of ${list.product.label}: ${shownYield(list.theoretical)}`;
  const result = obtained && yieldOf(list, obtained);
  if (!obtained || !result) return [theoretical];
  return [
    theoretical,
    `Obtained: ${showWithUnit(obtained, 'g')}, which is ${showWithUnit(result.percent, '%')}`,
    ...(result.overHundred ? [overHundred] : []),
  ];
}

function textOf(shown: WeighingShown): string {
  const { list, heading, remarks, before = [], after = [] } = shown;
  return `${[
    ...heading,
    '',
    ...(before.length > 0 ? [...before, ''] : []),
    ...table(list.lines),
    '',
    ...yieldLines(shown),
    ...(list.atomEconomy ? [`Atom economy: ${showWithUnit(list.atomEconomy, '%')}`] : []),
    ...(after.length > 0 ? ['', ...after] : []),
    ...(remarks.length > 0 ? ['', ...remarks] : []),
    '',
    'Uncertainties are expanded (k = 2), from weighing, purity and atomic weights as far as they are stated.',
  ].join('\n')}\n`;
}

/** A weighing list as an answer; `more` stands in its JSON too. */
export const listAnswer = (shown: WeighingShown, more: Readonly<Record<string, unknown>>): Answer => ({
  json: { ...jsonShape(shown), ...more },
  text: textOf(shown),
});
