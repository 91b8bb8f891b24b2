// The reading copy refreshes the open page when the journal changes and shows what the proof found.
const panel = document.createElement('aside');
panel.className = 'reading-remarks';
panel.setAttribute('aria-label', 'Remarks of the proof');

function line(tag, words, className) {
  const element = document.createElement(tag);
  element.textContent = words;
  if (className) element.className = className;
  return element;
}

/** Words in which what stands between backticks is code. */
const marked = (words) => (words ?? '').split('`').map((part, at) => (at % 2 === 1 ? line('code', part) : part));

async function show() {
  const answer = await fetch(`/~reading/remarks?address=${encodeURIComponent(location.pathname)}`);
  const { here, elsewhere, errors } = await answer.json();
  panel.replaceChildren();
  const details = document.createElement('details');
  details.open = here.some((remark) => remark.severity === 'error');
  const words = [`${here.length} ${here.length === 1 ? 'remark' : 'remarks'} here`];
  if (elsewhere > 0) words.push(`${elsewhere} elsewhere`);
  if (errors > 0) words.push(`${errors} stop publication`);
  details.append(line('summary', `Reading copy: ${words.join(', ')}`));
  const list = document.createElement('ul');
  for (const remark of here) {
    const item = line('li', '', `remark-${remark.severity}`);
    const found = line('p', '');
    found.append(
      line('strong', remark.severity),
      ' ',
      line('code', `${remark.file}:${remark.line}:${remark.column}`),
      ' ',
      ...marked(remark.found),
    );
    const cure = line('p', '', 'cure');
    cure.append(...marked(remark.cure));
    item.append(found, cure);
    list.append(item);
  }
  const chart = line('a', 'Place a chart on a photograph');
  chart.href = '/~reading/chart';
  const more = line('p', '', 'more');
  more.append(chart);
  details.append(list, more);
  panel.append(details);
  if (!panel.isConnected) document.body.append(panel);
}

// Details that were open stay open.
const opened = `masstone-open ${location.pathname}`;
const folds = () => [...document.querySelectorAll('main details')];
for (const at of JSON.parse(sessionStorage.getItem(opened) ?? '[]')) if (folds()[at]) folds()[at].open = true;
sessionStorage.removeItem(opened);

// And the page where it was: what is open has its height by now. At once, since a page that glides to its place while the
// browser goes back by itself, or while lines change their heights, comes to rest some pixels beside it.
const place = `masstone-place ${location.pathname}`;
const kept = sessionStorage.getItem(place);
if (kept !== null) {
  history.scrollRestoration = 'manual';
  const back = () => scrollTo({ top: Number(kept), behavior: 'instant' });
  back();
  sessionStorage.removeItem(place);
  // Lines have other heights once their fonts are there: then it is gone to again, unless somebody has moved the page.
  let isMoved = false;
  for (const kind of ['wheel', 'touchmove', 'keydown', 'pointerdown'])
    addEventListener(kind, () => (isMoved = true), { once: true, passive: true });
  document.fonts.ready.then(() => {
    if (!isMoved) back();
  });
}

const changes = new EventSource('/~reading/changes');
changes.addEventListener('changed', () => {
  const open = folds().flatMap((fold, at) => (fold.open ? [at] : []));
  sessionStorage.setItem(opened, JSON.stringify(open));
  sessionStorage.setItem(place, String(scrollY));
  location.reload();
});

// While nothing is heard of the reading copy, the page says that it may be stale.
const stale = line('p', 'The reading copy does not answer: this page may be older than the journal.', 'reading-stale');
changes.addEventListener('error', () => document.body.prepend(stale));
changes.addEventListener('open', () => stale.remove());
show().catch(() => {});
