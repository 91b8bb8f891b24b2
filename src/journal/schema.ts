// The journal's format: what may stand in journal.yaml, shelf.yaml and the front matter of an entry.
// One description serves the check, the types and the JSON Schema. Keys are kept as the maker writes them.
import { z } from 'zod';
import { isAmount } from '../reagents/index.js';
import { valueFault } from '../remarks/value-fault.js';
import { quantityFault } from './quantities.js';
import {
  addFault,
  casNumber,
  colourIndexName,
  date,
  dateOrWords,
  dayOrMonth,
  elementSymbol,
  entryNumber,
  formula,
  hazardCode,
  hexColour,
  idea,
  journalPath,
  languageTag,
  lot,
  moment,
  numberBetween,
  numberOr,
  oneOfNumbers,
  orcid,
  pictogram,
  plainNumber,
  precautionCode,
  quantity,
  quantityWithWords,
  recipientCode,
  roomVolume,
  sampleId,
  truth,
  webAddress,
  wholeNumber,
  words,
} from './values.js';

/** The supplier's hazard data for a reagent, from its safety data sheet. */
export const sdsSchema = z
  .strictObject({
    statements: z.array(hazardCode).describe('H-statement codes as printed on the sheet: H302').default([]),
    precautionary: z.array(precautionCode).describe('P-statement codes as printed on the sheet').optional(),
    pictograms: z.array(pictogram).describe('GHS01 to GHS09').optional(),
    'signal-word': z.enum(['Danger', 'Warning', 'none']).describe('the sheet’s signal word').optional(),
    supplier: words.describe('whose sheet it is').optional(),
    date: date.describe('revision date of the sheet').optional(),
    url: webAddress.describe('where the sheet can be read').optional(),
  })
  .describe('Hazard data from the supplier’s own safety data sheet');

const strength = quantity('strength', '60 %', '10 % w/v', '2.0 mol/L').describe(
  'how strong the solution is: `60 %` (by mass), `10 % w/v`, `2.0 mol/L`',
);
const purity = quantity('purity', '98 %', '≥ 95 %', '95-99 %').describe(
  'how much of it is the substance: `98 %`, `≥ 95 %`, `95-99 %`',
);
const density = quantity('density', '1.18 g/mL').describe('`1.18 g/mL`');
const dropVolume = quantity('volume', '0.05 mL').describe('volume of one drop: `0.05 mL`');

const reagentFields = {
  name: words.describe('what it is called'),
  formula: formula.describe('its formula, water of hydration included: CuSO4·5H2O').optional(),
  cas: casNumber.describe('CAS number').optional(),
  strength: strength.optional(),
  purity: purity.optional(),
  density: density.optional(),
};

const lab = z
  .tuple([numberBetween(0, 100), numberBetween(-128, 128), numberBetween(-128, 128)])
  .describe('CIELAB: [L*, a*, b*]')
  .meta({ examples: [[54.1, -30.2, 6.0]] });
const lch = z
  .tuple([numberBetween(0, 100), numberBetween(0, 180), numberBetween(0, 360)])
  .describe('CIELAB as lightness, chroma and hue: [L*, C*, h°]')
  .meta({ examples: [[54.1, 30.8, 168.8]] });
const xyz = z
  .tuple([numberBetween(0, 200), numberBetween(0, 200), numberBetween(0, 200)])
  .describe('CIE XYZ, Y of white = 100')
  .meta({ examples: [[14.2, 21.9, 19.5]] });
const spectrum = journalPath('spectra/14-A.csv').describe('a file below the journal: spectra/14-A.csv');

/** Which samples of a file of readings are meant. */
const set = z.union([words, z.array(words)]);

