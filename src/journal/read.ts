// Reads a whole journal from its folder: settings, shelf, entries, pages, register and the files that entries name.
import { readEntry } from './entry-file.js';
import { isDraft, type Entry, type Journal, type Page, type Shelf } from './entry.js';
import { isPublishedFile, openFolder, stampOf, type Folder } from './folder.js';
import { nameRemarks } from './names.js';
import { remark, severityOf, type Remark } from './remarks.js';
import { readRegister, registerFile, registerRemarks, type RegisterReading } from './register.js';
import { leastSettings, readPage, readSettings, readShelf } from './yaml-file.js';
import { checkWhole } from './whole.js';

export interface ReadOptions {
  /** `false` leaves planned and running entries out, and makes links to them remarks. Default: true. */
  readonly drafts?: boolean;
  /** Kept by the caller between readings (`new Map()` at first): files that have not changed are not read again. */
  readonly memory?: Map<string, Remembered>;
}

/** What a reading remembers of one file. */
export interface Remembered {
  readonly stamp: string;
  readonly entry?: Entry;
  readonly page?: Page;
  readonly remarks: readonly Remark[];
}

/** A journal as read; `journal` is missing only when there is no usable journal.yaml. */
export interface Reading {
  readonly journal?: Journal;
  /** Every finding, in order of file and place. */
  readonly remarks: Remark[];
}

/**
 * Reads the journal in `folder`. Never throws for what stands in the folder: what is wrong comes back as remarks.
 * An entry with errors is still in the journal as far as it could be understood (its wrong values left out).
 * @param folder path of the journal, absolute or from the current folder
 * @example const { journal, remarks } = await readJournal('content', { drafts: false });
 */
export async function readJournal(folder: string, options: ReadOptions = {}): Promise<Reading> {
  const opened = openFolder(folder);
  if (!opened) {
    return {
      remarks: [
        remark({
          place: { file: 'journal.yaml', line: 1, column: 1 },
          severity: 'error',
          rule: 'no-journal',
          found: `There is no folder ${folder}.`,
          cure: 'Name the journal’s folder with --journal DIR; `masstone begin --found "Title"` founds one.',
        }),
      ],
    };
  }
  const remarks: Remark[] = [];
  const settings = settingsOf(opened, remarks);
  const shelf = shelfOf(opened, remarks);
  const drafts = options.drafts ?? true;

  const { entries: all, unread } = entriesOf(opened, remarks, options.memory);
  const pages = pagesOf(opened, 'pages', remarks, options.memory);
  const series = pagesOf(opened, 'series', remarks, options.memory);
  const colours = pagesOf(opened, 'colours', remarks, options.memory);
  const { register, lines } = registerOf(opened, remarks);
  const whole = checkWhole({
    entries: all,
    unread,
    pages: [...pages, ...series, ...colours],
    shelf,
    folder: opened,
    drafts,
  });
  const published = [...new Set([...whole.files, ...whole.readings.keys()])].filter(isPublishedFile);
  remarks.push(
    ...whole.remarks,
    ...registerRemarks({ entries: all, register }, unread, lines),
    ...nameRemarks([...pages.map(({ file }) => file), ...published]),
  );

  const leftOut = new Set(drafts ? [] : all.filter(isDraft).map(({ file }) => file));
  const kept = leftOut.size === 0 ? remarks : remarks.filter(({ file }) => !leftOut.has(file));
  kept.sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : a.line - b.line || a.column - b.column));
  if (!settings.settings) return { remarks: kept };
  return {
    journal: {
      folder: opened.root,
      settings: settings.settings,
      settingsText: settings.text,
      shelf,
      entries: all.filter(({ file }) => !leftOut.has(file)),
      series,
      colours,
      pages,
      register,
      readings: whole.readings,
      files: whole.files,
    },
    remarks: kept,
  };
}

/** Whether publication must stop. */
export const hasErrors = (remarks: readonly Remark[]): boolean => remarks.some((one) => severityOf(one) === 'error');

