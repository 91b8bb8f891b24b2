// Entries as they are typed: keys in other languages and of other shapes, slips of YAML, statuses, numbers and lots in
// words, colours from a phone. What can only mean one thing is read; what cannot is told with the place.
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../src/journal/entry-file.js';
import { readShelf } from '../../src/journal/yaml-file.js';

const head = 'number: 7\ntitle: T\ndate: 2026-03-14\nstatus: finished\n';
const entry = (matter: string) => readEntry('entries/7.md', `---\n${matter}\n---\nWords.\n`);
const withHead = (matter: string) => entry(head + matter);

function uses(matter: string): readonly string[] {
  return (withHead(`reagents:\n${matter}`).entry?.reagents ?? []).map(({ reagent, amount }) => {
    const name = typeof reagent === 'string' ? reagent : `${reagent?.name} = ${reagent?.formula}`;
    return `${name}, ${amount}`;
  });
}

describe('what a reagent is called stands under any word for its name', () => {
  it.each([
    ['- Name: Soda\n  Menge: 5 g', 'Soda, 5 g'],
    ['- Bezeichnung: Soda\n  Menge: 5 g', 'Soda, 5 g'],
    ['- NAME: potash\n  AMOUNT: 5 g', 'potash, 5 g'],
    ['- { nom: alun, quantité: 5 g }', 'alun, 5 g'],
    ['- { produit: alun, quantité: 5 g }', 'alun, 5 g'],
    ['- produit chimique: alun\n  masse: 5 g', 'alun, 5 g'],
    ['- nombre: sosa\n  cantidad: 5 g', 'sosa, 5 g'],
    ['- { nome: allume, quantità: 5 g }', 'allume, 5 g'],
    ['- { naam: aluin, hoeveelheid: 5 g }', 'aluin, 5 g'],
    ['- { Substanz: Alaun, Masse: 5 g }', 'Alaun, 5 g'],
    ['- { Name: Soda calc, Formel: Na2CO3, Menge: 5 g }', 'Soda calc = Na2CO3, 5 g'],
  ])('%s', (matter, wanted) => expect(uses(matter)).toEqual([wanted]));

  it.each([
    ['pigment: { nom: vert, formule: Cu2CO3(OH)2 }', 'vert', 'Cu2CO3(OH)2'],
    ['Pigment:\n  Bezeichnung: Grün\n  Summenformel: Cu2CO3(OH)2', 'Grün', 'Cu2CO3(OH)2'],
    ['pigment: [verdigris, "Cu(CH3COO)2"]', 'verdigris', 'Cu(CH3COO)2'],
    ['pigment:\n  - name: verdigris\n  - formula: Cu(CH3COO)2', 'verdigris', 'Cu(CH3COO)2'],
    ['pigment: { name: Prussian blue, formula: Fe4[Fe(CN)6]3 }', 'Prussian blue', 'Fe4[Fe(CN)6]3'],
    ['pigment: {formula: K2Cu[Fe(CN)6], name: Hatchett brown}', 'Hatchett brown', 'K2Cu[Fe(CN)6]'],
  ])('%s', (matter, name, formula) => expect(withHead(matter).entry?.pigment).toMatchObject({ name, formula }));
});

describe('a slip of YAML that can only mean one thing is read, and said once', () => {
  it.each([
    ['– alum 5 g\n– soda 2 g', ['alum, 5 g', 'soda, 2 g']],
    ['  • alum 5 g\n  • soda 2 g', ['alum, 5 g', 'soda, 2 g']],
    ['  * alum 5 g\n  * soda 2 g', ['alum, 5 g', 'soda, 2 g']],
    ['  — reagent: alum\n    amount: 5 g\n  — reagent: soda\n    amount: 2 g', ['alum, 5 g', 'soda, 2 g']],
    ['  -alum 5 g\n  -soda 2 g', ['alum, 5 g', 'soda, 2 g']],
    ['\t- alum 5 g\n\t- soda 2 g', ['alum, 5 g', 'soda, 2 g']],
    ['  - reagent: @alum\n    amount: 5 g', ['@alum, 5 g']],
    ['  - `alum` 5 g', ['alum, 5 g']],
    [
      '  - { reagent: { name: prussiate, formula: K4[Fe(CN)6]·3H2O }, amount: 2 g }',
      ['prussiate = K4[Fe(CN)6]·3H2O, 2 g'],
    ],
    ['  - { reagent: { name: luteo, formula: [Co(NH3)6]Cl3 }, amount: 2 g }', ['luteo = [Co(NH3)6]Cl3, 2 g']],
  ])('%s', (matter, wanted) => {
    expect(uses(matter)).toEqual(wanted);
    expect(withHead(`reagents:\n${matter}`).remarks.filter(({ ruleId }) => ruleId === 'yaml-slip')).toHaveLength(1);
  });

  it.each([
    'steps: |\n  – heat\n  * stir\n  -filter',
    'note: 5 – 6 g of it',
    'question: "• why?"',
    'waste: >\n  * kept apart',
    'reagents:\n  - alum 5 g\n  - soda 2 g',
    'samples: [{ sample: A, obtained: 2 g }]',
  ])('where a sign is part of the words, nothing is changed: %s', (matter) =>
    expect(withHead(matter).remarks.filter(({ ruleId }) => ruleId === 'yaml-slip')).toEqual([]),
  );

  it('tells the place in the file', () => {
    const [first] = withHead('pigment:\n\tname: x').remarks.filter(({ ruleId }) => ruleId === 'yaml-slip');
    expect([first?.line, first?.column]).toEqual([7, 1]);
  });
});

