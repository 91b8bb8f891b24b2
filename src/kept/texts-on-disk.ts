// Texts of one run by their names, in a file without a name, where they take no memory.
import { PackFile } from './pack-file.js';

export class TextsOnDisk {
  private readonly names = new Set<string>();
  private readonly texts = new PackFile();

  set(name: string, text: string): void {
    this.names.add(name);
    this.texts.put(name, Buffer.from(text));
  }

  has(name: string): boolean {
    return this.names.has(name);
  }

  /** @throws where the disk does not give it back */
  get(name: string): string | undefined {
    if (!this.has(name)) return undefined;
    const bytes = this.texts.get(name);
    if (!bytes) throw new Error(`the text of ${name} could not be read again`);
    return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('utf8');
  }

  /** In order of names, whatever the order in which they came. */
  *[Symbol.iterator](): Iterator<readonly [name: string, text: string]> {
    for (const name of [...this.names].sort()) yield [name, this.get(name)!];
  }
}
