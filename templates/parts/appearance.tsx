// The colour of an entry's samples: in daylight and under lamps, how they differ, how opaque, in tints, and by
// standard tests.
import type { Element, ElementContent } from 'hast';
import type {
  AppearanceReckoning,
  ColourComparison,
  ColourDifference,
  ColourRepeats,
  ReferenceAppearance,
  SampleAppearance,
  TestResult,
} from '../../src/reckoning/appearance/appearance-contracts.js';
import { reflectanceCurves, type ReflectanceCurve } from '../pictures/curves.js';
import { curveRows } from '../pictures/curve-rows.js';
import { figure, labCells, labHead, pictureFigure, pictureTable, type PictureTable } from '../pictures/figure.js';
import { lampPair, type SampleUnderLamps } from '../pictures/lamps.js';
import { ageing } from './ageing.js';
import { capital, everyColumn, labWords, notes, set, verdictWords } from './colour-words.js';
import { listed } from './findings.js';
import { swatchFigure } from './swatch-figure.js';
import { tintingStrengths } from './tinting.js';
import { anyTintRead, tints } from './tints.js';
import { withStop } from './sentence.js';

const basisWords: Readonly<Record<NonNullable<SampleAppearance['basis']>, string>> = {
  spectrum: 'spectrum',
  lab: 'Lab as given',
  xyz: 'XYZ as given',
  photograph: 'photograph with a chart',
  'srgb-estimate': 'rough estimate from sRGB',
};

const part = (title: string, content: readonly (ElementContent | null)[]): Element =>
  (
    <section>
      <h3>{title}</h3>
      {[...content]}
    </section>
  ) as Element;

/** Daylight and lamplight of one sample, or nothing without a reading under both. */
function daylightAndLamplight(label: string, perLamp: SampleAppearance['perLamp']): SampleUnderLamps | undefined {
  const [day, lamplight] = ['D65', 'A'].map((lamp) => perLamp?.find((under) => under.lamp === lamp));
  if (!day || !lamplight) return undefined;
  const lamps = [day, lamplight].map(({ name, swatch: { hex, mapped } }) => ({ lamp: name, hex, mapped }));
  return { label, lamps };
}

interface Measured {
  readonly name: string;
  readonly appearance: Pick<SampleAppearance, 'lab' | 'family' | 'basis' | 'observer' | 'labApproximate' | 'given'>;
}

/** Family, and what the reading rests on: `green, from a spectrum, 10°`. */
const readAs = ({ family, basis, observer }: Measured['appearance']): string =>
  [family, basis && basisWords[basis], observer && `${observer}°`].filter(Boolean).join(', ');

/**
 * What is said of several is said once, with whom it concerns where that is not everyone.
 * @param everyone how many there are, of whom something could be said
 */
function saidOnce(all: readonly { readonly name: string; readonly words: string }[], everyone: number): string[] {
  const about = new Map<string, string[]>();
  for (const { name, words } of all) if (words !== '') about.set(words, [...(about.get(words) ?? []), name]);
  if (about.size === 1 && [...about.values()][0]!.length === everyone) return [capital([...about.keys()][0]!)];
  return [...about].map(([words, names]) => `${names.join(', ')}: ${words}`);
}

/** What is said of a photograph's colour: its ± apart from how that comes about, the same for its neighbours. */
function photographNotes({ note, uncertainty }: SampleAppearance): readonly (string | undefined)[] {
  if (!note || !uncertainty) return [note];
  const size = `± ΔE00 ${uncertainty.de00.toFixed(1)}`;
  const begins = `Read from a photograph: ${size} (${uncertainty.method}).`;
  if (!note.startsWith(begins)) return [note];
  return [`${size} by the photograph.`, `how that ± comes about: ${uncertainty.method}.${note.slice(begins.length)}`];
}

/**
 * Notes on the readings of one sample, as sentences.
 * @param alone it has no neighbours of whom the same is said
 */
