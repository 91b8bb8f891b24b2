// Colours for screens and paper: sRGB within its gamut, mapped the way of CSS Color 4 where it must be.
import { bad, good, type Outcome } from '../outcome.js';
import { adapt } from './adaptation.js';
import {
  clampRgb,
  convertLab65ToRgb,
  convertLabToXyz50,
  convertXyz50ToXyz65,
  convertXyz65ToRgb,
  formatHex,
  toGamut,
} from './culori.js';
import type { Triple } from './numbers.js';
import { labFromXyz, whiteOf } from './tristimulus.js';

/** A colour as it can be shown. */
export interface ScreenColour {
  /** In-gamut sRGB, `#rrggbb`. */
  readonly hex: string;
  /** The colour lies outside sRGB and was mapped into it: less chroma at the same OKLCH lightness and hue. */
  readonly mapped: boolean;
}

interface Rgb {
  readonly mode: 'rgb';
  readonly r: number;
  readonly g: number;
  readonly b: number;
}

/** Below this, a channel outside 0 … 1 is rounding and not gamut (about a quarter of an 8-bit step). */
const tolerance = 0.001;

const toCssGamut = toGamut('rgb', 'oklch');

function onScreen(colour: Rgb): ScreenColour {
  const inside = [colour.r, colour.g, colour.b].every((channel) => channel >= -tolerance && channel <= 1 + tolerance);
  return { hex: formatHex(inside ? clampRgb(colour) : toCssGamut(colour)), mapped: !inside };
}

/**
 * sRGB of a colour given as CIELAB D65, 2° observer.
 * sRGB is defined for the 2° observer: Lab of the 10° observer must not be given here as if it were the same.
 * @example screenFromLab65([100, 0, 0]) // { hex: '#ffffff', mapped: false }
 */
export const screenFromLab65 = ([l, a, b]: Triple): ScreenColour => onScreen(convertLab65ToRgb({ l, a, b }) as Rgb);

/** sRGB of a colour given as CIELAB D50, 2° observer, carried to D65 by the Bradford transform, as CSS Color 4 does. */
export const screenFromLab50 = ([l, a, b]: Triple): ScreenColour =>
  onScreen(convertXyz65ToRgb(convertXyz50ToXyz65(convertLabToXyz50({ l, a, b }))) as Rgb);

/** Unclamped sRGB channels (0 … 1 inside) of CIELAB D65 or D50, 2° observer. */
export function channelsFromLab([l, a, b]: Triple, white: 'D65' | 'D50'): Triple {
  const colour = (
    white === 'D65'
      ? convertLab65ToRgb({ l, a, b })
      : convertXyz65ToRgb(convertXyz50ToXyz65(convertLabToXyz50({ l, a, b })))
  ) as Rgb;
  return [colour.r, colour.g, colour.b];
}

/** sRGB clipped channel by channel: for comparison only, swatches use the CSS mapping. */
export const clippedFromLab = (lab: Triple, white: 'D65' | 'D50'): string => {
  const [r, g, b] = channelsFromLab(lab, white);
  return formatHex(clampRgb({ mode: 'rgb', r, g, b }));
};

/** sRGB of XYZ (Y = 100 for white) for the 2° observer under any white, as an eye used to that white sees it. */
export const screenFromXyz = (xyz: Triple, white: Triple): ScreenColour => {
  const daylight = whiteOf('D65', 2);
  const here = white[0] === daylight[0] && white[2] === daylight[2] ? xyz : adapt(xyz, white, daylight);
  return screenFromLab65(labFromXyz(here, daylight));
};

/**
 * XYZ (Y = 100 for white, D65, 2°) of an sRGB reading from a photograph or scan: a rough estimate of a surface.
 * IEC 61966-2-1.
 * @example xyzFromSrgb('#ffffff').value // [95.05, 100, 108.9]
 */
export function xyzFromSrgb(text: string): Outcome<Triple> {
  const found = /^#?([0-9a-f]{3}|[0-9a-f]{6})$/i.exec(text.trim());
  if (!found)
    return bad({
      code: 'not-an-srgb-colour',
      message: `'${text.slice(0, 40)}' is not an sRGB colour.`,
      expected: '#rrggbb',
      cure: 'Give the colour as # and six hexadecimal digits.',
    });
  const digits = found[1]!.length === 3 ? [...found[1]!].map((digit) => digit + digit).join('') : found[1]!;
  const linear = [0, 2, 4].map((at) => {
    const channel = Number.parseInt(digits.slice(at, at + 2), 16) / 255;
    return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  const [r, g, b] = linear;
  return good([
    100 * (0.4123907992659595 * r + 0.357584339383878 * g + 0.1804807884018343 * b),
    100 * (0.21263900587151036 * r + 0.715168678767756 * g + 0.07219231536073371 * b),
    100 * (0.01933081871559185 * r + 0.11919477979462599 * g + 0.9505321522496606 * b),
  ]);
}
