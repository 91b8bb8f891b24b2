// The colour of one entry's samples: Lab under each lamp, swatches, family, differences, opacity, tints, tests.
import {
  checkLab,
  checkXyz,
  colourFromLab,
  colourFromSpectra,
  colourFromSrgb,
  colourFromXyz,
  compare,
  contrast,
  deltaE00,
  disagreement,
  families,
  familiesNear,
  familyNamed,
  familyOf,
  filmsFromLuminance,
  filmsFromSpectra,
  illuminants,
  isIlluminant,
  labFromXyz,
  lampNames,
  lchFromLab,
  readReadings,
  readStandardTest,
  screenFromXyz,
  standardWhite,
  standardWhiteName,
  tintLadder,
  whiteOf,
  withinTolerance,
  xyzFromLab,
  xyzFromTableValues,
  type Difference,
  type Films as FilmColours,
  type Illuminant,
  type Observer,
  type ReadingsFile,
  type SampleColour,
  type Spectrum,
  type WantedSets,
} from '../colour/index.js';
import type { Entry } from '../journal/entry.js';
import { placeOf, type Path } from '../journal/place.js';
import { remark, type Place, type Remark, type Severity } from '../journal/remarks.js';
import type { ColourReading, Sample } from '../journal/schema.js';
import type { Fault } from '../outcome.js';
import type {
  AppearanceReckoning,
  ColourDifference,
  ColourPair,
  CurvePoint,
  LampMove,
  OpacityReckoning,
  ReferenceAppearance,
  SampleAppearance,
  Swatch,
  TestResult,
  Tint,
  TintLadder,
  Triple,
  UnderLamp,
} from './appearance-contracts.js';
import type { ReckoningContext } from './contracts.js';

const round = (value: number, places: number): number => {
  const scale = 10 ** places;
  const rounded = Math.round(value * scale) / scale;
  return rounded === 0 ? 0 : rounded;
};
const roundAll = (triple: Triple, places = 3): Triple => [
  round(triple[0], places),
  round(triple[1], places),
  round(triple[2], places),
];

/** A declared family is not contradicted by a neighbour that begins within this distance, Lab units. */
const borderline = 4;

/** Gathers remarks of one entry; a file that two samples name is remarked on once. */
class Findings {
  readonly remarks: Remark[] = [];
  private readonly said = new Set<string>();
  constructor(readonly entry: Entry) {}

  add(place: Place, severity: Severity, rule: string, found: string, cure: string, expected?: string): void {
    const key = `${place.file}:${place.line}:${place.column} ${rule}`;
    if (this.said.has(key)) return;
    this.said.add(key);
    this.remarks.push(remark({ place, severity, rule, found, cure, ...(expected ? { expected: [expected] } : {}) }));
  }

  at(path: Path, severity: Severity, rule: string, found: string, cure: string, expected?: string): void {
    this.add(placeOf(this.entry, path), severity, rule, found, cure, expected);
  }

  fault(path: Path, { code, message, cure, expected }: Fault): void {
    this.at(path, 'error', code, message, cure ?? 'Correct the value, or leave it out.', expected);
  }
}

const noteSeverity = (code: string): Severity => (code === 'increment-inferred' ? 'note' : 'warning');

/**
 * The readings of a file, its faults and notes remarked on at their place in the file; undefined if it can't be read.
 * @param wanted the samples of it that are meant
 */
function readingsOf(
  file: string,
  context: ReckoningContext,
  findings: Findings,
  wanted?: WantedSets,
): ReadingsFile | undefined {
  const text = context.reading(file);
  // A file that is not there has its remark from the reading of the journal.
  if (text === undefined) return undefined;
  const read = readReadings(text, wanted);
  if (!read.ok) {
    const { code, message, line, column, cure, expected } = read.fault;
    findings.add(
      { file, line: line ?? 1, column: column ?? 1 },
      'error',
      code,
      message,
      cure ?? 'Correct the file, or export it again.',
      expected,
    );
    return undefined;
  }
  for (const { code, message, line, column, cure } of read.value.notes)
    findings.add({ file, line: line ?? 1, column: column ?? 1 }, noteSeverity(code), code, message, cure);
  return read.value;
}

