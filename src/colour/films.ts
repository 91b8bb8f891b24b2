// How a film of paint looks over black, over white and thinly over white (its undertone), from its opacity.
import { clampedReflectance, kOverS } from './kubelka-munk.js';
import type { Triple } from './numbers.js';
import { screenFromXyz, type ScreenColour } from './screen.js';
import { luminanceFromTableValues, whiteOf, xyzFromTableValues } from './tristimulus.js';

/**
 * Reflectance of a film over a backing.
 * @param opaque reflectance of the same paint at full hiding, 0 … 1
 * @param scatter scattering power of the film, S times thickness
 * @param backing reflectance of what is beneath, 0 … 1
 * @example filmOver(0.53668, 0.8, 0.05) // 0.40087
 */
export const filmOver = (opaque: number, scatter: number, backing: number): number =>
  scatter <= 0 ? backing : over(backing, 1 + kOverS(opaque), scatter);

/** The same by a of the Kubelka–Munk solution, 1 + K/S. */
function over(backing: number, a: number, scatter: number): number {
  const b = Math.sqrt(a * a - 1);
  // For a white that absorbs nothing, b is 0 and b·coth(b·SX) is 1/SX.
  const x = b * scatter;
  const cot = x < 1e-6 ? 1 / scatter : b / Math.tanh(x);
  return (1 - backing * (a - cot)) / (a - backing + cot);
}

/** A film known from its readings over two backings: reflectance at full hiding, and scattering power. */
export interface Film {
  readonly opaque: number;
  /** S times thickness; Infinity when the film hides. */
  readonly scatter: number;
}

/**
 * A film from two readings over two backings (0 … 1); when the two hardly differ the film hides, and is its own
 * masstone. Own derivation from the Kubelka–Munk solution, checked against `filmOver`.
 * @example filmFromBackings(0.40087, 0.05, 0.64138, 0.8) // { opaque: 0.5367, scatter: 0.8 }
 */
export function filmFromBackings(overBlack: number, black: number, overWhite: number, white: number): Film {
  const hiding: Film = { opaque: clampedReflectance((overBlack + overWhite) / 2), scatter: Infinity };
  if (overWhite - overBlack < 0.002) return hiding;
  const above = (1 + overBlack * black) * (overWhite - white) - (1 + overWhite * white) * (overBlack - black);
  const below = (overBlack + black) * (overWhite - white) - (overWhite + white) * (overBlack - black);
  const a = above / below;
  if (!Number.isFinite(a) || a < 1) return hiding;
  const b = Math.sqrt(a * a - 1);
  const opaque = a - b;
  // R = [1 − G(a − c)] / (a − G + c), with c = b·coth(b·SX), solved for c over black.
  const c = (1 - black * a - overBlack * (a - black)) / (overBlack - black);
  if (!Number.isFinite(c) || c <= b) return { opaque, scatter: Infinity };
  return { opaque, scatter: b < 1e-9 ? 1 / c : Math.atanh(b / c) / b };
}

/**
 * Reflectance of the backings when the card is not known: black and white areas of usual test cards (Y about 5 and
 * 85; source: the cards of the Revigo spectra).
 */
const card = { black: 0.05, white: 0.85 } as const;

/** The undertone is shown for this part of the film's thickness. Choice: common practice, no source. */
const thin = 0.25;

export interface Films {
  readonly overBlack: ScreenColour;
  readonly overWhite: ScreenColour;
  readonly undertone: ScreenColour;
  /** The films over black and white are computed, not measured. */
  readonly estimated: boolean;
}

const onScreen = (values: Float64Array): ScreenColour =>
  screenFromXyz(xyzFromTableValues(values, 'D65', 2), whiteOf('D65', 2));

/**
 * From spectra of the film over black and over white, at the 81 table wavelengths. Where the film hides, two readings
 * cannot tell its scattering; it is taken from the wavelengths where they can (their median), as it changes little.
 */
export function filmsFromSpectra(overBlack: Float64Array, overWhite: Float64Array): Films {
  const films = Array.from(overBlack, (black, i) => filmFromBackings(black, card.black, overWhite[i]!, card.white));
  const known = films
    .map(({ scatter }) => scatter)
    .filter(Number.isFinite)
    .sort((a, b) => a - b);
  const usual = known[Math.floor(known.length / 2)] ?? Infinity;
  const undertone = Float64Array.from(films, ({ opaque, scatter }) => {
    const power = Number.isFinite(scatter) ? scatter : usual;
    return Number.isFinite(power) ? filmOver(opaque, power * thin, card.white) : opaque;
  });
  return {
    overBlack: onScreen(overBlack),
    overWhite: onScreen(overWhite),
    undertone: onScreen(undertone),
    estimated: false,
  };
}

/**
 * Reflectance with the luminance factor that was measured: lightened or darkened by one factor, no wavelength over 1.
 */
function withLuminance(values: Float64Array, y: number): Float64Array {
  let scaled = values;
  for (let round = 0; round < 20; round += 1) {
    const now = luminanceFromTableValues(scaled);
    if (Math.abs(now - y) < 0.005 || now <= 0) break;
    scaled = lightened(scaled, y, now);
  }
  return scaled;
}

function lightened(values: Float64Array, y: number, now: number): Float64Array {
  const lighter = new Float64Array(values.length);
  for (let i = 0; i < values.length; i += 1) lighter[i] = Math.min(1, (values[i]! * y) / now);
  return lighter;
}

/** A film of a paint over a backing at each table wavelength, where the paint at full hiding is the masstone. */
function filmValues(masstone: Float64Array, scatter: number, backing: number): Float64Array {
  if (!Number.isFinite(scatter)) return masstone;
  const values = new Float64Array(masstone.length);
  if (scatter <= 0) return values.fill(backing);
  for (let i = 0; i < values.length; i += 1) values[i] = over(backing, 1 + kOverS(masstone[i]!), scatter);
  return values;
}

const scaledXyz = ([x, y, z]: Triple, to: number): Triple => (y > 0 ? [(x * to) / y, to, (z * to) / y] : [0, 0, 0]);

/**
 * From Y over black and over white (0 to 100) and the colour at full hiding: the scattering that Y tells is taken to
 * be the same at all wavelengths, which gives the hue; the lightness of either film is the one measured. An estimate.
 * @param masstone reflectance at the 81 table wavelengths, or XYZ (D65, 2°) when no spectrum is known
 */
export function filmsFromLuminance(yBlack: number, yWhite: number, masstone: Float64Array | Triple): Films {
  const { scatter } = filmFromBackings(yBlack / 100, card.black, yWhite / 100, card.white);
  if (masstone instanceof Float64Array)
    return {
      overBlack: onScreen(withLuminance(filmValues(masstone, scatter, card.black), yBlack)),
      overWhite: onScreen(withLuminance(filmValues(masstone, scatter, card.white), yWhite)),
      undertone: onScreen(filmValues(masstone, scatter * thin, card.white)),
      estimated: true,
    };
  const hidden = (opaque: number, power: number, backing: number) =>
    Number.isFinite(power) ? filmOver(opaque, power, backing) : opaque;
  const white = whiteOf('D65', 2);
  const film = (power: number, backing: number): Triple => {
    const [x, y, z] = masstone.map((value, i) => white[i]! * hidden(value / white[i]!, power, backing));
    return [x!, y!, z!];
  };
  return {
    overBlack: screenFromXyz(scaledXyz(film(scatter, card.black), yBlack), white),
    overWhite: screenFromXyz(scaledXyz(film(scatter, card.white), yWhite), white),
    undertone: screenFromXyz(film(scatter * thin, card.white), white),
    estimated: true,
  };
}
