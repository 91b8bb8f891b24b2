// Reads a file of colour readings, whichever of the three formats it is in, and finds the sample that is meant.
import { bad, type Fault, type Outcome } from '../faults.js';
import { parseCgats } from './cgats.js';
import { parseCsv } from './csv.js';
import { parseCxf } from './cxf.js';
import { longest, type ReadingsFile } from './reading.js';
import { chooseSets, type WantedSets } from './sets.js';
import { decodeText, plainText } from './text.js';

const start = { line: 1, column: 1 } as const;

const tooLong = (text: string): Fault => ({
  code: 'file-size',
  message: `The file has ${text.length} characters.`,
  expected: `at most ${longest.characters}`,
  cure: 'Give one sample’s spectra in a file.',
});

const notText: Fault = {
  code: 'not-text',
  message: 'The file is not plain text.',
  ...start,
  cure: 'Export the reading as CSV, CGATS text or CxF.',
};

const empty: Fault = {
  code: 'empty-file',
  message: 'The file is empty.',
  ...start,
  cure: 'Export the reading again.',
};

/** First words of a CGATS file and of its kin. */
const cgatsStart = /^\s*(?:CGATS|ISO_?28178|SPECT\b|CCSS\b|CTI\d)/i;

function parse(text: string): Outcome<ReadingsFile> {
  const head = text.slice(0, 2000);
  if (/^\s*</.test(head)) return parseCxf(text);
  return cgatsStart.test(head) || text.includes('BEGIN_DATA') ? parseCgats(text) : parseCsv(text);
}

/** Reads every reading of a file, of however many samples; or the first fault. */
export function readAllReadings(file: string | Uint8Array): Outcome<ReadingsFile> {
  const whole = typeof file === 'string' ? file : decodeText(file);
  if (whole.length > longest.characters) return bad(tooLong(whole));
  const text = plainText(whole);
  if (text === undefined) return bad(notText);
  return text.trim() === '' ? bad(empty) : parse(text);
}

/**
 * Reads a file of colour readings: CSV (any separator; 0 to 1 or %), CGATS/ISO 28178 text, or CxF3/ISO 17972 XML.
 * @param file its text, or its bytes (UTF-8, UTF-16 or Windows-1252)
 * @param wanted the sample that is meant, where the file holds several
 * @returns the spectra of one sample, or its Lab or XYZ values; or the first fault, with line and column: a file of
 *   several samples names them and asks (`several-samples`)
 * @example readReadings('nm;%\n400;4,1\n…').ok
 */
export function readReadings(file: string | Uint8Array, wanted?: WantedSets): Outcome<ReadingsFile> {
  const read = readAllReadings(file);
  return read.ok ? chooseSets(read.value, wanted) : read;
}
