// From the readings of a file to the colour of a sample, with what was stated about them beside the file.
import { bad, good, type Outcome } from '../outcome.js';
import type { Transform } from './adaptation.js';
import type { ReadingsFile, ValueReading } from './instruments/reading.js';
import { illuminants, isIlluminant, type Illuminant, type Observer } from './numbers.js';
import { colourFromLab, colourFromSpectra, colourFromXyz, type SampleColour } from './sample-colour.js';
import { disagreement } from './verdict.js';

/** What is stated of a reading besides the file: it rules over what the file says. */
export interface StatedConditions {
  readonly illuminant?: Illuminant;
  readonly observer?: Observer;
  readonly transform?: Transform;
}

export interface FileColour {
  readonly colour: SampleColour;
  /** What had to be assumed, and what is odd about the readings, as sentences. */
  readonly notes: readonly string[];
}

/** What is assumed where neither the maker nor the file states it. */
export const assumed = { illuminant: 'D65', observer: 10 } as const;

/** Sentences on what was assumed of Lab or XYZ. */
export const assumptions = (illuminant: Illuminant | undefined, observer: Observer | undefined): string[] => [
  ...(illuminant ? [] : [`No illuminant was stated; ${assumed.illuminant} was assumed.`]),
  ...(observer ? [] : [`No observer was stated; ${assumed.observer}° was assumed.`]),
];

function scatterNotes({ scatter }: SampleColour): string[] {
  if (!scatter || scatter.largest <= disagreement) return [];
  const apart = scatter.largest.toFixed(1);
  return [`The readings lie up to ΔE00 ${apart} from their mean: check that all are of one sample.`];
}

function colourFromValues(values: readonly ValueReading[], stated: StatedConditions): Outcome<FileColour> {
  const first = values[0]!;
  const inFile = first.illuminant;
  if (inFile !== undefined && !isIlluminant(inFile))
    return bad({
      code: 'unknown-illuminant',
      message: `The values are for illuminant ${inFile}, whose tables are not here.`,
      expected: illuminants.join(', '),
      cure: 'Export for another illuminant, or as a spectrum.',
    });
  const illuminant = stated.illuminant ?? inFile;
  const observer = stated.observer ?? first.observer;
  if (first.space === 'xyz' && !illuminant)
    return bad({
      code: 'xyz-without-illuminant',
      message: 'The file holds XYZ without its illuminant, which means nothing alone.',
      cure: 'Give --illuminant and --observer.',
    });
  const from = first.space === 'lab' ? colourFromLab : colourFromXyz;
  const colour = from(
    values.map(({ value }) => value),
    illuminant ?? assumed.illuminant,
    observer ?? assumed.observer,
  );
  return good({ colour, notes: [...assumptions(illuminant, observer), ...scatterNotes(colour)] });
}

/**
 * The colour that the readings of a file give.
 * @returns the colour and notes; or a fault: XYZ without illuminant, an illuminant without tables
 */
export function colourFromFile({ spectra, values }: ReadingsFile, stated: StatedConditions): Outcome<FileColour> {
  if (spectra.length === 0) return colourFromValues(values, stated);
  const colour = colourFromSpectra(
    spectra.map(({ spectrum }) => spectrum),
    stated.observer ?? assumed.observer,
    stated.transform,
  );
  return good({ colour, notes: scatterNotes(colour) });
}
