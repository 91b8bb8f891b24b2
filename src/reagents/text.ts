// A reagent in one line, as it is said at the bench: `CuSO4·5H2O 5.00 g`, `acetic acid (glacial) 3 mL`, `25 mL of 2.0
// M HCl`, `potassium nitrite [KNO2] 3 g`. Every word is a name, a quantity or a word of state; what is none of these
// is said.
import { parseFormula, parseQuantity, type Quantity } from '../chemistry/index.js';
import { bad, good, type Fault, type Outcome } from '../outcome.js';
import { hydrateWordsTable } from '../tables/compiled/chemistry/hydrate-words.js';
import type { AmountWritten, ReagentWritten } from './contracts.js';
import { isFormula } from './identity.js';
import { substancesNamed } from './known-substances.js';
import { isColourIndexName } from '../chemistry/formula/colour-index.js';
import { materialNamed } from './names.js';
import { inMolarity } from './normality.js';
import { takeAmountWords } from './rough.js';
import { waterInWords } from './salt-names.js';
import { strengthNamed } from './sold-as.js';
import { isPurityWord, isStateWord, isWordOfLabel } from './state.js';
import { takeTreatments } from './treatment-words.js';
import { toldTwice } from './two-units.js';

type Field = 'amount' | 'strength' | 'purity' | 'density' | 'dropVolume';
type Quantities = { [field in Field]?: Quantity };

