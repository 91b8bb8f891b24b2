// A journal is edited by chance, step by step; after each, a publication that makes only what changed is held against one
// that makes everything, byte by byte, and so are the pages of a reading copy that has run all the while.
import {
  appendFileSync,
  cpSync,
  existsSync,
  readFileSync,
  readdirSync,
  rmSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { publish } from '../../dist/src/site/publish.js';
import { Readings } from '../../dist/src/reading/readings.js';
import { remarksAsJson } from '../../dist/src/journal/index.js';
import { difference, newFolder, pictureOf, removeFolder } from '../attack/folders.mjs';
import { edit, makeJournal } from './edits.mjs';

const frame = { script: '/script/reading.js', stylesheet: '/style/reading.css' };

/** Damage to what is kept, and to the site: each must be noticed. */
const damages = {
  index: (random, { kept }) => {
    const bytes = readFileSync(join(kept, 'index'));
    for (let times = 0; times < 3; times += 1) bytes[random.below(bytes.length)] = 32 + random.below(90);
    writeFileSync(join(kept, 'index'), bytes);
  },
  shortIndex: (random, { kept }) => {
    const bytes = readFileSync(join(kept, 'index'));
    writeFileSync(join(kept, 'index'), bytes.subarray(0, random.below(bytes.length)));
  },
  version: (random, { kept }) => {
    const text = readFileSync(join(kept, 'index'), 'utf8');
    writeFileSync(join(kept, 'index'), text.replace(/^kept 1 \S+/, `kept 1 another${random.below(99)}`));
  },
  large: (random, { kept }) => {
    const names = readdirSync(join(kept, 'large'));
    if (names.length === 0) return;
    const file = join(kept, 'large', random.oneOf(names));
    const bytes = readFileSync(file);
    bytes[random.below(bytes.length)] ^= 1 + random.below(255);
    writeFileSync(file, bytes);
  },
  noLarge: (random, { kept }) => {
    for (const name of readdirSync(join(kept, 'large'))) if (random.isOneIn(2)) unlinkSync(join(kept, 'large', name));
  },
  known: (random, { kept }) => {
    const names = existsSync(join(kept, 'sites')) ? readdirSync(join(kept, 'sites')) : [];
    if (names.length === 0) return;
    const file = join(kept, 'sites', random.oneOf(names));
    const bytes = readFileSync(file);
    if (random.isOneIn(4)) writeFileSync(file, bytes.subarray(0, random.below(bytes.length)));
    for (let times = 0; times < 3; times += 1) bytes[random.below(bytes.length)] = 32 + random.below(90);
    writeFileSync(file, bytes);
  },
  gone: (_, { kept }) => rmSync(kept, { recursive: true, force: true }),
  // A file of the index is named by what is in it: one that somebody changed is made no more when the index is another,
  // and stays as theirs.
  site: (random, { site }) => {
    const pages = Object.keys(pictureOf(site)).filter((path) => path !== '.masstone-site' && !path.startsWith('find/'));
    const file = join(site, random.oneOf(pages));
    writeFileSync(file, `${random.below(1e6)}`);
  },
  spare: (random, { site }) => {
    const parent = join(site, '..');
    const spare = readdirSync(parent).find((name) => name.startsWith('.site.spare-'));
    if (spare === undefined) return;
    const pages = Object.keys(pictureOf(join(parent, spare))).filter((path) => path.endsWith('.html'));
    // Another file in the place of one: the site's own is left as it is.
    for (const path of [random.oneOf(pages), random.oneOf(pages)]) rmSync(join(parent, spare, path), { force: true });
    writeFileSync(join(parent, spare, random.oneOf(pages)), 'another', { flag: 'as' });
  },
  sitePage: (random, { site }) => {
    const pages = Object.keys(pictureOf(site)).filter((path) => path.endsWith('.html'));
    unlinkSync(join(site, random.oneOf(pages)));
  },
};

/** What a publication tells. */
const told = ({ published, remarks, causes = [], accepted, entries, pages, bytes }) => ({
  published,
  remarks: remarksAsJson(remarks),
  causes: causes.map(({ remark, count, first, files }) => [remarksAsJson([remark]), count, first, [...files]]),
  ...{ accepted, entries, pages, bytes },
});

/** What two publications tell in other words. */
function toldOtherwise(one, other) {
  const [some, all] = [told(one), told(other)];
  return Object.keys(some).flatMap((what) => {
    const [is, should] = [some, all].map((of) => JSON.stringify(of[what]) ?? '');
    return is === should ? [] : [`other ${what}: ${is.slice(0, 200)} for ${should.slice(0, 200)}`];
  });
}

/** Whether a site has a search index: put in now and then, and taken out again after some publications. */
const searchNow = (random, wasThere, oneIn) => (wasThere ? !random.isOneIn(6) : random.isOneIn(oneIn));

const publicationOf = (journal, site, search, more = {}) =>
  publish(journal, { to: site, search, drafts: true, threads: 0, ...more });

/** The first page of a reading copy that is another than that of one just begun; undefined where there is none. */
async function pageThatDiffers(running, journal, random, most) {
  const fresh = new Readings(journal, frame);
  const [then, now] = [await running.read(), await fresh.read()];
  const [was, is] = [then, now].map(({ remarks }) => JSON.stringify(remarksAsJson(remarks)));
  if (was !== is) return 'remarks of the reading copy';
  const addresses = [...(now.plan?.pages.keys() ?? [])];
  if (JSON.stringify([...(then.plan?.pages.keys() ?? [])]) !== JSON.stringify(addresses)) return 'addresses';
  const some = addresses.filter(() => random.next() < most / addresses.length);
  return some.find((address) => {
    const [one, other] = [running.rendered(then.plan.pages.get(address)), fresh.rendered(now.plan.pages.get(address))];
    return (
      one.html !== other.html ||
      JSON.stringify(remarksAsJson(one.remarks)) !== JSON.stringify(remarksAsJson(other.remarks))
    );
  });
}

/** The first file in which two sites differ, in words. The list of files says when an address was registered first. */
function siteThatDiffers(site, other) {
  const pictures = [pictureOf(site), pictureOf(other)];
  for (const picture of pictures) delete picture['.masstone-site'];
  return difference(...pictures);
}

/** Puts a journal back as it was, but for what is kept of it. */
function putBack(journal, before) {
  for (const name of readdirSync(journal))
    if (name !== '.kept') rmSync(join(journal, name), { recursive: true, force: true });
  for (const name of readdirSync(before))
    if (name !== '.kept') cpSync(join(before, name), join(journal, name), { recursive: true });
}

function copyAnew(from, to) {
  rmSync(to, { recursive: true, force: true });
  cpSync(from, to, { recursive: true });
}

/**
 * @param random chance; the same gives the same edits
 * @param steps how many
 * @param search one in so many publications without a search index is followed by some that have it
 * @param damage in one of so many steps something of what is kept, or of the site, is damaged
 * @param pages so many pages of the reading copy are compared in a step
 * @param jars so many jars more stand on the shelf: with 500 the search index is made in parts
 * @param tell called after each step
 * @returns what differed, in words; empty where nothing did
 */
export async function sameness(asked) {
  const { random, steps, search = 25, damage = 12, pages = 40, jars = 0, tell = () => undefined } = asked;
  const folder = newFolder();
  const [journal, site, whole, before] = ['journal', 'site', 'whole', 'before'].map((name) => join(folder, name));
  const kept = join(journal, '.kept');
  const copy = join(whole, 'journal');
  const found = [];
  const counts = { published: 0, ofWords: 0, ofWordsFound: 0, ofMatter: 0, ofMatterFound: 0, refused: 0, damaged: 0 };
  let withSearch = false;
  const editAndDamage = async () => {
    const done = await edit(random, journal, [site, join(whole, 'site')]);
    if (!random.isOneIn(damage) || !existsSync(join(kept, 'index'))) return done;
    const name = random.oneOf(Object.keys(damages));
    damages[name](random, { kept, site });
    counts.damaged += 1;
    return [...done, `damaged ${name}`];
  };
  /** What differs after an edit, in words. */
  const differences = async (some, all, running) => [
    ...toldOtherwise(some, all),
    ...(some.published && all.published ? [siteThatDiffers(site, join(whole, 'site'))] : []),
    await pageThatDiffers(running, journal, random, pages),
  ];
  try {
    makeJournal(journal);
    for (let jar = 1; jar <= jars; jar += 1)
      appendFileSync(join(journal, 'shelf.yaml'), `spare-${jar}:\n  name: spare jar ${jar}\n  formula: NaCl\n`);
    const running = new Readings(journal, frame);
    await publicationOf(journal, site, false, { spareFrom: 0 });
    for (let step = 1; step <= steps; step += 1) {
      copyAnew(journal, before);
      const done = await editAndDamage();
      withSearch = searchNow(random, withSearch, search);
      copyAnew(journal, copy);
      rmSync(join(copy, '.kept'), { recursive: true, force: true });
      // Built in what is left of the site before last; now and then in threads.
      const more = { spareFrom: 0, threads: random.isOneIn(20) ? 2 : 0 };
      const some = await publicationOf(journal, site, withSearch, more);
      const all = await publicationOf(copy, join(whole, 'site'), withSearch, { keep: false });
      for (const what of await differences(some, all, running))
        if (what !== undefined) found.push(`step ${step}, ${done.join(' + ')}: ${what}`);
      const isOfEntries = some.published && some.took.crosslink === undefined;
      const way = some.took.reckon === undefined ? 'ofWords' : 'ofMatter';
      if (isOfEntries) counts[withSearch ? `${way}Found` : way] += 1;
      counts[all.published ? 'published' : 'refused'] += 1;
      tell({ step, done: isOfEntries ? [way, ...done] : done, published: all.published, found });
      // A journal with errors is mended again, so that there is something to publish.
      if (!all.published) putBack(journal, before);
    }
  } finally {
    removeFolder(folder);
  }
  return { found, counts };
}
