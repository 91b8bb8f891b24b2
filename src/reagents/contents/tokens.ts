// A phrase cut into words, with brackets, commas and signs that join.
import { misspeltWordsTable } from '../../tables/compiled/reagents/contents/misspelt-words.js';

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

/**
 * The words of a phrase in their order.
 * @example tokensOf('drain opener (sulfuric acid), cold').length // 8
 */
export function tokensOf(phrase: string): readonly Token[] {
  const tokens: Token[] = [];
  let depth = 0;
  const plain = withBracketsApart(phrase.replace(/[“”"!?]/g, ' ').replace(oxidationStates, '($1)'))
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
  return tokens;
}
