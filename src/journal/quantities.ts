// Checks amounts that stand in a journal: each key wants one kind of quantity, with its unit.
import { commasRead, parseQuantity, plainSigns, rangesInSigns, type Dimension } from '../chemistry/quantity/index.js';
import { grAsGrams, isAmount, multipliedOut, readHeat, toldTwice, whyGrams } from '../reagents/index.js';
import type { Fault } from '../outcome.js';
import { valueFault, type ValueFault } from '../remarks/value-fault.js';
import type { WantedQuantity } from '../remarks/rules/values.js';
import { nearest } from './nearest.js';
import { amountMeant } from './mending/amount-meant.js';
import { dryMeant, grossWith, netMeant } from './mending/net-weight.js';
import { shortened } from './shortened.js';
import { digitsMeant, withoutMarks } from './mending/slips-in-amounts.js';

export type QuantityKind =
  | 'mass'
  | 'volume'
  | 'poured'
  | 'amount'
  | 'obtained'
  | 'held'
  | 'temperature'
  | 'time'
  | 'density'
  | 'strength'
  | 'purity'
  | 'percent'
  | 'price'
  | 'oil-absorption';

/** What a kind may be, how a sentence names it, and what one looks like. */
const kinds: Readonly<Record<QuantityKind, WantedQuantity & { readonly dimensions: readonly Dimension[] }>> = {
  mass: { dimensions: ['mass'], name: 'a mass', unit: 'g', example: '1.98 g' },
  volume: { dimensions: ['volume'], name: 'a volume', unit: 'mL', example: '25 mL' },
  poured: { dimensions: ['volume'], name: 'a volume', unit: 'mL', example: '200 mL' },
  amount: {
    dimensions: ['mass', 'volume', 'amount', 'drops', 'excess'],
    name: 'a mass, a volume, an amount of substance, a number of drops or `excess`',
    unit: 'g',
    example: '5.00 g',
  },
  obtained: { dimensions: ['mass', 'volume'], name: 'a mass or a volume', unit: 'g', example: '1.98 g' },
  held: { dimensions: ['mass', 'volume'], name: 'a mass or a volume', unit: 'g', example: '500 g' },
  temperature: { dimensions: ['temperature'], name: 'a temperature', unit: '°C', example: '60 °C' },
  time: { dimensions: ['time'], name: 'a time', unit: 'h', example: '3 h' },
  density: { dimensions: ['density'], name: 'a density', unit: 'g/mL', example: '1.18 g/mL' },
  strength: {
    dimensions: [
      'mass-percent',
      'mass-volume-percent',
      'concentration',
      'density',
      'volume-percent',
      'oxygen-volumes',
      'degrees-baume',
      'degrees-twaddell',
    ],
    name: 'a strength',
    unit: '%',
    example: '60 %, 10 % w/v or 2.0 mol/L',
  },
  purity: { dimensions: ['mass-percent'], name: 'a purity', unit: '%', example: '98 %' },
  percent: { dimensions: ['mass-percent'], name: 'a percentage', unit: '%', example: '0.4 %' },
  price: { dimensions: ['money-per-amount'], name: 'a price', unit: 'EUR / 500 g', example: '4.20 EUR / 500 g' },
  'oil-absorption': {
    dimensions: ['ratio'],
    name: 'a mass of oil for a mass of pigment',
    unit: 'g/100 g',
    example: '22 g/100 g',
  },
};

const names: Readonly<Record<Dimension, string>> = {
  mass: 'a mass',
  volume: 'a volume',
  amount: 'an amount of substance',
  concentration: 'a concentration',
  'mass-percent': 'a percentage',
  'mass-volume-percent': 'a strength by mass and volume',
  'volume-percent': 'a percentage by volume',
  'oxygen-volumes': 'a strength in volumes of oxygen',
  'degrees-baume': 'a density in degrees Baumé',
  'degrees-twaddell': 'a density in degrees Twaddell',
  density: 'a density',
  temperature: 'a temperature',
  time: 'a time',
  length: 'a length',
  drops: 'a number of drops',
  ratio: 'a mass for a mass',
  excess: '`excess`',
  'money-per-amount': 'a price',
};

/** The same amounts stand in many entries; what was found of each is kept. */
const examined = new Map<string, ValueFault | undefined>();
const kept = 4096;

