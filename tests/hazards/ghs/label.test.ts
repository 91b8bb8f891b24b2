// Labels of packs: what CLP allows to leave off a small one, and what never, by each rule of the reference.
import { describe, expect, test } from 'vitest';
import {
  hazardBox,
  labelElements,
  labelSizes,
  packagingNeeds,
  transportAdvice,
  type HazardBox,
  type LabelElements,
  type Pack,
  type SubstanceInUse,
} from '../../../src/hazards/ghs/index.js';
import { referenceRows } from '../../reference/read.js';

const rules = referenceRows('hazards/small-packages.csv');
const list = (cell: string | undefined): string[] =>
  (cell ?? '')
    .split(';')
    .map((part) => part.trim())
    .filter((part) => part !== '');
const spelledOut = (cell: string | undefined): string[] =>
  list(cell).flatMap((part) => {
    const range = /^H(\d+) to H(\d+)$/.exec(part);
    if (!range) return [part];
    const [first, last] = [Number(range[1]), Number(range[2])];
    return Array.from({ length: last - first + 1 }, (_, at) => `H${first + at}`);
  });

/** A box with just these statements, as from a maker's sheet. */
const boxOf = (...statements: readonly string[]): HazardBox => hazardBox([{ name: 'x', sheet: { statements } }]);
const of = (name: string, more: Partial<SubstanceInUse> = {}): SubstanceInUse => ({ name, ...more });
const pack = (millilitres: number, more: Partial<Pack> = {}): Pack => ({
  millilitres,
  forPublic: false,
  layout: 'one-label',
  ...more,
});
const codes = (elements: LabelElements): readonly string[] => elements.statements.map((one) => one.code);

describe('what may be left off up to 125 mL, rule by rule', () => {
  const reliefs = rules.filter((row) => /^L/.test(row['rule_id']!) && row['rule_id'] !== 'L18');
  test('there are 23', () => {
    expect(reliefs).toHaveLength(23);
  });
  test.each(
    reliefs.flatMap((row) =>
      spelledOut(row['h_codes']).map((code) => [`${row['rule_id']} ${code}`, code, row] as const),
    ),
  )('%s', (_, code, row) => {
    const box = boxOf(code);
    const [small, large] = [labelElements(box, pack(125)), labelElements(box, pack(125.1))];
    const leaves = row['may_be_left_out']!;
    const statementGoes = /H and P/.test(leaves);
    expect(small.leftOff).toEqual(statementGoes ? [code] : []);
    expect(codes(small)).toEqual(statementGoes ? [] : [code]);
    expect(small.precautionary).toEqual([]);
    expect([small.pictograms, small.signalWord]).toEqual(
      /pictogram/.test(leaves) ? [[], undefined] : [box.pictograms, box.signalWord],
    );
    expect(small.signalsLeftOff).toBe(/pictogram/.test(leaves));
    expect(small.rules.some((rule) => rule.place === `CLP ${row['clp_place']}` && rule.basis === row['basis'])).toBe(
      true,
    );
    expect([codes(large), large.leftOff, large.pictograms]).toEqual([[code], [], box.pictograms]);
    expect(large.precautionary.length).toBeGreaterThan(0);
  });
  test.each(
    reliefs.flatMap((row) =>
      spelledOut(row['h_codes']).map((code) => [`${row['rule_id']} ${code}`, code, row] as const),
    ),
  )('%s, where the pack reaches the general public', (_, code, row) => {
    const left = labelElements(boxOf(code), pack(10, { forPublic: true }));
    const stays = row['general_public'] === 'no' || row['may_be_left_out'] === 'P statements only';
    expect(codes(left)).toEqual(stays ? [code] : []);
  });
});

describe('what stays on every pack, rule by rule', () => {
  const none = rules.filter((row) => /^N0[12]$/.test(row['rule_id']!));
  test.each(
    none.flatMap((row) => spelledOut(row['h_codes']).map((code) => [`${row['rule_id']} ${code}`, code] as const)),
  )('%s', (_, code) => {
    const box = boxOf(code);
    const vial = labelElements(box, pack(1));
    expect([codes(vial), vial.leftOff, vial.mustStay]).toEqual([[code], [], [code]]);
    expect([vial.pictograms, vial.signalWord]).toEqual([box.pictograms, box.signalWord]);
    expect(vial.rules.map((rule) => rule.id)).toEqual([expect.stringMatching(/^N0/)]);
  });
  test.each(['EUH032', 'EUH066', 'EUH208'])('supplementary statement %s', (code) => {
    expect(labelElements(boxOf(code), pack(1)).statements.map((one) => one.code)).toEqual([code]);
  });
});

