// Rules on the colour of samples: Lab and XYZ, opacity, tests, differences and families.
import { faultRule, rule } from '../rule.js';

const colour = (facts: string): string => `samples: [{ sample: A, colour: { ${facts} } }]`;
const opacity = (black: string, white: string): string =>
  `samples: [{ sample: A, opacity: { over-black: ${black}, over-white: ${white} } }]`;
const tests = (facts: string): string => `samples: [{ sample: A, tests: { ${facts} } }]`;
const greenIs = (family: string): string =>
  `pigment: { name: a green, family: ${family} }\n${colour('lab: [54.1, -30.2, 6.0], illuminant: D65, observer: 10')}`;
const black = (family: string): string =>
  `pigment: { name: a dark one, family: ${family} }\n${colour('lab: [12, 0, 0], illuminant: D65, observer: 10')}`;
const two = (second: string): string => `samples:
  - { sample: A, colour: { lab: [54, -30, 6], illuminant: D65, observer: 10 } }
  - { sample: B, colour: { ${second} } }`;
const reference = (facts: string): string =>
  `reference: { name: a bought green, ${facts} }\n${colour('lab: [54, -30, 6], illuminant: D65, observer: 10')}`;
/** A flat spectrum of 20 %: L* 51.8, a* and b* 0. */
const greySpectrum = `nm,R\n${Array.from({ length: 16 }, (_, at) => `${400 + 20 * at},0.20`).join('\n')}\n`;
const besideSpectrum = (lab: string) => ({
  matter: colour(`spectrum: spectra/a.csv, lab: [${lab}], illuminant: D65, observer: 10`),
  files: { 'spectra/a.csv': greySpectrum },
});
const twoReadings = (second: string): string =>
  colour(`readings: [{ lab: [54, -30, 6] }, { lab: [${second}] }], illuminant: D65, observer: 10`);
const valuesFile = (fields: string, values: string, illuminant = 'D65') => ({
  matter: colour('spectrum: spectra/a.txt'),
  files: {
    'spectra/a.txt': `ISO28178
MEASUREMENT_SOURCE "Illumination=${illuminant} ObserverAngle=10"
BEGIN_DATA_FORMAT
SAMPLE_ID ${fields}
END_DATA_FORMAT
BEGIN_DATA
1 ${values}
END_DATA
`,
  },
});

const flat = (r: number): string => Array.from({ length: 31 }, (_, i) => `${400 + 10 * i},${r}`).join('\n');

/** Two samples with tints of these percents. */
const tinted = (first: number, second: number) => ({
  matter: `samples: [${[['A', first, 'pale'] as const, ['B', second, 'paler'] as const]
    .map(
      ([sample, percent, file]) =>
        `{ sample: ${sample}, colour: { spectrum: spectra/dark.csv, tints: [{ percent: ${percent}, ` +
        `spectrum: spectra/${file}.csv }] } }`,
    )
    .join(', ')}]`,
  files: { 'spectra/dark.csv': flat(0.1), 'spectra/pale.csv': flat(0.4), 'spectra/paler.csv': flat(0.5) },
});

