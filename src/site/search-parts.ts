// A large journal's words are indexed in parts, one after the other: an edit makes anew only the part that its words
// are in, and the indexer holds no more than one of them. The search page asks all parts, and puts together what they
// find.

/** From so many things on there are so many parts; each costs the search page two small files, and a file a word. */
const partsFrom: readonly (readonly [things: number, parts: number])[] = [
  [20_000, 8],
  [1000, 4],
  [500, 2],
];

export const partsFor = (things: number): number => partsFrom.find(([from]) => things >= from)?.[1] ?? 1;

/**
 * Things take turns, so that words are as frequent in one part as in the next, and what fits well in one fits well
 * among all.
 */
export const partOfThing = (thing: number, things: number): number => thing % partsFor(things);

/** Numbers of the things of a part. @example thingsOfPart(1, 502) // [1, 3, 5, …, 501] */
export function thingsOfPart(part: number, things: number): readonly number[] {
  const parts = partsFor(things);
  return Array.from({ length: Math.ceil((things - part) / parts) }, (_, at) => part + at * parts);
}

/** Numbers of all things, one part after the other. */
export const partByPart = (things: number): readonly number[] =>
  Array.from({ length: partsFor(things) }, (_, part) => thingsOfPart(part, things)).flat();

/**
 * Below which address the files of a part lie. The search page knows it too.
 * @example folderOfPart(1) // '/find/part-1/'
 */
export const folderOfPart = (part: number): string => (part === 0 ? '/find/' : `/find/part-${part}/`);

/** Which part a file of the library is of. @param path in the site */
export const partOfFile = (path: string): number => Number(/^find\/part-(\d+)\//.exec(path)?.[1] ?? 0);
