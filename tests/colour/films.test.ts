// Films of paint over black and white, and their undertone, by forward simulation.
import { describe, expect, it } from 'vitest';
import { filmOver, filmsFromLuminance, filmsFromSpectra } from '../../src/colour/films.js';
import { screenFromXyz } from '../../src/colour/screen.js';
import { tableRange } from '../../src/colour/spectrum.js';
import { whiteOf, xyzFromTableValues } from '../../src/colour/tristimulus.js';

const level = (r: number | ((i: number) => number)) =>
  Float64Array.from({ length: tableRange.count }, (_, i) => (typeof r === 'number' ? r : r(i)));
const shown = (values: Float64Array) => screenFromXyz(xyzFromTableValues(values, 'D65', 2), whiteOf('D65', 2));
// A reddish paint of scattering power 0.8 over a card of 5 and 85 %.
const opaque = level((i) => 0.1 + 0.5 / (1 + Math.exp((45 - i) / 4)));
const film = (power: number, backing: number) => opaque.map((r) => filmOver(r, power, backing));

describe('films', () => {
  it('from spectra over black and white give the undertone of a quarter of the thickness', () => {
    const films = filmsFromSpectra(film(0.8, 0.05), film(0.8, 0.85));
    expect(films.undertone).toEqual(shown(film(0.2, 0.85)));
    expect(films.overBlack).toEqual(shown(film(0.8, 0.05)));
    expect(films.overWhite).toEqual(shown(film(0.8, 0.85)));
    expect(films.estimated).toBe(false);
  });
  it('from two Y values of a neutral film are those of its scattering', () => {
    const [black, white] = [0.05, 0.85].map((backing) => 100 * filmOver(0.4, 0.8, backing));
    const films = filmsFromLuminance(black!, white!, level(0.4));
    expect(films).toEqual({
      overBlack: shown(level(filmOver(0.4, 0.8, 0.05))),
      overWhite: shown(level(filmOver(0.4, 0.8, 0.85))),
      undertone: shown(level(filmOver(0.4, 0.2, 0.85))),
      estimated: true,
    });
  });
  it('from two Y values and XYZ alone tell the same of a neutral film', () => {
    const [black, white] = [0.05, 0.85].map((backing) => 100 * filmOver(0.4, 0.8, backing));
    const grey = whiteOf('D65', 2).map((value) => value * 0.4) as unknown as readonly [number, number, number];
    expect(filmsFromLuminance(black!, white!, grey)).toEqual(filmsFromLuminance(black!, white!, level(0.4)));
  });
  it('a film that hides looks the same over everything', () => {
    const films = filmsFromSpectra(opaque, opaque);
    expect(new Set([films.overBlack.hex, films.overWhite.hex, films.undertone.hex]).size).toBe(1);
  });
});
