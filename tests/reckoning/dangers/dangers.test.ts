// What is foreseen of an entry: which things meet, which heat counts, how a danger is answered, and what is remarked.
import { beforeAll, describe, expect, it } from 'vitest';
import type { JournalSettings } from '../../../src/journal/schema.js';
import { remarksOn } from '../../../src/journal/place.js';
import { severityOf } from '../../../src/remarks/remark.js';
import type { ForeseenInEntry, LotFacts, ReckoningContext } from '../../../src/reckoning/contracts.js';
import { reckonDangers } from '../../../src/reckoning/dangers/dangers.js';
import { entry, shelf } from '../entries.js';

const more = {
  nitrite: { name: 'sodium nitrite', formula: 'NaNO2' },
  'cobalt-salt': { name: 'cobalt(II) nitrate hexahydrate', formula: 'Co(NO3)2·6H2O' },
  'liver-of-sulfur': { name: 'liver of sulfur' },
  muriatic: { name: 'hydrochloric acid', formula: 'HCl', strength: '30 %', density: '1.15 g/mL' },
  bleach: { name: 'bleach' },
  alum: { name: 'potash alum', formula: 'KAl(SO4)2·12H2O' },
  powder: { name: 'grandmother’s powder' },
};
const contextOf = (settings: Partial<JournalSettings>, lots: readonly LotFacts[] = []): ReckoningContext => ({
  settings: {
    title: 'Test',
    address: 'https://test.example/',
    author: 'Test',
    language: 'en-GB',
    cautions: [],
    ...settings,
  } as JournalSettings,
  shelf: new Map(Object.entries({ ...shelf, ...more })),
  lot: (name) => lots.find(({ lot }) => lot === name),
  reading: () => undefined,
});
function look(matter: string, settings: Partial<JournalSettings> = {}, lots: readonly LotFacts[] = []) {
  const one = entry(14, matter);
  const context = contextOf(settings, lots);
  const { dangers, findings } = reckonDangers(one, context);
  return {
    foreseen: dangers.foreseen!,
    dangers,
    remarks: remarksOn(one, findings).filter(
      ({ ruleId }) => !['no-hazard-data', 'strength-not-given', 'sheet-leaves-out'].includes(ruleId),
    ),
  };
}
const rules = (foreseen: readonly ForeseenInEntry[]): string[] =>
  foreseen.map(({ rule, severity }) => `${rule} ${severity}`);
const told = (remarks: ReturnType<typeof look>['remarks']): string[] =>
  remarks.map((one) => `${severityOf(one)} ${one.ruleId}`);

const yellow = `
pigment: { name: cobalt yellow, formula: 'K3[Co(NO2)6]' }
reagents:
  - { reagent: cobalt-salt, amount: 0.50 g }
  - { reagent: nitrite, amount: 0.90 g }
  - { reagent: vinegar, amount: 2.0 mL }
  - { reagent: water, amount: 20 mL, role: solvent }
samples: [{ sample: A }, { sample: B, differs: twice the nitrite, change: [{ reagent: nitrite, amount: 1.80 g }] }, { sample: C, differs: no acid, omit: [vinegar] }]
`;

describe('a product of several contents', () => {
  const matter = 'reagents: [{ reagent: { name: drain opener }, amount: 50 mL }]';
  it('stands in the box with the hazards of all that is sold under its name, and says so', () => {
    const { dangers, remarks } = look(matter);
    // Lye and sulfuric acid are corrosive (H314), hypochlorite gives chlorine with acid (EUH031): CLP Annex VI.
    const codes = dangers.box.statements.map(({ code }) => code);
    expect(codes).toEqual(expect.arrayContaining(['H314', 'EUH031']));
    expect(dangers.box.unknown).toEqual([]);
    expect(dangers.box.substances!.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['drain opener as NaOH', 'drain opener as H2SO4', 'drain opener as NaClO']),
    );
    expect(dangers.box.notes!.map(({ text }) => text).join(' ')).toContain('Taken as NaOH, may also be ');
    expect(dangers.taken!.map(({ name }) => name)).toEqual(['drain opener']);
    expect(told(remarks)).toContain('note sold-with-several-contents');
    expect(told(remarks)).not.toContain('warning no-hazard-data');
  });
  it('is what its formula says, where one is given', () => {
    const { dangers } = look('reagents: [{ reagent: { name: drain opener, formula: NaOH }, amount: 50 g }]');
    expect(dangers.box.substances!.map(({ name }) => name)).toEqual(['drain opener']);
    expect(dangers.taken).toEqual([]);
  });
});