/** Everything that was read of one colour, brought together; undefined if nothing could be. */
function colourOf(
  reading: ColourReading,
  path: Path,
  context: ReckoningContext,
  findings: Findings,
): SampleColour | undefined {
  const spectra: Spectrum[] = [];
  const labs: Triple[] = [];
  const xyzs: Triple[] = [];
  let illuminant = reading.illuminant as Illuminant | undefined;
  let observer: Observer | undefined = reading.observer === 2 || reading.observer === 10 ? reading.observer : undefined;

  const gather = (one: Pick<ColourReading, 'spectrum' | 'set' | 'lab' | 'xyz'>, at: Path) => {
    if (one.spectrum !== undefined) {
      const file = readingsOf(one.spectrum, context, findings, one.set);
      if (file) {
        spectra.push(...file.spectra.map(({ spectrum }) => spectrum));
        for (const { space, value, illuminant: told, observer: eye } of file.values) {
          if (told && !isIlluminant(told)) {
            findings.add(
              { file: one.spectrum, line: 1, column: 1 },
              'error',
              'unknown-illuminant',
              `The values are for illuminant ${told}, whose tables are not here.`,
              'Export for D65, D50, A, F2 or F11, or as a spectrum.',
              illuminants.join(', '),
            );
            continue;
          }
          (space === 'lab' ? labs : xyzs).push(value);
          illuminant ??= told as Illuminant | undefined;
          observer ??= eye;
        }
      }
    }
    if (one.lab) {
      const lab = checkLab(one.lab);
      if (lab.ok) labs.push(lab.value);
      else findings.fault([...at, 'lab'], lab.fault);
    }
    if (one.xyz) {
      const xyz = checkXyz(one.xyz);
      if (xyz.ok) xyzs.push(xyz.value);
      else findings.fault([...at, 'xyz'], xyz.fault);
    }
  };
  gather(reading, path);
  reading.readings?.forEach((one, index) => gather(one, [...path, 'readings', index]));

  let colour: SampleColour | undefined;
  if (spectra.length > 0) {
    colour = colourFromSpectra(spectra, observer ?? 10);
    const [lab] = labs;
    if (lab && illuminant) {
      const told = colourFromLab([lab], illuminant, observer ?? 10);
      const apart = compare(colour, told);
      if (apart.ok && apart.value.de00 > 1)
        findings.at(
          [...path, 'lab'],
          'warning',
          'lab-against-spectrum',
          `The Lab given is ΔE00 ${apart.value.de00.toFixed(1)} from that of the spectrum.`,
          'Check illuminant and observer, or leave the Lab out; the spectrum is used.',
        );
    }
  } else if (labs.length > 0) {
    if (!illuminant)
      findings.at(
        [...path, 'lab'],
        'warning',
        'lab-without-illuminant',
        'Lab is given without its illuminant; it was taken as D65, and may be off.',
        'Add illuminant (D65, D50, A …) and observer (2 or 10), as the instrument was set.',
        'illuminant: D65',
      );
    colour = colourFromLab(labs, illuminant ?? 'D65', observer ?? 10);
    if (!illuminant)
      colour = {
        ...colour,
        approximate: true,
        notes: ['The illuminant was not stated; D65 was assumed.', ...colour.notes],
      };
    if (observer === undefined)
      colour = { ...colour, notes: [...colour.notes, 'The observer was not stated; 10° was assumed.'] };
  } else if (xyzs.length > 0) {
    if (!illuminant)
      findings.at(
        [...path, 'xyz'],
        'error',
        'xyz-without-illuminant',
        'XYZ is given without its illuminant, and means nothing alone.',
        'Add illuminant (D65, D50, A …) and observer (2 or 10), as the instrument was set.',
        'illuminant: D65',
      );
    else {
      colour = colourFromXyz(xyzs, illuminant, observer ?? 10);
      if (observer === undefined)
        colour = { ...colour, notes: [...colour.notes, 'The observer was not stated; 10° was assumed.'] };
    }
  } else if (reading.srgb !== undefined) {
    const read = colourFromSrgb(reading.srgb);
    if (read.ok) colour = read.value;
    else findings.fault([...path, 'srgb'], read.fault);
  }
  if (colour?.scatter && colour.scatter.largest > disagreement) {
    findings.at(
      path,
      'warning',
      'readings-disagree',
      `Readings of one sample lie ΔE00 ${colour.scatter.largest.toFixed(1)} from their mean.`,
      'Check that all of them are of this sample, and that the surface was even.',
    );
  }
  return colour;
}

