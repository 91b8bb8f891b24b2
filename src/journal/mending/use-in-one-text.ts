// What goes into an entry, written in one text instead of under keys: `50 ml of 10 % ammonia`.
import { rangesInSigns } from '../../chemistry/quantity/index.js';
import { once } from '../../once.js';
import { putInWordsTable } from '../../tables/compiled/journal/mending/put-in-words.js';
import {
  grAsGrams,
  isAmount,
  multipliedOut,
  readReagentText,
  toldTwice,
  withPlainPoints,
} from '../../reagents/index.js';
import { digitsMeant, withoutMarks } from './slips-in-amounts.js';
import type { Use } from '../schema.js';

/** Lists of what goes in. */
export const listsOfUses: ReadonlySet<unknown> = new Set(['reagents', 'add', 'change']);

/** A use as its keys say it. */
export type UseWritten = {
  readonly [key in 'reagent' | 'lot' | 'amount' | 'strength' | 'purity' | 'density']?: string;
};

/** Quotes about a name, and the hyphen between it and its amount: `“alum” - 2 cups`. */
const withoutSigns = (text: string): string =>
  text
    .replace(/[„«]\s?|\s?[”»]|[“‟]/g, '')
    // `30 ml d’eau`, `5 g di allume`
    .replace(/(?<=\d\s?(?:[mcd]?l|[mk]?g))\s+(?:de\s|di\s|d['’])\s*/i, ' ')
    // `g 9.49 potash alum`
    .replace(/^(mg|kg|g|ml|mL|l|L)\.?\s+(\d+(?:[.,]\d+)?)(?=\s|$)/, '$2 $1')
    .replace(/(?<=[\s,])prob(?:ably)?\.?\s+(?=\d)/i, '~')
    .replace(/\s+[-–—]\s+(?=[\d.]|(?:an?|one|half|some|ein|eine|un|une)\s)/i, ' ');

/**
 * A use as its keys would say it; what tells more than they can hold keeps all its words in the name. Undefined for a
 * text that is none of a reagent.
 * @example useInOneText('50 ml of 10% ammonia') // { reagent: 'ammonia', amount: '50 ml', strength: '10%' }
 */
export function useInOneText(written: string): UseWritten | undefined {
  const unmarked = withoutMarks(written);
  const twice = toldTwice(unmarked);
  if (twice?.differs !== undefined) return undefined;
  const text = rangesInSigns(twice?.line ?? unmarked);
  if (digitsMeant(text) !== undefined) return undefined;
  const plain = grAsGrams(withPlainPoints(withoutSigns(text.replace(/\s*\?+\s*$/, ''))));
  const read = readReagentText(plain);
  if (!read.ok) return undefined;
  const { name, formula, amount, strength, purity, density, unused = [], state = [] } = read.value;
  // `sodium carbonate (anhydrous)`: what stands in brackets behind a name belongs to it.
  const isStateLost = state.some((word) => text.toLowerCase().includes(`(${word}`));
  if (unused.length > 0 || formula !== undefined || isStateLost)
    return withAllWords(text, multipliedOut(plain), amount && amountWritten(amount));
  return {
    [lotName.test(name) ? 'lot' : 'reagent']: name,
    ...(amount && { amount: amountWritten(amount) }),
    ...(strength && { strength: strength.written }),
    ...(purity && { purity: purity.written }),
    ...(density && { density: density.written }),
  };
}

/** Only the amount goes under its own key, where it stands at one end. */
function withAllWords(text: string, plain: string, amount: string | undefined): UseWritten {
  if (amount === undefined) return { reagent: text };
  const before = beforeAtEnd(plain, amount) ?? aroundAmount(plain, amount);
  const name = before ?? (plain.startsWith(amount) ? plain.slice(amount.length).replace(/^\s*of\s+/, ' ') : plain);
  const bare = name.trim().replace(/^[,;:]\s*|[\s,;:]+$|\s[-–—]$/g, '');
  return bare === '' || name === plain ? { reagent: text } : { reagent: bare, amount };
}

/** What stands before an amount at the end, with a remark in brackets that stands behind it. */
function beforeAtEnd(plain: string, amount: string): string | undefined {
  const [behind = ''] = /\s*\([^()\d]*\)$/.exec(plain) ?? [];
  const told = plain.slice(0, plain.length - behind.length);
  return told.endsWith(amount) ? `${told.slice(0, -amount.length).replace(/[\s,;:]+$/, '')}${behind}` : undefined;
}

/** What stands around an amount behind which a comma comes: `chalk 4 g, washed` is `chalk, washed`. */
function aroundAmount(plain: string, amount: string): string | undefined {
  const [before = '', behind, ...more] = plain.split(` ${amount},`);
  return behind === undefined || more.length > 0 ? undefined : `${before.replace(/[\s,;:]+$/, '')},${behind}`;
}

/** Rows of a table, without its head and the line below it, or the lines of a text. */
function linesIn(text: string): readonly string[] {
  const lines = text.split(/\r?\n/).map((line) => line.trim());
  const under = lines.findIndex((line) => /^\|?\s*:?-{2,}:?\s*(?:\|\s*:?-{2,}:?\s*)*\|?$/.test(line));
  const cells = (line: string): string =>
    line.startsWith('|') || under >= 0
      ? line
          .split('|')
          .map((cell) => cell.trim())
          .filter((cell) => cell !== '')
          .join(' ')
      : line.replace(/^(?:[-*•]|\d+[.)])\s+/, '');
  return lines
    .slice(under + 1)
    .map(cells)
    .filter((line) => line !== '');
}

const deeds = once(() => {
  const of = (place: string): string =>
    putInWordsTable()
      .flatMap((row) => (row.place === place ? [row.words] : []))
      .sort((a, b) => b.length - a.length)
      .join('|');
  return {
    before: new RegExp(
      `^(?:(?:${of('before')})\\s+)+(?=[\\d~≈.]|(?:about|ca\\.?|circa|etwa|some|a|an|ein|une?)\\s)`,
      'i',
    ),
    behind: new RegExp(`\\s+(?:${of('behind')})\\.?$`, 'i'),
    between: new RegExp(`^(.*\\d.*?)[\\s,]+(?:${of('between')})\\s+((?:about |ca\\.? ?|etwa |~)?\\d.*)$`, 'i'),
  };
});

/** A thing and what it is dissolved in, as it is told: `dissolved 5 g of alum in 50 mL water`; none where it is not. */
function dissolvedIn(text: string): readonly UseWritten[] {
  const { before, behind, between } = deeds();
  const bare = text.replace(before, '').replace(behind, '');
  const [, solid = '', liquid = ''] = between.exec(bare) ?? [];
  const [one, other] = [useInOneText(solid.replace(behind, '')), useInOneText(liquid)];
  const isTold = one?.amount !== undefined && other?.amount !== undefined && /\p{L}/u.test(other.reagent ?? '');
  if (solid !== '' && isTold && isVolume.test(other.amount ?? '')) return [one, other];
  const alone = bare === text || /\n/.test(text) ? undefined : useInOneText(bare);
  return alone?.amount === undefined ? [] : [alone];
}
const isVolume = /[\d½¼¾]\s?(?:[mcd]?l|cc|lit(?:re|er|ro|ri)s?)$/i;
/** Several things in one text, each with an amount of its own: `lead nitrate 10 g, potassium chromate 6 g`. */
export function usesInOneText(text: string): readonly UseWritten[] {
  if (/\n\s*\S/.test(text)) {
    const each = linesIn(text).map(useInOneText);
    return each.length > 0 && each.every((use): use is UseWritten => use !== undefined) ? each : [];
  }
  const inLiquid = dissolvedIn(text);
  if (inLiquid.length > 0) return inLiquid;
  const one = useInOneText(text);
  if (one && !/;\s/.test(text)) return [one];
  const parts = text.split(/\s*(?:;|,(?!\d)|\s\+\s|\band\b|\bund\b|\bet\b)\s*/u).filter((part) => part !== '');
  const uses = parts.length < 2 ? [] : parts.map(useInOneText);
  if (uses.length > 1 && uses.every((use): use is UseWritten => use?.amount !== undefined)) return uses;
  return one ? [one] : [];
}

/**
 * Whether a value under a key that nobody knows looks like a list of what went in: items with amounts, or names with
 * amounts behind them.
 * @example looksLikeUses(['copper sulfate 5 g', 'soda 2 g']) // true
 */
export function looksLikeUses(value: unknown): boolean {
  if (Array.isArray(value)) return (value as readonly unknown[]).some(isUse);
  return typeof value === 'object' && value !== null && Object.values(value).some(isAmountText);
}
const isAmountText = (value: unknown): boolean => typeof value === 'string' && isAmount(value);
function isUse(item: unknown): boolean {
  if (typeof item === 'string') return useInOneText(item)?.amount !== undefined;
  if (typeof item !== 'object' || item === null) return false;
  return 'reagent' in item || 'lot' in item || Object.values(item).some(isAmountText);
}

/** Words that say that there is nothing, where a thing should stand. */
const nothing =
  /^(?:none|nothing(?: else)?|nichts (?:sonst|weiter)|nil|nichts|keine?[rs]?|rien(?: d['’]autre)?|aucune?|nada|ning[uú]n[oa]?|niente|n\s*[/.]\s*a\.?|-+|–|—|\?+|x)$/iu;

/** Whether a text says that there is nothing: `none`, `n/a`. */
export const saysNothing = (text: string): boolean => nothing.test(text.trim());

/** Why a text is none of a reagent, and what to do, in sentences. */
export function whyNoUse(text: string): { readonly why: string; readonly cure?: string } | undefined {
  const letters = digitsMeant(text);
  if (letters) return { why: `${letters.why}.`, cure: letters.cure };
  const read = readReagentText(withPlainPoints(text));
  if (read.ok) return undefined;
  const { message, cure } = read.fault;
  return { why: message, ...(cure !== undefined && { cure }) };
}

const lotName = /^\d{1,9}\/\S+$/;

type Amount = NonNullable<Extract<ReturnType<typeof readReagentText>, { ok: true }>['value']['amount']>;

function amountWritten(amount: Amount): NonNullable<Use['amount']> {
  if (amount.kind === 'excess') return amount.quantity?.written ?? 'excess';
  return amount.kind === 'measured' ? amount.quantity.written : amount.words;
}
