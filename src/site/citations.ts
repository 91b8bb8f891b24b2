// Citations of every entry as files that reference managers take, beside the entry's page.
import { bibtex, cslJson, type Citable } from '../../templates/parts/citation.js';
import { citableEntry } from '../../templates/parts/cite.js';
import type { SiteContext } from '../../templates/frame.js';
import type { JournalModel } from '../crosslinks/model.js';
import type { SiteFile } from './assets.js';

const filesOf = (one: Citable): SiteFile[] => [
  { address: `/${one.number}/cite.bib`, content: bibtex(one) },
  { address: `/${one.number}/cite.json`, content: `${JSON.stringify(cslJson(one), null, 1)}\n` },
];

/** `/14/cite.bib` and `/14/cite.json` of each entry. */
export const citations = (site: SiteContext, { entries }: Pick<JournalModel, 'entries'>): SiteFile[] =>
  entries.flatMap(({ entry }) => filesOf(citableEntry(site, entry)));
