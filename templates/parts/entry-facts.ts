// What is said of an entry where it is linked to: an article of a journal, in schema.org's words.
import type { ReckonedEntry } from '../../src/reckoning/contracts.js';
import type { SiteContext } from '../frame.js';
import { authorFacts, type SharedAs } from './shared-head.js';

const pigmentFacts = ({ entry }: ReckonedEntry): readonly Readonly<Record<string, unknown>>[] =>
  entry.pigment
    ? [
        {
          '@type': 'ChemicalSubstance',
          name: entry.pigment.name,
          ...(entry.pigment.formula && { chemicalComposition: entry.pigment.formula }),
          ...(entry.pigment['colour-index'] && { identifier: entry.pigment['colour-index'] }),
        },
      ]
    : [];

/** What the picture of an entry shows. */
const pictureWords = ({ entry, appearance }: ReckonedEntry): string => {
  const painted = appearance.samples.filter(({ swatch }) => swatch).map(({ sample }) => sample);
  return painted.length > 0 ? `Swatches of ${entry.title}: ${painted.join(', ')}` : `Title: ${entry.title}`;
};

/**
 * An entry as those who link to it are told of it.
 * @example entryShared(site, reckoned).facts // { '@type': 'ScholarlyArticle', headline: 'Malachite green', … }
 */
export function entryShared(site: SiteContext, reckoned: ReckonedEntry): SharedAs {
  const { entry } = reckoned;
  const { number, title, date, question, answer, status, sources } = entry;
  const address = `${site.address}/${number}/`;
  return {
    picture: `/share/${number}.png`,
    pictureWords: pictureWords(reckoned),
    published: date,
    changed: date,
    facts: {
      '@type': 'ScholarlyArticle',
      '@id': address,
      headline: title,
      abstract: [question, answer].filter(Boolean).join(' ') || undefined,
      datePublished: date,
      dateModified: date,
      author: authorFacts(site.author),
      creativeWorkStatus: status,
      identifier: String(number),
      about: pigmentFacts(reckoned),
      citation: sources.length > 0 ? sources.map(({ cite }) => cite) : undefined,
      encoding: [
        { '@type': 'MediaObject', encodingFormat: 'application/x-bibtex', contentUrl: `${address}cite.bib` },
        {
          '@type': 'MediaObject',
          encodingFormat: 'application/vnd.citationstyles.csl+json',
          contentUrl: `${address}cite.json`,
        },
      ],
    },
  };
}