export const appearanceFaultRules = {
  'not-lab': faultRule({
    when: 'A Lab is none that a surface can have.',
    severity: 'error',
    advice: 'Check the order of the numbers: L*, a*, b*.',
    fires: valuesFile('LAB_L LAB_A LAB_B', '154.1 -30.2 6.0'),
    silent: valuesFile('LAB_L LAB_A LAB_B', '54.1 -30.2 6.0'),
  }),
  'not-xyz': faultRule({
    when: 'XYZ are none that a surface can have.',
    severity: 'error',
    advice: 'Give X, Y and Z with Y = 100 for white.',
    fires: valuesFile('XYZ_X XYZ_Y XYZ_Z', '14.2 -22.0 20.6'),
    silent: valuesFile('XYZ_X XYZ_Y XYZ_Z', '14.2 22.0 20.6'),
  }),
  'not-a-luminance-factor': faultRule({
    when: 'The Y of a film is none that a film can have.',
    severity: 'error',
    advice: 'Give the luminance factor Y of the film, 0 for black to 100 for white.',
    fires: opacity('54.0', '540.0'),
    silent: opacity('21.0', '54.0'),
  }),
  'no-light-over-white': faultRule({
    when: 'The Y of a film over white is 0.',
    severity: 'error',
    advice: 'Check the reading over white.',
    fires: opacity('0', '0'),
    silent: opacity('0', '54.0'),
  }),
  'lighter-over-black': faultRule({
    when: 'A film reads lighter over black than over white.',
    severity: 'error',
    advice: 'Check whether the two readings were exchanged, or whether the films differ in thickness.',
    fires: opacity('54.0', '21.0'),
    silent: opacity('21.0', '54.0'),
  }),
  'colours-not-comparable': faultRule({
    when: 'Two colours were read under different conditions and cannot be compared.',
    severity: 'warning',
    advice: 'Give both for the same illuminant and observer, or as spectra.',
    fires: two('lab: [54, -30, 6], illuminant: A, observer: 10'),
    silent: two('lab: [52, -28, 6], illuminant: D65, observer: 10'),
  }),
  'not-a-test-result': faultRule({
    when: 'The result of a standard test is no number.',
    severity: 'error',
    advice: 'Give it as a number with its unit, or leave it out.',
    fires: tests('soluble-matter: .4 %'),
    silent: tests('soluble-matter: 0.4 %'),
  }),
  'test-unit': faultRule({
    when: 'The result of a standard test has no unit, or not its own.',
    severity: 'error',
    advice: 'Write the unit of the test.',
    fires: tests('density: 4.2 kg/L'),
    silent: tests('density: 4.2 g/mL'),
  }),
  'impossible-test-result': faultRule({
    when: 'The result of a standard test cannot be.',
    severity: 'error',
    advice: 'Check the number and its unit.',
    fires: tests('sieve-residue: 140 %'),
    silent: tests('sieve-residue: 0.1 %'),
  }),
};

