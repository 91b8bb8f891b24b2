// What sets samples apart is one thing where one clause tells what was done and how much of it. Invented sentences.
import { describe, expect, it } from 'vitest';
import { differInSeveral } from '../../src/journal/differ-in-several.js';
import type { Entry } from '../../src/journal/entry.js';

const between = (one: string, other: string): readonly string[] | undefined =>
  differInSeveral({
    samples: [
      { sample: 'A', differs: one },
      { sample: 'B', differs: other },
    ],
  } as unknown as Pick<Entry, 'samples'>)?.kinds;

describe('samples differ in one thing', () => {
  it.each([
    ['washed in cold water', 'washed in hot water'],
    ['washed once', 'washed once more'],
    ['dried at 40 °C', 'dried at 60 °C'],
    ['stirred', 'stirred twice as long'],
    ['ground 10 min', 'ground longer'],
    ['mit kaltem Wasser gewaschen', 'mit warmem Wasser statt kaltem gewaschen'],
    ['lavé à froid', 'lavé à chaud'],
    ['dripped in', 'dripped in more slowly'],
    ['lavado con agua fría', 'lavado con agua caliente'],
    ['an der Luft getrocknet', 'über Nacht im Ofen getrocknet'],
  ])('%s; %s', (one, other) => {
    expect(between(one, other)).toBeUndefined();
  });
});

describe('samples differ in two things', () => {
  it.each([
    ['washed cold, slow', 'washed hot, fast', ['washing', 'speed of adding']],
    ['as written', 'half the soda, 60 °C', ['amount', 'temperature']],
    ['washed twice, dried in the oven', 'washed once more, weighed still damp', ['washing', 'drying']],
    ['20 °C', '60 °C and stirred', ['temperature', 'stirring']],
    ['as written', 'half the soda at 60 °C', ['temperature', 'amount']],
  ])('%s; %s', (one, other, kinds) => {
    expect(between(one, other)).toEqual(kinds);
  });
});
