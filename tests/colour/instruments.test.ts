// Reading colour files: CSV in its many shapes, CGATS text, CxF XML, and what can't be a reading.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readReadings } from '../../src/colour/instruments/read.js';
import type { WantedSets } from '../../src/colour/instruments/sets.js';
import { decodeText } from '../../src/colour/instruments/text.js';
import { colourFromFile } from '../../src/colour/file-colour.js';
import { referenceText } from '../reference/read.js';
import { measured } from './reference.js';

const cobalt = measured('reflectance/cobalt-blue-over-white.csv');
const rows = (join: (nm: number, r: number) => string, heading?: string) =>
  [...(heading ? [heading] : []), ...cobalt.wavelengths.map((nm, i) => join(nm, cobalt.reflectance[i]!))].join('\n');
const read = (text: string | Uint8Array, wanted?: WantedSets) => {
  const found = readReadings(text, wanted);
  if (!found.ok) throw new Error(`${found.fault.code}: ${found.fault.message}`);
  return found.value;
};
const fault = (text: string | Uint8Array, wanted?: WantedSets) => {
  const found = readReadings(text, wanted);
  if (found.ok) throw new Error('no fault');
  const { code, line, column } = found.fault;
  return `${code} ${line ?? '-'}:${column ?? '-'}`;
};
const same = (text: string | Uint8Array) => {
  const { spectra, notes } = read(text);
  expect(spectra).toHaveLength(1);
  spectra[0]!.spectrum.reflectance.forEach((r, i) => expect(r).toBeCloseTo(cobalt.reflectance[i]!, 10));
  expect(spectra[0]!.spectrum.wavelengths).toEqual(cobalt.wavelengths);
  return notes.map(({ code }) => code);
};
const de = (n: number) => String(n).replace('.', ',');

it('text of a spreadsheet has its signs of Windows-1252, whatever Node makes of them', () => {
  // Source: Unicode Consortium, CP1252.TXT.
  const bytes = new Uint8Array([0x34, 0x2c, 0x32, 0x20, 0x80, 0x96, 0x93, 0xfc, 0x94, 0x99]);
  expect(decodeText(bytes)).toBe('4,2 €–“ü”™');
});

