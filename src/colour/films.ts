// How a film of paint looks over black, over white and thinly over white (its undertone), from its opacity.
import { filmFromBackings, filmOver } from './kubelka-munk.js';
import type { Triple } from './numbers.js';
import { screenFromXyz, type Shown } from './screen.js';
import { whiteOf, xyzFromTableValues } from './tristimulus.js';

/** Reflectance of the backings when the card is not known: black and white areas of usual test cards (Y about 5 and 85; source: the cards of the Revigo spectra). */
const card = { black: 0.05, white: 0.85 } as const;

/** The undertone is shown for this part of the film's thickness. Choice: common practice, no source. */
const thin = 0.25;

export interface Films {
  readonly overBlack: Shown;
  readonly overWhite: Shown;
  readonly undertone: Shown;
  /** The films over black and white are computed, not measured. */
  readonly estimated: boolean;
}

const show = (values: Float64Array): Shown => screenFromXyz(xyzFromTableValues(values, 'D65', 2), whiteOf('D65', 2));

/**
 * From spectra of the film over black and over white, at the 81 table wavelengths. Where the film hides, two readings
 * cannot tell its scattering; it is taken from the wavelengths where they can (their median), as it changes little.
 */
export function filmsFromSpectra(overBlack: Float64Array, overWhite: Float64Array): Films {
  const films = Array.from(overBlack, (black, i) => filmFromBackings(black, card.black, overWhite[i]!, card.white));
  const told = films
    .map(({ scatter }) => scatter)
    .filter(Number.isFinite)
    .sort((a, b) => a - b);
  const usual = told[Math.floor(told.length / 2)] ?? Infinity;
  const undertone = Float64Array.from(films, ({ opaque, scatter }) => {
    const power = Number.isFinite(scatter) ? scatter : usual;
    return Number.isFinite(power) ? filmOver(opaque, power * thin, card.white) : opaque;
  });
  return { overBlack: show(overBlack), overWhite: show(overWhite), undertone: show(undertone), estimated: false };
}

/**
 * From Y over black and over white (0 to 100) and the colour at full hiding: the scattering that Y tells is taken to
 * be the same at all wavelengths. An estimate.
 * @param masstone reflectance at the 81 table wavelengths, or XYZ (D65, 2°) when no spectrum is known
 */
export function filmsFromLuminance(yBlack: number, yWhite: number, masstone: Float64Array | Triple): Films {
  const { scatter } = filmFromBackings(yBlack / 100, card.black, yWhite / 100, card.white);
  const over = (opaque: number, power: number, backing: number) =>
    Number.isFinite(power) ? filmOver(opaque, power, backing) : opaque;
  const film = (power: number, backing: number): Shown => {
    if (masstone instanceof Float64Array) return show(masstone.map((r) => over(r, power, backing)));
    const white = whiteOf('D65', 2);
    return screenFromXyz(
      [0, 1, 2].map((i) => white[i]! * over(masstone[i]! / white[i]!, power, backing)) as unknown as Triple,
      white,
    );
  };
  return {
    overBlack: film(scatter, card.black),
    overWhite: film(scatter, card.white),
    undertone: film(scatter * thin, card.white),
    estimated: true,
  };
}
