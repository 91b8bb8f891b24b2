// The hazard box loses nothing: every substance is in it with its statements and source, or is named as unknown.
import fc from 'fast-check';
import { toHtml } from 'hast-util-to-html';
import { describe, expect, test } from 'vitest';
import {
  hazardBox,
  mixtureBox,
  noteSentence,
  substances,
  type SubstanceInUse,
  type HazardBox,
} from '../../../src/hazards/ghs/index.js';
import type { Entry } from '../../../src/journal/entry.js';
import {
  entrySchema,
  shelfReagentSchema,
  type JournalSettings,
  type ShelfReagent,
} from '../../../src/journal/schema.js';
import { remarksOn } from '../../../src/journal/place.js';
import type { ReckoningContext } from '../../../src/reckoning/contracts.js';
import { Findings } from '../../../src/remarks/findings.js';
import { resolveJar } from '../../../src/reagents/index.js';
import { reckonReagentBox } from '../../../src/hazards/box-of-reagent.js';
import { reckonHazardBox } from '../../../src/reckoning/dangers/hazard-box.js';
import { hazardBox as drawn } from '../../../templates/parts/hazard-box.js';
import { pictogram, pictogramName } from '../../../templates/pictograms/pictogram.js';

const sentences = (box: HazardBox): string => box.notes!.map(noteSentence).join(' ');
const codesOf = (box: HazardBox): readonly string[] => box.statements.map((one) => one.code);
const of = (name: string, more: Partial<SubstanceInUse> = {}): SubstanceInUse => ({ name, ...more });

describe('merging', () => {
  const box = hazardBox([
    of('copperas', { formula: 'FeSO4·7H2O' }),
    of('nitric acid', { percent: '10' }),
    of('blue vitriol', { formula: 'CuSO4·5H2O' }),
    of('ammonia solution'),
    of('dragon’s blood'),
  ]);
  test('a statement of several substances stands once, with every name', () => {
    expect(box.statements.find((one) => one.code === 'H302')?.from).toEqual(['copperas', 'blue vitriol']);
  });
  test('each statement names its basis and source', () => {
    for (const one of box.statements)
      for (const origin of one.origins!)
        expect([origin.basis, origin.source.length > 10]).toEqual(['harmonised', true]);
  });
  test('H410 takes the place of H400 and H314 of H318, and says whose it stands for', () => {
    expect(codesOf(box)).not.toContain('H400');
    expect(codesOf(box)).not.toContain('H318');
    expect(box.statements.find((one) => one.code === 'H410')).toMatchObject({
      from: ['blue vitriol'],
      standsFor: { code: 'H400', from: ['ammonia solution'] },
    });
    expect(box.statements.find((one) => one.code === 'H314')).toMatchObject({
      from: ['nitric acid', 'ammonia solution'],
      standsFor: { code: 'H318', from: ['blue vitriol'] },
    });
  });
  test('the unknown substance is named', () => {
    expect(box.unknown).toEqual(['dragon’s blood']);
  });
  test('a solution whose strength is not given is taken as undiluted, and that is said', () => {
    expect(sentences(box)).toContain('ammonia solution: No strength given: taken as undiluted.');
  });
  test('supplementary statements stay', () => {
    expect(codesOf(box)).toContain('EUH071');
  });
  test('precautionary statements begin with the general ones, and a few are marked for a label', () => {
    const codes = box.precautionary.map((one) => one.code);
    expect([...codes]).toEqual([...codes].sort());
    expect(codes).toContain('P280');
    expect(box.precautionary.filter((one) => one.first).length).toBe(6);
    expect(box.precautionary.find((one) => one.code === 'P260')?.from).toContain('nitric acid');
    expect(codes).not.toContain('P261'); // P260 says more
  });
});

