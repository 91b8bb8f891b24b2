// The register of published addresses: once an entry or a sample has an address, it keeps it.
import type { Journal } from './entry.js';
import { placeOf } from './place.js';
import { remark, type Remark } from './remarks.js';

export const registerFile = 'register.txt';

/** Addresses of an entry and its samples: `/14/`, `/14/#A`. */
const addressesOf = (entry: Journal['entries'][number]): string[] => [
  `/${entry.number}/`,
  ...entry.samples.map(({ sample }) => `/${entry.number}/#${sample}`),
];

const order = (address: string): [number, string] => {
  const [, number = '0', sample = ''] = /^\/(\d+)\/(?:#(.*))?$/.exec(address) ?? [];
  return [Number(number), sample];
};

/** Sorted by entry number, then by sample. */
function sorted(addresses: Iterable<string>): string[] {
  return [...new Set(addresses)].sort((a, b) => {
    const [numberA, sampleA] = order(a);
    const [numberB, sampleB] = order(b);
    if (numberA !== numberB) return numberA - numberB;
    if (sampleA === sampleB) return 0;
    return sampleA < sampleB ? -1 : 1;
  });
}

/**
 * The register after publishing this journal: all that was in it, and every address the journal now publishes.
 * @example extendRegister(['/1/'], journal) // ['/1/', '/2/', '/2/#A']
 */
export function extendRegister(register: readonly string[], journal: Pick<Journal, 'entries'>): string[] {
  return sorted([
    ...register,
    ...journal.entries.filter(({ status }) => status === 'finished' || status === 'withdrawn').flatMap(addressesOf),
  ]);
}

/** The register as the text of its file. */
export const registerText = (register: readonly string[]): string => `${register.join('\n')}\n`;

const addressPattern = /^\/[1-9]\d{0,5}\/(?:#[A-Za-z0-9](?:[A-Za-z0-9-]{0,30}[A-Za-z0-9])?)?$/;

/** Reads the register's file: one address a line; lines that begin with a space or are empty are passed over. */
export function readRegister(text: string): { readonly register: readonly string[]; readonly remarks: Remark[] } {
  const register: string[] = [];
  const remarks: Remark[] = [];
  for (const [index, line] of text.split(/\r?\n/).entries()) {
    const address = line.trim();
    if (address === '') continue;
    if (addressPattern.test(address)) register.push(address);
    else if (remarks.length < 10)
      remarks.push(
        remark({
          place: { file: registerFile, line: index + 1, column: 1 },
          severity: 'error',
          rule: 'register',
          found: `'${address.slice(0, 60)}' is not an address of an entry or a sample.`,
          actual: address.slice(0, 60),
          expected: ['/14/', '/14/#A'],
          cure: 'This file is written by `masstone publish`; take the line out, or fetch the file back from your last copy.',
        }),
      );
  }
  return { register: sorted(register), remarks };
}

/**
 * An error for every published address that the journal would lose: addresses are for ever.
 * @param unread entry files that could not be read; addresses that are theirs by their names are passed over
 */
export function registerRemarks(
  journal: Pick<Journal, 'entries' | 'register'>,
  unread: readonly string[] = [],
): Remark[] {
  const now = new Map(journal.entries.map((entry) => [entry.number, entry]));
  const unreadNumbers = new Set(unread.map((file) => Number(/(?:^|\/)0*(\d+)[^/]*$/.exec(file)?.[1])));
  const remarks: Remark[] = [];
  const lost = new Set<number>();
  for (const [index, address] of journal.register.entries()) {
    const [number, sample] = order(address);
    const entry = now.get(number);
    if (unreadNumbers.has(number) || lost.has(number)) continue;
    if (!entry) {
      lost.add(number);
      remarks.push(
        remark({
          place: { file: registerFile, line: index + 1, column: 1 },
          severity: 'error',
          rule: 'address-lost',
          found: `Entry ${number} is published at /${number}/, and is not in the journal any more.`,
          actual: address,
          cure: 'Bring its file back, and write status: withdrawn in it if it should not stand.',
        }),
      );
    } else if (entry.status === 'planned' || entry.status === 'running') {
      lost.add(number);
      remarks.push(
        remark({
          place: placeOf(entry, ['status']),
          severity: 'error',
          rule: 'address-lost',
          found: `Entry ${number} is published at /${number}/, and would go, since its status is ${entry.status}.`,
          actual: entry.status,
          expected: ['finished', 'withdrawn'],
          cure: 'Write status: finished, or status: withdrawn if it should not stand.',
        }),
      );
    } else if (sample !== '' && entry.status !== 'withdrawn' && !entry.samples.some((one) => one.sample === sample)) {
      remarks.push(
        remark({
          place: placeOf(entry, ['samples'], 'key'),
          severity: 'error',
          rule: 'address-lost',
          found: `Sample ${sample} of entry ${number} is published at ${address}, and is not there any more.`,
          actual: address,
          cure: `Bring sample ${sample} back, or write status: withdrawn for the entry.`,
        }),
      );
    }
  }
  return remarks;
}
