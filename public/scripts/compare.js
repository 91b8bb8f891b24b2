// Sets samples side by side: strips, reflectance, figures, differences. The address says which: ?samples=4/A,17/D
import { deltaE00 } from './colour-difference.js';

const form = document.querySelector('[data-compare]');
const place = document.getElementById('comparison');
const said = document.getElementById('compared');
const choose = document.getElementById('choose');
const notes = document.getElementById('compared-notes');
const most = Number(form.dataset.most);
const dashes = ['', '7 3', '2 2.5', '9 3 2 3', '1 4', '14 4', '10 3 2 3 2 3', '4 7'];
const svgNames = 'http://www.w3.org/2000/svg';

function make(tag, properties, ...content) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) element.setAttribute(name, value);
  element.append(...content.filter((part) => part !== undefined && part !== ''));
  return element;
}

function draw(tag, properties, ...content) {
  const element = document.createElementNS(svgNames, tag);
  for (const [name, value] of Object.entries(properties)) element.setAttribute(name, value);
  element.append(...content);
  return element;
}

/** `4/A, 17/d` → ['4/A', '17/d'], each once. */
const namesIn = (text) => [...new Set(text.match(/\d+\s*\/\s*[^\s,;/]+/g)?.map((one) => one.replace(/\s/g, '')) ?? [])];

const loaded = new Map();
function entry(number) {
  if (!loaded.has(number))
    loaded.set(
      number,
      fetch(new URL(`${number}.json`, new URL(form.dataset.compare, location.href))).then((answer) =>
        answer.ok ? answer.json() : undefined,
      ),
    );
  return loaded.get(number);
}

/** A sample with its entry, or its name alone where there is none. */
async function sampleCalled(name) {
  const [number, id] = name.split('/');
  const found = await entry(Number(number)).catch(() => undefined);
  const sample = found?.samples.find((one) => one.sample.toLowerCase() === id.toLowerCase());
  return sample ? { ...sample, entry: found, name: `${found.number}/${sample.sample}` } : { missing: name };
}

const link = ({ entry: { number }, sample, name }) =>
  make('a', { href: `${form.dataset.base}/${number}/#${encodeURIComponent(sample)}` }, name);

/** Drawn at publication by the site's own templates; taken in as a picture, not as HTML. */
function stripOf({ strip }) {
  const drawn = new DOMParser().parseFromString(strip, 'text/html').querySelector('svg');
  return document.importNode(drawn, true);
}

function strips(samples) {
  const items = samples.map((sample) => {
    const words = [sample.pigment ?? sample.entry.title, sample.differs].filter(Boolean).join(': ');
    return make(
      'li',
      {},
      make('b', {}, link(sample)),
      sample.strip ? stripOf(sample) : make('span', { class: 'no-swatch' }, 'colour not measured'),
      make('span', { class: 'differs' }, [words, ...sample.notes].join('; ')),
    );
  });
  return make('div', { class: 'strips compared' }, make('ul', {}, ...items));
}

/** Curves on one field; told apart by dashes, since their colours are what is compared. */
function curves(samples) {
  const drawn = samples.filter(({ curve }) => curve);
  if (drawn.length === 0) return undefined;
  const rule = (share) =>
    draw('path', { d: `M0 ${160 * (1 - share)}h300`, stroke: 'currentColor', 'stroke-opacity': '.2' });
  const mark = (x, y, words, anchor) => draw('text', { x, y, 'text-anchor': anchor, fill: 'currentColor' }, words);
  const field = draw(
    'svg',
    {
      viewBox: '-30 -14 334 200',
      class: 'drawing',
      role: 'img',
      'aria-label': `Reflectance of ${drawn.map(({ name }) => name).join(', ')}, 400 to 700 nm`,
    },
    ...[0, 0.25, 0.5, 0.75, 1].flatMap((share) => [rule(share), mark(-5, 164 - 160 * share, `${share * 100}`, 'end')]),
    ...[400, 500, 600, 700].map((nm) => mark(nm - 400, 180, `${nm}`, nm === 700 ? 'end' : 'middle')),
    ...drawn.map(({ curve }, at) =>
      draw('path', {
        d: curve,
        fill: 'none',
        stroke: 'currentColor',
        'stroke-width': '1.6',
        'stroke-dasharray': dashes[at % dashes.length],
      }),
    ),
  );
  const key = make(
    'ul',
    { class: 'curve-key' },
    ...drawn.map(({ name }, at) =>
      make(
        'li',
        {},
        draw(
          'svg',
          { viewBox: '0 0 40 8', 'aria-hidden': 'true' },
          draw('path', {
            d: 'M0 4h40',
            stroke: 'currentColor',
            'stroke-width': '2',
            'stroke-dasharray': dashes[at % dashes.length],
          }),
        ),
        ` ${name}`,
      ),
    ),
  );
  return section('Reflectance, %, by wavelength, nm', make('div', { class: 'picture' }, field, key));
}

