// What reckoning finds of an entry's dangers, as plain data: order, room, answers, and the facts that the rules word.
// Expected values are from the entry's own words and from arithmetic by hand; what must be remarked is common
// practice, no source.
import { describe, expect, it } from 'vitest';
import { exact, type Decimal } from '../../../src/chemistry/index.js';
import type { Entry } from '../../../src/journal/entry.js';
import type { JournalSettings } from '../../../src/journal/schema.js';
import type { ReckoningContext } from '../../../src/reckoning/contracts.js';
import { reckonDangers } from '../../../src/reckoning/dangers/dangers.js';
import { foreseeEntry } from '../../../src/reckoning/dangers/foreseen-in-entry.js';
import { toldInWords } from '../../../src/reckoning/told/told-in-words.js';
import { foreseenIfAdded } from '../../../src/reckoning/dangers/what-if.js';
import { entry, shelf } from '../entries.js';

const more = {
  nitrite: { name: 'sodium nitrite', formula: 'NaNO2' },
  muriatic: { name: 'hydrochloric acid', formula: 'HCl', strength: '30 %', density: '1.15 g/mL' },
  sulfide: { name: 'sodium sulfide', formula: 'Na2S·9H2O' },
  bleach: { name: 'bleach' },
  powder: { name: 'grandmother’s powder' },
  linseed: { name: 'linseed oil' },
  lead: { name: 'lead(II) acetate', formula: 'Pb(CH3COO)2' },
};
function contextOf(settings: Partial<JournalSettings> = {}): ReckoningContext {
  return {
    settings: {
      title: 'T',
      address: 'https://t.example/',
      author: 'T',
      language: 'en-GB',
      cautions: [],
      ...settings,
    } as JournalSettings,
    shelf: new Map(Object.entries({ ...shelf, ...more })),
    lot: () => undefined,
    reading: () => undefined,
  };
}
function look(
  matter: string,
  settings: Partial<JournalSettings> = {},
  { factor, ...also }: Partial<Pick<Entry, 'status' | 'body'>> & { readonly factor?: Decimal } = {},
) {
  const one: Entry = { ...entry(14, matter), status: 'finished', ...also };
  const { dangers, findings } = reckonDangers(one, contextOf(settings), factor);
  const found = (rule: string): Record<string, unknown>[] =>
    findings
      .filter((one) => one.rule === rule)
      .map((one) => ({ where: one.where, ...(one.facts as Record<string, unknown>) }));
  return { dangers, found };
}

const reagents = (...lines: string[]): string => `reagents:\n${lines.map((line) => `  - { ${line} }\n`).join('')}`;
/** Nitrite with an acid: nitrogen oxides, in sources the textbook case. */
const fumes = reagents('reagent: nitrite, amount: 0.90 g', 'reagent: vinegar, amount: 2.0 mL');
const rule = 'nitrite-weak-acid';

describe('what is foreseen', () => {
  it('stands in order of gravity, and of name where they are as grave', () => {
    const { dangers } = look(
      reagents(
        'reagent: sulfide, amount: 1 g',
        'reagent: muriatic, amount: 2 mL',
        'reagent: bleach, amount: 5 mL',
        'reagent: soda, amount: 2 g',
        'reagent: nitrite, amount: 1 g',
      ),
    );
    const ranks = dangers.foreseen!.map(({ severity }) => ['danger', 'warning', 'note'].indexOf(severity));
    expect(new Set(ranks).size).toBeGreaterThan(1);
    expect(ranks).toEqual([...ranks].sort());
    const grave = dangers.foreseen!.filter(({ severity }) => severity === 'danger').map((one) => one.rule);
    expect(grave.length).toBeGreaterThan(2);
    expect(grave).toEqual([...grave].sort());
  });
  it('names the samples in which it arises, and none where there are none', () => {
    const samples = 'samples: [{ sample: A }, { sample: B, differs: no acid, omit: [vinegar] }]\n';
    expect(look(fumes + samples).dangers.foreseen!.find((one) => one.rule === rule)!.samples).toEqual(['A']);
    expect(look(fumes).dangers.foreseen!.find((one) => one.rule === rule)!.samples).toEqual([]);
  });
  describe('knows its step', () => {
    const stepped = (...steps: string[]): number | undefined =>
      look(`${fumes}steps:\n${steps.map((step) => `  - { ${step} }\n`).join('')}`).dangers.foreseen!.find(
        (one) => one.rule === rule,
      )!.step;
    it('where the last of its partners goes in, whichever that is', () => {
      const [salt, acid] = ['do: Dissolve., with: [nitrite]', 'do: Pour., with: [vinegar]'];
      expect(stepped(salt, 'do: Wait.', acid)).toBe(3);
      expect(stepped(acid, salt)).toBe(2);
      expect(stepped('do: Both at once., with: [nitrite, vinegar]')).toBe(1);
    });
    it('by the first time something goes in, and by its name too', () => {
      expect(stepped('do: Half., with: [nitrite]', 'do: Pour., with: [vinegar]', 'do: Rest., with: [nitrite]')).toBe(2);
      expect(stepped('do: Dissolve., with: [sodium nitrite]', 'do: Pour., with: [vinegar]')).toBe(2);
    });
    it('and none where a partner stands in no step, or none are written', () => {
      expect(stepped('do: Dissolve., with: [nitrite]')).toBeUndefined();
      expect(stepped('do: Stir it all.')).toBeUndefined();
      const without = look(fumes).dangers.foreseen!.find((one) => one.rule === rule)!;
      expect(without).not.toHaveProperty('step');
      // What takes no part may be anywhere.
      expect(
        look(
          `${fumes}  - { reagent: soda, amount: 1 g }\nsteps:\n  - { do: Both., with: [nitrite, vinegar] }\n` +
            '  - { do: Then., with: [soda] }\n',
        ).dangers.foreseen!.find((one) => one.rule === rule)!.step,
      ).toBe(1);
    });
  });
  it('carries the precautions that name it and say something, and no other', () => {
    const { dangers } = look(
      `${fumes}precautions:
  - { against: brown fumes, do: Outdoors and a gram at a time., note: x }
  - { against: nitrogen dioxide, do: '…' }
  - { against: chlorine, do: Never with bleach in the room. }
`.replace(', note: x', ''),
    );
    expect(dangers.foreseen!.find((one) => one.rule === rule)!.answered).toEqual([
      { against: 'brown fumes', do: 'Outdoors and a gram at a time.' },
    ]);
  });
  it('names what could not be judged, and the cautions of the stuff itself', () => {
    const { dangers, found } = look(reagents('reagent: powder, amount: 1 g', 'reagent: linseed, amount: 5 g'));
    expect(dangers.notJudged).toEqual(['grandmother’s powder']);
    expect(found('not-judged')).toEqual([
      { where: ['reagents', 0], name: 'grandmother’s powder', actual: 'grandmother’s powder' },
    ]);
    const [misspelt] = look(reagents('reagent: { name: coper sulfat }, amount: 1 g')).found('not-judged');
    expect(misspelt).toMatchObject({ name: 'coper sulfat', meant: ['copper sulphate (CuSO4)'] });
    expect(dangers.cautions!.join(' ')).toContain('Rags and paper soaked with linseed oil');
  });
});

describe('the room', () => {
  const room = (workspace?: object) => look(fumes, { workspace } as Partial<JournalSettings>).dangers.room;
  it('is the stated one, in m3', () => {
    expect(room({ volume: '25 m3', extraction: true })).toEqual({ cubicMetres: '25', stated: true, extraction: true });
    expect(room({ volume: '18500 L' })).toEqual({ cubicMetres: '18.5', stated: true, extraction: false });
  });
  it('is assumed where none is stated, or what is stated is no volume', () => {
    const assumed = { cubicMetres: '30', stated: false, extraction: false };
    expect(room()).toEqual(assumed);
    expect(room({ extraction: false })).toEqual(assumed);
    expect(room({ volume: '25 g' })).toEqual(assumed);
    expect(room({ volume: 'as large as a stable' })).toEqual(assumed);
  });
  it('is the one that the gas is reckoned in', () => {
    const ppm = (volume: string) =>
      Number(
        look(fumes, { workspace: { volume } } as Partial<JournalSettings>).dangers.foreseen!.find(
          (one) => one.rule === rule,
        )!.worstCase!.roomPpm,
      );
    expect(ppm('10 m3') / ppm('40 m3')).toBeCloseTo(4, 3);
  });
});

