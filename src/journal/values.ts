// The kinds of value that stand behind a journal's keys: how each is checked, and what is said when it is wrong.
// All scalars arrive as the text that was written (so `2.00` keeps its zeros); numbers and yes-or-no are made here.
import { z } from 'zod';
import { elements } from '../chemistry/atomic-weights.js';
import { parseFormula } from '../chemistry/formula/index.js';
import { once } from '../once.js';
import { hasSides, roomOf } from '../chemistry/quantity/index.js';
import { valueFault, type ValueFault } from '../remarks/value-fault.js';
import { isNoFormula } from '../chemistry/formula/colour-index.js';
import { inLatin, whyLatin } from './look-alikes.js';
import { plainLetters } from './plain-letters.js';
import { nameOfFormula } from '../reagents/index.js';
import { quantityFault, type QuantityKind } from './quantities.js';
import { dateMeant, dayWithoutYear, lastOfMonth, monthMeant } from './written-date.js';

/** Tells zod of a fault, of the value or of what stands below it; the checker of the form finds it there again. */
export const addFault = (context: z.RefinementCtx, fault: ValueFault, path: string[] = []): void =>
  context.addIssue({ code: 'custom', message: fault.rule, path, params: { ...fault } });

/** What was written can only mean one thing, and is read as that. */
const readAs = (written: string, meant: string, why?: string): ValueFault =>
  valueFault('read-as', { written: written.slice(0, 60), meant, ...(why !== undefined && { why }), expected: [meant] });

/** A text value with a check of our own. `examples` are shown by editors. */
function checked(check: (text: string) => ValueFault | undefined, examples: readonly string[] = []) {
  const schema = z
    .string()
    .min(1)
    .superRefine((text, context) => {
      const fault = check(text);
      if (fault) addFault(context, fault);
    });
  return examples.length > 0 ? schema.meta({ examples: [...examples] }) : schema;
}

/** Any words. */
export const words = z.string().min(1);

const numberPattern = /^[-+\u2212]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?$/;
const toNumber = (value: unknown): unknown =>
  typeof value === 'string' && value.length < 40 && numberPattern.test(value)
    ? Number(value.replace('\u2212', '-'))
    : value;

/** A plain number. */
export const plainNumber = z.preprocess(toNumber, z.number());
/** A whole number from 1. */
export const entryNumber = z.preprocess(toNumber, z.int().min(1).max(999_999));
export const wholeNumber = z.preprocess(toNumber, z.int().min(0).max(999_999));
export const numberBetween = (low: number, high: number) => z.preprocess(toNumber, z.number().min(low).max(high));
/** A number, or else text that is checked by `text`. */
export const numberOr = <T extends z.ZodType>(text: T) => z.preprocess(toNumber, z.union([z.number(), text]));
/** One of some numbers. */
export const oneOfNumbers = <const T extends readonly [number, ...number[]]>(choices: T) =>
  z.preprocess(toNumber, z.literal([...choices] as unknown as T));

const truths: ReadonlyMap<string, boolean> = new Map([
  ['true', true],
  ['yes', true],
  ['on', true],
  ['false', false],
  ['no', false],
  ['none', false],
  ['off', false],
]);
/** `true` or `false`; `yes` and `no` say the same. */
export const truth = z.preprocess(
  (value) => (typeof value === 'string' ? (truths.get(value.toLowerCase()) ?? value) : value),
  z.boolean(),
);

