// How an entry is cited: in words, as BibTeX and as CSL-JSON.
import { longDate } from '../dates.js';

/** What a citation is made of. */
export interface Citable {
  readonly author: string;
  readonly title: string;
  readonly journal: string;
  readonly number: number;
  /** `2026-03-14` */
  readonly date: string;
  /** Absolute address. */
  readonly url: string;
  readonly language: string;
  /** Why it was withdrawn. */
  readonly withdrawn?: string;
}

const withdrawnWords = ({ withdrawn }: Citable): string => (withdrawn === undefined ? '' : 'Withdrawn');

/** `Copperas Lane` and 4 → `copperas-lane-4`: letters and digits that every program takes. */
export function citationKey({ journal, number }: Pick<Citable, 'journal' | 'number'>): string {
  const name = journal
    .normalize('NFKD')
    .toLowerCase()
    .replace(/\p{M}/gu, '')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return `${name || 'entry'}-${number}`;
}

const withStop = (words: string): string => (/[.!?…]$/.test(words) ? words : `${words}.`);

/**
 * In words, in the order of a list of references.
 * @example citationWords(one) // 'A. Maker (2026). Malachite. Copperas Lane, entry 4, 14 March 2026. https://…'
 */
export function citationWords(one: Citable): string {
  const of = `${one.journal}, entry ${one.number}, ${longDate(one.date)}.`;
  const state = withdrawnWords(one);
  return [`${one.author} (${one.date.slice(0, 4)}).`, withStop(one.title), of, state && `${state}.`, one.url]
    .filter(Boolean)
    .join(' ');
}

const inBibtex: Readonly<Record<string, string>> = {
  '\\': '\\textbackslash{}',
  '{': '\\{',
  '}': '\\}',
  '&': '\\&',
  '%': '\\%',
  $: '\\$',
  '#': '\\#',
  _: '\\_',
  '~': '\\textasciitilde{}',
  '^': '\\textasciicircum{}',
};

/** Words as a BibTeX value: signs that mean something to TeX are written out, control characters left out. */
const bibtexWords = (words: string): string =>
  words
    .replace(/\p{Cc}+/gu, ' ')
    .replace(/[\\{}&%$#_~^]/g, (sign) => inBibtex[sign]!)
    .trim();

/** One BibTeX entry; author and title stand in two pairs of braces, so that no program recases or inverts them. */
export function bibtex(one: Citable): string {
  const [year, month, day] = one.date.split('-');
  const state = withdrawnWords(one);
  const fields: readonly (readonly [string, string])[] = [
    ['author', `{${bibtexWords(one.author)}}`],
    ['title', `{${bibtexWords(one.title)}}`],
    ['howpublished', `${bibtexWords(one.journal)}, entry ${one.number}`],
    ['year', year ?? ''],
    ['month', String(Number(month))],
    ...(day === undefined ? [] : [['day', String(Number(day))] as const]),
    // An address is taken as it stands; what would end the value or begin a remark is written as addresses write it.
    ['url', one.url.replace(/[{}\\%\s]/g, (sign) => (sign === '%' ? '%' : encodeURIComponent(sign)))],
    ['language', one.language],
    ...(state ? [['note', state] as const] : []),
  ];
  const lines = fields.map(([name, value]) => `  ${name} = {${value}},`);
  return [`@misc{${citationKey(one)},`, ...lines, '}', ''].join('\n');
}

/** The CSL-JSON item, in a list as programs read it; schema: CSL data 1.0, citationstyles.org, from memory. */
export function cslJson(one: Citable): readonly Record<string, unknown>[] {
  const state = withdrawnWords(one);
  return [
    {
      id: citationKey(one),
      type: 'webpage',
      title: one.title,
      author: [{ literal: one.author }],
      'container-title': one.journal,
      number: String(one.number),
      issued: { 'date-parts': [one.date.split('-').map(Number)] },
      URL: one.url,
      language: one.language,
      ...(state && { status: state, note: state }),
    },
  ];
}
