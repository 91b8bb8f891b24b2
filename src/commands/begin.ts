// masstone begin: a new entry with the next number, or a new journal in a folder.
import { WrongUse, type Command, type JsonError } from './command.js';

/** The idea of an option: its number, or `14/2`. */
function ideaOf(value: unknown): string | undefined {
  if (value === undefined) return undefined;
  if (!/^[1-9]\d{0,5}(?:\/[1-9]\d{0,2})?$/.test(String(value)))
    throw new WrongUse(`--idea takes the number of an idea, or 14/2, not '${String(value)}'.`);
  return String(value);
}

/** The number of the entry that the new one follows. */
function fromOf(value: unknown): number | undefined {
  if (value === undefined) return undefined;
  const from = Number(value);
  if (!Number.isSafeInteger(from) || from < 1)
    throw new WrongUse(`--from needs the number of an entry, not '${String(value)}'.`);
  return from;
}

export const command: Command = {
  name: 'begin',
  summary: 'a new entry with the next number; --found begins a new journal',
  help: `
Use: masstone begin "Title" [--from N] [--idea N]
     masstone begin --idea N
     masstone begin --found "Journal title" ["Title"]

Writes entries/NNN-title.md with the next free number, today's date, status planned, and the keys of
the format as comments to fill in. Prints the path. Nothing that exists is ever written over.

  --from N     the entry follows entry N: its pigment, reaction, reagents and heating are copied
               (precautions are not: think each danger through again)
  --idea N     the entry takes up idea N, as masstone next and /ideas/ number them, or 14/2; without a
               title it has the idea's words. Finished, it closes the idea
  --found T    founds a journal titled T in the folder: journal.yaml, shelf.yaml and entries/;
               with a further "Title" its first entry is begun too

Examples
  masstone begin "Malachite green, cold against warm"
  masstone begin --from 14 "Malachite green, with ammonium carbonate"
  masstone begin --journal ../my-journal --found "My pigments" "Prussian blue, a first try"

With --json: {number, file, path, founded}; number, file and path only where an entry was begun.
Exit codes: 0 begun, 1 not begun, 2 wrong use.`,
  options: { from: { type: 'string' }, idea: { type: 'string' }, found: { type: 'string' } },
  async run({ values, positionals, journal, json }, { result, aside }) {
    const [title, ...more] = positionals;
    const founding = typeof values['found'] === 'string' ? values['found'] : undefined;
    if (more.length > 0)
      throw new WrongUse(`The title is one text: put quotes around it: masstone begin "${positionals.join(' ')}"`);
    const idea = ideaOf(values['idea']);
    if (title === undefined && founding === undefined && idea === undefined)
      throw new WrongUse('masstone begin needs a title: masstone begin "Malachite green, cold against warm"');
    for (const text of [title, founding])
      if (text !== undefined && (text.trim() === '' || text.length > 200 || /\p{Cc}/u.test(text)))
        throw new WrongUse('A title is one line of words, of at most 200 characters.');
    const from = fromOf(values['from']);
    if (from !== undefined && title === undefined) throw new WrongUse('--from needs the title of the new entry too.');

    const { beginEntry, foundJournal } = await import('../journal/begin.js');
    const refuse = (fault: { code: string; message: string; cure?: string }): 1 => {
      if (json) result(`${JSON.stringify({ error: fault } satisfies JsonError)}\n`);
      else aside(`${fault.message}\n${fault.cure ? `→ ${fault.cure}\n` : ''}`);
      return 1;
    };
    let founded: readonly string[] | undefined;
    if (founding !== undefined) {
      const outcome = foundJournal(journal, founding);
      if (!outcome.ok) return refuse(outcome.fault);
      founded = outcome.value.files;
      if (!json) aside(`A journal is founded: ${founded.join(', ')}. Fill in author and address in journal.yaml.\n`);
    }
    if (title === undefined && idea === undefined) {
      result(json ? `${JSON.stringify({ founded })}\n` : `${journal}\n`);
      return 0;
    }
    const outcome = await beginEntry(journal, title, { from, idea });
    if (!outcome.ok) return refuse(outcome.fault);
    const { number, file, path } = outcome.value;
    result(json ? `${JSON.stringify({ number, file, path, founded })}\n` : `${path}\n`);
    return 0;
  },
};
