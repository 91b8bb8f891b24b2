// The journal's format: what may stand in journal.yaml, shelf.yaml and the front matter of an entry.
// One description serves the check, the types and the JSON Schema. Keys are kept as the maker writes them.
import { z } from 'zod';

/** A quantity as text with its unit, kept to the letter: `5.00 g`, `4.0 mL`, `0.050 mol ± 0.001 mol`, `excess`. */
const quantity = z.string();
const dateText = z.string();
const words = z.string();

/** The supplier's hazard data for a reagent, from its safety data sheet. */
export const sdsSchema = z.strictObject({
  statements: z.array(z.string()).describe('H-statement codes as printed on the sheet, e.g. H302').default([]),
  precautionary: z.array(z.string()).describe('P-statement codes').optional(),
  pictograms: z.array(z.string()).describe('GHS01 to GHS09').optional(),
  'signal-word': z.enum(['Danger', 'Warning', 'none']).optional(),
  supplier: words.optional(),
  date: dateText.describe('revision date of the sheet').optional(),
  url: z.string().optional(),
}).describe('Hazard data from the supplier’s own safety data sheet');

const reagentFields = {
  name: words,
  formula: z.string().optional(),
  cas: z.string().optional(),
  strength: quantity.describe('`60 %` (by mass), `10 % w/v`, `2.0 mol/L`').optional(),
  purity: quantity.describe('`98 %`, `≥ 95 %`, `95-99 %`').optional(),
  density: quantity.describe('`1.18 g/mL`').optional(),
};

/** A reagent on the shelf, by id. */
export const shelfReagentSchema = z.strictObject({
  ...reagentFields,
  'also-called': z.array(words).optional(),
  price: quantity.describe('money for an amount: `4.20 EUR / 500 g`').optional(),
  supplier: words.optional(),
  grade: words.optional(),
  'drop-volume': quantity.describe('volume of one drop, `0.05 mL`').optional(),
  sds: sdsSchema.optional(),
  lot: z.string().describe('made at home: the sample it came from, `9/A`').optional(),
  note: words.optional(),
});
export const shelfSchema = z.record(z.string(), shelfReagentSchema);

export const roles = ['reactant', 'acid', 'base', 'solvent', 'additive', 'flux', 'wash'] as const;

/** A reagent described where it is used. */
export const describedReagentSchema = z.strictObject(reagentFields);

/** One use of a reagent or of a lot in an entry. Exactly one of `reagent` and `lot` is given. */
export const useSchema = z.strictObject({
  reagent: z.union([z.string(), describedReagentSchema]).optional(),
  lot: z.string().describe('a sample of an earlier entry: `9/A`').optional(),
  amount: quantity.optional(),
  role: z.enum(roles).optional(),
  intent: z.enum(['limiting', 'excess']).optional(),
  strength: quantity.optional(),
  purity: quantity.optional(),
  density: quantity.optional(),
  'drop-volume': quantity.optional(),
  separately: z.boolean().describe('never meets the other reagents, except those in the same vessel').optional(),
  vessel: z.string().describe('only what stands in the same vessel meets').optional(),
  note: words.optional(),
});

export const heatingSchema = z.strictObject({
  of: words.describe('`product`, `mixture`, or a reagent’s id').default('product'),
  to: quantity.describe('`60 °C`'),
  for: quantity.describe('`3 h`').optional(),
  in: words.describe('open crucible, covered crucible, water bath …').optional(),
  note: words.optional(),
});

const labTriple = z.tuple([z.number(), z.number(), z.number()]);

/** A colour reading: a spectrum file, Lab, XYZ or sRGB; or several readings of the same sample. */
export const colourSchema = z.strictObject({
  spectrum: z.string().describe('a file below the journal: spectra/14-A.csv').optional(),
  lab: labTriple.optional(),
  xyz: labTriple.optional(),
  srgb: z.string().describe('#rrggbb from a photograph or scan: a rough estimate').optional(),
  illuminant: z.enum(['D50', 'D65', 'A', 'F2', 'F11', 'LED-B3']).optional(),
  observer: z.union([z.literal(2), z.literal(10)]).optional(),
  readings: z.array(z.strictObject({ spectrum: z.string().optional(), lab: labTriple.optional(), xyz: labTriple.optional() })).optional(),
  instrument: words.optional(),
  invented: z.boolean().describe('the reading is made up for a demonstration').optional(),
});

const opacitySchema = z.strictObject({
  'over-black': z.union([z.number(), z.string()]).describe('Y of the film over black, or a spectrum file'),
  'over-white': z.union([z.number(), z.string()]).describe('Y of the same film over white, or a spectrum file'),
});

