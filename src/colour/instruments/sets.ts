// Which readings of a file are of one sample, and which sample is meant: several samples are never averaged.
import { bad, good, type Fault, type Outcome } from '../faults.js';
import { faultAt, longest, type FilePlace, type ReadingsFile } from './reading.js';

/** The samples of a file that are wanted: one by name, or several that are said to be one; `all` for every reading. */
export type WantedSets = string | readonly string[];

const all = 'all';

/** Words that say that a name is one of several readings of the same: `reading 2`, `scan 3`, `Messung 1`. */
const repetition =
  /[\s_\-.,:;(#]*\b(?:readings?|reads?|scans?|measurements?|meas|messung|mesure|lecture|repeats?|replicates?|reps?|runs?|shots?)[\s_\-.:#(]*(?:no\.?\s*)?\d{1,3}\)?\s*$/i;
const ordinal = /^\s*(?:first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth)(?:\s+reading)?\s*$/i;

/** Names that say what was measured, not of what. */
const quantityName =
  /^\s*(?:%\s*)?(?:r|reflectance|reflectance factor|reflexion|reflexionsgrad|réflectance|remission|value|values|y|data|spectrum|sci|sce|spin|spex)(?:\s*(?:factor|\(?\[?%\]?\)?|\(0\s*[-–]\s*100?\)))?\s*$/i;

const sameSpacing = (name: string): string => name.trim().replace(/\s+/g, ' ');

/** The sample that a reading is said to be of, by its name; undefined if its name does not say. */
export function sampleNamed(name: string | undefined): string | undefined {
  const plain = sameSpacing(name ?? '');
  if (plain === '' || quantityName.test(plain)) return undefined;
  if (ordinal.test(plain)) return '';
  return plain.replace(repetition, '').trim();
}

interface Named {
  readonly name?: string;
  readonly place?: FilePlace;
}

interface SampleSet<Reading extends Named> {
  /** What it is called when a maker must choose: its name, or its number among the unnamed. */
  readonly name: string;
  readonly readings: readonly Reading[];
}

/** Readings by sample, in the order of the file. A reading whose name does not say is a sample of its own. */
function setsOf<Reading extends Named>(readings: readonly Reading[]): SampleSet<Reading>[] {
  const sets = new Map<string, Reading[]>();
  readings.forEach((reading, index) => {
    const name = sampleNamed(reading.name) ?? String(index + 1);
    sets.set(name, [...(sets.get(name) ?? []), reading]);
  });
  return [...sets].map(([name, of]) => ({ name, readings: of }));
}

/** Names as they are listed in a sentence. */
const mostListed = 12;
function listed(names: readonly string[]): string {
  const first = names.slice(0, mostListed).map((name) => `“${name.slice(0, 60)}”`);
  const rest = names.length - first.length;
  return rest > 0 ? `${first.join(', ')} and ${rest} more` : first.join(', ');
}

const plain = (name: string): string => sameSpacing(name).toLowerCase();

function find<Reading extends Named>(sets: readonly SampleSet<Reading>[], wanted: string): readonly Reading[] {
  const name = plain(wanted);
  const set = sets.find((one) => plain(one.name) === name);
  if (set) return set.readings;
  const readings = sets.flatMap((one) => one.readings);
  const named = readings.filter((one) => plain(one.name ?? '') === name);
  return named.length === 0 && name === all ? readings : named;
}

const severalFault = (names: readonly string[]): Fault => ({
  code: 'several-samples',
  message: `The file holds ${names.length} samples: ${listed(names)}.`,
  expected: `one of ${listed(names)}`,
  cure:
    `Name the one that is meant: set: "${names[0]}". Readings of one sample are averaged only if that is said: ` +
    `set: [${names
      .slice(0, 2)
      .map((name) => `"${name}"`)
      .join(', ')}], or set: all.`,
});

/** The readings of the sample that is meant; or a fault that names the samples. */
function chosen<Reading extends Named>(
  readings: readonly Reading[],
  wanted: WantedSets | undefined,
): Outcome<readonly Reading[]> {
  const sets = setsOf(readings);
  const names = sets.map(({ name }) => name);
  if (wanted === undefined)
    return sets.length > 1 ? faultAt(sets[1]!.readings[0]!.place, severalFault(names)) : good(readings);
  const found = new Set<Reading>();
  for (const one of typeof wanted === 'string' ? [wanted] : wanted) {
    const of = find(sets, one);
    if (of.length === 0)
      return bad({
        code: 'unknown-set',
        message: `The file holds no sample “${one.slice(0, 60)}”.`,
        expected: `one of ${listed(names)}`,
        cure: `Name one that it holds: ${listed(names)}.`,
      });
    for (const reading of of) found.add(reading);
  }
  return good(readings.filter((reading) => found.has(reading)));
}

/**
 * The file with only the readings of the sample that is meant.
 * @returns a fault that names the samples if there are several and none is wanted, or the wanted one is not there
 */
export function chooseSets(file: ReadingsFile, wanted: WantedSets | undefined): Outcome<ReadingsFile> {
  const spectra = chosen(file.spectra, wanted);
  if (!spectra.ok) return spectra;
  const values = chosen(file.values, file.spectra.length > 0 ? undefined : wanted);
  if (!values.ok) return values;
  const readings = Math.max(spectra.value.length, values.value.length);
  if (readings > longest.readings)
    return bad({
      code: 'too-many-readings',
      message: `The sample has ${readings} readings.`,
      cure: `Give at most ${longest.readings} readings of one sample.`,
    });
  return good({ ...file, spectra: spectra.value, values: values.value });
}

/** Names of the samples that a file holds, in its order; a reading whose name does not say is a sample of its own. */
export const samplesIn = ({ spectra, values }: ReadingsFile): readonly string[] =>
  setsOf<Named>(spectra.length > 0 ? spectra : values).map(({ name }) => name);
