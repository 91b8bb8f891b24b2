// What a formula is made of, as far as finding a substance by it needs: elements, and water of crystallisation apart.
import {
  composition,
  elements,
  hillFormula,
  openProportions,
  parseFormula,
  type Formula,
} from '../../chemistry/index.js';

export interface SubstanceComposition {
  /** The formula in one spelling of dots and digits. */
  readonly text: string;
  /** Composition in Hill order; empty where the formula is read in part only. */
  readonly whole: string;
  /** The same without water of crystallisation. */
  readonly dry: string;
  readonly holdsWater: boolean;
  /** Atoms of each element without water of crystallisation. */
  readonly elements: ReadonlyMap<string, number>;
  /** Only the elements could be made out, not how many of each. */
  readonly partly?: boolean;
}

/** Formula as plain text, so that two spellings of the same dots and digits are one: `CuSO4·5H2O` and `CuSO4.5H2O`. */
export const formulaText = (formula: string): string =>
  formula
    .normalize('NFKC')
    .replace(/\((?:s|l|g|aq)\)\s*$/, '')
    .replace(/[·•∙⋅‧*∗×]/g, '.')
    .replace(/\s+/g, '');

type Part = Formula['parts'][number];

const once = ({ multiplier: { low, high } }: Part): Part['multiplier'] => ({ low: low.div(low), high: high.div(high) });

const isWater = (formula: Formula, part: Part): boolean =>
  hillFormula({ ...formula, parts: [{ ...part, multiplier: once(part) }] }) === 'H2O';

/** The composition of a formula, or undefined if it cannot be read or leaves a proportion open. */
export function compositionOf(text: string): SubstanceComposition | undefined {
  const read = parseFormula(text);
  if (!read.ok || openProportions(read.value.parts).length > 0) return undefined;
  const formula = read.value;
  const dryParts =
    formula.parts.length > 1
      ? formula.parts.filter((part) => part.multiplier.low.isZero() || !isWater(formula, part))
      : formula.parts;
  // One formula unit of the salt: 3CdSO4·8H2O is cadmium sulfate.
  const [only] = dryParts;
  const isHydrate = formula.parts.length > 1 && dryParts.length === 1 && !only!.multiplier.low.isZero();
  const dry = { ...formula, parts: isHydrate ? [{ ...only!, multiplier: once(only!) }] : dryParts };
  return {
    text: formulaText(text),
    whole: hillFormula(formula),
    dry: hillFormula(dry),
    holdsWater: dryParts.length < formula.parts.length,
    elements: new Map(
      [...composition(dry)].map(([symbol, count]) => [symbol, count.low.plus(count.high).div(2).toNumber()]),
    ),
  };
}

/** The elements of a formula that cannot be read in full, such as `Pb(Cr,Mo,S)O4`. */
export function elementsIn(formula: string): SubstanceComposition | undefined {
  const known = elements();
  const words = formula.normalize('NFKC').match(/[A-Z][a-z]?(?![a-z])/g) ?? [];
  const symbols = words.filter((symbol) => known.has(symbol));
  if (symbols.length === 0) return undefined;
  return {
    text: formulaText(formula),
    whole: '',
    dry: '',
    holdsWater: false,
    elements: new Map(symbols.map((symbol) => [symbol, 1])),
    partly: true,
  };
}

const nonMetals = new Set('H B C N O F Si P S Cl Se Br I He Ne Ar'.split(' '));
export const isMetal = (symbol: string): boolean => !nonMetals.has(symbol);
export const metalsOf = (made: SubstanceComposition): readonly string[] => [...made.elements.keys()].filter(isMetal);
