// Amounts, weighings, keys and dates as a tired hand writes them: read as what they can only mean, or asked about with
// a place and a cure.
import { describe, expect, it } from 'vitest';
import { readEntry, readJournal } from '../../src/journal/index.js';
import { entryOf, journalOf } from './folder.js';
import { netMeant } from '../../src/journal/mending/net-weight.js';
import { parseQuantity } from '../../src/chemistry/index.js';
import { readAmountWords } from '../../src/reagents/index.js';

const read = (lines: string) =>
  readEntry(
    'entries/001-x.md',
    `---\nnumber: 1\ntitle: T\ndate: 2026-03-14\nstatus: finished\n${lines}\n---\nWords.\n`,
  );
const rulesOf = (lines: string) => read(lines).remarks.map(({ ruleId }) => ruleId);

describe('signs that look like others', () => {
  it.each([
    ['7·49 g', 7.49],
    ['5\u202f722\u00a0mg', 5.722],
    ['8.0×10⁻¹ g', 0.8],
    ['8.0·10^-1 g', 0.8],
    ['2\u200b00 g', 200],
    ['\uff11.\uff19\uff18 g', 1.98],
    ['5\u20116 g', 5.5],
    ['1\u20442 kg', 500],
    ['\ufeff3 g', 3],
    ['2.5\u00ad0 g', 2.5],
  ])('%s', (written, grams) => {
    const quantity = parseQuantity(written);
    expect(quantity.ok && quantity.value.base.toNumber()).toBe(grams);
  });
  it.each(['\u22125 ℃', '\u22125 °C', '-5 ℃'])('%s is five below', (written) =>
    expect(rulesOf(`heating: [{ of: mixture, to: ${written} }]`)).toEqual([]),
  );
  it.each(['2026\u201102\u201119', '2026\u201002\u201019', '19\u00b702\u00b72026', '2026\u221202\u221219'])(
    '%s',
    (date) => {
      const { entry } = readEntry('1.md', `---\nnumber: 1\ntitle: T\ndate: ${date}\nstatus: planned\n---\n`);
      expect(entry?.date).toBe('2026-02-19');
    },
  );
});

describe('how many, in words', () => {
  it.each([
    ['four and a half grammes', 4.5],
    ['twelve and a half grams', 12.5],
    ['between 5 and 6 g', 5.5],
    ['from 5 to 6 g', 5.5],
    ['zwischen 5 und 6 g', 5.5],
    ['entre 5 et 6 g', 5.5],
    ['anderthalb Gramm', 1.5],
    ['fifty grams', 50],
    ['un quart de kilo', 250],
    ['trois quarts de kilo', 750],
    ['zweieinhalb Kilo', 2500],
    ['un demi-kilo', 500],
    ['fünfzig Gramm', 50],
    ['due grammi', 2],
  ])('%s', (written, grams) => {
    const amount = readAmountWords(written);
    expect(amount.kind === 'measured' && amount.quantity.base.toNumber()).toBe(grams);
  });
  it.each([
    ['une cuillère à soupe rase', 15],
    ['2 cuillères à café rases', 10],
    ['deux cuillères à soupe bien pleines', 30],
    ['zweieinhalb gehäufte Teelöffel', 25],
    ['1⁄2 cup', 120],
  ])('%s', (written, mL) => {
    const amount = readAmountWords(written);
    expect(amount.kind === 'rough' && amount.usual.toNumber()).toBe(mL);
  });
});

describe('a figure among words of which nothing is known is not passed over', () => {
  it.each(['> 3 g', 'max. 100 mL', 'more than 3 g', 'up to 5 mL', 'well over 12 g I think', 'under 2 g', '<0.1 g'])(
    '%s',
    (amount) => expect(rulesOf(`reagents: [{ reagent: soda, amount: "${amount}" }]`)).toContain('amount-not-read'),
  );
  it.each(['some', 'a pinch', 'the rest', 'to pH 8', 'enough for 3 g', 'a jam jar full'])(
    '%s is told in words',
    (amount) => expect(rulesOf(`reagents: [{ reagent: soda, amount: "${amount}" }]`)).not.toContain('amount-not-read'),
  );
});

