// The opacity of one sample: contrast ratio and film colours, from two Y values or two spectra.
import {
  colourFromSpectra,
  contrast,
  deltaE00,
  filmsFromLuminance,
  filmsFromSpectra,
  whiteOf,
  xyzFromLab,
  type Films,
  type Observer,
  type SampleColour,
} from '../../colour/index.js';
import type { Sample } from '../../journal/schema.js';
import type { Findings, Path } from '../../remarks/findings.js';
import type { OpacityReckoning } from './appearance-contracts.js';
import { round } from './appearance-figures.js';
import { readingsOf } from './colour-reading.js';
import type { ReckoningContext } from '../contracts.js';

/** A film over one backing. */
interface BackedFilm {
  /** Luminance factor Y, 0 to 100. */
  readonly y: number;
  /** Its colour, where it was read as a spectrum. */
  readonly colour?: SampleColour;
}

function filmOf(
  given: number | string,
  observer: Observer,
  context: ReckoningContext,
  findings: Findings,
): BackedFilm | undefined {
  if (typeof given === 'number') return { y: given };
  const read = readingsOf(given, context, findings);
  if (!read || read.spectra.length === 0) return undefined;
  const colour = colourFromSpectra(
    read.spectra.map(({ spectrum }) => spectrum),
    observer,
  );
  return { y: colour.xyz![1], colour };
}

/** XYZ or reflectance of the masstone for the 2° observer, as far as the sample's reading tells it. */
function masstoneOf(colour: SampleColour | undefined): Parameters<typeof filmsFromLuminance>[2] | undefined {
  if (!colour) return undefined;
  if (colour.tableValues) return colour.tableValues;
  if (colour.given?.illuminant === 'D65' && colour.given.observer === 2) return colour.xyz;
  return colour.lab && xyzFromLab(colour.lab, whiteOf('D65', 2));
}

function filmsOf(black: BackedFilm, white: BackedFilm, colour: SampleColour | undefined): Films | undefined {
  if (black.colour?.tableValues && white.colour?.tableValues)
    return filmsFromSpectra(black.colour.tableValues, white.colour.tableValues);
  const masstone = masstoneOf(colour);
  return masstone && filmsFromLuminance(black.y, white.y, masstone);
}

/**
 * @returns the contrast ratio and, where they can be told, the colours of the film; undefined where a side is missing
 */
export function opacityOf(
  given: NonNullable<Sample['opacity']>,
  colour: SampleColour | undefined,
  path: Path,
  context: ReckoningContext,
  findings: Findings,
): { readonly opacity: OpacityReckoning; readonly films?: Films } | undefined {
  const observer = colour?.observer ?? 10;
  const black = filmOf(given['over-black'], observer, context, findings);
  const white = filmOf(given['over-white'], observer, context, findings);
  if (!black || !white) return undefined;
  const found = contrast(black.y, white.y);
  if (!found.ok) {
    findings.addFault(found.fault, path);
    return undefined;
  }
  const { ratio, word, definition, notes } = found.value;
  const apart = black.colour && white.colour && deltaE00(black.colour.lab!, white.colour.lab!);
  const films = filmsOf(black, white, colour);
  return {
    opacity: {
      contrastRatio: round(ratio, 2),
      overBlackY: round(black.y, 3),
      overWhiteY: round(white.y, 3),
      word,
      definition,
      notes,
      ...(apart !== undefined && { de00: round(apart, 3) }),
    },
    ...(films && { films }),
  };
}