describe('a danger that nobody answers', () => {
  it('is found at its first partner, with what the sentence needs', () => {
    const [one, ...others] = look(fumes).found('danger-unanswered');
    expect(others).toEqual([]);
    expect(one).toMatchObject({
      where: ['reagents', 0],
      title: 'nitrite with weak acid',
      partners: ['acetic acid', 'sodium nitrite'],
      bringsKey: true,
      withdrawn: false,
    });
    expect(one!.against).toMatch(/nitrite with weak acid/);
    expect(one!.worstCase).toMatch(/A worst-case bound/);
  });
  it('brings the key once for the entry, at what the reader meets first, and not where there is one already', () => {
    const two = reagents(
      'reagent: sulfide, amount: 1 g',
      'reagent: muriatic, amount: 2 mL',
      'reagent: bleach, amount: 5 mL',
    );
    const brings = (matter: string) =>
      look(matter)
        .found('danger-unanswered')
        .filter((one) => one.bringsKey);
    expect(look(two).found('danger-unanswered').length).toBeGreaterThan(1);
    expect(brings(two)).toHaveLength(1);
    expect(brings(two)[0]!.where).toEqual(['reagents', 0]);
    expect(brings(`${two}precautions: [{ against: dust, do: Wear a mask at all times. }]\n`)).toEqual([]);
  });
  it('is no more found once it is answered', () => {
    const answer = 'precautions: [{ against: nitrogen oxides, do: Outdoors and a gram at a time. }]\n';
    expect(look(fumes + answer).found('danger-unanswered')).toEqual([]);
    expect(look(fumes + answer).found('precaution-answers-nothing')).toEqual([]);
  });
});

describe('a precaution', () => {
  const with_ = (against: string, does = 'Outdoors and a gram at a time.', before = fumes) =>
    look(`${before}precautions: [{ against: ${against}, do: ${JSON.stringify(does)} }]\n`);
  it('that says nothing is found at its words', () => {
    const { found } = with_('nitrogen oxides', '…');
    expect(found('precaution-says-nothing')).toEqual([
      {
        where: ['precautions', 0, 'do'],
        against: 'nitrogen oxides',
        words: '…',
        why: 'nothing',
        leftOpen: ['nitrite with weak acid'],
        actual: '…',
      },
    ]);
    expect(found('precaution-answers-nothing')).toEqual([]);
  });
  it('that names nothing foreseen is found, with what could be meant', () => {
    const [one] = with_('nitorgen oxdies').found('precaution-answers-nothing');
    expect(one).toMatchObject({ where: ['precautions', 0, 'against'], against: 'nitorgen oxdies', dangerOpen: true });
    expect((one!.meant as string[])[0]).toMatch(/nitrite with weak acid/);
    expect(new Set(one!.meant as string[]).size).toBe((one!.meant as string[]).length);
  });
  it('against dust is left alone once nothing is open, one against a gas that is not there is not', () => {
    const both = (against: string) =>
      look(
        `${fumes}precautions:\n  - { against: nitrogen oxides, do: Outdoors and a gram at a time. }\n  - { ` +
          `against: ${against}, do: Wear what is needed for that. }\n`,
      ).found('precaution-answers-nothing');
    expect(both('dust')).toEqual([]);
    expect(both('chlorine gas')).toMatchObject([{ where: ['precautions', 1, 'against'], dangerOpen: false }]);
  });
  it('is never wrong where nothing is foreseen', () => {
    const salt = reagents('reagent: { name: sodium chloride, formula: NaCl }, amount: 1 g');
    expect(with_('chlorine gas', 'Keep the window wide open.', salt).found('precaution-answers-nothing')).toEqual([]);
  });
});

describe('scale', () => {
  const grams = (nitrite: string, extra = '', settings: Partial<JournalSettings> = {}) =>
    look(reagents(`reagent: nitrite, amount: ${nitrite}`, 'reagent: vinegar, amount: 0.5 mL') + extra, settings).found(
      'start-smaller',
    );
  it('could be smaller for a first run above a gram of what is dangerous, with two figures', () => {
    expect(grams('12.34 g')).toEqual([
      { where: ['reagents', 0], grams: '12', name: 'sodium nitrite', smallAmount: '1 g' },
    ]);
    expect(grams('1.00 g')).toEqual([]);
    expect(grams('1.01 g')).toMatchObject([{ grams: '1' }]);
  });
  it('is what the journal calls a small amount; a volume is not one', () => {
    expect(grams('3 g', '', { 'small-amount': '5 g' } as Partial<JournalSettings>)).toEqual([]);
    expect(grams('8 g', '', { 'small-amount': '5 g' } as Partial<JournalSettings>)).toMatchObject([
      { smallAmount: '5 g' },
    ]);
    expect(grams('3 g', '', { 'small-amount': '5 mL' } as Partial<JournalSettings>)).toHaveLength(1);
    expect(grams('3 g', '', { 'small-amount': '500 mg' } as Partial<JournalSettings>)).toHaveLength(1);
  });
  it('is no matter where the entry follows or repeats one', () => {
    expect(grams('12 g', 'follows: [9]\n')).toEqual([]);
    expect(grams('12 g', 'repeats: [9]\n')).toEqual([]);
  });
  it('names the largest of the partners, never a solvent or something harmless', () => {
    const { found } = look(
      reagents(
        'reagent: nitrite, amount: 2 g',
        'reagent: { name: citric acid, formula: C6H8O7 }, amount: 5 g',
        'reagent: { name: sodium chloride, formula: NaCl }, amount: 50 g',
        'reagent: water, amount: 60 mL, role: solvent',
      ),
    );
    expect(found('start-smaller')).toMatchObject([{ where: ['reagents', 1], grams: '5' }]);
    expect(
      look(reagents('reagent: { name: sodium chloride, formula: NaCl }, amount: 50 g')).found('start-smaller'),
    ).toEqual([]);
  });
  it('jumps where one sample uses more than ten times as much as another', () => {
    const jump = (much: string) =>
      look(
        reagents('reagent: nitrite, amount: 0.10 g', 'reagent: vinegar, amount: 0.5 mL') +
          `samples: [{ sample: A }, { sample: B, differs: more, change: [{ reagent: nitrite, amount: ${much} }] }]\n`,
      ).found('more-than-tenfold');
    expect(jump('1.00 g')).toEqual([]);
    expect(jump('1.01 g')).toMatchObject([{ name: 'sodium nitrite' }]);
    expect(jump('1.01 g')[0]!.where).toEqual(['samples', 1, 'change', 0]);
  });
});

describe('what is missing', () => {
  const missing = (matter: string) => {
    const { found } = look(matter);
    return [found('no-plan-for-trouble'), found('no-waste')];
  };
  it('is a plan for trouble and the waste, where there is danger', () =>
    expect(missing(fumes)).toEqual([[{ where: ['title'] }], [{ where: ['title'], elements: [], danger: true }]]));
  it('is nothing where both are written', () =>
    expect(missing(`${fumes}if-it-goes-wrong: Leave.\nwaste: Kept.\n`)).toEqual([[], []]));
  it('is the waste alone where there are only hazardous elements, named in order', () =>
    expect(missing(reagents('reagent: lead, amount: 1 g', 'reagent: blue-vitriol, amount: 1 g'))[1]).toMatchObject([
      { elements: ['Cu', 'Pb'], danger: false },
    ]));
  it('is nothing of what is harmless, nor of metals that are followed for their colour alone', () => {
    for (const salt of ['{ name: sodium chloride, formula: NaCl }', '{ name: iron oxide, formula: Fe2O3 }'])
      expect(missing(reagents(`reagent: ${salt}, amount: 1 g`))).toEqual([[], []]);
  });
});

