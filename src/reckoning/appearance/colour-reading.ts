// One colour of an entry: everything that was read of it, in the entry and in files of instruments, brought together.
import {
  checkLab,
  checkXyz,
  colourFromLab,
  colourFromPhotograph,
  colourFromSpectra,
  colourFromSrgb,
  colourFromXyz,
  compare,
  disagreement,
  illuminants,
  isIlluminant,
  meanSpectrum,
  readReadings,
  type Illuminant,
  type Observer,
  type ReadingsFile,
  type SampleColour,
  type Spectrum,
  type Triple,
  type ValueReading,
  type WantedSets,
} from '../../colour/index.js';
import { requestKey } from '../../colour/photograph/index.js';
import type { ColourReading } from '../../journal/schema.js';
import type { Findings, Path } from '../../remarks/findings.js';
import type { ReckoningContext } from '../contracts.js';

/** What is taken where the observer was not stated. */
const usualObserver: Observer = 10;

/**
 * The readings of a file; undefined if it can't be read. What is wrong with it is found at its place in the file.
 * @param wanted the samples of it that are meant
 */
export function readingsOf(
  file: string,
  context: ReckoningContext,
  findings: Findings,
  wanted?: WantedSets,
): ReadingsFile | undefined {
  const text = context.reading(file);
  // A file that is not there has its remark from the reading of the journal.
  if (text === undefined) return undefined;
  const read = readReadings(text, wanted);
  const placeIn = ({ line = 1, column = 1 }: { readonly line?: number; readonly column?: number }) => ({
    file,
    line,
    column,
  });
  if (!read.ok) {
    findings.addFault(read.fault, placeIn(read.fault));
    return undefined;
  }
  for (const note of read.value.notes) findings.addFault(note, placeIn(note), { readAllTheSame: true });
  return read.value;
}

/** What was read of one colour. */
interface Readings {
  readonly spectra: Spectrum[];
  readonly labs: Triple[];
  readonly xyzs: Triple[];
  illuminant: Illuminant | undefined;
  observer: Observer | undefined;
  /** Drawdowns that were read, where readings say of which they are. */
  drawdowns?: number;
}

type OneReading = Pick<ColourReading, 'spectrum' | 'set' | 'lab' | 'lch' | 'xyz'>;

function addValue(value: ValueReading, file: string, into: Readings, findings: Findings): void {
  const { illuminant } = value;
  if (illuminant !== undefined && !isIlluminant(illuminant)) {
    findings.add(
      'unknown-illuminant',
      { file, line: 1, column: 1 },
      { illuminant, expected: [illuminants.join(', ')] },
    );
    return;
  }
  (value.space === 'lab' ? into.labs : into.xyzs).push(value.value);
  into.illuminant ??= illuminant;
  into.observer ??= value.observer;
}

/** L*, C* and h in degrees as L*, a*, b*. Source: CIE 15:2004, 8.2.1.2, from memory. */
function labOfLch([lightness, chroma, hue]: readonly [number, number, number]): Triple {
  const angle = (hue * Math.PI) / 180;
  return [lightness, chroma * Math.cos(angle), chroma * Math.sin(angle)];
}

function addReading(one: OneReading, at: Path, into: Readings, context: ReckoningContext, findings: Findings): void {
  const file = one.spectrum === undefined ? undefined : readingsOf(one.spectrum, context, findings, one.set);
  if (file) {
    into.spectra.push(...file.spectra.map(({ spectrum }) => spectrum));
    for (const value of file.values) addValue(value, one.spectrum!, into, findings);
  }
  if (one.lab) {
    const lab = checkLab(one.lab);
    if (lab.ok) into.labs.push(lab.value);
    else findings.addFault(lab.fault, [...at, 'lab']);
  }
  if (one.lch) {
    const lab = checkLab(labOfLch(one.lch));
    if (lab.ok) into.labs.push(lab.value);
    else findings.addFault(lab.fault, [...at, 'lch']);
  }
  if (one.xyz) {
    const xyz = checkXyz(one.xyz);
    if (xyz.ok) into.xyzs.push(xyz.value);
    else findings.addFault(xyz.fault, [...at, 'xyz']);
  }
}

/**
 * Further readings; those of one drawdown are brought to their mean first, so that the scatter is that between
 * drawdowns, of the hand and not of the instrument.
 */
function addDrawdowns(
  { readings = [] }: ColourReading,
  path: Path,
  into: Readings,
  context: ReckoningContext,
  findings: Findings,
): void {
  const drawdowns = new Map<string, Readings>();
  readings.forEach((one, index) => {
    const name = one.drawdown === undefined ? undefined : String(one.drawdown);
    const own = name === undefined ? into : (drawdowns.get(name) ?? { ...into, spectra: [], labs: [], xyzs: [] });
    addReading(one, [...path, 'readings', index], own, context, findings);
    if (name !== undefined) drawdowns.set(name, own);
  });
  for (const { spectra, labs, xyzs, illuminant, observer } of drawdowns.values()) {
    if (spectra.length > 0) into.spectra.push(meanSpectrum(spectra));
    if (labs.length > 0) into.labs.push(meanTriple(labs));
    if (xyzs.length > 0) into.xyzs.push(meanTriple(xyzs));
    into.illuminant ??= illuminant;
    into.observer ??= observer;
  }
  if (drawdowns.size > 0) into.drawdowns = drawdowns.size;
}

