// Rules on the files of instruments: CSV, CGATS text and CxF; the words are those of the room that reads them.
import type { Example } from '../rule.js';
import { faultRule } from '../rule.js';

/** An entry with one sample whose colour is read from a file of this text. */
const read = (text: string, file = 'spectra/a.csv'): Example => ({
  matter: `samples: [{ sample: A, colour: { spectrum: ${file} } }]`,
  files: { [file]: text },
});

const every20nm = Array.from({ length: 16 }, (_, at) => 400 + 20 * at);

/** Rows of a CSV file from 400 to 700 nm, of one reflectance but for what is written otherwise. */
const rows = (other: Readonly<Record<number, string>> = {}, usual = '0.12'): string[] =>
  every20nm.map((nm) => other[nm] ?? `${nm},${usual}`);
const csv = (lines: readonly string[], heading = 'nm,R'): Example => read(`${heading}\n${lines.join('\n')}\n`);
const fine = csv(rows());
const ofSet = (name: string): Example => ({
  matter: `samples: [{ sample: A, colour: { spectrum: spectra/a.csv, set: ${name} } }]`,
  files: { 'spectra/a.csv': `nm,malachite\n${rows().join('\n')}\n` },
});

/** A CGATS table with one field a wavelength. */
const cgatsText = (
  sets: readonly string[],
  { head = 'ISO28178\n', fields = `SAMPLE_ID ${every20nm.map((nm) => `nm${nm}`).join(' ')}`, end = 'END_DATA\n' } = {},
): string =>
  [head, fields && `BEGIN_DATA_FORMAT\n${fields}\nEND_DATA_FORMAT\n`, `BEGIN_DATA\n${sets.join('\n')}\n${end}`].join(
    '',
  );
const set = (id: string, values: readonly string[] = every20nm.map(() => '0.12')): string => [id, ...values].join(' ');
const cgats = (...given: Parameters<typeof cgatsText>): Example => read(cgatsText(...given), 'spectra/a.txt');
const fineCgats = cgats([set('1')]);
const pairs = (second: string): Example =>
  cgats([`1 ${every20nm.map((nm) => `${nm} 12`).join(' ')}`, `1 ${second}`], {
    fields: `SAMPLE_ID ${every20nm.map(() => 'SPECTRAL_NM SPECTRAL_PCT').join(' ')}`,
  });

/** A CxF file with these objects. */
const cxfText = (objects: string, specifications = ''): string =>
  `<cc:CxF xmlns:cc="http://colorexchangeformat.com/CxF3-core"><cc:Resources>
<cc:ObjectCollection>${objects}</cc:ObjectCollection>
<cc:ColorSpecificationCollection>${specifications}</cc:ColorSpecificationCollection>
</cc:Resources></cc:CxF>`;
const specification = (range: string, id = 'S1'): string =>
  `<cc:ColorSpecification Id="${id}"><cc:MeasurementSpec><cc:WavelengthRange ` +
  `${range}/></cc:MeasurementSpec></cc:ColorSpecification>`;
const spectrum = (attributes = 'ColorSpecification="S1" StartWL="400"', count = 16): string =>
  `<cc:ReflectanceSpectrum ` +
  `${attributes}>${Array.from({ length: count }, () => '0.12').join(' ')}</cc:ReflectanceSpectrum>`;
const object = (spectra: string, kind = 'Target'): string =>
  `<cc:Object ObjectType="${kind}" Name="x" Id="${kind}"><cc:ColorValues>${spectra}</cc:ColorValues></cc:Object>`;
const cxf = (objects: string, specifications = specification('StartWL="400" Increment="20"')): Example =>
  read(cxfText(objects, specifications), 'spectra/a.cxf');
const fineCxf = cxf(object(spectrum()));

/** A grey picture of eight by eight pixels, PNG. */
const greyPicture =
  '89504e470d0a1a0a0000000d49484452000000080000000808020000004b6d29dc0000000970485973000003e8000003e801b57b526b' +
  '0000000f49444154089963e8c0011886960400db11660134ef37650000000049454e44ae426082';

