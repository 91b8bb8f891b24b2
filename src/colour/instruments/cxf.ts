// Spectra, Lab or XYZ from CxF3 / ISO 17972 XML, as instruments export it.
import { SaxesParser, type SaxesTagPlain } from 'saxes';
import { bad, good, type Fault, type Outcome } from '../faults.js';
import type { Observer } from '../numbers.js';
import { checkLab, checkXyz } from '../surface.js';
import { spectraFromColumns } from './columns.js';
import { notReflectance, otherQuantity } from './quantity.js';
import { sampleNamed } from './sets.js';
import {
  faultAt,
  longest,
  plainNumber,
  quoted,
  type Cell,
  type FileNote,
  type FilePlace,
  type ReadingsFile,
  type ValueReading,
} from './reading.js';

/** Depth and number of elements over which a file is not one of colour readings. */
const deepest = 64;
const mostElements = 100_000;

const localName = (name: string): string => name.slice(name.indexOf(':') + 1);

/** The object that a reading belongs to. */
interface CxfObject {
  /** Its number in the file. */
  readonly object: number;
  readonly name: string;
  /** Its ObjectType: `Standard`, `M1_Measurement`, `Substrate` … */
  readonly kind: string;
}
interface CxfSpectrum extends CxfObject, FilePlace {
  readonly specification: string;
  readonly start?: number;
  readonly increment?: number;
  readonly cells: Cell[];
}
interface CxfValue extends CxfObject, FilePlace {
  readonly specification: string;
  readonly space: 'lab' | 'xyz';
  readonly parts: Map<string, number>;
}
interface CxfSpecification {
  quantity?: CxfQuantity;
  increment?: number;
  start?: number;
  illuminant?: string;
  observer?: Observer;
}
/** A quantity other than reflectance, with the place where it is named. */
interface CxfQuantity {
  readonly name: string;
  readonly place: FilePlace;
}
interface CxfContent {
  readonly others: readonly CxfQuantity[];
  readonly spectra: readonly CxfSpectrum[];
  readonly values: readonly CxfValue[];
  readonly specifications: ReadonlyMap<string, CxfSpecification>;
}

/** Stops the parser from within; never leaves this file. */
class Stop extends Error {
  constructor(readonly fault: Fault) {
    super(fault.message);
  }
}

const attribute = (tag: SaxesTagPlain, name: string): string => tag.attributes[name] ?? '';

/** A number with decimal point or comma. */
const decimal = (text: string): number | undefined => plainNumber(text.includes('.') ? text : text.replace(',', '.'));

/** `{ start: 400 }` from an attribute that is a number, `{}` otherwise. */
const numberNamed = <Name extends string>(name: Name, text: string): { [key in Name]?: number } => {
  const value = decimal(text);
  return value === undefined ? {} : ({ [name]: value } as { [key in Name]: number });
};

/** Gathers what concerns colour while the parser goes through the file. */
class CxfCollector implements CxfContent {
  readonly spectra: CxfSpectrum[] = [];
  readonly values: CxfValue[] = [];
  readonly others: CxfQuantity[] = [];
  readonly specifications = new Map<string, CxfSpecification>();
  private readonly path: string[] = [];
  private elements = 0;
  private object: CxfObject = { object: 0, name: '', kind: '' };
  private specification: CxfSpecification | undefined;
  private spectrum: CxfSpectrum | undefined;
  private value: CxfValue | undefined;
  private pieces: string[] = [];

  constructor(private readonly place: () => FilePlace) {}

  open(tag: SaxesTagPlain): void {
    const name = localName(tag.name);
    this.elements += 1;
    this.path.push(name);
    if (this.path.length > deepest || this.elements > mostElements)
      this.stop({
        code: 'too-large',
        message: 'The XML is nested too deeply or has too many elements for a colour reading.',
        cure: 'Give the readings of one sample only.',
      });
    if (this.elements === 1 && name.toLowerCase() !== 'cxf')
      this.stop({
        code: 'not-cxf',
        message: `The XML is not CxF: its outermost element is ${name.slice(0, 40)}.`,
        expected: 'CxF',
        cure: 'Export the reading as CxF3, CGATS text or CSV.',
      });
    this.pieces = [];
    this.begin(name, tag);
  }

  text(found: string): void {
    this.pieces.push(found);
  }