describe('CSV', () => {
  it.each([
    ['as published', referenceText('colour/reflectance/cobalt-blue-over-white.csv')],
    ['without heading', rows((nm, r) => `${nm},${r}`)],
    ['per cent by heading', rows((nm, r) => `${nm},${r * 100}`, 'nm,R (%)')],
    ['per cent by size', rows((nm, r) => `${nm},${r * 100}`)],
    ['semicolons and decimal commas', rows((nm, r) => `${nm};${de(r)}`, 'Wellenlänge;Reflexion')],
    ['tabs', rows((nm, r) => `${nm}\t${r}`, 'nm\tR')],
    ['tabs and decimal commas', rows((nm, r) => `${de(nm)}\t${de(r)}`)],
    ['spaces', rows((nm, r) => ` ${nm}   ${r}`)],
    ['spaces and decimal commas', rows((nm, r) => `${nm} ${de(r)}`)],
    ['comma and space', rows((nm, r) => `${nm}, ${r}`)],
    [
      'quotes, Windows line ends and a byte order mark',
      `\ufeff${rows((nm, r) => `"${nm}","${r}"`, '"nm","R"').replaceAll('\n', '\r\n')}\r\n\r\n`,
    ],
    [
      'a comment and a text column',
      rows((nm, r) => `${nm},${r},by hand, mine`.replace(', mine', ''), '# cobalt blue\nwavelength,reflectance,note'),
    ],
    [
      'words of the instrument before the numbers',
      `Instrument;SP-1\nDate;2026-03-01\nAverage of;3\n\n${rows((nm, r) => `${nm};${de(r)}`, 'nm;R')}`,
    ],
    ['trailing separators', rows((nm, r) => `${nm};${r};`)],
    [
      'wavelengths across',
      `sample,${cobalt.wavelengths.map((nm) => `${nm} nm`).join(',')}\nA,${cobalt.reflectance.join(',')}\n`,
    ],
    [
      'wavelengths across, named R_400',
      `name;${cobalt.wavelengths.map((nm) => `R_${nm}`).join(';')}\nA;${cobalt.reflectance.map(de).join(';')}\n`,
    ],
    ['units beside the numbers', rows((nm, r) => `${nm} nm;${de(Number((r * 100).toFixed(8)))} %`)],
    [
      'per cent of something else further up',
      `Humidity;45 %\nOperator;me\n${rows((nm, r) => `${nm};${de(r)}`, 'nm;R')}`,
    ],
    ['one reading named R, another column of words', rows((nm, r) => `${nm},${r},blue`, 'nm,R,S')],
    ['exponents', rows((nm, r) => `${nm}.0,${r.toExponential()}`)],
  ])('%s', (_, text) => {
    expect(same(text)).toEqual([]);
  });

  it('a comma for everything is read as decimal comma, with a note', () => {
    expect(same(rows((nm, r) => `${nm},${de(r)}`))).toEqual(['ambiguous-comma']);
  });
  it('commas that may be either are a fault', () => {
    expect(fault(cobalt.wavelengths.map((nm, i) => `${nm},${10 + (i % 3)},${11 + (i % 3)}`).join('\n'))).toBe(
      'ambiguous-comma 1:5',
    );
  });
  it('several columns are several readings', () => {
    const { spectra } = read(rows((nm, r) => `${nm},${r},${r + 0.01},${r + 0.02}`, 'nm,first,second,third'));
    expect(spectra.map(({ name }) => name)).toEqual(['first', 'second', 'third']);
    expect(spectra[2]!.spectrum.reflectance[0]).toBeCloseTo(cobalt.reflectance[0]! + 0.02, 10);
  });
  it('a column of standard deviations is no reading', () => {
    expect(read(rows((nm, r) => `${nm},${r},0.001`, 'nm,mean,std dev')).spectra).toHaveLength(1);
  });

  const swap = (line: number, to: string) => {
    const lines = rows((nm, r) => `${nm},${r}`, 'nm,R').split('\n');
    lines[line - 1] = to;
    return lines.join('\n');
  };
  const without = (line: number) =>
    rows((nm, r) => `${nm},${r}`, 'nm,R')
      .split('\n')
      .filter((_, i) => i !== line - 1)
      .join('\n');
  it.each([
    ['negative reflectance', swap(5, '430,-0.02'), 'negative-reflectance 5:5'],
    ['a gap', without(10), 'gap 10:1'],
    ['an empty cell', swap(7, '450,'), 'missing-value 7:5'],
    ['wrong order', swap(6, '640,0.1'), 'wrong-order 7:1'],
    ['the same wavelength twice', swap(6, '430,0.1'), 'wavelength-twice 6:1'],
    ['mixed units', swap(12, '500,32.1'), 'mixed-units 12:5'],
    ['mixed units in two columns', rows((nm, r) => `${nm},${r},${r * 100}`), 'mixed-units 31:11'],
    ['per cent in the heading and fractions below', rows((nm, r) => `${nm},${r}`, 'nm,R %'), 'mixed-units 32:5'],
    ['a per cent sign among fractions', swap(8, '460,12 %'), 'mixed-units 8:5'],
    ['a reflectance of 400 %', swap(12, '500,400'), 'reflectance-too-high 12:5'],
    [
      'fractions up to 540 nm, per cent from there',
      rows((nm, r) => `${nm},${nm < 550 ? r : r * 100}`, 'nm,R'),
      'mixed-units 17:5',
    ],
    ['one fraction among per cent', rows((nm, r) => `${nm},${nm === 500 ? r : r * 100}`, 'nm,R'), 'mixed-units 12:5'],
    ['a flat 1.3 without unit', rows((nm) => `${nm},1.3`, 'nm,R'), 'unit-unclear 2:5'],
    ['over 1 where the heading says 0 to 1', rows((nm, r) => `${nm},${r * 100}`, 'nm,R (0-1)'), 'mixed-units'],
    [
      'values up to 1.8 without unit',
      rows((nm, r) => `${nm},${(r * 1.8) / Math.max(...cobalt.reflectance)}`),
      'unit-unclear',
    ],
    ['words among numbers', swap(8, '460,overflow'), 'not-a-number 8:5'],
    ['NaN', swap(8, '460,NaN'), 'not-a-number 8:5'],
    ['Infinity', swap(8, '460,Infinity'), 'not-a-number 8:5'],
    ['NaN first', swap(2, '400,NaN'), 'not-a-number 2:5'],
    ['a footer', `${rows((nm, r) => `${nm},${r}`)}\nend,of`, 'not-a-number 32:1'],
    ['a coarse step', Array.from({ length: 13 }, (_, i) => `${400 + 25 * i},0.5`).join('\n'), 'step-too-coarse 2:1'],
    [
      'a range from 450 nm',
      Array.from({ length: 28 }, (_, i) => `${450 + 10 * i},0.5`).join('\n'),
      'range-too-short 1:1',
    ],
    [
      'a range to 650 nm',
      Array.from({ length: 26 }, (_, i) => `${400 + 10 * i},0.5`).join('\n'),
      'range-too-short 26:1',
    ],
    [
      'a range from 401 nm',
      Array.from({ length: 31 }, (_, i) => `${401 + 10 * i},0.5`).join('\n'),
      'range-too-short 1:1',
    ],
    ['Lab', 'L,a,b\n50,10,20\n', 'too-few-values 2:1'],
    [
      'micrometres',
      Array.from({ length: 31 }, (_, i) => `${(400 + 10 * i) / 1000},0.5`).join('\n'),
      'not-a-wavelength 1:1',
    ],
    ['ångströms', Array.from({ length: 31 }, (_, i) => `${4000 + 100 * i},0.5`).join('\n'), 'not-a-wavelength 1:1'],
    ['only a heading', 'nm,R', 'no-spectrum 1:1'],
    ['words', 'Dear diary,\ntoday I made blue.', 'no-spectrum 1:1'],
    ['nothing', '', 'empty-file 1:1'],
    ['blank lines', '\n \n\t\n', 'empty-file 1:1'],
    ['binary junk', 'PK\u0003\u0004\u0014\u0000\u0006\u0000', 'not-text 1:1'],
  ])('%s is a fault with its place', (_, text, expected) => {
    expect(fault(text)).toContain(expected);
  });

  it('a million rows are refused', () => {
    const text = Array.from({ length: 1_000_000 }, (_, i) => `${400 + i},0.5`).join('\n');
    expect(fault(text)).toMatch(/^file-size/);
    expect(fault(text.slice(0, 3_900_000))).toMatch(/^too-many-rows 4001:1/);
  });
});

