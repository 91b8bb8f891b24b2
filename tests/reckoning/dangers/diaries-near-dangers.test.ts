// Write-ups that stand alone, as diaries, and lie near a danger: stories of other times, what somebody says, plans that
// were given up, a salt called by its metal, a place beside the fire, streets and colours; and their dangerous twins.
// From memory; which were written before they were run, and how that went, stands in tests/reference/foreseen/README.md.
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../../src/journal/index.js';
import { reckonDangers } from '../../../src/reckoning/dangers/dangers.js';
import { referenceRows } from '../../reference/read.js';
import { emptyRoom } from '../entries.js';

/** What is told of a diary as a danger or a warning. */
function told(body: string): readonly string[] {
  const { entry } = readEntry(
    'entries/007-diary.md',
    `---\nnumber: 7\ntitle: Diary\ndate: 2026-01-07\nstatus: finished\n---\n${body}\n`,
  );
  const { dangers } = reckonDangers(entry!, emptyRoom);
  return (dangers.foreseen ?? []).filter(({ severity }) => severity !== 'note').map((one) => JSON.stringify(one));
}

const rows = referenceRows('foreseen/diaries-near-dangers.csv');
const named = (kind: string) =>
  rows.filter((row) => row.kind === kind).map((row) => [`${row.id} ${row.class}`, row] as const);

describe('diaries that lie near a danger', () => {
  it.each(named('harmless'))(
    'and are harmless are told no danger, or not that one: %s',
    (_, { body, expect: untrue }) => {
      const pattern = new RegExp(untrue!);
      expect(told(body!).filter((one) => pattern.test(one))).toEqual([]);
    },
  );
  it.each(named('dangerous'))('and are dangerous are told it: %s', (_, { body, expect: danger }) => {
    const pattern = new RegExp(danger!);
    expect(told(body!).filter((one) => pattern.test(one))).not.toEqual([]);
  });
});