describe('a strength that a density tells', () => {
  it('is judged at its strongest, which is said beside the usual one', () => {
    const ammonia = (strength: string) =>
      look(`reagents: [{ reagent: { name: ammonia solution, formula: NH3, ${strength} }, amount: 12 mL }]`)
        .dangers.box.substances!.map(({ strength: shown, notes = [] }) => [shown, ...notes.map(({ text }) => text)])
        .flat()
        .join(' ');
    // 0.907 g/mL is a solution of 25 % (from memory); its last digit leaves it up to half a percent.
    expect(ammonia('density: 0.907 g/mL')).toMatch(
      /25\.\d % by mass.* density of a 25 % solution\. Judged at its strongest\./,
    );
    expect(ammonia('strength: 25 %')).not.toContain('Judged at its strongest');
  });
});

describe('the order of an entry’s hazards', () => {
  it('is that of foresee: the gravest first, of those the gas with the strictest limit, not the name of its rule', () => {
    // Work limits: hydrogen cyanide 4.7 ppm, carbon monoxide 100 ppm (NIOSH short-term), nitrogen dioxide 1 ppm.
    const { foreseen } = look(`
reagents:
  - { reagent: { name: formic acid, formula: CH2O2 }, amount: 20 g }
  - { reagent: { name: sulfuric acid, formula: H2SO4 }, amount: 50 g }
  - { reagent: nitrite, amount: 5 g }
  - { reagent: { name: potassium cyanide, formula: KCN }, amount: 5 g }`);
    const dangers = foreseen.filter(
      ({ severity, consequence }) => severity === 'danger' && consequence.startsWith('toxic'),
    );
    const gases = dangers.map(({ gas }) => gas).filter((gas) => ['HCN', 'CO', 'NO + NO2'].includes(gas!));
    expect([...new Set(gases)]).toEqual(['NO + NO2', 'HCN', 'CO']);
  });
});

describe('an unanswered danger', () => {
  let unanswered: ReturnType<typeof look>;
  beforeAll(() => {
    unanswered = look(yellow);
  });
  it('is foreseen in the samples in which it arises, with the largest bound', () => {
    const one = unanswered.foreseen.find(({ rule }) => rule === 'nitrite-weak-acid')!;
    expect([one.severity, one.samples]).toEqual(['danger', ['A', 'B']]);
    // 2.0 mL × 1.06 g/mL × 0.60 / 60.052 g/mol = 21.18 mmol of acid against 1.80 / 68.995 = 26.09 mmol of nitrite:
    // the acid limits
    expect(Number(one.worstCase!.mol)).toBeCloseTo(0.02118, 4);
  });
  it('is an error at the reagent, with the lines to add', () => {
    const error = unanswered.remarks.find(({ ruleId }) => ruleId === 'danger-unanswered')!;
    expect([severityOf(error), error.file, error.line]).toEqual(['error', 'entries/014-test.md', 9]);
    expect(error.note).toContain('precautions:\n  - against: nitrogen oxides (nitrite with weak acid)\n    do: …');
  });
  it('beside others brings lines that can be pasted one below the other, and cure them all', () => {
    const soured =
      "reagents:\n  - { reagent: { name: sodium sulfide, formula: 'Na2S·9H2O' }, amount: 1 g }\n  - { reagent: " +
      'muriatic, amount: 2 mL }\n  - { reagent: bleach, amount: 5 mL }\n';
    const errors = look(soured)
      .remarks.filter(({ ruleId }) => ruleId === 'danger-unanswered')
      .sort((a, b) => a.line! - b.line!);
    expect(errors.length).toBeGreaterThan(1);
    const pasted = errors
      .map(({ note }) => note!.slice(note!.indexOf('\n') + 1))
      .join('\n')
      .replaceAll('…', 'Not done at all.');
    expect(look(`${soured}${pasted}\n`).remarks.filter(({ ruleId }) => ruleId === 'danger-unanswered')).toEqual([]);
  });
  it('asks what to do if it goes wrong and where the waste goes', () => {
    expect(told(unanswered.remarks)).toEqual(
      expect.arrayContaining(['warning no-plan-for-trouble', 'warning no-waste']),
    );
  });
});

