// Text in small letters, in which words of tables are looked for. A pattern that takes capital letters for small ones
// costs V8 three times as much to compile, which is most of what a pattern of many words that is seldom asked costs.

const smallLetter = (letter: string): string => {
  const small = letter.toLowerCase();
  return small.length === letter.length ? small : letter;
};

/**
 * A text in small letters, each where it was; one that has none of its length, as `İ`, stays.
 * @example inSmallLetters('Über HCl') // 'über hcl'
 */
export function inSmallLetters(text: string): string {
  const small = text.toLowerCase();
  return small.length === text.length ? small : [...text].map(smallLetter).join('');
}