/** What is wrong with a date, if anything. Only yyyy-mm-dd of the calendar is a date. */
export function dateFault(text: string): ValueFault | undefined {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!match) {
    const { days, why } = dateMeant(text);
    const [meant] = days;
    if (meant !== undefined && days.length === 1) return readAs(text, meant, why);
    const either = days.length > 1 && { either: days };
    const length = days.length === 0 ? lastOfMonth(text) : undefined;
    if (length !== undefined) return valueFault('date', { written: text, last: length, expected: [`01 to ${length}`] });
    const withoutYear = dayWithoutYear(text);
    const ofYear = withoutYear !== undefined && { withoutYear };
    return valueFault('date', { written: text, ...either, ...ofYear, expected: either ? [...days] : ['yyyy-mm-dd'] });
  }
  const [year, month, ofMonth] = [Number(match[1]), Number(match[2]), Number(match[3])];
  if (month < 1 || month > 12) return valueFault('date', { written: text, month: match[2], expected: ['01 to 12'] });
  const last = new Date(Date.UTC(year, month, 0)).getUTCDate();
  const fits = ofMonth >= 1 && ofMonth <= last;
  return fits ? undefined : valueFault('date', { written: text, last, expected: [`01 to ${last}`] });
}
export const date = checked(dateFault, ['2026-03-14']).meta({
  pattern: '^\\d{4}-\\d{2}-\\d{2}$',
  examples: ['2026-03-14'],
});

/** A day, or the month of one that is not known. */
export const dayOrMonth = checked(
  (text) => {
    const meant = monthMeant(text);
    if (meant === undefined) return dateFault(text);
    return meant === text ? undefined : readAs(text, meant);
  },
  ['2026-03-14', '2026-03'],
).meta({ pattern: '^\\d{4}-\\d{2}(-\\d{2})?$', examples: ['2026-03-14', '2026-03'] });

/** A day, or words for one: `last week`. */
export const dateOrWords = checked((text) => (/\d/.test(text) ? dateFault(text) : undefined), ['2026-03-14']);

/** Languages that a journal may be written in, as its makers call them: by themselves, and in four others. */
const languageCodes = ['en', 'de', 'fr', 'es', 'it', 'nl', 'pt', 'sv', 'da', 'nb', 'fi', 'pl', 'cs', 'hu', 'ja', 'zh'];
const languagesByName = once(
  () =>
    new Map(
      languageCodes.flatMap((code) =>
        [code, 'en', 'de', 'fr', 'es'].map((calledIn): [string, string] => [
          plainLetters(new Intl.DisplayNames([calledIn], { type: 'language' }).of(code) ?? code),
          code,
        ]),
      ),
    ),
);

/** Whether a tag is that of a language which has a name. */
const isLanguage = (tag: string): boolean => {
  const [code = ''] = tag.split('-');
  return languageCodes.includes(code) || new Intl.DisplayNames(['en'], { type: 'language' }).of(code) !== code;
};

/** A language by its tag, which pages are marked with; its name is read as its tag. */
export const languageTag = checked(
  (text) => {
    if (/^[a-z]{2,3}(?:-[A-Za-z0-9]{2,8})*$/.test(text) && isLanguage(text)) return undefined;
    const meant =
      languagesByName().get(plainLetters(text)) ?? /^[a-z]{2,3}_[A-Z]{2}$/.exec(text)?.[0].replace('_', '-');
    if (meant !== undefined) return readAs(text, meant);
    return valueFault('language', { written: text, expected: ['a tag: en-GB, de'] });
  },
  ['en-GB', 'de', 'fr'],
);

/** Text with a unit: `5.00 g`. */
export const quantity = (kind: QuantityKind, ...examples: string[]) =>
  checked((text) => quantityFault(text, kind), examples);

/** The volume of a room; its three sides are multiplied. */
export const roomVolume = checked(
  (text) => {
    const cubicMetres = hasSides(text) ? roomOf(text) : undefined;
    return cubicMetres === undefined
      ? quantityFault(text, 'volume')
      : readAs(text, `${cubicMetres} m3`, 'its three sides multiplied');
  },
  ['25 m3', '3 x 4 x 2.5 m'],
);

/** An amount, and after a comma what belongs to it: `0.4 %, hot`; `0.1 %, on 45 µm`. */
export const quantityWithWords = (kind: QuantityKind, ...examples: string[]) =>
  checked((text) => quantityFault(/^(.+?),\s+\S/s.exec(text)?.[1] ?? text, kind), examples);

