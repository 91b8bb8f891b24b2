// What sets a sample apart, where its words tell of another amount than is written for it: `half the borax`.
import { Decimal } from '../../chemistry/index.js';
import { once } from '../../once.js';
import { namesInWords, readReagentText, withPlainPoints, type NameInWords } from '../../reagents/index.js';
import { inSmallLetters } from '../../small-letters.js';
import { otherAmountsTable, type OtherAmountsRow } from '../../tables/compiled/reckoning/amounts/other-amounts.js';
import { preparedByKey } from '../../tables/prepared.js';
import { isNameOf } from '../told/brought-in.js';
import { isWaterReagent, type Ingredient } from '../ingredients.js';
import { anyOfWords, fromItsBeginning, patternOfWords } from '../told/words-as-pattern.js';

type Says = OtherAmountsRow['says'];

/** Another amount than is written, as words tell it. */
export interface OtherAmount {
  /** What there is more or less of; undefined where all amounts are others. */
  readonly of?: Ingredient;
  readonly isLeftOut: boolean;
  /** The amount itself, where the words tell it: `7.5 g`. */
  readonly amount?: string;
  /** Another strength of what is a solution, as it is written; empty where nobody says which. */
  readonly strength?: string;
  /** What went in in its place. */
  readonly replacedBy?: string;
}

/** How much of what is written: so many times, nothing, or nobody says how much. */
type HowMuch = { readonly times?: string };

const rowsThatSay = (...what: readonly Says[]): readonly OtherAmountsRow[] =>
  otherAmountsTable().filter(({ says }) => what.includes(says));
const wordsThatSay = (...what: readonly Says[]): readonly string[] => rowsThatSay(...what).map(({ words }) => words);
const anyOf = (...what: readonly Says[]): string => fromItsBeginning(wordsThatSay(...what));

/** What may stand between such words and a name. */
const gap = once((): string => String.raw`(?:[\s'’]+(?:${anyOfWords(wordsThatSay('between'))}))*`);
const timesBefore = String.raw`(?<![\d.,])(\d+(?:[.,]\d+)?)\s*(?:x|×|times|mal|fois|veces|volte)(?:\s+as\s+much)?`;

/** Before what is said of a thing. */
const auxiliary = String.raw`(?:was|were|is|are|wurde|wurden|ist|est|sont|fue|es)`;

