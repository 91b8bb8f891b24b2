// What a maker wrote in another way than the format has it and that can only mean one thing: read as what it means, and
// said. A text where a list of one is wanted, `resolution` for `step`, `done` for `finished`, `2026-2-14`.
import type { z } from 'zod';
import { isAmount, isFormula, nameOfFormula, readHeat, substancesOfCas } from '../reagents/index.js';
import { found, type Found, type Path } from '../remarks/findings.js';
import type { ValueFault } from '../remarks/value-fault.js';
import { otherWordsTable } from '../tables/compiled/journal/other-words.js';
import { keysAt, type Schema } from './format.js';
import { listsOfUses, saysNothing, usesInOneText } from './use-in-one-text.js';
import { misspelt, nearest } from './nearest.js';
import { plainLetters } from './plain-letters.js';
import { isBareId, sampleInOneText, sampleOfKey, samplesInOneText } from './sample-in-one-text.js';
import { quantityFault, type QuantityKind } from './quantities.js';
import { hexMeant, reagentIdPattern, sampleIdPattern } from './values.js';
import { grAsGrams, whyGrams } from './slips-in-amounts.js';

type Issue = z.core.$ZodIssue;

/** A mending of data at a path; what is silent is plain enough. */
interface Mending {
  readonly path: Path;
  /** The data with it mended. */
  readonly mend: (parent: Record<string | number, unknown>, last: string | number) => void;
  readonly found?: Found;
  readonly atKey?: boolean;
  /** Where it is said, if not at the path. */
  readonly at?: Path;
}

/** What was mended, and what is said of it. */
export interface Mended {
  readonly data: unknown;
  readonly said: readonly { readonly found: Found; readonly path: Path; readonly atKey?: boolean }[];
  /** What was done and was taken out, as it was written: it may be a danger all the same. */
  readonly leftOut: readonly { readonly path: Path; readonly value: unknown }[];
}

const stepsOf = ({ path }: Pick<Issue, 'path'>): Path =>
  path.map((step) => (typeof step === 'symbol' ? String(step) : step));

/** The value at a path; undefined where it leads nowhere. */
export function valueAt(data: unknown, path: Path): unknown {
  let value = data;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}

/** The choice whose own kind fits what is there: it says what is wrong inside. */
export const fittingChoice = ({ errors }: Extract<Issue, { code: 'invalid_union' }>): readonly Issue[] | undefined =>
  errors.find((choice) => !choice.some((error) => error.code === 'invalid_type' && error.path.length === 0));

const takeOut: Mending['mend'] = (parent, last) => {
  if (Array.isArray(parent)) parent.splice(Number(last), 1);
};

const set =
  (value: unknown): Mending['mend'] =>
  (parent, last) => {
    parent[last] = value;
  };

let known: ReadonlyMap<string, readonly string[]> | undefined;
/** What other words mean, by kind and word: `key resolution` → `step`. */
function meanings(kind: 'key' | 'choice', written: string): readonly string[] {
  known ??= otherWordsTable().reduce((all, row) => {
    const key = `${row.kind} ${asOneWord(row.written)}`;
    return all.set(key, [...(all.get(key) ?? []), row.meant]);
  }, new Map<string, readonly string[]>());
  return known.get(`${kind} ${asOneWord(written)}`) ?? [];
}

/** A word as it is compared: `CAS-Nr.` is `cas nr`. */
const asOneWord = (written: string): string =>
  plainLetters(written)
    .replace(/[\s_-]+/g, ' ')
    .replace(/[.°!]+$/, '')
    .trim();

/** The key that another word for it means, among those that may stand in its place. */
export const meantKey = (key: string, may: readonly string[]): string | undefined =>
  meanings('key', key).find((one) => may.includes(one));

/** A value that its own check reads as another. */
function ofValue(issue: Extract<Issue, { code: 'custom' }>, path: Path, subject: string): Mending[] {
  const fault = issue.params as unknown as ValueFault;
  if (fault.rule !== 'read-as') return [];
  const facts = { ...fault.facts, subject, actual: fault.facts.written };
  return [{ path, mend: set(fault.facts.meant), found: found('read-as', facts) }];
}

/** Keys of what came out. */
const results: ReadonlySet<string> = new Set(['obtained', 'with-product']);

/** Whether what stands under a word for a product names it, and tells nothing of what came out. */
const isNamedIn = (key: string, value: unknown, among: readonly string[]): boolean =>
  key === 'samples' && among.includes('pigment') && typeof value === 'string' && !sampleInOneText(value);