describe('heat that is told in words', () => {
  const heated = (...to: string[]): string =>
    `heating:\n${to.map((one) => `  - { of: product, to: ${one} }\n`).join('')}`;

  it('is remarked on with the range that it is judged by, its source, and its place', () => {
    const { found } = look(`${reagents('reagent: soda, amount: 1 g')}${heated('red heat')}`);
    const [one] = found('heat-in-words');
    expect(one).toMatchObject({ where: ['heating', 0, 'to'], to: 'red heat', actual: 'red heat' });
    expect(Number(one!.low)).toBeLessThan(Number(one!.high));
    expect(String(one!.low)).toMatch(/^\d+$/);
    expect(String(one!.high)).toMatch(/^\d+$/);
    expect(String(one!.source).length).toBeGreaterThan(3);
    expect(found('heat-not-known')).toEqual([]);
  });
  it('that is no known word is judged at the top, and said to be', () => {
    const { found } = look(`${reagents('reagent: soda, amount: 1 g')}${heated('ever so toasty')}`);
    expect(found('heat-not-known')).toEqual([
      expect.objectContaining({ where: ['heating', 0, 'to'], to: 'ever so toasty', actual: 'ever so toasty' }),
    ]);
    expect(Number(found('heat-not-known')[0]!.high)).toBeGreaterThan(500);
    expect(found('heat-in-words')).toEqual([]);
  });
  it('is said once for the same words, and for each of others; in degrees not at all', () => {
    const { found } = look(
      `${reagents('reagent: soda, amount: 1 g')}${heated('red heat', 'red heat', '60 °C', 'boiling')}`,
    );
    expect(found('heat-in-words').map(({ where, to }) => [where, to])).toEqual([
      [['heating', 0, 'to'], 'red heat'],
      [['heating', 3, 'to'], 'boiling'],
    ]);
  });
  it('of one sample is placed at that sample', () => {
    const samples = 'samples: [{ sample: A }, { sample: B, differs: hot, heating: [{ of: product, to: red heat }] }]\n';
    expect(look(`${reagents('reagent: soda, amount: 1 g')}${samples}`).found('heat-in-words')[0]!.where).toEqual([
      'samples',
      1,
      'heating',
      0,
      'to',
    ]);
  });
});

describe('a maker’s own word', () => {
  const answered = (against: string, done = 'Outdoors and a gram at a time.') =>
    look(`${fumes}precautions:\n  - { against: ${against}, do: "${done}" }\n`);

  it('is told what it was taken for, at its place, where it does not name a danger outright', () => {
    const [one] = answered('brown fumes').found('answer-taken-for');
    expect(one).toMatchObject({ where: ['precautions', 0, 'against'], against: 'brown fumes' });
    expect(one!.titles).toContain('nitrite with weak acid');
    expect(answered('nitrogen dioxide').found('answer-taken-for')).toEqual([]);
  });
  it('that says nothing is quoted without blanks and the stop at its end, with what it leaves open', () => {
    const [one] = answered('nitrogen dioxide', ' Be care. ful. ').found('precaution-says-nothing');
    expect(one).toMatchObject({ where: ['precautions', 0, 'do'], words: 'Be care. ful' });
    expect(one!.leftOpen).toContain('nitrite with weak acid');
  });
});

const foreseen = (matter: string, settings: Partial<JournalSettings> = {}): string[] =>
  look(matter, settings).dangers.foreseen!.map((one) => `${one.rule} ${one.severity}`);
const nitrate = 'reagent: { name: copper nitrate, formula: Cu(NO3)2·3H2O }, amount: 5 g';
const soda = 'reagent: soda, amount: 1 g';
const roasted = 'copper-nitrate-heated danger';

describe('one danger in several samples', () => {
  const two = (a: string, b: string) =>
    look(
      reagents(`reagent: sulfide, amount: ${a}`, 'reagent: muriatic, amount: 2 mL') +
        `samples: [{ sample: A }, { sample: B, differs: other, change: [{ reagent: sulfide, amount: ${b} }] }]\n`,
    ).dangers.foreseen!.find((one) => one.rule === 'sulfide-strong-acid')!;
  it('is as grave as in the gravest of them, whichever comes first', () => {
    for (const one of [two('0.00005 g', '1 g'), two('1 g', '0.00005 g')]) {
      expect([one.severity, one.samples]).toEqual(['danger', ['A', 'B']]);
      // 1 g of Na2S·9H2O, 240.18 g/mol.
      expect(Number(one.worstCase!.mol)).toBeCloseTo(0.0041636, 6);
    }
    expect(two('0.00005 g', '0.00004 g').severity).toBe('note');
    for (const one of [two('some', '0.00005 g'), two('0.00005 g', 'some')]) expect(one.severity).toBe('danger');
  });
  it('has the most gas of them, whichever comes first', () => {
    for (const one of [two('1 g', '2 g'), two('2 g', '1 g')])
      expect(Number(one.worstCase!.mol)).toBeCloseTo(0.00833, 5);
  });
  it('names what takes part in any of them, in order', () => {
    const { dangers } = look(
      `${reagents('reagent: sulfide, amount: 1 g')}samples:
  - { sample: A, add: [{ reagent: muriatic, amount: 1 mL }] }
  - { sample: B, differs: other, add: [{ reagent: { name: battery acid }, amount: 1 mL }] }
`,
    );
    expect(dangers.foreseen!.find((one) => one.rule === 'sulfide-strong-acid')!.partners).toEqual([
      'battery acid',
      'hydrochloric acid',
      'sodium sulfide',
    ]);
  });
});

describe('each sample', () => {
  const arisesIn = (uses: readonly string[], kept: readonly (readonly number[])[]) => {
    const lines = uses.map((use) => `reagent: { ${use} }, amount: 1 g`);
    const ids = uses.map((use) => /name: ([^,]*)/.exec(use)![1]!);
    const samples = kept.map(
      (those, at) =>
        `  - { sample: S${at + 1}, differs: "${at}", omit: [${ids.filter((_, use) => !those.includes(use)).join(', ')}] }\n`,
    );
    const heating = 'heating: [{ of: mixture, to: 400 °C }]\n';
    return look(`${reagents(...lines)}${heating}samples:\n${samples.join('')}`).dangers.foreseen!.find(
      (one) => one.rule === 'copper-nitrate-heated',
    )!.samples;
  };
  const salt = (name: string): string => `name: ${name}, formula: NaCl`;
  const copper = 'name: copper nitrate, formula: Cu(NO3)2·3H2O';
  it('is judged by what is in it, and not by what was in another', () =>
    expect(arisesIn([copper, salt('first'), salt('second')], [[0], [1], [2], [2], [0]])).toEqual(['S1', 'S5']));
  it('is told from others however many things there are', () => {
    const many = Array.from({ length: 13 }, (_, at) => (at === 1 ? copper : salt(`salt ${at}`)));
    expect(arisesIn(many, [many.map((_, at) => at), [1, 2], [12]])).toEqual(['S1', 'S2']);
  });
});

describe('the gas of an entry', () => {
  const worst = (...asked: [Partial<JournalSettings>?, { readonly factor?: Decimal }?]) =>
    look(fumes, ...asked).dangers.foreseen!.find((one) => one.rule === rule)!.worstCase!;
  it('is told without the extraction, and that is said where there is one', () => {
    const words = (workspace?: object): string => worst({ workspace } as Partial<JournalSettings>).words;
    expect(words({ extraction: true })).toContain('Extraction is not counted in this sum.');
    for (const none of [undefined, { extraction: false }]) expect(words(none)).not.toContain('Extraction is not');
  });
  it('is so many times as much of so many times as much of everything', () =>
    expect(Number(worst({}, { factor: exact(10) }).mol) / Number(worst().mol)).toBeCloseTo(10, 6));
  it('is told for another room, where one is asked for', () => {
    const of = (roomCubicMetres?: string) =>
      foreseenIfAdded(entry(14, fumes), contextOf(), {
        added: [],
        heating: [],
        ...(roomCubicMetres !== undefined && { roomCubicMetres }),
      }).foreseen.find((one) => one.rule === rule)!.worstCase!.room;
    expect([of(), of('7')]).toEqual(['30', '7']);
  });
  it('is foreseen of the reaction as written, also where nothing of it is among the reagents', () => {
    const reaction = 'reaction: FeS + 2 HCl -> FeCl2 + H2S\n';
    const sulfide = reagents('reagent: { name: iron sulfide, formula: FeS }, amount: 1 g');
    const gives = 'reaction-gives-hydrogen-sulfide danger';
    for (const matter of [reaction + sulfide, reaction]) {
      expect(foreseen(matter)).toContain(gives);
      expect(look(matter).found('danger-unanswered')).toMatchObject([{ where: ['reagents'] }]);
    }
    expect(foreseen(sulfide)).not.toContain(gives);
  });
});

