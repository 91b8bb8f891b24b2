// How words are compared in search: the same as src/site/search-key.ts, which made the index (a test sees to it).
export const searchWords = (text) =>
  text
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

export const searchKey = (text) => searchWords(text).join('');

export const shelfOf = (word, letters) => [...word].slice(0, letters).join('');

/** Words that tell nothing where there are others. */
export const littleWords = new Set(
  (
    'a an and are as at by can do does for from how i in into is it made make makes my of on or out that ' +
    'the to using what when which with without be been but had has have he her here him his its me more ' +
    'no not one only s so some than their them then there they this too up very was we were will would ' +
    'you'
  ).split(' '),
);