/** Keys of another name, and misspelt ones; never where the key itself stands there too. */
function ofKeys(schema: Schema, data: unknown, keys: readonly string[], path: Path): Mending[] {
  const here = valueAt(data, path);
  const may = keysAt(schema, path);
  return keys.flatMap((key) => {
    const ofOne = isKeys(here) ? ofKeyOfSample(key, here[key], path) : [];
    if (ofOne.length > 0) return ofOne;
    const spelt = key.toLowerCase().replace(/[\s_]+/g, '-');
    const near = misspelt(spelt, may);
    const told = [spelt, ...meanings('key', key)].find(
      (one) => one !== key && may.includes(one) && !(isKeys(here) && isNamedIn(one, here[key], meanings('key', key))),
    );
    // A result is not taken from a key that nobody wrote.
    const meant = told ?? (near !== undefined && results.has(near) ? undefined : near);
    if (meant === undefined || typeof here !== 'object' || here === null || Object.hasOwn(here, meant)) return [];
    const mend: Mending['mend'] = (parent, last) => {
      parent[meant] = parent[last];
      delete parent[last];
    };
    const how = { what: 'key', misspelt: told === undefined } as const;
    const facts = { subject: `\`${key}\``, written: key, meant, ...how, expected: [meant] };
    return [{ path: [...path, key], mend, atKey: true, found: found('another-word', facts) }];
  });
}

/** One of a few words, in capitals or by another word for it. */
function ofChoice(choices: readonly string[], value: unknown, path: Path, subject: string): Mending[] {
  if (typeof value !== 'string') return [];
  const cased = choices.find((one) => one.toLowerCase() === value.trim().toLowerCase());
  if (cased !== undefined) return [{ path, mend: set(cased) }];
  const first = choices.find((one) => new RegExp(`^${one}[\\s,;:(.]`, 'i').test(value));
  const isTakenBack = /\b(?:not|no|nicht|kein|pas|non|niet)\b|\?/i.test(value);
  const among = (words: string) => meanings('choice', words).find((one) => choices.includes(one));
  const told = among(value) ?? first ?? (isTakenBack ? undefined : among(/^\p{L}+/u.exec(value)?.[0] ?? ''));
  const meant = told ?? misspelt(value.trim().toLowerCase(), choices);
  if (meant === undefined) return [];
  const how = { what: 'word', misspelt: told === undefined } as const;
  const facts = { subject, written: value, meant, ...how, actual: value, expected: [meant] };
  return [{ path, mend: set(meant), found: found('another-word', facts) }];
}

/** A quantity as the format has it, if that is what it can only mean. */
function asRead(text: string, kind: QuantityKind): string | undefined {
  const fault = quantityFault(text, kind);
  if (!fault) return text;
  return fault.rule === 'read-as' ? fault.facts.meant : undefined;
}

/** A heating in one text: `900 °C, 1 h`, `60 °C für 3 h`. */
function ofHeating(value: string, path: Path, subject: string): Mending[] {
  if (saysNothing(value))
    return [{ path, mend: takeOut, found: found('says-nothing', { subject, written: value, actual: value }) }];
  const [, heat, time] =
    /^(.+?)\s*(?:,|;|\bfor\b|\bfür\b|\bpendant\b|\bdurante\b)\s*(.+)$/iu.exec(value) ??
    /^(\d+\s*(?:°\s*)?[CF])\s+(\d.*)$/u.exec(value) ??
    [];
  const to = heat === undefined ? undefined : asRead(heat, 'temperature');
  const lasting = time === undefined || !/\d/.test(time) ? undefined : asRead(time, 'time');
  // `on the hotplate, about 90 °C`: a heat that says more than the first words, and no time.
  if (to === undefined || lasting === undefined || readHeat(lasting).known === 'number') return [];
  const facts = { subject, written: value, meant: `{ to: ${to}, for: ${lasting} }`, actual: value };
  return [{ path, mend: set({ to, for: lasting }), found: found('read-as', facts) }];
}

const washVolume = String.raw`\d+(?:[.,]\d+)?\s?(?:m[lL]|[cd]?[lL]|litres?|liters?|Liter)`;
const timesOver = String.raw`(?:(\d{1,2})\s*(?:[x×]|times|mal|fois)\s*)?`;
const timesBefore = new RegExp(String.raw`^${timesOver}(${washVolume})\s+(?:of\s+|de\s+)?(\D+)$`, 'i');
const timesBehind = new RegExp(String.raw`^(?:with\s+|mit\s+|avec\s+)?(\D+?)[\s,]+${timesOver}(${washVolume})$`, 'i');

