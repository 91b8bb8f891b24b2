// What a maker wrote in another way than the format has it and that can only mean one thing: read as what it means, and
// said. A text where a list of one is wanted, `resolution` for `step`, `done` for `finished`, `2026-2-14`.
import { nameOfFormula, substancesOfCas } from '../../reagents/index.js';
import { found, type Found, type Path } from '../../remarks/findings.js';
import type { Schema } from '../format.js';
import { misspelt, nearest } from '../nearest.js';
import { listsOfUses } from './use-in-one-text.js';
import { ofColour, ofColourKeys, ofTriple } from './colours.js';
import { ofChoice, ofKeys } from './keys.js';
import { isKeys, meanings, set, stepsOf, takeOut, valueAt, type Issue, type Keys, type Mending } from './mending.js';
import { ofCount, ofHeating, ofValue, ofWash } from './quantities.js';
import { letterOf, namesSample, ofSampleKey, ofSampleText, samplesByKey } from './samples.js';
import { ofColonInItem, ofKeysAsWords, ofPigment, ofSentence, ofTexts } from './texts.js';
import { isWordForName, ofDescribedBeside, ofNamesAsKeys, ofNestedUse, ofUse } from './uses.js';
import type { z } from 'zod';

/** What was mended, and what is said of it. */
export interface Mended {
  readonly data: unknown;
  readonly said: readonly { readonly found: Found; readonly path: Path; readonly atKey?: boolean }[];
  /** What was done and was taken out, as it was written: it may be a danger all the same. */
  readonly leftOut: readonly { readonly path: Path; readonly value: unknown }[];
}

/** The choice whose own kind fits what is there: it says what is wrong inside. */
export const fittingChoice = ({ errors }: Extract<Issue, { code: 'invalid_union' }>): readonly Issue[] | undefined =>
  errors.find((choice) => !choice.some((error) => error.code === 'invalid_type' && error.path.length === 0));

/** The key that a text stands for where keys of its own are wanted. */
const principalKeys: Readonly<Record<string, string>> = {
  incidents: 'what',
  sources: 'cite',
  videos: 'url',
  heating: 'to',
  pigment: 'name',
  workspace: 'volume',
};

/** Lists of which an item can be left out that lacks what it cannot do without. */
const spareable: ReadonlySet<string> = new Set([
  'precautions',
  'incidents',
  'corrections',
  'dried',
  'sources',
  'washes',
  'videos',
  'moments',
  'photos',
  'sent',
]);

/** Of these, the lists that tell what was done. */
const tellDeeds: ReadonlySet<unknown> = new Set(['washes', 'dried']);

/** A reagent or a jar of which only formula or CAS number say what it is: called by them, or a jar by its id. */
function ofUnnamed(here: unknown, path: Path): Mending[] {
  const [above, last] = path.slice(-2);
  const isJar = path.length === 2 && typeof above === 'string' && above !== 'pigment';
  if (last !== 'name' || !(isJar || above === 'reagent') || !isKeys(here)) return [];
  const { formula, cas } = here;
  const isCalled = Object.keys(here).some((key) => isWordForName(key) || nearest(key, ['name']) !== undefined);
  const told = [formula, cas].find((one) => typeof one === 'string');
  if (isCalled || told === undefined) return [];
  const known = typeof formula === 'string' ? nameOfFormula(formula) : substancesOfCas(String(cas))[0]?.names[0];
  const meant = isJar ? above.replaceAll('-', ' ') : (known ?? String(told));
  const facts = { subject: '`name`', written: '', meant, why: 'it was left out', actual: '' };
  return [{ path, mend: set(meant), found: found('read-as', facts), at: path.slice(0, -1) }];
}

/** Whether a key stands there by another word for it, which is mended first. */
const isCalledOtherwise = (item: unknown, key: string): boolean =>
  isKeys(item) &&
  Object.keys(item).some((one) => one !== key && (meanings('key', one).includes(key) || misspelt(one, [key]) === key));

/** What is missing from an item of a list: a sample's letter is given to it, another item is left out. */
function ofMissing(data: unknown, path: Path): Mending[] {
  const unnamed = ofUnnamed(valueAt(data, path.slice(0, -1)), path);
  if (unnamed.length > 0) return unnamed;
  const [list, index, key] = path.slice(-3);
  if (typeof list !== 'string' || typeof index !== 'number' || typeof key !== 'string') return [];
  const item = path.slice(0, -1);
  if (list === 'samples' && key === 'sample') {
    const here = valueAt(data, item);
    if (ofSampleKey(here, item).length > 0 || namesSample(here)) return [];
    const letter = letterOf(index);
    return [{ path, mend: set(letter), found: found('sample-without-id', { letter }), at: item }];
  }
  if (!spareable.has(list) || isCalledOtherwise(valueAt(data, item), key)) return [];
  const facts = { subject: `Item ${index + 1} of \`${list}\``, key };
  return [{ path: item, mend: takeOut, found: found('item-left-out', facts) }];
}

type OfText = (value: string, path: Path, subject: string) => Mending[];

/** How one text is read where keys of its own are wanted, by the list or the key that it stands under. */
const inOneText: ReadonlyMap<unknown, OfText> = new Map<unknown, OfText>([
  ['precautions', ofSentence],
  ...[...listsOfUses].map((list): [unknown, OfText] => [list, ofUse]),
  ['samples', ofSampleText],
  ['heating', ofHeating],
  ['washes', ofWash],
  ['colour', ofColour],
  ['pigment', ofPigment],
]);

/** A text where keys are wanted: read by its own words, or else put under the key that it mostly stands for. */
function ofText(value: string, list: string | undefined, path: Path, subject: string): Mending[] {
  const read = inOneText.get(list)?.(value, path, subject) ?? [];
  const key = list === undefined ? undefined : principalKeys[list];
  return read.length > 0 || key === undefined ? read : [{ path, mend: set({ [key]: value }) }];
}

