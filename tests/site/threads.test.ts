// Entries reckoned and pages rendered in worker threads are the same, to the byte, as those made in one.
import { lstatSync, readFileSync, readdirSync, renameSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { expect, it } from 'vitest';
import { manifestFile } from '../../src/site/manifest.js';
import { shareOut, type AskedThread } from '../../src/threads.js';
import { demo } from '../browser/browser.js';
import { folderOf } from '../journal-folder.js';

const every = (folder: string, from = folder): string[] =>
  readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? every(path, from) : [relative(from, path)];
  });

it('the demonstration journal, with two threads and with none, in little memory and in more', async () => {
  const { publish } = (await import(
    '../../dist/src/site/publish.js' as string
  )) as typeof import('../../src/site/publish.js');
  // The same code, module by module instead of put together.
  const { publishJournal } = (await import(
    '../../dist/src/site/publish-journal.js' as string
  )) as typeof import('../../src/site/publish-journal.js');
  const { cpSync } = await import('node:fs');
  const folder = folderOf({});
  cpSync(demo, join(folder, 'journal'), { recursive: true });
  const alone = await publishJournal(join(folder, 'journal'), { to: join(folder, 'alone'), search: false, threads: 0 });
  // They publish over the same site, of which somebody has changed two files since.
  const there = (path: string): string => join(folder, 'threaded', path);
  cpSync(join(folder, 'alone'), join(folder, 'threaded'), { recursive: true });
  const [edited, linked] = ['4/index.html', '9/bench/index.html'];
  writeFileSync(there(edited), readFileSync(there(edited), 'utf8').replace('<html', '<HTML'));
  renameSync(there(linked), join(folder, 'elsewhere.html'));
  symlinkSync('../../../elsewhere.html', there(linked));
  const before = new Map(every(join(folder, 'threaded')).map((path) => [path, lstatSync(there(path)).ino]));
  // What the first has kept is not taken, so that the threads have everything to reckon too.
  const threaded = await publish(join(folder, 'journal'), {
    to: join(folder, 'threaded'),
    search: false,
    threads: 2,
    keep: false,
    littleMemory: true,
  });
  expect(threaded).toMatchObject({ published: true, pages: alone.pages, bytes: alone.bytes });
  const others = [...before].flatMap(([path, inode]) => (lstatSync(there(path)).ino === inode ? [] : [path]));
  expect(others.sort()).toEqual([manifestFile, edited, linked].sort());
  expect(threaded.remarks.map(String).sort()).toEqual(alone.remarks.map(String).sort());
  // What the threads have reckoned is kept, and taken by the next publication.
  cpSync(demo, join(folder, 'again'), { recursive: true });
  const options = { to: join(folder, 'kept'), search: false, threads: 2, littleMemory: true };
  const anew = await publish(join(folder, 'again'), options);
  const { took: _, ...next } = await publish(join(folder, 'again'), options);
  expect(anew).toMatchObject(next);
  const files = every(join(folder, 'alone')).sort();
  for (const site of ['threaded', 'kept']) {
    expect(every(join(folder, site)).sort()).toEqual(files);
    for (const file of files)
      expect(readFileSync(join(folder, site, file)).equals(readFileSync(join(folder, 'alone', file))), file).toBe(true);
  }
}, 120_000);

it('when something fails, what other threads write is waited for, as the folder is then thrown away', async () => {
  let isOver = false;
  let asked = 0;
  const writing = (): Promise<void> =>
    new Promise((done) => {
      setTimeout(() => {
        isOver = true;
        done();
      }, 50);
    });
  const shared = shareOut([{} as AskedThread], {
    ask: () => ((asked += 1) === 1 ? writing() : undefined),
    here: () => {
      throw new Error('no space');
    },
  });
  await expect(shared).rejects.toThrow('no space');
  expect(isOver).toBe(true);
});
