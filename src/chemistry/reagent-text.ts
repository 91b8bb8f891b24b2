// A reagent in one line, as it is said at the bench: `CuSO4·5H2O 5.00 g`, `CH3COOH 3 mL 99.7 % 1.049 g/mL`.
import { bad, good, type Fault, type Outcome } from '../outcome.js';
import { parseFormula, type Formula } from './formula.js';
import { parseQuantity, type Quantity } from './quantity.js';

/** A reagent as written in one line; what is not said is absent, never guessed. */
export interface ReagentText {
  readonly written: string;
  /** The leading words, a formula or a name. */
  readonly name: string;
  /** The leading words as a formula, where they are one. */
  readonly formula?: Formula;
  /** How much was taken: mass, volume, amount, drops or `excess`. */
  readonly amount?: Quantity;
  /** Content of a solution: % by mass, % w/v, mol/L. */
  readonly strength?: Quantity;
  readonly purity?: Quantity;
  readonly density?: Quantity;
  readonly dropVolume?: Quantity;
}

const markers: Readonly<Record<string, 'purity' | 'density' | 'strength' | 'dropVolume'>> = {
  purity: 'purity', pure: 'purity', density: 'density', d: 'density', 'ρ': 'density', strength: 'strength', drop: 'dropVolume', 'drop-volume': 'dropVolume',
};
const amounts: ReadonlySet<string> = new Set(['mass', 'volume', 'amount', 'drops', 'excess']);
const numberStart = /^[≥>≤<~]?=?[+-]?(?:\d|\.\d)/;

/**
 * Reads a reagent line: a name or formula, then quantities in any order, each known by its unit; `purity 95 %`,
 * `density 1.05 g/mL` and `drop 0.05 mL` name what could be taken for something else.
 * Errors: `no-amount-words` where nothing precedes the quantities, `twice` where a kind is given twice, and those of `parseQuantity`.
 * @example parseReagentText('HCl 25 mL 2.0 mol/L')
 */
export function parseReagentText(written: string): Outcome<ReagentText> {
  if (written.length > 400) return bad({ code: 'too-long', column: 401, message: 'That is too long for one reagent.', expected: 'a name or formula and its quantities', cure: 'Write one reagent at a time.' });
  const words = [...written.replace(/(?<=[^\s=])=(?=[^\s=])/g, ' ').replace(/[,;](?=\s)/g, ' ').matchAll(/\S+/g)].map((match) => ({ text: match[0], at: match.index }));
  let begin = 0;
  while (begin < words.length && !startsQuantity(words, begin)) begin += 1;
  const name = words.slice(0, begin).map(({ text }) => text).join(' ');
  if (name === '') return bad({ code: 'no-reagent', column: 1, message: 'The line does not begin with a name or formula.', expected: 'a formula or a name', cure: 'Write e.g. CuSO4·5H2O 5.00 g.' });

  const found: { -readonly [field in keyof ReagentText]?: ReagentText[field] } = {};
  const put = (field: 'amount' | 'strength' | 'purity' | 'density' | 'dropVolume', quantity: Quantity, at: number): Fault | undefined => {
    if (found[field]) return { code: 'twice', column: at + 1, message: `The ${field === 'dropVolume' ? 'volume of a drop' : field} is given twice: ${found[field].written} and ${quantity.written}.`, expected: 'one of each kind', cure: 'Keep one of the two.' };
    found[field] = quantity;
    return undefined;
  };
  let at = begin;
  while (at < words.length) {
    const marker = markers[words[at]!.text.replace(/[:=]$/, '').toLowerCase()];
    const start = marker && at + 1 < words.length ? at + 1 : at;
    let end = start + 1;
    if (!/^(?:excess)$/i.test(words[start]!.text)) while (end < words.length && !startsQuantity(words, end)) end += 1;
    const from = words[start]!.at;
    const text = written.slice(from, words[end - 1]!.at + words[end - 1]!.text.length).replace(/[,;]$/, '');
    const quantity = parseQuantity(text);
    if (!quantity.ok) return bad({ ...quantity.fault, column: from + (quantity.fault.column ?? 1) });
    const { dimension } = quantity.value;
    const field = marker ?? (amounts.has(dimension) ? 'amount' : dimension === 'density' ? 'density' : dimension === 'concentration' || dimension === 'mass-percent' || dimension === 'mass-volume-percent' ? 'strength' : undefined);
    if (!field) return bad({ code: 'quantity', column: from + 1, message: `A ${dimension} says nothing about how much of a reagent there is.`, expected: 'a mass, a volume, an amount, a strength, a purity or a density', cure: `Take ${text} away.` });
    const twice = put(field, quantity.value, from);
    if (twice) return bad(twice);
    at = end;
  }
  const { formula, called } = readName(name);
  return good({ written, name: called, ...(formula && { formula }), ...found });
}

/** A formula, a name, or a name with its formula after it: `acetic acid CH3COOH`. */
function readName(name: string): { readonly called: string; readonly formula?: Formula } {
  const whole = parseFormula(name);
  if (whole.ok) return { called: name, formula: whole.value };
  const last = name.slice(name.lastIndexOf(' ') + 1);
  const formula = last === name || !/\d|[([]|[A-Z].*[A-Z]/.test(last) ? undefined : parseFormula(last);
  return formula?.ok ? { called: name.slice(0, name.lastIndexOf(' ')), formula: formula.value } : { called: name };
}

function startsQuantity(words: readonly { text: string }[], at: number): boolean {
  const word = words[at]!.text;
  const next = words[at + 1]?.text;
  if (/^excess$/i.test(word)) return true;
  const marker = word.replace(/[:=]$/, '').toLowerCase();
  if (Object.hasOwn(markers, marker)) return next !== undefined && (numberStart.test(next) || /^[≥>≤<]/.test(next));
  if (/^(?:≥|>=|>)$/.test(word)) return next !== undefined && numberStart.test(next);
  if (!numberStart.test(word)) return false;
  // `60 % 10 mL`: a number is the start of a quantity when a unit follows or is glued to it; ± continues one.
  const before = words[at - 1]?.text ?? '';
  if (/(?:±|\+\/-|=|≥|>|[·•*])$/.test(before) || before === 'u' || (/^\d{3}$/.test(word) && /^\d{1,3}$/.test(before))) return false;
  if (parseQuantity(word).ok) return true;
  return next !== undefined && (parseQuantity(`${word} ${next}`).ok || /^(?:±|\+\/-)/.test(next) || (/^[\d.]+$/.test(word) && !parseFormula(word).ok));
}
