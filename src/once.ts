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

/**
 * The function, asked anew for every other argument than the last: what it made is held until the next is asked for, so
 * that what is gone through one after the other takes no more room than one of them.
 * @example const wordsOf = lastFor((text: string) => text.split(' '));
 */
export function lastFor<Of, Made>(make: (of: Of) => Made): (of: Of) => Made {
  let last: { readonly of: Of; readonly made: Made } | undefined;
  return (of) => {
    if (last === undefined || last.of !== of) last = { of, made: make(of) };
    return last.made;
  };
}

/**
 * The function, asked but once for each object as long as no more than `most` others have been asked for since: what is
 * costly to make and large takes no more room than that. Once more than `most` have been asked for, there are more than
 * can be held anyhow, and no more than `few` others may be asked for between.
 * @example const rowsOf = recentlyFor((of: { text: string }) => JSON.parse(of.text), 500);
 */
export function recentlyFor<Of extends object, Made extends {}>(
  make: (of: Of) => Made,
  most: number,
  few = most,
): (of: Of) => Made {
  let [now, before] = [new WeakMap<Of, Made>(), new WeakMap<Of, Made>()];
  let [asked, mostNow] = [0, most];
  return (of) => {
    const known = now.get(of);
    if (known !== undefined) return known;
    const made = before.get(of) ?? make(of);
    if (asked >= mostNow) [now, before, asked, mostNow] = [new WeakMap(), now, 0, few];
    now.set(of, made);
    asked += 1;
    return made;
  };
}
