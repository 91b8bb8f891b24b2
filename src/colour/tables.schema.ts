// What the tables of this room hold, column by column.
import {
  list,
  mustBeFilled,
  number,
  oneOf,
  optional,
  source,
  table,
  text,
  textOrNone,
  wholeNumber,
} from '../tables/cells.js';
import { illuminants as illuminantNames } from './numbers.js';

/** A bound that is left empty does not bound. */
export const families = table({
  order: wholeNumber,
  family: oneOf(
    'violet',
    'blue',
    'blue-green',
    'green',
    'yellow',
    'orange',
    'red',
    'pink',
    'brown',
    'black',
    'grey',
    'white',
  ),
  L_from: optional(number),
  L_below: optional(number),
  C_from: optional(number),
  C_below: optional(number),
  h_from: optional(number),
  h_below: optional(number),
  h_below_per_C: optional(number),
  note: textOrNone,
  source,
});

/** Relative power at each wavelength, nm. */
export const illuminants = table({
  wavelength: wholeNumber,
  A: number,
  D50: number,
  D65: number,
  F2: number,
  F11: number,
  'LED-B3': number,
  source,
});

const observer = table({ wavelength: wholeNumber, x: number, y: number, z: number, source });
export const observer2deg = observer;
export const observer10deg = observer;

/** The last word has no lower bound. */
export const opacityWords = table({
  word: oneOf('opaque', 'semi-opaque', 'semi-transparent', 'transparent'),
  from_percent: optional(number),
  definition: text,
  source,
});

export const standardTests = table({
  test: text,
  name: text,
  kind: oneOf('number', 'grade', 'words'),
  units: list('|', text),
  from: optional(number),
  to: optional(number),
  usual_from: optional(number),
  usual_to: optional(number),
  range: text,
  standard: textOrNone,
  note: textOrNone,
  source,
}).check((row) => {
  if (row.value.kind === 'number')
    mustBeFilled(row, ['from', 'to', 'usual_from', 'usual_to'], "where kind is 'number'");
});

export const standardWhite = table({ wavelength: wholeNumber, reflectance: number, source });

export const verdicts = table({
  code: oneOf('visible-side-by-side', 'visible-apart', 'called-the-same'),
  from_de00: number,
  words: text,
  kind: text,
  field: text,
  source,
});

/** How far an instrument of the kind that gives such a reading usually repeats on paint, CIEDE2000. */
export const repeatability = table({ basis: oneOf('spectrum', 'lab', 'xyz'), de00: number, note: text, source });

export const whitePoints = table({
  illuminant: oneOf(...illuminantNames),
  observer: oneOf('2', '10').transform((degrees): 2 | 10 => (degrees === '2' ? 2 : 10)),
  X: number,
  Y: number,
  Z: number,
  source,
});
