// The colour of one entry's samples: Lab under each lamp, swatches, family, differences, opacity, tints, tests.
import {
  compare,
  families,
  familiesNear,
  familyNamed,
  familyOf,
  readStandardTest,
  withinTolerance,
  type Difference,
  type Family,
  type Films,
  type SampleColour,
} from '../../colour/index.js';
import type { Entry } from '../../journal/entry.js';
import type { ColourReading, Sample } from '../../journal/schema.js';
import { nearest } from '../../journal/nearest.js';
import { Findings, type Finding, type Path } from '../../remarks/findings.js';
import type {
  AgedAppearance,
  AppearanceReckoning,
  ReferenceAppearance,
  SampleAppearance,
  Swatch,
  TestResult,
} from './appearance-contracts.js';
import {
  curveOf,
  differenceOf,
  labAndLch,
  ladderOf,
  movesOf,
  round,
  roundAll,
  swatchOf,
  underLamps,
  type NamedTint,
  type NamedWhite,
} from './appearance-figures.js';
import { tintingOf, type Tinted } from './appearance-tinting.js';
import { compareColours } from './colour-comparison.js';
import { colourOf, readingsOf } from './colour-reading.js';
import type { ReckoningContext } from '../contracts.js';
import { opacityOf } from './opacity.js';

/** A declared family is not contradicted by a neighbour that begins within this distance, Lab units. */
const borderline = 4;

/** A sample with the colour that its appearance is made of. */
interface ReckonedSample {
  readonly appearance: SampleAppearance;
  readonly colour?: SampleColour;
  readonly tinted?: Tinted;
}

/**
 * Reckons the colour of an entry's samples.
 * @returns plain data, rounded (Lab to 0.001, reflectance to 0.00001); and findings, in the entry or in the file of a
 * reading
 */
export function reckonAppearance(
  entry: Entry,
  context: ReckoningContext,
): { readonly appearance: AppearanceReckoning; readonly findings: readonly Finding[] } {
  const findings = new Findings();
  const reckoned = entry.samples.map((sample, index) => reckonSample(sample, index, context, findings));
  const { strengths, apart } = tintingOf(
    reckoned.flatMap(({ tinted }) => tinted ?? []),
    referenceTints(entry, context, findings),
    entry.control,
  );
  for (const { sample, against } of apart)
    findings.add('tints-cannot-be-compared', tintsOf(entry, sample), { sample, against });
  const samples = reckoned.map(({ appearance }) => {
    const tinting = strengths.get(appearance.sample);
    return tinting ? { ...appearance, tinting } : appearance;
  });
  const coloured = reckoned.flatMap(({ appearance: { sample }, colour }) => (colour ? [{ sample, colour }] : []));
  const compared = compareColours(entry, coloured, findings);
  const reference = referenceOf(entry, context, reckoned, findings);
  const family = familyOfEntry(entry.pigment?.family, reckoned, findings);
  return {
    appearance: { samples, ...compared, ...(reference && { reference }), ...family },
    findings: findings.all,
  };
}

/** Where the tints of a sample stand. */
const tintsOf = ({ samples }: Entry, name: string): Path => [
  'samples',
  samples.findIndex(({ sample }) => sample === name),
  'colour',
  'tints',
];

