// masstone colour: Lab under each lamp from a spectrum, family, movement between lamps, difference from another colour.
import type { Illuminant, Observer, StatedConditions, TintingStrength, Transform } from '../colour/index.js';
import type { Outcome } from '../outcome.js';
import type { ColourRead, FileFault } from './colour/read.js';
import type { Command, ExitCode, Given, Streams } from './command.js';
import { WrongUse } from './command.js';

type Values = Given['values'];

export const command: Command = {
  name: 'colour',
  summary: 'Lab under each lamp from a spectrum; --against another for the difference',
  help: `
Use: masstone colour FILE [--against FILE] [options]
     masstone colour --lab "L a b" [--against-lab "L a b"] [options]
     masstone colour PHOTO --chart FILE|classic-24 --corners "x,y x,y x,y x,y" --sample "x,y,w,h" [--sample …]

FILE is a reflectance spectrum, 400 to 700 nm at least in steps of 20 nm or finer: CSV (0 to 1 or %;
comma, semicolon, tab or spaces), CGATS/ISO 28178 text or CxF3/ISO 17972 XML. Of a file of several samples
one is chosen by its name; readings of one sample (named so in the file, or by --set several times, or all
of them by --set all) are averaged. A file with Lab or XYZ only is read as such.

  --set NAME             the sample of FILE that is meant
  --against FILE         another colour, to tell the difference of FILE's from it
  --against-set NAME     the sample of that file that is meant
  --tolerance 1.5        whether FILE is within so much of the aim, the other colour (CIEDE2000)
  --curves               K/S and the first derivative of the spectrum as well, by which pigments are told apart (--json)
  --tinting-strength     of two tints of the same share in white, how strongly FILE tints against the other
  --white FILE           the white by itself, for the tinting strength
  --lab "L a b"          CIELAB instead of FILE; --against-lab likewise. Lab is compared as it stands.
  --illuminant D65       illuminant of Lab given without one: D65, D50, A, F2, F11 or LED-B3
  --observer 10          2 or 10 degrees
  --transform CAT16      adaptation for the movement between lamps: CAT16 or CAT02

  masstone colour spectra/14-A.csv --against spectra/14-B.csv
  masstone colour --lab "50 2.68 -79.78" --against-lab "50 0 -82.75"

A photograph that shows a chart of known colours gives the colours of samples beside it, in daylight only, and what they
may be off by:

  --chart classic-24     the classic chart of 24 patches (published average; classic-24-2014 from November 2014 on),
                         or a FILE: CSV with patch,L,a,b (or X,Y,Z) and illuminant, CGATS, or spectra, patches row
                         by row
  --corners "x,y …"      centres of the four corner patches in pixels of the upright picture, clockwise from the
                         first patch
  --grid 6x4             patches across and down
  --sample "x,y,w,h"     where a sample lies, in pixels; "B=x,y,w,h" gives it a name; several samples are compared
  --grey "x,y,w,h"       instead of a chart, where a grey card lies: lightness and cast, roughly

  masstone colour photos/14.jpg --chart classic-24 --corners "120,80 620,95 610,430 110,420" --sample "700,120,60,60"

With --json:
  { lab: {D65: [L,a,b], D50, A, F11, "LED-B3"}, xyz: {the same}, lch: {the same}, family,
    observer, basis ("spectrum", "lab" or "xyz"), format, swatch: {hex, mapped, approximate},
    inconstancy: {known: true, transform, reference: "D65", test: "A", de00, deCmc, de76, lab, directions, text,
                  A: {de00, deCmc, de76, lab, directions, text}, D50, F11, "LED-B3"}
              or {known: false, reason},
    repeatability?: {readings, mean, largest},       CIEDE2000 of the readings from their mean
    notes: [sentences],
    difference?: {de00, de76, delta: [dL,da,db] of FILE less the other, dL, dC, dH, direction, under,
                  verdict, code, sentence, source, thresholds: [{code, de00, kind, field, source}], repeatability?,
                  perLamp?: {D65: de00, …}, metamerism?: {A: {index00, index76}, …}, metameric?: sentence,
                  caveat?, tolerance?: {de00, within: true, false or null (cannot be told), sentence}},
    curves?: {ks: [[nm, value]], derivative: [[nm, value per nm]]},
    tintingStrength?: {percent, nm, byLightness, method} }
verdict is "no difference" (the same reading), "cannot be told", "no verdict", "measured", "visible side by side" or
"visible apart"; with "perhaps" before these two where a photograph’s ± reaches below their threshold.
Of a photograph:
  { basis: "photograph", lab: {D65: of the first sample}, observer: 2, family, uncertainty: {de00, method},
    chart: {name, patches used, rejected: [{patch, name, reason}], fit: "3x3" or "root-polynomial-2", mean, max
            (leave-one-out CIEDE2000)}, samples: [{name, lab, uncertainty, family, swatch}],
    difference?: of the first sample from the other colour or the second sample {of, from, de00, delta, under,
                 uncertainty, verdict, code, sentence, source}, notes }
Without a spectrum only the given illuminant is told. Errors: {error: {code, message, file?, line?, column?, cure?}}.`,
  options: {
    set: { type: 'string', multiple: true },
    against: { type: 'string' },
    'against-set': { type: 'string', multiple: true },
    tolerance: { type: 'string' },
    curves: { type: 'boolean' },
    'tinting-strength': { type: 'boolean' },
    white: { type: 'string' },
    chart: { type: 'string' },
    corners: { type: 'string' },
    grid: { type: 'string' },
    sample: { type: 'string', multiple: true },
    grey: { type: 'string' },
    lab: { type: 'string' },
    'against-lab': { type: 'string' },
    illuminant: { type: 'string' },
    observer: { type: 'string' },
    transform: { type: 'string', default: 'CAT16' },
  },
  async run(given, streams) {
    checkUse(given);
    const { isIlluminant, illuminants } = await import('../colour/index.js');
    const illuminant = text(given.values.illuminant)?.toUpperCase();
    if (illuminant !== undefined && !isIlluminant(illuminant))
      throw new WrongUse(`--illuminant is one of ${illuminants.join(', ')}, not ${text(given.values.illuminant)}.`);
    const stated = conditionsOf(given.values, illuminant);
    if (given.values.grey !== undefined) return ofGreyCard(given, streams);
    return given.values.chart === undefined ? ofReading(given, stated, streams) : ofPhotograph(given, stated, streams);
  },
};

