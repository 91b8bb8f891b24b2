// A journal's folder with a note of everything that was asked of it, so that the answers can be asked for again: as
// long as they are the same, so is what was concluded from them.
import { hashOf } from '../kept/inputs.js';
import { stampOf, type AtPath, type Folder, type Listing } from './folder.js';

/** What was asked of a folder and what it answered; plain data. */
export interface Answers {
  /** What stands at each path; of a file with its stamp. */
  readonly found: readonly (readonly [path: string, answer: string])[];
  readonly spelt: readonly (readonly [path: string, spelling: string | null])[];
  /** Hash of what each folder holds. */
  readonly listed: readonly (readonly [below: string, names: string])[];
}

/** What stands at a path, in words that change when it is written to. */
export const answerOf = (there: AtPath): string => {
  if (there.kind === 'file') return `file ${stampOf(there.stats)}`;
  return there.kind === 'other' ? `other ${there.what}` : there.kind;
};

const namesIn = (listing: Listing): string => hashOf(JSON.stringify(listing));

/** Whether a folder spells every path, and lists every folder, as another did. */
export const isSpeltAndListed = (folder: Folder, { spelt, listed }: Omit<Answers, 'found'>): boolean =>
  spelt.every(([path, spelling]) => (folder.spelling(path) ?? null) === spelling) &&
  listed.every(([below, names]) => namesIn(folder.list(below)) === names);

export class AskedFolder implements Folder {
  private readonly found = new Map<string, string>();
  private readonly spelt = new Map<string, string | undefined>();

  private readonly listed = new Map<string, string>();

  constructor(private readonly folder: Folder) {}

  get root(): string {
    return this.folder.root;
  }

  readonly list: Folder['list'] = (below) => {
    const listing = this.folder.list(below);
    this.listed.set(below, namesIn(listing));
    return listing;
  };

  readonly find: Folder['find'] = (path) => {
    const there = this.folder.find(path);
    this.found.set(path, answerOf(there));
    return there;
  };

  readonly spelling: Folder['spelling'] = (path) => {
    const spelling = this.folder.spelling(path);
    this.spelt.set(path, spelling);
    return spelling;
  };

  readonly read: Folder['read'] = (path, at, decode) => {
    this.found.set(path, answerOf(this.folder.find(path)));
    return this.folder.read(path, at, decode);
  };

  get answers(): Answers {
    const spelt = [...this.spelt].map(([path, spelling]) => [path, spelling ?? null] as const);
    return { found: [...this.found], spelt, listed: [...this.listed] };
  }

  /** Whether a folder answers everything that was asked of this one as this one did. */
  answersAre(folder: Folder): boolean {
    for (const [path, answer] of this.found) if (answerOf(folder.find(path)) !== answer) return false;
    return isSpeltAndListed(folder, this.answers);
  }
}
