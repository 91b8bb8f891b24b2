// What entries are found by, kept from one publication to the next, so that after an edit only the edited entry is gone
// over again; many entries lie in one piece, as all of them are asked for together.
import type { JournalModel } from '../crosslinks/model.js';
import { identityOf } from '../kept/inputs.js';
import type { Kept } from '../kept/kept.js';
import { foundBy, namedEntry, type Findable, type FoundBy } from './search-things.js';

/** Entries in one piece, by their numbers. */
const together = 500;

/** What was kept of one entry. */
type KeptFindable = readonly [number: number, key: string, findable: Findable];

const pieceKey = (piece: number): string => `found by ${piece}`;
const pieceOf = (number: number): number => Math.floor(number / together);

export class EntryFindables {
  private readonly all: readonly FoundBy[];
  private readonly keys: ReadonlyMap<number, string>;
  private readonly found = new Map<number, Findable>();
  private readonly pieces: ReadonlySet<number>;
  /** Pieces in which something is another. */
  private readonly changed = new Set<number>();

  constructor(
    private readonly model: JournalModel,
    private readonly kept: Kept,
  ) {
    const { reagents } = model.journal.shelf;
    this.all = foundBy(model);
    const keyOf = ({ reckoned, rows, elementNames }: FoundBy): string =>
      identityOf([reckoned, rows, elementNames, reagents]);
    this.keys = new Map(this.all.map((one) => [one.reckoned.entry.number, keyOf(one)]));
    this.pieces = new Set([...this.keys.keys()].map(pieceOf));
    for (const piece of this.pieces) this.takePiece(piece);
  }

  isMissing(number: number): boolean {
    return !this.found.has(number);
  }

  put(number: number, findable: Findable): void {
    this.found.set(number, findable);
    this.changed.add(pieceOf(number));
  }

  /** What all entries are found by, by number; what is missing is made. */
  end(): readonly Findable[] {
    const { reagents } = this.model.journal.shelf;
    for (const one of this.all) {
      const { number } = one.reckoned.entry;
      if (this.isMissing(number)) this.put(number, namedEntry(one, reagents));
    }
    for (const piece of this.changed) this.keepPiece(piece);
    return this.all.map(({ reckoned }) => this.found.get(reckoned.entry.number)!);
  }

  private takePiece(piece: number): void {
    const before = (this.kept.getLarge(pieceKey(piece)) ?? []) as readonly KeptFindable[];
    for (const [number, key, findable] of before)
      if (this.keys.get(number) === key) this.found.set(number, findable);
      else this.changed.add(piece);
  }

  private keepPiece(piece: number): void {
    const own = [...this.keys].filter(([number]) => pieceOf(number) === piece);
    const kept = own.map(([number, key]): KeptFindable => [number, key, this.found.get(number)!]);
    this.kept.putLarge(pieceKey(piece), kept);
  }
}