describe('units that headings name, and do not', () => {
  const dark = (nm: number) => 0.4 + (nm - 400) / 1500;
  it.each([
    'nm,R %',
    'nm,R%',
    'nm,%R',
    'nm,R [%]',
    'nm,reflectance_pct',
    'nm,pct_R',
    'nm,Reflexionsgrad in Prozent',
    'nm,réflectance (pour cent)',
    'nm,R (0-100)',
  ])('%s is per cent: values up to 1.8 are a black', (heading) => {
    expect(
      Math.max(
        ...read(rows((nm, r) => `${nm},${(r * 1.8) / Math.max(...cobalt.reflectance)}`, heading)).spectra[0]!.spectrum
          .reflectance,
      ),
    ).toBeCloseTo(0.018, 9);
  });
  it.each(['nm,R (0-1)', 'nm,R (0–1)', 'nm,reflectance fraction', 'nm;Reflectance [-]'])(
    '%s is a fraction: 1.6 is fluorescence, with a note',
    (heading) => {
      const { spectra, notes } = read(
        rows((nm, r) => `${nm}${heading.includes(';') ? ';' : ','}${nm === 550 ? 1.6 : r}`, heading),
      );
      expect([spectra[0]!.spectrum.reflectance[15], notes.map(({ code }) => code)]).toEqual([
        1.6,
        ['over-100-percent'],
      ]);
    },
  );
  it('the share of a tint in its name is no unit', () => {
    expect(same(rows((nm, r) => `${nm},${r}`, 'nm,Cobalt blue 20 %'))).toEqual([]);
  });
  it('a per cent sign beside each value is believed, however dark; so is a format’s own word', () => {
    expect(read(rows((nm) => `${nm},${dark(nm)}%`)).spectra[0]!.spectrum.reflectance[0]).toBeCloseTo(0.004, 9);
    expect(
      read(
        cgats(
          bands((nm) => `SPEC_${nm}`),
          [cobalt.wavelengths.map(dark).join(' ')],
          'SPECTRAL_NORM "100.0"\n',
        ),
      ).spectra[0]!.spectrum.reflectance[0],
    ).toBeCloseTo(0.004, 9);
  });
  it.each([
    ['of one step', [0.1, 20, 70]],
    ['from nothing', [0, 30, 70]],
    ['of two steps', [0.4, 35, 80]],
  ])('the edge of a strong orange in per cent, %s, is no change of unit', (_, [low, mid, high]) => {
    const edge = (nm: number) => (nm < 550 ? low : high);
    const { spectra } = read(rows((nm) => `${nm},${nm === 550 ? mid : edge(nm)}`));
    expect(spectra[0]!.spectrum.reflectance[15]).toBeCloseTo(mid! / 100, 12);
  });
  it('two readings of a black on either side of 2 % are both per cent', () => {
    expect(
      read(
        rows((nm) => `${nm},1.9,2.1`),
        'all',
      ).spectra.map(({ spectrum }) => spectrum.reflectance[0]),
    ).toEqual([0.019, 0.021]);
  });
  it('a total radiance factor of 160 % is fluorescence, with a note', () => {
    expect(
      read(rows((nm, r) => `${nm},${nm === 550 ? 160 : r * 100}`)).notes.map(({ code, line }) => `${code} ${line}`),
    ).toEqual(['over-100-percent 16']);
  });
});