describe('heat', () => {
  const heats = (...lines: string[]): string => `heating:\n${lines.map((line) => `  - { ${line} }\n`).join('')}`;
  const steps = (...lines: string[]): string => `steps:\n${lines.map((line) => `  - ${line}\n`).join('')}`;
  const green = `pigment: { name: green, formula: Cu2CO3(OH)2 }
reaction: 2 Cu(NO3)2 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 4 NaNO3 + CO2
`;
  const wet = reagents(nitrate, soda, 'reagent: water, amount: 20 mL, role: solvent');

  // Hydrogensulfite gives off sulfur dioxide warm and wet (thermal.csv: from 50 °C), nitrate of copper nitrogen dioxide dry.
  it('of a washed product may reach what was not washed out from 100 °C on: a note that says so', () => {
    const sour = wet.replace(soda, 'reagent: { name: sodium hydrogensulfite, formula: NaHSO3 }, amount: 5 g');
    const of = (to: string) =>
      look(green + sour + heats(`of: product, to: ${to}`)).dangers.foreseen!.find(
        (one) => one.rule === 'hydrogensulfite-warmed',
      );
    expect(of('99 °C')).toBeUndefined();
    expect(of('100 °C')!.severity).toBe('note');
    expect(of('100 °C')!.condition).toMatch(/^only if it was not washed out before heating; sulfur dioxide /);
  });
  it('of a product is that of the pot where nothing says that it was washed out', () => {
    const hot = heats('of: product, to: 120 °C');
    expect(foreseen(green + wet + hot)).toContain('copper-nitrate-heated note');
    // Without water, without a reaction, without a product of known formula.
    for (const matter of [
      green + reagents(nitrate, soda),
      green.replace(/reaction.*\n/, '') + wet,
      green.replace(', formula: Cu2CO3(OH)2', '') + wet,
    ])
      expect(foreseen(matter + hot)).toContain(roasted);
  });
  it('of something else in the pot is not that of the product', () => {
    expect(foreseen(green + wet + heats('of: product, to: 60 °C', 'of: soda, to: 400 °C')).join()).not.toContain(
      'nitrate',
    );
    expect(foreseen(reagents(nitrate, soda) + heats('of: soda, to: 400 °C'))).not.toContain(roasted);
  });
  it('of a washed product brings no lesser hazard of what was washed out', () => {
    const acetate =
      green.replaceAll('(NO3)2', '(CH3COO)2').replace('4 NaNO3', '4 CH3COONa') +
      reagents(
        'reagent: { name: copper acetate, formula: Cu(CH3COO)2 }, amount: 5 g',
        soda,
        'reagent: water, amount: 20 mL, role: solvent',
      );
    expect(foreseen(acetate + heats('of: product, to: 400 °C')).join()).not.toContain('acetate-heated');
    expect(foreseen(acetate + heats('of: mixture, to: 400 °C'))).toContain('acetate-heated warning');
  });
  it('is foreseen once at each place where it is', () => {
    const hot = green + wet + heats('of: product, to: 400 °C', 'of: copper nitrate, to: 400 °C');
    const [one] = foreseeEntry(entry(14, hot), contextOf()).hazards.filter(
      ({ foreseen: { rule: id } }) => id === 'copper-nitrate-heated',
    );
    expect([one!.foreseen.severity, one!.paths]).toEqual(['danger', [['reagents', 0]]]);
  });

  describe('of a step', () => {
    it.each([
      [
        'that names what is there',
        '{ do: Roast., with: [copper nitrate], heat: 400 °C }',
        '{ do: Stir., with: [soda] }',
      ],
      ['after it went in', '{ do: Put in., with: [copper nitrate] }', 'Wait.', '{ do: Roast., heat: 400 °C }'],
      ['of which nothing is named', 'Weigh it.', '{ do: Roast., heat: 400 °C }'],
    ])('%s is foreseen', (_, ...lines) =>
      expect(foreseen(reagents(nitrate, soda) + steps(...lines))).toContain(roasted),
    );
    it.each([
      ['before it goes in', '{ do: Warm., with: [soda], heat: 400 °C }', '{ do: Put in., with: [copper nitrate] }'],
      ['that is not hot', '{ do: Put in., with: [copper nitrate], heat: 40 °C }'],
      ['that has none', '{ do: Put in., with: [copper nitrate] }', 'Roast.'],
    ])('%s is not', (_, ...lines) =>
      expect(foreseen(reagents(nitrate, soda) + steps(...lines))).not.toContain(roasted),
    );
  });

  describe('of a vessel beside the others', () => {
    const alumina = 'reagent: { name: alumina, formula: Al2O3 }, amount: 1 g, vessel: crucible';
    const apart = (...hot: string[]) =>
      foreseen(reagents(`${nitrate}, vessel: crucible`, alumina, soda) + hot.join(''));
    const alone = (...hot: string[]) => foreseen(reagents(`${nitrate}, vessel: crucible`) + hot.join(''));
    it.each([
      heats('of: crucible, to: 400 °C'),
      heats('of: "Crucible, lid on", to: 400 °C'),
      heats('to: 400 °C, in: covered crucible'),
      heats('of: copper nitrate, to: 400 °C'),
      steps('{ do: Roast it., with: [copper nitrate], heat: 400 °C }'),
      steps('{ do: Put in., with: [copper nitrate] }', '{ do: "Heat the crucible, strongly.", heat: 400 °C }'),
    ])('is foreseen: %s', (hot) => expect(apart(hot)).toContain(roasted));
    it.each([
      heats('of: mixture, to: 400 °C'),
      heats('of: product, to: 400 °C'),
      steps('{ do: Roast., heat: 400 °C }'),
    ])('is that of the mixture where the main vessel is empty, and not where it is not: %s', (hot) => {
      expect(alone(hot)).toContain(roasted);
      expect(apart(hot)).not.toContain(roasted);
    });
    it.each([
      heats('of: soda, to: 400 °C'),
      steps('{ do: Warm it., with: [soda], heat: 400 °C }', '{ do: Wait., with: [copper nitrate] }'),
    ])('is not that of another: %s', (hot) => expect(apart(hot)).not.toContain(roasted));
    it('is not that of a product that is precipitated in it', () =>
      expect(
        foreseen(
          reagents(`${nitrate}, vessel: beaker`, 'reagent: water, amount: 20 mL, vessel: beaker') +
            heats('of: product, to: 400 °C'),
        ),
      ).not.toContain(roasted));
  });
});

describe('waste', () => {
  // Of a product that nothing names, a wash meets what went into it, which is more than a caution.
  const ochre = 'pigment: { name: red ochre, formula: Fe2O3 }\n';
  const cautions = (...lines: string[]): readonly string[] => look(ochre + reagents(...lines)).dangers.cautions!;
  const words =
    'In one waste bottle acetic acid, sodium nitrite would meet: nitrite with weak acid. Keep their waste apart.';
  const nitrite = 'reagent: nitrite, amount: 1 g';
  it('in one bottle is warned of where something was kept apart or washed with, before other cautions', () => {
    expect(cautions(nitrite, 'reagent: vinegar, amount: 5 mL, separately: true')).toEqual([words]);
    expect(cautions(nitrite, 'reagent: vinegar, amount: 5 mL, role: wash')).toEqual([words]);
    const [first, second] = cautions(
      nitrite,
      'reagent: vinegar, amount: 5 mL, role: wash',
      'reagent: linseed, amount: 5 g',
    );
    expect(first).toMatch(/^In one waste bottle /);
    expect(second).toContain('linseed oil');
  });
  it('is not warned of where all of it met in the pot, or where it is no danger', () => {
    expect(cautions(nitrite, 'reagent: vinegar, amount: 5 mL', `${soda}, separately: true`)).toEqual([]);
    const salmiac = 'reagent: { name: ammonium chloride, formula: NH4Cl }, amount: 5 g';
    expect(foreseen(reagents(salmiac, 'reagent: caustic-soda, amount: 20 mL'))).toEqual([
      'ammonium-strong-base warning',
    ]);
    expect(cautions(salmiac, 'reagent: caustic-soda, amount: 20 mL, separately: true')).toEqual([]);
  });
});

