// Labels: what stands on them, read back from the file as it is printed. The QR codes are decoded by another library
// than the one that makes them.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import jsQR from 'jsqr';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { command } from '../../src/commands/labels.js';
import { WrongUse } from '../../src/commands/command.js';
import { entry, folderOf, settings } from '../journal-folder.js';
import { run } from './bench.js';
import { quoted } from '../quoted.js';

// The library's types say that it is a module; what it exports is the function.
const readCode = jsQR as unknown as typeof jsQR.default;

const shelf = [
  'pearls: { name: sodium hydroxide, formula: NaOH, purity: 98 % }',
  'lye: { name: sodium hydroxide solution, formula: NaOH, strength: 2.0 mol/L, density: 1.08 g/mL }',
  'attic: { name: powder from the attic }',
  'green-jar: { name: our green, lot: 14/A }',
].join('\n');

const malachite = entry(
  14,
  `pigment: { name: malachite, formula: Cu2CO3(OH)2, colour-index: PG39 }
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: { name: blue vitriol, formula: CuSO4·5H2O }, amount: 5.00 g }
  - { reagent: { name: sodium carbonate, formula: Na2CO3 }, amount: 2.50 g }
  - { reagent: { name: water }, amount: 60 mL, role: wash }
precautions: [{ against: carbon dioxide froth, do: Poured in slowly, by the spoon. }]
samples:
  - { sample: A, differs: cold, obtained: 1.98 g, colour: { lab: [54, -30, 6], illuminant: D65, observer: 10 } }
  - { sample: B, differs: warm, obtained: 1.95 g }
`,
);
const mystery = entry(15, "pigment: { name: dragon's blood }\nsamples: [{ sample: A }]\n");
const journal = (): string =>
  folderOf({
    'journal.yaml': settings,
    'shelf.yaml': shelf,
    'entries/014-malachite.md': malachite,
    'entries/015-mystery.md': mystery,
    'entries/016-empty.md': entry(16),
  });
const labels = (...words: string[]) => run(command, '--journal', journal(), ...words);
const json = async (...words: string[]) => (await labels(...words, '--json')).json;

const codesIn = (html: string): readonly string[] =>
  quoted(html)
    .match(/<svg[^>]*class="code"[\s\S]*?<\/svg>/g)
    ?.map((code) => code) ?? [];

