// Phrases that name no stuff, but what is done and with what: `stirred to a paste`, `dried on a plate at 50`, `tube,
// capped`. They say something of everything else in the pot.
import type { Item } from './items.js';
import type { PhraseWordKind } from './lexicon.js';

type StateItem = Extract<Item, { kind: 'state' }>;

const isState = (item: Item | undefined): item is StateItem => item?.kind === 'state';

/** What was done, how, or a number: `knocked`, `slowly`, `50`. */
const toldByForm = /^(?:[\d\W_]+|\d\S*|[a-z]|.{3,}(?:ed|ly))$/i;

/** Words before which `-ing` names a thing rather than what is done: `a coating`. */
const article = /^(?:a|an|the|my|our|your|his|her|their|this|that|some|any|old|more)$/i;

/** A word that no table has, and that by its form says what is done: `stirred`, `left standing`, `smoking on`. */
function isDeedByForm(items: readonly Item[], at: number): boolean {
  const item = items[at]!;
  if (!isState(item) || !item.byForm) return false;
  if (toldByForm.test(item.text)) return true;
  const [before, after] = [items[at - 1], items[at + 1]];
  if (isState(before)) return !article.test(before.text);
  return isState(after) && !after.byForm;
}

/** What was done, in a word of its own: `snapped`, and no `chickweed`. */
const isDone = (item: Item): boolean => isState(item) && /[a-z]{3}(?<!e)ed$/i.test(item.text);

/**
 * Words of the tables, and beside them what only its form tells; of such words alone only what was done: others may be
 * a product (`Thinning`).
 */
function isOfWords(items: readonly Item[]): boolean {
  const known = items.filter((item) => isState(item) && !item.byForm);
  return (
    (known.length > 0 || (items.length > 0 && items.every(isDone))) &&
    items.every((item, at) => item.kind !== 'unknown' && (!isState(item) || !item.byForm || isDeedByForm(items, at)))
  );
}

/** Words for a stuff of which it is not said what it is: `some powder`, `waste`. */
const unnamed: readonly PhraseWordKind[] = ['shape', 'product', 'spent', 'unwashed', 'purpose'];

/** Words of those kinds that tell how something is, and not what: `dried`, `thick`. */
const onlyTellsHow =
  /^(?:.+ed|broken|cut|ground|strong|weak|dil|dil\.|dilute|neat|thick|thin|wide|shallow|deep|dry|wet|bone-dry|anhydrous|fresh|freshly|new|fine|finely|coarse|solid|hot|pure|stale|sticky|lumpy|creamy|milky|cloudy|clear|gritty|fluffy|round|up|down|set|wash|rinse)$/i;

/** Things of those kinds that hold something, lie under it or pass it. */
const vessel = /^(?:tubes?|pipes?|bath|tank|plates?|sheets?|block|slab|gauze|mesh|rod|paper|dish)$/i;

/** Behind these stands what something becomes, or where. */
const leadsOn = /^(?:to|into|as|like|in|on|onto|over|under|through|between|till|until)$/i;

const saysLittle = ({ word }: StateItem): boolean =>
  [...word.kinds].every((kind) => kind === 'ignore' || kind === 'shape' || kind === 'finely');

/** What something becomes, or where it is done: the paste of `stirred to a paste`, the plate of `dried on a plate`. */
function isResult(items: readonly Item[], at: number): boolean {
  const between = items.slice(1, at);
  const from = between.findLastIndex((item) => isState(item) && leadsOn.test(item.text));
  return from >= 0 && between.slice(from + 1).every((item) => isState(item) && saysLittle(item));
}

const beside = /^(?:round|around|about|on|upon|under|underneath|beneath|in|inside|at|over)$/i;
const mouth = /^(?:stopper|cap|lid|neck|rim|threads?|cork|bung|collar|mouth|lip|spout)$/i;

/** What has gathered about the mouth of a vessel: the crystals of `crystals round the stopper`. */
function isAboutMouth(items: readonly Item[], at: number): boolean {
  const place = items.findIndex((item, other) => other > at && isState(item) && beside.test(item.text));
  return place > 0 && items.slice(place + 1, place + 3).some((item) => isState(item) && mouth.test(item.text));
}

/** Behind `for` it is no purpose but a time: `for an hour`. */
const time = /^(?:seconds?|minutes?|hours?|days?|nights?|weeks?|months?|years?|a while|ages|ever|good|long)$/i;

const isForATime = (items: readonly Item[], at: number): boolean =>
  items.slice(at + 1, at + 4).some((item) => item.kind === 'quantity' || (isState(item) && time.test(item.text)));

/** `powder`, `waste`, and not `roasted`, which only says what is done. */
function isOfStuff(items: readonly Item[], at: number): boolean {
  const item = items[at]!;
  if (!isState(item) || item.word.kinds.has('heat') || onlyTellsHow.test(item.text)) return false;
  const [kind] = unnamed.filter((one) => item.word.kinds.has(one));
  if (kind === undefined) return false;
  if (kind === 'purpose') return !isForATime(items, at);
  if (kind !== 'shape') return true;
  if (isAboutMouth(items, at)) return false;
  return !isResult(items, at) && !(vessel.test(item.text) && items.length > 1);
}

/**
 * Whether a phrase without a name says only what is done with the rest, and names no stuff either.
 * @param items all items of the phrase, none of them a name
 */
export const namesNoStuff = (items: readonly Item[]): boolean =>
  isOfWords(items) && !items.some((_, at) => isOfStuff(items, at));