describe('an answer', () => {
  const answered = (against: string, does = 'Outdoors, a gram at a time.'): string[] =>
    look(
      `${yellow}if-it-goes-wrong: Leave.\nwaste: Kept.\nprecautions:\n  - against: ` +
        `${JSON.stringify(against)}\n    do: ${JSON.stringify(does)}\n`,
    )
      .remarks.filter((one) => severityOf(one) !== 'note')
      .map((one) => `${severityOf(one)} ${one.ruleId}`);
  it.each([
    'nitrogen oxides (nitrite with weak acid)',
    'brown fumes',
    'Nitrous fumes',
    'NO2',
    'nitrogen dioxide and nitric oxide',
    'nitrite meeting vinegar-strength acid',
    'NOx',
  ])('%s answers it', (against) => {
    expect(answered(against)).toEqual([]);
  });
  it.each(['fumes', 'dust', 'sodium', 'chlorine', 'hydrogen', 'nitrate', 'danger', 'acid splashes'])(
    '%s does not',
    (against) => {
      expect(answered(against)).toContain('error danger-unanswered');
    },
  );
  it('by the id of its rule answers it, and no other danger', () => {
    expect(answered('nitrite-weak-acid')).toEqual([]);
    expect(answered('rule nitrite-weak-acid, see our list')).toEqual([]);
    expect(answered('nitrite-weak')).toContain('error danger-unanswered');
  });
  it.each(['ok', 'nothing', 'careful', 'see above', 'Outdoors.', 'be careful with the brown fumes'])(
    'that is %s releases no danger, and is an error with the place and what to write',
    (does) => {
      expect(answered('brown fumes', does)).toEqual(['error danger-unanswered', 'error precaution-says-nothing']);
      const { remarks } = look(`${yellow}precautions:\n  - against: brown fumes\n    do: ${does}\n`);
      const remark = remarks.find(({ ruleId }) => ruleId === 'precaution-says-nothing')!;
      expect(remark.line).toBe(15);
      expect(remark.reason).toContain(`'${does.replace(/\.$/, '')}' says`);
      expect(remark.reason).toContain('nitrite with weak acid');
      expect(remark.note).toBe('Write what is done, in four words or more.');
    },
  );
  it('that says nothing is a warning where the danger has another answer, or no danger is meant', () => {
    const other = '  - { against: NO2, do: Outdoors and a gram at a time. }\n';
    const severities = (precautions: string): string[] =>
      told(look(`${yellow}precautions:\n${precautions}`).remarks).filter((one) => one.endsWith('says-nothing'));
    expect(severities(`${other}  - { against: brown fumes, do: ok }\n`)).toEqual(['warning precaution-says-nothing']);
    expect(severities(`${other}  - { against: dust, do: A mask. }\n`)).toEqual(['warning precaution-says-nothing']);
  });
  it('in words of its own is told what it was taken for; by name it is not', () => {
    const taken = (against: string): string[] =>
      look(`${yellow}precautions: [{ against: ${against}, do: Outdoors and a gram at a time. }]\n`)
        .remarks.filter(({ ruleId }) => ruleId === 'answer-taken-for')
        .map(({ reason }) => reason);
    expect(taken('brown fumes')).toEqual([
      "'brown fumes' is taken as the answer to: nitrite with weak acid; nitrite with a metal salt solution.",
    ]);
    for (const name of ['NO2', 'nitrogen dioxide', 'nitrite with weak acid', 'nitrite-weak-acid'])
      expect(taken(name)).toEqual([]);
  });
  it.each([
    [
      'fire',
      'metal',
      'reagents: [{ reagent: { name: zinc, formula: Zn }, amount: 8 g }, { reagent: muriatic, amount: 20 mL }]',
    ],
    ['froth', 'carbonate', 'reagents: [{ reagent: soda, amount: 20 g }, { reagent: muriatic, amount: 50 mL }]'],
  ])('against %s finds the danger that it can only mean', (against, title, matter) => {
    const { foreseen } = look(
      `${matter}\nprecautions: [{ against: ${against}, do: Outdoors and a gram at a time. }]\n`,
    );
    const answeredTitles = foreseen.filter((one) => one.answered.length > 0).map((one) => one.title);
    expect(answeredTitles).toHaveLength(1);
    expect(answeredTitles[0]).toContain(title);
  });
  const sulfide = '{ name: sodium sulfide, formula: Na2S }';
  const permanganate = '{ name: potassium permanganate, formula: KMnO4 }';
  it.each([
    {
      rule: 'sulfide-strong-acid',
      uses: `{ reagent: ${sulfide}, amount: 5 g }, { reagent: muriatic, amount: 20 mL }`,
      lesser: ['fire', 'flames', 'heat', 'froth', 'dust'],
      meant: ['H2S', 'h2s', 'rotten eggs', 'bad eggs'],
    },
    {
      rule: 'permanganate-organic',
      uses: `{ reagent: ${permanganate}, amount: 5 g }, { reagent: { name: glycerine }, amount: 5 mL }`,
      lesser: ['froth', 'CO2', 'carbon dioxide', 'heat'],
      meant: ['fire', 'explosion'],
    },
  ])('to something lesser does not release $rule', ({ rule, uses, lesser, meant }) => {
    const isReleased = (against: string): boolean => {
      const precautions = `precautions: [{ against: ${against}, do: Outdoors and a gram at a time. }]\n`;
      const one = look(`reagents: [${uses}]\n${precautions}`).foreseen.find((hazard) => hazard.rule === rule)!;
      expect(one.severity).toBe('danger');
      return one.answered.length > 0;
    };
    expect(lesser.filter(isReleased)).toEqual([]);
    expect(meant.filter(isReleased)).toEqual(meant);
  });
  it.each([
    [
      'hypochlorite-heated',
      '{ reagent: bleach, amount: 20 mL }',
      '80 °C',
      ['froth', 'oxygen', 'O2', 'bubbles'],
      ['chlorine'],
    ],
    [
      'copper-nitrate-heated',
      '{ reagent: { name: copper nitrate, formula: Cu(NO3)2 }, amount: 1 g }',
      '90 °C',
      ['oxygen', 'froth'],
      ['NO2', 'brown fumes'],
    ],
    [
      'peroxide-heated',
      '{ reagent: { name: hydrogen peroxide, strength: 12 % }, amount: 20 mL }',
      '80 °C',
      [],
      ['froth', 'oxygen'],
    ],
  ] as const)('to a harmless gas does not release %s, whose poison is lesser', (rule, uses, to, lesser, meant) => {
    const isReleased = (against: string): boolean => {
      const precautions = `precautions: [{ against: ${against}, do: Outdoors and a gram at a time. }]\n`;
      const { foreseen } = look(`reagents: [${uses}]\nheating: [{ of: mixture, to: ${to} }]\n${precautions}`);
      return foreseen.find((hazard) => hazard.rule === rule)!.answered.length > 0;
    };
    expect(lesser.filter(isReleased)).toEqual([]);
    expect(meant.filter(isReleased)).toEqual(meant);
  });
  it.each([
    ['chloramines', true],
    ['trichloramine', true],
    ['NCl3', true],
    ['chloramine', false],
    ['chlorine', false],
    ['ammonia', false],
  ])('to %s releases nitrogen trichloride, which is one of the chloramines: %s', (against, isReleased) => {
    const uses =
      '{ reagent: bleach, amount: 20 mL }, { reagent: { name: ammonium chloride, formula: NH4Cl }, amount: 1 g }';
    const { foreseen } = look(
      `reagents: [${uses}, { reagent: muriatic, amount: 1 mL }]\n` +
        `precautions: [{ against: ${against}, do: Outdoors and a gram at a time. }]\n`,
    );
    const trichloride = foreseen.find(({ title }) => title === 'ammonia or ammonium salt with chlorine or bromine')!;
    expect(trichloride.answered.length > 0).toBe(isReleased);
  });
  it('left as pasted is no answer', () => {
    expect(answered('nitrogen oxides', '…')).toEqual(['error danger-unanswered', 'error precaution-says-nothing']);
  });
  it('that names nothing foreseen is told what could be meant', () => {
    const { remarks } = look(
      `${yellow}precautions: [{ against: nitorgen oxdies, do: Outdoors and a gram at a time. }]\n`,
    );
    const remark = remarks.find(({ ruleId }) => ruleId === 'precaution-answers-nothing')!;
    expect(remark.note).toContain("'nitrogen oxides (nitrite with weak acid)'");
    expect(remark.line).toBe(13);
  });
  it('is told each thing it could mean once, however many pairs give rise to it', () => {
    const froth = look(
      'reagents: [{ reagent: soda, amount: 1 g }, { reagent: alum, amount: 2 g }, { reagent: vinegar, amount: ' +
        '5 mL }]\nprecautions: [{ against: chlorine, do: Outdoors and a gram at a time. }]\n',
    );
    expect(froth.foreseen.length).toBeGreaterThan(1);
    const names = froth.remarks.find(({ ruleId }) => ruleId === 'precaution-answers-nothing')!.note!.match(/'[^']+'/g)!;
    expect(names).toContain("'carbon dioxide froth'");
    expect(new Set(names).size).toBe(names.length);
  });
  it('to one danger does not silence another; naming both does', () => {
    const two =
      'reagents: [{ reagent: nitrite, amount: 1 g }, { reagent: liver-of-sulfur, amount: 1 g }, { reagent: ' +
      'muriatic, amount: 5 mL }]\nif-it-goes-wrong: Leave.\nwaste: Kept.\n';
    const open = (against: string): number =>
      look(`${two}precautions: [{ against: ${against}, do: Never mixed in one pot. }]\n`).remarks.filter(
        ({ ruleId }) => ruleId === 'danger-unanswered',
      ).length;
    expect([open('hydrogen sulfide'), open('nitrogen oxides'), open('hydrogen sulfide and nitrogen oxides')]).toEqual([
      1, 1, 0,
    ]);
  });
});

