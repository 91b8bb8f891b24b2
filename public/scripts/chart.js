// Places the corners of a chart, and samples, on a photograph: with the pointer, the keys, or numbers.
const form = document.querySelector('.chart-placing');
const picture = form.querySelector('.chart-picture');
const width = Number(form.dataset.width);
const height = Number(form.dataset.height);
const kept = `masstone-chart ${form.dataset.photo}`;

const numbers = (text) => text.split(/[\s,]+/).map(Number);
/** A tenth of a pixel is as near as anyone can point. */
const rounded = (value) => Math.round(value * 10) / 10;
const within = (value, most) => rounded(Math.min(Math.max(value, 0), most));

function firstState() {
  const side = Math.max(8, Math.round(Math.min(width, height) / 12));
  const [left, right, top, bottom] = [width * 0.2, width * 0.7, height * 0.25, height * 0.75].map(Math.round);
  const corners = form.dataset.corners
    ? numbers(form.dataset.corners)
    : [left, top, right, top, right, bottom, left, bottom];
  const samples = JSON.parse(form.dataset.samples).map((text) => numbers(text.replace(/^[^=]*=/, '')));
  return {
    corners: [0, 1, 2, 3].map((at) => ({ x: corners[2 * at], y: corners[2 * at + 1] })),
    samples: (samples.length > 0 ? samples : [[Math.round(width * 0.8), top, side, side]]).map(([x, y, w, h]) => ({
      x,
      y,
      width: w,
      height: h,
    })),
  };
}

/** The page is loaded again whenever the journal is saved: what was placed is kept until the tab is closed. */
function keptState() {
  try {
    const state = JSON.parse(sessionStorage.getItem(kept));
    return state?.corners?.length === 4 ? state : undefined;
  } catch {
    return undefined;
  }
}

const state = keptState() ?? firstState();
let chosen;

const nameOf = (at) => String.fromCharCode(65 + (at % 26)) + (at >= 26 ? Math.floor(at / 26) : '');
const element = (tag, properties = {}) => Object.assign(document.createElement(tag), properties);

/** Place on the picture of a column and row of the chart: the perspective through its four corners (unit square). */
function perspective([a, b, c, d]) {
  const [dx1, dx2, dx3] = [b.x - c.x, d.x - c.x, a.x - b.x + c.x - d.x];
  const [dy1, dy2, dy3] = [b.y - c.y, d.y - c.y, a.y - b.y + c.y - d.y];
  const det = dx1 * dy2 - dx2 * dy1;
  if (det === 0) return undefined;
  const g = (dx3 * dy2 - dx2 * dy3) / det;
  const h = (dx1 * dy3 - dx3 * dy1) / det;
  return (u, v) => {
    const w = g * u + h * v + 1;
    return {
      x: ((b.x - a.x + g * b.x) * u + (d.x - a.x + h * d.x) * v + a.x) / w,
      y: ((b.y - a.y + g * b.y) * u + (d.y - a.y + h * d.y) * v + a.y) / w,
    };
  };
}

const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
svg.setAttribute('aria-hidden', 'true');
picture.append(svg);

function drawPatches() {
  svg.replaceChildren();
  const [columns, rows] = /^(\d{1,2})x(\d{1,2})$/.exec(form.elements.grid.value)?.slice(1).map(Number) ?? [];
  const at = perspective(state.corners);
  if (!(columns > 1 && rows > 1) || !at) return;
  const [a, b] = state.corners;
  const radius = Math.max(2, Math.hypot(b.x - a.x, b.y - a.y) / (columns - 1) / 5);
  for (let row = 0; row < rows; row += 1)
    for (let column = 0; column < columns; column += 1) {
      const place = at(column / (columns - 1), row / (rows - 1));
      const circle = document.createElementNS(svg.namespaceURI, 'circle');
      circle.setAttribute('cx', String(place.x));
      circle.setAttribute('cy', String(place.y));
      circle.setAttribute('r', String(radius));
      svg.append(circle);
    }
}