/** `pigment: [verdigris, Cu(CH3COO)2]`, `- name: …` and `- formula: …` as items: a list where keys are wanted. */
function ofList(value: readonly unknown[], list: string | undefined, path: Path, subject: string): Mending[] {
  const [first, ...others] = value;
  if (value.length > 0 && value.every(isKeys)) {
    const keys = value.flatMap((item) => Object.keys(item));
    if (new Set(keys).size < keys.length) return [];
    const meant = Object.assign({}, ...value) as Keys;
    const facts = {
      subject,
      written: 'a list',
      meant: 'the keys of its items',
      inWords: true as const,
      actual: 'a list',
    };
    return [{ path, mend: set(meant), found: found('read-as', facts) }];
  }
  if (list !== 'pigment' || typeof path.at(-1) === 'number' || !value.every((item) => typeof item === 'string'))
    return [];
  const text = [first, ...others].join(', ');
  const read = ofPigment(text, path, subject);
  return read.length > 0 || others.length > 0 ? read : [{ path, mend: set({ name: text }) }];
}

/** One where a list is wanted; a text where keys are. */
function ofType(data: unknown, expected: string, path: Path, subject: string): Mending[] {
  const value = valueAt(data, path);
  const list = path.findLast((step) => typeof step === 'string');
  if (value === undefined) return ofMissing(data, path);
  if (expected === 'string')
    return [...ofColonInItem(value, path), ...ofTexts(value, path, subject), ...ofKeysAsWords(value, path, subject)];
  if (value === null && typeof path.at(-1) === 'number')
    return [{ path, mend: takeOut, found: found('says-nothing', { subject, written: '-', actual: '' }) }];
  if (expected === 'array' && list === 'samples' && isKeys(value)) {
    const each = samplesByKey(value);
    if (each !== undefined) return [{ path, mend: set(each) }];
  }
  if (expected === 'array')
    return value === null || value === '' || path.length === 0 ? [] : [{ path, mend: set([value]) }];
  if (Array.isArray(value) && expected === 'object') return ofList(value, list, path, subject);
  if (typeof value !== 'string') return [];
  if (expected === 'number' || expected === 'int') return ofCount(value, path, subject);
  if (expected === 'tuple') return ofTriple(value, path, subject);
  return expected === 'object' ? ofText(value, list, path, subject) : [];
}

function mendingsOf(schema: Schema, data: unknown, issue: Issue, above: Path = []): Mending[] {
  const path = [...above, ...stepsOf(issue)];
  const last = path.at(-1);
  const list = path.findLast((step) => typeof step === 'string');
  const subject = typeof last === 'number' ? `Item ${last + 1} of \`${list}\`` : `\`${String(last)}\``;
  switch (issue.code) {
    case 'custom':
      return ofValue(issue, path, subject);
    case 'unrecognized_keys': {
      const here = valueAt(data, path);
      const nested = ofNestedUse(here, path);
      if (nested.length > 0) return nested;
      const beside = ofDescribedBeside(schema, here, path);
      if (beside.length > 0) return beside;
      const asNames = [...ofNamesAsKeys(here, path), ...ofSampleKey(here, path), ...ofColourKeys(here, path)];
      const asKeys = asNames.length > 0 ? [] : ofKeys(schema, data, issue.keys, path);
      if (asKeys.length > 0) return asKeys;
      return asNames.length > 0 ? asNames : ofColonInItem(here, path);
    }
    case 'invalid_value':
      return ofChoice(issue.values.map(String), valueAt(data, path), path, subject);
    case 'invalid_type':
      return ofType(data, issue.expected, path, subject);
    case 'invalid_union': {
      const inside = fittingChoice(issue) ?? issue.errors.find((choice) => choice.some(wantsList)) ?? [];
      return inside.flatMap((error) => mendingsOf(schema, data, error, path));
    }
    default:
      return [];
  }
}

const wantsList = (issue: Issue): boolean =>
  issue.code === 'invalid_type' && issue.expected === 'array' && issue.path.length === 0;

/** One mending a place: an item that lacks two keys is left out once. */
const byPlace = (one: Mending): [string, Mending] => [JSON.stringify(one.path), one];

const roundsAtMost = 4;

/**
 * Reads what can only mean one thing as what it means. @param issues what zod found at first
 * @returns the data, mended as far as it goes, and what is to be said of it
 */
export function mended(schema: z.ZodType, data: unknown, issues: readonly Issue[]): Mended {
  let now = data;
  let left = issues;
  const said: Mended['said'][number][] = [];
  const leftOut: Mended['leftOut'][number][] = [];
  for (let round = 0; round < roundsAtMost && left.length > 0; round += 1) {
    const mendings = left.flatMap((issue) => mendingsOf(schema, now, issue));
    if (mendings.length === 0) break;
    const copy: unknown = structuredClone(now);
    for (const { path, mend, found: one, atKey, at = path } of [...new Map(mendings.map(byPlace)).values()].reverse()) {
      const parent = valueAt(copy, path.slice(0, -1));
      const last = path.at(-1);
      if (last === undefined || typeof parent !== 'object' || parent === null) continue;
      if (mend === takeOut && tellDeeds.has(path.at(-2))) leftOut.push({ path, value: valueAt(copy, path) });
      mend(parent as Record<string | number, unknown>, last);
      if (one) said.push({ found: one, path: at, ...(atKey && { atKey }) });
    }
    now = copy;
    const again = schema.safeParse(now);
    left = again.success ? [] : again.error.issues;
  }
  return { data: now, said, leftOut };
}
