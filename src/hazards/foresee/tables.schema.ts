// What the tables of foreseen hazards hold, column by column.
import {
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
  yesOrNo,
} from '../../tables/cells.js';

const severity = oneOf('danger', 'warning', 'note');
/** Whether the document was seen, or is only remembered. */
const seen = oneOf('seen', 'memory');

/** `formula` is that of the acid, or `ion` and the id of an ion. */
export const acids = table({
  acid: text,
  formula: text,
  protons: wholeNumber,
  pka: number,
  kind: oneOf('strong', 'weak', 'too weak', 'acidic salt'),
  source,
});

/**
 * `lower_flammable_percent`: share of air by volume from which it burns, where that is what it is feared for.
 * `limits`: the name by which exposure-limits.csv has the gas.
 */
export const gases = table({
  formula,
  gas: text,
  also: filledList('|', text),
  limits: textOrNone,
  severity,
  lower_flammable_percent: optional(number),
  dissolves: yesOrNo,
  odour: textOrNone,
  smell_warns: text,
  late: text,
  harm_later: yesOrNo,
  note: textOrNone,
  source_title: source,
  source_url: urlOrNone,
  basis: seen,
});

/** Groups whose members, not washed, still hold the formulae that they were made with. */
export const residues = table({ of: filledList('|', text), leaves: filledList(' ', formula), name: text, source });

/**
 * kJ set free for one unit of a side of a rule, of one substance where `formula` names it. Below `felt_from_grams` of
 * it nobody is scalded, because it gives off its warmth slowly.
 */
export const mixingHeats = table({
  rule: text,
  side: oneOf('a', 'b', 'c'),
  formula: optional(formula),
  kJ_per_unit: number,
  felt_from_grams: optional(number),
  note: textOrNone,
  source_title: source,
  basis: oneOf('seen', 'derived', 'memory'),
});

/** What a closed vessel adds to what is foreseen of its contents. */
export const closedVessel = table({
  id: oneOf('gas-in-closed-vessel', 'heat-in-closed-vessel'),
  title: text,
  severity,
  consequence: text,
  condition: text,
  precaution: text,
  answers: list(';', text),
  source,
});

/** Rules whose danger another one tells, where that is of the same things and as grave. */
export const toldOnce = table({ rule: text, by: text, source });

/**
 * What each consequence that a rule tells is before all else: the kinds by which a reagent's page sorts its dangers,
 * and what is to be done when it has happened (a row of aftermaths.csv). Words in brackets stand only where they change
 * that.
 */
export const consequenceKinds = table({
  consequence: text,
  kind: oneOf('explosion', 'poison', 'fire', 'heat'),
  afterwards: text,
  source,
});

/** What to do when it has happened, the gravest first; the acts of several are told together, each of them once. */
export const aftermaths = table({ afterwards: text, acts: filledList(';', text), source });

/** Words that say nothing of what is done, alone or joined to one another, in small letters. */
export const emptyAnswers = table({ words: text, language: oneOf('en', 'de', 'fr'), source });

/**
 * What rules make that stays in the pot or over it, and can meet a further thing. `by`: rules, each with mol for one
 * unit of its first partner where that is not what the rule says of the gas itself. `of`: only where that substance
 * takes part. `only_with`: the only rules that it may bring about, each perhaps with how grave that is at most; empty
 * where any. `stays`: it is a solid that is still in what was fired when that is used.
 */
export const madeOnTheWay = table({
  makes: formula,
  name: text,
  groups: list(' ', text),
  of: optional(formula),
  by: filledList(
    ' ',
    text
      .regex(/^[a-z-]+(?::\d+(?:\.\d+)?)?$/, "must be a rule, perhaps with mol, 'chalk-heated:1'")
      .transform((part) => {
        const [rule = '', perUnit] = part.split(':');
        return { rule, ...(perUnit !== undefined && { perUnit }) };
      }),
  ),
  only_with: list(
    ' ',
    text.regex(/^[a-z-]+(?::(?:warning|note))?$/, 'must be a rule, perhaps with a severity').transform((part) => {
      const [rule = '', atMost] = part.split(':');
      return { rule, ...(atMost !== undefined && { atMost: atMost as 'warning' | 'note' }) };
    }),
  ),
  source,
  stays: yesOrEmpty,
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

/**
 * `b_per_a`, `c_per_a`: units of that partner for one unit of the first. `when` is in the language of conditions.ts.
 */
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
