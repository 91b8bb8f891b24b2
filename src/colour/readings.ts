// Reads a file of colour readings, whichever of the three formats it is in.
import { bad, type Outcome } from '../outcome.js';
import { longest, type ReadingsFile } from './columns.js';
import { readCgats } from './read-cgats.js';
import { readCsv } from './read-csv.js';
import { readCxf } from './read-cxf.js';

/**
 * Reads a file of colour readings: CSV (any separator; 0 to 1 or %), CGATS/ISO 28178 text, or CxF3/ISO 17972 XML.
 * @returns its spectra, or its Lab or XYZ values; or the first fault, with line and column
 * @example readReadings('nm;%\n400;4,1\n…').ok
 */
export function readReadings(text: string): Outcome<ReadingsFile> {
  const start = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  if (text.length > longest.characters)
    return bad({
      code: 'file-too-long',
      message: `The file has ${text.length} characters.`,
      expected: `at most ${longest.characters}`,
      cure: 'Give one sample’s spectra in a file.',
    });
  const head = text.slice(start, start + 2000);
  if (/[\u0000-\u0008\u000e-\u001f]/.test(head) || (head.match(/\ufffd/g)?.length ?? 0) > 3)
    return bad({
      code: 'not-text',
      message: 'The file is not plain text.',
      line: 1,
      column: 1,
      cure: 'Export the reading as CSV, CGATS text or CxF, in UTF-8.',
    });
  if (head.trim() === '' && text.trim() === '')
    return bad({
      code: 'empty-file',
      message: 'The file is empty.',
      line: 1,
      column: 1,
      cure: 'Export the reading again.',
    });
  const body = start ? text.slice(start) : text;
  if (/^\s*</.test(head)) return readCxf(body);
  if (/^\s*(?:CGATS|ISO_?28178)/i.test(head) || body.includes('BEGIN_DATA')) return readCgats(body);
  return readCsv(body);
}
