// Work that a write-up tells: which of its sentences tell it, and whether what they name is put in there.
import { once } from '../../once.js';
import { forEntry } from './for-entry.js';
import type { Entry } from '../../journal/entry.js';
import { inEnglish, namesInWords, type NameInWords } from '../../reagents/index.js';
import { inSmallLetters } from '../../small-letters.js';
import { isAmongFood } from './among-food.js';
import { heatsIn } from './heat-in-words.js';
import { isHearsayAlone, ownWork } from './not-of-work.js';
import { isReactive } from './reactive.js';
import { anyToldWord as any, gapToName as gap, toldWordsFor } from './told-work-words.js';
import { standApart } from './vessels-apart.js';
import { anyOfWords, SmallLetterPattern } from './words-as-pattern.js';

/** `ammonia from the shop`: where it is from. */
const fromSomewhere = /^\s*(?:from|aus|ab)(?![a-zß-ɏ])/i;

/** `, crushed,`: what was done to something before it went in. */
const apposed = String.raw`(?:\s*,\s*[a-zß-ɏ]+\s*,)?`;

/** `into the rest a good handful`, `in 30 ml`: where to, and then how much of what follows. */
const placeAndMuch = once(() => {
  const where = String.raw`(?:\s+[^\s,;]+){0,2}?\s+${any('to', 'into')}(?:\s+[^\s,;]+){0,4}?`;
  return String.raw`(?:${where}\s+(?:\d+(?:[.,]\d+)?\s?)?${any('much')})?`;
});

/** What a German verb may begin with and stands before its participle. */
const separable =
  'weg|ab|los|raus|heraus|runter|herunter|an|auf|aus|ein|nach|vor|durch|um|unter|über|zu|hinzu|dazu|fort|sauber';

/** `mit Entkalker weggeputzt`, `mit Glyzerin verrieben`: of the many verbs of German by their form. */
const participle = `(?<![a-zß-ɏ])(?:${separable})?(?:ge|ver|be|zer|ent)[a-zß-ɏ]{3,}(?:t|en)(?![a-zß-ɏ])`;