/** A formula with the letter O wherever the digit 0 stands for it, if that is a substance known by name. */
const withLetterO = (text: string): string | undefined =>
  [/(?<![\d.])0|(?<=H2)0(?!\d)/g, /(?<![1-9]\d*(?=0*[A-Z(]))0/g]
    .map((zero) => text.replace(zero, 'O'))
    .find((one) => parseFormula(one).ok && nameOfFormula(one) !== undefined);

/** A chemical formula, water of hydration included. */
export const formula = checked(
  (text) => {
    if (isNoFormula(text))
      return valueFault('formula', {
        written: text,
        reason: 'it is a Colour Index name',
        ownCure: `Write colour-index: ${text.trim()}, and under formula what it is made of.`,
      });
    const letters = inLatin(text);
    if (letters !== undefined && parseFormula(letters).ok) return readAs(text, letters, whyLatin);
    const parsed = parseFormula(text);
    if (parsed.ok) {
      const zero = parsed.value.doubts.find(({ code }) => code === 'zero-for-oxygen')?.column;
      if (zero === undefined) return undefined;
      const meant = `${text.slice(0, zero - 1)}O${text.slice(zero)}`;
      return readAs(text, meant, 'the digit 0 in its water stands for the letter O');
    }
    const withLetters = withLetterO(text);
    if (withLetters !== undefined) return readAs(text, withLetters, 'the digit 0 stands for the letter O');
    const { message, expected, cure, correction: meant } = parsed.fault;
    return valueFault('formula', {
      written: text.slice(0, 60),
      reason: message.replace(/\.$/, ''),
      ownCure: cure,
      ...(meant !== undefined && parseFormula(meant).ok && { meant }),
      ...(expected !== undefined && { expected: [expected] }),
    });
  },
  ['CuSO4·5H2O', 'Fe4[Fe(CN)6]3'],
);

/** `https://…` or `http://…` */
export const webAddress = checked(
  (text) =>
    /^https?:\/\//i.test(text) && URL.canParse(text)
      ? undefined
      : valueFault('web-address', { written: text, expected: ['https://…'] }),
  ['https://example.org/'],
);

const colourIndexPattern = /^(?:P|N)(?:B|Bk|Br|G|M|O|R|V|W|Y)\d{1,3}(?::\d{1,2}|:x)?$/;

/** Colour Index Generic Name: `PG39`, `NBr8`, `PBk11`, `PB15:3`. */
export const colourIndexName = checked(
  (text) => {
    if (colourIndexPattern.test(text)) return undefined;
    const squeezed = text.replace(/^(?:c\.?\s*i\.?\s*)?pigment\s+/i, 'P').replace(/[\s.]+/g, '');
    if (colourIndexPattern.test(squeezed)) return readAs(text, squeezed);
    return valueFault('colour-index', {
      written: text,
      withoutSpaces: /^p/i.test(squeezed),
      expected: ['P (pigment) or N (natural), B Bk Br G M O R V W or Y, and a number'],
    });
  },
  ['PG39', 'PBk11'],
).meta({ pattern: '^[PN](B|Bk|Br|G|M|O|R|V|W|Y)\\d{1,3}(:\\d{1,2}|:x)?$', examples: ['PG39', 'PBk11'] });

/** A chemical element's symbol. */
export const elementSymbol = checked(
  (text) => {
    if (elements().has(text)) return undefined;
    const cased = text.charAt(0).toUpperCase() + text.slice(1).toLowerCase();
    if (elements().has(cased)) return readAs(text, cased);
    return valueFault('element', {
      written: text,
      expected: ['a symbol: Cu, Fe, Mn'],
    });
  },
  ['Cu', 'Fe'],
);

/** An id in which letters of another script look like those that it may have. */
const ofLookAlikes = (text: string, pattern: RegExp): ValueFault | undefined => {
  const letters = inLatin(text);
  return letters !== undefined && pattern.test(letters) ? readAs(text, letters, whyLatin) : undefined;
};

/** A sample's id: letters, digits and hyphens, so that it can stand in an address. */
export const sampleIdPattern = /^[A-Za-z0-9](?:[A-Za-z0-9-]{0,30}[A-Za-z0-9])?$/;
export const sampleId = checked(
  (text) =>
    sampleIdPattern.test(text)
      ? undefined
      : (ofLookAlikes(text, sampleIdPattern) ??
        valueFault('sample-id', { written: text, expected: ['letters, digits and hyphens'] })),
  ['A'],
).meta({ pattern: sampleIdPattern.source, examples: ['A'] });

/** A sample of an entry: `9/A`. */
export const lotPattern = /^([1-9]\d{0,5})\/([A-Za-z0-9](?:[A-Za-z0-9-]{0,30}[A-Za-z0-9])?)$/;
const lotInWords =
  /^(?:(?:batch|entry|lot|charge|versuch|ansatz|essai|prueba|prova|no|nr|n[°º]|e)?[.\s]*#?\s*)(\d+)[\s/,.:_(–-]*(?:(?:sample|probe|échantillon|muestra|campione)\s+)?([A-Za-z])\)?$/i;
export const lot = checked(
  (text) => {
    if (lotPattern.test(text)) return undefined;
    const alike = ofLookAlikes(text, lotPattern);
    if (alike) return alike;
    const [, entry, sample] = lotInWords.exec(text.trim()) ?? [];
    const [, other, before] = /^([A-Za-z])\s+(?:of|from|aus|de|von)\s+#?(\d+)$/i.exec(text.trim()) ?? [];
    const meant = `${entry ?? before}/${sample ?? other}`;
    if (lotPattern.test(meant)) return readAs(text, meant);
    const [, alone] = /^\D{0,12}?(\d{1,6})$/.exec(text.trim()) ?? [];
    const of = alone === undefined ? {} : { entry: alone };
    return valueFault('lot', { written: text, ...of, expected: ['entry number / sample id'] });
  },
  ['9/A'],
).meta({ pattern: lotPattern.source, examples: ['9/A'] });

/** An idea, by the entry that has it and its place there: `14/2`. */
export const ideaPattern = /^([1-9]\d{0,5})\/([1-9]\d{0,2})$/;
export const idea = checked(
  (text) =>
    ideaPattern.test(text)
      ? undefined
      : valueFault('idea', { written: text, expected: ['entry number / place among its ideas'] }),
  ['14/2'],
).meta({ pattern: ideaPattern.source, examples: ['14/2'] });

/** To whom something was sent, as it may be published: a number, or a short code with one. */
const codePattern = /^(?:[A-Za-z]{1,3}-?)?\d{1,6}$/;
export const recipientCode = checked(
  (text) => (codePattern.test(text) ? undefined : valueFault('recipient', { written: text, expected: ['P-17'] })),
  ['P-17'],
).meta({ pattern: codePattern.source, examples: ['P-17'] });

const orcidPattern = /^(?:https:\/\/orcid\.org\/)?(\d{4}-\d{4}-\d{4}-\d{3}[\dX])$/;

/** The last sign of an ORCID iD is a check. Source: ISO/IEC 7064, MOD 11-2; support.orcid.org. */
function hasOrcidCheck(text: string): boolean {
  const digits = orcidPattern.exec(text)?.[1]?.replaceAll('-', '') ?? '';
  const total = [...digits.slice(0, -1)].reduce((sum, digit) => (sum + Number(digit)) * 2, 0);
  const check = (12 - (total % 11)) % 11;
  return digits.at(-1) === (check === 10 ? 'X' : String(check));
}

/** Whole address of an ORCID iD. @example orcidUrl('0000-0002-1825-0097') // 'https://orcid.org/0000-0002-1825-0097' */
export const orcidUrl = (text: string): string => `https://orcid.org/${orcidPattern.exec(text)?.[1] ?? text}`;

/** An ORCID iD: `0000-0002-1825-0097`. */
export const orcid = checked(
  (text) =>
    orcidPattern.test(text) && hasOrcidCheck(text)
      ? undefined
      : valueFault('orcid', { written: text, expected: ['0000-0002-1825-0097'] }),
  ['0000-0002-1825-0097'],
).meta({ pattern: orcidPattern.source, examples: ['0000-0002-1825-0097'] });

/** A moment in a video: `3:40`, `1:02:09`. */
export const moment = checked(
  (text) =>
    /^(?:\d{1,2}:)?[0-5]?\d:[0-5]\d$/.test(text)
      ? undefined
      : valueFault('moment', { written: text, expected: ['minutes:seconds'] }),
  ['3:40'],
);

/** Seconds from the start. @example secondsOf('3:40') // 220 */
export const secondsOf = (text: string): number => text.split(':').reduce((sum, part) => sum * 60 + Number(part), 0);

/**
 * The code of a colour on a screen that is written in another way: `2a7f62`, `#2a7`, `0x2a7f62`, `rgb(42, 127, 98)`;
 * undefined for what is none.
 * @example hexMeant('rgb(42, 127, 98)') // '#2a7f62'
 */
export function hexMeant(text: string): string | undefined {
  const plain = text.trim().toLowerCase();
  const [, six] = /^(?:#|0x)?\s?([0-9a-f]{6})(?:ff)?$/.exec(plain) ?? [];
  if (six !== undefined) return `#${six}`;
  const byHue = hexByHue(plain);
  if (byHue !== undefined) return byHue;
  const [, three] = /^#([0-9a-f]{3})$/.exec(plain) ?? [];
  if (three !== undefined) return `#${[...three].map((digit) => digit + digit).join('')}`;
  // In French red, green and blue are rouge, vert, bleu.
  const [, inner = ''] =
    /^(?:s?rgba?|rvb)\s*[(:=]?\s*([\d\s,;/]+)\)?$/.exec(plain.replace(eachNamed, 'rgb $1 $2 $3')) ?? [];
  const parts = inner.split(/[\s,;/]+/).filter((part) => part !== '');
  if (parts.length !== 3 || parts.some((part) => Number(part) > 255)) return undefined;
  return `#${parts.map((part) => Number(part).toString(16).padStart(2, '0')).join('')}`;
}

/** `R52 G84 B158`, `r: 52, g: 84, b: 158` */
const eachNamed = /^r\s?[:=]?\s?(\d{1,3})[\s,;/]*[gv]\s?[:=]?\s?(\d{1,3})[\s,;/]*b\s?[:=]?\s?(\d{1,3})$/;

/** `hsv 35 68 71`, `hsl(35, 51%, 47%)`: hue in degrees, the others in per cent. Source: CSS Color 4, §7. */
function hexByHue(plain: string): string | undefined {
  const [, kind, inner = ''] = /^hs([vbl])a?\s*[(:]?\s*([\d.\s,;/%°]+)\)?$/.exec(plain) ?? [];
  const parts = inner.split(/[\s,;/%°]+/).filter((part) => part !== '');
  const [hue = 0, saturation = 0, last = 0] = parts.map(Number);
  if (kind === undefined || parts.length !== 3 || hue > 360 || saturation > 100 || last > 100) return undefined;
  const [s, v] = [saturation / 100, last / 100];
  const chroma = kind === 'l' ? (1 - Math.abs(2 * v - 1)) * s : v * s;
  const top = kind === 'l' ? v + chroma / 2 : v;
  const channel = (shift: number): number => {
    const k = (shift + hue / 60) % 6;
    return Math.round(255 * (top - chroma * Math.max(0, Math.min(k, 4 - k, 1))));
  };
  return `#${[5, 3, 1].map((shift) => channel(shift).toString(16).padStart(2, '0')).join('')}`;
}

/** `#rrggbb` */
export const hexColour = checked(
  (text) => {
    if (/^#[0-9a-f]{6}$/i.test(text)) return undefined;
    const meant = hexMeant(text);
    return meant === undefined ? valueFault('srgb', { written: text, expected: ['#rrggbb'] }) : readAs(text, meant);
  },
  ['#4f8a6b'],
).meta({ pattern: '^#[0-9A-Fa-f]{6}$', examples: ['#4f8a6b'] });

/** H- or P-statement code, combinations joined with +. */
const codes = (letter: 'H' | 'P', examples: string[]) => {
  const one = `(?:EU)?${letter}\\d{3}[A-Za-z]{0,3}`;
  const pattern = new RegExp(`^${one}(?:\\s*\\+\\s*${one})*$`);
  return checked(
    (text) =>
      pattern.test(text)
        ? undefined
        : valueFault('statement-code', {
            written: text,
            of: letter === 'H' ? 'hazard' : 'precautionary',
            example: examples[0]!,
            expected: [examples.join(', ')],
          }),
    examples,
  );
};
export const hazardCode = codes('H', ['H302', 'H319', 'EUH032']);
export const precautionCode = codes('P', ['P280', 'P301+P312']);
export const pictogram = z.enum(['GHS01', 'GHS02', 'GHS03', 'GHS04', 'GHS05', 'GHS06', 'GHS07', 'GHS08', 'GHS09']);

/**
 * Last digit that the others of a CAS number ask for. Source: CAS, "Check Digit Verification of CAS Registry Numbers".
 */
const checkDigitOf = (digits: string): number =>
  [...digits].reverse().reduce((total, digit, index) => total + Number(digit) * (index + 1), 0) % 10;

/** Whether the last digit of a CAS number is the one that the others ask for. */
function casNumberFits(text: string): boolean {
  const digits = text.replaceAll('-', '');
  return checkDigitOf(digits.slice(0, -1)) === Number(digits.at(-1));
}

/** `CAS 497-19-8`, `497 - 19 - 8` */
const casAsWritten = /^(?:cas\b[\s.:#-]*(?:n[or°º]\.?:?\s*)?)?([1-9]\d{1,6})\s*[-–‐]\s*(\d{2})\s*[-–‐]\s*(\d)$/i;

/** CAS registry number with its check digit. */
export const casNumber = checked(
  (text) => {
    const bare = casAsWritten.exec(text.trim());
    const meant = bare?.slice(1).join('-') ?? text;
    if (meant !== text && casNumberFits(meant)) return readAs(text, meant);
    if (!/^[1-9]\d{1,6}-\d{2}-\d$/.test(text))
      return valueFault('cas', { written: text, misfit: false, expected: ['digits-two digits-one digit'] });
    const last = checkDigitOf(text.replaceAll('-', '').slice(0, -1));
    return casNumberFits(text)
      ? undefined
      : valueFault('cas', { written: text, misfit: true, expected: [`…-${last}`] });
  },
  ['7758-99-8'],
);

/** A file below the journal: no address, no absolute path, no step out of the folder. */
export function journalPathFault(text: string): ValueFault | undefined {
  const facts = { written: text, expected: ['a path such as spectra/14-A.csv'] };
  const forward = text.replaceAll('\\', '/');
  if (forward !== text && !/^[a-z]:|^\//i.test(forward) && journalPathFault(forward) === undefined)
    return readAs(text, forward, 'a path has forward slashes');
  if (/^[a-z][a-z0-9+.-]*:/i.test(text) || text.startsWith('/') || text.includes('\\'))
    return valueFault('file-path', { ...facts, control: false });
  if (text.split('/').includes('..')) return valueFault('outside-journal', { ...facts, of: 'value' });
  return /\p{Cc}/u.test(text) ? valueFault('file-path', { ...facts, control: true }) : undefined;
}
export const journalPath = (...examples: string[]) => checked(journalPathFault, examples);

/** An id on the shelf: lower-case words joined with hyphens. */
export const reagentIdPattern = /^[a-z0-9]+(?:-[a-z0-9]+)*$/;
