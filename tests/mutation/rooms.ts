// The rooms whose code is mutated, and the folders of tests that must notice.

/** A room's folder in `src/`, and the folders in `tests/` that state what the room does. */
export const testsOfRoom: Readonly<Record<string, readonly string[]>> = {
  chemistry: ['chemistry'],
  reagents: ['reagents'],
  hazards: ['hazards'],
  colour: ['colour'],
  reckoning: ['reckoning', 'remarks'],
};

/** The room of a path such as `src/chemistry/statistics.ts`; undefined where it lies in none that is mutated. */
export function roomOf(path: string): string | undefined {
  const room = /^(?:\.\/)?src\/([^/]+)\//.exec(path)?.[1];
  return room !== undefined && Object.hasOwn(testsOfRoom, room) ? room : undefined;
}

export interface Asked {
  readonly room: string;
  /** What is mutated, as patterns of paths. */
  readonly patterns: readonly string[];
}

/**
 * What was asked for on the command line: rooms by name, files and folders by path; nothing is every room.
 * The answer is one item a room; a word that is neither room nor path in one is given back in `unknown`.
 */
export function askedFor(words: readonly string[]): { asked: Asked[]; unknown: string[] } {
  const patterns = new Map<string, string[]>();
  const unknown: string[] = [];
  for (const word of words.length > 0 ? words : Object.keys(testsOfRoom)) {
    const room = Object.hasOwn(testsOfRoom, word) ? word : roomOf(word);
    if (room === undefined) {
      unknown.push(word);
      continue;
    }
    const path = room === word ? `src/${room}` : word.replace(/^\.\//, '').replace(/\/$/, '');
    patterns.set(room, [...(patterns.get(room) ?? []), path.endsWith('.ts') ? path : `${path}/**/*.ts`]);
  }
  return { asked: [...patterns].map(([room, its]) => ({ room, patterns: its })), unknown };
}
