// The register of published addresses: once an entry, a sample, a reagent, a page, a series or a colour has an address,
// it keeps it.
import { onceFor } from '../once.js';
import { Findings, remarksFrom } from '../remarks/findings.js';
import type { Place, Remark } from '../remarks/remark.js';
import { isDraft, type Entry, type Journal, type Page, type Shelf } from './entry.js';
import { placeOf } from './place.js';

export const registerFile = 'register.txt';

/** Addresses of an entry and its samples: `/14/`, `/14/#A`. */
const addressesOf = (entry: Entry): string[] => [
  `/${entry.number}/`,
  ...entry.samples.map(({ sample }) => `/${entry.number}/#${sample}`),
];

/** Entry number and sample of an address; no sample for the entry's own. */
interface EntryParts {
  readonly number: number;
  readonly sample: string;
}

/** Undefined where the address is not an entry's. */
function partsOf(address: string): EntryParts | undefined {
  const [, number, sample = ''] = /^\/(\d+)\/(?:#(.*))?$/.exec(address) ?? [];
  return number === undefined ? undefined : { number: Number(number), sample };
}

/** Addresses, each once: entries by number, then by sample; after them all others. */
export function sortedAddresses(addresses: Iterable<string>): string[] {
  const byText = (a: string, b: string): number => Number(a > b) - Number(a < b);
  return [...new Set(addresses)].sort((a, b) => {
    const [one, other] = [partsOf(a), partsOf(b)];
    if (!one || !other) return one || other ? Number(!one) - Number(!other) : byText(a, b);
    return one.number - other.number || byText(one.sample, other.sample);
  });
}

/** What of a journal has an address that is kept, besides entries and samples. */
export interface OtherAddresses {
  readonly pages: readonly Pick<Page, 'name' | 'movedFrom'>[];
  readonly shelf: Pick<Shelf, 'reagents'>;
}

const reagentAddress = (id: string): string => `/reagents/${id}/`;
const pageAddress = (name: string): string => `/${name}/`;

/** Addresses of reagents and pages, those that they had before among them. */
const addressesBesides = ({ pages, shelf }: OtherAddresses): string[] => [
  ...[...shelf.reagents].flatMap(([id, jar]) => [id, ...(jar['moved-from'] ?? [])].map(reagentAddress)),
  ...pages.flatMap(({ name, movedFrom = [] }) => [name, ...movedFrom].map(pageAddress)),
];

/**
 * The register after publishing this journal: all that was in it, and every address the journal now publishes.
 * @param gathered addresses of what follows from entries: series, colours
 * @example extendRegister(['/1/'], journal) // ['/1/', '/2/', '/2/#A']
 */
export function extendRegister(
  register: readonly string[],
  journal: Pick<Journal, 'entries'> & OtherAddresses,
  gathered: readonly string[] = [],
): string[] {
  const ofEntries = journal.entries.filter((entry) => !isDraft(entry)).flatMap(addressesOf);
  return sortedAddresses([...register, ...ofEntries, ...addressesBesides(journal), ...gathered]);
}

/** A page of what entries share: `/series/Co/`, `/colours/green/`. It comes and goes with them, its address stays. */
const gatheredPattern = /^\/(series|colours)\/[A-Za-z-]{1,40}\/$/;
/** Whether an address is that of a series or a colour. @example isGathered('/series/Co/') // true */
export const isGathered = (address: string): boolean => gatheredPattern.test(address);

/**
 * The register as the text of its file: how many addresses there are, so that a file cut short is known, then each on a
 * line.
 */
export const registerText = (register: readonly string[]): string =>
  [
    `# ${register.length} ${register.length === 1 ? 'address' : 'addresses'} ` +
      `published by masstone, for ever. Keep this file.`,
    ...register,
    '',
  ].join('\n');

const entryPattern = /^\/[1-9]\d{0,5}\/(?:#[A-Za-z0-9](?:[A-Za-z0-9-]{0,30}[A-Za-z0-9])?)?$/;
const reagentPattern = /^\/reagents\/([a-z0-9]+(?:-[a-z0-9]+)*)\/$/;
const pagePattern = /^\/(?!\d+\/)([\p{L}\p{N}](?:[\p{L}\p{N}_-]*[\p{L}\p{N}])?)\/$/u;
const isAddress = (text: string): boolean =>
  [entryPattern, reagentPattern, pagePattern, gatheredPattern].some((pattern) => pattern.test(text));
/** The first line, as `registerText` writes it. */
const countPattern = /^# (\d{1,9}) address/;
/** No more lines that are no address are remarked than this. */
const wrongAtMost = 10;

export interface RegisterReading {
  /** Sorted. */
  readonly register: readonly string[];
  /** Line of each address in the file. */
  readonly lines: ReadonlyMap<string, number>;
  readonly remarks: Remark[];
}

const lineOf = (line: number): Place => ({ file: registerFile, line, column: 1 });

/** Reads the register's file: one address a line; empty lines and lines that begin with # are passed over. */
export function readRegister(text: string): RegisterReading {
  const lines = new Map<string, number>();
  const findings = new Findings();
  let wrong = 0;
  for (const [index, line] of text.split(/\r?\n/).entries()) {
    const address = line.trim();
    if (address === '' || address.startsWith('#')) continue;
    if (isAddress(address)) lines.set(address, index + 1);
    else if ((wrong += 1) <= wrongAtMost) {
      const shown = address.slice(0, 60);
      findings.add('register', lineOf(index + 1), {
        line: shown,
        actual: shown,
        expected: ['/14/', '/14/#A', '/reagents/lye/'],
      });
    }
  }
  const said = countPattern.exec(text)?.[1];
  if (text.trim() === '') findings.add('register-cut', lineOf(1), { there: 0 });
  else if (lines.size < Number(said ?? 0))
    findings.add('register-cut', lineOf(1), { said: Number(said), there: lines.size });
  return { register: sortedAddresses(lines.keys()), lines, remarks: remarksFrom(findings.all) };
}

/** A register that has not changed is the same in the next reading of its journal. */
const partsInRegister = onceFor((register: readonly string[]) =>
  register.map((address) => [address, partsOf(address)] as const),
);

/** A journal whose register is looked at. */
type Registered = Pick<Journal, 'entries' | 'register'> & OtherAddresses;

/** No more things that an address may have become are named than this. */
const namedAtMost = 3;
/** What is new in the journal and could be what went; none where it is too much to be told. */
const fewOf = <T>(some: readonly T[]): readonly T[] => (some.length > namedAtMost ? [] : some);

/** Puts together what is lost of a journal. */
class Losses {
  readonly findings = new Findings();
  private readonly registered: ReadonlySet<string>;
  private readonly entries: ReadonlyMap<number, Entry>;
  private readonly unreadNumbers: ReadonlySet<number>;
  private readonly unreadFiles: ReadonlySet<string>;
  private readonly others: ReadonlySet<string>;
  private readonly told = new Set<number>();

  constructor(
    private readonly journal: Registered,
    unread: readonly string[],
    private readonly placeOfAddress: (address: string) => Place,
  ) {
    this.registered = new Set(journal.register);
    this.entries = new Map(journal.entries.map((entry) => [entry.number, entry]));
    const ofEntries = unread.filter((file) => file.startsWith('entries/'));
    this.unreadNumbers = new Set(ofEntries.map((file) => Number(/(?:^|\/)0*(\d+)[^/]*$/.exec(file)?.[1])));
    this.unreadFiles = new Set(unread);
    this.others = new Set(addressesBesides(journal));
  }

  take(address: string, parts: EntryParts | undefined): void {
    if (parts) this.takeOfEntry(address, parts);
    else if (!this.others.has(address) && !isGathered(address)) this.takeOther(address);
  }

  private takeOfEntry(address: string, { number, sample }: EntryParts): void {
    const entry = this.entries.get(number);
    if (this.unreadNumbers.has(number) || this.told.has(number)) return;
    if (!entry) {
      this.told.add(number);
      const isNew = (one: Entry): boolean => !isDraft(one) && !this.registered.has(`/${one.number}/`);
      const added = fewOf(this.journal.entries.filter(isNew));
      const renumbered = added.map((one) => ({ file: one.file, number: one.number }));
      const where = this.placeOfAddress(address);
      this.findings.add('address-lost', where, { lost: 'entry', number, renumbered, actual: address });
    } else if (isDraft(entry)) {
      this.told.add(number);
      const { status } = entry;
      const facts = { lost: 'draft', number, status, actual: status, expected: ['finished', 'withdrawn'] } as const;
      this.findings.add('address-lost', placeOf(entry, ['status']), facts);
    } else if (sample !== '' && entry.status !== 'withdrawn' && !entry.samples.some((one) => one.sample === sample)) {
      const place = placeOf(entry, ['samples'], 'key');
      const now = entry.samples.map((one) => one.sample);
      const renamed = fewOf(now.filter((one) => !this.registered.has(`/${number}/#${one}`)));
      this.findings.add('address-lost', place, { lost: 'sample', number, sample, renamed, actual: address });
    }
  }

  /** A reagent or a page. */
  private takeOther(address: string): void {
    const { pages, shelf } = this.journal;
    const where = this.placeOfAddress(address);
    const id = reagentPattern.exec(address)?.[1];
    const isNew = (one: string): boolean => !this.registered.has(one);
    if (id !== undefined) {
      if (this.unreadFiles.has('shelf.yaml')) return;
      const added = fewOf([...shelf.reagents.keys()].filter((one) => isNew(reagentAddress(one))));
      this.findings.add('address-lost', where, { lost: 'reagent', id, added, actual: address });
      return;
    }
    const name = pagePattern.exec(address)?.[1] ?? '';
    if (this.unreadFiles.has(`pages/${name}.md`)) return;
    const added = fewOf(pages.map((one) => one.name).filter((one) => isNew(pageAddress(one))));
    this.findings.add('address-lost', where, { lost: 'page', name, added, actual: address });
  }
}

/**
 * An error for every published address that the journal would lose: addresses are for ever. Those of series and colours
 * are kept by the publication itself.
 * @param unread files that could not be read; addresses that are theirs by their names are passed over
 * @param lines line of each address in the register's file
 */
export function registerRemarks(
  journal: Registered,
  unread: readonly string[] = [],
  lines: ReadonlyMap<string, number> = new Map(),
): Remark[] {
  const losses = new Losses(journal, unread, (address) => lineOf(lines.get(address) ?? 1));
  for (const [address, parts] of partsInRegister(journal.register)) losses.take(address, parts);
  return remarksFrom(losses.findings.all);
}
