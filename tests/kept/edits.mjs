// A journal that is edited by chance, as a maker edits: words, amounts, entries that come, go and are renamed, the shelf,
// the settings, spectra, photographs.
import {
  copyFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const demo = fileURLToPath(new URL('../../content', import.meta.url));
/** Entries of the demonstration journal that use one another's lots, and a few that use none. */
const chosen = [2, 3, 4, 5, 6, 7, 9, 11, 14, 15, 16, 19];

/** A small journal with lots in chains, spectra and words of every kind; links to what is left out become words. */
export function makeJournal(folder) {
  cpSync(demo, folder, { recursive: true });
  for (const name of ['register.txt', '.kept', '.pictures'])
    rmSync(join(folder, name), { recursive: true, force: true });
  for (const name of readdirSync(join(folder, 'entries')))
    if (!chosen.includes(Number.parseInt(name, 10))) rmSync(join(folder, 'entries', name));
  const there = new Set(readdirSync(join(folder, 'entries')));
  for (const below of ['entries', 'pages', 'series', 'colours'])
    for (const name of existsSync(join(folder, below)) ? readdirSync(join(folder, below)) : []) {
      const file = join(folder, below, name);
      const text = readFileSync(file, 'utf8').replace(
        /\[([^\]]*)\]\(([^)]*?)([^)/]*\.md)(#\w+)?\)/g,
        (whole, words, _, md) => (there.has(md) || /^[a-z]/.test(md) ? whole : words),
      );
      writeFileSync(file, text);
    }
}

const filesIn = (folder, below) =>
  existsSync(join(folder, below)) ? readdirSync(join(folder, below)).map((name) => join(folder, below, name)) : [];
const entryFiles = (folder) => filesIn(folder, 'entries').sort();

function change(file, edit) {
  const text = readFileSync(file, 'utf8');
  const edited = edit(text);
  writeFileSync(file, edited);
  return edited !== text;
}

/** One of the places where a pattern fits, edited. */
function changeOne(random, file, pattern, edit) {
  return change(file, (text) => {
    const places = [...text.matchAll(pattern)];
    if (places.length === 0) return text;
    const place = random.oneOf(places);
    return text.slice(0, place.index) + edit(place) + text.slice(place.index + place[0].length);
  });
}

/** A word that nobody has written yet. */
const newWord = (random) => `unheard${random.below(1e6).toString(36)}`;

const words = ['ochre', 'a second washing', 'filtered hot', 'left overnight', 'paler than before', 'B < A & "C"'];
const nextNumber = (folder) =>
  1 +
  Math.max(...entryFiles(folder).map((file) => Number(/^number:\s*(\d+)/m.exec(readFileSync(file, 'utf8'))?.[1] ?? 0)));
const someEntry = (random, folder) => random.oneOf(entryFiles(folder));
const number = (random) => (random.below(900) / 100 + 0.5).toFixed(2);

/** A picture of one colour, small enough to be written by hand: binary pixmaps are read by no published form, PNG is. */
async function picture(random, file) {
  const { default: sharp } = await import('sharp');
  const background = { r: random.below(256), g: random.below(256), b: random.below(256) };
  writeFileSync(
    file,
    await sharp({ create: { width: 24, height: 16, channels: 3, background } })
      .png()
      .toBuffer(),
  );
}

/** As a maker does who never published it: an address goes from the register and from the lists of its sites too. */
function forgetAddress(folder, sites, own) {
  const register = join(folder, 'register.txt');
  const isKept = (line) => !line.startsWith(own) && !line.startsWith('#');
  if (existsSync(register)) change(register, (text) => text.split('\n').filter(isKept).join('\n'));
  for (const manifest of sites.map((site) => join(site, '.masstone-site')).filter(existsSync))
    change(manifest, (text) => {
      const all = JSON.parse(text);
      const registered = all.registered.filter((address) => !address.startsWith(own));
      return `${JSON.stringify({ ...all, registered }, undefined, 1)}\n`;
    });
}