describe('what meets what', () => {
  const pot = (nitriteMore: string, acidMore = ''): string[] =>
    rules(
      look(
        `reagents: [{ reagent: nitrite, amount: 1 g${nitriteMore} }, { reagent: vinegar, amount: 5 mL${acidMore} }]\n`,
      ).foreseen,
    );
  it('everything, as a rule', () => expect(pot('')).toContain('nitrite-weak-acid danger'));
  it('not what is kept separately, nor what stands in another vessel', () => {
    // What acid does in a room it does alone.
    const alone = rules(look('reagents: [{ reagent: vinegar, amount: 5 mL }]\n').foreseen);
    expect(pot(', separately: true')).toEqual(alone);
    expect(pot(', vessel: beaker 1', ', vessel: beaker 2')).toEqual(alone);
    expect(pot(', vessel: beaker 1', ', vessel: beaker 1')).toContain('nitrite-weak-acid danger');
  });
  it('what is kept apart would meet in one waste bottle, and that is said', () => {
    expect(
      look(
        'reagents: [{ reagent: nitrite, amount: 1 g, separately: true }, { reagent: vinegar, amount: 5 mL }]\n',
      ).dangers.cautions!.join(),
    ).toContain('In one waste bottle acetic acid, sodium nitrite would meet');
  });
  it('a wash meets the product', () => {
    const { foreseen } = look(
      'pigment: { name: cadmium yellow, formula: CdS }\nreagents: [{ reagent: muriatic, amount: 5 mL, role: wash }]\n',
    );
    expect(rules(foreseen)).toContain('metal-sulfide-strong-acid danger');
  });
  it('the product meets an acid that is in the pot', () => {
    const { foreseen } = look(
      'pigment: { name: ultramarine, formula: Na7Al6Si6O24S3 }\nreagents: [{ reagent: vinegar, amount: 5 mL }]\n',
    );
    expect(rules(foreseen)).toContain('ultramarine-weak-acid danger');
  });
  it('a lot made earlier counts as what it is', () => {
    const lot = { lot: '9/A', entry: 9, sample: 'A', name: 'home-made barium sulfide', formula: 'BaS' } as LotFacts;
    expect(
      rules(look('reagents: [{ lot: 9/A, amount: 1 g }, { reagent: vinegar, amount: 5 mL }]\n', {}, [lot]).foreseen),
    ).toContain('sulfide-weak-acid danger');
  });
});

