// Checks that need the whole journal: numbers, titles, reagents, lots, links, and the files that entries name.
import { assayOf } from '../reagents/index.js';
import type { Fault } from '../outcome.js';
import { identityOf } from '../kept/inputs.js';
import { keptNowhere, madeOf, type Kept } from '../kept/kept.js';
import { onceFor } from '../once.js';
import { Findings, remarksFrom } from '../remarks/findings.js';
import type { Remark } from '../remarks/remark.js';
import { AskedFolder } from './asked-folder.js';
import { catalogueOf, freeNumberFor, type Catalogue, type Parts } from './catalogue.js';
import type { Entry, Page, Shelf } from './entry.js';
import { findInLinks } from './link-checks.js';
import { bodyLinks, type BodyLink } from './links.js';
import { filesNamedIn, NamedFiles } from './named-files.js';
import { pageNameFault } from './page-names.js';
import { reagentIdPattern } from './values.js';
import { placeInFile, remarksOn } from './place.js';
import { findInReferences, findLot, lotRings, lotsNamed } from './references.js';

export interface CrossChecks {
  readonly remarks: Remark[];
  /** Text of what instruments wrote, by its path below the journal. */
  readonly readings: ReadonlyMap<string, string>;
  /** Files that exist and are shown or linked to, sorted. */
  readonly files: readonly string[];
  /** Photographs that are named and do not exist. */
  readonly missing: ReadonlySet<string>;
}

/** The first file of each title. */
type Titles = ReadonlyMap<string, string>;

/** What was checked, and what came of it. */
interface Checked {
  readonly parts: Parts;
  readonly asked: AskedFolder;
  readonly titles: Titles;
  readonly ofEntries: readonly (readonly Remark[])[];
  readonly ofOthers: readonly Remark[];
  readonly readings: CrossChecks['readings'];
  readonly files: CrossChecks['files'];
  readonly missing: CrossChecks['missing'];
}

const checkedBefore = new WeakMap<object, Checked>();

export interface CheckOptions {
  /**
   * The same for readings of the same folder, one after the other: what an edit has not touched is not checked again.
   */
  readonly memory?: object | undefined;
  /** What was made of the same before. */
  readonly kept?: Kept | undefined;
}

/** Holds the parts of a journal together. */
export function crossCheck(parts: Parts, { memory, kept = keptNowhere }: CheckOptions = {}): CrossChecks {
  const before = memory && checkedBefore.get(memory);
  const checked = (before && checkedAgain(parts, before)) ?? checkedAnew(parts, kept);
  if (memory) checkedBefore.set(memory, checked);
  const { ofEntries, ofOthers, readings, files, missing } = checked;
  return { remarks: [...ofEntries.flat(), ...ofOthers], readings, files, missing };
}

function checkedAnew(parts: Parts, kept: Kept): Checked {
  const asked = new AskedFolder(parts.folder);
  const catalogue = catalogueOf({ ...parts, folder: asked });
  const named = new NamedFiles(asked);
  const titles = titlesOf(parts.entries);
  const ofEntries = parts.entries.map((entry) => remarksOfEntry(entry, catalogue, titles, named));
  const ofOthers = [
    ...parts.pages.flatMap((page) => remarksOfPage(page, catalogue, named)),
    ...remarksOfShelf(parts.shelf, catalogue, named, kept),
    ...remarksOfRings(catalogue),
  ];
  const files = [...named.files].sort();
  return { parts, asked, titles, ofEntries, ofOthers, readings: named.readings, files, missing: named.missing };
}

/** The same after an edit that touched only words of entries; undefined where more has changed. */
function checkedAgain(parts: Parts, before: Checked): Checked | undefined {
  const { parts: former, asked, titles } = before;
  const isSame =
    parts.folder.root === former.folder.root &&
    parts.drafts === former.drafts &&
    parts.shelf === former.shelf &&
    areSame(parts.pages, former.pages) &&
    areSame(parts.unread, former.unread) &&
    areSame(parts.register ?? [], former.register ?? []) &&
    parts.entries.length === former.entries.length &&
    parts.entries.every((entry, at) => areAlike(entry, former.entries[at]!)) &&
    asked.answersAre(parts.folder);
  if (!isSame) return undefined;
  const catalogue = catalogueOf(parts);
  const changed = parts.entries.filter((entry, at) => entry !== former.entries[at]);
  // Whether a link to a file is told depends on what the entries before it name.
  if (!changed.every((entry) => bodyLinks(entry).every((link) => !link.relative || isWriteUp(link, catalogue))))
    return undefined;
  const ofEntries = parts.entries.map((entry, at) =>
    entry === former.entries[at]
      ? before.ofEntries[at]!
      : remarksOfEntry(entry, catalogue, titles, new NamedFiles(parts.folder)),
  );
  return { ...before, parts, ofEntries };
}

const areSame = (some: readonly unknown[], others: readonly unknown[]): boolean =>
  some.length === others.length && some.every((one, at) => one === others[at]);

/** Whether two entries are the same to all others: in front matter and in where their links lead. */
function areAlike(one: Entry, other: Entry): boolean {
  if (one === other) return true;
  if (one.file !== other.file || one.matter !== other.matter) return false;
  return areSame(bodyLinks(one).map(targetOf), bodyLinks(other).map(targetOf));
}
const targetOf = ({ target }: BodyLink): string => target;

const isWriteUp = ({ target }: BodyLink, { byFile, pageFiles }: Catalogue): boolean =>
  byFile.has(target) || pageFiles.has(target);

