// Checks values against the journal's format: what does not fit is found, and the rest understood.
import type { z } from 'zod';
import type { Findings, Found, Path } from '../remarks/findings.js';
import { found, worded } from '../remarks/findings.js';
import type { FactsOf } from '../remarks/registry.js';
import type { ValueFault } from '../remarks/value-fault.js';
import { once } from '../once.js';
import { blankWordsTable } from '../tables/compiled/journal/blank-words.js';
import { describeAt, homeOf, keysAt, limitsAt, type Schema } from './format.js';
import { fittingChoice, mended } from './mending/mended.js';
import { meanings, meantKey, valueAt } from './mending/mending.js';
import { nearest } from './nearest.js';
import { shortened } from './shortened.js';
import { listsOfUses, looksLikeUses, whyNoUse } from './mending/use-in-one-text.js';

type Issue = z.core.$ZodIssue;
type IssueOf<Code extends Issue['code']> = Extract<Issue, { code: Code }>;

/** What is checked, and under which name a sentence has it. */
interface Checked {
  readonly schema: Schema;
  readonly data: unknown;
  /** `entry`, `shelf` */
  readonly what: string;
}

/** A finding on the form, at the value or at the key of a path. */
interface FormFinding {
  readonly found: Found;
  readonly path: Path;
  readonly atKey?: boolean;
}

const stepsOf = ({ path }: Pick<Issue, 'path'>): Path =>
  path.map((step) => (typeof step === 'symbol' ? String(step) : step));

const onOneLine = (text: string): string => shortened(text).replace(/\s+/g, ' ');

/** A value as a sentence has it. */
function nameOf(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object' && value !== null) return 'keys of its own';
  return value === null || value === '' ? 'nothing' : `'${onOneLine(String(value))}'`;
}

/** The key that a path ends in, as a sentence begins with it. */
function subjectOf(path: Path, what: string): string {
  const last = path.at(-1);
  if (last === undefined) return `The ${what}`;
  if (last === '') return 'An empty key';
  if (typeof last === 'string') return `\`${onOneLine(last)}\``;
  const list = path.findLast((step) => typeof step === 'string');
  return list === undefined ? `Item ${last + 1}` : `Item ${last + 1} of \`${onOneLine(String(list))}\``;
}

const textOr = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);

/** How a sentence names what zod expects. */
const wordFor: Readonly<Record<string, string>> = {
  string: 'words',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list',
  object: 'keys of its own',
  record: 'keys of its own',
};

/** What to write for keys that can't do without. */
const examplesOf: Readonly<Record<string, string>> = {
  number: '14',
  address: 'https://example.org/',
};

/** What to write for those that only the maker knows, in words. */
const wordsOf: Readonly<Record<string, string>> = {
  number: 'the next number that is free',
  title: 'a few words for what was made',
  date: 'the day as year-month-day',
  author: 'your name',
  name: 'what it is called',
  to: 'the heat, such as 60 °C or red heat,',
};

/** What to write at a path that ends in a key. */
function exampleAt(schema: Schema, path: Path): string {
  const [first] = describeAt(schema, path).examples;
  return first === undefined ? (examplesOf[String(path.at(-1))] ?? '…') : String(first);
}

/** A key that is missing from what stands above it. */
function missingKey({ what }: Checked, path: Path, example: string, expected: readonly string[]): FormFinding {
  const parent = path.slice(0, -1);
  const key = String(path.at(-1));
  const told = expected.length > 1 && example === expected.join(' or ') ? `one of: ${expected.join(', ')}` : undefined;
  const inWords = told ?? wordsOf[key];
  const facts = {
    subject: subjectOf(parent, what),
    key,
    ...(inWords === undefined ? { example } : { example: inWords, inWords: true as const }),
    expected,
  };
  return { found: found('missing-key', facts), path: parent };
}