describe('heat', () => {
  const base =
    'pigment: { name: malachite, formula: Cu2CO3(OH)2 }\nreaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 ' +
    'Na2SO4 + CO2\nreagents: [{ reagent: blue-vitriol, amount: 1 g }, { reagent: soda, amount: 1 g }, { ' +
    'reagent: water, amount: 20 mL }]\n';
  it('of the product is the product’s only, where it was precipitated and washed', () => {
    expect(
      rules(look(`${base}heating: [{ of: product, to: 60 °C }]\n`).foreseen).filter((rule) => rule.includes('heated')),
    ).toEqual([]);
    expect(rules(look(`${base}heating: [{ of: product, to: 700 °C }]\n`).foreseen)).toEqual(
      expect.arrayContaining(['carbonate-heated note', 'metal-sulfate-heated note']),
    );
  });
  it('of the mixture is everybody’s', () => {
    expect(rules(look(`${base}heating: [{ of: mixture, to: 700 °C }]\n`).foreseen)).toContain(
      'metal-sulfate-heated danger',
    );
  });
  it('of a dry mixture fired as its product is everybody’s', () => {
    const fired =
      'pigment: { name: cobalt blue, formula: CoAl2O4 }\nreagents: [{ reagent: cobalt-salt, amount: 1 g }, { ' +
      'reagent: { name: alumina, formula: Al2O3 }, amount: 1 g }]\nheating: [{ of: product, to: 1100 °C }]\n';
    expect(rules(look(fired).foreseen)).toContain('cobalt-nitrate-heated danger');
  });
  it('of a sample counts for that sample', () => {
    const { foreseen } = look(
      'reagents: [{ reagent: blue-vitriol, amount: 1 g }]\nsamples: [{ sample: A }, { sample: B, heating: [{ ' +
        'of: blue-vitriol, to: 700 °C }] }]\n',
    );
    expect(foreseen.map(({ rule, samples }) => [rule, samples])).toContainEqual(['metal-sulfate-heated', ['B']]);
  });
});

