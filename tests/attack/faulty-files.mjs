// A file layer that fails on purpose: counts what changes something on the disk below a folder and, at a chosen
// change, ends
// the program, as far as the disk can tell, or reports a fault of the system.
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { join } from 'node:path';

/** Thrown in place of every change after the program has been ended. */
export class Killed extends Error {}

/** What changes something, with which of its arguments are paths; `opened` takes an open file. */
const changing = {
  mkdirSync: { paths: [0], creates: true },
  writeFileSync: { paths: [0], creates: true },
  copyFileSync: { paths: [0, 1], creates: true },
  linkSync: { paths: [0, 1], creates: true },
  symlinkSync: { paths: [1], creates: true },
  renameSync: { paths: [0, 1] },
  unlinkSync: { paths: [0] },
  rmdirSync: { paths: [0] },
  rmSync: { paths: [0] },
  chmodSync: { paths: [0] },
  openSync: { paths: [0], creates: true, only: (_path, flags) => flags !== undefined && flags !== 'r' },
  writeSync: { opened: true, creates: true },
  fsyncSync: { opened: true },
  readFileSync: { paths: [0], reads: true },
  readdirSync: { paths: [0], reads: true },
};

const messages = {
  ENOSPC: 'no space left on device',
  EACCES: 'permission denied',
  EROFS: 'read-only file system',
  EBUSY: 'resource busy or locked',
  EMFILE: 'too many open files',
  EIO: 'i/o error',
};

const fault = (code, syscall, path) =>
  Object.assign(new Error(`${code}: ${messages[code]}, ${syscall} '${path}'`), { code, syscall, path, errno: -1 });

/**
 * Puts the layer in place until `restore` is called.
 * @param below only paths below this folder count
 * @param at which change fails, from 1; 0 only counts
 * @param how `killed`, `half` (a file is half written, or half of a folder is gone, then killed), `full` (nothing more can be created from then
 * on), or the
 * code of a fault that happens once
 * @param counts which operations count: a function of name and first argument; default: those that change something
 */
export function faultyFiles({ below, at = 0, how = 'killed', withReads = false }) {
  const real = Object.fromEntries(Object.keys(changing).map((name) => [name, fs[name]]));
  const opened = new Map();
  const names = [];
  let ended = false;
  let full = false;

  const pathOf = ({ paths, opened: isOpened }, args) => {
    if (isOpened || typeof args[0] === 'number') return opened.get(args[0]);
    return paths.map((index) => String(args[index])).find((path) => path.startsWith(below));
  };
  const fails = (name, path, args) => {
    if (how === 'half' && name === 'writeFileSync') {
      const whole = Buffer.from(args[1]);
      real.writeFileSync(args[0], whole.subarray(0, whole.length >> 1), args[2]);
    }
    if (how === 'half' && name === 'rmSync' && args[1]?.recursive) {
      const inIt = fs.existsSync(args[0]) ? real.readdirSync(args[0]).sort() : [];
      for (const one of inIt.slice(0, Math.ceil(inIt.length / 2))) real.rmSync(join(String(args[0]), one), args[1]);
    }
    if (how === 'killed' || how === 'half') {
      ended = true;
      throw new Killed();
    }
    if (how !== 'full') throw fault(how, name.replace('Sync', ''), path);
    full = true;
  };

  for (const [name, kind] of Object.entries(changing)) {
    fs[name] = (...args) => {
      const path = pathOf(kind, args);
      const counted = path !== undefined && (withReads || !kind.reads) && (!kind.only || kind.only(...args));
      if (counted) {
        if (ended) throw new Killed();
        names.push(name);
        if (names.length === at) fails(name, path, args);
        if (full && kind.creates) throw fault('ENOSPC', name.replace('Sync', ''), path);
      }
      const result = real[name](...args);
      if (name === 'openSync') opened.set(result, path);
      return result;
    };
  }
  syncBuiltinESMExports();
  return {
    /** Names of the operations so far. */
    names,
    restore: () => {
      Object.assign(fs, real);
      syncBuiltinESMExports();
    },
  };
}
