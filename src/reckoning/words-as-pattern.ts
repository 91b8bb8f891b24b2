// Words of a table as a pattern that tells whether one of them stands in a text.
//
// A letter is `[a-zß-ɏ]` here and in the other patterns of this room, those of the languages of the tables: V8 takes
// 60 µs to read `\p{L}` and 170 more to compile it in a pattern in `iu`, each time that it stands in one, and a command
// that is over at once spent a tenth of its time on that.

/**
 * One of some words, to be asked only whether it stands there; `bleach*` stands for `bleaching` too. Whatever letters
 * follow a beginning need no pattern: with one for each V8 took six times as long to compile it.
 * @param words none of them empty; a star only at the end
 * @returns for a pattern in `iu`, behind what may stand before a word
 */
export function anyOfWords(words: readonly string[]): string {
  const beginnings = words.filter((one) => one.endsWith('*')).map((one) => one.slice(0, -1));
  const whole = words.filter((one) => !one.endsWith('*'));
  return `(?:${[...beginnings, String.raw`(?:${whole.join('|')})(?![a-zß-ɏ])`].join('|')})`;
}
