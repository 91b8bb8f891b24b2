// `gr` for grams, which old recipes have for grains.

const gr = /(?<=\d\s*)grs?\b\.?(?=[\s,;)]|$)/gi;

/** @example grAsGrams('17 gr of soda') // '17 g of soda' */
export const grAsGrams = (text: string): string =>
  text.replace(gr, (_, at: number) => (/\s/.test(text[at - 1]!) ? 'g' : ' g'));

/** What else `gr` stands for. */
export const whyGrams = 'gr mostly stands for grams; old recipes have it for grains, of which one is 0.065 g';