/** A colour reading: a spectrum file, Lab, LCh, XYZ or sRGB; or several readings of the same sample. */
export const colourSchema = z
  .strictObject({
    spectrum: spectrum.optional(),
    set: set
      .describe(
        'the sample of the file that is meant, by its name: Cadmium A; ' +
          'several, or all, if they are readings of one sample',
      )
      .optional(),
    lab: lab.optional(),
    lch: lch.optional(),
    xyz: xyz.optional(),
    photo: journalPath('photos/14.jpg').describe('a photograph that shows a chart: photos/14.jpg').optional(),
    chart: words
      .describe(
        'the chart in it: classic-24, classic-24-2014, or a file below ' +
          'the journal (patch,L,a,b,illuminant; CGATS; spectra)',
      )
      .optional(),
    grid: words.describe('patches of the chart across and down; default: 6x4').optional(),
    corners: words
      .describe(
        'centres of its four corner patches in pixels, clockwise from the first patch: 120,80 620,95 610,430 110,420',
      )
      .optional(),
    sample: words
      .describe('where the sample lies in the photograph, x,y,width,height in pixels: 700,120,60,60')
      .optional(),
    srgb: hexColour.describe('"#rrggbb" from a photograph or scan: a rough estimate').optional(),
    illuminant: z
      .enum(['D50', 'D65', 'A', 'F2', 'F11', 'LED-B3'])
      .describe('the light that the Lab, LCh or XYZ values are for')
      .optional(),
    observer: oneOfNumbers([2, 10]).describe('2 or 10 degrees').optional(),
    readings: z
      .array(
        z.strictObject({
          spectrum: spectrum.optional(),
          set: set.describe('the sample of the file that is meant').optional(),
          lab: lab.optional(),
          lch: lch.optional(),
          xyz: xyz.optional(),
          drawdown: z
            .union([words, plainNumber])
            .describe(
              'which drawdown of the sample was read; readings of several drawdowns tell pigment from brushwork',
            )
            .optional(),
        }),
      )
      .describe('several readings of the same sample')
      .optional(),
    tints: z
      .array(
        z.strictObject({
          percent: numberBetween(0.01, 99.9).describe('share of the pigment in pigment and white, per cent'),
          spectrum,
          set: set.describe('the sample of the file that is meant').optional(),
        }),
      )
      .describe('tints with white that were read; the ladder goes through them')
      .optional(),
    white: spectrum
      .describe('spectrum of the white that its tints are computed with; default: a zinc white in oil')
      .optional(),
    instrument: words.describe('what it was measured with').optional(),
    invented: truth.describe('the reading is made up for a demonstration').optional(),
  })
  .superRefine((colour, context) => {
    if (
      colour.spectrum === undefined &&
      colour.lab === undefined &&
      colour.lch === undefined &&
      colour.xyz === undefined &&
      colour.srgb === undefined &&
      colour.photo === undefined &&
      !colour.readings?.length
    ) {
      const expected = ['spectrum', 'lab', 'lch', 'xyz', 'photo', 'srgb', 'readings'];
      addFault(context, valueFault('colour-reading', { expected }));
    }
    const lacks = (['chart', 'corners', 'sample'] as const).filter((key) => colour[key] === undefined);
    if (colour.photo !== undefined && lacks.length > 0)
      addFault(context, valueFault('colour-reading', { lacks, expected: ['photo, chart, corners and sample'] }));
  });

