// A corpus of odd files, as instruments and programs write them: what each must give, and which must be refused.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { deltaE00 } from '../../src/colour/difference.js';
import { colourFromFile } from '../../src/colour/file-colour.js';
import { readReadings } from '../../src/colour/instruments/read.js';
import { referenceRows } from '../reference/read.js';
import { triple } from './reference.js';

const rows = referenceRows('colour/odd-files/expected.csv');
const bytes = (file: string) =>
  new Uint8Array(readFileSync(fileURLToPath(new URL(`../reference/colour/odd-files/${file}`, import.meta.url))));
const readRow = (row: Record<string, string>) => readReadings(bytes(row.file!), row.set || undefined);

describe('odd files', () => {
  it('are fifty and more', () => {
    expect(rows.length).toBeGreaterThanOrEqual(50);
  });

  it.each(rows.filter(({ outcome }) => outcome === 'read'))('$file is read: $why', (row) => {
    const file = readRow(row);
    if (!file.ok) throw new Error(`${file.fault.code}: ${file.fault.message}`);
    const colour = colourFromFile(file.value, {});
    if (!colour.ok) throw new Error(colour.fault.message);
    const { given, lab } = colour.value.colour;
    const conditions = given ? `${given.illuminant}/${given.observer}` : `D65/${colour.value.colour.observer}`;
    expect(conditions).toBe(row.conditions);
    expect(deltaE00(given?.lab ?? lab!, triple(row, 'L', 'a', 'b'))).toBeLessThan(Number(row.tolerance));
    const codes: string[] = file.value.notes.map(({ code }) => code);
    if (colour.value.colour.stepError) codes.push('coarse-step');
    expect(codes).toEqual(row.notes ? row.notes.split(' ') : []);
  });

  it.each(rows.filter(({ outcome }) => outcome !== 'read'))('$file is refused: $why', (row) => {
    const file = readRow(row);
    expect(file.ok ? 'read' : file.fault.code).toBe(row.outcome);
  });
});

describe('a file with several values that are none', () => {
  it('tells of all of them at once', () => {
    const lines = Array.from({ length: 32 }, (_, at) => `${400 + 10 * at},0.${20 + at}`);
    lines[4] = '440,-0.30';
    lines[9] = '490,n/a';
    lines[20] = '600,over';
    const read = readReadings(new TextEncoder().encode(`nm,R\n${lines.join('\n')}\n`), undefined);
    expect(read).toMatchObject({ ok: false, fault: { code: 'not-a-number', line: 11 } });
    const cure = read.ok ? '' : read.fault.cure;
    expect(cure).toContain("line 6, '-0.30', which is below zero");
    expect(cure).toContain("line 22, 'over'");
  });
});
