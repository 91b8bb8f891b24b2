// What a publication is told, and what comes of it.
import type { Accepted } from '../remarks/accepted.js';
import type { Cause } from '../remarks/causes.js';
import type { Remark } from '../remarks/remark.js';
import type { LockOwner } from './lock.js';

export interface PublishOptions {
  /** Folder the site will stand in. */
  readonly to: string;
  /** Planned and running entries too. */
  readonly drafts?: boolean;
  /** Default true. */
  readonly search?: boolean;
  /** Sheets of labels of every entry too. Default false. */
  readonly labels?: boolean;
  /** Pictures that are shown with links. Default true. */
  readonly sharePictures?: boolean;
  readonly progress?: (stage: string, done: number, of: number) => void;
  /** How many threads work on the entries; 0 and 1: this one alone. Default: by the work and the machine. */
  readonly threads?: number;
  /**
   * `false` makes everything anew, and keeps nothing for the next time; what comes out as the site has it is not
   * written again. Default: true.
   */
  readonly keep?: boolean;
  /** Takes less memory and a little more time. Default: where entries are many. */
  readonly littleMemory?: boolean;
  /**
   * Of a site of so many files the former one stays beside it, so that the next need not make all its folders again.
   * Default: 1000.
   */
  readonly spareFrom?: number;
  /** Milliseconds to wait for another publication of the same site. Default: a minute. */
  readonly patience?: number;
  /** Called once when another publication has to be waited for. */
  readonly onWait?: (owner: LockOwner | undefined) => void;
}

export interface Publication {
  /** False where errors stopped it; the old site is then as it was. */
  readonly published: boolean;
  readonly remarks: readonly Remark[];
  /** The same by cause, where it was published. */
  readonly causes?: readonly Cause[];
  /** Warnings that the maker accepts, and that are not among the remarks. */
  readonly accepted?: readonly Accepted[];
  readonly entries: number;
  readonly pages: number;
  readonly bytes: number;
  /** What lies in the site's folder besides and was left as it is: `CNAME`, `.git/`. */
  readonly kept: readonly string[];
  readonly took: Readonly<Record<string, number>>;
}
