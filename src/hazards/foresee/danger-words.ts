// By which groups what a sentence names may take part in a danger: asked of every sentence before its names are read,
// which takes ten times as long.
import { memoise } from '../../memoise.js';
import { once } from '../../once.js';
import { resolveNamed, type ResolvedReagent } from '../../reagents/index.js';
import type { Meaning } from '../../reagents/contents/lexicon.js';
import {
  formulaeInWords,
  keysInWords,
  namesByWord,
  saltsInWords,
  saysOfAnythingThatItGoesIn,
} from '../../reagents/contents/names-by-word.js';
import { preparedAnswers } from '../../tables/prepared.js';
import { groupsOfDangers } from './partners.js';
import { resolveMixture } from './resolve-mixture.js';

function reagentsOf(meaning: Meaning): readonly ResolvedReagent[] {
  if (meaning.kind === 'stuff') return [resolveNamed(meaning.name, meaning.formula)];
  if (meaning.kind === 'product') return [resolveNamed(meaning.name)];
  return meaning.formulas.map((formula) => resolveNamed(formula, formula));
}

const groupsOfMeaning = memoise(
  (meaning: Meaning) => JSON.stringify(meaning),
  (meaning): readonly string[] => {
    const present = reagentsOf(meaning).map((reagent) => resolveMixture({ ingredients: [{ reagent }] }).present);
    return [...new Set(present.flatMap((groups) => [...groups]))].filter((group) => groupsOfDangers().has(group));
  },
  20_000,
);

/** Names that take part in dangers, with the other words of each; as data. */
type NamesInDangers = readonly (readonly [others: readonly string[], groups: readonly string[], isOrdinary?: 1])[];

const found = (key: string): NamesInDangers =>
  (namesByWord().get(key) ?? []).flatMap(({ others, meaning, isOrdinary }): NamesInDangers => {
    const groups = groupsOfMeaning(meaning);
    return groups.length === 0 ? [] : [isOrdinary ? [others, groups, 1] : [others, groups]];
  });

const foundBy = preparedAnswers<NamesInDangers>(
  'danger-groups-by-word',
  function* () {
    for (const key of namesByWord().keys()) {
      const names = found(key);
      if (names.length > 0) yield [key, names] as const;
    }
  },
  found,
);

/** The words of a journal are asked about again and again. */
const namesFoundBy = memoise((key: string) => key, foundBy, 20_000);

function groupsIn(words: string, isNamed: () => boolean): ReadonlySet<string> {
  const keys = keysInWords(words);
  const groups = new Set([...formulaeInWords(words), ...saltsInWords(words)].flatMap(groupsOfMeaning));
  for (const key of keys)
    for (const [others, ofName, isOrdinary] of namesFoundBy(key) ?? [])
      if (others.every((one) => keys.has(one)) && (!isOrdinary || isNamed()))
        for (const group of ofName) groups.add(group);
  return groups;
}

/**
 * Groups by which what a sentence names may take part in a danger of mixing: of more than it names, never of less.
 * @example dangerGroupsIn('I added iodine.').has('halogen') // true
 */
export const dangerGroupsIn: (words: string) => ReadonlySet<string> = memoise(
  (words: string) => words,
  (words) =>
    groupsIn(
      words,
      once(() => saysOfAnythingThatItGoesIn(words)),
    ),
  2000,
);

/** The same of a name, of which it is known that it is one. @example dangerGroupsOf('iron').has('metal_powder') */
export const dangerGroupsOf: (name: string) => ReadonlySet<string> = memoise(
  (name: string) => name,
  (name) => groupsIn(name, () => true),
  2000,
);
