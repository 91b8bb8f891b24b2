// Every harmonised entry of the metals of this trade, against ECHA's table of CLP Annex VI up to ATP23.
import { describe, expect, test } from 'vitest';
import {
  hazardBox,
  labelCodesOf,
  pictogramsOf,
  signalWordOf,
  substances,
  type Substance,
  type SubstanceQuery,
} from '../../../src/hazards/ghs/index.js';
import { referenceRows } from '../../reference/read.js';

const published = referenceRows('hazards/harmonised-metals.csv');
const list = (cell: string | undefined): string[] =>
  (cell ?? '')
    .split(';')
    .map((part) => part.trim())
    .filter((part) => part !== '');
const sorted = (cells: readonly string[]): string[] => [...cells].sort();

// The entry of barium chromate becomes compulsory on 1 February 2027. Until then the group entry for barium salts
// reaches it, whose acute toxicity our row keeps.
const keepsMore: Readonly<Record<string, readonly string[]>> = { '056-006-00-9': ['H302', 'H332'] };

const entryOf = (row: Readonly<Record<string, string>>): Substance =>
  substances().find((one) => one.indexNumber === row['ec_index_no'] && one.group === (row['kind'] === 'group entry'))!;

describe('every published entry', () => {
  test('there are 141', () => {
    expect(published).toHaveLength(141);
  });
  test.each(published.map((row) => [`${row['ec_index_no']} ${row['name']!.slice(0, 60)}`, row] as const))(
    '%s',
    (_, row) => {
      const ours = entryOf(row);
      const more = keepsMore[row['ec_index_no']!] ?? [];
      const euh = list(row['euh_codes']);
      expect(sorted(ours.codes)).toEqual(sorted([...list(row['h_codes']), ...euh, ...more]));
      expect(ours.basis).toBe('harmonised');
      if (more.length > 0) return;
      expect(sorted(ours.labelCodes)).toEqual(sorted([...list(row['label_h_codes']), ...euh]));
      expect(sorted(labelCodesOf(ours.codes))).toEqual(sorted([...list(row['label_h_codes']), ...euh]));
      expect(sorted(pictogramsOf(ours.classes))).toEqual(sorted(list(row['pictograms'])));
      expect(signalWordOf(ours.classes) ?? 'none').toBe(row['signal_word'] || 'none');
      expect(ours.acuteMFactor).toBe(Number(row['m_acute'] || 1));
      expect(ours.limits).toHaveLength(list(row['specific_conc_limits']).length);
      expect(ours.estimates).toHaveLength(list(row['ate']).length);
      expect(ours.limitsCountMetal).toBe(list(row['clp_notes']).includes('1'));
    },
  );
});

describe('whatever it is called, no statement of the label is missing', () => {
  const shown = (query: SubstanceQuery): readonly string[] =>
    hazardBox([{ name: '?', ...query }]).statements.map((one) => one.code);
  // Pyrophoric and nano forms count only where they are called so.
  const inForm = published.filter((row) => entryOf(row).form === '');
  const single = inForm.filter((row) => row['kind'] !== 'group entry');

  test.each(single.map((row) => [row['name']!, row] as const))('%s', (name, row) => {
    const queries: readonly SubstanceQuery[] = [
      { name },
      ...list(row['cas']).map((cas) => ({ cas })),
      ...list(row['formula']!.replace(/ \(and hydrates\)/, '')).map((formula) => ({ formula })),
    ];
    for (const query of queries) {
      const codes = shown(query);
      for (const code of list(row['label_h_codes'])) {
        const graver = { H319: 'H318', H411: 'H410', H412: 'H411' }[code];
        expect(codes.includes(code) || (graver && codes.includes(graver)), `${JSON.stringify(query)} ${code}`).toBe(
          true,
        );
      }
    }
  });
});

// Compounds that a pigment maker meets and that fall under a group entry, with the group: the entries' own wording,
// column `covers` of the reference.
describe('group entries reach', () => {
  test.each([
    ['Pb2Sb2O7', ['lead', 'antimony']],
    ['PbWO4', ['lead']],
    ['PbMoO4', ['lead']],
    ['Cu(AsO2)2', ['arsenic']],
    ['Co3(AsO4)2', ['arsen']],
    ['Cd3(AsO4)2', ['cadmium', 'arsen']],
    ['CdWO4', ['cadmium']],
    ['Na2SeO4', ['selenium']],
    ['BaMnO4', ['barium']],
    ['Ba(CH3COO)2', ['barium']],
    ['HgI2', ['mercury']],
    ['HgO', ['mercury']],
    ['KSbC4H4O7', ['antimony']],
    ['CuCrO4', ['chromium']],
    ['Ag2CrO4', ['chromium']],
  ])('%s', (formula, groups) => {
    const box = hazardBox([{ name: formula, formula }]);
    expect([box.unknown, box.substances![0]!.found]).toEqual([[], 'group']);
    const notes = box.notes!.map((note) => note.text).join(' ');
    for (const group of groups) expect(notes).toContain(group);
  });
});
