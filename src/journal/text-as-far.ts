// The text of a file of the journal that is not text as it should be: in another encoding, or with zero bytes in it.
import { decodeText, plainText } from '../colour/instruments/text.js';
import type { Finding } from '../remarks/findings.js';
import type { Folder } from './folder.js';

/**
 * What a file says that was refused, for its dangers alone; undefined where it is no text, or cannot be read at all.
 * @param why what was found when it was refused
 */
export function textAsFar(folder: Folder, file: string, why: Finding): string | undefined {
  if (why.rule !== 'not-utf-8' && why.rule !== 'not-text') return undefined;
  const read = folder.read(file, undefined, decodeText);
  return read.ok ? plainText(read.text) : undefined;
}
