// What many pages show alike is made once, and written once for all of them.
import type { Element } from 'hast';

/** An element that many pages show alike. */
export const ofManyPages = (element: Element): Element => ({ ...element, data: { ofManyPages: true } });

/** So many elements of one kind are held; then all are let go. */
const mostHeld = 500;

/**
 * What makes an element of things that recur from page to page (a formula, say): of one key the element is the same.
 * @param keyOf all that it is made of, as a text
 */
export function madeOnceBy<Of>(keyOf: (of: Of) => string, make: (of: Of) => Element): (of: Of) => Element {
  const made = new Map<string, Element>();
  return (of) => {
    const key = keyOf(of);
    let element = made.get(key);
    if (!element) {
      if (made.size >= mostHeld) made.clear();
      made.set(key, (element = ofManyPages(make(of))));
    }
    return element;
  };
}

/**
 * The same of a few words: the same words give the same element.
 * @example const heading = madeOnce((words: string) => h('h2', words));
 */
export function madeOnce<Words extends readonly (string | number | boolean)[]>(
  make: (...words: Words) => Element,
): (...words: Words) => Element {
  const ofWords = madeOnceBy<Words>(
    (words) => (words.length === 1 ? String(words[0]) : words.join('\0')),
    (words) => make(...words),
  );
  return (...words) => ofWords(words);
}