/**
 * What is wrong with an amount for a key of this kind, if anything.
 * @example quantityFault('1.98', 'mass')?.rule // 'read-as'
 */
export function quantityFault(text: string, kind: QuantityKind): ValueFault | undefined {
  const key = `${kind} ${text}`;
  if (examined.has(key)) return examined.get(key);
  const fault = examine(text, kind);
  if (examined.size >= kept) examined.clear();
  if (key.length < 80) examined.set(key, fault);
  return fault;
}

/** Faults whose own cure says more than an example of the kind. */
const wellCured: ReadonlySet<string> = new Set(['comma', 'range', 'tolerance', 'price']);

/** These may be told in words; in figures they must have their unit. */
const mayBeWords: ReadonlySet<QuantityKind> = new Set(['temperature', 'time', 'amount', 'obtained', 'poured']);
const beginsWithNumber = /^[+\-−]?\.?\d/;
/** `~10`, `about 10`. */
const roughly = /^(?:[~≈±]|(?:ca\.?|circa|about|approx\.?|around|roughly|etwa|ungefähr|rund|environ)\s)\s*(?=\.?\d)/i;

/** A number of things that are no unit and look like none: `3 scoops`. */
function countsThings(text: string): boolean {
  const counted = /^\d+(?:\.\d+)?\s+([a-z][a-z-]{3,})\b/i.exec(text);
  return counted !== null && nearest(counted[1]!.toLowerCase(), unitWords) === undefined;
}
const unitWords = ['gram', 'grams', 'kilogram', 'kilograms', 'milligrams', 'litre', 'litres', 'liters', 'millilitres'];

/** Whether it is told in words or kitchen measures that this kind may be told in. */
function isInWords(text: string, kind: QuantityKind): boolean {
  if (!mayBeWords.has(kind) || text === '') return false;
  if (!beginsWithNumber.test(text)) return !parsesAsOther(text, kind);
  // `1 c. à s.`: a kitchen measure of single letters.
  if ((kind === 'amount' || kind === 'obtained') && !parseQuantity(text).ok && isAmount(text)) return true;
  return !parsesAsOther(text, kind) && !parseQuantity(text).ok && saysMore(text);
}

