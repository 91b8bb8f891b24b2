// A reagent in one line, as it is said at the bench: `CuSO4·5H2O 5.00 g`, `CH3COOH 3 mL 99.7 % 1.049 g/mL`.
import { bad, good, type Fault, type Outcome } from '../outcome.js';
import { hydrateWordsTable } from '../tables/compiled/chemistry/hydrate-words.js';
import { parseFormula, type Formula } from './formula/index.js';
import { parseQuantity, type Quantity } from './quantity/index.js';
import type { Dose } from './taken.js';

/** A reagent as written in one line; what is not said is absent, never guessed. */
export interface ReagentText extends Dose {
  readonly written: string;
  /** The leading words, a formula or a name. */
  readonly name: string;
  /** The leading words as a formula, where they are one. */
  readonly formula?: Formula;
}

const markers: Readonly<Record<string, 'amount' | 'purity' | 'density' | 'strength' | 'dropVolume'>> = {
  mass: 'amount',
  amount: 'amount',
  volume: 'amount',
  concentration: 'strength',
  purity: 'purity',
  pure: 'purity',
  density: 'density',
  d: 'density',
  ρ: 'density',
  strength: 'strength',
  drop: 'dropVolume',
  'drop-volume': 'dropVolume',
};
const amounts: ReadonlySet<string> = new Set(['mass', 'volume', 'amount', 'drops', 'excess']);
const numberStart = /^\(?[≥>≤<~≈]?=?[+\-−]?(?:\d|\.\d)/;
const bareNumber = /^[~≈]?[+\-−]?\d[\d.,'’]*(?:[eE][+\-−]?\d+)?$/;
/** A number that goes on in the next word: `1 250`. */
const thousands = /^\d{3}(?:[.,]\d+)?$/;
/** Words between a quantity and what it is of. */
const joining = /^(?:of|at|@)$/i;

/** g/mL; below this nothing that is poured at room temperature lies. Source: isopentane 0.620 g/mL at 20 °C, CRC Handbook, from memory. */
const lightestLiquid = 0.6;

interface Word {
  readonly text: string;
  readonly at: number;
}
const joined = (words: readonly Word[]): string => words.map(({ text }) => text).join(' ');

/**
 * Reads a reagent line: a name or formula, then quantities in any order, each known by its unit; `purity 95 %`,
 * `density 1.05 g/mL` and `drop 0.05 mL` name what could be taken for something else. Quantities may also come first:
 * `25.0 mL of 2.0 M HCl`.
 * Errors: `no-reagent` where nothing but quantities is there, `twice` where a kind is given twice, `quantity` where one says
 * nothing about an amount, `over-hundred` for more than all, and those of `parseQuantity`.
 * @example parseReagentText('HCl 25 mL 2.0 mol/L')
 */
export function parseReagentText(written: string): Outcome<ReagentText> {
  if (written.length > 400)
    return bad({
      code: 'too-long',
      column: 401,
      message: 'That is too long for one reagent.',
      expected: 'a name or formula and its quantities',
      cure: 'Write one reagent at a time.',
    });
  const words = nameFirst(wordsOf(written));
  let begin = 0;
  while (begin < words.length && !endsName(words, begin)) begin += 1;
  const name = joined(words.slice(0, begin));
  if (name === '')
    return bad({
      code: 'no-reagent',
      column: 1,
      message: 'The line holds no name or formula.',
      expected: 'a formula or a name',
      cure: 'Write e.g. CuSO4·5H2O 5.00 g.',
    });

  const found: { -readonly [field in keyof ReagentText]?: ReagentText[field] } = {};
  const put = (
    field: 'amount' | 'strength' | 'purity' | 'density' | 'dropVolume',
    quantity: Quantity,
    at: number,
  ): Fault | undefined => {
    if (found[field])
      return {
        code: 'twice',
        column: at + 1,
        message: `The ${field === 'dropVolume' ? 'volume of a drop' : field} is given twice: ${found[field].written} and ${quantity.written}.`,
        expected: 'one of each kind',
        cure: 'Keep one of the two.',
      };
    if (quantity.dimension === 'mass-percent' && quantity.base.gt(100))
      return {
        code: 'over-hundred',
        column: at + 1,
        message: `${quantity.written} is more than all of it.`,
        expected: 'at most 100 %',
        cure: 'Correct the number.',
      };
    found[field] = quantity;
    return undefined;
  };
  let at = begin;
  while (at < words.length) {
    if (joining.test(words[at]!.text) || (/^in$/i.test(words[at]!.text) && isExcess(words[at + 1]))) {
      at += 1;
      continue;
    }
    const marker = markers[words[at]!.text.replace(/[:=]$/, '').toLowerCase()];
    const start = marker && at + 1 < words.length ? at + 1 : at;
    let end = start + 1;
    if (!isExcess(words[start])) while (end < words.length && !startsQuantity(words, end)) end += 1;
    const from = words[start]!.at;
    const text = written.slice(from, words[end - 1]!.at + words[end - 1]!.text.length).replace(/[,;]$/, '');
    const quantity = parseQuantity(text);
    if (!quantity.ok) return bad({ ...quantity.fault, column: from + (quantity.fault.column ?? 1) });
    const { dimension } = quantity.value;
    const field =
      marker ??
      (amounts.has(dimension)
        ? 'amount'
        : dimension === 'density'
          ? 'density'
          : dimension === 'concentration' || dimension === 'mass-percent' || dimension === 'mass-volume-percent'
            ? 'strength'
            : undefined);
    if (!field)
      return bad({
        code: 'quantity',
        column: from + 1,
        message: `A ${dimension} says nothing about how much of a reagent there is.`,
        expected: 'a mass, a volume, an amount, a strength, a purity or a density',
        cure: `Take ${text} away.`,
      });
    const wrong = put(field, quantity.value, from);
    if (wrong) return bad(wrong);
    at = end;
  }
  // Grams in a litre say what is dissolved, unless it is a density that a liquid can have.
  const { density, strength, purity } = found;
  if (density && !strength && !purity && density.base.lt(lightestLiquid) && !/\b(?:density|d|ρ)\b/.test(written)) {
    found.strength = density;
    delete found.density;
  }
  const { formula, called } = readName(name);
  return good({ written, name: called, ...(formula && { formula }), ...found });
}

/** Words with their places; commas between them, the = of `HCl=25 mL` and brackets around quantities count as spaces. */
function wordsOf(written: string): Word[] {
  const plain = written
    .replace(/(?<=[^\s=])=(?=[^\s=])/g, ' ')
    .replace(/(?<=\s)\(((?:purity |density |d |ρ )?[≥>~]?=?\s?[\d.][^()±]*)\)(?=[\s,;]|$)/gi, ' $1 ')
    .replace(/[,;:](?=\s|$)/g, ' ')
    .replace(/(?<!(?:^|\s)[\d.]+\s)(?<=\S\s)[-–—](?=\s+\d)/g, ' ');
  return [...plain.matchAll(/\S+/g)].map((match) => ({ text: match[0], at: match.index }));
}

/** Puts quantities that stand before the name behind it. */
function nameFirst(words: readonly Word[]): readonly Word[] {
  let from = 0;
  for (;;) {
    let to = Math.min(words.length, from + 4);
    while (to > from && !parseQuantity(joined(words.slice(from, to))).ok) to -= 1;
    if (to === from) break;
    from = to;
    if (from < words.length - 1 && joining.test(words[from]!.text)) from += 1;
  }
  return from === 0 || from === words.length
    ? words
    : [...words.slice(from), ...words.slice(0, from).filter(({ text }) => !joining.test(text))];
}

/** Words of a label that say in which state a substance is, not what it is. */
const stateWords =
  /^\(?(?:anhydrous|anh\.?|dry|dried|calcined|crystals?|powder|pellets|granules|flakes|solid|solution|concentrated|conc\.?|diluted?|dil\.?)\)?$/i;

let waterOf: ReadonlyMap<string, string> | undefined;
/** `pentahydrate` is 5 H2O. */
function waterCalled(word: string): string | undefined {
  waterOf ??= new Map(hydrateWordsTable().map((row) => [row.word, row.water]));
  return waterOf.get(word.toLowerCase());
}

/** A formula, a name, a name with its formula after it (`acetic acid CH3COOH`), or a formula with words of a label (`CuSO4 pentahydrate`, `Na2CO3 anhydrous`). */
function readName(name: string): { readonly called: string; readonly formula?: Formula } {
  const whole = parseFormula(name);
  if (whole.ok) return { called: name, formula: whole.value };
  const [first, ...rest] = name.split(' ');
  const water = rest.length === 1 ? waterCalled(rest[0]!) : undefined;
  if (water !== undefined || rest.every((word) => stateWords.test(word))) {
    const labelled = parseFormula(water === undefined ? first! : `${first}·${water}H2O`);
    if (labelled.ok) return { called: name, formula: labelled.value };
  }
  const last = name.slice(name.lastIndexOf(' ') + 1);
  const formula = last === name || !/\d|[([]|[A-Z].*[A-Z]/.test(last) ? undefined : parseFormula(last);
  return formula?.ok ? { called: name.slice(0, name.lastIndexOf(' ')), formula: formula.value } : { called: name };
}

const isExcess = (word: Word | undefined): boolean => word !== undefined && /^excess$/i.test(word.text);

/** The word is a marker before a number (`purity 95 %`), `excess`, or a bound. */
function announcesQuantity(words: readonly Word[], at: number): boolean {
  const word = words[at]!.text;
  const next = words[at + 1]?.text;
  if (isExcess(words[at]) || (/^in$/i.test(word) && isExcess(words[at + 1]))) return true;
  if (Object.hasOwn(markers, word.replace(/[:=]$/, '').toLowerCase()))
    return next !== undefined && (numberStart.test(next) || /^[≥>≤<]/.test(next));
  return (
    /^(?:[≥>~≈]|>=|(?:ca|circa|about|approx|approximately)\.?)$/i.test(word) &&
    next !== undefined &&
    numberStart.test(next)
  );
}

/** The word goes on with the quantity before it: after ±, a dash, a slash, a times sign, or as the next three digits. */
function continues(words: readonly Word[], at: number): boolean {
  const before = words[at - 1]?.text ?? '';
  return (
    /(?:±|\+\/?-|=|[≥>~≈·•*×/]|^[-–x]|^to|^per|^u|^(?:ca|circa|about|approx|approximately)\.?)$/i.test(before) ||
    (thousands.test(words[at]!.text) && /^\d{1,3}$/.test(before))
  );
}

/** Among quantities every number begins one, unless it continues the one before. */
const startsQuantity = (words: readonly Word[], at: number): boolean =>
  announcesQuantity(words, at) ||
  joining.test(words[at]!.text) ||
  (numberStart.test(words[at]!.text) && !continues(words, at));

/** After a name, a number begins a quantity unless it belongs to a formula: `CuSO4 · 5 H2O`, `Al2(SO4)3 x 18H2O`. */
function endsName(words: readonly Word[], at: number): boolean {
  if (announcesQuantity(words, at)) return true;
  const word = words[at]!.text;
  if (!numberStart.test(word) || /[·•*]$/.test(words[at - 1]?.text ?? '')) return false;
  if (at === 0) return parseQuantity(joined(words.slice(0, 2))).ok || parseQuantity(word).ok;
  const next = words[at + 1]?.text;
  const formula = (last: number): boolean => parseFormula(joined(words.slice(0, last))).ok;
  if (formula(at + 1) || (next !== undefined && formula(at + 2) && !parseQuantity(`${word} ${next}`).ok)) return false;
  if (parseQuantity(word).ok || (next !== undefined && parseQuantity(`${word} ${next}`).ok)) return true;
  // No quantity, but meant as one, so that what is wrong with it is said.
  if (bareNumber.test(word)) return next === undefined || thousands.test(next) || !bareNumber.test(next);
  return /^\(\d/.test(word) || /^[~≈]?[+\-−]?\d[\d.,'’]*(?:±.*|[a-zA-Zµμ%°]{1,5}(?:\/\w+)?)$/.test(word);
}
