// A reagent that is used, told in one text, by its name as a key, or by keys at another place.
import { found, type Path } from '../../remarks/findings.js';
import { inYaml } from '../../remarks/in-yaml.js';
import { keysAt, type Schema } from '../format.js';
import { misspelt } from '../nearest.js';
import { grAsGrams, isAmount, whyGrams } from '../../reagents/index.js';
import { listsOfUses, saysNothing, usesInOneText } from './use-in-one-text.js';
import { reagentIdPattern } from '../values.js';
import { isKeys, meanings, put, set, takeOut, type Mending } from './mending.js';

/** Keys of a reagent that is used. */
export const keysOfUses: ReadonlySet<string> = new Set(
  (
    'reagent lot amount role intent strength purity density drop-volume free-acid contamination separately vessel ' +
    'note'
  ).split(' '),
);
/** An amount, or words for one: `a splash`. */
export const mayBeAmount = (value: string): boolean =>
  isAmount(value) || /^\s*(?:ca\.?\s*)?\d|^(?:a|an|some|etwas|un|une)\b/i.test(value);

export const keysOfUse = (use: object): string =>
  `{ ${Object.entries(use)
    .map(([key, value]) => `${key}: ${inYaml(String(value))}`)
    .join(', ')} }`;

/** Several of them as the lines of a list. */
export const itemsOf = (all: readonly object[]): string =>
  all.length === 1 ? keysOfUse(all[0]!) : all.map((one) => `\n  - ${keysOfUse(one)}`).join('');

/** What goes in, in one text: `50 ml of 10 % ammonia`; several, each with its amount; or nothing. */
export function ofUse(value: string, path: Path, subject: string): Mending[] {
  if (saysNothing(value))
    return [
      { path, mend: takeOut, found: found('says-nothing', { subject, written: value, actual: value }), at: path },
    ];
  const uses = usesInOneText(value);
  if (uses.length === 0) return [];
  const why = grAsGrams(value) === value ? undefined : whyGrams;
  const meant = itemsOf(uses);
  const facts = { subject, written: value, meant, ...(why !== undefined && { why }), actual: value };
  return [{ path, mend: put(uses), found: found('read-as', facts) }];
}

/** Whether it is a key of a use in another spelling or by another word: `ammount`, `Menge`. */
const meansKeyOfUse = (key: string): boolean =>
  meanings('key', key).some((meant) => keysOfUses.has(meant)) ||
  misspelt(key.toLowerCase(), [...keysOfUses]) !== undefined;

/** `{ alum: 10 g }`: names as keys, with their amounts; none where a key of a use names something. */
export function ofNamesAsKeys(item: unknown, path: Path): Mending[] {
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
  const isPlain = (value: unknown): boolean => typeof value === 'string' || typeof value === 'number';
  const isAmounts = named.every(([key, value]) => {
    if (key.trim() === '') return false;
    if (isKeys(value)) return Object.values(value).every(isPlain);
    return typeof value === 'string' && (mayBeAmount(value) || isName(key));
  });
  if (!isAmounts) return [];
  const all = uses.map((use) => ({ ...use, ...beside }));
  const written = named.map(([name, value]) => `${name}: ${isKeys(value) ? '…' : String(value)}`).join(', ');
  const meant = itemsOf(all);
  const facts = { subject: `Item ${Number(path.at(-1)) + 1} of \`${String(list)}\``, written, meant, actual: written };
  return [{ path, mend: put(all), found: found('read-as', facts) }];
}

/** `Name`, `nom`, `Bezeichnung`: what a thing is called, in other letters or another language. */
export const isWordForName = (key: string): boolean =>
  key.toLowerCase() === 'name' || meanings('key', key).includes('name');

/** `{ reagent: soda, formula: Na2CO3, amount: 5 g }`: what describes the reagent, beside it instead of under it. */
export function ofDescribedBeside(schema: Schema, item: unknown, path: Path): Mending[] {
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
  const told = { written: written.join(', '), meant: shown, inWords: true as const };
  return [{ path, mend: set(meant), found: found('read-as', { ...facts, ...told }) }];
}

/** `{ reagent: { lot: 1/A } }`: keys of a use, one level too deep. */
export function ofNestedUse(here: unknown, path: Path): Mending[] {
  if (!isKeys(here) || path.at(-1) !== 'reagent' || !('lot' in here || 'reagent' in here)) return [];
  if (!Object.keys(here).every((key) => keysOfUses.has(key))) return [];
  const meant = keysOfUse(here);
  const mend: Mending['mend'] = (parent, last) => {
    delete parent[last];
    Object.assign(parent, { ...here, ...parent });
  };
  const facts = { subject: '`reagent`', written: meant, meant: meant.slice(2, -2), inWords: true as const };
  return [{ path, mend, found: found('read-as', facts) }];
}