function notesOn(sample: SampleAppearance, alone: boolean): string[] {
  const { repeatability, given, instrument, note } = sample;
  return [
    repeatability &&
      `mean of ${repeatability.readings} readings, which lie ${figure(repeatability.mean, 2)} from it on ` +
        `average and ${figure(repeatability.largest, 2)} at most (ΔE₀₀).`,
    given &&
      `given as L* a* b* ${given.lab.map((value) => figure(value)).join(', ')} under ` +
        `${given.illuminant}/${given.observer}°.`,
    instrument && `read with ${instrument}.`,
    ...(alone ? [note] : photographNotes(sample)),
  ].filter((one) => one !== undefined);
}

/** The first note of each sample, then the second of each: what is said of all comes behind what is said of one. */
function everyNote(samples: readonly SampleAppearance[]): { readonly name: string; readonly words: string }[] {
  const all = samples.map((one) => ({ name: one.sample, notes: notesOn(one, samples.length === 1) }));
  const most = Math.max(0, ...all.map(({ notes }) => notes.length));
  return Array.from({ length: most }, (_, at) =>
    all.flatMap(({ name, notes }) => (notes[at] === undefined ? [] : [{ name, words: notes[at] }])),
  ).flat();
}

/** Why a Lab is only about right. */
function whyApproximate({ appearance: { basis, given } }: Measured): string {
  if (basis === 'srgb-estimate') return 'estimated from sRGB';
  if (basis === 'photograph') return 'read from a photograph';
  return given ? 'carried over from another illuminant' : 'taken for D65, as no illuminant is written';
}

/** What ≈ stands for, of those that have it. */
function approximateWords(all: readonly Measured[]): string[] {
  const why = new Set(all.filter(({ appearance }) => appearance.labApproximate).map(whyApproximate));
  return why.size === 0 ? [] : [`≈ ${[...why].join(', or ')}.`];
}

function inventedWords(samples: readonly SampleAppearance[]): string[] {
  const names = samples.filter(({ invented }) => invented).map(({ sample }) => sample);
  if (names.length === 0) return [];
  return names.length === samples.length
    ? ['The readings are invented for a demonstration.']
    : [`The readings of ${names.join(', ')} are invented for a demonstration.`];
}

function measured(samples: readonly SampleAppearance[], reference: ReferenceAppearance | undefined): Element[] {
  const all: Measured[] = [
    ...samples.map((sample) => ({ name: sample.sample, appearance: sample })),
    ...(reference ? [{ name: reference.name, appearance: reference }] : []),
  ].filter(({ appearance }) => appearance.lab);
  if (all.length === 0) return [];
  const approximately = ({ appearance }: Measured): string => (appearance.labApproximate ? ' ≈' : '');
  const notesSaid = saidOnce(everyNote(samples), samples.filter(({ swatch }) => swatch).length);
  const said = [
    ...saidOnce(
      all.map(({ name, appearance }) => ({ name, words: readAs(appearance) })),
      all.length,
    ).map(withStop),
    ...notesSaid.map(withStop),
    ...approximateWords(all),
    ...(reference?.note ? [`${reference.name}: ${reference.note}`] : []),
    ...inventedWords(samples),
  ];
  return [
    pictureTable({
      caption: 'Colour in daylight (D65)',
      head: ['', ...labHead],
      rows: all.map((one) => [`${one.name}${approximately(one)}`, ...labCells(one.appearance.lab!)]),
    }),
    (<p>{said.join(' ')}</p>) as Element,
  ];
}

const lampsAtOnce = 4;