describe('what came out, weighed with something', () => {
  it.each([
    ['3.02 g - 0.95 g paper', '2.07 g'],
    ['4.23 g less the paper, 0.91 g', undefined],
    ['4.23 g less 0.91 g for the paper', '3.32 g'],
    ['paper + product 2.98 g, paper 0.96 g', '2.02 g'],
    ['24.62 g with dish (dish 20.10 g)', '4.52 g'],
    ['45.31 g with jar, jar alone 43.2 g', '2.1 g'],
    ['gross 4.23 g, tare 0.91 g', '3.32 g'],
    ['brutto 4.23 g, Tara 0.91 g', '3.32 g'],
    ['24.62 g mit Schale, Schale leer 20.10 g', '4.52 g'],
    ['dish and powder 24.62 g; empty dish 20.10 g', '4.52 g'],
    ['2.98 g minus filter paper 0.96 g', '2.02 g'],
    ['2.98 g avec papier, papier seul 0.96 g', '2.02 g'],
    ['1.98 g, 0.02 g stuck to the paper', undefined],
    ['1.98 g in two lots, 0.90 g and 1.08 g', undefined],
    ['4.1-3.8 g', undefined],
    ['0.95 g - 3.02 g paper', undefined],
  ])('%s', (written, net) => expect(netMeant(written)).toBe(net));
  it.each([
    '45.31 g with jar',
    '4.01g (still on paper)',
    '45.31 g incl. the dish',
    '12 g gross',
    '4.2 g in filter paper',
  ])('%s is asked about, with both weighings', (obtained) => {
    const { remarks } = read(`samples: [{ sample: A, obtained: "${obtained}" }]`);
    expect(remarks.find(({ ruleId }) => ruleId === 'amount-not-read')?.note).toContain('with-product');
  });
});

describe('letters and apostrophes among digits', () => {
  it.each(['0.25l', '250ml', '0.25L', '30cc', '2l'])('%s has a unit close to it', (amount) =>
    expect(rulesOf(`reagents: [{ reagent: water, amount: ${amount} }]`)).toEqual([]),
  );
  it.each(['O.5 L', 'l.65 g', '1O mL', '2.OO mol', '1S0 mL'])('%s has a letter among its digits', (amount) =>
    expect(rulesOf(`reagents: [{ reagent: water, amount: ${amount} }]`)).toContain('quantity'),
  );
  it.each([
    ["1'420 mg", '1420 mg'],
    ['1’420 mg', '1420 mg'],
    ["12'000 mg", '12000 mg'],
    ['1.000.000 mg', '1000000 mg'],
  ])('%s', (amount, meant) =>
    expect(read(`reagents: [{ reagent: soda, amount: "${amount}" }]`).entry?.reagents[0]?.amount).toBe(meant),
  );
});

describe('heats and times', () => {
  it.each([
    ['1400F', '1400 °F'],
    ['225 F', '225 °F'],
    ['225 deg. F', '225 °F'],
    ['60C', '60 °C'],
    ['60 c', '60 °C'],
  ])('%s', (to, meant) => expect(read(`heating: [{ of: product, to: ${to} }]`).entry?.heating[0]?.to).toBe(meant));
  it.each([
    ['1h30', '90 min'],
    ['1h30min', '90 min'],
    ['"1:30"', '90 min'],
    ['1 h 30 min', '90 min'],
    ['2 Std. 15', '135 min'],
  ])('%s', (time, meant) =>
    expect(read(`heating: [{ of: product, to: 60 °C, for: ${time} }]`).entry?.heating[0]?.for).toBe(meant),
  );
});

describe('full stops beside decimal commas', () => {
  const beside = (amount: string): readonly string[] =>
    rulesOf(`reagents: [{ reagent: soda, amount: "13,90 g" }, { reagent: water, amount: ${amount} }]`);
  it.each(['1.000 ml', '6.500 mg', '1.250 g', '12.500 mg', '1.000 mL'])('%s is asked about', (amount) =>
    expect(beside(amount)).toContain('points-or-thousands'),
  );
  it.each(['0.500 g', '1000 ml', '"1.250,0 mL"', '5.31 g', '2.0000 g', '10.5 mL'])('%s is not', (amount) =>
    expect(beside(amount)).not.toContain('points-or-thousands'),
  );
  it('asks nothing where no number has a decimal comma, and reckons nothing of what it asks about', () => {
    expect(rulesOf('reagents: [{ reagent: water, amount: 1.000 mL }]')).not.toContain('points-or-thousands');
    const { entry } = read('reagents: [{ reagent: soda, amount: "13,90 g" }, { reagent: water, amount: 1.000 ml }]');
    expect(entry?.reagents[1]?.amount).toBeUndefined();
    expect(entry?.leftOut).toEqual([{ path: ['reagents', 1, 'amount'], value: '1.000 ml' }]);
  });
});

