// Rules on what hangs together within one entry.
import { inYaml } from '../in-yaml.js';
import { rule } from '../rule.js';
import { ifMeant } from './values.js';

const listOr = (names: readonly string[], none: string, some: (list: string) => string): string =>
  names.length === 0 ? none : some(names.join(', '));
const video = (second: string): string => `videos:
  - url: https://video.example/1
    published: 2026-03-20
    moments: [{ at: "3:40", shows: first precipitate }, { at: "${second}", shows: filtration }]`;

const isBare = (written: string): boolean => /^(?:[~≈±]|[a-zä]+\.?\s)?\s*[+\-−]?[\d.]+$/i.test(written);

export const entryRules = {
  'colon-in-text': rule<{ line: string; whole: string }>({
    when: 'A text has a second colon in it, and stands without quotes.',
    severity: 'warning',
    found: () => 'There is a second colon followed by a space on this line; all behind the first is read as one text.',
    advice: 'Put the text in quotes.',
    paste: ({ line, whole }) => ({ instead: line, with: whole }),
    cure: (_, paste) => `Put the text in quotes: ${paste!.with}`,
    fires: 'question: Green: why?',
    silent: 'question: "Green: why?"',
  }),
  'text-cut-by-comment': rule<{ line: string; text: string; lost: string; whole: string }>({
    when: 'A text without quotes goes on behind a # that begins a comment.',
    severity: 'warning',
    found: ({ text, lost }) => `Only '${text}' is read of this text: what begins at ${lost.slice(0, 20)} is a comment.`,
    advice: 'Put the text in quotes.',
    paste: ({ line, whole }) => ({ instead: line, with: whole }),
    cure: (_, paste) => `If it belongs to the text, put it in quotes: ${paste!.with}`,
    fires: 'question: Is batch #2 bluer?',
    silent: 'question: Is it bluer? # ask again',
  }),
  'reagents-in-body': rule<{ first: string; count: number }>({
    when: 'The write-up lists reagents with their amounts, and the front matter names none.',
    severity: 'error',
    found: ({ first, count }) =>
      `The write-up lists what looks like ${count} reagents (${first} …), and no key names any: nothing of them is ` +
      `reckoned, and they are judged by their words alone.`,
    advice: 'Write them under `reagents:`, each with its amount.',
    cure: ({ first }) => `Write them under reagents: in the front matter, one a line: - ${first}`,
    fires: '---\n- copper sulfate 5 g\n- soda 2 g',
    silent: 'reagents: [{ reagent: blue-vitriol, amount: 5.00 g }]\n---\n- copper sulfate 5 g\n- soda 2 g',
  }),
  'date-as-it-is-known': rule<{ written: string; lacks: 'day' | 'date' }>({
    when: 'A date lacks its day, or is only words.',
    severity: 'note',
    found: ({ written, lacks }) =>
      lacks === 'day'
        ? `The day is not said: it is dated ${written}.`
        : `'${written}' is no date, and stands as words.`,
    advice: 'Write year-month-day, where it is known.',
    fires: 'date: 2026-03',
    silent: 'date: 2026-03-14',
  }),
  'date-to-come': rule<{ date: string; status: string }>({
    when: 'An entry that is not planned has a date more than a year ahead.',
    severity: 'warning',
    found: ({ date, status }) => `It is ${status} and dated ${date}, which is more than a year ahead.`,
    advice: 'Look at the year.',
    fires: 'date: 2962-03-14\nstatus: finished',
    silent: 'date: 2026-03-14\nstatus: finished',
  }),
  'amount-not-read': rule<{
    key: string;
    written: string;
    example: string;
    unit: string;
    meant?: string;
    weighedWith?: string;
  }>({
    when: 'An amount, a time or a heat is written with a number, and no figure can be taken from it.',
    severity: 'warning',
    found: ({ key, written }) =>
      isBare(written)
        ? `\`${key}\` is '${written}', without a unit: how much that is cannot be told, so nothing is reckoned.`
        : `\`${key}\` is '${written}', of which no figure can be read: it stands as words, and counts as unknown.`,
    advice: 'Write a number and its unit, or leave it in words.',
    paste: ({ actual, written, unit, meant, weighedWith }) => {
      if (weighedWith !== undefined) return undefined;
      const whole = isBare(written) ? `${written} ${unit}` : meant;
      return whole === undefined ? undefined : { instead: actual ?? written, with: whole };
    },
    cure: ({ written, example, weighedWith }, paste) => {
      if (weighedWith !== undefined)
        return `Weigh the ${weighedWith} alone too, and write both: dried: [{ dish: …, with-product: … }].`;
      if (!paste) return `Write it like ${example}, or leave it in words.`;
      return isBare(written) ? `Write the unit: ${paste.with}` : ifMeant(paste.with);
    },
    fires: 'reagents: [{ reagent: blue-vitriol, amount: 5 gramz }]',
    silent: 'reagents: [{ reagent: blue-vitriol, amount: 5 grams }]',
  }),
  'points-or-thousands': rule<{ key: string; written: string; whole: string }>({
    when: 'Numbers of an entry have a decimal comma, and another has a full stop before three digits.',
    severity: 'error',
    found: ({ key, written, whole }) =>
      `\`${key}\` is '${written}', which beside numbers with a decimal comma may be ${whole} or what it is in English.`,
    advice: 'Write thousands with nothing between, and decimals with a full stop throughout the entry.',
    paste: ({ actual, written, whole }) => ({ instead: actual ?? written, with: whole }),
    cure: (_, paste) =>
      `Write ${paste!.with}, if thousands are meant; if not, write the decimals of all numbers here with a full stop.`,
    fires: 'reagents: [{ reagent: blue-vitriol, amount: "5,30 g" }, { reagent: water, amount: 1.000 mL }]',
    silent: 'reagents: [{ reagent: blue-vitriol, amount: "5,30 g" }, { reagent: water, amount: 1000 mL }]',
  }),
  'differ-in-several': rule<{ one: string; other: string; kinds: readonly string[]; answered: boolean }>({
    when: 'Two samples differ in several things at once, and no others lie between them.',
    severity: { among: ['warning', 'note'], of: ({ answered }) => (answered ? 'warning' : 'note') },
    found: ({ one, other, kinds }) =>
      `Samples ${one} and ${other} differ in ${kinds.length} things (${kinds.join(', ')}): which of them made the ` +
      'difference cannot be told.',
    advice: 'Make a sample that differs in one of them alone, or say in the answer that they were not told apart.',
    fires: 'samples: [{ sample: A, differs: "20 °C, slow addition" }, { sample: B, differs: "5 °C, all at once" }]',
    silent: 'samples: [{ sample: A, differs: "20 °C, all at once" }, { sample: B, differs: "5 °C, all at once" }]',
  }),
  'duplicate-sample': rule<{ sample: string; before: string }>({
    when: 'Two samples of an entry have the same id, or ids that differ only in capitals.',
    severity: 'error',
    found: ({ sample, before }) =>
      before === sample
        ? `There are two samples ${sample}.`
        : `Samples ${before} and ${sample} differ only in capitals.`,
    advice: 'Give each sample an id of its own; its address ends in it.',
    fires: 'samples: [{ sample: A }, { sample: a }]',
    silent: 'samples: [{ sample: A }, { sample: B }]',
  }),
  'unknown-sample': rule<{
    sample: string;
    /** It is said to repeat itself. */
    itself?: boolean;
    near?: string;
    samples?: readonly string[];
  }>({
    when: 'A sample is named that the entry does not have.',
    severity: 'error',
    found: ({ sample, itself }) =>
      itself ? `Sample ${sample} is said to repeat itself.` : `There is no sample ${sample} in this entry.`,
    advice: 'Name a sample of the entry.',
    paste: ({ sample, itself, near }) => (itself || near === undefined ? undefined : { instead: sample, with: near }),
    cure: ({ itself, samples = [] }, paste) => {
      if (itself) return 'Name the sample that it repeats.';
      if (paste) return `Did you mean ${paste.with}?`;
      return listOr(samples, 'This entry has no samples yet.', (list) => `Its samples are ${list}.`);
    },
    fires: 'samples: [{ sample: A }, { sample: B, replicate-of: C }]',
    silent: 'samples: [{ sample: A }, { sample: B, replicate-of: A }]',
  }),
  'not-used': rule<{ key: string; name: string; near?: string; used: readonly string[] }>({
    when: 'A sample omits or changes what the entry does not use.',
    severity: 'error',
    found: ({ key, name }) => `\`${key}\` names '${name}', which is not among what the entry uses.`,
    advice: 'Name something that the entry uses.',
    paste: ({ name, near }) => (near === undefined ? undefined : { instead: name, with: near }),
    cure: ({ used }, paste) =>
      !paste
        ? listOr(used, 'Put it among the entry’s `reagents` first.', (list) => `The entry uses ${list}.`)
        : `Did you mean ${paste.with}?`,
    fires: 'reagents: [{ reagent: soda, amount: 2.50 g }]\nsamples: [{ sample: A, omit: [nitrite] }]',
    silent: 'reagents: [{ reagent: soda, amount: 2.50 g }]\nsamples: [{ sample: A, omit: [soda] }]',
  }),
  'heating-of': rule<{ name: string; near?: string }>({
    when: 'Something is heated that is neither product nor mixture nor anything the entry uses.',
    severity: 'warning',
    found: ({ name }) => `\`of\` names '${name}', which is neither product, mixture nor anything the entry uses.`,
    advice: 'Write product, mixture or the id of a reagent.',
    paste: ({ name, near }) => (near === undefined ? undefined : { instead: name, with: near }),
    cure: (_, paste) => paste && `Did you mean ${paste.with}?`,
    fires: 'heating: [{ of: the paste, to: 60 °C }]',
    silent: 'heating: [{ of: mixture, to: 60 °C }]',
  }),
  'photo-without-words': rule<{ sample?: string; file?: string }>({
    when: 'A photo has no words for those who can’t see it.',
    severity: 'warning',
    found: ({ sample }) =>
      `The photo${sample === undefined ? '' : ` of sample ${sample}`} has no words for those who can’t see it.`,
    advice: 'Add shows: … to it, with a sentence on what is seen.',
    paste: ({ file }) =>
      file === undefined ? undefined : { instead: file, with: `{ file: ${inYaml(file)}, shows: … }` },
    cure: (_, paste) => paste && `Write ${paste.with}, with a sentence on what is seen.`,
    fires: { matter: 'samples: [{ sample: A, photo: photos/a.jpg }]', files: { 'photos/a.jpg': '' } },
    silent: {
      matter: 'samples: [{ sample: A, photo: photos/a.jpg, photo-shows: A dish. }]',
      files: { 'photos/a.jpg': '' },
    },
  }),
  'moment-order': rule<{ at: string; before: string }>({
    when: 'The moments of a video are not in order.',
    severity: 'error',
    found: ({ at, before }) => `${at} does not come after ${before}.`,
    advice: 'Put the moments in the order in which they are seen.',
    fires: video('1:20'),
    silent: video('5:20'),
  }),
  'status-reason': rule<{
    /** The status that the reason belongs to. */
    key: 'failed' | 'abandoned' | 'withdrawn';
    /** Given where the entry gives a reason and has another status. */
    status?: string;
  }>({
    when: 'An entry failed, was given up or withdrawn without saying why, or says why and was not.',
    severity: { among: ['warning', 'note'], of: ({ status }) => (status === undefined ? 'note' : 'warning') },
    found: ({ key, status }) =>
      status === undefined
        ? `The entry is ${key} and does not say why.`
        : `\`${key}\` gives a reason, but the status is ${status}.`,
    advice: 'Add a line with the status as its key (failed:, abandoned:, withdrawn:) and a sentence on why.',
    cure: ({ key, status }) =>
      status === undefined ? `Add ${key}: with a sentence on why.` : `Write status: ${key}, or take the reason out.`,
    fires: 'abandoned: There is no fume hood.',
    silent: 'status: abandoned\nabandoned: There is no fume hood.',
  }),
  'number-and-file': rule<{ number: number; named: string }>({
    when: 'The file of an entry begins with another number than the entry’s own.',
    severity: 'warning',
    found: ({ number, named }) => `The number is ${number}, but the file’s name begins with ${named}.`,
    advice: 'Rename the file, so that it is found by its number.',
    fires: 'number: 2',
    silent: 'number: 1',
  }),
};
