// Rules on the form of journal.yaml, shelf.yaml, front matter: which keys there are, and of what kind their values are.
import { rule } from '../rule.js';

/** More keys than these are no help in a remark that is made for each wrong key. */
const fewKeys = 14;
const quoted = (list: readonly string[]): string => list.map((one) => `\`${one}\``).join(', ');

/** What a finding on the form is about, as a sentence begins with it: "The entry", "`samples`", "Item 2 of `ideas`". */
export interface FormFacts {
  readonly subject: string;
}

/** Keys that may change which danger is seen: a misspelt one is never passed over. */
const neverPassedOver: ReadonlySet<string> = new Set([
  'number',
  'title',
  'date',
  'status',
  'reagents',
  'reagent',
  'lot',
  'name',
  'formula',
  'amount',
  'strength',
  'free-acid',
  'heating',
  'to',
  'of',
  'samples',
  'sample',
  'add',
  'change',
  'carries',
  'contamination',
  'steps',
  'with',
  'heat',
  'precautions',
  'against',
  'sds',
  'statements',
]);

/** Keys under which a maker may say what is dangerous, where the format asks what is done about it. */
const ofDangers =
  /^(?:hazards?|dangers?|risks?|gefahren?|risiken|risques?|peligros?|riesgos?|pericol[oi]|rischi|gevaren)$/i;

