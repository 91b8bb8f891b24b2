// What a sentence names: every stuff, product or class that its words hold, and whether it is said to be there or is
// only spoken of (`instead of bleach`, `smells of ammonia`, `a bleach bottle`).
import { memoise } from '../../memoise.js';
import { once } from '../../once.js';
import { inSmallLetters } from '../../small-letters.js';
import { dryComposition } from '../constituents.js';
import { inEnglish } from '../other-languages.js';
import {
  type Around,
  areOwnNails,
  isBed,
  isCover,
  isDenied,
  isForHands,
  isHearsay,
  isHue,
  isInstrument,
  isLamp,
  isOfAnotherTime,
  isReplaced,
  isRinsedBefore,
} from './denied-in-words.js';
import { itemsOf, type Item } from './items.js';
import type { Meaning } from './lexicon.js';
import { respeltInWords } from './respelt-in-words.js';
import { patternThatSays, wordsThatSay } from './sentence-words.js';
import { tokensOf } from './tokens.js';

/** Something that a sentence names. */
export interface NameInWords {
  /** Its name, in English; with the strength or the amount that stands beside it, and what a bracket says of it. */
  readonly text: string;
  readonly name: string;
  /** What it may be: dry compositions of all that is in it together, one list for each thing that it may mean. */
  readonly mayBe: readonly (readonly string[])[];
  /** It is a word for a whole class: `acid`, `nitrite`. */
  readonly isClass: boolean;
  /** Spoken of, and not said to be there. */
  readonly onlySpokenOf: boolean;
  /** Only because it is a word for other things too: `chalk`, `sugar`. */
  readonly isOrdinary?: true;
  /** Words beside it say that it goes in here. */
  readonly goesIn: boolean;
  /** All words of the sentence on both sides of it, its commas among them; other names in English. */
  readonly beside: () => { readonly before: string; readonly after: string };
}

type NameItem = Extract<Item, { kind: 'name' }>;

function compositionsOf(meaning: Meaning): readonly (readonly string[])[] {
  if (meaning.kind === 'stuff') return [[dryComposition(meaning.formula)]];
  if (meaning.kind === 'class') return meaning.formulas.map((formula) => [dryComposition(formula)]);
  return meaning.variants.map(({ contents }) => contents.map(({ formula }) => dryComposition(formula)));
}

/** Before a name these say that it is not there, or only what something is like. */
const notThere = once(
  () => new RegExp(String.raw`\b(?:${patternThatSays('not-there')})(?: (?:${patternThatSays('between')}))*(?: \w+)?$`),
);

/** Behind a name these make it something else: a vessel, a colour, a smell. */
const isOfIt = once(() => new RegExp(String.raw`^(?:${patternThatSays('of-it')})\b`));

/** Behind a name these say that it was not, or only would be: `acid would spoil it`. */
const isSupposed = once(() => new RegExp(String.raw`^(?:${patternThatSays('supposed')})\b`));

/** Before a name these say that it goes in, or how much of it does: `added a spoon of`. */
const isPutIn = once(() => {
  const measure = patternThatSays('measure');
  const filler = String.raw`(?: (?:${measure}|${patternThatSays('filler')}))*`;
  return new RegExp(String.raw`\b(?:(?:${patternThatSays('put-in')})${filler}|(?:${measure})(?: of)?)$`);
});

/** Behind a name: `sugar in`, `sugar thrown in`, `sugar into it`; and not `copper in the melt`. */
const isPutInBehind = once(
  () =>
    new RegExp(
      String.raw`^(?:in$|in to |into |on ?to (?:it|the)|(?:was |were )?(?!then\b)(?:${patternThatSays('put-in')})\b)`,
    ),
);