describe('a name that is not known', () => {
  it('is found where it is used, and at the reagents where it would be added', () => {
    const one = entry(14, reagents(soda, 'reagent: powder, amount: 1 g'));
    const { reagent } = foreseeEntry(entry(14, reagents('reagent: powder, amount: 1 g')), contextOf()).items[0]!;
    const added = { reagent: { ...reagent, name: 'grandfather’s powder' } };
    expect(foreseeEntry(one, contextOf(), undefined, { added: [added], heating: [] }).unknown).toEqual([
      { name: 'grandfather’s powder', path: ['reagents'] },
      { name: 'grandmother’s powder', path: ['reagents', 1] },
    ]);
  });
  it('is said of a reagent that is called as the product is', () =>
    expect(
      look(`pigment: { name: wibble }\n${reagents('reagent: { name: wibble }, amount: 1 g')}`).dangers.notJudged,
    ).toEqual(['wibble']));
  it('is not asked of the product: the box says what is not known of it', () => {
    const { dangers, found } = look(`pigment: { name: mystery green, formula: Cu(OAc }\n${reagents(soda)}`);
    expect([dangers.notJudged, found('not-judged')]).toEqual([[], []]);
    expect(found('no-hazard-data')).toMatchObject([{ where: ['pigment', 'name'] }]);
  });
});

describe('lesser hazards', () => {
  const salmiac = 'reagent: { name: ammonium chloride, formula: NH4Cl }, amount: 50 g';
  const lye = 'reagent: caustic-soda, amount: 20 mL';
  it('that are warnings are asked about as such, and notes are not', () => {
    const { found } = look(reagents(salmiac, lye));
    expect(found('warning-unanswered')).toMatchObject([
      { where: ['reagents', 0], title: 'ammonium salt with strong base', bringsKey: true },
    ]);
    for (const other of ['danger-unanswered', 'start-smaller', 'no-plan-for-trouble']) expect(found(other)).toEqual([]);
    const note = look(reagents('reagent: blue-vitriol, amount: 1 g', soda));
    expect(note.dangers.foreseen!.map(({ severity }) => severity)).toEqual(['note']);
    for (const other of ['warning-unanswered', 'danger-unanswered']) expect(note.found(other)).toEqual([]);
  });
  it('leave the lines to add to a danger that is written below them', () => {
    const { found } = look(reagents(salmiac, lye, 'reagent: sulfide, amount: 1 g', 'reagent: muriatic, amount: 2 mL'));
    const brings = (id: string) => found(id).map(({ where, bringsKey }) => [where, bringsKey]);
    expect(brings('danger-unanswered').filter(([, is]) => is)).toHaveLength(1);
    expect(brings('warning-unanswered').filter(([, is]) => is)).toEqual([]);
    expect(found('warning-unanswered').length).toBeGreaterThan(0);
  });
  it('are not among what an empty answer leaves open', () => {
    const { found } = look(
      `${reagents(salmiac, lye)}precautions: [{ against: ammonium salt with strong base, do: ok }]\n`,
    );
    expect(found('precaution-says-nothing')).toMatchObject([{ leftOpen: [] }]);
  });
});

describe('what could be meant by an answer', () => {
  const many = reagents(
    'reagent: sulfide, amount: 1 g',
    'reagent: nitrite, amount: 1 g',
    'reagent: bleach, amount: 5 mL',
    'reagent: { name: potassium cyanide, formula: KCN }, amount: 1 g',
    'reagent: { name: sodium azide, formula: NaN3 }, amount: 1 g',
    'reagent: muriatic, amount: 5 mL',
  );
  it('is four at the most', () => {
    const { found, dangers } = look(`${many}precautions: [{ against: wibble, do: Outdoors and a gram at a time. }]\n`);
    expect(dangers.foreseen!.filter(({ severity }) => severity === 'danger').length).toBeGreaterThan(4);
    const [one] = found('precaution-answers-nothing');
    expect((one!.meant as string[]).length).toBeLessThanOrEqual(4);
  });
  it('is what is still open, where something is', () => {
    const { found } = look(
      `${reagents('reagent: nitrite, amount: 1 g', 'reagent: sulfide, amount: 1 g', 'reagent: muriatic, amount: 5 mL')}precautions:
  - { against: hydrogen sulfide, do: Outdoors and a gram at a time. }
  - { against: wibble, do: Outdoors and a gram at a time. }
`,
    );
    const [one] = found('precaution-answers-nothing');
    expect(one!.meant).not.toContainEqual(expect.stringContaining('sulfide'));
    expect((one!.meant as string[]).length).toBeGreaterThan(0);
  });
});

describe('a waste', () => {
  const copper = reagents('reagent: blue-vitriol, amount: 1 g');
  const pouredAway = (words: string) => look(`${copper}waste: ${words}\n`).found('waste-poured-away');
  it('that is only poured or thrown away is told, with the elements that are in it', () => {
    for (const words of [
      'Down the drain.',
      'poured away with lots of water',
      'I tip it in the garden now.',
      'Binned.',
      'In den Ausguss',
      'dans l’évier',
    ])
      expect(pouredAway(words), words).toMatchObject([{ elements: ['Cu'], where: ['waste'] }]);
  });
  it('so is what goes to soil, plants or animals, whatever stands and dries before', () => {
    for (const words of [
      'Dried in a bucket until it is a third, the rest feeds the tomatoes.',
      'On the roses, a pot at a time.',
      'Evaporated on the balcony, the crust brushed into the herb pots.',
      'Left behind the shed until the rain has washed it off.',
    ])
      expect(pouredAway(words), words).toMatchObject([{ elements: ['Cu'], where: ['waste'] }]);
    expect(pouredAway('Sludge kept for the depot; nothing of it to the garden.')).toEqual([]);
  });
  it('that is kept, tried or made harmless before is not', () => {
    for (const words of [
      'Kept in a bottle.',
      'Soda brings the copper down, the clear liquor goes to the drain.',
      'Neutralised, then the drain.',
      'Nothing of it goes down the sink.',
      'The filtrate is tried with sulfate before it goes down the drain.',
    ])
      expect(pouredAway(words), words).toEqual([]);
  });
  const lead = reagents('reagent: { name: litharge, formula: PbO }, amount: 1 g');
  it('with a poison that builds up is an error where it goes onto the ground, also in a step or a write-up', () => {
    const onGround = (rest: string) => look(`${lead}${rest}`).found('poison-onto-ground');
    for (const words of ['Das Waschwasser auf die Tomaten gegossen.', 'First washings went on the lettuces.'])
      expect(onGround(`steps: ["${words}"]\n`), words).toMatchObject([{ elements: ['Pb'] }]);
    expect(onGround('waste: The washings feed the roses.\n')).toMatchObject([{ elements: ['Pb'], where: ['waste'] }]);
    expect(onGround('steps: ["Washings kept for the depot, none on the garden."]\n')).toEqual([]);
    expect(look(`${copper}steps: ["Washings poured on the roses."]\n`).found('poison-onto-ground')).toEqual([]);
  });
  it('that a step pours down the drain is told', () => {
    const away = (words: string) => look(`${lead}steps: ["${words}"]\n`).found('liquor-poured-away');
    for (const words of [
      'Washings tipped down the sink.',
      'El agua del lavado al fregadero.',
      'Filtrat in den Ausguss.',
    ])
      expect(away(words), words).toMatchObject([{ elements: ['Pb'] }]);
    for (const words of ['The cooling water runs to the drain.', 'Washings kept in the lead can.'])
      expect(away(words), words).toEqual([]);
  });
  it('of what is harmless may go', () =>
    expect(
      look(`${reagents('reagent: { name: salt, formula: NaCl }, amount: 1 g')}waste: Drain.\n`).found(
        'waste-poured-away',
      ),
    ).toEqual([]));
});

