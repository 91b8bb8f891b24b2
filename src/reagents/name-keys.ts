// Names of substances as keys: case, hyphens, spelling and the ways of writing an oxidation state make no difference.
import { olderElementNamesTable } from '../tables/compiled/reagents/older-element-names.js';

const states = 'i|ii|iii|iv|v|vi|vii';
const roman: Readonly<Record<string, string>> = { 1: 'i', 2: 'ii', 3: 'iii', 4: 'iv', 5: 'v', 6: 'vi', 7: 'vii' };

const statesInBrackets = new RegExp(`\\s*\\(\\s*(${states})((?:,\\s*(?:${states}))*)\\s*\\)`, 'g');
const statesAfterHyphen = new RegExp(`([a-z]{3,})[ -](${states})(?= |-|$)`, 'g');
/** `PY 35`, `NR4`: Colour Index Generic Names of pigments and of natural dyes. */
const colourIndexName = /^(p|n)(y|r|bk|br|b|g|w|o|v|m)\s*(\d+(?::\d)?)$/;
const hues: Readonly<Record<string, string>> = {
  y: 'yellow',
  r: 'red',
  b: 'blue',
  g: 'green',
  w: 'white',
  o: 'orange',
  v: 'violet',
  br: 'brown',
  bk: 'black',
  m: 'metal',
};
let olderNames: readonly (readonly [RegExp, string])[] | undefined;
const inUsualForm = new Map<string, string>();

/** Spelling, older names and oxidation states in one form, words still apart. */
function usual(name: string): string {
  let found = inUsualForm.get(name);
  if (found === undefined) {
    found = putInUsualForm(name);
    if (inUsualForm.size >= 5000) inUsualForm.clear();
    inUsualForm.set(name, found);
  }
  return found;
}

function putInUsualForm(name: string): string {
  let text = name
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[’‘`´]/g, "'")
    .replace(/…\s*%|\[[^\]]*\]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/sulph/g, 'sulf')
    .replace(/\baluminum\b/g, 'aluminium')
    .replace(/\bcesium\b/g, 'caesium')
    .replace(/\bhydrogencarbonate\b/g, 'hydrogen carbonate')
    .replace(/\(\s*([1-7])\s*\+?\s*\)/g, (_, digit: string) => `(${roman[digit]})`)
    .replace(statesInBrackets, (_, first: string, more: string) => `(${first}${more.replace(/\s/g, '')}) `)
    .replace(statesAfterHyphen, '$1($2)');
  olderNames ??= olderElementNamesTable().map(
    (row) => [new RegExp(`\\b${row.word}\\b`, 'g'), `${row.element}(${row.state})`] as const,
  );
  for (const [word, element] of olderNames) text = text.replace(word, element);
  return text.replace(/^c\.?\s*i\.?\s+/, '').replace(colourIndexName, (_, use: string, hue: string, number: string) => {
    const kind = use === 'p' ? 'pigment' : 'natural';
    return `${kind} ${hues[hue]} ${number}`;
  });
}

const squeeze = (text: string): string =>
  text
    .replace(/[^a-z0-9(),]/g, '')
    .replace(/,(?![iv])/g, '')
    .replace(/,$/, '');

const howMuchWater = 'hemi|mono|sesqui|di|tri|tetra|penta|hexa|hepta|octa|nona|deca|undeca|dodeca|octadeca|hemipenta';
const water = new RegExp(`\\b(?:(?:${howMuchWater})-?)?hydrated?\\b`, 'g');
const wordsOfForm =
  'anhydrous|solution|powder|powdered|crystals|metal|aqueous|glacial|concentrated|conc|dilute|technical|pure|grade|' +
  'commercial|cl active';
const words = new RegExp(
  `\\b(?:${wordsOfForm})\\b|\\(\\s*mono-.*?\\)|\\(non-pyrophoric\\)|\\b\\d+(?:\\.\\d+)?\\s*%`,
  'g',
);

/** The name as a key. @example nameKey('Copper (II) Sulphate') === nameKey('cupric sulfate') // true */
export const nameKey = (name: string): string => squeeze(usual(name));

/**
 * The same without words for water, strength and form.
 * @example plainNameKey('copper(II) sulfate, anhydrous') // 'copper(ii)sulfate'
 */
export const plainNameKey = (name: string): string => squeeze(usual(name).replace(words, ' ').replace(water, ' '));

/** The same without oxidation states. @example statelessKey('copper(II) sulfate') // 'coppersulfate' */
export const statelessKey = (name: string): string => plainNameKey(name).replace(/\([iv]+(?:,[iv]+)*\)/g, '');

/**
 * The name's words, without oxidation states and words for water.
 * @example plainWords('lead(II) iodide') // ['lead', 'iodide']
 */
export const plainWords = (name: string): readonly string[] =>
  usual(name)
    .replace(words, ' ')
    .replace(water, ' ')
    .replace(/\([^)]*\)/g, ' ')
    .split(/[^a-z]+/)
    .filter((word) => word !== '');

/**
 * The words of the first name that is a salt's systematic one, by its ending; none where no name is.
 * @example wordsOfSalt(['lead(II) iodide']) // ['lead', 'iodide']
 */
export const wordsOfSalt = (names: readonly (string | undefined)[]): readonly string[] =>
  names
    .flatMap((name) => (name ? [plainWords(name)] : []))
    .find((parts) => parts.length > 1 && /(?:ate|ite|ide)$/.test(parts.at(-1)!)) ?? [];
