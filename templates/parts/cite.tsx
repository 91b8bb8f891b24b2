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

/** Folded: few readers cite, and those who do look for it. */
export const citing = (site: SiteContext, entry: Entry): Element =>
  (
    <details class="behind" id="cite">
      <summary>To cite this entry</summary>
      <p>{citationWords(citableEntry(site, entry))}</p>
      <p>
        <a href={href(site, `/${entry.number}/cite.bib`)}>BibTeX</a>
        {' · '}
        <a href={href(site, `/${entry.number}/cite.json`)}>CSL-JSON</a>
      </p>
    </details>
  ) as Element;
