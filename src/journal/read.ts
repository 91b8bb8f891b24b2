// Reads a whole journal from its folder: settings, shelf, entries, pages, register and the files that entries name.
import { keptNowhere, type Kept } from '../kept/kept.js';
import type { TextsOnDisk } from '../kept/texts-on-disk.js';
import { Findings, remarksFrom } from '../remarks/findings.js';
import { severityOf, type Place, type Remark } from '../remarks/remark.js';
import type { Threads } from '../threads.js';
import { isDraft, type Entry, type Journal, type Page, type Shelf } from './entry.js';
import { AskedFolder } from './asked-folder.js';
import { ReadBeside } from './in-threads.js';
import { readEntryOnce } from './kept-entry.js';
import { TextsAside } from './text-aside.js';
import { textAsFar } from './text-as-far.js';
import { isPublishedFile, openFolder, stampOf, type Folder } from './folder.js';
import { nameRemarks } from './names.js';
import { readRegister, registerFile, registerRemarks, type RegisterReading } from './register.js';
import { leastSettings, readPage, readSettings, readShelf, settingsUnread, type SettingsReading } from './yaml-file.js';
import { freeNumberFor } from './catalogue.js';
import { crossCheck } from './cross-checks.js';
import { withPhotographs } from './photographs.js';
import { remarksOn } from './place.js';
import { withJars } from './references.js';

export interface ReadOptions {
  /** `false` leaves planned and running entries out, and makes links to them remarks. Default: true. */
  readonly drafts?: boolean;
  /** Kept by the caller between readings (`new Map()` at first): files that have not changed are not read again. */
  readonly memory?: Map<string, Remembered>;
  /** Takes note of what was read. */
  readonly notes?: ReadingNotes;
  /** Texts of entries are put aside, on the disk, and read when they are asked for. */
  readonly textsAside?: boolean;
  /** What was made of the same before: texts of entries that were read once are not parsed again. */
  readonly kept?: Kept;
  /** Those that have begun read a share of the entries; they answer `read`. */
  readonly threads?: Pick<Threads, 'all'>;
}

/** What was read for a journal, so that it can be told whether it is still the same. */
export interface ReadingNotes {
  /** Everything that was asked of the folder. */
  asked?: AskedFolder;
  /** Texts of the files of entries that were read, by file. */
  readonly texts: Pick<TextsOnDisk, 'set' | 'has' | 'get' | typeof Symbol.iterator>;
  /** Entries that are left out as drafts. */
  leftOut?: readonly Entry[];
}

/** What a reading remembers of one file. */
export interface Remembered {
  readonly stamp: string;
  readonly entry?: Entry;
  /** In its place, as far as it could be read. */
  readonly inPart?: Entry;
  readonly page?: Page;
  readonly remarks: readonly Remark[];
}

/** A journal as read; `journal` is missing only when there is no usable journal.yaml. */
export interface Reading {
  readonly journal?: Journal;
  /** Every finding, in order of file and place. */
  readonly remarks: Remark[];
}

/** What single files of a journal were read as last, by the memory of their readings. */
const textsBefore = new WeakMap<object, ReadonlyMap<string, { readonly text: string; readonly read: unknown }>>();

/** Entries read in part whose own number another has: such an entry is not among those whose numbers are compared. */
function numbersTwice(
  inPart: readonly Entry[],
  entries: readonly Entry[],
  unread: readonly string[],
  register: readonly string[],
): readonly Remark[] {
  const all = [...entries, ...inPart];
  const freeNumber = freeNumberFor(all, [...all.map(({ file }) => file), ...unread], register);
  return inPart.flatMap((entry) => {
    const { number, file, matter } = entry;
    const other = all.find((one) => one.number === number && one.file !== file);
    // A number that stands in by the file's name is nobody's own.
    if (!other || !/^number\s*:/im.test(matter)) return [];
    const findings = new Findings();
    findings.add('duplicate-number', ['number'], {
      number,
      free: freeNumber(file),
      other: other.file,
      actual: String(number),
    });
    return remarksOn(entry, findings.all);
  });
}

/** A folder being read: what was found so far, and what is remembered of the last time. */
class FolderReading {
  readonly findings = new Findings();
  /** Of files that were read, each with its places. */
  readonly remarks: Remark[] = [];

  constructor(
    readonly folder: Folder,
    private readonly memory: ReadOptions['memory'],
    private readonly kept: Kept = keptNowhere,
    private readonly notes?: ReadingNotes,
    private readonly aside?: TextsAside,
  ) {}

  /** Files that are no text as it should be, and were read in part only. */
  private readonly refused = new Set<string>();

  /** Text of a file that may be missing, as far as it can be read; why it can't be is found. */
  private text(file: string): string | undefined {
    if (this.folder.find(file).kind === 'missing') return undefined;
    const read = this.folder.read(file);
    if (read.ok) return read.text;
    this.findings.take(read.finding);
    this.refused.add(file);
    return textAsFar(this.folder, file, read.finding);
  }