function settingsOf(folder: Folder, remarks: Remark[]): { settings?: Journal['settings']; text: string } {
  if (folder.find('journal.yaml').kind === 'missing') {
    remarks.push(
      remark({
        place: { file: 'journal.yaml', line: 1, column: 1 },
        severity: 'error',
        rule: 'no-journal',
        found: 'There is no journal.yaml, so this folder is not a journal yet.',
        cure: `Run \`masstone begin --found "Title"\` here, or write a file journal.yaml with ${leastSettings
          .trim()
          .split('\n')
          .map((line) => `\`${line}\``)
          .join(', ')}.`,
      }),
    );
    return { text: '' };
  }
  const file = folder.read('journal.yaml');
  if (!file.ok) {
    remarks.push(file.remark);
    return { text: '' };
  }
  const { settings, remarks: more } = readSettings('journal.yaml', file.text);
  remarks.push(...more);
  return { settings, text: file.text };
}

function shelfOf(folder: Folder, remarks: Remark[]): Shelf {
  if (folder.find('shelf.yaml').kind === 'missing') return { file: 'shelf.yaml', text: '', reagents: new Map() };
  const file = folder.read('shelf.yaml');
  if (!file.ok) {
    remarks.push(file.remark);
    return { file: 'shelf.yaml', text: '', reagents: new Map() };
  }
  const { shelf, remarks: more } = readShelf('shelf.yaml', file.text);
  remarks.push(...more);
  return shelf;
}

/** Markdown files of a folder of the journal; what looks as if it were meant to be one is a remark. */
function markdownIn(folder: Folder, below: string, remarks: Remark[]): string[] {
  const { names, folders, remarks: more } = folder.list(below);
  remarks.push(...more);
  for (const name of folders) {
    const inner = folder.list(`${below}/${name}`).names.find((one) => one.endsWith('.md'));
    if (inner !== undefined)
      remarks.push(
        remark({
          place: { file: `${below}/${name}/${inner}`, line: 1, column: 1 },
          severity: 'warning',
          rule: 'not-read',
          found: `Markdown in a folder below ${below} is not read.`,
          cure: `Move it up into ${below}.`,
        }),
      );
  }
  for (const name of names) {
    if (/\.(?:markdown|mdx?|txt)$/i.test(name) && !name.endsWith('.md'))
      remarks.push(
        remark({
          place: { file: `${below}/${name}`, line: 1, column: 1 },
          severity: 'warning',
          rule: 'not-read',
          found: 'Only files whose names end in .md are read here.',
          cure: `Rename it ${name.replace(/\.[^.]*$/, '.md')}.`,
        }),
      );
  }
  return names.filter((name) => name.endsWith('.md')).map((name) => `${below}/${name}`);
}

/** One file through the memory: read again only when it has changed. */
function remembered(
  folder: Folder,
  file: string,
  memory: ReadOptions['memory'],
  read: (text: string) => Omit<Remembered, 'stamp'>,
): Omit<Remembered, 'stamp'> {
  const found = memory?.has(file) ? folder.find(file) : undefined;
  const before = memory?.get(file);
  if (before && found?.kind === 'file' && stampOf(found.stats) === before.stamp) return before;
  const text = folder.read(file);
  if (!text.ok) {
    memory?.delete(file);
    return { remarks: [text.remark] };
  }
  const reading = read(text.text);
  memory?.set(file, { ...reading, stamp: text.stamp });
  return reading;
}

function entriesOf(
  folder: Folder,
  remarks: Remark[],
  memory: ReadOptions['memory'],
): { entries: Entry[]; unread: string[] } {
  const entries: Entry[] = [];
  const unread: string[] = [];
  const files = markdownIn(folder, 'entries', remarks);
  if (files.length === 0)
    remarks.push(
      remark({
        place: { file: 'entries', line: 1, column: 1 },
        severity: 'warning',
        rule: 'no-entries',
        found: 'There are no entries yet.',
        cure: 'Run `masstone begin "Title"` to begin one.',
      }),
    );
  for (const file of files) {
    const { entry, remarks: more } = remembered(folder, file, memory, (text) => readEntry(file, text));
    remarks.push(...more);
    if (entry) entries.push(entry);
    else unread.push(file);
  }
  entries.sort((a, b) => a.number - b.number || (a.file < b.file ? -1 : 1));
  return { entries, unread };
}

function pagesOf(folder: Folder, below: string, remarks: Remark[], memory: ReadOptions['memory']): Page[] {
  return markdownIn(folder, below, remarks).flatMap((file) => {
    const { page, remarks: more } = remembered(folder, file, memory, (text) => readPage(file, text));
    remarks.push(...more);
    return page ? [page] : [];
  });
}

function registerOf(folder: Folder, remarks: Remark[]): Omit<RegisterReading, 'remarks'> {
  const none = { register: [], lines: new Map() };
  if (folder.find(registerFile).kind === 'missing') return none;
  const file = folder.read(registerFile);
  if (!file.ok) {
    remarks.push(file.remark);
    return none;
  }
  const { remarks: more, ...reading } = readRegister(file.text);
  remarks.push(...more);
  return reading;
}
