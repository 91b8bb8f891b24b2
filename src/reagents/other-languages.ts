// Names as makers in other countries write them, in English: `Kaliumchlorat`, `nitrate de plomb`, `Kupferspäne`,
// `verdünnte Schwefelsäure`. Only what the table has, and salts and shapes put together from its parts.
import { memoise } from '../memoise.js';
import { once } from '../once.js';
import { namePartsTable } from '../tables/compiled/reagents/name-parts.js';
import { otherLanguagesTable } from '../tables/compiled/reagents/other-languages.js';
import { prepared, preparedByKey } from '../tables/prepared.js';

/** Parts that words are put together from, of which many are tried for each word. */
type Piece = 'metal' | 'anion' | 'adjective' | 'base' | 'acid' | 'dry' | 'shape';

/** @example withoutAccents('bórax') // 'borax' */
export const withoutAccents = (text: string): string =>
  text.normalize('NFD').replace(/\p{M}/gu, '').replace(/[ßẞ]/g, 'ss');

/** Umlauts, accents and hyphens make no difference: `Säure`, `Saeure` and `saure` are one. */
const keyOf = (text: string): string =>
  (/^[\0-\x7f]*$/.test(text) ? text : withoutAccents(text))
    .toLowerCase()
    .replace(/([aou])e/g, '$1')
    .replace(/['’`´-]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();

/** By part and key, in the table's order. */
const meanings = (): readonly (readonly [key: string, means: string, part: string])[] =>
  otherLanguagesTable().flatMap(({ part, words, means }) =>
    words.map((word) => [`${part} ${keyOf(word)}`, means, part] as const),
  );
const isWhole = (part: string): boolean => part === 'name' || part === 'word';

/** Whole names and words; of two of one key the later. */
const wholeByKey = preparedByKey<string>('other-languages', () =>
  meanings().flatMap(([key, means, part]) => (isWhole(part) ? [[key, means] as const] : [])),
);
const wholeOf = (key: string): string | undefined => wholeByKey(`name ${key}`) ?? wholeByKey(`word ${key}`);

const pieces = prepared<readonly (readonly [key: string, means: string])[]>('pieces-in-other-languages', () =>
  meanings().flatMap(([key, means, part]) => (isWhole(part) ? [] : [[key, means]])),
);
const pieceByKey = once(() => new Map(pieces()));
const wordOf = (part: Piece, key: string): string | undefined => pieceByKey().get(`${part} ${key}`);

const namesOfIons = prepared<Readonly<Record<'cation' | 'anion', readonly string[]>>>('names-of-ions', () => {
  const of = (part: string): readonly string[] =>
    namePartsTable()
      .filter((row) => row.part === part)
      .map(({ name }) => name);
  return { cation: of('cation'), anion: of('anion') };
});
const englishOf = once((): Readonly<Record<'cation' | 'anion', ReadonlySet<string>>> => {
  const { cation, anion } = namesOfIons();
  return { cation: new Set(cation), anion: new Set(anion) };
});

const metalOf = (word: string): string | undefined =>
  wordOf('metal', word) ?? (englishOf().cation.has(word) ? word : undefined);
const anionOf = (word: string): string | undefined =>
  wordOf('anion', word) ?? (englishOf().anion.has(word) ? word : undefined);
const secondOf = (word: string): string | undefined => anionOf(word) ?? wordOf('shape', word);

/** `kupfer(ii)`: a metal, perhaps with its state. */
function metalWithState(word: string): string | undefined {
  const [, metal = word, state = ''] = /^([a-z]+) ?(\([iv]+\))?$/.exec(word) ?? [];
  const named = metalOf(metal);
  return named === undefined ? undefined : `${named}${state}`;
}

const shortestPart = 3;

/** `kaliumchlorat`, `kupferspane`: a metal and what it is a salt of, or its shape, in one word. */
function compound(word: string): string | undefined {
  const [metalAtMost = ''] = /^[a-z]+ ?(?:\([iv]+\))?/.exec(word) ?? [];
  const last = Math.min(word.length - shortestPart, metalAtMost.length + 1);
  for (let cut = last; cut >= shortestPart; cut -= 1) {
    const metal = metalWithState(word.slice(0, cut).trim());
    const second = metal === undefined ? undefined : secondOf(word.slice(cut).trim());
    if (second !== undefined) return `${metal} ${second}`;
  }
  return undefined;
}

const of = String.raw`(?:de la|de l|del|della|dello|degli|de|di|du|d|van|von)`;
const turned = new RegExp(String.raw`^([a-z]+(?:\([iv]+\))?) ${of} ([a-z]+)$`);

/** `nitrate de plomb`, `limaille de fer`, `nitrato potassico`. */
function ofTwoWords(text: string): string | undefined {
  const [, second = '', metal = ''] = turned.exec(text) ?? [];
  const [named, told] = [metalOf(metal), secondOf(second)];
  if (named !== undefined && told !== undefined) return `${named} ${told}`;
  // What lime and lyes take up of chlorine is bleach, and no chloride.
  const base = wordOf('base', metal);
  const ofBase = base === undefined ? undefined : anionOf(second);
  if (ofBase !== undefined && ofBase !== 'chloride') return `${base} ${ofBase}`;
  const [first = '', last = '', ...more] = text.split(' ');
  const cation = more.length > 0 ? undefined : wordOf('adjective', last);
  const anion = cation === undefined ? undefined : anionOf(first);
  return anion === undefined ? undefined : `${cation} ${anion}`;
}

const acidOf = /^([a-z]+saur)(?:e[snrm]?)? ([a-z]+)$/;

/** `salpetersaures Bleioxyd`, `kohlensaures Natron`: what it is a salt of, and its base. */
function ofAcidAndBase(text: string): string | undefined {
  const [, acid = '', base = ''] = acidOf.exec(text) ?? [];
  const anion = acid === '' ? undefined : wordOf('acid', acid);
  const cation = anion === undefined ? undefined : (wordOf('base', base) ?? metalOf(base));
  return cation === undefined ? undefined : `${cation} ${anion}`;
}

const lastWord = /^(.{4,}) ([a-z]+)$/;

/** `sulfate de soude anhydre` */
function ofDry(text: string): string | undefined {
  const [, salt = '', last = ''] = lastWord.exec(text) ?? [];
  const dry = last === '' ? undefined : wordOf('dry', last);
  const english = dry === undefined ? undefined : withoutHydrate(salt);
  return english === undefined ? undefined : `${dry} ${english}`;
}

/** An English name is none of another language: `zinc chloride`, `nitrate of lead`. */
const isEnglish = (text: string): boolean => {
  const parts = text.split(' ');
  return parts.every((word) => englishOf().cation.has(word) || englishOf().anion.has(word));
};

/**
 * What a name in another language is in English; undefined where it is none.
 * @example inEnglish('Kupferspäne') // 'copper turnings'
 */
export const inEnglish = (name: string): string | undefined => (name.includes(' ') ? told(name) : oneWord(name));

/** The same words stand in sentence after sentence. */
const oneWord = memoise((word: string) => word, told, 4000);

function told(name: string): string | undefined {
  const key = keyOf(name);
  if (key === '' || isEnglish(key)) return undefined;
  return withoutHydrate(key) ?? hydrateOf(key) ?? ofSolution(key);
}

/** First words of whole names of several. */
const beginningsOfNames = prepared<readonly string[]>('beginnings-in-other-languages', () => [
  ...new Set(
    meanings().flatMap(([key, , part]) => (isWhole(part) && key.split(' ').length > 2 ? [key.split(' ')[1]!] : [])),
  ),
]);
const beginnings = once((): ReadonlySet<string> => new Set(beginningsOfNames()));

const beginsWithMetal = (key: string): boolean => {
  for (let cut = 1; cut <= key.length; cut += 1) if (metalOf(key.slice(0, cut)) !== undefined) return true;
  return false;
};

/**
 * Whether a name of several words in another language may begin with a word that is none by itself, so that those
 * behind it need not be looked at with it: `acide`, `nitrate`, `Kupfer(II)`.
 * @example mayBeginForeign('stirred') // false
 */
export const mayBeginForeign: (word: string) => boolean = memoise(
  (word) => word,
  (word) => {
    const key = keyOf(word);
    if (key === '' || /[ (]/.test(key) || endsInCount.test(key)) return true;
    return key.includes('saur') || beginnings().has(key) || secondOf(key) !== undefined || beginsWithMetal(key);
  },
  4000,
);

function withoutHydrate(key: string): string | undefined {
  return wholeOf(key) ?? compound(key) ?? ofTwoWords(key) ?? ofAcidAndBase(key) ?? ofDry(key);
}

const solutionBehind = /^(.{4,}?) ?(?:losung|oplossing)$/;
const solutionBefore = new RegExp(
  String.raw`^(?:solution|solucion|disolucion|soluzione|oplossing|losung) (?:aqueuse |acuosa |acquosa )?${of} (.{4,})$`,
);

/** `Eisen(III)-chlorid-Lösung`, `solution de sulfate de cuivre`: what is dissolved. */
function ofSolution(key: string): string | undefined {
  const [, dissolved = ''] = solutionBehind.exec(key) ?? solutionBefore.exec(key) ?? [];
  const english = dissolved === '' ? undefined : (withoutHydrate(dissolved) ?? hydrateOf(dissolved));
  return english === undefined ? undefined : `${english} solution`;
}

const counts = 'hemi|mono|di|tri|tetra|penta|hexa|esa|hepta|epta|octa|otta|nona|deca|dodeca';
/** `kupfersulfat pentahydrat`, `sulfate de cuivre pentahydrate`, `solfato di rame pentaidrato`. */
const hydrate = new RegExp(String.raw`^(.{4,}?) ?(${counts})[ -]?h?[iy]drat[aeo]?[adeo]{0,2}$`);
const endsInCount = new RegExp(`(?:${counts})$`);
const englishCounts: Readonly<Record<string, string>> = { esa: 'hexa', epta: 'hepta', otta: 'octa' };

function hydrateOf(key: string): string | undefined {
  const [, salt = '', count = ''] = hydrate.exec(key) ?? [];
  const english = salt === '' ? undefined : withoutHydrate(salt);
  return english === undefined ? undefined : `${english} ${englishCounts[count] ?? count}hydrate`;
}

/** Every whole name of other languages in its table, in small letters without accents, with what it is in English. */
export const everyForeignName = (): readonly (readonly [name: string, english: string])[] =>
  meanings().flatMap(([key, means, part]) => (isWhole(part) ? [[key.slice(part.length + 1), means] as const] : []));

/** A word as names of other languages are looked up by it. @example foreignKey('Säure') // 'saure' */
export const foreignKey = (word: string): string => keyOf(word);
