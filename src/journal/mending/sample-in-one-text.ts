// A sample told in one text instead of under keys: `A 34 g black`, `sample B: 31 g, greyish`, `1,98g`.
import { rangesInSigns } from '../../chemistry/quantity/index.js';
import { grAsGrams } from '../../reagents/index.js';
import { meanings } from './mending.js';
import { sampleIdPattern } from '../values.js';

/** A sample as its keys say it. */
export interface SampleWritten {
  readonly sample?: string;
  readonly obtained?: string;
  readonly differs?: string;
}

const called = 'samples?|probe|muster|échantillon|echantillon|essai|muestra|campione|batch|versuch|charge';
/** `sample A`, `Probe 2`, as a key or before the rest of a text. */
const sampleKey = new RegExp(String.raw`^(?:${called})(?:[\s_-]+([A-Za-z])|[\s_-]*(\d{1,3}))$`, 'iu');
const leading = new RegExp(
  String.raw`^(?:(?:${called})[\s_-]+)?([A-Z]|\d{1,2}(?=\s*[:)]))` + String.raw`(?:\s*[:.)–-]\s*|\s+)(?=\S)`,
  'u',
);
const masses =
  /(?<![\d.,])(?<!\d-)~?(?:\d+(?:[.,]\d+)?(?:-\d+(?:[.,]\d+)?)?|\.\d+)\s*(?:mg|kg|g|grams?|grammes?|gramm|grammi|gramos|oz|ounces?|lbs?|pounds?)(?![a-zß-ɏ\d])/giu;

/** What joins a mass to what it came of: `was hot and gave`, `ergab`. */
const gave =
  /(?:^|\s+)(?:(?:and|und|et|y|e|en)\s+)?(?:gave|got|made|came to|came out at|yielded|weighed|ergab|gab|wog|bekam|a donné|dio|ha dato|gaf)\.?$/iu;
/** One thing after another of the same sample, and no two samples. */
const goesOn = /\b(?:then|later|more|again|total|in all|dann|später|nochmal|zusammen|puis|encore|luego|poi|dopo)\b/iu;
const separator = /^[^,;.]*?(?:[,;]|\.(?=\s|$)|\b(?:and|und|et|y|e|en)\b)\s*/iu;

/**
 * Samples in one text, each with a mass of its own; none where it tells of one alone, or of one after the other.
 * @example samplesInOneText('A was cold and gave 1.9 g, B was hot and gave 2.1 g').length // 2
 */
export function samplesInOneText(written: string): readonly SampleWritten[] {
  const text = rangesInSigns(grAsGrams(written));
  const found = [...text.matchAll(masses)];
  if (found.length < 2 || goesOn.test(text)) return [];
  const parts: string[] = [];
  let from = 0;
  for (const [at, { index, 0: mass }] of found.entries()) {
    const behind = index + mass.length;
    const next = found[at + 1]?.index;
    const between = next === undefined ? undefined : separator.exec(text.slice(behind, next))?.[0];
    if (next !== undefined && between === undefined) return [];
    const to = between === undefined ? text.length : behind + between.length;
    parts.push(text.slice(from, to).replace(/[\s,;.]*(?:\b(?:and|und|et|y|e|en)\b)?\s*$/iu, ''));
    from = to;
  }
  const samples = parts.map((part) => sampleInOneText(part));
  const letters = samples.map((one) => one?.sample);
  const isTold = samples.every((one): one is SampleWritten => one !== undefined);
  const isNamed = letters.every((one) => one !== undefined) || letters.every((one) => one === undefined);
  return isTold && isNamed && samples.every(({ sample, differs }) => sample ?? differs) ? samples : [];
}

/** The id in the key of a sample. @example sampleOfKey('sample A') // 'A' */
export function sampleOfKey(key: string): string | undefined {
  const [, letter, number] = sampleKey.exec(key.trim()) ?? [];
  return letter?.toUpperCase() ?? number;
}