/** A wash in one text: `3x200ml water`, `water 2 × 50 mL`. */
function ofWash(value: string, path: Path, subject: string): Mending[] {
  const [, times, volume, water] = timesBefore.exec(value.trim()) ?? [];
  const [, other, count, measured] = water === undefined ? (timesBehind.exec(value.trim()) ?? []) : [];
  const [what, read] = [water ?? other, asRead(volume ?? measured ?? '', 'poured')];
  if (what === undefined || read === undefined) return [];
  const many = times ?? count;
  const meant = { with: what.trim(), volume: read, ...(many !== undefined && { times: many }) };
  const facts = { subject, written: value, meant: keysOfUse(meant), actual: value };
  return [{ path, mend: set(meant), found: found('read-as', facts) }];
}

/** The key that a text stands for where keys of its own are wanted. */
const principalKeys: Readonly<Record<string, string>> = {
  incidents: 'what',
  sources: 'cite',
  videos: 'url',
  heating: 'to',
  pigment: 'name',
  workspace: 'volume',
};

/** A letter for a sample that was given none: A for the first. */
const letterOf = (index: number): string => String.fromCodePoint('A'.codePointAt(0)! + (index % 26));

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
  if (!spareable.has(list)) return [];
  const facts = { subject: `Item ${index + 1} of \`${list}\``, key };
  return [{ path: item, mend: takeOut, found: found('item-left-out', facts) }];
}

/** Whether a key of a sample is another word for its id: `Probe`. */
const namesSample = (item: unknown): boolean =>
  isKeys(item) &&
  Object.keys(item).some(
    (key) =>
      key.toLowerCase() === 'sample' ||
      meanings('key', key).includes('sample') ||
      misspelt(key.toLowerCase(), ['sample']) !== undefined,
  );

const counts = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

