// Atomic publication: the old site stays whole until the new one is, and what others put into its folder stays as it
// is.
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  readlinkSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { FileContent } from '../../src/site/assets.js';
import { LockTaken } from '../../src/site/lock.js';
import { contentHash, manifestFile, readManifest } from '../../src/site/manifest.js';
import { manifestHash } from '../../src/site/site-folder.js';
import { fileOfAddress, writerInto } from '../../src/site/file-writing.js';
import { heal, NotOurs, refuseJournal } from '../../src/site/site-places.js';
import { stage, type Stamps } from '../../src/site/staging.js';

let folder: string;
let site: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'masstone-staging-'));
  site = join(folder, 'site');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const journal = { journal: 'https://test.example/', registered: ['/1/'] };
/** Publishes pages by address; tells what was left as it was. */
const publishOnce = async (pages: Record<string, string>): Promise<readonly string[]> => {
  const staging = await stage(site, { patience: 0 });
  try {
    for (const [address, words] of Object.entries(pages)) staging.write(address, words);
    return await staging.swap(journal);
  } finally {
    staging.abandon();
  }
};
const textOf = (path: string): string => readFileSync(join(site, path), 'utf8');
const theirs = (path: string, text = 'mine'): void => {
  mkdirSync(join(site, path, '..'), { recursive: true });
  writeFileSync(join(site, path), text);
};

describe('a staged site', () => {
  it('takes the place of the old one only at the swap', async () => {
    await publishOnce({ '/': 'old' });
    const staging = await stage(site);
    staging.write('/', 'new');
    staging.write('/14/', 'entry');
    expect(textOf('index.html')).toBe('old');
    await staging.swap(journal);
    expect(textOf('index.html')).toBe('new');
    expect(textOf('14/index.html')).toBe('entry');
    expect(readdirSync(folder)).toEqual(['site']);
  });
  it('leaves nothing behind when it is abandoned', async () => {
    await publishOnce({ '/': 'old' });
    const staging = await stage(site);
    staging.write('/', 'half');
    staging.abandon();
    expect(textOf('index.html')).toBe('old');
    expect(readdirSync(folder)).toEqual(['site']);
  });
  it('does not keep pages of the old site', async () => {
    await publishOnce({ '/': 'old', '/14/': 'entry', '/14/bench/': 'sheet' });
    expect(await publishOnce({ '/': 'new' })).toEqual([]);
    expect(readdirSync(site).sort()).toEqual([manifestFile, 'index.html']);
  });
  it('says in the site what it wrote, and of which journal', async () => {
    await publishOnce({ '/': 'new', '/14/': 'entry' });
    const manifest = readManifest(textOf(manifestFile))!;
    expect(manifest).toMatchObject(journal);
    expect([...manifest.files.keys()]).toEqual(['14/index.html', 'index.html']);
  });
  it('keeps the permissions that the folder had', async () => {
    await publishOnce({ '/': 'old' });
    chmodSync(site, 0o750);
    await publishOnce({ '/': 'new' });
    expect(statSync(site).mode & 0o777).toBe(0o750);
  });
  it('stands where a link leads to', async () => {
    mkdirSync(join(folder, 'real'));
    symlinkSync('real', site);
    await publishOnce({ '/': 'new' });
    expect(lstatSync(site).isSymbolicLink()).toBe(true);
    expect(readFileSync(join(folder, 'real/index.html'), 'utf8')).toBe('new');
    expect(readdirSync(folder).sort()).toEqual(['real', 'site']);
  });
  it('is published by one at a time', async () => {
    const first = await stage(site);
    let waited = 0;
    await expect(stage(site, { patience: 150, onWait: () => (waited += 1) })).rejects.toThrow(LockTaken);
    expect(waited).toBe(1);
    const second = stage(site, { patience: 5000 });
    first.write('/', 'first');
    await first.swap(journal);
    const after = await second;
    after.write('/', 'second');
    await after.swap(journal);
    expect(textOf('index.html')).toBe('second');
    expect(readdirSync(folder)).toEqual(['site']);
  });
  it('is not swapped in when its lock was taken away meanwhile', async () => {
    await publishOnce({ '/': 'old' });
    const staging = await stage(site);
    staging.write('/', 'new');
    rmSync(join(folder, '.site.lock'));
    await expect(staging.swap(journal)).rejects.toThrow(/locked by another/);
    staging.abandon();
    expect(textOf('index.html')).toBe('old');
  });
});

