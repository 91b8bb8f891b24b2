// masstone colour: Lab under each lamp from a spectrum, family, movement between lamps, difference from another colour.
import type { Difference, Illuminant, Move, Observer, SampleColour, Transform, Triple } from '../colour/index.js';
import type { Fault } from '../outcome.js';
import type { Command } from './command.js';
import { WrongUse } from './command.js';

const rounded = (value: number, places: number): number => {
  const scale = 10 ** places;
  return Math.round(value * scale) / scale + 0;
};
const three = (triple: Triple, places = 4): number[] => triple.map((value) => rounded(value, places));

/** What one colour is read from: a file, or a Lab typed in. */
interface Read {
  readonly name: string;
  readonly format: string;
  readonly colour: SampleColour;
  readonly notes: readonly string[];
}

class NoAnswer extends Error {
  constructor(
    readonly fault: Fault,
    readonly file?: string,
  ) {
    super(fault.message);
  }
}

export const command: Command = {
  name: 'colour',
  summary: 'Lab under each lamp from a spectrum; --against another for the difference',
  help: `
Use: masstone colour FILE [--against FILE] [options]
     masstone colour --lab "L a b" [--against-lab "L a b"] [options]

FILE is a reflectance spectrum, 400 to 700 nm at least in steps of 20 nm or finer: CSV (0 to 1 or %;
comma, semicolon, tab or spaces), CGATS/ISO 28178 text or CxF3/ISO 17972 XML. Several columns or data
sets are taken as readings of one sample. A file with Lab or XYZ only is read as such.

  --against FILE         another colour, to tell the difference of FILE's from it
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
    difference?: {de00, de76, delta: [dL,da,db] of FILE less the other, under, verdict, code, sentence, source, repeatability?,
                  perLamp?: {D65: de00, …}, metamerism?: {A: {index00, index76}, …}, metameric?: sentence} }
verdict is "no difference", "measured", "visible side by side" or "visible apart".
Without a spectrum only the given illuminant is told. Errors: {error: {code, message, file?, line?, column?, cure?}}.`,
  options: {
    against: { type: 'string' },
    lab: { type: 'string' },
    'against-lab': { type: 'string' },
    illuminant: { type: 'string' },
    observer: { type: 'string' },
    transform: { type: 'string', default: 'CAT16' },
  },
  async run({ values, positionals, json }, { result, aside }) {
    const [file, ...more] = positionals;
    if (more.length > 0) throw new WrongUse('colour takes one file; give the other with --against.');
    if ((file === undefined) === (values.lab === undefined))
      throw new WrongUse(
        file === undefined ? 'colour takes a FILE, or --lab "L a b".' : 'Give a FILE or --lab, not both.',
      );
    if (values.against !== undefined && values['against-lab'] !== undefined)
      throw new WrongUse('Give --against or --against-lab, not both.');
    if (values.observer !== undefined && values.observer !== '2' && values.observer !== '10')
      throw new WrongUse(`--observer is 2 or 10, not ${String(values.observer)}.`);
    if (values.transform !== 'CAT16' && values.transform !== 'CAT02')
      throw new WrongUse(`--transform is CAT16 or CAT02, not ${String(values.transform)}.`);
    const room = await import('../colour/index.js');
    const {
      colourFromLab,
      colourFromSpectra,
      colourFromXyz,
      checkLab,
      compare,
      disagreement,
      illuminants,
      isIlluminant,
      plainNumber,
      readReadings,
    } = room;
    const wanted = values.illuminant === undefined ? undefined : String(values.illuminant).toUpperCase();
    if (wanted !== undefined && !isIlluminant(wanted))
      throw new WrongUse(`--illuminant is one of ${illuminants.join(', ')}, not ${String(values.illuminant)}.`);
    const observer = (values.observer === undefined ? undefined : Number(values.observer)) as Observer | undefined;
    const illuminant = wanted as Illuminant | undefined;
    const transform = values.transform as Transform;

    const fromLab = (text: string, option: string): Read => {
      const plain = text
        .trim()
        .replaceAll('−', '-')
        .replace(/^\[(.*)\]$/, '$1');
      // In `50,1 10,2 -20,3` the commas are decimal.
      const decimalCommas = /^(?:[+-]?\d+(?:,\d+)?(?:\s+|\s*;\s*|$)){3}$/.test(plain);
      const words = (decimalCommas ? plain.replaceAll(',', '.') : plain).trim().split(/\s*[,;]\s*|\s+/);
      const numbers = words.map((word) => plainNumber(word) ?? Number.NaN);
      if (numbers.length !== 3 || numbers.some(Number.isNaN))
        throw new WrongUse(`${option} takes three numbers: ${option} "54.1 -30.2 6.0".`);
      const lab = checkLab(numbers);
      if (!lab.ok) throw new NoAnswer(lab.fault);
      const notes = [
        ...(illuminant ? [] : ['No illuminant was stated; D65 was assumed.']),
        ...(observer ? [] : ['No observer was stated; 10° was assumed.']),
      ];
      return {
        name: `Lab ${text.trim()}`,
        format: 'Lab',
        colour: colourFromLab([lab.value], illuminant ?? 'D65', observer ?? 10),
        notes,
      };
    };

    const fromFile = async (path: string): Promise<Read> => {
      const { readFile, stat } = await import('node:fs/promises');
      let text: string;
      try {
        const about = await stat(path);
        if (!about.isFile())
          throw new NoAnswer(
            { code: 'not-a-file', message: `${path} is not a file.`, cure: 'Give the file of a spectrum.' },
            path,
          );
        if (about.size > 16_000_000)
          throw new NoAnswer(
            {
              code: 'file-too-long',
              message: `The file has ${about.size} bytes.`,
              cure: 'Give one sample’s spectra in a file.',
            },
            path,
          );
        text = await readFile(path, 'utf8');
      } catch (error) {
        if (error instanceof NoAnswer) throw error;
        const { code } = error as NodeJS.ErrnoException;
        throw new NoAnswer(
          code === 'ENOENT'
            ? { code: 'no-such-file', message: `There is no file ${path}.`, cure: 'Check the path.' }
            : {
                code: 'unreadable-file',
                message: `${path} cannot be read (${code ?? 'unknown'}).`,
                cure: 'Check its rights.',
              },
          path,
        );
      }
      const read = readReadings(text);
      if (!read.ok) throw new NoAnswer(read.fault, path);
      const { spectra, values: told, format, notes } = read.value;
      const said = notes.map(
        ({ message, line, cure }) => `${line === undefined ? '' : `Line ${line}: `}${message} ${cure}`,
      );
      const withScatter = (colour: SampleColour): string[] =>
        colour.scatter && colour.scatter.largest > disagreement
          ? [
              `The readings lie up to ΔE00 ${colour.scatter.largest.toFixed(1)} from their mean: check that all are of one sample.`,
            ]
          : [];
      if (spectra.length > 0) {
        const colour = colourFromSpectra(
          spectra.map(({ spectrum }) => spectrum),
          observer ?? 10,
          transform,
        );
        return { name: path, format, colour, notes: [...said, ...withScatter(colour)] };
      }
      const first = told[0]!;
      const stated = illuminant ?? (first.illuminant && isIlluminant(first.illuminant) ? first.illuminant : undefined);
      if (first.illuminant && !isIlluminant(first.illuminant))
        throw new NoAnswer(
          {
            code: 'unknown-illuminant',
            message: `The values are for illuminant ${first.illuminant}, whose tables are not here.`,
            expected: illuminants.join(', '),
            cure: 'Export for another illuminant, or as a spectrum.',
          },
          path,
        );
      if (first.space === 'xyz' && !stated)
        throw new NoAnswer(
          {
            code: 'xyz-without-illuminant',
            message: 'The file holds XYZ without its illuminant, which means nothing alone.',
            cure: 'Give --illuminant and --observer.',
          },
          path,
        );
      const eye = observer ?? first.observer ?? 10;
      const assumed = [
        ...(stated ? [] : ['No illuminant was stated; D65 was assumed.']),
        ...((observer ?? first.observer) ? [] : ['No observer was stated; 10° was assumed.']),
      ];
      const triples = told.map(({ value }) => value);
      if (first.space === 'lab')
        for (const lab of triples) {
          const checked = checkLab(lab);
          if (!checked.ok) throw new NoAnswer(checked.fault, path);
        }
      const colour =
        first.space === 'lab' ? colourFromLab(triples, stated ?? 'D65', eye) : colourFromXyz(triples, stated!, eye);
      return { name: path, format, colour, notes: [...said, ...assumed, ...withScatter(colour)] };
    };

    try {
      const one = file === undefined ? fromLab(String(values.lab), '--lab') : await fromFile(file);
      const other =
        values.against !== undefined
          ? await fromFile(String(values.against))
          : values['against-lab'] !== undefined
            ? fromLab(String(values['against-lab']), '--against-lab')
            : undefined;
      let difference: Difference | undefined;
      if (other) {
        const compared = compare(other.colour, one.colour);
        if (!compared.ok) throw new NoAnswer(compared.fault);
        difference = compared.value;
      }
      result(
        json
          ? `${JSON.stringify(asJson(one, other, difference, transform, room.lchFromLab))}\n`
          : asText(one, other, difference, room),
      );
      return 0;
    } catch (error) {
      if (!(error instanceof NoAnswer)) throw error;
      const { code, message, line, column, cure } = error.fault;
      if (json)
        result(
          `${JSON.stringify({ error: { code, message, ...(error.file ? { file: error.file } : {}), ...(line === undefined ? {} : { line }), ...(column === undefined ? {} : { column }), ...(cure ? { cure } : {}) } })}\n`,
        );
      else
        aside(
          `${error.file ? `${error.file}${line === undefined ? '' : `:${line}${column === undefined ? '' : `:${column}`}`}: ` : ''}${message}${cure ? ` ${cure}` : ''}\n`,
        );
      return 1;
    }
  },
};

