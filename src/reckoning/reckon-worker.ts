// Runs in a worker thread: reckons a batch of entries, and hands back what of it is kept.
import { workerData } from 'node:worker_threads';
import type { Entry, Journal } from '../journal/entry.js';
import { keptNowhere, type Kept } from '../kept/kept.js';
import type { PhotographOutcome } from './contracts.js';
import { reckonJournal } from './reckon.js';

/** What every entry may draw on; plain data. */
export interface ReckonStart {
  readonly settings: Journal['settings'];
  readonly shelf: Journal['shelf'];
  readonly readings: Journal['readings'];
  readonly photographs: ReadonlyMap<string, PhotographOutcome>;
}

/** Entries with those before them of which they take lots, by number. */
export type ReckonBatch = readonly Entry[];

/** What was kept, by its keys. */
export interface BatchKept {
  readonly small: readonly (readonly [key: string, value: unknown])[];
  readonly large: readonly (readonly [key: string, value: unknown])[];
}

// tinypool hands over workerData as [its own, ours].
const { settings, shelf, readings, photographs } = (workerData as [unknown, ReckonStart])[1];

export default function reckonBatch(entries: ReckonBatch): BatchKept {
  const small: [string, unknown][] = [];
  const large: [string, unknown][] = [];
  const gathering: Kept = {
    ...keptNowhere,
    put: (key, value) => small.push([key, value]),
    putLarge: (key, value) => large.push([key, value]),
  };
  reckonJournal({ settings, shelf, readings, entries }, photographs, gathering);
  return { small, large };
}
