// The reading copy's readings, one after the other: what an edit did not touch is taken over, what it touched is not.
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { Readings } from '../../src/reading/readings.js';
import { entryOf, journalOf, told } from '../journal/folder.js';

const frame = { script: '/script/reading.js', stylesheet: '/style/reading.css', whatIf: '/what-if', mostSigns: 200 };
const sample = 'samples: [{ sample: A, colour: { spectrum: spectra/1-A.csv } }]\n';
const spectrum = 'nm,R\n400,0.1\n500,0.2\n600,0.3\n700,0.4\n';

const folderOf = (): string =>
  journalOf({
    'entries/1.md': entryOf(1, sample),
    'entries/2.md': entryOf(2, 'follows: [1]'),
    'entries/3.md': entryOf(3),
    'spectra/1-A.csv': spectrum,
  });

describe('a reading after an edit', () => {
  it('of words alone keeps the joined journal, with the words in it', async () => {
    const folder = folderOf();
    const readings = new Readings(folder, frame);
    const before = (await readings.read()).plan!.model;
    writeFileSync(join(folder, 'entries/2.md'), entryOf(2, 'follows: [1]', 'Other words.\n'));
    const after = (await readings.read()).plan!.model;
    expect(after.series).toBe(before.series);
    expect(after.entries.map(({ entry }) => entry.body.trim()).sort()).toEqual(['Other words.', 'Words.', 'Words.']);
  });
  it('that links to another entry is told on its page', async () => {
    const folder = folderOf();
    const readings = new Readings(folder, frame);
    await readings.read();
    writeFileSync(join(folder, 'entries/2.md'), entryOf(2, 'follows: [1]', 'As in [three](3.md).\n'));
    const { plan } = await readings.read();
    expect(plan!.model.links.get(3)!.mentionedBy.map(({ number }) => number)).toEqual([2]);
  });
  it('finds anew what an entry names when a file that another names is gone', async () => {
    const folder = folderOf();
    const readings = new Readings(folder, frame);
    expect(told((await readings.read()).remarks).filter((one) => one.includes('missing-file'))).toEqual([]);
    rmSync(join(folder, 'spectra/1-A.csv'));
    writeFileSync(join(folder, 'entries/2.md'), entryOf(2, 'follows: [1]', 'Other words.\n'));
    expect(told((await readings.read()).remarks).join('\n')).toMatch(/entries\/1\.md:\d+:\d+ error missing-file/);
  });
  it('remarks on a broken link where the edit put it, and no more when it is mended', async () => {
    const folder = folderOf();
    const readings = new Readings(folder, frame);
    const remarks = async (body: string): Promise<readonly string[]> => {
      writeFileSync(join(folder, 'entries/3.md'), entryOf(3, '', body));
      return told((await readings.read()).remarks).filter((one) => one.includes('dangling-link'));
    };
    await remarks('Words.\n');
    expect(await remarks('Words.\n\nSee [four](4.md).\n')).toEqual(['entries/3.md:9:5 error dangling-link']);
    expect(await remarks('Words, and more.\n')).toEqual([]);
  });
});
