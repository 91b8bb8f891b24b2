// The colour room's public face. Pure: it reads nothing but its own tables, and those only when first needed.
export { adapt, directions, inconstancy, inWords, type Inconstancy, type Transform } from './adaptation.js';
export {
  plainNumber,
  type FileNote,
  type ReadingsFile,
  type SpectrumReading,
  type ValueReading,
} from './instruments/reading.js';
export { deltaE00, deltaE76, deltaECmc, lchDifference, type LchDifference } from './difference.js';
export { families, familiesNear, familyNamed, familyOf, type Family } from './families.js';
export {
  assumed,
  assumptions,
  colourFromFile,
  type FileColour,
  type StatedConditions,
} from './file-colour.js';
export {
  filmFromBackings,
  filmOver,
  filmsFromLuminance,
  filmsFromSpectra,
  type Film,
  type Films,
} from './films.js';
export {
  firstDerivative,
  kubelkaMunkCurve,
  tintingStrength,
  type CurveValue,
  type TintingStrength,
} from './identification.js';
export { kOverS, reflectanceOf } from './kubelka-munk.js';
export { corrected, metamerismIndex, type Correction, type UnderTwoLamps } from './metamerism.js';
export {
  illuminants,
  isIlluminant,
  lampNames,
  lamps,
  underNames,
  type Illuminant,
  type Lamp,
  type Observer,
  type Triple,
} from './numbers.js';
export { contrast, type Contrast, type OpacityWord } from './opacity.js';
export { readReadings } from './instruments/read.js';
export { samplesIn, type WantedSets } from './instruments/sets.js';
export { decodeText } from './instruments/text.js';
export {
  colourFromLab,
  colourFromPhotograph,
  colourFromSpectra,
  colourFromSrgb,
  colourFromXyz,
  compare,
  type Basis,
  type ComparedNames,
  type Difference,
  type Move,
  type PhotographedColour,
  type SampleColour,
  type Under,
} from './sample-colour.js';
export { screenFromLab50, screenFromLab65, screenFromXyz, xyzFromSrgb, type ScreenColour } from './screen.js';
export { checkLab, checkXyz } from './surface.js';
export { atTableWavelengths, makeSpectrum, meanSpectrum, wavelengthFault, type Spectrum } from './spectrum.js';
export { readStandardTest, standardTests, type StandardTest } from './standard-tests.js';
export { standardWhite, standardWhiteName } from './standard-white.js';
export { ladderShares, tintKs, tintLadder, tintsFromMeasured, unitFromTint, type MeasuredTint } from './tints.js';
export { labFromXyz, lchFromLab, whiteOf, xyzFromLab, xyzFromSpectrum, xyzFromTableValues } from './tristimulus.js';
export {
  disagreement,
  noVerdict,
  oneDrawdownOf,
  repeatsOfOneAnother,
  scatterOf,
  scatterOfDifference,
  thresholdOf,
  thresholds,
  verdict,
  verdictByRepeats,
  withinTolerance,
  type Doubt,
  type RepeatsJudged,
  type Scatter,
  type Threshold,
  type ToleranceVerdict,
  type Verdict,
  type VerdictCode,
} from './verdict.js';
