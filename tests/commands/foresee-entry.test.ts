// `foresee` with the number of an entry: as it stands, and what if something were added.
import { describe, expect, it } from 'vitest';
import { command } from '../../src/commands/foresee.js';
import { journalOf } from '../reagents/journal.js';

const sulfideWash = `reagents:
  - { reagent: { name: sodium sulfide }, amount: 5.00 g }
  - { reagent: { name: water }, amount: 60 mL, role: solvent }
samples:
  - { sample: A, differs: cold }`;

async function asked(positionals: readonly string[], values: Record<string, string | string[]> = {}, json = true) {
  const journal = journalOf({ entries: [sulfideWash] });
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
  it('that is not there is a sentence, and exit code 1', async () => {
    const { code, printed } = await asked(['77']);
    expect(code).toBe(1);
    expect(JSON.parse(printed).error.message).toContain('no entry 77');
  });
});
