// How to cite an entry, at the end of its page, with the files that reference managers take.
import type { Element } from 'hast';
import type { Entry } from '../../src/journal/entry.js';
import { href, type SiteContext } from '../frame.js';
import { citationWords, type Citable } from './citation.js';

export const citableEntry = (site: SiteContext, entry: Entry): Citable => ({
  author: site.author,
  title: entry.title,
  journal: site.title,
  number: entry.number,
  date: entry.date,
  url: `${site.address}/${entry.number}/`,
  language: site.language,
  ...(entry.status === 'withdrawn' && { withdrawn: entry.withdrawn ?? '' }),
});

export const citeContent = (site: SiteContext, entry: Entry): Element[] => [
  (<p>{citationWords(citableEntry(site, entry))}</p>) as Element,
  (
    <p>
      <a href={href(site, `/${entry.number}/cite.bib`)}>BibTeX</a>
      {' · '}
      <a href={href(site, `/${entry.number}/cite.json`)}>CSL-JSON</a>
    </p>
  ) as Element,
];