const cornerText = () => state.corners.map(({ x, y }) => `${x},${y}`).join(' ');
const sampleText = (sample) => [sample.x, sample.y, sample.width, sample.height].join(',');
const yamlWord = (text) => (/^[\w./-]+$/.test(text) ? text : JSON.stringify(text));
const shellWord = (text) => (/^[\w./,=-]+$/.test(text) ? text : `'${text.replaceAll("'", `'\\''`)}'`);

function lines() {
  const { chart, grid } = form.elements;
  const usual = grid.value === '6x4';
  return state.samples.map(
    (sample, at) =>
      `# sample ${nameOf(at)}\ncolour:\n  photo: ${yamlWord(form.dataset.photo)}\n  chart: ${yamlWord(chart.value)}\n` +
      `${usual ? '' : `  grid: ${yamlWord(grid.value)}\n`}  corners: "${cornerText()}"\n  sample: "${sampleText(sample)}"`,
  );
}

function command() {
  const { chart, grid } = form.elements;
  const samples = state.samples.map((sample, at) => `--sample ${nameOf(at)}=${sampleText(sample)}`);
  return [
    `masstone colour ${shellWord(form.dataset.photo)} --chart ${shellWord(chart.value)}`,
    ...(grid.value === '6x4' ? [] : [`--grid ${shellWord(grid.value)}`]),
    `--corners "${cornerText()}"`,
    ...samples,
  ].join(' ');
}

/** What is not a number while it is typed stays as it was. */
function take(object, key, field, most) {
  const value = Number(field.value);
  if (field.value.trim() !== '' && Number.isFinite(value)) object[key] = within(value, most);
  show();
}

const marks = [];

function moved(mark, x, y) {
  const { object, sample } = mark;
  object.x = within(x, width - (sample ? object.width : 0));
  object.y = within(y, height - (sample ? object.height : 0));
  show();
}

function sized(mark, by) {
  const { object } = mark;
  object.width = within(Math.max(5, object.width + by), width - object.x);
  object.height = within(Math.max(5, object.height + by), height - object.y);
  show();
}

const steps = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

function byKey(mark, event) {
  const step = steps[event.key];
  const by = event.shiftKey ? 10 : 1;
  if (step) moved(mark, mark.object.x + step[0] * by, mark.object.y + step[1] * by);
  else if (mark.sample && ['+', '=', '-', '−'].includes(event.key)) sized(mark, '+='.includes(event.key) ? 2 : -2);
  else return;
  event.preventDefault();
}

/** A place of the pointer in pixels of the picture. */
function placeOf(event) {
  const box = picture.getBoundingClientRect();
  return {
    x: ((event.clientX - box.left) / box.width) * width,
    y: ((event.clientY - box.top) / box.height) * height,
  };
}

function choose(mark) {
  chosen = mark;
  for (const one of marks) one.button.setAttribute('aria-pressed', String(one === mark));
}

function byPointer(mark, event) {
  choose(mark);
  mark.button.setPointerCapture(event.pointerId);
  const start = placeOf(event);
  const [x, y] = [mark.object.x, mark.object.y];
  const follow = (move) => {
    const now = placeOf(move);
    moved(mark, x + now.x - start.x, y + now.y - start.y);
  };
  mark.button.addEventListener('pointermove', follow);
  const end = () => mark.button.removeEventListener('pointermove', follow);
  mark.button.addEventListener('pointerup', end, { once: true });
  mark.button.addEventListener('pointercancel', end, { once: true });
}

function addMark(object, sample, name) {
  const button = element('button', { type: 'button', className: sample ? 'chart-sample' : 'chart-corner' });
  button.append(element('span', { textContent: name }));
  const mark = { object, sample, button, name };
  button.addEventListener('keydown', (event) => byKey(mark, event));
  button.addEventListener('pointerdown', (event) => byPointer(mark, event));
  button.addEventListener('focus', () => choose(mark));
  button.addEventListener('click', (event) => event.stopPropagation());
  picture.append(button);
  marks.push(mark);
}

picture.addEventListener('click', (event) => {
  if (!chosen) return;
  const { x, y } = placeOf(event);
  const { object, sample } = chosen;
  moved(chosen, sample ? x - object.width / 2 : x, sample ? y - object.height / 2 : y);
  chosen.button.focus();
});

const fields = [];

