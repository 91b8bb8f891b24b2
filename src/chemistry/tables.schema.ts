// What the tables of this room hold, column by column.
import {
  decimal,
  filledList,
  formula,
  list,
  mustBeFilled,
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
} from '../tables/cells.js';

/** Of an interval its bounds and conventional value are wanted, of a value its uncertainty; of every weight the abridged one. */
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

export const equivalents = table({ formula, same_as: formula, source });

export const hydrateWords = table({ word: text, water: decimal, source });

export const ions = table({ formula, charge: wholeNumber, id: text, name: text, source });

export const metals = table({ symbol, hazardous: yesOrNo, colour_giving: yesOrNo, source });

/** `ions`: each ion and its count, `NH4^+ 1 OH^- 1`; empty for a molecule that gives none. */
export const molecules = table({ spellings: filledList(' ', formula), name: text, ions: textOrNone, source });

export const oxidationStates = table({ symbol, states: filledList(' ', wholeNumber), source });

export const oxides = table({ symbol, oxide: formula, source });

export const oxyanionFamilies = table({ symbol, state: number, id: text, source });

export const units = table({
  unit: text,
  also: list('|', text),
  dimension: oneOf(
    'mass',
    'volume',
    'amount',
    'concentration',
    'mass-percent',
    'mass-volume-percent',
    'volume-percent',
    'oxygen-volumes',
    'degrees-baume',
    'degrees-twaddell',
    'density',
    'temperature',
    'time',
    'length',
    'drops',
    'ratio',
  ),
  factor: decimal,
  base: text,
  /** Where the unit's zero lies, in the base unit. */
  zero_at: optional(decimal),
  source,
});
