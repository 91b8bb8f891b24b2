// Amounts in two units, as ranges and by spoons of other countries; dates and heats in other orders and languages.
import { describe, expect, test } from 'vitest';
import { readEntry } from '../../src/journal/entry-file.js';

const head = (matter: string): string =>
  ['number: 1', 'title: x', 'date: 2026-01-02', 'status: finished']
    .filter((line) => !matter.startsWith(`${line.split(':')[0]}:`))
    .join('\n');
const read = (matter: string) => readEntry('entries/001-x.md', `---\n${head(matter)}\n${matter}\n---\n`);
const amount = (use: string): string | undefined => read(`reagents:\n  - ${use}`).entry?.reagents[0]?.amount;
const obtained = (sample: string): string | undefined => read(`samples:\n  - ${sample}`).entry?.samples[0]?.obtained;

describe('an amount in two units', () => {
  test.each([
    ['alum, 0.5 oz (14.2 g)', '14.2 g'],
    ['water 250 ml / 1 cup', '250 ml'],
    ['{ reagent: chalk, amount: 2 lb = 907 g }', '907 g'],
    ['borax 1/2 oz (14 g)', '14 g'],
    ['{ reagent: borax, amount: 10 g (0.35 oz) }', '10 g'],
    ['vinegar 1 tsp (5 ml)', '5 ml'],
    ['washing soda 1 gestr. EL (ca. 12 g)', 'ca. 12 g'],
    ['{ reagent: soda ash, amount: 100 g / 3.5 oz }', '100 g'],
  ])('%s', (written, meant) => {
    expect(amount(written)).toBe(meant);
  });
  test.each([
    ['alum 5 oz (14.2 g)', '5 oz is about 142 g'],
    ['{ reagent: water, amount: 1 cup (500 ml) }', '1 cup'],
    ['{ reagent: borax, amount: 10 g (3.5 oz) }', '3.5 oz is about 99.2 g'],
  ])('%s says two things, and none is taken', (written, told) => {
    const { entry, inPart, remarks } = read(`reagents:\n  - ${written}`);
    const fault = remarks.find(({ fatal }) => fatal);
    expect(`${fault?.message} ${fault?.note}`).toContain(told);
    expect((entry ?? inPart)?.reagents[0]?.amount).toBeUndefined();
  });
  test('a strength, a share and a remark in brackets are no second amount', () => {
    expect(amount('{ reagent: alum, amount: 5.00 g }')).toBe('5.00 g');
    expect(amount('alum 5 g (scale jumped)')).toBe('5 g');
    expect(amount('vinegar 20 mL (5 %)')).toBe('20 mL');
  });
});

describe('a range', () => {
  test.each([
    ['A 4.4-4.6 g', '4.4-4.6 g'],
    ['A: between 2 and 3 g', '2-3 g'],
    ['A 4,4 bis 4,6 g rosa', '4.4-4.6 g'],
    ['zwischen 3 und 4 g', '3-4 g'],
    ['A entre 3 y 4 g', '3-4 g'],
    ['A 4.4 g - 4.6 g', '4.4-4.6 g'],
  ])('of what came out: %s', (written, meant) => {
    expect(obtained(written)).toBe(meant);
  });
  test('of what went in, with a remark behind it', () => {
    expect(amount('alum, between 4.8 and 5.0 g (scale jumped)')).toBe('4.8-5.0 g');
    expect(amount('entre 2 et 3 g de craie')).toBe('2-3 g');
  });
});

describe('measures of other kitchens', () => {
  test.each([
    ['2 geh. TL Natron', '2 geh. TL'],
    ['citronsyra 1 tsk', '1 tsk'],
    ['zout 2 eetlepels', '2 eetlepels'],
    ['ocet 2 łyżki', '2 łyżki'],
    ['уксус 9 % 2 ст. ложки', '2 ст. ложки'],
    ['kreda 1,2 dag', '1.2 dag'],
    ['g 9.49 potash alum', '9.49 g'],
  ])('%s', (written, meant) => {
    expect(amount(written)).toBe(meant);
  });
  test('the state that a reagent was in stays with its name', () => {
    const [use] = read('reagents:\n  - "3,2 g, sodium carbonate (anhydrous)"').entry!.reagents;
    expect(use).toMatchObject({ reagent: 'sodium carbonate (anhydrous)', amount: '3.2 g' });
  });
});

describe('a date', () => {
  test.each([
    ['zat. 17 januari 2026', '2026-01-17'],
    ['14/2/26 10pm', '2026-02-14'],
    ['14 lutego 2026', '2026-02-14'],
    ['14 марта 2026 г.', '2026-03-14'],
    ['lør 14. mars 2026', '2026-03-14'],
  ])('%s', (written, meant) => {
    expect(read(`date: ${written}`).entry?.date).toBe(meant);
  });
});

describe('a heat and a time in one text', () => {
  test.each([
    ["400 gradi per mezz'ora", '400 gradi', "mezz'ora"],
    ['900 °C – 16 h', '900 °C', '16 h'],
    ['900 Grad, eine halbe Stunde', '900 Grad', 'eine halbe Stunde'],
    ['650°C/2h', '650°C', '2h'],
    ['3h bei 450 Grad', '450 Grad', '3h'],
    ['1000 graden 2 uur', '1000 graden', '2 uur'],
    ['1100 °C x 45 min', '1100 °C', '45 min'],
  ])('%s', (written, to, lasting) => {
    expect(read(`heating: ${written}`).entry?.heating[0]).toMatchObject({ to, for: lasting });
  });
});

