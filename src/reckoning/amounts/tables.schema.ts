// What the tables of this room hold, column by column.
import { decimal, oneOf, optional, source, table, text } from '../../tables/cells.js';

/**
 * Words of what sets a sample apart that tell of another amount. `before` a name, with nothing but `between` in
 * between, and `behind` it they say that so many `times` of it was taken, or another amount; `none` and `gone` that it
 * was left out, `lost` a few words before it that some of it went; a `share` of it `less-or-more` behind it says the
 * same as `behind`. Before a `batch`, or `scaled` behind one, all amounts are others, and so they are where a `ratio`
 * is given. A written amount in a clause of `portion` is part of it only; behind `instead` stands the amount of the
 * others, or what was taken of another thing's place, and what is left out until `not-yet` is not left out. What is
 * named in a clause of `aside` goes elsewhere. Before a name or behind it `strength` says that a solution was another,
 * behind it after `at` stands how strong; what is `replaced` has another thing in its place. A `share` and
 * `less-or-more` have as `times` what part it is and whether it comes or goes. `wash*` stands for longer words too.
 */
export const otherAmounts = table({
  words: text,
  says: oneOf(
    'before',
    'none',
    'between',
    'behind',
    'gone',
    'lost',
    'share',
    'less-or-more',
    'batch',
    'scaled',
    'ratio',
    'portion',
    'aside',
    'instead',
    'not-yet',
    'strength',
    'at',
    'replaced',
  ),
  times: optional(decimal),
  source,
});
