// Reckonings that were made before: how they are kept, and that what is large of them is loaded only when it is asked
// for.
import { hashOf, identify } from '../kept/inputs.js';
import type { Kept } from '../kept/kept.js';
import { lookedUp } from '../looked-up.js';
import { onceFor } from '../once.js';
import type { Entry } from '../journal/entry.js';
import type { ReckonedEntry } from './contracts.js';
import { rowsOfReckoning } from './gist.js';
import type { DrawnOn } from './sources.js';

/** What is large of a reckoning, and loaded only when it is asked for. */
export type Whole = Pick<ReckonedEntry, 'amounts' | 'dangers' | 'appearance'>;

/** A reckoning as it is kept: what it drew on, and what of it is small. */
export interface KeptReckoning extends Pick<ReckonedEntry, 'elements' | 'gist' | 'findings'> {
  readonly drawnOn: readonly DrawnOn[];
  /** What tells this reckoning from any other. */
  readonly identity: string;
  readonly lots: readonly (readonly [lot: string, identity: string])[];
}

/**
 * So many reckonings that are kept elsewhere are held in memory besides: pages and lists ask for one entry after the
 * other, and what was asked for last is soon asked for again.
 */
const mostAtHand = 600;

/** Where more than so many are reckoned, few of them would be at hand anyhow, and so many are enough. */
const [many, mostOfMany] = [1200, 25];

/** What was asked for last; what falls out of it is loaded again. */
export class AtHand {
  private readonly wholes = new Map<string, Whole>();
  private reckoned = 0;

  of(identity: string, load: () => Whole): Whole {
    const whole = this.wholes.get(identity) ?? load();
    this.hold(identity, whole);
    return whole;
  }

  /** What is at hand, which is not asked for again. */
  take(identity: string): Whole | undefined {
    const whole = this.wholes.get(identity);
    this.wholes.delete(identity);
    return whole;
  }

  /** What was reckoned just now. */
  put(identity: string, whole: Whole): void {
    this.reckoned += 1;
    this.hold(identity, whole);
  }

  private hold(identity: string, whole: Whole): void {
    this.wholes.delete(identity);
    this.wholes.set(identity, whole);
    const most = this.reckoned > many ? mostOfMany : mostAtHand;
    for (const oldest of this.wholes.keys()) {
      if (this.wholes.size <= most) return;
      this.wholes.delete(oldest);
    }
  }
}

/**
 * What is at hand of what is kept. What one reckoning of a journal has made, as where threads share it beforehand, the
 * next does not load again.
 */
export const atHandOf = onceFor((_kept: Kept) => new AtHand());

/** What is large of a kept reckoning, asked for the last time; undefined where it is not there any more. */
export function takeWhole(identity: string, kept: Kept): Whole | undefined {
  return atHandOf(kept).take(identity) ?? (kept.getLarge(identity) as Whole | undefined);
}

/** What the rows of a reckoning are kept under. */
export const rowsKey = (identity: string): string => `rows ${identity}`;

/** How a reckoning is kept: what is large of it under its key, and what of it later entries may draw on. */
export interface KeptAs extends Pick<KeptReckoning, 'lots'> {
  readonly large: string;
  /** Lots that it asked for, those too that were not there. */
  readonly asked: readonly string[];
}

const keptAsBefore = new WeakMap<ReckonedEntry, KeptAs>();

/** How a reckoning is kept; undefined where it is not. */
export const keptAs = (one: ReckonedEntry): KeptAs | undefined => keptAsBefore.get(one);

/** Takes note of how a reckoning is kept. */
export const noteKeptAs = (one: ReckonedEntry, as: KeptAs): void => void keptAsBefore.set(one, as);

/** How a reckoning is kept, for later entries to draw on. */
export const keptAsOf = ({ identity, lots, drawnOn }: KeptReckoning): KeptAs => ({
  large: identity,
  lots,
  asked: drawnOn.flatMap(([kind, name]) => (kind === 'lot' ? [name] : [])),
});

/** Where what is large of a reckoning lies. */
export interface LyingElsewhere {
  readonly entry: Entry;
  readonly identity: string;
  readonly kept: Kept;
  readonly atHand: AtHand;
  readonly reckonAgain: () => Whole;
}

const wholeOf = ({ identity, kept, atHand, reckonAgain }: LyingElsewhere): Whole =>
  atHand.of(identity, () => (kept.getLarge(identity) as Whole | undefined) ?? reckonAgain());

function rowsElsewhere(one: LyingElsewhere): ReckonedEntry['rows'] {
  const key = rowsKey(one.identity);
  const before = one.kept.get(key) as ReckonedEntry['rows'];
  if (before) return before;
  const { amounts, appearance } = wholeOf(one);
  const rows = rowsOfReckoning(one.entry, amounts, appearance);
  one.kept.put(key, rows);
  return rows;
}

/** The same where its rows were put down by themselves. */
const withRowsLater = lookedUp<LyingElsewhere & Pick<PutDown, 'rows'>, Whole & Pick<ReckonedEntry, 'rows'>>({
  rows: ({ rows }) => rows(),
  amounts: (one) => wholeOf(one).amounts,
  dangers: (one) => wholeOf(one).dangers,
  appearance: (one) => wholeOf(one).appearance,
});

/** A reckoning of which what is large, and what lists show, is loaded when it is asked for. */
export const withWhole = lookedUp<LyingElsewhere, Whole & Pick<ReckonedEntry, 'rows'>>({
  rows: rowsElsewhere,
  amounts: (one) => wholeOf(one).amounts,
  dangers: (one) => wholeOf(one).dangers,
  appearance: (one) => wholeOf(one).appearance,
});

/** A reckoning as it was put down, without what is large of it. */
export interface PutDown extends Pick<ReckonedEntry, 'elements' | 'gist'> {
  readonly as: KeptAs;
  /** Read when they are asked for. */
  readonly rows: () => ReckonedEntry['rows'];
  /** `writtenOf` its entry. */
  readonly written: string;
}

/** A reckoning of which the findings were told. @param kept has what is large of it, or it cannot be asked for */
export function takenUp(entry: Entry, { as, written, elements, gist, rows }: PutDown, kept: Kept): ReckonedEntry {
  const { large: identity } = as;
  const reckonAgain = (): Whole => {
    throw new Error(`what was kept of ${entry.file} could not be read again`);
  };
  const from: LyingElsewhere & Pick<PutDown, 'rows'> = {
    ...{ entry, identity, kept, atHand: atHandOf(kept), reckonAgain },
    rows,
  };
  const one: ReckonedEntry = withRowsLater({ entry, identity, elements, gist, findings: [] }, from);
  noteKeptAs(one, as);
  return identify(one, hashOf(identity, written));
}
