// The same reagents, formulae and words stand in many entries: what was found of one is kept, up to a bound.

/**
 * The function, remembering its results by a key; all are let go when there are `most` of them.
 * @example memoise((name: string) => name, findByName, 2000)
 */
export function memoise<Input, Result>(
  keyOf: (input: Input) => string,
  compute: (input: Input) => Result,
  most: number,
): (input: Input) => Result {
  const results = new Map<string, Result>();
  return (input) => {
    const key = keyOf(input);
    if (!results.has(key)) {
      if (results.size >= most) results.clear();
      results.set(key, compute(input));
    }
    return results.get(key)!;
  };
}
