// Rules on what entries refer to: reagents, lots, other entries; and on what two entries may not share.
import { exampleEntryText } from '../example.js';
import type { Example } from '../rule.js';
import { rule } from '../rule.js';

/** Which entries there are: all of them where they are few. */
export type KnownNumbers = { readonly all: readonly number[] } | { readonly from: number; readonly to: number };

const numbersWords = (numbers: KnownNumbers): string => {
  if ('from' in numbers) return `The numbers go from ${numbers.from} to ${numbers.to}.`;
  return numbers.all.length === 0 ? 'There are no other entries.' : `There are ${numbers.all.join(', ')}.`;
};

/** An entry 1 with a sample A, and an entry 2. */
const second = (matter: string, first = 'samples: [{ sample: A, obtained: 2.00 g }]', finished = false): Example => ({
  files: {
    'entries/001-first.md': exampleEntryText(first),
    'entries/002-second.md': exampleEntryText(`number: 2\ntitle: Another\ndate: 2026-01-03\n${matter}`),
  },
  finished,
});
const usingLot = (lot: string, first?: string, finished?: boolean): Example =>
  second(`reagents: [{ lot: ${lot}, amount: 1.00 g }]`, first, finished);
const running = 'status: running\nsamples: [{ sample: A }]';

export const referenceRules = {
  'duplicate-number': rule<{ number: number; other: string; free: number }>({
    when: 'Two entries have the same number.',
    severity: 'error',
    found: ({ number, other }) => `Number ${number} is also that of ${other}.`,
    advice: 'Give one of them the next free number; the one that is published keeps its own.',
    cure: ({ free }) => `Give one of them the next free number, ${free}; the one that is published keeps its own.`,
    fires: { matter: '', files: { 'entries/002-second.md': exampleEntryText('title: Another') } },
    silent: second(''),
  }),
  'same-title': rule<{ other: string }>({
    when: 'Two entries have the same title.',
    severity: 'note',
    found: ({ other }) => `${other} has the same title.`,
    advice: 'Say in the title what sets them apart.',
    fires: { matter: '', files: { 'entries/002-second.md': exampleEntryText('number: 2') } },
    silent: second(''),
  }),
  'unknown-reagent': rule<{
    id: string;
    /** The nearest that is on the shelf. */
    near?: string;
    /** What names it. */
    of: 'use' | 'jar-by-name' | 'incident' | 'reference';
    /** Further jars of the same name. */
    others?: readonly string[];
  }>({
    when: 'A reagent is named that is not on the shelf.',
    severity: {
      among: ['error', 'warning', 'note'],
      of: ({ near, of, others }) => {
        if (of === 'jar-by-name') return others === undefined ? 'note' : 'warning';
        return of === 'use' && near === undefined ? 'note' : 'error';
      },
    },
    found: ({ id, near, of, others }) => {
      if (others !== undefined)
        return `Several jars are called '${id}'; it is read as ${near}, and may be ${others.join(' or ')}.`;
      if (of === 'jar-by-name') return `'${id}' is read as ${near}, which is on the shelf.`;
      return of === 'use' && near === undefined
        ? `'${id}' is not on the shelf, and is taken for what it is called.`
        : `'${id}' is not on the shelf.`;
    },
    advice: 'Add it to shelf.yaml, or describe it here: { name: …, formula: … }.',
    paste: ({ id, near, others }) =>
      near === undefined || others !== undefined ? undefined : { instead: id, with: near },
    cure: ({ near, of, others }, paste) => {
      if (others !== undefined) return `Write the id of the jar that was used: ${[near, ...others].join(' or ')}.`;
      if (paste) return of === 'jar-by-name' ? `Write ${paste.with}.` : `Did you mean ${paste.with}?`;
      if (of === 'incident') return 'Write the id of a reagent on the shelf.';
      return of === 'reference' ? 'Write the id of a reagent on the shelf, or give the colour here.' : undefined;
    },
    subject: 'id',
    // Of what is on no shelf one jar takes away the notes of all entries.
    mendedOnce: true,
    fires: 'reagents: [{ reagent: blue-vitrol, amount: 5.00 g }]',
    silent: 'reagents: [{ reagent: blue-vitriol, amount: 5.00 g }]',
  }),
  'unknown-idea': rule<{
    idea: string;
    entry: number;
    /** Where there is no entry of that number. */
    numbers?: KnownNumbers;
    /** How many ideas the entry has, where that is fewer. */
    ideas?: number;
  }>({
    when: 'An idea is taken up that no entry has.',
    severity: 'warning',
    found: ({ idea, entry, ideas }) =>
      `There is no idea ${idea}: ` +
      `${ideas === undefined ? `there is no entry ${entry}` : `entry ${entry} has ${ideas}`}.`,
    advice: 'Name an idea by the entry that has it and its place there; /ideas/ and masstone next list them.',
    cure: ({ numbers }) => (numbers ? numbersWords(numbers) : undefined),
    subject: 'idea',
    fires: second('takes-up: [1/3]', 'ideas: [Try it cold.]'),
    silent: second('takes-up: [1/1]', 'ideas: [Try it cold.]'),
  }),
  'unknown-lot': rule<{
    lot: string;
    entry: number;
    /** Where there is no entry of that number. */
    numbers?: KnownNumbers;
    /** Where the entry has no such sample. */
    sample?: string;
    samples?: readonly string[];
    /** The only lot of that entry, where it can have been used. */
    only?: string;
  }>({
    when: 'A lot is named that does not exist.',
    severity: 'error',
    found: ({ lot, entry, sample }) =>
      `Lot ${lot} does not exist: ` +
      `${sample === undefined ? `there is no entry ${entry}` : `entry ${entry} has no sample ${sample}`}.`,
    advice: 'Name a sample of an earlier entry.',
    paste: ({ lot, only }) => (only === undefined ? undefined : { instead: lot, with: only }),
    cure: ({ entry, numbers, samples = [] }, paste) => {
      if (numbers) return numbersWords(numbers);
      if (paste) return `Its only lot is ${paste.with}: write that, if it is meant.`;
      const lots = samples.map((one) => `${entry}/${one}`);
      return lots.length === 0 ? `Entry ${entry} has no samples.` : `Its lots are ${lots.join(', ')}.`;
    },
    subject: 'lot',
    fires: usingLot('1/B'),
    silent: usingLot('1/A'),
  }),
  'lot-of-itself': rule<{ lot: string }>({
    when: 'An entry uses a lot that it makes itself.',
    severity: 'error',
    found: ({ lot }) => `Lot ${lot} is made in this entry, and can’t go into it.`,
    advice: 'A lot is the product of an earlier entry.',
    subject: 'lot',
    fires: 'reagents: [{ lot: 1/A, amount: 1.00 g }]\nsamples: [{ sample: A }]',
    silent: usingLot('1/A'),
  }),
  'lot-later': rule<{ lot: string; made: string; used: string }>({
    when: 'A lot was made after it is used.',
    severity: 'error',
    found: ({ lot, made, used }) => `Lot ${lot} was made on ${made}, after this entry (${used}).`,
    advice: 'Correct the lot, or one of the dates.',
    subject: 'lot',
    fires: usingLot('1/A', 'date: 2026-02-01\nsamples: [{ sample: A, obtained: 2.00 g }]'),
    silent: usingLot('1/A'),
  }),
  'lot-of-draft': rule<{ lot: string; entry: number; status: string }>({
    when: 'A lot is of an entry that is left out.',
    severity: 'error',
    found: ({ lot, entry, status }) => `Lot ${lot} is of entry ${entry}, which is ${status} and is left out.`,
    advice: 'Finish the entry first, or publish with --drafts.',
    cure: ({ entry }) => `Finish entry ${entry} first, or publish with --drafts.`,
    subject: 'lot',
    fires: usingLot('1/A', running, true),
    silent: usingLot('1/A', running),
  }),
  'lot-cycle': rule<{ entry: number }>({
    when: 'An entry uses a lot that was itself made from a lot of that entry.',
    severity: 'error',
    found: ({ entry }) => `Entry ${entry} uses a lot that was itself made from a lot of entry ${entry}.`,
    advice: 'Correct one of the lots: each is made before it is used.',
    fires: second(
      'reagents: [{ lot: 1/A, amount: 1.00 g }]\nsamples: [{ sample: A, obtained: 2.00 g }]',
      'date: 2026-01-03\nreagents: [{ lot: 2/A, amount: 1.00 g }]\nsamples: [{ sample: A, obtained: 2.00 g }]',
    ),
    silent: usingLot('1/A'),
  }),
  'unknown-entry': rule<{
    entry: number;
    key: 'follows' | 'repeats';
    /** Absent where an entry is said to follow or repeat itself. */
    numbers?: KnownNumbers;
  }>({
    when: 'An entry is said to follow or repeat one that does not exist, or itself.',
    severity: 'error',
    found: ({ entry, key, numbers }) =>
      numbers
        ? `\`${key}\` names entry ${entry}, which does not exist.`
        : `Entry ${entry} is said to ${key === 'follows' ? 'follow' : 'repeat'} itself.`,
    advice: 'Write the number of an earlier entry.',
    cure: ({ numbers }) => numbers && numbersWords(numbers),
    fires: second('follows: [3]'),
    silent: second('follows: [1]'),
  }),
  'follows-later': rule<{ key: 'follows' | 'repeats'; entry: number; date: string; ownDate: string }>({
    when: 'An entry is said to follow or repeat a later one.',
    severity: 'warning',
    found: ({ key, entry, date, ownDate }) =>
      `\`${key}\` names entry ${entry}, which is of ${date}, after this one (${ownDate}).`,
    advice: 'Correct the number, or one of the dates.',
    fires: second('follows: [1]', 'date: 2026-02-01'),
    silent: second('follows: [1]'),
  }),
};