describe('an answer that puts water where it makes things worse', () => {
  const worse = (reagent: string, step: string, answer: string) =>
    look(`${reagents(reagent)}steps: ["${step}"]\nif-it-goes-wrong: "${answer}"\n`).found('answer-makes-worse');
  const oil = 'reagent: { name: linseed oil }, amount: 200 mL';
  it('is told: on hot oil, on burning metal, on hot acid', () => {
    expect(worse(oil, 'Heat the oil to 260 °C.', 'If it catches fire pour water on it.')).toHaveLength(1);
    const metal = 'reagent: { name: magnesium powder, formula: Mg }, amount: 5 g';
    expect(worse(metal, 'Burn it in a dish.', 'Put out with wet towels and water.')).toHaveLength(1);
    const acid = 'reagent: { name: battery acid, formula: H2SO4, strength: 37 % }, amount: 300 mL';
    expect(worse(acid, 'Boil down to a third.', 'Throw a bucket of water over the lot.')).toHaveLength(1);
  });
  it('is none where water is for skin and eyes, for what was spilt, or is advised against', () => {
    for (const answer of [
      'Lid on, heat off, leave. Never water.',
      'Burns on the skin: cool under running water for twenty minutes.',
      'Spilt: mop it up with water.',
      'Water driven off slowly before the heat goes up.',
      'Heat off, out.',
    ])
      expect(worse(oil, 'Heat the oil to 260 °C.', answer), answer).toEqual([]);
  });
});

describe('a vessel that a step closes', () => {
  const ochre = reagents(
    'reagent: { name: yellow ochre, formula: FeO(OH) }, amount: 9 g',
    'reagent: water, amount: 60 mL',
  );
  const found = (step: string) =>
    look(`${ochre}steps: ["${step}"]\n`)
      .found('danger-unanswered')
      .map(({ title }) => title);
  it('and heats then presses', () => {
    for (const step of [
      'The closed jar in the oven, 180 °C.',
      'All in a bottle, lid screwed down tight, then into the oven at 120 °C.',
      'In an autoclave at 120 °C.',
    ])
      expect(found(step), step).toEqual(['heated in a closed vessel']);
  });
  it('and does not heat, heats open or lidded, or closes when it is done, does not', () => {
    for (const step of [
      'Kept in a closed jar.',
      'Never in a closed flask, 100 °C.',
      'Loosely closed jar at 90 °C.',
      'Closed crucible at 600 °C.',
      'Dried at 110 °C, then stored in a closed jar.',
    ])
      expect(found(step), step).toEqual([]);
  });
});

describe('a wash that is not water', () => {
  const washed = (more: string) =>
    look(
      `${reagents('reagent: { name: ultramarine blue }, amount: 9 g')}${more}washes: [{ with: hydrochloric acid 10 %, volume: 50 mL, times: 1 }]\n`,
    );
  it('meets what went in, where nothing says what the product is', () =>
    expect(washed('').found('danger-unanswered')).toMatchObject([{ title: 'sulfide pigment with strong acid' }]));
  it('meets the product, where it is known', () =>
    expect(washed('pigment: { name: red ochre, formula: Fe2O3 }\n').found('danger-unanswered')).toEqual([]));
});

