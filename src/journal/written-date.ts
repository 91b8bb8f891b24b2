// A date as it is written by hand, in figures or in words of eleven languages: which day it can only mean, or which
// ones it may mean.
import { plainSigns } from '../chemistry/quantity/index.js';
import { plainLetters } from './plain-letters.js';

/** Beginnings of the names of months, as they are told apart in eleven languages, without accents. */
const months = [
  /^(?:jan|gen|ene|sty|янв)/,
  /^(?:feb|fev|feu|lut|фев)/,
  /^(?:mar(?!di|tes)|mrz|maer|maar|мар)/,
  /^(?:apr|avr|abr|kwi|апр)/,
  /^(?:may|mai|mei|mag|maj|маи|мая)/,
  /^(?:jun|juin|giu|cze|июн)/,
  /^(?:jul|juil|lug|lip|июл)/,
  /^(?:aug|aou|ago|sie|авг)/,
  /^(?:sep|set|wrz|сен)/,
  /^(?:oct|okt|ott|out|paz|окт)/,
  /^(?:nov|lis|ноя)/,
  /^(?:dec|dez|dic|des|gru|дек)/,
];

/** Names of days, from Sunday, and how they are shortened, in the same languages. */
const weekdays = [
  /^(?:sun(?:day)?|so(?:nntag)?|dim(?:anche)?|dom(?:ingo|enica)?|zo(?:n(?:dag)?)?|s[oø]n(?:dag)?|niedziela|niedz|воскресенье|вс)$/,
  /^(?:mon(?:day)?|mo(?:ntag)?|lun(?:di|es|edi)?|ma(?:a(?:ndag)?)?|man(?:dag)?|poniedziałek|pon|понедельник|пн)$/,
  /^(?:tues?(?:day)?|di(?:enstag|ns(?:dag)?)?|mar(?:di|tes|tedi)?|tis(?:dag)?|tir(?:sdag)?|wtorek|вторник|вт)$/,
  /^(?:wed(?:nesday)?|mi(?:ttwoch)?|mer(?:credi|coledi)?|mie(?:rcoles)?|wo(?:e(?:nsdag)?)?|ons(?:dag)?|sroda|среда|ср)$/,
  /^(?:thu(?:rs?(?:day)?)?|do(?:n|nnerstag|nderdag)?|tor(?:sdag)?|czwartek|czw|четверг|чт|jeu(?:di)?|jue(?:ves)?|gio(?:vedi)?)$/,
  /^(?:fri(?:day)?|fr(?:eitag)?|ven(?:dredi|erdi)?|vie(?:rnes)?|vr(?:ij(?:dag)?)?|fre(?:dag)?|piatek|пятница|пт)$/,
  /^(?:sat(?:urday)?|sa(?:mstag|medi)?|sonnabend|sab(?:ado|ato)?|za(?:t(?:erdag)?)?|l[oø]r(?:dag)?|sobota|sob|суббота|сб)$/,
];
const calledInEnglish = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'];

/** Words that stand among the parts of a date and say nothing. */
const between = /^(?:der|den|am|vom|im|le|du|en|el|la|del?|of|the|on|in|d|il|di|op|van|dal|kl|г|года|r|roku)$/;

/** A month by its number or its name; undefined where it is neither. */
export function monthOf(written: string): number | undefined {
  const named = months.findIndex((month) => month.test(plainLetters(written))) + 1;
  const number = /^\d+$/.test(written) ? Number(written) : named;
  return number >= 1 && number <= 12 ? number : undefined;
}

const dayOfWeek = (word: string): number => weekdays.findIndex((day) => day.test(word));

/** `14:30`, `um 9.30 Uhr`, `T14:30:00Z`. */
const ofMinutes = String.raw`(?:[:h]\d{2}(?::\d{2}(?:\.\d+)?)?|\.\d{2}(?= ?uhr)|(?= ?(?:uhr|[ap]\.?m)))`;
const ofClock = String.raw`\d{1,2}${ofMinutes}(?:\s?(?:Z|uhr|h|[ap]\.?m\.?))?`;
const timeOfDay = new RegExp(String.raw`(?:T|[ ,]+(?:(?:at|um|à|a las|alle|om|kl\.?|o|в)\s+)?)${ofClock}$`, 'iu');
const ordinal = /(?<=\d)(?:st|nd|rd|th|er|eme|ieme|e|te|ten|ste|de|[º°ª])(?!\p{L})/gu;

/** Its parts in the order in which they stand. */
interface Parts {
  readonly numbers: readonly string[];
  /** A month in letters. */
  readonly month?: number;
  /** From 0, Sunday. */
  readonly weekday?: number;
  /** Words stand behind it that are no part of a date. */
  readonly trailing: boolean;
  /** Year is the number with an apostrophe. */
  readonly short?: string;
}

