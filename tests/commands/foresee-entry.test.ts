// `foresee` with the number of an entry: as it stands, and what if something were added.
import { describe, expect, it } from 'vitest';
import { command } from '../../src/commands/foresee.js';
import { openJournal } from '../../src/open.js';
import { entry, folderOf, settings } from '../journal-folder.js';
import { journalOf } from '../reagents/journal.js';

const sulfideWash = `reagents:
  - { reagent: { name: sodium sulfide }, amount: 5.00 g }
  - { reagent: { name: water }, amount: 60 mL, role: solvent }
samples:
  - { sample: A, differs: cold }`;

/** Sulfide first; the acid only in the third step, and boiled in the fourth. The salt stands in no step. */
const inSteps = `reagents:
  - { reagent: { name: sodium sulfide }, amount: 5.00 g }
  - { reagent: { name: water }, amount: 60 mL, role: solvent }
  - { reagent: { name: vinegar }, amount: 20 mL }
  - { reagent: { name: table salt, formula: NaCl }, amount: 1.00 g }
steps:
  - { do: Dissolve the sulfide., with: [sodium sulfide, water] }
  - { do: Warm it., heat: 40 °C }
  - { do: Vinegar in., with: [Vinegar] }
  - { do: Filter it and boil the filtrate., heat: boiling }
samples:
  - { sample: A, differs: cold }`;

async function asked(
  positionals: readonly string[],
  values: Record<string, string | string[]> = {},
  json = true,
  entry = sulfideWash,
) {
  const journal = journalOf({ entries: [entry] });
  let printed = '';
  const streams = { result: (text: string) => (printed += text), aside: () => undefined, terminal: false };
  const code = await command.run({ values, positionals, journal, json }, streams);
  return { code, printed };
}
const number = '1';

describe('an entry by its number', () => {
  it('is judged as it stands, with its samples', async () => {
    const { printed } = await asked([number]);
    const answer = JSON.parse(printed);
    expect(Object.keys(answer).sort()).toEqual(['cautions', 'entry', 'foreseen', 'title', 'unknown']);
    expect(answer.entry).toBe(1);
    expect(answer.foreseen.map(({ rule }: { rule: string }) => rule)).not.toContain('sulfide-weak-acid');
    for (const one of answer.foreseen) expect(one.added).toBeUndefined();
  });
  it('is judged with what would be added, and what that brings is marked', async () => {
    const { printed } = await asked([number], { reagent: ['vinegar 20 mL'] });
    const found = JSON.parse(printed).foreseen.find(({ rule }: { rule: string }) => rule === 'sulfide-weak-acid');
    expect(found).toMatchObject({ severity: 'danger', added: true, samples: ['A'], gas: 'H2S' });
  });
  it('says in words what to do first', async () => {
    const { printed } = await asked([number, 'vinegar 20 mL'], {}, false);
    expect(printed).toContain('if vinegar 20 mL were added');
    expect(printed.split('\n').find((line) => line.includes('If it has happened'))).toMatch(/leave at once/);
    expect(printed).toContain('Only with what is added.');
  });
  it('that was withdrawn is called no recipe, with why and with the maker’s own precautions', async () => {
    const withdrawn = `status: withdrawn
withdrawn: It smoked the house out.
precautions:
  - { against: smoke, do: Not to be done indoors. }`;
    const { printed } = await asked([number], {}, false, withdrawn);
    expect(printed).toMatch(/is withdrawn: it is no recipe.* It smoked the house out\./);
    expect(printed).toMatch(/own precautions:\n {2}smoke: Not to be done indoors\./);
    const answer = JSON.parse((await asked([number], {}, true, withdrawn)).printed);
    expect(answer.notToRepeat).toEqual({ status: 'withdrawn', reason: 'It smoked the house out.' });
  });
  it('that is not there is a sentence, and exit code 1', async () => {
    const { code, printed } = await asked(['77']);
    expect(code).toBe(1);
    expect(JSON.parse(printed).error.message).toContain('no entry 77');
  });
});