/** What was measured to tell how strong or how pure something is; or in words what it came to. */
const assayMeasured = z.strictObject({
  by: z.enum(['titration', 'gravimetric', 'density', 'ignition']).describe('how it was found'),
  taken: quantity('amount', '2.00 mL', '0.455 g').describe('how much of it was taken: `2.00 mL`, `0.455 g`').optional(),
  titrant: words.describe('what it was titrated with, and how strong that is: `NaOH 0.108 mol/L`').optional(),
  standard: words.describe('a weighed substance that it was titrated against: `C8H5KO4 0.442 g`').optional(),
  used: quantity('volume', '31.43 mL').describe('how much ran from the burette: `31.43 mL`').optional(),
  weighed: words.describe('what was precipitated and weighed: `BaSO4 0.6168 g`').optional(),
  density: density.optional(),
  before: quantity('mass', '2.497 g').describe('mass before ignition: `2.497 g`').optional(),
  after: quantity('mass', '1.596 g').describe('mass after ignition: `1.596 g`').optional(),
  equation: words.describe('what happens: `Na2CO3 + 2 HCl -> 2 NaCl + CO2 + H2O`').optional(),
  indicator: words.describe('what told the end: methyl orange, phenolphthalein').optional(),
  note: words.describe('anything else worth knowing').optional(),
});
export const assaySchema = z
  .union([assayMeasured, words])
  .describe(
    'an assay: what was measured to tell how strong or how pure it is, ' +
      'or in words what it came to (`0.8 ± 0.1 mol/L`); later uses take what it tells',
  );
const freeAcid = quantity('strength', '0.5 mol/L').describe('acid that it still holds: `0.5 mol/L`');

/** A reagent on the shelf, by id. */
export const shelfReagentSchema = z.strictObject({
  ...reagentFields,
  assay: assaySchema.optional(),
  'free-acid': freeAcid.optional(),
  'also-called': z.array(words).describe('other names it is found under').optional(),
  price: quantity('price', '4.20 EUR / 500 g').describe('money for an amount: `4.20 EUR / 500 g`').optional(),
  bought: z
    .strictObject({
      amount: quantity('held', '500 g', '1 L').describe('how much there was then: `500 g`, `1 L`'),
      date: date.describe('from when on uses count; of earlier entries none does'),
    })
    .describe('what was on the shelf on a day; uses since then are taken off it')
    .optional(),
  supplier: words.describe('where it was bought').optional(),
  grade: words.describe('laboratory, food, garden, ceramic …').optional(),
  'drop-volume': dropVolume.optional(),
  sds: sdsSchema.optional(),
  lot: lot.describe('made at home: the sample it came from, `9/A`').optional(),
  colour: colourSchema.describe('a reading of a bought pigment, to stand beside samples').optional(),
  note: words.describe('anything else worth knowing').optional(),
  'moved-from': z
    .array(words)
    .describe('ids that the jar had before; their addresses, to which labels lead, lead to it: [lye]')
    .optional(),
});
export const shelfSchema = z.record(z.string(), shelfReagentSchema);

export const roles = ['reactant', 'acid', 'base', 'solvent', 'additive', 'flux', 'wash'] as const;

/** A reagent described where it is used. */
export const describedReagentSchema = z.strictObject(reagentFields);

/** One use of a reagent or of a lot in an entry. Exactly one of `reagent` and `lot` is given. */
export const useSchema = z
  .strictObject({
    reagent: z
      .union([words, describedReagentSchema])
      .describe('an id on the shelf, or { name, formula, … } described here')
      .optional(),
    lot: lot.describe('a sample of an earlier entry: `9/A`').optional(),
    amount: quantity('amount', '5.00 g', '4.0 mL', '0.050 mol', '12 drops', '2 tsp', 'about 9 mL', 'excess')
      .describe(
        'how much went in: `5.00 g`, `4.0 mL`, `12 drops`, `excess`; or as it was measured: ' +
          '`about 9 mL`, `2 tsp`, `a pinch`, `some`, `to pH 8`',
      )
      .optional(),
    role: z.enum(roles).describe('as what it went in').optional(),
    intent: z
      .enum(['limiting', 'excess'])
      .describe('what it was meant to be; a remark follows if it is not')
      .optional(),
    strength: strength.optional(),
    purity: purity.optional(),
    density: density.optional(),
    'drop-volume': dropVolume.optional(),
    'free-acid': freeAcid.optional(),
    contamination: words.describe('what may have got into it: rust from the sieve').optional(),
    separately: truth.describe('never meets the other reagents, except those in the same vessel').optional(),
    vessel: words.describe('only what stands in the same vessel meets').optional(),
    note: words.describe('anything else worth knowing').optional(),
  })
  .superRefine((use, context) => {
    if ((use.reagent === undefined) === (use.lot === undefined)) {
      const expected = ['reagent: an id on the shelf', 'lot: a sample of an earlier entry'];
      addFault(context, valueFault('reagent-or-lot', { both: use.lot !== undefined, expected }));
    }
    const { reagent, amount } = use;
    if (typeof reagent !== 'string' || amount === undefined || !/^[~≈]?\d/.test(reagent)) return;
    if (quantityFault(reagent, 'held') || isAmount(amount) || /^\d/.test(amount)) return;
    const why = 'the two stand under each other’s key';
    addFault(context, valueFault('read-as', { written: reagent, meant: amount, why }), ['reagent']);
    addFault(context, valueFault('read-as', { written: amount, meant: reagent, why }), ['amount']);
  });

