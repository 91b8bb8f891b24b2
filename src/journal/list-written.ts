// How a list at the margin of front matter is written, so that one more item can be added to it.

import type { ListWritten } from '../remarks/rules/dangers.js';

/** @example listWritten('precautions:\n- against: dust', 'precautions') // { how: 'lines', indent: 0 } */
export function listWritten(matter: string, key: string): ListWritten {
  const lines = matter.split(/\r?\n/);
  const at = lines.findIndex((line) => line.startsWith(`${key}:`));
  if (at < 0) return { how: 'not' };
  const told = lines[at]!.slice(key.length + 1)
    .replace(/(?:^|\s)#.*$/, '')
    .trim();
  const below = lines.slice(at + 1).find((line) => line.trim() !== '' && !line.trim().startsWith('#')) ?? '';
  const indent = /^ *(?=-(?:\s|$))/.exec(below)?.[0].length;
  if (told === '' && /^\s*\[/.test(below)) return { how: 'text' };
  if (told === '') return { how: 'lines', indent: indent ?? 2 };
  return { how: told.startsWith('[') ? 'brackets' : 'text' };
}
