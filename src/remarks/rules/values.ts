// Rules on single values: dates, amounts with their units, formulae, addresses, codes.
import { exampleEntryText } from '../example.js';
import type { Example } from '../rule.js';
import { rule } from '../rule.js';
import type { FormFacts } from './format.js';

/** A value as it was written, shortened where it is long. */
export interface WrittenValue extends FormFacts {
  readonly written: string;
}
/** The least settings, with a line more. */
const inSettings = (line: string): Example => ({
  files: { 'journal.yaml': `title: An example\naddress: https://host.example/\nauthor: Someone\n${line}\n` },
});

/** Settings with this author. */
const byAuthor = (author: string): Example => ({
  files: { 'journal.yaml': `title: An example\naddress: https://host.example/\nauthor: ${author}\n` },
});

/** What the key wants: "a mass", its unit, one that would do. */
export interface WantedQuantity {
  readonly name: string;
  readonly unit: string;
  readonly example: string;
}

/** What an amount that is not read is probably meant for. */
export interface Meant {
  readonly meant?: string;
}
/** A cure that is only probably the right one. */
export const ifMeant = (meant: string): string => `Write ${meant}, if that is meant.`;

const obtained = (mass: string): string => `samples: [{ sample: A, obtained: ${mass} }]`;
const pigment = (facts: string): string => `pigment: { name: malachite, ${facts} }`;
const shelved = (facts: string): Example => ({
  matter: '',
  files: { 'shelf.yaml': `blue-vitriol: { name: blue vitriol, ${facts} }\n` },
});
const video = (at: string): string =>
  `videos: [{ url: "https://video.example/1", published: 2026-03-20, ` +
  `moments: [{ at: "${at}", shows: first precipitate }] }]`;

/** What cannot be read is left out where it can be done without. */
const errorUnlessLeftOut = {
  among: ['error', 'warning'],
  of: ({ leftOut }: { readonly leftOut?: true }) => (leftOut ? 'warning' : 'error'),
} as const;

/** g/mL; nothing is denser. Source: osmium 22.59 g/cm3, CRC Handbook, from memory. */
const densest = 22.6;

/** `910` for a density is told in grams of a litre. */
const fittingUnit = (written: string, unit: string): string =>
  unit === 'g/mL' && Number(written.replace(',', '.')) > densest ? 'g/L' : unit;

/** What a ratio may mean that stands where a strength is wanted: `1:4` as one part and four, or one part in four. */
function ratioCure(written: string, example: string): string | undefined {
  const [, one, other] = /^\s*(\d+(?:\.\d+)?)\s*:\s*(\d+(?:\.\d+)?)/.exec(written) ?? [];
  const [part, rest] = [Number(one), Number(other)];
  if (one === undefined || other === undefined || part === 0 || rest === 0) return undefined;
  const percent = (share: number): string => `${Number((share * 100).toPrecision(3))} %`;
  const inAll = part < rest ? ` or ${one} in ${other} (${percent(part / rest)})` : '';
  return (
    `Say which is meant: ${one} + ${other} (${percent(part / (part + rest))} of what was in the bottle)${inAll}, and ` +
    `write the strength that it came to, like ${example}.`
  );
}

/** Lines of a list as the words of a sentence. */
const inOneLine = (meant: string): string =>
  meant
    .trim()
    .replace(/^- /, '')
    .replace(/\n\s*- /g, ', ');