/** Each is put together when it is first asked for: most entries ask for few of them. */
const patterns = {
  notOrBreaks: once(() => {
    // `But did not, and poured`: what was not done stands before.
    const ended = String.raw`(?:${any('did')}\s+not|n['’]t)\s*[,;]`;
    return new RegExp(`${ended}|(?<not>${any('not')})|${any('breaks')}|;`, 'g');
  }),
  puts: once(() => new SmallLetterPattern(String.raw`${any('puts')}(?:\s+(?:in|on))?${placeAndMuch()}${gap()}`)),
  into: once(() => new SmallLetterPattern(`${any('into')}${gap()}`)),
  putInto: once(() => new SmallLetterPattern(String.raw`${any('puts')}(?:\s+[^\s,;]+){0,4}?\s+${any('into')}${gap()}`)),
  endsInIt: once(() => new SmallLetterPattern(String.raw`${any('ends-in')}(?:\s+${any('to', 'into')})?${gap()}`)),
  addedTo: once(() => new SmallLetterPattern(String.raw`${any('puts')}(?:\s+[^\s,;]+){0,6}?\s+${any('to')}${gap()}`)),
  doneWith: once(
    () =>
      new SmallLetterPattern(
        String.raw`${any('deed')}(?:\s+[^\s,;]+){0,9}?\s+${any('with')}${gap()}|(?:^|[;:])\s*${any('with')}${gap()}`,
      ),
  ),
  inVessel: once(
    () => new SmallLetterPattern(String.raw`${any('first-vessel', 'other-vessel')}(?:\s+[^\s;]+){0,5}?[\s,:]*${gap()}`),
  ),
  muchAlone: once(
    () => new SmallLetterPattern(String.raw`(?:^|[,;:])\s*(?:(?:\d[\d.,]*|${any('gap')})\s+)*?${any('much')}${gap()}`),
  ),
  /** `The alu tray soaked in it`. */
  doneInIt: once(() => {
    const clause = String.raw`^(?:\s*[^\s,.;]+){0,3}?\s*${any('deed')}(?:\s+[^\s,.;]+){0,2}?`;
    return new SmallLetterPattern(String.raw`${clause}\s+(?:in|with)\s+it(?![a-z])`);
  }),
  beginsWithIt: once(() => new SmallLetterPattern(`(?:^|[,;:])\\s*${any('with')}${gap()}`)),
  /** `Foil and caustic soda took the green off`, at the beginning of a clause. */
  worksOn: once(
    () =>
      new SmallLetterPattern(
        String.raw`^(?:\s*(?:${any('and')})\s+[^\s,;.]+(?:\s+[^\s,;.]+)?)?\s*${any('works-on')}\s`,
      ),
  ),
  /** `Scrubbed the aluminium pan with it`: what it was done to meets the rest. */
  doneTo: once(() => new SmallLetterPattern(String.raw`${any('deed')}${gap()}`)),
  withRest: once(() => {
    const rest = String.raw`(?:with|in|mit|avec|con)\s+(?:it|this|that|them|some of it|the rest|what (?:was|is) left)`;
    const inOne = 'damit|darin|dedans|con ello|con esto|avec ça|con questo';
    return new SmallLetterPattern(String.raw`^(?:\s*[^\s,.;]+){0,2}?\s*(?<![a-zß-ɏ])(?:${rest}|${inOne})(?![a-zß-ɏ])`);
  }),
  /** `Das Zinkblech habe ich darin blank gemacht`. */
  inItBehind: once(
    () =>
      new SmallLetterPattern(
        String.raw`^(?:\s*[^\s,.;]+){0,4}?\s*(?<![a-zß-ɏ])(?:damit|darin)(?:\s+[^\s,.;]+){0,2}?\s+${participle}`,
      ),
  ),
  /** `Puis un verre de`, `dazu noch einen Schuss`: no verb, but how much. */
  thenMuch: once(
    () =>
      new SmallLetterPattern(
        String.raw`(?:^|[,;:])\s*${any('first-then')}(?:\s+(?:\d[\d.,]*|${any('gap')}))*?\s+${any('much')}${gap()}`,
      ),
  ),
  comesClean: once(() => new SmallLetterPattern(`^\\s*(?:${any('and')}\\s+)?${any('comes-clean')}`)),
  /** `went in the bucket with the`, `goss es in das Glas, in dem schon`, `kam zu der alten`. */
  joinsWhatIsThere: once(() => {
    const goesSomewhere = String.raw`${any('puts', 'ends-in')}(?:\s+[^\s,;]+){0,12}?`;
    const beside = String.raw`\s+(?:with|mit|avec|con|to|zu|zum|zur)${gap()}`;
    const where = String.raw`\s*,?\s+(?:[^\s,;]+\s+){0,3}?${any('holds')}(?:\s+[^\s,;]+){0,2}?${gap()}`;
    return new SmallLetterPattern(`${goesSomewhere}(?:${beside}|${where})`);
  }),
  behind: once(() => new SmallLetterPattern(String.raw`^${apposed}(?:\s*[^\s,.;]+){0,2}?\s*${any('behind')}`)),
  endsIn: once(() => new SmallLetterPattern(String.raw`^${apposed}(?:\s*[^\s,.;]+){0,2}?\s*${any('ends-in')}`)),
  lifts: once(() => {
    return new SmallLetterPattern(
      String.raw`^(?:\s*(?!${any('unlike')})[^\s,.;]+){0,4}?\s*(?!${any('unlike')})(?:${any('lifts')}|${participle})`,
    );
  }),
  goes: once(() => new SmallLetterPattern(String.raw`^${apposed}(?:\s*[^\s,.;]+){0,2}?\s*${any('goes')}`)),
  muchOfIt: once(
    () =>
      new SmallLetterPattern(String.raw`^\s*,\s*(?:${any('about')}\s+)*(?:\d[\d.,]*|${any('gap')}|\s)*${any('much')}`),
  ),
  ends: once(() => new SmallLetterPattern(String.raw`^(?:\s*[^\s,.;]+){0,4}?\s*${any('ends')}`)),
  and: once(
    () =>
      new SmallLetterPattern(
        String.raw`^\s*(?:,\s*${any('and')}|,|${any('and')})${gap()}|` +
          String.raw`^(?:\s+[^\s,]+){0,3}?\s*,?\s*${any('and')}(?:\s+[^\s,]+){0,4}?\s+${any('with')}${gap()}`,
      ),
  ),
  joinsNext: once(() => new SmallLetterPattern(`^\\s*${any('and', 'with')}${gap()}`)),
  work: once(() => new SmallLetterPattern(any('puts', 'deed', 'work'))),
  aim: once(() => new SmallLetterPattern(`${any('aim')}${gap()}`)),
  rinse: once(() => new SmallLetterPattern(any('rinse'))),
  elsewhere: once(() => new SmallLetterPattern(any('elsewhere'))),
  stuff: once(() => new SmallLetterPattern(`^${anyOfWords(toldWordsFor('stuff'))}`)),
  smells: once(
    () =>
      new SmallLetterPattern(
        String.raw`(?<!(?:the|a|any|no|its|little|longer|not|never|hardly) )${any('smells')}(?: [^\s,;]+){0,2}?` +
          String.raw`(?: (?:of|nach|a|di|à))?(?: (?:le|la|the))?\s*$`,
      ),
  ),
  holds: once(() => new SmallLetterPattern(String.raw`${any('holds')}(?:\s+[^\s,;]+){0,2}?${gap()}`)),
  foodSmell: once(() => new SmallLetterPattern(any('food-smell'))),
  residue: once(() => new SmallLetterPattern(any('residue'))),
  stored: once(() => new SmallLetterPattern(any('stored'))),
  kept: once(() => new SmallLetterPattern(any('kept'))),
  inStore: once(() => new SmallLetterPattern(String.raw`^(?:\s*[^\s,.;]+){0,7}?\s*${any('kept', 'stored')}`)),
  there: once(() => new SmallLetterPattern(String.raw`^(?:\s*[^\s,.;]+){0,3}?\s*${any('there')}`)),
  together: once(() => new SmallLetterPattern(String.raw`^[^,.;]*?${any('together')}`)),
  not: once(() => new SmallLetterPattern(any('not'))),
  takesUp: once(
    () => new SmallLetterPattern(String.raw`${any('takes-up')}(?:(?:\s+[^\s,;]+){0,5}?\s+${any('with')})?${gap()}`),
  ),
  outAgain: once(
    () => new SmallLetterPattern(String.raw`^\s*(?:${any('was')}\s+)?(?:${any('driven')}\s+)?${any('out-again')}`),
  ),
  inPortions: once(() => new SmallLetterPattern(any('in-portions'))),
  allOfIt: once(
    () => new SmallLetterPattern(String.raw`^(?:\s*(?!${any('until')})[^\s,.;]+){0,3}?\s*${any('all-of-it')}`),
  ),
  inVain: once(
    () =>
      new SmallLetterPattern(String.raw`${any('not')}(?:\s+[^\s,;]+){0,2}?\s+${any('fails')}\s+${any('with')}${gap()}`),
  ),
  withIt: once(() => new SmallLetterPattern(`${any('with')}${gap()}`)),
  notInThePot: once(() => {
    const spot = String.raw`${any('drop-of')}(?:\s+[^\s,.;]+){1,4}?\s+${any('onto')}`;
    const listed = String.raw`^\s*(?:[-*•+]\s+)?${any('drop-of')}[^:.]*:`;
    return new SmallLetterPattern(`${any('yet-to-come', 'spot-test', 'put-back')}|${spot}|${listed}`);
  }),
  ordinaryStuff: once(() => new SmallLetterPattern(`^${anyOfWords(toldWordsFor('ordinary-stuff'))}$`)),
  /** `Zum Salpeter kam Zucker`, `au salpêtre j’ai ajouté du sucre`: what stands first takes what comes behind it. */
  takesFirst: once(
    () => new SmallLetterPattern(String.raw`(?:^|[,;]|${any('breaks', 'and')})\s*${any('to', 'into')}${gap()}`),
  ),
  isPutBehind: once(() => new SmallLetterPattern(String.raw`^(?:\s*[^\s,.;]+){0,3}?\s*${any('puts', 'comes-to')}\s`)),
  fails: once(() => new SmallLetterPattern(String.raw`^\s*${any('not')}(?:\s+[^\s,;]+)?\s+${any('fails')}`)),
};