  /** Takes what was found in a file, unless it is no text at all: that is said, and is all there is to mend yet. */
  private told(file: string, remarks: readonly Remark[]): void {
    if (!this.refused.has(file)) this.remarks.push(...remarks);
  }

  /** What a text says: read again only when it is another than the last time. */
  private once<Read>(file: string, text: string, read: (file: string, text: string) => Read): Read {
    const { memory } = this;
    if (!memory) return read(file, text);
    const before = textsBefore.get(memory)?.get(file);
    if (before?.text === text) return before.read as Read;
    const now = read(file, text);
    textsBefore.set(memory, new Map([...(textsBefore.get(memory) ?? []), [file, { text, read: now }]]));
    return now;
  }

  settings(): SettingsReading & { readonly text: string } {
    if (this.folder.find(settingsFile).kind === 'missing')
      this.findings.add('no-journal', placeOfFile(settingsFile), { least: leastSettings.trim().split('\n') });
    const text = this.text(settingsFile);
    if (text === undefined) return { ...settingsUnread(), text: '' };
    const { remarks, ...read } = this.once(settingsFile, text, readSettings);
    this.told(settingsFile, remarks);
    return { ...read, text };
  }

  shelf(): Shelf {
    const text = this.text(shelfFile);
    if (text === undefined) return noShelf;
    const { shelf, remarks } = this.once(shelfFile, text, readShelf);
    this.told(shelfFile, remarks);
    return shelf;
  }

  /** Whether nothing of the shelf was left out for a fault. */
  isShelfWhole({ file }: Shelf): boolean {
    if (this.refused.has(file)) return false;
    return !this.remarks.some((one) => one.file === file && severityOf(one) === 'error');
  }

  register(): Pick<RegisterReading, 'register' | 'lines'> {
    const text = this.text(registerFile);
    if (text === undefined) return { register: [], lines: new Map() };
    const { remarks, ...reading } = this.once(registerFile, text, (_, written) => readRegister(written));
    this.told(registerFile, remarks);
    return reading;
  }

  /** @param beside reads some of them in other threads */
  async entries(beside: ReadBeside | undefined): Promise<{
    readonly entries: readonly Entry[];
    readonly unread: readonly string[];
    readonly inPart: readonly Entry[];
  }> {
    const entries: Entry[] = [];
    const unread: string[] = [];
    const readInPart: Entry[] = [];
    const files = this.markdownIn('entries');
    if (files.length === 0) this.findings.add('no-entries', placeOfFile('entries'), {});
    const readings = new Map<string, FileReading>();
    const take = (file: string): void => {
      const reading = this.remembered(file, (text) => {
        this.notes?.texts.set(file, text);
        return readEntryOnce(file, text, beside?.kept ?? this.kept);
      });
      readings.set(file, this.putAside(reading));
    };
    if (beside) for await (const file of beside.inTurn(files)) take(file);
    else for (const file of files) take(file);
    for (const file of files) {
      const { entry, inPart, remarks } = readings.get(file)!;
      this.remarks.push(...remarks);
      if (entry) entries.push(entry);
      else unread.push(file);
      if (inPart) readInPart.push(inPart);
    }
    entries.sort((a, b) => a.number - b.number || (a.file < b.file ? -1 : 1));
    return { entries, unread, inPart: readInPart };
  }

  /** A reading without the texts that are put aside. */
  private putAside(reading: FileReading): FileReading {
    const { entry } = reading;
    return this.aside && entry ? { ...reading, entry: this.aside.put(entry) } : reading;
  }

  pages(below: string): { readonly pages: readonly Page[]; readonly unread: readonly string[] } {
    const pages: Page[] = [];
    const unread: string[] = [];
    for (const file of this.markdownIn(below)) {
      const { page, remarks } = this.remembered(file, (text) => readPage(file, text));
      this.remarks.push(...remarks);
      if (page) pages.push(page);
      else unread.push(file);
    }
    return { pages, unread };
  }

  /** Markdown files of a folder of the journal; what looks as if it were meant to be one is found. */
  private markdownIn(below: string): string[] {
    const { names, folders, findings } = this.folder.list(below);
    for (const finding of findings) this.findings.take(finding);
    for (const name of folders) {
      const inner = this.folder.list(`${below}/${name}`).names.find((one) => one.endsWith('.md'));
      if (inner !== undefined) this.findings.add('not-read', placeOfFile(`${below}/${name}/${inner}`), { below });
    }
    for (const name of names.filter(almostMarkdown))
      this.findings.add('not-read', placeOfFile(`${below}/${name}`), {
        name: name.replace(/(?:\.md)?\.[^.]*$/, '.md'),
      });
    return names.filter((name) => name.endsWith('.md')).map((name) => `${below}/${name}`);
  }

  /** One file through the memory: read again only when it has changed. */
  private remembered(file: string, read: (text: string) => FileReading): FileReading {
    return this.known(file) ?? this.readAnew(file, read);
  }

