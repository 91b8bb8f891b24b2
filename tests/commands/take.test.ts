// masstone take: cupboard lists and instrument files as people have them; nothing is ever written over.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linesToPaste, samplesFor } from '../../src/journal/take-readings.js';
import { isCupboardList, takeShelf } from '../../src/journal/take-shelf.js';
import { readShelf } from '../../src/journal/yaml-file.js';
import { folderOf, masstone, smallJournal } from '../journal-folder.js';

const shelf = readShelf(
  'shelf.yaml',
  'blue-vitriol: { name: blue vitriol, formula: CuSO4·5H2O, cas: 7758-99-8 }\nlye: { name: lye, formula: NaOH, ' +
    'cas: 1310-73-2, strength: 2.0 mol/L }\n',
).shelf;
const taken = (text: string, currency?: string) => {
  const outcome = takeShelf(text, shelf, currency);
  if (!outcome.ok) throw new Error(outcome.fault.message);
  return outcome.value;
};

const list = [
  'Chemical;CAS No.;Formula;Amount;Cost (EUR);Bought from;Colour of the lid',
  'Alum;7784-24-9;KAl(SO4)2·12H2O;1 kg;"3,10";Chemist;red',
  'Copper sulphate;7758-99-8;;;;;',
  'Caustic soda;1310-73-2;NaOH;;;;',
  'Rust;1309-37-2;Fe2O3;;2.00;;',
  ';;;;;;',
  ';7732-18-5;H2O;;;;',
].join('\r\n');

describe('a cupboard list', () => {
  it('is read by its headings, whatever their order and the mark between cells', () => {
    const { columns, reagents } = taken(list);
    expect(columns.map(({ key }) => key)).toEqual(['name', 'cas', 'formula', 'pack', 'price', 'supplier', undefined]);
    expect(reagents[0]).toEqual({
      id: 'alum',
      line: 2,
      fields: {
        name: 'Alum',
        formula: 'KAl(SO4)2·12H2O',
        cas: '7784-24-9',
        price: '3.10 EUR / 1 kg',
        supplier: 'Chemist',
      },
    });
  });

  it.each([
    ['Bezeichnung;Formel;Konzentration;Preis;Lieferant;Menge\nEisenvitriol;FeSO4·7H20;;"7,90 €";Apotheke;500 g'],
    ['Nom;Formule;Concentration;Prix;Fournisseur;Quantité\nEisenvitriol;FeSO4·7H20;;"7,90 €";Apotheke;500 g'],
    ['Nombre;Fórmula;Concentración;Precio;Proveedor;Cantidad\nEisenvitriol;FeSO4·7H20;;"7,90 €";Apotheke;500 g'],
  ])('is read in other languages, and what can only be meant in one way as that: %s', (text) => {
    const { columns, reagents, notes } = taken(text);
    expect(columns.map(({ key }) => key)).toEqual(['name', 'formula', 'strength', 'price', 'supplier', 'pack']);
    expect(reagents[0]!.fields).toEqual({
      name: 'Eisenvitriol',
      formula: 'FeSO4·7H2O',
      price: '7.90 € / 500 g',
      supplier: 'Apotheke',
    });
    expect(notes.map(({ message }) => message)).toEqual([
      "formula of Eisenvitriol: 'FeSO4·7H20' is read as FeSO4·7H2O.",
    ]);
  });

  it('what is on the shelf already is told by name, or by CAS number at the same strength', () => {
    const { reagents, yaml } = taken(list);
    expect(reagents.map(({ already }) => already)).toEqual([undefined, 'blue-vitriol', undefined, undefined]);
    expect(yaml).not.toContain('Copper sulphate');
    // Caustic soda without a strength is not the lye of 2 mol/L.
    expect(yaml).toContain('caustic-soda:');
  });

  it('a cell that does not fit is left out with its place and the reason, and the rest of its row is kept', () => {
    const { reagents, notes } = taken(list);
    expect(notes.map(({ line, column }) => [line, column])).toEqual([
      [5, 2],
      [5, 5],
      [7, undefined],
    ]);
    expect(notes[0]?.message).toMatch(/cas of Rust left out: .*last digit/);
    expect(reagents.find(({ id }) => id === 'rust')?.fields).toEqual({ name: 'Rust', formula: 'Fe2O3' });
  });

  it('what is printed is a shelf that reads back without a remark', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(fc.string({ maxLength: 30 }), { minLength: 3, maxLength: 3 }), { maxLength: 8 }),
        (rows) => {
          const csv = [
            'name,note,supplier',
            ...rows.map((row) => row.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(',')),
          ];
          const outcome = takeShelf(csv.join('\n'), shelf);
          if (!outcome.ok) return;
          const back = readShelf('shelf.yaml', outcome.value.yaml);
          expect(back.remarks.map(String)).toEqual([]);
          expect([...back.shelf.reagents.keys()]).toEqual(
            outcome.value.reagents.flatMap(({ id, already }) => (already === undefined ? [id] : [])),
          );
        },
      ),
    );
  });

  it('without a column of names, rows or closed quotation marks it says what is missing', () => {
    expect(takeShelf('stuff,cas\nalum,7784-24-9\n', shelf)).toMatchObject({
      ok: false,
      fault: { code: 'no-name-column' },
    });
    expect(takeShelf('name,cas\n', shelf)).toMatchObject({ ok: false, fault: { code: 'no-rows' } });
    expect(takeShelf('', shelf)).toMatchObject({ ok: false, fault: { code: 'no-rows' } });
    expect(takeShelf('name,cas\n"alum,1\n', shelf)).toMatchObject({ ok: false, fault: { code: 'csv' } });
  });

  it('is told from a file of readings', () => {
    expect(isCupboardList(list)).toBe(true);
    expect(isCupboardList('wavelength,reflectance\n400,0.1\n')).toBe(false);
    expect(isCupboardList('')).toBe(false);
  });
});