describe('vials', () => {
  const vial = (name: string, more: Partial<Pack> = {}): LabelElements =>
    labelElements(hazardBox([of(name)]), pack(10, { forPublic: true, ...more }));
  test('malachite may go without H319 and H410, not without its pictograms', () => {
    expect(vial('malachite')).toMatchObject({
      pictograms: ['GHS07', 'GHS09'],
      signalWord: 'Warning',
      leftOff: ['H319', 'H410'],
      mustStay: ['H302', 'H332'],
    });
    expect(codes(vial('malachite'))).toEqual(['H302+H332']);
  });
  test('not handed to the public, it may go without H302 and H332 too', () => {
    expect(vial('malachite', { forPublic: false }).statements).toEqual([]);
  });
  test('grave statements stay on every pack', () => {
    expect(codes(vial('lead chromate'))).toEqual(['H350', 'H360Df', 'H373']);
  });
  test('above 125 mL nothing is left off', () => {
    expect(vial('malachite', { millilitres: 126 }).leftOff).toEqual([]);
  });
  test('beside an unknown substance nothing is left off', () => {
    expect(labelElements(hazardBox([of('malachite'), of('dragon’s blood')]), pack(10))).toMatchObject({
      leftOff: [],
      unknown: ['dragon’s blood'],
    });
  });
  test('nor of what is only read across from other compounds of its element', () => {
    const box = hazardBox([of('Egyptian blue', { formula: 'CaCuSi4O10' })]);
    expect(box.substances![0]!.found).toBe('by-element');
    expect(labelElements(box, pack(10)).leftOff).toEqual([]);
  });
  test('what corrodes metals and burns skin keeps the corrosion pictogram and the signal word', () => {
    expect(labelElements(boxOf('H290', 'H314'), pack(10))).toMatchObject({
      pictograms: ['GHS05'],
      signalWord: 'Danger',
      leftOff: ['H290'],
      mustStay: ['H314'],
      signalsLeftOff: false,
    });
  });
  test('what corrodes metals and is harmful loses the corrosion pictogram alone', () => {
    expect(labelElements(boxOf('H290', 'H302'), pack(10))).toMatchObject({
      pictograms: ['GHS07'],
      signalWord: 'Warning',
      signalsLeftOff: true,
    });
  });
  test('precautionary statements of what is left off go with it, those of what stays stay', () => {
    const box = boxOf('H315', 'H301');
    const [small, full] = [labelElements(box, pack(10)), labelElements(box, pack(1000))];
    expect(full.precautionary.length).toBeGreaterThan(small.precautionary.length);
    expect(small.precautionary.map((one) => one.code)).toContain('P301+P310');
  });
  test('those that a maker’s sheet prints stay', () => {
    const box = hazardBox([of('x', { sheet: { statements: ['H315'], precautionary: ['P280'] } })]);
    expect(labelElements(box, pack(10)).precautionary.map((one) => one.code)).toEqual(['P280']);
  });
  test('acute toxicity of one category is one sentence', () => {
    expect(vial('lead white', { millilitres: 200 }).statements[0]).toMatchObject({
      code: 'H302+H332',
      text: 'Harmful if swallowed or if inhaled.',
    });
  });
  test('that leaving off comes after fold-out, tag and outer pack is said (CLP Article 29)', () => {
    expect(vial('malachite').rules[0]).toMatchObject({ id: 'W02', place: 'CLP Art. 29(2)' });
    expect(vial('malachite', { millilitres: 126 }).rules).toEqual([]);
    expect(vial('water').rules).toEqual([]);
  });
});

describe('other layouts', () => {
  const box = hazardBox([of('lead chromate')]);
  test('an inner pack bears the pictograms at least; all else stands outside (CLP Annex I 1.5.1.2)', () => {
    const inner = labelElements(box, pack(500, { layout: 'inner-pack', forPublic: true }));
    expect([inner.pictograms, inner.statements, inner.precautionary, inner.signalWord]).toEqual([
      box.pictograms,
      [],
      [],
      undefined,
    ]);
    expect(inner.rules.map((rule) => rule.id)).toEqual(['W06', 'W07']);
    expect(inner.leftOff).toEqual(box.statements.map((one) => one.code));
    expect(inner.signalsLeftOff).toBe(true);
  });
  test('a vial for research bears four pictograms where they apply (CLP Annex I 1.5.2.4)', () => {
    const vial = labelElements(box, pack(10, { layout: 'research-vial' }));
    expect([box.pictograms, vial.pictograms]).toEqual([['GHS08', 'GHS09'], ['GHS08']]);
    expect(vial.rules.map((rule) => rule.id)).toEqual(['T01', 'T02']);
  });
  test.each([
    ['above 10 mL', pack(10.5, { layout: 'research-vial' })],
    ['where it goes to the public', pack(10, { layout: 'research-vial', forPublic: true })],
  ])('that relief does not hold %s', (_, wanted) => {
    expect(codes(labelElements(box, wanted))).toContain('H350');
  });
});