/** The address that a reader of QR codes sees, at 8 dots a module. */
async function decoded(svg: string): Promise<string | undefined> {
  const across = Number(/viewBox="0 0 (\d+)/.exec(svg)![1]) * 8;
  const sized = svg
    .replace(/ width="[^"]*mm"/, ` width="${across}"`)
    .replace(/ height="[^"]*mm"/, ` height="${across}"`);
  const { data, info } = await sharp(Buffer.from(sized)).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  return readCode(new Uint8ClampedArray(data), info.width, info.height)?.data;
}

const labelsIn = (html: string): readonly string[] =>
  quoted(html).match(/<article class="label[\s\S]*?<\/article>/g) ?? [];

describe('labels of an entry', () => {
  it('are one file that asks for no other, to stdout or to a file', async () => {
    const { code, result } = await labels('14');
    expect(code).toBe(0);
    expect(result).toMatch(/^<!doctype html>/i);
    expect(result).not.toMatch(/<(?:link|script|img|iframe)\b/);
    expect(quoted(result ?? '').match(/(?:src|href)="(?!#)[^"]*"/g) ?? []).toEqual([]);
    expect(result.match(/url\((?!['"]?data:)/g) ?? []).toEqual([]);
    const file = join(folderOf({}), 'labels.html');
    const written = await labels('14', '--to', file);
    expect([written.code, readFileSync(file, 'utf8')]).toEqual([0, result]);
    expect(written.result).not.toContain('<');
  });

  it('say pigment, number, date, formula, Colour Index name, amount, maker, and that a swatch prints differently', async () => {
    const { result } = await labels('14', '--sample', 'A', '--amount', '2.00 g', '--size', '105x74mm');
    const [label = ''] = labelsIn(result);
    for (const part of [
      'malachite',
      '14/A',
      '2026-01-15',
      'PG39',
      'Amount: 2.00 g',
      'A tester',
      'as measured, printing differs',
    ])
      expect(label).toContain(part);
    expect(label).toContain('Cu<sub>2</sub>CO<sub>3</sub>(OH)<sub>2</sub>');
    expect(label).toMatch(/class="swatch"[\s\S]*fill="#[0-9a-f]{6}"/);
  });

  it('lead to the permanent address of the sample by a QR code that an independent reader reads', async () => {
    for (const size of ['64x38mm', '40x20mm', '105x74mm']) {
      const { result } = await labels('14', '--size', size, '--count', '1');
      const codes = codesIn(result);
      expect(codes.length).toBe(2);
      expect(await Promise.all(codes.map(decoded))).toEqual([
        'https://test.example/base/14/#A',
        'https://test.example/base/14/#B',
      ]);
    }
  });

  it('state error level and module of the code, with four modules of white around it (ISO/IEC 18004)', async () => {
    const { labels: made } = await json('14', '--sample', 'A');
    expect(made[0].code).toMatchObject({ address: 'https://test.example/base/14/#A', level: 'M' });
    expect(made[0].code.module).toBeGreaterThanOrEqual(0.25);
    const { result } = await labels('14', '--sample', 'A');
    expect(result).toMatch(/error level M, modules of 0\.\d+ mm, a quiet zone of 4 modules/);
    const [code = ''] = codesIn(result);
    const across = Number(/viewBox="0 0 (\d+)/.exec(code)![1]);
    const dark = [...code.matchAll(/M(\d+) (\d+)h(\d+)/g)].map((run) => run.slice(1).map(Number));
    expect(Math.min(...dark.map(([x]) => x!), ...dark.map(([, y]) => y!))).toBe(4);
    expect(Math.max(...dark.map(([x, , run]) => x! + run!), ...dark.map(([, y]) => y! + 1))).toBe(across - 4);
  });

  it('are as many as are asked for, of one sample or of each', async () => {
    expect(labelsIn((await labels('15', '--count', '12')).result)).toHaveLength(12);
    const { labels: both, sheet } = await json('14', '--count', '3', '--size', '105x74mm');
    expect(both.map((one: { id: string; count: number }) => [one.id, one.count])).toEqual([
      ['14/A', 3],
      ['14/B', 3],
    ]);
    expect(sheet).toMatchObject({ paper: 'A4', label: { width: 105, height: 74 }, pages: expect.any(Number) });
  });

  it('stand in the grid that is asked for, on either paper', async () => {
    const grid = await json('15', '--grid', '4x12', '--size', '40x20mm');
    expect(grid.sheet).toMatchObject({ columns: 4, rows: 12, label: { width: 40, height: 20 } });
    // Each pack has a front and a label of its hazards.
    expect(grid.labels[0]).toMatchObject({ count: 24, layout: 'front-and-hazards' });
    const letter = await json('15', '--grid', '3x10', '--paper', 'Letter');
    expect(letter.sheet.paper).toBe('Letter');
    // 215.9 mm less 8 mm on each side, over three.
    expect(letter.sheet.label.width).toBeCloseTo(66.63, 2);
    const { result } = await labels('15', '--paper', 'letter');
    expect(result).toContain('@page{size:letter;margin:0}');
  });
});

describe('hazards on a label', () => {
  // Malachite in CLP Annex VI (copper(II) carbonate--copper(II) hydroxide (1:1)): Acute Tox. 4 by mouth and inhaled,
  // Eye Irrit. 2, Aquatic Chronic 1. Of these a vial for the public may go without the last two (CLP Annex I
  // 1.5.2.1.1(b)(13), (17)), not without the first (11).
  it('are those that CLP asks for, less what a small pack may leave off', async () => {
    const { labels: made } = await json('14', '--sample', 'A');
    expect(made[0]).toMatchObject({
      signalWord: 'Warning',
      pictograms: ['GHS07', 'GHS09'],
      leftOff: ['H319', 'H410'],
      mustStay: ['H302', 'H332'],
      unknown: [],
    });
    expect(made[0].statements.map((one: { code: string }) => one.code)).toEqual(['H302+H332']);
    expect(made[0].rules.map((one: { place: string }) => one.place)).toContain('CLP Annex I 1.5.2.1.1(b)(13)');
    expect(made[0].packaging).toEqual({ tactileWarning: true, childResistantClosure: false });
  });
  it('are all of them where the label holds them, and where it does not it is said which one does', async () => {
    const all = await json('14', '--sample', 'A', '--size', '105x74mm');
    expect(all.labels[0]).toMatchObject({ layout: 'one', leftOff: [] });
    const less = await labels('14', '--sample', 'A');
    expect(less.aside).toContain('Left off by the rules of small packages: H319, H410.');
    expect(less.aside).toMatch(/A label, a fold-out or a tag of \d+ by \d+ mm holds all of it\./);
  });
  // Source: CLP Annex I Table 1.3: at least 10 mm, if possible 16 mm, up to 3 L. A square of 16 mm on its point is
  // 22.63 mm across.
  it('are pictured as large as is asked for where there is room, and it is said where there is none', async () => {
    const large = await labels('--shelf', 'lye', '--holds', '1L', '--count', '1', '--size', '105x74mm');
    expect(large.result).toContain('class="pictograms side-16"');
    expect(large.result).toContain('Pictograms have sides of 16 mm');
    const small = await labels('14', '--sample', 'A', '--size', '40x20mm', '--count', '1');
    expect(labelsIn(small.result)[1]).toContain('class="pictograms side-10"');
    expect(small.result).toContain('sides of 10 mm, the least that is allowed');
  });
  it('above 125 mL are all of them', async () => {
    const { labels: made } = await json('14', '--sample', 'A', '--holds', '126mL');
    expect(made[0]).toMatchObject({ leftOff: [] });
    expect(made[0].statements.map((one: { code: string }) => one.code)).toEqual(['H319', 'H410', 'H302+H332'].sort());
  });
  it('stand on one label where there is room, with signal word, statements and advice', async () => {
    const { result } = await labels('14', '--sample', 'A', '--size', '105x74mm', '--count', '1');
    const [label = '', ...more] = labelsIn(result);
    expect(more).toEqual([]);
    expect(label.match(/aria-label="GHS0\d/g)).toHaveLength(2);
    expect(label).toContain('Warning');
    expect(label).toContain('Harmful if swallowed or if inhaled.');
    expect(label).toMatch(/P\d{3}/);
  });
  it('on a label that is too small stand as pictograms, and an outer label has all, nothing left off', async () => {
    const { result } = await labels('14', '--sample', 'A', '--size', '40x20mm', '--count', '1');
    const kinds = labelsIn(result).map((label) => /class="label ([a-z]+)/.exec(label)![1]);
    expect(kinds).toEqual(['front', 'pictograms', 'outer']);
    const [front = '', small = '', outer = ''] = labelsIn(result);
    expect(front).toContain('class="code"');
    expect(small.match(/aria-label="GHS0\d/g)).toHaveLength(2);
    for (const part of ['Warning', 'H302', 'H319', 'H410', 'malachite']) expect(outer).toContain(part);
    expect(result).toContain('CLP Annex I 1.5.1.2');
  });
  it('that are unknown are said on the label, and nothing is left off', async () => {
    const { result, aside } = await labels('15', '--count', '1');
    expect(labelsIn(result)[0]).toContain('Hazards unknown: treat as hazardous.');
    expect(aside).toContain('it may be dangerous goods of any class');
    expect((await json('15')).labels[0].unknown).toEqual(["dragon's blood"]);
  });
  // 3 ± 0.6 g of the vitriol or 2.5 g of the prussiate run out first; weighing cannot tell which is left.
  it('tell of all that may be left where it is too close to call', async () => {
    const text = entry(
      17,
      `pigment: { name: Hatchett's brown, formula: Cu2Fe(CN)6 }
reaction: 2 CuSO4 + K4Fe(CN)6 -> Cu2Fe(CN)6 + 2 K2SO4
reagents:
  - { reagent: { name: blue vitriol, formula: CuSO4·5H2O }, amount: 3 g }
  - { reagent: { name: prussiate, formula: K4Fe(CN)6·3H2O }, amount: 2.5 g }
samples: [{ sample: A, obtained: 2.0 g }]
`,
    );
    const folder = folderOf({ 'journal.yaml': settings, 'shelf.yaml': '{}', 'entries/017-brown.md': text });
    const { result } = await run(command, '--journal', folder, '17', '--count', '1', '--size', '105x74mm');
    expect(result).toContain('May hold remains of blue vitriol, prussiate.');
  });
  it('of what gives a pigment its colour and is not in its formula are unknown', async () => {
    const text = entry(17, 'pigment: { name: tin yellow, formula: SnO2, elements: [V] }\nsamples: [{ sample: A }]\n');
    const folder = folderOf({ 'journal.yaml': settings, 'shelf.yaml': '{}', 'entries/017-tin.md': text });
    const { result } = await run(command, '--journal', folder, '17', '--count', '1');
    expect(labelsIn(result)[0]).toContain('Hazards unknown');
  });
  it('no statement is no all-clear', async () => {
    const text = entry(18, 'pigment: { name: sodium chloride, formula: NaCl }\nsamples: [{ sample: A }]\n');
    const folder = folderOf({ 'journal.yaml': settings, 'shelf.yaml': '{}', 'entries/018-salt.md': text });
    const { result } = await run(command, '--journal', folder, '18', '--count', '1');
    expect(labelsIn(result)[0]).toContain('No hazard statement is known for it; that does not make it safe.');
  });
  it('are told with the classes of transport, and that nothing is posted without asking', async () => {
    const { aside, result } = await labels('14', '--sample', 'A');
    for (const told of [aside, result]) {
      expect(told).toContain('class 9, environmentally hazardous (H410)');
      expect(told).toContain('Do not post it before');
    }
    expect((await json('14')).labels[0].transport.classes).toEqual([
      { class: '9', words: 'environmentally hazardous', codes: ['H410'] },
    ]);
    expect(result).toContain('UFI');
  });
});

describe('labels of bottles', () => {
  it('of a jar say strength, assay and hazards at that strength', async () => {
    const solid = await labels('--shelf', 'pearls', '--count', '1');
    expect(labelsIn(solid.result)[0]).toContain('assay 98 %');
    for (const part of ['Danger', 'H314', 'NaOH']) expect(labelsIn(solid.result)[0]).toContain(part);
    const { labels: made } = await json('--shelf', 'lye');
    expect(made[0]).toMatchObject({ id: 'lye', leftOff: [], signalWord: 'Danger' });
    expect(labelsIn((await labels('--shelf', 'lye')).result)[0]).toContain('strength 2.0 mol/L');
  });
  it('of a lot say that it was not analysed, when, and what it was made from', async () => {
    const { result } = await labels('--lot', '14/A', '--count', '1');
    const [label = ''] = labelsIn(result);
    expect(label).toContain('assay not known');
    expect(label).toContain('made from blue vitriol, sodium carbonate');
    expect(label).toContain('2026-01-15');
    const jar = await labels('--shelf', 'green-jar', '--count', '1');
    expect(labelsIn(jar.result)[0]).toContain('made here, lot 14/A');
  });
  it('of what nothing is known of say so', async () => {
    const { result } = await labels('--shelf', 'attic', '--count', '1');
    expect(labelsIn(result)[0]).toContain('Hazards unknown');
  });
});

describe('bad input', () => {
  it.each([
    [[]],
    [['fourteen']],
    [['14', '15']],
    [['14', '--lot', '9/A']],
    [['--lot', '9-A']],
    [['--shelf', 'lye', '--sample', 'A']],
    [['14', '--size', '40']],
    [['14', '--size', '1x1mm']],
    [['14', '--size', '40x20in']],
    [['14', '--grid', '0x4']],
    [['14', '--grid', 'four']],
    [['14', '--grid', '40x40']],
    [['14', '--grid', '4x12', '--size', '70x40mm']],
    [['14', '--paper', 'A3']],
    [['14', '--count', '0']],
    [['14', '--count', '1e9']],
    [['14', '--holds', 'much']],
    [['14', '--amount', ' ']],
  ])('%j is wrong use, in a sentence', async (words) => {
    await expect(labels(...words)).rejects.toBeInstanceOf(WrongUse);
    await expect(labels(...words)).rejects.toThrow(/\S+ \S+/);
  });
  it.each([
    [['99'], 'no-entry'],
    [['14', '--sample', 'C'], 'no-sample'],
    [['16'], 'no-sample'],
    [['--lot', '14/C'], 'no-sample'],
    [['--lot', '99/A'], 'no-entry'],
    [['--shelf', 'gold'], 'no-reagent'],
    [['14', '--size', '20x12mm'], 'label-too-small'],
    [['15', '--count', '1000', '--size', '12x12mm'], 'label-too-small'],
  ])('%j is refused: %s', async (words, fault) => {
    const { code, json: answer } = await labels(...words, '--json');
    expect([code, answer.error.code]).toEqual([1, fault]);
    expect(answer.error.cure).toMatch(/\S/);
    const file = join(folderOf({}), 'x.html');
    await labels(...words, '--to', file);
    expect(existsSync(file)).toBe(false);
  });
});
