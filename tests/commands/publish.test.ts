// masstone publish, run as a maker runs it.
import { existsSync, readFileSync, readdirSync, writeFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { entry, folderOf, masstone, smallJournal } from '../journal-folder.js';
import { quoted } from '../quoted.js';

const run = (folder: string, ...words: string[]) => masstone(['publish', '--journal', 'journal', ...words], folder);

describe('masstone publish', () => {
  it('writes the site and says so, exit 0', () => {
    const folder = folderOf(smallJournal());
    const { status, stdout, stderr } = run(folder);
    expect(stderr).not.toMatch(/error/);
    expect(stdout).toMatch(/^Published 2 entries, \d+ pages, .*: site\n$/);
    expect(status).toBe(0);
    for (const file of [
      'index.html',
      '1/index.html',
      '2/index.html',
      '1/bench/index.html',
      'results/index.html',
      'reagents/blue-vitriol/index.html',
      'feed.atom',
      'feed.json',
      'sitemap.xml',
      '404.html',
      'data/samples.csv',
      'data/entries.json',
      'find/pagefind.js',
    ]) {
      expect(existsSync(join(folder, 'site', file)), file).toBe(true);
    }
  });

  it('adds what it published to the register of addresses', () => {
    const folder = folderOf(smallJournal());
    run(folder);
    expect(readFileSync(join(folder, 'journal/register.txt'), 'utf8')).toBe(
      '# 4 addresses published by masstone, for ever. Keep this file.\n/1/\n/1/#A\n/2/\n/reagents/blue-vitriol/\n',
    );
  });

  it('links under the base path and nowhere outside it', () => {
    const folder = folderOf(smallJournal());
    run(folder);
    const html = quoted(readFileSync(join(folder, 'site/2/index.html'), 'utf8'));
    expect(html).toContain('href="/base/1/"');
    const local = [...html.matchAll(/(?:href|src)="([^"]*)"/g)]
      .map((match) => match[1]!)
      .filter((url) => !/^https?:/.test(url) && !url.startsWith('#'));
    expect(local.filter((url) => !url.startsWith('/base/'))).toEqual([]);
  });

  it('stops at an error with its place, exit 1, and leaves the old site as it was', () => {
    const folder = folderOf(smallJournal());
    run(folder);
    const before = readFileSync(join(folder, 'site/1/index.html'), 'utf8');
    writeFileSync(
      join(folder, 'journal/entries/001-first.md'),
      entry(1, 'samples: [{ sample: A, obtained: 1.98 h }]\n'),
    );
    const { status, stderr } = run(folder);
    expect(status).toBe(1);
    expect(stderr).toMatch(/entries\/001-first\.md/);
    expect(stderr).toMatch(/\b6:\d+\b/);
    expect(stderr).toContain('Not published');
    expect(readFileSync(join(folder, 'site/1/index.html'), 'utf8')).toBe(before);
    expect(readdirSync(folder).sort()).toEqual(['journal', 'site']);
  });

  it('answers --json with one object on stdout', () => {
    const folder = folderOf(smallJournal({ 'journal/entries/003-bad.md': entry(3, 'statsu: x\n') }));
    const { status, stdout } = run(folder, '--json');
    expect(status).toBe(1);
    const answer = JSON.parse(stdout) as {
      published: boolean;
      remarks: { file: string; line: number; rule: string; cure: string }[];
    };
    expect(answer.published).toBe(false);
    expect(answer.remarks.find(({ file }) => file === 'entries/003-bad.md')).toMatchObject({
      line: 6,
      severity: 'error',
      cure: expect.stringContaining('status') as string,
    });
  });

  it('leaves drafts out, and takes them in with --drafts', () => {
    const folder = folderOf(smallJournal({ 'journal/entries/003-plan.md': entry(3).replace('finished', 'planned') }));
    run(folder, '--no-search');
    expect(existsSync(join(folder, 'site/3'))).toBe(false);
    run(folder, '--no-search', '--drafts');
    expect(existsSync(join(folder, 'site/3/index.html'))).toBe(true);
    expect(readFileSync(join(folder, 'journal/register.txt'), 'utf8')).not.toContain('/3/');
  });

  it('refuses to lose a published address, and keeps a page for a withdrawn one', () => {
    const folder = folderOf(smallJournal());
    run(folder, '--no-search');
    writeFileSync(join(folder, 'journal/entries/001-first.md'), entry(1));
    const lost = run(folder, '--no-search');
    expect(lost.status).toBe(1);
    expect(lost.stderr).toContain('/1/#A');
    writeFileSync(
      join(folder, 'journal/entries/001-first.md'),
      entry(1, 'samples: [{ sample: A }]\nwithdrawn: The balance was broken.\n').replace('finished', 'withdrawn'),
    );
    expect(run(folder, '--no-search').status).toBe(0);
    expect(readFileSync(join(folder, 'site/1/index.html'), 'utf8')).toContain('The balance was broken.');
  });

  it('does not replace a folder of somebody else’s, exit 2', () => {
    const folder = folderOf({ ...smallJournal(), 'site/thesis.txt': 'mine' });
    const { status, stderr } = run(folder);
    expect(status).toBe(2);
    expect(stderr).toMatch(/did not publish.*--to/s);
    expect(readFileSync(join(folder, 'site/thesis.txt'), 'utf8')).toBe('mine');
  });

  it('does not write over the journal itself, exit 2', () => {
    const folder = folderOf(smallJournal());
    expect(run(folder, '--to', 'journal').status).toBe(2);
    expect(run(folder, '--to', '.').status).toBe(2);
    expect(existsSync(join(folder, 'journal/journal.yaml'))).toBe(true);
  });

  it('says what is missing in a folder that is no journal, exit 1', () => {
    const folder = folderOf({ 'journal/readme.txt': 'nothing' });
    mkdirSync(join(folder, 'journal/entries'), { recursive: true });
    const { status, stderr } = run(folder);
    expect(status).toBe(1);
    expect(stderr).toContain('journal.yaml');
  });
});