describe('group entries, hydrates and bases', () => {
  test('a lead compound without a row of its own stands by the group entry, and says so', () => {
    const box = hazardBox([of('lead iodide', { formula: 'PbI2' })]);
    expect(codesOf(box)).toEqual(['H302', 'H332', 'H360Df', 'H373', 'H410']);
    expect(box.statements[0]!.origins![0]!.note).toContain('group entry: lead compounds');
    expect(box.substances![0]).toMatchObject({ found: 'group', basis: 'harmonised' });
  });
  test('two groups in one compound are both counted', () => {
    expect(codesOf(hazardBox([of('lead arsenate', { formula: 'Pb3(AsO4)2' })]))).toEqual([
      'H301',
      'H331',
      'H350',
      'H360Df',
      'H373',
      'H410',
    ]);
  });
  test('a row from memory says so', () => {
    expect(hazardBox([of('iron(III) sulfate')]).statements[0]!.origins![0]!.basis).toBe('memory');
  });
  test('water is not classified, with its basis, and is not called safe', () => {
    const box = hazardBox([of('water', { formula: 'H2O', role: 'solvent' })]);
    expect([box.statements, box.unknown, box.substances![0]!.found]).toEqual([[], [], 'row']);
    expect(box.substances![0]!.source).toContain('Annex IV');
    expect(sentences(box)).toContain('not the same as harmless');
  });
  test('organs are named in the wording', () => {
    expect(hazardBox([of('copper(II) acetate')]).statements.find((one) => one.code === 'H372')?.text).toBe(
      'Causes damage to organs (liver) through prolonged or repeated exposure.',
    );
  });
  test('a strength in mol/L without a density is looked up, and that is said', () => {
    const box = reckonReagentBox(resolveJar({ name: 'hydrochloric acid', formula: 'HCl', strength: '2.0 mol/L' }));
    // 2.0 mol/L lies between 6 % (1.692 mol/L) and 8 % (2.277 mol/L): CRC Handbook, 102nd ed., hydrochloric acid at 20
    // °C
    expect([box.statements, box.substances![0]!.strength]).toEqual([[], '7.06 % by mass']);
    expect(sentences(box)).toContain('1.033 g/mL was taken from a table');
  });
});

describe('the maker’s sheet', () => {
  const sheet = { statements: ['H302 + H312', 'h360fd', 'EUH 032'], supplier: 'Tansy and Crake', date: '2024-05-02' };
  const box = hazardBox([of('oxalic acid', { formula: 'H2C2O4·2H2O', sheet })]);
  test('goes over the table, combined codes taken apart, none lost', () => {
    expect(codesOf(box)).toEqual(['H302', 'H312', 'H360FD', 'EUH032']);
  });
  test('is named with supplier and date', () => {
    expect(box.statements[0]!.origins![0]).toMatchObject({
      basis: 'sds',
      source: 'maker’s SDS, Tansy and Crake, 2024-05-02',
    });
  });
  test('that leaves out a statement of the table is told on', () => {
    const thin = hazardBox([of('sodium nitrite', { sheet: { statements: ['H272', 'H302'] } })]);
    expect(thin.substances![0]!.leftOutBySds).toEqual(['H301', 'H400']);
    expect(sentences(thin)).toContain('leaves out H301, H400');
  });
  test('a graver statement covers a milder one', () => {
    expect(
      hazardBox([of('copper sulphate pentahydrate', { sheet: { statements: ['H301', 'H314', 'H410'] } })])
        .substances![0]!.leftOutBySds,
    ).toBeUndefined();
  });
  test('its pictograms and signal word are kept', () => {
    expect(
      hazardBox([
        of('secret varnish', {
          sheet: { statements: ['H226'], pictograms: ['GHS02', 'GHS08'], signalWord: 'Warning' },
        }),
      ]),
    ).toMatchObject({ pictograms: ['GHS02', 'GHS08'], signalWord: 'Warning', unknown: [] });
  });
  test('a signal word milder than its statements allow is not believed', () => {
    expect(hazardBox([of('x', { sheet: { statements: ['H314'], signalWord: 'Warning' } })]).signalWord).toBe('Danger');
  });
  test('a code that no list has stays in sight', () => {
    const strange = hazardBox([of('x', { sheet: { statements: ['H999'] } })]);
    expect(codesOf(strange)).toEqual(['H999']);
    expect(sentences(strange)).toContain('H999');
  });
  test('that is named but has nothing copied from it changes nothing', () => {
    expect(
      hazardBox([of('dragon’s blood', { sheet: { statements: [], url: 'https://sds.example/1' } })]).unknown,
    ).toEqual(['dragon’s blood']);
  });
  test('for another strength is counted with the table', () => {
    const strong = hazardBox([
      of('hydrochloric acid', {
        percent: '30',
        sheet: { statements: ['H319'] },
        sheetIsFor: '10 %',
      }),
    ]);
    expect(codesOf(strong)).toEqual(['H314', 'H319', 'H335']);
  });
});

