// What `masstone colour` is given, a file or a Lab typed in, as a colour.
import { readFile, stat } from 'node:fs/promises';
import {
  assumed,
  assumptions,
  checkLab,
  colourFromFile,
  colourFromLab,
  plainNumber,
  readReadings,
  type FileNote,
  type SampleColour,
  type StatedConditions,
} from '../../colour/index.js';
import { bad, good, type Fault, type Outcome } from '../../outcome.js';
import { WrongUse } from '../command.js';

/** What one colour was read from. */
export interface ColourRead {
  readonly name: string;
  readonly format: string;
  /** Names of its readings in the file. */
  readonly called?: readonly string[];
  readonly colour: SampleColour;
  readonly notes: readonly string[];
}

/** A fault with the file that it is in. */
export interface FileFault extends Fault {
  readonly file?: string;
}

export type ReadOutcome =
  | { readonly ok: true; readonly value: ColourRead }
  | { readonly ok: false; readonly fault: FileFault };

/** Files over this many bytes are not read. */
const largestFile = 16_000_000;

/**
 * The numbers of `50 10 -20`, `50, 10, −20`, `[50; 10; -20]`, `L=50 a=10 b=-20`, `50,1 10,2 -20,3` (decimal commas).
 */
function labNumbers(text: string): number[] {
  const plain = text
    .trim()
    .replaceAll('−', '-')
    .replace(/^\[(.*)\]$/, '$1')
    .replace(/\b[Lab]\*?\s*[=:]?\s*(?=[+-]?\d)/g, ' ')
    .replace(/\s*\/\s*/g, ' ')
    .trim();
  const decimalCommas = /^(?:[+-]?\d+(?:,\d+)?(?:\s+|\s*;\s*|$)){3}$/.test(plain);
  const words = (decimalCommas ? plain.replaceAll(',', '.') : plain).trim().split(/\s*[,;]\s*|\s+/);
  return words.map((word) => plainNumber(word) ?? Number.NaN);
}

/** A Lab typed in after an option. */
export function readLab(text: string, option: string, stated: StatedConditions): ReadOutcome {
  const numbers = labNumbers(text);
  if (numbers.length !== 3 || numbers.some(Number.isNaN))
    throw new WrongUse(`${option} takes three numbers: ${option} "54.1 -30.2 6.0".`);
  const lab = checkLab(numbers);
  if (!lab.ok) return lab;
  const { illuminant, observer } = stated;
  return good({
    name: `Lab ${text.trim()}`,
    format: 'Lab',
    colour: colourFromLab([lab.value], illuminant ?? assumed.illuminant, observer ?? assumed.observer),
    notes: assumptions(illuminant, observer),
  });
}

/** What was meant by words that are no file: figures of a colour, or the code of one on a screen. */
function cureFor(path: string): string {
  const figures = path.match(/-?\d+(?:[.,]\d+)?/g) ?? [];
  if (/^\s*(?:cie)?l/i.test(path) && figures.length === 3)
    return `Figures stand behind --lab: --lab "${figures.join(' ')}".`;
  if (/^#?[0-9a-f]{6}$/i.test(path))
    return 'A colour on a screen is no reading; in an entry it may stand as colour: { srgb: "#…" }.';
  return 'Check the path.';
}

async function bytesOf(path: string): Promise<Outcome<Uint8Array>> {
  try {
    const about = await stat(path);
    if (!about.isFile())
      return bad({ code: 'not-a-file', message: `${path} is not a file.`, cure: 'Give the file of a spectrum.' });
    if (about.size > largestFile)
      return bad({
        code: 'file-size',
        message: `The file has ${about.size} bytes.`,
        cure: 'Give one sample’s spectra in a file.',
      });
    return good(await readFile(path));
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT')
      return bad({ code: 'no-such-file', message: `There is no file ${path}.`, cure: cureFor(path) });
    return bad({
      code: 'unreadable-file',
      message: `${path} cannot be read (${code ?? 'unknown'}).`,
      cure: 'Check its rights.',
    });
  }
}

/** First bytes of JPEG, PNG, TIFF and WebP (RIFF). */
const pictureStarts = [
  [0xff, 0xd8, 0xff],
  [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
  [0x49, 0x49, 0x2a, 0x00],
  [0x4d, 0x4d, 0x00, 0x2a],
  [0x52, 0x49, 0x46, 0x46],
];

const isPicture = (bytes: Uint8Array): boolean =>
  pictureStarts.some((start) => start.every((byte, i) => bytes[i] === byte));

/**
 * A photograph is no reading: without a chart its colours are off by more than ΔE00 10 on average (published,
 * phones).
 */
const pictureAlone: Fault = {
  code: 'picture-without-chart',
  message: 'The file is a picture: without a chart in it its colours are a rough estimate, and no measurement.',
  expected: '--chart with --corners and --sample, or --grey with --sample',
  cure: 'Say which chart it shows and where: --chart classic-24 --corners "…" --sample "x,y,w,h".',
};

const sentence = ({ message, line, cure }: FileNote): string =>
  `${line === undefined ? '' : `Line ${line}: `}${message} ${cure}`;

/**
 * The colour of a file of readings.
 * @param wanted the samples of the file that are meant, if it holds several
 */
export async function readColourFile(
  path: string,
  stated: StatedConditions,
  wanted: readonly string[] | undefined,
): Promise<ReadOutcome> {
  const bytes = await bytesOf(path);
  if (bytes.ok && isPicture(bytes.value)) return { ok: false, fault: { ...pictureAlone, file: path } };
  const file = bytes.ok ? readReadings(bytes.value, wanted) : bytes;
  const found = file.ok ? colourFromFile(file.value, stated) : file;
  if (!found.ok) return { ok: false, fault: { ...found.fault, file: path } };
  if (!file.ok) return file;
  const { format, notes, spectra, values } = file.value;
  // The heading of a column is mostly that of a kind of value.
  const readings = format === 'CSV' ? [] : [...spectra, ...values];
  const called = [...new Set(readings.flatMap(({ name }) => name ?? []))];
  return good({
    name: path,
    format,
    ...(called.length > 0 && { called }),
    colour: found.value.colour,
    notes: [...notes.map(sentence), ...found.value.notes],
  });
}
