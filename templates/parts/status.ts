// What became of the work, in words: the band above a page, the mark in a list and in search.
import type { EntryLink } from '../../src/crosslinks/model.js';

/** What a reader must know before anything else on the page, by status; finished work needs no word. */
const bands: Readonly<Record<string, string>> = {
  planned: 'Planned: nothing on this page has been done yet.',
  running: 'Running: this work is not finished, and what stands here may change.',
  failed: 'Failed: this did not give what it was meant to give. It is told as it went.',
  abandoned: 'Not done: this was given up, and nothing here is ready to be followed.',
  withdrawn:
    'Withdrawn: this entry is kept so that links to it still lead somewhere, but its results should not be used.',
};

/** The band above everything; undefined for finished work. */
export const statusBandWords = (status: string): string | undefined => bands[status];

/** Characters of a reason that a list has room for. */
const longestReason = 90;

function shortened(reason: string): string {
  const sentence = /^.*?[.!?](?=\s|$)/s.exec(reason)?.[0] ?? reason;
  const plain = sentence.replace(/[.\s]+$/, '');
  if (plain.length <= longestReason) return plain;
  return `${plain.slice(0, longestReason).replace(/\s+\S*$/, '')} …`;
}

/**
 * The mark of an entry in lists and in search; empty for finished work.
 * @example statusMark({ status: 'abandoned', why: 'There is no fume hood.' }) // 'not done: There is no fume hood'
 */
export function statusMark({ status, why }: Pick<EntryLink, 'status' | 'why'>): string {
  switch (status) {
    case 'finished':
      return '';
    case 'abandoned':
      return `not done: ${why === undefined ? 'given up' : shortened(why)}`;
    case 'failed':
      return why === undefined ? 'failed' : `failed: ${shortened(why)}`;
    case 'planned':
      return 'not done: planned';
    default:
      return status;
  }
}

/** The same in a word, for a link: an entry is not taken for finished work where only its title stands. */
export const statusWord = ({ status }: Pick<EntryLink, 'status'>): string =>
  ({ finished: '', abandoned: 'not done', planned: 'not done' })[status as string] ?? status;