describe('masstone take', () => {
  const csv = 'name,formula\nAlum,KAl(SO4)2·12H2O\nblue vitriol,CuSO4·5H2O\n';
  const curve = `wavelength,reflectance\n${Array.from({ length: 31 }, (_, at) => `${400 + 10 * at},0.${20 + at}`).join('\n')}\n`;

  it('shows what it would add, and adds it at the end of the shelf only when asked', () => {
    const folder = folderOf(smallJournal({ 'cupboard.csv': csv }));
    const file = join(folder, 'journal/shelf.yaml');
    const before = readFileSync(file, 'utf8');
    const preview = masstone(['take', 'cupboard.csv', '--journal', 'journal'], folder);
    expect(preview.status).toBe(0);
    expect(preview.stdout).toBe('alum:\n  name: Alum\n  formula: KAl(SO4)2·12H2O\n');
    expect(preview.stderr).toContain('left as they are: blue-vitriol');
    expect(readFileSync(file, 'utf8')).toBe(before);
    const done = masstone(['take', 'cupboard.csv', '--journal', 'journal', '--write', '--json'], folder);
    expect(JSON.parse(done.stdout)).toMatchObject({
      written: true,
      reagents: [{ id: 'alum' }, { already: 'blue-vitriol' }],
    });
    expect(readFileSync(file, 'utf8')).toBe(before + preview.stdout);
    expect(masstone(['take', 'cupboard.csv', '--journal', 'journal', '--write'], folder).stderr).toContain('0 added');
    expect(readFileSync(file, 'utf8')).toBe(before + preview.stdout);
  });

  it('prints the lines that name instrument files, and copies in what lies outside, never over another file', () => {
    const folder = folderOf(
      smallJournal({ 'out/3-B.csv': curve, 'out/3-A.csv': curve, 'journal/spectra/3-A.csv': 'another file' }),
    );
    const words = ['take', 'out/3-A.csv', 'out/3-B.csv', '--journal', 'journal'];
    const shown = masstone(words, folder);
    expect(shown.stdout).toBe(
      'samples:\n  - sample: A\n    colour:\n      spectrum: spectra/3-A.csv\n  - sample: B\n    colour:\n     ' +
        ' spectrum: spectra/3-B.csv\n',
    );
    expect(existsSync(join(folder, 'journal/spectra/3-B.csv'))).toBe(false);
    const refused = masstone([...words, '--write', '--json'], folder);
    expect(refused.status).toBe(1);
    expect(JSON.parse(refused.stdout)).toMatchObject({ error: { code: 'exists' } });
    expect(readFileSync(join(folder, 'journal/spectra/3-A.csv'), 'utf8')).toBe('another file');
    expect(masstone(['take', 'out/3-B.csv', '--journal', 'journal', '--write'], folder).status).toBe(0);
    expect(readFileSync(join(folder, 'journal/spectra/3-B.csv'), 'utf8')).toBe(curve);
  });

  it('says of each file that cannot be read why, and goes on with the others', () => {
    const folder = folderOf(smallJournal({ 'journal/spectra/a.csv': curve, 'journal/spectra/b.txt': 'no numbers' }));
    const mixed = masstone(
      ['take', 'journal/spectra/a.csv', 'journal/spectra/b.txt', '--journal', 'journal', '--json'],
      folder,
    );
    expect(mixed.status).toBe(1);
    expect(JSON.parse(mixed.stdout)).toMatchObject({
      samples: [{ sample: 'A', path: 'spectra/a.csv' }],
      refused: [{ file: 'journal/spectra/b.txt' }],
    });
    const none = masstone(['take', 'nowhere.csv', '--json'], folder);
    expect(none.status).toBe(1);
    expect(JSON.parse(none.stdout)).toMatchObject({ error: { code: 'file' } });
    expect(masstone(['take'], folder).status).toBe(2);
  });

  it('a shelf with an error in it is not added to', () => {
    const folder = folderOf(smallJournal({ 'cupboard.csv': csv, 'journal/shelf.yaml': 'a: [\n' }));
    const refused = masstone(['take', 'cupboard.csv', '--journal', 'journal', '--write', '--json'], folder);
    expect(refused.status).toBe(1);
    expect(JSON.parse(refused.stdout)).toMatchObject({ error: { code: 'shelf' } });
    expect(readFileSync(join(folder, 'journal/shelf.yaml'), 'utf8')).toBe('a: [\n');
  });
});

