// What a publication has to know of a page that it does not render: what it says to the proof, where its links lead,
// and by which hash its file is known.
import { factsOf, remark, type Remark, type RemarkFacts } from '../remarks/remark.js';
import type { Rendered } from './entry-pages.js';
import { partsIn } from './html.js';
import type { PartLink } from './markdown.js';
import { linksOn, type PageLinks, type SiteAddress } from './site-links.js';
import type { WrittenFile } from './file-writing.js';

/** Plain data, so that a worker thread can hand it over and the next publication find it. */
export interface PageRecord extends PageLinks, Omit<WrittenFile, 'path'> {
  readonly remarks: readonly RemarkFacts[];
  readonly partLinks: readonly PartLink[];
  readonly ids: readonly string[];
}

/** @param address of the page below the base */
export function recordOf(
  address: string,
  { html, remarks, partLinks, parts = partsIn(html) }: Rendered,
  { bytes, hash }: WrittenFile,
  site: SiteAddress,
): PageRecord {
  const ids = [...parts.ids];
  return { bytes, hash, remarks: remarks.map(factsOf), partLinks, ids, ...linksOn(address, parts, site) };
}

export const remarksIn = ({ remarks }: PageRecord): Remark[] => remarks.map(remark);
