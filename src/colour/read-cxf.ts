// Spectra, Lab or XYZ from CxF3 / ISO 17972 XML, as instruments export it.
import { createRequire } from 'node:module';
import type { SaxesParser, SaxesTagPlain } from 'saxes';
import { bad, good, type Fault, type Outcome } from '../outcome.js';
import type { Observer, Triple } from './numbers.js';
import {
  longest,
  plainNumber,
  spectraFromColumns,
  type Cell,
  type Column,
  type FileNote,
  type ReadingsFile,
  type ValueReading,
} from './columns.js';

/** Depth and number of elements over which a file is not one of colour readings. */
const deepest = 64;
const mostElements = 100_000;

const localName = (name: string): string => name.slice(name.indexOf(':') + 1);

interface FoundSpectrum {
  readonly object: number;
  readonly name: string;
  readonly kind: string;
  readonly specification: string;
  readonly start?: number;
  readonly increment?: number;
  readonly cells: Cell[];
  readonly line: number;
  readonly column: number;
}
interface FoundValue {
  readonly object: number;
  readonly name: string;
  readonly kind: string;
  readonly specification: string;
  readonly space: 'lab' | 'xyz';
  readonly parts: Map<string, number>;
}
interface Specification {
  increment?: number;
  start?: number;
  illuminant?: string;
  observer?: Observer;
}

/** Stops the parser from within; carries the fault. */
class Stop extends Error {
  constructor(readonly fault: Fault) {
    super(fault.message);
  }
}

/**
 * Reads the reflectance spectra of a CxF3 file, or its CIELab or XYZ values if it has none. Every object with the same
 * kind (`Standard`, `M1_Measurement` …) is taken as one reading of the sample; the first kind that has any is used (that of
 * the substrate, the bare card beneath, only if there is no other).
 * A document type declaration is refused, so that no entity is ever expanded.
 */