export const heatingSchema = z.strictObject({
  of: words.describe('`product`, `mixture`, a vessel, or a reagent’s id').default('product'),
  to: quantity('temperature', '60 °C', 'red heat', 'cone 6', 'gas mark 4', 'water bath').describe(
    '`60 °C`, or in words: `red heat`, `cone 6`, `gas mark 4`, `boiling`, `water bath`',
  ),
  for: quantity('time', '3 h', '45 min', 'overnight').describe('`3 h`, or in words: `overnight`').optional(),
  in: words.describe('open crucible, covered crucible, water bath …').optional(),
  note: words.describe('anything else worth knowing').optional(),
});

const film = (over: 'black' | 'white') => numberOr(journalPath(`spectra/14-A-${over}.csv`));
const opacitySchema = z.strictObject({
  'over-black': film('black').describe('Y of the film over black, or a spectrum file'),
  'over-white': film('white').describe('Y of the same film over white, or a spectrum file'),
});

const spotTest = z.enum(['unchanged', 'slight', 'changed', 'dissolved']);

/** Standard tests of a pigment; each has its own unit and range. */
export const testsSchema = z.strictObject({
  'lightfastness-blue-wool': numberBetween(1, 8).describe('blue wool step, 1 to 8').optional(),
  'lightfastness-astm': z.enum(['I', 'II', 'III', 'IV', 'V']).describe('lightfastness category').optional(),
  'oil-absorption': quantity('oil-absorption', '22 g/100 g').describe('`22 g/100 g`').optional(),
  ph: numberBetween(0, 14).describe('pH of the aqueous suspension').optional(),
  density: density.optional(),
  'soluble-matter': quantityWithWords('percent', '0.4 %, hot')
    .describe('matter soluble in water, hot or cold: `0.4 %, hot`')
    .optional(),
  'sieve-residue': quantityWithWords('percent', '0.1 %, on 45 µm')
    .describe('left on the sieve of which aperture: `0.1 %, on 45 µm`')
    .optional(),
  'tint-strength': quantityWithWords('percent', '95 %')
    .describe('against which reference: `95 %, against the bought one`')
    .optional(),
  'acid-spot': spotTest.describe('a drop of acid: what it did').optional(),
  'alkali-spot': spotTest.describe('a drop of alkali: what it did').optional(),
});

/** How a sample was prepared for its colour reading, and how it was read. */
const preparationSchema = z.strictObject({
  binder: words.describe('what it was bound with: linseed oil').optional(),
  ratio: words.describe('pigment to binder: 2:1 by mass').optional(),
  thickness: words.describe('of the film: 100 µm wet').optional(),
  ground: words.describe('what it lies on: white card').optional(),
  geometry: z
    .enum(['specular included', 'specular excluded', '45/0'])
    .describe('whether the gloss was read')
    .optional(),
  aperture: words.describe('of the instrument: 8 mm').optional(),
  condition: z.enum(['M0', 'M1', 'M2', 'M3']).describe('of the measurement, as ISO 13655 names them').optional(),
});

