// Every published row is found by whatever it is called; what has no row is a group entry or unknown, never nothing.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { findSubstance, substances } from '../../../src/hazards/ghs/index.js';
import { referenceRows } from '../../reference/read.js';

const published = referenceRows('hazards/substances.csv');
const cas = /\b\d{2,7}-\d{2}-\d\b/;
const list = (cell: string | undefined): string[] =>
  (cell ?? '')
    .split(';')
    .map((part) => part.trim())
    .filter((part) => part !== '');
const textOf = (found: ReturnType<typeof findSubstance>): string => found.notes.map((note) => note.text).join(' ');
const namesFound = (query: Parameters<typeof findSubstance>[0]): readonly string[] =>
  findSubstance(query).rows.map((row) => row.name);

describe('the published table', () => {
  test('has all its rows in ours, with classification, statements, limits and source unchanged', () => {
    expect(published.length).toBe(165);
    const ours = new Map(substances().map((row) => [row.name, row]));
    for (const row of published) {
      const mine = ours.get(row['name']!);
      expect(mine, row['name']).toBeDefined();
      expect([
        mine!.casNumbers[0] ?? '',
        row['formula'] === '' ? '' : mine!.formulae[0],
        mine!.codes.join('; '),
        mine!.labelCodes.join('; '),
        mine!.pictograms.join('; '),
        mine!.signalWord ?? '',
        mine!.basis,
      ]).toEqual([
        row['cas'],
        row['formula'],
        row['h_codes'],
        row['label_h_codes'],
        row['pictograms'],
        row['signal_word'],
        row['basis'],
      ]);
      expect(mine!.source).toBe(row['source_title'] || 'from memory, no document seen');
    }
  });

  test.each(published.map((row) => [row['name']!, row] as const))(
    '%s is found by name, by each synonym, by CAS number and by formula',
    (name, row) => {
      // One name stands for two rows of the source: iron(II) sulfate, dry and as heptahydrate. One formula, SiO2, for
      // the crystalline and the amorphous forms of silica.
      const shared = /^iron\(II\) sulfate|^silica/.test(name);
      const lone = (found: readonly string[], by: string): void => {
        if (shared) expect(found, by).toContain(name);
        else expect(found, by).toEqual([name]);
      };
      lone(namesFound({ name }), name);
      for (const part of list(row['name'])) expect(namesFound({ name: part })).toContain(name);
      for (const synonym of list(row['synonyms'])) {
        const number = cas.exec(synonym)?.[0];
        if (number) expect(namesFound({ cas: number }), synonym).toContain(name);
        else lone(namesFound({ name: synonym.replace(/^group entry: /, '') }), synonym);
      }
      if (row['cas']) expect(namesFound({ cas: row['cas'] }), row['cas']).toContain(name);
      if (row['formula']) lone(namesFound({ formula: row['formula'] }), row['formula']);
    },
  );

  test('has as many statements as classes in every row, each class with a statement of its own', () => {
    for (const row of substances()) {
      for (const held of row.classes)
        expect(held.hazardClass === 'Press. Gas' || held.code !== '', `${row.name}: ${held.hazardClass}`).toBe(true);
      expect(
        [...row.classes.map((held) => held.code).filter((code) => code !== ''), ...row.supplementary],
        row.name,
      ).toEqual(row.codes);
    }
  });
});

describe('names', () => {
  // Spelling variants of published names: IUPAC Red Book spellings and older trade names, from memory.
  test.each([
    ['Copper(II) Sulphate Pentahydrate', 'copper sulphate pentahydrate'],
    ['cupric sulfate pentahydrate', 'copper sulphate pentahydrate'],
    ['copper (ii) carbonate', undefined],
    ['iron(2+) sulphate heptahydrate', 'iron(II) sulfate heptahydrate'],
    ['iron(III) chloride hexahydrate', 'iron(III) chloride'],
    ['Ferric Chloride', 'iron(III) chloride'],
    ['zinc(II) oxide', 'zinc oxide'],
    ['SODIUM-HYDROXIDE', 'sodium hydroxide'],
    ['aluminum sulfate', 'aluminium sulfate'],
    ['nitric acid', 'nitric acid … % [C ≤ 70 %]'],
    ['hydrochloric acid 10 %', 'hydrochloric acid … %'],
    ['glacial acetic acid', 'acetic acid … %'],
    ['PR106', 'mercury(II) sulfide'],
    ['lead(IV) oxide', 'lead compounds with the exception of those specified elsewhere in Annex VI'],
  ])('%s', (name, expected) => {
    expect(namesFound({ name })).toEqual(expected ? [expected] : []);
  });

  test('a name that fits several rows gives all of them and says so', () => {
    const found = findSubstance({ name: 'iron chloride' });
    expect(found.rows.map((row) => row.name).sort()).toEqual(['iron(II) chloride', 'iron(III) chloride']);
    expect(found.notes.map((note) => note.text).join(' ')).toContain('fits');
  });

  test('name and formula that disagree are both counted', () => {
    const found = findSubstance({ name: 'sodium nitrate', formula: 'NaNO2' });
    expect(found.rows.map((row) => row.name).sort()).toEqual(['sodium nitrate', 'sodium nitrite']);
    expect(found.notes.map((note) => note.text).join(' ')).toContain('do not name the same substance');
  });
});

