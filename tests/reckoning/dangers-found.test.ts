// What reckoning finds of an entry's dangers, as plain data: order, room, answers, and the facts that the rules word.
// Expected values are from the entry's own words and from arithmetic by hand; what must be remarked is common
// practice, no source.
import { describe, expect, it } from 'vitest';
import type { JournalSettings } from '../../src/journal/schema.js';
import type { ReckoningContext } from '../../src/reckoning/contracts.js';
import { reckonDangers } from '../../src/reckoning/dangers.js';
import { entry, shelf } from './entries.js';

const more = {
  nitrite: { name: 'sodium nitrite', formula: 'NaNO2' },
  muriatic: { name: 'hydrochloric acid', formula: 'HCl', strength: '30 %', density: '1.15 g/mL' },
  sulfide: { name: 'sodium sulfide', formula: 'Na2S·9H2O' },
  bleach: { name: 'bleach' },
  powder: { name: 'grandmother’s powder' },
  linseed: { name: 'linseed oil' },
  lead: { name: 'lead(II) acetate', formula: 'Pb(CH3COO)2' },
};
function look(matter: string, settings: Partial<JournalSettings> = {}) {
  const context: ReckoningContext = {
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
  const { dangers, findings } = reckonDangers(entry(14, matter), context);
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
      { elements: expect.arrayContaining(['Cu', 'Pb']) as string[] },
    ]));
  it('is nothing of what is harmless', () =>
    expect(missing(reagents('reagent: { name: sodium chloride, formula: NaCl }, amount: 1 g'))).toEqual([[], []]));
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