export const readingRules = {
  'unreadable-picture': faultRule({
    when:
      'A photograph is damaged, too large, or of a kind that cannot ' +
      'be read, and so cannot be freed of its metadata.',
    severity: { among: ['error', 'warning'], of: ({ readAllTheSame }) => (readAllTheSame ? 'warning' : 'error') },
    advice: 'Export it again, as JPEG, PNG or TIFF.',
    fires: {
      matter: 'samples: [{ sample: A, photo: photos/a.png, photo-shows: a heap }]',
      files: { 'photos/a.png': { hex: greyPicture.slice(0, 120) } },
    },
    silent: {
      matter: 'samples: [{ sample: A, photo: photos/a.png, photo-shows: a heap }]',
      files: { 'photos/a.png': { hex: greyPicture } },
    },
  }),
  'photograph-colour': faultRule({
    when: 'A colour cannot be read from a photograph with a chart.',
    severity: 'error',
    advice: 'Check the chart, its corners and the sample’s area in the photograph.',
    fires: {
      matter:
        'samples: [{ sample: A, colour: { photo: photos/a.png, chart: classic-24, ' +
        'corners: "1,1 1,5 5,5 5,1", sample: "1,1,4,4" } }]',
      files: { 'photos/a.png': { hex: greyPicture } },
    },
    silent: 'samples: [{ sample: A, colour: { lab: [50, 10, 10], illuminant: D65, observer: 10 } }]',
  }),
  'ambiguous-comma': faultRule({
    when: 'Commas in a file of readings may separate columns or stand for the decimal point.',
    severity: {
      among: ['error', 'warning'],
      of: ({ readAllTheSame }) => (readAllTheSame ? 'warning' : 'error'),
    },
    advice: 'Use a decimal point, or a semicolon between columns.',
    fires: csv(rows().map((_, at) => `${400 + 20 * at},5,12`)),
    silent: csv(rows().map((_, at) => `${400 + 20 * at};5,12`)),
  }),
  'conditions-by-standard': faultRule({
    when: 'A CGATS file holds Lab or XYZ and does not state illuminant and observer in full.',
    severity: 'warning',
    advice: 'State illuminant and observer beside the file if they were others.',
    fires: cgats(['1 54.1 -30.2 6.0'], { fields: 'SAMPLE_ID LAB_L LAB_A LAB_B' }),
    silent: cgats(['1 54.1 -30.2 6.0'], {
      head: 'ISO28178\nMEASUREMENT_SOURCE "Illumination=D65 ObserverAngle=10"\n',
      fields: 'SAMPLE_ID LAB_L LAB_A LAB_B',
    }),
  }),
  'data-do-not-fit': faultRule({
    when: 'The values of a CGATS table do not make up whole rows of its fields.',
    severity: 'error',
    advice: 'A value is missing or too many; export the file again.',
    fires: cgats([`${set('1')} 0.12`]),
    silent: fineCgats,
  }),
  'document-type': faultRule({
    when: 'A CxF file has a document type declaration.',
    severity: 'error',
    advice: 'Export the file as plain CxF3, or take the DOCTYPE out.',
    fires: read(`<!DOCTYPE CxF>\n${cxfText(object(spectrum()))}`, 'spectra/a.cxf'),
    silent: fineCxf,
  }),
  gap: faultRule({
    when: 'A spectrum has a gap.',
    severity: 'error',
    advice: 'Give the missing values, or export the spectrum again.',
    fires: csv(rows().filter((row) => !row.startsWith('520'))),
    silent: fine,
  }),
  'increment-inferred': faultRule({
    when: 'A CxF spectrum does not state its step, which follows from its length.',
    severity: 'note',
    advice: 'Check it against the instrument.',
    fires: cxf(object(spectrum()), specification('StartWL="400"')),
    silent: fineCxf,
  }),
  'missing-value': faultRule({
    when: 'No value stands beside a wavelength.',
    severity: 'error',
    advice: 'Give the missing value, or export the spectrum again.',
    fires: csv(rows({ 520: '520,' })),
    silent: fine,
  }),
  'mixed-units': faultRule({
    when: 'Fractions and per cent are mixed in a file of readings.',
    severity: 'error',
    advice: 'Write all values in the same unit.',
    fires: csv(rows({ 520: '520,12.2' })),
    silent: fine,
  }),
  'mixed-wavelengths': faultRule({
    when: 'The readings of a file have different wavelengths.',
    severity: 'error',
    advice: 'Give readings with the same wavelengths.',
    fires: pairs(every20nm.map((nm) => `${nm + 10} 12`).join(' ')),
    silent: pairs(every20nm.map((nm) => `${nm} 13`).join(' ')),
  }),
  'negative-reflectance': faultRule({
    when: 'A reflectance is negative.',
    severity: 'error',
    advice: 'Check the calibration of the instrument (black trap) and read again.',
    fires: csv(rows({ 520: '520,-0.02' })),
    silent: fine,
  }),
  'no-data': faultRule({
    when: 'A CGATS file holds no readings.',
    severity: 'error',
    advice: 'Export the readings again.',
    fires: cgats([]),
    silent: fineCgats,
  }),
  'no-end': faultRule({
    when: 'A CGATS file is cut short.',
    severity: 'error',
    advice: 'The file was cut short; export it again.',
    fires: cgats([set('1')], { end: '' }),
    silent: fineCgats,
  }),
  'no-fields': faultRule({
    when: 'A CGATS file does not name its fields.',
    severity: 'error',
    advice: 'Export the file with its data format.',
    fires: cgats([set('1')], { fields: '' }),
    silent: fineCgats,
  }),
  'no-increment': faultRule({
    when: 'A CxF spectrum does not state its step, and none follows from its length.',
    severity: 'error',
    advice: 'Export the file again with its colour specification.',
    fires: cxf(object(spectrum('StartWL="400"', 11)), ''),
    silent: cxf(object(spectrum('StartWL="400" Increment="20"')), ''),
  }),
  'no-spectrum': faultRule({
    when: 'A file of readings holds neither a spectrum nor Lab nor XYZ.',
    severity: 'error',
    advice: 'Export the reflectance as wavelength and value, one row a wavelength.',
    fires: read('To be read on Monday.\n'),
    silent: fine,
  }),
  'no-start': faultRule({
    when: 'A CxF spectrum does not say at which wavelength it starts.',
    severity: 'error',
    advice: 'Export the file again with StartWL.',
    fires: cxf(object(spectrum('Increment="20"')), ''),
    silent: cxf(object(spectrum('StartWL="400" Increment="20"')), ''),
  }),
  'noise-under-zero': faultRule({
    when: 'Values of a spectrum lie a little under zero, as noise in the dark makes them.',
    severity: 'warning',
    advice: 'Noise of the instrument in the dark; a fresh dark reading lessens it.',
    fires: csv(rows({ 400: '400,-0.001' })),
    silent: fine,
  }),
  'noisy-ends': faultRule({
    when: 'At the ends of a spectrum, where the eye sees next to nothing, values fall under zero by more than noise.',
    severity: 'warning',
    advice: 'The eye sees next to nothing there; a stronger lamp or longer exposure would read it.',
    fires: csv(['380,-0.10', ...rows()]),
    silent: csv(['380,0.10', ...rows()]),
  }),
  'not-reflectance': faultRule({
    when: 'A file holds another quantity than reflectance.',
    severity: 'error',
    advice: 'Export the reflectance; nothing else tells the colour of a paint.',
    fires: csv(rows(), 'nm,absorbance'),
    silent: csv(rows(), 'nm,reflectance'),
  }),
  'not-a-number': faultRule({
    when: 'Something other than a number stands where a file of readings should have one.',
    severity: 'error',
    advice: 'Correct the value.',
    fires: csv(rows({ 520: '520,o.12' })),
    silent: fine,
  }),
  'not-a-wavelength': faultRule({
    when: 'A wavelength of a spectrum is none that an instrument reads.',
    severity: 'error',
    advice: 'Give wavelengths in nanometres.',
    fires: cxf(object(spectrum('StartWL="0.4" Increment="0.02"')), ''),
    silent: cxf(object(spectrum('StartWL="400" Increment="20"')), ''),
  }),
  'not-cxf': faultRule({
    when: 'An XML file is not CxF.',
    severity: 'error',
    advice: 'Export the reading as CxF3, CGATS text or CSV.',
    fires: read('<svg/>\n', 'spectra/a.cxf'),
    silent: fineCxf,
  }),
  'not-xml': faultRule({
    when: 'The XML of a file of readings is broken.',
    severity: 'error',
    advice: 'Export the file again.',
    fires: read(cxfText(object(spectrum())).replace('</cc:CxF>', ''), 'spectra/a.cxf'),
    silent: fineCxf,
  }),
  'over-100-percent': faultRule({
    when: 'A reflectance lies above 100 %.',
    severity: 'warning',
    advice: 'Fluorescence or a slip of the white calibration; check it.',
    fires: csv(rows({ 520: '520,1.15' }, '0.90')),
    silent: csv(rows({ 520: '520,1.00' }, '0.90')),
  }),
  'range-too-short': faultRule({
    when: 'A spectrum does not cover the visible range.',
    severity: 'error',
    advice: 'Measure or export the whole visible range; what is missing cannot be guessed.',
    fires: csv(rows().slice(0, 12)),
    silent: fine,
  }),
  'reflectance-too-high': faultRule({
    when: 'A reflectance lies far above 100 %.',
    severity: 'error',
    advice: 'Check the unit and the white calibration.',
    fires: csv(rows({ 520: '520,300' }, '90')),
    silent: csv(rows({ 520: '520,95' }, '90')),
  }),
  'several-samples': faultRule({
    when: 'A file holds several samples, and nothing says which is meant.',
    severity: 'error',
    advice: 'Name the one that is meant with set:. Readings of one sample are averaged only if that is said.',
    fires: csv(
      rows().map((row) => `${row},0.15`),
      'nm,malachite,azurite',
    ),
    silent: csv(
      rows().map((row) => `${row},0.15`),
      'nm,malachite reading 1,malachite reading 2',
    ),
  }),
  'unknown-set': faultRule({
    when: 'A file does not hold the sample that is meant.',
    severity: 'error',
    advice: 'Name one that the file holds.',
    fires: ofSet('azurite'),
    silent: ofSet('malachite'),
  }),
  'sets-do-not-count': faultRule({
    when: 'A CGATS file holds another number of readings than it says.',
    severity: 'warning',
    advice: 'Export the file again if a reading is missing.',
    fires: cgats([set('1')], { head: 'ISO28178\nNUMBER_OF_SETS 2\n' }),
    silent: cgats([set('1')], { head: 'ISO28178\nNUMBER_OF_SETS 1\n' }),
  }),
  'several-conditions': faultRule({
    when: 'A CxF file holds readings under several conditions, of which one was used.',
    severity: 'warning',
    advice: 'Export one condition only if another was meant.',
    fires: cxf(
      object(spectrum() + spectrum('ColorSpecification="S2" StartWL="400"')),
      specification('Increment="20"') + specification('Increment="20"', 'S2'),
    ),
    silent: fineCxf,
  }),
  'several-kinds': faultRule({
    when:
      'A file holds readings of several kinds (with and without the ' +
      'gloss, of several objects), of which one was used.',
    severity: 'warning',
    advice: 'Leave one kind only if the other was meant.',
    fires: csv(
      rows().map((row) => `${row},0.15`),
      'nm,SCE,SCI',
    ),
    silent: csv(
      rows().map((row) => `${row},0.15`),
      'nm,first,second',
    ),
  }),
  'step-too-coarse': faultRule({
    when: 'The wavelengths of a spectrum lie too far apart.',
    severity: 'error',
    advice: 'Export the spectrum in finer steps.',
    fires: csv(['400,0.12', '450,0.12', '500,0.12', '550,0.12', '600,0.12', '650,0.12', '700,0.12']),
    silent: fine,
  }),
  'too-few-values': faultRule({
    when: 'A spectrum has fewer than two wavelengths.',
    severity: 'error',
    advice: 'Give a spectrum from 400 to 700 nm in steps of 20 nm or finer.',
    fires: csv(['400,0.12']),
    silent: fine,
  }),
  'too-large': faultRule({
    when: 'A CxF file is nested too deeply, or has far more elements than a reading.',
    severity: 'error',
    advice: 'Give the readings of one sample only.',
    fires: read(`<CxF>${'<a>'.repeat(100)}`, 'spectra/a.cxf'),
    silent: fineCxf,
  }),
  'too-many-readings': faultRule({
    when: 'A file holds more readings than one sample can have.',
    severity: 'error',
    advice: 'Give the readings of one sample only.',
    fires: cgats(Array.from({ length: 201 }, () => set('1'))),
    silent: cgats(Array.from({ length: 5 }, () => set('1'))),
  }),
  'too-many-rows': faultRule({
    when: 'A spectrum has more values than any instrument reads.',
    severity: 'error',
    advice: 'Give one sample’s spectrum, 400 to 700 nm, in steps of 1 nm or coarser.',
    fires: {
      matter: 'samples: [{ sample: A, colour: { spectrum: spectra/a.csv } }]',
      files: { 'spectra/a.csv': { text: '400;0.12\n', times: 4001 } },
    },
    silent: fine,
  }),
  'unit-unclear': faultRule({
    when: 'The values of a spectrum may be fractions or per cent.',
    severity: 'error',
    advice: 'Write “%” into the heading if these are per cent, “0 to 1” if they are fractions.',
    fires: csv(rows({}, '1.70')),
    silent: csv(rows({}, '1.70'), 'nm,R %'),
  }),
  'wavelength-twice': faultRule({
    when: 'A wavelength stands twice in a spectrum.',
    severity: 'error',
    advice: 'Leave one of the two rows out.',
    fires: csv(rows({ 520: '520,0.12\n520,0.13' })),
    silent: fine,
  }),
  'wrong-order': faultRule({
    when: 'The wavelengths of a spectrum do not rise.',
    severity: 'error',
    advice: 'Sort the rows by rising wavelength.',
    fires: csv(rows({ 520: '500,0.12', 500: '520,0.12' })),
    silent: fine,
  }),
};
