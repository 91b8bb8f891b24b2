// What is packed can be reckoned again by itself: unpacked elsewhere it gives the same figures, and the same journal
// gives the same bytes.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { command } from '../../src/commands/pack.js';
import { WrongUse } from '../../src/commands/command.js';
import { openJournal, type OpenedJournal } from '../../src/open.js';
import { remarksAsJson } from '../../src/remarks/print.js';
import { demo } from '../browser/browser.js';
import { entry, folderOf, settings } from '../journal-folder.js';
import { crateFaults } from '../site/crate-rules.js';
import { run } from './bench.js';

/** Unpacks a zip file into a folder of its own. */
function unpacked(file: string): string {
  const folder = folderOf({});
  for (const [path, content] of Object.entries(unzipSync(readFileSync(file)))) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
  return folder;
}

/** The figures of an entry, without what says where the text was found. */
function figuresOf({ model }: OpenedJournal, number: number): unknown {
  const reckoned = model!.entries.find((one) => one.entry.number === number)!;
  const { amounts, dangers, appearance, elements } = reckoned;
  return JSON.parse(JSON.stringify({ amounts, dangers, appearance, elements }));
}

const packed = async (journal: string, ...words: string[]) => {
  const file = join(folderOf({}), 'pack.zip');
  const said = await run(command, '--journal', journal, '--to', file, '--json', ...words);
  expect([said.code, said.aside]).toEqual([0, '']);
  return { file, ...(said.json as { entries: number[]; files: { path: string }[]; sha256: string; bytes: number }) };
};

describe('one entry', () => {
  it.each([14, 1, 5, 16, 23])(
    'no. %i reckons the same from its pack as in its journal, what is left of its lots too, and its proof has no error',
    async (number) => {
      const { file, entries } = await packed(demo, String(number));
      const folder = unpacked(file);
      const [whole, part] = [await openJournal(demo, { drafts: true }), await openJournal(folder, { drafts: true })];
      expect(figuresOf(part, number)).toEqual(figuresOf(whole, number));
      const errors = remarksAsJson(part.remarks).filter(({ severity }) => severity === 'error');
      expect(errors).toEqual([]);
      expect(entries).toContain(number);
      expect(part.model!.entries.map((one) => one.entry.number).sort((a, b) => a - b)).toEqual(entries);
    },
    60_000,
  );
  it('says nothing of where the schema of the format lies on this machine', async () => {
    const written = entry(1, '');
    const line = '# yaml-language-server: $schema=file:///home/me/masstone/public/schema/entry.schema.json\n';
    const journal = folderOf({
      'journal.yaml': line + settings,
      'entries/001-one.md': written.replace('---\n', `---\n${line}`),
    });
    const folder = unpacked((await packed(journal)).file);
    expect(readFileSync(join(folder, 'entries/001-one.md'), 'utf8')).toBe(written);
    expect(readFileSync(join(folder, 'journal.yaml'), 'utf8')).toBe(settings);
  });
  it('says in CAUTIONS.txt what its entries are marked with, and what was foreseen and not recognised', async () => {
    const journal = folderOf({
      'journal.yaml': settings,
      'shelf.yaml': '{}',
      'entries/001-one.md': entry(
        1,
        'reagents:\n  - { reagent: { name: sodium nitrite, formula: NaNO2 }, amount: 5 g }\n' +
          '  - { reagent: { name: acetic acid, formula: CH3COOH, strength: 60 % }, amount: 10 mL }\n' +
          '  - { reagent: grandmother’s powder, amount: 1 g }\n' +
          'precautions:\n  - { against: brown fumes, do: done outdoors with the wind behind }\n',
      ),
      'entries/002-two.md': entry(2, 'reagents: [{ reagent: { name: lye, formula: NaOH }, amount: 5 g }]\n'),
    });
    const { file } = await packed(journal, '1');
    const cautions = new TextDecoder().decode(unzipSync(readFileSync(file))['CAUTIONS.txt']);
    expect(cautions).toMatch(/safety data sheets, local rules and licensed practice come first/);
    expect(cautions).toMatch(/Not recognised: grandmother’s powder/);
    expect(cautions).toMatch(/H301 Toxic if swallowed. \(sodium nitrite\)/);
    expect(cautions).toMatch(/DANGER: toxic gas.*nitrite with weak acid[^]*Answered in the entry: done outdoors/);
    expect(cautions).not.toMatch(/lye/);
  });
  it('leaves out what it does not need', async () => {
    const folder = folderOf({
      'journal.yaml': settings,
      'shelf.yaml':
        'vitriol: { name: blue vitriol, formula: CuSO4·5H2O }\n# kept for later\nlye: { name: lye, formula: NaOH }\n' +
        'gold: { name: gold salt, formula: HAuCl4, lot: 3/A }\n',
      'register.txt': '/1/\n/2/\n/3/\n',
      'entries/001-one.md': entry(1, 'samples: [{ sample: A, obtained: 2.00 g }]\n'),
      'entries/002-two.md': entry(2, 'reagents: [{ lot: 1/A, amount: 1.00 g }, { reagent: lye, amount: 1 mL }]\n'),
      'entries/003-three.md': entry(3, 'samples: [{ sample: A }]\n'),
    });
    const { files, entries, file } = await packed(folder, '2');
    expect(entries).toEqual([1, 2]);
    expect(files.map(({ path }) => path)).toEqual([
      'CAUTIONS.txt',
      'CITATION.cff',
      'entries/001-one.md',
      'entries/002-two.md',
      'journal.yaml',
      'register.txt',
      'ro-crate-metadata.json',
      'shelf.yaml',
    ]);
    const at = unpacked(file);
    expect(readFileSync(join(at, 'shelf.yaml'), 'utf8')).toBe('lye: { name: lye, formula: NaOH }\n');
    expect(readFileSync(join(at, 'register.txt'), 'utf8')).not.toContain('/3/');
    // What takes a lot of it is packed with it, or what is left of the lot would be another figure.
    expect((await packed(folder, '1')).entries).toEqual([1, 2]);
  });
});

