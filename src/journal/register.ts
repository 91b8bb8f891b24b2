// The register of published addresses: once an entry or a sample has an address, it keeps it.
import { Findings, remarksFrom } from '../remarks/findings.js';
import type { Place, Remark } from '../remarks/remark.js';
import { isDraft, type Entry, type Journal } from './entry.js';
import { placeOf } from './place.js';

export const registerFile = 'register.txt';

/** Addresses of an entry and its samples: `/14/`, `/14/#A`. */
const addressesOf = (entry: Entry): string[] => [
  `/${entry.number}/`,
  ...entry.samples.map(({ sample }) => `/${entry.number}/#${sample}`),
];

/** Entry number and sample of an address; no sample for the entry's own. */
const partsOf = (address: string): { readonly number: number; readonly sample: string } => {
  const [, number = '0', sample = ''] = /^\/(\d+)\/(?:#(.*))?$/.exec(address) ?? [];
  return { number: Number(number), sample };
};

/** Addresses, each once, by entry number, then by sample. */
export function sortedAddresses(addresses: Iterable<string>): string[] {
  return [...new Set(addresses)].sort((a, b) => {
    const [one, other] = [partsOf(a), partsOf(b)];
    if (one.number !== other.number) return one.number - other.number;
    if (one.sample === other.sample) return 0;
    return one.sample < other.sample ? -1 : 1;
  });
}

/**
 * The register after publishing this journal: all that was in it, and every address the journal now publishes.
 * @example extendRegister(['/1/'], journal) // ['/1/', '/2/', '/2/#A']
 */
export function extendRegister(register: readonly string[], journal: Pick<Journal, 'entries'>): string[] {
  return sortedAddresses([...register, ...journal.entries.filter((entry) => !isDraft(entry)).flatMap(addressesOf)]);
}

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

const addressPattern = /^\/[1-9]\d{0,5}\/(?:#[A-Za-z0-9](?:[A-Za-z0-9-]{0,30}[A-Za-z0-9])?)?$/;
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
    if (addressPattern.test(address)) lines.set(address, index + 1);
    else if ((wrong += 1) <= wrongAtMost) {
      const shown = address.slice(0, 60);
      findings.add('register', lineOf(index + 1), { line: shown, actual: shown, expected: ['/14/', '/14/#A'] });
    }
  }
  const said = countPattern.exec(text)?.[1];
  if (text.trim() === '') findings.add('register-cut', lineOf(1), { there: 0 });
  else if (lines.size < Number(said ?? 0))
    findings.add('register-cut', lineOf(1), { said: Number(said), there: lines.size });
  return { register: sortedAddresses(lines.keys()), lines, remarks: remarksFrom(findings.all) };
}

/**
 * An error for every published address that the journal would lose: addresses are for ever.
 * @param unread entry files that could not be read; addresses that are theirs by their names are passed over
 * @param lines line of each address in the register's file
 */
export function registerRemarks(
  journal: Pick<Journal, 'entries' | 'register'>,
  unread: readonly string[] = [],
  lines: ReadonlyMap<string, number> = new Map(),
): Remark[] {
  const entries = new Map(journal.entries.map((entry) => [entry.number, entry]));
  const unreadNumbers = new Set(unread.map((file) => Number(/(?:^|\/)0*(\d+)[^/]*$/.exec(file)?.[1])));
  const findings = new Findings();
  const lost = new Set<number>();
  for (const address of journal.register) {
    const { number, sample } = partsOf(address);
    const entry = entries.get(number);
    if (unreadNumbers.has(number) || lost.has(number)) continue;
    if (!entry) {
      lost.add(number);
      findings.add('address-lost', lineOf(lines.get(address) ?? 1), { lost: 'entry', number, actual: address });
    } else if (isDraft(entry)) {
      lost.add(number);
      const { status } = entry;
      const expected = ['finished', 'withdrawn'];
      findings.add('address-lost', placeOf(entry, ['status']), {
        lost: 'draft',
        number,
        status,
        actual: status,
        expected,
      });
    } else if (sample !== '' && entry.status !== 'withdrawn' && !entry.samples.some((one) => one.sample === sample)) {
      const place = placeOf(entry, ['samples'], 'key');
      findings.add('address-lost', place, { lost: 'sample', number, sample, actual: address });
    }
  }
  return remarksFrom(findings.all);
}