const photographFile = journalPath('photos/14-A.jpg').describe('a file below the journal: photos/14-A.jpg');
/** What may be said of a photograph. */
const photographFields = {
  file: photographFile,
  shows: words.describe('what is seen, for those who cannot see it').optional(),
  caption: words.describe('what stands below it').optional(),
  light: words.describe('the light it was taken in: window, overcast').optional(),
  moment: moment.describe('when it is seen in the video, minutes:seconds, in quotes').optional(),
};
const samplePhotographSchema = z.strictObject(photographFields);
const photographSchema = z.strictObject({
  ...photographFields,
  sample: sampleId.describe('the sample that it shows').optional(),
});

/** A portion of a sample that was sent away. To whom is a number or a code: the journal is published. */
const sentSchema = z.strictObject({
  date: date.describe('day it was sent'),
  amount: quantity('mass', '0.50 g').describe('how much of the sample: `0.50 g`'),
  to: recipientCode.describe('a number or short code, never a name or an address: P-17'),
});

/** One washing of the product, or several alike. */
export const washSchema = z.strictObject({
  with: words.describe('what it was washed with: water').default('water'),
  volume: quantity('poured', '200 mL', 'a jam jar').describe('of each wash: `200 mL`, `a jam jar`'),
  times: wholeNumber.describe('how many washes alike').default(1),
  held: quantity('poured', '20 mL').describe('liquor that the cake keeps each time: `20 mL`').optional(),
  by: z.enum(['decanting', 'filtering']).describe('how the liquor was taken off').optional(),
  note: words.describe('anything else worth knowing').optional(),
});
const liquor = quantity('volume', '350 mL').describe(
  'liquor before the first pouring off: `350 mL`; default: the sum of the liquids',
);

/** A weighing in a dish after some time of drying. */
const driedSchema = z.strictObject({
  dish: quantity('mass', '20.10 g')
    .describe('the empty dish: `20.10 g`; default: that of the weighing before')
    .optional(),
  'with-product': quantity('mass', '24.62 g').describe('the dish with the product: `24.62 g`'),
  after: quantity('time', '4 h').describe('how long it had been dried: `4 h`').optional(),
  at: quantity('temperature', '60 °C').describe('how hot: `60 °C`').optional(),
});

/** A portion that was ignited. */
const ignitionSchema = z.strictObject({
  before: quantity('mass', '2.497 g').describe('mass before: `2.497 g`'),
  after: quantity('mass', '1.596 g').describe('mass after: `1.596 g`'),
  to: quantity('temperature', '250 °C').describe('how hot: `250 °C`').optional(),
  residue: formula.describe('what is left: CuSO4; default: the product’s dry formula').optional(),
});

const contamination = words.describe('what may have got into it: rust from the sieve');

/** What an eye saw; never a measurement. */
const looksSchema = z
  .union([
    words,
    z.strictObject({
      daylight: words.describe('its colour by daylight: dull green').optional(),
      lamplight: words.describe('its colour by lamplight: olive').optional(),
      covering: words.describe('how it covers: opaque, translucent, transparent').optional(),
      texture: words.describe('how it feels and spreads: gritty, silky').optional(),
      note: words.describe('anything else that was seen').optional(),
    }),
  ])
  .describe('how it looks by eye: words, or { daylight, lamplight, covering, texture }');

/** One step of the procedure; `do` alone suffices. */
export const stepSchema = z.union([
  words,
  z.strictObject({
    do: words.describe('what is done, in a sentence'),
    with: z
      .array(words)
      .describe('ids of the reagents, or lots, that go in here; something else is judged with them')
      .optional(),
    amount: quantity('amount', '2.50 g', 'half of it').describe('how much of them goes in here').optional(),
    wait: quantity('time', '30 min', 'overnight').describe('how long to wait: `30 min`, `overnight`').optional(),
    heat: quantity('temperature', '60 °C', 'water bath').describe('how hot: `60 °C`, `water bath`').optional(),
    'look-for': words.describe('what to look for').optional(),
    careful: words.describe('what can go wrong here').optional(),
    sample: sampleId.describe('the sample that it is for, where not for all').optional(),
  }),
]);

