// A command or an option that there is not: which was probably meant. Loaded only when there is one.
import type { ParseArgsConfig } from 'node:util';
import { nearest } from '../journal/nearest.js';

const sortedLetters = (word: string): string => [...word].sort().join('');

/** The same letters in another order come first: `--fro` is `--for`, and not `--from`. */
const meantAmong = (word: string, known: readonly string[]): string | undefined =>
  known.find((one) => sortedLetters(one) === sortedLetters(word)) ?? nearest(word, known);

/** What some type as a command that is told in a file: where, and the line to write. */
const writtenInFiles: Readonly<Record<string, string>> = {
  sent: 'in the entry, under its sample: sent: [{ date: 2026-04-02, amount: 0.50 g, to: P-17 }].',
  bought: 'in shelf.yaml, in the jar: bought: { amount: 500 g, date: 2026-01-05 }.',
  aged: 'in the entry, under its sample: aged: [{ after: twelve weeks, colour: { spectrum: … } }].',
  washed: 'in the entry: washes: [{ with: water, volume: 200 mL, times: 3 }].',
  accept: 'in the entry: accept: [{ warning: photo-without-words, because: … }].',
};

/**
 * A sentence on the command that was probably meant, with a space before it; nothing where none is near.
 * @example commandMeant('wiegh', ['weigh', 'read']) // ' Did you mean weigh?'
 */
export function commandMeant(word: string, known: readonly string[]): string {
  const place = Object.hasOwn(writtenInFiles, word) ? writtenInFiles[word] : undefined;
  if (place !== undefined) return ` It is written in the journal: ${place}`;
  const meant = meantAmong(word.replace(/^-+/, ''), known);
  return meant === undefined ? '' : ` Did you mean ${meant}?`;
}

/**
 * What is wrong with the options of a command, in a sentence.
 * @param error what `parseArgs` threw
 * @param words the words of the command line behind the command
 */
export function whatIsWrong(
  error: Error & { readonly code?: string },
  words: readonly string[],
  options: NonNullable<ParseArgsConfig['options']>,
): string {
  const [, option = ''] = /'(?:-\w, )?(-[^'\s]*)/.exec(error.message) ?? [];
  if (error.code === 'ERR_PARSE_ARGS_UNKNOWN_OPTION') return unknownOption(option, words, Object.keys(options));
  const isText = options[option.replace(/^--/, '')]?.type === 'string';
  if (error.code !== 'ERR_PARSE_ARGS_INVALID_OPTION_VALUE' || option === '') return error.message;
  return isText ? `${option} takes a value behind it, and there is none.` : `${option} takes no value.`;
}

/** Options whose value is several numbers. */
const ofSeveral: ReadonlySet<string> = new Set(['--lab', '--against-lab', '--corners', '--sample']);

/**
 * A sentence on a value that was written in several words without quotes, `--for 10 g`, with a space before it; nothing
 * where there is none.
 * @example quotesMissing(['--for', '10', 'g']) // ' A value of several words stands in quotes: --for "10 g".'
 */
export function quotesMissing(words: readonly string[]): string {
  const isNumberBehind = (at: number): boolean => /^[\d.,½¼¾]+$/.test(words[at + 1] ?? '');
  const at = words.findIndex((word, index) => /^--[a-z-]+$/.test(word) && isNumberBehind(index));
  const [option = '', ...behind] = at < 0 ? [] : words.slice(at);
  const value = behind.slice(0, 1);
  for (const word of behind.slice(1)) {
    const isNumber = /^[-−]?[\d.,]+[a-z]*$/i.test(word);
    if (
      isNumber
        ? !ofSeveral.has(option) && !/^[x×]$/i.test(value.at(-1)!)
        : !/^(?:[x×]|[a-zµ%°/]{1,3}|grams?)$/i.test(word)
    )
      break;
    value.push(word);
  }
  return value.length < 2 ? '' : ` A value of several words stands in quotes: ${option} "${value.join(' ')}".`;
}

/** `-for "10 g"` is taken for three options of one letter; what was written is told. */
function unknownOption(option: string, words: readonly string[], known: readonly string[]): string {
  const isLetter = /^-[^-]$/.test(option);
  const written = (isLetter && words.find((word) => word.startsWith(option) && word.length > 2)) || option;
  const bare = written.replace(/^-+/, '').replace(/=.*$/s, '');
  // One word of an option that has several: `--shelf` is `--from-shelf`.
  const within = known.filter((one) => bare.length > 3 && one.split('-').includes(bare) && one !== bare);
  const other = within.length === 1 ? within[0] : meantAmong(bare, known);
  const meant = known.includes(bare) ? bare : other;
  const said = `There is no option '${written.replace(/=.*$/s, '')}'.`;
  return meant === undefined ? said : `${said} Did you mean --${meant}?`;
}