describe('hydrates', () => {
  test.each([
    ['CuSO4', 'copper sulphate'],
    ['CuSO4·5H2O', 'copper sulphate pentahydrate'],
    ['CuSO4·3H2O', 'copper sulphate pentahydrate'],
    ['Co(NO3)2', 'cobalt dinitrate'],
    ['Na2CO3·10H2O', 'sodium carbonate'],
    ['FeSO4·4H2O', 'iron(II) sulfate heptahydrate'],
    ['ZnSO4', 'zinc sulphate (mono-, hexa- and heptahydrate and anhydrous)'],
    ['AlCl3', 'aluminium chloride, anhydrous'],
    ['AlCl3·9H2O', 'aluminium chloride hexahydrate'],
  ])('%s', (formula, expected) => {
    expect(namesFound({ formula })).toEqual([expected]);
  });

  test('a content of water that the table does not list is said to be read across', () => {
    expect(
      findSubstance({ formula: 'CuSO4·3H2O' })
        .notes.map((note) => note.text)
        .join(' '),
    ).toContain('read across');
    expect(findSubstance({ formula: 'CuSO4·5H2O' }).notes).toEqual([]);
  });
});

describe('group entries', () => {
  // Wording and exceptions of the group entries: CLP Annex VI Table 3, as in the reference rows; those marked * from
  // memory.
  test.each([
    ['PbI2', ['082-001-00-6']],
    ['Pb3(OH)2(CO3)2·H2O', undefined],
    ['Pb2Sb2O7', ['082-001-00-6', '051-003-00-9']],
    ['MgCrO4', ['024-017-00-8']],
    ['4ZnCrO4·K2O·3H2O', ['024-017-00-8']],
    ['Pb2CrO5', ['082-001-00-6', '024-017-00-8']],
    ['CdSe', ['048-001-00-5', '034-002-00-8']],
    ['Cd3(PO4)2', ['048-001-00-5']],
    ['CuHAsO3', ['033-002-00-5']],
    ['Co3(AsO4)2·8H2O', ['033-005-00-1']],
    ['Hg2SO4', ['080-002-00-6']],
    ['BaMnO4', ['056-002-00-7']],
    ['KCN', ['006-007-00-5']],
    ['CuCN', ['006-007-00-5']],
    ['FeC2O4·2H2O', ['607-007-00-3']], // *
    ['KSCN', ['615-004-00-3']], // *
    ['Pb(Cr,Mo,S)O4', ['082-001-00-6', '024-017-00-8']], // mixed sites: only the elements can be made out
    ['CuHAsO3 (variable)', ['033-002-00-5']],
  ])('%s', (formula, expected) => {
    const found = findSubstance({ formula });
    if (expected) expect([found.found, found.rows.map((row) => row.indexNumber)]).toEqual(['group', expected]);
    else expect(found.found).toBe('row');
  });

  test.each([
    'K4Mn(CN)6',
    'Cr2O3',
    'KCr(SO4)2·12H2O',
    'BaSO4',
    'HgS',
    'Sb2S3',
    'Cu2[Fe(CN)6]',
    'MgCr2O4',
    'Co(Al,Cr)2O4',
    'Cd0.8Zn0.2S and neighbours',
  ])('%s is not taken into a group that leaves it out', (formula) => {
    const wrong = findSubstance({ formula });
    if (formula === 'K4Mn(CN)6')
      // Only iron, cobalt and chromium hold cyanide fast.
      expect(wrong.rows.map((row) => row.indexNumber)).toEqual(['006-007-00-5']);
    else expect(wrong.found).not.toBe('group');
  });
});