/** A fault of a value by itself, which waits for its key. */
function customFinding({ data, what }: Checked, issue: IssueOf<'custom'>, path: Path): FormFinding {
  // It went through zod, which knows nothing of its type.
  const { rule, facts } = issue.params as unknown as ValueFault;
  const whole = { ...facts, subject: subjectOf(path, what), actual: textOr(valueAt(data, path)) };
  return { found: found(rule, whole as never), path };
}

/** Where a key of that very name stands. */
interface PlaceOfKey {
  /** One level down, under this key. */
  readonly home?: string;
  /** One level up, beside this key. */
  readonly beside?: string;
  /** What is written for some samples only: the key that stands under a sample. */
  readonly ofSample?: string;
}

/** Whether a key of that name stands one level down or up from where it was written. */
function placeOfKey(schema: Schema, path: Path, key: string): PlaceOfKey | undefined {
  const [first] = path;
  const sampleKeys = keysAt(schema, ['samples', 0]);
  if ((key === 'samples' || key === 'sample') && typeof first === 'string' && sampleKeys.includes(first))
    return { ofSample: first };
  const here = keysAt(schema, path);
  const home = path.length === 0 ? homeOf(schema, key) : here.find((one) => isBelow(schema, [...path, one], key));
  if (home !== undefined) return { home };
  const above = path.slice(
    0,
    path.findLastIndex((step) => typeof step === 'string'),
  );
  const beside = path.findLast((step) => typeof step === 'string');
  return beside !== undefined && keysAt(schema, above).includes(key) ? { beside: String(beside) } : undefined;
}

/** Whether a key stands under another, or in the items of its list. */
const isBelow = (schema: Schema, path: Path, key: string): boolean =>
  keysAt(schema, path).includes(key) || keysAt(schema, [...path, 0]).includes(key);