describe('keys of a reagent in another spelling', () => {
  it.each([
    '{ reagant: soda, ammount: 5.3 g }',
    '{ Reagent: soda, Amount: 5.3 g }',
    '{ reagenz: soda, menge: 5.3 g }',
    '{ réactif: soda, quantité: 5.3 g }',
    '{ reagent: soda, weight: 5.3 g }',
    '{ chemical: soda, mass: 5.3 g }',
    '{ reagnet: soda, amuont: 5.3 g }',
    '{ reactivo: soda, cantidad: 5.3 g }',
    '{ stoff: soda, masse: 5.3 g }',
    '{ Reagents: soda, amounts: 5.3 g }',
  ])('%s', (use) => {
    const { entry } = read(`reagents:\n  - ${use}`);
    expect(entry?.reagents).toEqual([expect.objectContaining({ reagent: 'soda', amount: '5.3 g' })]);
  });
  it('names with their amounts are still that', () =>
    expect(read('reagents:\n  - { alum: 10 g, chalk: 5 g }').entry?.reagents).toHaveLength(2));
  it.each(['Probe', 'échantillon', 'muestra', 'smaple', 'Sample', 'monster'])(
    'a sample that is named by `%s` does not lack its id',
    (key) => {
      const { entry, remarks } = read(`samples:\n  - { ${key}: B, obtained: 2 g }`);
      expect(entry?.samples[0]?.sample).toBe('B');
      expect(remarks.map(({ ruleId }) => ruleId)).not.toContain('sample-without-id');
    },
  );
});

describe('a text that a # cuts short', () => {
  it.each([
    'question: Is batch #2 bluer?',
    'samples:\n  - sample: A\n    differs: from jar #3',
    'reagents:\n  - reagent: alum\n    note: lot #44 of last year',
    'steps:\n  - filtered, cake #1 put by',
    'answer: Yes, see #14',
    'waste: into can #2, labelled',
    'abandoned: too dull, try pigment #5\nquestion: x',
    'incidents:\n  - what: jar #2 broke',
    'ideas:\n  - repeat with recipe #7',
    'samples:\n  - sample: A\n    looks: like swatch #12',
  ])('%s', (lines) => expect(rulesOf(lines)).toContain('text-cut-by-comment'));
  it.each([
    'question: Is it bluer? # ask again',
    'question: "Is batch #2 bluer?"',
    'samples:\n  - sample: A    #the cold one',
    '#question: none',
    'samples:\n  - { sample: A, obtained: 1.98 g }   # 2',
    'samples: [{ sample: A, colour: "#2a7f62" }]',
  ])('%s is no such thing', (lines) => expect(rulesOf(lines)).not.toContain('text-cut-by-comment'));
});

describe('samples that differ in several things at once', () => {
  const between = (...differs: readonly string[]): readonly string[] =>
    rulesOf(`samples:\n${differs.map((one, at) => `  - { sample: ${'ABCD'[at]}, differs: "${one}" }`).join('\n')}`);
  it.each([
    [['20 °C, slow addition', 'ice bath, all at once']],
    [['cold and dilute', 'hot and concentrated']],
    [['iron first, stirred', 'iron last into the prussiate, unstirred']],
    [['60 °C; fast', 'room temperature; dropwise']],
    [['kalt, langsam', 'heiß, schnell']],
    [['à froid, lentement', 'à chaud, rapidement']],
    [['pH 6, washed', 'pH 9, unwashed']],
    [['twice the soda, overnight', 'as before']],
    [['5 °C', 'double the soda and boiling']],
    [['ice bath, stirred hard', '80 °C']],
  ])('%s', (differs) => expect(between(...differs)).toContain('differ-in-several'));
  it.each([
    [['5 °C, ice bath', '60 °C']],
    [['20 °C, slow addition', '5 °C, slow addition']],
    [['400 °C for 1 h', '600 °C for 1 h']],
    [['borax as flux', 'soda as flux']],
    [['cold, slow', 'cold, fast', 'hot, fast', 'hot, slow']],
    [['washed', 'unwashed']],
    [['cold liquors', 'both liquors at 85 °C']],
    [['iron dripped into prussiate', 'prussiate dripped into iron']],
  ])('%s is one thing at a time', (differs) => expect(between(...differs)).not.toContain('differ-in-several'));
  it('reads keys where words should stand', () =>
    expect(
      read('samples: [{ sample: A, differs: { temperature: 20 °C, addition: fast } }]').entry?.samples[0]?.differs,
    ).toBe('temperature 20 °C, addition fast'));
});