describe('a file that is the same in the site that is there', () => {
  const numbers = Array.from({ length: 30_000 }, (_, at) => `${at} `);
  const pages = {
    '/': 'start',
    '/14/': 'entries',
    '/data/all.json': { pieces: () => numbers },
    '/data/few.json': { pieces: () => ['[1,2', ',3]'] },
    '/empty.txt': '',
  };
  const publishPages = async (words: Record<string, FileContent> = pages): Promise<Map<string, number>> => {
    const staging = await stage(site, { isForgotten: true });
    try {
      for (const [address, content] of Object.entries(words)) staging.write(address, content);
      await staging.swap(journal);
    } finally {
      staging.abandon();
    }
    return inodes();
  };
  const inodes = (): Map<string, number> =>
    new Map(Object.keys(pages).map((address) => [address, lstatSync(join(site, fileOfAddress(address))).ino]));
  const elsewhere = (): string => join(folder, 'x');
  function leadElsewhere(path: string): void {
    renameSync(path, elsewhere());
    symlinkSync('../../x', path);
  }

  it('is that file still, which keeps its time', async () => {
    const first = await publishPages();
    utimesSync(join(site, '14/index.html'), 1, 1);
    expect(await publishPages()).toEqual(first);
    expect(statSync(join(site, '14/index.html')).mtimeMs).toBe(1000);
    expect(readdirSync(folder)).toEqual(['site']);
  });
  it('is found among others that are not', async () => {
    const first = await publishPages();
    const other = await publishPages({ ...pages, '/14/': 'other' });
    expect([...other].filter(([address, inode]) => first.get(address) !== inode)).toHaveLength(1);
    expect(textOf('14/index.html')).toBe('other');
  });
  it.each<[string, string, (path: string) => void]>([
    ['edited by hand, as long as before', '/14/', (path) => writeFileSync(path, 'ENTRIES')],
    ['edited by hand, longer', '/14/', (path) => writeFileSync(path, 'entries and more')],
    ['cut short', '/data/all.json', (path) => truncateSync(path, 5000)],
    ['edited by hand at its end', '/data/all.json', (path) => writeFileSync(path, `${numbers.join('').slice(0, -1)}!`)],
    ['deleted', '/14/', (path) => rmSync(path)],
    // A link's own size, the length of its text, is that of the file.
    ['a link to the same content', '/14/', leadElsewhere],
    ['a link to the same content, of pieces', '/data/few.json', leadElsewhere],
  ])('is made anew where it is %s', async (_, address, change) => {
    const first = await publishPages();
    const path = join(site, fileOfAddress(address));
    change(path);
    const changed = lstatSync(path, { throwIfNoEntry: false })?.ino;
    const after = await publishPages();
    expect(lstatSync(path).isFile()).toBe(true);
    expect(textOf('14/index.html')).toBe('entries');
    expect(textOf('data/all.json')).toBe(numbers.join(''));
    expect(after.get(address)).not.toBe(changed);
    for (const one of Object.keys(pages)) if (one !== address) expect(after.get(one), one).toBe(first.get(one));
  });
  it('is not looked for through a link in place of a folder, which is nobody’s but theirs', async () => {
    await publishPages();
    renameSync(join(site, '14'), elsewhere());
    symlinkSync(elsewhere(), join(site, '14'));
    await expect(publishPages()).rejects.toThrow(NotOurs);
    expect(statSync(join(elsewhere(), 'index.html')).nlink).toBe(1);
  });
  it('is not taken from a folder of its name, which stops the publication', async () => {
    await publishPages();
    rmSync(join(site, '14/index.html'));
    theirs('14/index.html/note.txt');
    await expect(publishPages()).rejects.toThrow(NotOurs);
    expect(textOf('14/index.html/note.txt')).toBe('mine');
  });
});

