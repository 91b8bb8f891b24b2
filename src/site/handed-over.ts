// What a site carries so that it can be handed over whole: how it is cited, and what it is as an RO-Crate.
import type { JournalModel } from '../crosslinks/model.js';
import { identityOf } from '../kept/inputs.js';
import type { MadeFile } from './assets.js';
import { citationFile, citationText } from './citation-file.js';
import { crateEntities, crateFile, crateParts, crateText, siteScope } from './crate.js';
import { dataFiles } from './data.js';

/**
 * The files beside the pages, each with what it is made of, none made yet.
 * @param paths of the journal's files that the site holds
 */
export function handedOver(model: JournalModel, paths: Iterable<string>): readonly MadeFile[] {
  const named = new Set(paths);
  const files = [
    ...dataFiles.map(({ name, what }) => ({ path: `data/${name}`, what, reckoned: true })),
    { path: citationFile, what: 'How the journal is cited: Citation File Format.' },
  ];
  const text = citationText(model);
  const citation: MadeFile = { address: `/${citationFile}`, inputs: text, make: () => text };
  if (model.entries.length === 0) return [citation];
  const entries = model.entries.map((one) => one.identity ?? identityOf(one));
  const scope = siteScope(model, files, named);
  const crate: MadeFile = {
    address: `/${crateFile}`,
    inputs: [model.journal.settings, entries, files, [...named]],
    make: () => crateText(crateEntities(model, scope)),
    parts: () => crateParts(model, scope),
  };
  return [citation, crate];
}