  close(tag: SaxesTagPlain): void {
    const name = localName(tag.name);
    const content = this.pieces.join('');
    if (name === 'ReflectanceSpectrum' && this.spectrum) this.endSpectrum(this.spectrum, content);
    else if (this.value) this.endOfValue(this.value, name, content);
    else if (this.specification) this.endOfSpecification(this.specification, name, content);
    this.path.pop();
    this.pieces = [];
  }

  private begin(name: string, tag: SaxesTagPlain): void {
    if (/^(?!Reflectance).*Spectrum$/.test(name))
      this.others.push({ name: otherQuantity(name) ?? 'another quantity', place: this.place() });
    switch (name) {
      case 'Object':
        this.object = {
          object: this.object.object + 1,
          name: attribute(tag, 'Name') || attribute(tag, 'Id'),
          kind: attribute(tag, 'ObjectType'),
        };
        break;
      case 'ReflectanceSpectrum':
        this.spectrum = {
          ...this.object,
          specification: attribute(tag, 'ColorSpecification'),
          cells: [],
          ...this.place(),
          ...numberNamed('start', attribute(tag, 'StartWL')),
          ...numberNamed('increment', attribute(tag, 'Increment')),
        };
        break;
      case 'ColorCIELab':
      case 'ColorCIEXYZ':
        this.value = {
          ...this.object,
          specification: attribute(tag, 'ColorSpecification'),
          space: name === 'ColorCIELab' ? 'lab' : 'xyz',
          parts: new Map(),
          ...this.place(),
        };
        break;
      case 'ColorSpecification':
        this.specification = {};
        if (attribute(tag, 'Id')) this.specifications.set(attribute(tag, 'Id'), this.specification);
        break;
      case 'WavelengthRange':
        Object.assign(
          this.specification ?? {},
          numberNamed('start', attribute(tag, 'StartWL')),
          numberNamed('increment', attribute(tag, 'Increment')),
        );
    }
  }

  private endSpectrum(spectrum: CxfSpectrum, content: string): void {
    const { line, column } = spectrum;
    for (const word of content.split(/\s+/)) {
      if (word === '') continue;
      spectrum.cells.push({ value: this.numberIn(word, { line, column }, 'a reflectance'), line, column });
      if (spectrum.cells.length > longest.wavelengths)
        this.stop(
          {
            code: 'too-many-rows',
            message: `A spectrum has more than ${longest.wavelengths} values.`,
            cure: 'Export the spectrum in coarser steps.',
          },
          spectrum,
        );
    }
    this.spectra.push(spectrum);
    if (this.spectra.length > longest.readings * 10)
      this.stop(
        {
          code: 'too-many-readings',
          message: 'The file has too many spectra for one sample.',
          cure: 'Give the readings of one sample only.',
        },
        spectrum,
      );
    this.spectrum = undefined;
  }

  /** Within a value its parts end (`L`, `A`, `B`); then the value itself. */
  private endOfValue(value: CxfValue, name: string, content: string): void {
    if (name.startsWith('ColorCIE')) {
      this.values.push(value);
      this.value = undefined;
    } else if (this.path.at(-2)?.startsWith('ColorCIE'))
      value.parts.set(name.toUpperCase(), this.numberIn(content.trim(), this.place(), 'a number'));
  }

  private endOfSpecification(specification: CxfSpecification, name: string, content: string): void {
    if (name === 'Illuminant') specification.illuminant = content.trim().replace(/^FL?(\d+)$/i, 'F$1');
    else if (name === 'Observer') {
      const found = /\b(10|2)/.exec(content)?.[1];
      if (found) specification.observer = Number(found) as Observer;
    } else if (name === 'MeasurementType') {
      const other = otherQuantity(content.replaceAll('_', ' '));
      if (other) specification.quantity = { name: other, place: this.place() };
    } else if (name === 'ColorSpecification') this.specification = undefined;
  }

  private numberIn(text: string, place: FilePlace, expected: string): number {
    const number = decimal(text);
    if (number === undefined)
      this.stop(
        {
          code: 'not-a-number',
          message: `${quoted(text)} is not a number.`,
          expected,
          cure: 'Correct the value, or export the file again.',
        },
        place,
      );
    return number;
  }

  private stop(fault: Fault, { line, column }: FilePlace = this.place()): never {
    throw new Stop({ ...fault, line, column });
  }
}

