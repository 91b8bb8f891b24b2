// What was done with a reagent before, told behind a comma beside its amount: `chalk 4 g, dried at 110 °C`. It is none
// of its amounts, whatever degrees and hours it tells.
import { once } from '../once.js';
import { treatmentWordsTable } from '../tables/compiled/reagents/treatment-words.js';

const kinds = once(() => new Map(treatmentWordsTable().map(({ word, kind }) => [word, kind])));
const isDeed = (word: string | undefined): boolean => /^(?:deed|wash)$/.test(kinds().get(word ?? '') ?? '');
const isHow = (word: string): boolean => kinds().get(word) === 'how';
const isJoin = (word: string | undefined): boolean => kinds().get(word ?? '') === 'join';

/** Something that is measured out: with it words may bring in another thing. */
const measured = /\d\s*(?:[mcd]?l|cc|[mk]?g|grams?|gramm|oz|tsp|tbsp|el|tl)(?![\p{L}\d/])/iu;

/** A clause begins with a deed (`finely ground`, `heated to 400 °C`) or ends with one (`auf 400 °C erhitzt`). */
function isTreatment(clause: string): boolean {
  const words = clause.toLowerCase().split(/\s+/);
  const first = words.findIndex((word) => !isHow(word));
  if (first < 0) return false;
  const deed = isDeed(words[first]) ? words[first] : words.at(-1);
  if (!isDeed(deed) || (kinds().get(deed!) !== 'wash' && measured.test(clause))) return false;
  if (deed !== words[first]) return isJoin(words[first]);
  const next = words[first + 1];
  return next === undefined || isJoin(next) || isHow(next) || /^[\d~≈]/.test(next);
}

/** Text between commas that are none of a number. */
const clauses = /(?<=[,;]\s+)[^,;\s](?:[^,;]|[,;](?=\S))*/gu;

/** A line with what tells such a treatment blanked out, so that places in it stay what they were, and its words. */
export function takeTreatments(line: string): { readonly line: string; readonly treatments: readonly string[] } {
  if (!/[,;]\s/.test(line) || !/\d/.test(line)) return { line, treatments: [] };
  const treatments: string[] = [];
  const bare = line.replace(clauses, (clause) => {
    if (!isTreatment(clause.trim())) return clause;
    treatments.push(clause.trim());
    return ' '.repeat(clause.length);
  });
  return { line: treatments.length === 0 ? line : bare.replace(/[\s,;]+$/, ''), treatments };
}
