// Water that is poured onto an acid which stands there already, as the order of the words tells it.
import { anyOfWords, SmallLetterPattern } from './words-as-pattern.js';
import { once } from '../../once.js';
import { aroundWordsOf, says, wordsThatTell } from './around-words.js';
import { clausesOf } from './heat-in-words.js';

/** Asked before anything else; blue vitriol is no acid. */
const mayTell =
  /acid|säure|(?<!(?:blue|green|white|copper|iron|zinc) )vitriol|sul[fp]h?uric|drain (?:open|clean)|rohrreiniger|ácido|acide/i;

const otherWater = String.raw`[a-zß-ɏ]|[ -](?:bath|glass|descal|oxyg|oxig|ossig|régale|de vie|fort)`;
const springs = 'tap|kettle|wasserhahn|wasserkocher|robinet|grifo|rubinetto';
const water = String.raw`(?:water|hose|wasser|leitungswasser|eau|agua|acqua|${springs})(?!${otherWater})`;
const within = String.raw`(?:in|into|onto|under|auf|dans|à|en|nell[ao]?)(?![a-zß-ɏ])`;
/** What stands before the water of `into the water`: then the acid goes in there. */
const goesTo = String.raw`(?<![a-zß-ɏ])(?:${within}|to(?![a-zß-ɏ]))`;
/** The same, but for `in one go` and `to the mark`. */
const goesThere =
  String.raw`(?<![a-zß-ɏ])(?:${within}(?!\s+(?:one|half|a go))(?<!(?:auf|à)(?=\s+\d))|to(?![a-zß-ɏ])` +
  String.raw`(?!\s+(?:\d|the (?:[a-z]+ )?(?:mark|line|top|brim))))`;
const standing = String.raw`(?<![a-zß-ɏ])(?:the|my|your|of|conc|strong|acid|[a-z]*ed)(?![a-zß-ɏ])`;

