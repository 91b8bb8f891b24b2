// masstone colour: Lab under each lamp from a spectrum, family, movement between lamps, difference from another colour.
import type { Illuminant, Observer, StatedConditions, Transform } from '../colour/index.js';
import type { Command, Given } from './command.js';
import { WrongUse } from './command.js';

type Values = Given['values'];

export const command: Command = {
  name: 'colour',
  summary: 'Lab under each lamp from a spectrum; --against another for the difference',
  help: `
Use: masstone colour FILE [--against FILE] [options]
     masstone colour --lab "L a b" [--against-lab "L a b"] [options]

FILE is a reflectance spectrum, 400 to 700 nm at least in steps of 20 nm or finer: CSV (0 to 1 or %;
comma, semicolon, tab or spaces), CGATS/ISO 28178 text or CxF3/ISO 17972 XML. Of a file of several samples
one is chosen by its name; readings of one sample (named so in the file, or by --set several times, or all
of them by --set all) are averaged. A file with Lab or XYZ only is read as such.

  --set NAME             the sample of FILE that is meant
  --against FILE         another colour, to tell the difference of FILE's from it
  --against-set NAME     the sample of that file that is meant
  --tolerance 1.5        whether FILE is within so much of the aim, the other colour (CIEDE2000)
  --lab "L a b"          CIELAB instead of FILE; --against-lab likewise. Lab is compared as it stands.
  --illuminant D65       illuminant of Lab given without one: D65, D50, A, F2, F11 or LED-B3
  --observer 10          2 or 10 degrees
  --transform CAT16      adaptation for the movement between lamps: CAT16 or CAT02

  masstone colour spectra/14-A.csv --against spectra/14-B.csv
  masstone colour --lab "50 2.68 -79.78" --against-lab "50 0 -82.75"

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
                  tolerance?: {de00, within: true, false or null (cannot be told), sentence}} }
verdict is "no difference" (the same reading), "cannot be told", "no verdict", "measured", "visible side by side" or
"visible apart".
Without a spectrum only the given illuminant is told. Errors: {error: {code, message, file?, line?, column?, cure?}}.`,
  options: {
    set: { type: 'string', multiple: true },
    against: { type: 'string' },
    'against-set': { type: 'string', multiple: true },
    tolerance: { type: 'string' },
    lab: { type: 'string' },
    'against-lab': { type: 'string' },
    illuminant: { type: 'string' },
    observer: { type: 'string' },
    transform: { type: 'string', default: 'CAT16' },
  },
  async run(given, { result, aside }) {
    checkUse(given);
    const { isIlluminant, illuminants, compare } = await import('../colour/index.js');
    const { readColourFile, readLab } = await import('./colour/read.js');
    const { colourAsJson, faultAsJson } = await import('./colour/json.js');
    const { colourAsText, faultAsText } = await import('./colour/text.js');
    const { values, json } = given;
    const illuminant = text(values.illuminant)?.toUpperCase();
    if (illuminant !== undefined && !isIlluminant(illuminant))
      throw new WrongUse(`--illuminant is one of ${illuminants.join(', ')}, not ${text(values.illuminant)}.`);
    const stated = conditionsOf(values, illuminant);
    const tolerance = values.tolerance === undefined ? undefined : Number(values.tolerance);

    const read = async (file: string | undefined, option: string, set: string) =>
      file === undefined
        ? readLab(text(values[option]) ?? '', `--${option}`, stated)
        : readColourFile(file, stated, texts(values[set]));
    const hasOther = values.against !== undefined || values['against-lab'] !== undefined;
    const one = await read(given.positionals[0], 'lab', 'set');
    const other = one.ok && hasOther ? await read(text(values.against), 'against-lab', 'against-set') : undefined;
    const compared = one.ok && other?.ok ? compare(other.value.colour, one.value.colour) : undefined;
    const fault = [one, other, compared].flatMap((outcome) => (outcome && !outcome.ok ? [outcome.fault] : []))[0];
    if (fault || !one.ok) {
      if (json) result(`${JSON.stringify(faultAsJson(fault!))}\n`);
      else aside(faultAsText(fault!));
      return 1;
    }
    const second = other?.ok ? other.value : undefined;
    const difference = compared?.ok ? compared.value : undefined;
    result(
      json
        ? `${JSON.stringify(colourAsJson(one.value, second, difference, { transform: stated.transform!, tolerance }))}\n`
        : colourAsText(one.value, second, difference, tolerance),
    );
    return 0;
  },
};

const text = (value: Values[string]): string | undefined => (value === undefined ? undefined : String(value));

/** The values of an option that may be given several times; undefined if it was not given. */
const texts = (value: Values[string]): string[] | undefined => (Array.isArray(value) ? value.map(String) : undefined);

/** Throws where options contradict one another or are none of those allowed. */
function checkUse({ values, positionals }: Given): void {
  if (positionals.length > 1) throw new WrongUse('colour takes one file; give the other with --against.');
  if (positionals.length === 0 && values.lab === undefined)
    throw new WrongUse('colour takes a FILE, or --lab "L a b".');
  if (positionals.length === 1 && values.lab !== undefined) throw new WrongUse('Give a FILE or --lab, not both.');
  if (values.against !== undefined && values['against-lab'] !== undefined)
    throw new WrongUse('Give --against or --against-lab, not both.');
  if (values.set !== undefined && positionals.length === 0) throw new WrongUse('--set chooses a sample of FILE.');
  if (values['against-set'] !== undefined && values.against === undefined)
    throw new WrongUse('--against-set chooses a sample of the file of --against.');
  const { observer, transform, tolerance } = values;
  if (tolerance !== undefined && !(Number(tolerance) > 0))
    throw new WrongUse(`--tolerance is a colour difference such as 1.5, not ${String(tolerance)}.`);
  if (tolerance !== undefined && values.against === undefined && values['against-lab'] === undefined)
    throw new WrongUse('--tolerance needs an aim: --against or --against-lab.');
  if (observer !== undefined && observer !== '2' && observer !== '10')
    throw new WrongUse(`--observer is 2 or 10, not ${String(observer)}.`);
  if (transform !== 'CAT16' && transform !== 'CAT02')
    throw new WrongUse(`--transform is CAT16 or CAT02, not ${String(transform)}.`);
}

const conditionsOf = ({ observer, transform }: Values, illuminant: Illuminant | undefined): StatedConditions => ({
  ...(illuminant ? { illuminant } : {}),
  ...(observer === undefined ? {} : { observer: Number(observer) as Observer }),
  transform: transform as Transform,
});