/**
 * `sin vaciarlos les eché`, `without rinsing it, I poured`: what was not done to something takes back nothing that
 * follows.
 */
const withoutDoingIt = new RegExp(
  [
    String.raw`(?<![a-zß-ɏ])(?:sin|senza)\s+[a-zß-ɏ]+(?:ar|er|ir)l[oaie]s?(?![a-zß-ɏ])`,
    String.raw`(?<![a-zß-ɏ])(?:sin|senza|sans)\s+[a-zß-ɏ]+(?:[aeií]r|re|arl[aeio]|erl[aeio])(?![a-zß-ɏ])[^,;]{0,40},`,
    String.raw`(?<![a-z])without\s+[a-z]+ing(?![a-z])[^,;]{0,40},|(?<![a-zß-ɏ])ohne\s[^,;]{0,40}?zu\s+[a-zß-ɏ]+n\s*,`,
  ].join('|'),
  'g',
);

/** Whether words before a name say that it was not put in, or should not be. */
function isTakenBack(before: string): boolean {
  const notOrBreaks = patterns.notOrBreaks();
  const small = inSmallLetters(before).replace(withoutDoingIt, ' ');
  let isBack = false;
  notOrBreaks.lastIndex = 0;
  for (let found = notOrBreaks.exec(small); found; found = notOrBreaks.exec(small))
    isBack = found.groups?.not !== undefined;
  return isBack;
}