describe('an entry with steps', () => {
  it('is told step by step: what is in the pot, how hot, what begins there', async () => {
    const { steps } = JSON.parse((await asked([number], {}, true, inSteps)).printed);
    expect(steps.map((one: { inThePot: string[] }) => [...one.inThePot].sort())).toEqual([
      ['sodium sulfide', 'table salt', 'water'],
      ['sodium sulfide', 'table salt', 'water'],
      ['sodium sulfide', 'table salt', 'vinegar', 'water'],
      ['sodium sulfide', 'table salt', 'vinegar', 'water'],
    ]);
    expect(steps[1].heat).toEqual({ written: '40 °C', toCelsius: 40 });
    expect(steps[3].heat.toCelsius).toBeGreaterThanOrEqual(100);
    const begun = steps.map(({ begins }: { begins: { rule: string }[] }) => begins.map(({ rule }) => rule));
    expect(begun[0]).not.toContain('sulfide-weak-acid');
    expect(begun[2]).toContain('sulfide-weak-acid');
    expect(begun[3]).not.toContain('sulfide-weak-acid');
  });
  it('and no step takes a danger away from the whole', async () => {
    const rulesIn = async (entry: string): Promise<string[]> => {
      const { foreseen } = JSON.parse((await asked([number], {}, true, entry)).printed);
      return foreseen.map(({ rule, severity }: { rule: string; severity: string }) => `${severity} ${rule}`).sort();
    };
    const without = inSteps.replace(/steps:[^]*samples:/, 'samples:');
    expect(await rulesIn(inSteps)).toEqual(expect.arrayContaining(await rulesIn(without)));
  });
  it('names the step with the danger, in words too', async () => {
    const { printed } = await asked([number], {}, true, inSteps);
    const found = JSON.parse(printed).foreseen.find(({ rule }: { rule: string }) => rule === 'sulfide-weak-acid');
    expect(found.step).toBe(3);
    const words = (await asked([number], {}, false, inSteps)).printed;
    expect(words).toContain('Begins at step 3.');
    expect(words).toMatch(/3\. Vinegar in\.\n {3}In the vessels so far: .*vinegar.*\n {3}Begins here: DANGER: sulfide/);
  });
});

describe('an entry that is wrong somewhere', () => {
  /** What foresee says of an entry's whole text. */
  async function ofText(text: string) {
    const journal = folderOf({ 'journal.yaml': settings, 'shelf.yaml': '', 'entries/003-e.md': text });
    let printed = '';
    const streams = { result: (out: string) => (printed += out), aside: () => undefined, terminal: false };
    const code = await command.run({ values: {}, positionals: ['3'], journal, json: true }, streams);
    const answer = JSON.parse(printed);
    const rules: string[] = (answer.foreseen ?? []).map(({ rule }: { rule: string }) => rule);
    const { remarks } = await openJournal(journal);
    const open = remarks.filter(({ ruleId }) => ruleId === 'danger-unanswered').map(({ file }) => file);
    return { code, answer, rules, open };
  }
  const top = { number: 'number: 3', title: 'title: Yellow', date: 'date: 2026-02-03', status: 'status: failed' };
  const fuming = `reagents:
  - { reagent: potassium nitrite, amount: 2 g }
  - { reagent: vinegar, amount: 20 mL }`;
  const textOf = (keys: Partial<typeof top>, rest = fuming): string =>
    ['---', ...Object.values({ ...top, ...keys }), rest, '---', 'Words.', ''].join('\n');

  it.each([
    ['a day that no calendar has', textOf({ date: 'date: 2026-02-30' })],
    ['a date in words', textOf({ date: 'date: some day in summer' })],
    ['no date', textOf({ date: '' })],
    ['no title', textOf({ title: '' })],
    ['no number', textOf({ number: '' })],
    ['a number that is none', textOf({ number: 'number: nobody knows' })],
    ['a status that is none', textOf({ status: 'status: [over, and, out]' })],
    ['all four wrong', textOf({ number: 'number: -', title: 'title: [a, b]', date: 'date: x', status: 'status: {}' })],
    ['a key that stands twice', textOf({ title: 'title: One\ntitle: Two' })],
    [
      'its reagents under one key twice',
      textOf({}, fuming.replace('\n  - { reagent: v', '\nreagents:\n  - { reagent: v')),
    ],
    ['YAML that breaks off behind them', textOf({}, `${fuming}\nsteps: [Mix it`)],
  ])('tells its dangers all the same: %s', async (_, text) => {
    const { code, answer, rules, open } = await ofText(text);
    expect(rules).toContain('nitrite-weak-acid');
    expect(open).toEqual(['entries/003-e.md']);
    expect(answer.notRead[0]).toContain('could not be read whole');
    expect(code).toBe(1);
  });

  it.each([
    ['in one text', 'reagents: [{ reagent: potassium nitrite, amount: 2 g }, 20 mL of vinegar]'],
    ['all in one text', 'reagents: potassium nitrite 2 g\nsamples: [{ sample: A, add: [vinegar 20 mL] }]'],
    ['by name and lot', 'reagents: [potassium nitrite 2 g, { reagent: vinegar, lot: 1/A, amount: 8 g }]'],
    ['under keys that the format lacks', 'reagents: [potassium nitrite 2 g, { stuff: vinegar, much: 8 g }]'],
    ['as the keys themselves', 'reagents: { potassium nitrite: 2 g, vinegar: 20 mL }'],
    ['in a sample without any sense', 'reagents: [potassium nitrite 2 g]\nsamples: [{ sample: [], add: [vinegar] }]'],
  ])('judges a reagent by its words: %s', async (_, matter) => {
    expect((await ofText(textOf({}, matter))).rules).toContain('nitrite-weak-acid');
  });

  it('says first what it could not read, and calls nothing quiet then', async () => {
    const { code, answer } = await ofText(textOf({}, 'reagents: [{ reagent: water, lot: 1/A }]'));
    expect(answer.notRead.join(' ')).toMatch(/‘water’ was not read as a reagent.*‘1\/A’ was not read/);
    expect(code).toBe(1);
    const heat = await ofText(textOf({}, 'reagents: [water 2 mL]\nheating: [[warm, warmer]]'));
    expect(heat.answer.notRead.join(' ')).toContain('that heat was NOT judged');
    expect((await ofText(textOf({}, 'reagents: [water 2 mL]'))).answer.notRead).toBeUndefined();
  });
});