export const sampleSchema = z.strictObject({
  sample: sampleId.describe('the sample’s id: A, B, …'),
  differs: words.describe('the one thing in which it differs from the others').optional(),
  obtained: quantity('obtained', '1.98 g', 'about 2 g', 'a jam jar full')
    .describe('mass of dry product: `1.98 g`; or in words: `a jam jar full`')
    .optional(),
  liquor: liquor.optional(),
  formula: formula
    .describe('its own formula, where it is not the pigment’s: a dried hydrate, a fired oxide')
    .optional(),
  looks: looksSchema.optional(),
  contamination: contamination.optional(),
  carries: z
    .array(z.union([words, describedReagentSchema]))
    .describe('what this lot may still hold, ids on the shelf or { name, formula }: free acid, salt')
    .optional(),
  washes: z
    .union([z.array(washSchema), words])
    .describe('how it was washed, instead of the entry’s washes; or in words')
    .optional(),
  dried: z
    .union([z.array(driedSchema), words])
    .describe('weighings while it dried, the last one last; or in words')
    .optional(),
  ignition: z
    .union([ignitionSchema, words])
    .describe('a portion that was ignited, and what it lost; or in words')
    .optional(),
  assay: assaySchema.optional(),
  'free-acid': freeAcid.optional(),
  add: z.array(useSchema).describe('what went into this sample only').optional(),
  omit: z.array(words).describe('reagent ids or lots this sample goes without').optional(),
  change: z.array(useSchema).describe('the same reagent in another amount, strength or role').optional(),
  heating: z.array(heatingSchema).describe('instead of the entry’s heating').optional(),
  colour: colourSchema.describe('a colour reading').optional(),
  preparation: preparationSchema.describe('how it was prepared and read').optional(),
  aged: z
    .array(
      z.strictObject({
        after: words.describe('what it went through: 300 h in a south window'),
        colour: colourSchema.describe('its colour afterwards'),
      }),
    )
    .describe('the same sample after ageing')
    .optional(),
  opacity: opacitySchema.describe('the same film over black and over white').optional(),
  tests: testsSchema.describe('standard tests').optional(),
  photo: z
    .union([photographFile, samplePhotographSchema])
    .describe('a photograph: its file, or { file, shows, caption, light, moment }')
    .optional(),
  'photo-shows': words.describe('what the photo shows, for those who cannot see it').optional(),
  'replicate-of': sampleId.describe('the sample this one repeats').optional(),
  sent: z.array(sentSchema).describe('portions that were sent away; what is left of the lot counts them').optional(),
  note: words.describe('anything else worth knowing').optional(),
});

export const pigmentSchema = z.strictObject({
  name: words.describe('what the pigment is called'),
  formula: formula.describe('its formula: Cu2CO3(OH)2').optional(),
  'colour-index': colourIndexName.describe('Colour Index Generic Name: PG39').optional(),
  elements: z
    .array(elementSymbol)
    .describe('colour-giving elements; default: the transition or heavy elements of the formula')
    .optional(),
  target: words
    .describe('the composition that is meant, of mixed metals or by oxides: Mn0.3Zn0.7O; CoO 40 %, Al2O3 60 %')
    .optional(),
  family: words
    .describe(
      'colour family: violet, blue, green, yellow, orange, red, brown, black, ' +
        'grey, white, pink; default: from the measured colour',
    )
    .optional(),
});

export const precautionSchema = z.strictObject({
  against: words.describe('the foreseen hazard that this answers'),
  do: words.describe('what is done about it, in four words or more'),
});