describe('files of others in a site', () => {
  it('stay as they are, and are named', async () => {
    await publishOnce({ '/': 'old', '/14/': 'entry' });
    theirs('.git/objects/ab/cdef', 'object');
    theirs('CNAME', 'pigments.example');
    theirs('14/note.txt', 'beside a page of ours');
    mkdirSync(join(site, 'empty'));
    symlinkSync('../elsewhere', join(site, 'leads-out'));
    const before = statSync(join(site, 'CNAME'));
    expect([...(await publishOnce({ '/': 'new' }))].sort()).toEqual([
      '.git/',
      '14/note.txt',
      'CNAME',
      'empty/',
      'leads-out',
    ]);
    expect(textOf('index.html')).toBe('new');
    expect(textOf('.git/objects/ab/cdef')).toBe('object');
    expect(textOf('14/note.txt')).toBe('beside a page of ours');
    expect(existsSync(join(site, '14/index.html'))).toBe(false);
    expect(readdirSync(join(site, 'empty'))).toEqual([]);
    expect(readlinkSync(join(site, 'leads-out'))).toBe('../elsewhere');
    // The very same file, not a copy of it.
    expect(statSync(join(site, 'CNAME')).ino).toBe(before.ino);
    expect(readdirSync(folder)).toEqual(['site']);
  });
  it('stay also where they came while the new site was built', async () => {
    await publishOnce({ '/': 'old' });
    const staging = await stage(site);
    staging.write('/', 'new');
    theirs('CNAME');
    // The last moment: everything of theirs has been taken over by now.
    await staging.swap(journal, (swap) => {
      theirs('late.txt');
      theirs('.git/HEAD', 'late too');
      swap();
    });
    expect([textOf('CNAME'), textOf('late.txt'), textOf('.git/HEAD'), textOf('index.html')]).toEqual([
      'mine',
      'mine',
      'late too',
      'new',
    ]);
    expect(readdirSync(folder)).toEqual(['site']);
  });
  it.each([
    ['a file where a page has to be', 'about/index.html'],
    ['a file where a folder has to be', 'about'],
    ['a folder where a file has to be', 'feed.atom/x'],
  ])('%s stops the publication, and nothing is touched', async (_, path) => {
    await publishOnce({ '/': 'old' });
    theirs(path);
    await expect(publishOnce({ '/': 'new', '/about/': 'ours', '/feed.atom': '<feed/>' })).rejects.toThrow(NotOurs);
    expect(textOf(path)).toBe('mine');
    expect(textOf('index.html')).toBe('old');
    expect(readdirSync(folder)).toEqual(['site']);
  });
  it('are what somebody made of a page of ours that is no longer published', async () => {
    await publishOnce({ '/': 'old', '/14/': 'entry', '/15/': 'entry' });
    theirs('14/index.html', 'rewritten by hand');
    expect(await publishOnce({ '/': 'new' })).toEqual(['14/index.html']);
    expect(textOf('14/index.html')).toBe('rewritten by hand');
    expect(existsSync(join(site, '15'))).toBe(false);
  });
  it('are everything but the new pages where the list of ours is damaged', async () => {
    await publishOnce({ '/': 'old', '/14/': 'entry' });
    writeFileSync(join(site, manifestFile), textOf(manifestFile).slice(0, -20));
    expect(await publishOnce({ '/': 'new' })).toEqual(['14/']);
    expect(textOf('index.html')).toBe('new');
    expect(textOf('14/index.html')).toBe('entry');
  });
  it('make a folder theirs, which is never replaced', async () => {
    theirs('thesis.txt');
    await expect(stage(site)).rejects.toThrow(NotOurs);
    expect(textOf('thesis.txt')).toBe('mine');
    expect(readdirSync(folder)).toEqual(['site']);
  });
  it('may be those with which a repository of a site begins', async () => {
    theirs('.git/HEAD', 'ref: refs/heads/main');
    theirs('CNAME', 'pigments.example');
    expect([...(await publishOnce({ '/': 'new' }))].sort()).toEqual(['.git/', 'CNAME']);
    expect(textOf('CNAME')).toBe('pigments.example');
  });
  it('may be none: an empty folder becomes a site', async () => {
    mkdirSync(site);
    await publishOnce({ '/': 'new' });
    expect(existsSync(join(site, manifestFile))).toBe(true);
  });
});

