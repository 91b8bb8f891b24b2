// Sentences out of words that may or may not have their stop.

/** @example withStop('Vented outside') // 'Vented outside.' */
export const withStop = (words: string): string => (/[.!?…]$/.test(words) ? words : `${words}.`);
