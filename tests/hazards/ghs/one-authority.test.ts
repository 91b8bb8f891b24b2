// Statements of one authority, and statements that CLP does not have: said wherever they are shown. Which statements CLP
// lacks stands in tests/reference/hazards/h-statements.csv, column scheme.
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { byThemselves } from '../../../src/commands/foresee/by-themselves.js';
import {
  hazardBox,
  isOnlyOfUn,
  labelElements,
  othersDiffer,
  othersDifferShort,
  wording,
} from '../../../src/hazards/ghs/index.js';
import { openJournal } from '../../../src/open.js';
import { resolveNamed } from '../../../src/reagents/index.js';
import { meansOf } from '../../../src/reckoning/means.js';
import { blurb } from '../../../src/site/blurb.js';
import { entry, folderOf, smallJournal } from '../../journal-folder.js';
import { referenceRows } from '../../reference/read.js';

const differing = 'Others differ. Europe: no entry in CLP Annex VI';
const sulfate = hazardBox([{ name: 'sodium sulfate' }]);
const soda = hazardBox([{ name: 'sodium hydroxide', formula: 'NaOH' }]);

describe('a statement that CLP does not have', () => {
  const rows = referenceRows('hazards/h-statements.csv').filter(({ code }) => !code!.includes('+'));
  it('is marked in its wording, and no other is', () => {
    for (const { code, scheme } of rows) {
      const isOfUn = scheme === 'UN only';
      expect(isOnlyOfUn(code!), code).toBe(isOfUn);
      expect(wording(code!)!.includes('(UN GHS, not in CLP)'), code).toBe(isOfUn);
    }
    expect(rows.some(({ scheme }) => scheme === 'UN only')).toBe(true);
  });
  it('is marked on a label, beside those of CLP that are not', () => {
    const box = hazardBox([{ name: 'barium sulfate' }]);
    const pack = { millilitres: 500, forPublic: false, layout: 'one-label' } as const;
    const texts = labelElements(box, pack).statements.map(({ code, text }) => `${code} ${text}`);
    expect(texts).toContain('H402 Harmful to aquatic life (UN GHS, not in CLP).');
    expect(texts).toContain('H412 Harmful to aquatic life with long lasting effects.');
  });
  it('two of CLP in one sentence are none', () => {
    expect([isOnlyOfUn('H315+H319'), isOnlyOfUn('H315+H320'), isOnlyOfUn('H301 + H311')]).toEqual([false, true, false]);
  });
});

describe('one authority’s word, where others differ', () => {
  it('is told of the substance with its statements', () => {
    expect(othersDiffer(sulfate)).toMatchObject([{ name: 'sodium sulfate', codes: ['H320', 'H370'] }]);
    expect(othersDifferShort(sulfate)).toBe('others differ on sodium sulfate (H320, H370)');
  });
  it('is not told where nobody differs', () => {
    expect(othersDiffer(soda)).toEqual([]);
    expect(othersDifferShort(soda)).toBeUndefined();
  });
  it('stands in foresee', () => {
    expect(byThemselves([resolveNamed('sodium sulfate')]).join('\n')).toContain(differing);
  });
  it('stands among the dangers of what could be made', () => {
    const wanted = { names: ['blanc fixe'], formulas: ['BaSO4'], elements: ['Ba'], reactions: [], caution: '' };
    expect(meansOf(wanted, []).dangers.join('\n')).toContain(`blanc fixe: ${differing}`);
  });

  const facts = 'reagents: [{ reagent: { name: sodium sulfate, formula: Na2SO4 }, amount: 3 g }]\n';
  const opened = async () =>
    (await openJournal(join(folderOf(smallJournal({ 'journal/entries/014-a.md': entry(14, facts) })), 'journal')))
      .model!;
  it('stands in the hazards of a blurb, however short', async () => {
    const made = blurb(await opened(), 14, { comment: true });
    expect(made.ok && made.value.text).toContain('others differ on sodium sulfate (H320, H370)');
  });
});
