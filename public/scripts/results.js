// Sorts and narrows the table of results and chooses samples to compare; the table is whole and readable without this.
// The address keeps the order and what it is narrowed by: ?elements=Cu&yield=90&sort=yield&down=1
const table = document.getElementById('results');
const form = document.querySelector('[data-narrow="results"]');
const compared = form.querySelector('[data-compare]');
const most = Number(compared.dataset.most);
const rows = [...table.tBodies[0].rows].map((row) => ({
  row,
  words: row.textContent.toLowerCase(),
  keys: [...row.cells].map((cell) => cell.dataset.sort ?? cell.textContent.trim()),
}));
const headings = [...table.tHead.rows[0].cells];
const columnOf = (key) => headings.findIndex((cell) => cell.dataset.key === key);
const filters = ['words', 'elements', 'family', 'yield'];

let sorted = { column: -1, down: false };
/** So many rows stand on the screen until the rest is asked for; on paper all do. */
let mostShown = 100;

/** Yields above 100 % are wet or impure: they stand after all others, whichever way round. */
const isOver = (column, key) => column === columnOf('yield') && Number(key) > 100;

function compare(a, b) {
  // What was not measured stands last, whichever way round.
  if (a === '' || b === '') return Number(a === '') - Number(b === '');
  const over = Number(isOver(sorted.column, a)) - Number(isOver(sorted.column, b));
  if (over !== 0) return over;
  const [x, y] = [Number(a), Number(b)];
  const order = Number.isNaN(x) || Number.isNaN(y) ? a.localeCompare(b, undefined, { numeric: true }) : x - y;
  return sorted.down ? -order : order;
}

function sortBy(column, down) {
  sorted = { column, down };
  rows.sort((a, b) => compare(a.keys[column], b.keys[column]));
  table.tBodies[0].append(...rows.map(({ row }) => row));
  headings.forEach((cell, at) => {
    if (at === column) cell.setAttribute('aria-sort', down ? 'descending' : 'ascending');
    else cell.removeAttribute('aria-sort');
  });
}

function keepInAddress() {
  const wanted = new FormData(form);
  const kept = filters.flatMap((name) => (String(wanted.get(name)) === '' ? [] : [[name, String(wanted.get(name))]]));
  const order = sorted.column < 0 ? [] : [['sort', headings[sorted.column].dataset.key]];
  const address = new URLSearchParams([...kept, ...order, ...(sorted.down ? [['down', '1']] : [])]).toString();
  history.replaceState(null, '', address ? `?${address}` : location.pathname);
}

headings.forEach((cell, column) => {
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'sort';
  button.append(...cell.childNodes);
  button.addEventListener('click', () => {
    sortBy(column, sorted.column === column ? !sorted.down : false);
    narrow();
    keepInAddress();
  });
  cell.append(button);
});

function narrow() {
  const wanted = new FormData(form);
  const words = String(wanted.get('words')).toLowerCase().split(/\s+/).filter(Boolean);
  const least = wanted.get('yield') === '' ? undefined : Number(wanted.get('yield'));
  let count = 0;
  for (const { row, words: text, keys } of rows) {
    const fits =
      words.every((word) => text.includes(word)) &&
      (wanted.get('elements') === '' || keys[columnOf('elements')].split(', ').includes(wanted.get('elements'))) &&
      (wanted.get('family') === '' || keys[columnOf('family')].replace(/ \(.*\)$/, '') === wanted.get('family')) &&
      (least === undefined || (keys[columnOf('yield')] !== '' && Number(keys[columnOf('yield')]) >= least));
    row.hidden = !fits;
    if (fits) count += 1;
    row.classList.toggle('further', fits && count > mostShown);
  }
  further.hidden = count <= mostShown;
  further.textContent = `Show the other ${count - mostShown}`;
  const counted = {
    [rows.length]: `All ${count} samples`,
    0: `None of ${rows.length} samples: fewer or wider filters find more`,
  };
  form.querySelector('[data-count]').textContent = counted[count] ?? `${count} of ${rows.length} samples`;
}

const further = document.createElement('button');
further.type = 'button';
further.addEventListener('click', () => {
  const next = table.querySelector('.further a');
  mostShown = Number.POSITIVE_INFINITY;
  narrow();
  next?.focus();
});
table.parentElement.after(further);

// Samples to compare

const chosen = new Set();

function showChosen() {
  const full = chosen.size >= most;
  for (const box of table.querySelectorAll('input[type="checkbox"]')) box.disabled = full && !box.checked;
  compared.hidden = chosen.size === 0;
  compared.href = `${compared.dataset.compare}?samples=${[...chosen].map(encodeURIComponent).join(',').replaceAll('%2F', '/')}`;
  compared.textContent =
    chosen.size < 2 ? 'Choose one more to compare' : `Compare ${chosen.size} samples${full ? ' (no more fit)' : ''}`;
}

for (const { row } of rows) {
  const [cell] = row.cells;
  const name = cell.textContent.trim();
  const box = document.createElement('input');
  box.type = 'checkbox';
  box.setAttribute('aria-label', `Compare ${name}`);
  box.addEventListener('change', () => {
    if (box.checked) chosen.add(name);
    else chosen.delete(name);
    showChosen();
  });
  cell.prepend(box);
}

const asked = new URLSearchParams(location.search);
for (const name of filters) {
  // A field is called `elements`, so that the form's own list of them cannot be asked.
  const field = form.querySelector(`[name="${name}"]`);
  if (field && asked.has(name)) field.value = asked.get(name);
}
const column = columnOf(asked.get('sort') ?? '');
if (column >= 0) sortBy(column, asked.get('down') === '1');

form.hidden = false;
form.addEventListener('input', () => {
  narrow();
  keepInAddress();
});
form.addEventListener('submit', (event) => event.preventDefault());
narrow();