/** Whether words tell a washing that was done: `washed five times`, and not `never washed`. */
export const tellsWashing = (words: string): boolean =>
  sentencesOf(words).some(
    (one) => patterns.rinse().test(one.replace(washWater, ' ')) && !patterns.not().test(one) && !isRinsedWithStuff(one),
  );

/** `Rinsed it with acetone`, and with nothing else: that is put to what is rinsed. */
const isRinsedWithStuff = (sentence: string): boolean =>
  isReactive(sentence) && !ofWater.test(sentence) && putInBy(namesInWords(sentence)).size > 0;
const ofWater =
  /(?<![a-zß-ɏ])(?:water|wasser|eau|acqua|agua|tap|times|twice|thrice|mal|dreimal|zweimal|fois|volte|veces|neutral|clear|clean)(?![a-zß-ɏ])/i;

/** Not a washing, but what is left of one. */
const washWater = /(?<![a-zß-ɏ])(?:washings|wash ?water|wash liquor|waschw[aä]sser\w*|spülwasser)(?![a-zß-ɏ])/gi;

/** Of a write-up as it is read: of a link and a part its label. */
const asRead = (body: string): string => body.replace(/\]\([^)]*\)/g, ']').replace(/:[a-z]+\[([^\]]*)\]/g, '$1');

/** A heading, and the line right behind it, which is none of it. */
const headingLine = /^[ \t]*#{1,6}[ \t].*\n(?=.)/gm;

