// Words beside a name that say in which state a substance is, not what it is: how strong, how hot, of what shape.
import { stateWordsTable } from '../tables/compiled/reagents/state-words.js';

interface StateWord {
  readonly kind: 'strength' | 'heat' | 'shape' | 'kind' | 'purity' | 'dissolved';
  readonly celsius?: number;
}
let words: ReadonlyMap<string, StateWord> | undefined;
function load(): ReadonlyMap<string, StateWord> {
  words ??= new Map(
    stateWordsTable().map(({ word, kind, celsius }) => [word, { kind, ...(celsius !== undefined && { celsius }) }]),
  );
  return words;
}
const plain = (word: string): string => word.toLowerCase().replace(/^\(|\)$|[,;]$/g, '');

/** A word that changes how strong or how hot a thing is, and so is no part of its name: `dilute`, `hot`. */
export const isStateWord = (word: string): boolean => {
  const kind = load().get(plain(word))?.kind;
  return kind === 'strength' || kind === 'heat' || kind === 'kind' || kind === 'dissolved';
};

/** A word that says how pure or for what use it is sold: `technical`, `lab`. */
export const isPurityWord = (word: string): boolean => load().get(plain(word))?.kind === 'purity';

/** Any word of a label that is no part of a formula: `anhydrous`, `powder`, `hot`. */
export const isWordOfLabel = (word: string): boolean => load().has(plain(word));

/**
 * °C that words of state tell, the highest of them; undefined where none does.
 * @example celsiusOf(['boiling']) // 100
 */
export function celsiusOf(state: readonly string[]): number | undefined {
  const told = state.flatMap((word) => load().get(plain(word))?.celsius ?? []);
  return told.length > 0 ? Math.max(...told) : undefined;
}

/** A word that says the stuff is dissolved. */
export const saysDissolved = (state: readonly string[]): boolean =>
  state.some(
    (word) => load().get(plain(word))?.kind === 'dissolved' || /^(?:solution|diluted?|dil\.?)$/.test(plain(word)),
  );

/** A word that says nothing was added to it. */
export const saysUndiluted = (state: readonly string[]): boolean =>
  state.some((word) => /^(?:neat|undiluted)$/.test(plain(word)));
