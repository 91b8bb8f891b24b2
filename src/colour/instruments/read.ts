// Reads a file of colour readings, whichever of the three formats it is in.
import { bad, type Fault, type Outcome } from '../../outcome.js';
import { parseCgats } from './cgats.js';
import { parseCsv } from './csv.js';
import { parseCxf } from './cxf.js';
import { longest, type ReadingsFile } from './reading.js';

/** So much of a file tells what it is. */
const headLength = 2000;

/** What makes a text no file of readings at all, before its format is looked at. */
function textFault(text: string, head: string): Fault | undefined {
  if (text.length > longest.characters)
    return {
      code: 'file-too-long',
      message: `The file has ${text.length} characters.`,
      expected: `at most ${longest.characters}`,
      cure: 'Give one sample’s spectra in a file.',
    };
  const unreadable = head.match(/\ufffd/g)?.length ?? 0;
  if (/[\u0000-\u0008\u000e-\u001f]/.test(head) || unreadable > 3)
    return {
      code: 'not-text',
      message: 'The file is not plain text.',
      line: 1,
      column: 1,
      cure: 'Export the reading as CSV, CGATS text or CxF, in UTF-8.',
    };
  if (head.trim() === '' && text.trim() === '')
    return {
      code: 'empty-file',
      message: 'The file is empty.',
      line: 1,
      column: 1,
      cure: 'Export the reading again.',
    };
  return undefined;
}

/**
 * Reads a file of colour readings: CSV (any separator; 0 to 1 or %), CGATS/ISO 28178 text, or CxF3/ISO 17972 XML.
 * @returns its spectra, or its Lab or XYZ values; or the first fault, with line and column
 * @example readReadings('nm;%\n400;4,1\n…').ok
 */
export function readReadings(text: string): Outcome<ReadingsFile> {
  const body = text.startsWith('\ufeff') ? text.slice(1) : text;
  const head = body.slice(0, headLength);
  const fault = textFault(text, head);
  if (fault) return bad(fault);
  if (/^\s*</.test(head)) return parseCxf(body);
  if (/^\s*(?:CGATS|ISO_?28178)/i.test(head) || body.includes('BEGIN_DATA')) return parseCgats(body);
  return parseCsv(body);
}