describe('columns in other orders', () => {
  it.each([
    ['reflectance first', rows((nm, r) => `${r},${nm}`, 'R,nm')],
    ['per cent first', rows((nm, r) => `${r * 100};${nm}`, 'R %;nm')],
    ['a running number first', rows((nm, r) => `${(nm - 390) / 10},${nm},${r}`, 'no,wavelength,reflectance')],
    ['the sample’s name first', rows((nm, r) => `A,${nm},${r}`, 'sample,wavelength,reflectance')],
    ['the running number last', rows((nm, r) => `${nm},${r},${(nm - 400) / 10}`, 'nm,R,n')],
    ['absorbance beside reflectance', rows((nm, r) => `${nm},${r},${-Math.log10(r)}`, 'nm,Reflectance,Absorbance')],
    ['quoted decimal commas between commas', rows((nm, r) => `"${nm}","${de(r)}"`, '"nm","R"')],
    [
      'per cent beside each wavelength across',
      `name,${cobalt.wavelengths.map((nm) => `R${nm} [%]`).join(',')}\nA,${cobalt.reflectance.map((r) => r * 100).join(',')}\n`,
    ],
    [
      'remarks as programs write them',
      `// by hand\n% R as a fraction\n; three readings\n${rows((nm, r) => `${nm},${r}`)}`,
    ],
  ])('%s', (_, text) => {
    expect(same(text)).toEqual([]);
  });
  it('a spectrometer’s odd wavelengths may begin and end within a nanometre of 400 and 700', () => {
    expect(
      read(Array.from({ length: 300 }, (_, i) => `${(400.32 + i * 1.0013).toFixed(2)},0.5`).join('\n')).spectra[0]!
        .spectrum.wavelengths,
    ).toHaveLength(300);
  });
  it('wavelengths before every reading are no readings', () => {
    expect(
      read(rows((nm, r) => `${nm},${r},${nm},${r}`, 'nm,first,nm,second')).spectra.map(({ name }) => name),
    ).toEqual(['first', 'second']);
  });
  it('readings with and without the gloss are not averaged', () => {
    const { spectra, notes } = read(rows((nm, r) => `${nm},${r},${r + 0.04}`, 'nm,SCE,SCI'));
    expect([spectra.map(({ name }) => name), notes.map(({ code }) => code)]).toEqual([['SCE'], ['several-kinds']]);
  });
});

const bands = (name: (nm: number) => string) => cobalt.wavelengths.map(name).join(' ');
const cgats = (fields: string, sets: string[], head = '') =>
  `CGATS.17\n${head}NUMBER_OF_FIELDS ` +
  `${fields.split(' ').length}\nBEGIN_DATA_FORMAT\n${fields}\nEND_DATA_FORMAT\nNUMBER_OF_SETS ` +
  `${sets.length}\nBEGIN_DATA\n${sets.join('\n')}\nEND_DATA\n`;

