// The salt that was likely meant by a formula whose charges do not balance: one digit away, and known by name.
import { ionsOf, parseFormula } from '../chemistry/index.js';
import { memoise } from '../memoise.js';
import type { Fault } from '../outcome.js';
import { nameOfFormula } from './name-of-formula.js';

/** Whether its ions were found and their charges do not add up. */
function isUnbalanced(written: string): boolean {
  const parsed = parseFormula(written);
  if (!parsed.ok || parsed.value.charge !== 0 || parsed.value.doubts.length > 0) return false;
  const ions = ionsOf(parsed.value);
  return ions.ok && ions.value.ions.length > 0 && !ions.value.balanced;
}

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
  const [, metal, ion] = /^([A-Z][a-z]?)([A-Z][A-Za-z\d]+)$/.exec(salt) ?? [];
  if (ion !== undefined) for (const count of [2, 3]) yield `${metal}(${ion})${count}`;
}

const longest = 40;

/**
 * Why a formula is questioned, and which salts it may have been meant for; undefined where its charges balance, its
 * ions are not known, or no known salt is one count away.
 * @example likelyFormula('NaCO3').cure // 'Write Na2CO3 (sodium carbonate), if that is meant.'
 */
export const likelyFormula: (written: string) => Fault<'charges'> | undefined = memoise(
  (written) => written,
  findLikely,
  1000,
);

function findLikely(written: string): Fault<'charges'> | undefined {
  if (written.length > longest || !isUnbalanced(written) || nameOfFormula(written) !== undefined) return undefined;
  const [, salt = '', water = ''] = saltAndWater.exec(written.trim()) ?? [];
  const likely = [...new Set([...oneCountAway(salt)].filter((one) => isKnown(one) && !isUnbalanced(one)))];
  if (likely.length === 0) return undefined;
  const shown = likely.map((one) => `${one}${water} (${nameOfFormula(one)!})`);
  return {
    code: 'charges',
    message: `The charges of the ions in ${written} do not add up to nothing.`,
    expected: likely.join(', '),
    cure: `Write ${shown.join(' or ')}, if that is meant.`,
  };
}