function reckonSample(sample: Sample, index: number, context: ReckoningContext, findings: Findings): ReckonedSample {
  const colour = sample.colour && colourOf(sample.colour, ['samples', index, 'colour'], context, findings);
  const tests = testsOf(sample, index, findings);
  const film = sample.opacity && opacityOf(sample.opacity, colour, ['samples', index, 'opacity'], context, findings);
  const bare = {
    sample: sample.sample,
    ...(film && { opacity: film.opacity }),
    ...(tests.length > 0 && { tests }),
  };
  if (!colour || !sample.colour) {
    if (sample.aged?.length && !sample.colour)
      findings.add('aged-without-before', ['samples', index, 'aged'], { sample: sample.sample });
    return { appearance: bare };
  }
  const beside = {
    white: whiteNamed(sample.colour.white, context, findings),
    tints: tintsRead(sample.colour, context, findings),
    films: film?.films,
  };
  const aged = agedOf(sample, index, colour, context, findings);
  const preparation = Object.values(sample.preparation ?? {}).join(', ');
  const prepared = preparation && `Prepared and read: ${preparation}.`;
  const curve = curveOf(colour);
  return {
    colour,
    tinted: { name: sample.sample, white: beside.white, tints: beside.tints },
    appearance: {
      ...bare,
      ...labAndLch(colour),
      ...(colour.xyz && { xyz: roundAll(colour.xyz) }),
      observer: colour.observer,
      basis: colour.basis,
      swatch: { ...swatchOf(colour), ...filmSwatch(beside.films) },
      ...(curve && { curve }),
      family: colour.family,
      ...ofLampsAndTints(colour, beside),
      ...ofReading(colour, sample.colour, prepared),
      ...(preparation && { preparation }),
      ...(aged.length > 0 && { aged }),
      ...(prepared && colour.notes.length === 0 && { note: prepared }),
    },
  };
}

/** Tints with white that were read. */
function tintsRead({ tints = [] }: ColourReading, context: ReckoningContext, findings: Findings): NamedTint[] {
  return tints.flatMap(({ percent, spectrum: file, set }) => {
    const first = readingsOf(file, context, findings, set)?.spectra[0];
    return first ? [{ share: percent / 100, spectrum: first.spectrum }] : [];
  });
}

/** The sample after each ageing, against what it was before. */
function agedOf(
  { aged = [] }: Sample,
  index: number,
  before: SampleColour,
  context: ReckoningContext,
  findings: Findings,
): AgedAppearance[] {
  return aged.flatMap(({ after, colour: reading }, at) => {
    const path = ['samples', index, 'aged', at, 'colour'];
    const colour = colourOf(reading, path, context, findings);
    if (!colour) return [];
    const found = compare(before, colour, ['the one before', 'the aged one']);
    if (!found.ok) {
      findings.addFault(found.fault, path, { about: `Before and after ${after}` });
      return [];
    }
    const lab = colour.lab && roundAll(colour.lab);
    return [{ after, ...(lab && { lab }), swatch: swatchOf(colour), ...differenceOf(found.value) }];
  });
}

/** What stands beside a reading: the white and the tints of its ladder, its films. */
interface Beside {
  readonly white: NamedWhite | undefined;
  readonly tints: readonly NamedTint[];
  readonly films: Films | undefined;
}

/** The white that a tint ladder is reckoned with, where the entry names the file of one. */
function whiteNamed(file: string | undefined, context: ReckoningContext, findings: Findings): NamedWhite | undefined {
  const first = file === undefined ? undefined : readingsOf(file, context, findings)?.spectra[0];
  return first && { name: file!, spectrum: first.spectrum };
}

const filmSwatch = (films: Films | undefined): Partial<Swatch> =>
  films
    ? {
        overBlack: films.overBlack.hex,
        overWhite: films.overWhite.hex,
        undertone: films.undertone.hex,
        ...(films.estimated && { filmEstimated: true }),
      }
    : {};

/** What the reading itself says: how it was given, whether it is invented, by which instrument. */
function ofReading(colour: SampleColour, reading: ColourReading, prepared: string): Partial<SampleAppearance> {
  const { given, scatter, notes, uncertainty } = colour;
  return {
    ...(colour.approximate && { labApproximate: true }),
    ...(given && given.illuminant !== 'D65' && { given: { ...given, lab: roundAll(given.lab) } }),
    ...(scatter && {
      repeatability: {
        readings: scatter.readings,
        mean: round(scatter.mean, 4),
        largest: round(scatter.largest, 4),
      },
    }),
    ...(uncertainty && { uncertainty: { ...uncertainty, de00: round(uncertainty.de00, 2) } }),
    ...(reading.invented && { invented: true }),
    ...(reading.instrument && { instrument: reading.instrument }),
    ...(notes.length > 0 && { note: [...notes, prepared].filter(Boolean).join(' ') }),
  };
}

