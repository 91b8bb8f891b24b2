// Text of a journal as it is quoted in a sentence.

const longest = 60;

/** The text, or its beginning where it is long. @example shortened('1.98 g') // '1.98 g' */
export const shortened = (text: string): string => (text.length > longest ? `${text.slice(0, longest - 1)}…` : text);
