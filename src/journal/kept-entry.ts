// An entry's file that was read before is not parsed and checked again: what its text says is kept by the text itself.
import { hashOf } from '../kept/inputs.js';
import { keptNowhere, type Kept } from '../kept/kept.js';
import { factsOf, remark, type RemarkFacts } from '../remarks/remark.js';
import { readEntry, type EntryReading } from './entry-file.js';
import type { Entry } from './entry.js';
import type { Matter } from './schema.js';

/** A reading as it is kept: front matter and body are parts of the text, and need not be kept besides. */
interface KeptReading {
  readonly matter?: {
    readonly checked: Matter;
    readonly from: number;
    readonly to: number;
    readonly line: number;
    readonly bodyFrom: number;
    readonly bodyLine: number;
  };
  readonly remarks: readonly RemarkFacts[];
}

function entryOf(file: string, text: string, { checked, ...at }: NonNullable<KeptReading['matter']>): Entry {
  return {
    ...checked,
    file,
    matter: text.slice(at.from, at.to),
    matterLine: at.line,
    body: text.slice(at.bodyFrom),
    bodyLine: at.bodyLine,
  };
}

/** What is kept of a reading; undefined where its parts do not stand in the text as they are. */
function keptOf(text: string, { entry, inPart, remarks }: EntryReading): KeptReading | undefined {
  // What is wrong in it is soon put right.
  if (inPart) return undefined;
  const facts = remarks.map(factsOf);
  if (!entry) return { remarks: facts };
  const { file: _, matter, matterLine, body, bodyLine, ...checked } = entry;
  const from = text.indexOf(matter);
  if (from < 0 || !text.endsWith(body)) return undefined;
  const bodyFrom = text.length - body.length;
  return {
    matter: { checked, from, to: from + matter.length, line: matterLine, bodyFrom, bodyLine },
    remarks: facts,
  };
}

/** Reads an entry's file, or finds what the same text was read as before. */
export function readEntryOnce(file: string, text: string, kept: Kept): EntryReading {
  if (kept === keptNowhere) return readEntry(file, text);
  const key = `entry ${hashOf(file, text)}`;
  const before = kept.get(key) as KeptReading | undefined;
  if (before) {
    const remarks = before.remarks.map(remark);
    return { ...(before.matter && { entry: entryOf(file, text, before.matter) }), remarks };
  }
  const reading = readEntry(file, text);
  const keep = keptOf(text, reading);
  if (keep) kept.put(key, keep);
  return reading;
}
