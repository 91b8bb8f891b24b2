// What is worked out of a thing once, as long as the thing is there: an entry that nobody has edited is the same object
// in the next reading.

/** The function, asked but once, and only when its value is asked for. */
export function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
}

/**
 * The function, asked but once for each object that does not change.
 * @example const parts = onceFor((of: { name: string }) => of.name.split('-'));
 */
export function onceFor<Of extends object, Made>(make: (of: Of) => Made): (of: Of) => Made {
  const made = new WeakMap<Of, Made>();
  return (of) => {
    const before = made.get(of);
    if (before !== undefined || made.has(of)) return before as Made;
    const value = make(of);
    made.set(of, value);
    return value;
  };
}
