// What the reckoning of an entry draws on besides its own front matter: jars of the shelf, earlier lots, readings.
// Each is noted when it is asked for, so that a reckoning is made anew only when one of them is another than it was.
import { hashOf, identityOf } from '../kept/inputs.js';
import type { Journal } from '../journal/entry.js';
import { ShelfView } from '../journal/shelf-view.js';
import { cupboardOf, type Cupboard } from '../reagents/index.js';
import type { LotFacts, PhotographOutcome, ReckoningContext } from './contracts.js';

/** What of a journal has a part in its reckoning. */
export type ReckonedJournal = Pick<Journal, 'settings' | 'shelf' | 'readings' | 'entries'>;

/** What every entry may draw on besides lots. */
export type DrawnUpon = Omit<ReckonedJournal, 'entries'>;

/** Something that was drawn on: what kind of thing, its name, and what it was. */
export type DrawnOn = readonly [kind: SourceKind, name: string, identity: string];

/** `name` asks the shelf by any name of a jar, `holding` for a jar that holds a lot, `shelf` for all of it. */
export type SourceKind = 'jar' | 'name' | 'holding' | 'shelf' | 'lot' | 'reading' | 'photograph';

/** An earlier lot: what tells it from others, and its facts, which are seldom needed. */
export interface LotSource {
  readonly identity: string;
  readonly facts: () => LotFacts;
}

export interface JournalSources extends Omit<ReckoningContext, 'lot' | 'cupboard' | 'photograph'> {
  readonly lot: (name: string) => LotSource | undefined;
  readonly photograph: (key: string) => PhotographOutcome | undefined;
}

/** Identity of a lot that is not there. */
const noLot = 'none';

type Shelf = ReckoningContext['shelf'];

/** The shelf, with a note of each jar that is asked for. */
class NotedShelf extends ShelfView {
  constructor(
    private readonly jars: Shelf,
    private readonly note: (kind: 'jar' | 'shelf', name: string) => void,
  ) {
    super();
  }

  get(id: string) {
    this.note('jar', id);
    return this.jars.get(id);
  }
  has(id: string) {
    this.note('jar', id);
    return this.jars.has(id);
  }

  protected whole(): Shelf {
    this.note('shelf', '');
    return this.jars;
  }
}

/** All that entries of a journal can draw on, and notes of what one of them has. */
export class Sources {
  /** For reckoning; whatever is asked for through it is noted. */
  readonly context: ReckoningContext;
  private readonly cupboard: Cupboard;
  private readonly readings = new Map<string, string>();
  private noted = new Map<string, DrawnOn>();
  /** Lots that were not there yet when what is reckoned now was reckoned first. */
  private later: ReadonlySet<string> = new Set();

  constructor(private readonly journal: JournalSources) {
    const { settings, shelf, reading, photograph } = journal;
    const lot = (name: string): LotFacts | undefined => this.note('lot', name, () => this.lotSource(name)?.facts());
    this.cupboard = cupboardOf(shelf, lot);
    const { cupboard } = this;
    this.context = {
      settings,
      shelf: new NotedShelf(shelf, (kind, name) => this.note(kind, name, () => undefined)),
      cupboard: {
        shelf: (name) => this.note('name', name, () => cupboard.shelf(name)),
        jarOf: (name) => this.note('holding', name, () => cupboard.jarOf?.(name)),
        lot,
      },
      lot,
      reading: (path) => this.note('reading', path, () => reading(path)),
      photograph: (key) => this.note('photograph', key, () => photograph(key)),
    };
  }

  /** What has been drawn on since this was last asked. */
  takeNotes(): readonly DrawnOn[] {
    const all = [...this.noted.values()];
    this.noted = new Map();
    return all;
  }

  /** Whether each of them is what it was. */
  areAsTheyWere = (drawnOn: readonly DrawnOn[]): boolean =>
    drawnOn.every(([kind, name, identity]) => this.identity(kind, name) === identity);

  /** Reckons again what drew on these, with the lots that it knew. */
  asWhen<T>(drawnOn: readonly DrawnOn[], reckon: (context: ReckoningContext) => T): T {
    this.later = new Set(drawnOn.flatMap(([kind, name, is]) => (kind === 'lot' && is === noLot ? [name] : [])));
    try {
      return reckon(this.context);
    } finally {
      this.later = new Set();
    }
  }

  private lotSource(name: string): LotSource | undefined {
    return this.later.has(name) ? undefined : this.journal.lot(name);
  }

  private note<T>(kind: SourceKind, name: string, found: () => T): T {
    const key = `${kind} ${name}`;
    if (!this.noted.has(key)) this.noted.set(key, [kind, name, this.identity(kind, name)]);
    return found();
  }

  private identity(kind: SourceKind, name: string): string {
    const { shelf, photograph } = this.journal;
    switch (kind) {
      case 'jar':
        return identityOf(shelf.get(name));
      case 'name':
        return identityOf(this.cupboard.shelf(name));
      case 'holding':
        return identityOf(this.cupboard.jarOf?.(name));
      case 'shelf':
        return identityOf(shelf);
      case 'lot':
        return this.lotSource(name)?.identity ?? noLot;
      case 'reading':
        return this.identityOfReading(name);
      case 'photograph':
        return identityOf(photograph(name));
    }
  }

  private identityOfReading(path: string): string {
    let identity = this.readings.get(path);
    if (identity === undefined) {
      identity = hashOf(this.journal.reading(path) ?? '', String(this.journal.reading(path) !== undefined));
      this.readings.set(path, identity);
    }
    return identity;
  }
}
