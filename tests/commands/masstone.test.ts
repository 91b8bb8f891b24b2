// The command line as a whole: help, wrong use, streams, exit codes.
import { describe, expect, it } from 'vitest';
import { folderOf, masstone } from '../journal-folder.js';

const commands = [
  'publish',
  'proof',
  'read',
  'begin',
  'weigh',
  'foresee',
  'formula',
  'balance',
  'colour',
  'take',
  'blurb',
];

describe('masstone', () => {
  it('takes a word that begins with a dash for what it is, so that it is told what is wrong with it', () => {
    const told = (...words: string[]): unknown => {
      const { status, stdout } = masstone([...words, '--json'], folderOf({}));
      return [status, JSON.parse(stdout).error.code];
    };
    expect(told('balance', '-> H2O')).toEqual([1, 'syntax']);
    expect(told('balance', '-2 H2 + O2 -> H2O')).toEqual([1, 'syntax']);
    const { stdout } = masstone(['weigh', '--json', '--reaction', 'N2 + 3 H2 -> 2 NH3', '--for', '-1 g'], folderOf({}));
    expect(JSON.parse(stdout).error.message).toContain('less than nothing');
  });
  it('lists every command when asked for help', () => {
    const { status, stdout } = masstone(['--help'], folderOf({}));
    expect(status).toBe(0);
    for (const name of commands) expect(stdout).toMatch(new RegExp(`^  ${name} `, 'm'));
  });
  it('exits 2 when called without a command or with one that is not there', () => {
    expect(masstone([], folderOf({})).status).toBe(2);
    const { status, stdout, stderr } = masstone(['pubilsh'], folderOf({}));
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toContain('publish');
  });
  it.each(commands)('%s has help with an example, and refuses an option it does not know', (name) => {
    const help = masstone([name, '--help'], folderOf({}));
    expect(help.status).toBe(0);
    expect(help.stdout).toContain(`masstone ${name}`);
    const wrong = masstone([name, '--no-such-option', '--json'], folderOf({}));
    expect(wrong.status).toBe(2);
    expect(JSON.parse(wrong.stdout)).toMatchObject({ error: { code: 'wrong-use' } });
  });
});
