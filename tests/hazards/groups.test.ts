// Groups of substances: every row of the table is tried on the members and the traps that it names itself.
import { describe, expect, it } from 'vitest';
import { constituents } from '../../src/reagents/constituents.js';
import { groups, groupUnits, undiluted } from '../../src/hazards/foresee/groups.js';

const units = (group: string, formula: string): number => {
  const read = constituents(formula);
  if (!read.ok) throw new Error(`${formula}: ${read.fault.message}`);
  return groupUnits(group, read.value, undiluted);
};

describe('each group takes in the members of its own row and none of its traps', () => {
  for (const group of groups().values()) {
    // Groups of the whole pot, and one that wants a stated strength, are tried on the rules that name them.
    if (group.test.startsWith('pot ') || group.test.includes(' stated ')) continue;
    it(group.id, () => {
      expect(group.members.length, 'a group names at least one member').toBeGreaterThan(0);
      expect(
        group.members.filter((formula) => units(group.id, formula) <= 0),
        'members left out',
      ).toEqual([]);
      expect(
        group.notMembers.filter((formula) => units(group.id, formula) > 0),
        'traps taken in',
      ).toEqual([]);
    });
  }
});

describe('units', () => {
  it('an acid counts its protons', () => {
    expect([units('strong_acid', 'H2SO4'), units('strong_acid', 'HCl'), units('weak_acid', 'C6H8O7')]).toEqual([
      2, 1, 3,
    ]);
  });
  it('a salt of a highly charged metal counts as that many protons', () => {
    expect([
      units('acidic_salt', 'KAl(SO4)2.12H2O'),
      units('acidic_salt', 'NaHSO4'),
      units('acidic_salt', 'Fe2(SO4)3'),
    ]).toEqual([3, 1, 6]);
  });
  it('cyanide in a hexacyanoferrate is bound, in a tetracyanonickelate it is not', () => {
    expect([
      units('simple_cyanide', 'K4Fe(CN)6.3H2O'),
      units('complex_cyanide', 'Fe4[Fe(CN)6]3'),
      units('simple_cyanide', 'K2Ni(CN)4'),
    ]).toEqual([0, 3, 4]);
  });
});
