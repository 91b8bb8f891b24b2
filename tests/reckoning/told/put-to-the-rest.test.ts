// What a write-up puts to the rest of what is listed, and what it only seems to: sentences beside reagents, and whole
// journals. What they are, and first-run figures: tests/reference/prose/README.md.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../../src/journal/entry-file.js';
import { contentsOf, cupboardOf, resolveText } from '../../../src/reagents/index.js';
import { respeltWord } from '../../../src/reagents/contents/respelt-in-words.js';
import { foreseeEntry } from '../../../src/reckoning/dangers/foreseen-in-entry.js';
import { ownWork } from '../../../src/reckoning/told/not-of-work.js';
import { tellsWashing } from '../../../src/reckoning/told/told-work.js';
import { toldInWords } from '../../../src/reckoning/told/told-in-words.js';
import { standApart } from '../../../src/reckoning/told/vessels-apart.js';
import { stepOfWaterOntoAcid } from '../../../src/reckoning/told/water-onto-acid.js';
import { emptyRoom } from '../entries.js';

interface Case {
  readonly text: string;
  readonly reagents?: readonly string[];
  readonly name?: string;
  readonly tells?: string;
  /** What must not be told; where neither stands, no danger at all. */
  readonly not?: string;
}
const casesIn = (file: string): readonly Case[] =>
  JSON.parse(readFileSync(join(import.meta.dirname, '../../reference/prose', file), 'utf8')) as readonly Case[];

function foreseenIn(text: string) {
  const { entry } = readEntry('entries/1.md', text);
  return foreseeEntry(entry!, emptyRoom);
}
/** As a publication does: of those sentences alone that have a part in it. */
function foreseenInPart(text: string) {
  const { entry } = readEntry('entries/1.md', text);
  return foreseeEntry({ ...entry!, body: toldInWords(entry!) }, emptyRoom);
}
const dangersIn = (text: string, read = foreseenIn): readonly string[] =>
  read(text)
    .hazards.filter(({ foreseen }) => foreseen.severity === 'danger')
    .map(({ foreseen: { title, consequence, gas = '' } }) => `${title}: ${consequence} (${gas})`);

function expectRight({ tells, not }: Case, dangers: readonly string[]): void {
  const all = dangers.join('\n');
  if (tells !== undefined) expect(all).toMatch(new RegExp(tells));
  else if (not !== undefined) expect(all).not.toMatch(new RegExp(not));
  else expect(all).toBe('');
}

function entryOf({ reagents = [], text }: Case): string {
  const listed = reagents.length > 0 ? `reagents: ${JSON.stringify(reagents)}\n` : '';
  return `---\nnumber: 1\ntitle: A trial\ndate: 2026-01-02\nstatus: finished\n${listed}---\n${text}\n`;
}

describe('a sentence beside what is listed', () => {
  it.each(casesIn('to-the-rest.json').map((one) => [one.text, one] as const))('is told as it is: %s', (_, one) => {
    expectRight(one, dangersIn(entryOf(one)));
    expectRight(one, dangersIn(entryOf(one), foreseenInPart));
  });
});

describe('an entry of an untidy journal', () => {
  it.each(casesIn('journals.json').map((one) => [one.name!, one] as const))('is told as it is: %s', (_, one) => {
    expectRight(one, dangersIn(one.text));
    expectRight(one, dangersIn(one.text, foreseenInPart));
  });
});

describe('two vessels that stay apart', () => {
  const both = 'In the first jar sodium sulfide and water, in the second citric acid.';
  it('are spoken of together, and nothing of them is judged as one', () => {
    const foreseen = foreseenIn(entryOf({ text: `${both} Both stay shut.` }));
    expect(foreseen.hazards.filter(({ foreseen: { severity } }) => severity === 'danger')).toEqual([]);
    const spokenOf = foreseen.besides().spokenOf.map(({ titles }) => titles.join());
    expect(spokenOf.join()).toMatch(/H2S/);
  });
  it.each([
    'Both stay shut until I tip them together.',
    'Then I poured the first into the second.',
    'They stand side by side.',
  ])('are not apart where %s', (then) => expect(standApart([both, then])).toBe(false));
});

describe('a word with a slip', () => {
  it.each([
    ['salzäure', 'salzsäure'],
    ['salzsäuer', 'salzsäure'],
    ['candegina', 'candeggina'],
    ['muriattico', 'muriatico'],
    ['permanganat', undefined],
    ['permangante', 'permanganate'],
    ['hydrochlorc', 'hydrochloric'],
    ['entkalken', undefined],
    ['salzsäule', undefined],
    ['chloride', undefined],
    ['descaled', undefined],
  ])('%s is meant as %s', (word, meant) => expect(respeltWord(word)).toBe(meant));
});

