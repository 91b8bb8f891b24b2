// Checks that need the whole journal: numbers, titles, reagents, lots, links, and the files that entries name.
import { assayOf } from '../reagents/index.js';
import { onceFor } from '../kept/once.js';
import { Findings, remarksFrom } from '../remarks/findings.js';
import type { Remark } from '../remarks/remark.js';
import { catalogueOf, type Catalogue, type Parts } from './catalogue.js';
import type { Entry, Page, Shelf } from './entry.js';
import { findInLinks } from './link-checks.js';
import { NamedFiles } from './named-files.js';
import { pageNameFault } from './page-names.js';
import { placeInFile, remarksOn } from './place.js';
import { findInReferences, findLot, lotRings } from './references.js';

export interface CrossChecks {
  readonly remarks: Remark[];
  /** Text of what instruments wrote, by its path below the journal. */
  readonly readings: ReadonlyMap<string, string>;
  /** Files that exist and are shown or linked to, sorted. */
  readonly files: readonly string[];
}

/** Holds the parts of a journal together. */
export function crossCheck(parts: Parts): CrossChecks {
  const catalogue = catalogueOf(parts);
  const named = new NamedFiles(parts.folder);
  const titles = new Map<string, Entry>();
  const remarks = [
    ...parts.entries.flatMap((entry) => remarksOfEntry(entry, catalogue, titles, named)),
    ...parts.pages.flatMap((page) => remarksOfPage(page, catalogue, named)),
    ...remarksOfShelf(parts.shelf, catalogue, named),
    ...remarksOfRings(catalogue),
  ];
  return { remarks, readings: named.readings, files: [...named.files].sort() };
}

function remarksOfEntry(
  entry: Entry,
  catalogue: Catalogue,
  titles: Map<string, Entry>,
  named: NamedFiles,
): readonly Remark[] {
  const findings = new Findings();
  findNamesakes(entry, catalogue, titles, findings);
  findInReferences(entry, catalogue, findings);
  named.takeOfEntry(entry, findings);
  findInLinks(entry, { catalogue, files: named.files, entry }, findings);
  return remarksOn(entry, findings.all);
}

const plainTitle = onceFor(({ title }: Entry): string => title.toLowerCase().replace(/\s+/g, ' ').trim());

/** Another entry with the same number or title, before this one. */
function findNamesakes(entry: Entry, { byNumber }: Catalogue, titles: Map<string, Entry>, findings: Findings): void {
  const { number, title } = entry;
  const first = byNumber.get(number)!;
  if (first !== entry)
    findings.add('duplicate-number', ['number'], { number, other: first.file, actual: String(number) });
  const plain = plainTitle(entry);
  const namesake = titles.get(plain);
  if (namesake) findings.add('same-title', ['title'], { other: namesake.file, actual: title });
  else titles.set(plain, entry);
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
    if (!ofPages || fault || pageFiles.has(file))
      findings.add('moved-from', where, { name, taken: pageFiles.has(file), ofPages, actual: name });
  }
}

function remarksOfShelf(shelf: Shelf, catalogue: Catalogue, named: NamedFiles): readonly Remark[] {
  const findings = new Findings();
  for (const [id, { lot, formula, assay }] of shelf.reagents) {
    if (lot !== undefined) findLot(lot, undefined, [id, 'lot'], catalogue, findings);
    const assayed = assay && assayOf(formula, assay);
    if (assayed && !assayed.ok) findings.addFault(assayed.fault, [id, 'assay']);
  }
  named.takeOfShelf(shelf, findings);
  return remarksFrom(findings.all, (path, at) => placeInFile(shelf.file, shelf.text, path, at));
}

const remarksOfRings = (catalogue: Catalogue): readonly Remark[] =>
  lotRings(catalogue).flatMap(({ entry, path }) => {
    const findings = new Findings();
    findings.add('lot-cycle', path, { entry: entry.number });
    return remarksOn(entry, findings.all);
  });
