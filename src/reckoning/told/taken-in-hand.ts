// What a maker takes from its place or opens, and puts in by a word that stands for it: `I took the bleach from the
// shelf and poured some of it into the vinegar.`
import { once } from '../../once.js';
import { namesInWords, type NameInWords } from '../../reagents/index.js';
import { putInBy } from './told-work.js';
import { anyToldWord as any, gapToName as gap } from './told-work-words.js';
import { SmallLetterPattern } from './words-as-pattern.js';

/** `two teaspoons`, `a good glug`: how much of it, as many words as it takes. */
const howMuch = once(() => String.raw`(?:[\s'’]+(?:\d[\d.,]*|${any('gap', 'much', 'share')}))*`);

/** The same where it begins a clause: `A good`, before what says how much. */
const muchFirst = once(() => String.raw`(?:(?:\d[\d.,]*|${any('gap', 'much', 'share')})[\s'’]+)*`);

const patterns = {
  /** `took the jar of`, and no more than three words that are none of a gap. */
  fetched: once(() => new SmallLetterPattern(String.raw`${any('fetched')}(?:\s+[^\s,;]+){0,3}?${gap()}`)),
  /** `holte ich`, `habe ich aus dem Schrank geholt`, behind what was taken. */
  fetchedBehind: once(() => new SmallLetterPattern(String.raw`^(?:\s*[^\s,.;]+){0,6}?\s*${any('fetched')}`)),
  and: once(() => new SmallLetterPattern(String.raw`^\s*(?:,|,?\s*${any('and')})${gap()}`)),
  putsIt: once(() => {
    const [puts, deed, it, where] = [any('puts'), any('deed'), any('it'), any('to', 'into')];
    const clitic = String.raw`${any('clitic')}[\s'’]*(?:${any('has')}\s+)?(?:[^\s,;.]+\s+)?`;
    const much = String.raw`${howMuch()}[\s'’]+${any('much', 'share')}`;
    const someOfIt = String.raw`(?:^|[,:;]\s|${any('and', 'breaks')}\s)${muchFirst()}${any('much', 'share')}`;
    return new SmallLetterPattern(
      [
        `${puts}${howMuch()}[\\s'’]+${it}`,
        `${clitic}${puts}`,
        String.raw`${deed}${howMuch()}[\s'’]+${it}(?:\s+[^\s,;.]+)?\s+${any('with')}`,
        String.raw`${clitic}${deed}(?:\s+[^\s,;.]+)?\s+${any('with')}`,
        String.raw`${it}(?:\s+[^\s,;.]+){0,3}?\s+(?:${any('ends-in')}|${puts})`,
        String.raw`${someOfIt}(?:\s+[^\s,;.]+){0,2}?\s+${any('ends-in')}`,
        String.raw`${puts}${much}(?:\s+[^\s,;.]+)?\s+${where}`,
      ].join('|'),
    );
  }),
  notIn: once(() => new SmallLetterPattern(String.raw`^(?:\s+[^\s,.;]+)?\s*${any('not-in', 'put-back')}`)),
  putBack: once(() => new SmallLetterPattern(any('put-back'))),
  not: once(() => new SmallLetterPattern(String.raw`${any('not')}(?:\s+[^\s,;.]+){0,4}\s*$`)),
};

/** Whether words say that what was taken up last goes in, and do not take it away again. */
function putsItIn(words: string): boolean {
  const found = patterns.putsIt().placeIn(words);
  if (!found || patterns.putBack().test(words)) return false;
  return !patterns.not().test(words.slice(0, found.from)) && !patterns.notIn().test(words.slice(found.to));
}

/** Those names of a sentence that it says were taken from their place, or opened. */
function takenIn(names: readonly NameInWords[]): readonly NameInWords[] {
  const taken: NameInWords[] = [];
  let joinsFrom: number | undefined;
  for (const one of names) {
    if (one.isClass || one.onlySpokenOf) continue;
    const { before, after } = one.beside();
    const isJoined = joinsFrom !== undefined && patterns.and().test(before.slice(joinsFrom));
    const clause = before.slice(Math.max(before.lastIndexOf(','), before.lastIndexOf(';')) + 1);
    const isTaken = isJoined || patterns.fetched().test(clause) || patterns.fetchedBehind().test(after);
    if (isTaken && !patterns.not().test(before)) taken.push(one);
    joinsFrom = isTaken ? `${before} ${one.name}`.length : undefined;
  }
  return taken;
}

/** How many sentences on a word may stand for what was taken. */
const standsWithin = 2;

/**
 * What sentences take up and put in by a word that stands for it, and what it goes into there: for each sentence the
 * names. What is taken up next takes the place of what was taken before.
 * @example putInByPronoun(['I took the bleach.', 'I poured it into the vinegar.']).size // 2
 */
export function putInByPronoun(sentences: readonly string[]): ReadonlyMap<string, ReadonlySet<string>> {
  const found = new Map<string, Set<string>>();
  const add = (sentence: string, names: Iterable<NameInWords>): void => {
    const all = found.get(sentence) ?? new Set();
    for (const { name } of names) all.add(name);
    found.set(sentence, all);
  };
  sentences.forEach((sentence, at) => {
    if (!mayTake().test(sentence)) return;
    const taken = takenIn(namesInWords(sentence));
    const last = taken.at(-1);
    if (!last) return;
    const rest = [last.beside().after, ...sentences.slice(at + 1, at + 1 + standsWithin)];
    const next = rest.findIndex((words, place) => place > 0 && takenIn(namesInWords(words)).length > 0);
    const putsIn = rest.slice(0, next < 0 ? undefined : next + 1).findIndex(putsItIn);
    if (putsIn < 0) return;
    add(sentence, taken);
    const into = sentences[at + putsIn]!;
    add(into, putInBy(namesInWords(into)));
  });
  return found;
}

const mayTake = once(() => new SmallLetterPattern(any('fetched')));
