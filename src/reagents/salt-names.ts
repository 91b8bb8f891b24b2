// Salts put together from the words of their ions: `copper(II) sulfate pentahydrate`, `disodium hydrogenphosphate`.
// Only whole words count: `sodium nitrate` never finds `sodium nitrite`.
import { hydrateWordsTable } from '../tables/compiled/chemistry/hydrate-words.js';
import { namePartsTable } from '../tables/compiled/reagents/name-parts.js';
import { oldSaltWordsTable } from '../tables/compiled/reagents/old-salt-words.js';

interface IonWord {
  readonly formula: string;
  readonly charge: number;
}
interface IonWords {
  readonly cations: ReadonlyMap<string, IonWord>;
  readonly anions: ReadonlyMap<string, IonWord>;
  readonly multipliers: ReadonlyMap<string, number>;
}
let words: IonWords | undefined;

function ionWords(): IonWords {
  if (words) return words;
  const cations = new Map<string, IonWord>();
  const anions = new Map<string, IonWord>();
  const multipliers = new Map<string, number>();
  for (const { part, name, formula, charge } of namePartsTable()) {
    if (part === 'multiplier') multipliers.set(name, charge);
    else (part === 'cation' ? cations : anions).set(name, { formula, charge });
  }
  words = { cations, anions, multipliers };
  return words;
}

const roman: Readonly<Record<string, number>> = { i: 1, ii: 2, iii: 3, iv: 4, v: 5, vi: 6, vii: 7 };
const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));
const counted = (formula: string, count: number): string => {
  if (count === 1) return formula;
  return /^(?:[A-Z][a-z]?|\[.*\])$/.test(formula) ? `${formula}${count}` : `(${formula})${count}`;
};

/** A word of an ion, with the number that its prefix says: two of `disodium`. */
interface Prefixed extends IonWord {
  readonly times?: number;
}

/** A word without a multiplying prefix: `disodium` is sodium, and so is `sodium`. */
function unprefixed(word: string, known: ReadonlyMap<string, IonWord>): Prefixed | undefined {
  const direct = known.get(word);
  if (direct) return direct;
  for (const [prefix, times] of ionWords().multipliers) {
    const found = word.startsWith(prefix) ? known.get(word.slice(prefix.length)) : undefined;
    if (found) return { ...found, times };
  }
  return undefined;
}

interface OldWords {
  readonly base: ReadonlyMap<string, string>;
  readonly acid: ReadonlyMap<string, string>;
  /** The longest first. */
  readonly degree: readonly (readonly [prefix: string, degree: string])[];
  readonly states: ReadonlyMap<string, readonly [low: number, high: number]>;
}
let old: OldWords | undefined;

function oldWords(): OldWords {
  if (old) return old;
  const of = (part: string): readonly (readonly [string, string])[] =>
    oldSaltWordsTable()
      .filter((row) => row.part === part)
      .map(({ word, means }) => [word, means]);
  const pair = (means: string): readonly [number, number] => {
    const [low = 0, high = 0] = means.split(' ').map(Number);
    return [low, high];
  };
  old = {
    base: new Map(of('base')),
    acid: new Map(of('acid')),
    degree: [...of('degree')].sort(([a], [b]) => b.length - a.length),
    states: new Map(of('states').map(([metal, means]) => [metal, pair(means)])),
  };
  return old;
}

const numerals = ['', 'i', 'ii', 'iii', 'iv', 'v'];

const knownAnion = (word: string): boolean => ionWords().anions.has(word);

/** `persulfate of iron` is iron(III) sulfate, `protochloride of tin` tin(II) chloride, `superoxalate` an acid salt. */
function ofDegree(acid: string, base: string): string | undefined {
  const { degree, states } = oldWords();
  for (const [prefix, told] of degree) {
    if (!acid.startsWith(prefix)) continue;
    const rest = acid.slice(prefix.length);
    const anion = oldWords().acid.get(rest) ?? rest;
    if (!knownAnion(anion)) continue;
    if (told === 'acid') return `${base} ${knownAnion(`hydrogen ${anion}`) ? `hydrogen ${anion}` : anion}`;
    const state = states.get(base)?.[told === 'low' ? 0 : 1];
    if (state !== undefined) return `${base}(${numerals[state]}) ${anion}`;
    if (told === 'low' && !knownAnion(acid)) return `${base} ${anion}`;
    if (told === 'high' && anion === 'oxide') return `${base} peroxide`;
  }
  return undefined;
}

