// Entries of which the text lies on the disk: of a large journal it is much, and seldom asked for.
import { TextsOnDisk } from '../kept/texts-on-disk.js';
import { lookedUp } from '../looked-up.js';
import { lastFor } from '../once.js';
import type { Entry } from './entry.js';

/** Under which name a text lies, and what reads it. */
interface Place {
  readonly textOf: (name: string) => string;
  readonly name: string;
}

const textAt = ({ textOf, name }: Place): string => textOf(name);
const withMatter = lookedUp<Place, Pick<Entry, 'matter'>>({ matter: textAt });
const withBody = lookedUp<Place, Pick<Entry, 'body'>>({ body: textAt });

/** Puts texts of entries aside. The last of each kind is held: it is asked for many times before another entry's. */
export class TextsAside {
  private readonly texts = new TextsOnDisk();
  private readonly matterOf = lastFor((name: string) => this.texts.get(name)!);
  private readonly bodyOf = lastFor((name: string) => this.texts.get(name)!);

  /** The same entry; its front matter as written and its body are read when they are asked for. */
  put(entry: Entry): Entry {
    const { texts } = this;
    const { matter, matterLine, body, bodyLine, ...checked } = entry;
    const [matterName, bodyName] = [`${entry.file} front matter`, `${entry.file} body`];
    texts.set(matterName, matter);
    texts.set(bodyName, body);
    // Values made anew: as parts of the text, which they were read as, they would hold all of it.
    const anew = JSON.parse(JSON.stringify(checked)) as typeof checked;
    const placed = Object.assign(withMatter(anew, { textOf: this.matterOf, name: matterName }), { matterLine });
    return Object.assign(withBody(placed, { textOf: this.bodyOf, name: bodyName }), { bodyLine });
  }
}
