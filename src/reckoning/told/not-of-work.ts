// Sentences of a write-up that tell nothing of its work: what somebody says, stories of others, plans that were
// given up. What the maker does is work wherever it stands: `they say bleach shifts it, so I poured bleach on it`.
import { once } from '../../once.js';
import { anyToldWord } from './told-work-words.js';
import { SmallLetterPattern } from './words-as-pattern.js';

const amount = String.raw`\d\s?(?:m?g|kg|ml|l|cl|oz|%|[°º]|drops?|spoons?)(?![a-zß-ɏ])`;

const patterns = {
  hearsay: once(() => new SmallLetterPattern(anyToldWord('hearsay'))),
  makerDoes: once(() => {
    const notOwn = 'that|should|would|could|you|one|if|not|never|man';
    const between = String.raw`(?:[\s'’]+(?!(?:${notOwn})(?![a-zß-ɏ]))[^\s,;.]+)`;
    const deed = anyToldWord('puts', 'deed', 'ends');
    const does = String.raw`${anyToldWord('does')}${between}{0,6}?[\s'’]+${deed}`;
    return new SmallLetterPattern(`${does}|${anyToldWord('done-by-me')}`);
  }),
  story: once(() => new SmallLetterPattern(anyToldWord('story'))),
  /** `In the nineteenth century, …`: all of the sentence is of that time. */
  beginsLongAgo: once(
    () => new SmallLetterPattern(String.raw`^\s*(?:[^\s,.;]+\s+){0,3}?${anyToldWord('long-ago')}\s*,`),
  ),
  longAgo: once(() => new SmallLetterPattern(anyToldWord('long-ago'))),
  somebody: once(() => new SmallLetterPattern(anyToldWord('somebody', 'story-goes-on'))),
  goesOn: once(() => new SmallLetterPattern(anyToldWord('story-goes-on'))),
  ofTheWork: once(() => {
    const atBeginning = String.raw`^\s*${anyToldWord('puts', 'deed', 'work')}`;
    const behindColon = String.raw`[:–—]\s(?:[^:]*\s)?${anyToldWord('puts', 'deed', 'work')}`;
    return new SmallLetterPattern([anyToldWord('maker', 'as-they'), amount, atBeginning, behindColon].join('|'));
  }),
  done: once(() => {
    const was = String.raw`${anyToldWord('was')}\s+${anyToldWord('puts', 'deed', 'work')}`;
    return new SmallLetterPattern(`${amount}|${was}`);
  }),
  anyway: once(() => new SmallLetterPattern(anyToldWord('anyway'))),
  /** `Then I did it after all.`, and not `I did it with soap.` */
  didIt: once(
    () =>
      new SmallLetterPattern(String.raw`${anyToldWord('did-it')}(?:\s+${anyToldWord('anyway')})*\s*(?:[,;:.!–—]|$)`),
  ),
  not: once(() => new SmallLetterPattern(String.raw`${anyToldWord('not')}|(?<![a-z])[a-z]+n['’]t(?![a-z])`)),
  planned: once(() => new SmallLetterPattern(anyToldWord('planned'))),
  manner: once(() => new SmallLetterPattern(anyToldWord('manner'))),
  /** `to clean it with acid`: the acid is the plan, and not the manner of one. */
  cleansWith: once(
    () =>
      new SmallLetterPattern(String.raw`(?<![a-z])(?:wash|clean|remov|rins|scrub)[a-z]*(?:\s+[^\s,;]+){0,6}?\s+with\s`),
  ),
  /** `…, ma ho lasciato perdere e`: behind it stands what was done. */
  givenUpThen: once(() => {
    const and = anyToldWord('and', 'breaks');
    return new SmallLetterPattern(String.raw`${anyToldWord('given-up')}\s*(?:[,;:–—]\s*|\s(?=${and}))`);
  }),
  /** `…, but in the end I used soap`. */
  butRather: once(() => {
    const then = String.raw`(?:\s+[^\s,;.]+){0,2}?\s+${anyToldWord('rather')}`;
    const rather = String.raw`${anyToldWord('but')}(?:${then}|(?:\s+[^\s,;.]+){1,9}?\s+(?:instead|stattdessen))`;
    const turned = String.raw`(?:[^\s,;.]+\s+)?${anyToldWord('rather')}\s+${anyToldWord('but')}`;
    const instead = 'lieber|stattdessen|instead|plutôt|mejor|piuttosto|invece';
    const preferred = String.raw`(?<=[,;])\s*(?:[^\s,;.]+\s+){0,4}?(?:${instead})(?![a-zß-ɏ])`;
    return new SmallLetterPattern(String.raw`[,;]?\s+(?:${rather}|${turned})|${preferred}`);
  }),
  doesSomething: once(() => new SmallLetterPattern(anyToldWord('puts', 'deed', 'ends', 'fetched', 'done-by-me'))),
  /** What was planned, by a word that stands for it. */
  it: once(
    () =>
      new SmallLetterPattern(
        String.raw`${anyToldWord('it')}|(?<![a-zß-ɏ])(?:l['’]\s?(?:ho|hai|ha|ai|avons|a)|(?:lo|la|los|las|le|li)\s+` +
          String.raw`(?:he|hemos|usé|puse|eché|vertí|añadí|hice|ho|abbiamo))(?![a-zß-ɏ])`,
      ),
  ),
  givenUp: once(
    () => new SmallLetterPattern(String.raw`${anyToldWord('given-up')}(?:\s+${anyToldWord('leaves-it')})*\s*[.!]?\s*$`),
  ),
};

