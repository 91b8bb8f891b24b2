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
    const before = results.get(key);
    if (before !== undefined || results.has(key)) return before as Result;
    const result = compute(input);
    if (results.size >= most) results.clear();
    results.set(key, result);
    return result;
  };
}