describe('a plan', () => {
  it.each([
    ['I wanted to use bleach, but in the end I used soap.', ['but in the end I used soap.']],
    ['Volevo usare candeggina, ma ho lasciato perdere e ho usato il sapone.', ['e ho usato il sapone.']],
    ['I wanted to use bleach, but in the end I poured it in.', undefined],
    ['I wanted to add bleach slowly, but then I poured it in.', undefined],
  ])('that something else takes the place of is none of the work: %s', (sentence, own) =>
    expect(ownWork([sentence])).toEqual(own ?? [sentence]),
  );
});

describe('a plan that the next sentence gives up', () => {
  const beside = (text: string) => entryOf({ reagents: ['vinegar 20 mL'], text });
  const plan = 'I had meant to add bleach. In the end I let it be.';
  it.each([foreseenIn, foreseenInPart])('is no danger', (read) => expect(dangersIn(beside(plan), read)).toEqual([]));
  it.each([foreseenIn, foreseenInPart])('is one where it was carried out anyway', (read) =>
    expect(dangersIn(beside(`${plan} Then I did it anyway.`), read).join()).toMatch(/Cl2/),
  );
});

describe('what was not to be done', () => {
  const dangers = (text: string, read = foreseenIn): string => dangersIn(entryOf({ text }), read).join();
  it.each([
    ['Chlorbleiche wollte ich erst nicht zum Salmiakgeist geben. Dann habe ich es doch getan.', /NH2Cl/],
    ['Ich wollte die Bleiche erst nicht in die Salzsäure gießen. Am Ende habe ich es doch gemacht.', /Cl2/],
    ['I did not want to pour the bleach into the ammonia at first. Then I did it after all.', /NH2Cl/],
    ['At first I decided not to add vinegar to the bleach. In the end I did.', /Cl2/],
    ['I knew that one should never pour bleach into ammonia. I did it anyway.', /NH2Cl/],
    ["Je ne voulais pas verser l'eau de javel dans le vinaigre. Puis je l'ai fait quand même.", /Cl2/],
    ["Non volevo versare la candeggina nell'ammoniaca. Poi l'ho fatto lo stesso.", /NH2Cl/],
    ['No quería echar la lejía en el amoniaco. Luego lo hice de todos modos.', /NH2Cl/],
  ])('and was done by the next sentence is a danger: %s', (text, gas) => {
    expect(dangers(text)).toMatch(gas);
    expect(dangers(text, foreseenInPart)).toMatch(gas);
  });
  it.each([
    'I did not want to pour the bleach into the ammonia, and I did not.',
    'Ich wollte die Bleiche nicht in die Salzsäure gießen. Das habe ich auch nicht getan.',
    'I did not use bleach on the vinegar stain. I did it with soap, and without bleach.',
    'The bleach was not for the ammonia jar. In the end I did not open either.',
    'Bleiche darf man nie zum Salmiakgeist geben.',
    'I did not add bleach to the ammonia. I did it with soap.',
    'I did not pour the bleach into the vinegar. In the end I did the jar with sand.',
  ])('and was not done is none: %s', (text) => {
    expect(dangers(text)).toBe('');
    expect(dangers(text, foreseenInPart)).toBe('');
  });
});

describe('a washing', () => {
  it.each(['Washed it five times.', 'Rinsed it with water, then with acetone.', 'Washed clean with vinegar water.'])(
    'washes away: %s',
    (words) => expect(tellsWashing(words)).toBe(true),
  );
  it.each(['Rinsed the flask with acetone.', 'The washings went in the bucket.'])('does not: %s', (words) =>
    expect(tellsWashing(words)).toBe(false),
  );
});

describe('water', () => {
  const acid = 'sulfuric acid 96 %';
  it.each(['I thinned it by pouring half a cup of water in.', 'I poured the water into the acid.'])(
    'goes onto the acid that is listed: %s',
    (words) => expect(stepOfWaterOntoAcid([words], acid)).toBe(0),
  );
  it.each([
    'Put cold water in the beaker first, then ran the acid in.',
    'Poured off the water.',
    'Never pour water onto it.',
    'Washed with water over it.',
  ])('does not: %s', (words) => expect(stepOfWaterOntoAcid([words], acid)).toBeUndefined());
  it('does not go onto what has water beside it', () =>
    expect(stepOfWaterOntoAcid(['Poured water over it.'], `${acid}, water`)).toBeUndefined());
});

describe('the black powder of a line', () => {
  const namesIn = (line: string): string => {
    const read = resolveText(
      line,
      cupboardOf(new Map(), () => undefined),
    );
    if (!read.ok) throw new Error(read.fault.message);
    const { contents } = contentsOf(read.value);
    return contents.map(({ reagent }) => reagent.name).join();
  };
  it('is what was named before it', () => {
    expect(namesIn('nickel carbonate roasted, brushed the black powder off')).not.toMatch(/KNO3/);
    expect(namesIn('black powder')).toMatch(/KNO3/);
    expect(namesIn('nickel carbonate and black powder')).toMatch(/KNO3/);
  });
});
