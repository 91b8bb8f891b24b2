// Checks that need the whole journal: numbers, reagents, lots, links, and the files that entries name.
import { elements } from '../chemistry/atomic-weights.js';
import { families, familyNamed } from '../colour/families.js';
import { decodeText } from '../colour/instruments/text.js';
import { nearest } from './check.js';
import { isDraft, type Entry, type Page, type Shelf } from './entry.js';
import { isPublishedFile, type Folder } from './folder.js';
import { bodyLinks } from './links.js';
import { placeInFile, placeOf, type Path } from './place.js';
import { Findings, remarksFrom } from '../remarks/findings.js';
import { remark, type Place, type Remark, type Severity } from './remarks.js';
import type { ColourReading, Use } from './schema.js';

export interface Whole {
  readonly entries: readonly Entry[];
  /** Entry files that could not be read at all. */
  readonly unread: readonly string[];
  readonly pages: readonly Page[];
  readonly shelf: Shelf;
  readonly folder: Folder;
  readonly drafts: boolean;
}

export interface WholeReading {
  readonly remarks: Remark[];
  readonly readings: ReadonlyMap<string, string>;
  readonly files: readonly string[];
}

const numberInName = (file: string): number => Number(/(?:^|\/)0*(\d+)[^/]*$/.exec(file)?.[1]);

/** First parts of the site's own addresses, which a page can't have for its name. */
const taken = new Set([
  ...['entries', 'series', 'colours', 'reagents', 'elements', 'results', 'ideas', 'incidents', 'search'],
  ...['data', 'style', 'script', 'find', 'photos', 'spectra'],
  ...['scripts', 'styles', 'files', 'fonts', 'feed', 'sitemap', 'index', 'icon', '404'],
]);

/** What is wrong with the name of a page's file, from which its address is made. */
function pageNameRemark({ file, name }: Page): Remark | undefined {
  const say = (severity: Severity, rule: string, found: string, cure: string, expected?: readonly string[]) =>
    remark({ place: { file, line: 1, column: 1 }, severity, rule, found, cure, actual: name, expected });
  const room = file.split('/', 1)[0];
  if (room === 'series') {
    const known = [...elements().keys()].some((symbol) => symbol.toLowerCase() === name.toLowerCase());
    return known
      ? undefined
      : say(
          'warning',
          'series-name',
          `'${name}' is not the symbol of an element, so these words stand nowhere.`,
          'Name the file after the element: Cu.md.',
        );
  }
  if (room === 'colours') {
    const family = familyNamed(name);
    return family === name
      ? undefined
      : say(
          'warning',
          'family-name',
          `'${name}' is not a colour family, so these words stand nowhere.`,
          family === undefined
            ? `Name the file after a family: ${families.join(', ')}.`
            : `Name the file ${family}.md.`,
          families,
        );
  }
  if (/^\d+$/.test(name) || taken.has(name.toLowerCase()))
    return say(
      'error',
      'page-name',
      `A page can’t be called '${name}', since /${name}/ is an address of the site’s own.`,
      'Give the file another name.',
    );
  if (!/^[\p{L}\p{N}](?:[\p{L}\p{N}_-]*[\p{L}\p{N}])?$/u.test(name))
    return say(
      'error',
      'page-name',
      `'${name}' can’t stand in an address.`,
      'Name the file with letters, digits and hyphens.',
    );
  return undefined;
}

/** Every use of a reagent or lot in an entry, with its path. */
function usesOf(entry: Entry): { readonly use: Use; readonly path: Path }[] {
  const uses: { use: Use; path: Path }[] = entry.reagents.map((use, index) => ({ use, path: ['reagents', index] }));
  for (const [index, sample] of entry.samples.entries()) {
    sample.add?.forEach((use, at) => uses.push({ use, path: ['samples', index, 'add', at] }));
    sample.change?.forEach((use, at) => uses.push({ use, path: ['samples', index, 'change', at] }));
  }
  return uses;
}