const meanTriple = (triples: readonly Triple[]): Triple => {
  const mean = (i: 0 | 1 | 2): number => triples.reduce((sum, one) => sum + one[i], 0) / triples.length;
  return [mean(0), mean(1), mean(2)];
};

function readingsIn(reading: ColourReading, path: Path, context: ReckoningContext, findings: Findings): Readings {
  const { observer } = reading;
  const into: Readings = {
    spectra: [],
    labs: [],
    xyzs: [],
    illuminant: reading.illuminant as Illuminant | undefined,
    observer: observer === 2 || observer === 10 ? observer : undefined,
  };
  addReading(reading, path, into, context, findings);
  addDrawdowns(reading, path, into, context, findings);
  return into;
}

/** Colour from the spectra; a Lab beside them is held against it. */
function fromSpectra({ spectra, labs, illuminant, observer }: Readings, path: Path, findings: Findings): SampleColour {
  const colour = colourFromSpectra(spectra, observer ?? usualObserver);
  const [lab] = labs;
  if (!lab || !illuminant) return colour;
  const apart = compare(colour, colourFromLab([lab], illuminant, observer ?? usualObserver));
  if (apart.ok && apart.value.de00 > 1)
    findings.add('lab-against-spectrum', [...path, 'lab'], { apart: apart.value.de00.toFixed(1) });
  return colour;
}

const observerNote = (observer: Observer | undefined): readonly string[] =>
  observer === undefined ? [`The observer was not stated; ${usualObserver}° was assumed.`] : [];

function fromLabs({ labs, illuminant, observer }: Readings, path: Path, findings: Findings): SampleColour {
  const colour = colourFromLab(labs, illuminant ?? 'D65', observer ?? usualObserver);
  const notes = [...colour.notes, ...observerNote(observer)];
  if (illuminant) return { ...colour, notes };
  findings.add('lab-without-illuminant', [...path, 'lab'], { expected: ['illuminant: D65'] });
  return { ...colour, approximate: true, notes: ['The illuminant was not stated; D65 was assumed.', ...notes] };
}

function fromXyzs({ xyzs, illuminant, observer }: Readings, path: Path, findings: Findings): SampleColour | undefined {
  if (!illuminant) {
    findings.add('xyz-without-illuminant', [...path, 'xyz'], { expected: ['illuminant: D65'] });
    return undefined;
  }
  const colour = colourFromXyz(xyzs, illuminant, observer ?? usualObserver);
  return { ...colour, notes: [...colour.notes, ...observerNote(observer)] };
}

/** Read before reckoning, as pictures are opened in their own time. */
function fromPhotograph(
  { photo, chart, grid, corners, sample }: ColourReading,
  path: Path,
  context: ReckoningContext,
  findings: Findings,
): SampleColour | undefined {
  // The format has checked that all of them are there.
  if (photo === undefined || chart === undefined || corners === undefined || sample === undefined) return undefined;
  const read = context.photograph?.(requestKey({ photo, chart, grid, corners, sample }));
  // A photograph that is not there has its remark from the reading of the journal.
  if (!read) return undefined;
  if (read.ok) return colourFromPhotograph(read.value);
  const { message, cure } = read.fault;
  findings.addFault({ code: 'photograph-colour', message, ...(cure && { cure }) }, [...path, 'photo']);
  return undefined;
}

/** The best that the readings allow: spectra before Lab, Lab before XYZ, and a photograph's sRGB last. */
function fromBest(
  reading: ColourReading,
  all: Readings,
  path: Path,
  context: ReckoningContext,
  findings: Findings,
): SampleColour | undefined {
  if (all.spectra.length > 0) return fromSpectra(all, path, findings);
  if (all.labs.length > 0) return fromLabs(all, path, findings);
  if (all.xyzs.length > 0) return fromXyzs(all, path, findings);
  if (reading.photo !== undefined) return fromPhotograph(reading, path, context, findings);
  // The format has checked that it is #rrggbb.
  const estimate = reading.srgb === undefined ? undefined : colourFromSrgb(reading.srgb);
  return estimate?.ok ? estimate.value : undefined;
}

/** The colour of what was read; undefined if nothing could be. */
export function colourOf(
  reading: ColourReading,
  path: Path,
  context: ReckoningContext,
  findings: Findings,
): SampleColour | undefined {
  const readings = readingsIn(reading, path, context, findings);
  const best = fromBest(reading, readings, path, context, findings);
  const colour = best && { ...best, ...(readings.drawdowns && { drawdowns: readings.drawdowns }) };
  if (colour?.scatter && colour.scatter.largest > disagreement)
    findings.add('readings-disagree', path, { largest: colour.scatter.largest.toFixed(1) });
  return colour;
}