const poured = once(
  () =>
    new SmallLetterPattern(
      String.raw`(?<![a-zß-ɏ])${anyOfWords(aroundWordsOf('waters'))}[a-zß-ɏ]*(?:\s+in(?![a-zß-ɏ]))?` +
        String.raw`(?:(?!${goesThere}|[.;]).){0,50}?(?<![a-zß-ɏ])${water}`,
    ),
);
const pouredBehind = once(
  () =>
    new SmallLetterPattern(
      String.raw`(?<!${goesTo}(?:\s+(?:the|my|a|cold|ice|das|dem|l['’]))*\s)(?<![a-zß-ɏ])${water}` +
        String.raw`(?:\s+[^\s,.;]+){0,4}?\s+${anyOfWords(aroundWordsOf('water-in'))}`,
    ),
);
/** `hose it up to the mark`: the water is in the word. */
const hosed = new SmallLetterPattern(String.raw`(?<![a-zß-ɏ])hosed?\s+(?:it|up|the)(?![a-zß-ɏ])`);
/** `mit 300 ml Wasser auffüllen`, `water to the acid`. */
const ontoAcid = once(
  () =>
    new SmallLetterPattern(
      String.raw`(?<![a-zß-ɏ])${water}\s+(?:in|on)?(?:to|over)\s+(?:${standing}\s+){0,3}(?:acid|vitriol|sul[fp]h?uric)`,
    ),
);
const plainWater = new SmallLetterPattern(String.raw`(?<![a-zß-ɏ])(?:ice[- ]|tap)?${water}`);
export const deniesIt =
  /(?<![a-zß-ɏ])(?:never|not|don['’]?t|instead|rather|nicht|nie|niemals|jamais|pas|nunca|mai)(?![a-zß-ɏ])/iu;

/** What a clause does with acid and water: pours the water onto the acid, names either, or takes the acid away. */
function doneIn(clause: string, isAcidThere: boolean): 'poured' | 'acid' | 'water' | 'parted' | undefined {
  const acid = mayTell.test(clause) ? wordsThatTell('acid').placeIn(clause) : undefined;
  if (acid || isAcidThere) {
    const behind = acid && !isAcidThere ? clause.slice(acid.to) : clause;
    if (poured().test(behind) || pouredBehind().test(behind) || ontoAcid().test(clause) || hosed.test(behind))
      return 'poured';
  }
  if (plainWater.test(clause)) return 'water';
  const besides = wordsThatTell('acid').replacedIn(clause, ' ');
  if (says('parts', besides) || says('opens', besides)) return 'parted';
  return acid && 'acid';
}

/** `poured the water off`, `washed with water`: it is taken away, or washes. */
const takesAway =
  /(?<![a-zß-ɏ])(?:off|away|out|wash\w*|rins\w*|decant\w*|drain|ab|aus|weg|fort|abgegossen|abgießen|wasch\w*|gewaschen|gespült|lav\w*|rinc\w*|enjuag\w*|sciacqu\w*|fuera|via)(?![a-zß-ɏ])/i;

/**
 * Whether words pour water in, and take none away.
 * @example poursWaterIn('I poured a cup of water over it.') // true
 */
export const poursWaterIn = (words: string): boolean =>
  mayNameWater.test(words) &&
  clausesOf(words).some(
    (clause) =>
      !deniesIt.test(clause) && !takesAway.test(clause) && (poured().test(clause) || pouredBehind().test(clause)),
  );
const mayNameWater = /water|wasser|(?<![a-zß-ɏ])eau(?![a-zß-ɏ])|agua|acqua/i;

const thins = /(?<![a-zß-ɏ])(?:thinn\w*|dilut\w*|let (?:it )?down|verdünn\w*|allong\w*|allung\w*|rebaj\w*)/i;
/** Of an acid that stands there already: `poured half a cup of water in`, `thinned it with water`. */
const goesOntoListed = (clause: string): boolean =>
  doneIn(clause, false) === 'poured' ||
  pouredBehind().test(clause) ||
  waterIn.test(clause) ||
  (thins.test(clause) && plainWater.test(clause));
const inThere = 'in|on top|on it|over it|onto it|into it|to it|dazu|hinein|drauf';
const waterIn = new SmallLetterPattern(
  String.raw`(?<![a-zß-ɏ])${water}\s+(?:${inThere})\s*(?:$|[,.;!]|(?:and|then|und|dann)\s)`,
);

/**
 * The step at which water is poured onto an acid, if any: none where water stood there before, or where something was
 * parted or washed in between.
 * @param steps their words
 * @param listed what is there from the first, as words
 */
export function stepOfWaterOntoAcid(steps: readonly string[], listed = ''): number | undefined {
  const isListed = mayTell.test(listed) && wordsThatTell('acid').test(listed) && !plainWater.test(listed);
  if (isListed) return stepOfWaterOntoListed(steps);
  if (!steps.some((words) => mayTell.test(words))) return undefined;
  let isAcidThere = false;
  for (const [at, words] of steps.entries())
    for (const clause of clausesOf(words)) {
      const done: ReturnType<typeof doneIn> = deniesIt.test(clause) ? undefined : doneIn(clause, isAcidThere);
      if (done === 'poured') return at;
      if (done === 'water' && !isAcidThere) return undefined;
      if (done !== undefined) isAcidThere = done === 'acid';
    }
  return undefined;
}

/** The same where the acid stands above the steps: none where they name water, or part something, before. */
function stepOfWaterOntoListed(steps: readonly string[]): number | undefined {
  for (const [at, words] of steps.entries())
    for (const clause of clausesOf(words)) {
      if (deniesIt.test(clause)) continue;
      if (goesOntoListed(clause) && !takesAway.test(clause)) return at;
      if (plainWater.test(clause) || says('parts', clause)) return stepOfWaterOntoAcid(steps.slice(at + 1));
    }
  return undefined;
}
