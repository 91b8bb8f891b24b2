/** Small letters without accents, nothing around them. @example plainLetters(' Août ') // 'aout' */
export const plainLetters = (text: string): string => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase().trim();