/** The other colour that was asked for; undefined if none was. */
async function readOther({ values }: Given, stated: StatedConditions) {
  const { readColourFile, readLab } = await import('./colour/read.js');
  const [file, lab] = [text(values.against), text(values['against-lab'])];
  if (file !== undefined) return readColourFile(file, stated, texts(values['against-set']));
  return lab === undefined ? undefined : readLab(lab, '--against-lab', stated);
}

async function tellFault(fault: FileFault, { json }: Given, { result, aside }: Streams): Promise<ExitCode> {
  const { faultAsJson } = await import('./colour/json.js');
  const { faultAsText } = await import('./colour/text.js');
  if (json) result(`${JSON.stringify(faultAsJson(fault))}\n`);
  else aside(faultAsText(fault));
  return 1;
}

/** A spectrum, Lab or XYZ. */
async function ofReading(given: Given, stated: StatedConditions, streams: Streams): Promise<ExitCode> {
  const { values, positionals, json } = given;
  const { compare } = await import('../colour/index.js');
  const { readColourFile, readLab } = await import('./colour/read.js');
  const [file] = positionals;
  const one =
    file === undefined
      ? readLab(text(values.lab) ?? '', '--lab', stated)
      : await readColourFile(file, stated, texts(values.set));
  if (!one.ok) return tellFault(one.fault, given, streams);
  const other = await readOther(given, stated);
  if (other && !other.ok) return tellFault(other.fault, given, streams);
  const compared = other && compare(other.value.colour, one.value.colour);
  if (compared && !compared.ok) return tellFault(compared.fault, given, streams);
  const strength = values['tinting-strength'] ? await strengthOf(one.value, other?.value, given, stated) : undefined;
  if (strength && !strength.ok) return tellFault(strength.fault, given, streams);
  const { colourAsJson } = await import('./colour/json.js');
  const { colourAsText } = await import('./colour/text.js');
  const tolerance = values.tolerance === undefined ? undefined : toleranceOf(values.tolerance);
  const options = {
    transform: stated.transform!,
    tolerance,
    curves: values.curves === true,
    tintingStrength: strength?.value,
  };
  const told = json
    ? `${JSON.stringify(colourAsJson(one.value, other?.value, compared?.value, options))}\n`
    : colourAsText(one.value, other?.value, compared?.value, options);
  streams.result(told);
  return 0;
}

/** How strongly one tint tints against the other; a fault where they are no spectra. */
async function strengthOf(
  one: ColourRead,
  other: ColourRead | undefined,
  { values }: Given,
  stated: StatedConditions,
): Promise<Outcome<TintingStrength>> {
  const { tintingStrength } = await import('../colour/index.js');
  const { readColourFile } = await import('./colour/read.js');
  const file = text(values.white);
  const white = file === undefined ? undefined : await readColourFile(file, stated, undefined);
  if (white && !white.ok) return white;
  const [sample, reference] = [one.colour.spectrum, other?.colour.spectrum];
  if (sample && reference) return tintingStrength(sample, reference, white?.value.colour.spectrum);
  return {
    ok: false,
    fault: {
      code: 'no-spectrum',
      message: 'A tinting strength needs the spectra of two tints.',
      cure: 'Give FILE and --against FILE as spectra.',
    },
  };
}

