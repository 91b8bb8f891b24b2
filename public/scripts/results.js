// Sorts and narrows the table of results; the table is whole and readable without this.
const table = document.getElementById('results');
const form = document.querySelector('[data-narrow="results"]');
const rows = [...table.tBodies[0].rows].map((row) => ({
  row,
  words: row.textContent.toLowerCase(),
  keys: [...row.cells].map((cell) => cell.dataset.sort ?? cell.textContent.trim()),
}));
const headings = [...table.tHead.rows[0].cells];
const columnOf = (key) => headings.findIndex((cell) => cell.dataset.key === key);

let sorted = { column: -1, down: false };

function compare(a, b) {
  // What was not measured stands last, whichever way round.
  if (a === '' || b === '') return Number(a === '') - Number(b === '');
  const [x, y] = [Number(a), Number(b)];
  const order = Number.isNaN(x) || Number.isNaN(y) ? a.localeCompare(b, undefined, { numeric: true }) : x - y;
  return sorted.down ? -order : order;
}

function sortBy(column) {
  sorted = { column, down: sorted.column === column ? !sorted.down : false };
  rows.sort((a, b) => compare(a.keys[column], b.keys[column]));
  table.tBodies[0].append(...rows.map(({ row }) => row));
  headings.forEach((cell, at) => {
    if (at === column) cell.setAttribute('aria-sort', sorted.down ? 'descending' : 'ascending');
    else cell.removeAttribute('aria-sort');
  });
}

headings.forEach((cell, column) => {
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'sort';
  button.append(...cell.childNodes);
  button.addEventListener('click', () => sortBy(column));
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
      (wanted.get('family') === '' || keys[columnOf('family')].replace(' (declared)', '') === wanted.get('family')) &&
      (least === undefined || (keys[columnOf('yield')] !== '' && Number(keys[columnOf('yield')]) >= least));
    row.hidden = !fits;
    if (fits) count += 1;
  }
  form.querySelector('[data-count]').textContent =
    count === rows.length ? `All ${count} samples` : `${count} of ${rows.length} samples`;
}

form.hidden = false;
form.addEventListener('input', narrow);
form.addEventListener('submit', (event) => event.preventDefault());
narrow();