describe('a whole journal', () => {
  it('has the same remarks and figures, entry by entry', async () => {
    const { file, entries } = await packed(demo);
    const folder = unpacked(file);
    const [whole, part] = [await openJournal(demo, { drafts: true }), await openJournal(folder, { drafts: true })];
    expect(remarksAsJson(part.remarks)).toEqual(remarksAsJson(whole.remarks));
    expect(entries).toEqual(whole.model!.entries.map((one) => one.entry.number).sort((a, b) => a - b));
    for (const number of entries) expect(figuresOf(part, number)).toEqual(figuresOf(whole, number));
  }, 60_000);
  it('packed again from what was unpacked, is the same to the byte', async () => {
    const first = await packed(demo);
    const again = await packed(unpacked(first.file));
    expect(again.sha256).toBe(first.sha256);
    expect((await packed(demo, '14')).sha256).toBe((await packed(demo, '14')).sha256);
  }, 60_000);
  it('packs nothing that the journal does not name', async () => {
    const folder = folderOf({
      'journal.yaml': settings,
      'shelf.yaml': '{}',
      'entries/001-one.md': entry(1),
      'secret.txt': 'x',
      '.hidden/key': 'x',
      'photos/unnamed.jpg': 'x',
    });
    const { files } = await packed(folder);
    expect(files.map(({ path }) => path).filter((path) => /secret|hidden|unnamed/.test(path))).toEqual([]);
  });
});

describe('a pack', () => {
  it.each([[[]], [['14']]])('%j is an RO-Crate 1.2', async (words) => {
    const folder = unpacked((await packed(demo, ...words)).file);
    const text = readFileSync(join(folder, 'ro-crate-metadata.json'), 'utf8');
    expect(crateFaults(text, (path) => existsSync(join(folder, path)))).toEqual([]);
  });
  it('is opened by another reader of zip files, with plain permissions', async () => {
    const { file } = await packed(demo, '14');
    const script =
      'import sys, zipfile; z = zipfile.ZipFile(sys.argv[1]); assert z.testzip() is None; ' +
      'print(sorted({(i.date_time, oct(i.external_attr >> 16)) for i in z.infolist()}))';
    const { error, stdout } = spawnSync('python3', ['-c', script, file], { encoding: 'utf8' });
    // Where there is no Python, the library's own reader has read it above.
    if (error) return;
    expect(stdout.trim()).toBe("[((1980, 1, 1, 0, 0, 0), '0o100644')]");
  });
});

describe('bad input', () => {
  it.each([[['x']], [['14', '15']], [['0']], [['-1']], [['--to', ' ']]])('%j is wrong use', async (words) => {
    const asked = words[0] === '-1' ? ['--', '-1'] : words;
    await expect(run(command, '--journal', demo, ...asked)).rejects.toBeInstanceOf(WrongUse);
  });
  it('an entry that is not there is refused, and nothing is written', async () => {
    const file = join(folderOf({}), 'x.zip');
    const { code, json } = await run(command, '--journal', demo, '999', '--to', file, '--json');
    expect([code, json.error.code, existsSync(file)]).toEqual([1, 'no-entry', false]);
  });
  it('a file that is no zip file is not written over, an earlier pack is', async () => {
    const folder = folderOf({ 'notes.txt': 'mine' });
    const notes = join(folder, 'notes.txt');
    const { code, json } = await run(command, '--journal', demo, '14', '--to', notes, '--json');
    expect([code, json.error.code, readFileSync(notes, 'utf8')]).toEqual([1, 'exists', 'mine']);
    const zip = join(folder, 'a.zip');
    await run(command, '--journal', demo, '14', '--to', zip);
    expect((await run(command, '--journal', demo, '14', '--to', zip)).code).toBe(0);
  });
  it('a folder without a journal is said', async () => {
    const { code, json } = await run(command, '--journal', folderOf({}), '--json', '--to', join(folderOf({}), 'x.zip'));
    expect([code, json.error.code]).toEqual([1, 'no-journal']);
  });
});
