// Ranks what is found by name, and finds the journal's word for a misspelt one. No page and no network here.
import { littleWords, searchWords } from './search-key.js';

/** By how a name belongs to a thing: is, page, uses, gas, element, family, incident, hazard, lacks, also, told gas, uses by another name. */
const weights = [10, 9, 5, 4.5, 4, 3, 2, 2.5, 2.6, 8, 4.8, 4.9];

export const tellingWords = (words) => {
  const telling = words.filter((word) => !littleWords.has(word));
  return telling.length > 0 ? telling : words;
};

/** `entry 14`, `no. 14` and `experiment 14` ask for 14. */
export const withoutNumbering = (question) =>
  question.replace(/(?:\b(?:entry|no|nr|number|experiment)\b\.?\s*)+(?=\d)/i, '');

/** A word and its plural are one. */
const same = (a, b) => a === b || `${a}s` === b || a === `${b}s`;

/** How well a name answers: 4 it is the name, 2.6 the name begins so, 2 all words stand in it, 0.7 as beginnings. */
export function fit(nameWords, words) {
  const key = words.join('');
  const nameKey = nameWords.join('');
  const longer = 1 - 0.03 * Math.min(10, Math.max(0, nameWords.length - words.length));
  if (nameKey === key || (nameWords.length === words.length && words.every((word, at) => same(word, nameWords[at]))))
    return 4;
  const whole = words.every((word) => nameWords.some((own) => same(own, word)));
  if (nameKey.startsWith(key) && whole) return 2.6 * longer;
  if (whole) return 2 * longer;
  return words.every((word) => nameWords.some((own) => own.startsWith(word))) ? 0.7 * longer : 0;
}

const fitWord = (nameWords, word) => {
  if (nameWords.some((own) => same(own, word))) return nameWords.length === 1 ? 1 : 0.8;
  return nameWords.some((own) => own.startsWith(word)) ? 0.5 : 0;
};

/**
 * Things that names lead to, the best first.
 * @param shelved [text, [thing, relation, thing, relation …]] of every shelf that the words ask for
 * @returns { thing, score, name, relation } each
 */
export function rankNames(question, shelved) {
  const words = tellingWords(searchWords(question));
  if (words.length === 0) return [];
  const best = new Map();
  const spread = new Map();
  for (const [text, bearers] of shelved) {
    const nameWords = searchWords(text);
    const whole = fit(nameWords, words);
    const single = words.map((word) => fitWord(nameWords, word));
    for (let at = 0; at < bearers.length; at += 2) {
      const [thing, relation] = [bearers[at], bearers[at + 1]];
      const score = whole * weights[relation];
      if (score > (best.get(thing)?.score ?? 0)) best.set(thing, { thing, score, name: text, relation });
      const own = spread.get(thing) ?? words.map(() => 0);
      spread.set(
        thing,
        own.map((before, word) => Math.max(before, single[word] * weights[relation])),
      );
    }
  }
  // Words that stand in several names of one thing: `green copper` finds what is green and of copper.
  for (const [thing, scores] of spread) {
    if (words.length < 2 || scores.some((score) => score === 0)) continue;
    const score = (2 * scores.reduce((sum, one) => sum + one, 0)) / scores.length;
    if (score > (best.get(thing)?.score ?? 0)) best.set(thing, { thing, score, name: '', relation: 0 });
  }
  return [...best.values()].sort((x, y) => y.score - x.score || y.thing - x.thing);
}

/**
 * How many of the words stand in names of a thing, by thing.
 * @param shelved as for rankNames
 */
export function countNamed(words, shelved) {
  const named = new Map();
  for (const [text, bearers] of shelved) {
    const nameWords = searchWords(text);
    const there = words.filter((word) => nameWords.some((own) => same(own, word)));
    if (there.length === 0) continue;
    for (let at = 0; at < bearers.length; at += 2)
      named.set(bearers[at], new Set([...(named.get(bearers[at]) ?? []), ...there]));
  }
  return new Map([...named].map(([thing, own]) => [thing, own.size]));
}

/** Letters to add, drop, change or swap to make one word the other; more than `most` is told as most + 1. */
export function distance(a, b, most) {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let before = [];
  let last = Array.from({ length: b.length + 1 }, (_, at) => at);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      row[j] = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + change);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) row[j] = Math.min(row[j], before[j - 2] + 1);
    }
    [before, last] = [last, row];
  }
  return Math.min(last[b.length], most + 1);
}

