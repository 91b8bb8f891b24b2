// How words are compared in search, the same when the index is made and when it is asked (search-key.js of public/).

/** Small letters without accents and apostrophes, low digits made plain, one spelling of words that have two. */
export function searchWords(text: string): string[] {
  return text
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[\p{M}'’ʼ]/gu, '')
    .replace(/sulph/g, 'sulf')
    .replace(/aluminum/g, 'aluminium')
    .replace(/\bcesium/g, 'caesium')
    .replace(/\bgray/g, 'grey')
    .replace(/\bocher/g, 'ochre')
    .replace(/(col|vap|od|lab)or(?=s?\b|ed\b|ing\b|less\b)/g, '$1our')
    .replace(/(lit|met|cent|fib)er(?=s?\b)/g, '$1re')
    .replace(/iz(?=e|ing|ation)/g, 'is')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '');
}

/**
 * The words run together, so that `CuSO4·5H2O`, `cuso4 5h2o` and `CuSO₄5H₂O` are one.
 * @example searchKey('Blue vitriol') // 'bluevitriol'
 */
export const searchKey = (text: string): string => searchWords(text).join('');

/** The part of the index that holds a word: its first letters. */
export const shelfOf = (word: string, letters: number): string => [...word].slice(0, letters).join('');

/** Words that tell nothing where there are others. */
export const littleWords: ReadonlySet<string> = new Set(
  (
    'a an and are as at by can do does for from how i in into is it made make makes my of on or out that ' +
    'the to using what when which with without be been but had has have he her here him his its me more ' +
    'no not one only s so some than their them then there they this too up very was we were will would ' +
    'you'
  ).split(' '),
);
