// masstone pack: a journal, or one entry with all that it draws on, handed over as one zip file.
import { existsSync, openSync, readSync, closeSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Pack } from '../site/packing/pack.js';
import { shownPath, WrongUse, type Command } from './command.js';
import { openedFor } from './opened.js';

function numberOf(positionals: readonly string[]): number | undefined {
  const [word, ...more] = positionals;
  if (more.length > 0 || (word !== undefined && !/^[1-9]\d{0,5}$/.test(word)))
    throw new WrongUse('pack takes the number of one entry, or nothing for the whole journal: masstone pack 14.');
  return word === undefined ? undefined : Number(word);
}

/** First bytes of a zip file (APPNOTE.TXT 4.3.7), so that only an earlier pack is written over. */
function isZip(file: string): boolean {
  if (!statSync(file).isFile()) return false;
  const bytes = Buffer.alloc(2);
  const opened = openSync(file, 'r');
  try {
    return readSync(opened, bytes, 0, 2, 0) === 2 && bytes.toString('latin1') === 'PK';
  } finally {
    closeSync(opened);
  }
}

/** What is said of a pack on stderr. */
function said({ entries, photographs, files }: Pack): string {
  const more = entries.length > 1 ? `: ${entries.join(', ')}` : '';
  return [
    `${files.length} files, ${entries.length} ${entries.length === 1 ? 'entry' : 'entries'}${more}.`,
    ...(photographs.length > 0
      ? [
          `${photographs.length} photographs are packed as they are, with the place and the camera that they may ` +
            'carry, because colours are read from them. The published site has none of that.',
        ]
      : []),
    '',
  ].join('\n');
}

export const command: Command = {
  name: 'pack',
  summary: 'a journal, or one entry with all that it draws on, as one zip file',
  help: `
Use: masstone pack [N] [--to FILE]

Writes one zip file: with N that entry and all it takes to reckon it again (settings, the jars that are used, the
entries of its lots and those that it refers to, spectra and photographs), without N the whole journal. Unpacked it
is a journal's folder, on which masstone proof and every other command give the same figures, and an RO-Crate 1.2.
Its hazards and what was foreseen stand in CAUTIONS.txt. The same journal gives the same bytes.

  --to FILE   where it is written (default: entry-14.zip, journal.zip). A file that is no zip file is
              not written over.

  masstone pack 14
  masstone pack --to copperas-lane.zip

With --json: {file, bytes, sha256, entries: [numbers], files: [{path, bytes}], photographs: [paths]}.
Exit codes: 0 packed, 1 not packed, 2 wrong use.`,
  options: { to: { type: 'string' } },
  async run({ values, positionals, journal, json }, streams) {
    const number = numberOf(positionals);
    const to = values.to === undefined ? undefined : String(values.to);
    if (to?.trim() === '') throw new WrongUse('--to takes the name of a file.');
    const refuse = (fault: { code: string; message: string; cure?: string | undefined }): 1 => {
      const { code, message, cure } = fault;
      if (json) streams.result(`${JSON.stringify({ error: { code, message, cure } })}\n`);
      else streams.aside(`${message} ${cure ?? ''}\n`);
      return 1;
    };
    const file = resolve(to ?? (number === undefined ? 'journal.zip' : `entry-${number}.zip`));
    if (existsSync(file) && !isZip(file))
      return refuse({
        code: 'exists',
        message: `${shownPath(file)} is no zip file, and is left as it is.`,
        cure: 'Name another file with --to.',
      });
    const [ending] = /\.[a-z][a-z0-9]*$/i.exec(to ?? '') ?? [];
    if (ending !== undefined && ending.toLowerCase() !== '.zip')
      throw new WrongUse(`pack writes a zip file: masstone pack --to ${to!.slice(0, -ending.length)}.zip`);
    const model = await openedFor(journal, json, streams);
    if (!model) return 1;
    const { packOf } = await import('../site/packing/pack.js');
    const pack = packOf(model, number);
    if (!pack.ok) return refuse(pack.fault);
    const { writeWhole } = await import('../site/whole-file.js');
    const { bytes, sha256, entries, files, photographs } = pack.value;
    writeWhole(file, bytes);
    if (json) {
      const answer = { file, bytes: bytes.length, sha256, entries, files, photographs };
      streams.result(`${JSON.stringify(answer)}\n`);
      return 0;
    }
    streams.aside(said(pack.value));
    streams.result(`${shownPath(file)}\n`);
    return 0;
  },
};