describe('CGATS and ISO 28178 text', () => {
  it.each([
    ['SPECTRAL_NM400', cgats(`SAMPLE_ID ${bands((nm) => `SPECTRAL_NM${nm}`)}`, [`1 ${cobalt.reflectance.join(' ')}`])],
    [
      'SPECTRAL_NM_400, named sample in quotes',
      cgats(`SAMPLE_ID SAMPLE_NAME ${bands((nm) => `SPECTRAL_NM_${nm}`)}`, [
        `1 "cobalt blue" ${cobalt.reflectance.join('\t')}`,
      ]),
    ],
    [
      'SPEC_400 in per cent',
      cgats(
        bands((nm) => `SPEC_${nm}`),
        [cobalt.reflectance.map((r) => r * 100).join(' ')],
        'SPECTRAL_NORM "100.0"\n',
      ),
    ],
    [
      'ISO28178, nm400',
      cgats(`SAMPLE_ID ${bands((nm) => `nm${nm}`)}`, [`1 ${cobalt.reflectance.join(' ')}`]).replace(
        'CGATS.17',
        'ISO28178',
      ),
    ],
    [
      'fields over several lines, comments',
      `CGATS.17\n# by hand\nORIGINATOR ` +
        `"me"\nBEGIN_DATA_FORMAT\nSAMPLE_ID\n${cobalt.wavelengths.map((nm) => `R_${nm}`).join('\n')}\nEND_DATA_FORMAT\nBEGIN_DATA\n1\n${cobalt.reflectance.join('\n')}\nEND_DATA`,
    ],
    [
      'pairs SPECTRAL_NM SPECTRAL_DEC in a set',
      cgats(`SAMPLE_ID ${bands(() => 'SPECTRAL_NM SPECTRAL_DEC')}`, [
        `1 ${cobalt.wavelengths.map((nm, i) => `${nm} ${cobalt.reflectance[i]}`).join(' ')}`,
      ]),
    ],
    [
      'one pair SPECTRAL_NM SPECTRAL_PCT a set',
      cgats(
        'SPECTRAL_NM SPECTRAL_PCT',
        cobalt.wavelengths.map((nm, i) => `${nm} ${cobalt.reflectance[i]! * 100}`),
      ),
    ],
    ...['R400', 'REFL_400', '400', '400nm', 'SPECTRAL_R400'].map(
      (name) =>
        [
          `fields named ${name}`,
          cgats(`SAMPLE_ID ${bands((nm) => name.replace('400', String(nm)))}`, [`1 ${cobalt.reflectance.join(' ')}`]),
        ] as [string, string],
    ),
    [
      'Lab in a first table, the spectrum in a second',
      `${cgats('SAMPLE_ID LAB_L LAB_A LAB_B', ['1 50 1 1'])}${cgats(
        bands((nm) => `nm${nm}`),
        [cobalt.reflectance.join(' ')],
      ).replace('CGATS.17\n', '')}`,
    ],
    [
      'a bare row with its range in keywords',
      `CGATS.17\nSPECTRAL_BANDS "31"\nSPECTRAL_START_NM "400"\nSPECTRAL_END_NM ` +
        `"700"\nBEGIN_DATA\n${cobalt.reflectance.join(' ')}\nEND_DATA\n`,
    ],
  ])('%s', (_, text) => {
    expect(same(text)).toEqual([]);
    expect(read(text).format).toBe('CGATS');
  });

  it('data sets of one name are readings of one sample, of several names several samples', () => {
    const sets = (...names: string[]) =>
      cgats(
        `SAMPLE_NAME ${bands((nm) => `NM_${nm}`)}`,
        names.map((name) => `${name} ${cobalt.reflectance.join(' ')}`),
      );
    expect(read(sets('a', 'a')).spectra).toHaveLength(2);
    expect(fault(sets('a', 'b'))).toMatch(/^several-samples/);
    expect(read(sets('a', 'b'), 'b').spectra.map(({ name }) => name)).toEqual(['b']);
  });
  it('Lab is read with its illuminant and observer where no spectrum stands', () => {
    expect(
      read(cgats('SAMPLE_ID LAB_L LAB_A LAB_B', ['1 35.8 6.3 -42.3'], 'ILLUMINATION_NAME "D50"\nOBSERVER_ANGLE "2"\n'))
        .values,
    ).toMatchObject([{ name: '1', space: 'lab', value: [35.8, 6.3, -42.3], illuminant: 'D50', observer: 2 }]);
    expect(
      read(
        cgats(
          'XYZ_X XYZ_Y XYZ_Z',
          ['9.2 8.9 30.6'],
          'MEASUREMENT_SOURCE "Illumination=D65\tObserverAngle=10 WhiteBase=Abs"\n',
        ),
      ).values[0],
    ).toMatchObject({ space: 'xyz', value: [9.2, 8.9, 30.6], illuminant: 'D65', observer: 10 });
  });
  it.each([
    [
      'cut short',
      cgats(
        bands((nm) => `SPEC_${nm}`),
        [cobalt.reflectance.join(' ')],
      )
        .replace('END_DATA\n', '')
        .replace('_FORMAT', 'END_DATA_FORMAT')
        .replace('BEGIN_DATAEND', 'BEGIN'),
      /^no-end|^no-fields/,
    ],
    [
      'without END_DATA',
      cgats(
        bands((nm) => `SPEC_${nm}`),
        [cobalt.reflectance.join(' ')],
      ).replace(/END_DATA\n$/, ''),
      /^no-end 9:1/,
    ],
    [
      'a value missing',
      cgats(
        bands((nm) => `SPEC_${nm}`),
        [cobalt.reflectance.slice(1).join(' ')],
      ),
      /^data-do-not-fit 8:/,
    ],
    [
      'a negative value',
      cgats(
        bands((nm) => `SPEC_${nm}`),
        [['-0.1', ...cobalt.reflectance.slice(1)].join(' ')],
      ),
      /^negative-reflectance 8:1$/,
    ],
    [
      'a word for a value',
      cgats(
        bands((nm) => `SPEC_${nm}`),
        [['low', ...cobalt.reflectance.slice(1)].join(' ')],
      ),
      /^not-a-number 8:1$/,
    ],
    [
      'a missing band',
      cgats(bands((nm) => `SPEC_${nm}`).replace('SPEC_500 ', ''), [cobalt.reflectance.slice(1).join(' ')]),
      /^gap 4:/,
    ],
    ['only device values', cgats('CMYK_C CMYK_M', ['0 1']), /^no-spectrum 4:1$/],
    ['no data set', cgats('LAB_L LAB_A LAB_B', []), /^no-data/],
  ])('%s is a fault with its place', (_, text, expected) => {
    expect(fault(text)).toMatch(expected);
  });
});

