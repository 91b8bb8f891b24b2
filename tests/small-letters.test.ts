// Words in small letters, and patterns of words that are asked about text in any.
import { expect, it } from 'vitest';
import { inSmallLetters } from '../src/small-letters.js';
import { patternOfWords } from '../src/reckoning/told/words-as-pattern.js';

it('leaves each letter of a text where it was', () => {
  expect(inSmallLetters('Über HCl')).toBe('über hcl');
  expect(inSmallLetters('İzmir 𝒜 HCl')).toBe('İzmir 𝒜 hcl');
});

it('finds words and beginnings of words, however they are written', () => {
  const bottles = patternOfWords(['Flasche', 'soda bottle*']);
  expect(bottles.test('IN DIE FLASCHE')).toBe(true);
  expect(bottles.test('the Soda bottles')).toBe(true);
  expect(bottles.test('die Flaschen')).toBe(false);
  expect(bottles.replacedIn('A Soda bottle, a soda bottle.', 'jar')).toBe('A jar, a jar.');
});

it('finds nothing by a list of none, nor where only beginnings are listed and none stands', () => {
  expect(patternOfWords([]).test('anything')).toBe(false);
  expect(patternOfWords(['soda bottle*']).test('a jug, a lid')).toBe(false);
});
