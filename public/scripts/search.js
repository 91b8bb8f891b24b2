// The search page: what is found by name first, then what is found in the words of the pages by the search library.
// The address keeps what was asked for.
import { searchKey, searchWords, shelfOf } from './search-key.js';
import {
  countNamed,
  excerptParts,
  isKnown,
  partsKnowing,
  rankNames,
  rankPartly,
  suggestion,
  tellingWords,
  withoutNumbering,
} from './search-rank.js';

const form = document.querySelector('[data-search]');
const hits = document.getElementById('hits');
const found = document.getElementById('found');
const perhaps = document.getElementById('perhaps');
const more = document.getElementById('more');
const filters = ['kind', 'element', 'family', 'hazard', 'status', 'year'];
const shownAtOnce = 10;
const indexAddress = new URL(form.dataset.index, location.href);

let asked = 0;

// The index

/** What was loaded once is kept. */
const loaded = new Map();
function load(path) {
  if (!loaded.has(path))
    loaded.set(
      path,
      fetch(new URL(`${path}.json`, indexAddress)).then((answer) => {
        if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
        return answer.json();
      }),
    );
  return loaded.get(path);
}

let library;
/** The search library, loaded when the words of pages are first searched; it runs in this page's own thread. */
function texts() {
  library ??= import(new URL('pagefind.js', indexAddress)).then(async (pagefind) => {
    await pagefind.options({ noWorker: true });
    await pagefind.init();
    const { parts } = await load('index');
    const others = Array.from({ length: parts - 1 }, (_, at) => new URL(`part-${at + 1}/`, indexAddress));
    await Promise.all(others.map(({ href }) => pagefind.mergeIndex(href)));
    return pagefind;
  });
  return library;
}

const shelfFile = (shelf) => shelf.replace(/[^a-z0-9]/g, (letter) => `-${letter.codePointAt(0).toString(16)}`);

/** Names on the shelves of these words. */
async function shelvedNames(words) {
  const about = await load('index');
  const wanted = new Set(words.map((word) => shelfOf(word, about.letters)));
  // A beginning shorter than the name of a shelf may go on in several.
  const short = words.filter((word) => [...word].length < about.letters);
  const there = about.names.filter((shelf) => wanted.has(shelf) || short.some((word) => shelf.startsWith(word)));
  return (await Promise.all(there.map((shelf) => load(`names/${shelfFile(shelf)}`)))).flat();
}

/** The journal's words under these letters: those of its texts, and all. */
async function wordsUnder(letters) {
  const { vocabulary } = await load('index');
  const there = vocabulary.filter((letter) => letters.includes(letter));
  const shelves = await Promise.all(there.map((letter) => load(`vocabulary/${shelfFile(letter)}`)));
  return {
    texts: shelves.flatMap((shelf) => shelf.texts),
    parts: shelves.flatMap((shelf) => shelf.parts ?? []),
    all: shelves.flatMap((shelf) => [...shelf.texts, ...shelf.names]),
  };
}

const firstLetters = (words) => words.map((word) => shelfOf(word, 1));
/** A first letter that changed places with the second, or is too much, is thought of. */
const firstTwoLetters = (words) => words.flatMap((word) => [...word].slice(0, 2));

async function thing(number) {
  const { atOnce } = await load('index');
  return { ...(await load(`things/${Math.floor(number / atOnce)}`))[number % atOnce], number };
}

async function everything() {
  const { things, atOnce } = await load('index');
  const batches = Array.from({ length: Math.ceil(things / atOnce) }, (_, at) => load(`things/${at}`));
  return (await Promise.all(batches)).flat().map((one, number) => ({ ...one, number }));
}

// What answers

const fits = (one, chosen) =>
  (!chosen.kind || one.kind === chosen.kind) &&
  (!chosen.element || one.elements?.includes(chosen.element)) &&
  (!chosen.family || one.families?.includes(chosen.family)) &&
  (!chosen.hazard || one.hazards?.includes(chosen.hazard)) &&
  (!chosen.status || one.status === chosen.status) &&
  (!chosen.year || one.year === chosen.year);

/** What a hit says of a name by which it was found, by how the name belongs to it. */
const whys = {
  2: 'uses',
  3: 'gas:',
  6: 'with',
  7: 'hazard:',
  8: 'not made yet:',
  10: 'gas:',
  11: 'uses what is also called',
};

async function byName(words) {
  const telling = tellingWords(searchWords(words));
  if (telling.length === 0) return [];
  const ranked = rankNames(words, await shelvedNames(telling)).slice(0, 300);
  return Promise.all(
    ranked.map(async ({ thing: number, name, relation, score }) => ({
      ...(await thing(number)),
      nameScore: score,
      called: searchKey(name ?? '') === searchKey(words),
      why: whys[relation] && name ? `${whys[relation]} ${name}` : '',
    })),
  );
}

