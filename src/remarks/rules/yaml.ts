// Rules on YAML: front matter, journal.yaml, shelf.yaml.
import { rule } from '../rule.js';

/** Words and cure for what the parser finds; its own sentence is used where there is none here. */
const sayings: Readonly<Record<string, { readonly found?: string; readonly cure: string }>> = {
  BAD_ALIAS: {
    found: 'An alias (*name) refers to an anchor that does not exist.',
    cure: 'Write the value out, or put quotes around text that begins with an asterisk.',
  },
  BAD_DIRECTIVE: { cure: 'Put quotes around text that begins with a per cent sign.' },
  BAD_DQ_ESCAPE: {
    found: 'A backslash inside double quotes is followed by something that is not an escape.',
    cure: 'Use single quotes, in which a backslash is only a backslash.',
  },
  BAD_INDENT: { cure: 'Line this up with the lines beside it: the same number of spaces for keys of one thing.' },
  BAD_SCALAR_START: { cure: 'Put quotes around text that begins with @ or a backtick.' },
  BLOCK_AS_IMPLICIT_KEY: {
    found: 'There is a second colon followed by a space on this line.',
    cure: 'Put quotes around the text after the first colon: title: "Green: a second try".',
  },
  COLON_IN_BRACES: {
    found: 'There is a second colon followed by a space in this value.',
    cure: 'Put quotes around the text after the first colon: title: "Green: a second try".',
  },
  BLOCK_IN_FLOW: { cure: 'Inside [ ] and { } use commas, not lines that begin with a hyphen.' },
  COMMENT_IN_KEY: {
    found: 'A # behind a space begins a comment, and takes the colon of this key with it.',
    cure: 'Write the key without #, or put it in quotes.',
  },
  TEXT_BEHIND_QUOTE: {
    found: 'The text begins with a quotation mark, and goes on behind the one that ends it.',
    cure: `Put single quotes around all of it: title: '"Naples" yellow'.`,
  },
  QUESTION_MARK: {
    found: 'A question mark by itself is no value.',
    cure: 'Leave the key out until you know, or put the question mark in quotes.',
  },
  KEY_OVER_1024_CHARS: { cure: 'Shorten the key; a key is one of the words of the format.' },
  MISSING_CHAR: { cure: 'Close the quote or bracket, or put a colon and a space after the key.' },
  MULTILINE_IMPLICIT_KEY: {
    found: 'A line without `key: value` stands among the keys.',
    cure: 'Put a colon and a space after the key, or indent the line if it goes on from the one above.',
  },
  MULTIPLE_DOCS: {
    found: 'A second YAML document begins here.',
    cure: 'Keep one document: take out the line of hyphens or dots.',
  },
  NON_STRING_KEY: { found: 'A key is a list or holds other keys.', cure: 'Write a plain word before the colon.' },
  TAB_AS_INDENT: { found: 'A tab stands where the line is indented.', cure: 'Indent with spaces.' },
  TAG_RESOLVE_FAILED: {
    found: 'There is a tag (!…) here, which the journal does not use.',
    cure: 'Take the tag out, or put quotes around text that begins with an exclamation mark.',
  },
  UNEXPECTED_TOKEN: { cure: 'Put quotes around text with : # [ ] { } , & * ! | > % @ in it.' },
};

/** The parser calls a key that stands too far in or out a missing hyphen. */
const isMisplaced = (sentence: string): boolean => sentence.startsWith('Sequence item without - indicator');

/** What a slip of YAML is written as. */
type SlipKind = 'tab' | 'dash' | 'bracket' | 'sign' | 'comma' | 'decimal';
const slipMendedAs: Readonly<Record<SlipKind, string>> = {
  tab: 'it with spaces',
  dash: 'it with a hyphen and a space',
  decimal: 'it with decimal points',
  bracket: 'it in quotes',
  sign: 'it in quotes',
  comma: 'it in quotes',
};