  private known(file: string): Remembered | undefined {
    const before = this.memory?.get(file);
    const there = before && this.folder.find(file);
    return there?.kind === 'file' && stampOf(there.stats) === before?.stamp ? before : undefined;
  }

  private readAnew(file: string, read: (text: string) => FileReading): FileReading {
    const text = this.folder.read(file);
    if (!text.ok) {
      this.memory?.delete(file);
      this.findings.take(text.finding);
      const asFar = textAsFar(this.folder, file, text.finding);
      if (asFar === undefined) return { remarks: [] };
      const { entry, inPart = entry } = read(asFar);
      return { ...(inPart && { inPart }), remarks: [] };
    }
    const reading = read(text.text);
    this.memory?.set(file, { ...reading, stamp: text.stamp });
    return reading;
  }
}

type FileReading = Omit<Remembered, 'stamp'>;

const settingsFile = 'journal.yaml';
const shelfFile = 'shelf.yaml';
const noShelf: Shelf = { file: shelfFile, text: '', reagents: new Map() };
/** Names of files that were probably meant as Markdown of the journal. */
const almostMarkdown = (name: string): boolean => /\.(?:markdown|mdx?|txt)$/i.test(name) && !name.endsWith('.md');

const placeOfFile = (file: string): Place => ({ file, line: 1, column: 1 });

function byPlace(a: Remark, b: Remark): number {
  if (a.file !== b.file) return a.file < b.file ? -1 : 1;
  return a.line - b.line || a.column - b.column;
}

function noFolder(folder: string): Reading {
  const findings = new Findings();
  findings.add('no-journal', placeOfFile(settingsFile), { folder });
  return { remarks: remarksFrom(findings.all) };
}

const besideOf = (folder: string, { kept = keptNowhere, threads }: ReadOptions): ReadBeside | undefined =>
  threads && threads.all.length > 0 ? new ReadBeside(folder, kept, threads.all) : undefined;

/**
 * Reads the journal in `folder`. Never throws for what stands in the folder: what is wrong comes back as remarks.
 * An entry with errors is still in the journal as far as it could be understood (its wrong values left out).
 * @param folder path of the journal, absolute or from the current folder
 * @example const { journal, remarks } = await readJournal('content', { drafts: false });
 */
export async function readJournal(folder: string, options: ReadOptions = {}): Promise<Reading> {
  const { notes } = options;
  const there = openFolder(folder);
  if (!there) return noFolder(folder);
  const asked = notes && new AskedFolder(there);
  if (notes) notes.asked = asked;
  const opened = asked ?? there;
  const aside = options.textsAside ? new TextsAside() : undefined;
  const reading = new FolderReading(opened, options.memory, options.kept, notes, aside);
  const drafts = options.drafts ?? true;
  const { settings, stoodIn, text: settingsText } = reading.settings();
  const shelf = reading.shelf();
  const { entries: all, unread, inPart } = await reading.entries(besideOf(folder, options));
  const { pages, unread: unreadPages } = reading.pages('pages');
  const [{ pages: series }, { pages: colours }] = [reading.pages('series'), reading.pages('colours')];
  const { register, lines } = reading.register();
  const checked = crossCheck(
    {
      entries: all,
      unread,
      pages: [...pages, ...series, ...colours],
      shelf,
      folder: opened,
      register,
      drafts,
    },
    options,
  );
  const published = [...new Set([...checked.files, ...checked.readings.keys()])].filter(isPublishedFile);
  const remarks = [
    ...reading.remarks,
    ...remarksFrom(reading.findings.all),
    ...checked.remarks,
    ...numbersTwice(inPart, all, unread, register),
    ...registerRemarks(
      { entries: all, register, pages, shelf },
      [...unread, ...unreadPages, ...(reading.isShelfWhole(shelf) ? [] : [shelf.file])],
      lines,
    ),
    ...nameRemarks([...pages.map(({ file }) => file), ...published]),
  ];
  const leftOut = new Set(drafts ? [] : all.filter(isDraft).map(({ file }) => file));
  if (notes) notes.leftOut = all.filter(({ file }) => leftOut.has(file));
  const kept = remarks.filter(({ file }) => !leftOut.has(file)).sort(byPlace);
  // A folder with neither settings nor entries is no journal.
  if (settingsText === '' && all.length + inPart.length === 0) return { remarks: kept };
  return {
    journal: {
      folder: opened.root,
      settings,
      settingsText,
      ...(stoodIn.length > 0 && { stoodIn }),
      shelf,
      entries: all
        .filter(({ file }) => !leftOut.has(file))
        .map((entry) => withJars(withPhotographs(entry, checked.missing), shelf)),
      ...(unread.length > 0 && { unread }),
      ...(inPart.length > 0 && { inPart: inPart.map((entry) => withJars(entry, shelf)) }),
      series,
      colours,
      pages,
      register,
      readings: checked.readings,
      files: checked.files,
    },
    remarks: kept,
  };
}

/** Whether publication must stop. */
export const hasErrors = (remarks: readonly Remark[]): boolean => remarks.some((one) => severityOf(one) === 'error');