describe('samples in any shape', () => {
  const samples = (matter: string) =>
    (withHead(matter).entry?.samples ?? []).map(({ sample, obtained }) => `${sample} ${obtained ?? '–'}`);
  it.each([
    ['samples:\n  A: { obtained: 4.1 g }\n  B: { obtained: 3.9 g, differs: hot }', ['A 4.1 g', 'B 3.9 g']],
    ['samples:\n  cold: { obtained: 4.1 g }\n  hot: { obtained: 3.9 g }', ['cold 4.1 g', 'hot 3.9 g']],
    ['samples:\n  - A: { obtained: 4.1 g }\n  - B: { obtained: 3.9 g }', ['A 4.1 g', 'B 3.9 g']],
    ['samples:\n  Sample A: { obtained: 4.1 g }\n  Sample B: 3.9 g', ['A 4.1 g', 'B 3.9 g']],
    ['Proben:\n  Probe 1: { Ausbeute: "4,1 g" }\n  Probe 2: { Ausbeute: "3,9 g" }', ['1 4.1 g', '2 3.9 g']],
    ['samples: [A, B]', ['A –', 'B –']],
    ['samples:\n  - { sample: A, obtained: 2 g }\n  -', ['A 2 g']],
    ['samples: [{ sample: A, obtained: 22.95 - 20.10 g }]', ['A 2.85 g']],
    ['samples: [{ sample: A, obtained: 22.95g−20.10g }]', ['A 2.85 g']],
    ['samples: [{ sample: A, obtained: "22.95 - 20.10 = 2.85 g" }]', ['A 2.85 g']],
    ['samples: [{ sample: A, obtained: "2,9g nass, 2,8g trocken" }]', ['A 2.8 g']],
    ['samples: [{ sample: A, obtained: "3.4 g wet, dry 2.8 g" }]', ['A 2.8 g']],
    ['samples: [{ sample: A, obtained: 1.9-2.0 g }]', ['A 1.9-2.0 g']],
  ])('%s', (matter, wanted) => expect(samples(matter)).toEqual(wanted));

  it.each(['22.95 - 20.10 = 2.58 g', '22.95 g - 20.10 mg'])('a difference that is none is not read: %s', (obtained) =>
    expect(samples(`samples: [{ sample: A, obtained: "${obtained}" }]`)).not.toContainEqual(
      expect.stringMatching(/^A 2[.,]?\d+ g$|^A 22\.\d+ g$/),
    ),
  );

  it.each([
    ['a sample of which only the colour is told', 'samples: { colour: { srgb: "#4f8a6b" } }'],
    ['a sample of which only the ignition is told', 'samples: { ignition: { before: 2 g, after: 1 g } }'],
  ])('%s is one sample, and not called so', (_, matter) => expect(samples(matter)).toEqual(['A –']));
});

