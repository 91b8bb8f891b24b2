// What is said of an entry where it is linked to: an article of a journal, in schema.org's words.
import type { ReckonedEntry } from '../../src/reckoning/contracts.js';
import type { SiteContext } from '../frame.js';
import { authorFacts, type SharedAs } from './shared-head.js';

/** The date of an entry's last correction; undefined where it is as it was published. */
function lastChange({ date, corrections }: ReckonedEntry['entry']): string | undefined {
  const last = corrections.reduce(
    (latest, one) => (/^\d/.test(one.date) && one.date > latest ? one.date : latest),
    date,
  );
  return last === date ? undefined : last;
}

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
  return painted.length > 0 ? `Swatches: ${painted.join(', ')}` : `Title: ${entry.title}`;
};

/**
 * An entry as those who link to it are told of it.
 * @example entryShared(site, reckoned).facts // { '@type': 'ScholarlyArticle', headline: 'Malachite green', … }
 */
export function entryShared(site: SiteContext, reckoned: ReckonedEntry): SharedAs {
  const { entry } = reckoned;
  const { number, title, date, status } = entry;
  const changed = lastChange(entry);
  return {
    picture: `/share/${number}.png`,
    pictureWords: pictureWords(reckoned),
    published: date,
    changed,
    facts: {
      '@type': 'ScholarlyArticle',
      // The headline is its name, and its description stands in the head as it is.
      name: undefined,
      headline: title,
      datePublished: date,
      dateModified: changed,
      author: authorFacts(site.author),
      creativeWorkStatus: status,
      identifier: String(number),
      about: pigmentFacts(reckoned),
    },
  };
}
