// Formulae: reading, printing, composition, mass, setting on a page.
export { placesOfCapitals, withSmallL } from './capitals.js';
export { composition, unknownCounts, type GivenCounts } from './composition.js';
export { isListedIon } from './charge.js';
export { withoutMarkup } from './markup.js';
export {
  formulaOfNodes,
  isElectron,
  single,
  type Atom,
  type Composition,
  type Count,
  type Formula,
  type FormulaDoubt,
  type FormulaNode,
  type FormulaPart,
  type Group,
} from './model.js';
export {
  massFractionRanges,
  massFractions,
  molarMass,
  molarMassBounds,
  type MolarMass,
  type MolarMassBounds,
  type MolarMassFault,
} from './molar-mass.js';
export { endForms, openProportions, withCounts, withoutUnbounded } from './open.js';
export { oxideEquivalents, type OxideShare } from './oxides.js';
export { parseFormula } from './parse.js';
export { chargeText, countText, hillFormula, nodesText, printFormula } from './print.js';
export { typeset, type Run, type Typeset } from './typeset.js';