function underLamps(
  samples: readonly SampleAppearance[],
  reference: ReferenceAppearance | undefined,
  compared: readonly NamedDifference[],
): Element | null {
  const shown = samples.flatMap(({ sample, perLamp }) => daylightAndLamplight(sample, perLamp) ?? []);
  const besides = reference && daylightAndLamplight(reference.name, reference.perLamp);
  if (besides && shown.length > 0) shown.push(besides);
  const unknown = samples.filter(({ lab, perLamp }) => lab && (perLamp?.length ?? 0) < 2).map(({ sample }) => sample);
  if (shown.length === 0 && unknown.length === 0) return null;
  const groups: SampleUnderLamps[][] = [];
  for (let at = 0; at < shown.length; at += lampsAtOnce) groups.push(shown.slice(at, at + lampsAtOnce));
  const every = [
    ...samples.map(({ sample, perLamp }) => ({ name: sample, perLamp })),
    ...(reference ? [{ name: reference.name, perLamp: reference.perLamp }] : []),
  ];
  const moved = new Map(
    samples.flatMap(({ sample, lampMoves }) =>
      (lampMoves ?? []).map((move) => [`${sample} ${move.lamp}`, move] as const),
    ),
  );
  const read = every.filter(({ perLamp }) => (perLamp?.length ?? 0) > 1);
  const lamps = new Map(
    read.flatMap(({ perLamp }) => (perLamp ?? []).map(({ lamp, name }) => [lamp, `${name} (${lamp})`] as const)),
  );
  const rows = [...lamps].map(([lamp, called]) => [
    called,
    ...read.map(({ name, perLamp }) => {
      const under = perLamp?.find((one) => one.lamp === lamp);
      const move = moved.get(`${name} ${lamp}`);
      return under
        ? `${labWords(under.lab)}${move ? `; ${[figure(move.de00, 2), ...move.directions].join(', ')}` : ''}`
        : '–';
    }),
  ]);
  const alike = new Map<string, { readonly sample: string; readonly de00: number }[]>();
  for (const { sample, lampMove } of samples)
    if (lampMove) alike.set(lampMove.text, [...(alike.get(lampMove.text) ?? []), { sample, de00: lampMove.de00 }]);
  const moves = [...alike].map(
    ([text, of]) =>
      (
        <li>
          {of.length === 1
            ? `Sample ${of[0]!.sample} ${text}`
            : `Samples ${of.map(({ sample }) => sample).join(', ')}: each ${text}`}
          <span class="quiet">{` (ΔE₀₀ ${of.map(({ de00 }) => figure(de00)).join(', ')})`}</span>
        </li>
      ) as Element,
  );
  const metameric = compared.flatMap(({ name, difference }) =>
    difference.metameric
      ? [
          (
            <p class="note">
              <strong>{`${name} part under another lamp. `}</strong>
              {set(difference.metameric.sentence)}
            </p>
          ) as Element,
        ]
      : [],
  );
  return part('From daylight to lamplight', [
    moves.length > 0 ? ((<ul class="moves">{moves}</ul>) as Element) : null,
    ...metameric,
    ...groups.map((group, i) =>
      pictureFigure({
        picture: lampPair({ samples: group }),
        table:
          i === groups.length - 1
            ? {
                caption:
                  'L*, a*, b* under each lamp, against its own white; then ΔE₀₀ from daylight (CAT16) and whither ' +
                  'it moves',
                label: 'Colour under each lamp',
                head: ['Lamp', ...read.map(({ name }) => name)],
                rows,
                words: everyColumn(read),
              }
            : undefined,
        summary: 'The numbers under every lamp',
      }),
    ),
    unknown.length > 0
      ? ((
          <p class="small quiet">
            {`${unknown.length === 1 ? 'Sample' : 'Samples'} ${unknown.join(', ')}: the colour under lamplight ` +
              'can’t be known without a spectrum.'}
          </p>
        ) as Element)
      : null,
  ]);
}

interface NamedDifference {
  readonly name: string;
  readonly difference: ColourDifference;
  /** Whither the second of two preparations lies, where repeats judge it. */
  readonly whither?: string;
}

/** `A and B`; `A, B and C against D`, where there are repeats. */
const comparedName = ({ a, b }: ColourComparison): string =>
  a.length + b.length === 2 ? `${a[0]!} and ${b[0]!}` : `${listed(a)} against ${listed(b)}`;

/** What is compared of the samples: preparations where there are repeats or a control, else every pair. */
const ofSamples = ({ pairs = [], comparisons }: AppearanceReckoning): NamedDifference[] =>
  comparisons
    ? comparisons.map((one) => ({
        name: comparedName(one),
        difference: one,
        ...(one.direction !== '' && one.p !== undefined && { whither: `${capital(one.direction)}: ${listed(one.b)}.` }),
      }))
    : pairs.map((pair) => ({ name: `${pair.a} and ${pair.b}`, difference: pair }));

