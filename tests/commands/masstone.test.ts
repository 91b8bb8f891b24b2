// The command line as a whole: help, wrong use, streams, exit codes.
import { describe, expect, it } from 'vitest';
import { folderOf, masstone, smallJournal } from '../journal-folder.js';

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
  it.each([
    [['publsih'], 'Did you mean publish?'],
    [['color', '--lab', '50 0 0'], 'Did you mean colour?'],
    [['wiegh', '3'], 'Did you mean weigh?'],
    [['weigh', '3', '--fro', '10 g'], "no option '--fro'. Did you mean --for?"],
    [['weigh', '3', '-for', '10 g'], "no option '-for'. Did you mean --for?"],
    [['weigh', '--reagant=NaCl 5 g'], "no option '--reagant'. Did you mean --reagent?"],
    [['proof', '--jurnal', 'x'], 'Did you mean --journal?'],
    [['publish', '--zzzzzz'], "no option '--zzzzzz'. (masstone publish"],
    [['foresee', 'bleach', '--heat'], '--heat takes a value behind it, and there is none.'],
    [['proof', '--new=yes'], '--new takes no value.'],
    [['help', 'nope'], "There is no command 'nope'."],
  ])('says what was probably meant by %j', (words, said) => {
    const { status, stderr } = masstone(words, folderOf({}));
    expect(status).toBe(2);
    expect(stderr).toContain(said);
    expect(stderr).not.toContain('positional');
  });
  it.each(['weigh', 'foresee', 'proof', 'blurb'])('%s takes the file of an entry for its number', (name) => {
    const folder = folderOf(smallJournal());
    const told = (word: string) => {
      const { stdout, stderr } = masstone([name, word, '--journal', 'journal', '--json'], folder);
      return `${stdout}${stderr}`;
    };
    expect(told('entries/0977-green.md')).toBe(told('977'));
    expect(told('977')).not.toBe(told('978'));
  });
  it('tells the help of a command behind `help`, and its version', () => {
    expect(masstone(['help', 'weigh'], folderOf({})).stdout).toMatch(/^Use: masstone weigh/);
    for (const words of [['--version'], ['-V'], ['version']])
      expect(masstone(words, folderOf({})).stdout).toMatch(/^masstone \d+\.\d+\.\d+\n$/);
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