export function readCxf(text: string): Outcome<ReadingsFile> {
  const spectra: FoundSpectrum[] = [];
  const values: FoundValue[] = [];
  const specifications = new Map<string, Specification>();
  const path: string[] = [];
  let elements = 0;
  let rootSeen = false;
  let object = { object: 0, name: '', kind: '' };
  let specification: Specification | undefined;
  let spectrum: FoundSpectrum | undefined;
  let value: FoundValue | undefined;
  let pieces: string[] = [];

  // Loaded only when an XML file is read.
  const saxes = createRequire(import.meta.url)('saxes') as typeof import('saxes');
  const parser: SaxesParser = new saxes.SaxesParser({ xmlns: false, position: true });
  const here = () => ({ line: parser.line, column: parser.column + 1 });
  const attribute = (tag: SaxesTagPlain, name: string): string => {
    const found = tag.attributes[name];
    return typeof found === 'string' ? found : '';
  };

  parser.on('error', (error) => {
    throw new Stop({
      code: 'not-xml',
      message: `The XML is broken: ${error.message.replace(/^\d+:\d+: /, '')}`,
      ...here(),
      cure: 'Export the file again.',
    });
  });
  parser.on('doctype', () => {
    throw new Stop({
      code: 'document-type',
      message: 'The file has a document type declaration, which CxF has not.',
      ...here(),
      cure: 'Export the file as plain CxF3, or take the DOCTYPE out.',
    });
  });
  parser.on('opentag', (tag) => {
    const name = localName(tag.name);
    elements += 1;
    path.push(name);
    if (path.length > deepest || elements > mostElements)
      throw new Stop({
        code: 'too-large',
        message: 'The XML is nested too deeply or has too many elements for a colour reading.',
        ...here(),
        cure: 'Give the readings of one sample only.',
      });
    if (!rootSeen) {
      rootSeen = true;
      if (name.toLowerCase() !== 'cxf')
        throw new Stop({
          code: 'not-cxf',
          message: `The XML is not CxF: its outermost element is ${name.slice(0, 40)}.`,
          ...here(),
          expected: 'CxF',
          cure: 'Export the reading as CxF3, CGATS text or CSV.',
        });
    }
    pieces = [];
    if (name === 'Object')
      object = { object: object.object + 1, name: attribute(tag, 'Name'), kind: attribute(tag, 'ObjectType') };
    else if (name === 'ReflectanceSpectrum') {
      const start = plainNumber(attribute(tag, 'StartWL'));
      const increment = plainNumber(attribute(tag, 'Increment'));
      spectrum = {
        ...object,
        specification: attribute(tag, 'ColorSpecification'),
        cells: [],
        ...here(),
        ...(start === undefined ? {} : { start }),
        ...(increment === undefined ? {} : { increment }),
      };
    } else if (name === 'ColorCIELab' || name === 'ColorCIEXYZ')
      value = {
        ...object,
        specification: attribute(tag, 'ColorSpecification'),
        space: name === 'ColorCIELab' ? 'lab' : 'xyz',
        parts: new Map(),
      };
    else if (name === 'ColorSpecification' && attribute(tag, 'Id')) {
      specification = {};
      specifications.set(attribute(tag, 'Id'), specification);
    } else if (name === 'WavelengthRange' && specification) {
      const [start, increment] = [plainNumber(attribute(tag, 'StartWL')), plainNumber(attribute(tag, 'Increment'))];
      if (start !== undefined) specification.start = start;
      if (increment !== undefined) specification.increment = increment;
    }
  });
  parser.on('text', (found) => {
    pieces.push(found);
  });
  parser.on('cdata', (found) => {
    pieces.push(found);
  });
  parser.on('closetag', (tag) => {
    const name = localName(tag.name);
    const content = pieces.join('');
    if (name === 'ReflectanceSpectrum' && spectrum) {
      const { line, column } = spectrum;
      for (const word of content.split(/\s+/)) {
        if (word === '') continue;
        const number = plainNumber(word);
        if (number === undefined)
          throw new Stop({
            code: 'not-a-number',
            message: `'${word.slice(0, 40)}' is not a number.`,
            line,
            column,
            expected: 'a reflectance',
            cure: 'Correct the value, or export the file again.',
          });
        spectrum.cells.push({ value: number, line, column });
        if (spectrum.cells.length > longest.wavelengths)
          throw new Stop({
            code: 'too-many-rows',
            message: `A spectrum has more than ${longest.wavelengths} values.`,
            line,
            column,
            cure: 'Export the spectrum in coarser steps.',
          });
      }
      spectra.push(spectrum);
      if (spectra.length > longest.readings * 10)
        throw new Stop({
          code: 'too-many-readings',
          message: 'The file has too many spectra for one sample.',
          line,
          column,
          cure: 'Give the readings of one sample only.',
        });
      spectrum = undefined;
    } else if (value && path.at(-2) && /^ColorCIE/.test(path.at(-2)!)) {
      const number = plainNumber(content.trim());
      if (number === undefined)
        throw new Stop({
          code: 'not-a-number',
          message: `'${content.trim().slice(0, 40)}' is not a number.`,
          ...here(),
          cure: 'Correct the value, or export the file again.',
        });
      value.parts.set(name.toUpperCase(), number);
    } else if (value && /^ColorCIE/.test(name)) {
      values.push(value);
      value = undefined;
    } else if (specification && name === 'Illuminant')
      specification.illuminant = content.trim().replace(/^FL?(\d+)$/i, 'F$1');
    else if (specification && name === 'Observer') {
      const found = /\b(10|2)/.exec(content)?.[1];
      if (found) specification.observer = Number(found) as Observer;
    } else if (name === 'ColorSpecification') specification = undefined;
    path.pop();
    pieces = [];
  });
  try {
    parser.write(text).close();
  } catch (error) {
    if (error instanceof Stop) return bad(error.fault);
    throw error;
  }

  const notes: FileNote[] = [];
  const found = [...new Set((spectra.length > 0 ? spectra : values).map(({ kind }) => kind))];
  const kinds = [
    ...found.filter((kind) => !/substrate/i.test(kind)),
    ...found.filter((kind) => /substrate/i.test(kind)),
  ];
  if (kinds.length > 1)
    notes.push({
      code: 'several-kinds',
      message: `Readings of ${kinds.length} kinds stand in the file (${kinds.slice(0, 4).join(', ')}); those of ${kinds[0] || 'the first'} were used.`,
      line: spectra[0]?.line ?? 1,
      column: spectra[0]?.column ?? 1,
      cure: 'Export one kind only if another was meant.',
    });

  // One object read under several conditions (with and without filter, at several angles) is not several readings.
  const ofOneCondition = <Found extends FoundSpectrum | FoundValue>(all: readonly Found[]): Found[] => {
    const conditions = new Map<number, string>();
    const several = all.some(({ object: of, specification: condition }) => {
      const known = conditions.get(of) ?? condition;
      conditions.set(of, known);
      return known !== condition;
    });
    return several ? all.filter(({ specification: condition }) => condition === all[0]!.specification) : [...all];
  };
  const ofKind = spectra.filter(({ kind }) => kind === kinds[0]);
  const used = ofOneCondition(ofKind);
  if (used.length < ofKind.length)
    notes.push({
      code: 'several-conditions',
      message: `Objects were read under several conditions; those of ${used[0]!.specification || 'the first'} were used.`,
      line: used[0]!.line,
      column: used[0]!.column,
      cure: 'Export one condition only if another was meant.',
    });
  if (used.length > 0) {
    if (used.length > longest.readings)
      return bad({
        code: 'too-many-readings',
        message: `The file holds ${used.length} spectra.`,
        line: used[0]!.line,
        column: used[0]!.column,
        cure: `Give at most ${longest.readings} readings of one sample.`,
      });
    const first = used[0]!;
    const place = { line: first.line, column: first.column };
    const own = specifications.get(first.specification);
    const start = first.start ?? own?.start;
    if (start === undefined)
      return bad({
        code: 'no-start',
        message: 'The spectrum does not say at which wavelength it starts.',
        ...place,
        expected: 'StartWL',
        cure: 'Export the file again with StartWL.',
      });
    let increment = first.increment ?? own?.increment;
    const count = first.cells.length;
    if (increment === undefined) {
      // Without a stated step, the one that ends the spectrum in the deep red: 700 to 830 nm.
      increment = [10, 5, 20, 1].find((step) => {
        const end = start + step * (count - 1);
        return end >= 700 && end <= 830;
      });
      if (increment === undefined)
        return bad({
          code: 'no-increment',
          message: 'The spectrum does not say its step, and none follows from its length.',
          ...place,
          expected: 'WavelengthRange with Increment',
          cure: 'Export the file again with its colour specification.',
        });
      notes.push({
        code: 'increment-inferred',
        message: `The step is not stated; ${increment} nm follows from ${count} values from ${start} nm.`,
        ...place,
        cure: 'Check it against the instrument.',
      });
    }
    const other = used.find((one) => {
      const told = specifications.get(one.specification);
      return (
        one.cells.length !== count ||
        (one.start ?? told?.start ?? start) !== start ||
        (one.increment ?? told?.increment ?? increment) !== increment
      );
    });
    if (other)
      return bad({
        code: 'mixed-wavelengths',
        message: 'The readings have different wavelengths.',
        line: other.line,
        column: other.column,
        cure: 'Give readings with the same wavelengths.',
      });
    const step = increment;
    const wavelengths: Cell[] = first.cells.map((_, i) => ({ value: start + step * i, ...place }));
    const columns: Column[] = used.map(({ name, cells }) => ({ ...(name ? { name } : {}), cells }));
    const made = spectraFromColumns(wavelengths, columns);
    if (!made.ok) return made;
    return good({ format: 'CxF', spectra: made.value.spectra, values: [], notes: [...notes, ...made.value.notes] });
  }

  const read: ValueReading[] = [];
  const valuesOfKind = values.filter(({ kind }) => kind === kinds[0]);
  for (const one of ofOneCondition(valuesOfKind.filter(({ space }) => space === valuesOfKind[0]!.space))) {
    const parts = (one.space === 'lab' ? ['L', 'A', 'B'] : ['X', 'Y', 'Z']).map((part) => one.parts.get(part));
    if (parts.some((part) => part === undefined)) continue;
    const own = specifications.get(one.specification);
    read.push({
      ...(one.name ? { name: one.name } : {}),
      space: one.space,
      value: parts as unknown as Triple,
      ...(own?.illuminant ? { illuminant: own.illuminant } : {}),
      ...(own?.observer ? { observer: own.observer } : {}),
    });
  }
  const [first] = read;
  if (first)
    return good({
      format: 'CxF',
      spectra: [],
      values: read.filter(({ illuminant, observer }) => illuminant === first.illuminant && observer === first.observer),
      notes,
    });
  return bad({
    code: 'no-spectrum',
    message: 'The file holds no reflectance spectrum, CIELab or XYZ.',
    line: 1,
    column: 1,
    expected: 'ReflectanceSpectrum',
    cure: 'Export the reading with its spectrum.',
  });
}