/** `No. 7`, `#7`, `Nr. 7.`: the number of an entry. */
const numbered = /^(?:no|nr|num|n|entry|eintrag|versuch|essai|#)?\s*[.°º]*\s*[:#]?\s*0*(\d{1,6})\.?$/i;

/** `4x`, `three times`, `three or four`: the fewest that are said. */
function ofCount(value: string, path: Path, subject: string): Mending[] {
  const number = path.length === 1 && path[0] === 'number' ? numbered.exec(value.trim())?.[1] : undefined;
  if (number !== undefined) {
    const facts = { subject, written: value, meant: number, actual: value };
    return [{ path, mend: set(number), found: found('read-as', facts) }];
  }
  const words = value
    .toLowerCase()
    .replace(/(?<=\d)\s*[x×]$|\s*\b(?:times|x|times over)$/g, '')
    .trim();
  const [, first = '', more] = /^(\d+|[a-z]+)(?:\s*(?:-|–|or|to)\s*(?:\d+|[a-z]+))?$/.exec(words) ?? [];
  const count = /^\d+$/.test(first) ? Number(first) : counts.indexOf(first) + 1;
  if (count < 1) return [];
  const several = more !== undefined || words !== first;
  const facts = { subject, written: value, meant: String(count), ...(several && { why: 'the fewest of them' }) };
  return [{ path, mend: set(count), ...(several && { found: found('read-as', facts) }) }];
}

/** A precaution in one sentence: it says what it is against, and what is done. */
function ofSentence(value: string, path: Path, subject: string): Mending[] {
  const against = /\bagainst\s+(?:the\s+)?(\S+(?:\s+\S+){0,2})/i.exec(value)?.[1] ?? value;
  const meant = { against, do: value };
  return [{ path, mend: set(meant), found: found('precaution-in-one-text', { subject, actual: value.slice(0, 60) }) }];
}

const keysOfUse = (use: object): string =>
  `{ ${Object.entries(use)
    .map(([key, value]) => `${key}: ${/[,:#{}[\]]/.test(String(value)) ? JSON.stringify(value) : String(value)}`)
    .join(', ')} }`;

/** Items in the place of one. */
const put =
  (items: readonly unknown[]): Mending['mend'] =>
  (parent, last) => {
    if (Array.isArray(parent)) parent.splice(Number(last), 1, ...items);
  };

/** What goes in, in one text: `50 ml of 10 % ammonia`; several, each with its amount; or nothing. */
function ofUse(value: string, path: Path, subject: string): Mending[] {
  if (saysNothing(value))
    return [
      { path, mend: takeOut, found: found('says-nothing', { subject, written: value, actual: value }), at: path },
    ];
  const uses = usesInOneText(value);
  if (uses.length === 0) return [];
  const why = grAsGrams(value) === value ? undefined : whyGrams;
  const meant = uses.map(keysOfUse).join(', ');
  const facts = { subject, written: value, meant, ...(why !== undefined && { why }), actual: value };
  return [{ path, mend: put(uses), found: found('read-as', facts) }];
}

type Keys = Readonly<Record<string, unknown>>;
const isKeys = (value: unknown): value is Keys => typeof value === 'object' && value !== null && !Array.isArray(value);

/** Whether it is a key of a use in another spelling or by another word: `ammount`, `Menge`. */
const meansKeyOfUse = (key: string): boolean =>
  meanings('key', key).some((meant) => keysOfUses.has(meant)) ||
  misspelt(key.toLowerCase(), [...keysOfUses]) !== undefined;

/** `{ alum: 10 g }`: names as keys, with their amounts; none where a key of a use names something. */
function ofNamesAsKeys(item: unknown, path: Path): Mending[] {
  const list = path.at(-2);
  if (!isKeys(item) || typeof path.at(-1) !== 'number' || !listsOfUses.has(list)) return [];
  const named = Object.entries(item).filter(([key]) => !keysOfUses.has(key));
  const beside = Object.fromEntries(Object.entries(item).filter(([key]) => keysOfUses.has(key)));
  if (named.length > 1 && named.some(([key]) => meansKeyOfUse(key))) return [];
  const isOne = named.length === 1 && !('reagent' in beside) && !('lot' in beside);
  if (!isOne && (named.length < 2 || Object.keys(beside).length > 0)) return [];
  const uses = named.map(([name, value]) =>
    isKeys(value) ? { reagent: name, ...value } : { reagent: name, amount: value },
  );
  // One name of several words is no key in any spelling, whatever words tell how much.
  const isName = (key: string): boolean => isOne && meanings('key', key).length === 0 && /\s/.test(key);
  const isAmounts = named.every(
    ([key, value]) => isKeys(value) || (typeof value === 'string' && (mayBeAmount(value) || isName(key))),
  );
  if (!isAmounts) return [];
  const all = uses.map((use) => ({ ...use, ...beside }));
  const written = named.map(([name, value]) => `${name}: ${isKeys(value) ? '…' : String(value)}`).join(', ');
  const meant = all.map(keysOfUse).join(', ');
  const facts = { subject: `Item ${Number(path.at(-1)) + 1} of \`${String(list)}\``, written, meant, actual: written };
  return [{ path, mend: put(all), found: found('read-as', facts) }];
}

/** `Name`, `nom`, `Bezeichnung`: what a thing is called, in other letters or another language. */
const isWordForName = (key: string): boolean => key.toLowerCase() === 'name' || meanings('key', key).includes('name');

/** `{ reagent: soda, formula: Na2CO3, amount: 5 g }`: what describes the reagent, beside it instead of under it. */
function ofDescribedBeside(schema: Schema, item: unknown, path: Path): Mending[] {
  if (!isKeys(item) || typeof path.at(-1) !== 'number' || !listsOfUses.has(path.at(-2))) return [];
  const nameKey = Object.keys(item).find((key) => key === 'name' || isWordForName(key));
  const named = item.reagent ?? (nameKey === undefined ? undefined : item[nameKey]);
  if (typeof named !== 'string' || 'lot' in item || ('reagent' in item && nameKey !== undefined)) return [];
  // A name as the shelf has ids may be that of a jar, of which the words beside it say something else.
  if ('reagent' in item && reagentIdPattern.test(named)) return [];
  const describing = keysAt(schema, [...path, 'reagent']);
  const meaning = (key: string): string | undefined =>
    [key, ...meanings('key', key)].find((one) => describing.includes(one));
  const beside = Object.keys(item).filter((key) => !keysOfUses.has(key) && key !== nameKey && !meansKeyOfUse(key));
  if ((beside.length === 0 && nameKey === undefined) || beside.some((key) => meaning(key) === undefined)) return [];
  const reagent =
    beside.length === 0
      ? named
      : { name: named, ...Object.fromEntries(beside.map((key) => [meaning(key)!, item[key]])) };
  const rest = Object.entries(item).filter(([key]) => key !== nameKey && !beside.includes(key));
  const meant = { reagent, ...Object.fromEntries(rest.filter(([key]) => key !== 'reagent')) };
  const shown = `reagent: ${typeof reagent === 'string' ? reagent : keysOfUse(reagent)}`;
  const facts = { subject: `Item ${Number(path.at(-1)) + 1} of \`${String(path.at(-2))}\``, actual: named };
  const written = [nameKey ?? 'reagent', ...beside].map((key) => `${key}: ${String(item[key])}`);
  return [{ path, mend: set(meant), found: found('read-as', { ...facts, written: written.join(', '), meant: shown }) }];
}