export const appearanceRules = {
  'colour-not-told': rule<{
    pigment: string;
    family: string;
    /** The pigment with its family, where it stands in one text. */
    whole?: string;
  }>({
    when: 'A pigment was made, and neither a reading nor a family tells its colour.',
    severity: 'note',
    found: ({ pigment, family }) =>
      `No colour of ${pigment} is measured or told: it stands under none. The trade has it among the ${family} ones.`,
    advice: 'Give a sample its `colour`, or the pigment its `family`.',
    cure: ({ family, whole }) => {
      const written = whole === undefined ? `\`family: ${family}\` under \`pigment\`` : `\`pigment: ${whole}\``;
      return `Give a sample its \`colour\`, or write ${written}.`;
    },
    fires: 'pigment: { name: barium yellow, formula: BaCrO4, colour-index: PY31 }\nsamples: [{ sample: A }]',
    silent: 'pigment: { name: barium yellow, formula: BaCrO4, family: yellow }\nsamples: [{ sample: A }]',
  }),
  'unknown-illuminant': rule<{ illuminant: string }>({
    when: 'Values in a file are for an illuminant whose tables are not here.',
    severity: 'error',
    found: ({ illuminant }) => `The values are for illuminant ${illuminant}, whose tables are not here.`,
    advice: 'Export for D65, D50, A, F2 or F11, or as a spectrum.',
    fires: valuesFile('LAB_L LAB_A LAB_B', '54.1 -30.2 6.0', 'D75'),
    silent: valuesFile('LAB_L LAB_A LAB_B', '54.1 -30.2 6.0'),
  }),
  'lab-against-spectrum': rule<{ apart: string }>({
    when: 'A Lab that is given beside a spectrum is not that of the spectrum.',
    severity: 'warning',
    found: ({ apart }) => `The Lab given is ΔE00 ${apart} from that of the spectrum.`,
    advice: 'Check illuminant and observer, or leave the Lab out; the spectrum is used.',
    fires: besideSpectrum('55, 0, 0'),
    silent: besideSpectrum('51.9, 0, 0'),
  }),
  'lab-without-illuminant': rule<Record<never, never>>({
    when: 'Lab is given without its illuminant.',
    severity: 'warning',
    found: () => 'Lab is given without its illuminant; it was taken as D65, and may be off.',
    advice: 'Add illuminant (D65, D50, A …) and observer (2 or 10), as the instrument was set.',
    fires: colour('lab: [54.1, -30.2, 6.0]'),
    silent: colour('lab: [54.1, -30.2, 6.0], illuminant: D65, observer: 10'),
  }),
  'xyz-without-illuminant': rule<Record<never, never>>({
    when: 'XYZ is given without its illuminant.',
    severity: 'error',
    found: () => 'XYZ is given without its illuminant, and means nothing alone.',
    advice: 'Add illuminant (D65, D50, A …) and observer (2 or 10), as the instrument was set.',
    fires: colour('xyz: [14.2, 22.0, 20.6]'),
    silent: colour('xyz: [14.2, 22.0, 20.6], illuminant: D65, observer: 10'),
  }),
  'readings-disagree': rule<{ largest: string }>({
    when: 'Readings of one sample lie far from their mean.',
    severity: 'warning',
    found: ({ largest }) => `Readings of one sample lie ΔE00 ${largest} from their mean.`,
    advice: 'Check that all of them are of this sample, and that the surface was even.',
    fires: twoReadings('74, -30, 6'),
    silent: twoReadings('54.3, -30, 6'),
  }),
  'unusual-test-result': rule<{ name: string; result: string }>({
    when: 'The result of a standard test is unusual.',
    severity: 'warning',
    found: ({ name, result }) => `${name} of ${result} is unusual.`,
    advice: 'Check the number and its unit; leave it if it is right.',
    fires: tests('ph: 0.5'),
    silent: tests('ph: 7.5'),
  }),
  'unknown-family': rule<{ family: string; families: readonly string[]; near?: string }>({
    when: 'A family is declared that is no colour family.',
    severity: 'warning',
    found: ({ family }) => `'${family}' is not a colour family.`,
    advice: 'Write a colour family; or leave it out and let the measurement tell.',
    paste: ({ family, near }) => (near === undefined ? undefined : { instead: family, with: near }),
    cure: ({ families }, paste) =>
      `${paste ? `Did you mean ${paste.with}? ` : ''}Write one of ${families.join(', ')}; or leave it out and let ` +
      'the measurement tell.',
    subject: 'family',
    fires: 'pigment: { name: a green, family: greenish }',
    silent: 'pigment: { name: a green, family: green }',
  }),
  'masstone-reads-black': rule<{ declared: string }>({
    when: 'The masstone reads black, and the hue that is declared is not measured.',
    severity: 'note',
    found: ({ declared }) =>
      `The masstone reads black, and its computed tint does not read ` +
      `${declared}; the declared family stands, unmeasured.`,
    advice: 'Read a tint with white, which shows the hue of a dark pigment.',
    fires: black('green'),
    silent: black('black'),
  }),
  'family-against-measurement': rule<{ declared: string; measured: readonly string[] }>({
    when: 'The family that is declared is not the one that was measured.',
    severity: 'warning',
    found: ({ declared, measured }) => `The family is declared ${declared}, and measured: ${measured.join(', ')}.`,
    advice: 'Correct the family, leave it out, or check the readings.',
    fires: greenIs('red'),
    silent: greenIs('green'),
  }),
  'aged-without-before': rule<{ sample: string }>({
    when: 'A sample was aged, and its colour before that was not read.',
    severity: 'warning',
    found: ({ sample }) =>
      `Sample ${sample} was aged, but there is no colour of it from before: nothing is told of it.`,
    advice: 'Give the colour that the sample had before as its `colour`; what it changed by follows from both.',
    fires: {
      matter:
        'samples: [{ sample: A, aged: [{ after: a year, colour: { lab: [55, 8, 12], illuminant: D65, ' +
        'observer: 10 } }] }]',
    },
    silent: {
      matter:
        'samples: [{ sample: A, colour: { lab: [50, 10, 10], illuminant: D65, observer: 10 }, ' +
        'aged: [{ after: a year, colour: { lab: [55, 8, 12], illuminant: D65, observer: 10 } }] }]',
    },
  }),
  'tints-cannot-be-compared': rule<{ sample: string; against: string }>({
    when: 'Tints of two pigments were read, and not of one share in one white: how strongly they tint cannot be told.',
    severity: 'note',
    found: ({ sample, against }) =>
      `Tints of ${sample} and of ${against} were read, but none of one share in one white: ` +
      'their tinting strengths cannot be told.',
    advice: 'Read a tint of both of the same percent, in the same white.',
    fires: tinted(5, 10),
    silent: tinted(5, 5),
  }),
  'reference-without-colour': rule<{
    name: string;
    /** It is a reagent on the shelf. */
    onShelf: boolean;
  }>({
    when: 'The reference has no colour, here or on the shelf.',
    severity: 'error',
    found: ({ name, onShelf }) =>
      onShelf ? `${name} has no colour on the shelf.` : `The reference ${name} has no colour.`,
    advice: 'Give its `colour` here, or name a `reagent` on the shelf that has one.',
    cure: ({ onShelf }) => (onShelf ? 'Add `colour` to it in shelf.yaml, or give the colour here.' : undefined),
    subject: 'name',
    fires: reference('maker: Somebody'),
    silent: reference('colour: { lab: [54, -30, 6], illuminant: D65, observer: 10 }'),
  }),
};