/** What is compared of the samples, and each sample against the reference: the difference is of the second less the
 * first. */
const allDifferences = (appearance: AppearanceReckoning): NamedDifference[] => [
  ...ofSamples(appearance),
  ...(appearance.reference?.differences ?? []).map((difference) => ({
    name: `${appearance.reference!.name} and ${difference.sample}`,
    difference,
  })),
];

/** How far repeats of one preparation lie apart, each preparation in one sentence. */
function repeatsWords(repeats: readonly ColourRepeats[]): Element | null {
  if (repeats.length === 0) return null;
  const told = repeats.map(
    ({ samples, mean, largest, estimated }) =>
      `${listed(samples)} repeat one recipe and lie ${figure(mean, 2)} from their mean on average, ` +
      `${figure(largest, 2)} at most (ΔE₀₀)${estimated ? ', by rough estimates' : ''}.`,
  );
  return (<p>{told.join(' ')}</p>) as Element;
}

/** ΔE and its parts as figures of a table or a line. */
const deltaCells = ({ approximate, de00, delta }: ColourDifference): string[] => [
  `${approximate ? '≈ ' : ''}${figure(de00, 2)}`,
  ...delta.map((value) => figure(value)),
];

function differenceTable(all: readonly NamedDifference[]): Element {
  const scatter = all.some(({ difference }) => difference.repeatability !== undefined);
  const unders = new Set(all.map(({ difference }) => difference.under));
  const under = unders.size === 1 ? [...unders][0] : undefined;
  return pictureTable({
    // What is the same in every row is said once.
    caption: `Colour differences (CIEDE2000)${under === undefined ? '' : ` under ${under}`}; second less first`,
    label: 'Colour differences',
    head: [
      'Samples',
      'ΔE₀₀',
      'ΔL*',
      'Δa*',
      'Δb*',
      ...(scatter ? ['Scatter'] : []),
      ...(under === undefined ? ['Under'] : []),
      'Verdict',
    ],
    rows: all.map(({ name, difference }) => [
      name,
      ...deltaCells(difference),
      ...(scatter ? [difference.repeatability === undefined ? '–' : figure(difference.repeatability, 2)] : []),
      ...(under === undefined ? [difference.under] : []),
      difference.verdict.words,
    ]),
    words: [5, 6, 7].filter((column) => column >= 5 + Number(scatter)),
  });
}

/** The figures of a single difference, as words: what a table of one row would hold. */
function differenceWords({ difference }: NamedDifference): string {
  const [, lightness, a, b] = deltaCells(difference);
  const scatter =
    difference.repeatability === undefined ? '' : `; scatter of the readings ${figure(difference.repeatability, 2)}`;
  return ` Under ${difference.under}, second less first: ΔL* ${lightness}, Δa* ${a}, Δb* ${b}${scatter}.`;
}

function underEveryLamp(all: readonly NamedDifference[]): Element | null {
  const underLamps = all.filter(({ difference }) => difference.perLamp);
  const lamps = new Map(
    underLamps.flatMap(({ difference }) =>
      (difference.perLamp ?? []).map(({ lamp, name }) => [lamp, `${name} (${lamp})`] as const),
    ),
  );
  // Daylight stands in the table of differences already.
  const daylightSaid = underLamps.every(({ difference }) =>
    difference.perLamp?.every(({ lamp, de00 }) => lamp !== 'D65' || figure(de00, 2) === figure(difference.de00, 2)),
  );
  if (daylightSaid) lamps.delete('D65');
  if (underLamps.length === 0 || lamps.size === 0) return null;
  return pictureTable({
    caption: 'ΔE₀₀ under each lamp (in brackets: metamerism index)',
    label: 'Differences under every lamp',
    head: ['Lamp', ...underLamps.map(({ name }) => name)],
    rows: [...lamps].map(([lamp, called]) => [
      called,
      ...underLamps.map(({ difference }) => {
        const under = difference.perLamp?.find((one) => one.lamp === lamp);
        const index = difference.metamerism?.find((one) => one.lamp === lamp);
        return under ? `${figure(under.de00, 2)}${index ? ` (${figure(index.index00, 2)})` : ''}` : '–';
      }),
    ]),
  });
}