/** Warnings that the maker has read and accepts. */
const accept = z
  .array(
    z.strictObject({
      warning: words.describe('id of the rule, as it stands in brackets behind the remark: photo-without-words'),
      about: words.describe('what it is about, where only that is accepted: madder root').optional(),
      because: words.describe('why it is accepted'),
    }),
  )
  .describe('warnings that are accepted, each with the reason; a danger is answered and never accepted');

export const statuses = ['planned', 'running', 'finished', 'failed', 'abandoned', 'withdrawn'] as const;

export const entrySchema = z.strictObject({
  number: entryNumber.describe('permanent number; the entry’s address is /number/ for ever'),
  title: words.describe('title of the write-up'),
  date: dayOrMonth.describe('day of the experiment, year-month-day; or its month, where the day is not known'),
  status: z
    .enum(statuses)
    .describe(
      'planned, running, finished, failed (done, and it did not give what was wanted), ' +
        'abandoned (decided against or stopped) or withdrawn',
    ),
  question: words.describe('what the experiment asks, in a sentence').optional(),
  answer: words.describe('what the experiment answered, in a sentence').optional(),
  pigment: pigmentSchema.describe('what was made').optional(),
  reaction: words.describe('the equation: CuSO4 + Na2CO3 -> CuCO3 + Na2SO4').optional(),
  reagents: z.array(useSchema).describe('what went in').default([]),
  heating: z.array(heatingSchema).describe('what was heated, to what temperature, for how long').default([]),
  liquor: liquor.optional(),
  washes: z
    .union([z.array(washSchema), words])
    .describe('how the product was washed, in order; or in words')
    .optional(),
  steps: z.array(stepSchema).describe('the procedure in order; each a sentence or { do, with, … }').optional(),
  samples: z.array(sampleSchema).describe('the parallel preparations').default([]),
  control: sampleId
    .describe('the sample that the others are compared with; default: every sample with every other')
    .optional(),
  reference: z
    .strictObject({
      name: words.describe('what it is called on the page'),
      colour: colourSchema.describe('its colour reading').optional(),
      reagent: words.describe('a pigment on the shelf that has a colour reading').optional(),
      tolerance: plainNumber.describe('how far from it a sample may be, CIEDE2000: 1.5').optional(),
    })
    .describe('a bought pigment’s reading to stand beside')
    .optional(),
  precautions: z.array(precautionSchema).describe('answers to foreseen hazards').default([]),
  'if-it-goes-wrong': words.describe('what to do at once').optional(),
  waste: words.describe('what became of the waste').optional(),
  incidents: z
    .array(
      z.strictObject({
        what: words.describe('what went wrong or nearly did'),
        learned: words.describe('what was learned').optional(),
        reagents: z.array(words).describe('ids of the reagents it concerns').optional(),
        sample: sampleId.describe('the sample it happened to').optional(),
      }),
    )
    .describe('what went wrong or nearly did')
    .default([]),
  videos: z
    .array(
      z.strictObject({
        url: webAddress.describe('address of the video'),
        title: words.describe('title of the video').optional(),
        published: date.describe('day it was published').optional(),
        moments: z
          .array(
            z.strictObject({
              at: moment.describe('minutes:seconds, in quotes'),
              shows: words.describe('what is seen there'),
            }),
          )
          .describe('moments worth jumping to, in order')
          .default([]),
      }),
    )
    .describe('videos of the experiment')
    .default([]),
  photos: z
    .array(z.union([photographFile, photographSchema]))
    .describe('photographs of the experiment: files, or { file, shows, caption, sample, light, moment }')
    .default([]),
  follows: z.array(entryNumber).describe('numbers of the entries this one builds on').default([]),
  repeats: z.array(entryNumber).describe('numbers of the entries this one repeats').default([]),
  ideas: z.array(words).describe('what could be tried next; gathered on one page').default([]),
  'takes-up': z
    .array(idea)
    .describe('ideas that this entry takes up, each by its entry and its place there: 14/2; finished, it closes them')
    .default([]),
  sources: z
    .array(
      z.strictObject({
        cite: words.describe('author, title, year, page'),
        url: webAddress.describe('where it can be read').optional(),
      }),
    )
    .describe('literature it rests on')
    .default([]),
  corrections: z
    .array(
      z.strictObject({
        date: dateOrWords.describe('day on which it was corrected'),
        what: words.describe('what was wrong, and what is right'),
      }),
    )
    .describe('what was learned or put right later; shown on the page and in the feeds')
    .default([]),
  accept: accept.default([]),
  failed: words.describe('in what the work failed').optional(),
  abandoned: words.describe('why the work was given up').optional(),
  withdrawn: words.describe('why the entry was withdrawn').optional(),
});