/**
 * `nitrate of silver` is silver nitrate, `persulphate of iron` iron(III) sulfate.
 * @example turnedRound('phosphuret of lime') // 'calcium phosphide'
 */
export function turnedRound(name: string): string {
  const [, written = '', word = ''] = /^([a-z-]+) of ([a-z]+)$/.exec(name) ?? [];
  if (word === '') return name;
  const acid = written.replaceAll('-', '');
  const base = oldWords().base.get(word) ?? word;
  return ofDegree(acid, base) ?? `${base} ${oldWords().acid.get(acid) ?? acid}`;
}

/** Moles of water that `pentahydrate` says, and the name before it; undefined where the prefix is none. */
export function hydrateNamed(name: string): { readonly dry: string; readonly count: number } | undefined {
  const [, dry = '', prefix = ''] = /^(.*?)\b([a-z]+)hydrate$/.exec(name) ?? [];
  const count = ionWords().multipliers.get(prefix);
  return count === undefined ? undefined : { dry: dry.trim(), count };
}

/** Water with its count behind a word, as behind a formula: `sulfide 9H2O`, `Kupfersulfat · 5 H2O`, `… (2 H2O)`. */
const waterBehindName = new RegExp(
  String.raw`(?<=\p{Ll}{3})(?:\s*[·.⋅•*×]\s*|\s+x\s+|\s*\(\s*|,?\s+)(\d{1,2})\s?H[2₂]O(?![\p{L}\d₀-₉])\s*\)?`,
  'gu',
);

/**
 * Names with their water in words, where any has it behind it: `sodium sulfide 9H2O` is no water.
 * @example waterInWords('sodium sulfide 9H2O, crystals') // 'sodium sulfide nonahydrate, crystals'
 */
export function waterInWords(text: string): string {
  if (!/H[2₂]O/.test(text)) return text;
  return text.replace(waterBehindName, (all, count: string) => {
    const row = hydrateWordsTable().find(({ water }) => water === count);
    return row ? ` ${row.word}` : all;
  });
}

const charged = /^(.*)\((i|ii|iii|iv|v|vi|vii)\)$/;

/** `copper(ii)`, `disodium`, `ferrous`. */
function cationOf(word: string): Prefixed | undefined {
  const [, plain = word, number] = charged.exec(word) ?? [];
  const cation = unprefixed(plain, ionWords().cations);
  return cation && number !== undefined ? { ...cation, charge: roman[number]! } : cation;
}

/** Words that may stand anywhere in the name of a salt, and say nothing of its ions. */
const besideIons = /\b(?:anhydrous|solution|powder|crystals?|hydrated?)\b/g;

/**
 * Whether the name of a salt may begin with a word in small letters, unless it is turned round (`nitrate of lead`).
 * @example mayBeginSalt('disodium') // true
 */
export const mayBeginSalt = (word: string): boolean =>
  word === 'and' || basic.test(word) || word.search(besideIons) >= 0 || cationOf(word) !== undefined;

const anionOf = (text: string): Prefixed | undefined =>
  unprefixed(text, ionWords().anions) ?? unprefixed(text.replace(/\([iv]+\)$/, ''), ionWords().anions);

/** Metal beside a counted anion: one atom in `tin tetrachloride` and `lead dioxide`, two in `arsenic trisulfide`. */
function atomsBeside(metal: Prefixed, anion: Prefixed, count: number): number {
  if (metal.times) return metal.times;
  return anion.charge === 1 || count % 2 === 0 || count * anion.charge === metal.charge ? 1 : 2;
}

/** `ferric` of `sesquioxide of iron`: one and a half to one, so that the metal has three charges. */
function sesquiSalt(metal: Prefixed, anion: Prefixed): string | undefined {
  // No alkali has three charges, and what its sesqui-salts are is in the tables.
  return metal.charge === 1 ? undefined : saltOfOne({ ...metal, charge: 3 }, { ...anion, times: undefined });
}

/**
 * A salt whose name counts its metal, where that is less than its acid has room for: the rest is hydrogen. The count is
 * of metal to one acid for metals of one charge, and of charges to one phosphate in `dicalcium phosphate`, CaHPO4.
 */