describe('what a killed run left', () => {
  const former = '.site.former-0123456789ab';
  const staging = '.site.staging-ba9876543210';
  const killedStaging = (): void => {
    mkdirSync(join(folder, staging));
    writeFileSync(join(folder, staging, manifestFile), '{');
  };

  it('is healed: a site that was moved aside comes back', async () => {
    await publishOnce({ '/': 'old' });
    renameSync(site, join(folder, former));
    killedStaging();
    heal(site);
    expect(textOf('index.html')).toBe('old');
    expect(readdirSync(folder)).toEqual(['site']);
  });
  it('is cleared away, but for files of others that are only there', async () => {
    await publishOnce({ '/': 'old', '/14/': 'entry' });
    theirs('CNAME', 'old name');
    theirs('.git/HEAD', 'head');
    theirs('.git/kept', 'the same');
    renameSync(site, join(folder, former));
    await publishOnceBeside({ '/': 'new' });
    theirs('CNAME', 'newer name');
    theirs('.git/kept', 'the same');
    utimesSync(join(folder, former, 'CNAME'), 1, 1);
    heal(site);
    expect(textOf('index.html')).toBe('new');
    expect([textOf('CNAME'), textOf('.git/HEAD'), textOf('.git/kept')]).toEqual(['newer name', 'head', 'the same']);
    expect(existsSync(join(site, '14'))).toBe(false);
    expect(readdirSync(folder)).toEqual(['site']);
  });
  /** As the swap of a killed run leaves it: the new site in its place, the former one beside it. */
  const publishOnceBeside = async (pages: Record<string, string>): Promise<void> => {
    const place = site;
    site = join(folder, 'other');
    await publishOnce(pages);
    renameSync(site, place);
    site = place;
  };
  it('is told from what only looks like it', async () => {
    await publishOnce({ '/': 'old' });
    const others = [
      '.site.former',
      '.site.staging',
      '.site.former-0123456789ab',
      '.site.staging-mine',
      '.site.staging-00',
    ];
    for (const name of others) {
      mkdirSync(join(folder, name));
      writeFileSync(join(folder, name, 'precious.txt'), name);
    }
    await publishOnce({ '/': 'new' });
    for (const name of others) expect(readFileSync(join(folder, name, 'precious.txt'), 'utf8')).toBe(name);
  });
  it('is not touched by a run that refuses', async () => {
    theirs('thesis.txt');
    killedStaging();
    mkdirSync(join(folder, '.site.former'));
    await expect(stage(site)).rejects.toThrow(NotOurs);
    expect(readdirSync(folder).sort()).toEqual(['.site.former', staging, 'site']);
  });
  it('is a lock whose owner has died', async () => {
    const dead = { token: 'x', pid: 2 ** 22 + 1, host: (await import('node:os')).hostname(), since: '2026-01-01' };
    writeFileSync(join(folder, '.site.lock'), JSON.stringify(dead));
    await publishOnce({ '/': 'new' });
    expect(readdirSync(folder)).toEqual(['site']);
  });
});

describe('the journal', () => {
  it('is never where a site may be', () => {
    const own = join(folder, 'home/journal');
    mkdirSync(own, { recursive: true });
    symlinkSync('home', join(folder, 'link'));
    for (const path of [own, join(folder, 'home'), folder, '/', join(folder, 'link'), join(folder, 'link/journal')])
      expect(() => refuseJournal(path, own), path).toThrow(NotOurs);
    for (const path of [
      join(own, 'site'),
      join(folder, 'home/site'),
      join(folder, 'home/journal-site'),
      join(folder, 'x/y'),
    ])
      expect(() => refuseJournal(path, own), path).not.toThrow();
  });
});

describe('an address', () => {
  it('has the file that a plain host looks for', () => {
    expect(fileOfAddress('/')).toBe('index.html');
    expect(fileOfAddress('/14/bench/')).toBe('14/bench/index.html');
    expect(fileOfAddress('/404.html')).toBe('404.html');
  });
});

it('nothing is told of what stands after the swap where it is forgotten: no file is looked at for that', async () => {
  const staging = await stage(site, { isForgotten: true });
  staging.write('/', 'one');
  await staging.swap(journal);
  expect(staging.swapped()).toBeUndefined();
});