/** Whether a sentence only tells what somebody says or asks. */
export const isHearsayAlone = (sentence: string): boolean =>
  patterns.hearsay().test(sentence) && !patterns.makerDoes().test(sentence);

/** Whether nothing in a sentence of a story may be the maker's; what names the story is left out before. */
function isOfOthers(sentence: string): boolean {
  const rest = patterns.longAgo().replacedIn(patterns.story().replacedIn(sentence, '~'), '~');
  return !patterns.ofTheWork().test(rest);
}

const beginsStory = (sentence: string): boolean =>
  patterns.story().test(sentence) ||
  patterns.beginsLongAgo().test(sentence) ||
  (patterns.longAgo().test(sentence) && patterns.somebody().test(sentence));

/** Which sentences are stories of other people, of another time: they, and what goes on about them. */
function stories(sentences: readonly string[]): ReadonlySet<number> {
  const found = new Set<number>();
  sentences.forEach((sentence, at) => {
    const isOne = beginsStory(sentence) || (found.has(at - 1) && patterns.goesOn().test(sentence));
    if (isOne && isOfOthers(sentence)) found.add(at);
  });
  return found;
}

/** Those of some sentences that tell of other people or of another time, and nothing of the maker's work. */
export function storiesAmong(sentences: readonly string[]): ReadonlySet<string> {
  const places = stories(sentences);
  return new Set(sentences.filter((_, at) => places.has(at)));
}

/** How many sentences on a plan may be given up. */
const givenUpWithin = 1;

/** A plan as such: not only how it was to be done, and nothing of it was done. */
function isPlan(sentence: string): boolean {
  const withoutCleaning = patterns.cleansWith().replacedIn(sentence, ' ');
  if (!patterns.planned().test(sentence) || patterns.manner().test(withoutCleaning)) return false;
  // What is planned is no deed: `that` keeps the maker from it.
  const rest = patterns.planned().replacedIn(patterns.givenUp().replacedIn(sentence, ' '), ' that ');
  return !patterns.done().test(rest) && !patterns.makerDoes().test(rest);
}

/**
 * A sentence that gives up its plan and goes on with what was done, as two: `I wanted to use acid, but let it be` and
 * `and took soap`; so does one that does something else instead.
 */
