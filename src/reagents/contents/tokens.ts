// A phrase cut into words, with brackets, commas and signs that join.
import { inEnglish, mayBeginForeign } from '../other-languages.js';
import { meaningOf, phraseWordOf } from './lexicon.js';
import { waterInWords } from '../salt-names.js';
import { misspeltWordsTable } from '../../tables/compiled/reagents/contents/misspelt-words.js';
import { usesIn } from './uses-in-words.js';

export type Token =
  | { readonly kind: 'word'; readonly text: string; readonly depth: number }
  | { readonly kind: 'comma' | 'open' | 'close'; readonly depth: number };

/** `copper (II) sulfate`: the oxidation state belongs to the word before. */
const oxidationStates = /\s\((i|ii|iii|iv|v|vi|vii)\)/gi;
const opening = '([';
const closing = ')]';

/** Where the bracket that opens at a place closes; -1 where it does not. */
function closeOf(text: string, start: number): number {
  let depth = 0;
  for (let at = start; at < text.length; at += 1) {
    if (opening.includes(text[at]!)) depth += 1;
    if (closing.includes(text[at]!)) depth -= 1;
    if (depth === 0) return at;
  }
  return -1;
}

/** A bracket about words, and none of a formula: it stands apart from what is before and behind it. */
function isAboutWords(text: string, start: number): boolean {
  const before = text[start - 1] ?? ' ';
  const end = closeOf(text, start);
  return /[\s,;]/.test(before) && !/[A-Za-z0-9]/.test(text[end + 1] ?? ' ');
}

/** The brackets about words set apart as `⟦` and `⟧`. */
function withBracketsApart(text: string): string {
  if (!/[([]/.test(text)) return text;
  const ends = new Set<number>();
  let apart = '';
  for (let at = 0; at < text.length; at += 1) {
    const sign = text[at]!;
    if (opening.includes(sign) && isAboutWords(text, at)) {
      ends.add(closeOf(text, at));
      apart += ' ⟦ ';
    } else apart += ends.has(at) ? ' ⟧ ' : sign;
  }
  return apart;
}

let misspelt: ReadonlyMap<string, { readonly meant: string; readonly unlessBefore?: string }> | undefined;

/** `amonia`: what everybody misspells, as it is meant. */
function spelt(text: string, next: string | undefined): string {
  misspelt ??= new Map(
    misspeltWordsTable().map(({ word, meant, unless_before: unlessBefore }) => [
      word,
      { meant, ...(unlessBefore !== undefined && { unlessBefore }) },
    ]),
  );
  const found = misspelt.get(text.toLowerCase());
  return found && (found.unlessBefore === undefined || next?.toLowerCase() !== found.unlessBefore) ? found.meant : text;
}

/** Words in the longest name of another language. */
const longestForeign = 5;

const isKnown = (text: string): boolean => phraseWordOf(text) !== undefined || meaningOf(text) !== undefined;
/** Known by itself, and not only as a name of another language. */
const isEnglish = (text: string): boolean => phraseWordOf(text) !== undefined || meaningOf(text)?.kind === 'product';

/** The words of another language that begin at a place, in English, and how many they are. */
function foreignAt(
  tokens: readonly Token[],
  at: number,
): { readonly english: string; readonly words: number } | undefined {
  const first = tokens[at]!;
  if (first.kind !== 'word' || (!mayBeginForeign(first.text) && inEnglish(first.text) === undefined)) return undefined;
  const texts: string[] = [];
  for (const token of tokens.slice(at, at + longestForeign)) {
    if (token.kind !== 'word') break;
    texts.push(token.text);
  }
  const windows = texts.map((_, last) => texts.slice(0, last + 1).join(' ')).reverse();
  const place = windows.findIndex((text) => inEnglish(text) !== undefined);
  const text = windows[place];
  // `blanc fixe` has a name of its own, and is not what is white.
  if (text === undefined || isEnglish(text) || windows.slice(0, place).some(isKnown)) return undefined;
  return { english: inEnglish(text)!, words: windows.length - place };
}

/** Names and words of other languages, in English. */
function translated(tokens: readonly Token[]): readonly Token[] {
  const found: Token[] = [];
  for (let at = 0; at < tokens.length; ) {
    const foreign = foreignAt(tokens, at);
    const { depth } = tokens[at]!;
    if (foreign) found.push(...foreign.english.split(' ').map((text): Token => ({ kind: 'word', text, depth })));
    else found.push(tokens[at]!);
    at += foreign?.words ?? 1;
  }
  return found;
}

/** What only its use tells is called by its name: `the stuff for the drains`. */
function withUsesNamed(tokens: readonly Token[]): readonly Token[] {
  const uses = usesIn(tokens.map((token) => (token.kind === 'word' ? token.text : undefined)));
  return uses.reduceRight<readonly Token[]>((named, { from, to, product }) => {
    const { depth } = named[from]!;
    const words = product.split(' ').map((text): Token => ({ kind: 'word', text, depth }));
    return [...named.slice(0, from), ...words, ...named.slice(to)];
  }, tokens);
}

/**
 * The words of a phrase in their order.
 * @example tokensOf('drain opener (sulfuric acid), cold').length // 8
 */
export function tokensOf(phrase: string): readonly Token[] {
  const tokens: Token[] = [];
  let depth = 0;
  const plain = withBracketsApart(
    waterInWords(phrase)
      .replace(/[“”"!?]/g, ' ')
      .replace(oxidationStates, '($1)'),
  )
    .replace(/\s[-–—]\s/g, ', ')
    .replace(
      /(?<=[a-z])-(?=(?:based|soaked|coated|rich|containing|stained|filled|covered|dipped|impregnated)\b)/gi,
      ' ',
    )
    .replace(/(?<=[a-z]{3})\/(?=[a-z]{3})/gi, ' and ')
    .replace(/\s*([+&])\s*(?=[A-Za-z])/g, ' $1 ');
  const pieces = plain.split(/\s+/).filter(Boolean);
  for (const [at, piece] of pieces.entries()) {
    if (piece === '⟦') tokens.push({ kind: 'open', depth: (depth += 1) });
    else if (piece === '⟧') tokens.push({ kind: 'close', depth: (depth = Math.max(0, depth - 1)) });
    else {
      const text = spelt(piece.replace(/[,;:.]+$/, ''), pieces[at + 1]);
      if (text !== '') tokens.push({ kind: 'word', text, depth });
      if (/[,;:]$/.test(piece)) tokens.push({ kind: 'comma', depth });
    }
  }
  return translated(withUsesNamed(tokens));
}
