// The search page: our own form and hits over the search library's index. The address keeps what was asked for.
const form = document.querySelector('[data-search]');
const hits = document.getElementById('hits');
const found = document.getElementById('found');
const more = document.getElementById('more');
const filters = ['element', 'family', 'hazard', 'status', 'year'];
/** Ascending or descending, by what hits can be ordered by. */
const orders = { date: 'desc', yield: 'desc', lightness: 'desc', chroma: 'desc' };
const atOnce = 15;

let library;
let asked = 0;

async function index() {
  library ??= import(new URL(`${form.dataset.index}pagefind.js`, location.href)).then(async (loaded) => {
    await loaded.options({ baseUrl: `${form.dataset.base}/`, excerptLength: 26 });
    await loaded.init();
    return loaded;
  });
  return library;
}

function make(tag, className, ...content) {
  const element = document.createElement(tag);
  if (className) element.className = className;
  element.append(...content);
  return element;
}

function swatch(hex) {
  const names = 'http://www.w3.org/2000/svg';
  const drawing = document.createElementNS(names, 'svg');
  drawing.setAttribute('viewBox', '0 0 48 20');
  drawing.setAttribute('class', 'hit-swatch');
  drawing.setAttribute('aria-hidden', 'true');
  for (const [d, fill] of [
    ['M22 1h10v18H22z', '#000'],
    ['M32 1h11v18H32z', '#fff'],
    ['M4 6Q14 4 24 5T39 5l-1 3 4 2-4 2 1 3Q30 16 23 15T4 14z', hex],
  ]) {
    const part = document.createElementNS(names, 'path');
    part.setAttribute('d', d);
    part.setAttribute('fill', fill);
    drawing.append(part);
  }
  return drawing;
}

/** The library marks found words with <mark>; everything else in an excerpt is taken as text. */
function excerpt(html) {
  const parts = html.split(/<\/?mark>/);
  const paragraph = make('p', 'excerpt');
  parts.forEach((part, at) => {
    const text = new DOMParser().parseFromString(`<pre>\n${part}</pre>`, 'text/html').body.textContent;
    paragraph.append(at % 2 === 1 ? make('mark', '', text) : text);
  });
  return paragraph;
}

function hit(data) {
  const { meta } = data;
  const title = make('a', '', `${meta.number} ${meta.title}`);
  title.href = data.url;
  const facts = [
    meta.date,
    meta.status === 'finished' ? '' : meta.status,
    meta.pigment,
    meta.element,
    meta.family,
    meta.yield ? `best yield ${meta.yield}` : '',
  ]
    .filter(Boolean)
    .join(', ');
  const item = make(
    'li',
    'hit',
    make('div', 'hit-words', make('h2', '', title), make('p', 'kicker', facts), excerpt(data.excerpt)),
  );
  if (/^#[0-9a-f]{6}$/i.test(meta.swatch ?? '')) item.prepend(swatch(meta.swatch));
  else item.prepend(make('span', 'hit-swatch none', 'colour not measured'));
  return item;
}

function wanted() {
  const values = new FormData(form);
  const chosen = {};
  for (const name of filters) if (values.get(name)) chosen[name] = values.get(name);
  return { words: String(values.get('q')).trim(), chosen, sort: String(values.get('sort')) };
}

async function search() {
  const turn = ++asked;
  const { words, chosen, sort } = wanted();
  const address = new URLSearchParams({
    ...(words ? { q: words } : {}),
    ...chosen,
    ...(sort ? { sort } : {}),
  }).toString();
  history.replaceState(null, '', address ? `?${address}` : location.pathname);
  if (!words && Object.keys(chosen).length === 0 && !sort) {
    hits.replaceChildren();
    more.hidden = true;
    found.textContent = '';
    return;
  }
  found.textContent = 'Searching …';
  let answer;
  try {
    const loaded = await index();
    answer = await loaded.search(words || null, {
      filters: chosen,
      ...(sort ? { sort: { [sort]: orders[sort] } } : {}),
    });
  } catch {
    if (turn === asked)
      found.textContent = 'The search index could not be loaded. Look through the list of entries instead.';
    return;
  }
  if (turn !== asked) return;
  const { results } = answer;
  found.textContent =
    results.length === 0
      ? 'Nothing found. Fewer words or filters find more.'
      : `${results.length} ${results.length === 1 ? 'entry' : 'entries'}`;
  hits.replaceChildren();
  let shown = 0;
  const showMore = async () => {
    const next = await Promise.all(results.slice(shown, shown + atOnce).map((result) => result.data()));
    if (turn !== asked) return;
    shown += next.length;
    hits.append(...next.map(hit));
    more.hidden = shown >= results.length;
  };
  more.onclick = showMore;
  await showMore();
}

for (const [name, value] of new URLSearchParams(location.search)) {
  const field = form.elements.namedItem(name);
  if (field) field.value = value;
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