/** A document type declaration is refused, so that no entity is ever expanded. */
function collect(text: string): Outcome<CxfContent> {
  const parser = new SaxesParser({ xmlns: false, position: true });
  const place = (): FilePlace => ({ line: parser.line, column: parser.column + 1 });
  const collector = new CxfCollector(place);
  parser.on('error', (error) => {
    throw new Stop({
      code: 'not-xml',
      message: `The XML is broken: ${error.message.replace(/^\d+:\d+: |\.$/g, '')}.`,
      ...place(),
      cure: 'Export the file again.',
    });
  });
  parser.on('doctype', () => {
    throw new Stop({
      code: 'document-type',
      message: 'The file has a document type declaration, which CxF has not.',
      ...place(),
      cure: 'Export the file as plain CxF3, or take the DOCTYPE out.',
    });
  });
  parser.on('opentag', (tag) => collector.open(tag));
  parser.on('text', (found) => collector.text(found));
  parser.on('cdata', (found) => collector.text(found));
  parser.on('closetag', (tag) => collector.close(tag));
  try {
    parser.write(text).close();
  } catch (error) {
    if (error instanceof Stop) return bad(error.fault);
    throw error;
  }
  return good(collector);
}

const isSubstrate = ({ kind }: CxfObject): boolean => /substrate/i.test(kind);

/**
 * Readings of one kind a sample: of `M0_Measurement` and `M1_Measurement` of the same object the first is used. The
 * substrate (the bare card beneath) is left out unless there is nothing else.
 */
function ofOneKind<Found extends CxfObject & FilePlace>(
  all: readonly Found[],
): { readonly used: readonly Found[]; readonly notes: readonly FileNote[] } {
  const samples = all.filter((one) => !isSubstrate(one));
  const readings = samples.length > 0 ? samples : all;
  const kindOf = new Map<string, string>();
  const used = readings.filter(({ name, kind }) => {
    const sample = sampleNamed(name) ?? '';
    const first = kindOf.get(sample) ?? kind;
    kindOf.set(sample, first);
    return kind === first;
  });
  if (used.length === readings.length) return { used, notes: [] };
  const kinds = [...new Set(readings.map(({ kind }) => kind))];
  const note: FileNote = {
    code: 'several-kinds',
    message:
      `Readings of ${kinds.length} kinds stand in the file (${kinds.slice(0, 4).join(', ')}); of each sample ` +
      'those of the first kind were used.',
    line: readings[0]!.line,
    column: readings[0]!.column,
    cure: 'Export one kind only if another was meant.',
  };
  return { used, notes: [note] };
}

/**
 * Readings under the first condition, where one object was read under several (with and without filter, at several
 * angles).
 */
function ofOneCondition<Found extends CxfSpectrum | CxfValue>(readings: readonly Found[]): readonly Found[] {
  const conditions = new Map<number, string>();
  const several = readings.some(({ object, specification }) => {
    const first = conditions.get(object) ?? specification;
    conditions.set(object, first);
    return first !== specification;
  });
  const used = readings[0]?.specification;
  return several ? readings.filter(({ specification }) => specification === used) : readings;
}

interface Steps {
  readonly start: number;
  readonly increment: number;
  readonly notes: readonly FileNote[];
}

/** Where a spectrum starts and its step, as stated beside it or in its specification. */
function stepsOf(spectrum: CxfSpectrum, specification: CxfSpecification | undefined): Outcome<Steps> {
  const start = spectrum.start ?? specification?.start;
  const count = spectrum.cells.length;
  if (start === undefined)
    return faultAt(spectrum, {
      code: 'no-start',
      message: 'The spectrum does not say at which wavelength it starts.',
      expected: 'StartWL',
      cure: 'Export the file again with StartWL.',
    });
  const stated = spectrum.increment ?? specification?.increment;
  if (stated !== undefined) return good({ start, increment: stated, notes: [] });
  // Without a stated step, the one that ends the spectrum in the deep red: 700 to 830 nm.
  const increment = [10, 5, 20, 10 / 3, 2, 1].find((step) => {
    const end = start + step * (count - 1);
    return end >= 700 && end <= 830;
  });
  if (increment === undefined)
    return faultAt(spectrum, {
      code: 'no-increment',
      message: 'The spectrum does not say its step, and none follows from its length.',
      expected: 'WavelengthRange with Increment',
      cure: 'Export the file again with its colour specification.',
    });
  const step = Number(increment.toFixed(2));
  const note: FileNote = {
    code: 'increment-inferred',
    message: `The step is not stated; ${step} nm follows from ${count} values from ${start} nm.`,
    line: spectrum.line,
    column: spectrum.column,
    cure: 'Check it against the instrument.',
  };
  return good({ start, increment, notes: [note] });
}