describe('what no size waives (CLP Annex II 3.1.1, 3.2.1.1)', () => {
  const needs = (box: HazardBox, forPublic = true): readonly boolean[] => {
    const { tactileWarning, childResistantClosure } = packagingNeeds(box, forPublic);
    return [tactileWarning, childResistantClosure];
  };
  test.each([
    ['corrosive', ['H314'], [true, true]],
    ['toxic if swallowed', ['H301'], [true, true]],
    ['harmful', ['H302'], [true, false]],
    ['suspected of causing cancer', ['H351'], [true, false]],
    ['highly flammable liquid', ['H225'], [true, false]],
    ['flammable liquid of category 3', ['H226'], [false, false]],
    ['aspiration hazard', ['H304'], [true, true]],
    ['dangerous to water', ['H410'], [false, false]],
  ] as const)('%s', (_, statements, expected) => {
    expect(needs(boxOf(...statements))).toEqual(expected);
  });
  test('holds for what reaches the public only, and each rule is named', () => {
    expect(needs(boxOf('H314'), false)).toEqual([false, false]);
    expect(packagingNeeds(boxOf('H314'), true).rules.map((rule) => rule.id)).toEqual(['K01', 'K02']);
  });
  test('what is unknown needs both', () => {
    expect(needs(hazardBox([of('dragon’s blood')]))).toEqual([true, true]);
  });
});

describe('least sizes (CLP Annex I 1.2.1.4, Table 1.3)', () => {
  test.each([
    [10, 52, 74, 10, 1.2],
    [500, 52, 74, 10, 1.2],
    [501, 52, 74, 10, 1.4],
    [3000, 52, 74, 10, 1.4],
    [3001, 74, 105, 23, 1.8],
    [50_000, 74, 105, 23, 1.8],
    [50_001, 105, 148, 32, 2],
    [500_001, 148, 210, 46, 2],
  ])('%i mL', (millilitres, width, height, pictogram, xHeight) => {
    const sizes = labelSizes(millilitres);
    expect([sizes.label.width, sizes.label.height, sizes.pictogram.least, sizes.xHeight.least]).toEqual([
      width,
      height,
      pictogram,
      xHeight,
    ]);
  });
});

describe('before posting', () => {
  const classes = (box: HazardBox): readonly string[] => transportAdvice(box).classes.map((one) => one.unClass);
  // Classes under which the trade sends these, as printed on suppliers' sheets: from memory (UN numbers 1500, 1805,
  // 1170, 1479 for permanganate 1490, 3077 for zinc oxide).
  test.each([
    ['sodium nitrite', undefined as string | undefined, ['5.1', '6.1', '9']],
    ['phosphoric acid', undefined, ['8']],
    ['ethanol', undefined, ['3']],
    ['potassium permanganate', undefined, ['5.1', '9']],
    ['zinc oxide', undefined, ['9']],
    ['cadmium chloride', undefined, ['6.1', '9']],
    ['sodium hydroxide', undefined, ['8']],
    ['sodium chloride', undefined, []],
  ])('%s', (name, formula, expected) => {
    expect(classes(hazardBox([of(name, { ...(formula && { formula }) })]))).toEqual(expected);
  });
  test('it is always said that rules must be read first', () => {
    for (const name of ['sodium chloride', 'zinc oxide', 'dragon’s blood'])
      expect(transportAdvice(hazardBox([of(name)])).words.at(-1)).toContain('Do not post it before');
  });
  test('what is unknown may be of any class', () => {
    const advice = transportAdvice(hazardBox([of('dragon’s blood')]));
    expect([advice.unknown, advice.words[0]]).toEqual([['dragon’s blood'], expect.stringContaining('any class')]);
  });
  test('no statement is not an all-clear', () => {
    expect(transportAdvice(hazardBox([of('sodium chloride')])).words[0]).toContain('does not make it fit');
  });
});
