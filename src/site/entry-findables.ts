// What entries are found by, kept from one publication to the next, so that after an edit only the edited entry is gone
// over again; many entries lie in one piece, as all of them are asked for together.
import type { JournalModel } from '../crosslinks/model.js';
import { identityOf } from '../kept/inputs.js';
import type { Kept } from '../kept/kept.js';
import { lastFor } from '../once.js';
import { findablesIn, LineReader, LineSpool, removeSpools, type LinePlace } from './entry-lines.js';
import { foundBy, namedEntry, type Findable, type FoundBy } from './search-things.js';

/** Entries in one piece, by their numbers. */
const together = 500;

/** What was kept of one entry; what it is found by as JSON, so that it is read only when it is asked for. */
type KeptFindable = readonly [number: number, key: string, json: string];

const pieceKey = (piece: number): string => `entries found by ${piece}`;
const pieceOf = (number: number): number => Math.floor(number / together);

/** It lies on the disk, so that it takes no room while pages are made; `close` takes it away. */
export class EntryFindables {
  private readonly all: readonly FoundBy[];
  private readonly keys: ReadonlyMap<number, string>;
  /** Where what an entry is found by stands, as JSON. */
  private readonly places = new Map<number, LinePlace>();
  private readonly spool: LineSpool;
  private readonly reader = new LineReader();
  private readonly pieces: ReadonlySet<number>;
  /** Pieces in which something is another. */
  private readonly changed = new Set<number>();

  constructor(
    private readonly model: JournalModel,
    private readonly kept: Kept,
    folder: string,
  ) {
    this.spool = new LineSpool(findablesIn(folder, 'before'));
    const { reagents } = model.journal.shelf;
    // The shelf has one identity, whether its jars were asked for theirs before or not.
    for (const jar of reagents.values()) identityOf(jar);
    this.all = foundBy(model);
    const keyOf = ({ reckoned, rows, elementNames }: FoundBy): string =>
      identityOf([reckoned, rows, elementNames, reagents]);
    this.keys = new Map(this.all.map((one) => [one.reckoned.entry.number, keyOf(one)]));
    this.pieces = new Set([...this.keys.keys()].map(pieceOf));
    for (const piece of this.pieces) this.takePiece(piece);
  }

  isMissing(number: number): boolean {
    return !this.places.has(number);
  }

  /** @param place of what it is found by, as JSON */
  put(number: number, place: LinePlace): void {
    this.places.set(number, place);
    this.changed.add(pieceOf(number));
  }

  /** What all entries are found by, by number, read when it is asked for; what is missing is made. */
  end(): readonly Findable[] {
    const { reagents } = this.model.journal.shelf;
    for (const one of this.all) {
      const { number } = one.reckoned.entry;
      if (this.isMissing(number)) this.put(number, this.spool.put(JSON.stringify(namedEntry(one, reagents))));
    }
    for (const piece of this.changed) this.keepPiece(piece);
    const read = lastFor((number: number): Findable => JSON.parse(this.jsonOf(number)));
    return this.all.map(({ reckoned }) => readLater(() => read(reckoned.entry.number)));
  }

  close(): void {
    this.reader.close();
    removeSpools(new Set([...this.places.values()].map(({ file }) => file)));
  }

  private jsonOf(number: number): string {
    return Buffer.from(this.reader.read(this.places.get(number)!)).toString('utf8');
  }

  private takePiece(piece: number): void {
    const before = (this.kept.getLarge(pieceKey(piece)) ?? []) as readonly KeptFindable[];
    const same = before.filter(([number, key]) => this.keys.get(number) === key);
    if (same.length < before.length) this.changed.add(piece);
    const places = this.spool.putAll(same.map(([, , json]) => json));
    for (const [at, [number]] of same.entries()) this.places.set(number, places[at]!);
  }

  private keepPiece(piece: number): void {
    const own = [...this.keys].filter(([number]) => pieceOf(number) === piece);
    const kept = own.map(([number, key]): KeptFindable => [number, key, this.jsonOf(number)]);
    this.kept.putLarge(pieceKey(piece), kept);
  }
}

/** What an entry is found by, read when it is asked for. */
const readLater = (read: () => Findable): Findable => ({
  get thing() {
    return read().thing;
  },
  get names() {
    return read().names;
  },
  get words() {
    return read().words;
  },
  get counted() {
    return read().counted;
  },
});