describe('what is left in a lot', () => {
  const shelf = [
    'ferrous: { name: iron(II) sulfate heptahydrate, formula: FeSO4·7H2O }',
    'bleach: { name: household bleach, formula: NaClO, strength: 5 % }',
    'muriatic: { name: hydrochloric acid, formula: HCl, strength: 10 % }',
    'sulfide: { name: sodium sulfide nonahydrate, formula: Na2S·9H2O }',
    'sour: { name: iron(II) sulfate heptahydrate, formula: FeSO4·7H2O, free-acid: 0.5 mol/L }',
  ].join('\n');
  const earlier = (more: string): string =>
    `pigment: { name: Mars yellow, formula: FeO(OH) }\nreagents: [{ reagent: ferrous, amount: 10.0 g }]\n${more}\n`;
  /** Rules and severities of an entry that takes lot 1/A with something else. */
  async function foreseenWith(more: string, reagent: string, use = 'lot: 1/A'): Promise<string[]> {
    const folder = folderOf({
      'journal.yaml': settings,
      'shelf.yaml': shelf,
      'entries/001-a.md': entry(1, earlier(more)),
      'entries/002-b.md': entry(2, `reagents: [{ ${use}, amount: 2.00 g }, { reagent: ${reagent}, amount: 20 mL }]\n`),
    });
    let printed = '';
    const streams = { result: (text: string) => (printed += text), aside: () => undefined, terminal: false };
    await command.run({ values: {}, positionals: ['2'], journal: folder, json: true }, streams);
    const { foreseen, cautions } = JSON.parse(printed);
    return [...foreseen.map(({ rule, severity }: Record<string, string>) => `${rule} ${severity}`), ...cautions];
  }
  const bleach = 'hypochlorite-strong-acid danger';
  const lesser = 'hypochlorite-strong-acid warning';

  it.each([
    ['the last wash', 'washes: [{ with: bleach, volume: 50 mL }]\nsamples: [{ sample: A }]', bleach],
    ['a wash of the sample', 'samples: [{ sample: A, washes: [{ with: bleach, volume: 50 mL }] }]', bleach],
    [
      'a wash before a heat',
      'washes: [{ with: bleach, volume: 9 mL }]\nheating: [{ to: 90 °C }]\nsamples: [{ sample: A }]',
      lesser,
    ],
    ['a wash in words', 'washes: with water, then bleach\nsamples: [{ sample: A }]', lesser],
    ['a wash without its volume', 'washes: [{ with: bleach }]\nsamples: [{ sample: A }]', lesser],
    ['what it is said to carry', 'samples: [{ sample: A, carries: [bleach] }]', lesser],
    ['the same in words', 'samples: [{ sample: A, carries: [old bleach] }]', lesser],
  ])('meets acid: %s', async (_, more, expected) => {
    expect(await foreseenWith(more, 'muriatic')).toContain(expected);
  });
  it.each([
    [
      'rinsed with water since',
      'washes: [{ with: bleach, volume: 50 mL }, { with: hot water, volume: 1 L }]\nsamples: [{ sample: A }]',
    ],
    ['rinsed in words', 'washes: with bleach, then twice with hot water\nsamples: [{ sample: A }]'],
    ['never washed with it', 'samples: [{ sample: A }]'],
  ])('is none where it was %s', async (_, more) => {
    expect((await foreseenWith(more, 'muriatic')).join('\n')).not.toContain('hypochlorite-strong-acid');
  });
  it('is acid where the sample, the jar or the use says so', async () => {
    const sulfide = 'sulfide-strong-acid danger';
    expect(await foreseenWith('samples: [{ sample: A, free-acid: 0.5 mol/L }]', 'sulfide')).toContain(sulfide);
    expect(await foreseenWith('samples: [{ sample: A }]', 'sulfide', 'reagent: sour')).toContain(sulfide);
    expect(await foreseenWith('samples: [{ sample: A }]', 'sulfide', 'lot: 1/A, free-acid: 0.5 mol/L')).toContain(
      sulfide,
    );
    expect(await foreseenWith('samples: [{ sample: A }]', 'sulfide')).not.toContain(sulfide);
  });
  it('is said not to be judged where nobody knows what it is', async () => {
    const told = await foreseenWith('samples: [{ sample: A, carries: [jelly of unknown make] }]', 'muriatic');
    expect(told.join('\n')).toContain('‘jelly of unknown make’, which lot 1/A may still hold, was not recognised');
  });
});