/**
 * Things whose words hold all of these words, the best first: [number, how well] each.
 * The library would shorten a word that a part of the index does not have until it finds something else.
 * @param near words under the same letters
 */
async function holding(words, near) {
  const { parts } = await load('index');
  const knowing = partsKnowing(words, near, parts);
  if (words.length === 0 || knowing.length === 0) return [];
  const [pagefind, pieces] = await Promise.all([texts(), load('pieces')]);
  const { results } = await pagefind.search(words.join(' '));
  return results.flatMap(({ id, score }) =>
    [pieces[id] ?? []]
      .flat()
      .filter((number) => knowing.includes(number % parts))
      .map((number) => [number, score]),
  );
}

const asThings = (pairs) =>
  Promise.all(pairs.slice(0, 300).map(async ([number, score]) => ({ ...(await thing(number)), score })));

async function inTexts(words) {
  const telling = tellingWords(searchWords(words));
  const near = await wordsUnder(firstLetters(telling));
  const found = await holding(telling, near);
  if (found.length === 0) return [];
  const named = countNamed(telling, await shelvedNames(telling));
  const weight = ([number, score]) => score * (1 + (named.get(number) ?? 0));
  return asThings(found.sort((one, other) => weight(other) - weight(one)));
}

/** Where no page holds all of the words: pages that hold many of them. */
async function partlyInTexts(words) {
  const telling = [...new Set(tellingWords(searchWords(words)))];
  const near = await wordsUnder(firstLetters(telling));
  const known = telling.filter((word) => isKnown(word, near.texts));
  if (telling.length < 2 || known.length === 0) return [];
  const byWord = await Promise.all(
    telling.map(async (word) => [
      ...new Map([
        ...rankNames(word, await shelvedNames([word])).map((one) => [one.thing, 0]),
        ...(await holding([word], near)),
      ]),
    ]),
  );
  const { things } = await load('index');
  const ranked = rankPartly(
    byWord.map((pairs) => pairs.map(([number]) => number)),
    things,
  );
  return asThings(ranked.map((number) => [number, 0]));
}

function ordered(all, sort) {
  if (!sort) return all;
  return all
    .filter((one) => one.order?.[sort] !== undefined)
    .sort((x, y) => y.order[sort] - x.order[sort] || y.number - x.number);
}

/** What answers the words, the names before the texts; each thing once. */
async function answering(words) {
  const [named, told] = await Promise.all([byName(words), inTexts(words)]);
  const scores = new Map(told.map(({ number, score }) => [number, score]));
  const names = new Set(named.map(({ number }) => number));
  const said = ({ number }) => scores.get(number) ?? 0;
  return [
    // Of things that bear a name alike, the one whose words say most of it comes first.
    ...named.sort((one, other) => other.nameScore - one.nameScore || said(other) - said(one)),
    ...told.filter(({ number }) => !names.has(number)),
  ];
}

/** What a name of the trade means; undefined where it is not known. */
async function meaning(words) {
  const key = searchKey(words);
  const letter = shelfOf(key, 1);
  const { otherwise } = await load('index');
  return otherwise.includes(letter) ? (await load(`otherwise/${shelfFile(letter)}`))[key] : undefined;
}

/** Before what only says the words, as in `lime saltpetre`, stands what the trade means by them. */
async function meantToo(systematic, all) {
  if (!systematic) return {};
  const meant = await answering(systematic);
  const numbers = new Set(meant.map(({ number }) => number));
  return {
    all: [...meant, ...all.filter(({ number }) => !numbers.has(number))],
    also: systematic,
    meant: meant.length,
  };
}

/** Answers, and what was asked in place of the words where nothing is called so. */
async function answers(words) {
  const all = await answering(words);
  if (all.some(({ called }) => called)) return { all, asked: words };
  const systematic = await meaning(words);
  if (all.length > 0) return { all, asked: words, ...(await meantToo(systematic, all)) };
  const meant = systematic ? await answering(systematic) : [];
  if (meant.length > 0) return { all: meant, asked: systematic, means: systematic };
  // A word that the trade has is not misspelt: no other is put in its place.
  const better = systematic
    ? undefined
    : suggestion(words, (await wordsUnder(firstTwoLetters(searchWords(words)))).all);
  const perhapsMeant = better ? await answering(better) : [];
  if (perhapsMeant.length > 0) return { all: perhapsMeant, asked: better };
  return { all: await partlyInTexts(better ?? words), asked: words, partly: true, means: systematic };
}

// Shown

function make(tag, className, ...content) {
  const element = document.createElement(tag);
  if (className) element.className = className;
  element.append(...content);
  return element;
}