/** Every data file that an entry names, with its path in the front matter. */
function dataFilesOf(
  entry: Entry,
): { readonly file: string; readonly path: Path; readonly kind: 'spectrum' | 'photo' }[] {
  const files: { file: string; path: Path; kind: 'spectrum' | 'photo' }[] = [];
  const ofColour = (colour: ColourReading | undefined, path: Path) => {
    if (colour?.spectrum !== undefined)
      files.push({ file: colour.spectrum, path: [...path, 'spectrum'], kind: 'spectrum' });
    if (colour?.photo !== undefined) files.push({ file: colour.photo, path: [...path, 'photo'], kind: 'photo' });
    if (colour?.photo !== undefined && colour.chart?.includes('.'))
      files.push({ file: colour.chart, path: [...path, 'chart'], kind: 'spectrum' });
    if (colour?.white !== undefined) files.push({ file: colour.white, path: [...path, 'white'], kind: 'spectrum' });
    colour?.readings?.forEach(({ spectrum }, at) => {
      if (spectrum !== undefined)
        files.push({ file: spectrum, path: [...path, 'readings', at, 'spectrum'], kind: 'spectrum' });
    });
  };
  ofColour(entry.reference?.colour, ['reference', 'colour']);
  for (const [index, sample] of entry.samples.entries()) {
    ofColour(sample.colour, ['samples', index, 'colour']);
    for (const film of ['over-black', 'over-white'] as const) {
      const value = sample.opacity?.[film];
      if (typeof value === 'string')
        files.push({ file: value, path: ['samples', index, 'opacity', film], kind: 'spectrum' });
    }
    if (sample.photo !== undefined)
      files.push({ file: sample.photo, path: ['samples', index, 'photo'], kind: 'photo' });
  }
  return files;
}