/** The tints and the lamps under which a sample is seen. */
function ofLampsAndTints(colour: SampleColour, { white, tints }: Beside): Partial<SampleAppearance> {
  const under = underLamps(colour);
  const moves = movesOf(colour);
  const lampMove = moves.find(({ lamp }) => lamp === 'A');
  const ladder = ladderOf(colour, white, tints);
  const tenth = ladder?.steps.find(({ share }) => share === 0.1);
  return {
    ...(under.length > 0 && { perLamp: under }),
    ...(tenth && { tintFamily: familyOf(tenth.lab) }),
    ...(ladder && { tintLadder: ladder }),
    ...(lampMove && { lampMove, lampMoves: moves }),
  };
}

function testsOf(sample: Sample, index: number, findings: Findings): TestResult[] {
  return Object.entries(sample.tests ?? {}).flatMap(([test, given]) => {
    if (given === undefined) return [];
    const read = readStandardTest(test, given);
    const path = ['samples', index, 'tests', test];
    if (!read.ok) {
      findings.addFault(read.fault, path);
      return [];
    }
    const { name, text, range, unusual } = read.value;
    if (unusual) findings.add('unusual-test-result', path, { name, result: text, ...(range && { expected: [range] }) });
    return [read.value];
  });
}

/** The family that most samples have; the first of them where several are as frequent. */
function commonest(names: readonly string[]): string | undefined {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
}

/** Whether a declared family does not contradict a reading. */
function mayBeOf(declared: Family, { appearance, colour }: ReckonedSample): boolean {
  if (!colour) return false;
  // Dark masstones all come out black; their tints tell them apart.
  if (colour.family === declared || (colour.family === 'black' && appearance.tintFamily === declared)) return true;
  return colour.lab !== undefined && familiesNear(colour.lab, borderline).has(declared);
}

/** A masstone of these families does not read black, however dark it is. */
const neverBlack = ['white', 'grey', 'pink', 'yellow'];

const isRough = ({ appearance: { basis } }: ReckonedSample): boolean =>
  basis === 'photograph' || basis === 'srgb-estimate';

/** The family of an entry without measured colours: as declared, else as photographs or codes of colours have it. */
function unmeasuredFamily(
  declared: string | undefined,
  rough: readonly ReckonedSample[],
): Pick<AppearanceReckoning, 'family' | 'familyBasis'> {
  if (declared) return { family: declared, familyBasis: 'declared' };
  const family = commonest(rough.flatMap(({ colour }) => colour?.family ?? []));
  if (family === undefined) return {};
  const seen = rough.some(({ appearance, colour }) => appearance.basis === 'photograph' && colour?.family === family);
  return { family, familyBasis: seen ? 'photograph' : 'estimate' };
}

/** The family of the entry: measured, or declared where nothing was measured or all reads black. */
function familyOfEntry(
  written: string | undefined,
  reckoned: readonly ReckonedSample[],
  findings: Findings,
): Pick<AppearanceReckoning, 'family' | 'familyBasis'> {
  const declared = declaredFamily(written, findings);
  // A colour from a photograph is no measurement of a family; it tells one only where nothing was measured.
  const familiesOf = (samples: readonly ReckonedSample[]) => samples.flatMap(({ colour }) => colour?.family ?? []);
  const measured = familiesOf(reckoned.filter((one) => !isRough(one)));
  const common = commonest(measured);
  if (!common) return unmeasuredFamily(declared, reckoned.filter(isRough));
  if (!declared) return { family: common, familyBasis: 'measured' };
  if (reckoned.some((one) => mayBeOf(declared, one))) return { family: declared, familyBasis: 'measured' };
  if (measured.every((family) => family === 'black') && !neverBlack.includes(declared)) {
    findings.add('masstone-reads-black', ['pigment', 'family'], { declared });
    return { family: declared, familyBasis: 'declared' };
  }
  findings.add('family-against-measurement', ['pigment', 'family'], {
    declared,
    measured: reckoned.flatMap(({ appearance: { sample, family } }) => (family ? [`${sample} ${family}`] : [])),
    expected: [common],
  });
  return { family: common, familyBasis: 'measured' };
}