interface Films {
  readonly opacity: OpacityReckoning;
  readonly films?: FilmColours;
}

/** Contrast ratio and film colours, from two Y values or two spectra. */
function opacityOf(
  given: NonNullable<Sample['opacity']>,
  colour: SampleColour | undefined,
  path: Path,
  context: ReckoningContext,
  findings: Findings,
): Films | undefined {
  const observer = colour?.observer ?? 10;
  const side = (key: 'over-black' | 'over-white'): { y: number; film?: SampleColour } | undefined => {
    const value = given[key];
    if (typeof value === 'number') return { y: value };
    const read = readingsOf(value, context, findings);
    if (!read || read.spectra.length === 0) return undefined;
    const film = colourFromSpectra(
      read.spectra.map(({ spectrum }) => spectrum),
      observer,
    );
    return { y: film.xyz![1], film };
  };
  const [black, white] = [side('over-black'), side('over-white')];
  if (!black || !white) return undefined;
  const found = contrast(black.y, white.y);
  if (!found.ok) {
    findings.fault(path, found.fault);
    return undefined;
  }
  const { ratio, word, definition, notes } = found.value;
  const both = black.film && white.film ? deltaE00(black.film.lab!, white.film.lab!) : undefined;
  const opacity: OpacityReckoning = {
    contrastRatio: round(ratio, 2),
    overBlackY: round(black.y, 3),
    overWhiteY: round(white.y, 3),
    word,
    definition,
    notes,
    ...(both === undefined ? {} : { de00: round(both, 3) }),
  };
  const masstone =
    colour?.tableValues ??
    (colour?.given?.illuminant === 'D65' && colour.given.observer === 2
      ? colour.xyz
      : colour?.lab
        ? xyzFromLab(colour.lab, whiteOf('D65', 2))
        : undefined);
  const films =
    black.film?.tableValues && white.film?.tableValues
      ? filmsFromSpectra(black.film.tableValues, white.film.tableValues)
      : masstone
        ? filmsFromLuminance(black.y, white.y, masstone)
        : undefined;
  return { opacity, ...(films ? { films } : {}) };
}

function ladderOf(
  colour: SampleColour,
  given: { readonly name: string; readonly spectrum: Spectrum } | undefined,
): TintLadder | undefined {
  if (!colour.spectrum) return undefined;
  const steps = tintLadder(colour.spectrum, given?.spectrum ?? standardWhite()).map(({ share, reflectance }): Tint => {
    if (share === 1) return { share, lab: roundAll(colour.lab!), hex: colour.screen.hex, mapped: colour.screen.mapped };
    const lab = labFromXyz(xyzFromTableValues(reflectance, 'D65', colour.observer), whiteOf('D65', colour.observer));
    const shown = screenFromXyz(xyzFromTableValues(reflectance, 'D65', 2), whiteOf('D65', 2));
    return { share, lab: roundAll(lab), hex: shown.hex, mapped: shown.mapped };
  });
  return {
    computed: true,
    white: given?.name ?? `standard white (${standardWhiteName})`,
    whiteGiven: given !== undefined,
    steps,
    note: 'Computed from the masstone by Kubelka–Munk with one constant, not measured: real tints may differ by ΔE00 5 to 30.',
  };
}

const underLamps = (colour: SampleColour): UnderLamp[] =>
  colour.under.map(({ lamp, lab, xyz, screen }) => ({
    lamp,
    name: lampNames[lamp],
    lab: roundAll(lab),
    xyz: roundAll(xyz),
    swatch: { hex: screen.hex, mapped: screen.mapped, ...(colour.screenApproximate ? { approximate: true } : {}) },
  }));

const swatchOf = (colour: SampleColour): Swatch => ({
  hex: colour.screen.hex,
  mapped: colour.screen.mapped,
  ...(colour.screenApproximate ? { approximate: true } : {}),
});

const curveOf = ({ spectrum }: SampleColour): CurvePoint[] | undefined =>
  spectrum?.wavelengths.map((nm, i) => ({ nm, r: round(spectrum.reflectance[i]!, 5) }));