/** `{ reagent: { lot: 1/A } }`: keys of a use, one level too deep. */
function ofNestedUse(here: unknown, path: Path): Mending[] {
  if (!isKeys(here) || path.at(-1) !== 'reagent' || !('lot' in here || 'reagent' in here)) return [];
  if (!Object.keys(here).every((key) => keysOfUses.has(key))) return [];
  const meant = keysOfUse(here);
  const mend: Mending['mend'] = (parent, last) => {
    delete parent[last];
    Object.assign(parent, { ...here, ...parent });
  };
  const facts = { subject: '`reagent`', written: meant, meant: meant.slice(2, -2), actual: meant };
  return [{ path, mend, found: found('read-as', facts) }];
}

const keysOfUses: ReadonlySet<string> = new Set(
  (
    'reagent lot amount role intent strength purity density drop-volume free-acid contamination separately vessel ' +
    'note'
  ).split(' '),
);
/** An amount, or words for one: `a splash`. */
const mayBeAmount = (value: string): boolean =>
  isAmount(value) || /^\s*(?:ca\.?\s*)?\d|^(?:a|an|some|etwas|un|une)\b/i.test(value);

/** What came out, in one text: `A 34 g black`. */
function ofSampleText(value: string, path: Path, subject: string, id?: string): Mending[] {
  // Of a sample that is named the words are kept, whatever they tell.
  const several = id === undefined ? samplesInOneText(value) : [];
  if (several.length > 0) {
    const all = several.map((one, at) => ({ sample: letterOf(at), ...one }));
    const meant = all.map(keysOfUse).join(', ');
    return [{ path, mend: put(all), found: found('read-as', { subject, written: value, meant, actual: value }) }];
  }
  const alone =
    id === undefined ? (sampleOfKey(value) ?? (isBareId(value.trim()) ? value.trim() : undefined)) : undefined;
  const told =
    alone === undefined
      ? (sampleInOneText(value, id) ?? (id === undefined ? undefined : { sample: id, differs: value }))
      : { sample: alone };
  if (!told) return [];
  const letter = told.sample ?? letterOf(Number(path.at(-1)));
  const sample = { sample: letter, ...told };
  const meant = keysOfUse(sample);
  return [{ path, mend: set(sample), found: found('read-as', { subject, written: value, meant, actual: value }) }];
}

/** `B: 31 g greyish` as an item of the samples, which YAML takes for a key. */
function ofSampleKey(item: unknown, path: Path): Mending[] {
  if (!isKeys(item) || path.at(-2) !== 'samples' || typeof path.at(-1) !== 'number') return [];
  const [only, ...others] = Object.entries(item);
  if (only === undefined || others.length > 0) return [];
  const id = sampleOfKey(only[0]) ?? (isBareId(only[0]) ? only[0] : undefined);
  const subject = `Item ${Number(path.at(-1)) + 1} of \`samples\``;
  if (id !== undefined && isKeys(only[1]) && !namesSample(only[1])) {
    const facts = { subject, written: `${only[0]}: …`, meant: `{ sample: ${id}, … }`, actual: only[0] };
    return [{ path, mend: set({ sample: id, ...only[1] }), found: found('read-as', facts) }];
  }
  if (typeof only[1] !== 'string') return [];
  if (id !== undefined) return ofSampleText(only[1], path, subject, id);
  // `cold one: 1.9 g`: what tells it from the others, and what came out; no key of the format has a space in it.
  const isTold = /\s/.test(only[0]) && meanings('key', only[0]).length === 0 && sampleInOneText(only[1]) !== undefined;
  return isTold ? ofSampleText(`${only[0]} ${only[1]}`, path, subject) : [];
}

