// Packs of one run in a file without a name: there they take no memory, and nothing of them is left when the run has
// ended, however it ends.
import { closeSync, mkdtempSync, openSync, readSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Closes the file of what nobody holds any more. */
const forgotten = new FinalizationRegistry<number>((handle) => closeSync(handle));

/** A file that is open and has no name; undefined where there can be none. */
function fileWithoutName(): number | undefined {
  let handle: number | undefined;
  let folder: string | undefined;
  try {
    folder = mkdtempSync(join(tmpdir(), 'masstone-'));
    handle = openSync(join(folder, 'packs'), 'wx+');
    // Not every system takes the name of an open file away.
    rmSync(folder, { recursive: true });
    return handle;
  } catch {
    if (handle !== undefined) closeSync(handle);
    if (folder !== undefined) rmSync(folder, { recursive: true, force: true });
    return undefined;
  }
}

interface Place {
  readonly at: number;
  readonly bytes: number;
}

/** Packs by their keys; those that cannot be written down are held. */
export class PackFile {
  private readonly places = new Map<string, Place>();
  private readonly held = new Map<string, Uint8Array>();
  private handle: number | undefined;
  private isOpened = false;
  private end = 0;

  has(key: string): boolean {
    return this.places.has(key) || this.held.has(key);
  }

  put(key: string, pack: Uint8Array): void {
    const place = this.write(pack);
    if (place) this.places.set(key, place);
    else this.held.set(key, pack);
  }

  /** May be missing all the same, where the disk does not give it back. */
  get(key: string): Uint8Array | undefined {
    const place = this.places.get(key);
    if (!place || this.handle === undefined) return this.held.get(key);
    const pack = Buffer.allocUnsafe(place.bytes);
    try {
      for (let read = 0; read < place.bytes; ) {
        const more = readSync(this.handle, pack, read, place.bytes - read, place.at + read);
        if (more === 0) return undefined;
        read += more;
      }
    } catch {
      return undefined;
    }
    return pack;
  }

  private write(pack: Uint8Array): Place | undefined {
    if (!this.isOpened) {
      this.isOpened = true;
      this.handle = fileWithoutName();
      if (this.handle !== undefined) forgotten.register(this, this.handle);
    }
    const { handle, end: at } = this;
    if (handle === undefined) return undefined;
    try {
      for (let done = 0; done < pack.length; ) done += writeSync(handle, pack, done, pack.length - done, at + done);
    } catch {
      // The disk is full.
      return undefined;
    }
    this.end += pack.length;
    return { at, bytes: pack.length };
  }
}