describe('colours as a phone tells them', () => {
  // By hand: (181, 129, 58) is #b5813a; of hsv 35 68 71 red is 0.71 × 255 = 181, blue 0.32 of that, 58, and green
  // 1 − 0.68 × 25/60 of it, 130.
  it.each([
    ['rgb(181, 129, 58)', { srgb: '#b5813a' }],
    ['{ r: 181, g: 129, b: 58 }', { srgb: '#b5813a' }],
    ['{ rgb: [181, 129, 58] }', { srgb: '#b5813a' }],
    ['{ L: 58.2, a: 14.1, b: 44.0 }', { lab: [58.2, 14.1, 44] }],
    ['{ "L*": 58.2, "a*": 14.1, "b*": 44.0, illuminant: D50 }', { lab: [58.2, 14.1, 44], illuminant: 'D50' }],
    ['{ L: "58,2", a: "14,1", b: "44,0" }', { lab: [58.2, 14.1, 44] }],
    ['lab(58.2 14.1 44.0) D50', { lab: [58.2, 14.1, 44], illuminant: 'D50' }],
    ['"HSV 35 68 71"', { srgb: '#b5823a' }],
    ['"hsl(35, 51%, 47%)"', { srgb: '#b5823b' }],
    ['spectra/7-A.csv', { spectrum: 'spectra/7-A.csv' }],
    ['{ spectrum: spectra\\7-A.csv }', { spectrum: 'spectra/7-A.csv' }],
  ])('%s', (colour, wanted) =>
    expect(withHead(`samples: [{ sample: A, colour: ${colour} }]`).entry?.samples[0]?.colour).toMatchObject(wanted),
  );
});

describe('number, status, lots and dates in words', () => {
  it.each(['No. 7', '"#7"', 'Nr. 7', 'n° 7', 'Nº 7', '7.', '007'])('number: %s', (number) =>
    expect(entry(`number: ${number}\ntitle: T\ndate: 2026-03-14\nstatus: finished`).entry?.number).toBe(7),
  );
  it.each(['7a', 'VII', '"7 (repeat)"', '7/8'])('number: %s is not guessed', (number) =>
    expect(entry(`number: ${number}\ntitle: T\ndate: 2026-03-14\nstatus: finished`).entry).toBeUndefined(),
  );

  it.each([
    ['WIP', 'running'],
    ['nearly done', 'running'],
    ['almost finished', 'running'],
    ['in Arbeit', 'running'],
    ['aborted', 'abandoned'],
    ['scrapped', 'abandoned'],
    ['hecho', 'finished'],
    ['botched', 'failed'],
  ])('status: %s', (status, wanted) =>
    expect(entry(`number: 7\ntitle: T\ndate: 2026-03-14\nstatus: ${status}`).entry?.status).toBe(wanted),
  );
  it('does not say of a status that could not be read that a reason does not fit it', () => {
    const { remarks } = entry('number: 7\ntitle: T\ndate: 2026-03-14\nstatus: meh\nfailed: it did');
    expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['choice']);
  });

  it.each([
    ['batch 1, sample B', '1/B'],
    ['Nr. 1, Probe B', '1/B'],
    ['1_B', '1/B'],
    ['1(B)', '1/B'],
    ['B of 1', '1/B'],
    ['E1/B', '1/B'],
  ])('lot: %s', (lot, wanted) =>
    expect(withHead(`reagents: [{ lot: "${lot}", amount: 1 g }]`).entry?.reagents[0]?.lot).toBe(wanted),
  );
  it('asks for the sample of a lot by that entry', () => {
    const [first] = withHead('reagents: [{ lot: 12, amount: 1 g }]').remarks;
    expect(first?.note).toContain('12/A');
  });

  it.each([
    ['14.III.2026', '2026-03-14'],
    ['1.V.26', '2026-05-01'],
    ['14/XI/2026', '2026-11-14'],
    ['14ème mars 2026', '2026-03-14'],
  ])('date: %s', (date, wanted) =>
    expect(entry(`number: 7\ntitle: T\ndate: ${date}\nstatus: finished`).entry?.date).toBe(wanted),
  );
  it.each([
    ['31.4.26', '30 days'],
    ['30/2/2026', '28 days'],
    ['31.IX.2026', '30 days'],
  ])('date: %s is told by the length of its month', (date, days) =>
    expect(entry(`number: 7\ntitle: T\ndate: ${date}\nstatus: finished`).remarks[0]?.reason).toContain(days),
  );
});

