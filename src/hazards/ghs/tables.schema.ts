// What the tables of classification and labels hold, column by column.
import {
  decimal,
  filledList,
  formula,
  hazardCode,
  list,
  mustBeFilled,
  number,
  oneOf,
  optional,
  pictogram,
  precautionCode,
  signalWordOrNone,
  source,
  symbol,
  table,
  text,
  textOrNone,
  urlOrNone,
  wholeNumber,
  yesOrNo,
} from '../../tables/cells.js';

const sourceOrMemory = oneOf('source', 'memory');

export const acuteToxicity = table({
  route: oneOf('oral', 'dermal', 'gas', 'vapour', 'dust'),
  category: oneOf('1', '2', '3', '4', '5'),
  up_to: decimal,
  point: decimal,
  unit: oneOf('mg/kg', 'ppmV', 'mg/L'),
  source,
});

export const concentrationLimits = table({
  adds: oneOf('sum', 'each'),
  ingredient: text,
  mixture: text,
  percent: decimal,
  source,
});

/** Of two statements the one that says what the other says too. */
export const coveredPrecautions = table({ keeps: precautionCode, covers: precautionCode, source });

/** `index_prefix`: how the index numbers of the element's entries begin. */
export const elementPrecautions = table({
  symbol,
  compounds: text,
  index_prefix: text,
  words: filledList(' ', text),
  source,
});

/** `holds`: what a compound must hold beside the elements; group-entries.ts judges it. */
export const groupEntries = table({
  index_no: text,
  elements: filledList('+', symbol),
  not_element_sets: list('|', text),
  not_formulae: list('|', formula),
  holds: oneOf('', 'chromium(VI)', 'arsenate', 'not-arsenate', 'inorganic', 'simple-cyanide', 'oxalate', 'thiocyanate'),
  group: text,
  words: filledList(' ', text),
  not_words: list(' ', text),
  source,
});

export const hStatements = table({
  code: hazardCode,
  text,
  classes: text,
  pictogram: text,
  signal_word: text,
  scheme: text,
  basis: sourceOrMemory,
  label_basis: sourceOrMemory,
  source_title: source,
  source_url: urlOrNone,
});

export const hazardClassNames = table({ written: text, class: text, source });

export const hazardClasses = table({
  class: text,
  category: textOrNone,
  route: optional(oneOf('oral', 'dermal', 'inhalation')),
  code: optional(hazardCode),
  pictogram: list(';', pictogram),
  signal_word: signalWordOrNone,
  source,
});

/** The usual oxidation state of an element in an oxygen compound. */
export const oxidationStates = table({ element: textOrNone, symbol, state: wholeNumber, source });

export const pStatements = table({
  code: precautionCode,
  text,
  scheme: text,
  basis: sourceOrMemory,
  source_title: source,
  source_url: urlOrNone,
});

/** Without a formula it holds for the whole class, without a percentage for every strength. */
export const physicalInSolution = table({
  class: text,
  formula: optional(formula),
  up_to_percent: optional(decimal),
  why: text,
  source,
});

/** `weight`: 1 is the most general; a label takes the lowest first. */
export const precautions = table({ h_code: hazardCode, p_code: precautionCode, weight: wholeNumber, source });

/** The least sizes by what a pack holds; the last row is for all above. `x_height`: of the letters, from a date on. */
export const labelSizes = table({
  up_to_ml: optional(number),
  label_width_mm: number,
  label_height_mm: number,
  pictogram_mm: number,
  pictogram_if_possible_mm: number,
  x_height_mm: number,
  x_height_from: text,
  source_title: source,
  source_url: urlOrNone,
  basis: oneOf('seen', 'memory'),
  note: textOrNone,
});

/** Classes of the transport of dangerous goods that a hazard statement points to. */
export const transportClasses = table({
  un_class: text,
  words: text,
  codes: filledList(';', hazardCode),
  source,
  basis: oneOf('seen', 'memory'),
});

/**
 * What a label may leave off, and what it may not, with the place in CLP. `codes`: the statements it is about; none
 * where it is about every label. `public`: it holds for what reaches the general public too.
 */
export const smallPackages = table({
  rule: text,
  topic: oneOf(
    'leave out',
    'no relief',
    'condition',
    'layout',
    'research vial',
    'tactile warning',
    'child-resistant closure',
  ),
  place: text,
  up_to_ml: optional(number),
  classes: textOrNone,
  codes: list(';', hazardCode),
  leaves_out: list(';', oneOf('H', 'P', 'pictogram', 'signal word')),
  public: yesOrNo,
  text,
  note: textOrNone,
  source_title: source,
  source_url: urlOrNone,
  basis: oneOf('seen', 'derived', 'memory'),
});

/** What is printed in place of a published blank; nothing where the blank falls away. */
export const statementBlanks = table({ published: text, printed: textOrNone, source });

const ateOrNone = list(
  ';',
  text
    .regex(
      /^(?:oral|dermal|dust|vapour|gas) \d+(?:\.\d+)? (?:mg\/kg|mg\/L|ppmV)$/,
      "must be an estimate, 'oral 500 mg/kg'",
    )
    .transform((part) => {
      const [form = '', value = ''] = part.split(' ');
      return { form: form as 'oral' | 'dermal' | 'dust' | 'vapour' | 'gas', value };
    }),
);

/**
 * Names, formulae and CAS numbers stand under the same name in reagents/known-substances.csv. `classification` and
 * `specific_conc_limits` are as the source writes them; substances.ts reads them. `form`: the row counts only where the
 * reagent's name has this word.
 * `clp_notes`: the notes of CLP Annex VI 1.1.3 by number or letter; 1: limits count the metal, B: sold in solutions of
 * several strengths. `elsewhere`: what other authorities or suppliers say; `caveat`: what must be said with the row.
 */
export const substances = table({
  name: text,
  ec_index_no: textOrNone,
  form: textOrNone,
  covers: textOrNone,
  excludes: textOrNone,
  classification: text,
  h_codes: list(';', hazardCode),
  label_h_codes: list(';', hazardCode),
  pictograms: list(';', pictogram),
  signal_word: signalWordOrNone,
  m_acute: optional(wholeNumber),
  m_chronic: optional(wholeNumber),
  specific_conc_limits: list(';', text),
  ate: ateOrNone,
  clp_notes: list(';', text.regex(/^(?:\d+|[A-Z])$/, 'must be the number or letter of a note')),
  elsewhere: textOrNone,
  caveat: textOrNone,
  note: textOrNone,
  basis: oneOf('harmonised', 'national', 'supplier', 'listed', 'memory'),
  source_title: textOrNone,
  source_url: urlOrNone,
  ec_no: textOrNone,
}).check((row) => {
  if (row.value.basis !== 'memory') mustBeFilled(row, ['source_title'], "unless basis is 'memory'");
});