export const valueRules = {
  'still-an-example': rule<{ key: string; example: string }>({
    when: 'Author or address of the journal are still those of the example that it began with.',
    severity: 'warning',
    found: ({ key, example }) =>
      `\`${key}\` is still the example '${example}', and would be published so, in feeds and citations too.`,
    advice: 'Write your own before you publish.',
    fires: byAuthor('Your name'),
    silent: byAuthor('A. Maker'),
  }),
  'read-as': rule<
    WrittenValue & {
      meant: string;
      why?: string;
      /** What is meant is told in words, and is no text that could stand there. */
      inWords?: true;
    }
  >({
    when: 'A value is written in another way than the format has it, and can only mean one thing.',
    severity: 'note',
    found: ({ subject, written, meant, why }) =>
      `${subject} is '${written}', and is read as ${inOneLine(meant)}${why === undefined ? '' : `: ${why}`}.`,
    advice: 'Write it as it is read.',
    paste: ({ actual, written, meant, inWords }) =>
      inWords || written === '' ? undefined : { instead: actual ?? written, with: meant },
    cure: ({ subject, written, meant }, paste) => {
      if (paste?.with.startsWith('\n'))
        return `Write these lines, or correct them if something else was meant:${paste.with}`;
      if (written === '') return `Add ${subject.replaceAll('`', '')}: ${meant}, or what else it is called.`;
      return `Write ${paste?.with ?? meant}, or correct it if something else was meant.`;
    },
    fires: 'date: 2026-2-14',
    silent: 'date: 2026-02-14',
  }),
  date: rule<
    WrittenValue & {
      month?: string;
      last?: number;
      either?: readonly string[];
      /** Month and day of one that has no year. */
      withoutYear?: string;
    }
  >({
    when: 'A date is none, or none that the calendar has.',
    severity: 'error',
    found: ({ subject, written, month, last, either }) => {
      if (either !== undefined) return `${subject} is '${written}', which may be ${either.join(' or ')}.`;
      if (month !== undefined) return `${subject} is ${written}, but there is no month ${month}.`;
      return last === undefined
        ? `${subject} is '${written}', which is not a date.`
        : `${subject} is ${written}, but that month has ${last} days.`;
    },
    advice: 'Write the day itself, as year-month-day in figures.',
    cure: ({ last, either, withoutYear }) => {
      if (either !== undefined) return `Write ${either.join(' or ')}, whichever is meant.`;
      if (withoutYear !== undefined) return `Write …-${withoutYear}, with the four figures of its year.`;
      return last === undefined ? undefined : 'Write a day that the calendar has.';
    },
    fires: 'date: 3.2.2026',
    silent: 'date: 2026-03-14',
  }),
  unit: rule<WrittenValue & WantedQuantity & Meant & { reason?: string; ownCure?: string; leftOut?: true }>({
    when: 'An amount has no unit, or one that is not known.',
    severity: errorUnlessLeftOut,
    found: ({ subject, written, name, reason }) =>
      reason === undefined
        ? `${subject} is '${written}', which has no unit.`
        : `${subject} is '${written}', which can’t be read as ${name}: ${reason}.`,
    advice: 'Write the amount with its unit.',
    paste: ({ actual, written, unit, reason, ownCure, meant }) => {
      const instead = actual ?? written;
      if (meant !== undefined) return { instead, with: meant };
      if (ownCure !== undefined || reason !== undefined) return undefined;
      return { instead, with: `${written} ${fittingUnit(written, unit)}` };
    },
    cure: ({ written, example, ownCure, meant }, paste) => {
      if (ownCure !== undefined) return ownCure;
      if (meant !== undefined) return ifMeant(meant);
      if (paste) return `Write the unit: ${paste.with}`;
      return ratioCure(written, example) ?? `Write it like ${example}.`;
    },
    fires: shelved('density: 1.98'),
    silent: shelved('density: 1.98 g/mL'),
  }),
  quantity: rule<WrittenValue & WantedQuantity & Meant & { reason: string; ownCure?: string; leftOut?: true }>({
    when: 'An amount cannot be read.',
    severity: errorUnlessLeftOut,
    found: ({ subject, written, name, reason, leftOut }) =>
      leftOut
        ? `${subject} is '${written}', which can’t be read as ${name}; it counts as not given.`
        : `${subject} is '${written}', which can’t be read as ${name}: ${reason}.`,
    advice: 'Write a number and its unit.',
    paste: ({ actual, written, meant }) =>
      meant === undefined ? undefined : { instead: actual ?? written, with: meant },
    cure: ({ ownCure, example }, paste) => ownCure ?? (paste ? ifMeant(paste.with) : `Write it like ${example}.`),
    fires: obtained('"1,980 g"'),
    silent: obtained('1.98 g'),
  }),
  'beyond-all': rule<WrittenValue & { isNothing: boolean; meant: string }>({
    when: 'A purity lies above 100 % or is nothing, or a strength by mass lies above what fuming sulfuric acid has.',
    severity: 'error',
    found: ({ subject, written, isNothing }) =>
      `${subject} is '${written}', which is ${isNothing ? 'nothing of it' : 'more than all of it'}; nothing is ` +
      'reckoned with that.',
    advice: 'Write what the label says.',
    cure: ({ isNothing, meant }) =>
      `Write ${meant}what the label says, ${isNothing ? 'more than nothing' : 'at most 100 %'}.`,
    fires: shelved('purity: 980 %'),
    silent: shelved('purity: 98.0 %'),
  }),
  dimension: rule<WrittenValue & WantedQuantity & Meant & { isA: string }>({
    when: 'An amount is of another kind than the key wants.',
    severity: 'error',
    found: ({ subject, written, isA, name }) => `${subject} is '${written}', ${isA}, where ${name} should stand.`,
    advice: 'Write an amount of the kind that the key wants.',
    paste: ({ actual, written, meant }) =>
      meant === undefined ? undefined : { instead: actual ?? written, with: meant },
    cure: ({ name, example }, paste) =>
      paste ? `${ifMeant(paste.with)} It is ${name}.` : `Write ${name}, like ${example}.`,
    fires: obtained('1.98 h'),
    silent: obtained('1.98 g'),
  }),
  formula: rule<WrittenValue & Meant & { reason: string; ownCure?: string }>({
    when: 'A formula cannot be read.',
    severity: 'error',
    found: ({ subject, written, reason }) => `${subject} is '${written}', which can’t be read as a formula: ${reason}.`,
    advice: 'Write it like CuSO4·5H2O.',
    paste: ({ actual, written, meant }) =>
      meant === undefined ? undefined : { instead: actual ?? written, with: meant },
    cure: ({ ownCure }, paste) => (paste ? ifMeant(paste.with) : ownCure),
    fires: pigment('formula: Cu2CO3(OH'),
    silent: pigment('formula: Cu2CO3(OH)2'),
  }),
  'web-address': rule<WrittenValue>({
    when: 'A web address is none.',
    severity: 'error',
    found: ({ subject, written }) => `${subject} is '${written}', which is not a web address.`,
    advice: 'Write the whole address, beginning with https://.',
    fires: 'sources: [{ cite: A book, url: example.org }]',
    silent: 'sources: [{ cite: A book, url: "https://example.org/" }]',
  }),
  'colour-index': rule<WrittenValue & { withoutSpaces: boolean }>({
    when: 'A Colour Index Generic Name is none.',
    severity: 'error',
    found: ({ subject, written }) => `${subject} is '${written}', which is not a Colour Index Generic Name.`,
    advice: 'Write it like PG39, PBk11 or PBr7.',
    cure: ({ withoutSpaces }) => (withoutSpaces ? 'Write it like PG39, PBk11 or PBr7, without spaces.' : undefined),
    fires: pigment('colour-index: Pigment Green'),
    silent: pigment('colour-index: PG39'),
  }),
  element: rule<WrittenValue>({
    when: 'What should be an element’s symbol is none.',
    severity: 'error',
    found: ({ subject, written }) => `${subject} names '${written}', which is not the symbol of an element.`,
    advice: 'Write the symbol with a capital: Cu for copper.',
    fires: pigment('elements: [Copper]'),
    silent: pigment('elements: [Cu]'),
  }),
  'sample-id': rule<WrittenValue>({
    when: 'The id of a sample could not stand in an address.',
    severity: 'error',
    found: ({ subject, written }) => `${subject} is '${written}', which can't stand in an address.`,
    advice: 'Write a short id such as A, B or A-2; the words go under `differs`.',
    fires: 'samples: [{ sample: the cold one }]',
    silent: 'samples: [{ sample: A, differs: cold }]',
  }),
  lot: rule<WrittenValue & { entry?: string }>({
    when: 'A lot is not written as one.',
    severity: 'error',
    found: ({ subject, written }) => `${subject} is '${written}', which is not a lot.`,
    advice: 'Write the entry’s number, a slash and the sample: 9/A.',
    cure: ({ entry }) =>
      entry === undefined ? undefined : `Write the sample as well, for one called A ${entry}/A; or take out \`lot\`.`,
    fires: shelved('lot: A1'),
    silent: {
      matter: 'samples: [{ sample: A }]',
      files: { 'shelf.yaml': 'blue-vitriol: { name: blue vitriol, lot: 1/A }\n' },
    },
  }),
  idea: rule<WrittenValue>({
    when: 'An idea is not named as one.',
    severity: 'error',
    found: ({ subject, written }) => `${subject} is '${written}', which names no idea.`,
    advice: 'Write the number of the entry that has it, a slash and its place among its ideas: 14/2.',
    fires: 'takes-up: [1-1]',
    silent: {
      matter: 'ideas: [Try it cold.]',
      files: { 'entries/002-second.md': exampleEntryText('number: 2\ntitle: Cold\ntakes-up: [1/1]') },
    },
  }),
  language: rule<WrittenValue>({
    when: 'The language of the journal is none that has a tag.',
    severity: 'error',
    found: ({ subject, written }) => `${subject} is '${written}', which is not the tag of a language.`,
    advice: 'Write the tag of the language that the write-ups are in: en-GB, de, fr, pt-BR.',
    fires: inSettings('language: klingon'),
    silent: inSettings('language: de'),
  }),
  orcid: rule<WrittenValue>({
    when: 'An ORCID iD is none: a digit is missing, or its last sign does not fit the others.',
    severity: 'error',
    found: ({ subject, written }) => `${subject} is '${written}', which is no ORCID iD.`,
    advice: 'Copy it from orcid.org: four groups of four, 0000-0002-1825-0097.',
    fires: inSettings('orcid: 0000-0002-1825-0098'),
    silent: inSettings('orcid: 0000-0002-1825-0097'),
  }),
  recipient: rule<WrittenValue>({
    when: 'A sample was sent to somebody by name or address.',
    severity: 'error',
    found: ({ subject, written }) =>
      `${subject} is '${written}', which may be a name or an address, and the journal is published.`,
    advice: 'Write a number or a short code with one (P-17), and keep who that is outside the journal.',
    fires: 'samples: [{ sample: A, sent: [{ date: 2026-02-01, amount: 0.50 g, to: Jane Doe }] }]',
    silent: 'samples: [{ sample: A, sent: [{ date: 2026-02-01, amount: 0.50 g, to: P-17 }] }]',
  }),
  moment: rule<WrittenValue>({
    when: 'A moment in a video is none.',
    severity: 'error',
    found: ({ subject, written }) => `${subject} is '${written}', which is not a moment in a video.`,
    advice: 'Write minutes and seconds in quotes: "3:40", or "1:02:09" with hours.',
    fires: video('3 min 40'),
    silent: video('3:40'),
  }),
  srgb: rule<WrittenValue>({
    when: 'An sRGB colour is none.',
    severity: 'error',
    found: ({ subject, written }) => `${subject} is '${written}', which is not an sRGB colour.`,
    advice: 'Write six hexadecimal digits in quotes: "#4f8a6b" (without quotes a # begins a comment).',
    fires: 'samples: [{ sample: A, colour: { srgb: green } }]',
    silent: 'samples: [{ sample: A, colour: { srgb: "#4f8a6b" } }]',
  }),
  'statement-code': rule<WrittenValue & { of: 'hazard' | 'precautionary'; example: string }>({
    when: 'A code is none of a hazard or a precautionary statement.',
    severity: 'error',
    found: ({ subject, written, of }) =>
      `${subject} is '${written}', which is not the code of ` +
      `${of === 'hazard' ? 'a hazard' : 'a precautionary'} statement.`,
    advice: 'Copy the code from section 2 of the safety data sheet.',
    cure: ({ example }) => `Copy the code from section 2 of the safety data sheet: ${example}.`,
    fires: shelved('sds: { statements: [302] }'),
    silent: shelved('sds: { statements: [H302] }'),
  }),
  cas: rule<WrittenValue & { misfit: boolean }>({
    when: 'A CAS number is none, or its last digit does not fit.',
    severity: 'error',
    found: ({ subject, written, misfit }) =>
      misfit
        ? `${subject} is ${written}, but its last digit does not fit the others.`
        : `${subject} is '${written}', which is not a CAS number.`,
    // No number stands here: it would be copied, and be that of something else.
    advice: 'Copy the number from the bottle or the safety data sheet: digits, two digits, one digit, with hyphens.',
    fires: shelved('cas: 7758-99-7'),
    silent: shelved('cas: 7758-99-8'),
  }),
  'file-path': rule<WrittenValue & { control: boolean }>({
    when: 'The path of a file is none inside the journal.',
    severity: 'error',
    found: ({ subject, written, control }) =>
      control
        ? `${subject} has control characters in it.`
        : `${subject} is '${written}', which is not a path inside the journal.`,
    advice:
      'Put the file into the journal’s folder and write its path from there, with forward slashes: spectra/14-A.csv.',
    fires: 'samples: [{ sample: A, photo: /home/me/two.jpg }]',
    silent: { matter: 'samples: [{ sample: A, photo: photos/two.jpg }]', files: { 'photos/two.jpg': '' } },
  }),
  'colour-reading': rule<FormFacts & { lacks?: readonly string[] }>({
    when: 'A colour holds no reading, or a photo without what is needed to read it.',
    severity: 'error',
    found: ({ subject, lacks }) =>
      lacks === undefined ? `${subject} holds no reading.` : `${subject} has a photo and lacks ${lacks.join(', ')}.`,
    cure: ({ lacks }) =>
      lacks &&
      'Say which chart the photo shows, where its four corner patches lie, ' +
        'and where the sample; `masstone colour --help` tells how.',
    advice:
      'Give a spectrum file, lab: [54.1, -30.2, 6.0] with illuminant and observer, a photo that shows a chart beside ' +
      'the sample (`masstone colour --help` tells how), or as a rough estimate srgb: "#5f8f6b"; or leave `colour` ' +
      'out, and write `looks` in words.',
    fires: 'samples: [{ sample: A, colour: { illuminant: D65 } }]',
    silent: 'samples: [{ sample: A, colour: { lab: [54.1, -30.2, 6.0], illuminant: D65, observer: 10 } }]',
  }),
  'reagent-or-lot': rule<FormFacts & { both: boolean }>({
    when: 'A use names neither a reagent nor a lot, or both.',
    severity: 'error',
    found: ({ subject, both }) =>
      `${subject} names ${both ? 'both a reagent and a lot' : 'neither a reagent nor a lot'}.`,
    advice: 'Write `reagent: blue-vitriol` for what stands on the shelf, or `lot: 9/A` for what you made earlier.',
    fires: 'reagents: [{ amount: 5.00 g }]',
    silent: 'reagents: [{ reagent: blue-vitriol, amount: 5.00 g }]',
  }),
};