const patterns = {
  before: once(() => new RegExp(String.raw`(${anyOf('before', 'none')})${gap()}[\s'’]*$`)),
  asMuch: once(
    () => new RegExp(String.raw`(?<![a-zß-ɏ])(?:no|not|nicht|pas|nie)\s+${anyOf('less-or-more')}${gap()}[\s'’]*$`),
  ),
  lost: once(() => new RegExp(String.raw`${anyOf('lost')}(?:\s+[^\s,;]+){0,5}\s*$`)),
  behind: once(
    () =>
      new RegExp(
        String.raw`^\s*(?:${auxiliary}\s+)?(${anyOf('behind', 'gone')})` +
          String.raw`(?:\s+(?:from|to|by|on|um|auf|von|de|à|a)\s.*|\s*[–—:(-].*)?$`,
      ),
  ),
  share: once(
    () =>
      new RegExp(
        String.raw`^[\s,]*(?:so\s+|${auxiliary}\s+)?(?:${anyOf('share')}|\d+\s*(?:%|percent))` +
          String.raw`\s+${anyOf('less-or-more')}`,
      ),
  ),
  shareBefore: once(
    () =>
      new RegExp(
        String.raw`(?:(?<![\d.,])(\d+(?:[.,]\d+)?)\s*(?:%|percent|prozent)|(${anyOf('share')}))` +
          String.raw`\s+(${anyOf('less-or-more')})${gap()}[\s'’]*$`,
      ),
  ),
  shareRightBefore: once(
    () =>
      new RegExp(
        String.raw`(?:(?<![\d.,])(\d+(?:[.,]\d+)?)\s*(?:%|percent|prozent)|(${anyOf('share', 'before')}))` +
          String.raw`${gap()}[\s'’]*$`,
      ),
  ),
  lessOrMore: once(() => new RegExp(`^(${anyOf('less-or-more')})`)),
  batch: once(
    () =>
      new RegExp(
        String.raw`(?:${anyOf('before')}|${timesBefore})${gap()}\s+${anyOf('batch')}|` +
          String.raw`${anyOf('batch')}\s+(?:${auxiliary}\s+)?(?:${anyOf('scaled')}|[x×]\s*\d|\d+(?:[.,]\d+)?\s*[x×])`,
      ),
  ),
  ratio: once(() => patternOfWords(wordsThatSay('ratio'))),
  portion: once(() => patternOfWords(wordsThatSay('portion'))),
  aside: once(() => patternOfWords(wordsThatSay('aside'))),
  instead: once(() => patternOfWords(wordsThatSay('instead'))),
  gapAtEnd: once(() => new RegExp(`${gap()}\\s*$`)),
  insteadRightBefore: once(() => new RegExp(`${anyOf('instead')}${gap()}[\\s'’]*$`)),
  replaced: once(() => new RegExp(String.raw`^(?:${auxiliary}\s+)?${anyOf('replaced')}`)),
  strengthBehind: once(
    () =>
      new RegExp(
        String.raw`^[\s,:(]*(?:(?:${auxiliary}|${anyOf('at')})\s+)*(\d+(?:[.,]\d+)?\s*(?:mol/l|m|n|g/l|%))` +
          String.raw`(?![a-zß-ɏ\d/])(?!\s+(?:${anyOf('less-or-more')}|of|des|de|di))`,
      ),
  ),
  strongerBefore: once(() => new RegExp(`${anyOf('strength')}[a-zß-ɏ]*${gap()}[\\s'’]*$`)),
  strongerBehind: once(
    () => new RegExp(String.raw`^[\s,:(]*(?:(?:${auxiliary}|${anyOf('at')})\s+)*${anyOf('strength')}`),
  ),
  notYet: once(() => patternOfWords(wordsThatSay('not-yet'))),
};

