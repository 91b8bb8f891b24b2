// The reagents room's public face: what a maker wrote → one resolved reagent, read by every other room.
export {
  constituents,
  dryComposition,
  gramsPerMole,
  readable,
  type Cation,
  type Constituents,
} from './constituents.js';
export type * from './contracts.js';
export { assayedFigure, type Assayed } from './assay.js';
export type { AssayWritten } from './assay-written.js';
export { areExchanged, formulaContradicted, type NameAndFormula } from './name-and-formula.js';
export { waterContradicted, waterEnds, type WaterEnds } from './hydrates.js';
export { saysDry, usualHydrate } from './usual-hydrates.js';
export { assayedKeys, assayOf, jarAsAssayed } from './assayed-jar.js';
export { stuffFor, takePortion } from './amount.js';
export {
  contentsOf,
  contentShown,
  meantBy,
  nameOfContent,
  type Circumstance,
  type ReagentContent,
  type ReagentContents,
} from './contents/contents.js';
export { toldAfterwards } from './contents/circumstances.js';
export { isPlural } from './plural.js';
export { cupboardOf } from './cupboard.js';
export { dilute, termsOf, type Dilution, type DilutionAsked } from './dilution.js';
export { densityRuleOf, densityTables, undilutedDensity } from './densities.js';
export { heatWordsIn, judgedCelsius, readHeat, type Heat } from './heat.js';
export { identify, isFormula, type Identified, type IdentityGiven } from './identity.js';
export { namesInWords, type NameInWords } from './contents/names-in-words.js';
export { respeltInWords } from './contents/respelt-in-words.js';
export { productsByUse } from './contents/uses-in-words.js';
export { likelyFormula } from './likely-formula.js';
export { nameOfFormula } from './name-of-formula.js';
export { substancesNamed, substancesOfCas } from './known-substances.js';
export { materialNamed, type Material } from './names.js';
export { inEnglish } from './other-languages.js';
export { allNames, otherwiseCalled, type AllNames } from './all-names.js';
export type { UseFacts } from './origin.js';
export {
  resolveJar,
  resolveNamed,
  resolveReagent,
  resolveText,
  resolverOfUses,
  resolveUse,
  unreadReagent,
  writtenQuantity,
  type Measuring,
} from './resolve.js';
export { grAsGrams, whyGrams } from './grams.js';
export { isAmount, readAmountWords } from './rough.js';
export { toldTwice, type ToldTwice } from './two-units.js';
export { strengthNamed, strengthOfWord } from './sold-as.js';
export { resolveStrength, type StrengthGiven } from './strength.js';
export { multipliedOut, readReagentText, withPlainPoints } from './text.js';
export { isWater, isWaterWritten } from './water.js';
export { assumptionsOf, doubtSentence, strengthAssumptionsOf } from './words.js';
