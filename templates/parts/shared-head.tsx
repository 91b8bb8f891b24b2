// What others show of a page that is linked to: Open Graph's properties, and schema.org's facts as JSON-LD.
import type { Element } from 'hast';
import { madeOnce } from '../of-many-pages.js';

/** Size of the pictures that are shown with a link, in pixels. */
export const sharedPicture = { width: 1200, height: 630 } as const;

/** What a page says of itself to those who link to it. */
export interface SharedAs {
  /** Address of its picture below the base; without it the journal's own. */
  readonly picture?: string;
  /** What the picture shows. */
  readonly pictureWords?: string;
  /** First published and last changed, `2026-03-14`: an article's. */
  readonly published?: string;
  readonly changed?: string;
  /** Its type and facts in schema.org's words, beside name and address. */
  readonly facts?: Readonly<Record<string, unknown>>;
}

/** What is known of every page. */
export interface SharedPage {
  readonly title: string;
  readonly description?: string;
  /** Absolute. */
  readonly url: string;
  readonly journal: { readonly title: string; readonly url: string; readonly author: string };
  readonly language: string;
  readonly licence?: string;
}

/** JSON that can stand in a script element: nothing in it ends the element or a line. */
const asData = (facts: unknown): string =>
  JSON.stringify(facts).replace(
    /[<>&\u2028\u2029]/g,
    (sign) => `\\u${sign.codePointAt(0)!.toString(16).padStart(4, '0')}`,
  );

/** One that most pages have alike. */
const commonProperty = madeOnce(
  (name: string, content: string) => (<meta property={name} content={content} />) as Element,
);

const card = madeOnce((kind: string) => (<meta name="twitter:card" content={kind} />) as Element);

const property = (name: string, content: string | undefined): Element | null =>
  content === undefined ? null : ((<meta property={name} content={content} />) as Element);

/**
 * Elements of a page's head.
 * @param least only what no page is shown without
 */
export function sharedHead(page: SharedPage, shared: SharedAs = {}, least = false): (Element | null)[] {
  const { journal } = page;
  const picture = `${journal.url}${shared.picture ?? '/share/journal.png'}`;
  const article = shared.published !== undefined;
  const whole = {
    url: page.url,
    inLanguage: page.language,
    license: page.licence,
    image: picture,
    isPartOf: `${journal.url}/`,
  };
  const facts = {
    '@context': 'https://schema.org',
    '@type': 'WebPage',
    name: page.title,
    ...(least ? {} : whole),
    ...shared.facts,
  };
  const needed = [
    commonProperty('og:type', article ? 'article' : 'website'),
    property('og:title', page.title),
    property('og:url', page.url),
    property('og:image', picture),
    (<script type="application/ld+json">{asData(facts)}</script>) as Element,
  ];
  if (least) return needed;
  return [
    ...needed,
    commonProperty('og:site_name', journal.title),
    commonProperty('og:locale', page.language.replace('-', '_')),
    commonProperty('og:image:width', String(sharedPicture.width)),
    commonProperty('og:image:height', String(sharedPicture.height)),
    property('og:image:alt', shared.pictureWords ?? `Colours of ${journal.title}`),
    property('article:published_time', shared.published),
    property('article:modified_time', shared.changed),
    card('summary_large_image'),
  ];
}

/** An author, of whom no more is known than the name. */
export const authorFacts = (name: string): Readonly<Record<string, string>> => ({ '@type': 'Person', name });