const differenceOf = (found: Difference): ColourDifference => ({
  de00: round(found.de00, 4),
  delta: roundAll(found.delta),
  dC: round(found.lch.dC, 3),
  dH: round(found.lch.dH, 3),
  direction: found.direction,
  under: `${found.illuminant}/${found.observer}°`,
  ...(found.repeatability === undefined ? {} : { repeatability: round(found.repeatability, 4) }),
  verdict: found.verdict,
  ...(found.perLamp
    ? { perLamp: found.perLamp.map(({ lamp, de00 }) => ({ lamp, name: lampNames[lamp], de00: round(de00, 4) })) }
    : {}),
  ...(found.metamerism
    ? {
        metamerism: found.metamerism.map(({ lamp, index00, index76 }) => ({
          lamp,
          name: lampNames[lamp],
          index00: round(index00, 4),
          index76: round(index76, 4),
        })),
      }
    : {}),
  ...(found.metameric ? { metameric: found.metameric } : {}),
  ...(found.approximate ? { approximate: true } : {}),
});

function testsOf(sample: Sample, index: number, findings: Findings): TestResult[] {
  const results: TestResult[] = [];
  for (const [test, given] of Object.entries(sample.tests ?? {})) {
    if (given === undefined) continue;
    const read = readStandardTest(test, given);
    const path = ['samples', index, 'tests', test];
    if (!read.ok) {
      findings.fault(path, read.fault);
      continue;
    }
    const { name, text, range, unusual } = read.value;
    if (unusual)
      findings.at(
        path,
        'warning',
        'unusual-test-result',
        `${name} of ${text} is unusual.`,
        'Check the number and its unit; leave it if it is right.',
        range,
      );
    results.push(read.value);
  }
  return results;
}

/** The family that most samples have; the first of them where several are as frequent. */
function commonest(names: readonly string[]): string | undefined {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
}

/**
 * Reckons the colour of an entry's samples.
 * @returns plain data, rounded (Lab to 0.001, reflectance to 0.00001); and remarks with places, in the entry or in the file of a reading
 */
