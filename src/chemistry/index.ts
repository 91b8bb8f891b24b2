// The chemistry room's public face.
export { elementName, elements, type Element } from './atomic-weights.js';
export { Decimal, exact, isOne, isPositive, nearestNumber, UncertaintyDecimal } from './exact.js';
export {
  chargeText,
  composition,
  countText,
  endForms,
  withCounts,
  hillFormula,
  isElectron,
  massFractionRanges,
  massFractions,
  molarMass,
  molarMassBounds,
  openProportions,
  oxideEquivalents,
  parseFormula,
  placesOfCapitals,
  printFormula,
  typeset,
  unknownCounts,
  type Atom,
  type Composition,
  type Count,
  type Formula,
  type FormulaNode,
  type FormulaPart,
  type Group,
  type MolarMass,
  type MolarMassBounds,
  type OxideShare,
  type Run,
  type Typeset,
} from './formula/index.js';
export {
  numberWordPattern,
  parseQuantity,
  plainSigns,
  saidCount,
  type Dimension,
  type Quantity,
} from './quantity/index.js';
export type { UncertainDecimal } from './uncertainty.js';
export {
  acidBaseOf,
  alkaliInWater,
  dissolves,
  ionsOf,
  speciesKey,
  suppliedBy,
  withoutWater,
  type AcidBase,
  type Dissociation,
  type Ion,
} from './ions/index.js';
export {
  balance,
  balancedOrAfresh,
  imbalances,
  imbalanceSentence,
  nullSpace,
  parseEquation,
  printEquation,
  type Balanced,
  type Equation,
  type Imbalance,
  type Term,
} from './equation/index.js';
export { waterDensity } from './water-density.js';
export { parseTarget, sharesTaken, solveTarget, type ElementShare, type Target } from './target.js';
export { solubilityOf, type Solubility } from './solubility.js';
export { shareLeftByWashing, type WashesAlike } from './washing.js';
export { productInResidue, unitsInResidue, waterInResidue } from './ignition.js';
export {
  atomEconomy,
  elementMasses,
  percentYield,
  productAsWeighed,
  findLimitingReagent,
  isAmbient,
  theoreticalYield,
  type LimitingReagent,
  type ReactantSupply,
  type ReagentTaken,
  type TheoreticalYield,
} from './stoichiometry.js';
export { reading, weighingInput, type MissingFault, type Taken } from './taken.js';
export {
  expandedSize,
  expandedUncertainty,
  isBeyondItsUncertainty,
  minus,
  contributionsFrom,
  dividedBy,
  plus,
  rectangular,
  scaled,
  standardUncertainty,
  sum,
  tenToThe,
  times,
  triangular,
  withoutUncertainty,
  withInputsNamed,
  withUncertainty,
} from './uncertainty.js';
export {
  forMachines,
  inPlaces,
  roundedValue,
  roundToUncertainty,
  showWithUnit,
  toSignificantDigits,
  withMinus,
} from './rounding.js';
export {
  grubbs,
  grubbsCritical,
  holm,
  incompleteBeta,
  sampleStatistics,
  singleAgainst,
  singleAgainstSample,
  studentCritical,
  studentProbability,
  welch,
  welchOf,
  type GrubbsTest,
  type SampleStatistics,
  type SingleAgainstSample,
  type Spread,
  type WelchTest,
} from './statistics.js';
