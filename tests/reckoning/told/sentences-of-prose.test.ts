// Sentences in which something is put in by a word that stands for it, swept off, given up: as a write-up, as a step,
// and beside a list of reagents. What they are, and first-run figures: tests/reference/prose/README.md.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../../src/journal/entry-file.js';
import { foreseeEntry } from '../../../src/reckoning/dangers/foreseen-in-entry.js';
import { putInByPronoun } from '../../../src/reckoning/told/taken-in-hand.js';
import { emptyRoom } from '../entries.js';

const forms = ['prose', 'steps', 'beside'] as const;
type Form = (typeof forms)[number];
interface Case {
  readonly text: string;
  readonly tells?: string;
  readonly as?: readonly Form[];
  readonly gaps?: readonly Form[];
}
const file = join(import.meta.dirname, '../../reference/prose/sentences.json');
const cases = JSON.parse(readFileSync(file, 'utf8')) as readonly Case[];
const runs = cases.flatMap((one) => (one.as ?? forms).map((form) => ({ ...one, form })));
const isGap = ({ gaps = [], form }: (typeof runs)[number]): boolean => gaps.includes(form);

const keys: Readonly<Record<Form, (text: string) => string>> = {
  prose: () => '',
  steps: (text) => `steps:\n  - ${JSON.stringify(text)}\n`,
  beside: () => 'reagents:\n  - { reagent: ochre, amount: 5 g }\n',
};

function dangersIn(text: string, form: Form): readonly string[] {
  const head = `number: 1\ntitle: A trial\ndate: 2026-01-02\nstatus: finished\n${keys[form](text)}`;
  const { entry } = readEntry('entries/1.md', `---\n${head}---\n${form === 'steps' ? '' : text}\n`);
  return foreseeEntry(entry!, emptyRoom)
    .hazards.filter(({ foreseen }) => foreseen.severity === 'danger')
    .map(({ foreseen: { title, consequence, gas = '' } }) => `${title}: ${consequence} (${gas})`);
}

function isRight({ text, tells, form }: (typeof runs)[number]): boolean {
  const dangers = dangersIn(text, form);
  return tells === undefined ? dangers.length === 0 : dangers.some((one) => new RegExp(tells).test(one));
}

describe('a sentence', () => {
  it.each(runs.filter((one) => !isGap(one)))('is told as it is, $form: $text', (one) => {
    expect(isRight(one), dangersIn(one.text, one.form).join('\n')).toBe(true);
  });
  it.each(runs.filter(isGap))('is a gap still, $form: $text', (one) => {
    expect(isRight(one)).toBe(false);
  });
});

describe('a word that stands for what was taken', () => {
  const named = (...sentences: string[]) => [...putInByPronoun(sentences).values()].flatMap((names) => [...names]);
  it('stands for what was taken last', () => {
    const names = named('I took the bleach.', 'I opened the vinegar.', 'I poured it over the crust.');
    expect(names).toContain('vinegar');
    expect(names).not.toContain('bleach');
  });
  it('puts nothing in that it takes away again, or that was not put in', () => {
    expect(named('I took the bleach.', 'I put it away.')).toEqual([]);
    expect(named('I took the bleach.', 'I never poured it over the crust.')).toEqual([]);
    expect(named('I took the bleach from the shelf.')).toEqual([]);
  });
  it('reaches two sentences on, and no further', () => {
    const aside = ['It was a fine day.', 'The dog barked.', 'The bell rang.'];
    const puts = 'I tipped it into the vinegar.';
    expect(named('I took the bleach.', ...aside.slice(0, 1), puts)).toContain('bleach');
    expect(named('I took the bleach.', ...aside, puts)).toEqual([]);
  });
});