/** Edits by name; each tells whether it changed anything. */
export const edits = {
  words: (random, folder) => change(someEntry(random, folder), (text) => `${text}\nThen ${random.oneOf(words)}.\n`),
  newWord: (random, folder) => change(someEntry(random, folder), (text) => `${text}\nAs ${newWord(random)}.\n`),
  wordsAmong: (random, folder) =>
    changeOne(
      random,
      someEntry(random, folder),
      /^[A-Z][a-z ,]{20,}\n(?=\n)/gm,
      (place) => `${place[0]}Here ${random.oneOf(words)}.\n`,
    ),
  heading: (random, folder) =>
    change(someEntry(random, folder), (text) => `${text}\n## On ${random.oneOf(words)}\n\nMore.\n`),
  directive: (random, folder) =>
    change(
      someEntry(random, folder),
      (text) =>
        `${text}\nIt was ${random.oneOf([':chem[CuSO4·5H2O]', ':value[A.yield]', ':swatch[A]', ':value[Q.what]', ':chem[Qq]'])}.\n`,
    ),
  toldHeat: (random, folder) =>
    change(
      someEntry(random, folder),
      (text) => `${text}\nThen it was ${random.oneOf(['calcined', 'boiled down', 'rinsed'])}.\n`,
    ),
  shorter: (random, folder) => change(someEntry(random, folder), (text) => text.replace(/\n[^\n]*\n$/, '\n')),
  saved: (random, folder) => change(someEntry(random, folder), (text) => text) || true,
  link: (random, folder) => {
    const to = someEntry(random, folder).split('/').at(-1);
    return change(
      someEntry(random, folder),
      (text) => `${text}\nAs in [that one](${to}${random.oneOf(['', '#A'])}).\n`,
    );
  },
  title: (random, folder) =>
    changeOne(random, someEntry(random, folder), /^title: .*$/gm, () => `title: Made ${random.below(1e6)} times`),
  question: (random, folder) =>
    changeOne(random, someEntry(random, folder), /^question: .*$/gm, () => `question: Is it ${random.below(1e6)}?`),
  date: (random, folder) =>
    changeOne(random, someEntry(random, folder), /^(date: \d{4}-\d\d)-\d\d/gm, (place) =>
      [place[1], String(1 + random.below(28)).padStart(2, '0')].join('-'),
    ),
  status: (random, folder) =>
    changeOne(
      random,
      someEntry(random, folder),
      /^status: \w+/gm,
      () => `status: ${random.oneOf(['finished', 'failed', 'running', 'planned', 'abandoned'])}`,
    ),
  amount: (random, folder) =>
    changeOne(
      random,
      someEntry(random, folder),
      /amount: [\d.]+ (g|mL)/g,
      (place) => `amount: ${number(random)} ${place[1]}`,
    ),
  obtained: (random, folder) =>
    changeOne(random, someEntry(random, folder), /obtained: [\d.]+ g/g, () => `obtained: ${number(random)} g`),
  lab: (random, folder) =>
    changeOne(
      random,
      someEntry(random, folder),
      /lab: \[[^\]]*\]/g,
      () =>
        `lab: [${20 + random.below(70)}.${random.below(10)}, ${random.below(80) - 40}.0, ${random.below(80) - 40}.5]`,
    ),
  otherSpectrum: (random, folder) => {
    const all = filesIn(folder, 'spectra').map((file) => file.slice(folder.length + 1));
    return changeOne(
      random,
      someEntry(random, folder),
      /spectrum: spectra\/[\w-]+\.csv/g,
      () => `spectrum: ${random.oneOf(all)}`,
    );
  },
  looks: (random, folder) =>
    changeOne(
      random,
      someEntry(random, folder),
      /^( +)obtained: .*$/gm,
      (place) =>
        `${place[0]}\n${place[1]}looks: ${random.oneOf(['a dull green', 'like wet slate', 'orange with a rim'])}`,
    ),
  otherReagent: (random, folder) => {
    const ids = [...readFileSync(join(folder, 'shelf.yaml'), 'utf8').matchAll(/^([a-z][\w-]*):$/gm)].map(
      ([, id]) => id,
    );
    return changeOne(random, someEntry(random, folder), /reagent: [a-z][\w-]*/g, () => `reagent: ${random.oneOf(ids)}`);
  },
  lot: (random, folder) =>
    changeOne(
      random,
      someEntry(random, folder),
      /lot: \d+\/[A-Z]/g,
      () => `lot: ${random.oneOf(chosen)}/${random.oneOf(['A', 'B'])}`,
    ),
  lotAdded: (random, folder) =>
    changeOne(
      random,
      someEntry(random, folder),
      /^reagents:$/gm,
      () => `reagents:\n  - { lot: ${random.oneOf(chosen)}/A, amount: 0.10 g }`,
    ),
  sampleAdded: (random, folder) => {
    const letter = random.oneOf(['R', 'S', 'T']);
    const obtained = random.isOneIn(2) ? `, obtained: ${number(random)} g` : '';
    return changeOne(
      random,
      someEntry(random, folder),
      /^samples:$/gm,
      () => `samples:\n  - { sample: ${letter}, differs: "${random.oneOf(words).replaceAll('"', '')}"${obtained} }`,
    );
  },
  precaution: (random, folder) =>
    changeOne(
      random,
      someEntry(random, folder),
      /^ {4}do: .*$/gm,
      () => `    do: Done ${random.below(1e6)} times outside the door, slowly.`,
    ),
  answer: (random, folder) =>
    change(someEntry(random, folder), (text) =>
      text.replace(/^date:/m, `answer: Yes, ${random.below(1e6)} times.\ndate:`),
    ),
  idea: (random, folder) =>
    change(someEntry(random, folder), (text) =>
      text.replace(/^date:/m, `ideas: [Try ${random.below(1e6)} grams.]\ndate:`),
    ),
  incident: (random, folder) =>
    change(someEntry(random, folder), (text) =>
      text.replace(
        /^date:/m,
        `incidents: [{ what: It went over ${random.below(1e6)} times., learned: Slower. }]\ndate:`,
      ),
    ),
  unknownKey: (random, folder) =>
    change(someEntry(random, folder), (text) => text.replace(/^date:/m, `obtaind: ${random.below(9)} g\ndate:`)),
  family: (random, folder) =>
    changeOne(
      random,
      someEntry(random, folder),
      /^ {2}family: \w+/gm,
      () => `  family: ${random.oneOf(['green', 'brown', 'red', 'yellow'])}`,
    ),
  follows: (random, folder) =>
    changeOne(random, someEntry(random, folder), /^follows: \[.*\]/gm, () => `follows: [${random.oneOf(chosen)}]`),
  add: (random, folder) => {
    const [from, next] = [someEntry(random, folder), nextNumber(folder)];
    const file = join(folder, 'entries', `${String(next).padStart(3, '0')}-another.md`);
    copyFileSync(from, file);
    return change(file, (text) =>
      text.replace(/^number:.*$/m, `number: ${next}`).replace(/^title:.*$/m, `title: Another of that, ${next}`),
    );
  },
  delete: (random, folder, sites) => {
    const file = someEntry(random, folder);
    const own = /^number:\s*(\d+)/m.exec(readFileSync(file, 'utf8'))?.[1];
    if (entryFiles(folder).length < 8) return false;
    rmSync(file);
    forgetAddress(folder, sites, `/${own}/`);
    return true;
  },
  rename: (random, folder) => {
    const file = someEntry(random, folder);
    const [start] = file.split('/').at(-1).split('-');
    const to = join(folder, 'entries', `${start}-renamed-${random.below(1e6)}.md`);
    renameSync(file, to);
    const linking = ['entries', 'pages', 'series', 'colours'].flatMap((below) => filesIn(folder, below));
    for (const one of linking) change(one, (text) => text.replaceAll(file.split('/').at(-1), to.split('/').at(-1)));
    return true;
  },
  price: (random, folder) =>
    changeOne(random, join(folder, 'shelf.yaml'), /price: [\d.]+ EUR/g, () => `price: ${number(random)} EUR`),
  purity: (random, folder) =>
    changeOne(random, join(folder, 'shelf.yaml'), /purity: \S+ %/g, () => `purity: ${90 + random.below(10)} %`),
  jarName: (random, folder) =>
    changeOne(
      random,
      join(folder, 'shelf.yaml'),
      /^( {2}name: )(.*)$/gm,
      (place) => `${place[1]}${place[2].replace(/,? no\. \d+/, '')}, no. ${random.below(99)}`,
    ),
  jarNote: (random, folder) =>
    changeOne(random, join(folder, 'shelf.yaml'), /^ {2}note: .*$/gm, () => `  note: Jar ${random.below(1e6)}.`),
  jarSheet: (random, folder) =>
    changeOne(
      random,
      join(folder, 'shelf.yaml'),
      /statements: \[.*?\]/g,
      () => `statements: [${random.oneOf(['H302', 'H314', 'H350, H411', 'H319'])}]`,
    ),
  newJar: (random, folder) =>
    change(
      join(folder, 'shelf.yaml'),
      (text) =>
        `${text.trimEnd()}\njar-${random.below(1e6)}:\n  name: chalk from jar ${random.below(1e6)}\n  formula: CaCO3\n`,
    ),
  settings: (random, folder) =>
    random.oneOf([
      () => changeOne(random, join(folder, 'journal.yaml'), /^title: .*$/gm, () => `title: Lane ${random.below(1e6)}`),
      () =>
        changeOne(
          random,
          join(folder, 'journal.yaml'),
          /^balance: .*$/gm,
          () => `balance: ${random.oneOf(['0.1 g', '0.01 g', '0.001 g'])}`,
        ),
      () =>
        changeOne(random, join(folder, 'journal.yaml'), /volume: \d+ m3/g, () => `volume: ${5 + random.below(60)} m3`),
      () =>
        changeOne(
          random,
          join(folder, 'journal.yaml'),
          /^small-amount: .*$/gm,
          () => `small-amount: ${1 + random.below(20)} g`,
        ),
      () =>
        changeOne(
          random,
          join(folder, 'journal.yaml'),
          /^currency: \w+/gm,
          () => `currency: ${random.oneOf(['EUR', 'GBP'])}`,
        ),
    ])(),
  page: (random, folder) =>
    change(random.oneOf(filesIn(folder, 'pages')), (text) => `${text}\nAlso ${random.oneOf(words)}.\n`),
  newPage: (random, folder) => {
    writeFileSync(join(folder, 'pages', `page-${random.below(1e6)}.md`), `Words on ${random.oneOf(words)}.\n`);
    return true;
  },
  deletePage: (random, folder, sites) => {
    const added = filesIn(folder, 'pages').filter((file) => /page-\d+/.test(file));
    if (added.length === 0) return false;
    const file = random.oneOf(added);
    rmSync(file);
    forgetAddress(folder, sites, `/${file.split('/').at(-1).replace('.md', '')}/`);
    return true;
  },
  seriesWords: (random, folder) =>
    change(
      random.oneOf([...filesIn(folder, 'series'), ...filesIn(folder, 'colours')]),
      (text) => `${text}\nSeen again: ${random.oneOf(words)}.\n`,
    ),
  spectrum: (random, folder) =>
    changeOne(
      random,
      random.oneOf(filesIn(folder, 'spectra').filter((file) => file.endsWith('.csv'))),
      /,(\d+\.\d)\d*/g,
      (place) => `,${place[1]}${random.below(10)}`,
    ),
  photo: async (random, folder) => {
    mkdirSync(join(folder, 'photos'), { recursive: true });
    const name = `dish-${random.below(3)}.png`;
    await picture(random, join(folder, 'photos', name));
    return changeOne(
      random,
      someEntry(random, folder),
      /^ {2}- sample: (\w+)$/gm,
      (place) => `${place[0]}\n    photo: photos/${name}\n    photo-shows: A dish`,
    );
  },
};