/** Sentences of a write-up as they are read; its lines may break within one. */
export const sentencesOf = (body: string): readonly string[] =>
  asRead(body)
    .replace(headingLine, '$&\n')
    .replace(/(?<=\S)[ \t]*\n(?![ \t]*(?:\n|$|[-*+•|#>]|\d{1,2}[.)]))[ \t]*/g, ' ')
    .split(/(?<=[.!?])\s+|\n+/)
    .filter((sentence) => sentence.trim() !== '');

/** Whether a sentence tells of something that was done or is to be done. */
const tellsWork = (sentence: string): boolean =>
  patterns.work().test(sentence) ||
  isAmongFood(sentence) ||
  heatsIn(sentence).length > 0 ||
  putInBy(namesInWords(sentence)).size > 0;

const heading = /^[ \t]*#{1,6}[ \t]/;

/** Sentences that may tell the work: no hearsay or story, and nothing under a heading of what comes next. */
export function sentencesOfWork(body: string): readonly string[] {
  let isElsewhere = false;
  const here = sentencesOf(body).filter((sentence) => {
    const isHeading = heading.test(sentence);
    if (isHeading) isElsewhere = patterns.elsewhere().test(sentence);
    return !isHeading && !isElsewhere;
  });
  return ownWork(here);
}

/**
 * Sentences of a write-up that stands alone, as neither reagents nor steps say what was put together, and tells of
 * work; what was withdrawn is not to be done.
 */
export const workTold = forEntry(({ reagents, steps = [], status, body }: Entry): readonly string[] => {
  if (reagents.length > 0 || steps.length > 0 || status === 'withdrawn' || body.trim() === '') return [];
  const sentences = sentencesOfWork(body);
  return sentences.some(tellsWork) && !standApart(sentences) ? sentences : [];
});

/**
 * Sentences of a write-up that stands alone and sets up two vessels that stay apart: what is in them is only spoken of.
 */
export const setApart = forEntry(({ reagents, steps = [], status, body }: Entry): readonly string[] => {
  if (reagents.length > 0 || steps.length > 0 || status === 'withdrawn') return [];
  const sentences = sentencesOfWork(body);
  return standApart(sentences) ? sentences : [];
});

/** An entry of which the write-up alone tells the work, with its sentences as steps. */
export interface WorkedByWords extends Entry {
  readonly worksByWords?: true;
}

/** The entry as its work is judged: a write-up that stands alone gives the steps. */
export const asWorked = forEntry((entry: Entry): WorkedByWords => {
  const steps = workTold(entry);
  return steps.length === 0 ? entry : { ...entry, steps: [...steps], worksByWords: true };
});

/**
 * Sentences of a write-up that tells the work beside reagents, where no step does: what they do with the pot (close it,
 * sieve its dust, put it by among food) is done with what is listed.
 */
export const workBeside = forEntry(({ reagents, steps = [], status, body }: Entry): readonly string[] =>
  reagents.length === 0 || steps.length > 0 || status === 'withdrawn' ? [] : sentencesOfWork(body),
);

/** The entry as what is around its pots is judged: a write-up beside reagents gives the steps where there are none. */
export const asToldAround = forEntry((entry: Entry): Entry => {
  const steps = workBeside(entry);
  return steps.length === 0 ? entry : { ...entry, steps: [...steps] };
});

const isInAStore = (before: string, after: string): boolean =>
  patterns.kept().test(`${before} ${after}`) || patterns.stored().test(`${before} ${after}`);

const clauseOf = (after: string): string => /^[^,.;]*/.exec(after)![0];

/** No more than a few words of its clause before it. */
const isAtBeginning = (before: string): boolean => /^(?:\S+\s*){0,4}$/.test(before.slice(before.lastIndexOf(',') + 1));

/** Whether words on both sides of a name tell that it is put in. */
const tellsPutIn = (before: string, after: string): boolean =>
  (patterns.behind().test(after) && !patterns.inStore().test(after)) ||
  patterns.muchOfIt().test(after) ||
  patterns.puts().test(before) ||
  patterns.doneWith().test(before) ||
  (patterns.worksOn().test(after) && isAtBeginning(before)) ||
  (patterns.doneTo().test(before) && patterns.withRest().test(after)) ||
  patterns.inItBehind().test(after) ||
  (patterns.thenMuch().test(before) && !isInAStore(before, after)) ||
  patterns.doneInIt().test(after) ||
  ((patterns.beginsWithIt().test(before) || patterns.muchAlone().test(before)) && patterns.comesClean().test(after)) ||
  (patterns.joinsWhatIsThere().test(before) && !isInAStore(before, after)) ||
  (patterns.withIt().test(before) && patterns.lifts().test(after) && !patterns.not().test(clauseOf(after))) ||
  (patterns.ends().test(after) && !patterns.not().test(clauseOf(after)));

/** `reeks of ammonia`, and not of pickles. */
const isSmelt = (name: string, before: string): boolean =>
  patterns.smells().test(before) && !patterns.foodSmell().test(name);

/** `the bath of`, `reeks of`, `on it already`, `were tipped together`: it is there, whoever put it in. */
function tellsThere({ name, isClass }: NameInWords, before: string, after: string): boolean {
  if (!isClass && patterns.goes().test(after) && !patterns.inStore().test(after)) return true;
  if (isSmelt(name, before) || patterns.there().test(after)) return true;
  if (patterns.inVessel().test(before)) return true;
  if (patterns.together().test(after) && !patterns.not().test(after)) return true;
  return patterns.holds().test(before) && !patterns.kept().test(`${before} ${after}`);
}

/** `would not come off with bleach`: it was tried. */
const isInVain = (before: string, after: string): boolean =>
  patterns.inVain().test(before) || (patterns.withIt().test(before) && patterns.fails().test(after));

/** `Chalk and vinegar went into the jar`: a stuff, though its name is a word for other things too. */
const isMeantAsStuff = ({ isOrdinary, text, name, beside }: NameInWords): boolean =>
  isOrdinary === true &&
  patterns.ordinaryStuff().test(inEnglish(name) ?? text) &&
  !patterns.outAgain().test(beside().after);

/** `Zum Salpeter kam noch Zucker`. */
const isTakenFirst = (before: string, after: string): boolean =>
  before.length < 30 && patterns.takesFirst().test(before) && patterns.isPutBehind().test(after);

/** Whether the clause of a name takes it back, or only speaks of it; what it smells of is there. */
const isNotMeant = (one: NameInWords, before: string): boolean =>
  (one.onlySpokenOf && !isMeantAsStuff(one) && !isSmelt(one.name, before)) || isTakenBack(before);

/** `Chalk powder and`: what joins a name to the next one, which is put in. */
const formOfIt = /^\s+(?:powder|pulver|poudre|polvo|polvere|crystals|granules)(?![a-zß-ɏ])/i;
function isJoinedToNext(one: NameInWords, next: NameInWords | undefined, put: ReadonlySet<NameInWords>): boolean {
  if (!next || !put.has(next) || one.isClass) return false;
  const between = next.beside().before.slice(`${one.beside().before} ${one.name}`.trim().length);
  return patterns.joinsNext().test(between.replace(formOfIt, '')) && !isNotMeant(one, one.beside().before);
}

/** Whether words before a name say that something goes into it. */
const takesWhatGoesIn = (before: string): boolean =>
  patterns.into().test(before) || patterns.addedTo().test(before) || patterns.endsInIt().test(before);

/**
 * Those names of a sentence of which it tells that they are put in, or are there.
 * @param names all that it names, in their order
 */
export function putInBy(names: readonly NameInWords[]): ReadonlySet<NameInWords> {
  const found = new Set<NameInWords>();
  let joinsFrom: number | undefined;
  let isNext = false;
  for (const one of names) {
    const { before, after } = one.beside();
    const isVain = isInVain(before, after);
    const isJoined = isNext || (joinsFrom !== undefined && patterns.and().test(before.slice(joinsFrom)));
    isNext = isTakenFirst(before, after);
    const isPutIn = isJoined || isVain || one.goesIn || tellsPutIn(before, after) || tellsThere(one, before, after);
    const isTaker = !isPutIn && (isNext || takesWhatGoesIn(before));
    if ((!isPutIn && !isTaker) || (!isVain && isNotMeant(one, before))) continue;
    found.add(one);
    joinsFrom = isPutIn ? `${before} ${one.name}`.length : undefined;
  }
  if (found.size === 0) return found;
  names.forEach((one, at) => {
    if (isInCompany(one) || isJoinedToNext(one, names[at + 1], found)) found.add(one);
  });
  return found;
}

/**
 * Those names of which a sentence says outright that they are put in, and what is put in with them: not what it only
 * smells of, what is driven off, what is to come, what a spot is tested with, or what was put back.
 * @param names all that it names, in their order
 */
export function putInOutright(sentence: string, names: readonly NameInWords[]): ReadonlySet<NameInWords> {
  const isOff = (one: NameInWords): boolean => {
    const { before, after } = one.beside();
    return (patterns.outAgain().test(after) && !fromSomewhere.test(after)) || isSmelt(one.name, before);
  };
  const put = [...putInBy(names)].filter((one) => !isOff(one));
  const isOutright = (one: NameInWords): boolean => {
    const { before, after } = one.beside();
    if (one.goesIn || tellsPutIn(before, after) || patterns.endsIn().test(after)) return true;
    return isTakenFirst(before, after) || patterns.putInto().test(before) || patterns.endsInIt().test(before);
  };
  return new Set(put.some(isOutright) && !patterns.notInThePot().test(sentence) ? put : []);
}

/** Whether words speak of all that is listed: `Grind all of it together`; not `until all has dissolved`. */
export const speaksOfAll = (words: string): boolean => sentencesOf(words).some((one) => patterns.allOfIt().test(one));

/**
 * Whether a step tells of something that is listed that it goes in there: `Dissolve the soda in 100 mL`, `The chalk, a
 * spoonful at a time`. What it is also an ordinary word for does not matter there.
 * @param names all that its sentence names, in their order
 */
export function goesInThere(one: NameInWords, names: readonly NameInWords[]): boolean {
  if (one.goesIn || putInBy(names).has(one)) return true;
  const { before, after } = one.beside();
  if (isTakenBack(before) || patterns.outAgain().test(after)) return false;
  if (tellsPutIn(before, after) || patterns.takesUp().test(before)) return true;
  return !/\S+\s+\S+/.test(before) && patterns.inPortions().test(after);
}

/** `The battery acid is for the car`. */
const isForElsewhere =
  /^\s*(?:is|are|was|ist|sind|est|sont|es|son|è|sono)\s+(?:only\s+|nur\s+)?(?:for|für|pour|para|per)(?![a-zß-ɏ])/i;

/**
 * `Yellow prussiate boiled with a glug of battery acid`: what reacts with much and stands beside what is put in, and is
 * neither taken back nor somewhere else, is there too.
 */
function isInCompany(one: NameInWords): boolean {
  if (!isReactive(one.name) || !isThere(one)) return false;
  const { before, after } = one.beside();
  const words = `${before} ${after}`;
  if (isForElsewhere.test(after)) return false;
  return !patterns.kept().test(words) && !patterns.stored().test(words);
}

/** Whether a sentence speaks of what is left of the work, or of one of its vessels: `swilled round in the jug`. */
export const tellsResidue = (sentence: string): boolean => patterns.residue().test(sentence);

/** Whether a sentence of the work says that a name is there: it is not taken back, and not what is to be made. */
export function isThere(one: NameInWords): boolean {
  const { before } = one.beside();
  if (one.isClass || (one.onlySpokenOf && !patterns.stuff().test(one.name))) return false;
  return !isTakenBack(before) && !patterns.aim().test(before);
}

/** Whether a sentence says of a name that it is kept somewhere else: `the bleach is in the bathroom`. */
export function isKeptElsewhere(one: NameInWords): boolean {
  const { before, after } = one.beside();
  return !one.goesIn && (patterns.inStore().test(after) || patterns.stored().test(`${before} ${after}`));
}

/** How many sentences on from one that puts something in what the next puts in still meets it. */
export const meetsWithin = 2;

/**
 * What sentences put in one after the other, as cleaning tells it: first this, then that. A rinse with water parts it.
 * @param isWater whether a name is that of water
 * @returns groups of two things at least
 */
export function putTogetherBy(
  sentences: readonly string[],
  isWater: (one: NameInWords) => boolean,
): readonly (readonly NameInWords[])[] {
  const groups: NameInWords[][] = [];
  let group: NameInWords[] = [];
  let last = 0;
  const begin = (): void => void groups.push((group = []));
  begin();
  sentences.forEach((sentence, at) => {
    if (sentence === '' || isHearsayAlone(sentence)) return;
    if (patterns.notInThePot().test(sentence)) return;
    for (const one of putInBy(namesInWords(sentence))) {
      if (at - last > meetsWithin) begin();
      if (isWater(one)) {
        if (patterns.rinse().test(one.beside().before)) begin();
        continue;
      }
      group.push(one);
      last = at;
    }
  });
  return groups.filter((all) => new Set(all.map(({ name }) => name)).size > 1);
}