describe('a write-up', () => {
  const nitrite = reagents('reagent: nitrite, amount: 1 g');
  const told = (body: string) =>
    look(nitrite, {}, { body })
      .found('named-not-judged')
      .map(({ name }) => name);
  it('that names what would be a danger in the pot is told, all of it in one remark', () => {
    expect(told('The [battery acid](https://x.example/) is near. So is vinegar.')).toEqual([
      'battery acid and vinegar',
    ]);
  });
  it('is not, where it takes the name back, speaks of a class, or names what does no harm here', () => {
    for (const words of [
      'Never with battery acid.',
      'It smelled of vinegar.',
      'An acid would be a fault here.',
      'It gives off chlorine where acid gets to it.',
      'A little lye and soda.',
    ])
      expect(told(words), words).toEqual([]);
  });
  it('in another language names the same, with the gas that would come', () => {
    const told = (body: string) => look(nitrite, {}, { body }).found('named-not-judged');
    for (const words of ["L'acide chlorhydrique est cher.", 'El ácido clorhídrico es caro.', 'Salzsäure ist teuer.'])
      expect(told(words), words).toMatchObject([{ titles: [expect.stringMatching(/nitrite with strong acid \(NO/)] }]);
    for (const words of ["Bouilli avec de l'acide chlorhydrique.", 'Con ácido clorhídrico.', 'Mit Salzsäure gekocht.'])
      expect(look(nitrite, {}, { body: words }).found('danger-unanswered'), words).not.toEqual([]);
    for (const words of ['Sans acide chlorhydrique.', 'Nunca con ácido clorhídrico.', 'Nie mit Salzsäure.'])
      expect(told(words), words).toEqual([]);
  });
  it('has nothing else in what is reckoned but this and its heat', () => {
    const words = (body: string) => toldInWords({ ...entry(14, nitrite), body });
    const both = 'With battery acid.\n\nRoasted after that.';
    expect(words('Fine weather. With battery acid. Roasted after that.')).toBe(both);
    expect(words('Fine weather.')).toBe('');
    expect(words(words('Fine weather. With battery acid. Roasted after that.'))).toBe(both);
  });
});

describe('a withdrawn entry', () => {
  const withdrawn = { status: 'withdrawn' } as const;
  const large = reagents('reagent: nitrite, amount: 12 g', 'reagent: vinegar, amount: 2.0 mL');
  it('is told its dangers, and asked neither to begin smaller nor what to do', () => {
    const { found } = look(`${large}precautions: [{ against: nitrogen oxides, do: ok }]\n`, {}, withdrawn);
    expect(found('danger-unanswered')).toMatchObject([{ withdrawn: true }]);
    expect(found('precaution-says-nothing')).toMatchObject([{ leftOpen: [] }]);
    for (const other of ['start-smaller', 'no-plan-for-trouble']) expect(found(other)).toEqual([]);
    expect(found('no-waste')).toHaveLength(1);
  });
});

describe('a product alone', () => {
  const fired = 'pigment: { name: lead white, formula: Pb3(CO3)2(OH)2 }\nheating: [{ of: product, to: 700 °C }]\n';
  it('that is dangerous when it is heated is found at the heating, and has no waste', () => {
    const { found } = look(fired);
    expect(found('danger-unanswered')).toMatchObject([
      { where: ['heating'], title: expect.stringContaining('lead') as unknown },
    ]);
    expect(found('no-waste')).toEqual([]);
  });
});

describe('how much', () => {
  const of = (settings: object, ...lines: string[]) =>
    look(reagents(...lines), settings as Partial<JournalSettings>).found('start-smaller');
  it('is not asked of a partner that is the solvent', () =>
    expect(of({}, 'reagent: nitrite, amount: 0.5 g', 'reagent: vinegar, amount: 20 mL, role: solvent')).toEqual([]));
  it('is a gram where the small amount of the journal cannot be read', () =>
    expect(
      of({ 'small-amount': 'not a lot' }, 'reagent: nitrite, amount: 1.5 g', 'reagent: vinegar, amount: 0.5 mL'),
    ).toHaveLength(1));
  it('is no step up from nothing', () => {
    const samples =
      'samples: [{ sample: A }, { sample: B, differs: none, change: [{ reagent: nitrite, amount: 0 g }] }]\n';
    expect(look(fumes + samples).found('more-than-tenfold')).toEqual([]);
  });
});

describe('what meets the reagents and is none of them', () => {
  const found = (matter: string): readonly string[] =>
    look(matter)
      .dangers.foreseen!.filter(({ severity }) => severity === 'danger')
      .map((one) => one.rule);
  const sulfide = reagents('reagent: sulfide, amount: 2 g');
  const yellow = `pigment: { name: cadmium yellow, formula: CdS }\n`;

  it.each([
    ['a step takes it', 'steps: [{ do: Rinse it out, with: muriatic }]'],
    ['a step takes it by a name that no shelf has', 'steps: [{ do: Rinse it out, with: battery acid }]'],
    ['a step takes it for one sample', 'samples: [{ sample: A }]\nsteps: [{ do: Rinse, with: [muriatic], sample: A }]'],
  ])('is judged: %s', (_, matter) => {
    expect(found(sulfide + matter)).toContain('sulfide-strong-acid');
    expect(look(sulfide + matter).found('step-brings-in')).toHaveLength(1);
    expect(look(sulfide + matter).dangers.cautions!.join(' ')).toMatch(/Step 1 takes .*acid, which no reagent holds/);
  });
  it.each([
    ['by its id', 'steps: [{ do: In., with: [sulfide] }]'],
    ['by its name', 'steps: [{ do: In., with: [sodium sulfide] }]'],
    ['by its formula', 'steps: [{ do: In., with: [Na2S] }]'],
    ['by a part of its name', 'steps: [{ do: In., with: [Sodium] }]'.replace('Sodium', 'sulfid')],
    ['as what stands in the pot', 'steps: [{ do: Wash., with: [filtrate, the mixture] }]'],
    ['as water', 'steps: [{ do: Wash., with: [rain water] }]'],
  ])('is not looked for where it is there: %s', (_, matter) => {
    expect(look(sulfide + matter).found('step-brings-in')).toEqual([]);
    expect(look(sulfide + matter).found('not-judged')).toEqual([]);
  });
  it.each([
    ['of the entry', 'washes: [{ with: hydrochloric acid 10 %, volume: 50 mL }]\nsamples: [{ sample: A }]'],
    ['of a sample', 'samples: [{ sample: A, washes: [{ with: battery acid, volume: 50 mL, times: 2 }] }]'],
    ['where there are no samples', 'washes: [{ with: battery acid, volume: 50 mL }]'],
  ])('meets the product in its washes: %s', (_, matter) => {
    expect(found(yellow + matter)).toContain('metal-sulfide-strong-acid');
  });
  it('does nothing where they are of water', () => {
    expect(found(`${yellow}washes: [{ with: water, volume: 50 mL, times: 3 }]`)).toEqual([]);
  });
});

describe('what the words of an entry name and no reagent is', () => {
  const sulfide = reagents('reagent: sulfide, amount: 2 g');
  const ofKind = (severity: string, matter: string): readonly string[] =>
    look(matter)
      .dangers.foreseen!.filter((one) => one.severity === severity)
      .map((one) => one.rule);
  const rules = (matter: string): readonly string[] => ofKind('danger', matter);

  it.each([
    ['a step that is a sentence', 'steps: [Residue in the beaker boiled out with battery acid.]'],
    ['with its strength', 'steps: [Stir., Rinse it with sulfuric acid 20 %.]'],
    ['a step with keys', 'steps: [{ do: Poured into muriatic acid }]'],
    ['in another language', 'steps: [ausspülen mit Salzsäure]'],
    ['by a product of a shop', 'steps: [The jar would not come clean so brick cleaner went in.]'],
    ['washes in words', 'pigment: { name: cadmium yellow, formula: CdS }\nwashes: twice with battery acid'],
    ['the waste', 'waste: Soured with hydrochloric acid and poured off.'],
    ['what a sample differs in', 'samples: [{ sample: A }, { sample: B, differs: with a drop of battery acid }]'],
    ['a note of a sample', 'samples: [{ sample: A, note: Rinsed with battery acid. }]'],
  ])('is in the pot and judged: %s', (_, matter) => {
    const written = matter.startsWith('pigment') ? matter : sulfide + matter;
    expect(rules(written).join(' ')).toMatch(/sulfide-strong-acid/);
  });
  it('is told, with its step, and where it begins', () => {
    const matter = `${sulfide}steps: [Dissolve it., Boil it out with battery acid.]`;
    expect(look(matter).found('step-brings-in')).toMatchObject([
      { where: ['steps', 1], step: 2, name: 'battery acid' },
    ]);
    expect(look(matter).dangers.cautions!.join(' ')).toContain('Step 2 names battery acid, which no reagent holds');
    expect(look(matter).dangers.foreseen!.find((one) => one.rule === 'sulfide-strong-acid')!.step).toBe(2);
  });
  it('meets only the sample that its step is for', () => {
    const matter = `${sulfide}samples: [{ sample: A }, { sample: B }]\nsteps: [{ do: Muriatic acid in., sample: B }]`;
    expect(look(matter).dangers.foreseen!.find((one) => one.rule === 'sulfide-strong-acid')!.samples).toEqual(['B']);
  });
  it('is said to be in the waste where it is', () => {
    const one = look(`${sulfide}waste: Battery acid on top.`).dangers.foreseen!.find(
      ({ severity }) => severity === 'danger',
    );
    expect(one!.condition).toMatch(/^in the waste; /);
  });

  it.each([
    ['instead of it', 'steps: [Rinsed with water instead of battery acid.]'],
    ['a smell of it', 'steps: [Stop when it smells of muriatic acid.]'],
    ['its bottle', 'steps: [Kept beside the battery acid bottle.]'],
    ['none of it', 'steps: [No hydrochloric acid was used.]'],
    [
      'what a sample differs in',
      'samples: [{ sample: A }, { sample: B, differs: with water instead of battery acid }]',
    ],
    ['under a key that no entry has', 'remark: Next time with battery acid.'],
  ])('and is only spoken of is said to be not judged: %s', (_, matter) => {
    expect(rules(sulfide + matter)).toEqual([]);
    expect(look(sulfide + matter).found('named-not-judged')).toHaveLength(1);
    expect(look(sulfide + matter).dangers.cautions!.join(' ')).toMatch(/acid is spoken of, and was NOT judged/);
  });
  it.each([
    ['what is harmless there', 'steps: [Rinsed with water instead of washing soda., Stir with a glass rod.]'],
    ['what the waste is kept from', 'waste: Kept alkaline, never with hydrochloric acid, and taken to the council.'],
    ['a class in the waste', 'waste: Bagged, with a label that says keep from acid.'],
    ['what is in the pot by another name', 'steps: [Dissolve the Na2S in rain water., Pour the sodium sulphide off.]'],
    ['what is in the pot by a part of it', 'steps: [Then the sulfide.]'],
  ])('and says nothing of it: %s', (_, matter) => {
    const { dangers, found } = look(sulfide + matter);
    expect(found('named-not-judged')).toEqual([]);
    expect(found('step-brings-in')).toEqual([]);
    expect(dangers.foreseen!.filter(({ severity }) => severity === 'danger')).toEqual([]);
  });
  it('knows what the reaction makes, and the salt of a metal by the bare name of the metal', () => {
    const vitriol = reagents('reagent: blue-vitriol, amount: 2 g', 'reagent: { name: nitric acid 65 % }, amount: 5 mL');
    expect(look(`${vitriol}steps: [Pour the copper into the basin.]`).found('step-brings-in')).toEqual([]);
    expect(look(`${vitriol}waste: To the copper tin.`).found('named-not-judged')).toEqual([]);
    const reaction = 'reaction: CuSO4 + Na2CO3 -> CuCO3 + Na2SO4\nsteps: [The copper carbonate settles.]';
    expect(look(vitriol + reaction).found('step-brings-in')).toEqual([]);
  });
  // Bleach with acid, bleach with ammonia and nitrite with an ammonium salt are dangers with nothing else.
  const copper = reagents('reagent: { name: copper sulfate, formula: CuSO4·5H2O }, amount: 3 g');
  it.each([
    ['bleach and Salzsäure together down the sink', 'hypochlorite-strong-acid'],
    ['ammonia then bleach', 'hypochlorite-ammonia'],
    ['sodium nitrite and ammonium chloride boiled down', 'nitrite-ammonium'],
  ])('meets what else the waste gets: %s', (waste, rule) => expect(rules(`${copper}waste: ${waste}`)).toContain(rule));
  it.each([
    'procedure: [bleach 10 mL, then Salzsäure 10 mL]',
    'method: Pour bleach on Salzsäure.',
    'ingredients: [{ reagent: bleach, amount: 10 mL }, { reagent: salzsaeure, amount: 10 mL }]',
  ])('is judged under another word for its key: %s', (matter) =>
    expect(rules(matter)).toContain('hypochlorite-strong-acid'),
  );
  it('is not together where the waste keeps it apart', () =>
    expect(rules(`${copper}waste: Bleach and hydrochloric acid in separate bottles.`)).toEqual([]));
  it('is heated with the rest where the waste is', () => {
    const nitrate = reagents('reagent: { name: copper nitrate, formula: Cu(NO3)2·3H2O }, amount: 3 g');
    expect(rules(`${nitrate}waste: Evaporated to dryness on the hob.`)).toContain('copper-nitrate-heated');
    expect(rules(`${nitrate}waste: Kept in a bottle.`)).toEqual([]);
  });
  const bleach = reagents('reagent: bleach, amount: 20 mL');
  it.each([
    ['precautions: [{ against: fire, do: pour vinegar over it until it stops }]', 'precautions'],
    ['samples: [{ sample: A, note: stood beside the Salzsäure }]', 'note'],
    ['samples: [{ sample: A, looks: pale after the hydrochloric acid }]', 'looks'],
    ['incidents: [{ what: I tipped Salzsäure in }]', 'incidents'],
    ['if-it-goes-wrong: pour Salzsäure over it', 'if-it-goes-wrong'],
  ])('is spoken of under any key: %s', (matter, where) => {
    const { found, dangers } = look(bleach + matter);
    expect(found('named-not-judged')).toHaveLength(1);
    expect(dangers.cautions!.join(' ')).toMatch(new RegExp(`${where}.*spoken of, and was NOT judged`, 's'));
  });
  it.each([
    'Put the bleach back on the shelf before the ammonia was opened.',
    'Put the bleach back in the cupboard before opening the ammonia.',
  ])('is not there where it was put back before: %s', (words) => {
    const { dangers } = look(`${reagents('reagent: ammonia, amount: 5 mL')}steps: ["${words}"]`);
    expect(dangers.foreseen?.filter(({ severity }) => severity !== 'note')).toEqual([]);
    expect(dangers.cautions!.join(' ')).toContain('bleach is spoken of, and was NOT judged');
  });
  it.each([
    'Put the bleach back on the shelf before I had poured half of it into the ammonia.',
    'Put the bleach back on the shelf until the evening, then into the ammonia.',
    'Took the bleach off the shelf and poured it into the ammonia.',
  ])('is there where more is told: %s', (words) => {
    const { dangers } = look(`${reagents('reagent: ammonia, amount: 5 mL')}steps: ["${words}"]`);
    expect(dangers.foreseen?.some(({ severity }) => severity === 'danger')).toBe(true);
  });
  it('is said of several things where its name is of several', () => {
    const ammonia = reagents('reagent: ammonia, amount: 5 mL');
    const told = (words: string) => look(`${ammonia}steps: [${words}]`);
    expect(told('No iodine crystals.').dangers.cautions!.join(' ')).toContain(
      'iodine crystals are spoken of, and were NOT judged, as nothing says plainly that they are there. If they are:',
    );
    expect(told('No iodine crystals.').found('named-not-judged')[0]).toMatchObject({ several: true });
    expect(told('No iodine.').dangers.cautions!.join(' ')).toContain('iodine is spoken of, and was NOT judged');
  });
  it('is told together where one place names several, and nothing takes them back', () => {
    const told = (words: string) => look(`${copper}if-it-goes-wrong: ${words}`).dangers.cautions!.join(' ');
    expect(told('Pour bleach and then Salzsäure over it.')).toMatch(/bleach with Salzsäure is spoken of, and was NOT/);
    expect(told('Never bleach, never Salzsäure.')).not.toMatch(/spoken of/);
  });
  const vinegar = reagents('reagent: vinegar, amount: 50 mL');
  it.each(['I had forgotten the potassium.', 'Then the potassium salt.', 'The sodium stays in the liquor.'])(
    'is the salt of an alkali metal, and not the metal: %s',
    (words) => expect(rules(`${vinegar}steps: ["${words}"]`)).toEqual([]),
  );
  it('is the metal where it says so, and an error then tells a way out', () => {
    const one = look(`${vinegar}steps: [A piece of potassium metal goes in.]`);
    expect(one.found('danger-unanswered')).toMatchObject([{ onlyInWords: ['potassium metal'] }]);
    expect(rules(`${vinegar}steps: [with potassium 2 g]`)).toHaveLength(1);
  });
});

describe('heat that only words tell', () => {
  const sulfur = reagents('reagent: { name: sulfur, formula: S }, amount: 0.3 g');
  const fires = 'sulfur-in-air';
  const rulesOf = (matter: string): readonly string[] => look(matter).dangers.foreseen!.map((one) => one.rule);
  it('is judged where a step tells it, and said to be', () => {
    const matter = `${sulfur}steps: [Grind it., Red heat with the torch for 10 min.]`;
    const gases = look(matter).dangers.foreseen!.map(({ gas }) => gas);
    expect(gases).toContain('SO2');
    expect(look(matter).found('heat-of-steps')).toMatchObject([{ where: ['steps'], celsius: '850' }]);
    expect(look(matter).found('heat-without-heating')).toEqual([]);
    expect(look(`${sulfur}steps: [Ground without red heat.]`).dangers.foreseen!.map(({ gas }) => gas)).not.toContain(
      'SO2',
    );
    expect(rulesOf(`${sulfur}heating: [{ to: 40 °C }]\nsteps: [Red heat with the torch.]`)).not.toContain(fires);
  });
  it('is told step by step', () => {
    const told = entry(14, `${sulfur}steps: [Grind it., Red heat with the torch for 10 min.]`);
    const { steps } = foreseenIfAdded(told, contextOf(), { added: [], heating: [] });
    expect(steps!.map(({ heat }) => heat?.toCelsius)).toEqual([undefined, 850]);
    expect(steps![1]!.begins.map(({ title }) => title).join(' ')).toContain('sulfur heated in air');
  });
  it('is said to be not judged where a step tells a deed and no temperature', () => {
    const roast = look(`${sulfur}steps: [Roast it.]`);
    expect(roast.dangers.cautions!.join(' ')).toMatch(/‘Roast’ is told.*NOT judged.*sulfur heated in air/);
    expect(roast.found('heat-without-heating')).toHaveLength(1);
    expect(roast.dangers.byWords!.join(' ')).toMatch(/NOT judged/);
    expect(look(`${sulfur}steps: [Grind it.]`).dangers.byWords).toBeUndefined();
  });
  it('is said to be not judged where only the write-up tells it, on the page too', () => {
    const written = { ...entry(14, sulfur), body: 'Then red heat with the torch.' };
    const { dangers } = reckonDangers(written, contextOf());
    expect(dangers.cautions!.join(' ')).toMatch(/‘red heat’ is told.*NOT judged.*sulfur heated in air/);
  });
});

describe('how much gas there can be, and of what', () => {
  // 2.5 g K4Fe(CN)6·3H2O of 422.39 g/mol, six cyanides each, 24.465 L/mol at 25 °C: by hand.
  const hatchett = `pigment: { name: "Hatchett's brown", formula: Cu2Fe(CN)6 }
reaction: 2 CuSO4 + K4Fe(CN)6 -> Cu2Fe(CN)6 + 2 K2SO4
${reagents(
  'reagent: { name: copper sulfate, formula: CuSO4·5H2O }, amount: 3 g',
  'reagent: { name: yellow prussiate, formula: K4Fe(CN)6·3H2O }, amount: 2.50 g',
  'reagent: battery acid, amount: 20 mL',
)}`;
  const litres = (matter: string): number =>
    Number(look(matter).dangers.foreseen!.find((one) => one.rule === 'ferrocyanide-strong-acid')!.worstCase!.litres);
  it('is bounded by all that goes in: what the reaction makes of it adds nothing', () => {
    const most = (2.505 / 422.39) * 6 * 24.465;
    expect(litres(hatchett)).toBeLessThanOrEqual(most * 1.001);
    expect(litres(hatchett)).toBeGreaterThan(0.86);
  });
  it('and is not where a part of what makes it has no amount', () => {
    const open = hatchett.replace(', amount: 2.50 g', '');
    expect(litres(open)).toBeGreaterThan(2);
  });
  it('is no danger of its own in a small room, where it is reckoned in the room already', () => {
    const small = look(reagents('reagent: sulfide, amount: 3 g', 'reagent: muriatic, amount: 20 mL'), {
      workspace: { volume: '15 m3' },
    }).dangers.foreseen!.map((one) => one.rule);
    expect(small).toContain('sulfide-strong-acid');
    expect(small).not.toContain('gas-in-small-place');
  });
  it('concerns what brings it, and not what only stands beside', () => {
    const chromate = look(
      `pigment: { name: strontium yellow, formula: SrCrO4 }\nreaction: SrCl2 + K2CrO4 -> SrCrO4 + 2 KCl\n${reagents(
        'reagent: { name: strontium chloride, formula: SrCl2·6H2O }, amount: 4.5 g',
        'reagent: { name: potassium chromate, formula: K2CrO4 }, amount: 3 g',
      )}`,
    ).dangers.foreseen!.find((one) => one.rule === 'chromate-itself')!;
    expect(chromate.partners).toEqual(['potassium chromate']);
  });
});
