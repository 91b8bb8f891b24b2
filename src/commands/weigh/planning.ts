// Planning a list: more of a reagent than is needed, and the yield that experience leads one to expect.
import { exact, parseFormula, suppliedBy, type Decimal } from '../../chemistry/index.js';
import type { WeighingLine } from '../../reckoning/amounts/weighing.js';
import { WrongUse } from '../command.js';

/** What is asked of the planning, as it was written. */
export interface PlanText {
  /** `Na2CO3 20 %` */
  readonly excess: readonly string[];
  /** `60 %` */
  readonly expect?: string;
}

/** The yield that is expected, 0 to 1; wrong use above 100 % or not above 0. */
export function expectedShare(written: string | undefined): Decimal | undefined {
  if (written === undefined) return undefined;
  const [, number] = /^(\d+(?:\.\d+)?)\s*%$/.exec(written.trim()) ?? [];
  const percent = number === undefined ? undefined : exact(number);
  if (!percent?.gt(0) || percent.gt(100))
    throw new WrongUse('--expect takes the yield that experience gives, above 0 and at most 100 %, like "60 %".');
  return percent.div(100);
}

interface Over {
  readonly of: string;
  readonly share: Decimal;
}

function readExcess(written: string): Over {
  const [, of, number] = /^(.+?)\s+([-+−]?\d+(?:\.\d+)?)\s*%$/.exec(written.trim()) ?? [];
  const percent = number === undefined ? undefined : exact(number.replace('−', '-'));
  if (of === undefined || !percent || percent.isNegative())
    throw new WrongUse('--excess takes a reagent and a percentage of at least 0, like "Na2CO3 20 %".');
  return { of, share: percent.div(100) };
}

function isMeant({ measure }: WeighingLine, of: string): boolean {
  if ([measure.name, measure.stuff].some((name) => name?.toLowerCase() === of.toLowerCase())) return true;
  const wanted = parseFormula(of);
  return wanted.ok && measure.formula !== undefined && !suppliedBy(measure.formula, wanted.value).isZero();
}

/** Lines of which some are to be more than the reaction needs. */
export function withExcess(lines: readonly WeighingLine[], excess: readonly string[]): readonly WeighingLine[] {
  const over = excess.map(readExcess);
  for (const { of } of over)
    if (!lines.some((line) => isMeant(line, of)))
      throw new WrongUse(
        `--excess: there is no ${of} in this list; it has ${lines.map(({ measure }) => measure.name).join(', ')}.`,
      );
  return lines.map((line) => {
    const meant = over.find(({ of }) => isMeant(line, of));
    return meant ? { ...line, over: meant.share } : line;
  });
}