/** A plain text under a key that belongs under a list which is not there, where no other key belongs there as well. */
function aloneFor(data: unknown, key: string, home: string, keys: readonly string[]): { readonly alone?: string } {
  const value = valueAt(data, [key]);
  const isPlain = typeof value === 'string' && !/[,:#{}[\]"'\n]/.test(value);
  return isPlain && keys.length === 1 && valueAt(data, [home]) === undefined ? { alone: value } : {};
}

/** `note`, `Bemerkung`: words that belong to nothing in the front matter. */
const isForWords = (key: string): boolean => key.toLowerCase() === 'note' || meanings('key', key).includes('note');

function unknownKeys({ schema, data, what }: Checked, issue: IssueOf<'unrecognized_keys'>, path: Path): FormFinding[] {
  const known = keysAt(schema, path);
  const top = path.length === 0;
  return issue.keys.slice(0, 2 * findingsAtMost).map((key) => {
    const place = placeOfKey(schema, path, key);
    const like = meantKey(key, known) ?? nearest(key, known);
    const home = place?.home ?? (like === undefined && top ? homeOf(schema, key) : undefined);
    const near = place === undefined ? like : undefined;
    const asReagents = top && what === 'entry' && looksLikeUses(valueAt(data, [key]));
    const facts = {
      key: onOneLine(key),
      in: top ? { file: `${/^[aeiou]/.test(what) ? 'an' : 'a'} ${what}` } : { key: subjectOf(path, what) },
      known,
      near,
      ...(near !== undefined && Object.hasOwn(Object(valueAt(data, path)), near) && { twin: true as const }),
      home,
      ...(home !== undefined && aloneFor(data, key, home, issue.keys)),
      ...(place?.beside !== undefined && { beside: place.beside }),
      ...(asReagents && { asReagents }),
      ...(top && what === 'entry' && isForWords(key) && { toWriteUp: true as const }),
      ...(place?.ofSample !== undefined && { ofSample: place.ofSample }),
      actual: key,
      expected: known,
    };
    return { found: found('unknown-key', facts), path: [...path, key], atKey: true };
  });
}

/** What a single value can only mean, where it was written otherwise: `CuSO4·5H20` is `CuSO4·5H2O`. */
export function meantBy(schema: z.ZodType, value: unknown): string | undefined {
  const read = schema.safeParse(value);
  const custom = read.success ? undefined : read.error.issues.find((issue) => issue.code === 'custom');
  const fault = custom?.params as unknown as ValueFault | undefined;
  return fault?.rule === 'read-as' ? fault.facts.meant : undefined;
}

/**
 * What is wrong with a single value, in words that begin with `subject`; undefined where it fits.
 * @example refusal(shelfReagentSchema.shape.cas, '1-2-3', 'it') // "it is '1-2-3', which is not a CAS number. Copy …"
 */
export function refusal(schema: z.ZodType, value: unknown, subject: string): string | undefined {
  const read = schema.safeParse(value);
  if (read.success) return undefined;
  const custom = read.error.issues.find((issue) => issue.code === 'custom');
  if (!custom) return `${subject} does not fit.`;
  const { rule, facts } = custom.params as unknown as ValueFault;
  const { found: words, cure } = worded(found(rule, { ...facts, subject } as never));
  return `${words} ${cure}`;
}

/** What kind of value the cure asks for. */
function kindOf(expected: string, value: unknown): FactsOf<'wrong-type'>['kind'] {
  switch (expected) {
    case 'array':
    case 'tuple':
      return 'list';
    case 'object':
    case 'record':
      return 'keys';
    case 'string':
      return Array.isArray(value) ? 'one-text' : 'text';
    case 'boolean':
      return 'truth';
    default:
      return expected === 'int' ? 'whole-number' : 'number';
  }
}

const colourPattern =
  '{ lab: [54.1, -30.2, 6.0], illuminant: D65, observer: 10 }, or roughly { srgb: "#5f8f6b" }; in words: `looks`.';

/** How an item of a list that stands in one text is written with keys; why it is not read as it is. */
function inList(path: Path, value: string): Pick<FactsOf<'wrong-type'>, 'reason' | 'ownCure' | 'pattern'> {
  const list = path.at(-2);
  if (path.at(-1) === 'colour') return { pattern: colourPattern };
  if (typeof path.at(-1) !== 'number') return {};
  if (list === 'samples') return { pattern: '{ sample: A, obtained: 1.98 g, differs: … }' };
  const no = listsOfUses.has(list) ? whyNoUse(value) : undefined;
  return no
    ? { reason: no.why, ...(no.cure !== undefined && { ownCure: no.cure }), pattern: '{ reagent: …, amount: … }' }
    : {};
}

function wrongType(checked: Checked, issue: IssueOf<'invalid_type'>, path: Path): FormFinding {
  const { schema, data, what } = checked;
  const { type, keys } = describeAt(schema, path);
  const { expected } = issue;
  const wanted = expected === 'number' && type === 'literal' ? 'a number' : (wordFor[expected] ?? expected);
  const value = valueAt(data, path);
  const last = path.at(-1);
  if (value === undefined && typeof last === 'string') {
    return missingKey(checked, path, exampleAt(schema, path), [last]);
  }
  if (value === undefined && typeof last === 'number') return listLength(checked, path.slice(0, -1));
  const subject = subjectOf(path, what);
  if (value === undefined || value === null || value === '')
    return { found: found('empty', { subject, wanted, expected: [wanted] }), path };
  const facts = {
    subject,
    is: nameOf(value),
    wanted,
    kind: kindOf(expected, value),
    keys: keys.slice(0, 3),
    ...(typeof value === 'string' && inList(path, value)),
  };
  return { found: found('wrong-type', { ...facts, actual: textOr(value), expected: [wanted] }), path };
}

/** Words that can be done without: what went in went in all the same. */
const sparedChoices: ReadonlySet<string> = new Set(['role', 'intent', 'by', 'geometry', 'condition', 'tare']);

function wrongChoice(checked: Checked, issue: IssueOf<'invalid_value'>, path: Path): FormFinding {
  const choices = issue.values.map(String);
  const value = valueAt(checked.data, path);
  if (value === undefined && typeof path.at(-1) === 'string')
    return missingKey(checked, path, choices.join(' or '), choices);
  const near = typeof value === 'string' ? nearest(value, choices) : undefined;
  const leftOut = sparedChoices.has(String(path.at(-1))) && !path.includes('assay');
  const facts = { subject: subjectOf(path, checked.what), is: nameOf(value), choices, near, leftOut };
  return { found: found('choice', { ...facts, actual: textOr(value), expected: choices }), path };
}

function outOfRange(checked: Checked, issue: IssueOf<'too_small' | 'too_big'>, path: Path): FormFinding {
  const { schema, data, what } = checked;
  const subject = subjectOf(path, what);
  if (issue.origin === 'string') return { found: found('empty', { subject }), path };
  if (issue.origin === 'array') return listLength(checked, path);
  const { minimum, maximum } = limitsAt(schema, path);
  const value = valueAt(data, path);
  const facts = { subject, is: nameOf(value), tooSmall: issue.code === 'too_small', minimum, maximum };
  const expected = [`${minimum ?? 'any'} to ${maximum ?? 'any'}`];
  return { found: found('range', { ...facts, actual: String(value), expected }), path };
}

/** A list that must have a certain number of values and has another. */
function listLength({ schema, data, what }: Checked, path: Path): FormFinding {
  const value = valueAt(data, path);
  const { length: wanted, examples } = describeAt(schema, path);
  const facts = {
    subject: subjectOf(path, what),
    length: Array.isArray(value) ? value.length : 0,
    wanted,
    ...(examples.length > 0 && { example: JSON.stringify(examples[0]) }),
    expected: [`${wanted ?? 'another number of'} values`],
  };
  return { found: found('list-length', facts), path };
}

function wrongChoices(checked: Checked, issue: IssueOf<'invalid_union'>, path: Path): FormFinding[] {
  const inside = fittingChoice(issue);
  if (inside) return inside.flatMap((error) => findingsOf(checked, error, path));
  const wanted = issue.errors.flatMap((choice) =>
    choice.flatMap((error) => (error.code === 'invalid_type' ? [wordFor[error.expected] ?? error.expected] : [])),
  );
  const value = valueAt(checked.data, path);
  if (value === undefined && typeof path.at(-1) === 'string')
    return [missingKey(checked, path, exampleAt(checked.schema, path), wanted)];
  const facts = { subject: subjectOf(path, checked.what), is: nameOf(value), wanted: wanted.join(' or ') };
  return [{ found: found('wrong-type', { ...facts, expected: wanted }), path }];
}

/** What an issue of zod means for the maker. @param above path of the choice inside which it was found */
function findingsOf(checked: Checked, issue: Issue, above: Path = []): FormFinding[] {
  const path: Path = [...above, ...stepsOf(issue)];
  switch (issue.code) {
    case 'custom':
      return [customFinding(checked, issue, path)];
    case 'unrecognized_keys':
      return unknownKeys(checked, issue, path);
    case 'invalid_type':
      return [wrongType(checked, issue, path)];
    case 'invalid_value':
      return [wrongChoice(checked, issue, path)];
    case 'too_small':
    case 'too_big':
      return [outOfRange(checked, issue, path)];
    case 'invalid_union':
      return wrongChoices(checked, issue, path);
    default:
      throw new RangeError(`the format uses a check that has no rule: ${issue.code}`);
  }
}

/** Paths of what an issue makes impossible to understand. */
function wrongPaths(data: unknown, issue: Issue): Path[] {
  const path = stepsOf(issue);
  if (issue.code === 'unrecognized_keys') return issue.keys.map((key) => [...path, key]);
  if (issue.code === 'invalid_union') {
    const inside = fittingChoice(issue);
    return inside ? inside.flatMap((error) => pathsInside(path, error)) : [path];
  }
  // A missing key takes with it what can't do without.
  return valueAt(data, path) === undefined && path.length > 1 ? [path.slice(0, -1)] : [path];
}

function pathsInside(above: Path, error: Issue): Path[] {
  const path = [...above, ...stepsOf(error)];
  return error.code === 'unrecognized_keys' ? error.keys.map((key) => [...path, key]) : [path];
}

/** Last items of lists first, so that the others keep their places until they are looked at. */
function lastItemsFirst(a: Path, b: Path): number {
  const at = a.findIndex((step, index) => step !== b[index]);
  const [one, other] = [a[at], b[at]];
  if (at < 0 || other === undefined) return b.length - a.length;
  return typeof one === 'number' && typeof other === 'number' ? other - one : 0;
}

/** A value that does not fit and was taken out, as it was written. */
export interface LeftOut {
  readonly path: Path;
  readonly value: unknown;
}

/** Takes wrong values out, so that the rest can be understood; nothing is left where the whole is wrong. */
function without(data: unknown, issues: readonly Issue[], leftOut: LeftOut[]): unknown {
  const copy: unknown = structuredClone(data);
  const wrong = issues.flatMap((issue) => wrongPaths(data, issue));
  const each = [...new Map(wrong.map((path) => [JSON.stringify(path), path])).values()];
  for (const path of each.sort(lastItemsFirst)) {
    const last = path.at(-1);
    if (last === undefined) return undefined;
    const parent = valueAt(copy, path.slice(0, -1));
    const value = valueAt(copy, path);
    if (value !== undefined) leftOut.push({ path, value });
    if (Array.isArray(parent) && typeof last === 'number') parent.splice(last, 1);
    else if (typeof parent === 'object' && parent !== null) delete (parent as Record<string | number, unknown>)[last];
  }
  return copy;
}

const findingsAtMost = 25;
const attempts = 12;

/** Something indispensable is missing at the top: no more can be understood. */
const isHopeless = (data: unknown, issue: Issue): boolean =>
  issue.path.length <= 1 && valueAt(data, stepsOf(issue)) === undefined && issue.code !== 'unrecognized_keys';

/** What could be understood of data. */
export interface Understood<Data> {
  /** Absent where something indispensable is wrong, and nothing could stand in for it. */
  readonly value?: Data;
  /** Keys that are indispensable and that something else stands in for. */
  readonly stoodIn: readonly string[];
  readonly leftOut: readonly LeftOut[];
}

/** What stands in for keys that are indispensable, by key. */
export type StandIns = Readonly<Record<string, unknown>>;

/** Data in which something stands in for what is indispensable and wrong; undefined where nothing can. */
function withStandIns(data: unknown, issues: readonly Issue[], standIns: StandIns): object | undefined {
  if (typeof data !== 'object' || data === null || Array.isArray(data)) return undefined;
  const keys = issues.filter((issue) => isHopeless(data, issue)).map((issue) => String(issue.path[0]));
  if (keys.some((key) => !Object.hasOwn(standIns, key))) return undefined;
  return { ...data, ...Object.fromEntries(keys.map((key) => [key, standIns[key]])) };
}

/** What can be understood of data once its wrong values are taken out. */
function understood<S extends z.ZodType>(
  schema: S,
  data: unknown,
  first: readonly Issue[],
  standIns: StandIns,
): Understood<z.infer<S>> {
  let rest: unknown = data;
  let issues = first;
  const leftOut: LeftOut[] = [];
  const stoodIn = new Set<string>();
  for (let attempt = 0; attempt < attempts && rest !== undefined; attempt += 1) {
    const left = without(rest, issues, leftOut);
    const again = schema.safeParse(left);
    if (again.success) return { value: again.data, stoodIn: [...stoodIn], leftOut };
    issues = again.error.issues;
    if (!issues.some((issue) => isHopeless(left, issue))) {
      rest = left;
      continue;
    }
    const whole = withStandIns(left, issues, standIns);
    if (!whole) break;
    for (const key of Object.keys(standIns)) if (!Object.hasOwn(left as object, key)) stoodIn.add(key);
    rest = whole;
    issues = issues.filter((issue) => !isHopeless(left, issue));
  }
  return { stoodIn: [...stoodIn], leftOut };
}

/**
 * Checks data against a schema of the format.
 * @param what name of the thing as a sentence has it: `entry`, `shelf`
 * @returns what could be understood; undefined when something indispensable is wrong
 */
export function check<S extends z.ZodType>(
  schema: S,
  data: unknown,
  what: string,
  findings: Findings,
): z.infer<S> | undefined {
  return checkAsFar(schema, data, what, findings).value;
}

/**
 * The same, with what of the data was left out.
 * @param standIns what to put for keys that are indispensable, so that the rest is understood all the same
 */
export function checkAsFar<S extends z.ZodType>(
  schema: S,
  data: unknown,
  what: string,
  findings: Findings,
  standIns: StandIns = {},
): Understood<z.infer<S>> {
  const first = schema.safeParse(data);
  if (first.success) return { value: first.data, stoodIn: [], leftOut: [] };
  const { data: meant, said, leftOut } = mended(schema, data, first.error.issues);
  for (const { found: one, path, atKey } of said) findings.take({ ...one, where: atKey ? { key: path } : path });
  const read = said.length > 0 || meant !== data ? schema.safeParse(meant) : first;
  if (read.success) return { value: read.data, stoodIn: [], leftOut };
  findWrong({ schema, data: meant, what }, read.error.issues, findings);
  const rest = understood(schema, meant, read.error.issues, standIns);
  return leftOut.length > 0 ? { ...rest, leftOut: [...leftOut, ...rest.leftOut] } : rest;
}

/** Finds what is wrong. */
function findWrong(checked: Checked, issues: readonly Issue[], findings: Findings): void {
  const looked = issues.slice(0, 4 * findingsAtMost);
  const all = looked.flatMap((issue) => findingsOf(checked, issue));
  for (const { found: one, path, atKey } of all.slice(0, findingsAtMost))
    findings.take({ ...one, where: atKey ? { key: path } : path });
  if (all.length > findingsAtMost || issues.length > looked.length)
    findings.add('many-remarks', [], { shown: findingsAtMost });
}

const blanks = once(() => new Set(blankWordsTable().map(({ word }) => word)));
const longestBlank = 20;

/** Whether a text counts as nothing: `~`, `tbd`, `n/a`. */
export const saysBlank = (text: string): boolean =>
  text === '' ||
  text === '~' ||
  text === 'null' ||
  (text.length <= longestBlank && blanks().has(text.trim().toLowerCase()));

/** Keys at which such words say something: what is to be done is planned, and an answer to a danger is none. */
const toldByBlanks: ReadonlySet<string> = new Set(['status', 'do', 'against']);

const isEmpty = (value: unknown, key?: string): boolean => {
  if (typeof value !== 'string') return value === null;
  return key !== undefined && toldByBlanks.has(key) ? ['', '~', 'null'].includes(value) : saysBlank(value);
};

type OnEmpty = (path: Path) => void;

/** Takes out keys that have nothing after them; they count as left out. Data without any comes back as it is. */
export function withoutEmpty(data: unknown, onEmpty: OnEmpty, path: Path = []): unknown {
  if (Array.isArray(data)) {
    const list = data.flatMap((item, index) => {
      // Only what a maker left blank: a text in quotes with nothing in it was meant to be one.
      if (item !== null) return [withoutEmpty(item, onEmpty, [...path, index])];
      onEmpty([...path, index]);
      return [];
    });
    return list.length < data.length || list.some((item, index) => item !== data[index]) ? list : data;
  }
  return typeof data === 'object' && data !== null ? withoutEmptyKeys(data, onEmpty, path) : data;
}

function withoutEmptyKeys(data: object, onEmpty: OnEmpty, path: Path): object {
  let copy: Record<string, unknown> | undefined;
  for (const [key, value] of Object.entries(data)) {
    if (isEmpty(value, key)) {
      onEmpty([...path, key]);
      copy ??= { ...data };
      delete copy[key];
    } else if (typeof value === 'object') {
      const kept = withoutEmpty(value, onEmpty, [...path, key]);
      if (kept !== value) (copy ??= { ...data })[key] = kept;
    }
  }
  return copy ?? data;
}