/** Words behind the number, or a number alone, whose unit nobody knows. One with a comma in it is looked at first. */
const saysMore = (text: string): boolean =>
  (/\p{L}{2,}/u.test(text) || /^[+\-−]?[\d.]+$/.test(text)) && !/^[+\-−]?[\d.\s]*\d[,'’]\d/.test(text);

/** `20 min soak`, `50 Grad`: the figure is clear, and words follow. */
function beginsWithQuantity(text: string, kind: QuantityKind): boolean {
  if (kind === 'temperature') return readHeat(text).known !== 'not-known';
  const [number, unit] = text.split(/\s+/);
  const read = parseQuantity(`${number} ${unit}`);
  return kind === 'time' && read.ok && read.value.dimension === 'time';
}

/** Something that begins with a number and is neither a quantity nor known words: nothing is reckoned from it. */
export interface NotRead {
  readonly written: string;
  readonly name: string;
  readonly example: string;
  /** The unit that such an amount mostly has: `g`. */
  readonly unit: string;
  /** The amount that is probably meant. */
  readonly meant?: string;
  /** What it was weighed in or on, where only the weight of both is told. */
  readonly weighedWith?: string;
}

/** A figure with a unit of mass or volume among words. */
const figureWithin = /\d\s?(?:[mkµ]?g|[mcdµ]?l|oz|lbs?|m?mol|grams?|gramm?e?s?|lit(?:re|er)s?)(?![a-zß-ɏ])/i;

/** Words in which a figure stands that nothing is known of: `> 3 g`, `max. 100 mL`. */
const holdsFigure = (written: string, kind: QuantityKind): boolean =>
  (kind === 'amount' || kind === 'obtained') && figureWithin.test(written) && !isAmount(written);

/**
 * Why nothing can be reckoned from an amount or a time that the format takes as words; undefined where it can be, or
 * where nobody would have expected it (`3 scoops`, `2 nights`).
 * @example notRead('5 grammz', 'amount')?.written // '5 grammz'
 */
export function notRead(text: string, kind: QuantityKind): NotRead | undefined {
  const written = text.trim();
  const figure = written.replace(roughly, '');
  const { name, example, unit } = kinds[kind];
  const weighedWith = kind === 'obtained' ? grossWith(written) : undefined;
  const told = { written: shortened(written), name, example, unit, ...(weighedWith !== undefined && { weighedWith }) };
  if (!beginsWithNumber.test(figure)) return holdsFigure(written, kind) ? told : undefined;
  if (isAmount(written) || countsThings(figure)) return undefined;
  const parsed = parseQuantity(figure);
  if (parsed.ok || beginsWithQuantity(figure, kind)) return undefined;
  const meant = amountMeant(figure, unit, (one) => examine(one, kind) === undefined);
  return { ...told, ...(meant !== undefined && { meant: written.replace(figure, meant) }) };
}

/** Words that are a quantity of a kind that does not belong here: `half a mole` of product. */
function parsesAsOther(text: string, kind: QuantityKind): boolean {
  const parsed = parseQuantity(text);
  return parsed.ok && !kinds[kind].dimensions.includes(parsed.value.dimension);
}

/** `17 gr`, `2x 50 ml`: an amount that can only mean one thing. */
function asOtherwiseWritten(text: string, kind: QuantityKind): ValueFault | undefined {
  const { dimensions } = kinds[kind];
  const inGrams = grAsGrams(text);
  if (inGrams !== text && dimensions.includes('mass')) {
    const grams = commasRead(inGrams) ?? inGrams;
    if (parseQuantity(grams).ok)
      return valueFault('read-as', { written: shortened(text), meant: grams, why: whyGrams, expected: [grams] });
  }
  if (kind === 'obtained' && /^0+(?:[.,]0+)?$/.test(text.trim()))
    return valueFault('read-as', { written: text, meant: '0 g', why: 'nothing has no unit', expected: ['0 g'] });
  // Signs are looked at first: what cannot be parsed is looked through for words of numbers.
  const signs = markedUp(text) ?? otherSigns(text, kind);
  if (signs && !parseQuantity(text).ok) {
    const grams = commasRead(signs.meant) ?? signs.meant;
    if (parseQuantity(grams).ok && examine(grams, kind) === undefined)
      return valueFault('read-as', { written: shortened(text), meant: grams, why: signs.why, expected: [grams] });
  }
  const once = commasRead(text) ?? text;
  const times = multipliedOut(once);
  if (times === once || !parseQuantity(times).ok || examine(times, kind) !== undefined) return undefined;
  return valueFault('read-as', { written: shortened(text), meant: times, why: 'multiplied out', expected: [times] });
}

/** `23,412 g, 25,017 g`: of two weighings on a balance the commas part no thousands. */
const withDecimals = (text: string): string => text.replace(/(?<![\d.,])(\d{1,2}),(?=\d{3}(?![\d.,]))/g, '$1.');

/** `~~5 g~~ 6 g`: what is struck out was taken back. */
function markedUp(text: string): { readonly meant: string; readonly why: string } | undefined {
  const meant = withoutMarks(text);
  return meant === text ? undefined : { meant, why: 'what is struck out does not count' };
}

/** Thousands between apostrophes, a scale without its degree sign, hours and minutes, a weighing less its dish. */
function otherSigns(text: string, kind: QuantityKind): { readonly meant: string; readonly why: string } | undefined {
  const plain = text.trim();
  if (/\d['’]\d{3}(?!\d)/.test(plain))
    return { meant: plain.replace(/(?<=\d)['’](?=\d{3}(?!\d))/g, ''), why: 'its apostrophe parts thousands' };
  if (/(?<![\d.,])\d{1,3}(?:\.\d{3}){2,}(?![\d.])/.test(plain))
    return { meant: plain.replace(/(?<=\d)\.(?=\d{3})/g, ''), why: 'its full stops stand between thousands' };
  if (kind === 'temperature') {
    const [, number, scale] = scaleAlone.exec(plain) ?? [];
    return number === undefined
      ? undefined
      : { meant: `${number} °${scale!.toUpperCase()}`, why: 'a heat on that scale' };
  }
  if (kind === 'time') {
    const [, hours, minutes] =
      /^(\d{1,2})\s?(?:(?:h|hrs?|hours?|std\.?):?|:)\s?([0-5]\d)\s?(?:min\.?|minutes?|m|h)?$/i.exec(plain) ?? [];
    return hours === undefined
      ? undefined
      : { meant: `${Number(hours) * 60 + Number(minutes)} min`, why: 'hours and minutes' };
  }
  const behind = wordsBehind(plain, kind);
  if (behind) return behind;
  const told = kind === 'amount' ? ofEachSample(plain) : undefined;
  if (told) return told;
  const sum = kind === 'amount' || kind === 'obtained' ? sumMeant(plain) : undefined;
  if (sum !== undefined) return { meant: sum, why: 'added up' };
  const dry = kind === 'obtained' ? dryMeant(commasRead(plain) ?? plain) : undefined;
  if (dry !== undefined) return { meant: dry, why: 'what it weighed dry' };
  const net = kind === 'obtained' ? netMeant(commasRead(plain) ?? withDecimals(plain)) : undefined;
  return net === undefined
    ? undefined
    : {
        meant: net,
        why: 'less what it was weighed with; `dried: [{ dish: …, with-product: … }]` keeps both weighings',
      };
}

/** An amount with words in or behind it: a range, how roughly it was measured, or something else. */
function wordsBehind(plain: string, kind: QuantityKind): { readonly meant: string; readonly why: string } | undefined {
  const range = rangesInSigns(plain);
  if (range !== plain && parseQuantity(range).ok) return { meant: range, why: 'a range' };
  const [, aboutSo] = roughlyBehind.exec(plain) ?? [];
  if (aboutSo !== undefined) return { meant: `ca. ${commasRead(aboutSo) ?? aboutSo}`, why: 'about as much' };
  const [, measured, words] = kind === 'amount' ? (withRemark.exec(plain) ?? []) : [];
  return measured !== undefined && parseQuantity(measured).ok
    ? { meant: measured, why: `without ‘${words!}’` }
    : undefined;
}

/** `8 g env.`, `300 ml ungefähr` */
const roughlyBehind =
  /^(\d[^()]*?)\s*\(?(?:env\.?|environ|ca\.?|circa|approx\.?|approximately|aprox\.?|ungefähr|etwa|or so|más o menos)\)?$/i;

/** `10ml: careful`: an amount and a remark without figures. */
const withRemark = /^(~?\d[^:;]*?)\s*[:;]\s*([^\d:;]{3,})$/;

const measure = String.raw`\d+(?:\.\d+)?\s?[a-zA-Zµ]{1,3}`;
const later = String.raw`(?:\s+(?:more|later|afterwards|again|after that|später|dann|danach|nochmal|plus tard))?`;
const joined = String.raw`\s*(?:\+|plus|and then|then|und dann|puis)\s*(?:another\s+)?`;
const sumOf = new RegExp(String.raw`^${measure}(?:${joined}${measure}${later})+$`, 'i');

/** `1.6 g + 1.6 g later`: what all portions of one unit come to; undefined where they are none. */
function sumMeant(text: string): string | undefined {
  const portions = sumOf.test(text)
    ? (text.match(new RegExp(measure, 'g')) ?? []).map((one) => parseQuantity(one))
    : [];
  const [first] = portions;
  if (!first?.ok || portions.length < 2) return undefined;
  const values = portions.flatMap((one) => (one.ok && one.value.unit === first.value.unit ? [one.value.value] : []));
  if (values.length < portions.length) return undefined;
  const digits = Math.max(...(text.match(/\.\d+/g) ?? ['.']).map((decimals) => decimals.length - 1));
  return `${values.reduce((total, one) => total.plus(one)).toFixed(digits)} ${first.value.unit}`;
}

const eachBehind =
  /^(.*\d.*?)[\s,]+(?:each|apiece|per sample|for each|in each|jeweils|je Probe|pro Probe|chacun|par essai)$/i;

/** `5.26 g each`: each sample is a pot of its own, of which the amounts are told. */
function ofEachSample(text: string): { readonly meant: string; readonly why: string } | undefined {
  const other = eachBehind.exec(text)?.[1] ?? /^(?:je|jeweils)\s+(\d.*)$/i.exec(text)?.[1];
  return other === undefined ? undefined : { meant: other, why: 'what stands here goes into each sample' };
}

/** `1.6 g (A), 2.0 g (B)`, `A: 1.6 g, B: 2.0 g`: amounts of several samples. */
const ofSamples = /^(?=.*\d.*\d)(?:[^(]*\([A-Z]\)[^(]*\([A-Z]\)|[A-Z]\s*[:=].*[,;]\s*[A-Z]\s*[:=])/;
const cureForSamples =
  'Write the amount of the first, and under each other sample change: [{ reagent: …, amount: 2.0 g }].';

/** `1400F`, `225 deg. F`: a scale of which no unit of the table has the spelling. */
const scaleAlone = /^((?:[~≈]|ca\.?|about)?\s*-?\d+(?:\.\d+)?)\s*(?:deg(?:rees?)?\.?|grad|°)?\s*([CF])\.?$/i;

const mayBeToldTwice: ReadonlySet<QuantityKind> = new Set(['amount', 'obtained', 'held', 'poured', 'mass', 'volume']);

/** `0.5 oz (14.2 g)`: both are one amount, or nobody knows which of them it was. */
function inTwoUnits(text: string, kind: QuantityKind): ValueFault | undefined {
  const { dimensions: _, ...wanted } = kinds[kind];
  const { first, second, kept, line, differs } = toldTwice(text.trim()) ?? {};
  if (kept === undefined || first === undefined) return undefined;
  const written = shortened(text);
  if (differs !== undefined)
    return valueFault('quantity', {
      written,
      ...wanted,
      reason: `it is given twice, and the two differ: ${differs}`,
      ownCure: `Write ${first} or ${second}, whichever was weighed or measured.`,
      expected: [first, second ?? ''],
    });
  if (line !== kept || examine(kept, kind) !== undefined) return undefined;
  return valueFault('read-as', { written, meant: kept, why: 'both say the same', expected: [kept] });
}

function examine(asWritten: string, kind: QuantityKind): ValueFault | undefined {
  const text = plainSigns(asWritten);
  const { dimensions, ...wanted } = kinds[kind];
  const meant = commasRead(text);
  const impossible = beyondAll(meant ?? text, kind, shortened(text));
  if (impossible) return impossible;
  if (meant !== undefined && parseQuantity(meant).ok && examine(meant, kind) === undefined)
    return valueFault('read-as', {
      written: shortened(text),
      meant,
      why: 'its comma can mean nothing else',
      expected: [meant],
    });
  const twice = mayBeToldTwice.has(kind) ? inTwoUnits(text, kind) : undefined;
  if (twice) return twice;
  const other = asOtherwiseWritten(text, kind);
  if (other) return other;
  const letters = digitsMeant(text);
  if (letters) {
    const facts = { written: shortened(text), ...wanted, expected: [wanted.name] };
    return valueFault('quantity', { ...facts, reason: letters.why, ownCure: letters.cure });
  }
  if (kind === 'amount' && ofSamples.test(text)) {
    const facts = { written: shortened(text), ...wanted, expected: [wanted.name] };
    return valueFault('quantity', { ...facts, reason: 'it tells of several samples', ownCure: cureForSamples });
  }
  if (isInWords(text.trim(), kind)) return undefined;
  // A price may leave its currency to journal.yaml.
  const whole = kind === 'price' ? text.replace(/^\s*(\d+(?:\.\d+)?)\s*(?=\/|per\b)/, '$1 EUR ') : text;
  const facts = { written: shortened(text), actual: text, ...wanted, expected: [wanted.name] };
  const parsed = parseQuantity(whole);
  if (kind === 'price' && !parsed.ok && moneyAlone.test(text.trim()))
    return valueFault('unit', { ...facts, reason: 'nothing says for how much' });
  const plain = plainUnits[kind];
  if (!parsed.ok && parsed.fault.code === 'unit-missing' && plain !== undefined)
    return valueFault('read-as', {
      written: shortened(text),
      meant: `${text.trim()} ${plain}`,
      why: `it has no unit, and ${plain} is the usual one`,
      expected: [`${text.trim()} ${plain}`],
    });
  const ownCure = parsed.ok ? undefined : cureForBare(text.trim(), kind);
  if (!parsed.ok && parsed.fault.code === 'unit-missing' && ownCure !== undefined)
    return valueFault('unit', { ...facts, ownCure });
  if (!parsed.ok)
    return unreadable(parsed.fault, { ...facts, ...(mayBeLeftOut(text, kind) && { leftOut: true }) }, kind);
  const { dimension } = parsed.value;
  if (dimensions.includes(dimension)) return undefined;
  const perLitre = kind === 'strength' && dimension === 'amount' ? { meant: `${text.trim()}/L` } : {};
  return valueFault('dimension', { ...facts, ...perLitre, isA: names[dimension] });
}

/**
 * The most per cent that a kind can be. Fuming sulfuric acid is sold as more than 100 % of H2SO4, up to what pure SO3
 * makes with water, 98.08 / 80.06.
 */
const mostPercent: Readonly<Partial<Record<QuantityKind, number>>> = { purity: 100, strength: 122.5 };

/** A share of more than all, or a purity of nothing. */
function beyondAll(text: string, kind: QuantityKind, written: string): ValueFault | undefined {
  const most = mostPercent[kind];
  const read = most === undefined ? undefined : parseQuantity(text);
  if (most === undefined || !read?.ok || read.value.dimension !== 'mass-percent') return undefined;
  const { base } = read.value;
  const isNothing = kind === 'purity' && !base.gt(0);
  if (!isNothing && !base.gt(most)) return undefined;
  const tenth = base.div(10);
  // `980 %` for 98.0 %: a point was lost.
  const meant = base.gte(500) && tenth.lte(100) ? `${tenth.toFixed(1)} %, if that is meant, or ` : '';
  return valueFault('beyond-all', {
    written,
    isNothing,
    meant,
    expected: [isNothing ? 'more than nothing' : 'at most 100 %'],
  });
}

/** What a share without its sign may mean: `0.98` is 98 % on many labels and in spreadsheets. */
function cureForBare(text: string, kind: QuantityKind): string | undefined {
  if (kind !== 'purity' && kind !== 'strength') return undefined;
  const value = /^\d*\.?\d+$/.test(text) ? Number(text) : Number.NaN;
  if (!(value > 0 && value <= 1)) return undefined;
  const percent = Number((value * 100).toPrecision(10));
  const bare = Number(text);
  if (kind === 'purity') return `Write ${percent} %, if it is a share of one, or ${bare} % if that little is meant.`;
  return `Write ${percent} % if it is a share of one, or the unit: ${bare} %, ${bare} mol/L.`;
}

/** `7,90 €`, `EUR 4.20`, `7.90`: money, and not for how much. */
const moneyAlone = /^(?:[€£$¥]|[A-Z]{3})?\s*\d+(?:[.,]\d+)?\s*(?:[€£$¥]|[A-Z]{3})?$/u;

/** Units of what is only ever read off in one: a mass on the balance, a volume on a burette. */
const plainUnits: Readonly<Partial<Record<QuantityKind, string>>> = { mass: 'g', volume: 'mL' };

/** Words for a figure that can be done without: then it counts as not given, which is reckoned at its worst. */
const mayBeLeftOut = (text: string, kind: QuantityKind): boolean => doneWithout.has(kind) && !/\d/.test(text);
const doneWithout: ReadonlySet<QuantityKind> = new Set(['strength', 'purity', 'density', 'price', 'percent']);

type QuantityFacts = WantedQuantity & {
  readonly written: string;
  /** The whole text. */
  readonly actual: string;
  readonly expected: readonly string[];
  readonly leftOut?: true;
};

function unreadable({ code, message, cure, expected }: Fault, facts: QuantityFacts, kind: QuantityKind): ValueFault {
  if (code === 'unit-missing') return valueFault('unit', facts);
  const told = {
    ...facts,
    reason: message.replace(/\.$/, ''),
    expected: expected === undefined ? facts.expected : [expected],
  };
  const meant = amountMeant(facts.actual, facts.unit, (one) => examine(one, kind) === undefined);
  if (meant !== undefined) return valueFault(code === 'unit' ? 'unit' : 'quantity', { ...told, meant });
  if (code === 'unit') return valueFault('unit', { ...told, ...(expected === 'mol/L' && { ownCure: cure }) });
  return valueFault('quantity', { ...told, ...(wellCured.has(code) && { ownCure: cure }) });
}