describe('tables pasted from elsewhere', () => {
  const reagents = (text: string) =>
    read(`reagents: |\n${text.replace(/^/gm, '  ')}`).entry?.reagents.map(({ reagent, amount }) => [reagent, amount]);
  const both = [
    ['barium chloride dihydrate', '12.21 g'],
    ['sodium sulfate', '7.10 g'],
  ];
  it.each([
    '| what | how much |\n|------|------|\n| barium chloride dihydrate | 12.21 g |\n| sodium sulfate | 7.10 g |',
    'what | how much\n--- | ---\nbarium chloride dihydrate | 12.21 g\nsodium sulfate | 7.10 g',
    '| what | how much |\n|:---|---:|\n| barium chloride dihydrate | 12.21 g |\n| sodium sulfate | 7.10 g |',
    '- barium chloride dihydrate 12.21 g\n- sodium sulfate 7.10 g',
    'barium chloride dihydrate 12.21 g\nsodium sulfate 7.10 g',
    '1. barium chloride dihydrate 12.21 g\n2. sodium sulfate 7.10 g',
    '* 12.21 g barium chloride dihydrate\n* 7.10 g sodium sulfate',
  ])('%s', (text) => expect(reagents(text)).toEqual(both));
});

describe('what describes a reagent, beside it', () => {
  it.each([
    ['{ name: alum, formula: KAl(SO4)2·12H2O, amount: 3 g }', { name: 'alum', formula: 'KAl(SO4)2·12H2O' }],
    ['{ reagent: Iron sulfate, formula: FeSO4·7H2O, amount: 3 g }', { name: 'Iron sulfate', formula: 'FeSO4·7H2O' }],
    ['{ name: chalk, amount: 3 g }', 'chalk'],
    ['{ reagent: copper sulfate, cas: 7758-99-8, amount: 3 g }', { name: 'copper sulfate', cas: '7758-99-8' }],
    ['{ name: Zinkoxid, Formel: ZnO, Menge: 3 g }', { name: 'Zinkoxid', formula: 'ZnO' }],
  ])('%s', (use, reagent) =>
    expect(read(`reagents:\n  - ${use}`).entry?.reagents).toMatchObject([{ reagent, amount: '3 g' }]),
  );
  it('asks where the name may be that of a jar', () =>
    expect(rulesOf('reagents:\n  - { reagent: soda, formula: Na2CO3, amount: 5 g }')).toContain('unknown-key'));
});

describe('what is not filled in yet counts as blank', () => {
  it.each(['?', '??', 'tbd', 'TBD', 'n/a', '"-"', '"–"', '…', 'todo', 'noch offen', 'à compléter', 'to be weighed'])(
    'obtained: %s',
    (blank) => {
      const { entry, remarks } = read(
        `samples:\n  - { sample: A, obtained: ${blank} }\n  - { sample: B, obtained: 2 g }`,
      );
      expect(entry?.samples).toMatchObject([{ sample: 'A' }, { sample: 'B', obtained: '2 g' }]);
      expect(entry?.samples[0]?.obtained).toBeUndefined();
      expect(remarks.map(({ ruleId }) => ruleId)).toContain('empty-key');
    },
  );
  it.each(['reaction: tbd', 'pigment: ?', 'answer: todo', 'heating: n/a'])('%s', (line) =>
    expect(rulesOf(line)).toEqual(['empty-key']),
  );
  it.each(['to do', 'todo'])('status: %s is planned', (status) =>
    expect(
      readEntry('1.md', `---\nnumber: 1\ntitle: T\ndate: 2026-03-14\nstatus: ${status}\n---\n`).entry?.status,
    ).toBe('planned'),
  );
  it.each(['lost', 'none left', 'some', 'unknown'])('obtained: %s says something', (words) =>
    expect(read(`samples: [{ sample: A, obtained: ${words} }]`).entry?.samples[0]?.obtained).toBe(words),
  );
});

