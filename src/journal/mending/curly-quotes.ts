// Quotes as a word processor sets them around a value, where YAML knows only straight ones: they would be part of the
// value, and neither a comma nor a colon would be safe inside.
import { once } from '../../once.js';
import { readYaml } from '../yaml.js';

const open = '“”„‟«‹‘’‚"';
const close = '”“»›’‘"';
/** Where a value begins: behind a key, a hyphen, a bracket or a comma. */
const begins = String.raw`(?<=(?:^|[\s{,[])(?:[\p{L}\p{N}_-]+:|-)[ \t]+|[[,][ \t]*|^[ \t]*-[ \t]+)`;
const ends = String.raw`(?=[ \t]*(?:[,}\]]|[ \t]#|\r?$))`;
const narrow = String.raw`[ \u00a0\u202f]?`;
/** Letters of the value, an apostrophe among them. */
const inside = String.raw`((?:[^${open}${close}\\\n]|(?<=\p{L})’(?=\p{L}))*?)`;
// Letters of all scripts take long to read, and few texts have a curly quote.
const whole = once(() => new RegExp(`${begins}([${open}])${narrow}${inside}${narrow}([${close}])${ends}`, 'gmu'));
const isCurly = /[“”„‟«»‹›‘’‚]/;
const curlyBegin = once(() => new RegExp(String.raw`${begins}[“”„‟«‹‘’‚"]`, 'mu'));

/**
 * Keys whose words may well be a quotation as a whole: there curly quotes stay, unless others in the file show that
 * the editor sets them.
 */
const ofWords = new RegExp(
  String.raw`(?:^|[\s{,])(?:title|looks|note|cite|caption|shows|question|what|learned|do|against|waste|differs)` +
    String.raw`[ \t]*:[ \t]+$|^[ \t]*-[ \t]+$|[[,][ \t]*$`,
);

/** Text with straight quotes around its values. */
export interface Straightened {
  readonly text: string;
  /** The first of them: its line from 1, its column, and how it was written. */
  readonly line: number;
  readonly column: number;
  readonly written: string;
  readonly count: number;
}

/**
 * YAML text in which values stand between straight quotes that stood between curly ones, each sign at its place;
 * undefined where there are none, or it is no better for it.
 * @example straightened('number: “1”')?.text // 'number: "1"'
 */
export function straightened(text: string): Straightened | undefined {
  if (!isCurly.test(text) || !curlyBegin().test(text)) return undefined;
  const found = [...text.matchAll(whole())].filter(([, one, , other]) => isCurly.test(`${one}${other}`));
  const lineBegin = (at: number): number => text.lastIndexOf('\n', at - 1) + 1;
  const isRead = readYaml(text).ok;
  if (found.length === 0) return undefined;
  if (isRead && found.every(({ index }) => ofWords.test(text.slice(lineBegin(index), index)))) return undefined;
  let straight = text;
  for (const { index, 0: value } of found)
    straight = `${straight.slice(0, index)}${inStraight(value)}${straight.slice(index + value.length)}`;
  if (isRead && !readYaml(straight).ok) return undefined;
  const { index, 0: written } = found[0]!;
  const line = text.slice(0, index).split('\n').length;
  return { text: straight, line, column: index - lineBegin(index) + 1, written, count: found.length };
}

/** Of the same length, so that what stands behind keeps its place; narrow spaces inside the quotes go before them. */
function inStraight(value: string): string {
  const [, before = '', words = '', after = ''] = /^.([ \u00a0\u202f]?)(.*?)([ \u00a0\u202f]?).$/su.exec(value) ?? [];
  return `${before === '' ? '' : ' '}"${words}"${after === '' ? '' : ' '}`;
}