export function checkWhole({ entries, unread, pages, shelf, folder, drafts }: Whole): WholeReading {
  const remarks: Remark[] = [];
  const add = (
    place: Place,
    severity: Severity,
    rule: string,
    found: string,
    cure: string,
    actual?: string,
    expected?: readonly string[],
  ) => {
    remarks.push(remark({ place, severity, rule, found, cure, actual, expected }));
  };
  const byNumber = new Map<number, Entry>();
  const byTitle = new Map<string, Entry>();
  const byFile = new Map(entries.map((entry) => [entry.file, entry]));
  const unreadFiles = new Set(unread);
  const unreadNumbers = new Set(unread.map(numberInName));
  const pageFiles = new Set(pages.map(({ file }) => file));

  for (const entry of entries) {
    const before = byNumber.get(entry.number);
    if (before)
      add(
        placeOf(entry, ['number']),
        'error',
        'duplicate-number',
        `Number ${entry.number} is also that of ${before.file}.`,
        'Give one of them the next free number; the one that is published keeps its own.',
        String(entry.number),
      );
    else byNumber.set(entry.number, entry);
    const title = entry.title.toLowerCase().replace(/\s+/g, ' ').trim();
    const namesake = byTitle.get(title);
    if (namesake)
      add(
        placeOf(entry, ['title']),
        'note',
        'same-title',
        `${namesake.file} has the same title.`,
        'Say in the title what sets them apart.',
        entry.title,
      );
    else byTitle.set(title, entry);
  }
  const known = (number: number): boolean => byNumber.has(number) || unreadNumbers.has(number);
  const numbersWords = (): string => {
    const numbers = [...byNumber.keys()];
    return numbers.length === 0
      ? 'There are no other entries.'
      : numbers.length <= 12
        ? `There are ${numbers.join(', ')}.`
        : `The numbers go from ${numbers[0]} to ${numbers.at(-1)}.`;
  };

  /** Checks a lot; `user` is undefined for a lot on the shelf. */
  const checkLot = (lot: string, user: Entry | undefined, place: () => Place) => {
    const [numberText = '', sample = ''] = lot.split('/');
    const number = Number(numberText);
    const source = byNumber.get(number);
    if (!source) {
      if (!known(number))
        add(
          place(),
          'error',
          'unknown-lot',
          `Lot ${lot} does not exist: there is no entry ${number}.`,
          numbersWords(),
          lot,
        );
      return;
    }
    const samples = source.samples.map((one) => one.sample);
    if (!samples.includes(sample)) {
      add(
        place(),
        'error',
        'unknown-lot',
        `Lot ${lot} does not exist: entry ${number} has no sample ${sample}.`,
        samples.length === 0
          ? `Entry ${number} has no samples.`
          : `Its lots are ${samples.map((one) => `${number}/${one}`).join(', ')}.`,
        lot,
        samples.map((one) => `${number}/${one}`),
      );
    } else if (user && source.number === user.number)
      add(
        place(),
        'error',
        'lot-of-itself',
        `Lot ${lot} is made in this entry, and can’t go into it.`,
        'A lot is the product of an earlier entry.',
        lot,
      );
    else if (user && source.date > user.date)
      add(
        place(),
        'error',
        'lot-later',
        `Lot ${lot} was made on ${source.date}, after this entry (${user.date}).`,
        'Correct the lot, or one of the dates.',
        lot,
      );
    else if (!drafts && isDraft(source) && !(user && isDraft(user)))
      add(
        place(),
        'error',
        'lot-of-draft',
        `Lot ${lot} is of entry ${number}, which is ${source.status} and is left out.`,
        `Finish entry ${number} first, or publish with --drafts.`,
        lot,
      );
  };

  const readings = new Map<string, string>();
  const files = new Set<string>();
  const faulty = new Map<string, Remark | undefined>();
  const reagentIds = [...shelf.reagents.keys()];
  const lotsOf = new Map<number, Set<number>>();

  for (const entry of entries) {
    for (const { use, path } of usesOf(entry)) {
      if (typeof use.reagent === 'string' && !shelf.reagents.has(use.reagent)) {
        const near =
          nearest(use.reagent, reagentIds) ??
          reagentIds.find((id) => {
            const { name, 'also-called': other = [] } = shelf.reagents.get(id) ?? { name: '' };
            return [name, ...other].some((one) => one.toLowerCase() === String(use.reagent).toLowerCase());
          });
        add(
          placeOf(entry, [...path, 'reagent']),
          'error',
          'unknown-reagent',
          `'${use.reagent}' is not on the shelf.`,
          near !== undefined
            ? `Did you mean ${near}?`
            : 'Add it to shelf.yaml, or describe it here: { name: …, formula: … }.',
          use.reagent,
          near === undefined ? undefined : [near],
        );
      }
      const lot = use.lot ?? (typeof use.reagent === 'string' ? shelf.reagents.get(use.reagent)?.lot : undefined);
      if (lot === undefined) continue;
      checkLot(lot, entry, () => placeOf(entry, [...path, use.lot === undefined ? 'reagent' : 'lot']));
      const number = Number(lot.split('/')[0]);
      if (number !== entry.number) lotsOf.set(entry.number, (lotsOf.get(entry.number) ?? new Set()).add(number));
    }
    for (const [index, incident] of entry.incidents.entries()) {
      for (const [at, id] of (incident.reagents ?? []).entries()) {
        const used = entry.reagents.some(
          (use) => use.lot === id || (typeof use.reagent === 'object' && use.reagent.name === id),
        );
        if (shelf.reagents.has(id) || used) continue;
        const near = nearest(id, reagentIds);
        add(
          placeOf(entry, ['incidents', index, 'reagents', at]),
          'error',
          'unknown-reagent',
          `'${id}' is not on the shelf.`,
          near !== undefined ? `Did you mean ${near}?` : 'Write the id of a reagent on the shelf.',
          id,
          near === undefined ? undefined : [near],
        );
      }
    }
    for (const key of ['follows', 'repeats'] as const) {
      for (const [at, number] of entry[key].entries()) {
        const other = byNumber.get(number);
        const place = () => placeOf(entry, [key, at]);
        if (number === entry.number)
          add(
            place(),
            'error',
            'unknown-entry',
            `Entry ${number} is said to ${key === 'follows' ? 'follow' : 'repeat'} itself.`,
            'Write the number of an earlier entry.',
            String(number),
          );
        else if (!known(number))
          add(
            place(),
            'error',
            'unknown-entry',
            `\`${key}\` names entry ${number}, which does not exist.`,
            numbersWords(),
            String(number),
          );
        else if (other && other.date > entry.date)
          add(
            place(),
            'warning',
            'follows-later',
            `\`${key}\` names entry ${number}, which is of ${other.date}, after this one (${entry.date}).`,
            'Correct the number, or one of the dates.',
            String(number),
          );
        else if (other && !drafts && isDraft(other) && !isDraft(entry))
          add(
            place(),
            'warning',
            'link-to-draft',
            `\`${key}\` names entry ${number}, which is ${other.status} and is left out.`,
            'It is not shown; publish with --drafts, or finish that entry.',
            String(number),
          );
      }
    }
    for (const { file, path, kind } of dataFilesOf(entry)) {
      if (!faulty.has(file)) {
        const place = placeOf(entry, path);
        if (kind === 'photo') {
          const fault = fileFault(folder, file, place, 'photo');
          faulty.set(file, fault);
          if (!fault) files.add(file);
        } else {
          const read = folder.read(file, place, decodeText);
          faulty.set(file, spellingFault(folder, file, place) ?? (read.ok ? undefined : read.remark));
          if (read.ok) {
            readings.set(file, read.text);
            files.add(file);
          }
        }
        const fault = faulty.get(file);
        if (fault) remarks.push(fault);
      } else {
        const fault = faulty.get(file);
        if (fault) add(placeOf(entry, path), 'error', fault.ruleId, fault.reason, fault.note, file);
        else if (kind === 'spectrum' && !readings.has(file)) {
          const read = folder.read(file, undefined, decodeText);
          if (read.ok) readings.set(file, read.text);
        }
      }
    }
    checkLinks(entry, entry);
  }
  for (const page of pages) {
    const wrong = pageNameRemark(page);
    if (wrong) remarks.push(wrong);
    checkLinks(page);
  }

  for (const [id, reagent] of shelf.reagents) {
    if (reagent.lot !== undefined)
      checkLot(reagent.lot, undefined, () => placeInFile(shelf.file, shelf.text, [id, 'lot']));
    const { colour } = reagent;
    for (const file of [colour?.spectrum, colour?.white, ...(colour?.readings ?? []).map((one) => one.spectrum)]) {
      if (file === undefined || readings.has(file)) continue;
      const read = folder.read(file, placeInFile(shelf.file, shelf.text, [id, 'colour']), decodeText);
      if (read.ok) {
        readings.set(file, read.text);
        files.add(file);
      } else remarks.push(read.remark);
    }
  }
  for (const number of inCycle(lotsOf)) {
    const entry = byNumber.get(number);
    const use = entry && usesOf(entry).find((one) => one.use.lot !== undefined);
    if (entry)
      add(
        placeOf(entry, use ? [...use.path, 'lot'] : ['reagents']),
        'error',
        'lot-cycle',
        `Entry ${number} uses a lot that was itself made from a lot of entry ${number}.`,
        'Correct one of the lots: each is made before it is used.',
      );
  }

  function checkLinks(of: Entry | Page, entry?: Entry): void {
    for (const link of bodyLinks(of)) {
      const place: Place = { file: of.file, line: link.line, column: link.column };
      const what = link.image ? 'image' : 'link';
      if (!link.relative) {
        const scheme = /^([a-z][a-z0-9+.-]*):/i.exec(link.written)?.[1]?.toLowerCase();
        if (scheme !== undefined && !['http', 'https', 'mailto'].includes(scheme))
          add(
            place,
            'warning',
            'link-scheme',
            `A link begins with ${scheme}: and is left out of the page.`,
            'Link to an https address, or to a file of the journal.',
            link.written.slice(0, 80),
          );
        else if (link.image && scheme !== undefined)
          add(
            place,
            'warning',
            'image-elsewhere',
            'An image is on another server, and is not shown.',
            'Put the image into the journal’s folder, under photos/.',
            link.written.slice(0, 80),
          );
        else if (/^\/(?!\/)/.test(link.written))
          add(
            place,
            'warning',
            'link-from-root',
            `The ${what} ${link.written.slice(0, 80)} begins at the root of the site, which moves when the site’s address does.`,
            'Write a relative link to the file: ../entries/009-name.md.',
            link.written.slice(0, 80),
          );
        continue;
      }
      const { target } = link;
      if (target.startsWith('../') || target === '..' || target.includes('\\')) {
        add(
          place,
          'error',
          'outside-journal',
          `The ${what} ${link.written.slice(0, 80)} leads out of the journal.`,
          'Put the file into the journal’s folder.',
          link.written.slice(0, 80),
        );
        continue;
      }
      const linked = byFile.get(target);
      if (linked) {
        if (!drafts && isDraft(linked) && !(entry && isDraft(entry)))
          add(
            place,
            'warning',
            'link-to-draft',
            `The link leads to entry ${linked.number}, which is ${linked.status} and is left out.`,
            'It becomes plain words; publish with --drafts, or finish that entry.',
            link.written,
          );
        const samples = linked.samples.map(({ sample }) => sample);
        // Other words after # lead to other parts of the page.
        if (link.fragment !== undefined && /^[A-Z][0-9]?$/.test(link.fragment) && !samples.includes(link.fragment))
          add(
            place,
            'warning',
            'dangling-link',
            `The link leads to sample ${link.fragment} of entry ${linked.number}, which has none of that id.`,
            samples.length > 0 ? `Its samples are ${samples.join(', ')}.` : 'The entry has no samples.',
            link.written,
            samples,
          );
        continue;
      }
      if (pageFiles.has(target) || unreadFiles.has(target)) continue;
      if (files.has(target)) continue;
      const fault = fileFault(folder, target, place, what);
      if (!fault && !target.endsWith('.md')) {
        files.add(target);
        continue;
      }
      const number = numberInName(target);
      const meant = /(?:^|\/)\d/.test(target) ? byNumber.get(number) : undefined;
      const near =
        meant?.file ??
        (target.endsWith('.md') && !/(?:^|\/)\d/.test(target)
          ? nearest(target, [...byFile.keys(), ...pageFiles])
          : undefined);
      if (fault && fault.ruleId !== 'missing-file') remarks.push(fault);
      else if (fault)
        add(
          place,
          'error',
          'dangling-link',
          `The ${what} leads to ${target.slice(0, 120)}, which does not exist.`,
          near !== undefined ? `Did you mean ${near}?` : 'Correct the path; it is relative to this file.',
          link.written.slice(0, 120),
          near === undefined ? undefined : [near],
        );
      else
        add(
          place,
          'error',
          'dangling-link',
          `The ${what} leads to ${target.slice(0, 120)}, which is not a page of the site.`,
          'Link to an entry, or to a file under pages/, series/ or colours/.',
          link.written.slice(0, 120),
        );
    }
  }

  return { remarks, readings, files: [...files].sort() };
}

