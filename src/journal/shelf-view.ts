// A shelf that answers for one jar without having looked at all of them.
import type { ShelfReagent } from './schema.js';

type Shelf = ReadonlyMap<string, ShelfReagent>;

/** What is asked of all jars at once goes to the whole shelf; a single jar is each view's own matter. */
export abstract class ShelfView implements Shelf {
  protected abstract whole(): Shelf;
  abstract get(id: string): ShelfReagent | undefined;
  abstract has(id: string): boolean;

  get size(): number {
    return this.whole().size;
  }
  forEach(callback: Parameters<Shelf['forEach']>[0]): void {
    this.whole().forEach(callback);
  }
  entries() {
    return this.whole().entries();
  }
  keys() {
    return this.whole().keys();
  }
  values() {
    return this.whole().values();
  }
  [Symbol.iterator]() {
    return this.whole()[Symbol.iterator]();
  }
}
