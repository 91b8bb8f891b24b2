// A journal's folder with a note of everything that was asked of it, so that the answers can be asked for again: as
// long as they are the same, so is what was concluded from them.
import { stampOf, type AtPath, type Folder } from './folder.js';

const answerOf = (there: AtPath): string => {
  if (there.kind === 'file') return `file ${stampOf(there.stats)}`;
  return there.kind === 'other' ? `other ${there.what}` : there.kind;
};

export class AskedFolder implements Folder {
  private readonly found = new Map<string, string>();
  private readonly spelt = new Map<string, string | undefined>();

  constructor(private readonly folder: Folder) {}

  get root(): string {
    return this.folder.root;
  }

  readonly list: Folder['list'] = (below) => this.folder.list(below);

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

  /** Whether a folder answers everything that was asked of this one as this one did. */
  answersAre(folder: Folder): boolean {
    for (const [path, answer] of this.found) if (answerOf(folder.find(path)) !== answer) return false;
    for (const [path, spelling] of this.spelt) if (folder.spelling(path) !== spelling) return false;
    return true;
  }
}
