// From a name to what it is: named materials from a table, and salts put together from the words of their ions.
import { namedMaterialsRow, namedMaterialsTable } from '../tables/compiled/reagents/named-materials.js';
import { preparedByKey } from '../tables/prepared.js';
import { formulaInAnyCase } from './formulae-in-any-case.js';
import { inEnglish, mayBeginForeign, withoutAccents } from './other-languages.js';
import { hydrateNamed, mayBeginSalt, metalNamed, saltNamed, turnedRound } from './salt-names.js';
import { hydrateOfLooks, looksIn, saysDry } from './usual-hydrates.js';

/** What a name stands for. */
export interface Material {
  /** As the table has it; as written, where it was put together. */
  readonly name: string;
  /** Found in the table, put together from the words of ions, or an element. */
  readonly by: 'table' | 'ions' | 'element';
  readonly formula: string;
  /** Other things are sold under the same name: no amount can be reckoned from the formula. */
  readonly varies?: boolean;
  /** Groups that the formula does not show. */
  readonly groups: readonly string[];
  readonly note?: string;
  readonly source: string;
}

/** The place in the table by name; of two of one name the later. */
const placeOfName = preparedByKey<number>('named-materials', () =>
  namedMaterialsTable().flatMap(({ name, also }, place) =>
    [name, ...also].map((one): [string, number] => [plainName(one), place]),
  ),
);
const materials = new Map<number, Material>();

/** The material of the table with this name, which is in the form that `plainName` gives. */
function tableMaterial(plain: string): Material | undefined {
  const place = placeOfName(plain);
  if (place === undefined) return undefined;
  let material = materials.get(place);
  if (!material) {
    const { name, formula, groups, varies, source, note } = namedMaterialsRow(place);
    materials.set(place, (material = { name, by: 'table', formula, groups, varies, source, note }));
  }
  return material;
}

/** A name in small letters, `sulf` for `sulph`, one space between words. */
export const plainName = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[’‘]/g, "'")
    .replace(/sulph/g, 'sulf')
    .replace(/…\s*%/g, '')
    .replace(/\s+/g, ' ')
    .replace(/[,;.]+$/, '')
    .trim();

/** The words that names of the table begin with. */
const beginsInTable = preparedByKey<true>('beginnings-of-named-materials', () =>
  namedMaterialsTable().flatMap(({ name, also }) =>
    [name, ...also].map((one): [string, true] => [firstWord(plainName(one)), true]),
  ),
);

const firstWord = (text: string): string => text.split(' ', 1)[0]!;

/**
 * Whether a name of several words that `materialNamed` knows may begin with a word, unless it is turned round (`nitrate
 * of lead`).
 * @example mayBeginName('copper') // true
 * @example mayBeginName('settled') // false
 */
export function mayBeginName(word: string): boolean {
  const first = firstWord(plainName(`${word} with more`));
  return (
    first.includes('…') ||
    beginsInTable(first) !== undefined ||
    mayBeginSalt(first) ||
    preparing.test(first) ||
    mayBeginForeign(first) ||
    inEnglish(first) !== undefined
  );
}

const looked = new Map<string, Material | undefined>();

/**
 * What a name stands for, or undefined where it is not known.
 * @example materialNamed('potassium sulfite')?.formula // 'K2SO3'
 */
export function materialNamed(written: string): Material | undefined {
  if (!looked.has(written)) {
    if (looked.size >= 5000) looked.clear();
    looked.set(written, find(written));
  }
  return looked.get(written);
}

/** `citric acid monohydrate`: a named material with its water. */
function hydrateOf(name: string): Material | undefined {
  const hydrate = hydrateNamed(name);
  const material = hydrate && tableMaterial(hydrate.dry);
  if (!material) return undefined;
  return /H2O\b/.test(material.formula)
    ? material
    : { ...material, formula: `${material.formula}·${hydrate.count}H2O` };
}

