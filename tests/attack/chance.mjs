// Chance that can be had again: the same seed gives the same numbers.

/** Numbers from 0 to 1 (mulberry32, a public-domain generator of one 32-bit word). */
export function chance(seed) {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let word = Math.imul(state ^ (state >>> 15), state | 1);
    word ^= word + Math.imul(word ^ (word >>> 7), word | 61);
    return ((word ^ (word >>> 14)) >>> 0) / 2 ** 32;
  };
  /** A whole number from 0 to just below `end`. */
  const below = (end) => Math.floor(next() * end);
  return {
    next,
    below,
    oneOf: (list) => list[below(list.length)],
    isOneIn: (number) => next() * number < 1,
  };
}
