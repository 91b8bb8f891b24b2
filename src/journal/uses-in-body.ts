// What went in, told in the write-up alone: a list of reagents with their amounts, or a table of them, where the front
// matter names none.
import { isAmount } from '../reagents/index.js';
import { onceFor } from '../once.js';
import { useInOneText } from './mending/use-in-one-text.js';

/** A line of a list or of a table that names something with its amount. */
export interface UseInBody {
  readonly text: string;
  /** From 0. */
  readonly line: number;
}

const ofResults = /result|yield|obtained|ergebnis|ausbeute|rendement|résultat|resultado|rendimiento|risultat|resa\b/iu;
const heading = /^[ \t]*#{1,6}[ \t]+(.*)$/;
const item = /^[ \t]*(?:[-*+•]|\d{1,2}[.)])[ \t]+(\S.{0,200})$/;
const row = /^[ \t]*\|(.{0,400})\|[ \t]*$/;
const longestName = 60;

/** `lead nitrate 10 g` of a row with such cells; undefined for a row that has no amount. */
function ofRow(cells: readonly string[]): string | undefined {
  const [name = '', ...others] = cells.map((cell) => cell.trim());
  const amount = others.find((cell) => isAmount(cell.replace(/(?<=\d),(?=\d{1,2}\b)/, '.')));
  return name === '' || amount === undefined ? undefined : `${name} ${amount}`;
}

/** The text of an item that is a thing with its amount, and no sentence and no sample. */
function ofItem(text: string): string | undefined {
  const { reagent = '', amount } = useInOneText(text) ?? {};
  const isThing = amount !== undefined && /\d/.test(amount) && reagent.length <= longestName;
  return isThing && !/^[A-Z\d]$|[.!?]\s/.test(reagent) ? text : undefined;
}

/** Things with their amounts in lists and tables of a write-up, two at least; none under a heading of results. */
export const usesInBody = onceFor(({ body }: { readonly body: string }): readonly UseInBody[] => {
  // No line is crossed: a long stretch of empty lines would be gone through for each of them.
  if (!/^[ \t]*(?:[-*+•|]|\d{1,2}[.)][ \t])/m.test(body)) return [];
  let below = '';
  const uses = body.split(/\r?\n/).flatMap((text, line): UseInBody[] => {
    below = heading.exec(text)?.[1] ?? below;
    if (ofResults.test(below)) return [];
    const cells = row.exec(text)?.[1]?.split('|');
    const written = item.exec(text)?.[1];
    const use = cells ? ofRow(cells) : ofItem(written?.trim() ?? '');
    return use === undefined ? [] : [{ text: use, line }];
  });
  return uses.length < 2 ? [] : uses;
});
