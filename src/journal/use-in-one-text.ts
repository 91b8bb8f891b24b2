// What goes into an entry, written in one text instead of under keys: `50 ml of 10 % ammonia`.
import { readReagentText } from '../reagents/index.js';
import type { Use } from './schema.js';

/** Lists of what goes in. */
export const listsOfUses: ReadonlySet<unknown> = new Set(['reagents', 'add', 'change']);

/**
 * A use as its keys would say it; undefined where the text tells more than they can hold, or is none of a reagent.
 * @example useInOneText('50 ml of 10% ammonia') // { reagent: 'ammonia', amount: '50 ml', strength: '10%' }
 */
export function useInOneText(
  text: string,
): { readonly [key in 'reagent' | 'lot' | 'amount' | 'strength' | 'purity' | 'density']?: string } | undefined {
  const read = readReagentText(text);
  if (!read.ok) return undefined;
  const { name, formula, amount, strength, purity, density, unused = [] } = read.value;
  // What its words say beside is kept: the whole text is its name then.
  if (unused.length > 0 || formula !== undefined) return { reagent: text };
  return {
    [lotName.test(name) ? 'lot' : 'reagent']: name,
    ...(amount && { amount: amountWritten(amount) }),
    ...(strength && { strength: strength.written }),
    ...(purity && { purity: purity.written }),
    ...(density && { density: density.written }),
  };
}

const lotName = /^\d{1,9}\/\S+$/;

type Amount = NonNullable<Extract<ReturnType<typeof readReagentText>, { ok: true }>['value']['amount']>;

function amountWritten(amount: Amount): NonNullable<Use['amount']> {
  if (amount.kind === 'excess') return amount.quantity?.written ?? 'excess';
  return amount.kind === 'measured' ? amount.quantity.written : amount.words;
}
