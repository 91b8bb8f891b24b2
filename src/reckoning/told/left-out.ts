// What of an entry could not be read and matters for what can be foreseen: reagents by their words, and what then was
// not judged.
import { isAmount } from '../../reagents/index.js';
import { once } from '../../once.js';
import type { LeftOut } from '../../journal/check.js';
import { inLatin } from '../../journal/look-alikes.js';
import { misspelt } from '../../journal/nearest.js';
import { pathInFile, type Path } from '../../journal/place.js';
import { keysAt } from '../../journal/format.js';
import { entrySchema } from '../../journal/schema.js';
import { listsOfUses, looksLikeUses } from '../../journal/mending/use-in-one-text.js';

/** Keys of a use that name nothing that goes in. */
const namesNothing: ReadonlySet<string> = new Set([
  'amount',
  'role',
  'intent',
  'contamination',
  'separately',
  'vessel',
  'note',
  'cas',
]);
const measures: ReadonlySet<string> = new Set(['amount', 'strength', 'purity', 'density', 'drop-volume', 'free-acid']);

type Keys = Readonly<Record<string, unknown>>;
const isKeys = (value: unknown): value is Keys => typeof value === 'object' && value !== null && !Array.isArray(value);
const textOf = (value: unknown): string | undefined =>
  typeof value === 'string' && value.trim() !== '' ? value.trim() : undefined;

/** A line as at a bench for each thing that a value of a use names. */
function linesOf(value: unknown): readonly string[] {
  if (Array.isArray(value)) return value.flatMap(linesOf);
  const text = textOf(value);
  if (text !== undefined) return [text];
  return isKeys(value) ? linesOfKeys(value) : [];
}

function linesOfKeys(keys: Keys): readonly string[] {
  const { name, formula, strength } = keys;
  const amount = textOf(keys.amount) ?? '';
  const behind = [textOf(strength) ?? '', amount].join(' ').trim();
  const called = textOf(name);
  const things = called !== undefined && textOf(formula) !== undefined ? [`${called} [${textOf(formula)}]`] : [];
  const others = Object.entries(keys)
    .filter(([key]) => !namesNothing.has(key) && !measures.has(key))
    .filter(([key]) => things.length === 0 || (key !== 'name' && key !== 'formula'))
    .flatMap(([key, value]) => {
      const written = textOf(value);
      // `{ copper sulfate: 5 g }`: the key names it.
      return written !== undefined && isAmount(written) ? [`${key} ${written}`] : linesOf(value);
    });
  return [...things, ...others].map((thing) => `${thing} ${behind}`.trim());
}

const knownKeys = once((): ReadonlySet<string> => new Set(keysAt(entrySchema, [])));
const isUnknownList = (key: string, value: unknown): boolean => !knownKeys().has(key) && looksLikeUses(value);

/** Where uses stand below a path: the list, one of it, or a part of one; a key that nobody knows may be such a list. */
function isOfUses({ path, value }: LeftOut): boolean {
  if (path.length === 1 && typeof path[0] === 'string' && !listsOfUses.has(path[0]))
    return isUnknownList(path[0], value);
  const list = path.findLastIndex((step) => listsOfUses.has(step));
  return list >= 0 && (list === 0 || path[0] === 'samples');
}

/** Lists of uses in a sample that was left out whole. */
function ofSample({ path, value }: LeftOut): readonly LeftOut[] {
  if (Array.isArray(value)) return value.flatMap((one, at) => ofSample({ path: [...path, at], value: one as unknown }));
  if (!isKeys(value)) return [];
  return Object.entries(value)
    .filter(([key]) => listsOfUses.has(key))
    .map(([key, list]) => ({ path: [...path, key], value: list }));
}

const isOfSample = ({ path }: LeftOut): boolean => path[0] === 'samples' && path.length <= 2;

/** A reagent that could not be read, as a line at a bench. */
export interface LineLeftOut {
  readonly line: string;
  readonly path: Path;
}

/** Whether a key is one of a use that names nothing, misspelt perhaps: `ammount`. */
const isKeyOfUse = (key: string): boolean =>
  [key, misspelt((inLatin(key) ?? key).toLowerCase(), [...namesNothing, ...measures])].some(
    (one) => one !== undefined && (namesNothing.has(one) || measures.has(one)),
  );

/**
 * Lines for the reagents of what was left out; none where it names none.
 * @example linesLeftOut({ path: ['reagents', 1], value: { reagent: 'soda', lot: '1/A', amount: '8 g' } })
 *   // lines 'soda 8 g' and '1/A 8 g'
 */
export function linesLeftOut(one: LeftOut): readonly LineLeftOut[] {
  const { value } = one;
  if (isOfSample(one)) return ofSample(one).flatMap(linesLeftOut);
  if (!isOfUses(one)) return [];
  const path = pathInFile(one.path);
  const last = one.path.at(-1);
  if (typeof last === 'string' && !listsOfUses.has(last)) {
    if (isKeyOfUse(last)) return [];
    const written = textOf(value);
    if (written !== undefined && isAmount(written)) return [{ line: `${last} ${written}`, path }];
  }
  return linesOf(value).map((line) => ({ line, path }));
}

/** Keys of which it is said that they were not judged, with what that means. */
const notJudged: readonly (readonly [keys: ReadonlySet<unknown>, what: string])[] = [
  [new Set(['heating', 'heat', 'to', 'of']), 'that heat was NOT judged'],
  [new Set(['steps', 'washes', 'do', 'with']), 'only what its words name was judged'],
  [new Set(['pigment', 'formula', 'reaction']), 'what is made was NOT judged'],
];

/** Every text in a value. */
export const textsIn = (value: unknown): readonly string[] => {
  if (Array.isArray(value)) return value.flatMap(textsIn);
  return isKeys(value) ? Object.values(value).flatMap(textsIn) : [textOf(value) ?? []].flat();
};

/** Words of steps, washes and whatever else was left out, and what they would have been. */
export function wordsLeftOut(
  one: LeftOut,
): readonly { readonly words: string; readonly of: 'steps' | 'washes' | '' }[] {
  const { path, value } = one;
  if (isOfUses(one) || isOfSample(one)) return [];
  const of = (['steps', 'washes'] as const).find((key) => path.includes(key)) ?? '';
  return textsIn(value).map((words) => ({ words, of }));
}

/** `‘heating’ was not read: that heat was NOT judged.` for each thing left out that matters. */
export function notReadWords(one: LeftOut): readonly string[] {
  const { path, value } = one;
  if (isOfUses(one)) {
    const last = path.at(-1);
    return typeof last === 'string' && measures.has(last)
      ? [`‘${last}: ${textOf(value) ?? '…'}’ was not read: as much or as strong as can be was judged.`]
      : [];
  }
  // What stands beside what counts (`atmosphere:`) takes nothing away.
  const key = typeof path.at(-1) === 'number' ? path.findLast((step) => typeof step === 'string') : path.at(-1);
  const what = notJudged.find(([keys]) => keys.has(key))?.[1];
  return what === undefined ? [] : [`‘${path.join('.')}’ was not read: ${what}.`];
}