function partedAtGivingUp(sentence: string): readonly string[] {
  const planned = patterns.planned().placeIn(sentence);
  if (!planned) return [sentence];
  const givenUp = patterns.givenUpThen().placeIn(sentence, planned.to);
  if (givenUp) return [sentence.slice(0, givenUp.to).replace(/[\s,;:–—]+$/, ''), sentence.slice(givenUp.to)];
  const rather = patterns.butRather().placeIn(sentence, planned.to);
  if (!rather) return [sentence];
  const [plan, done] = [sentence.slice(0, rather.from), sentence.slice(rather.from).replace(/^[\s,;]+/, '')];
  return !patterns.it().test(done) && patterns.doesSomething().test(done)
    ? [`${plan}, but did not.`, done]
    : [sentence];
}

/** Whether a sentence gives up a plan, by itself that of the one before it; not `I poured it in and let it be`. */
function givesUp(sentence: string, isNext: boolean): boolean {
  if (!patterns.givenUp().test(sentence)) return false;
  const rest = patterns.givenUp().replacedIn(sentence, ' ');
  return !isNext || (!patterns.makerDoes().test(rest) && !patterns.done().test(rest));
}

/** Which sentences are plans that were given up. */
function plansGivenUp(sentences: readonly string[]): ReadonlySet<number> {
  const found = new Set<number>();
  sentences.forEach((sentence, at) => {
    if (!isPlan(sentence)) return;
    const end = sentences.findIndex(
      (one, place) => place >= at && place <= at + givenUpWithin && givesUp(one, place > at),
    );
    for (let place = at; end >= 0 && place <= end; place += 1) found.add(place);
  });
  return found;
}

/** Whether what a sentence says was not to be done was done by the next: `I did not want to add it.` `Then I did.` */
const isDoneByNext = (sentences: readonly string[], at: number): boolean =>
  patterns.didIt().test(sentences[at + 1] ?? '') &&
  !patterns.not().test(sentences[at + 1]!) &&
  patterns.not().test(sentences[at]!);

/** What sentences do, and what they only planned and gave up. */
export function withoutPlansGivenUp(all: readonly string[]) {
  const sentences = all.flatMap(partedAtGivingUp);
  const places = plansGivenUp(sentences);
  return {
    done: sentences.filter((_, at) => !places.has(at)),
    givenUp: sentences.filter((_, at) => places.has(at)),
  };
}

/**
 * Sentences of a write-up without those that tell only of others, or of what was not done.
 * @example ownWork(['I had meant to add bleach but did not.', 'Rinsed it.']) // ['Rinsed it.']
 */
export function ownWork(all: readonly string[]): readonly string[] {
  const sentences = all.flatMap(partedAtGivingUp);
  const [ofOthers, notDone] = [stories(sentences), plansGivenUp(sentences)];
  const isNotOfWork = (sentence: string, at: number): boolean =>
    ofOthers.has(at) || notDone.has(at) || isHearsayAlone(sentence);
  const isDoneAnyway = (at: number): boolean =>
    patterns.anyway().test(sentences[at + 1] ?? '') || (notDone.has(at + 1) && isDoneAnyway(at + 1));
  const own = (sentence: string, at: number): readonly string[] => {
    if (isDoneByNext(sentences, at)) return [patterns.not().replacedIn(sentence, '')];
    return !isNotOfWork(sentence, at) || isDoneAnyway(at) ? [sentence] : [];
  };
  return sentences.flatMap(own);
}

/**
 * Those sentences by which others are none of the work, or are so all the same: stories, plans that were given up, and
 * what says that it was done anyway, as what was not to be done. Who leaves out sentences keeps them.
 */
export function tellingOfOthers(sentences: readonly string[]): ReadonlySet<string> {
  const apart = new Set([...stories(sentences), ...plansGivenUp(sentences)]);
  const isAnyway = (at: number): boolean => apart.has(at - 1) && patterns.anyway().test(sentences[at]!);
  const isAfter = (at: number): boolean => isAnyway(at) || (at > 0 && isDoneByNext(sentences, at - 1));
  return new Set(sentences.filter((_, at) => apart.has(at) || isAfter(at)));
}
