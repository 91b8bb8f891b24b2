// Formulae typed in small letters, in capitals, with a nought for the letter O or a capital I for a small L: `nh4no3`,
// `NAOH`, `H2S04`, `CaCI2`.
import { elements, withSmallL } from '../chemistry/index.js';
import { preparedByKey } from '../tables/prepared.js';
import { namedFormulae } from './table-formulae.js';

/** They are words, or parts of names, before they are formulae. */
const rathersWords = /^(?:alp|bas|cas|cds|coo|cos|mns|nas|nib|nis|nise|sic|sns)$/;

const keyOf = (formula: string): string => formula.toLowerCase().replaceAll('0', 'o');

/** Letters and digits, and long enough to be nothing else. */
const isPlain = (key: string): boolean => /^[a-z0-9()]{3,}$/.test(key) && !rathersWords.test(key);

/** The anhydrous salt of a hydrate: `CoCl2·6H2O` is no reason to take `CoCl2` for phosgene. */
const withoutWater = (formula: string): string => formula.replace(/[.·]\d*(?:\.\d+)?H2O$/, '');

const formulaByKey = preparedByKey<string>('formulae-in-any-case', () => {
  const found = new Map<string, Set<string>>();
  for (const formula of namedFormulae().flatMap((one) => [one, withoutWater(one)])) {
    const key = keyOf(formula);
    if (isPlain(key)) found.set(key, (found.get(key) ?? new Set()).add(formula));
  }
  return [...found].flatMap(([key, all]) => (all.size === 1 ? [[key, [...all][0]!] as const] : []));
});

const hasWeight = (symbol: string): boolean => elements().get(symbol)?.weight !== undefined;

/** Capitals and small letters as symbols of elements have them, none of an element that nobody has a jar of. */
const isWrittenRight = (text: string): boolean =>
  /[a-z]/.test(text) &&
  /^(?:[A-Z][a-z]?|[\d()[\].·])+$/.test(text) &&
  (text.match(/[A-Z][a-z]?/g) ?? []).every(hasWeight);

/** `cuso4.5h2o`, `NA2CO3 x 10 H20` */
const withWater = /^([A-Za-z0-9()]{3,}?)(?:\s*[.·*x,]\s*|\s+)(\d{0,2})\s*h2o$/i;

/** `CaCo3`: no cobalt is meant. */
const carbonateSlip = (text: string): string => text.replace(/Co3(?!O)/g, 'CO3');

/** The formula of the tables that has a small L where a capital I was typed. */
function withSmallLs(text: string): string | undefined {
  const meant = withSmallL(text);
  if (meant === text || !isPlain(keyOf(text)) || formulaByKey(keyOf(text)) === text) return undefined;
  return formulaByKey(keyOf(meant));
}

/**
 * The formula of the tables that is meant; undefined where none is, where it could be two, and where it is written as
 * it should be.
 * @example formulaInAnyCase('H2S04') // 'H2SO4'
 * @example formulaInAnyCase('CoCl2') // undefined
 */
export function formulaInAnyCase(written: string): string | undefined {
  const text = written.trim();
  const [, salt, water] = withWater.exec(text) ?? [];
  if (salt !== undefined) {
    const dry = formulaInAnyCase(salt) ?? (isWrittenRight(salt) ? salt : undefined);
    const whole = `${dry}·${water}H2O`;
    return dry === undefined || whole === text ? undefined : whole;
  }
  const inSmallLs = withSmallLs(text);
  if (inSmallLs !== undefined) return inSmallLs;
  const key = keyOf(text);
  const formula = isPlain(key) ? formulaByKey(key) : undefined;
  if (formula === undefined || formula === text) return undefined;
  return isWrittenRight(text) && carbonateSlip(text) !== formula ? undefined : formula;
}
