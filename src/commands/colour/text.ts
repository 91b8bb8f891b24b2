// The answer of `masstone colour` in words, lined up.
import {
  lampNames,
  lchFromLab,
  withinTolerance,
  type Difference,
  type SampleColour,
  type Triple,
} from '../../colour/index.js';
import type { ColourOptions } from './json.js';
import type { ColourRead, FileFault } from './read.js';

function heading({ name, format, called = [], colour }: ColourRead): string[] {
  const { spectrum, scatter, given, screen, observer } = colour;
  const readings = scatter ? `, ${scatter.readings} readings` : '';
  const from = spectrum
    ? `${format} spectrum, ${spectrum.wavelengths[0]} to ${spectrum.wavelengths.at(-1)} nm${readings}; ` +
      `${observer}° observer`
    : `${colour.basis === 'xyz' ? 'XYZ' : 'Lab'} for ${given!.illuminant}, ${observer}° observer${readings}`;
  const mapped = screen.mapped ? ', mapped into sRGB (the colour lies outside)' : '';
  const approximate = colour.screenApproximate ? ', approximate' : '';
  const sample = called.length === 0 ? '' : `, ${called.map((one) => `“${one}”`).join(', ')}`;
  return [
    `${name}${sample}: ${from}`,
    `Family: ${colour.family}. On a screen: ${screen.hex}${mapped}${approximate}.`,
    '',
  ];
}

const nameWidth = 22;
const numberWidth = 8;

function labTable({ under, given }: SampleColour): string[] {
  const row = (name: string, lamp: string, lab: Triple): string => {
    const [, c, h] = lchFromLab(lab);
    const cells = [...lab, c, h].map((value) => value.toFixed(2).padStart(numberWidth));
    return `${`${name} (${lamp})`.padEnd(nameWidth)}${cells.join('')}`;
  };
  const head = ['L*', 'a*', 'b*', 'C*', 'h'].map((name) => name.padStart(numberWidth)).join('');
  const rows = under.map(({ lamp, lab }) => row(lampNames[lamp], lamp, lab));
  if (rows.length === 0 && given) rows.push(row(lampNames[given.illuminant], given.illuminant, given.lab));
  return [`${''.padEnd(nameWidth)}${head}`, ...rows];
}

const movesInWords = ({ moves }: SampleColour): string[] =>
  moves.length === 0
    ? []
    : [
        '',
        `From daylight, for an eye used to each lamp (${moves[0]!.transform}):`,
        ...moves.map(({ lamp, de00, text }) => `  ${`ΔE00 ${de00.toFixed(2)}`.padEnd(12)}${text} (${lamp})`),
        '  (Each row above is against the white of its own lamp, and may seem to move otherwise.)',
      ];

const scatterInWords = ({ scatter }: SampleColour): string[] =>
  scatter
    ? [
        '',
        `Readings lie ΔE00 ${scatter.mean.toFixed(2)} from their mean on average, ` +
          `${scatter.largest.toFixed(2)} at most.`,
      ]
    : [];

const signed = (value: number): string => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(2)}`;

function differenceInWords(
  name: string,
  { illuminant, observer, verdict, delta, lch, direction, ...more }: Difference,
  tolerance: number | undefined,
): string[] {
  const [dl, da, db] = delta.map(signed);
  const aim = tolerance === undefined ? undefined : withinTolerance(more.de00, tolerance, more.doubt);
  const lamps = more.perLamp?.map(({ lamp, de00 }) => `${lampNames[lamp]} ${de00.toFixed(2)}`);
  return [
    '',
    `Against ${name} (${illuminant}/${observer}°):`,
    `  ${verdict.sentence}`,
    ...(verdict.caveat ? [`  ${verdict.caveat}`] : []),
    ...(aim ? [`  ${aim.sentence}`] : []),
    `  ΔL* ${dl}  Δa* ${da}  Δb* ${db}  ΔC* ${signed(lch.dC)}  ΔH* ` +
      `${signed(lch.dH)}${direction ? `: ${direction}` : ''}`,
    ...(lamps ? [`  Under each lamp, ΔE00: ${lamps.join(', ')}.`] : []),
    ...(more.metameric ? [`  ${more.metameric.sentence}`] : []),
    ...(illuminant === 'D65'
      ? []
      : [`  Compared under ${illuminant}, for which a reading was given; the tables of a site are in daylight, D65.`]),
  ];
}

/** One colour, and its difference from another, in words. */
export function colourAsText(
  one: ColourRead,
  other: ColourRead | undefined,
  difference: Difference | undefined,
  { tolerance, tintingStrength }: ColourOptions,
): string {
  const { colour } = one;
  const notes = [...new Set([...one.notes, ...colour.notes, ...(other?.notes ?? [])])];
  const lines = [
    ...heading(one),
    ...labTable(colour),
    ...movesInWords(colour),
    ...scatterInWords(colour),
    ...(difference && other ? differenceInWords(other.name, difference, tolerance) : []),
    ...(tintingStrength
      ? [
          '',
          `Tinting strength: ${tintingStrength.percent.toFixed(0)} % at ${tintingStrength.nm} nm, ` +
            `${tintingStrength.byLightness.toFixed(0)} % by lightness (${tintingStrength.method}).`,
        ]
      : []),
    ...(notes.length > 0 ? ['', ...notes.map((note) => `Note: ${note}`)] : []),
  ];
  return `${lines.join('\n')}\n`;
}

/** Why there is no answer: `spectra/1.csv:3:5: …` */
export function faultAsText({ file, line, column, message, cure }: FileFault): string {
  const place = [file, line, column].filter((part) => part !== undefined).join(':');
  return `${file ? `${place}: ` : ''}${message}${cure ? ` ${cure}` : ''}\n`;
}