export const yamlRules = {
  yaml: rule<{
    /** The parser's name of what is wrong. */
    code?: string;
    /** The parser's own sentence, without its full stop. */
    sentence: string;
    /** The bracket that is not there. */
    missing?: string;
    /** The value in braces that has a second colon in it. */
    value?: string;
  }>({
    when: 'YAML cannot be read.',
    severity: 'error',
    found: ({ code = '', sentence, missing }) =>
      (missing === undefined ? undefined : `A ${missing === ']' ? '[' : '{'} is opened here and not closed.`) ??
      (isMisplaced(sentence) ? 'This line does not begin where the lines of its item do.' : sayings[code]?.found) ??
      `The YAML can’t be read: ${sentence}.`.replace(/\.\.$/, '.'),
    advice: 'Look at this line and the one above: quotes, colons, brackets and indentation.',
    paste: ({ value }) => (value === undefined ? undefined : { instead: value, with: JSON.stringify(value) }),
    cure: ({ code = '', sentence, missing }, paste) => {
      if (paste) return `Put it in quotes: ${paste.with}`;
      return missing === undefined
        ? sayings[isMisplaced(sentence) ? 'BAD_INDENT' : code]?.cure
        : `A ${missing} is missing: write it behind the last thing that belongs inside.`;
    },
    fires: 'pigment: { name: malachite: a green }',
    silent: 'pigment: { name: "malachite: a green" }',
  }),
  'yaml-slip': rule<{
    kind: SlipKind;
    written: string;
    meant: string;
    count: number;
  }>({
    when: 'A tab, another dash, or a sign without quotes stands where YAML has something else, and it is plain what.',
    severity: 'note',
    found: ({ kind, count }) => {
      const more = count === 1 ? '' : `, and on ${count - 1} more ${count === 2 ? 'line' : 'lines'}`;
      switch (kind) {
        case 'tab':
          return `A tab stands where the line is indented${more}; it is read as spaces.`;
        case 'dash':
          return `This item of a list begins with another sign than a hyphen and a space${more}; it is read as one.`;
        case 'bracket':
          return `Square brackets stand in a value in braces, without quotes${more}; they are read as part of it.`;
        case 'decimal':
          return `A decimal comma in square brackets ends the item there${more}; it is read as a decimal point.`;
        case 'comma':
          return `Commas stand in brackets in braces, without quotes${more}; they are read as part of the value.`;
        default:
          return `A value begins with a sign that YAML keeps for itself${more}; it is read as words.`;
      }
    },
    advice: 'Indent with spaces, begin items with "- ", and put values with @ ` % [ ] or commas in quotes.',
    paste: ({ kind, written, meant }) => (kind === 'tab' ? undefined : { instead: written, with: meant }),
    cure: ({ kind }, paste) =>
      paste ? `Write ${slipMendedAs[kind]}: ${paste.with}` : 'Indent with spaces, two for each step.',
    fires: 'pigment: { name: Prussian blue, formula: Fe4[Fe(CN)6]3 }',
    silent: 'pigment: { name: Prussian blue, formula: "Fe4[Fe(CN)6]3" }',
  }),
  'curly-quotes': rule<{ written: string; count: number }>({
    when: 'Curly quotes stand around a value, where YAML has straight ones.',
    severity: 'note',
    found: ({ written, count }) =>
      `Curly quotes stand around ${written}${count === 1 ? '' : ` and ${count - 1} more`}; ` +
      'they are read as straight ones.',
    advice: 'Write straight quotes ("), which alone are quotes in YAML; word processors turn them into curly ones.',
    paste: ({ written }) => ({ instead: written, with: `"${written.slice(1, -1).trim()}"` }),
    cure: ({ count }, paste) =>
      `Write straight quotes (${paste!.with}${count > 1 ? ', and so on' : ''}), which alone are quotes in YAML; word ` +
      'processors turn them into curly ones.',
    fires: 'samples: [{ sample: A, obtained: “1.98 g” }]',
    silent: 'samples: [{ sample: A, obtained: "1.98 g" }]',
  }),
  'yaml-size': rule<{ kilobytes: number; atMost: number }>({
    when: 'There is more YAML in a file than is read.',
    severity: 'error',
    found: ({ kilobytes, atMost }) => `There are ${kilobytes} kB of YAML here; at most ${atMost} kB are read.`,
    advice: 'Move what is long into the body, or into a file of its own.',
    fires: { matter: '', files: { 'shelf.yaml': { text: '# a shelf that is far too long\n', times: 20_000 } } },
    silent: { matter: '', files: { 'shelf.yaml': { text: '# a shelf\n', times: 20 } } },
  }),
  'yaml-depth': rule<{ atMost: number }>({
    when: 'Lists and keys of YAML stand in one another deeper than the format has it.',
    severity: 'error',
    found: ({ atMost }) => `Lists and keys stand in one another more than ${atMost} deep.`,
    advice: 'Write it flatter, as the format has it.',
    fires: `ideas: ${'['.repeat(30)}${']'.repeat(30)}`,
    silent: 'ideas: [Try ammonium carbonate.]',
  }),
  'yaml-aliases': rule<{ how: 'long-file' | 'repeats' }>({
    when: 'Anchors and aliases of YAML repeat too much, or stand in a long file.',
    severity: 'error',
    found: ({ how }) =>
      how === 'repeats'
        ? 'Aliases (*name) would repeat far more than they say.'
        : 'Anchors, aliases and tags (&name, *name, !name) are not read in a file as long as this.',
    advice: 'Write the values out instead of repeating them with aliases.',
    cure: ({ how }) => (how === 'repeats' ? undefined : 'Write the values out.'),
    fires: `ideas: [&a one, ${Array.from({ length: 60 }, () => '*a').join(', ')}]`,
    silent: 'ideas: [&a one, *a]',
  }),
  'duplicate-key': rule<{
    key: string;
    /** How many lines above the first stands; 0 on the same line. */
    linesAbove: number;
  }>({
    when: 'A key stands twice in one place.',
    severity: 'error',
    found: ({ key, linesAbove }) =>
      `\`${key}\` stands here a second time; the first is ` +
      `${linesAbove === 0 ? 'on the same line' : `${linesAbove} line${linesAbove === 1 ? '' : 's'} above`}.`,
    advice: 'Keep one of the two, or put what belongs to both under one of them.',
    fires: 'question: Is it bluer?\nquestion: Is it greener?',
    silent: 'question: Is it bluer or greener?',
  }),
  'empty-key': rule<{ key: string; others?: readonly string[]; comment?: string }>({
    when: 'A key has nothing after it.',
    severity: 'note',
    found: ({ key, others = [], comment }) => {
      if (comment !== undefined)
        return `What stands after \`${key}\` is a comment, since # begins one: it counts as left out.`;
      if (others.length === 0) return `\`${key}\` has nothing after it, and counts as left out.`;
      const all = [key, ...others].map((one) => `\`${one}\``).join(', ');
      return `Nothing stands after ${all}; they count as left out.`;
    },
    advice: 'Fill it in, or take the line out.',
    paste: ({ comment }) => (comment === undefined ? undefined : { instead: comment, with: JSON.stringify(comment) }),
    cure: ({ key }, paste) => paste && `Put it in quotes: ${key}: ${paste.with}`,
    fires: 'question:',
    silent: 'question: Is it bluer?',
  }),
  'shelf-as-table': rule<{ line: string }>({
    when: 'The shelf is a table, where each jar stands under its id.',
    severity: 'error',
    found: () => 'The shelf is a table, which YAML does not read: none of its jars is known.',
    advice:
      'Move the table into a file of its own, list.csv, leave shelf.yaml empty, and take it in: ' +
      'masstone take list.csv --write',
    fires: { matter: '', files: { 'shelf.yaml': '| name | formula |\n|---|---|\n| blue vitriol | CuSO4·5H2O |\n' } },
    silent: { matter: '', files: { 'shelf.yaml': 'blue-vitriol: { name: blue vitriol }\n' } },
  }),
  'shelf-as-list': rule<{ first: string }>({
    when: 'The shelf is a list, without the ids by which entries name its jars.',
    severity: 'error',
    found: ({ first }) =>
      `The shelf is a list, where each jar stands under its id; for its dangers the first is called ${first}.`,
    advice:
      'Write an id and a colon on a line of its own for each jar, and its keys below it, indented, without hyphen.',
    cure: ({ first }) =>
      `Write an id and a colon on a line of its own for each jar, as ${first}:, and its keys below it, indented, ` +
      'without hyphen.',
    fires: { matter: '', files: { 'shelf.yaml': '- name: blue vitriol\n' } },
    silent: { matter: '', files: { 'shelf.yaml': 'blue-vitriol: { name: blue vitriol }\n' } },
  }),
  'reagent-id': rule<{
    id: string;
    /** An id that would do. */
    better?: string;
  }>({
    when: 'The id of a reagent on the shelf could not stand in an address.',
    severity: 'error',
    found: ({ id }) => `'${id}' can’t be the id of a reagent; it becomes part of an address.`,
    advice: 'Write small letters, digits and hyphens.',
    cure: ({ better }) => (better === undefined ? undefined : `Write ${better}: and keep the words under \`name\`.`),
    fires: { matter: '', files: { 'shelf.yaml': 'Blue Vitriol: { name: blue vitriol }\n' } },
    silent: { matter: '', files: { 'shelf.yaml': 'blue-vitriol: { name: blue vitriol }\n' } },
  }),
};