/** What keeps a file from being published, if anything. */
function fileFault(folder: Folder, file: string, place: Place, what: 'image' | 'link' | 'photo'): Remark | undefined {
  const found = folder.find(file);
  const fault = (rule: string, words: string, cure: string) =>
    remark({ place, severity: 'error', rule, found: words, actual: file, cure });
  switch (found.kind) {
    case 'file':
      if (found.stats.size > 50 * 1024 * 1024)
        return fault(
          'file-size',
          `The file ${file} has ${Math.round(found.stats.size / 1024 / 1024)} MB; at most 50 MB are published.`,
          'Make it smaller.',
        );
      return spellingFault(folder, file, place) ?? unpublishedFault(file, place, what);
    case 'missing':
      return (
        spellingFault(folder, file, place) ??
        fault('missing-file', `The file ${file} does not exist.`, 'Correct the path, or put the file there.')
      );
    case 'outside':
      return fault(
        'outside-journal',
        `The file ${file} leads out of the journal’s folder and is not read.`,
        'Put the file itself into the journal’s folder.',
      );
    case 'other':
      return fault('not-a-file', `${file} is ${found.what}, where a file should be.`, 'Name the file itself.');
  }
}

/** A file that is named otherwise than the disk spells it. */
function spellingFault(folder: Folder, file: string, place: Place): Remark | undefined {
  const findings = new Findings();
  const spelt = folder.spelling(file);
  if (spelt !== undefined && spelt !== file)
    findings.add('spelt-otherwise', place, { file, spelt, actual: file, expected: [spelt] });
  return remarksFrom(findings.all, () => place)[0];
}