/** Words behind a name that say in which shape it is. */
const shape = new RegExp(
  '^(.*?)[ ,]+(?:powder|dust|granules|turnings|foil|filings|shavings|crystals|solution|metal|wire|sheet|scrap|' +
    'pellets|flakes|solid|paste|gel|pigment|lumps|chips|ribbon|leaf|dross)$',
);
/** Words before a name that say how it was made ready. */
const preparedHow = 'finely|freshly';
const preparations =
  'powdered|ground|granulated|divided|precipitated|crystalline|crystallised|technical|' +
  "commercial|pure|fine|dry|anhydrous|fused|reagent|household|old|fresh|artist's|artists'";
const preparation = new RegExp(`^(?:(?:${preparedHow}) )?(?:${preparations}) `);
const preparing = new RegExp(`^(?:${preparedHow}|${preparations})$`);

/** The name as written, then without the words beside it. */
function candidatesOf(name: string): { readonly all: readonly string[]; readonly plainest: string } {
  const shapeless = shape.exec(name)?.[1] ?? name;
  const plainest = shapeless.replace(preparation, '');
  return { all: [...new Set([name, shapeless, plainest, turnedRound(name)])], plainest };
}

/** The first that is found of several. */
function firstOf<T>(names: readonly string[], look: (name: string) => T | undefined): T | undefined {
  for (const name of names) {
    const found = look(name);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** `charcoal C`: the letter says the same as the name. */
function lettered(name: string): Material | undefined {
  const [, words = '', letter = ''] = /^(.+) ([a-z])$/.exec(name) ?? [];
  const material = tableMaterial(words);
  return material?.formula === letter.toUpperCase() ? material : undefined;
}

function find(written: string): Material | undefined {
  const name = plainName(written);
  const { all, plainest } = candidatesOf(name);
  const listed = firstOf(all, (one) => tableMaterial(one) ?? hydrateOf(one));
  if (listed) return listed;
  const crystals = crystalWords.test(name) ? saltOfLooks(name, written) : undefined;
  if (crystals) return crystals;
  const salt = firstOf(all, saltNamed);
  if (salt !== undefined)
    return { name: written, by: 'ions', formula: salt, groups: [], source: 'put together from the words of its ions' };
  const metal = metalNamed(plainest);
  if (metal !== undefined && lettered(name) === undefined)
    return { name: written, by: 'element', formula: metal, groups: [], source: 'name of an element' };
  return lettered(name) ?? elsewhere(all) ?? asFormula(written, name) ?? saltOfLooks(name, written);
}

const crystalWords = /[ck]r[iy]st|xtal/;

const withoutItsWater = (formula: string): string => formula.replace(/[·.]\d*H2O$/, '');

/** `blue copper sulfate`, `zinc sulfate crystals`: the hydrate that looks so; undefined for other names and looks. */
function saltOfLooks(name: string, written: string): Material | undefined {
  const told = saysDry(name) ? undefined : looksIn(name);
  const salt = told && told.bare !== '' ? find(told.bare) : undefined;
  const hydrate = salt && hydrateOfLooks(withoutItsWater(salt.formula), told!.looks);
  if (hydrate === undefined) return undefined;
  // The bare name may tell of water already.
  if (withoutItsWater(salt!.formula) !== salt!.formula) return salt;
  return { name: written, by: 'ions', formula: hydrate, groups: [], source: 'the hydrate that looks so' };
}

/** `nh4no3`, `HCL`: a formula in other letters; as it should be written, it is no name. */
function asFormula(written: string, name: string): Material | undefined {
  const formula = formulaInAnyCase(written) ?? formulaInAnyCase(name);
  if (formula === undefined || formula === written.trim()) return undefined;
  return { name: formula, by: 'table', formula, groups: [], source: 'a formula in other letters' };
}

/** `Salpeter`, `nitrate de plomb`: a name in another language; `bórax`: the same name with an accent. */
function elsewhere(names: readonly string[]): Material | undefined {
  const english = firstOf(names, inEnglish);
  if (english !== undefined) return names.includes(english) ? undefined : find(english);
  const bare = withoutAccents(names[0]!);
  return bare === names[0] ? undefined : find(bare);
}