/** Standard tests of a pigment; each has its own unit and range. */
export const testsSchema = z.strictObject({
  'lightfastness-blue-wool': z.number().optional(),
  'lightfastness-astm': z.enum(['I', 'II', 'III', 'IV', 'V']).optional(),
  'oil-absorption': quantity.optional(),
  ph: z.number().optional(),
  density: quantity.optional(),
  'soluble-matter': quantity.optional(),
  'sieve-residue': quantity.optional(),
  'tint-strength': quantity.optional(),
  'acid-spot': z.enum(['unchanged', 'slight', 'changed', 'dissolved']).optional(),
  'alkali-spot': z.enum(['unchanged', 'slight', 'changed', 'dissolved']).optional(),
});

export const sampleSchema = z.strictObject({
  sample: z.string().describe('the sample’s id: A, B, …'),
  differs: words.optional(),
  obtained: quantity.optional(),
  add: z.array(useSchema).optional(),
  omit: z.array(z.string()).describe('reagent ids or lots this sample goes without').optional(),
  change: z.array(useSchema).describe('the same reagent in another amount, strength or role').optional(),
  heating: z.array(heatingSchema).optional(),
  colour: colourSchema.optional(),
  opacity: opacitySchema.optional(),
  tests: testsSchema.optional(),
  photo: z.string().optional(),
  'photo-shows': words.describe('what the photo shows, for those who cannot see it').optional(),
  'replicate-of': z.string().describe('the sample this one repeats').optional(),
  note: words.optional(),
});

export const pigmentSchema = z.strictObject({
  name: words,
  formula: z.string().optional(),
  'colour-index': z.string().optional(),
  elements: z.array(z.string()).optional(),
  family: z.string().optional(),
});

export const precautionSchema = z.strictObject({
  against: words.describe('the foreseen hazard that this answers'),
  do: words,
});

export const statuses = ['planned', 'running', 'finished', 'withdrawn'] as const;

export const entrySchema = z.strictObject({
  number: z.int().positive(),
  title: words,
  date: dateText,
  status: z.enum(statuses),
  question: words.optional(),
  answer: words.describe('what the experiment answered, in a sentence').optional(),
  pigment: pigmentSchema.optional(),
  reaction: z.string().optional(),
  reagents: z.array(useSchema).default([]),
  heating: z.array(heatingSchema).default([]),
  samples: z.array(sampleSchema).default([]),
  reference: z.strictObject({ name: words, colour: colourSchema }).describe('a bought pigment’s reading to stand beside').optional(),
  precautions: z.array(precautionSchema).default([]),
  'if-it-goes-wrong': words.optional(),
  waste: words.optional(),
  incidents: z.array(z.strictObject({ what: words, learned: words.optional(), reagents: z.array(z.string()).optional(), sample: z.string().optional() })).default([]),
  videos: z.array(z.strictObject({
    url: z.string(),
    title: words.optional(),
    published: dateText.optional(),
    moments: z.array(z.strictObject({ at: z.string(), shows: words })).default([]),
  })).default([]),
  follows: z.array(z.int()).default([]),
  repeats: z.array(z.int()).default([]),
  ideas: z.array(words).default([]),
  sources: z.array(z.strictObject({ cite: words, url: z.string().optional() })).default([]),
  withdrawn: words.describe('why the entry was withdrawn').optional(),
});

export const journalSchema = z.strictObject({
  title: words,
  subtitle: words.optional(),
  description: words.optional(),
  address: z.string().describe('https address at which the site is published, with its base path'),
  author: words,
  language: z.string().default('en-GB'),
  licence: words.optional(),
  'licence-url': z.string().optional(),
  balance: quantity.describe('resolution of the balance, `0.01 g`').optional(),
  workspace: z.strictObject({ volume: quantity.describe('`25 m3`').optional(), extraction: z.boolean().optional() }).optional(),
  'support-link': z.strictObject({ name: words, url: z.string() }).optional(),
  cautions: z.array(words).default([]),
  currency: z.string().optional(),
  'small-amount': quantity.describe('a first run with a danger that uses more than this gets a remark').optional(),
});

export type Sds = z.infer<typeof sdsSchema>;
export type ShelfReagent = z.infer<typeof shelfReagentSchema>;
export type DescribedReagent = z.infer<typeof describedReagentSchema>;
export type Use = z.infer<typeof useSchema>;
export type Role = (typeof roles)[number];
export type Heating = z.infer<typeof heatingSchema>;
export type ColourReading = z.infer<typeof colourSchema>;
export type Sample = z.infer<typeof sampleSchema>;
export type Pigment = z.infer<typeof pigmentSchema>;
export type Matter = z.infer<typeof entrySchema>;
export type Status = (typeof statuses)[number];
export type JournalSettings = z.infer<typeof journalSchema>;
