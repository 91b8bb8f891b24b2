// Atomic publication: the old site stays whole until the new one is.
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { fileOfAddress, heal, marker, NotOurs, stage } from '../../src/site/staging.js';

let folder: string;
let site: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'masstone-staging-'));
  site = join(folder, 'site');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const publishOnce = (words: string): void => {
  const staging = stage(site);
  staging.write('/', words);
  staging.swap();
};

describe('a staged site', () => {
  it('takes the place of the old one only at the swap', () => {
    publishOnce('old');
    const staging = stage(site);
    staging.write('/', 'new');
    staging.write('/14/', 'entry');
    expect(readFileSync(join(site, 'index.html'), 'utf8')).toBe('old');
    staging.swap();
    expect(readFileSync(join(site, 'index.html'), 'utf8')).toBe('new');
    expect(readFileSync(join(site, '14', 'index.html'), 'utf8')).toBe('entry');
    expect(readdirSync(folder)).toEqual(['site']);
  });
  it('leaves nothing behind when it is abandoned', () => {
    publishOnce('old');
    const staging = stage(site);
    staging.write('/', 'half');
    staging.abandon();
    expect(readFileSync(join(site, 'index.html'), 'utf8')).toBe('old');
    expect(readdirSync(folder)).toEqual(['site']);
  });
  it('does not keep pages of the old site', () => {
    publishOnce('old');
    writeFileSync(join(site, 'gone.html'), 'x');
    publishOnce('new');
    expect(existsSync(join(site, 'gone.html'))).toBe(false);
  });
  it('is put back by the next run if the swap was cut off in the middle', () => {
    publishOnce('old');
    renameSync(site, join(folder, '.site.former'));
    mkdirSync(join(folder, '.site.staging'));
    heal(site);
    expect(readFileSync(join(site, 'index.html'), 'utf8')).toBe('old');
    expect(readdirSync(folder)).toEqual(['site']);
  });
  it('never replaces a folder that somebody else filled', () => {
    mkdirSync(site);
    writeFileSync(join(site, 'thesis.txt'), 'mine');
    expect(() => stage(site)).toThrow(NotOurs);
    expect(readFileSync(join(site, 'thesis.txt'), 'utf8')).toBe('mine');
  });
  it('may take an empty folder', () => {
    mkdirSync(site);
    publishOnce('new');
    expect(existsSync(join(site, marker))).toBe(true);
  });
});

describe('an address', () => {
  it('has the file that a plain host looks for', () => {
    expect(fileOfAddress('/')).toBe('index.html');
    expect(fileOfAddress('/14/bench/')).toBe('14/bench/index.html');
    expect(fileOfAddress('/404.html')).toBe('404.html');
  });
});