const cxf = (
  inside: string,
  specification = '<cc:ColorSpecification Id="CS1"><cc:MeasurementSpec><cc:WavelengthRange StartWL="400" ' +
    'Increment="10"/></cc:MeasurementSpec></cc:ColorSpecification>',
) => `<?xml version="1.0" encoding="UTF-8"?>
<cc:CxF xmlns:cc="http://colorexchangeformat.com/CxF3-core">
<cc:Resources><cc:ObjectCollection>
${inside}
</cc:ObjectCollection><cc:ColorSpecificationCollection>${specification}</cc:ColorSpecificationCollection></cc:Resources></cc:CxF>`;
const object = (
  values: string,
  name = 'cobalt',
  kind = 'Standard',
  attributes = 'ColorSpecification="CS1" StartWL="400"',
) =>
  `<cc:Object ObjectType="${kind}" Name="${name}" Id="1"><cc:ColorValues><cc:ReflectanceSpectrum ` +
  `${attributes}>${values}</cc:ReflectanceSpectrum></cc:ColorValues></cc:Object>`;
const values = cobalt.reflectance.join(' ');

describe('CxF3 and ISO 17972 XML', () => {
  it('a spectrum with start and step', () => {
    expect(same(cxf(object(values)))).toEqual([]);
    expect(read(cxf(object(values))).format).toBe('CxF');
  });
  it('other prefixes, line breaks and CDATA', () => {
    expect(same(cxf(object(`\n<![CDATA[${values.replaceAll(' ', '\n')}]]>\n`)).replaceAll('cc:', ''))).toEqual([]);
  });
  it('a step that is not stated follows from the length, and is said', () => {
    expect(same(cxf(object(values, 'x', 'Standard', 'StartWL="400"')))).toEqual(['increment-inferred']);
  });
  it('objects of one name are readings of one sample; of several names a sample is chosen', () => {
    const several = (...names: string[]) => cxf(names.map((name) => object(values, name, 'M1_Measurement')).join(''));
    expect(read(several('a', 'a')).spectra).toHaveLength(2);
    expect(fault(several('a', 'b'))).toMatch(/^several-samples/);
    expect(read(several('a', 'b'), 'b').spectra.map(({ name }) => name)).toEqual(['b']);
  });
  it('of one sample read in two ways (with and without filter) the first is used, and that is said', () => {
    const { spectra, notes } = read(cxf(object(values, 'a', 'M0_Measurement') + object(values, 'a', 'M2_Measurement')));
    expect([spectra.length, notes.map(({ code }) => code)]).toEqual([1, ['several-kinds']]);
  });
  it('one object under several conditions is not several readings', () => {
    const two = object(values).replace(
      '</cc:ColorValues>',
      '<cc:ReflectanceSpectrum ColorSpecification="CS2" ' +
        `StartWL="400">${values.replaceAll('0.', '0.9')}</cc:ReflectanceSpectrum></cc:ColorValues>`,
    );
    const { spectra, notes } = read(cxf(two));
    expect([spectra.length, spectra[0]!.spectrum.reflectance[0], notes.map(({ code }) => code)]).toEqual([
      1,
      cobalt.reflectance[0],
      ['several-conditions'],
    ]);
  });
  it('Lab for several lamps is not averaged: that of the first', () => {
    const of = (specification: string, l: number) =>
      '<cc:ColorCIELab ' +
      `ColorSpecification="${specification}"><cc:L>${l}</cc:L><cc:A>10</cc:A><cc:B>-20</cc:B></cc:ColorCIELab>`;
    const lamp = (id: string, illuminant: string) =>
      '<cc:ColorSpecification ' +
      `Id="${id}"><cc:TristimulusSpec><cc:Illuminant>${illuminant}</cc:Illuminant><cc:Observer>2_Degree</cc:Observer></cc:TristimulusSpec></cc:ColorSpecification>`;
    expect(
      read(
        cxf(
          '<cc:Object ObjectType="Standard" ' +
            `Name="x"><cc:ColorValues>${of('a', 50)}${of('b', 60)}</cc:ColorValues></cc:Object>`,
          lamp('a', 'D50') + lamp('b', 'D65'),
        ),
      ).values,
    ).toMatchObject([{ name: 'x', space: 'lab', value: [50, 10, -20], illuminant: 'D50', observer: 2 }]);
    expect(
      read(
        cxf(
          ['a', 'b']
            .map(
              (id) =>
                '<cc:Object ObjectType="Standard" Name="x" ' +
                `Id="${id}"><cc:ColorValues>${of(id, id === 'a' ? 40 : 50)}</cc:ColorValues></cc:Object>`,
            )
            .join(''),
          lamp('a', 'A') + lamp('b', 'D65'),
        ),
      ).values.map(({ value }) => value[0]),
    ).toEqual([40]);
  });
  it('the bare card beneath is not taken for the sample', () => {
    expect(
      read(
        cxf(object(values.replaceAll('0.', '0.9'), 'card', 'Substrate') + object(values, 'cobalt', 'Target')),
      ).spectra.map(({ name }) => name),
    ).toEqual(['cobalt']);
  });
  it('readings of different steps are not averaged', () => {
    expect(
      fault(
        cxf(
          object(values, 'a', 'Standard', 'StartWL="400" Increment="10"') +
            object(values, 'b', 'Standard', 'StartWL="400" Increment="5"'),
        ),
      ),
    ).toMatch(/^mixed-wavelengths/);
  });
  it('CIELab is read with illuminant and observer where no spectrum stands', () => {
    expect(
      read(
        cxf(
          '<cc:Object ObjectType="Standard" Name="x"><cc:ColorValues><cc:ColorCIELab ' +
            'ColorSpecification="L1"><cc:L>50</cc:L><cc:A>10.5</cc:A><cc:B>-20</cc:B></cc:ColorCIELab></cc:ColorValues></cc:Object>',
          '<cc:ColorSpecification ' +
            'Id="L1"><cc:TristimulusSpec><cc:Illuminant>D65</cc:Illuminant><cc:Observer>10_Degree</cc:Observer></cc:TristimulusSpec></cc:ColorSpecification>',
        ),
      ).values,
    ).toMatchObject([{ name: 'x', space: 'lab', value: [50, 10.5, -20], illuminant: 'D65', observer: 10 }]);
  });
  const bomb =
    `<?xml version="1.0"?>\n<!DOCTYPE CxF [<!ENTITY a "0.1 0.1 0.1 0.1 0.1 0.1 0.1 0.1 0.1 ` +
    `0.1">${Array.from({ length: 9 }, (_, i) => `<!ENTITY ${String.fromCharCode(98 + i)} "${`&${String.fromCharCode(97 + i)};`.repeat(10)}">`).join('')}]>\n<CxF><ReflectanceSpectrum ` +
    'StartWL="400">&j;</ReflectanceSpectrum></CxF>';
  it.each([
    ['a billion laughs', bomb, /^document-type 2:/],
    ['an outside entity', '<!DOCTYPE CxF SYSTEM "file:///etc/passwd"><CxF/>', /^document-type 1:/],
    ['an undefined entity', cxf(object('&who; 0.1')), /^not-xml 4:/],
    ['broken XML', cxf(object(values)).replace('</cc:Object>', ''), /^not-xml/],
    ['cut short', cxf(object(values)).slice(0, 500), /^not-xml/],
    ['another XML', '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0"/></svg>', /^not-cxf 1:/],
    ['no spectrum', cxf(''), /^no-spectrum/],
    ['a negative value', cxf(object(values.replace(/^\S+/, '-0.2'))), /^negative-reflectance 4:/],
    ['a word for a value', cxf(object(values.replace(/^\S+/, 'NaN'))), /^not-a-number 4:/],
    ['no start', cxf(object(values, 'x', 'Standard', ''), ''), /^no-start 4:/],
    ['a step that cannot be known', cxf(object('0.1 0.2', 'x', 'Standard', 'StartWL="400"')), /^no-increment 4:/],
    ['too short a range', cxf(object(cobalt.reflectance.slice(3).join(' '), 'x')), /^range-too-short/],
    ['nesting without end', `<CxF>${'<a>'.repeat(100_000)}`, /^too-large/],
    ['elements without end', `<CxF>${'<a/>'.repeat(200_000)}</CxF>`, /^too-large/],
  ])('%s is a fault with its place', (_, text, expected) => {
    expect(fault(text)).toMatch(expected);
  });
});