function acidSalt(metal: Prefixed, anion: Prefixed): string | undefined {
  const { times = 0 } = metal;
  const isMeant = times > 0 && (metal.charge === 1 || (metal.charge === 2 && anion.charge === 3));
  if (!isMeant || !acidAnions.has(anion.formula) || times >= anion.charge) return undefined;
  const left = anion.charge - times;
  const acid = `H${left === 1 ? '' : left}${anion.formula}`;
  const common = gcd(times, metal.charge);
  return counted(metal.formula, times / common) + counted(acid, metal.charge / common);
}

/** Anions of acids with several hydrogens, of which salts keep some. */
const acidAnions: ReadonlySet<string> = new Set(
  'PO4 AsO4 AsO3 P2O7 CO3 SO4 SO3 S SeO3 TeO3 C2O4 C4H4O6 C6H5O7 C4H4O4 C4H4O5 SiO3'.split(' '),
);

function saltOfOne(metal: Prefixed, anion: Prefixed): string | undefined {
  if (anion.times !== undefined && Number.isInteger(anion.times)) {
    const atoms = atomsBeside(metal, anion, anion.times);
    return counted(metal.formula, atoms) + counted(anion.formula, anion.times);
  }
  if (anion.times !== undefined) return anion.times === 1.5 ? sesquiSalt(metal, anion) : undefined;
  const acid = acidSalt(metal, anion);
  if (acid !== undefined) return acid;
  // `dicopper oxide`: two of a metal that else has two charges have one each.
  if (metal.times === 2 && metal.charge === 2 && /^[OS]$/.test(anion.formula))
    return `${metal.formula}2${anion.formula}`;
  const common = gcd(metal.charge, anion.charge);
  return counted(metal.formula, anion.charge / common) + counted(anion.formula, metal.charge / common);
}

/** One of each metal (`potassium sodium tartrate`), or two of the first (`ammonium ferrous sulfate`). */
function saltOfSeveral(metals: readonly Prefixed[], anion: Prefixed): string | undefined {
  for (const first of [1, 2]) {
    const counts = metals.map((_, at) => (at === 0 ? first : 1));
    const total = metals.reduce((sum, metal, at) => sum + metal.charge * counts[at]!, 0);
    if (total % anion.charge !== 0) continue;
    const cations = metals.map((metal, at) => counted(metal.formula, counts[at]!)).join('');
    return cations + counted(anion.formula, total / anion.charge);
  }
  return undefined;
}

function saltOf(metalWords: readonly string[], anionText: string): string | undefined {
  const anion = anionOf(anionText);
  if (!anion) return undefined;
  const metals = metalWords.filter((word) => word !== 'and').map(cationOf);
  if (!metals.every((metal): metal is Prefixed => metal !== undefined)) return undefined;
  return metals.length === 1 ? saltOfOne(metals[0]!, anion) : saltOfSeveral(metals, anion);
}

const basic = /\b(mono|di|tri)basic\b/;
const ofThree = /\b(?:phosphate|arsenate|citrate)\b/;

/** `sodium phosphate dibasic` is disodium phosphate; `tribasic lead sulfate` is a basic salt, and none of these. */
function withBasicity(name: string): string {
  const [, count] = basic.exec(name) ?? [];
  return count === undefined || !ofThree.test(name) ? name : `${count}${name.replace(basic, ' ').trim()}`;
}

/**
 * The formula of a salt by the words of its ions, in small letters; undefined where a word is none of an ion.
 * @example saltNamed('disodium hydrogenphosphate') // 'Na2HPO4'
 */
export function saltNamed(written: string): string | undefined {
  const name = withBasicity(turnedRound(written))
    .replace(besideIons, ' ')
    .replace(/\s*\((i|ii|iii|iv|v|vi|vii)\)/g, '($1)')
    .replace(/\s+/g, ' ')
    .trim();
  const hydrate = hydrateNamed(name);
  if (!hydrate && /hydrate$/.test(name)) return undefined;
  const ions = (hydrate?.dry ?? name).split(' ');
  for (let cut = 1; cut < ions.length; cut += 1) {
    const salt = saltOf(ions.slice(0, cut), ions.slice(cut).join(' '));
    if (salt !== undefined) return hydrate ? `${salt}·${hydrate.count}H2O` : salt;
  }
  return undefined;
}

/** The formula of a metal by its name: `zinc`; undefined for what is none. */
export function metalNamed(name: string): string | undefined {
  const formula = ionWords().cations.get(name)?.formula;
  return formula !== undefined && /^[A-Z][a-z]?$/.test(formula) ? formula : undefined;
}