/** A file that lies where nothing is published; pages are judged elsewhere. */
function unpublishedFault(file: string, place: Place, what: 'image' | 'link' | 'photo'): Remark | undefined {
  const findings = new Findings();
  if (!isPublishedFile(file) && !file.endsWith('.md'))
    findings.add('not-published', place, { what, file, actual: file });
  return remarksFrom(findings.all, () => place)[0];
}

/** Numbers of entries whose lots lead back to themselves, one for each ring. */
function inCycle(lotsOf: ReadonlyMap<number, ReadonlySet<number>>): number[] {
  const done = new Set<number>();
  const rings: number[] = [];
  for (const start of lotsOf.keys()) {
    if (done.has(start)) continue;
    const way: number[] = [start];
    const onWay = new Set(way);
    const left: Iterator<number>[] = [(lotsOf.get(start) ?? new Set<number>()).values()];
    while (way.length > 0) {
      const step = left.at(-1)?.next();
      if (!step || step.done) {
        left.pop();
        const finished = way.pop();
        if (finished !== undefined) {
          onWay.delete(finished);
          done.add(finished);
        }
      } else if (onWay.has(step.value)) rings.push(step.value);
      else if (!done.has(step.value)) {
        way.push(step.value);
        onWay.add(step.value);
        left.push((lotsOf.get(step.value) ?? new Set<number>()).values());
      }
    }
  }
  return [...new Set(rings)];
}