describe('anything else', () => {
  it.each([
    ['a row of digits', '1'.repeat(3_900_000)],
    ['a number without end', `400,${'1'.repeat(3_900_000)}x`],
    ['white space without end', `400,${' '.repeat(1_900_000)}x\n410,${' '.repeat(1_900_000)}y`],
    ['one row of a million cells', Array.from({ length: 900_000 }, () => '0.5').join(',')],
    ['a million quotes', '"'.repeat(3_900_000)],
    ['brackets', `${'('.repeat(3_000_000)},`.repeat(1)],
    [
      'a data set without end',
      `CGATS.17\nBEGIN_DATA_FORMAT\nSPEC_400\nEND_DATA_FORMAT\nBEGIN_DATA\n${'0.5 '.repeat(900_000)}`,
    ],
    [
      'device values in tables without end',
      `CGATS.17\n${'BEGIN_DATA_FORMAT\nRGB_R\nEND_DATA_FORMAT\nBEGIN_DATA\n1\nEND_DATA\n'.repeat(60_000)}`,
    ],
    [
      'a spectrum without end',
      `<CxF><ReflectanceSpectrum StartWL="400">${'0.5 '.repeat(900_000)}</ReflectanceSpectrum></CxF>`,
    ],
  ])('%s is refused, and nothing hangs', (_, text) => {
    expect(readReadings(text).ok).toBe(false);
  });

  it('Lab in fifty thousand tables is that of the first, and nothing hangs', () => {
    const { values } = read(
      `CGATS.17\n${'BEGIN_DATA_FORMAT\nLAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n1 2 3\nEND_DATA\n'.repeat(50_000)}`,
    );
    expect(values.map(({ value }) => value)).toEqual([[1, 2, 3]]);
  });

  const pieces = fc.constantFrom(
    '400',
    '410',
    ',',
    ';',
    '\n',
    '\t',
    ' ',
    '0.5',
    '"',
    '<',
    '>',
    'CxF',
    '<CxF>',
    'BEGIN_DATA',
    'END_DATA',
    'BEGIN_DATA_FORMAT',
    'END_DATA_FORMAT',
    'SPEC_400',
    '-',
    'NaN',
    '%',
    '1e999',
    '#',
    '&',
    '</',
  );
  /** Files that can be read, one of each kind, to be spoilt. */
  const whole = [
    rows((nm, r) => `${nm};${de(r * 100)}`, 'nm;R %'),
    rows((nm, r) => `${nm},${r},${r}`, 'nm,SCI,SCE'),
    `name,${cobalt.wavelengths.map((nm) => `R_${nm}`).join(',')}\nA,${cobalt.reflectance.join(',')}\n`,
    cgats(`SAMPLE_ID ${bands((nm) => `NM_${nm}`)}`, [`1 ${cobalt.reflectance.join(' ')}`], 'SPECTRAL_NORM "1.0"\n'),
    cgats('SAMPLE_ID LAB_L LAB_A LAB_B', ['1 35.8 6.3 -42.3'], 'ILLUMINATION_NAME "D50"\nOBSERVER_ANGLE "2"\n'),
    cgats('XYZ_X XYZ_Y XYZ_Z', ['9.2 8.9 30.6'], 'ILLUMINATION_NAME "D65"\n'),
    cxf(object(values)),
    cxf(
      '<cc:Object ObjectType="Standard" Name="x"><cc:ColorValues><cc:ColorCIELab ' +
        'ColorSpecification="L1"><cc:L>50</cc:L><cc:A>10.5</cc:A><cc:B>-20</cc:B></cc:ColorCIELab></cc:ColorValues></cc:Object>',
      '<cc:ColorSpecification Id="L1"><cc:Illuminant>D65</cc:Illuminant></cc:ColorSpecification>',
    ),
  ];
  const splice = fc.record({ at: fc.nat(), length: fc.nat(30), put: fc.oneof(pieces, fc.string({ maxLength: 12 })) });
  const mutated = fc
    .tuple(fc.constantFrom(...whole), fc.array(splice, { minLength: 1, maxLength: 6 }))
    .map(([text, splices]) =>
      splices.reduce((spoilt, { at, length, put }) => {
        const from = at % (spoilt.length + 1);
        return spoilt.slice(0, from) + put + spoilt.slice(from + length);
      }, text),
    );
  const anyText = fc.oneof(
    fc.string(),
    fc.string({ unit: 'binary' }),
    fc.array(pieces).map((parts) => parts.join('')),
  );
  const answers = (text: string) => {
    const found = readReadings(text);
    if (!found.ok) {
      expect(found.fault.code).not.toBe('');
      return;
    }
    const colour = colourFromFile(found.value, {});
    expect(colour.ok ? colour.value.colour.family : colour.fault.code).not.toBe('');
  };

  it('any text has an answer or a fault, and nothing throws', () => {
    fc.assert(fc.property(anyText, answers), { numRuns: 4000 });
  });
  it('a spoilt file has an answer or a fault, its colour too', () => {
    fc.assert(fc.property(mutated, answers), { numRuns: 4000 });
  });
});