/** Samples in a photograph with a grey card: a rough estimate. */
async function ofGreyCard(given: Given, streams: Streams): Promise<ExitCode> {
  const { readByGreyCard, roughAsJson, roughAsText } = await import('./colour/photograph.js');
  const path = given.positionals[0]!;
  const read = await readByGreyCard(path, text(given.values.grey)!, texts(given.values.sample) ?? []);
  if (!read.ok) return tellFault({ ...read.fault, file: path }, given, streams);
  streams.result(given.json ? `${JSON.stringify(roughAsJson(read.value))}\n` : roughAsText(path, read.value));
  return 0;
}

/** Samples in a photograph with a chart. */
async function ofPhotograph(given: Given, stated: StatedConditions, streams: Streams): Promise<ExitCode> {
  const { values, positionals, json } = given;
  const photograph = await import('./colour/photograph.js');
  const path = positionals[0]!;
  const read = await photograph.readPhotograph(path, {
    chart: text(values.chart)!,
    corners: text(values.corners),
    grid: text(values.grid),
    samples: texts(values.sample) ?? [],
    illuminant: stated.illuminant,
  });
  if (!read.ok) return tellFault({ ...read.fault, file: path }, given, streams);
  const other = await readOther(given, { ...stated, observer: 2 });
  if (other && !other.ok) return tellFault(other.fault, given, streams);
  const lab = other?.value.colour.lab;
  if (other && !lab)
    return tellFault(
      {
        code: 'colours-not-comparable',
        message: `What ${other.value.name} looks like in daylight is not known, and a photograph tells daylight only.`,
        cure: 'Give the other colour as a spectrum, or as Lab for D65.',
      },
      given,
      streams,
    );
  const difference =
    other && lab
      ? photograph.differenceFromColour(read.value, { name: other.value.name, lab })
      : photograph.differenceOfFirstTwo(read.value);
  const told = json
    ? `${JSON.stringify(photograph.photographAsJson(read.value, difference))}\n`
    : photograph.photographAsText(path, read.value, difference);
  streams.result(told);
  return 0;
}

/** A colour difference, with a point or a comma. */
const toleranceOf = (value: NonNullable<Values[string]>): number => Number(String(value).trim().replace(',', '.'));

const text = (value: Values[string]): string | undefined => (value === undefined ? undefined : String(value));

/** The values of an option that may be given several times; undefined if it was not given. */
const texts = (value: Values[string]): string[] | undefined => (Array.isArray(value) ? value.map(String) : undefined);

/** Throws where options contradict one another or are none of those allowed. */
function checkUse(given: Given): void {
  checkColours(given);
  checkPhotograph(given);
  const { observer, transform, tolerance, against } = given.values;
  if (tolerance !== undefined && !(toleranceOf(tolerance) > 0))
    throw new WrongUse(`--tolerance is a colour difference such as 1.5, not ${String(tolerance)}.`);
  if (given.values['tinting-strength'] && against === undefined)
    throw new WrongUse('--tinting-strength needs another tint: --against FILE.');
  if (tolerance !== undefined && against === undefined && given.values['against-lab'] === undefined)
    throw new WrongUse('--tolerance needs an aim: --against or --against-lab.');
  if (observer !== undefined && observer !== '2' && observer !== '10')
    throw new WrongUse(`--observer is 2 or 10, not ${String(observer)}.`);
  if (transform !== 'CAT16' && transform !== 'CAT02')
    throw new WrongUse(`--transform is CAT16 or CAT02, not ${String(transform)}.`);
}

/** One colour, and one other at most. */
function checkColours({ values, positionals }: Given): void {
  if (positionals.length > 1) throw new WrongUse('colour takes one file; give the other with --against.');
  if (positionals.length === 0 && values.lab === undefined)
    throw new WrongUse('colour takes a FILE, or --lab "L a b".');
  if (positionals.length === 1 && values.lab !== undefined) throw new WrongUse('Give a FILE or --lab, not both.');
  if (values.against !== undefined && values['against-lab'] !== undefined)
    throw new WrongUse('Give --against or --against-lab, not both.');
  if (values.set !== undefined && positionals.length === 0) throw new WrongUse('--set chooses a sample of FILE.');
  if (values['against-set'] !== undefined && values.against === undefined)
    throw new WrongUse('--against-set chooses a sample of the file of --against.');
}

/** What belongs to a photograph stands only beside --chart. */
function checkPhotograph({ values, positionals }: Given): void {
  const shown = ['chart', 'grey'].filter((option) => values[option] !== undefined);
  if (shown.length > 1) throw new WrongUse('Give --chart or --grey, not both.');
  if (shown.length > 0 && positionals.length === 0) throw new WrongUse(`--${shown[0]} is read in a PHOTO.`);
  const alone = ['corners', 'grid', 'sample'].find((option) => values[option] !== undefined);
  if (alone !== undefined && shown.length === 0) throw new WrongUse(`--${alone} needs a --chart.`);
}

const conditionsOf = ({ observer, transform }: Values, illuminant: Illuminant | undefined): StatedConditions => ({
  ...(illuminant ? { illuminant } : {}),
  ...(observer === undefined ? {} : { observer: Number(observer) as Observer }),
  transform: transform as Transform,
});
