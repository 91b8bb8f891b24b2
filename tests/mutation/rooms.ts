// The rooms whose code is mutated, and the folders of tests that must notice.
import { existsSync, readdirSync } from 'node:fs';

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
  const room = /^src\/([^/]+)\//.exec(path)?.[1];
  return room !== undefined && Object.hasOwn(testsOfRoom, room) ? room : undefined;
}

export interface Asked {
  readonly room: string;
  /** The files that are mutated. */
  readonly files: readonly string[];
}

const holdsNoCode = /\.schema\.ts$|\.d\.ts$/;

/** The files of code in a folder, in the order of their paths. */
function filesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts') && !holdsNoCode.test(name))
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
    .sort();
}

/**
 * What was asked for on the command line: rooms by name, files and folders by path; nothing is every room.
 * The answer is one item a room; a word that is neither room nor path in one is given back in `unknown`.
 */
export function askedFor(words: readonly string[]): { asked: Asked[]; unknown: string[] } {
  const files = new Map<string, string[]>();
  const unknown: string[] = [];
  for (const word of words.length > 0 ? words : Object.keys(testsOfRoom)) {
    const path = Object.hasOwn(testsOfRoom, word) ? `src/${word}` : word.replace(/^\.\//, '').replace(/\/$/, '');
    const room = roomOf(`${path}/`);
    if (room === undefined || !existsSync(path)) {
      unknown.push(word);
      continue;
    }
    files.set(room, [...(files.get(room) ?? []), ...(path.endsWith('.ts') ? [path] : filesIn(path))]);
  }
  return { asked: [...files].map(([room, its]) => ({ room, files: its })), unknown };
}