/** `Threw the salt away`; not `tipped it out into the acid`, `out of the bulb`. */
const isThrownOut = /^(?:away|out)(?! (?:of|in|into|on|onto|over|with)\b)(?![\w'’-])/;

/** `rubbed to a butter`, `down to a thin syrup`: how thick it gets. */
const thickness = /\bto (?:an?|the consistency of)(?: (?:thin|thick|stiff|soft|heavy|light|fine|smooth|pink))*$/;

/** Stuffs that vessels and tools are made of, and words that mean something else besides. */
const ordinary = once((): ReadonlySet<string> => new Set(wordsThatSay('ordinary')));

/** Names that tell what something looks like: `the black powder` is what stands there. */
const byLooks = once((): ReadonlySet<string> => new Set(wordsThatSay('by-looks')));
const article = /(?:^|\s)(?:the|this|that|all|its|my|dry|fine|damp|resulting)$/;

/** Names that are verbs too: `Bleach the wood`, `screw the lid on`. */
const deeds = once((): ReadonlySet<string> => new Set(wordsThatSay('deed')));
const beginsClause = /^$|(?:^|\s)(?:and|then|to|or|now|at once|straight away|[a-z]{2,12}ly)$/;
/** Rather verbs where a clause begins with them: `Paint strips on card`; not `Paint was stirred in`. */
const deedsFirst = once((): ReadonlySet<string> => new Set(wordsThatSay('deed-first')));
const painted =
  /^(?:at once|straight(?: away)?|immediately|freely|two|three|four|half|some|out|onto|over|again|thin|thick|strips?|swatch\w*|samples?|coats?|layers?|cards?|tiles?|lines?)(?![\w'’-])/;
const object = /^(?:the|it|them|this|these|those|both|each|on|down|up|all|any|your|my|its)\b/;

/** Names in a list of reagents that are none in a sentence. */
const noNames = once((): ReadonlySet<string> => new Set(wordsThatSay('no-name')));

/** `d'acide`, `l'eau`: the French article in short. */
const elided = /(?<![a-zß-ɏ])(?:(?<!(?:nitrate|sulfate|chlorure|acétate|oxyde) )d|l|qu)['’](?=[a-zß-ɏ])/giu;

/** `nell'acido`: the same of Italian, as it stands before other words, so that what it says of the name is read. */
const elidedItalian = /(?<=(?<![a-zß-ɏ])(?:ne|a|de|su|da|co)ll)['’](?=[a-zß-ɏ])/giu;

/** `un peu acide dans le ton`: what it is like; `un peu d'acide` is some. */
const sour = /(?<=(?<![a-zß-ɏ])(?:peu|trop|très|plus|moins|assez|si) )acides?(?![a-zß-ɏ]| [a-zß-ɏ]+ique)/gi;

/** The mark of a line of a list, which is no part of a name. */
const marker = /^\s*[-*•+–]\s+/;

/** `Cyankali-Bad`: a bath of it. */
const joinedBath = /(?<=[a-zß-ɏ])-(?=(?:Bad|Lösung|Lauge|Brühe|Reste?|Flasche|Dose)(?![a-zß-ɏ]))/g;

/** In small letters, as all that is asked about them is. */
const wordsOf = (items: readonly Item[]): string =>
  inSmallLetters(items.map((item) => ('text' in item ? item.text : '')).join(' '));

const textOf = (item: Item): string => {
  if ('text' in item) return item.text;
  if (item.kind === 'quantity') return item.quantity.written;
  return item.kind === 'comma' ? ',' : '';
};

/** How far before a name it is looked for what is said of it. */
const reach = 6;

const told: ReadonlySet<string> = new Set([
  'mass',
  'volume',
  'drops',
  'mass-percent',
  'mass-volume-percent',
  'concentration',
]);

/** Words on both sides of a name in small letters: of one clause before it, of a few words behind it. */
interface Beside {
  readonly before: string;
  readonly after: string;
  /** A comma stands right behind it. */
  readonly endsClause: boolean;
}

function besideName(items: readonly Item[], at: number): Beside {
  const since = items.slice(0, at).findLastIndex(({ kind }) => kind === 'comma') + 1;
  return {
    before: wordsOf(items.slice(Math.max(since, at - reach), at)).trim(),
    after: wordsOf(items.slice(at + 1, at + 5)).trim(),
    endsClause: items[at + 1]?.kind === 'comma',
  };
}

/** What a name may be said to be a form of before it goes in: `barium chloride solution in`. */
const form = /^(?:solution|powder|crystals|flakes|paste)\s*/;

/** What is said behind a name is then said of something else: `tipped from the crucible into water`. */
const isPlaceOfIt = /\b(?:from|off|in|into|on|onto|with|under|over)(?: (?:the|a|an|my|its|this|that))?$/;

/** How much of it: `10 g sugar`, `10 g of sugar`. */
function isMeasured(items: readonly Item[], at: number): boolean {
  const [before, of] = [items[at - 1], items[at - 2]];
  const isOf = before !== undefined && 'text' in before && /^of$/i.test(before.text);
  const quantity = isOf ? of : before;
  return quantity?.kind === 'quantity' && told.has(quantity.quantity.dimension);
}

/** `Barytes and charcoal`, `gypsum heated with powdered charcoal`: mixed with it, and not what burns below. */
const mixedIn =
  /^(?:heated|melted|fused|fired|roasted|calcined|ground|mixed|rubbed|packed|stirred|together|\s)*(?:and|with|plus|\+)(?:\s(?:powdered|ground|fine|finely|crushed|some|the|a|little))*$/;

/** Whether a fuel is mixed with the stuff that is named before it. */
function isMixedFuel(items: readonly Item[], at: number, called: string): boolean {
  if (called !== 'charcoal' && called !== 'coal') return false;
  const last = items.slice(0, at).findLastIndex(({ kind }) => kind === 'name' || kind === 'comma');
  const stuff = items[last];
  if (stuff?.kind !== 'name' || ordinary().has(inSmallLetters(stuff.text))) return false;
  return mixedIn.test(wordsOf(items.slice(last + 1, at)).trim());
}

function saysGoesIn(items: readonly Item[], at: number, { before, after }: Beside): boolean {
  if (isMeasured(items, at) || (isPutIn().test(before) && !isThrownOut.test(after))) return true;
  const behind = wordsOf(items.slice(at + 1, at + 4))
    .trim()
    .replace(form, '');
  return !isPlaceOfIt.test(before) && isPutInBehind().test(behind);
}

function isDeed(called: string, { before, after, endsClause }: Beside): boolean {
  if (!beginsClause.test(before)) return false;
  if (!deedsFirst().has(called)) return deeds().has(called) && object.test(after);
  return !endsClause && (object.test(after) || painted.test(after));
}

function isOnlySpokenOf(called: string, beside: Beside): boolean {
  const { before, after } = beside;
  if (isDeed(called, beside)) return true;
  // Behind a name of another language it is an adjective: `vinaigre blanc`.
  const isOfAnother = isOfIt().test(after) && inEnglish(called) === undefined;
  return notThere().test(before) || isOfAnother || isSupposed().test(after);
}

/** The same, with the clause and the sentence behind it to their ends. */
function aroundName(items: readonly Item[], at: number, { before }: Beside): Around {
  const end = items.findIndex(({ kind }, place) => place > at && kind === 'comma');
  const since = items.slice(0, at).findLastIndex(({ kind }) => kind === 'comma') + 1;
  return {
    before,
    clauseBefore: wordsOf(items.slice(since, at)).trim(),
    after: wordsOf(items.slice(at + 1, end < 0 ? items.length : end)).trim(),
    rest: wordsOf(items.slice(at + 1)).trim(),
  };
}

const strengths: ReadonlySet<string> = new Set(['mass-percent', 'mass-volume-percent', 'concentration']);

/** A quantity that stands beside a name: `sulfuric acid 20 %`; before it, a strength alone: `10 % sulfuric acid`. */
function besides(items: readonly Item[], at: number): string {
  const [before, beside] = [items[at - 1], items[at + 1]];
  if (beside?.kind === 'quantity' && told.has(beside.quantity.dimension)) return ` ${beside.quantity.written}`;
  return before?.kind === 'quantity' && strengths.has(before.quantity.dimension) ? ` ${before.quantity.written}` : '';
}

/** What stands in a bracket right behind it: `drain cleaner (sulfuric acid)`. */
function inBracketBehind(items: readonly Item[], at: number): string {
  const opens = items.findIndex(({ kind }, place) => place > at && place <= at + 2 && kind === 'open');
  if (opens < 0 || (opens === at + 2 && items[at + 1]!.kind !== 'unknown')) return '';
  const closes = items.findIndex(({ kind }, place) => place > opens && kind === 'close');
  const within = items.slice(opens + 1, closes < 0 ? undefined : closes);
  return within.some(({ kind }) => kind === 'name') ? ` (${within.map(textOf).join(' ')})` : '';
}

/** A name, and whether its sentence denies it outright or only tells what somebody says. */
interface Named {
  readonly one: NameInWords;
  readonly isDeniedOutright: boolean;
  readonly isHearsay: boolean;
}

const places = once((): ReadonlySet<string> => new Set(wordsThatSay('place')));
const forms = once((): ReadonlySet<string> => new Set(wordsThatSay('form')));
const begins = /^[A-ZÀ-Þ]/;

/** `Mercury Street`: a place that is called so. */
function isPlace(text: string, next: Item | undefined): boolean {
  if (!begins.test(text) || next === undefined || !('text' in next) || !begins.test(next.text)) return false;
  return places().has(inSmallLetters(next.text));
}

/** `Sodium hydroxide pearls`: the pieces in which the name before it is sold. */
const isFormOf = (called: string, before: Item | undefined): boolean => before?.kind === 'name' && forms().has(called);

/** @param sentence all of it, in small letters */
function namedAt(items: readonly Item[], item: NameItem, at: number, sentence: string): Named | undefined {
  const { meaning, text } = item;
  const called = inSmallLetters(text);
  const beside = besideName(items, at);
  if (noNames().has(called) || isInstrument(called, beside.after, sentence)) return undefined;
  if (isLamp(called, beside.before, sentence) || areOwnNails(called, beside.before)) return undefined;
  if (isPlace(text, items[at + 1]) || isFormOf(called, items[at - 1])) return undefined;
  if (byLooks().has(called) && article.test(beside.before)) return undefined;
  const around = aroundName(items, at, beside);
  if (isBed(called, around)) return undefined;
  const isDeniedOutright = isDenied(around) || isReplaced(around);
  const goesIn = saysGoesIn(items, at, beside) || isMixedFuel(items, at, called);
  const isHueOnly = !goesIn && isHue(called, around);
  const isSheet = isCover(called, around, sentence);
  const isElsewhere = isSheet || isForHands(around) || isRinsedBefore(around, sentence);
  const isSaid = isDeniedOutright || isElsewhere || isHueOnly || isOfAnotherTime(around, sentence);
  const isSpokenOf = isSaid || isOnlySpokenOf(called, beside);
  const isThickness = thickness.test(beside.before);
  const isOrdinary = !isSpokenOf && ordinary().has(called) && (!goesIn || isThickness);
  return {
    one: {
      text: isSheet ? 'aluminium lid' : `${text}${besides(items, at)}${inBracketBehind(items, at)}`,
      name: text,
      mayBe: compositionsOf(meaning),
      isClass: meaning.kind === 'class',
      onlySpokenOf: isSpokenOf || isOrdinary,
      ...(isOrdinary && !isThickness && { isOrdinary }),
      goesIn,
      beside: () => ({
        before: items.slice(0, at).map(textOf).join(' '),
        after: items
          .slice(at + 1)
          .map(textOf)
          .join(' '),
      }),
    },
    isDeniedOutright,
    isHearsay: isHearsay(wordsOf(items.slice(0, at))),
  };
}

/** `a lead-grey slab`, `rust-coloured`: what it looks like; zinc grey is a pigment. */
const lookingLike = once(
  () => new RegExp(String.raw`(?<![a-z])(?:(?:${patternThatSays('likened')})-gr[ea]y|[a-z]+-colou?red)(?![a-z])`, 'gi'),
);
const mayLookLike = /-gr[ea]y|-colou?r/i;

function asWordsApart(sentence: string): string {
  const apart = (sentence.includes('acide') ? sentence.replace(sour, 'aigre') : sentence)
    .replace(marker, '')
    .replace(elided, '')
    .replace(elidedItalian, 'o ')
    .replace(joinedBath, ' ');
  return mayLookLike.test(apart) ? apart.replace(lookingLike(), 'coloured') : apart;
}

function namedInSentence(sentence: string): readonly Named[] {
  const items = itemsOf(tokensOf(asWordsApart(sentence)), true);
  const small = inSmallLetters(sentence);
  return items.flatMap((item, at) => (item.kind === 'name' ? (namedAt(items, item, at, small) ?? []) : []));
}

/** Where a sentence ends, and not an abbreviation: what is said in one is said of no name in the next. */
const sentenceEnd =
  /(?<=[a-zß-ɏ\d)%]{2})(?<!(?:^|[\s(])(?:conc|dil|approx|ca|abs|sat|aq|tech|pur|vol|fig|st|dr|mrs?|no|nr|min|hrs?|sec|temp|sp|gr|cryst|anh|pt|pts|vs|resp|bzw|etc|verd|konz))[.!?]\s+(?=[A-ZÀ-Þ])/u;

/** Nobody writes longer sentences; what is longer is read in pieces, as all beside a name is gone over for each. */
const longest = 1500;

function inPieces(sentence: string): readonly string[] {
  const pieces: string[] = [];
  let from = 0;
  while (sentence.length - from > longest) {
    const blank = sentence.lastIndexOf(' ', from + longest);
    const end = blank > from ? blank : from + longest;
    pieces.push(sentence.slice(from, end));
    from = end;
  }
  return [...pieces, sentence.slice(from)];
}

/**
 * What sentences name.
 * @example namesInWords('Boiled out with battery acid.').map(({ name }) => name) // ['battery acid']
 */
export const namesInWords = memoise(
  (sentences: string) => sentences,
  (sentences): readonly NameInWords[] => {
    const named = respeltInWords(sentences).split(sentenceEnd).flatMap(inPieces).flatMap(namedInSentence);
    const denied = new Set(named.flatMap((each) => (each.isDeniedOutright ? [each.one.name.toLowerCase()] : [])));
    // `The book takes bleach here. I did not add the bleach.`
    return named.map(({ one, isHearsay: isSaid }) =>
      isSaid && denied.has(one.name.toLowerCase()) ? { ...one, onlySpokenOf: true } : one,
    );
  },
  2000,
);