const timesRightBefore = once(() => new RegExp(`${timesBefore}${gap()}\\s*$`));
const timesBehind = /^\s*(?:[x×]\s*(\d+(?:[.,]\d+)?)|(\d+(?:[.,]\d+)?)\s*[x×])\s*$/;
const percentBefore = once(() => new RegExp(String.raw`(\d+(?:[.,]\d+)?)\s*%\s+of${gap()}\s*$`));
/** `soda, 12 g instead of 10 g` */
const measuredBehind = /^\s*[,:=(]?\s*(\d+(?:[.,]\d+)?\s*(?:mg|g|kg|ml|cl|l))(?![a-zß-ɏ])/;

/** `soda upped from 10 g to 12 g` */
const nowBehind = /(?:\bto|→|->|auf|à)\s+(\d+(?:[.,]\d+)?\s*(?:mg|g|kg|ml|cl|l))$/;

const timesOf = once(
  () =>
    new Map(rowsThatSay('before', 'none', 'behind', 'gone').map(({ words, times }) => [inSmallLetters(words), times])),
);

/** What part of it words tell. */
const partOf = once(() => new Map(rowsThatSay('share').map(({ words, times }) => [inSmallLetters(words), times])));
/** Whether it comes or goes. */
const signOf = once(
  () => new Map(rowsThatSay('less-or-more').map(({ words, times }) => [inSmallLetters(words), times])),
);
const shareOf = (percent: string | undefined, words: string | undefined): string | undefined =>
  percent === undefined ? words && (partOf().get(words) ?? timesOf().get(words)) : written(percent, 0.01).times;

const howMuchOf = (words: string): HowMuch => {
  const times = timesOf().get(words);
  return times === undefined ? {} : { times };
};
const written = (number: string, share = 1): HowMuch => ({
  times: new Decimal(number.replace(',', '.')).times(share).toString(),
});

const ratio = /(?<![\d:.,])\d+(?:[.,]\d+)?\s*:\s*\d+(?:[.,]\d+)?(?![\d:])/g;

/** Whether other proportions are told, without saying of what: `2:1 instead of 1:1`. */
function tellsRatio(words: string): boolean {
  const ratios = new Set(words.match(ratio)?.map((one) => one.replace(/\s/g, '')));
  return ratios.size > 1 || (ratios.size === 1 && patterns.ratio().test(words));
}

/** What stands in the same clause behind a name. */
const clauseBehind = (after: string): string => after.split(/[,;]/, 1)[0]!.trim();

/** Whether the clause before a name says that something stood in its place. */
const isInsteadOf = (before: string): boolean => patterns.instead().test(before.slice(before.lastIndexOf(',') + 1));

/** One share more of it, or less. */
function changedBy(share: string | undefined, sign: string): HowMuch {
  const by = signOf().get(sign);
  if (share === undefined || by === undefined) return {};
  return { times: new Decimal(share).times(by).plus(1).toString() };
}

/** `10 % less` before a name; `un tiers` before it and `en plus` behind. */
function shareMoreOrLess(before: string, clause: string): HowMuch | undefined {
  const [, percent, words, sign] = patterns.shareBefore().exec(before) ?? [];
  if (sign !== undefined) return changedBy(shareOf(percent, words), sign);
  const behind = patterns.lessOrMore().exec(clause)?.[1];
  const [, number, part] = (behind !== undefined && patterns.shareRightBefore().exec(before)) || [];
  if (number === undefined && part === undefined) return undefined;
  // `half as much soda again`; without that it is only once more.
  if (behind === 'again' && !before.includes('as much')) return undefined;
  return changedBy(shareOf(number, part), behind!);
}

/** How much of a name its neighbours tell; undefined where they tell of no other amount. */
function howMuch(before: string, after: string): HowMuch | undefined {
  const times = timesRightBefore().exec(before)?.[1];
  if (times !== undefined) return written(times);
  const percent = percentBefore().exec(before)?.[1];
  if (percent !== undefined) return written(percent, 0.01);
  if (patterns.asMuch().test(before)) return undefined;
  const clause = clauseBehind(after);
  const share = shareMoreOrLess(before, clause);
  if (share) return share;
  const said = patterns.before().exec(before)?.[1] ?? patterns.behind().exec(clause)?.[1];
  // `lime in place of a third of the soda`: so much of it went, and how much is left nobody says.
  if (said !== undefined) return isInsteadOf(before) ? {} : howMuchOf(said);
  if (patterns.lost().test(before) || patterns.share().test(after)) return {};
  const behind = timesBehind.exec(clause);
  return behind ? written((behind[1] ?? behind[2])!) : undefined;
}

/** So many times what was measured out, as it would be written; undefined where that is no plain quantity. */
function timesAmount({ measure: { amount } }: Ingredient, times: string): string | undefined {
  if (!amount) return undefined;
  return `${amount.value.times(times).toSignificantDigits(3).toString()} ${amount.unit}`;
}

/** Up to so many words before a name may be its amount. */
const mostWords = 4;

/** The amount that stands beside a name, as it is written. */
function amountBeside({ name, text }: Named, before: string, after: string): Ingredient['measure']['amount'] {
  const words = before.replace(patterns.gapAtEnd(), '').split(/\s+/);
  const behind = measuredBehind.exec(after)?.[1] ?? nowBehind.exec(clauseBehind(after))?.[1];
  const texts = [
    text,
    ...(behind === undefined ? [] : [`${name} ${behind}`]),
    ...Array.from({ length: mostWords - 1 }, (_, at) => [...words.slice(-at - 2), name].join(' ')),
  ];
  for (const one of texts.filter((each) => /\d/.test(each))) {
    const read = readReagentText(withPlainPoints(one));
    const amount = read.ok && inSmallLetters(read.value.name ?? '') === inSmallLetters(name) && read.value.amount;
    if (amount && amount.kind === 'measured') return amount.quantity;
  }
  return undefined;
}

/** A written amount that is another; undefined where there is none, or it is a part of what is written. */
function writtenOtherwise(
  one: Named,
  { before, after }: Beside,
  ofOthers: Ingredient['measure']['amount'],
  isPortion: boolean,
): Pick<OtherAmount, 'amount'> | undefined {
  const amount = amountBeside(one, before, after);
  if (!amount || !ofOthers || amount.dimension !== ofOthers.dimension) return undefined;
  if (amount.base.eq(ofOthers.base)) return patterns.instead().test(before) ? {} : undefined;
  return isPortion && amount.base.lt(ofOthers.base) ? undefined : { amount: amount.written };
}

/** What stands beside a name, in small letters. */
interface Beside {
  readonly before: string;
  readonly after: string;
}

/** Whether what is named goes to its washing or the like, and not into the pot. */
const goesElsewhere = ({ before, after }: Beside): boolean =>
  patterns.aside().test(before.slice(before.lastIndexOf(',') + 1)) || patterns.aside().test(clauseBehind(after));

/** What went in in the place of a name: `potash instead of soda`, `soda swapped for potash`. */
function replacedBy(one: Named, others: readonly Named[], beside: Beside): string | undefined {
  const { before, after } = beside;
  const mine = inSmallLetters(one.name);
  const named = (text: string): string | undefined =>
    others.find(({ name }) => inSmallLetters(name) !== mine && text.includes(inSmallLetters(name)))?.name;
  const clause = clauseBehind(after);
  if (patterns.replaced().test(clause)) return goesElsewhere(beside) ? undefined : named(clause);
  if (!patterns.insteadRightBefore().test(before) || goesElsewhere(beside)) return undefined;
  return named(before.slice(before.lastIndexOf(',') + 1));
}

/** Another strength that words tell of a solution, as it is written; empty where they only say that it is another. */
function otherStrength(
  one: Named,
  of: Ingredient,
  beside: Beside & { readonly asWritten: string },
): string | undefined {
  const { strength } = of.measure;
  if (!strength || goesElsewhere(beside)) return undefined;
  const { before, after } = beside;
  const behind = patterns.strengthBehind().exec(after)?.[1];
  const at = behind === undefined ? -1 : after.indexOf(behind);
  const texts = [
    one.text,
    ...(behind === undefined ? [] : [`${one.name} ${beside.asWritten.slice(at, at + behind.length)}`]),
  ];
  for (const text of texts.filter((each) => /\d/.test(each))) {
    const read = readReagentText(withPlainPoints(text));
    const told = read.ok ? (read.value.strength ?? read.value.purity) : undefined;
    if (told && told.dimension === strength.dimension) return told.base.eq(strength.base) ? undefined : told.written;
  }
  return patterns.strongerBefore().test(before) || patterns.strongerBehind().test(after) ? '' : undefined;
}

type Named = Pick<NameInWords, 'name' | 'text' | 'beside'>;

/** Words of a name by which only one of the ingredients can be meant: `phosphate`, where one of them is one. */
const shortestOwnWord = 5;

const wordsOfName = (name: string): readonly string[] =>
  inSmallLetters(name)
    .split(/[^a-zß-ɏ]+/)
    .filter(({ length }) => length >= shortestOwnWord);

/** Ingredients that words call by a part of their own name, where the lexicon does not know it: `carbonato`. */
function calledByPart(words: string, ingredients: readonly Ingredient[]): readonly (readonly [Named, Ingredient])[] {
  const small = inSmallLetters(words);
  return ingredients.flatMap((of) =>
    wordsOfName(of.name)
      .filter((word) => ingredients.every((other) => other === of || !wordsOfName(other.name).includes(word)))
      .flatMap((word): (readonly [Named, Ingredient])[] => {
        const at = small.search(new RegExp(`(?<![a-zß-ɏ])${word}(?![a-zß-ɏ])`));
        if (at < 0) return [];
        const beside = { before: words.slice(0, at).trim(), after: words.slice(at + word.length).trim() };
        return [[{ name: word, text: word, beside: () => beside }, of]];
      }),
  );
}

function otherAmountOf(
  one: Named,
  of: Ingredient,
  isPortion: boolean,
  others: readonly Named[],
): Omit<OtherAmount, 'of'> | undefined {
  const beside = one.beside();
  const [before, after] = [inSmallLetters(beside.before), inSmallLetters(beside.after)];
  if (isWaterReagent(of.reagent) && patterns.aside().test(before.slice(before.lastIndexOf(',') + 1))) return undefined;
  const by = replacedBy(one, others, { before, after });
  if (by !== undefined) return { isLeftOut: true, replacedBy: by };
  const strength = otherStrength(one, of, { before, after, asWritten: beside.after });
  if (strength !== undefined) return { isLeftOut: false, strength };
  const otherwise = writtenOtherwise(one, { before, after }, of.measure.amount, isPortion);
  if (otherwise) return { isLeftOut: false, ...otherwise };
  const much = howMuch(before, after);
  if (!much) return undefined;
  const { times } = much;
  if (times === undefined) return { isLeftOut: false };
  if (Number(times) === 0) return patterns.notYet().test(after) ? undefined : { isLeftOut: true };
  if (isPortion && Number(times) < 1) return undefined;
  const amount = timesAmount(of, times);
  return { isLeftOut: false, ...(amount !== undefined && { amount }) };
}

/** So many letters of a word tell whether one of the table that stands for longer ones may begin it. */
const telling = 4;

/** What words of the table begin with: one word alone, two, or the first letters of a longer one. */
const beginnings = preparedByKey<true>('beginnings-of-other-amounts', () =>
  rowsThatSay(
    ...([
      'before',
      'none',
      'behind',
      'gone',
      'lost',
      'share',
      'scaled',
      'ratio',
      'instead',
      'strength',
      'replaced',
    ] as const),
  ).map(({ words }): [string, true] => [
    words.endsWith('*')
      ? `${inSmallLetters(words).slice(0, telling)}*`
      : inSmallLetters(words).split(' ').slice(0, 2).join(' '),
    true,
  ]),
);
const numberOfIt =
  /\d\s*(?:mg|g|kg|ml|cl|l|m|n|mol\/l|x|×|:|%|times|mal|fois|veces|volte|percent)(?![a-zß-ɏ])|[x×]\s*\d/i;

/** A cheap question, which spares most samples the reading of the table. */
function mayTell(text: string): boolean {
  if (numberOfIt.test(text)) return true;
  const words = inSmallLetters(text)
    .split(/[\s,;:.()-]+/)
    .filter((word) => word !== '');
  return words.some((word, at) =>
    [word, `${word} ${words[at + 1]}`, `${word.slice(0, telling)}*`].some((key) => beginnings(key) !== undefined),
  );
}

/**
 * Other amounts that words tell of what a sample holds.
 * @param words what sets the sample apart
 * @param ingredients what is reckoned with in it, as for all samples
 * @returns each once; none where the words tell of no other amount
 * @example otherAmountsIn('boiling, half the borax', [borax])[0].amount // '7.5 g', where 15 g are listed
 */
export function otherAmountsIn(words: string, ingredients: readonly Ingredient[]): readonly OtherAmount[] {
  if (!mayTell(words)) return [];
  const isPortion = patterns.portion().test(words);
  const found = new Map<Ingredient, OtherAmount>();
  const names = namesInWords(words);
  const meant = names.flatMap((one): (readonly [Named, Ingredient])[] => {
    const [of, another] = ingredients.filter((each) => isNameOf(one, each));
    return of && !another ? [[one, of]] : [];
  });
  const byPart = calledByPart(words, ingredients).filter(([, of]) => !meant.some(([, known]) => known === of));
  for (const [one, of] of [...meant, ...byPart]) {
    const other = found.has(of) ? undefined : otherAmountOf(one, of, isPortion, names);
    if (other) found.set(of, { of, ...other });
  }
  const isBatch = found.size === 0 && (patterns.batch().test(inSmallLetters(words)) || tellsRatio(words));
  return isBatch ? [{ isLeftOut: false }] : [...found.values()];
}
