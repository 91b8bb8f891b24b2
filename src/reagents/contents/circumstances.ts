// What a phrase says of the vessel, the place and what is around.

/** Told by a word alone: kinds of words in the table. */
export const toldByWords = [
  'closed',
  'flame',
  'damp',
  'heap',
  'unwashed',
  'old',
  'confined',
  'damaged',
  'enclosed',
  'indoors',
  'ignition',
  'burner',
  'smoulders',
  'airborne',
  'charging',
  'fresh',
  'oily',
  'pressurised',
  'casting',
  'mouldy',
  'finely',
  'rubbed',
  'liquid',
  'skin',
  'microwaved',
  'spilt',
  'vacuumed',
  'catalysed',
  'current',
  'plunged',
  'spread',
  'evaporating',
  'wet',
  'swept',
  'soaked',
  'eyes',
  'machined',
  'swallowed',
  'laid',
  'cured',
] as const;

/** `molten` is told by a word together with what it is said of. */
export const circumstances = [...toldByWords, 'molten'] as const;

export type Circumstance = (typeof circumstances)[number];