/** A word without its commonest endings: what is left of `calcined` and of `calcining` is one. */
const root = (word) => (word.length > 5 ? word.replace(/(?:ations?|ings?|ed|es|s|er|e|ly)$/, '') : word);

/** Whether a word is another, its plural, what it begins, or has another ending. */
const alike = (own, word) => same(own, word) || own.startsWith(word) || root(own) === root(word);

/** Whether the journal has a word, its plural or what it begins. */
export const isKnown = (word, vocabulary) => vocabulary.some((one) => alike(one, word));

/**
 * Parts of the index in which all of the words stand.
 * @param vocabulary words of texts, and of each the parts in which it stands, as a sum of powers of 2
 * @param parts how many there are
 */
export function partsKnowing(words, vocabulary, parts) {
  const { texts, parts: standing } = vocabulary;
  const numbers = Array.from({ length: parts }, (_, part) => part);
  return numbers.filter((part) => {
    const own = parts === 1 ? texts : texts.filter((_, at) => standing[at] & (2 ** part));
    return words.every((word) => isKnown(word, own));
  });
}

/** The journal's word that a misspelt one may have meant: the nearest, of equals the commonest. */
function nearestWord(word, vocabulary) {
  const most = word.length < 6 ? 1 : 2;
  let nearest;
  for (const one of vocabulary) {
    if (one.length < 3 || /^\d/.test(one)) continue;
    const letters = distance(word, one, most);
    // Few mistake the first letter.
    const far = letters - (one[0] === word[0] ? 0.5 : 0);
    if (letters <= most && (!nearest || far < nearest.far)) nearest = { one, far };
  }
  return nearest?.one;
}

/**
 * The question with each word that is not known put as the journal's nearest word, or undefined where nothing is near.
 * @param vocabulary the journal's words, the commonest first
 */
export function suggestion(question, vocabulary) {
  const words = searchWords(question);
  const better = words.map((word) =>
    word.length < 4 || isKnown(word, vocabulary) ? word : (nearestWord(word, vocabulary) ?? word),
  );
  return better.some((word, at) => word !== words[at]) ? better.join(' ') : undefined;
}

/**
 * Where no page holds all words: those that hold the most of them, the rarer a word the more it tells.
 * @param found by word, the things that hold it, the best first
 * @param things how many things there are
 * @returns things that hold at least half of the words
 */
export function rankPartly(found, things) {
  const scores = new Map();
  for (const bearers of found) {
    const rare = Math.log(1 + things / (1 + bearers.length));
    bearers.forEach((thing, at) => {
      const one = scores.get(thing) ?? { thing, words: 0, score: 0 };
      scores.set(thing, { thing, words: one.words + 1, score: one.score + rare * (1 + 1 / (1 + at)) });
    });
  }
  return [...scores.values()]
    .filter(({ words }) => words >= found.length / 2)
    .sort((x, y) => y.words - x.words || y.score - x.score)
    .map(({ thing }) => thing);
}

/** A piece of a text in parts, every second of which was asked for: [before, word, between, word …]. */
export function excerptParts(text, words, length = 170) {
  const wantedBy = (own) => words.find((word) => alike(own, word));
  const pieces = text.split(/([\p{L}\p{N}]+)/u);
  const isWanted = (piece) => searchWords(piece).some((own) => wantedBy(own) !== undefined);
  const marks = pieces.flatMap((piece, at) => (at % 2 === 1 && isWanted(piece) ? [at] : []));
  if (marks.length === 0) return [];
  // The stretch that holds the most different words.
  let best = { from: marks[0], words: 0 };
  for (const from of marks) {
    let room = length;
    const there = new Set();
    for (let at = from; at < pieces.length && room > 0; at += 1) {
      room -= pieces[at].length;
      if (at % 2 === 1 && isWanted(pieces[at])) there.add(wantedBy(searchWords(pieces[at])[0]));
    }
    if (there.size > best.words) best = { from, words: there.size };
  }
  let begin = best.from;
  for (let room = 50; begin > 0 && room > 0; begin -= 1) room -= pieces[begin - 1].length;
  const parts = [begin > 0 ? '… ' : ''];
  let room = length;
  for (let at = begin; at < pieces.length && room > 0; at += 1) {
    room -= pieces[at].length;
    if (at % 2 === 1 && isWanted(pieces[at])) parts.push(pieces[at], '');
    else parts[parts.length - 1] += pieces[at];
    if (room <= 0 && at < pieces.length - 1) parts[parts.length - 1] += ' …';
  }
  return parts;
}
