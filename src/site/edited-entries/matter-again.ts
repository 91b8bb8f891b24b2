// A publication after an edit of the front matter of a few entries: the journal is taken up as it was put down, joined
// and laid out in the ordinary way, and only what is made of something else than before is made; all other files are
// left where they are in the site before. Where pages would say something else to one another, or anything is not sure,
// the ordinary publication does the work.
import { appendFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { randomBytes } from 'node:crypto';
import { extendRegister } from '../../journal/index.js';
import { listedRows } from '../../crosslinks/crosslink.js';
import type { Entry, Shelf } from '../../journal/entry.js';
import { hashOf, identityOf } from '../../kept/inputs.js';
import { writePutDown } from '../../kept/put-down.js';
import type { ReckonedEntry } from '../../reckoning/contracts.js';
import { inOrder } from '../../open.js';
import { once } from '../../once.js';
import { allDone, noThreads } from '../../threads.js';
import { accepted, gathered } from '../acceptance.js';
import { EntryFiles } from '../entry-files.js';
import { EntryFindables } from '../entry-findables.js';
import { addressesOfEntry, type EntryWork } from '../entry-pages.js';
import type { Lock } from '../lock.js';
import { quietly } from '../lock.js';
import { gatheredAddresses, planSite, type SitePlan } from '../plan.js';
import type { Publication, PublishOptions } from '../publication.js';
import { keepRemarks, keysOfCauses } from '../published-remarks.js';
import { renderPages, searchKey, taken, timed, writeSearch, writeSharePictures, type Work } from '../site-making.js';
import { SiteLinks } from '../site-links.js';
import { splitAddress } from '../context.js';
import { bytesInStamp } from '../site-folder.js';
import { fileOfAddress } from '../file-writing.js';
import { sharedIdentity } from './around.js';
import { lineOf, type EntryLine } from './entry-again.js';
import { growthOf, inMaking, type InMaking } from './in-making.js';
import { hashOfFile, type JournalAgain } from './journal-again.js';
import { nameBeside, sitesFolder, writeKnown, type Known, type KnownEntry } from './known.js';
import { resultsAgain, type EditedRows } from './rows-again.js';
import { isOfEntry, madeNow, saidOf, SaidByPages } from './said.js';
import type { SiteAsked } from './as-it-was-asked.js';
import { SiteAgain } from './site-again.js';
import { isEntrySame, takeUp, type TakenUp } from './taken-up.js';
import { readTold, writeTold, type Told } from './told.js';

export interface MatterAgain {
  /** The journal's folder. */
  readonly folder: string;
  readonly version: string;
  readonly known: Known;
  readonly asked: SiteAsked;
}

/** The entries of which pages are made of something else than before. */
function changedEntries(taken: TakenUp): ReadonlySet<number> {
  const { mayDiffer, lines, edited } = taken;
  // Then others are joined with them as they were.
  if (mayDiffer) return new Set([...edited].map((file) => lines.get(file)!.first.number));
  return new Set(taken.model.entries.flatMap((one) => (isEntrySame(one, taken) ? [] : [one.entry.number])));
}

/** Whether the plan has the pages that the site has. */
function hasSamePages(plan: SitePlan, { around }: TakenUp, changed: ReadonlySet<number>, { files }: Known): boolean {
  if (sharedIdentity(plan) !== around.shared) return false;
  const others = [...plan.pages.keys()].filter((address) => !isOfEntry(address));
  if (others.length !== around.said.length || !others.every((one, at) => one === around.said[at]![0])) return false;
  return [...changed].every((number) =>
    addressesOfEntry(number).every((address) => plan.pages.has(address) === files.has(fileOfAddress(address))),
  );
}

/** What pages are to say, by address; those of entries that have not changed are not asked for. */
function toBeSaid({ around, lines, model }: TakenUp, changed: ReadonlySet<number>): Map<string, string | null> {
  const ofEntries = model.entries.flatMap(({ entry }): (readonly [string, string])[] =>
    changed.has(entry.number) ? [...(lines.get(entry.file)!.rest().pages ?? [])] : [],
  );
  return new Map([...around.said, ...ofEntries]);
}

/** Tells whether pages that are rendered say what they said. */
class SaidAgain {
  readonly pages = new SaidByPages();
  isSame = true;
  /** Addresses of pages of which it is known that they say it. */
  readonly surely = new Set<string>();

  constructor(
    private readonly was: ReadonlyMap<string, string | null>,
    private readonly written: ReadonlyMap<string, number>,
  ) {}

  readonly take: NonNullable<Work['said']>['take'] = (page, record, key) => {
    const { address } = page;
    if (!this.written.has(fileOfAddress(address)) || this.surely.has(address))
      return this.pages.keep(page, record, key);
    const said = saidOf(record);
    if (said === undefined || said !== this.was.get(address)) this.isSame = false;
    return this.pages.take(page, record, key);
  };
}

/** Takes out files of the search index that are not made any more; by how many bytes the site is smaller. */
function dropUnfound(site: SiteAgain, { files }: Known, { written, stayed }: InMaking): number {
  const isMade = (path: string): boolean => written.has(path) || stayed.has(path);
  const gone = [...files].filter(([path]) => path.startsWith('find/') && !isMade(path));
  for (const [path] of gone) site.drop(path);
  return gone.reduce((sum, [, file]) => sum + bytesInStamp(file), 0);
}

/** Whether every address of the journal is registered. */
function isRegistered({ model, around }: TakenUp, { drafts }: PublishOptions): boolean {
  const { register } = around.journal;
  const now = extendRegister(register, model.journal, drafts === true ? [] : gatheredAddresses(model));
  return now.join('\n') === register.join('\n');
}

/** What pictures that are shown with links show of an entry, but for what no edit that comes here changes. */
const painted = (
  { status }: Pick<Entry, 'status'>,
  { elements, gist, rows }: Pick<ReckonedEntry, 'elements' | 'gist' | 'rows'>,
): string | undefined =>
  // Whether a sample of what was abandoned is listed rests on what was obtained of it.
  status === 'abandoned' || !rows
    ? undefined
    : identityOf([
        status,
        elements,
        gist.samples.map(({ family }) => family ?? null),
        rows.map(({ appearance }) => appearance?.swatch ?? null),
      ]);

/** Whether pictures that are shown with links are surely what they were. */
const arePaintedAlike = ({ model, lines }: TakenUp, changed: ReadonlySet<number>): boolean =>
  model.entries.every((one) => {
    if (!changed.has(one.entry.number)) return true;
    const { first, rest } = lines.get(one.entry.file)!;
    const is = painted(one.entry, one);
    return is !== undefined && is === painted(first.checked, { ...first.reckoned, rows: rest().rows });
  });

/** Tells which pages are surely made of the same. */
const isSameIn =
  ({ mayDiffer }: TakenUp, changed: ReadonlySet<number>) =>
  (address: string): boolean =>
    isOfEntry(address) ? !changed.has(Number(address.split('/')[1])) : mayDiffer !== undefined && !mayDiffer(address);

/** Rows of the entries that were edited. */
const editedRows = ({ model, lines, edited }: TakenUp): EditedRows[] =>
  model.entries
    .filter(({ entry }) => edited.has(entry.file))
    .map((one) => ({ was: rowsBefore(one.entry.file, lines), is: listedRows(one) }));

function rowsBefore(file: string, lines: TakenUp['lines']): EditedRows['was'] {
  const { first, rest } = lines.get(file)!;
  const { checked, reckoned, identity } = first;
  const entry: Entry = { ...checked, file, matter: '', body: '' };
  // Rows are made of nothing else.
  return listedRows({ ...reckoned, entry, identity, rows: rest().rows } as ReckonedEntry);
}

/** Makes a leaf of the results of the one that is there, where it may show nothing else but what was weighed. */
function leafAgain(up: TakenUp, { site }: Known, said: SaidAgain): NonNullable<Work['few']>['again'] {
  if (!up.mayDiffer) return () => undefined;
  const rows = once(() => editedRows(up));
  const at = splitAddress(up.model.journal.settings.address);
  return (page) => {
    const text = resultsAgain(page, rows, site, at);
    if (text !== undefined) said.surely.add(page.address);
    return text;
  };
}

interface Made {
  readonly work: Work;
  readonly said: SaidAgain;
  readonly bytes: number;
  readonly changed: ReadonlySet<number>;
}

/** Makes what is made of something else; undefined where pages do not say what they said. */
async function make(
  site: SiteAgain,
  { known }: MatterAgain,
  up: TakenUp,
  plan: SitePlan,
  changed: ReadonlySet<number>,
  options: PublishOptions,
  took: Record<string, number>,
): Promise<Made | undefined> {
  const making = inMaking(site, known);
  const { staging, written } = making;
  const said = new SaidAgain(toBeSaid(up, changed), written);
  const { model, kept } = up;
  const isSearched = options.search ?? true;
  const work: Work = {
    plan,
    kept,
    threads: noThreads,
    staging,
    options,
    remarks: [],
    partLinks: [],
    links: new SiteLinks(splitAddress(model.journal.settings.address)),
    ids: new Map(),
    said,
    searched: isSearched ? searchKey(kept, model) : '',
    took,
    bytes: 0,
    few: {
      numbers: changed,
      isSame: isSameIn(up, changed),
      again: leafAgain(up, known, said),
      areListsAlike: up.mayDiffer !== undefined,
      known,
    },
  };
  const findables = isSearched ? new EntryFindables(model, kept, staging.folder) : undefined;
  const besides = new EntryFiles({ ...work, findables, done: (file) => taken(work, file) });
  const pictures = options.sharePictures === false || arePaintedAlike(up, changed) ? [] : [writeSharePictures(work)];
  await timed(work, 'render', () => allDone([renderPages(work, besides), ...pictures]));
  await timed(work, 'data', () => besides.end());
  if (!said.isSame || work.remarks.length > 0) return undefined;
  let smaller = 0;
  if (isSearched)
    await timed(work, 'search', async () => {
      await writeSearch(work, findables);
      smaller = dropUnfound(site, known, making);
    });
  return { work, said, bytes: known.bytes + growthOf(known, written) - smaller, changed };
}

/** What the publication tells. */
function toTell({ model, remarks }: TakenUp, { work, bytes }: Made): Omit<Told, 'shared'> & { readonly bytes: number } {
  const told = accepted(remarks, model);
  return {
    remarks: inOrder(told.remarks),
    causes: gathered(inOrder(told.remarks), model),
    accepted: told.accepted,
    entries: model.entries.length,
    pages: work.plan.pages.size,
    bytes,
  };
}

/**
 * Keeps what was said where it is something else.
 * @returns hashes of the small files of the journal, as they are then
 */
export function remarksKept(
  { folder, known }: MatterAgain,
  before: Told,
  { causes }: Pick<Told, 'causes'>,
): Known['texts'] {
  if (keysOfCauses(before.causes).join('\n') === keysOfCauses(causes).join('\n')) return known.texts;
  keepRemarks(folder, causes);
  const { '.remarks.json': _, ...others } = known.texts;
  const hash = hashOfFile(join(folder, '.remarks.json'));
  return { ...others, ...(hash !== undefined && { '.remarks.json': hash }) };
}

/** Takes away what was put down before and is not needed any more. */
export function forget({ folder, known }: MatterAgain, now: Known): void {
  const needed = new Set([now.told, now.made, now.search?.file]);
  for (const name of [known.told, known.made, known.search?.file])
    if (name !== undefined && !needed.has(name)) rmSync(join(sitesFolder(folder), name), { force: true });
}

/** What the line of an entry is made of. */
interface ToLine {
  readonly work: EntryWork;
  /** Of its file. */
  readonly text: string;
  /** Its line before. */
  readonly line: EntryLine;
  /** Identity of what joins it to others, where that is known. */
  readonly joined?: string;
}

/** Puts lines of entries behind those that are there. */
export function linesNow(
  { folder, known }: MatterAgain,
  edited: Iterable<ToLine>,
  shelf: Shelf,
  entries: Known['entries'],
): Map<string, KnownEntry> {
  const file = join(sitesFolder(folder), known.lines);
  let at = statSync(file).size;
  const now = new Map(entries);
  const pieces: Buffer[] = [];
  for (const { work, text, line, joined } of edited) {
    const path = work.reckoned.entry.file;
    const bytes = lineOf(work, text, line.rest().pages, shelf, joined);
    const { line: _, ...entry } = now.get(path)!;
    now.set(path, { ...entry, ...(bytes && { line: { at, bytes: bytes.length, hash: hashOf(bytes) } }) });
    if (!bytes) continue;
    pieces.push(bytes);
    at += bytes.length;
  }
  appendFileSync(file, Buffer.concat(pieces));
  return now;
}

/** What the lines of changed entries are made of, one after the other. */
function* toLines({ lines, textOf }: TakenUp, { work, changed }: Made): Iterable<ToLine> {
  for (const { number, work: of } of work.plan.works) {
    if (!changed.has(number)) continue;
    const own = of();
    const { file } = own.reckoned.entry;
    yield { work: own, text: textOf(file), line: lines.get(file)! };
  }
}

/** Puts down what is known now beside what was known before, which then goes. */
function putDown(
  again: MatterAgain,
  up: TakenUp,
  made: Made,
  tell: ReturnType<typeof toTell>,
  now: Known,
  shared: Told['shared'],
): void {
  const { folder, version, known } = again;
  const token = randomBytes(6).toString('hex');
  const room = sitesFolder(folder);
  const [told, madeName] = [nameBeside(known.site, 'told', token), nameBeside(known.site, 'made', token)];
  const { bytes: _, ...rest } = tell;
  writeTold(join(room, told), version, { ...rest, shared });
  writePutDown(
    join(room, madeName),
    version,
    madeNow({ kept: up.kept, said: made.said.pages, remarks: up.remarks, isAllAsked: !up.mayDiffer }),
  );
  const entries = linesNow(again, toLines(up, made), up.model.journal.shelf, now.entries);
  const after = { ...now, entries, told, made: madeName };
  writeKnown(folder, after, version);
  forget(again, after);
}

/**
 * Publishes a journal in which few entries are others.
 * @returns undefined where it has to be published in the ordinary way
 */
export async function publishedWithMatter(
  again: MatterAgain,
  { edited, entries }: JournalAgain,
  options: PublishOptions,
  lock: Lock,
): Promise<Publication | undefined> {
  const { folder, version, known } = again;
  const took: Record<string, number> = {};
  const begin = performance.now();
  const up = takeUp({ folder, version, known, edited, drafts: options.drafts ?? false });
  if (!up) return undefined;
  const plan = planSite(up.model, { kept: up.kept });
  const changed = changedEntries(up);
  if (!hasSamePages(plan, up, changed, known) || !isRegistered(up, options)) return undefined;
  if (!(await again.asked.isAsItWas(known))) return undefined;
  const before = readTold(join(sitesFolder(folder), known.told), version);
  if (!before) return undefined;
  took['reckon'] = performance.now() - begin;
  const site = new SiteAgain(known, lock);
  try {
    const made = await make(site, again, up, plan, changed, options, took);
    if (!made) return undefined;
    const tell = toTell(up, made);
    const after = await timed({ took }, 'swap', () => site.swap());
    const texts = remarksKept(again, before, tell);
    const now: Known = {
      ...known,
      ...after,
      texts,
      entries,
      bytes: made.bytes,
      ...(made.work.search && { search: made.work.search }),
    };
    await timed({ took }, 'remember', () => {
      if (after) quietly(() => putDown(again, up, made, tell, now, before.shared));
    });
    return { ...tell, published: true, kept: [], took };
  } finally {
    site.abandon();
  }
}