/** Edits of the write-up of an entry. */
const ofWords = ['words', 'newWord', 'wordsAmong', 'heading', 'directive', 'toldHeat', 'shorter', 'saved'];

/** Edits of the front matter of an entry. */
const ofMatter = [
  ...[
    'title',
    'question',
    'date',
    'status',
    'amount',
    'obtained',
    'lab',
    'otherSpectrum',
    'looks',
    'otherReagent',
    'lot',
  ],
  ...['lotAdded', 'sampleAdded', 'precaution', 'answer', 'idea', 'incident', 'unknownKey', 'family', 'follows'],
  ...['amount', 'obtained', 'amount', 'obtained'],
];

/** One to three edits by chance, most times of one entry alone; tells which. */
export async function edit(random, folder, sites) {
  const done = [];
  if (random.isOneIn(2)) {
    const names = [random.oneOf(ofWords), ...(random.isOneIn(3) ? [random.oneOf(ofWords)] : [])];
    for (const name of names) if (edits[name](random, folder)) done.push(name);
    return done;
  }
  if (random.isOneIn(2)) {
    for (let tries = 0; done.length === 0 && tries < 40; tries += 1) {
      const name = random.oneOf(ofMatter);
      if (edits[name](random, folder)) done.push(name);
    }
    if (random.isOneIn(4) && edits.words(random, folder)) done.push('words');
    return done;
  }
  const many = random.isOneIn(4) ? 2 + random.below(2) : 1;
  for (let tries = 0; done.length < many && tries < 40; tries += 1) {
    const name = random.oneOf(Object.keys(edits));
    if (await edits[name](random, folder, sites)) done.push(name);
  }
  return done;
}
