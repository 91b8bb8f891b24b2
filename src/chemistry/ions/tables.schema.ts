// What the tables of ions hold, column by column.
import {
  decimal,
  filledList,
  formula,
  list,
  number,
  oneOf,
  optional,
  source,
  symbol,
  table,
  text,
  textOrNone,
  wholeNumber,
  yesOrNo,
} from '../../tables/cells.js';

export const equivalents = table({ formula, same_as: formula, source });

export const ions = table({ formula, charge: wholeNumber, id: text, name: text, source });

/** `ions`: each ion and its count, `NH4^+ 1 OH^- 1`; empty for a molecule that gives none. */
export const molecules = table({ spellings: filledList(' ', formula), name: text, ions: textOrNone, source });

export const oxidationStates = table({ symbol, states: filledList(' ', wholeNumber), source });

export const oxyanionFamilies = table({ symbol, state: number, id: text, source });

/**
 * What dissolves in cold water; the first row that names an ion of a salt decides. `except`: ions of the other sign.
 */
export const solubilityRules = table({
  ion: text,
  kind: oneOf('cation', 'anion'),
  dissolves: yesOrNo,
  except: list('|', text),
  source,
});

/**
 * Acids and bases: how many protons one of it gives or takes, and how many up to a named indicator. `species` is an ion
 * by its name, or a substance by its formula.
 */
export const acidBase = table({
  species: text,
  kind: oneOf('acid', 'base'),
  equivalents: wholeNumber,
  indicator: textOrNone,
  at_indicator: optional(wholeNumber),
  strong: yesOrNo,
  source,
});

/** Hydroxides of which water takes little: the pH of their saturated solutions, near 25 °C. */
export const slightAlkalis = table({ hydroxide: text, saturated_ph: decimal, source });