describe('an entry of its own goes before a group entry (CLP Annex VI Table 3)', () => {
  test.each([
    [{ formula: 'SrCrO4' }, '024-009-00-4'],
    [{ formula: 'CdCO3' }, '048-012-00-5'],
    [{ name: 'cadmium nitrate tetrahydrate' }, '048-014-00-6'],
    [{ formula: 'Cd(NO3)2·4H2O' }, '048-014-00-6'],
    [{ formula: 'Hg2Cl2' }, '080-003-00-1'],
    [{ name: 'mercurous chloride' }, '080-003-00-1'],
    [{ name: 'strontium chromate' }, '024-009-00-4'],
    [{ formula: 'NiTiO3' }, '028-057-00-7'],
    [{ name: 'cobalt acetate', formula: 'Co(CH3COO)2·4H2O' }, '027-006-00-6'],
    [{ formula: 'Ni(NO3)2·6H2O' }, '028-012-00-1'],
  ])('%o', (query, indexNumber) => {
    const found = findSubstance(query);
    expect([found.found, found.rows.map((row) => row.indexNumber)]).toEqual(['row', [indexNumber]]);
  });
});

describe('elements without a group entry', () => {
  const codes = (formula: string): readonly string[] => {
    const found = findSubstance({ formula });
    return found.found === 'by-element' ? found.byElement.flatMap((row) => row.codes) : [];
  };
  // Classes of the harmonised entries of cobalt and nickel compounds: CLP Annex VI Table 3, 027- and 028-.
  test('a cobalt compound of no entry carries what most cobalt compounds carry', () => {
    expect([...codes('Co2SiO4')].sort()).toEqual(['H317', 'H334', 'H341', 'H350i', 'H360F', 'H400', 'H410']);
  });
  test('so does a nickel compound', () => {
    expect(codes('NiWSiO5')).toEqual(expect.arrayContaining(['H350i', 'H372', 'H317', 'H410']));
  });
  test('and what is not known besides is said', () => {
    const found = findSubstance({ name: 'cobalt stannate' });
    expect([found.found, found.notes.map((note) => note.kind)]).toEqual(['by-element', ['by-element']]);
    expect(found.notes[0]!.text).toContain('What else it may do is not known');
  });
  test('cobalt arsenate is taken as an arsenate and as a cobalt compound', () => {
    const found = findSubstance({ formula: 'Co3(AsO4)2·8H2O' });
    expect(found.found === 'group' && found.byElement.map((row) => row.name)).toEqual(['cobalt compounds']);
  });
  test('an element alone, or a compound of another, is not', () => {
    expect(codes('Ti')).toEqual([]);
    expect(findSubstance({ formula: 'MgTiO3' }).found).toBe('unknown');
  });
});

describe('forms of one substance', () => {
  const namesOf = (query: Parameters<typeof findSubstance>[0]): readonly string[] =>
    findSubstance(query).rows.map((row) => row.indexNumber);
  test('copper counts as coated flake only where it is called so: a wire is not toxic by inhalation', () => {
    const harmful = (name: string): boolean => {
      const { rows } = findSubstance({ name, formula: 'Cu' });
      return rows.some(({ codes }) => codes.includes('H331'));
    };
    for (const name of ['copper wire', 'copper sheet', 'copper pipe', 'Kupferblech', 'brass wire', 'copper scrap'])
      expect([name, harmful(name)]).toEqual([name, false]);
    for (const name of ['copper flakes', 'bronze powder', 'gold bronze', 'copper bronze powder', 'dutch metal'])
      expect([name, harmful(name)]).toEqual([name, true]);
    for (const name of ['brass powder', 'copper leaf', 'C.I. Pigment Metal 2', 'Kupferflocken', 'lining bronze'])
      expect([name, harmful(name)]).toEqual([name, true]);
  });
  test('zinc counts as pyrophoric only where it is called so', () => {
    expect(namesOf({ name: 'zinc', cas: '7440-66-6' })).toEqual(['030-001-01-9']);
    expect(namesOf({ name: 'zinc dust, pyrophoric', cas: '7440-66-6' })).toEqual(['030-001-00-1', '030-001-01-9']);
  });
  test('lead of no stated form is powder and pieces both', () => {
    expect(namesOf({ name: 'lead' })).toEqual(['082-013-00-1', '082-014-00-7']);
  });
});

describe('group entries by a systematic name alone', () => {
  test.each([
    ['cadmium phosphate tetrahydrate', ['048-001-00-5']],
    ['lead(II) iodide', ['082-001-00-6']],
    ['mercurous sulfate', ['080-002-00-6']],
    ['magnesium chromate', ['024-017-00-8']],
    ['lead antimonate', ['082-001-00-6', '051-003-00-9']],
    ['copper arsenite', ['033-002-00-5']],
    ['cobalt arsenate', ['033-005-00-1']],
    ['potassium cyanide', ['006-007-00-5']],
    ['barium manganate', ['056-002-00-7']],
  ])('%s', (name, expected) => {
    const found = findSubstance({ name });
    expect([found.found, found.rows.map((row) => row.indexNumber)]).toEqual(['group', expected]);
    expect(found.notes[0]!.text).toContain('because of its name');
  });
  test.each([
    'cadmium red hue',
    'lead pencil',
    'potassium nickelocyanide',
    'antimony trisulfide',
    'antimony pentoxide',
  ])('%s is not taken into a group', (name) => {
    expect(['unknown', 'row']).toContain(findSubstance({ name }).found);
  });
  test('a formula goes before the name', () => {
    expect(findSubstance({ name: 'lead something chloride', formula: 'RbCl' }).found).toBe('unknown');
  });
});

