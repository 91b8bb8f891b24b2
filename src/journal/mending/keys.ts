// Keys and choices that are called otherwise: in another language, another spelling, at another place.
import { found, type Path } from '../../remarks/findings.js';
import { keysAt, type Schema } from '../format.js';
import { inLatin } from '../look-alikes.js';
import { misspelt } from '../nearest.js';
import { sampleInOneText } from './sample-in-one-text.js';
import { isKeys, meanings, set, valueAt, type Mending } from './mending.js';
import { ofKeyOfSample } from './samples.js';

/** Keys of what came out. */
const results: ReadonlySet<string> = new Set(['obtained', 'with-product']);

/** Whether what stands under a word for a product names it, and tells nothing of what came out. */
const isNamedIn = (key: string, value: unknown, among: readonly string[]): boolean =>
  key === 'samples' && among.includes('pigment') && typeof value === 'string' && !sampleInOneText(value);

/** Whether what stands under a word for `bought` tells how much or when, and not only where. */
const tellsPurchase = (value: unknown): boolean => isKeys(value) || (typeof value === 'string' && /\d/.test(value));

/** Keys of another name, and misspelt ones; never where the key itself stands there too. */
export function ofKeys(schema: Schema, data: unknown, keys: readonly string[], path: Path): Mending[] {
  const here = valueAt(data, path);
  const may = keysAt(schema, path);
  return keys.flatMap((key) => {
    const ofOne = isKeys(here) ? ofKeyOfSample(here, key, path) : [];
    if (ofOne.length > 0) return ofOne;
    const spelt = (inLatin(key) ?? key).toLowerCase().replace(/[\s_]+/g, '-');
    const near = misspelt(spelt, may);
    const value = isKeys(here) ? here[key] : undefined;
    const fits = (one: string): boolean =>
      !isNamedIn(one, value, meanings('key', key)) && (one !== 'bought' || tellsPurchase(value));
    const told = [spelt, ...meanings('key', key)].find((one) => one !== key && may.includes(one) && fits(one));
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
export function ofChoice(choices: readonly string[], value: unknown, path: Path, subject: string): Mending[] {
  if (typeof value !== 'string') return [];
  const letters = (inLatin(value) ?? value).trim().toLowerCase();
  const cased = choices.find((one) => one.toLowerCase() === letters);
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
