// Salts that are sold with water of crystallisation: written without it they get a question, and where nobody knows how
// much there is, it is between none and that.
import { exact, hillFormula, parseFormula, withCounts, type Decimal, type Formula } from '../chemistry/index.js';
import { hydrateWordsTable } from '../tables/compiled/chemistry/hydrate-words.js';
import { materialNamed } from './names.js';
import { soldHydrate, usualHydrate } from './usual-hydrates.js';

/** The ends of a hydrate of unknown water: the dry salt, and the hydrate that is known to hold the most. */
export interface WaterEnds {
  readonly dry: Formula;
  readonly hydrate: Formula;
  /** Molecules of water of that hydrate. */
  readonly most: Decimal;
}

const isWaterPart = (part: Formula['parts'][number]): boolean =>
  hillFormula({
    written: '',
    parts: [{ ...part, multiplier: { low: exact(1), high: exact(1) } }],
    charge: 0,
    doubts: [],
  }) === 'H2O';

/** The letter that only water has, `x` of Na2CO3·xH2O; undefined where more is open, or nothing is. */
function letterOfWater(formula: Formula): string | undefined {
  const open = formula.parts.filter(({ multiplier }) => multiplier.unknown !== undefined);
  const [water] = open;
  const letters = Object.keys(water?.multiplier.unknown ?? {});
  return open.length === 1 && letters.length === 1 && isWaterPart(water!) ? letters[0] : undefined;
}

/**
 * Between what `Na2CO3·xH2O` lies; undefined where its water is known, or no hydrate of it is in the table.
 * @example Number(waterEnds(parseFormula('Na2CO3·xH2O').value).most) // 10
 */
export function waterEnds(formula: Formula): WaterEnds | undefined {
  const letter = letterOfWater(formula);
  const dry = letter === undefined ? undefined : withCounts(formula, { [letter]: exact(0) });
  const sold = dry && soldHydrate(hillFormula(dry));
  const hydrate = sold === undefined ? undefined : parseFormula(sold.as);
  const inSold = hydrate?.ok ? hydrate.value.parts.find(isWaterPart)?.multiplier.high : undefined;
  const most = sold?.mostWater === undefined ? inSold : exact(sold.mostWater);
  return letter === undefined || !dry || !most
    ? undefined
    : { dry, hydrate: withCounts(formula, { [letter]: most }), most };
}

/** Molecules of water for each unit of the salt; undefined where the formula leaves them open. */
function waterIn({ parts }: Formula): Decimal | undefined {
  const [salt, ...others] = parts;
  const water = others.find(isWaterPart);
  if (!salt || parts.some(({ multiplier }) => multiplier.unknown || !multiplier.low.eq(multiplier.high)))
    return undefined;
  return water ? water.multiplier.high.div(salt.multiplier.high) : exact(0);
}

/** The dry salt of a formula, in one spelling. */
const drySalt = (formula: Formula): string | undefined =>
  formula.parts[0] && hillFormula({ ...formula, parts: [formula.parts[0]], doubts: [] });

let waterByWord: ReadonlyMap<string, string> | undefined;
const hydrateWord = /\b(?:mono|di|tri|tetra|penta|hexa|hepta|octa|nona|deca|dodeca|hexadeca|octadeca)hydrate?\b/i;

/** How much water a name tells: by a word for it, else as the trade knows it by that name. */
function waterNamed(name: string, formula: Formula): { readonly water: Decimal; readonly called: string } | undefined {
  waterByWord ??= new Map(hydrateWordsTable().map(({ word, water }) => [word, water]));
  const word = hydrateWord
    .exec(name)?.[0]
    .toLowerCase()
    .replace(/hydrat$/, 'hydrate');
  const told = word === undefined ? undefined : waterByWord.get(word);
  if (told !== undefined) return { water: exact(told), called: `a ${word}` };
  const material = materialNamed(name);
  if (!material || material.by !== 'table' || material.varies === true) return undefined;
  const known = parseFormula(material.formula);
  if (!known.ok || drySalt(known.value) !== drySalt(formula)) return undefined;
  const water = waterIn(known.value);
  // Of what is written dry in the table only a salt that is sold both ways is surely dry by that name.
  if (water?.isZero() && usualHydrate(material.formula) === undefined) return undefined;
  return water && { water, called: `known as ${material.formula}` };
}

/** A name and a formula that tell of different water. */
export interface WaterContradiction {
  /** `a hexahydrate`, `known as FeSO4.7H2O` */
  readonly called: string;
  /** The salt with the water that the name tells. */
  readonly meant: string;
}

/**
 * Whether a name tells of other water than the formula beside it; undefined where they agree, or where one of them
 * leaves it open.
 * @example waterContradicted('nickel sulfate hexahydrate', parseFormula('NiSO4·7H2O').value).meant // 'NiSO4·6H2O'
 */
export function waterContradicted(name: string, formula: Formula): WaterContradiction | undefined {
  const written = waterIn(formula);
  const named = written && waterNamed(name, formula);
  if (!named || named.water.eq(written)) return undefined;
  const [, salt = formula.written] = /^(.+?)\s*[·*.⋅•]\s*[\d.]*\s*H2O$/u.exec(formula.written) ?? [];
  const { water, called } = named;
  const count = water.eq(1) ? '' : water.toFixed();
  return { called, meant: water.isZero() ? salt : `${salt}·${count}H2O` };
}
