// How the parts on colour put what they say: notes, Lab in one cell, ΔE with its index, verdicts.
import type { Element, ElementContent } from 'hast';
import type { ColourVerdict } from '../../src/reckoning/appearance/appearance-contracts.js';
import { figure } from '../pictures/figure.js';

export const notes = (sentences: readonly string[]): Element | null =>
  sentences.length > 0
    ? ((
        <ul class="appearance-notes">
          {sentences.map((sentence) => (
            <li>{sentence}</li>
          ))}
        </ul>
      ) as Element)
    : null;

/** L*, a* and b* in one cell, where tables would grow long. */
export const labWords = (lab: readonly [number, number, number]): string =>
  lab.map((value) => figure(value)).join(', ');

/** All columns after the first, one for each of these. */
export const everyColumn = (of: readonly unknown[]): number[] => of.map((_, at) => at + 1);

export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

export const set = (sentence: string): string => sentence.replaceAll('ΔE00', 'ΔE₀₀');

/** The verdict in strong words, then the sentence on it; said once where the sentence begins with it. */
export function verdictWords({ words, sentence }: ColourVerdict): ElementContent[] {
  const said = set(sentence);
  const repeated = said.toLowerCase().startsWith(words.toLowerCase());
  return [
    (<strong>{repeated ? said.slice(0, words.length) : `${capital(words)}.`}</strong>) as Element,
    { type: 'text', value: repeated ? said.slice(words.length) : ` ${said}` },
  ];
}
