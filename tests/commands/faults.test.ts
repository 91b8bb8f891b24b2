// What the system refuses is told as what, where and what to do; never a stack trace; as JSON wherever that was asked
// for.
import { spawnSync } from 'node:child_process';
import { closeSync, existsSync, openSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { Refused, Stopped, toldOf, traceOf } from '../../src/commands/faults.js';
import { folderOf, masstone, program, smallJournal } from '../journal-folder.js';

const refusal = (code: string, more: Partial<NodeJS.ErrnoException> = {}): NodeJS.ErrnoException =>
  Object.assign(new Error(`${code}: as the system says it`), { code, syscall: 'open', ...more });

describe('what the system refuses', () => {
  it.each([
    ['ENOSPC', 'no-space', /no space.*site.*Free some space/],
    ['EDQUOT', 'no-space', /no space/],
    ['EACCES', 'no-permission', /no permission.*site.*permissions/],
    ['EPERM', 'no-permission', /no permission/],
    ['ENOTDIR', 'not-a-folder', /is a file, where a folder should be/],
    ['EISDIR', 'not-a-file', /folder where a file should be/],
    ['EBUSY', 'busy', /using site/],
    ['ETXTBSY', 'busy', /using/],
    ['EROFS', 'read-only', /can only be read/],
    ['EMFILE', 'too-many-files', /Too many files/],
    ['ENFILE', 'too-many-files', /Too many files/],
    ['EPIPE', 'output-closed', /has ended/],
    ['ENOENT', 'missing', /no such file/],
    ['EXDEV', 'other-disk', /another disk/],
    ['EIO', 'disk-fault', /copy of your journal/],
    ['ELOOP', 'loop', /link/],
    ['ENAMETOOLONG', 'name-too-long', /longer/],
    ['ENOMEM', 'no-memory', /memory/],
    ['ESTALE', 'system', /refused \(ESTALE\): site/],
  ])('%s is a sentence: %s', (code, name, words) => {
    const { code: told, message, cure } = toldOf(refusal(code, { path: join(process.cwd(), 'site') }));
    expect(told).toBe(name);
    expect(`${message} ${cure}`).toMatch(words);
    expect(message).toMatch(/^[A-Za-z].*\.$/);
    expect(cure).toMatch(/^[A-Z].*\.$/);
    expect(`${message} ${cure}`).not.toMatch(/as the system says it|undefined|Error/);
  });

  it('names what a maker knows, and not the folder that a publication builds in', () => {
    const at = (path: string): string => toldOf(refusal('ENOSPC', { path: join(process.cwd(), path) })).message;
    expect(at('.site.staging-0123456789ab/14/index.html')).toContain(' site/14/index.html.');
    expect(at('journal/.register.txt.0123456789ab')).toContain(' journal/register.txt.');
    expect(at('.my.site.lock')).toContain(' my.site.');
    expect(at('.gitignore')).toContain(' .gitignore.');
  });

  it('is told with what became of what was there, and keeps its trace', () => {
    const stopped = new Stopped(refusal('ENOSPC'), 'The old one is as it was.');
    expect(toldOf(stopped).message).toMatch(/no space.*The old one is as it was\.$/);
    expect(traceOf(stopped)).toMatch(/faults\.test\.ts[^]*because of Error: ENOSPC/);
    expect(toldOf(new Refused({ code: 'x', message: 'No.', cure: 'Yes.' }))).toEqual({
      code: 'x',
      message: 'No.',
      cure: 'Yes.',
    });
  });

  it('is told from a fault of our own, which says where to report it', () => {
    for (const error of [
      new TypeError('x is not a function'),
      refusal('ERR_INVALID_ARG_TYPE', { syscall: undefined }),
      'words',
    ]) {
      const { code, cure } = toldOf(error);
      expect(code).toBe('fault');
      expect(cure).toMatch(/--debug.*report/);
    }
  });
});

/** A program that is loaded first and makes one function of the system fail. */
const failing = (name: string, error: string): string =>
  `import fs from 'node:fs'; import { syncBuiltinESMExports } from 'node:module';
const real = fs.${name};
fs.${name} = (...given) => { if (String(given[0]).includes('staging')) throw ${error}; return real(...given); };
syncBuiltinESMExports();`;

/** Publishes with such a program. */
function publishWith(first: string, ...words: string[]) {
  const folder = folderOf({ ...smallJournal(), 'first.mjs': first });
  const all = ['--import', './first.mjs', program, ...words, 'publish', '--journal', 'journal', '--no-search'];
  const run = spawnSync(process.execPath, all, { cwd: folder, encoding: 'utf8', timeout: 60_000 });
  return { ...run, folder };
}

const noSpace =
  `Object.assign(new Error('ENOSPC: no space left on device, open'), { code: 'ENOSPC', syscall: 'open', path: ` +
  'given[0] })';

describe('a command that is stopped', () => {
  it('says so in a sentence, exit 1, and leaves nothing', () => {
    const { status, stdout, stderr, folder } = publishWith(failing('writeFileSync', noSpace));
    expect([status, stdout]).toEqual([1, '']);
    expect(stderr).toMatch(
      /^There is no space left on the disk for site\S*\. The site that was there is as it was\. Free/m,
    );
    expect(stderr).not.toMatch(/ at .*\.js|node:|Error/);
    expect(existsSync(join(folder, 'site'))).toBe(false);
  });
  it.each([[['--json']], [['--json', '--debug']]])(
    'with %j before the command it is one JSON object on stdout',
    (words) => {
      const { status, stdout, stderr } = publishWith(failing('writeFileSync', noSpace), ...words);
      expect(status).toBe(1);
      expect(JSON.parse(stdout)).toMatchObject({ error: { code: 'no-space' } });
      expect(/ at .*\.c?js/.test(stderr)).toBe(words.includes('--debug'));
    },
  );
  it('by a fault of our own says where to report it, and prints the trace only with --debug', () => {
    const plain = publishWith(failing('mkdirSync', `new TypeError('a programmer was careless')`));
    expect(plain.status).toBe(1);
    expect(plain.stderr).toMatch(/a programmer was careless\. .*--debug/);
    expect(plain.stderr).not.toMatch(/ at .*\.c?js/);
    const traced = publishWith(failing('mkdirSync', `new TypeError('a programmer was careless')`), '--debug');
    expect(traced.stderr).toMatch(/TypeError: a programmer was careless\n +at .*\.mjs/);
  });
  it.runIf(process.platform !== 'win32')(
    'by a search indexer that ends, or is not there, says so in a sentence',
    () => {
      for (const indexer of ['/bin/false', '/no/such/indexer']) {
        const folder = folderOf(smallJournal());
        const env = { ...process.env, PAGEFIND_EXTENDED_BINARY_PATH: indexer };
        const words = [program, 'publish', '--journal', 'journal', '--json'];
        const { status, stdout, stderr } = spawnSync(process.execPath, words, { cwd: folder, encoding: 'utf8', env });
        expect(status).toBe(1);
        expect(JSON.parse(stdout)).toMatchObject({
          error: { code: 'search', cure: expect.stringContaining('--no-search') as string },
        });
        expect(stderr).not.toMatch(/ at .*\.js|Error/);
        expect(readdirSync(folder)).toEqual(['journal']);
      }
    },
  );
  it('by what nobody awaited says so too', () => {
    const { status, stdout } = publishWith(
      failing('mkdirSync', `setTimeout(() => { throw new Error('late'); }) && new Error('soon')`),
      '--json',
    );
    expect(status).toBe(1);
    expect(JSON.parse(stdout)).toMatchObject({ error: { code: 'fault' } });
  });
  it('by a site that another is publishing waits, and then says whose it is', () => {
    const folder = folderOf(smallJournal());
    const other = { token: 'other', pid: process.pid, host: 'another-machine', since: '2026-03-14T12:01:00.000Z' };
    writeFileSync(join(folder, '.site.lock'), JSON.stringify(other));
    const first = 'globalThis.Date.now = ((now) => { let at = now(); return () => (at += 20_000); })(Date.now);';
    writeFileSync(join(folder, 'first.mjs'), first);
    const words = ['--import', './first.mjs', program, 'publish', '--journal', 'journal', '--json'];
    const { status, stdout, stderr } = spawnSync(process.execPath, words, { cwd: folder, encoding: 'utf8' });
    expect(stderr).toMatch(/under way \(process \d+ on another-machine, since 12:01 UTC\); waiting/);
    expect(status).toBe(1);
    expect(JSON.parse(stdout)).toMatchObject({
      error: { code: 'under-way', cure: expect.stringContaining('.site.lock') as string },
    });
  });
});

describe('output that cannot be written', () => {
  it.runIf(existsSync('/dev/full'))('because the disk is full is told, exit 1', () => {
    const full = openSync('/dev/full', 'w');
    const { status, stderr } = spawnSync(process.execPath, [program, 'formula', 'CuO'], {
      stdio: ['ignore', full, 'pipe'],
      encoding: 'utf8',
    });
    closeSync(full);
    expect(status).toBe(1);
    expect(stderr).toMatch(/could not be written.*no space/);
    expect(stderr).not.toMatch(/ at .*\.c?js/);
  });
  it.runIf(process.platform !== 'win32')(
    'because its reader has gone does not keep a site from being published',
    () => {
      const folder = folderOf(smallJournal());
      const words = `"${process.execPath}" "${program}" publish --journal journal --no-search 2>/dev/null | true`;
      spawnSync('sh', ['-c', words], { cwd: folder });
      expect(existsSync(join(folder, 'site/1/index.html'))).toBe(true);
    },
  );
});

describe('options that every command takes', () => {
  it('may stand before it', () => {
    const folder = folderOf(smallJournal());
    const told = (...words: string[]): unknown => {
      const { status, stdout } = masstone(words, folder);
      return [status, (JSON.parse(stdout) as { error?: { code: string } }).error?.code];
    };
    expect(told('--json', 'formula', 'CuO')).toEqual([0, undefined]);
    expect(told('--json', '--journal', 'journal', 'proof')).toEqual([0, undefined]);
    expect(told('--journal=journal', '--json', 'proof')).toEqual([0, undefined]);
    expect(told('--json', 'pubilsh')).toEqual([2, 'wrong-use']);
    expect(told('--json')).toEqual([2, 'wrong-use']);
    expect(told('--json', '--debug', 'formula', 'CuO', '--none')).toEqual([2, 'wrong-use']);
    expect(told('--json', 'publish', '--journal', 'journal', '--to', 'journal')).toEqual([2, 'wrong-use']);
    expect(told('--json', 'publish', '--journal', 'journal', '--to', 'journal/shelf.yaml/x')).toEqual([
      1,
      'not-a-folder',
    ]);
  });
});