function addFields(sample, name) {
  const set = element('fieldset');
  set.append(element('legend', { textContent: `Sample ${name}` }));
  for (const [key, words, most] of [
    ['x', 'x', width],
    ['y', 'y', height],
    ['width', 'width', width],
    ['height', 'height', height],
  ]) {
    const label = element('label', { textContent: words });
    const field = element('input', { type: 'number', step: 'any', inputMode: 'decimal' });
    field.addEventListener('change', () => take(sample, key, field, most));
    label.append(field);
    set.append(label);
    fields.push({ field, object: sample, key });
  }
  if (state.samples.length > 1) {
    const remove = element('button', { type: 'button', textContent: `Take sample ${name} away` });
    remove.addEventListener('click', () => {
      state.samples.splice(state.samples.indexOf(sample), 1);
      build();
    });
    set.append(remove);
  }
  form.querySelector('.chart-samples').append(set);
}

function show() {
  for (const { object, sample, button, name } of marks) {
    button.style.left = `${(100 * object.x) / width}%`;
    button.style.top = `${(100 * object.y) / height}%`;
    if (sample) {
      button.style.width = `${(100 * object.width) / width}%`;
      button.style.height = `${(100 * object.height) / height}%`;
    }
    button.setAttribute('aria-label', `${sample ? 'Sample' : 'Corner'} ${name}, x ${object.x}, y ${object.y}`);
  }
  for (const { field, object, key } of fields) field.value = String(object[key]);
  drawPatches();
  form.querySelector('.chart-lines').textContent = lines().join('\n\n');
  form.querySelector('.chart-command').textContent = command();
  sessionStorage.setItem(kept, JSON.stringify(state));
}

/** Marks and fields made anew: samples have come or gone. */
function build() {
  for (const { button } of marks.splice(0)) button.remove();
  form.querySelector('.chart-samples').replaceChildren();
  fields.length = 0;
  chosen = undefined;
  state.corners.forEach((corner, at) => {
    addMark(corner, false, String(at + 1));
    for (const key of ['x', 'y']) {
      const field = form.elements[`corner-${at}-${key}`];
      field.onchange = () => take(corner, key, field, key === 'x' ? width : height);
      fields.push({ field, object: corner, key });
    }
  });
  state.samples.forEach((sample, at) => {
    addMark(sample, true, nameOf(at));
    addFields(sample, nameOf(at));
  });
  show();
}

form.elements.add.addEventListener('click', () => {
  const last = state.samples.at(-1);
  const next = { ...last, y: within(last.y + 1.5 * last.height, height - last.height) };
  state.samples.push(next);
  build();
  marks.at(-1).button.focus();
});
form.elements.magnify.addEventListener('input', ({ target }) => {
  picture.style.width = `${100 * Number(target.value)}%`;
});
for (const name of ['chart', 'grid']) form.elements[name].addEventListener('input', show);
form.elements.copy.addEventListener('click', async () => {
  const said = form.querySelector('.chart-copied');
  try {
    await navigator.clipboard.writeText(lines().join('\n\n'));
    said.textContent = 'Copied.';
  } catch {
    said.textContent = 'This browser does not let pages copy: select the lines.';
  }
});

function told({ fault, chart, uncertainty, samples, notes }) {
  if (fault) return [element('p', { textContent: fault })];
  const left = chart.rejected.length > 0 ? `, ${chart.rejected.length} left out` : '';
  const words = `${chart.patches} patches${left}; on the chart itself ΔE00 ${chart.mean.toFixed(1)} on average.`;
  const list = element('ul');
  samples.forEach(({ lab, de00 }, at) => {
    const values = lab.map((value) => value.toFixed(1)).join(', ');
    list.append(element('li', { textContent: `${nameOf(at)}: L*a*b* ${values}, ± ΔE00 ${de00.toFixed(1)}` }));
  });
  const method = element('p', { textContent: `± ${uncertainty.method}.`, className: 'small' });
  return [
    element('p', { textContent: words }),
    list,
    method,
    ...notes.map((textContent) => element('p', { textContent, className: 'small' })),
  ];
}

form.addEventListener('submit', async (event) => {
  event.preventDefault();
  const query = new URLSearchParams({
    photo: form.dataset.photo,
    chart: form.elements.chart.value,
    grid: form.elements.grid.value,
    corners: cornerText(),
  });
  for (const sample of state.samples) query.append('sample', sampleText(sample));
  const read = form.querySelector('.chart-read');
  read.replaceChildren(element('p', { textContent: 'Reading …' }));
  try {
    const answer = await fetch(`${form.dataset.colours}?${query}`);
    read.replaceChildren(...told(await answer.json()));
  } catch {
    read.replaceChildren(element('p', { textContent: 'The reading copy does not answer.' }));
  }
});

build();
