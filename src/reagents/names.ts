// From a name to what it is: named materials from a table, and salts put together from the words of their ions.
// Only whole words count: `sodium nitrate` never finds `sodium nitrite`.
import { namePartsTable } from '../tables/compiled/reagents/name-parts.js';
import { namedMaterialsTable } from '../tables/compiled/reagents/named-materials.js';

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

interface IonWord {
  readonly formula: string;
  readonly charge: number;
}
interface Words {
  readonly materials: ReadonlyMap<string, Material>;
  readonly cations: ReadonlyMap<string, IonWord>;
  readonly anions: ReadonlyMap<string, IonWord>;
  readonly multipliers: ReadonlyMap<string, number>;
}
let words: Words | undefined;

function load(): Words {
  if (words) return words;
  const materials = new Map<string, Material>();
  for (const row of namedMaterialsTable()) {
    const material: Material = {
      name: row.name,
      by: 'table',
      formula: row.formula,
      groups: row.groups,
      ...(row.varies && { varies: true }),
      source: row.source,
      ...(row.note && { note: row.note }),
    };
    for (const name of [row.name, ...row.also]) materials.set(plainName(name), material);
  }
  const cations = new Map<string, IonWord>();
  const anions = new Map<string, IonWord>();
  const multipliers = new Map<string, number>();
  for (const row of namePartsTable()) {
    if (row.part === 'multiplier') multipliers.set(row.name, row.charge);
    else (row.part === 'cation' ? cations : anions).set(row.name, { formula: row.formula, charge: row.charge });
  }
  words = { materials, cations, anions, multipliers };
  return words;
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

/** `PB27`, `PW6`: a name of the Colour Index, which can be read as a formula and is none. */
export const isColourIndexName = (text: string): boolean => /^P(?:Y|O|R|V|B|G|W|Br|Bk)\s?\d+(?::\d+)?$/.test(text);

const roman: Readonly<Record<string, number>> = { i: 1, ii: 2, iii: 3, iv: 4, v: 5, vi: 6, vii: 7 };
const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));
const counted = (formula: string, count: number): string => {
  if (count === 1) return formula;
  return /^(?:[A-Z][a-z]?|\[.*\])$/.test(formula) ? `${formula}${count}` : `(${formula})${count}`;
};

/** A word without a multiplying prefix: `disodium` is sodium, and so is `sodium`. */
function unprefixed<T>(
  word: string,
  known: ReadonlyMap<string, T>,
  multipliers: ReadonlyMap<string, number>,
): { readonly found: T; readonly times?: number } | undefined {
  const direct = known.get(word);
  if (direct) return { found: direct };
  for (const [prefix, times] of multipliers) {
    if (!word.startsWith(prefix)) continue;
    const found = known.get(word.slice(prefix.length));
    if (found) return { found, times };
  }
  return undefined;
}

/** Atoms of metal beside a counted anion: one in `tin tetrachloride` and `lead dioxide`, two in `arsenic trisulfide`. */
function howMany(
  metal: { readonly charge: number; readonly times?: number },
  total: number,
  each: number,
  count: number,
): number {
  if (metal.times) return metal.times;
  if (each === 1 || count % 2 === 0 || total === metal.charge) return 1;
  return 2;
}

/** Bases as the old names have them: `bichromate of potash`. */
const oldBases: Readonly<Record<string, string>> = {
  potash: 'potassium',
  potassa: 'potassium',
  soda: 'sodium',
  ammonia: 'ammonium',
  lime: 'calcium',
  baryta: 'barium',
  strontia: 'strontium',
  magnesia: 'magnesium',
  alumina: 'aluminium',
};
const oldAcids: Readonly<Record<string, string>> = {
  muriate: 'chloride',
  prussiate: 'ferrocyanide',
  sulfuret: 'sulfide',
  hydrate: 'hydroxide',
};

/** `nitrate of silver` is silver nitrate. */
const turnedRound = (name: string): string => {
  const [, acid = '', base = ''] = /^([a-z]+) of ([a-z]+)$/.exec(name) ?? [];
  return base === '' ? name : `${oldBases[base] ?? base} ${oldAcids[acid] ?? acid}`;
};