test('keys in Polish, Russian and Swedish', () => {
  for (const matter of [
    'reakcja: CaCl2 + Na2CO3 -> CaCO3 + 2 NaCl\nodczynniki:\n - soda 5 g',
    'реакция: CaCl2 + Na2CO3 -> CaCO3 + 2 NaCl\nреактивы:\n - soda 5 g',
    'reaktion: CaCl2 + Na2CO3 -> CaCO3 + 2 NaCl\nreagens:\n - soda 5 g',
  ]) {
    const { entry } = read(matter);
    expect(entry?.reaction).toContain('CaCO3');
    expect(entry?.reagents[0]).toMatchObject({ reagent: 'soda', amount: '5 g' });
  }
});

describe('samples in a table or in lines', () => {
  const second = (matter: string) => read(`samples: |\n${matter}`).entry?.samples[1];
  test.each([
    '  | Probe | anders | Ausbeute |\n  |---|---|---|\n  | A | kalt | 2,9 g |\n  | B | warm | 3,3 g |',
    '  sample\tdiffers\tobtained\n  A\tcold\t2.9 g\n  B\twarm\t3.3 g',
    '  A 2.9 g cold\n  B 3.3 g warm',
  ])('%s', (matter) => {
    expect(second(matter)).toMatchObject({ sample: 'B', obtained: '3.3 g', differs: 'warm' });
  });
});

describe('weighings of a vessel without and with the product', () => {
  test.each([
    ['Tiegel leer 23,412 g, mit Produkt 25,017 g', '1.605 g'],
    ['dish 20.10 g, dish + product 22.95 g', '2.85 g'],
    ['jar 45.2 g -> 47.9 g', '2.7 g'],
    ['tare 10.02, gross 13.15 g', '3.13 g'],
    ['crucible before 23.41 g, after 25.02 g', '1.61 g'],
  ])('%s', (written, net) => {
    expect(obtained(`{ sample: A, obtained: "${written}" }`)).toBe(net);
  });
});

describe('a colour', () => {
  const colour = (written: string) => read(`samples:\n  - { sample: A, colour: ${written} }`).entry?.samples[0];
  test('in the letters of another language, or each by itself', () => {
    expect(colour('RVB 52 84 158')?.colour).toEqual({ srgb: '#34549e' });
    expect(colour('"R52 G84 B158"')?.colour).toEqual({ srgb: '#34549e' });
  });
  test('in words is how it looks', () => {
    expect(colour('brick red')).toMatchObject({ sample: 'A', looks: 'brick red' });
    expect(colour('brick red')?.colour).toBeUndefined();
  });
  test('with decimal commas in braces keeps its last digits', () => {
    expect(colour('Lab 41,2 / 3,5 / -38,4')?.colour).toMatchObject({ lab: [41.2, 3.5, -38.4] });
  });
});

describe('what is struck out or bold', () => {
  test.each([
    ['cobalt chloride hexahydrate ~~7.0 g~~ 7.14 g', 'cobalt chloride hexahydrate', '7.14 g'],
    ['alum ~~5 g~~ **6 g**', 'alum', '6 g'],
    ['"**alum** 5 g"', 'alum', '5 g'],
    ['{ reagent: alum, amount: ~~5 g~~ 6 g }', 'alum', '6 g'],
  ])('%s', (written, reagent, meant) => {
    expect(read(`reagents:\n  - ${written}`).entry?.reagents[0]).toMatchObject({ reagent, amount: meant });
  });
});

describe('a cure that is pasted as it is', () => {
  const curesOf = (matter: string): readonly string[] => read(matter).remarks.map(({ note }) => note);
  test('is YAML, whatever signs stand in the words', () => {
    const [cure = ''] = curesOf('samples:\n - "A 1.6 g: *very* pale"').filter((one) => one.includes('{'));
    const pasted = /Write (\{.*\}),/.exec(cure)?.[1];
    expect(read(`samples:\n - ${pasted}`).entry?.samples[0]).toMatchObject({ sample: 'A', obtained: '1.6 g' });
  });
  test('of names as keys is lines of a list', () => {
    const [cure = ''] = curesOf('reagents:\n  alum: 5 g\n  soda: 3 g').filter((one) => one.includes('{'));
    const lines = cure.split('\n').slice(1).join('\n');
    expect(read(`reagents:\n${lines}`).entry?.reagents).toMatchObject([{ amount: '5 g' }, { amount: '3 g' }]);
  });
  test('of a missing title or status is nobody else’s', () => {
    const cures = readEntry('entries/004-oxalato.md', '---\nnumber: 4\n---\n').remarks.map(({ note }) => note);
    expect(cures).toContain('Add title: oxalato');
    expect(cures.join(' ')).not.toMatch(/Malachite|status: planned|date: 2026/);
  });
});

test('an item whose brace is not closed is read by itself, for its dangers', () => {
  const { inPart } = read(
    'reagents:\n  - { reagent: { name: lead nitrate, formula: Pb(NO3)2 }, amount: 3.31 g\n' +
      '  - { reagent: { name: potassium chromate, formula: K2CrO4 }, amount: 2.10 g }',
  );
  expect(inPart?.reagents).toMatchObject([
    { reagent: { name: 'lead nitrate' }, amount: '3.31 g' },
    { reagent: { name: 'potassium chromate' }, amount: '2.10 g' },
  ]);
});