export function reckonAppearance(
  entry: Entry,
  context: ReckoningContext,
): { appearance: AppearanceReckoning; remarks: Remark[] } {
  const findings = new Findings(entry);
  const colours: (SampleColour | undefined)[] = [];
  const near = new Set<string>();

  const samples = entry.samples.map((sample, index): SampleAppearance => {
    const path: Path = ['samples', index, 'colour'];
    const colour = sample.colour ? colourOf(sample.colour, path, context, findings) : undefined;
    colours.push(colour);
    const tests = testsOf(sample, index, findings);
    const film = sample.opacity
      ? opacityOf(sample.opacity, colour, ['samples', index, 'opacity'], context, findings)
      : undefined;
    const bare = {
      sample: sample.sample,
      ...(film ? { opacity: film.opacity } : {}),
      ...(tests.length > 0 ? { tests } : {}),
    };
    if (!colour || !sample.colour) return bare;

    let white: { name: string; spectrum: Spectrum } | undefined;
    if (sample.colour.white !== undefined) {
      const read = readingsOf(sample.colour.white, context, findings);
      const [first] = read?.spectra ?? [];
      if (first) white = { name: sample.colour.white, spectrum: first.spectrum };
    }
    const ladder = ladderOf(colour, white);
    const tenth = ladder?.steps.find(({ share }) => share === 0.1);
    const tintFamily = tenth ? familyOf(tenth.lab) : undefined;
    if (colour.lab) for (const family of familiesNear(colour.lab, borderline)) near.add(family);
    near.add(colour.family);
    // Dark masstones all come out black; their tints tell them apart.
    if (tintFamily && colour.family === 'black') near.add(tintFamily);
    const moves = colour.moves.map(
      ({ lamp, de00, adapted, directions, text }): LampMove => ({
        lamp,
        name: lampNames[lamp],
        de00: round(de00, 4),
        lab: roundAll(adapted),
        directions,
        text,
        transform: 'CAT16',
      }),
    );
    const lampMove = moves.find(({ lamp }) => lamp === 'A');
    const curve = curveOf(colour);
    const under = underLamps(colour);
    const notes = [...colour.notes];
    const films = film?.films;
    const swatch: Swatch = {
      ...swatchOf(colour),
      ...(films
        ? {
            overBlack: films.overBlack.hex,
            overWhite: films.overWhite.hex,
            undertone: films.undertone.hex,
            ...(films.estimated ? { filmEstimated: true } : {}),
          }
        : {}),
    };
    return {
      ...bare,
      ...(colour.lab ? { lab: roundAll(colour.lab), lch: roundAll(lchFromLab(colour.lab)) } : {}),
      ...(colour.xyz ? { xyz: roundAll(colour.xyz) } : {}),
      observer: colour.observer,
      basis: colour.basis,
      ...(colour.approximate ? { labApproximate: true } : {}),
      ...(colour.given && colour.given.illuminant !== 'D65'
        ? { given: { ...colour.given, lab: roundAll(colour.given.lab) } }
        : {}),
      ...(under.length > 0 ? { perLamp: under } : {}),
      swatch,
      ...(curve ? { curve } : {}),
      ...(colour.scatter
        ? {
            repeatability: {
              readings: colour.scatter.readings,
              mean: round(colour.scatter.mean, 4),
              largest: round(colour.scatter.largest, 4),
            },
          }
        : {}),
      family: colour.family,
      ...(tintFamily ? { tintFamily } : {}),
      ...(ladder ? { tintLadder: ladder } : {}),
      ...(lampMove ? { lampMove, lampMoves: moves } : {}),
      ...(sample.colour.invented ? { invented: true } : {}),
      ...(sample.colour.instrument ? { instrument: sample.colour.instrument } : {}),
      ...(notes.length > 0 ? { note: notes.join(' ') } : {}),
    };
  });

  const pairs: ColourPair[] = [];
  for (let i = 0; i < colours.length; i += 1) {
    for (let j = i + 1; j < colours.length; j += 1) {
      const [first, second] = [colours[i], colours[j]];
      if (!first || !second) continue;
      const found = compare(first, second);
      if (found.ok) pairs.push({ a: samples[i]!.sample, b: samples[j]!.sample, ...differenceOf(found.value) });
      else
        findings.at(
          ['samples', j, 'colour'],
          'warning',
          found.fault.code,
          `Samples ${samples[i]!.sample} and ${samples[j]!.sample}: ${found.fault.message}`,
          found.fault.cure!,
        );
    }
  }

  const reference = referenceOf(entry, context, colours, findings);
  // A colour from a photograph is no measurement of a family; it tells one only where nothing was measured.
  const measured = samples.flatMap(({ family, basis }) => (family && !isPhotograph(basis) ? [family] : []));
  const photographed = samples.flatMap(({ family, basis }) => (family && isPhotograph(basis) ? [family] : []));
  const declared = entry.pigment?.family;
  const declaredFamily = declared === undefined ? undefined : familyNamed(declared);
  if (declared !== undefined && !declaredFamily) {
    findings.at(
      ['pigment', 'family'],
      'warning',
      'unknown-family',
      `'${declared.slice(0, 40)}' is not a colour family.`,
      `Write one of ${families.join(', ')}; or leave it out and let the measurement tell.`,
      families.join(', '),
    );
  }
  const common = commonest(measured);
  if (!common) {
    return {
      appearance: {
        samples,
        pairs,
        ...(reference ? { reference } : {}),
        ...unmeasuredFamily(declaredFamily, commonest(photographed)),
      },
      remarks: findings.remarks,
    };
  }
  if (
    declaredFamily &&
    !near.has(declaredFamily) &&
    measured.every((family) => family === 'black') &&
    !['white', 'grey', 'pink', 'yellow'].includes(declaredFamily)
  ) {
    findings.at(
      ['pigment', 'family'],
      'note',
      'masstone-reads-black',
      `The masstone reads black, and its computed tint does not read ${declaredFamily}; the declared family stands, unmeasured.`,
      'Read a tint with white, which shows the hue of a dark pigment.',
    );
    return {
      appearance: {
        samples,
        pairs,
        ...(reference ? { reference } : {}),
        family: declaredFamily,
        familyBasis: 'declared',
      },
      remarks: findings.remarks,
    };
  }
  if (declaredFamily && !near.has(declaredFamily)) {
    const told = samples.flatMap(({ sample, family }) => (family ? [`${sample} ${family}`] : [])).join(', ');
    findings.at(
      ['pigment', 'family'],
      'warning',
      'family-against-measurement',
      `The family is declared ${declaredFamily}, and measured: ${told}.`,
      'Correct the family, leave it out, or check the readings.',
      common,
    );
  }
  const family = declaredFamily && near.has(declaredFamily) ? declaredFamily : common;
  return {
    appearance: { samples, pairs, ...(reference ? { reference } : {}), family, familyBasis: 'measured' },
    remarks: findings.remarks,
  };
}