/** A key that is itself a sample's id: a letter or a number. */
export const isBareId = (key: string): boolean => /^(?:[A-Za-z]|\d{1,3})$/.test(key) && sampleIdPattern.test(key);

/**
 * What a text tells of a sample: what was obtained only where one mass stands in it. Undefined where none does.
 * @example sampleInOneText('A 34 g black') // { sample: 'A', obtained: '34 g', differs: 'black' }
 */
export function sampleInOneText(text: string, id?: string): SampleWritten | undefined {
  const told = rangesInSigns(grAsGrams(text));
  const letter = id ?? leading.exec(told)?.[1];
  const rest = id === undefined ? told.replace(leading, '') : told;
  const [mass, ...others] = rest.match(masses) ?? [];
  if (mass === undefined || others.length > 0) return undefined;
  const [before = '', ...behind] = rest.split(mass);
  const words = `${before.trimEnd().replace(gave, '')} ${behind.join(' ')}`
    .replace(/\s+/g, ' ')
    .replace(/\s*\|\s*/g, ', ')
    .replace(/[\s,;:]+(?=[,;:])/g, '')
    .replace(/^[\s,;:.]+|[\s,;:]+$/g, '');
  const obtained = mass
    .replace(/(?<=\d),(?=\d)/, '.')
    .replace(/(?<=\d)(?=\p{L})/u, ' ')
    .replace(/\s*(?:gram|gr)\p{L}*$/iu, ' g');
  return {
    ...(letter !== undefined && { sample: letter }),
    obtained,
    ...(words !== '' && { differs: words }),
  };
}

const keysInTables = ['sample', 'differs', 'obtained', 'looks'] as const;
type KeyInTable = (typeof keysInTables)[number];

/** Cells of a line of a table that is drawn with bars, or of one that was copied with tabs or semicolons. */
function cellsOf(line: string): readonly string[] {
  const bare = line.trim().replace(/^\||\|$/g, '');
  const sign = ['|', '\t', ';'].find((one) => bare.includes(one));
  return (sign === undefined ? [bare] : bare.split(sign)).map((cell) => cell.trim());
}

/** The key that the head of a column means. */
const headMeans = (head: string): KeyInTable | undefined =>
  keysInTables.find((key) => head.toLowerCase() === key || meanings('key', head).includes(key));

function ofRow(cells: readonly string[], heads: readonly (KeyInTable | undefined)[]): SampleWritten | undefined {
  const under = (key: KeyInTable | undefined): string =>
    cells.filter((cell, at) => cell !== '' && heads[at] === key).join(', ');
  const [named, mass] = [under('sample'), under('obtained')];
  const id = sampleOfKey(named) ?? (isBareId(named) ? named.toUpperCase() : undefined);
  const told = sampleInOneText(mass, id);
  const differs = [id === undefined ? named : '', under('differs'), under('looks'), under(undefined), told?.differs]
    .filter((words) => words !== undefined && words !== '')
    .join(', ');
  if (cells.length > heads.length || (told === undefined && mass !== '')) return undefined;
  return {
    ...(id !== undefined && { sample: id }),
    ...(told?.obtained !== undefined && { obtained: told.obtained }),
    ...(differs !== '' && { differs }),
  };
}

/**
 * Samples in the lines of a text, one each, or in the rows of a table with heads; none where a line tells of none.
 * @example samplesInLines('A 2.9 g cold\nB 3.3 g hot').length // 2
 */
export function samplesInLines(text: string): readonly SampleWritten[] {
  const rows = text
    .split(/\r?\n/)
    .filter((line) => line.trim() !== '' && !/^[\s|:-]+$/.test(line))
    .map(cellsOf);
  const [first = []] = rows;
  if (rows.length < 2) return [];
  const heads = first.map(headMeans);
  const isHead = heads.includes('obtained') || heads.filter((head) => head !== undefined).length > 1;
  const samples = isHead
    ? rows.slice(1).map((cells) => ofRow(cells, heads))
    : rows.map((cells) => sampleInOneText(cells.join(' ')));
  return samples.every((one): one is SampleWritten => one !== undefined) ? samples : [];
}
