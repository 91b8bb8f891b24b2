// What a phrase says of the vessel, the place and what is around.

/** Told when it has happened already: a smell, a fume, somebody who feels ill. */
export const toldAfterwards = [
  'egg-smell',
  'almond-smell',
  'garlic-smell',
  'chlorine-smell',
  'hay-smell',
  'match-smell',
  'ammonia-smell',
  'gas-smell',
  'solvent-smell',
  'brown-fumes',
  'green-fumes',
  'white-fumes',
  'felt-ill',
] as const;

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
  'outdoors',
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
  ...toldAfterwards,
  'gone-in',
  'breathed',
  'drily',
  'water-last',
] as const;

/** `molten` is told by a word together with what it is said of. */
export const circumstances = [...toldByWords, 'molten'] as const;

export type Circumstance = (typeof circumstances)[number];