const moved = ({ de00, deCmc, de76, adapted, directions, text }: Move) => ({
  de00: rounded(de00, 4),
  deCmc: rounded(deCmc, 4),
  de76: rounded(de76, 4),
  lab: three(adapted),
  directions,
  text,
});

function asJson(
  { colour, format, notes }: Read,
  other: Read | undefined,
  difference: Difference | undefined,
  transform: Transform,
  lchFromLab: (lab: Triple) => Triple,
): object {
  const perLamp = <T>(of: (under: SampleColour['under'][number]) => T): Record<string, T> =>
    Object.fromEntries(colour.under.map((under) => [under.lamp, of(under)]));
  const lab = perLamp(({ lab: triple }) => three(triple));
  const xyz = perLamp(({ xyz: triple }) => three(triple));
  const lch = perLamp(({ lab: triple }) => three(lchFromLab(triple)));
  const { given } = colour;
  if (given && !(given.illuminant in lab)) lab[given.illuminant] = three(given.lab);
  return {
    lab,
    xyz,
    lch,
    family: colour.family,
    observer: colour.observer,
    basis: colour.basis,
    format,
    swatch: { hex: colour.shown.hex, mapped: colour.shown.mapped, approximate: colour.shownApproximate },
    inconstancy:
      colour.moves.length === 0
        ? { known: false, reason: 'How a colour moves between lamps cannot be known without a spectrum.' }
        : {
            known: true,
            transform,
            reference: 'D65',
            test: 'A',
            ...moved(colour.moves.find(({ lamp }) => lamp === 'A')!),
            ...Object.fromEntries(colour.moves.map((move) => [move.lamp, moved(move)])),
          },
    ...(colour.scatter
      ? {
          repeatability: {
            readings: colour.scatter.readings,
            mean: rounded(colour.scatter.mean, 4),
            largest: rounded(colour.scatter.largest, 4),
          },
        }
      : {}),
    notes: [...notes, ...colour.notes, ...(other ? other.notes.map((note) => `${other.name}: ${note}`) : [])],
    ...(difference
      ? {
          difference: {
            de00: rounded(difference.de00, 6),
            de76: rounded(difference.de76, 6),
            delta: three(difference.delta),
            under: `${difference.illuminant}/${difference.observer}°`,
            verdict: difference.verdict.words,
            code: difference.verdict.code,
            sentence: difference.verdict.sentence,
            source: difference.verdict.source,
            ...(difference.repeatability === undefined ? {} : { repeatability: rounded(difference.repeatability, 4) }),
            ...(difference.perLamp
              ? { perLamp: Object.fromEntries(difference.perLamp.map(({ lamp, de00 }) => [lamp, rounded(de00, 4)])) }
              : {}),
            ...(difference.metamerism
              ? {
                  metamerism: Object.fromEntries(
                    difference.metamerism.map(({ lamp, index00, index76 }) => [
                      lamp,
                      { index00: rounded(index00, 4), index76: rounded(index76, 4) },
                    ]),
                  ),
                }
              : {}),
            ...(difference.metameric ? { metameric: difference.metameric.sentence } : {}),
            ...(difference.approximate ? { approximate: true } : {}),
          },
        }
      : {}),
  };
}

