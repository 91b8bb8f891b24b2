// A name and a formula that stand side by side and are not of one substance: copper sulfate, ZnSO4.
import { constituents, dryComposition, type Constituents } from './constituents.js';
import { materialNamed, type Material } from './names.js';

/** What organic names and formulae, solutions and the air have in common: it tells no substances apart. */
const common: ReadonlySet<string> = new Set(['H', 'C', 'N', 'O']);

/** Salts of all of these go by one name in the trade: bleach. */
const inTrade: ReadonlySet<string> = new Set([...common, 'Li', 'Na', 'K', 'Mg', 'Ca']);

/** Whether each has an element that the other lacks, but for those that tell nothing. */
function differInElements(one: Constituents, other: Constituents, untold: ReadonlySet<string>): boolean {
  const lacks = (a: Constituents, b: Constituents): boolean =>
    [...a.atoms.keys()].some((element) => !untold.has(element) && !b.atoms.has(element));
  return lacks(one, other) && lacks(other, one);
}

/** Anions that a name leaves open: sodium phosphate may be Na3PO4, NaH2PO4 or Na4P2O7. */
const family =
  /^(?:di|tri|tetra|meta)?(?:di)?(?:hydrogen)?(?:di)?(phosphate|borate|silicate|arsenate|arsenite|citrate|tartrate)$/;

/** Anions by family; oxides tell nothing, as any salt of an oxyacid may be written in them. */
const anions = ({ ions }: Constituents): readonly string[] =>
  [...ions.keys()].filter((ion) => ion !== 'ammonium' && ion !== 'oxide').map((ion) => family.exec(ion)?.[1] ?? ion);

/** Whether both have anions, and none in common: a nitrite and a nitrate. */
function differInAnions(one: Constituents, other: Constituents): boolean {
  const [own, others] = [anions(one), anions(other)];
  return own.length > 0 && others.length > 0 && !own.some((ion) => others.includes(ion));
}

/** `chromium(III) oxide`, CrO3: the metal in another state, where the name says which. */
function differInCharge(name: string, one: Constituents, other: Constituents): boolean {
  const [[own, ...more], [written, ...further]] = [one.cations, other.cations];
  if (!/\((?:i{1,3}|iv|vi{0,2})\)/i.test(name) || !own || !written || more.length + further.length > 0) return false;
  return own.symbol === written.symbol && own.charge !== written.charge;
}

/** `potassium ferrocyanide`, which stands in the table of names. */
const nameOfSalt = /(?:ide|ate|ite)\b/i;

/** Of a name of the trade mostly other elements tell; a salt that is named by its ions is what they say. */
function differs(name: string, { by }: Material, one: Constituents, other: Constituents): boolean {
  if (differInElements(one, other, by === 'ions' ? common : inTrade)) return true;
  return (by === 'ions' || nameOfSalt.test(name)) && (differInAnions(one, other) || differInCharge(name, one, other));
}

const lettersOf = (word: string): string => word.replace(/[^\p{L}\d]/gu, '');

/** `copper sulfate CuSO4.5H2O`, as one text: the name without its formula. */
const nameAlone = (name: string, formula: string): string =>
  name
    .split(' ')
    .filter((word) => lettersOf(word) !== lettersOf(formula))
    .join(' ');

/** Whether a formula is what a name of the tables stands for, whatever the water of both. */
function isNamed(name: string, formula: string): boolean {
  const material = materialNamed(name);
  return material !== undefined && dryComposition(material.formula) === dryComposition(formula);
}

/** A name with the formula beside it. */
export interface NameAndFormula {
  readonly name: string;
  readonly formula: string;
}

/**
 * Whether each of two has the formula that the other is named for, and not its own.
 * @example
 * areExchanged({ name: 'quicklime', formula: 'BaSO4' }, { name: 'barytes', formula: 'CaO' }) // true
 */
export const areExchanged = (one: NameAndFormula, other: NameAndFormula): boolean =>
  isNamed(nameAlone(one.name, one.formula), other.formula) &&
  isNamed(nameAlone(other.name, other.formula), one.formula) &&
  !isNamed(nameAlone(one.name, one.formula), one.formula);

/**
 * The formula that a name stands for, where that cannot be the formula written beside it; undefined where they agree,
 * where nothing knows the name, or where several things are sold by it.
 * @example formulaContradicted('copper sulfate', 'ZnSO4') // 'CuSO4'
 * @example formulaContradicted('copper sulfate ZnSO4', 'ZnSO4') // 'CuSO4'
 * @example formulaContradicted('copper carbonate', 'Cu2CO3(OH)2') // undefined
 */
export function formulaContradicted(called: string, formula: string): string | undefined {
  const name = nameAlone(called, formula);
  const material = materialNamed(name);
  if (!material || material.varies === true) return undefined;
  const [named, written] = [constituents(material.formula), constituents(formula)];
  if (!named.ok || !written.ok || named.value.dry === written.value.dry) return undefined;
  return differs(name, material, named.value, written.value) ? material.formula : undefined;
}
