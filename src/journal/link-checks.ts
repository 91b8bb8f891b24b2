// Where the links and images of a write-up lead.
import { posix } from 'node:path';
import { found, type Findings, type Found } from '../remarks/findings.js';
import { numberInName, type Catalogue } from './catalogue.js';
import type { Entry, Page } from './entry.js';
import { bodyLinks, shownAsWords, type BodyLink } from './links.js';
import { fileFault } from './named-files.js';
import { nearest } from './nearest.js';
import { isLeftOut } from './references.js';

/** Where a write-up stands, and what is known of the journal around it. */
interface Around {
  readonly catalogue: Catalogue;
  /** Files that exist, to which those that links lead to are added. */
  readonly files: Set<string>;
  /** The entry that the write-up is of; none for a page. */
  readonly entry?: Entry;
}

/** So much of a link is quoted in a sentence. */
const quoted = { link: 80, target: 120 } as const;

/** Looks at every link and image of a body. */
export function findInLinks(of: Entry | Page, around: Around, findings: Findings): void {
  for (const link of bodyLinks(of)) {
    const fault = link.relative ? relativeFault(link, around, of.file) : absoluteFault(link);
    if (fault) findings.take({ ...fault, where: { file: of.file, line: link.line, column: link.column } });
  }
  findShownAsWords(of, around, findings);
}

/** What was meant for a picture or a link and is words. */
function findShownAsWords(of: Entry | Page, { catalogue }: Around, findings: Findings): void {
  for (const link of shownAsWords(of)) {
    const { written, image, line, column } = link;
    const named = written.slice(0, quoted.link);
    const facts = { written: named, file: fileNamed(written, catalogue)?.split('/').at(-1), actual: named };
    const fault = image ? signsFault(link) : found('link-as-words', facts);
    findings.take({ ...fault, where: { file: of.file, line, column } });
  }
}

/** File of the entry that words name, by its title or its number: `entry 5`, `No. 5`. */
function fileNamed(words: string, { entries, byNumber, unread }: Catalogue): string | undefined {
  const plain = (one: string): string => one.trim().toLowerCase();
  const number = /^(?:entry|no\.?|nr\.?|number|#)?\s*(\d+)$/i.exec(words.trim())?.[1];
  if (number !== undefined)
    return byNumber.get(Number(number))?.file ?? unread.find((file) => numberInName(file) === Number(number));
  const whole = entries.find(({ title }) => plain(title) === plain(words));
  const near = whole
    ? undefined
    : nearest(
        words.trim(),
        entries.map(({ title }) => title),
      );
  return (whole ?? entries.find(({ title }) => title === near))?.file;
}

const signsFault = (link: BodyLink): Found => {
  const written = link.written.slice(0, quoted.link);
  return found('address-signs', { what: whatOf(link), written, actual: written });
};

const whatOf = ({ image }: BodyLink): 'image' | 'link' => (image ? 'image' : 'link');

/** A link to a web address, to a place on the page itself, or from the root of the site. */
function absoluteFault(link: BodyLink): Found | undefined {
  const written = link.written.slice(0, quoted.link);
  if (written === '') return found('empty-link', { what: whatOf(link) });
  const scheme = /^([a-z][a-z0-9+.-]*):/i.exec(link.written)?.[1]?.toLowerCase();
  if (scheme !== undefined && !['http', 'https', 'mailto'].includes(scheme))
    return found('link-scheme', { scheme, actual: written });
  if (link.image && scheme !== undefined) return found('image-elsewhere', { actual: written });
  return /^\/(?!\/)/.test(link.written)
    ? found('link-from-root', { what: whatOf(link), written, actual: written })
    : undefined;
}

/** A link to a file of the journal. */
function relativeFault(link: BodyLink, around: Around, file: string): Found | undefined {
  const { target } = link;
  if (target.startsWith('../') || target === '..' || target.includes('\\')) {
    const written = link.written.slice(0, quoted.link);
    return found('outside-journal', { of: whatOf(link), written, actual: written });
  }
  const { catalogue, files } = around;
  const linked = catalogue.byFile.get(target);
  if (linked) return entryFault(link, linked, around);
  if (catalogue.pageFiles.has(target) || catalogue.unreadFiles.has(target) || files.has(target)) return undefined;
  return fileLinkFault(link, around, file);
}

/** Other words after # lead to other parts of the page. */
const looksLikeSample = /^[A-Z][0-9]?$/;

function entryFault({ fragment, written }: BodyLink, linked: Entry, { catalogue, entry }: Around): Found | undefined {
  if (isLeftOut(linked, entry, catalogue))
    return found('link-to-draft', { of: 'link', entry: linked.number, status: linked.status, actual: written });
  const samples = linked.samples.map(({ sample }) => sample);
  if (fragment === undefined || !looksLikeSample.test(fragment) || samples.includes(fragment)) return undefined;
  const facts = { lacks: 'sample', entry: linked.number, sample: fragment, samples } as const;
  return found('dangling-link', { ...facts, actual: written, expected: samples });
}

/** A link to a file that is neither entry nor page. */
function fileLinkFault(link: BodyLink, { catalogue, files }: Around, file: string): Found | undefined {
  const { target } = link;
  const fault = fileFault(catalogue.folder, target, whatOf(link));
  if (fault && fault.rule !== 'missing-file') return fault;
  if (!fault && !target.endsWith('.md')) {
    files.add(target);
    return undefined;
  }
  const facts = {
    what: whatOf(link),
    target: target.slice(0, quoted.target),
    actual: link.written.slice(0, quoted.target),
  };
  if (!fault) return found('dangling-link', { lacks: 'page', ...facts });
  if (/[#?%]/.test(link.written) && catalogue.folder.find(asItIsWritten(link, target)).kind === 'file')
    return signsFault(link);
  const near = meantBy(target, catalogue);
  const meant =
    near === undefined ? {} : { near, address: posix.relative(posix.dirname(file), near), expected: [near] };
  return found('dangling-link', { lacks: 'file', ...facts, ...meant });
}

/** The path that an address would mean if none of its signs had a meaning. */
function asItIsWritten({ written }: BodyLink, target: string): string {
  const folders = target.split('/').slice(0, -1);
  return [...folders, written.split('/').at(-1)!].join('/');
}

/** The file that was probably meant: that of the same number, or of a name much like it. */
function meantBy(target: string, { byNumber, byFile, pageFiles }: Catalogue): string | undefined {
  if (/(?:^|\/)\d/.test(target)) return byNumber.get(numberInName(target))?.file;
  return target.endsWith('.md') ? nearest(target, [...byFile.keys(), ...pageFiles]) : undefined;
}
