// Words of steps that lie near a danger: what was not put in, what is free of something, a thermometer, a hue, hands
// that are washed, somebody else's kiln, a crucible that is cold; and their dangerous twins. From memory, written
// before they were run; the first run is told in tests/reference/foreseen/README.md.
import { describe, expect, it } from 'vitest';
import { contentsOf, dryComposition, namesInWords, resolveNamed } from '../../../src/reagents/index.js';
import { reckonDangers } from '../../../src/reckoning/dangers/dangers.js';
import { referenceRows } from '../../reference/read.js';
import { emptyRoom, entry } from '../entries.js';

const listed = (key: string, lines: string): string =>
  lines.trim() === ''
    ? ''
    : `${key}:\n${lines
        .split(/\s*[;|]\s*(?=\S)/)
        .map((one) => `  - ${JSON.stringify(one.trim())}`)
        .join('\n')}\n`;

/** What is told of it as a danger or a warning. */
function told({ reagents = '', steps = '' }: Readonly<Record<string, string>>): readonly string[] {
  const stepLines = steps.split(/\s*\|\s*/).map((one) => `  - ${JSON.stringify(one)}`);
  const { dangers } = reckonDangers(
    entry(7, `${listed('reagents', reagents)}steps:\n${stepLines.join('\n')}`),
    emptyRoom,
  );
  return (dangers.foreseen ?? []).filter(({ severity }) => severity !== 'note').map((one) => JSON.stringify(one));
}

const rows = referenceRows('foreseen/near-dangers.csv');
const named = (kind: string) =>
  rows.filter((row) => row.kind === kind).map((row) => [`${row.id} ${row.class}`, row] as const);

describe('steps that lie near a danger', () => {
  it.each(named('harmless'))('and are harmless are told no danger, or not that one: %s', (_, row) => {
    const untrue = new RegExp(row.expect!);
    expect(told(row).filter((one) => untrue.test(one))).toEqual([]);
  });
  it.each(named('dangerous'))('and are dangerous are told it: %s', (_, row) => {
    const expected = new RegExp(row.expect!);
    expect(told(row).filter((one) => expected.test(one))).not.toEqual([]);
  });
});

describe('what a sentence says', () => {
  it('is said of no name in the next', () => {
    const [bleach] = namesInWords('The bath was never hot. Bleach went in.');
    expect(bleach).toMatchObject({ name: 'Bleach', onlySpokenOf: false });
  });
  it('is one where a word is shortened', () => {
    const [acid] = namesInWords('No conc. Sulfuric acid was used.');
    expect(acid).toMatchObject({ onlySpokenOf: true });
  });
});

describe('names of other languages, and names in which a stuff only stands', () => {
  it.each(['Regenwasser', 'getrocknete Krappwurzel', 'terra di Siena naturale', 'gaude', 'ocre doré', 'Goldocker'])(
    'are recognised: %s',
    (name) => expect(contentsOf(resolveNamed(name)).unaccounted).toEqual([]),
  );
  it.each([
    ['potash glass', 'SiO2'],
    ['forest glass', 'SiO2'],
    ['lemon yellow ochre', 'FeO(OH)'],
    ['lemon yellow', 'BaCrO4'],
    ['potash', 'K2CO3'],
  ])('are what they are: %s', (name, formula) => {
    expect(resolveNamed(name).substance?.constituents.dry).toBe(dryComposition(formula));
  });
});
