// What the tables of this room hold, column by column.
import {
  cas,
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
  yesOrEmpty,
  yesOrNo,
} from '../tables/cells.js';

const severity = oneOf('danger', 'warning', 'note');
const route = oneOf('oral', 'dermal', 'inhalation', '');
/** Whether the document was seen, or is only remembered. */
const seen = oneOf('seen', 'memory');
const sourceOrMemory = oneOf('source', 'memory');
const romanState = oneOf('i', 'ii', 'iii', 'iv', 'v', 'vi', 'vii');

/** `formula` is that of the acid, or `ion` and the id of an ion. */
export const acids = table({
  acid: text,
  formula: text,
  protons: wholeNumber,
  pka: number,
  kind: oneOf('strong', 'weak', 'too weak', 'acidic salt'),
  source,
});

export const exposureLimits = table({
  substance: text,
  cas: optional(cas),
  limit_type: text,
  value: decimal,
  unit: oneOf('ppm', 'mg/m3'),
  note: textOrNone,
  source_title: source,
  source_url: urlOrNone,
  basis: sourceOrMemory,
});

/** `limits`: the name by which exposure-limits.csv has the gas. */
export const gases = table({
  formula,
  gas: text,
  also: filledList('|', text),
  limits: textOrNone,
  severity,
  dissolves: yesOrNo,
  odour: textOrNone,
  smell_warns: text,
  late: text,
  note: textOrNone,
  source_title: source,
  source_url: urlOrNone,
  basis: seen,
});

/** `test` is in the language that groups.ts reads. */
export const groups = table({
  group: text,
  words: text,
  test: text,
  members: list(' ', formula),
  not_members: list(' ', formula),
  note: textOrNone,
  source_title: source,
  source_url: urlOrNone,
  basis: seen,
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

export const hazardBoxSmallPacks = table({
  up_to_ml: number,
  code: hazardCode,
  public: yesOrNo,
  pictogram_too: yesOrEmpty,
  source,
});

export const mixtureAcute = table({
  route: oneOf('oral', 'dermal', 'gas', 'vapour', 'dust'),
  category: oneOf('1', '2', '3', '4', '5'),
  up_to: decimal,
  point: decimal,
  unit: oneOf('mg/kg', 'ppmV', 'mg/L'),
  source,
});

/** `hill`: the solute's composition in Hill order; empty for every other. */
export const mixtureDensities = table({ hill: textOrNone, density_g_ml: decimal, of: text, source });

export const mixtureLimits = table({
  adds: oneOf('sum', 'each'),
  ingredient: text,
  mixture: text,
  percent: decimal,
  source,
});

/** Without a formula it holds for the whole class, without a percentage for every strength. */
export const mixturePhysical = table({
  class: text,
  formula: optional(formula),
  up_to_percent: optional(decimal),
  why: text,
  source,
});

export const pStatements = table({
  code: precautionCode,
  text,
  scheme: text,
  basis: sourceOrMemory,
  source_title: source,
  source_url: urlOrNone,
});

/** What the rules of mixing and those of heating both say. */
const rule = {
  rule: text,
  title: text,
  severity,
  consequence: text,
  gas: textOrNone,
  gases: list(
    ';',
    text.regex(/^\S+:\d+(?:\.\d+)?$/, "must be a gas and mol of it, 'NO2:1'").transform((part) => {
      const [formula = '', perUnit = ''] = part.split(':');
      return { formula, perUnit };
    }),
  ),
  equation: textOrNone,
  precaution: text,
  answers: list(';', text),
  fires: filledList(';', text),
  quiet: filledList(';', text),
  source_title: source,
  source_url: urlOrNone,
};

/** `b_per_a`, `c_per_a`: units of that partner for one unit of the first. `when` is in the language of conditions.ts. */
export const pairs = table({
  ...rule,
  pair: optional(text),
  a: filledList('|', text),
  b: filledList('|', text),
  c: list('|', text),
  when: textOrNone,
  otherwise: optional(severity),
  b_per_a: optional(decimal),
  c_per_a: optional(decimal),
  figure: yesOrNo,
  alone: yesOrEmpty,
  condition: text,
  basis: seen,
});

/** `warns_from`: °C. */
export const thermal = table({
  ...rule,
  family: text,
  of: filledList('|', text),
  formulae: list(' ', formula),
  warns_from: number,
  in_water: yesOrNo,
  condition: textOrNone,
  basis: oneOf('seen', 'memory', 'practice'),
  only_above_percent: optional(number),
});

/** `rise_to_pure`: by how much the density of the pure substance is above that of water, g/mL; without a formula for every other. */
export const solutionDensities = table({ formula: optional(formula), rise_to_pure: number, of: text, source });

export const statementsClassNames = table({ written: text, class: text, source });

export const statementsClasses = table({
  class: text,
  category: textOrNone,
  route,
  code: optional(hazardCode),
  pictogram: list(';', pictogram),
  signal_word: signalWordOrNone,
  source,
});

/** What is printed in place of a published blank; nothing where the blank falls away. */
export const statementsFillings = table({ published: text, printed: textOrNone, source });

export const statementsPrecautions = table({
  h_code: hazardCode,
  p_code: precautionCode,
  weight: wholeNumber,
  source,
});

export const statementsPrecautionsCover = table({ keeps: precautionCode, covers: precautionCode, source });

/** `classification` and `specific_conc_limits` are as the source writes them; substances.ts reads them. */
export const substances = table({
  name: text,
  synonyms: list(';', text),
  formula: textOrNone,
  cas: textOrNone,
  ec_index_no: textOrNone,
  classification: text,
  h_codes: list(';', hazardCode),
  pictograms: list(';', pictogram),
  signal_word: signalWordOrNone,
  specific_conc_limits: list(';', text),
  note: textOrNone,
  basis: oneOf('harmonised', 'national', 'memory'),
  source_title: textOrNone,
  source_url: urlOrNone,
  ec_no: textOrNone,
  label_h_codes: list(';', hazardCode),
}).check((row) => {
  if (row.value.basis !== 'memory') mustBeFilled(row, ['source_title'], "unless basis is 'memory'");
});

export const substancesCharges = table({ element: textOrNone, symbol, state: wholeNumber, source });

export const substancesGroups = table({
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

export const substancesOlderNames = table({ word: text, element: text, state: romanState, source });