function declaredFamily(written: string | undefined, findings: Findings): Family | undefined {
  const family = written === undefined ? undefined : familyNamed(written);
  if (written !== undefined && !family)
    findings.add('unknown-family', ['pigment', 'family'], {
      family: written.slice(0, 40),
      families,
      near: nearest(written, families),
      expected: [families.join(', ')],
    });
  return family;
}

/** The reading of the bought pigment: described in the entry, or on the shelf. */
function referenceReading(
  { reference: given }: Entry,
  context: ReckoningContext,
  findings: Findings,
): ColourReading | undefined {
  const { reagent, colour, name } = given!;
  const onShelf = reagent === undefined ? undefined : context.shelf.get(reagent);
  if (reagent !== undefined && !onShelf)
    findings.add('unknown-reagent', ['reference', 'reagent'], { id: reagent, of: 'reference' });
  const reading = colour ?? onShelf?.colour;
  if (reading) return reading;
  if (onShelf)
    findings.add('reference-without-colour', ['reference', 'reagent'], { name: onShelf.name, onShelf: true });
  else if (reagent === undefined) findings.add('reference-without-colour', ['reference'], { name, onShelf: false });
  return undefined;
}

/** Tints of the bought pigment that were read. */
function referenceTints(entry: Entry, context: ReckoningContext, findings: Findings): Tinted | undefined {
  const reading = entry.reference?.colour;
  if (!entry.reference || !reading?.tints) return undefined;
  return {
    name: entry.reference.name,
    white: whiteNamed(reading.white, context, findings),
    tints: tintsRead(reading, context, findings),
  };
}

type ReferenceDifference = ReferenceAppearance['differences'][number];

/** Whether a sample is within the tolerance that the entry states of its reference. */
function toleranceOf(
  { de00, doubt }: Difference,
  tolerance: number | undefined,
): Pick<ReferenceDifference, 'tolerance'> {
  if (tolerance === undefined) return {};
  const { within, sentence } = withinTolerance(de00, tolerance, doubt);
  return { tolerance: { de00: tolerance, ...(within !== undefined && { within }), sentence } };
}

/** The bought pigment that the samples stand beside. */
function referenceOf(
  entry: Entry,
  context: ReckoningContext,
  reckoned: readonly ReckonedSample[],
  findings: Findings,
): ReferenceAppearance | undefined {
  const given = entry.reference;
  if (!given) return undefined;
  const { name } = given;
  const reading = referenceReading(entry, context, findings);
  if (!reading) return { name, differences: [] };
  const path = ['reference', given.colour ? 'colour' : 'reagent'];
  const colour = colourOf(reading, path, context, findings);
  const invented = reading.invented ? { invented: true } : {};
  if (!colour) return { name, ...invented, differences: [] };
  const differences = reckoned.flatMap(({ appearance: { sample }, colour: other }) => {
    if (!other) return [];
    const found = compare(colour, other, [name, sample]);
    if (found.ok) return [{ sample, ...differenceOf(found.value), ...toleranceOf(found.value, given.tolerance) }];
    findings.addFault(found.fault, ['reference'], { about: `${name} and sample ${sample}` });
    return [];
  });
  const curve = curveOf(colour);
  const under = underLamps(colour);
  return {
    name,
    observer: colour.observer,
    basis: colour.basis,
    swatch: swatchOf(colour),
    family: colour.family,
    ...invented,
    differences,
    ...labAndLch(colour),
    ...(curve && { curve }),
    ...(under.length > 0 && { perLamp: under }),
    ...(colour.notes.length > 0 && { note: colour.notes.join(' ') }),
  };
}