function findBesidesLinks(
  entry: Entry,
  catalogue: Catalogue,
  titles: Titles,
  named: NamedFiles,
  findings: Findings,
): void {
  findNamesakes(entry, catalogue, titles, findings);
  findInReferences(entry, catalogue, findings);
  named.takeOfEntry(entry, findings);
}

function remarksOfEntry(entry: Entry, catalogue: Catalogue, titles: Titles, named: NamedFiles): readonly Remark[] {
  const findings = new Findings();
  findBesidesLinks(entry, catalogue, titles, named, findings);
  findInLinks(entry, { catalogue, files: named.files, entry }, findings);
  const { all } = findings;
  return all.length === 0 ? [] : remarksOn(entry, all);
}

/**
 * What the checks of other entries, of the shelf and of the register ask of an entry: as long as it is the same, they
 * find the same.
 */
export const seenInChecks = (entry: Entry, shelf: Shelf): string => {
  const { file, number, title, date, status, samples, ideas } = entry;
  const links = bodyLinks(entry).map(({ written, target, image, relative }) => [written, target, image, relative]);
  return identityOf([
    ...[file, number, title, date, status, samples.map(({ sample }) => sample), ideas.length],
    ...[filesNamedIn(entry), lotsNamed(entry, shelf), links],
  ]);
};

/**
 * Remarks on some entries of a journal, all others of which are as they were; none on links, as these are as they were
 * too.
 * @returns undefined where a photograph is missing
 */
export function remarksOnSome(entries: readonly Entry[], parts: Parts): readonly Remark[] | undefined {
  const catalogue = catalogueOf(parts);
  const titles = titlesOf(parts.entries);
  const named = new NamedFiles(parts.folder);
  const remarks = entries.flatMap((entry) => {
    const findings = new Findings();
    findBesidesLinks(entry, catalogue, titles, named, findings);
    return remarksOn(entry, findings.all);
  });
  return named.missing.size > 0 ? undefined : remarks;
}

const plainTitle = onceFor(({ title }: Entry): string => title.toLowerCase().replace(/\s+/g, ' ').trim());

function titlesOf(entries: readonly Entry[]): Titles {
  const titles = new Map<string, string>();
  for (const entry of entries) if (!titles.has(plainTitle(entry))) titles.set(plainTitle(entry), entry.file);
  return titles;
}

const freeNumberIn = onceFor(({ entries, byFile, unread, register = [] }: Catalogue) =>
  freeNumberFor(entries, [...byFile.keys(), ...unread], register),
);

/** Another entry with the same number or title, before this one. */
function findNamesakes(entry: Entry, catalogue: Catalogue, titles: Titles, findings: Findings): void {
  const { number, title } = entry;
  const first = catalogue.byNumber.get(number)!;
  if (first !== entry) {
    const free = freeNumberIn(catalogue)(entry.file);
    findings.add('duplicate-number', ['number'], { number, free, other: first.file, actual: String(number) });
  }
  const namesake = titles.get(plainTitle(entry));
  if (namesake !== undefined && namesake !== entry.file)
    findings.add('same-title', ['title'], { other: namesake, actual: title });
}

function remarksOfPage(page: Page, catalogue: Catalogue, { files }: NamedFiles): readonly Remark[] {
  const findings = new Findings();
  const fault = pageNameFault(page);
  if (fault) findings.take({ ...fault, where: { file: page.file, line: 1, column: 1 } });
  findMovedFrom(page, catalogue, findings);
  findInLinks(page, { catalogue, files }, findings);
  return remarksFrom(findings.all);
}

/** Looks whether a page can have had the names that it says it had: none that is another's, or could be no page's. */
function findMovedFrom(page: Page, { pageFiles }: Catalogue, findings: Findings): void {
  const where = { file: page.file, line: 1, column: 1 };
  for (const name of page.movedFrom ?? []) {
    const file = `pages/${name}.md`;
    const ofPages = page.file.startsWith('pages/');
    const fault = pageNameFault({ ...page, file, name });
    const of = ofPages ? 'page' : 'words';
    if (!ofPages || fault || pageFiles.has(file))
      findings.add('moved-from', where, { name, taken: pageFiles.has(file), of, actual: name });
  }
}

function remarksOfShelf(shelf: Shelf, catalogue: Catalogue, named: NamedFiles, kept: Kept): readonly Remark[] {
  const findings = new Findings();
  for (const [id, { lot, formula, assay, 'moved-from': former = [] }] of shelf.reagents) {
    for (const [at, name] of former.entries())
      if (shelf.reagents.has(name) || !reagentIdPattern.test(name))
        findings.add('moved-from', [id, 'moved-from', at], {
          ...{ name, taken: shelf.reagents.has(name), of: 'reagent', actual: name },
        });
    if (lot !== undefined) findLot(lot, undefined, [id, 'lot'], catalogue, findings);
    const fault = assay && madeOf(kept, 'fault of an assay', [formula, assay], () => faultOfAssay(formula, assay));
    if (fault) findings.addFault(fault, [id, 'assay']);
  }
  named.takeOfShelf(shelf, findings);
  return remarksFrom(findings.all, (path, at) => placeInFile(shelf.file, shelf.text, path, at));
}

/** Why an assay cannot be reckoned; null where it can. */
function faultOfAssay(...assay: Parameters<typeof assayOf>): Fault<'assay-not-reckoned'> | null {
  const assayed = assayOf(...assay);
  return assayed.ok ? null : assayed.fault;
}

const remarksOfRings = (catalogue: Catalogue): readonly Remark[] =>
  lotRings(catalogue).flatMap(({ entry, path }) => {
    const findings = new Findings();
    findings.add('lot-cycle', path, { entry: entry.number });
    return remarksOn(entry, findings.all);
  });