function section(title, ...content) {
  const id = `part-${title.toLowerCase().replace(/[^a-z]+/g, '-')}`;
  return make('section', { 'aria-labelledby': id }, make('h2', { id }, title), ...content);
}

function table(label, heads, rows) {
  const head = heads.map((words) => make('th', { scope: 'col' }, words));
  const body = rows.map(([first, ...cells]) =>
    make('tr', {}, make('th', { scope: 'row' }, first), ...cells.map((cell) => make('td', {}, cell))),
  );
  return make(
    'div',
    { class: 'scroll', tabindex: '0', role: 'region', 'aria-label': label },
    make('table', {}, make('thead', {}, make('tr', {}, ...head)), make('tbody', {}, ...body)),
  );
}

const figure = (value) => value.toFixed(1).replace('-', '−');

const figures = (samples) =>
  section(
    'Figures',
    table(
      'Figures of the samples',
      ['Sample', 'Yield', 'L*, a*, b*', 'Covering', 'From daylight to lamplight'],
      samples.map((sample) => [
        link(sample),
        sample.yield ?? '',
        sample.lab ? `${sample.roughly ? 'roughly ' : ''}${sample.lab.map(figure).join(', ')}` : '',
        sample.covering ?? '',
        sample.lamplight ?? '',
      ]),
    ),
  );

/** Colours of one observer only can be set against each other. */
function apart(one, other) {
  if (one === other) return '';
  if (!one.lab || !other.lab) return 'not measured';
  if (one.observer !== other.observer) return 'other observer';
  const roughly = one.roughly || other.roughly ? 'about ' : '';
  return `${roughly}${figure(deltaE00(one.lab, other.lab))}`;
}

function differences(samples) {
  if (samples.filter(({ lab }) => lab).length < 2) return undefined;
  return section(
    'Colour differences, ΔE₀₀',
    table(
      'Colour differences between the samples',
      ['Sample', ...samples.map(({ name }) => name)],
      samples.map((one) => [link(one), ...samples.map((other) => apart(one, other))]),
    ),
  );
}

async function compare() {
  const names = namesIn(form.elements.namedItem('samples').value);
  const address = names.length > 0 ? `?samples=${names.map(encodeURIComponent).join(',').replaceAll('%2F', '/')}` : '';
  history.replaceState(null, '', address || location.pathname);
  const all = await Promise.all(names.slice(0, most).map(sampleCalled));
  const samples = all.filter(({ missing }) => missing === undefined);
  const missing = all.flatMap((one) => one.missing ?? []);
  place.replaceChildren();
  choose.hidden = samples.length > 0;
  notes.hidden = samples.length === 0;
  said.textContent = [
    samples.length > 0 ? `${samples.length} ${samples.length === 1 ? 'sample' : 'samples'}` : '',
    missing.length > 0 ? `not in this journal: ${missing.join(', ')}` : '',
    names.length > most ? `the first ${most} of ${names.length} are shown` : '',
  ]
    .filter(Boolean)
    .join('; ');
  if (samples.length === 0) return;
  place.append(...[strips(samples), figures(samples), differences(samples), curves(samples)].filter(Boolean));
}

form.elements.namedItem('samples').value = namesIn(new URLSearchParams(location.search).get('samples') ?? '').join(' ');
form.addEventListener('submit', (event) => {
  event.preventDefault();
  compare();
});
compare();
