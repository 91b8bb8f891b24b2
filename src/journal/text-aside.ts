// Entries of which the text lies on the disk: of a large journal it is much, and seldom asked for.
import { TextsOnDisk } from '../kept/texts-on-disk.js';
import type { Entry } from './entry.js';

/** Puts texts of entries aside. */
export class TextsAside {
  private readonly texts = new TextsOnDisk();

  /** The same entry; its front matter as written and its body are read when they are asked for. */
  put(entry: Entry): Entry {
    const { texts } = this;
    const { matter, matterLine, body, bodyLine, ...checked } = entry;
    const [matterName, bodyName] = [`${entry.file} front matter`, `${entry.file} body`];
    texts.set(matterName, matter);
    texts.set(bodyName, body);
    // Values made anew: as parts of the text, which they were read as, they would hold all of it.
    const anew = JSON.parse(JSON.stringify(checked)) as typeof checked;
    return {
      ...anew,
      get matter() {
        return texts.get(matterName)!;
      },
      matterLine,
      get body() {
        return texts.get(bodyName)!;
      },
      bodyLine,
    };
  }
}
