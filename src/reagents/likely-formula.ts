// The salt that was likely meant by a formula whose charges do not balance, one digit away and known by name; or by one
// in which capitals stand for the small letter of a symbol, or a capital I for a small L.
import {
  composition,
  elementName,
  ionsIn,
  isTakenApart,
  isUnbalanced,
  parseFormula,
  placesOfCapitals,
  withSmallL,
} from '../chemistry/index.js';
import { memoise } from '../memoise.js';
import type { Fault } from '../outcome.js';
import { preparedByKey } from '../tables/prepared.js';
import { nameOfFormula } from './name-of-formula.js';
import { namedFormulae } from './table-formulae.js';

const isKnown = (written: string): boolean => parseFormula(written).ok && nameOfFormula(written) !== undefined;

/** The dry salt, and the dot with the water behind it. */
const saltAndWater = /^([^·*.\s]+)(.*)$/su;
const digits = ['', '2', '3', '4', '5', '6'];

/** The salt with each of its counts another, one at a time; or with brackets around its ion, and a count behind. */
function* oneCountAway(salt: string): Generator<string> {
  for (const { index, 0: symbol, 1: count = '' } of salt.matchAll(/(?:[A-Z][a-z]?|[)\]}])(\d?)(?!\d)/g)) {
    const from = index + symbol.length - count.length;
    for (const other of digits)
      if (other !== count) yield `${salt.slice(0, from)}${other}${salt.slice(from + count.length)}`;
  }
  const [, metal, ion] = /^([A-Z][a-z]?\d?)([A-Z][A-Za-z\d]*[A-Z\d][A-Za-z\d]*)$/.exec(salt) ?? [];
  if (ion !== undefined) for (const count of [2, 3]) yield `${metal}(${ion})${count}`;
  // Brackets left away: `CuOH2`, `Al2SO43`, `K3FeCN6`.
  const [, before, group, count] = /^(.+?)(CN|OH|NO3|SO4|CO3|PO4)(\d)$/.exec(salt) ?? [];
  if (group !== undefined) yield `${before}(${group})${count}`;
}

/**
 * The salt of one cation and one anion of several atoms in the counts that their charges ask for: `ZnPO4` as
 * Zn3(PO4)2. Metals bind single atoms in many other counts (Fe3C).
 */
function byCharges(salt: string): string | undefined {
  const { ions = [] } = ionsIn(salt) ?? {};
  const [cation, anion] = [...ions].sort((a, b) => b.charge - a.charge);
  if (ions.length !== 2 || !cation || !anion || cation.charge <= 0 || anion.charge >= 0) return undefined;
  if (!severalAtoms.test(anion.formula)) return undefined;
  const divisor = commonDivisor(cation.charge, -anion.charge);
  const crossed = counted(cation.formula, -anion.charge / divisor) + counted(anion.formula, cation.charge / divisor);
  return crossed !== salt && ionsIn(crossed)?.balanced === true ? crossed : undefined;
}
const severalAtoms = /[A-Z][^A-Z]*[A-Z]/;
const commonDivisor = (a: number, b: number): number => (b === 0 ? a : commonDivisor(b, a % b));
function counted(ion: string, count: number): string {
  const bare = ion.replace(/\^.*$/, '');
  if (count === 1) return bare;
  return /^[A-Z][a-z]?$/.test(bare) ? `${bare}${count}` : `(${bare})${count}`;
}

const longest = 40;
/** So many symbols in capitals are tried in every way. */
const mostInCapitals = 5;

/** The formula with capitals read as symbols of two letters, in every way: `COCO3` as CoCO3, COCo3, CoCo3. */
function inUsualLetters(salt: string): readonly string[] {
  const places = placesOfCapitals(salt);
  if (places.length > mostInCapitals) return [];
  let ways = [salt];
  for (const place of places) {
    const small = (way: string): string =>
      way.slice(0, place + 1) + way.charAt(place + 1).toLowerCase() + way.slice(place + 2);
    ways = ways.flatMap((way) => (/[A-Z]/.test(way.charAt(place)) ? [way, small(way)] : [way]));
  }
  return ways.slice(1);
}

/** Whether it is a salt whose charges add up. */
const isSalt = (written: string): boolean => {
  const ions = ionsIn(written);
  return ions !== undefined && ions.balanced && !isTakenApart(ions);
};

/** Those of the tables with two capitals side by side, which are meant as they stand: `COCl2`. */
const isInTables = preparedByKey<true>('formulae-with-capitals', () =>
  namedFormulae()
    .filter((formula) => /[A-Z]{2}/.test(formula))
    .map((formula) => [formula, true] as const),
);

/** `COSO4`: no salt as it stands, and one where two capitals are one symbol; carbon with hydrogen may be much else. */
function inCapitals(salt: string): readonly string[] {
  if (!/[A-Z]{2}/.test(salt) || isInTables(salt)) return [];
  const likely = inUsualLetters(salt).filter(isSalt);
  const named = likely.filter(isKnown);
  return named.length > 0 || /C(?![a-z]).*H(?![a-z])/.test(salt) ? named : likely;
}

/**
 * Why a formula is questioned, and which salts it may have been meant for; undefined where its charges balance, its
 * ions are not known, or no salt is near. `capitals` where two capitals are likely one symbol.
 * @example likelyFormula('NaCO3').cure // 'Write Na2CO3 (sodium carbonate), if that is meant.'
 */
export const likelyFormula: (written: string) => Fault<'charges' | 'capitals'> | undefined = memoise(
  (written) => written,
  findLikely,
  1000,
);

function findLikely(written: string): Fault<'charges' | 'capitals'> | undefined {
  if (written.length > longest || nameOfFormula(written) !== undefined) return undefined;
  const [, salt = '', water = ''] = saltAndWater.exec(written.trim()) ?? [];
  const message = `As its capitals stand, ${written} is ${elementsIn(written)}.`;
  const inSmallLs = withSmallL(salt);
  if (inSmallLs !== salt && isKnown(inSmallLs)) return { code: 'capitals', message, ...meant([inSmallLs], water) };
  if (isUnbalanced(written)) {
    const likely = withOtherCounts(salt);
    const charges = `The charges of the ions in ${written} do not add up to nothing.`;
    return likely.length === 0 ? undefined : { code: 'charges', message: charges, ...meant(likely, water) };
  }
  const likely = ionsIn(written) === undefined ? inCapitals(salt) : [];
  return likely.length === 0 ? undefined : { code: 'capitals', message, ...meant(likely, water) };
}

/** Salts with other counts: one count away and known, or what the charges ask for. */
function withOtherCounts(salt: string): readonly string[] {
  const away = [...new Set([...oneCountAway(salt)].filter((one) => isKnown(one) && !isUnbalanced(one)))];
  const crossed = away.length === 0 ? byCharges(salt) : undefined;
  return crossed === undefined ? away : [crossed];
}

/** `carbon, oxygen, sulfur`. */
function elementsIn(written: string): string {
  const parsed = parseFormula(written);
  return parsed.ok ? [...composition(parsed.value).keys()].map(elementName).join(', ') : '';
}

/** What is expected, and the cure. */
function meant(likely: readonly string[], water: string): Pick<Fault, 'expected' | 'cure'> {
  const nameOf = (one: string): string => {
    const name = nameOfFormula(one);
    // `hydrochloric acid … %`, as lists of dangerous substances have it.
    return name === undefined ? '' : ` (${name.replace(/ … %$/, '')})`;
  };
  const shown = likely.map((one) => `${one}${water}${nameOf(one)}`);
  return { expected: likely.join(', '), cure: `Write ${shown.join(' or ')}, if that is meant.` };
}