describe('the heat of a portion of the product', () => {
  const blue = (sample: string): string => `
pigment: { name: Prussian blue, formula: "Fe4[Fe(CN)6]3" }
reagents:
  - { reagent: { name: ferric chloride, formula: FeCl3·6H2O }, amount: 5.40 g }
  - { reagent: { name: prussiate, formula: "K4[Fe(CN)6]·3H2O" }, amount: 6.34 g }
  - { reagent: water, amount: 100 mL, role: solvent }
samples: [{ sample: A, obtained: 4.00 g, ${sample} }]
`;
  const reaction = 'reaction: 4 FeCl3 + 3 K4[Fe(CN)6] -> Fe4[Fe(CN)6]3 + 12 KCl';
  // thermal.csv: metal ferrocyanide from 150 °C on.
  it.each([
    ['ignition: { before: 1.00 g, after: 0.55 g, to: 500 °C }', true],
    ['ignition: { before: 1.00 g, after: 0.83 g, to: 120 °C }', false],
    ['ignition: { before: 1.00 g, after: 0.55 g }', true],
    ['ignition: { before: 1.00 g, after: 0.55 g, to: red heat }', true],
    ['ignition: lost about half of it', true],
    ['ignition: not done', false],
    ['assay: { by: ignition, before: 1.00 g, after: 0.75 g }', true],
    ['dried: [{ dish: 20.10 g, with-product: 24.10 g, at: 200 °C }]', true],
    ['dried: [{ dish: 20.10 g, with-product: 24.10 g, at: 50 °C }]', false],
    ['dried: at 200 °C overnight', true],
    ['dried: overnight on paper', false],
  ])('%s: a danger, as of a heating of the product: %s', (sample, dangerous) => {
    for (const matter of [blue(sample), reaction + blue(sample)])
      expect(rules(look(matter).foreseen).includes('prussian-blue-heated danger'), matter).toBe(dangerous);
  });
  it('of which nothing says what it is, is that of all that went in when it is ignited, and not when it dries', () => {
    const unknown = (sample: string): string => blue(sample).replace(', formula: "Fe4[Fe(CN)6]3"', '');
    const rule = 'ferrocyanide-heated danger';
    expect(rules(look(unknown('ignition: { before: 1.00 g, after: 0.55 g, to: 500 °C }')).foreseen)).toContain(rule);
    expect(rules(look(unknown('dried: on the radiator at 400 °C')).foreseen)).not.toContain(rule);
  });
  it('is asked for an answer where it is written', () => {
    const { remarks } = look(blue('ignition: { before: 1.00 g, after: 0.55 g, to: 500 °C }'));
    const error = remarks.find(({ ruleId, reason }) => ruleId === 'danger-unanswered' && /heated/.test(reason))!;
    expect([severityOf(error), error.line]).toEqual(['error', 11]);
  });
  it('in words is told what it is taken for', () => {
    const { remarks } = look(blue('ignition: { before: 1.00 g, after: 0.55 g, to: red heat }'));
    expect(told(remarks)).toContain('note heat-in-words');
  });
  it('reaches what was not washed out only as a note, and no reagent that stands beside it', () => {
    const { foreseen } = look(`
pigment: { name: green, formula: Cu2CO3(OH)2 }
reagents:
  - { reagent: { name: copper nitrate, formula: Cu(NO3)2·3H2O }, amount: 5 g }
  - { reagent: soda, amount: 3 g }
samples: [{ sample: A, ignition: { before: 1.00 g, after: 0.72 g, to: 400 °C } }]`);
    expect(rules(foreseen)).toContain('copper-nitrate-heated note');
  });
});

