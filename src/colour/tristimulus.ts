// From a reflectance spectrum to XYZ and CIELAB under a lamp, and between XYZ and CIELAB.
import { illuminantsTable } from '../tables/compiled/colour/illuminants.js';
import { observer10degTable } from '../tables/compiled/colour/observer-10deg.js';
import { observer2degTable } from '../tables/compiled/colour/observer-2deg.js';
import { whitePointsTable } from '../tables/compiled/colour/white-points.js';
import type { Illuminant, Observer, Triple } from './numbers.js';
import { atTableWavelengths, tableRange, type Spectrum } from './spectrum.js';

/** What is known of a lamp for either observer. */
interface ForObserver<T> {
  readonly 2: Map<Illuminant, T>;
  readonly 10: Map<Illuminant, T>;
}

const weights: ForObserver<Float64Array> = { 2: new Map(), 10: new Map() };

/** Lamp power times observer at each table wavelength, scaled so that a perfect white has Y = 100; X, Y, Z in turn. */
function weightsOf(illuminant: Illuminant, observer: Observer): Float64Array {
  const known = weights[observer];
  let found = known.get(illuminant);
  if (!found) {
    const eye = observer === 2 ? observer2degTable() : observer10degTable();
    const lamp = illuminantsTable();
    found = new Float64Array(3 * tableRange.count);
    let white = 0;
    for (let i = 0; i < tableRange.count; i += 1) {
      const power = lamp[i]![illuminant];
      found[3 * i] = power * eye[i]!.x;
      found[3 * i + 1] = power * eye[i]!.y;
      found[3 * i + 2] = power * eye[i]!.z;
      white += found[3 * i + 1]!;
    }
    for (let i = 0; i < found.length; i += 1) found[i] = (found[i]! * 100) / white;
    known.set(illuminant, found);
  }
  return found;
}

const whites: ForObserver<Triple> = { 2: new Map(), 10: new Map() };

/**
 * XYZ of the perfect white under a lamp, by the published rounding (`white-points.csv`: ASTM E308).
 * @example whiteOf('D65', 10) // [94.811, 100, 107.304]
 */
export function whiteOf(illuminant: Illuminant, observer: Observer): Triple {
  const known = whites[observer];
  let white = known.get(illuminant);
  if (!white) {
    const row = whitePointsTable().find((line) => line.illuminant === illuminant && line.observer === observer);
    if (!row) throw new Error(`no white point for ${illuminant}/${observer}`);
    white = [row.X, row.Y, row.Z];
    known.set(illuminant, white);
  }
  return white;
}

/** XYZ (Y = 100 for white) from reflectance at the 81 table wavelengths. CIE 15:2018, summation at 5 nm. */
export function xyzFromTableValues(reflectance: Float64Array, illuminant: Illuminant, observer: Observer): Triple {
  const weight = weightsOf(illuminant, observer);
  let x = 0;
  let y = 0;
  let z = 0;
  for (let i = 0; i < tableRange.count; i += 1) {
    const r = reflectance[i]!;
    x += r * weight[3 * i]!;
    y += r * weight[3 * i + 1]!;
    z += r * weight[3 * i + 2]!;
  }
  return [x, y, z];
}

/** Y alone, of daylight for the 2° observer. */
export function luminanceFromTableValues(reflectance: Float64Array): number {
  const weight = weightsOf('D65', 2);
  let y = 0;
  for (let i = 0; i < tableRange.count; i += 1) y += reflectance[i]! * weight[3 * i + 1]!;
  return y;
}

/**
 * XYZ of a reflectance spectrum under a lamp, for an observer.
 * @example xyzFromSpectrum(spectrum, 'D65', 10)[1] // Y, 0 to 100
 */
export const xyzFromSpectrum = (spectrum: Spectrum, illuminant: Illuminant, observer: Observer): Triple =>
  xyzFromTableValues(atTableWavelengths(spectrum), illuminant, observer);

/** f(t) of CIELAB, linear below (6/29)³. */
const labFunction = (t: number): number => (t > 216 / 24389 ? Math.cbrt(t) : (841 / 108) * t + 4 / 29);
/** The way back from f(t). */
const inverseLabFunction = (f: number): number => (f > 6 / 29 ? f ** 3 : (108 / 841) * (f - 4 / 29));

/**
 * CIELAB of XYZ against a white. CIE 15:2018, ISO/CIE 11664-4.
 * @example labFromXyz([94.811, 100, 107.304], whiteOf('D65', 10)) // [100, 0, 0]
 */
export function labFromXyz(xyz: Triple, white: Triple): Triple {
  const x = labFunction(xyz[0] / white[0]);
  const y = labFunction(xyz[1] / white[1]);
  const z = labFunction(xyz[2] / white[2]);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** XYZ of CIELAB against a white: the way back. */
export function xyzFromLab(lab: Triple, white: Triple): Triple {
  const y = (lab[0] + 16) / 116;
  return [
    white[0] * inverseLabFunction(y + lab[1] / 500),
    white[1] * inverseLabFunction(y),
    white[2] * inverseLabFunction(y - lab[2] / 200),
  ];
}

/**
 * L*, C*ab and hue angle (degrees, 0 … 360).
 * @example lchFromLab([50, 0, -20]) // [50, 20, 270]
 */
export function lchFromLab([l, a, b]: Triple): Triple {
  const angle = (Math.atan2(b, a) * 180) / Math.PI;
  return [l, Math.hypot(a, b), angle < 0 ? angle + 360 : angle];
}
