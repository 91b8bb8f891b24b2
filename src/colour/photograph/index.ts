// Colours from a photograph that shows a chart, on plain pixels: runs in a browser too.
export { chartByName, chartFromFile, chartNames, type Chart, type ChartName, type ChartPatch } from './chart.js';
export {
  coloursFromPhotograph,
  coverageFactor,
  doublingChroma,
  leastUncertainty,
  differenceInPhotograph,
  uncertaintyOfDifference,
  type PhotographColours,
  type PhotographDifference,
  type PhotographedSample,
  type SampleArea,
} from './colours.js';
export { type FitKind } from './fit.js';
export { placementOf, type Corners, type Grid, type Placement } from './geometry.js';
export { coloursByGreyCard, type RoughColours } from './grey-card.js';
export { type RejectedPatch } from './patches.js';
export { type Picture, type Point, type TransferCurve } from './picture.js';
export { curvesOfProfile, linearCurve, srgbCurve } from './profile.js';
export {
  cornersFrom,
  gridFrom,
  pictureKey,
  requestKey,
  sampleFrom,
  usualGrid,
  type PhotographRequest,
} from './request.js';