export const journalSchema = z.strictObject({
  title: words.describe('title of the journal'),
  subtitle: words.describe('a line below the title').optional(),
  description: words.describe('a sentence for feeds and search engines').optional(),
  address: webAddress.describe('https address at which the site is published, with its base path'),
  author: words.describe('who writes it'),
  orcid: orcid.describe('ORCID iD of who writes it: 0000-0002-1825-0097').optional(),
  language: languageTag.describe('language of the journal: en-GB').default('en-GB'),
  licence: words.describe('under what terms others may use it').optional(),
  'licence-url': webAddress.describe('where those terms can be read').optional(),
  balance: z
    .union([
      quantity('mass', '0.01 g'),
      z.strictObject({
        step: quantity('mass', '0.01 g').describe('smallest step: `0.01 g`'),
        repeatability: quantity('mass', '0.01 g')
          .describe('standard deviation of repeated weighings: `0.01 g`')
          .optional(),
        tare: z
          .enum(['weighed', 'zeroed'])
          .describe('weighed: the vessel is weighed too, and its reading taken off; zeroed: the balance is set to 0')
          .optional(),
      }),
    ])
    .describe('resolution of the balance: `0.01 g`; or { step, repeatability, tare }')
    .optional(),
  workspace: z
    .strictObject({
      volume: roomVolume.describe('volume of the room: `25 m3`; or its three sides: `3 x 4 x 2.5 m`').optional(),
      extraction: truth.describe('whether the room has extraction: true or false').optional(),
    })
    .describe('the room in which the work is done')
    .optional(),
  'support-link': z
    .strictObject({ name: words.describe('words of the link'), url: webAddress.describe('where it leads') })
    .describe('where readers can support the work')
    .optional(),
  cautions: z.array(words).describe('cautions to add to every page on which work is described').default([]),
  currency: words.describe('currency of prices without one: EUR').optional(),
  accept: accept.default([]),
  'small-amount': quantity('mass', '1 g')
    .describe('a first run with a danger that uses more than this gets a remark')
    .optional(),
});

/** Front matter of a page, or of the words of a series or a colour family. */
export const pageSchema = z.strictObject({
  title: words.describe('title of the page').optional(),
  order: plainNumber.describe('where it stands among the pages').optional(),
  'moved-from': z
    .array(words)
    .describe('names that the page had before; their addresses lead to it: [workshop]')
    .optional(),
});

export type Sds = z.infer<typeof sdsSchema>;
export type ShelfReagent = z.infer<typeof shelfReagentSchema>;
export type DescribedReagent = z.infer<typeof describedReagentSchema>;
export type Use = z.infer<typeof useSchema>;
export type Role = (typeof roles)[number];
export type Heating = z.infer<typeof heatingSchema>;
export type Assay = z.infer<typeof assaySchema>;
export type Wash = z.infer<typeof washSchema>;
export type ColourReading = z.infer<typeof colourSchema>;
export type Sample = z.infer<typeof sampleSchema>;
export type Pigment = z.infer<typeof pigmentSchema>;
export type Matter = z.infer<typeof entrySchema>;
export type Status = (typeof statuses)[number];
export type JournalSettings = z.infer<typeof journalSchema>;
