// `foresee` with the number of an entry: as it stands, and what if something were added.
import { describe, expect, it } from 'vitest';
import { command } from '../../src/commands/foresee.js';
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
