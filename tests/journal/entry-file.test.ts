// What reading one entry gives, and what it says of each kind of mistake: where, by which rule, and what to do.
import { describe, expect, test } from 'vitest';
import { readEntry, severityOf } from '../../src/journal/index.js';
import { entryOf, told } from './folder.js';

const file = 'entries/014-malachite.md';
const head = 'number: 14\ntitle: Malachite\ndate: 2026-03-14\nstatus: finished\n';
const read = (more: string, body = '') => readEntry(file, `---\n${head}${more}\n---\n${body}`);

describe('an entry that fits the format', () => {
  test('keeps amounts to the letter, zeros included', () => {
    const { entry, remarks } = read(
      'reagents:\n  - reagent: blue-vitriol\n    amount: 5.00 g\nsamples:\n  - sample: A\n    obtained: 2.00 g',
    );
    expect(remarks).toEqual([]);
    expect(entry?.reagents[0]?.amount).toBe('5.00 g');
    expect(entry?.samples[0]?.obtained).toBe('2.00 g');
  });

  test('gives numbers as numbers, truths as truths and all else as text', () => {
    const { entry, remarks } = read(
      'follows: [9]\npigment: { name: 1984 }\nreagents:\n  - { reagent: lime, separately: true }\nsamples:\n  ' +
        '- sample: 1\n    colour: { lab: [54.10, -30.2, +6], observer: 10, illuminant: D65 }\n    opacity: { ' +
        'over-black: 21.0, over-white: spectra/x.csv }',
    );
    expect(remarks).toEqual([]);
    expect(entry?.number).toBe(14);
    expect(entry?.follows).toEqual([9]);
    expect(entry?.pigment?.name).toBe('1984');
    expect(entry?.reagents[0]?.separately).toBe(true);
    expect(entry?.samples[0]?.sample).toBe('1');
    expect(entry?.samples[0]?.colour?.lab).toEqual([54.1, -30.2, 6]);
    expect(entry?.samples[0]?.colour?.observer).toBe(10);
    expect(entry?.samples[0]?.opacity).toEqual({ 'over-black': 21, 'over-white': 'spectra/x.csv' });
  });

  test('keeps words that other readers of YAML take for something else', () => {
    const { entry } = read('question: no\nwaste: 2026-01-01\nideas: [yes, 1e3, 0x10, 3:40]');
    expect(entry?.question).toBe('no');
    expect(entry?.waste).toBe('2026-01-01');
    expect(entry?.ideas).toEqual(['yes', '1e3', '0x10', '3:40']);
  });

  test('knows the lines on which front matter and body begin', () => {
    const { entry } = read('question: x', 'First line.\n');
    expect(entry).toMatchObject({ matterLine: 2, bodyLine: 8, body: 'First line.\n' });
    expect(entry?.matter.split('\n')[0]).toBe('number: 14');
  });

  test('is read the same with CRLF and with a byte order mark', () => {
    const plain = entryOf(3, 'samples:\n  - sample: A\n    obtained: 1.98 g', 'One.\n\nTwo.\n');
    const expected = readEntry('entries/3.md', plain).entry;
    const windows = readEntry('entries/3.md', `\uFEFF${plain.replaceAll('\n', '\r\n')}`);
    expect(windows.remarks).toEqual([]);
    expect(windows.entry?.samples).toEqual(expected?.samples);
    expect(windows.entry?.title).toBe('Entry 3');
    expect(windows.entry?.bodyLine).toBe(expected?.bodyLine);
    expect(windows.entry?.body).toBe('One.\r\n\r\nTwo.\r\n');
  });

  test('may leave keys empty: they count as left out, with a note', () => {
    const { entry, remarks } = read('question:\nsamples:\n  - sample: A\n    obtained:');
    expect(entry?.question).toBeUndefined();
    expect(entry?.samples[0]).toEqual({ sample: 'A' });
    expect(told(remarks)).toEqual([`${file}:6:1 note empty-key`, `${file}:9:5 note empty-key`]);
  });
});

