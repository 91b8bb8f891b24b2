// A sample told in one text, or under its letter.
import { misspelt } from '../nearest.js';
import { found, type Path } from '../../remarks/findings.js';
import { isBareId, sampleInOneText, sampleOfKey, samplesInLines, samplesInOneText } from './sample-in-one-text.js';
import { sampleIdPattern } from '../values.js';
import { isKeys, meanings, put, set, type Keys, type Mending } from './mending.js';
import { itemsOf, keysOfUse } from './uses.js';

/** A letter for a sample that was given none: A for the first. */
export const letterOf = (index: number): string => String.fromCodePoint('A'.codePointAt(0)! + (index % 26));

/** Whether a key of a sample is another word for its id: `Probe`. */
export const namesSample = (item: unknown): boolean =>
  isKeys(item) &&
  Object.keys(item).some(
    (key) =>
      key.toLowerCase() === 'sample' ||
      meanings('key', key).includes('sample') ||
      misspelt(key.toLowerCase(), ['sample']) !== undefined,
  );

/** What came out, in one text: `A 34 g black`. */
export function ofSampleText(value: string, path: Path, subject: string, id?: string): Mending[] {
  // Of a sample that is named the words are kept, whatever they tell.
  const inLines = id === undefined && /\n\s*\S/.test(value) ? samplesInLines(value) : [];
  const several = id === undefined && inLines.length === 0 ? samplesInOneText(value) : inLines;
  if (several.length > 0) {
    const all = several.map((one, at) => ({ sample: letterOf(at), ...one }));
    const meant = itemsOf(all);
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
export function ofSampleKey(item: unknown, path: Path): Mending[] {
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
export function ofKeyOfSample(here: Keys, key: string, path: Path): Mending[] {
  const value = here[key];
  const id = path.length === 0 ? sampleOfKey(key) : undefined;
  if (id === undefined || typeof value !== 'string') return [];
  const sample = sampleInOneText(value, id) ?? { sample: id, differs: value };
  const isOnly = !('samples' in here) && Object.keys(here).filter((one) => sampleOfKey(one) !== undefined).length < 2;
  const meant = isOnly ? `samples: [${keysOfUse(sample)}]` : `${keysOfUse(sample)} under samples`;
  const mend: Mending['mend'] = (parent, last) => {
    const before: unknown = parent.samples;
    // From the last to the first.
    parent.samples = [sample, ...(Array.isArray(before) ? (before as unknown[]) : [])];
    delete parent[last];
  };
  const facts = { subject: `\`${key}\``, written: value, meant, actual: `${key}: ${value}` };
  return [{ path: [key], mend, atKey: true, found: found('read-as', isOnly ? facts : { ...facts, inWords: true }) }];
}

/** `{ A: { obtained: 4.1 g }, cold: … }`: samples by what they are called; undefined for the keys of one. */
export function samplesByKey(value: Keys): readonly Keys[] | undefined {
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