const mostTold = 3;

function differences(appearance: AppearanceReckoning, methodAt: string): Element | null {
  const { reference, repeats = [] } = appearance;
  const all = allDifferences(appearance);
  const repeated = repeatsWords(repeats);
  if (all.length === 0) return repeated && part('Repeats', [repeated]);
  const told = [...all].sort((x, y) => y.difference.de00 - x.difference.de00).slice(0, mostTold);
  const shown = all.length <= mostTold ? all : told;
  return part(reference ? 'Differences, and beside the reference' : 'Differences between the samples', [
    reference?.swatch
      ? pictureFigure({
          picture: swatchFigure(reference.swatch, reference.name),
          caption: `${reference.name}, the reference${reference.invented ? ' (reading invented)' : ''}.`,
        })
      : null,
    repeated,
    ...shown.map(
      ({ name, difference, whither }) =>
        (
          <p class="verdict">
            {all.length > 1 || repeated ? <b>{`${name}. `}</b> : null}
            {verdictWords(difference.verdict)}
            {whither && difference.verdict.code !== 'cannot-be-told' ? ` ${whither}` : null}
            {difference.approximate ? ' At least one of the readings is approximate.' : ''}
            {all.length === 1 ? differenceWords(all[0]!) : null}
          </p>
        ) as Element,
    ),
    ...[...new Set(all.flatMap(({ difference }) => difference.verdict.caveat ?? []))].map(
      (caveat) => (<p class="small quiet">{caveat}</p>) as Element,
    ),
    shown.length < all.length
      ? ((
          <p class="small quiet">{`The ${shown.length} largest of ${all.length}; the rest are in the table.`}</p>
        ) as Element)
      : null,
    (
      <details class="behind">
        <summary>{all.length > 1 ? 'Every difference, and how it is judged' : 'How this is judged'}</summary>
        {all.length > 1 ? differenceTable(all) : null}
        {underEveryLamp(all)}
        {all.some(({ difference }) => difference.repeatability === undefined && !difference.verdict.caveat)
          ? notes([
              'Without a figure for scatter there was one reading of each: how well a reading repeats is not known.',
            ])
          : null}
        <p class="small">
          <a href={`${methodAt}#differences`}>Thresholds of these words, and their sources</a>
        </p>
      </details>
    ) as Element,
  ]);
}

/**
 * Every 20 nm of a finer reading, so that the table behind the curves stays readable; the whole is in the spectrum's
 * file.
 */
const curveTable = (curves: readonly ReflectanceCurve[]): Pick<PictureTable, 'head' | 'rows'> => ({
  head: ['nm', ...curves.map(({ label }) => label)],
  rows: curveRows(
    curves.map(({ points }) => points),
    (nm, _, count) => count <= 20 || nm % 20 === 0,
    (share) => figure(share * 100),
  ),
});

function curves(
  samples: readonly SampleAppearance[],
  reference: ReferenceAppearance | undefined,
  curvesAt: string | undefined,
): Element | null {
  const drawn: ReflectanceCurve[] = samples.flatMap(({ sample, curve, swatch }) =>
    curve && curve.length > 0
      ? [{ label: sample, points: curve.map(({ nm, r }) => [nm, r] as const), hex: swatch?.hex }]
      : [],
  );
  if (reference?.curve && reference.curve.length > 0)
    drawn.push({
      label: reference.name,
      points: reference.curve.map(({ nm, r }) => [nm, r] as const),
      hex: reference.swatch?.hex,
    });
  if (drawn.length === 0) return null;
  return part('Reflectance', [
    pictureFigure({
      picture: reflectanceCurves({ curves: drawn }),
      table: { caption: 'Reflectance, %, every 20 nm', ...curveTable(drawn) },
    }),
    curvesAt === undefined
      ? null
      : ((
          <p class="small beside">
            <a href={curvesAt}>K/S and slope of these curves; tints with white, computed</a>
          </p>
        ) as Element),
  ]);
}