describe('front matter that is set off otherwise', () => {
  const keys = 'number: 8\ntitle: T\ndate: 2026-04-04\nstatus: finished';
  it.each([
    `\n\n---\n${keys}\n---\nx\n`,
    `—\n${keys}\n—\nx\n`,
    `\`\`\`yaml\n${keys}\n\`\`\`\nx\n`,
    `~~~\n${keys}\n~~~\nx\n`,
    `–––\n${keys}\n–––\nx\n`,
    ` ---\n${keys}\n---\nx\n`,
    `\r\n---\r\n${keys.replaceAll('\n', '\r\n')}\r\n---\r\nx\r\n`,
  ])('%j', (text) => {
    const { entry, remarks } = readEntry('entries/008-x.md', text);
    expect(entry).toMatchObject({ number: 8, title: 'T' });
    expect(entry?.body.trim()).toBe('x');
    expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['other-fence']);
  });
  it.each([`${keys}\n---\nx\n`, 'Ground up some bricks.\n', '+++\nnumber = 8\n+++\n', `—\n${keys}\nx\n`])(
    '%j is none',
    (text) => expect(readEntry('entries/008-x.md', text).entry).toBeUndefined(),
  );
});

describe('colours as three figures', () => {
  it.each([
    ['"L*=41.2 a*=3.3 b*=-37"', [41.2, 3.3, -37]],
    ['"L 41,2 a 3,3 b -37,0"', [41.2, 3.3, -37]],
    ['{ lab: "41,2 / 3,3 / -37,0" }', [41.2, 3.3, -37]],
    ['{ lab: "41.2 / 3.3 / -37" }', [41.2, 3.3, -37]],
    ['"L: 41.2, a: 3.3, b: -37"', [41.2, 3.3, -37]],
  ])('%s', (written, lab) =>
    expect(read(`samples:\n  - sample: A\n    colour: ${written}`).entry?.samples[0]?.colour).toMatchObject({ lab }),
  );
});

describe('YAML that stumbles says what over', () => {
  const cureOf = (lines: string) => read(lines).remarks.find(({ ruleId }) => ruleId === 'yaml')?.note;
  it.each([
    ['question: "Naples" yellow?', 'single quotes'],
    ["looks: 'deep' blue", 'single quotes'],
    ['note #2: dull', 'without #'],
  ])('%s', (line, cure) => expect(cureOf(line)).toContain(cure));
});

describe('portions, and what each sample took', () => {
  const amountOf = (amount: string) =>
    read(`reagents: [{ reagent: soda, amount: "${amount}" }]`).entry?.reagents[0]?.amount;
  it.each([
    ['1.6 g + 1.6 g later', '3.2 g'],
    ['5 g + 2.50 g', '7.50 g'],
    ['10 mL, 5 mL', undefined],
    ['2.0 g + 1.0 g + 0.5 g', '3.5 g'],
    ['5 g plus another 2 g', '7 g'],
    ['5 g, then 2 g', undefined],
    ['5 g then 2 g', '7 g'],
    ['5.26 g each', '5.26 g'],
    ['5.26 g per sample', '5.26 g'],
    ['je 5.26 g', '5.26 g'],
    ['10 mL in each', '10 mL'],
  ])('%s', (written, meant) => expect(amountOf(written)).toBe(meant ?? written));
  it.each(['1.6 g (A), 2.0 g (B)', 'A: 1.6 g, B: 2.0 g', 'A = 1.6 g; B = 2.0 g', '1.6 g in (A) and 2 g in (B)'])(
    '%s is asked about, with how samples say it',
    (amount) => {
      const { remarks } = read(`reagents: [{ reagent: soda, amount: "${amount}" }]`);
      expect(remarks.find(({ ruleId }) => ruleId === 'quantity')?.note).toContain('change:');
    },
  );
});

describe('washes in one text', () => {
  it.each([
    ['3x200ml water', { with: 'water', volume: '200ml', times: 3 }],
    ['3 × 200 mL of water', { with: 'water', volume: '200 mL', times: 3 }],
    ['1x 50 ml alcohol', { with: 'alcohol', volume: '50 ml', times: 1 }],
    ['water 2 × 50 mL', { with: 'water', volume: '50 mL', times: 2 }],
    ['mit Wasser 3 mal 100 ml', { with: 'Wasser', volume: '100 ml', times: 3 }],
    ['200 mL water', { with: 'water', volume: '200 mL', times: 1 }],
    ['3 fois 100 mL eau', { with: 'eau', volume: '100 mL', times: 3 }],
    ['0,5 L water', { with: 'water', volume: '0.5 L', times: 1 }],
  ])('%s', (wash, meant) => expect(read(`washes:\n  - ${wash}`).entry?.washes).toMatchObject([meant]));
});

it('a link without an address is told', async () => {
  const { remarks } = await readJournal(
    journalOf({ 'entries/001-x.md': entryOf(1, '', 'See [nothing]() and [x](1).\n') }),
  );
  expect(remarks.map(({ ruleId }) => ruleId)).toContain('empty-link');
});
