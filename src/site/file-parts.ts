// A file in parts, one for each entry: after an edit only the parts of edited entries are made, and the rest is taken
// as it stands in the file as it was written last.
import type { Part, Pieces } from './assets.js';
import { joined, LineReader, type LinePlace } from './entry-lines.js';

/** A file of parts as it was written last: by part what it was made of, and its length. */
export interface WrittenParts {
  readonly hash: string;
  readonly parts: readonly (readonly [identity: string, bytes: number])[];
}

/** Where parts stand in the file that they were written to. */
function placesIn(file: string, { parts }: WrittenParts): ReadonlyMap<string, LinePlace> {
  const places = new Map<string, LinePlace>();
  let at = 0;
  for (const [identity, bytes] of parts) {
    places.set(identity, { file, at, bytes });
    at += bytes;
  }
  return places;
}

/** Parts as they are written, and what is to be put down of them then. */
export interface ToWrite extends Pieces {
  readonly written: () => WrittenParts['parts'];
}

/**
 * The parts as pieces to write.
 * @param former the file as it was written last, where it is whole
 */
export function toWrite(
  parts: readonly Part[],
  former: { readonly file: string; readonly was: WrittenParts } | undefined,
): ToWrite {
  const places = former && placesIn(former.file, former.was);
  let written: (readonly [string, number])[] = [];
  const pieces = function* (): Iterable<Uint8Array> {
    const reader = new LineReader();
    written = [];
    let taken: LinePlace[] = [];
    try {
      for (const { identity, make } of parts) {
        const place = places?.get(identity);
        if (place) {
          taken.push(place);
          written.push([identity, place.bytes]);
          continue;
        }
        for (const run of joined(taken, 0)) yield* reader.readInTurn(run);
        taken = [];
        const bytes = Buffer.from(make());
        written.push([identity, bytes.length]);
        yield bytes;
      }
      for (const run of joined(taken, 0)) yield* reader.readInTurn(run);
    } finally {
      reader.close();
    }
  };
  return { pieces, written: () => written };
}
