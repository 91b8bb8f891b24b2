// Dangers that only the words of an entry tell (steps and their heat, washes, waste, the write-up), by somebody who had
// seen the README alone; what happens is from memory. The first run is told in tests/reference/foreseen/README.md.
import { describe, expect, it } from 'vitest';
import { readEntry, remarksOn } from '../../src/journal/index.js';
import { reckonDangers } from '../../src/reckoning/dangers.js';
import { referenceRows } from '../reference/read.js';
import { emptyRoom } from './entries.js';

/** What is told of an entry: as a danger or a warning, and as a note. */
function told({ matter = '', body = '' }: Readonly<Record<string, string>>): { grave: string[]; notes: string[] } {
  const head = '---\nnumber: 7\ntitle: A case\ndate: 2026-01-02\nstatus: finished\n';
  const { entry } = readEntry('entries/007-a.md', `${head}${matter}\n---\n${body}\n`);
  const { dangers, findings } = reckonDangers(entry!, emptyRoom);
  const foreseen = dangers.foreseen ?? [];
  const spoken = remarksOn(entry!, findings).filter(({ ruleId }) => ruleId === 'named-not-judged');
  return {
    grave: foreseen.filter(({ severity }) => severity !== 'note').map((one) => JSON.stringify(one)),
    notes: [...(dangers.cautions ?? []), ...spoken.map(({ reason }) => reason)],
  };
}

/** Of what is only spoken of a note is right. */
const aside: ReadonlySet<string> = new Set(['prose', 'differs', 'precautions']);
const rows = referenceRows('foreseen/words-of-entries.csv');

describe('an entry whose words tell', () => {
  it.each(rows.filter(({ kind }) => kind === 'dangerous').map((row) => [row.id!, row] as const))(
    'of a danger is told it: %s',
    (_, row) => {
      const { grave, notes } = told(row);
      const expected = new RegExp(row.expect!, 'i');
      const isTold = [...grave, ...(aside.has(row.where!) ? notes : [])].some((one) => expected.test(one));
      expect(isTold).toBe(true);
    },
  );
  it.each(rows.filter(({ kind }) => kind === 'harmless').map((row) => [row.id!, row] as const))(
    'of none is told none: %s',
    (_, row) => expect(told(row).grave).toEqual([]),
  );
});

describe('a write-up that alone tells the work', () => {
  const chlorine = /Cl2/;
  it.each([
    'Bleaching the black. Put 30 ml bleach in and then 50 ml vinegar because it was too alkaline. Smelled strong.',
    'Added 20 ml household bleach to it. Afterwards poured in 40 ml vinegar.',
    'Zuerst 30 ml Chlorbleiche hinein, dann 50 ml Essig.',
    'Then bleach 20 ml onto the vinegar.',
    'I poured 30 ml bleach over the warm vinegar.',
  ])('is judged by what it puts in: %s', (body) => {
    expect(told({ body }).grave.some((one) => chlorine.test(one))).toBe(true);
  });
  it.each([
    'Never put 30 ml bleach in with 50 ml vinegar.',
    'I did not add 30 ml bleach, nor 50 ml vinegar.',
    'My aunt talks of bleach and vinegar all day.',
    'Wiped the table with water and looked over the vinegar and the bleach on the shelf.',
  ])('is not judged by what it only speaks of: %s', (body) => expect(told({ body }).grave).toEqual([]));
});
