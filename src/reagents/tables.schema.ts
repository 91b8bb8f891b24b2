// What the tables of this room hold, column by column.
import {
  cas,
  decimal,
  filledList,
  formula,
  list,
  number,
  oneOf,
  optional,
  source,
  table,
  text,
  textOrNone,
  urlOrNone,
  wholeNumber,
  yesOrEmpty,
} from '../tables/cells.js';

/** One substance's solutions in water; `undiluted`: what it is at 20 °C, or what it is only met as. */
export const density = table({
  id: text,
  substance: text,
  formula,
  undiluted: oneOf('gas', 'liquid', 'solid'),
  mass_percent: decimal,
  density_g_per_mL: decimal,
  temperature_C: number,
  note: textOrNone,
  source_title: source,
  source_url: urlOrNone,
  basis: oneOf('seen', 'derived', 'memory'),
});

/** Names, formulae and CAS numbers of a substance, its hydrates included; `group`: for all compounds of an element. */
export const knownSubstances = table({
  name: text,
  synonyms: list(';', text),
  formula: list(';', text),
  cas: list(';', cas),
  group: yesOrEmpty,
  source,
});

/**
 * Words of other languages for names of this one. `metal`, `anion`, `adjective` and `shape` are put together:
 * `Kupfersulfat`, `solfato di rame`, `sulfato cuprico`, `Kupferspäne`.
 */
export const otherLanguages = table({
  part: oneOf('metal', 'anion', 'adjective', 'base', 'acid', 'dry', 'shape', 'name', 'word'),
  words: filledList('|', text),
  means: text,
  source,
});

/** How a solution's density rises with a percent more, where `density.csv` does not list the solute. */
export const densityUnlisted = table({
  kind: oneOf('salt', 'molecule'),
  least_rise: decimal,
  usual_rise: decimal,
  greatest_rise: decimal,
  note: textOrNone,
  source,
  basis: oneOf('derived'),
});

/** Millilitres of a drop of unstated size. */
export const drops = table({
  name: text,
  low: decimal,
  usual: decimal,
  high: decimal,
  unit: oneOf('mL'),
  note: textOrNone,
  source_title: source,
  source_url: urlOrNone,
  basis: oneOf('seen', 'derived', 'memory'),
});

/** What a powder weighs as it is poured, or a liquid of which no table of solutions is here; g/mL. */
export const bulkDensities = table({
  substance: text,
  formulae: list('|', formula),
  names: list('|', text),
  low: decimal,
  usual: decimal,
  high: decimal,
  note: optional(text),
  source_title: source,
  source_url: urlOrNone,
  basis: oneOf('seen', 'derived', 'memory'),
});

/** What kitchen measures hold, and masses that are no SI units. */
export const kitchenMeasures = table({
  name: text,
  also: list('|', text),
  low: decimal,
  usual: decimal,
  high: decimal,
  unit: oneOf('mL', 'g'),
  note: optional(text),
  source_title: source,
  source_url: urlOrNone,
  basis: oneOf('seen', 'derived', 'memory'),
});

/**
 * Words for an amount that nobody measured, before what it is of or behind it; `ample`: there was
 * enough of it for whatever it was added for.
 */
export const unmeasuredWords = table({
  words: text,
  place: oneOf('before', 'behind'),
  ample: yesOrEmpty,
  source,
});

/** What makers call a heat, °C; `high_C` is where danger is judged. */
export const heatWords = table({
  word: text,
  also: list('|', text),
  low_C: decimal,
  usual_C: decimal,
  high_C: decimal,
  note: optional(text),
  source_title: source,
  source_url: urlOrNone,
  basis: oneOf('seen', 'derived', 'memory'),
});

/** An older name of an element in one oxidation state: `ferrous`. */
export const olderElementNames = table({
  word: text,
  element: text,
  state: oneOf('i', 'ii', 'iii', 'iv', 'v', 'vi', 'vii'),
  source,
});

/**
 * Percent by mass of what a name is sold as; a row without a formula is for a word of state that has none of its own.
 */
export const soldAs = table({
  id: text,
  name: text,
  also: list('|', text),
  formula: optional(formula),
  percent_low: decimal,
  percent_usual: decimal,
  percent_high: decimal,
  density_g_per_mL: optional(decimal),
  state_word: oneOf('concentrated', 'dilute', 'fuming', 'glacial', ''),
  note: optional(text),
  source_title: source,
  source_url: urlOrNone,
  basis: oneOf('seen', 'derived', 'memory'),
});

/** Words beside a name that say in which state a substance is. */
export const stateWords = table({
  word: text,
  kind: oneOf('strength', 'heat', 'kind', 'dissolved', 'shape', 'purity'),
  celsius: optional(wholeNumber),
  source,
});

/** `charge` of a multiplier: what it multiplies by. */
export const nameParts = table({
  part: oneOf('cation', 'anion', 'multiplier'),
  name: text,
  formula: textOrNone,
  charge: number,
  source,
});

/**
 * Words of `sulphuret of potash` and `permuriate of iron`: a base, an acid's salt, a degree before it (the lower or
 * higher state, or the acid salt), and between which two states a metal has those degrees.
 */
export const oldSaltWords = table({ part: oneOf('base', 'acid', 'degree', 'states'), word: text, means: text, source });

/** `varies`: sold under the name are also things of another kind, so that no amount can be reckoned from it. */
export const namedMaterials = table({
  name: text,
  also: list('|', text),
  formula,
  groups: list(' ', text),
  varies: yesOrEmpty,
  note: optional(text),
  source,
});

/**
 * Salts and the hydrate in which each is sold; `most_water` where one with more water is known; `looks`: colours that
 * only the hydrate has.
 */
export const hydrates = table({
  anhydrous: formula,
  usually_sold_as: formula,
  most_water: optional(decimal),
  looks: list('|', text),
  source,
});

/** Words by which a salt is said to be free of water; `anhydr*` stands for longer words too. */
export const dryWords = table({ words: text, source });

/** What was done with a reagent before: `deed`, also one of washing, and words around it (`finely`, `at`). */
export const treatmentWords = table({ word: text, kind: oneOf('deed', 'wash', 'how', 'join'), source });

/** Words beside the name of a salt that tell of its looks: a colour, `crystals`, or only how a colour is (`shade`). */
export const lookWords = table({ word: text, looks: text, source });

/** Names that leave open which of two salts is meant: what they are taken for, and the other. */
export const saltsOfTwoStates = table({ name: text, formula, other: formula, source });