/** `copper(II) sulfate pentahydrate`, `potassium sulfite`, `disodium hydrogenphosphate`, `nitrate of silver`. */
function salt(written: string): string | undefined {
  const name = turnedRound(written);
  const { cations, anions, multipliers } = load();
  let text = name
    .replace(/\b(?:anhydrous|solution|powder|crystals?|hydrated?)\b/g, ' ')
    .replace(/\s*\((i|ii|iii|iv|v|vi|vii)\)/g, '($1)')
    .replace(/\s+/g, ' ')
    .trim();
  let water = '';
  const hydrate = /\b([a-z]+)hydrate$/.exec(text);
  if (hydrate) {
    const count = multipliers.get(hydrate[1]!);
    if (count === undefined) return undefined;
    water = `·${count}H2O`;
    text = text.slice(0, hydrate.index).trim();
  }
  const parts = text.split(' ');
  for (let cut = 1; cut < parts.length; cut += 1) {
    const anionText = parts.slice(cut).join(' ');
    const stock = /^(.*)\((i|ii|iii|iv|v|vi|vii)\)$/;
    const anion =
      unprefixed(anionText, anions, multipliers) ??
      unprefixed(anionText.replace(/\([iv]+\)$/, ''), anions, multipliers);
    if (!anion) continue;
    const metals = parts
      .slice(0, cut)
      .filter((word) => word !== 'and')
      .map((word) => {
        const charged = stock.exec(word);
        const cation = unprefixed(charged ? charged[1]! : word, cations, multipliers);
        return (
          cation && {
            formula: cation.found.formula,
            charge: charged ? roman[charged[2]!]! : cation.found.charge,
            times: cation.times,
          }
        );
      });
    if (metals.some((metal) => metal === undefined)) continue;
    const { formula: anionFormula } = anion.found;
    if (metals.length === 1) {
      const [metal] = metals as [NonNullable<(typeof metals)[0]>];
      if (anion.times && Number.isInteger(anion.times))
        return `${counted(metal.formula, howMany(metal, anion.times * anion.found.charge, anion.found.charge, anion.times))}${counted(anionFormula, anion.times)}${water}`;
      const common = gcd(metal.charge, anion.found.charge);
      return `${counted(metal.formula, anion.found.charge / common)}${counted(anionFormula, metal.charge / common)}${water}`;
    }
    // Two metals: one of each (`potassium sodium tartrate`), or two of the first (`ammonium ferrous sulfate`).
    for (const first of [1, 2]) {
      const total = metals.reduce((sum, metal, at) => sum + metal!.charge * (at === 0 ? first : 1), 0);
      if (total % anion.found.charge === 0)
        return `${metals.map((metal, at) => counted(metal!.formula, at === 0 ? first : 1)).join('')}${counted(anionFormula, total / anion.found.charge)}${water}`;
    }
  }
  return undefined;
}

/** A metal or other element by its name: `zinc`, `iron powder`. */
const element = (name: string): string | undefined => load().cations.get(name)?.formula;

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
function hydrateOf(name: string, materials: ReadonlyMap<string, Material>): Material | undefined {
  const [, dry = '', prefix = ''] = /^(.+) ([a-z]+)hydrate$/.exec(name) ?? [];
  const count = load().multipliers.get(prefix);
  const material = materials.get(dry);
  if (!material || count === undefined) return undefined;
  return /H2O\b/.test(material.formula) ? material : { ...material, formula: `${material.formula}·${count}H2O` };
}

const looked = new Map<string, Material | undefined>();

function find(written: string): Material | undefined {
  const { materials } = load();
  const name = plainName(written);
  const state =
    /^(.*?)[ ,]+(?:powder|dust|granules|turnings|foil|filings|shavings|crystals|solution|metal|wire|sheet|scrap|pellets|flakes|solid|paste|gel|pigment|lumps|chips|ribbon|leaf|dross)$/.exec(
      name,
    )?.[1];
  const plainer = (state ?? name).replace(
    /^(?:(?:finely|freshly) )?(?:powdered|ground|granulated|divided|precipitated|crystalline|crystallised|technical|commercial|pure|fine|dry|anhydrous|fused|reagent|household|old|fresh|artist's|artists') /,
    '',
  );
  const candidates = [...new Set([name, state ?? name, plainer, turnedRound(name)])];
  for (const candidate of candidates) {
    const material = materials.get(candidate) ?? hydrateOf(candidate, materials);
    if (material) return material;
  }
  for (const candidate of candidates) {
    const formula = salt(candidate);
    if (formula)
      return { name: written, by: 'ions', formula, groups: [], source: 'put together from the words of its ions' };
  }
  // `charcoal C`: the letter says the same as the name.
  const [, named = '', letter = ''] = /^(.+) ([a-z])$/.exec(name) ?? [];
  const lettered = materials.get(named);
  if (lettered && lettered.formula === letter.toUpperCase()) return lettered;
  const metal = element(plainer);
  return metal && /^[A-Z][a-z]?$/.test(metal)
    ? { name: written, by: 'element', formula: metal, groups: [], source: 'name of an element' }
    : undefined;
}