describe('remarks', () => {
  it('a name that is not recognised is said, and never makes the entry look judged', () => {
    const { dangers, remarks } = look(
      'reagents: [{ reagent: powder, amount: 1 g }, { reagent: water, amount: 5 mL }]\n',
    );
    expect(dangers.notJudged).toEqual(['grandmother’s powder']);
    expect(remarks.find(({ ruleId }) => ruleId === 'not-judged')!.reason).toContain('cannot be called safe');
  });
  it('a first run with a danger is asked to start smaller, a repeat is not', () => {
    const large = yellow.replace('0.90 g', '9.0 g');
    expect(told(look(large).remarks)).toContain('note start-smaller');
    expect(told(look(large, { 'small-amount': '20 g' }).remarks)).not.toContain('note start-smaller');
    expect(told(look(`${large}repeats: [3]\n`).remarks)).not.toContain('note start-smaller');
  });
  it('a sample with more than ten times as much of a danger’s partner is told to go up in steps', () => {
    expect(told(look(yellow.replace('1.80 g', '9.5 g')).remarks)).toContain('note more-than-tenfold');
    expect(told(look(yellow.replace('1.80 g', '8.9 g')).remarks)).not.toContain('note more-than-tenfold');
  });
  it('a withdrawn entry keeps its danger as a note', () => {
    const one = { ...entry(14, yellow), status: 'withdrawn' as const };
    const context = contextOf({});
    expect(
      remarksOn(one, reckonDangers(one, context).findings)
        .filter(({ ruleId }) => ruleId === 'danger-unanswered')
        .map(severityOf),
    ).toEqual(['note']);
  });
  it('the room is the journal’s, or 30 m³ and said to be assumed', () => {
    expect(look(yellow).dangers.room).toEqual({ cubicMetres: '30', stated: false, extraction: false });
    const { dangers } = look(yellow, { workspace: { volume: '25 m3', extraction: true } });
    expect(dangers.room).toEqual({ cubicMetres: '25', stated: true, extraction: true });
    expect(dangers.foreseen![0]!.worstCase!.room).toBe('25');
  });
  it('nothing dangerous, nothing to answer', () => {
    expect(
      told(look('reagents: [{ reagent: alum, amount: 5 g }, { reagent: water, amount: 20 mL }]\n').remarks),
    ).toEqual([]);
  });
  it('what is handed on is plain data', () => {
    const { dangers } = look(yellow);
    expect(JSON.parse(JSON.stringify(dangers))).toEqual(dangers);
  });
});
