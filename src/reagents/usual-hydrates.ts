// The hydrate in which a salt is usually sold, and by which looks it is known.
import { hillFormula, parseFormula } from '../chemistry/index.js';
import { dryWordsTable } from '../tables/compiled/reagents/dry-words.js';
import { hydratesTable } from '../tables/compiled/reagents/hydrates.js';
import { lookWordsTable } from '../tables/compiled/reagents/look-words.js';
import { once } from '../once.js';
import { prepared } from '../tables/prepared.js';

export interface SoldHydrate {
  readonly as: string;
  readonly mostWater?: string;
  /** Colours that only the hydrate has. */
  readonly looks?: readonly string[];
}
const hydrates = prepared<readonly (readonly [dry: string, sold: SoldHydrate])[]>('hydrates', () =>
  hydratesTable().map((row) => [
    dryKey(row.anhydrous) ?? row.anhydrous,
    {
      as: row.usually_sold_as,
      ...(row.most_water !== undefined && { mostWater: row.most_water }),
      ...(row.looks.length > 0 && { looks: row.looks }),
    },
  ]),
);
let soldAs: ReadonlyMap<string, SoldHydrate> | undefined;

/** How a salt is sold, by the formula of the dry salt in any spelling. */
export function soldHydrate(formula: string): SoldHydrate | undefined {
  soldAs ??= new Map(hydrates());
  const key = dryKey(formula);
  return key === undefined ? undefined : soldAs.get(key);
}

/**
 * One spelling for all of a formula: `Cu(C2H3O2)2` is `Cu(CH3COO)2`. Undefined where it already has water, or is
 * none.
 */
function dryKey(formula: string): string | undefined {
  const parsed = parseFormula(formula);
  return parsed.ok && parsed.value.parts.length === 1 ? hillFormula(parsed.value) : undefined;
}

/**
 * The hydrate in which a salt is usually sold, by the formula of the dry salt in any spelling.
 * @example usualHydrate('CuSO4') // 'CuSO4·5H2O'
 */
export const usualHydrate = (formula: string): string | undefined => soldHydrate(formula)?.as;

const looksOfWord = once(() => new Map(lookWordsTable().map(({ word, looks }) => [word, looks])));

/** A name, and what words beside it tell of looks. */
export interface NameAndLooks {
  readonly bare: string;
  /** In English: colours, `crystals`. */
  readonly looks: readonly string[];
}

/**
 * The words of a name that tell of its looks, and the name without them; undefined where there are none.
 * @param name in small letters
 * @example looksIn('copper sulfate, blue crystals') // { bare: 'copper sulfate', looks: ['blue', 'crystals'] }
 */
export function looksIn(name: string): NameAndLooks | undefined {
  const words = name.split(/[\s,;]+/).map((word) => ({ word, looks: looksOfWord().get(word.replace(/^\(|\)$/g, '')) }));
  const looks = words.flatMap((one) => one.looks ?? []);
  if (looks.length === 0) return undefined;
  return {
    bare: words
      .flatMap((one) => (one.looks === undefined ? [one.word] : []))
      .join(' ')
      .trim(),
    looks: looks.filter((one) => one !== 'shade'),
  };
}

/**
 * The hydrate of a dry salt that is known by such looks; undefined where they are not those of a hydrate.
 * @example hydrateOfLooks('CuSO4', ['blue']) // 'CuSO4·5H2O'
 * @example hydrateOfLooks('CuSO4', ['white']) // undefined
 */
export function hydrateOfLooks(formula: string, looks: readonly string[]): string | undefined {
  const sold = soldHydrate(formula);
  if (!sold) return undefined;
  const colours = looks.filter((one) => one !== 'crystals');
  const hasColour = sold.looks !== undefined;
  // Where the hydrate has no colour of its own only its crystals tell it from the dry salt.
  const isToldBy = looks.includes('crystals') || (hasColour && colours.length > 0);
  return isToldBy && colours.every((one) => (sold.looks ?? ['white']).includes(one)) ? sold.as : undefined;
}

const dryWords = once(() => {
  const words = dryWordsTable().map(({ words: one }) => (one.endsWith('*') ? one.slice(0, -1) : `${one}(?![a-z])`));
  return new RegExp(`(?<![a-z])(?:${words.join('|')})`);
});

/**
 * Whether words of a maker say that a salt is free of water.
 * @example saysDry('Natriumcarbonat wasserfrei') // true
 */
export const saysDry = (words: string): boolean => dryWords().test(words.toLowerCase());