function chip(hex) {
  const names = 'http://www.w3.org/2000/svg';
  const drawing = document.createElementNS(names, 'svg');
  drawing.setAttribute('viewBox', '0 0 40 20');
  drawing.setAttribute('class', 'dab bare');
  drawing.setAttribute('aria-hidden', 'true');
  const block = document.createElementNS(names, 'path');
  block.setAttribute('d', 'M0 0h40v20H0z');
  block.setAttribute('fill', hex);
  drawing.append(block);
  return drawing;
}

/** A piece of what the page shows, with the words that were asked for marked. */
async function excerpt({ number, why }, words) {
  if (why) return [why];
  const text = why === undefined ? await load(`words/${number}`).catch(() => '') : '';
  const parts = excerptParts(text, tellingWords(searchWords(words)));
  return parts.map((part, at) => (at % 2 === 1 ? make('mark', '', part) : part));
}

async function hit(one, words) {
  const link = make('a', '', one.title);
  link.href = `${form.dataset.base}${one.address}`;
  const painted = /^#[0-9a-f]{6}$/i.test(one.hex ?? '') ? [chip(one.hex), ' '] : [];
  const item = make('li', 'hit', make('h2', '', ...painted, link), make('p', 'kicker', one.facts ?? ''));
  const reason = await excerpt(one, words);
  if (reason.length > 0) item.append(make('p', 'excerpt', ...reason));
  return item;
}

function wanted() {
  const values = new FormData(form);
  const chosen = {};
  for (const name of filters) if (values.get(name)) chosen[name] = values.get(name);
  return { words: String(values.get('q')).trim(), chosen, sort: String(values.get('sort')) };
}

function keepInAddress({ words, chosen, sort }) {
  const address = new URLSearchParams({ ...(words ? { q: words } : {}), ...chosen, ...(sort ? { sort } : {}) });
  history.replaceState(null, '', String(address) ? `?${address}` : location.pathname);
}

function clear(words) {
  hits.replaceChildren();
  perhaps.replaceChildren();
  more.hidden = true;
  found.textContent = words;
}

const counted = (count) => `${count} ${count === 1 ? 'page' : 'pages'}`;

/** What was found, in a sentence. */
function sentence(words, answer, count) {
  if (answer.all.length === 0)
    return answer.means
      ? `Nothing found: no page of this journal names ${words} (${answer.means}).`
      : 'Nothing found. Fewer words find more.';
  if (count === 0) return `Nothing found with these filters; ${counted(answer.all.length)} without them.`;
  if (answer.also) {
    const itself = answer.meant > 0 ? 'is found too' : 'itself is named on no page of this journal';
    return `${counted(count)}; ${words} (${answer.also}) ${itself}.`;
  }
  if (answer.partly) return `No page holds all of the words; ${counted(count)} hold some.`;
  if (answer.means) return `Nothing here is called ${words}. That is ${answer.asked}: ${counted(count)}.`;
  if (answer.asked !== words) return `Nothing here is called ${words}. Found for ${answer.asked}: ${counted(count)}.`;
  return counted(count);
}

async function show(turn, question) {
  const { chosen, sort } = question;
  const words = withoutNumbering(question.words);
  const answer = words ? await answers(words) : { all: await everything(), asked: words };
  const all = ordered(
    answer.all.filter((one) => fits(one, chosen)),
    sort,
  );
  if (turn !== asked) return;
  clear(sentence(words, answer, all.length));
  let shown = 0;
  const showMore = async () => {
    const next = await Promise.all(all.slice(shown, shown + shownAtOnce).map((one) => hit(one, answer.asked)));
    if (turn !== asked) return;
    shown += next.length;
    hits.append(...next);
    more.hidden = shown >= all.length;
  };
  more.onclick = showMore;
  await showMore();
}

async function search() {
  const turn = ++asked;
  const question = wanted();
  keepInAddress(question);
  const { words, chosen, sort } = question;
  if (!words && Object.keys(chosen).length === 0 && !sort) {
    clear('');
    return;
  }
  found.textContent = 'Searching …';
  try {
    await show(turn, question);
  } catch {
    if (turn === asked) clear('The search index could not be loaded. Look through the list of entries instead.');
  }
}

for (const [name, value] of new URLSearchParams(location.search)) {
  const field = form.elements.namedItem(name);
  if (!field) continue;
  field.value = value;
  const folded = field.closest('details');
  if (folded && value) folded.open = true;
}
let waiting;
form.addEventListener('input', () => {
  clearTimeout(waiting);
  waiting = setTimeout(search, 150);
});
form.addEventListener('submit', (event) => {
  event.preventDefault();
  clearTimeout(waiting);
  search();
});
search();