const markers: Readonly<Record<string, Field>> = {
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
const fieldOf: Readonly<Partial<Record<Quantity['dimension'], Field>>> = {
  mass: 'amount',
  volume: 'amount',
  amount: 'amount',
  drops: 'amount',
  excess: 'amount',
  density: 'density',
  concentration: 'strength',
  'mass-percent': 'strength',
  'mass-volume-percent': 'strength',
  'volume-percent': 'strength',
  'oxygen-volumes': 'strength',
  'degrees-baume': 'strength',
  'degrees-twaddell': 'strength',
};
const numberStart = /^\(?[≥>≤<~≈]?=?[+\-−]?(?:\d|\.\d)/;
const bareNumber = /^[~≈]?[+\-−]?\d[\d.,'’]*(?:[eE][+\-−]?\d+)?$/;
/** A number that goes on in the next word: `1 250`. */
const thousands = /^\d{3}(?:[.,]\d+)?$/;
/** Words between a quantity and what it is of. */
const joining = /^(?:of|at|@)$/i;
const longest = 400;
/** `lot 9/A`, `lot: 9/A`: the word that a lot has in entries. */
/** A sign that stands before a name by chance, or as a bullet: `@NaOH pellets`, `* soda`. */
const strayBegin = /^\s*[@#*•]+\s*(?=[A-Za-zÀ-ɏ])/;
const lotWord = /^\s*lot\s*:?\s*(?=\d{1,9}\/[A-Za-z0-9])/i;

/**
 * g/mL; below this nothing that is poured at room temperature lies. Source: isopentane 0.620 g/mL at 20 °C, CRC
 * Handbook, from memory.
 */
const lightestLiquid = 0.6;

interface Word {
  readonly text: string;
  readonly at: number;
}
const joined = (words: readonly Word[]): string => words.map(({ text }) => text).join(' ');
const markerOf = (word: string): Field | undefined => {
  const name = word.replace(/[:=]$/, '').toLowerCase();
  return Object.hasOwn(markers, name) ? markers[name] : undefined;
};

const noReagent = bad({
  code: 'no-reagent',
  column: 1,
  message: 'The line holds no name or formula.',
  expected: 'a formula or a name',
  cure: 'Write e.g. CuSO4·5H2O 5.00 g.',
});

/** What stands in brackets beside a name, and the line without it. */
interface Bracketed {
  readonly text: string;
  readonly formula?: string;
  readonly state: readonly string[];
}

/** `potassium nitrite [KNO2] 3 g`: a formula in square brackets after a name. */
function takeFormula(text: string): { readonly text: string; readonly formula?: string } {
  const bracket = /\s\[(.+)\](?=\s|$)/.exec(text);
  if (!bracket || isFormula(text.slice(0, bracket.index + bracket[0].length).trim())) return { text };
  const inner = bracket[1]!.trim();
  const before = text.slice(0, bracket.index);
  const after = text.slice(bracket.index + bracket[0].length);
  if (isFormula(inner)) return { formula: inner, text: `${before} ${after}`.trim() };
  // What follows the formula in its brackets, a strength perhaps, is read with the rest.
  const [, formula = '', rest = ''] = /^(\S+)(.*)$/.exec(inner) ?? [];
  return { formula, text: `${before} ${after}${rest}`.trim() };
}

const leadingStrength = /^[≥>~]?\s*[\d.]+(?:\s*[-–]\s*[\d.]+)?\s*(?:%(?:\s*w\/[vw])?|mol\/L|M\b)/i;

/** `HCl 18 %`: behind the words. */
const trailingStrength = /\s[≥>~]?\s*[\d.]+(?:\s*[-–]\s*[\d.]+)?\s*(?:%(?:\s*w\/[vw])?|mol\/L|M)$/i;

/** One piece between commas inside round brackets: a quantity goes back into the line, the rest are words of state. */
function pieceOf(piece: string): { readonly kept: string; readonly words: readonly string[] } {
  const words = piece.trim();
  if (words === '') return { kept: '', words: [] };
  const [first = '', ...others] = words.split(/\s+/);
  const named = markerOf(first);
  if (named && others.length > 0 && parseQuantity(others.join(' ')).ok) return { kept: words, words: [] };
  const whole = parseQuantity(words.replace(/^(?:density|d|ρ)\s*[=:]?\s*/, ''));
  if (whole.ok && fieldOf[whole.value.dimension])
    return { kept: words.replace(/^(density|d|ρ)\s*[=:]\s*/, '$1 '), words: [] };
  const strength = leadingStrength.exec(words)?.[0] ?? trailingStrength.exec(words)?.[0] ?? '';
  const rest = words.replace(strength, '').toLowerCase().split(/\s+/).filter(Boolean);
  return { kept: strength.trim(), words: rest };
}

/** `(37 %, 1.19 g/mL)`, `(dilute, warm)`, `(5 mL)`: quantities go back into the line. */
function takeBrackets(text: string): { readonly text: string; readonly state: readonly string[] } {
  const state: string[] = [];
  const bare = text.replace(/\s\(([^()]*)\)(?=[\s,;]|$)/g, (bracket, inner: string) => {
    if (/^[ivx]+(?:,\s*[ivx]+)*$/i.test(inner.trim())) return bracket.trimStart();
    if (/^\s*\d{1,2}H[2₂]O\s*$/.test(inner)) return ` ${inner.trim()}`.padEnd(bracket.length);
    // `20 % (w/v)` is a unit.
    if (/±|\+\/-|^[wmv]\/[wmv]$/i.test(inner.trim())) return bracket;
    const pieces = inner.split(/[,;]/).map(pieceOf);
    state.push(...pieces.flatMap(({ words }) => words));
    const kept = pieces.map((piece) => piece.kept).filter(Boolean);
    // Brackets are blanked out rather than cut, so that places in the line stay what they were.
    return ` ${kept.join(' ')} `.padEnd(bracket.length);
  });
  return { text: bare, state };
}

/** `100-volume peroxide`, `20-vol`: a number and its unit with a dash between them. */
const dashedUnit = /(?<=(?:^|\s)\d+(?:\.\d+)?)-(?=vol(?:ume)?s?\b)/gi;

/**
 * `ammonia 1:4`, `nitric acid (1 + 1)`: so many parts of it in so many of water, or the other way round, and of what
 * strength nobody says: it tells no strength.
 */
const partsInParts = /(?<=[a-zß-ɏ]{3}[\s,;]+)\(?\d{1,2}\s?[:+]\s?\d{1,3}\)?(?=[\s,;]|$)/giu;

/** The ratios of a line without their brackets, and the line with them blanked out. */
function takeParts(line: string): { readonly line: string; readonly ratios: readonly string[] } {
  const ratios = line.match(partsInParts) ?? [];
  if (ratios.length === 0) return { line, ratios };
  return {
    line: line.replace(partsInParts, (ratio) => ' '.repeat(ratio.length)).trimEnd(),
    ratios: ratios.map((ratio) => ratio.replace(/[()\s]/g, '')),
  };
}

function withoutBrackets(written: string): Bracketed {
  const { text, formula } = takeFormula(written.replace(dashedUnit, ' '));
  const rest = takeBrackets(text);
  return { text: rest.text, state: rest.state, ...(formula !== undefined && { formula }) };
}

/** Words with their places; commas between them, the = of `HCl=25 mL` and dashes before a number count as spaces. */
function wordsOf(written: string): Word[] {
  const plain = written
    .replace(/(?<=[^\s=])=(?=[^\s=])/g, ' ')
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
  const whole = joined(words);
  return from === 0 || from === words.length || isFormula(whole)
    ? words
    : [...words.slice(from), ...words.slice(0, from).filter(({ text }) => !joining.test(text))];
}

const isExcess = (word: Word | undefined): boolean => word !== undefined && /^excess$/i.test(word.text);

/** `ca.`, `about` or a bound before a number. */
const isRough = (words: readonly Word[], at: number): boolean =>
  /^(?:[≥>~≈]|>=|(?:ca|circa|about|approx|approximately|roughly|around)\.?)$/i.test(words[at]!.text) &&
  words[at + 1] !== undefined &&
  numberStart.test(words[at + 1]!.text);

/** The word is a marker before a number (`purity 95 %`), `excess`, or a bound. */
function announcesQuantity(words: readonly Word[], at: number): boolean {
  const word = words[at]!.text;
  const next = words[at + 1]?.text;
  if (isExcess(words[at]) || (/^in$/i.test(word) && isExcess(words[at + 1]))) return true;
  // `20 volume 10 mL`, `98 % pure 5 g`: after a number or a percent sign the word belongs to it.
  if (markerOf(word) && !(at > 0 && /^[\d.]+%?$|^%$/.test(words[at - 1]!.text)))
    return next !== undefined && (numberStart.test(next) || /^[≥>≤<]/.test(next) || isRough(words, at + 1));
  return isRough(words, at);
}

/**
 * The word goes on with the quantity before it: after ±, a dash, a slash, a times sign, or as the next three digits.
 */
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

/** What is wrong with a second quantity of a kind, or with a share of more than all. */
function clash(found: Quantities, field: Field, quantity: Quantity, at: number): Fault | undefined {
  const before = found[field];
  const kind = field === 'dropVolume' ? 'volume of a drop' : field;
  if (before)
    return {
      code: 'twice',
      column: at + 1,
      message: `The ${kind} is given twice: ${before.written} and ${quantity.written}.`,
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
  return undefined;
}

interface ReadQuantity {
  readonly field: Field;
  readonly quantity: Quantity;
  /** Words after it that it does not take: `5 g dust`. */
  readonly rest: readonly string[];
}

/** Grams in a litre say what is dissolved, unless it is a density that a liquid can have. */
function fieldOfQuantity({ dimension, base, written }: Quantity): Field | undefined {
  if (dimension === 'density' && base.lt(lightestLiquid)) return 'strength';
  return dimension === 'mass-percent' && /\bpur(?:e|ity)$/.test(written) ? 'purity' : fieldOf[dimension];
}

/** Words behind a quantity that are told apart from it: `10 g moist, in an open dish in the oven`. */
const mostRest = 10;

/** One quantity from the words at hand; words behind it that make it unreadable are handed back. */
function readQuantity(text: string, marker: Field | undefined): Outcome<ReadQuantity> {
  const rest: string[] = [];
  let fault: Fault | undefined;
  for (let shorter = text; ; ) {
    const quantity = parseQuantity(shorter);
    if (quantity.ok) {
      const field = marker ?? fieldOfQuantity(quantity.value);
      if (field) return good({ field, quantity: quantity.value, rest });
      return bad({
        code: 'quantity',
        message: `A ${quantity.value.dimension} says nothing about how much of a reagent there is.`,
        expected: 'a mass, a volume, an amount, a strength, a purity or a density',
        cure: `Take ${text} away.`,
      });
    }
    fault ??= quantity.fault;
    const cut = /^(.+?)[\s,–—-]+([A-Za-z][A-Za-z-]*)$/.exec(shorter);
    if (!cut || rest.length >= mostRest || bareNumber.test(cut[1]!.trim())) return bad(fault);
    shorter = cut[1]!;
    rest.unshift(cut[2]!.toLowerCase());
  }
}

interface ReadQuantities {
  readonly found: Quantities;
  readonly rest: readonly string[];
}

/** A word that only joins quantities: `and`, `,`, the `in` of `in excess`. */
const joins = (words: readonly Word[], at: number): boolean =>
  joining.test(words[at]!.text) || (/^in$/i.test(words[at]!.text) && isExcess(words[at + 1]));

/** Where `10 % excess`, `10% in excess` ends that begins at a word; undefined where it is none. */
function percentOfExcess(words: readonly Word[], start: number): number | undefined {
  for (let end = start + 2; end <= Math.min(words.length, start + 4); end += 1)
    if (isExcess(words[end - 1]) && parseQuantity(joined(words.slice(start, end))).ok) return end;
  return undefined;
}

/** Where the quantity that begins at a word ends: before the word that begins the next. */
function endOfQuantity(words: readonly Word[], start: number): number {
  const percentExcess = percentOfExcess(words, start);
  if (percentExcess !== undefined) return percentExcess;
  let end = start + 1;
  while (!isExcess(words[start]) && end < words.length && !startsQuantity(words, end)) end += 1;
  return end;
}

/** Every quantity from a word on. */
function readQuantities(words: readonly Word[], begin: number, line: string): Outcome<ReadQuantities> {
  const found: Quantities = {};
  const rest: string[] = [];
  for (let at = begin; at < words.length; ) {
    if (joins(words, at)) {
      at += 1;
      continue;
    }
    const marker = at + 1 < words.length ? markerOf(words[at]!.text) : undefined;
    const start = marker ? at + 1 : at;
    const end = endOfQuantity(words, start);
    const from = words[start]!.at;
    const text = line.slice(from, words[end - 1]!.at + words[end - 1]!.text.length).replace(/[,;]$/, '');
    const read = readQuantity(text, marker);
    if (!read.ok) return bad({ ...read.fault, column: from + (read.fault.column ?? 1) });
    const { field, quantity } = read.value;
    const wrong = clash(found, field, quantity, from);
    if (wrong) return bad(wrong);
    found[field] = quantity;
    rest.push(...read.value.rest);
    at = end;
  }
  return good({ found, rest });
}

let waterOf: ReadonlyMap<string, string> | undefined;
/** `pentahydrate` is 5 H2O. */
function waterCalled(word: string): string | undefined {
  waterOf ??= new Map(hydrateWordsTable().map((row) => [row.word, row.water]));
  return waterOf.get(word.toLowerCase());
}

interface Named {
  readonly name: string;
  readonly formula?: string;
  /** Words beside it that say nothing of what it is. */
  readonly rest?: readonly string[];
}

/** A formula with words of a label behind it: `CuSO4 pentahydrate`, `Na2CO3 anhydrous`. */
function labelledFormula(name: string): Named | undefined {
  const [first, ...rest] = name.split(' ');
  if (rest.length === 0) return undefined;
  const water = rest.length === 1 ? waterCalled(rest[0]!) : undefined;
  const dry = first!.replace(/[,;]$/, '');
  if (water !== undefined) {
    const hydrate = `${dry}·${water}H2O`;
    return isFormula(hydrate) ? { name, formula: hydrate } : undefined;
  }
  return rest.every(isWordOfLabel) && isFormula(dry) ? { name, formula: dry } : undefined;
}

/** A name with its water behind it: `sodium sulfide 9H2O` is no water. */
function namedHydrate(name: string): Named | undefined {
  const inWords = waterInWords(name);
  if (inWords === name) return undefined;
  const material = materialNamed(inWords);
  return material ? { name, formula: material.formula } : { name };
}

/**
 * A name with its formula behind it: `acetic acid CH3COOH`; `vitamin C`, `rhodamine B` and `pigment PB27` end in
 * none.
 */
function namedFormula(name: string): Named | undefined {
  const [, words = '', last = ''] = /^(.+)\s+(\S+)$/.exec(name) ?? [];
  if (words === '' || !/[A-Z]/.test(last) || last.length < 2 || /^[IVX]+$/.test(last)) return undefined;
  if (isColourIndexName(last)) return { name: last };
  return isFormula(last) && !isFormula(words) ? { name: words, formula: last } : undefined;
}

/** A text that names something by itself, as a material of the trade, a published name or a formula. */
const isKnown = (text: string): boolean =>
  isFormula(text) ||
  materialNamed(text) !== undefined ||
  strengthNamed([text]) !== undefined ||
  substancesNamed(text).substances.length > 0;

/** A formula that cannot be a word: it has a digit, a bracket or two capitals. */
const surelyFormula = (text: string): boolean =>
  /\d|[([]|[A-Z].*[A-Z]/.test(text) && isFormula(text) && !/^[A-Z]{3,}$/.test(text);

/**
 * A formula or a known name with words of a label behind it that are neither: `BaCl2·2H2O, Sigma`, `soda, from the
 * shed`.
 */
function labelledWithMore(name: string, segments: readonly string[]): Named | undefined {
  const [first = '', ...others] = segments.length > 1 ? segments : name.split(' ');
  const known = segments.length > 1 ? isKnown(first) : surelyFormula(first);
  if (!known || others.length === 0 || others.some((other) => isKnown(other) && !isWordOfLabel(other)))
    return undefined;
  const words = others.flatMap((other) => other.split(' ')).map((word) => word.toLowerCase());
  return { name: first, ...(isFormula(first) && { formula: first }), rest: words };
}

/** What the words before the quantities name. @param segments the same, cut at commas and dashes */
function readName(name: string, segments: readonly string[]): Named {
  if (parseFormula(name).ok) {
    // A name of the Colour Index can be read as a formula and is none.
    return isColourIndexName(name) ? { name } : { name, formula: name };
  }
  const plainly = labelledFormula(name) ?? namedHydrate(name) ?? namedFormula(name);
  if (plainly) return plainly;
  return isKnown(name) ? { name } : (labelledWithMore(name, segments) ?? { name });
}

/** `technical hydrochloric acid` is sold as such; in `technical copper sulfate` the word only says how pure it is. */
const isKnownName = (name: string): boolean =>
  strengthNamed([name]) !== undefined || materialNamed(name)?.by === 'table';

/** Words of state before and behind a name: `dilute acetic acid`, `HCl warm`. */
function takeState(name: string): { readonly name: string; readonly state: readonly string[] } {
  const words = name.split(' ');
  const state: string[] = [];
  const aside = (word: string): boolean => (isStateWord(word) || isPurityWord(word)) && !isKnownName(words.join(' '));
  while (words.length > 1 && aside(words[0]!)) state.push(words.shift()!.toLowerCase());
  while (words.length > 1 && aside(words.at(-1)!)) state.push(words.pop()!.toLowerCase());
  return { name: words.join(' ').replace(/[,;]$/, ''), state };
}

/** The words of a name as they are written, cut at commas and dashes between words. */
function segmentsOf(line: string, words: readonly Word[]): readonly string[] {
  const [first, last] = [words[0], words.at(-1)];
  if (!first || !last || last.at < first.at) return [];
  return line
    .slice(first.at, last.at + last.text.length)
    .split(/[,;]\s+|\s+[-–—]\s+/)
    .map((segment) => segment.trim())
    .filter((segment) => segment !== '');
}

/**
 * A number that stands first and is none of a name (`2-propanol`, `880 ammonia`) was meant as a quantity, and is a
 * wrong one.
 */
function leadingNumberFault(name: string): Fault | undefined {
  if (!/^[~≈]?[+\-−]?\d[\d.,'’/]*(?:N$|N\s|\s|$)/.test(name) || isKnown(name)) return undefined;
  const [first = '', second = ''] = name.split(' ');
  const wrong = parseQuantity(/[A-Za-z]$/.test(first) ? first : `${first} ${second}`.trim());
  return wrong.ok ? undefined : wrong.fault;
}

const amountOf = (amount: Quantity): AmountWritten =>
  amount.dimension === 'excess' ? { kind: 'excess', quantity: amount } : { kind: 'measured', quantity: amount };

const numberWords = 'one two three four five six seven eight nine ten eleven twelve'.split(' ');
const inWords = new RegExp(
  String.raw`(?<=^|[\s,:])(${numberWords.join('|')})(\s+and\s+a\s+half)?` +
    String.raw`(?=\s+(?:(?:milli|kilo)?gram(?:me)?s?|kilos?|m?g|kg|ml|(?:milli)?lit(?:re|er)s?|ounces?|oz|` +
    String.raw`pounds?|lbs?)\b)`,
  'giu',
);

/** `two and a half grams` in digits. */
const inDigits = (written: string): string =>
  written.replace(inWords, (_, word: string, half?: string) => {
    const whole = numberWords.indexOf(word.toLowerCase()) + 1;
    return half === undefined ? String(whole) : `${whole}.5`;
  });

/** A comma that can only be a decimal point: one or two digits stand behind it, and then a unit. */
const decimalComma =
  /(?<=(?:^|\s)\d+),(?=\d{1,2}\s*(?:\p{L}{1,2}|dag|dkg|tsp|tsk|msk|lbs|grams?|m?mol(?:\/L)?|g\/m?L|%)(?:[\s,;)]|$))/gu;

/**
 * A line with full stops for such commas: as entries and `weigh` read what makers write.
 * @example withPlainPoints('soda 5,3 g') // 'soda 5.3 g'
 */
export const withPlainPoints = (line: string): string => line.replace(decimalComma, '.');

/** So many times a measure: `2x 50 ml`, `3 × 100 mL`; a formula's water (`x 18H2O`) has no unit behind it. */
const timesMeasure = new RegExp(
  String.raw`(?<=^|[\s,;(])(\d{1,2})\s*(?:[x×*]|mal\b|times\b|fois\b)\s*(\d+(?:\.\d+)?)` +
    String.raw`(?=\s*(?:[mcd]?l|[mk]?g|tsp|tbsp)(?![a-z\d]))`,
  'giu',
);

/**
 * A text with such measures multiplied out, to as many decimals as were written.
 * @example multipliedOut('water 2x 50 ml') // 'water 100 ml'
 */
export const multipliedOut = (text: string): string =>
  text.replace(timesMeasure, (_, times: string, measure: string) =>
    (Number(times) * Number(measure)).toFixed(measure.split('.')[1]?.length ?? 0),
  );

const waterApart = /(?<=\p{Ll}{3}[ (·.,]{1,3})(\d{1,2})( +)(H[2₂]O)(?![\p{L}\d₀-₉])(\s*\))?/gu;

/** `5 H2O` behind a name in one piece, with the blanks behind it, so that places in the line stay what they were. */
const waterInOnePiece = (line: string): string => line.replace(waterApart, '$1$3$4$2');

/**
 * Reads a reagent line: a name or formula, then quantities in any order, each known by its unit; `purity 95 %`,
 * `density 1.05 g/mL` and `drop 0.05 mL` name what could be taken for something else. Quantities may also come first:
 * `25.0 mL of 2.0 M HCl`. An amount may be a kitchen measure or words (`2 tsp`, `a pinch of`, `some`, `to pH 8`). A
 * formula may stand in square brackets after the name or as its last word; strength and words of state may stand in
 * round brackets. Words that are none of these are in `unused`.
 * Errors: `no-reagent` where nothing but quantities is there, `twice` where a kind is given twice, `quantity` where
 * one says nothing about an amount, `over-hundred` for more than all, and those of `parseQuantity`.
 * @example readReagentText('HCl 25 mL 2.0 mol/L')
 */
export function readReagentText(written: string): Outcome<ReagentWritten> {
  if (written.length > longest)
    return bad({
      code: 'too-long',
      column: longest + 1,
      message: 'That is too long for one reagent.',
      expected: 'a name or formula and its quantities',
      cure: 'Write one reagent at a time.',
    });
  const twice = toldTwice(written);
  if (twice?.differs !== undefined)
    return bad({
      code: 'twice',
      column: 1,
      message: `The amount is given twice, and the two differ: ${twice.differs}.`,
      expected: 'one amount',
      cure: `Keep the one that was weighed or measured: ${twice.first} or ${twice.second}.`,
    });
  const bare = waterInOnePiece((twice?.line ?? written).replace(lotWord, '').replace(strayBegin, ''));
  const { line: untreated, treatments } = takeTreatments(bare);
  const { line: whole, ratios } = takeParts(multipliedOut(inDigits(inMolarity(untreated))));
  const { line: unsaid, amount: said } = takeAmountWords(whole);
  const line = withoutBrackets(unsaid);
  const words = nameFirst(wordsOf(line.text));
  let begin = 0;
  while (begin < words.length && !endsName(words, begin)) begin += 1;
  const leading = joined(words.slice(0, begin));
  if (leading === '') return noReagent;
  const quantities = readQuantities(words, begin, line.text);
  if (!quantities.ok) return quantities;
  const { name: called, state } = takeState(leading);
  const { name, formula, rest = [] } = readName(called, segmentsOf(line.text, words.slice(0, begin)));
  if (name === '') return noReagent;
  const number = name === formula ? undefined : leadingNumberFault(name);
  if (number) return bad(number);
  const told = [...new Set([...line.state, ...ratios, ...rest, ...quantities.value.rest, ...state, ...treatments])];
  const { amount, ...others } = quantities.value.found;
  const unused = told.filter((word) => !isWordOfLabel(word));
  const own = line.formula ?? formula;
  return good({
    written,
    name,
    ...(own !== undefined && { formula: own }),
    ...(amount ? { amount: amountOf(amount) } : said && { amount: said }),
    ...others,
    ...(told.length > 0 && { state: told }),
    ...(unused.length > 0 && { unused }),
  });
}
