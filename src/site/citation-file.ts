// How the journal is cited: CITATION.cff at its root. Source: Citation File Format 1.2.0,
// https://citation-file-format.github.io/1.2.0/schema
import { stringify } from 'yaml';
import type { JournalModel } from '../crosslinks/model.js';
import { orcidUrl } from '../journal/values.js';

/** The file at the root of a site or a pack. */
export const citationFile = 'CITATION.cff';

/**
 * The licence by its SPDX identifier where its address tells one, else by its address: the format wants an address only
 * for what SPDX does not list.
 * @example licenceOf('https://creativecommons.org/licenses/by/4.0/') // { license: 'CC-BY-4.0' }
 */
export function licenceOf(url: string | undefined): Readonly<Record<string, string>> {
  if (url === undefined) return {};
  const deed = /^https?:\/\/creativecommons\.org\/(?:licenses\/([a-z-]+)|publicdomain\/(zero))\/([\d.]+)\/?/.exec(url);
  if (!deed) return { 'license-url': url };
  return { license: deed[2] ? `CC0-${deed[3]}` : `CC-${deed[1]!.toUpperCase()}-${deed[3]}` };
}

/** The text of the citation file. */
export function citationText({ journal, entries }: JournalModel): string {
  const { title, address, author, orcid, description, 'licence-url': licenceUrl } = journal.settings;
  const released = entries.reduce((latest, { entry }) => (entry.date > latest ? entry.date : latest), '');
  return stringify(
    {
      'cff-version': '1.2.0',
      message: 'If you use these data, please cite the journal, and the entry by its address.',
      type: 'dataset',
      title,
      authors: [{ name: author, ...(orcid !== undefined && { orcid: orcidUrl(orcid) }) }],
      ...(description !== undefined && { abstract: description }),
      url: address,
      ...licenceOf(licenceUrl),
      ...(released !== '' && { 'date-released': released }),
    },
    { lineWidth: 0, defaultStringType: 'QUOTE_DOUBLE', defaultKeyType: 'PLAIN' },
  );
}