describe('amounts and numbers', () => {
  it.each(['20 grms', '100 ccm', '500 mcg', '3 gtt', '30 mls', '20 ml.'])('%s is read', (amount) =>
    expect(withHead(`reagents: [{ reagent: alum, amount: ${amount} }]`).remarks.map(({ ruleId }) => ruleId)).toEqual(
      [],
    ),
  );
  it.each([
    ["0'76 g", '0.76 g'],
    ["5'3 g", '5.3 g'],
  ])('the cure of %s is no other number', (obtained, wanted) =>
    expect(withHead(`samples: [{ sample: A, obtained: "${obtained}" }]`).remarks[0]?.note).toContain(wanted),
  );

  it.each(['7646-85-8', '7446-20-1', '1310-73-3', 'abc'])(
    'the cure of the CAS number %s shows no other number',
    (cas) => expect(readShelf('shelf.yaml', `jar: { name: x, cas: ${cas} }`).remarks[0]?.note).not.toMatch(/\d-\d/),
  );
  it.each(['CAS-Nr: 497-19-8', '"CAS no.": 497-19-8', 'cas: 497 - 19 - 8', 'cas: CAS 497-19-8', 'n° CAS: 497-19-8'])(
    '%s',
    (cas) =>
      expect(readShelf('shelf.yaml', `jar:\n  name: soda\n  ${cas}\n`).shelf.reagents.get('jar')?.cas).toBe('497-19-8'),
  );
});

describe('what went in, as it is told', () => {
  it.each([
    ['dissolved 5g of copper sulfate in 50ml hot water', ['copper sulfate, 5g', 'hot water, 50ml']],
    ['copper sulphate 25 g in 100ml warm water', ['copper sulphate, 25 g', 'water, 100ml']],
    ['5 g Soda in 30 ml Wasser gelöst', ['Soda, 5 g', 'Wasser, 30 ml']],
    ['5 g de soude dans 30 ml d’eau', ['soude, 5 g', 'eau, 30 ml']],
    ['5 g de alumbre disueltos en 30 ml de agua', ['alumbre, 5 g', 'agua, 30 ml']],
    ['5 g di allume sciolti in 30 ml di acqua', ['allume, 5 g', 'acqua, 30 ml']],
    ['then 2.5 g soda in 30 ml water', ['soda, 2.5 g', 'water, 30 ml']],
    ['weighed out 2.5 g alum', ['alum, 2.5 g']],
    ['added 10 mL vinegar', ['vinegar, 10 mL']],
    ['potash 1.58 g ???', ['potash, 1.58 g']],
  ])('%s', (line, wanted) => expect(uses(`- ${line}`)).toEqual(wanted));

  it.each(['5 g alum in 2 g soda', '7.6 g borax in another 100 ml'])('nothing is guessed of: %s', (line) =>
    expect(uses(`- ${line}`)).not.toHaveLength(2),
  );
});

describe('words cut short, and names left out', () => {
  it.each([
    ['- { reagent: alum, amt: 5 g }', ['alum, 5 g']],
    ['- { chem: alum, wt: 5 g }', ['alum, 5 g']],
    ['- { reagent: vinegar, vol: 5 mL }', ['vinegar, 5 mL']],
    ['- reagent: vinegar\n  amount: "10ml: careful"', ['vinegar, 10ml']],
    ['- reagent: vinegar\n  amount: "10 ml: in 2 portions"', ['vinegar, 10 ml: in 2 portions']],
    ['- { reagent: { formula: CaCO3 }, amount: 5 g }', ['calcium carbonate = CaCO3, 5 g']],
    ['- { reagent: { nom: craie, formule: CaCO3 }, amount: 5 g }', ['craie = CaCO3, 5 g']],
  ])('%s', (matter, wanted) => expect(uses(matter)).toEqual(wanted));

  it('reads an entry of short keys', () => {
    const { entry: read } = entry(
      'num: 7\ntitle: T\ndat: 2026-03-14\nstat: done\nrxn: CuO + H2 -> Cu + H2O\n' +
        'pigment: { name: m, CI: PG39 }\nsamples: [{ sample: A, yld: 2 g, obs: pale }]',
    );
    expect(read).toMatchObject({ number: 7, date: '2026-03-14', status: 'finished', reaction: 'CuO + H2 -> Cu + H2O' });
    expect(read?.pigment?.['colour-index']).toBe('PG39');
    expect(read?.samples[0]).toMatchObject({ obtained: '2 g', looks: 'pale' });
  });

  it.each([
    ['soda:\n  cas: 497-19-8\n', 'soda'],
    ['blue-stone:\n  formula: CuSO4·5H2O\n', 'blue stone'],
  ])('a jar without a name is called by its id: %s', (text, wanted) => {
    const { shelf, remarks } = readShelf('shelf.yaml', text);
    expect([...shelf.reagents.values()][0]?.name).toBe(wanted);
    expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['read-as']);
  });

  it('calls a reagent of which only the CAS number is told by what that is', () => {
    const [first] = withHead('reagents: [{ reagent: { cas: 497-19-8 }, amount: 5 g }]').entry?.reagents ?? [];
    expect(first?.reagent).toMatchObject({ name: 'sodium carbonate', cas: '497-19-8' });
  });
});