function spectraOf({ spectra, specifications }: CxfContent): Outcome<ReadingsFile> {
  const ofKind = ofOneKind(spectra);
  const used = ofOneCondition(ofKind.used);
  const first = used[0]!;
  const quantity = specifications.get(first.specification)?.quantity;
  if (quantity) return notReflectance(quantity.name, quantity.place);
  const place = { line: first.line, column: first.column };
  if (used.length > longest.sets)
    return faultAt(first, {
      code: 'too-many-readings',
      message: `The file holds ${used.length} spectra.`,
      cure: `Give at most ${longest.readings} readings of one sample.`,
    });
  const conditionNote: FileNote = {
    code: 'several-conditions',
    message: `Objects were read under several conditions; those of ${first.specification || 'the first'} were used.`,
    ...place,
    cure: 'Export one condition only if another was meant.',
  };
  const steps = stepsOf(first, specifications.get(first.specification));
  if (!steps.ok) return steps;
  const { start, increment } = steps.value;
  const other = used.find((one) => {
    const stated = specifications.get(one.specification);
    return (
      one.cells.length !== first.cells.length ||
      (one.start ?? stated?.start ?? start) !== start ||
      (one.increment ?? stated?.increment ?? increment) !== increment
    );
  });
  if (other)
    return faultAt(other, {
      code: 'mixed-wavelengths',
      message: 'The readings have different wavelengths.',
      cure: 'Give readings with the same wavelengths.',
    });
  const made = spectraFromColumns(
    first.cells.map((_, i) => ({ value: start + increment * i, ...place })),
    used.map(({ name, cells }) => ({ ...(name ? { name } : {}), cells })),
  );
  if (!made.ok) return made;
  const notes = [
    ...ofKind.notes,
    ...(used.length < ofKind.used.length ? [conditionNote] : []),
    ...steps.value.notes,
    ...made.value.notes,
  ];
  return good({ format: 'CxF', spectra: made.value.spectra, values: [], notes });
}

const partsOf = { lab: ['L', 'A', 'B'], xyz: ['X', 'Y', 'Z'] } as const;

/** A Lab or XYZ with its conditions, or what is wrong with it. */
function valueOf(value: CxfValue, specification: CxfSpecification | undefined): Outcome<ValueReading> {
  const parts = partsOf[value.space].map((part) => value.parts.get(part) ?? Number.NaN);
  const checked = value.space === 'lab' ? checkLab(parts) : checkXyz(parts);
  if (!checked.ok) return faultAt(value, checked.fault);
  const { illuminant, observer } = specification ?? {};
  return good({
    ...(value.name ? { name: value.name } : {}),
    place: { line: value.line, column: value.column },
    space: value.space,
    value: checked.value,
    ...(illuminant ? { illuminant } : {}),
    ...(observer ? { observer } : {}),
  });
}

/** Values of one sample for several illuminants are not averaged: those of its first are used. */
function ofFirstConditions(one: ValueReading, all: readonly ValueReading[]): boolean {
  const sample = sampleNamed(one.name);
  const first = all.find(({ name }) => sampleNamed(name) === sample) ?? one;
  return one.illuminant === first.illuminant && one.observer === first.observer;
}

function valuesOf({ values, specifications, others }: CxfContent): Outcome<ReadingsFile> {
  const [other] = others;
  if (other) return notReflectance(other.name, other.place);
  const ofKind = ofOneKind(values);
  const ofSpace = ofKind.used.filter(({ space }) => space === ofKind.used[0]!.space);
  const read: ValueReading[] = [];
  for (const one of ofOneCondition(ofSpace)) {
    const value = valueOf(one, specifications.get(one.specification));
    if (!value.ok) return value;
    read.push(value.value);
  }
  const [first] = read;
  if (!first)
    return bad({
      code: 'no-spectrum',
      message: 'The file holds no reflectance spectrum, CIELab or XYZ.',
      line: 1,
      column: 1,
      expected: 'ReflectanceSpectrum',
      cure: 'Export the reading with its spectrum.',
    });
  return good({
    format: 'CxF',
    spectra: [],
    values: read.filter((one) => ofFirstConditions(one, read)),
    notes: ofKind.notes,
  });
}

/** Reads the reflectance spectra of a CxF3 file, or its CIELab or XYZ values if it has none. */
export function parseCxf(text: string): Outcome<ReadingsFile> {
  const content = collect(text);
  if (!content.ok) return content;
  return content.value.spectra.length > 0 ? spectraOf(content.value) : valuesOf(content.value);
}