describe('samples of instrument files', () => {
  it('have the letter of the file’s name, the rest go in order; several in one file are named', () => {
    const named = (...paths: string[]) =>
      samplesFor(paths.map((path) => ({ path, sets: [] }))).samples.map(({ sample }) => sample);
    expect(named('spectra/14-B.csv', 'spectra/14-C.csv')).toEqual(['B', 'C']);
    expect(named('spectra/14-B.csv', 'spectra/scan.csv')).toEqual(['B', 'A']);
    expect(samplesFor([{ path: 'spectra/x.cgats', sets: ['Cadmium A', 'Cadmium B'] }]).samples).toEqual([
      { sample: 'A', path: 'spectra/x.cgats', set: 'Cadmium A' },
      { sample: 'B', path: 'spectra/x.cgats', set: 'Cadmium B' },
    ]);
    const many = named(...Array.from({ length: 60 }, (_, at) => `spectra/scan${at}.csv`));
    expect(new Set(many).size).toBe(60);
  });
  it('are one where a file holds readings that are named as it is, and are those of the entry that names tell', () => {
    const sets = ['1-A #1', '1-A #2', '1-A #3'];
    const files = [
      { path: 'spectra/1-A.csv', sets },
      { path: 'spectra/1-B.csv', sets: [] },
      { path: 'spectra/2-A.csv', sets: [] },
    ];
    const { samples, notes } = samplesFor(files);
    expect(samples).toEqual([
      { sample: 'A', path: 'spectra/1-A.csv', set: 'all', entry: '1' },
      { sample: 'B', path: 'spectra/1-B.csv', entry: '1' },
      { sample: 'A', path: 'spectra/2-A.csv', entry: '2' },
    ]);
    expect(notes).toEqual([]);
    expect(linesToPaste(samples)).toMatch(/^# Entry 1\nsamples:\n[^#]*set: all\n[^#]*# Entry 2\nsamples:\n/);
    expect(samplesFor([{ path: 'malachite_b.txt', sets: ['Malachite B 1', 'Malachite B 2'] }]).samples).toEqual([
      { sample: 'B', path: 'malachite_b.txt', set: 'all' },
    ]);
  });
  it('that names leave open are told', () => {
    const notesOf = (...files: (readonly [string, ...string[]])[]) => {
      const { samples, notes } = samplesFor(files.map(([path, ...sets]) => ({ path, sets })));
      return [samples.map(({ sample }) => sample).join(''), notes.join('\n')];
    };
    expect(notesOf(['scan.csv', 'Sample 1', 'Sample 2'])).toEqual([
      'AB',
      expect.stringMatching(/differ in their count alone \(Sample 1 … Sample 2\): .*set: all/) as string,
    ]);
    expect(notesOf(['x-B.csv'], ['y-B.csv'])).toEqual(['BA', expect.stringMatching(/^y-B.csv gives the letter B/)]);
    expect(notesOf(['x-B.csv'], ['scan.csv'])).toEqual(['BA', expect.stringMatching(/^scan.csv gives no letter/)]);
    expect(notesOf(['1-chalk-A.csv'], ['2-chalk-B.csv'])).toEqual([
      'AB',
      expect.stringMatching(/different numbers \(1, 2\)/),
    ]);
    expect(notesOf(['2026-03-14-A.csv'], ['2026-03-15-B.csv'])).toEqual(['AB', '']);
  });
});