describe('one mixture', () => {
  test('hydrochloric acid of 15 % irritates (CLP Annex VI 017-002-01-X)', () => {
    expect(mixtureBox('pickle', [{ substance: of('hydrochloric acid'), percent: '15' }])).toMatchObject({
      pictograms: ['GHS07'],
      signalWord: 'Warning',
    });
  });
  test('a wet product keeps what is above its limits', () => {
    const box = mixtureBox('wet cake', [
      { substance: of('malachite'), percent: '60' },
      { substance: of('sodium carbonate'), percent: '2' },
      { substance: of('water'), percent: '38' },
    ]);
    expect(codesOf(box)).toEqual(['H302', 'H319', 'H332', 'H410']);
  });
  test('an unknown ingredient is named', () => {
    expect(mixtureBox('paste', [{ substance: of('dragon’s blood'), percent: '5' }]).unknown).toEqual([
      'dragon’s blood',
    ]);
  });
});

describe('always', () => {
  const anyBench = fc.oneof(
    fc.constantFrom(...substances().map((row) => of(row.name))),
    fc.string({ minLength: 1 }).map((name) => of(`?${name}`)),
    fc
      .tuple(fc.constantFrom(...substances().map((row) => row.name)), fc.integer({ min: 1, max: 100 }))
      .map(([name, percent]) => of(name, { percent: String(percent) })),
  );
  test('unknown never turns into silence', () => {
    fc.assert(
      fc.property(fc.array(anyBench, { minLength: 1, maxLength: 6 }), (bench) => {
        const box = hazardBox(bench);
        expect(box.substances!.length).toBe(bench.length);
        for (const one of box.substances!) {
          if (one.found === 'unknown') expect(box.unknown).toContain(one.name);
          else expect(one.source).toBeTruthy();
        }
        const page = toHtml(drawn(box));
        expect((page.match(/No hazard data for/g) ?? []).length).toBe(box.unknown.length);
      }),
      { numRuns: 200 },
    );
  });
  test('adding a substance to the bench removes no statement, no danger, no unknown', () => {
    fc.assert(
      fc.property(fc.array(anyBench, { maxLength: 5 }), anyBench, (bench, more) => {
        const before = hazardBox(bench);
        const after = hazardBox([...bench, more]);
        const said = (box: HazardBox): ReadonlySet<string> =>
          new Set(box.statements.flatMap((one) => [one.code, ...(one.standsFor ? [one.standsFor.code] : [])]));
        for (const code of said(before)) expect(said(after)).toContain(code);
        if (before.signalWord === 'Danger') expect(after.signalWord).toBe('Danger');
        else if (before.signalWord) expect(after.signalWord).toBeDefined();
        for (const name of before.unknown) expect(after.unknown).toContain(name);
        for (const one of before.statements)
          for (const name of one.from)
            expect(
              after.statements.some(
                (other) =>
                  (other.code === one.code && other.from.includes(name)) ||
                  (other.standsFor?.code === one.code && other.standsFor.from.includes(name)),
              ),
            ).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
  test('order changes nothing', () => {
    fc.assert(
      fc.property(fc.array(anyBench, { maxLength: 5 }), (bench) => {
        const [one, other] = [hazardBox(bench), hazardBox([...bench].reverse())];
        expect([codesOf(one), one.pictograms, one.signalWord, [...one.unknown].sort()]).toEqual([
          codesOf(other),
          other.pictograms,
          other.signalWord,
          [...other.unknown].sort(),
        ]);
      }),
      { numRuns: 200 },
    );
  });
});

describe('an entry', () => {
  const shelf = new Map<string, ShelfReagent>([
    ['copperas', shelfReagentSchema.parse({ name: 'copperas', formula: 'FeSO4·7H2O' })],
    [
      'spirit',
      shelfReagentSchema.parse({
        name: 'spirit of salt',
        formula: 'HCl',
        strength: '30 %',
        density: '1.15 g/mL',
        sds: { statements: ['H314'] },
      }),
    ],
  ]);
  const matter = [
    'number: 1',
    'title: t',
    'date: 2026-01-01',
    'status: finished',
    'pigment: { name: Turkey umber of ours, formula: PbO2 }',
    'reagents:',
    '  - reagent: copperas',
    '  - reagent: spirit',
    '  - lot: 9/A',
    '  - reagent: { name: moon dust }',
  ].join('\n');
  const entry: Entry = {
    ...entrySchema.parse({
      number: 1,
      title: 't',
      date: '2026-01-01',
      status: 'finished',
      pigment: { name: 'Turkey umber of ours', formula: 'PbO2' },
      reagents: [{ reagent: 'copperas' }, { reagent: 'spirit' }, { lot: '9/A' }, { reagent: { name: 'moon dust' } }],
      samples: [{ sample: 'A', add: [{ reagent: { name: 'borax' } }] }],
    }),
    file: 'entries/001.md',
    matter,
    matterLine: 2,
    body: '',
    bodyLine: 13,
  };
  const findings = new Findings();
  const context: ReckoningContext = {
    settings: {} as JournalSettings,
    shelf,
    reading: () => undefined,
    lot: (name) =>
      name === '9/A'
        ? { lot: '9/A', entry: 9, sample: 'A', name: 'verdigris of ours', formula: 'Cu(CH3COO)2·H2O' }
        : undefined,
  };
  const box = reckonHazardBox(entry, context, findings);
  const remarks = remarksOn(entry, findings.all);
  test('has reagents, lots, what samples add, and the product in its box', () => {
    expect(box.substances!.map((one) => [one.name, one.found])).toEqual([
      ['copperas', 'row'],
      ['spirit of salt', 'sds'],
      ['verdigris of ours', 'row'],
      ['moon dust', 'unknown'],
      ['borax', 'row'],
      ['Turkey umber of ours', 'group'],
    ]);
    expect(box.substances!.at(-1)!.role).toBe('product');
  });
  test('gets a remark on the unknown, with its place', () => {
    const found = remarks.find((one) => one.ruleId === 'no-hazard-data')!;
    expect([found.file, found.line, found.fatal]).toEqual(['entries/001.md', 11, false]);
    expect(found.reason).toContain('moon dust');
  });
  test('gets a remark on what a maker’s sheet leaves out', () => {
    expect(remarks.find((one) => one.ruleId === 'sheet-leaves-out')?.reason).toContain('H335');
  });
  test('a reagent’s page has its own box', () => {
    expect(codesOf(reckonReagentBox(resolveJar(shelf.get('spirit')!)))).toEqual(['H314']);
  });
});

describe('on the page', () => {
  test.each(['GHS01', 'GHS02', 'GHS03', 'GHS04', 'GHS05', 'GHS06', 'GHS07', 'GHS08', 'GHS09'])(
    '%s is an image with a name, and has a symbol',
    (code) => {
      const page = toHtml(pictogram(code, 40));
      expect(page).toContain(`role="img" aria-label="${code}: ${pictogramName(code)}"`);
      expect(page).toContain('stroke="#d4121e"');
      expect(page.match(/<(?:path|circle|ellipse)/g)!.length).toBeGreaterThan(1);
      expect(page.length).toBeLessThan(2400);
      expect(page).not.toContain('style=');
    },
  );
  const page = toHtml(drawn(hazardBox([of('nitric acid', { formula: 'HNO3' }), of('<script>alert(1)</script>')])));
  test('unknown substances come first, in words that cannot be missed', () => {
    expect(page.indexOf('No hazard data for')).toBeLessThan(page.indexOf('signal-word'));
    expect(page).toContain('treat as hazardous; read its safety data sheet');
  });
  test('pictograms, signal word and statements stand outside what folds', () => {
    const visible = page.replace(/<details.*?<\/details>/gs, '');
    for (const part of [
      'GHS05: corrosion',
      'Danger',
      'Causes severe skin burns',
      '<small>nitric acid</small>',
      'On whose word: EU harmonised',
      'safety data sheet of what you in fact have',
    ])
      expect(visible).toContain(part);
  });
  test('precautionary statements and sources are there to unfold', () => {
    expect(page).toContain('Wear protective gloves');
    expect(page).toContain('CLP Annex VI Table 3');
  });
  test('a name cannot bring markup', () => {
    expect(page).not.toContain('<script>');
  });
  test('nothing classified is said not to be harmless', () => {
    expect(toHtml(drawn(hazardBox([of('water')])))).toContain('That does not make it harmless');
  });
});
