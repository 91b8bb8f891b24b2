// The kinds of value that stand behind a journal's keys: how each is checked, and what is said when it is wrong.
// All scalars arrive as the text that was written (so `2.00` keeps its zeros); numbers and yes-or-no are made here.
import { z } from 'zod';
import { elements } from '../chemistry/atomic-weights.js';
import { parseFormula } from '../chemistry/formula/index.js';
import { quantityFault, type QuantityKind } from './quantities.js';

/** What a wrong value gives to the remark about it. */
export interface Wrong {
  readonly rule: string;
  /** What was found, as the end of a sentence that begins with the key: `has no unit`. */
  readonly found: string;
  readonly expected?: readonly string[];
  readonly cure: string;
}

/** A text value with a check of our own. `examples` are shown by editors. */
function checked(check: (text: string) => Wrong | undefined, examples: readonly string[] = []) {
  const schema = z
    .string()
    .min(1)
    .superRefine((text, context) => {
      const wrong = check(text);
      if (wrong) context.addIssue({ code: 'custom', message: wrong.found, params: { ...wrong } });
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

/** `true` or `false`. */
export const truth = z.preprocess(
  (value) => (value === 'true' ? true : value === 'false' ? false : value),
  z.boolean(),
);

/** What is wrong with a date, if anything. Only yyyy-mm-dd of the calendar is a date. */
export function dateFault(text: string): Wrong | undefined {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  const cure = 'Write year-month-day: 2026-03-14.';
  if (!match) return { rule: 'date', found: `is '${text}', which is not a date`, expected: ['yyyy-mm-dd'], cure };
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  if (month < 1 || month > 12)
    return { rule: 'date', found: `is ${text}, but there is no month ${match[2]}`, expected: ['01 to 12'], cure };
  const last = new Date(Date.UTC(year, month, 0)).getUTCDate();
  if (day < 1 || day > last)
    return {
      rule: 'date',
      found: `is ${text}, but that month has ${last} days`,
      expected: [`01 to ${last}`],
      cure: 'Write a day that the calendar has.',
    };
  return undefined;
}
export const date = checked(dateFault, ['2026-03-14']).meta({
  pattern: '^\\d{4}-\\d{2}-\\d{2}$',
  examples: ['2026-03-14'],
});

/** Text with a unit: `5.00 g`. */
export const quantity = (kind: QuantityKind, ...examples: string[]) =>
  checked((text) => quantityFault(text, kind), examples);

/** An amount, and after a comma what belongs to it: `0.4 %, hot`; `0.1 %, on 45 µm`. */
export const quantityWithWords = (kind: QuantityKind, ...examples: string[]) =>
  checked((text) => quantityFault(/^(.+?),\s+\S/s.exec(text)?.[1] ?? text, kind), examples);

/** A chemical formula, water of hydration included. */
export const formula = checked(
  (text) => {
    const parsed = parseFormula(text);
    if (parsed.ok) return undefined;
    const { message, expected, cure } = parsed.fault;
    return {
      rule: 'formula',
      found: `is '${text.slice(0, 60)}', which can’t be read as a formula: ${message.replace(/\.$/, '')}`,
      expected: expected === undefined ? undefined : [expected],
      cure: cure ?? 'Write it like CuSO4·5H2O.',
    };
  },
  ['CuSO4·5H2O', 'Fe4[Fe(CN)6]3'],
);

/** `https://…` or `http://…` */
export const webAddress = checked(
  (text) => {
    const cure = 'Write the whole address, beginning with https://.';
    if (!/^https?:\/\//i.test(text) || !URL.canParse(text))
      return { rule: 'web-address', found: `is '${text}', which is not a web address`, expected: ['https://…'], cure };
    return undefined;
  },
  ['https://example.org/'],
);

/** Colour Index Generic Name: `PG39`, `NBr8`, `PBk11`, `PB15:3`. */
export const colourIndexName = checked(
  (text) => {
    if (/^(?:P|N)(?:B|Bk|Br|G|M|O|R|V|W|Y)\d{1,3}(?::\d{1,2}|:x)?$/.test(text)) return undefined;
    const squeezed = text.replace(/^(?:c\.?\s*i\.?\s*)?pigment\s+/i, 'P').replace(/[\s.]+/g, '');
    return {
      rule: 'colour-index',
      found: `is '${text}', which is not a Colour Index Generic Name`,
      expected: ['P (pigment) or N (natural), B Bk Br G M O R V W or Y, and a number'],
      cure: `Write it like PG39, PBk11 or PBr7${/^p/i.test(squeezed) ? ', without spaces' : ''}.`,
    };
  },
  ['PG39', 'PBk11'],
).meta({ pattern: '^[PN](B|Bk|Br|G|M|O|R|V|W|Y)\\d{1,3}(:\\d{1,2}|:x)?$', examples: ['PG39', 'PBk11'] });

/** A chemical element's symbol. */
export const elementSymbol = checked(
  (text) => {
    if (elements().has(text)) return undefined;
    const cased = text.charAt(0).toUpperCase() + text.slice(1).toLowerCase();
    return {
      rule: 'element',
      found: `names '${text}', which is not the symbol of an element`,
      expected: ['a symbol: Cu, Fe, Mn'],
      cure: elements().has(cased) ? `Write ${cased}.` : 'Write the symbol with a capital: Cu for copper.',
    };
  },
  ['Cu', 'Fe'],
);

/** A sample's id: letters, digits and hyphens, so that it can stand in an address. */
export const sampleIdPattern = /^[A-Za-z0-9](?:[A-Za-z0-9-]{0,30}[A-Za-z0-9])?$/;
export const sampleId = checked(
  (text) =>
    sampleIdPattern.test(text)
      ? undefined
      : {
          rule: 'sample-id',
          found: `is '${text}', which can't stand in an address`,
          expected: ['letters, digits and hyphens'],
          cure: 'Write a short id such as A, B or A-2; the words go under `differs`.',
        },
  ['A'],
).meta({ pattern: sampleIdPattern.source, examples: ['A'] });

/** A sample of an entry: `9/A`. */
export const lotPattern = /^([1-9]\d{0,5})\/([A-Za-z0-9](?:[A-Za-z0-9-]{0,30}[A-Za-z0-9])?)$/;
export const lot = checked(
  (text) =>
    lotPattern.test(text)
      ? undefined
      : {
          rule: 'lot',
          found: `is '${text}', which is not a lot`,
          expected: ['entry number / sample id'],
          cure: 'Write the entry’s number, a slash and the sample: 9/A.',
        },
  ['9/A'],
).meta({ pattern: lotPattern.source, examples: ['9/A'] });

/** A moment in a video: `3:40`, `1:02:09`. */
export const moment = checked(
  (text) =>
    /^(?:\d{1,2}:)?[0-5]?\d:[0-5]\d$/.test(text)
      ? undefined
      : {
          rule: 'moment',
          found: `is '${text}', which is not a moment in a video`,
          expected: ['minutes:seconds'],
          cure: 'Write minutes and seconds in quotes: "3:40", or "1:02:09" with hours.',
        },
  ['3:40'],
);

/** Seconds from the start. @example secondsOf('3:40') // 220 */
export const secondsOf = (text: string): number => text.split(':').reduce((sum, part) => sum * 60 + Number(part), 0);

/** `#rrggbb` */
export const hexColour = checked(
  (text) =>
    /^#[0-9a-f]{6}$/i.test(text)
      ? undefined
      : {
          rule: 'srgb',
          found: `is '${text}', which is not an sRGB colour`,
          expected: ['#rrggbb'],
          cure: 'Write six hexadecimal digits in quotes: "#4f8a6b" (without quotes a # begins a comment).',
        },
  ['#4f8a6b'],
).meta({ pattern: '^#[0-9A-Fa-f]{6}$', examples: ['#4f8a6b'] });

/** H- or P-statement code, combinations joined with +. */
const codes = (letter: 'H' | 'P', examples: string[]) =>
  checked(
    (text) =>
      new RegExp(`^(?:EU)?${letter}\\d{3}[A-Za-z]{0,3}(?:\\s*\\+\\s*(?:EU)?${letter}\\d{3}[A-Za-z]{0,3})*$`).test(text)
        ? undefined
        : {
            rule: 'statement-code',
            found: `is '${text}', which is not the code of ${letter === 'H' ? 'a hazard' : 'a precautionary'} statement`,
            expected: [examples.join(', ')],
            cure: `Copy the code from section 2 of the safety data sheet: ${examples[0] ?? ''}.`,
          },
    examples,
  );
export const hazardCode = codes('H', ['H302', 'H319', 'EUH032']);
export const precautionCode = codes('P', ['P280', 'P301+P312']);
export const pictogram = z.enum(['GHS01', 'GHS02', 'GHS03', 'GHS04', 'GHS05', 'GHS06', 'GHS07', 'GHS08', 'GHS09']);

/** CAS registry number with its check digit. Source: CAS, "Check Digit Verification of CAS Registry Numbers". */
export const casNumber = checked(
  (text) => {
    const cure = 'Copy the number from the bottle or the safety data sheet: 7758-99-8.';
    if (!/^[1-9]\d{1,6}-\d{2}-\d$/.test(text))
      return {
        rule: 'cas',
        found: `is '${text}', which is not a CAS number`,
        expected: ['digits-two digits-one digit'],
        cure,
      };
    const digits = text.replaceAll('-', '');
    const sum = [...digits.slice(0, -1)]
      .reverse()
      .reduce((total, digit, index) => total + Number(digit) * (index + 1), 0);
    if (sum % 10 !== Number(digits.at(-1)))
      return {
        rule: 'cas',
        found: `is ${text}, but its last digit does not fit the others`,
        expected: [`…-${sum % 10}`],
        cure,
      };
    return undefined;
  },
  ['7758-99-8'],
);

/** A file below the journal: no address, no absolute path, no step out of the folder. */
export function journalPathFault(text: string): Wrong | undefined {
  const cure =
    'Put the file into the journal’s folder and write its path from there, with forward slashes: spectra/14-A.csv.';
  if (/^[a-z][a-z0-9+.-]*:/i.test(text) || text.startsWith('/') || text.includes('\\'))
    return {
      rule: 'file-path',
      found: `is '${text}', which is not a path inside the journal`,
      expected: ['a path such as spectra/14-A.csv'],
      cure,
    };
  if (text.split('/').includes('..'))
    return {
      rule: 'outside-journal',
      found: `is '${text}', which leads out of the journal and is not read`,
      expected: ['a path such as spectra/14-A.csv'],
      cure,
    };
  if (/\p{Cc}/u.test(text))
    return {
      rule: 'file-path',
      found: 'has control characters in it',
      expected: ['a path such as spectra/14-A.csv'],
      cure,
    };
  return undefined;
}
export const journalPath = (...examples: string[]) => checked(journalPathFault, examples);

/** An id on the shelf: lower-case words joined with hyphens. */
export const reagentIdPattern = /^[a-z0-9]+(?:-[a-z0-9]+)*$/;