const isPhotograph = (basis: SampleAppearance['basis']): boolean => basis === 'photograph' || basis === 'srgb-estimate';

/** The family of an entry without measured colours: as declared, else as its photographs have it. */
function unmeasuredFamily(
  declared: string | undefined,
  photographed: string | undefined,
): Pick<AppearanceReckoning, 'family' | 'familyBasis'> {
  if (declared) return { family: declared, familyBasis: 'declared' };
  return photographed ? { family: photographed, familyBasis: 'photograph' } : {};
}

/** Whether a sample is within the tolerance that the entry states of its reference. */
function toleranceOf(
  { de00, doubt }: Difference,
  tolerance: number | undefined,
): { readonly tolerance?: { readonly de00: number; readonly within?: boolean; readonly sentence: string } } {
  if (tolerance === undefined) return {};
  const { within, sentence } = withinTolerance(de00, tolerance, doubt);
  return { tolerance: { de00: tolerance, ...(within === undefined ? {} : { within }), sentence } };
}

/** The bought pigment that the samples stand beside: described in the entry, or a reading on the shelf. */
function referenceOf(
  entry: Entry,
  context: ReckoningContext,
  colours: readonly (SampleColour | undefined)[],
  findings: Findings,
): ReferenceAppearance | undefined {
  const given = entry.reference;
  if (!given) return undefined;
  const onShelf = given.reagent === undefined ? undefined : context.shelf.get(given.reagent);
  if (given.reagent !== undefined && !onShelf)
    findings.at(
      ['reference', 'reagent'],
      'error',
      'unknown-reagent',
      `'${given.reagent}' is not on the shelf.`,
      'Write the id of a reagent on the shelf, or give the colour here.',
    );
  const reading = given.colour ?? onShelf?.colour;
  if (!reading) {
    if (onShelf)
      findings.at(
        ['reference', 'reagent'],
        'error',
        'reference-without-colour',
        `${onShelf.name} has no colour on the shelf.`,
        'Add `colour` to it in shelf.yaml, or give the colour here.',
      );
    else if (given.reagent === undefined)
      findings.at(
        ['reference'],
        'error',
        'reference-without-colour',
        `The reference ${given.name} has no colour.`,
        'Give its `colour` here, or name a `reagent` on the shelf that has one.',
      );
    return { name: given.name, differences: [] };
  }
  const colour = colourOf(
    reading,
    given.colour ? ['reference', 'colour'] : ['reference', 'reagent'],
    context,
    findings,
  );
  const invented = reading.invented ? { invented: true } : {};
  if (!colour) return { name: given.name, ...invented, differences: [] };
  const differences = entry.samples.flatMap(({ sample }, index) => {
    const one = colours[index];
    if (!one) return [];
    const found = compare(colour, one);
    if (found.ok) return [{ sample, ...differenceOf(found.value), ...toleranceOf(found.value, given.tolerance) }];
    findings.at(
      ['reference'],
      'warning',
      found.fault.code,
      `${given.name} and sample ${sample}: ${found.fault.message}`,
      found.fault.cure!,
    );
    return [];
  });
  const curve = curveOf(colour);
  const under = underLamps(colour);
  return {
    name: given.name,
    observer: colour.observer,
    basis: colour.basis,
    swatch: swatchOf(colour),
    family: colour.family,
    ...invented,
    differences,
    ...(colour.lab ? { lab: roundAll(colour.lab), lch: roundAll(lchFromLab(colour.lab)) } : {}),
    ...(curve ? { curve } : {}),
    ...(under.length > 0 ? { perLamp: under } : {}),
    ...(colour.notes.length > 0 ? { note: colour.notes.join(' ') } : {}),
  };
}