// Front matter below the four keys (which end on line 5) → line:column, rule, and words of what is found and of what
// to do.
const mistakes: [name: string, more: string, place: string, rule: string, found: RegExp, cure: RegExp][] = [
  [
    'an unknown key names the nearest known one',
    'reagentsusd: []',
    '6:1',
    'unknown-key',
    /`reagentsusd` is not a key in an entry/,
    /`reagents`/,
  ],
  [
    'an unknown key inside a list too',
    'reagents:\n  - reagent: a\n    amonts: 2 g',
    '8:5',
    'unknown-key',
    /`amonts`.*Item 1 of `reagents`/,
    /`amount`/,
  ],
  [
    'a key that stands one level too high is sent home',
    'obtained: 2 g',
    '6:1',
    'unknown-key',
    /obtained/,
    /under `samples`/,
  ],
  [
    'a density without unit',
    'reagents:\n  - reagent: a\n    density: 1.98',
    '8:14',
    'unit',
    /'1\.98', which has no unit/,
    /1\.98 g/,
  ],
  [
    'a density without unit that no matter has in grams of a millilitre',
    'reagents:\n  - reagent: a\n    density: 910',
    '8:14',
    'unit',
    /'910', which has no unit/,
    /910 g\/L/,
  ],
  [
    'a density with an unknown unit',
    'reagents:\n  - reagent: a\n    density: 5 gx',
    '8:14',
    'unit',
    /5 gx/,
    /1\.18 g\/mL/,
  ],
  [
    'an amount of substance where a mass should stand',
    'samples:\n  - sample: A\n    obtained: 2.0 mol',
    '8:15',
    'dimension',
    /an amount of substance, where a mass or a volume should stand/,
    /1\.98 g/,
  ],
  [
    'a mass where a temperature should stand',
    'heating:\n  - { of: product, to: 60 g }',
    '7:24',
    'dimension',
    /a mass, where a temperature/,
    /60 °C/,
  ],
  [
    'a temperature where a time should stand',
    'heating:\n  - to: 60 °C\n    for: 60 °C',
    '8:10',
    'dimension',
    /a temperature, where a time/,
    /3 h/,
  ],
  [
    'a comma that may stand between thousands',
    'samples:\n  - sample: A\n    obtained: 1,980 g',
    '8:15',
    'quantity',
    /comma/i,
    /full stop/,
  ],
  [
    'heating without a temperature',
    'heating:\n  - of: product',
    '7:5',
    'missing-key',
    /Item 1 of `heating` has no `to`/,
    /60 °C/,
  ],
  [
    'one text with four figures where three should stand',
    'samples:\n  - sample: A\n    colour: { lab: "54, 6, 1, 2" }',
    '8:20',
    'wrong-type',
    /where a list should stand/,
    /\[ … \]/,
  ],
  [
    'a ratio where a strength should stand',
    'reagents:\n  - { reagent: { name: ammonia, strength: "1:4 v/v" } }',
    '7:43',
    'unit',
    /1:4 v\/v/,
    // One part and four make five; one part in four is a quarter.
    /1 \+ 4 \(20 % of .*or 1 in 4 \(25 %\)/,
  ],
  [
    'a list where one text should stand',
    'reaction: [a, b]',
    '6:11',
    'wrong-type',
    /a list, where words should stand/,
    /without hyphens/,
  ],
  [
    'one text where keys should stand',
    'reference: malachite',
    '6:12',
    'wrong-type',
    /'malachite', where keys of its own/,
    /name: …, colour: …/,
  ],
  [
    'words where a number should stand',
    'samples:\n  - sample: A\n    colour: { lab: [54, light, 6] }',
    '8:25',
    'wrong-type',
    /Item 2 of `lab` is 'light', where a number/,
    /plain number/,
  ],
  [
    'two numbers where three should stand',
    'samples:\n  - sample: A\n    colour: { lab: [54, 6] }',
    '8:20',
    'list-length',
    /`lab` has 2 values, where 3/,
    /\[54\.1,-30\.2,6\]/,
  ],
  [
    'four numbers where three should stand',
    'samples:\n  - sample: A\n    colour: { lab: [54, 6, 1, 2] }',
    '8:20',
    'list-length',
    /`lab` has 4 values, where 3/,
    /3 values/,
  ],
  [
    'L* beyond 100',
    'samples:\n  - sample: A\n    colour: { lab: [154, 6, 0] }',
    '8:21',
    'range',
    /'154', which is too large/,
    /0 to 100/,
  ],
  [
    'a colour without a reading',
    'samples:\n  - sample: A\n    colour: { illuminant: D65 }',
    '8:13',
    'colour-reading',
    /holds no reading/,
    /lab:/,
  ],
  [
    'a word that is not one of the choices',
    'samples:\n  - sample: A\n    tests: { acid-spot: fizzed }',
    '8:25',
    'choice',
    /'fizzed'/,
    /dissolved/,
  ],
  [
    'a use that names both a reagent and a lot',
    'reagents:\n  - { reagent: a, lot: 9/A }',
    '7:5',
    'reagent-or-lot',
    /both a reagent and a lot/,
    /9\/A/,
  ],
  ['a use that names neither', 'reagents:\n  - amount: 5 g', '7:5', 'reagent-or-lot', /neither/, /blue-vitriol/],
  [
    'a mistake inside a described reagent',
    'reagents:\n  - reagent: { name: soda, formlaa: Na2CO3 }',
    '7:28',
    'unknown-key',
    /formlaa/,
    /`formula`/,
  ],
  [
    'a described reagent without name',
    'reagents:\n  - reagent: { purity: 98 % }',
    '7:14',
    'missing-key',
    /no `name`/,
    /name:/,
  ],
  ['a reagent that is a list', 'reagents:\n  - reagent: [a]', '7:14', 'wrong-type', /words or keys of its own/, /./],
  ['a lot that is not number/sample', 'reagents:\n  - lot: A9', '7:10', 'lot', /'A9', which is not a lot/, /9\/A/],
  [
    'a formula that can’t be read',
    'pigment: { name: x, formula: Cu2(CO3 }',
    '6:30',
    'formula',
    /can’t be read as a formula/,
    /./,
  ],
  ['an element that does not exist', 'pigment: { name: x, elements: [cx] }', '6:32', 'element', /'cx'/, /Cu for/],
  [
    'a Colour Index name without a number',
    'pigment: { name: x, colour-index: PG }',
    '6:35',
    'colour-index',
    /PG/,
    /PBk11/,
  ],
  [
    'a day that the calendar has not',
    'videos:\n  - { url: "https://v.example/1", published: 2026-02-30 }',
    '7:46',
    'date',
    /28 days/,
    /calendar/,
  ],
  [
    'an address that a browser would run',
    'videos:\n  - url: javascript:alert(1)',
    '7:10',
    'web-address',
    /not a web address/,
    /https/,
  ],
  [
    'a moment in another form',
    'videos:\n  - url: https://v.example/1\n    moments: [{ at: 3m40, shows: x }]',
    '8:21',
    'moment',
    /3m40/,
    /3:40/,
  ],
  [
    'moments out of order',
    'videos:\n  - url: https://v.example/1\n    moments: [{ at: "3:40", shows: x }, { at: "1:02", shows: y }]',
    '8:47',
    'moment-order',
    /1:02 does not come after 3:40/,
    /order/,
  ],
  ['a sample id that can’t be an anchor', 'samples:\n  - sample: A b', '7:13', 'sample-id', /'A b'/, /A-2/],
  [
    'two samples of one id',
    'samples:\n  - sample: A\n  - sample: A',
    '8:13',
    'duplicate-sample',
    /two samples A/,
    /own/,
  ],
  [
    'two samples that differ in capitals only',
    'samples:\n  - sample: a\n  - sample: A',
    '8:13',
    'duplicate-sample',
    /capitals/,
    /own/,
  ],
  [
    'a replicate of a sample that is not there',
    'samples:\n  - sample: A\n    replicate-of: B',
    '8:19',
    'unknown-sample',
    /no sample B/,
    /A/,
  ],
  [
    'omitting what is not used',
    'reagents:\n  - reagent: soda\nsamples:\n  - sample: A\n    omit: [sada]',
    '10:12',
    'not-used',
    /'sada'/,
    /soda\?/,
  ],
  [
    'changing what is not used',
    'reagents:\n  - reagent: soda\nsamples:\n  - sample: A\n    change: [{ reagent: salt, amount: 1 g }]',
    '10:25',
    'not-used',
    /'salt'/,
    /uses soda/,
  ],
  [
    'a path that leads out',
    'samples:\n  - sample: A\n    photo: ../../secret.jpg\n    photo-shows: x',
    '8:12',
    'outside-journal',
    /leads out/,
    /journal’s folder/,
  ],
  [
    'an absolute path',
    'samples:\n  - sample: A\n    colour: { spectrum: /etc/passwd }',
    '8:25',
    'file-path',
    /not a path inside/,
    /spectra/,
  ],
  ['a key given twice', 'question: a\nquestion: b', '7:1', 'duplicate-key', /second time/, /Keep one/],
  ['a colon in a text in braces', 'pigment: { name: x: y }', '6:18', 'yaml', /./, /./],
  ['a tab among spaces', 'pigment:\n  name: x\n \tformula: CuO', '8:1', 'yaml', /./, /./],
  ['a tag', 'answer: !!js/function "x"', '6:9', 'yaml', /tag/, /./],
  ['a quote that is not closed', 'answer: "x', '6:11', 'yaml', /quote/, /Close/],
];

/** A key in the wrong place → where it is, and what is said of the place in which it belongs. */
const misplaced: [more: string, at: string, cure: RegExp][] = [
  ['samples:\n  - sample: A\n    tints: []', '8:5', /^It belongs under `colour`\.$/],
  [
    'samples:\n  - sample: A\n    colour: { lab: [54, 6, 0], obtained: 1 g }',
    '8:32',
    /^Write `obtained` one level up, beside `colour`\.$/,
  ],
  ['samples:\n  - sample: A\n    colour: { lab: [54, 6, 0], drawdown: 3 }', '8:32', /^It belongs under `readings`\.$/],
  [
    'heating:\n  - { to: 60 °C, samples: [A] }',
    '7:18',
    /^What is for some samples stands under each of them: samples: \[\{ sample: A, heating: … \}\]$/,
  ],
];

test.each(misplaced)('a key in the wrong place is shown to the right one: %s', (more, at, cure) => {
  const [found] = read(more).remarks.filter(({ ruleId }) => ruleId === 'unknown-key');
  expect(`${found?.line}:${found?.column}`).toBe(at);
  expect(found?.note).toMatch(cure);
});

/** Front matter below the four keys → what is said, as a note, and what is read. */
const meant: [name: string, more: string, said: readonly string[], read: object][] = [
  ['one text where a list stands', 'ideas: Try cold', [], { ideas: ['Try cold'] }],
  ['one number where a list stands', 'follows: 9', [], { follows: [9] }],
  ['a pigment by its name', 'pigment: malachite', [], { pigment: { name: 'malachite' } }],
  ['an incident in a sentence', 'incidents: [It boiled over.]', [], { incidents: [{ what: 'It boiled over.' }] }],
  ['heating in a word', 'heating: red heat', [], { heating: [{ of: 'product', to: 'red heat' }] }],
  ['a role in capitals', 'reagents: [{ reagent: a, role: Acid }]', [], { reagents: [{ reagent: 'a', role: 'acid' }] }],
  ['a key in capitals', 'Question: Why?', ['6:1 note another-word'], { question: 'Why?' }],
  [
    'another word for a key',
    'samples: [{ sample: A, notes: wet }]',
    ['6:24 note another-word'],
    { samples: [{ sample: 'A', note: 'wet' }] },
  ],
  [
    'another word for a strength',
    'reagents: [{ reagent: a, concentration: 25 %, amount: 3 gms }]',
    ['6:26 note another-word'],
    { reagents: [{ reagent: 'a', strength: '25 %', amount: '3 gms' }] },
  ],
  [
    'another word for a word',
    'reagents: [{ reagent: a, intent: in excess }]',
    ['6:34 note another-word'],
    { reagents: [{ reagent: 'a', intent: 'excess' }] },
  ],
  [
    'a heating with its time in one text',
    'heating: "900°C, 1 h"',
    ['6:10 note read-as'],
    { heating: [{ of: 'product', to: '900°C', for: '1 h' }] },
  ],
  [
    'a heating with its time in German',
    'heating: 60 °C für 3 h',
    ['6:10 note read-as'],
    { heating: [{ of: 'product', to: '60 °C', for: '3 h' }] },
  ],
  [
    'three figures in one text',
    'samples: [{ sample: A, colour: { lab: "53.0, 23.1, -17.9" } }]',
    ['6:39 note read-as'],
    { samples: [{ sample: 'A', colour: { lab: [53, 23.1, -17.9] } }] },
  ],
  [
    'three figures with decimal commas',
    'samples: [{ sample: A, colour: { xyz: "53,0; 23,1 17,9" } }]',
    ['6:39 note read-as'],
    { samples: [{ sample: 'A', colour: { xyz: [53, 23.1, 17.9] } }] },
  ],
  [
    'three figures with their letters',
    'samples: [{ sample: A, colour: { lab: "L* 53, a* = 23.1, b*: −17.9" } }]',
    ['6:39 note read-as'],
    { samples: [{ sample: 'A', colour: { lab: [53, 23.1, -17.9] } }] },
  ],
  [
    'another word for a code of a colour',
    'samples: [{ sample: A, colour: { hex: "#336699" } }]',
    ['6:34 note another-word'],
    { samples: [{ sample: 'A', colour: { srgb: '#336699' } }] },
  ],
  [
    'another word for what repeats a sample',
    'samples: [{ sample: A }, { sample: B, repeats: A }]',
    ['6:39 note another-word'],
    { samples: [{ sample: 'A' }, { sample: 'B', 'replicate-of': 'A' }] },
  ],
  [
    'a decimal comma',
    'samples: [{ sample: A, obtained: "1,98 g" }]',
    ['6:34 note read-as'],
    { samples: [{ sample: 'A', obtained: '1.98 g' }] },
  ],
  [
    'a zero in water',
    'pigment: { name: x, formula: CuSO4·5H20 }',
    ['6:30 note read-as'],
    { pigment: { name: 'x', formula: 'CuSO4·5H2O' } },
  ],
  [
    'a Colour Index name with a space',
    'pigment: { name: x, colour-index: PG 39 }',
    ['6:35 note read-as'],
    { pigment: { name: 'x', 'colour-index': 'PG39' } },
  ],
  [
    'an element in small letters',
    'pigment: { name: x, elements: [cu] }',
    ['6:32 note read-as'],
    { pigment: { name: 'x', elements: ['Cu'] } },
  ],
  ['a lot without its slash', 'reagents: [{ lot: 9A }]', ['6:19 note read-as'], { reagents: [{ lot: '9/A' }] }],
  [
    'the code of a colour among words',
    'samples: [{ sample: A, colour: "#a05a9c, by the window" }]',
    ['6:32 note read-as'],
    { samples: [{ sample: 'A', colour: { srgb: '#a05a9c' } }] },
  ],
  [
    'an amount in no known unit',
    'reagents: [{ reagent: a, amount: 5 gx }]',
    ['6:34 warning amount-not-read'],
    { reagents: [{ reagent: 'a', amount: '5 gx' }] },
  ],
  [
    'nights',
    'heating: [{ to: 60 °C, for: 2 nights }]',
    [],
    { heating: [{ of: 'product', to: '60 °C', for: '2 nights' }] },
  ],
  ['a proportion', 'reagents: [{ reagent: a, amount: "1:3 by volume with the alum water" }]', [], {}],
  [
    'an assay in words',
    'samples: [{ sample: A, assay: 0.3–0.4 mol/L }]',
    [],
    { samples: [{ sample: 'A', assay: '0.3–0.4 mol/L' }] },
  ],
  [
    'a strength that is none',
    'reagents: [{ reagent: a, strength: strong }]',
    ['6:36 warning quantity'],
    { reagents: [{ reagent: 'a' }] },
  ],
  ['a key that changes no danger', 'weather: rain', ['6:1 warning unknown-key'], {}],
  [
    'a misspelt one too',
    'samples: [{ sample: A, obtaned: 2 g }]',
    ['6:24 warning unknown-key'],
    { samples: [{ sample: 'A' }] },
  ],
  ['a merge key', '<<: { title: x }', ['6:1 warning unknown-key'], {}],
];
describe('what can only mean one thing, or can be done without, lets the entry through', () => {
  test.each(meant)('%s', (_, more, said, wanted) => {
    const { entry, remarks } = read(more);
    expect(told(remarks)).toEqual(said.map((one) => `${file}:${one}`));
    expect(entry).toMatchObject(wanted);
  });
});

describe('a mistake in an entry is said with its place and what to do', () => {
  test.each(mistakes)('%s', (_, more, place, rule, found, cure) => {
    const { remarks } = read(more);
    const [first] = remarks.filter((one) => severityOf(one) === 'error');
    expect(`${first?.line}:${first?.column} ${first?.ruleId}`).toBe(`${place} ${rule}`);
    expect(first?.file).toBe(file);
    expect(first?.reason).toMatch(found);
    expect(first?.note).toMatch(cure);
  });

  test('front matter that can’t be read leaves no entry, a wrong value only leaves that value out', () => {
    expect(read('answer: "x').entry).toBeUndefined();
    const { entry, remarks } = read(
      'answer: Yes.\nsamples:\n  - sample: A\n    colour: { lab: [1, 2] }\n    density: 1.98\n  - sample: B\n ' +
        '   obtained: 2.00 g',
    );
    expect(remarks).toHaveLength(2);
    expect(entry?.answer).toBe('Yes.');
    expect(read('ideas: [one, [two], three]\nfollows: [9, x, 8]').entry).toMatchObject({
      ideas: ['one', 'three'],
      follows: [9, 8],
    });
    expect(entry?.samples).toEqual([{ sample: 'A' }, { sample: 'B', obtained: '2.00 g' }]);
  });

  test.each(['number', 'title', 'date', 'status'])('an entry can’t do without `%s`', (key) => {
    const { entry, remarks } = readEntry(
      file,
      `---\n${head
        .split('\n')
        .filter((line) => !line.startsWith(key))
        .join('\n')}\n---\n`,
    );
    expect(entry).toBeUndefined();
    expect(remarks.map((one) => [one.ruleId, one.reason])).toEqual([['missing-key', `The entry has no \`${key}\`.`]]);
    expect(remarks[0]?.note).toMatch(new RegExp(`^Add ${key}: `));
  });

  test('a key that may be a number or a file is asked for by its name', () => {
    const { remarks } = read('samples: [{ sample: A, opacity: { over-black: 21 } }]');
    expect(remarks.map((one) => one.reason)).toEqual(['`opacity` has no `over-white`.']);
    expect(remarks[0]!.note).toContain('Add over-white: spectra/14-A-white.csv');
  });

  test.each([
    ['2026-02-29', 'date'],
    ['2024-02-30', 'date'],
    ['2026-13-01', 'date'],
    ['3.4.2026', 'date'],
    ['2026-3-34', 'date'],
    ['last spring', 'date'],
    ['2026-00-10', 'date'],
    ['2026-04-31', 'date'],
  ])('%s is not a date', (date, rule) => {
    expect(
      readEntry(file, `---\nnumber: 14\ntitle: x\ndate: ${date}\nstatus: finished\n---\n`).remarks.map(
        (one) => `${one.line} ${one.ruleId}`,
      ),
    ).toEqual([`4 ${rule}`]);
  });

  test.each([
    ['2026-3-14', '2026-03-14'],
    ['2026/03/14', '2026-03-14'],
    ['14.3.2026', '2026-03-14'],
    ['4 March 2026', '2026-03-04'],
    ['4th of Mar 2026', '2026-03-04'],
    ['March 4, 2026', '2026-03-04'],
  ])('%s can only be %s, and is read so with a note', (date, meant) => {
    const read = readEntry(file, `---\nnumber: 14\ntitle: x\ndate: "${date}"\nstatus: finished\n---\n`);
    expect(read.entry?.date).toBe(meant);
    expect(told(read.remarks)).toEqual([`${file}:4:7 note read-as`]);
  });

  test('29 February of a leap year is a date', () => {
    expect(readEntry(file, '---\nnumber: 14\ntitle: x\ndate: 2024-02-29\nstatus: finished\n---\n').remarks).toEqual([]);
  });

  test('what only looks odd is a warning or a note', () => {
    expect(told(read('withdrawn: spoiled').remarks)).toEqual([`${file}:6:1 warning status-reason`]);
    expect(told(read('heating: [{ of: prodct, to: 60 °C }]').remarks)).toEqual([`${file}:6:17 warning heating-of`]);
    expect(told(read('samples: [{ sample: A, photo: photos/a.jpg }]').remarks)).toEqual([
      `${file}:6:31 warning photo-without-words`,
    ]);
    expect(told(readEntry('entries/015-x.md', `---\n${head}---\n`).remarks)).toEqual([
      'entries/015-x.md:2:9 warning number-and-file',
    ]);
  });

  test('hundreds of mistakes give a bounded number of remarks', () => {
    const { remarks } = read(`ideas:\n${'  - [x]\n'.repeat(900)}`);
    expect(remarks.length).toBe(26);
    expect(remarks.at(-1)?.ruleId).toBe('many-remarks');
  });
});