/** `sample A: …` at the top: one more of the samples. */
function ofKeyOfSample(key: string, value: unknown, path: Path): Mending[] {
  const id = path.length === 0 ? sampleOfKey(key) : undefined;
  if (id === undefined || typeof value !== 'string') return [];
  const sample = sampleInOneText(value, id) ?? { sample: id, differs: value };
  const meant = `samples: [${keysOfUse(sample)}]`;
  const mend: Mending['mend'] = (parent, last) => {
    const before: unknown = parent.samples;
    // From the last to the first.
    parent.samples = [sample, ...(Array.isArray(before) ? (before as unknown[]) : [])];
    delete parent[last];
  };
  const facts = { subject: `\`${key}\``, written: value, meant, actual: value };
  return [{ path: [key], mend, atKey: true, found: found('read-as', facts) }];
}

/** A colour in one text that has the code of one in it: `#a05a9c, by the window`. */
function ofColour(value: string, path: Path, subject: string): Mending[] {
  const code = /#[0-9a-f]{6}\b/i.exec(value)?.[0] ?? hexMeant(value);
  if (readingsFile.test(value.trim())) {
    const spectrum = value.trim();
    const facts = { subject, written: value, meant: `{ spectrum: ${spectrum} }`, actual: value };
    return [{ path, mend: set({ spectrum }), found: found('read-as', facts) }];
  }
  if (code === undefined) return ofLab(value, path, subject);
  const why = 'a rough estimate; a photo that shows a chart beside the sample tells more (`masstone colour --help`)';
  const facts = { subject, written: value, meant: `{ srgb: "${code}" }`, why, actual: value };
  return [{ path, mend: set({ srgb: code }), found: found('read-as', facts) }];
}

/** `{ L: 58.2, a: 14.1, b: 44 }`, `{ r: 181, g: 129, b: 58 }`, `{ rgb: [181, 129, 58] }`: figures under keys. */
function ofColourKeys(here: unknown, path: Path): Mending[] {
  if (!isKeys(here) || !path.includes('colour')) return [];
  const figures = new Map(Object.entries(here).map(([key, value]) => [key.toLowerCase().replace('*', ''), value]));
  const three = (letters: string): readonly string[] | undefined => {
    const together = figures.get(letters);
    const each: readonly unknown[] = Array.isArray(together) ? together : [...letters].map((one) => figures.get(one));
    return each.length === 3 && each.every((one) => typeof one === 'string' || typeof one === 'number')
      ? each.map((one) => String(one).replace(',', '.').replace('−', '-'))
      : undefined;
  };
  const [lab, rgb] = ['lab' in here ? undefined : three('lab'), three('rgb')];
  const code = lab === undefined && rgb !== undefined ? hexMeant(`rgb(${rgb.join(', ')})`) : undefined;
  if (code === undefined && (lab === undefined || !lab.every((one) => /^-?\d+(?:\.\d+)?$/.test(one)))) return [];
  const isFigure = (key: string): boolean => /^(?:[labrg]\*?|rgb)$/i.test(key);
  const rest = Object.fromEntries(Object.entries(here).filter(([key]) => !isFigure(key)));
  const told = code === undefined ? { lab: lab!.map(Number) } : { srgb: code };
  const shown = code === undefined ? `lab: [${lab!.join(', ')}]` : `srgb: "${code}"`;
  const written = Object.keys(here).filter(isFigure).join(', ');
  const facts = { subject: '`colour`', written, meant: shown, actual: written };
  return [{ path, mend: set({ ...told, ...rest }), found: found('read-as', facts) }];
}

/** A file of readings by its path alone. */
const readingsFile = /^[^\s{}[\]]+\.(?:csv|txt|tsv|cxf|xml|cgats|mes|sp)$/i;

