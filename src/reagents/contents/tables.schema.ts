// What the tables of contents hold, column by column.
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
  urlOrNone,
} from '../../tables/cells.js';
import { toldByWords } from './circumstances.js';

/**
 * One content of one kind that is sold under a name; rows of one product and variant are sold together, variants are
 * sold instead of one another. `groups`: those that the formula does not show. Percent by mass.
 */
export const products = table({
  product: text,
  also: list('|', text),
  variant: text,
  formula,
  groups: list(' ', text),
  percent_low: optional(decimal),
  percent_high: optional(decimal),
  percent_basis: oneOf('seen', 'derived', 'memory', 'none'),
  how_common: text,
  source_title: source,
  source_url: urlOrNone,
  basis: oneOf('seen', 'derived', 'memory'),
});

/** A word that is often misspelt, and what is meant; not before a word with which it is right: `phosphorous acid`. */
export const misspeltWords = table({ word: text, meant: text, unless_before: optional(text), source });

/**
 * Words of names that react with much, of seven letters and more: what has one slip in a sentence and is no other word
 * is taken for one of them.
 */
export const respeltWords = table({ word: text, source });

/** What a formula that stands for a natural or mixed stuff is to be called. */
export const roughNames = table({ formula, name: text, source });

/** What the commonest contents of products are called at a bench, where only their formula is at hand. */
export const plainNames = table({ formula, name: text, source });

/** A word for a whole class, alone: each of these is judged. */
export const classWords = table({
  word: text,
  also: list('|', text),
  formulas: filledList(' ', formula),
  source,
});

/** Words of a phrase that name no stuff: what they do to it, or that they do nothing. */
export const phraseWords = table({
  word: text,
  kinds: filledList(
    ' ',
    oneOf(...toldByWords, 'open', 'spent', 'shape', 'heat', 'cool', 'join', 'without', 'purpose', 'product', 'ignore'),
  ),
  celsius: optional(number),
  source,
});

/**
 * Words by what they tell together: `verbs` in all their forms, `words` as they stand. `<year>` is a year of a label.
 */
export const stemWords = table({ stem: text, verbs: list('|', text), words: list('|', text), source });

/**
 * What a word of a sentence says of a name beside it. `not-there`: before a name, it is not there or only likened to
 * (`*` is any one word); `between`: may stand between such a word and the name; `of-it`: behind a name, it is a vessel,
 * a colour, a smell of it; `supposed`: behind a name, it was not, or only would be; `ordinary`: a name that tools are
 * made of or that means something else besides; `no-name`: a name in a list of reagents, none in a sentence; `joins`:
 * no name begins or ends with it; `put-in`: beside a name, it goes in; `measure`: before a name, so much of it does;
 * `filler`: may stand between those and the name; `by-looks`: a name that tells what something looks like: after an
 * article what is there is called so; `deed`: a verb too, where a clause begins with it and an article follows;
 * `deed-first`: a verb rather than a name at the beginning of a clause (`paint strips on card`); `hue`: a colour too
 * (`the liquor amber`); `place`: behind a name, both with capitals, it is a street; `likened`: a grey is called after
 * it (`lead-grey`); `form`: behind a name, in what pieces it is sold (`sodium hydroxide pearls`).
 */
export const sentenceWords = table({
  word: text,
  says: oneOf(
    'not-there',
    'between',
    'of-it',
    'supposed',
    'ordinary',
    'no-name',
    'joins',
    'put-in',
    'measure',
    'filler',
    'by-looks',
    'deed',
    'deed-first',
    'hue',
    'seen-when',
    'bed',
    'takes',
    'denies',
    'leaves-out',
    'at-all',
    'later',
    'stays-away',
    'hearsay',
    'place',
    'likened',
    'form',
  ),
  source,
});

/** What stems say that stand in one phrase, in any order, unless another stands there too; °C of all in it. */
export const stemReadings = table({
  kinds: filledList(' ', oneOf(...toldByWords)),
  all_of: filledList(' ', text),
  unless: list(' ', text),
  celsius: optional(number),
  source,
});

/**
 * How a product is told by its use alone: a `thing` that is `for` a `use`, or `what` somebody (`whom`) does (`cleans`)
 * with it; a `place` needs something that is done there, a `use` does not; `stuff`: what it is called behind its use;
 * `not`: words that may not stand between. `product`: what is sold for it.
 */
export const uses = table({
  word: text,
  says: oneOf('thing', 'stuff', 'what', 'for', 'whom', 'cleans', 'not', 'use', 'place'),
  product: optional(text),
  source,
});