export const formatRules = {
  'another-word': rule<FormFacts & { written: string; meant: string; what: 'key' | 'word'; misspelt: boolean }>({
    when: 'A key, or a word that may stand behind one, is misspelt, or written as another word for it.',
    severity: { among: ['note', 'warning'], of: ({ misspelt }) => (misspelt ? 'warning' : 'note') },
    found: ({ subject, written, meant, what }) =>
      what === 'key'
        ? `\`${written}\` is read as \`${meant}\`.`
        : `${subject} is '${written}', and is read as ${meant}.`,
    advice: 'Write the word of the format.',
    paste: ({ written, meant, actual }) => ({ instead: actual ?? written, with: meant }),
    cure: ({ what }, paste) => (what === 'key' ? `Write \`${paste!.with}\`.` : `Write ${paste!.with}.`),
    fires: 'status: done',
    silent: 'status: finished',
  }),
  'says-nothing': rule<FormFacts & { written: string }>({
    when: 'A word that says that there is nothing stands as an item of a list of reagents or heatings.',
    severity: 'note',
    found: ({ subject, written }) => `${subject} is '${written}', which says that there is nothing, and is left out.`,
    advice: 'Take it out.',
    fires: 'reagents: [{ reagent: blue-vitriol, amount: 5.00 g }, n/a]',
    silent: 'reagents: [{ reagent: blue-vitriol, amount: 5.00 g }]',
  }),
  'sample-without-id': rule<{ letter: string }>({
    when: 'A sample has no id.',
    severity: 'warning',
    found: ({ letter }) => `A sample has no id, and is called ${letter} by its place.`,
    advice: 'Give it one that stays: its address ends in it.',
    cure: ({ letter }) => `Write sample: ${letter}, so that its address stays when others come before it.`,
    fires: 'samples: [{ obtained: 1.98 g }]',
    silent: 'samples: [{ sample: A, obtained: 1.98 g }]',
  }),
  'item-left-out': rule<FormFacts & { key: string }>({
    when: 'An item of a list lacks what it cannot do without.',
    severity: 'warning',
    found: ({ subject, key }) => `${subject} has no \`${key}\`, and is left out.`,
    advice: 'Fill it in, or take the item out.',
    cure: ({ key }) => `Add ${key}: …, or take the item out.`,
    fires: 'precautions: [{ do: Gloves and goggles on. }]',
    silent: 'precautions: [{ against: splashes, do: Gloves and goggles are on. }]',
  }),
  'precaution-in-one-text': rule<FormFacts & { meant: string }>({
    when: 'A precaution is one text, without saying apart what it is against and what is done.',
    severity: 'warning',
    found: ({ subject }) => `${subject} is one text; what it is against and what is done are both looked for in it.`,
    advice: 'Write what it is against under `against`, and what is done under `do`.',
    paste: ({ actual, meant }) => (actual === undefined ? undefined : { instead: actual, with: meant }),
    cure: ({ meant }) => `Write ${meant}, or correct what it is against.`,
    fires: 'precautions: ["Mask on against the dust the whole time, outdoors."]',
    silent: 'precautions: [{ against: dust, do: "Mask on the whole time, outdoors." }]',
  }),
  'comma-in-braces': rule<{ key: string; left: string; whole: string }>({
    when: 'A text in braces or brackets has a comma in it, which ends it there.',
    severity: 'warning',
    found: ({ key, left, whole }) => `A comma in braces ends \`${key}\` at '${left}'; it is read as '${whole}'.`,
    advice: 'Put the text in quotes.',
    paste: ({ whole }) => ({ instead: whole, with: JSON.stringify(whole) }),
    cure: ({ key }, paste) => `Put it in quotes: ${key}: ${paste!.with}`,
    fires: 'pigment: { name: verdigris, neutral }',
    silent: 'pigment: { name: "verdigris, neutral" }',
  }),
  'unknown-key': rule<{
    key: string;
    /** What it stands in: "an entry", "`pigment`". */
    in: { readonly file: string } | { readonly key: string };
    known: readonly string[];
    /** The nearest key that may stand there. */
    near?: string;
    /** It stands there too. */
    twin?: true;
    /** The key under which it belongs. */
    home?: string;
    /** What stands there, where it is one text and the list under which it belongs is not there yet. */
    alone?: string;
    /** The key beside which it belongs, one level up. */
    beside?: string;
    /** The key of a sample under which what is written for some samples belongs. */
    ofSample?: string;
    /** What stands there looks like a list of what went in. */
    asReagents?: boolean;
    /** It is for words, which the write-up is for. */
    toWriteUp?: true;
  }>({
    when: 'A key is not one of the format’s.',
    severity: {
      among: ['error', 'warning'],
      of: ({ near, home, asReagents }) =>
        asReagents === true || neverPassedOver.has(near ?? '') || neverPassedOver.has(home ?? '') ? 'error' : 'warning',
    },
    found: ({ key, in: where, asReagents }) => {
      const place = 'file' in where ? `in ${where.file}` : `under ${where.key}`;
      if (asReagents === true)
        return `\`${key}\` is not a key ${place}; what stands there looks like reagents, and is not reckoned with.`;
      return `${key === '' ? 'An empty key' : `\`${key}\``} is not a key ${place}; what stands there is left out.`;
    },
    advice: 'Take it out, or write the key that is meant.',
    paste: ({ key, near, twin, home, alone, beside, ofSample, asReagents, toWriteUp }) => {
      if (home === 'samples' && alone !== undefined)
        return { instead: `${key}: ${alone}`, with: `samples: [{ sample: A, ${key}: ${alone} }]` };
      return near === undefined ||
        [twin, home, beside, ofSample, asReagents, toWriteUp].some((one) => one !== undefined)
        ? undefined
        : { instead: key, with: near };
    },
    cure: ({ key, near, twin, home, beside, ofSample, asReagents, toWriteUp, known }, paste) => {
      if (ofDangers.test(key))
        return (
          'What is foreseen is worked out and shown by itself. Write what is done about it: ' +
          'precautions: [{ against: dust, do: "Mask on, wet-mopped after." }]'
        );
      if (asReagents === true)
        return 'If it is what went in, write it under `reagents:`; until then it is judged by its words alone.';
      if (toWriteUp) return 'Move its words into the write-up, below the line --- that ends the front matter.';
      if (ofSample !== undefined)
        return `What is for some samples stands under each of them: samples: [{ sample: A, ${ofSample}: … }]`;
      if (beside !== undefined) return `Write \`${key}\` one level up, beside \`${beside}\`.`;
      if (near !== undefined && twin) return `Take it out, or \`${near}\`, which stands there too.`;
      if (paste && home !== undefined) return `It belongs under \`${home}\`. Write ${paste.with}`;
      if (paste) return `Did you mean \`${paste.with}\`?`;
      if (home !== undefined) return `It belongs under \`${home}\`.`;
      return known.length > fewKeys
        ? 'Take it out, or say it in the write-up; the entry that masstone begin makes shows the keys there are.'
        : `Take it out; the keys here are ${quoted(known)}.`;
    },
    fires: 'colours: { name: malachite }',
    silent: 'pigment: { name: malachite }',
  }),
  'missing-key': rule<FormFacts & { key: string; example: string; inWords?: true; standsBlank?: true }>({
    when: 'A key is missing that cannot be done without.',
    severity: 'error',
    found: ({ subject, key }) => `${subject} has no \`${key}\`.`,
    advice: 'Add the key.',
    // What stands in a line that is pasted as it is must be what was meant.
    cure: ({ key, example, inWords, standsBlank }) => {
      if (standsBlank) return `Write ${example} behind ${key}:, instead of what stands there.`;
      return inWords ? `Add ${key}: with ${example} behind it.` : `Add ${key}: ${example}`;
    },
    fires: { files: { 'entries/001-example.md': '---\nnumber: 1\ntitle: An example\nstatus: planned\n---\n' } },
    silent: '',
  }),
  empty: rule<FormFacts & { wanted?: string }>({
    when: 'A value is empty where something must stand.',
    severity: 'error',
    found: ({ subject }) => `${subject} is empty.`,
    advice: 'Write something there, or take it out.',
    cure: ({ wanted }) => (wanted === undefined ? undefined : `Write ${wanted} there, or take it out.`),
    fires: 'samples: [{ sample: A, colour: { set: "", lab: [54.1, -30.2, 6.0] } }, ""]',
    silent: 'samples: [{ sample: A }]',
  }),
  'wrong-type': rule<
    FormFacts & {
      /** "a list", "'two'", "nothing" */
      is: string;
      /** "a number", "words or keys of its own" */
      wanted: string;
      kind?: 'list' | 'keys' | 'one-text' | 'text' | 'truth' | 'whole-number' | 'number';
      /** Some keys that may stand below it. */
      keys?: readonly string[];
      /** Why a text is not taken for what goes in, and what is done about it. */
      reason?: string;
      ownCure?: string;
      /** How its keys look, filled in. */
      pattern?: string;
    }
  >({
    when: 'A value is of another kind than the format wants.',
    severity: 'error',
    found: ({ subject, is, wanted, reason }) =>
      reason === undefined
        ? `${subject} is ${is}, where ${wanted} should stand.`
        : `${subject} is ${is}, which can’t be read: ${reason}`,
    advice: 'Write a value of that kind.',
    cure: ({ kind, keys = [], wanted, ownCure, pattern }) => {
      if (pattern !== undefined)
        return `${ownCure === undefined ? '' : `${ownCure} `}Written with its keys: ${pattern}`;
      switch (kind) {
        case 'list':
          return 'Begin each item with a hyphen on a line of its own, or write [ … ] around them.';
        case 'keys':
          return `Write its keys below it, indented: ${keys.map((one) => `${one}: …`).join(', ')}`;
        case 'one-text':
          return 'Write one text, without hyphens or [ ].';
        case 'text':
          return 'Write one text; if it has a colon in it, put it in quotes.';
        case 'truth':
          return 'Write true or false.';
        case 'whole-number':
          return 'Write a whole number, without unit or words.';
        case 'number':
          return 'Write a plain number, with a decimal point and without unit or words.';
        case undefined:
          return `Write ${wanted.replaceAll(' or ', ', or ')}.`;
      }
    },
    fires: 'samples: [{ sample: A, colour: RAL 6005 }]',
    silent: 'samples: [{ sample: A, looks: green }]',
  }),
  choice: rule<FormFacts & { is: string; choices: readonly string[]; near?: string; leftOut: boolean }>({
    when: 'A value is not one of the words that may stand there.',
    severity: { among: ['error', 'warning'], of: ({ leftOut }) => (leftOut ? 'warning' : 'error') },
    found: ({ subject, is, leftOut }) =>
      `${subject} is ${is}, which is not one of its words${leftOut ? '; it is left out' : ''}.`,
    advice: 'Write one of the words that may stand there.',
    paste: ({ actual, near }) =>
      near === undefined || actual === undefined ? undefined : { instead: actual, with: near },
    cure: ({ choices }, paste) =>
      paste ? `Did you mean ${paste.with}? It can be ${choices.join(', ')}.` : `Write one of: ${choices.join(', ')}.`,
    fires: 'status: fine',
    silent: 'status: finished',
  }),
  range: rule<FormFacts & { is: string; tooSmall: boolean; minimum?: number; maximum?: number }>({
    when: 'A number is too small or too large.',
    severity: 'error',
    found: ({ subject, is, tooSmall }) => `${subject} is ${is}, which is too ${tooSmall ? 'small' : 'large'}.`,
    advice: 'Write a number that may stand there.',
    cure: ({ minimum, maximum }) => `Write a number from ${minimum ?? '…'} to ${maximum ?? '…'}.`,
    fires: 'samples: [{ sample: A, colour: { lab: [154.1, -30.2, 6.0], illuminant: D65, observer: 10 } }]',
    silent: 'samples: [{ sample: A, colour: { lab: [54.1, -30.2, 6.0], illuminant: D65, observer: 10 } }]',
  }),
  'list-length': rule<FormFacts & { length: number; wanted?: number; example?: string }>({
    when: 'A list has another number of values than it must have.',
    severity: 'error',
    found: ({ subject, length, wanted }) =>
      `${subject} has ${length} value${length === 1 ? '' : 's'}, where ${wanted ?? 'another number of'} should stand.`,
    advice: 'Write as many values as there must be.',
    cure: ({ wanted, example }) =>
      `Write ${wanted ?? 'another number of'} values with commas between them` +
      `${example === undefined ? '' : `, as in ${example}, which is an example`}.`,
    fires: 'samples: [{ sample: A, colour: { lab: [54.1, -30.2], illuminant: D65, observer: 10 } }]',
    silent: 'samples: [{ sample: A, colour: { lab: [54.1, -30.2, 6.0], illuminant: D65, observer: 10 } }]',
  }),
  'many-remarks': rule<{ shown: number }>({
    when: 'More is wrong in one file than is shown.',
    severity: 'error',
    found: ({ shown }) => `There is more that does not fit; the first ${shown} findings are shown.`,
    advice: 'Mend these first, then look again.',
    fires: Array.from({ length: 30 }, (_, at) => `key-${at}: x`).join('\n'),
    silent: Array.from({ length: 20 }, (_, at) => `# key-${at}: x`).join('\n'),
  }),
};