describe('what is not in the table', () => {
  test.each([
    ['rubidium chloride', 'RbCl'],
    ['dragon’s blood', undefined],
    ['manganese titanate', 'MnTiO3'],
    ['nonsense', 'Xx9'],
  ])('%s is unknown and says so', (name, formula) => {
    const found = findSubstance({ name, formula });
    expect([found.found, found.rows.length]).toEqual(['unknown', 0]);
    expect(found.notes[0]!.text).toContain('No hazard data');
  });

  test('what substances with the same metal carry is told beside an unknown compound', () => {
    const told = textOf(findSubstance({ formula: 'Mn2SiO4' }));
    expect(told).toMatch(/with Mn as their only metal, half or more carry .*H37\d/);
    expect(findSubstance({ formula: 'MgTiO3' }).found).toBe('unknown');
  });
});

describe('forms of one substance', () => {
  const namesOf = (query: Parameters<typeof findSubstance>[0]): readonly string[] =>
    findSubstance(query).rows.map((row) => row.indexNumber);
  test('zinc counts as pyrophoric only where it is called so', () => {
    expect(namesOf({ name: 'zinc', cas: '7440-66-6' })).toEqual(['030-001-01-9']);
    expect(namesOf({ name: 'zinc dust, pyrophoric', cas: '7440-66-6' })).toEqual(['030-001-00-1', '030-001-01-9']);
  });
  test('lead of no stated form is powder and pieces both', () => {
    expect(namesOf({ name: 'lead' })).toEqual(['082-013-00-1', '082-014-00-7']);
  });
});

describe('group entries by a systematic name alone', () => {
  test.each([
    ['cadmium phosphate tetrahydrate', ['048-001-00-5']],
    ['lead(II) iodide', ['082-001-00-6']],
    ['mercurous sulfate', ['080-002-00-6']],
    ['magnesium chromate', ['024-017-00-8']],
    ['lead antimonate', ['082-001-00-6', '051-003-00-9']],
    ['copper arsenite', ['033-002-00-5']],
    ['cobalt arsenate', ['033-005-00-1']],
    ['potassium cyanide', ['006-007-00-5']],
    ['barium manganate', ['056-002-00-7']],
  ])('%s', (name, expected) => {
    const found = findSubstance({ name });
    expect([found.found, found.rows.map((row) => row.indexNumber)]).toEqual(['group', expected]);
    expect(found.notes[0]!.text).toContain('because of its name');
  });
  test.each([
    'cadmium red hue',
    'lead pencil',
    'potassium nickelocyanide',
    'antimony trisulfide',
    'antimony pentoxide',
  ])('%s is not taken into a group', (name) => {
    expect(['unknown', 'row']).toContain(findSubstance({ name }).found);
  });
  test('a formula goes before the name', () => {
    expect(findSubstance({ name: 'lead something chloride', formula: 'RbCl' }).found).toBe('unknown');
  });
});

describe('what is not in the table', () => {
  test.each([
    ['rubidium chloride', 'RbCl'],
    ['dragon’s blood', undefined],
    ['manganese titanate', 'MnTiO3'],
    ['nonsense', 'Xx9'],
  ])('%s is unknown and says so', (name, formula) => {
    const found = findSubstance({ name, formula });
    expect([found.found, found.rows.length]).toEqual(['unknown', 0]);
    expect(found.notes[0]!.text).toContain('No hazard data');
  });

  test('what substances with the same metal carry is told beside an unknown compound', () => {
    expect(textOf(findSubstance({ formula: 'BaTiO3' }))).toMatch(/with Ba in the table, most carry|barium salts/);
    expect(findSubstance({ formula: 'MgTiO3' }).notes).toHaveLength(1);
  });

  test('no text makes the search fail, and unknown always carries a note', () => {
    fc.assert(
      fc.property(fc.string(), fc.string(), fc.string(), (name, formula, number) => {
        const found = findSubstance({ name, formula, cas: number });
        const rows = 'byElement' in found ? [...found.rows, ...found.byElement] : found.rows;
        expect(found.found === 'unknown' ? found.notes.length : rows.length).toBeGreaterThan(0);
      }),
    );
  });
});