describe('the site before last', () => {
  let stamps: Stamps | undefined;
  /** Publishes pages by address, those that are the same as before taken over; tells how many were. */
  const publishSame = async (pages: Record<string, string>): Promise<number> => {
    const staging = await stage(site, { stampsOf: () => stamps, spareFrom: 0 });
    let same = 0;
    for (const [address, words] of Object.entries(pages)) {
      if (staging.takeOver({ path: fileOfAddress(address), hash: contentHash(words) })) same += 1;
      else staging.write(address, words);
    }
    await staging.swap(journal);
    const files = [...staging.swapped()!.files].map(([path, { stamp }]) => [path, stamp] as const);
    stamps = { manifest: manifestHash(site)!, files: new Map(files) };
    return same;
  };
  const spare = (): string => {
    const [name, ...more] = readdirSync(folder).filter((one) => one.startsWith('.site.spare-'));
    expect(more).toEqual([]);
    return join(folder, name!);
  };
  const inode = (path: string): number => statSync(path).ino;
  beforeEach(async () => {
    stamps = undefined;
    await publishSame({ '/': 'one', '/14/': 'entry', '/15/': 'other' });
    await publishSame({ '/': 'two', '/14/': 'entry', '/15/': 'other' });
  });

  it('becomes the next one, of which only what differs is made', async () => {
    const of14 = inode(join(spare(), '14'));
    expect(await publishSame({ '/': 'three', '/14/': 'entry', '/16/': 'new' })).toBe(1);
    expect(inode(join(site, '14'))).toBe(of14);
    expect(readdirSync(site).sort()).toEqual([manifestFile, '14', '16', 'index.html'].sort());
    expect([textOf('index.html'), textOf('14/index.html'), textOf('16/index.html')]).toEqual(['three', 'entry', 'new']);
    // What the present site has not went out of the one before it.
    expect(readdirSync(spare()).sort()).toEqual([manifestFile, '14', 'index.html'].sort());
  });
  it('is left as it was while the present one is read, whatever is written into the next', async () => {
    const staging = await stage(site, { stampsOf: () => stamps, spareFrom: 0 });
    for (const address of ['/', '/14/', '/15/']) writerInto(staging.folder)(address, 'written by a thread');
    expect([textOf('index.html'), textOf('14/index.html')]).toEqual(['two', 'entry']);
    staging.abandon();
    expect(readdirSync(folder)).toEqual(['site']);
  });
  it('is not believed: a file that is another than it was is not taken', async () => {
    rmSync(join(spare(), '14/index.html'));
    writeFileSync(join(spare(), '14/index.html'), 'altered');
    rmSync(join(spare(), '15/index.html'));
    await publishSame({ '/': 'two', '/14/': 'entry', '/15/': 'other' });
    expect([textOf('14/index.html'), textOf('15/index.html')]).toEqual(['entry', 'other']);
  });
  it('makes room for a file where it has a folder, and for a folder where it has a file', async () => {
    await publishSame({ '/a/b': 'file below', '/c': 'file' });
    await publishSame({ '/a/b': 'file below', '/c': 'file' });
    await publishSame({ '/a': 'file', '/c/d': 'file below' });
    expect([textOf('a'), textOf('c/d')]).toEqual(['file', 'file below']);
  });
  it('is the next one also where no stamp is known: the same files stay, the rest is made', async () => {
    const [of14, page] = ['14', '14/index.html'].map((path) => inode(join(spare(), path)));
    const of15 = inode(join(site, '15/index.html'));
    // The one has another content, the other the same, but is not the file of the site.
    for (const [path, words] of Object.entries({ '15/index.html': 'oTHER', 'index.html': 'two' })) {
      rmSync(join(spare(), path));
      writeFileSync(join(spare(), path), words);
    }
    const start = inode(join(site, 'index.html'));
    stamps = undefined;
    const staging = await stage(site, { isForgotten: true });
    for (const [address, words] of Object.entries({ '/': 'two', '/14/': 'entry', '/15/': 'other', '/16/': 'new' }))
      staging.write(address, words);
    await staging.swap(journal);
    expect(['index.html', '14/index.html', '15/index.html', '16/index.html'].map(textOf)).toEqual([
      'two',
      'entry',
      'other',
      'new',
    ]);
    expect(inode(join(site, '14'))).toBe(of14);
    expect(['index.html', '14/index.html', '15/index.html'].map((path) => inode(join(site, path)))).toEqual([
      start,
      page,
      of15,
    ]);
    // One stays where one has stayed before.
    expect(readFileSync(join(spare(), '14/index.html'), 'utf8')).toBe('entry');
  });
  it('is not believed without stamps either: what somebody has edited is made anew', async () => {
    writeFileSync(join(site, '14/index.html'), 'ENTRY');
    expect(readFileSync(join(spare(), '14/index.html'), 'utf8')).toBe('ENTRY');
    const staging = await stage(site, { isForgotten: true });
    staging.write('/14/', 'entry');
    await staging.swap(journal);
    expect(textOf('14/index.html')).toBe('entry');
  });
  it('goes where something in it is not ours, and nothing of others goes with it', async () => {
    writeFileSync(join(spare(), 'thesis.txt'), 'mine');
    stamps = undefined;
    await publishSame({ '/': 'two' });
    expect(textOf('thesis.txt')).toBe('mine');
  });
  it('holds nothing of others, so that what they take away does not come back', async () => {
    theirs('CNAME');
    await publishSame({ '/': 'two', '/14/': 'entry' });
    await publishSame({ '/': 'two', '/14/': 'entry' });
    expect(existsSync(join(spare(), 'CNAME'))).toBe(false);
    rmSync(join(site, 'CNAME'));
    await publishSame({ '/': 'two', '/14/': 'entry' });
    expect(existsSync(join(site, 'CNAME'))).toBe(false);
  });
});
