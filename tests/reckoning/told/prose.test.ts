// Write-ups beside a list of reagents, written by somebody who had seen only the README: what is told stays told, and
// each gap that is closed comes off the list. First-run figures: tests/reference/prose/README.md.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../../src/journal/entry-file.js';
import { foreseeEntry } from '../../../src/reckoning/dangers/foreseen-in-entry.js';
import { toldInWords } from '../../../src/reckoning/told/told-in-words.js';
import { emptyRoom } from '../entries.js';

const folder = join(import.meta.dirname, '../../reference/prose');
interface Case {
  readonly name: string;
  readonly dangerous: boolean;
  readonly tells?: string;
  readonly text: string;
}
const cases = JSON.parse(readFileSync(join(folder, 'cases.json'), 'utf8')) as readonly Case[];
const gaps = new Set(JSON.parse(readFileSync(join(folder, 'gaps.json'), 'utf8')) as readonly string[]);

const read = (text: string) => readEntry('entries/1.md', text).entry!;

/** Dangers by their words, and names that are only spoken of. */
function foreseen(entry: ReturnType<typeof read>) {
  const { hazards, besides } = foreseeEntry(entry, emptyRoom);
  const grave = hazards.filter(({ foreseen }) => foreseen.severity === 'danger').map(({ foreseen }) => foreseen);
  return {
    dangers: grave.map(({ title, consequence, gas = '' }) => `${title}: ${consequence} (${gas})`),
    spokenOf: besides().spokenOf.map(({ name }) => name),
  };
}

function isRight({ dangerous, tells = '', text }: Case): boolean {
  const { dangers, spokenOf } = foreseen(read(text));
  if (dangerous) return dangers.some((one) => new RegExp(tells).test(one));
  return dangers.length + spokenOf.length === 0;
}

describe('a write-up in prose', () => {
  it.each(cases.filter(({ name }) => !gaps.has(name)))('is told as it is: $name', (one) => {
    expect(isRight(one), foreseen(read(one.text)).dangers.join('\n')).toBe(true);
  });
  it.each(cases.filter(({ name }) => gaps.has(name)))('is a gap still: $name', (one) => {
    expect(isRight(one)).toBe(false);
  });
  it('tells the same by what of it has a part in what is reckoned', () => {
    const demonstration = join(import.meta.dirname, '../../../content/entries');
    const texts = readdirSync(demonstration).map((name) => readFileSync(join(demonstration, name), 'utf8'));
    for (const text of [...cases.map((one) => one.text), ...texts]) {
      const entry = read(text);
      const inPart = foreseen({ ...entry, body: toldInWords(entry) });
      expect(inPart, text.slice(0, 120)).toEqual(foreseen(entry));
    }
  });
});