/** `L*=41.2 a*=3.3 b*=-37` */
const labelled =
  /^(L\*?\s*[=:]?\s*[\d.,]+[\s,;]+a\*?\s*[=:]?\s*[-−]?[\d.,]+[\s,;]+b\*?\s*[=:]?\s*[-−]?[\d.,]+)[\s,;]*\(?(.*)$/s;

/** `Lab 50 10 10`, `CIELAB: 50,3 -10,2 4,0 (D50/2°)`: the figures, and the light and the observer that are named. */
function ofLab(value: string, path: Path, subject: string): Mending[] {
  const [, figures = '', light = ''] =
    /^(?:cie)?\s*l\*?a\*?b\*?\s*[=:]?\s*\(([^a-z()]+)\)[\s,;]*\(?(.*)$/is.exec(value) ??
    /^(?:cie)?\s*l\*?a\*?b\*?\s*[=:]?\s*([^a-z(]+)\s*\(?(.*)$/is.exec(value) ??
    labelled.exec(value) ??
    [];
  const lab = threeIn(figures.replace(/[\s,;]+$/, ''));
  if (lab === undefined) return [];
  const illuminant = /\b(?:D50|D65|A|F2|F11|LED-B3)\b/.exec(light)?.[0];
  const observer = /(?:^|[\s,/])(2|10)\s*(?:°|deg|$)/.exec(light)?.[1];
  const meant = {
    lab,
    ...(illuminant !== undefined && { illuminant }),
    ...(observer !== undefined && { observer: Number(observer) }),
  };
  const shown = [
    `lab: [${lab.join(', ')}]`,
    ...(illuminant === undefined ? [] : [`illuminant: ${illuminant}`]),
    ...(observer === undefined ? [] : [`observer: ${observer}`]),
  ];
  const facts = { subject, written: value, meant: `{ ${shown.join(', ')} }`, actual: value };
  return [{ path, mend: set(meant), found: found('read-as', facts) }];
}

/** Three figures in one text: `53.0, 23.1, -17.9`, `53,0; 23,1; −17,9`, `L* 53 a* 23.1 b* -17.9`. */
function ofTriple(value: string, path: Path, subject: string): Mending[] {
  const three = threeIn(value);
  if (three === undefined) return [];
  const facts = { subject, written: value, meant: `[${three.join(', ')}]`, actual: value };
  return [{ path, mend: set(three), found: found('read-as', facts) }];
}

function threeIn(value: string): readonly number[] | undefined {
  const bare = value
    .replaceAll('−', '-')
    .replace(/[[\]]|\b[LabXYZ]\*?\s*[=:]?(?=\s*-?\d)/g, ' ')
    .replace(/\s+\/\s+/g, ' ; ')
    .trim();
  const withCommas = /;/.test(bare) || !/[.,]\s/.test(`${bare} `);
  const parts = bare.split(withCommas ? /\s*;\s*|\s+/ : /\s*[,;]\s*|\s+/).map((part) => part.replace(',', '.'));
  const isThree = parts.length === 3 && parts.every((part) => /^-?\d+(?:\.\d+)?$/.test(part));
  return isThree ? parts.map(Number) : undefined;
}

/** Lists whose items may be a text. */
const listsOfTexts: ReadonlySet<unknown> = new Set(['steps', 'ideas', 'cautions', 'notes']);

/** `- Step one: heat`, which YAML takes for a key: a text with a colon in it. */
function ofColonInItem(item: unknown, path: Path): Mending[] {
  if (!isKeys(item) || !listsOfTexts.has(path.at(-2)) || typeof path.at(-1) !== 'number') return [];
  const [only, ...others] = Object.entries(item);
  if (only === undefined || others.length > 0 || typeof only[1] !== 'string') return [];
  return [{ path, mend: set(`${only[0]}: ${only[1]}`) }];
}

/** Keys whose text tells something in as many sentences as it takes. */
const proseKeys: ReadonlySet<unknown> = new Set([
  'waste',
  'if-it-goes-wrong',
  'question',
  'answer',
  'failed',
  'abandoned',
  'withdrawn',
  'note',
  'learned',
  'careful',
  'do',
]);

/** An item of a list as a sentence of a text: words, a number, or `- first: pour it off`; undefined of all else. */
function sentenceOf(item: unknown): string | undefined {
  const [only, ...others] = isKeys(item) ? Object.entries(item) : [];
  if (only && others.length === 0 && typeof only[1] === 'string') return sentenceOf(`${only[0]}: ${only[1]}`);
  if (typeof item !== 'string' && typeof item !== 'number') return undefined;
  const words = String(item).trim();
  return /[.!?;:]$/.test(words) ? words : `${words}.`;
}

/** Several texts where one is wanted: its sentences. What became of the waste is judged by them. */
function ofTexts(value: unknown, path: Path, subject: string): Mending[] {
  if (!Array.isArray(value) || value.length === 0) return [];
  if (!proseKeys.has(path.at(-1))) return ofPhrases(value, path, subject);
  const sentences = value.map(sentenceOf);
  if (sentences.includes(undefined)) return [];
  const facts = { subject, written: 'a list', meant: 'one text, each item a sentence', actual: 'a list' };
  return [{ path, mend: set(sentences.join(' ')), found: found('read-as', facts) }];
}

/** Keys whose text is a phrase. */
const phraseKeys: ReadonlySet<unknown> = new Set(['title', 'looks', 'differs', 'caption', 'shows']);

/** A list of one text, or of phrases, where one text is wanted. */
function ofPhrases(value: readonly unknown[], path: Path, subject: string): Mending[] {
  const isTexts = value.every((item) => typeof item === 'string');
  if (!isTexts || typeof path.at(-1) !== 'string' || (value.length > 1 && !phraseKeys.has(path.at(-1)))) return [];
  const meant = value.join(', ');
  const facts = { subject, written: 'a list', meant: `'${meant.slice(0, 60)}'`, actual: 'a list' };
  return [{ path, mend: set(meant), found: found('read-as', facts) }];
}

/** `differs: { temperature: 20 °C, addition: fast }`: its keys and what they say, as words. */
function ofKeysAsWords(value: unknown, path: Path, subject: string): Mending[] {
  if (!isKeys(value) || path.at(-1) !== 'differs') return [];
  const pairs = Object.entries(value);
  if (pairs.length === 0 || pairs.some(([, told]) => typeof told !== 'string')) return [];
  const meant = pairs.map(([key, told]) => `${key} ${String(told)}`).join(', ');
  const facts = { subject, written: 'keys of its own', meant: `'${meant}'`, actual: 'keys of its own' };
  return [{ path, mend: set(meant), found: found('read-as', facts) }];
}

/** `malachite, Cu2CO3(OH)2`: a name with its formula behind it. */
function ofPigment(value: string, path: Path, subject: string): Mending[] {
  if (/^[A-Z(]\S*\d\S*$/.test(value) && isFormula(value) && namesTwo.test(value))
    return [{ path, mend: set({ name: value, formula: value }) }];
  const [, name = '', last = ''] = /^(.*[^\s,;:(])[\s,;:]+(\S+)$/su.exec(value.trim()) ?? [];
  const formula = /^\((.*)\)$/s.exec(last)?.[1] ?? last;
  if (name === '' || !/^[A-Z([].*[A-Z\d(]/.test(formula) || !isFormula(formula) || !namesTwo.test(formula)) return [];
  const meant = { name, formula };
  const facts = { subject, written: value, meant: keysOfUse(meant), actual: value };
  return [{ path, mend: set(meant), found: found('read-as', facts) }];
}
const namesTwo = /[A-Z][^A-Z]*[A-Z]/;

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

/** `{ A: { obtained: 4.1 g }, cold: … }`: samples by what they are called; undefined for the keys of one. */
function samplesByKey(value: Keys): readonly Keys[] | undefined {
  const pairs = Object.entries(value);
  const isCalled = ([key, told]: [string, unknown]): boolean =>
    isBareId(key) || sampleOfKey(key) !== undefined || (isKeys(told) && sampleIdPattern.test(key));
  const isKeyOfSample = ([key]: [string, unknown]): boolean => !isBareId(key) && meansKeyOfSample(key);
  if (pairs.length === 0 || !pairs.every(isCalled) || pairs.some(isKeyOfSample)) return undefined;
  return pairs.map(([key, told]) => (isKeys(told) ? { sample: sampleOfKey(key) ?? key, ...told } : { [key]: told }));
}
/** Keys of a sample under which keys of their own stand. */
const keysWithKeys: ReadonlySet<string> = new Set(
  'colour ignition assay photo product analysis heating dried washes aged tints white'.split(' '),
);
const meansKeyOfSample = (key: string): boolean =>
  keysWithKeys.has(key.toLowerCase()) || meanings('key', key).some((meant) => keysWithKeys.has(meant));

/** `pigment: [verdigris, Cu(CH3COO)2]`, `- name: …` and `- formula: …` as items: a list where keys are wanted. */
function ofList(value: readonly unknown[], list: string | undefined, path: Path, subject: string): Mending[] {
  const [first, ...others] = value;
  if (value.length > 0 && value.every(isKeys)) {
    const keys = value.flatMap((item) => Object.keys(item));
    if (new Set(keys).size < keys.length) return [];
    const meant = Object.assign({}, ...value) as Keys;
    const facts = { subject, written: 'a list', meant: 'the keys of its items', actual: 'a list' };
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