function opacity(samples: readonly SampleAppearance[]): Element | null {
  const known = samples.flatMap(({ sample, opacity: reckoned }) => (reckoned ? [{ sample, ...reckoned }] : []));
  if (known.length === 0) return null;
  const backings = known.some(({ de00 }) => de00 !== undefined);
  const meanings = [...new Set(known.map(({ word, definition }) => `${capital(word)} means ${definition}.`))];
  return part('Opacity', [
    (
      <p>
        {known.flatMap(({ sample, word, contrastRatio }, at) => [
          at > 0 ? '; ' : '',
          `${sample} `,
          <strong>{word}</strong>,
          `, ${figure(contrastRatio)} %`,
        ])}
        . <span class="quiet">{meanings.join(' ')}</span>
      </p>
    ) as Element,
    (
      <details class="behind">
        <summary>Readings over black and over white</summary>
        {pictureTable({
          caption: 'One film over black and over white',
          head: ['', 'Y over black', 'Y over white', 'Contrast ratio, %', ...(backings ? ['ΔE₀₀'] : [])],
          rows: known.map((one) => [
            one.sample,
            figure(one.overBlackY),
            figure(one.overWhiteY),
            figure(one.contrastRatio),
            ...(backings ? [one.de00 === undefined ? '–' : figure(one.de00)] : []),
          ]),
        })}
        {notes([...new Set(known.flatMap((one) => one.notes))])}
      </details>
    ) as Element,
  ]);
}

/**
 * One test of all samples as words: `A 31 g/100 g, B 38 g/100 g`; once where it came out the same for all that had
 * it.
 */
function resultWords(results: readonly { readonly sample: string; readonly text: string }[], everyone: number): string {
  const same = results.every(({ text }) => text === results[0]!.text);
  if (same && results.length === everyone) return `${results[0]!.text}${everyone > 1 ? ' each' : ''}`;
  return results.map(({ sample, text }) => `${sample} ${text}`).join(', ');
}

function standardTests(samples: readonly SampleAppearance[], methodAt: string): Element | null {
  const known = samples.flatMap(({ sample, tests = [] }) => tests.map((test) => ({ sample, test })));
  if (known.length === 0) return null;
  // One line a test; ranges and standards are told for all entries in one place.
  const lineOf = ({ name, range, standard }: TestResult): string => [name, range, standard].join('\n');
  const lines = new Map(known.map(({ test }) => [lineOf(test), test]));
  const resultsOf = (key: string) =>
    known
      .filter(({ test }) => lineOf(test) === key)
      .map(({ sample, test }) => ({ sample, text: test.text.replaceAll(' ', '\u00a0') }));
  return part('Standard tests', [
    (
      <ul class="moves">
        {[...lines].map(([key, { name }]) => (
          <li>
            {`${name}: `}
            <b>{resultWords(resultsOf(key), samples.length)}</b>
          </li>
        ))}
      </ul>
    ) as Element,
    (
      <p class="small">
        <a href={`${methodAt}#tests`}>Usual ranges and standards</a>
      </p>
    ) as Element,
  ]);
}

/**
 * What an entry's page shows of its colour; empty where nothing of the kind is known.
 * @param methodAt address of the page that tells how colours are read: what is the same for every entry stands there
 * @param curvesAt address of the page with the curves for identification and computed tints, where there is one
 * Every drawing has its table behind it; what is computed, estimated or invented says so.
 */
export function appearanceContent(appearance: AppearanceReckoning, methodAt: string, curvesAt?: string): Element[] {
  const { samples, reference } = appearance;
  return [
    ...measured(samples, reference),
    ...[
      differences(appearance, methodAt),
      underLamps(samples, reference, ofSamples(appearance)),
      curves(samples, reference, curvesAt),
      opacity(samples),
      ageing(samples),
      tintingStrengths(samples),
      curvesAt === undefined || anyTintRead(samples) ? tints(samples) : null,
      standardTests(samples, methodAt),
    ].filter((one) => one !== null),
  ];
}
