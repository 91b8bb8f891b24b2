// What the tables of this room hold, column by column.
import {
  decimal,
  formula,
  mustBeFilled,
  oneOf,
  optional,
  source,
  symbol,
  table,
  text,
  textOrNone,
  urlOrNone,
  wholeNumber,
  yesOrNo,
} from '../tables/cells.js';

/**
 * Of an interval its bounds and conventional value are wanted, of a value its uncertainty; of every weight the abridged
 * one.
 */
export const atomicWeights = table({
  symbol,
  Z: wholeNumber,
  name: text,
  kind: oneOf('interval', 'value', 'none'),
  standard_2021: textOrNone,
  standard_uncertainty_2021: optional(decimal),
  interval_low: optional(decimal),
  interval_high: optional(decimal),
  abridged_2021: optional(decimal),
  abridged_uncertainty: optional(decimal),
  conventional: optional(decimal),
  u_standard_rectangular_derived: optional(decimal),
  revised_2024: optional(decimal),
  revised_2024_uncertainty: optional(decimal),
  mass_number_if_no_standard_weight: optional(wholeNumber),
  class: oneOf('metal', 'metalloid', 'nonmetal'),
  source,
}).check((row) => {
  const { kind } = row.value;
  const filled = {
    interval: ['interval_low', 'interval_high', 'conventional', 'abridged_2021', 'abridged_uncertainty'],
    value: ['standard_2021', 'standard_uncertainty_2021', 'abridged_2021', 'abridged_uncertainty'],
    none: [],
  } as const;
  mustBeFilled(row, filled[kind], `where kind is '${kind}'`);
});

export const hydrateWords = table({ word: text, water: decimal, source });

/** `builds_up`: in soil and in those who eat what grows there, and kills or causes cancer in small amounts. */
export const metals = table({ symbol, hazardous: yesOrNo, builds_up: yesOrNo, colour_giving: yesOrNo, source });

/** Grams of a substance without its water of crystallisation that 100 g of water take, at 20 and at 60 °C. */
export const solubility = table({
  substance: text,
  formula,
  at_20: decimal,
  at_60: optional(decimal),
  source_title: source,
  source_url: urlOrNone,
  basis: oneOf('seen', 'derived', 'memory'),
});