function asText(
  one: Read,
  other: Read | undefined,
  difference: Difference | undefined,
  room: typeof import('../colour/index.js'),
): string {
  const { colour } = one;
  const lines: string[] = [];
  const { spectrum } = colour;
  const readings = colour.scatter ? `, ${colour.scatter.readings} readings` : '';
  lines.push(
    spectrum
      ? `${one.name}: ${one.format} spectrum, ${spectrum.wavelengths[0]} to ${spectrum.wavelengths.at(-1)} nm${readings}; ${colour.observer}° observer`
      : `${one.name}: ${colour.basis === 'xyz' ? 'XYZ' : 'Lab'} for ${colour.given!.illuminant}, ${colour.observer}° observer${readings}`,
  );
  lines.push(
    `Family: ${colour.family}. On a screen: ${colour.shown.hex}${colour.shown.mapped ? ', mapped into sRGB (the colour lies outside)' : ''}${colour.shownApproximate ? ', approximate' : ''}.`,
    '',
  );
  const cell = (value: number) => value.toFixed(2).padStart(8);
  lines.push(`${''.padEnd(22)}${['L*', 'a*', 'b*', 'C*', 'h'].map((head) => head.padStart(8)).join('')}`);
  const row = (name: string, lamp: string, lab: Triple) => {
    const [, c, h] = room.lchFromLab(lab);
    lines.push(`${`${name} (${lamp})`.padEnd(22)}${[...lab, c, h].map(cell).join('')}`);
  };
  for (const { lamp, lab } of colour.under) row(room.lampNames[lamp], lamp, lab);
  if (colour.under.length === 0 && colour.given)
    row(room.lampNames[colour.given.illuminant], colour.given.illuminant, colour.given.lab);
  if (colour.moves.length > 0) {
    lines.push('', `From daylight, for an eye used to each lamp (${colour.moves[0]!.transform}):`);
    for (const { lamp, de00, text } of colour.moves)
      lines.push(`  ${`ΔE00 ${de00.toFixed(2)}`.padEnd(12)}${text} (${lamp})`);
  }
  if (colour.scatter)
    lines.push(
      '',
      `Readings lie ΔE00 ${colour.scatter.mean.toFixed(2)} from their mean on average, ${colour.scatter.largest.toFixed(2)} at most.`,
    );
  if (difference && other) {
    lines.push(
      '',
      `Against ${other.name} (${difference.illuminant}/${difference.observer}°):`,
      `  ${difference.verdict.sentence}`,
    );
    const signed = (value: number) => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(2)}`;
    lines.push(
      `  ΔL* ${signed(difference.delta[0])}  Δa* ${signed(difference.delta[1])}  Δb* ${signed(difference.delta[2])}`,
    );
    if (difference.perLamp)
      lines.push(
        `  Under each lamp, ΔE00: ${difference.perLamp.map(({ lamp, de00 }) => `${room.lampNames[lamp]} ${de00.toFixed(2)}`).join(', ')}.`,
      );
    if (difference.metameric) lines.push(`  ${difference.metameric.sentence}`);
  }
  const notes = [...one.notes, ...colour.notes, ...(other ? other.notes : [])];
  if (notes.length > 0) lines.push('', ...[...new Set(notes)].map((note) => `Note: ${note}`));
  return `${lines.join('\n')}\n`;
}