/** What the words of a date are; undefined where one among them is none of a date. */
function wordsIn(words: readonly string[]): Pick<Parts, 'month' | 'weekday'> | undefined {
  const telling = words.filter((word) => !between.test(word));
  const [first, second, ...others] = telling;
  if (first === undefined) return {};
  if (others.length > 0) return undefined;
  const [weekday, month] = [dayOfWeek(first), monthOf(second ?? first)];
  // `mar. 3 mars`: of two words the first is the day.
  if (second !== undefined)
    return weekday < 0 || month === undefined || dayOfWeek(second) >= 0 ? undefined : { weekday, month };
  if (month !== undefined) return { month };
  return weekday < 0 ? undefined : { weekday };
}

/** No date is longer. */
const longest = 60;

/** The parts of a date up to the last that it needs. */
function partsOf(text: string): Parts | undefined {
  if (text.length > longest) return undefined;
  const tokens = [
    ...plainLetters(text)
      .replace(ordinal, '')
      .matchAll(/['’]?\d+|\p{L}+|[^\s\p{L}\d.,/()'’–-]/gu),
  ];
  const words: string[] = [];
  const numbers: string[] = [];
  let short: string | undefined;
  for (const [at, [token]] of tokens.entries()) {
    const isWhole = numbers.length === 3 || (numbers.length === 2 && words.some((word) => monthOf(word) !== undefined));
    if (isWhole) {
      const isLetters = tokens.slice(at).every(([one]) => /^\p{L}/u.test(one));
      const told = wordsIn(words);
      return isLetters && told
        ? {
            numbers,
            ...told,
            trailing: tokens.slice(at).some(([one]) => !between.test(one)),
            ...(short !== undefined && { short }),
          }
        : undefined;
    }
    const digits = /^['’]?(\d+)$/.exec(token)?.[1];
    if (digits !== undefined) numbers.push(digits);
    else if (/^\p{L}/u.test(token)) words.push(token);
    else return undefined;
    if (digits !== undefined && digits !== token) short = digits;
  }
  const told = wordsIn(words);
  return told && { numbers, ...told, trailing: false, ...(short !== undefined && { short }) };
}

/** A year of four figures, or of two: from 70 on those of the last century. */
const yearOf = (written: string): string | undefined => {
  if (/^(?:1[6-9]|20)\d{2}$/.test(written)) return written;
  return /^\d{2}$/.test(written) ? `${Number(written) >= 70 ? 19 : 20}${written}` : undefined;
};

/** A day of the calendar as the format writes it; undefined for one that it does not have. */
function dayOf(year: string, month: string | number, day: string): string | undefined {
  const [whole, ofYear, ofMonth] = [yearOf(year), Number(month), Number(day)];
  if (whole === undefined || day.length > 2 || ofYear < 1 || ofYear > 12) return undefined;
  const last = new Date(Date.UTC(Number(whole), ofYear, 0)).getUTCDate();
  if (ofMonth < 1 || ofMonth > last) return undefined;
  return `${whole}-${String(ofYear).padStart(2, '0')}-${String(ofMonth).padStart(2, '0')}`;
}

/** Days that three numbers may be: the year first or last, the day before the month or behind it. */
function daysOfNumbers([one = '', two = '', three = '']: readonly string[], text: string): readonly string[] {
  if (one.length === 4) return [dayOf(one, two, three)].filter((day) => day !== undefined);
  if (two.length > 2) return [];
  const yearLast = [dayOf(three, two, one), dayOf(three, one, two)];
  // `26-02-14` is how a year is begun with, and how a Dutch day is.
  const isHyphened = /^\D*\d{2}-\d{1,2}-\d{2}\D*$/.test(text);
  const all = isHyphened ? [...yearLast, dayOf(one, two, three)] : yearLast;
  return [...new Set(all.filter((day) => day !== undefined))];
}

/** Days that a month in letters and two numbers may be: of two short ones the last is the year. */
function daysOfMonth(month: number, numbers: readonly string[], short: string | undefined): readonly string[] {
  const [one = '', two = ''] = numbers;
  const yearFirst = one.length === 4 || (short === one && short !== two);
  const day = yearFirst ? dayOf(one, month, two) : dayOf(two, month, one);
  return day === undefined ? [] : [day];
}

/** What a date that is written by hand means. */
export interface DateMeant {
  /** The days that it may be, as the format writes them; several where it can be read in several ways. */
  readonly days: readonly string[];
  /** What besides the day stands there, or does not fit it. */
  readonly why?: string;
}

const romans = ['I', 'II', 'III', 'IV', 'V', 'VI', 'VII', 'VIII', 'IX', 'X', 'XI', 'XII'];

/** `14.III.2026`: a month in Roman figures between the day and the year. */
const withRomanMonth = (day: string, written: (month: number) => string): string =>
  day.replace(romanMonth, (all, before: string, month: string, behind: string) =>
    romans.includes(month) ? `${before}${written(romans.indexOf(month))}${behind}` : all,
  );
const romanMonth = /^(\D{0,12}\d{1,2}[.\s/-]+)([IVX]{1,4})([.\s/-]+['’]?\d{2,4})$/;
const inLetters = 'jan feb mar apr may jun jul aug sep oct nov dec'.split(' ');

/**
 * How many days the month of a date has whose day it lacks: 30 for `31.4.26`; undefined where it is another fault.
 * @example lastOfMonth('31.4.26') // 30
 */
export function lastOfMonth(written: string): number | undefined {
  const inFigures = withRomanMonth(written.trim(), (month) => String(month + 1));
  const [, day = '', month = '', year = ''] =
    /^(\d{1,2})\s?[./-]\s?(\d{1,2})\s?[./-]\s?(\d{2}|\d{4})$/.exec(inFigures) ?? [];
  const [ofMonth, whole] = [Number(month), yearOf(year)];
  if (whole === undefined || Number(day) < 1 || Number(day) > 31 || ofMonth < 1 || ofMonth > 12) return undefined;
  const last = new Date(Date.UTC(Number(whole), ofMonth, 0)).getUTCDate();
  return Number(day) > last ? last : undefined;
}

/**
 * Month and day of a date without a year, where they can be told: `14.6.`, `3rd of May`.
 * @example dayWithoutYear('14.6.') // '06-14'
 */
export function dayWithoutYear(written: string): string | undefined {
  const [, day, ofMonth] = /^(\d{1,2})\.\s?(\d{1,2})\.$/.exec(written.trim()) ?? [];
  const { numbers = [], month, trailing } = day === undefined ? (partsOf(written) ?? {}) : {};
  const named =
    numbers.length === 1 && month !== undefined && !trailing ? dayOf('2024', month, numbers[0]!) : undefined;
  return (day === undefined ? named : dayOf('2024', ofMonth!, day))?.slice(5);
}

const atOnce = /^((?:19|20)\d{2})(\d{2})(\d{2})$/;

function why(day: string, { weekday, trailing }: Parts, timeTold: boolean): string | undefined {
  const real = new Date(`${day}T00:00:00Z`).getUTCDay();
  if (weekday !== undefined && weekday !== real) return `but that day was a ${calledInEnglish[real]!}`;
  if (trailing) return 'its words are no part of a date';
  return timeTold ? 'the time of day is no part of a date' : undefined;
}

/**
 * The days that a date may mean; none where it is no date. A weekday tells which of two is meant.
 * @example dateMeant('Samstag, der 7. März 2026').days // ['2026-03-07']
 */
export function dateMeant(asWritten: string): DateMeant {
  const written = plainSigns(asWritten);
  if (written.length > 2 * longest) return { days: [] };
  const day = written.trim().replace(timeOfDay, '');
  const [, ...joined] = atOnce.exec(day) ?? [];
  const text = joined.length > 0 ? joined.join('-') : withRomanMonth(day, (month) => ` ${inLetters[month]!} `);
  const parts = partsOf(text);
  if (!parts) return { days: [] };
  const { numbers, month, weekday, short } = parts;
  const wanted = month === undefined ? 3 : 2;
  if (numbers.length !== wanted) return { days: [] };
  const all = month === undefined ? daysOfNumbers(numbers, text) : daysOfMonth(month, numbers, short);
  const onThatDay = all.filter((one) => new Date(`${one}T00:00:00Z`).getUTCDay() === weekday);
  const days = onThatDay.length > 0 ? onThatDay : all;
  const [only] = days;
  const reason = days.length === 1 ? why(only!, parts, day !== written.trim()) : undefined;
  return { days, ...(reason !== undefined && { why: reason }) };
}

/** The month that is written without a day: `März 2026`, `2026/3`; undefined for anything else. */
export function monthMeant(written: string): string | undefined {
  const inFigures = /^(\d{4})[-/.](\d{1,2})$/.exec(written.trim());
  const { month, numbers = [], trailing, weekday } = partsOf(written) ?? {};
  const named = numbers.length === 1 && !trailing && weekday === undefined ? month : undefined;
  const number = inFigures ? monthOf(inFigures[2]!) : named;
  const year = inFigures?.[1] ?? numbers[0] ?? '';
  return number === undefined || year.length !== 4 ? undefined : `${year}-${String(number).padStart(2, '0')}`;
}
