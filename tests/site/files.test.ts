// Feeds, sitemap, data files and search records of a small journal.
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { join } from 'node:path';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { openJournal } from '../../src/open.js';
import type { FileContent } from '../../src/site/assets.js';
import { harmless, writeData } from '../../src/site/data.js';
import { feeds, sitemap } from '../../src/site/feeds.js';
import { planSite } from '../../src/site/plan.js';
import { everything } from '../../src/site/search-things.js';
import { entry, folderOf, smallJournal } from '../journal-folder.js';
import { quoted } from '../quoted.js';

const malachite = `question: "Is </script><script>alert(1)</script> & green?"
pigment: { name: malachite, formula: Cu2CO3(OH)2, colour-index: PG39 }
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: { name: sodium carbonate, formula: Na2CO3 }, amount: 2.50 g }
samples:
  - { sample: A, differs: "=cold", obtained: 1.98 g, colour: { lab: [54.1, -30.2, 6.0], illuminant: D65, observer: 10 } }
  - { sample: B, obtained: 1.95 g }
precautions: [{ against: carbon dioxide froth, do: A jug four times as large. }]
videos: [{ url: "https://video.example/1", moments: [{ at: "3:40", shows: first precipitate }] }]
follows: [1]
waste: Kept.
if-it-goes-wrong: Step back.
`;
const open = async (more: Record<string, string> = {}) => {
  const folder = folderOf(
    smallJournal({ 'journal/entries/014-malachite.md': entry(14, malachite, 'Malachite *came* down.\n'), ...more }),
  );
  const { model, remarks } = await openJournal(join(folder, 'journal'));
  expect(remarks.filter((one) => one.fatal).map(String)).toEqual([]);
  return model!;
};

/** A file's content as one text. */
const textOf = (content: FileContent): string =>
  typeof content === 'object' && 'pieces' in content ? [...content.pieces()].join('') : String(content);

describe('feeds', () => {
  it('hold absolute addresses under the base path, newest first, and defer to the cautions', async () => {
    const model = await open();
    const { context } = planSite(model);
    const [atom, json] = feeds(context, model);
    const feed = JSON.parse(String(json!.content)) as {
      items: { id: string; url: string; title: string; summary?: string }[];
    };
    expect(feed.items[0]).toMatchObject({
      id: 'https://test.example/base/14/',
      url: 'https://test.example/base/14/',
      title: '14 Entry 14',
    });
    expect(JSON.stringify(feed.items[0])).toContain('not a procedure to follow');
    expect(String(atom!.content)).toContain('<id>https://test.example/base/14/</id>');
    expect(String(atom!.content)).not.toContain('<script>alert');
  });
  it('say of a withdrawn entry that and why it was', async () => {
    const model = await open({
      'journal/entries/015-gone.md': entry(15, 'withdrawn: Wrong.\n').replace('finished', 'withdrawn'),
    });
    const { context } = planSite(model);
    const [atom, json] = feeds(context, model);
    const { items } = JSON.parse(String(json!.content)) as { items: { url: string; title: string; summary: string }[] };
    const gone = items.find(({ url }) => url.endsWith('/15/'))!;
    expect(gone.title).toBe('Withdrawn: 15 Entry 15');
    expect(gone.summary).toMatch(/^Withdrawn: Wrong\./);
    expect(String(atom!.content)).toContain('Withdrawn: Wrong.');
  });
});

describe('feeds and sitemap of any journal', () => {
  const awkward = [
    ']]>',
    '<b>',
    '&amp;',
    '&#0;',
    '"',
    "'",
    '\u0000',
    '\u0008',
    '\u001b',
    '\ufffe',
    '\ud800',
    'é',
    '𝔸',
    '\n',
    '<!--',
    '<![CDATA[',
  ];
  const words = fc
    .array(fc.oneof(fc.constantFrom(...awkward), fc.string({ unit: 'binary', maxLength: 4 })), { maxLength: 8 })
    .map((parts) => parts.join(''));

  it('are well-formed, and hold the words as they are, whatever the words', async () => {
    const model = await open();
    const { context, pages } = planSite(model);
    fc.assert(
      fc.property(words, words, words, (title, name, question) => {
        const entries = model.entries.map((one) => ({ ...one, entry: { ...one.entry, title, question } }));
        const site = { ...context, title: name, author: name, licence: name, description: name };
        const [atom, json] = feeds(site, { ...model, entries });
        const xml = String(atom!.content);
        const titles = textsOf(xml, 'title');
        const kept = `14 ${title}`.replace(/[^\t\n\r\x20-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '\ufffd');
        expect(plainHtml(titles[1]!)).toBe(kept.replace(/\r\n?/g, '\n'));
        expect(JSON.parse(String(json!.content))).toMatchObject({ items: [{ title: `14 ${title}` }, {}, {}] });
        textsOf(String(sitemap(site, model, pages.keys()).content), 'loc');
      }),
      { numRuns: 300 },
    );
  });
});

/** Texts of the elements of a name; a text that is not well-formed XML throws. */
function textsOf(xml: string, name: string): string[] {
  const parser = new SaxesParser({ xmlns: true });
  const texts: string[] = [];
  let inside = false;
  const take = (text: string): void => {
    if (inside) texts[texts.length - 1] += text;
  };
  parser.on('opentag', (tag) => {
    inside = tag.name === name;
    if (inside) texts.push('');
  });
  parser.on('closetag', () => (inside = false));
  parser.on('text', take);
  parser.on('cdata', take);
  parser.on('error', (error) => {
    throw error;
  });
  parser.write(xml).close();
  return texts;
}

/** Words of a text of HTML that holds no elements. */
const plainHtml = (html: string): string =>
  html
    .replace(/&#x([0-9a-f]+);/gi, (_, digits: string) => String.fromCodePoint(Number.parseInt(digits, 16)))
    .replaceAll('&gt;', '>');

it('the sitemap lists every page once, with dates for entries', async () => {
  const model = await open();
  const { context, pages } = planSite(model);
  const xml = String(sitemap(context, model, pages.keys()).content);
  const addresses = [...xml.matchAll(/<loc>([^<]*)<\/loc>/g)].map((match) => match[1]);
  expect(new Set(addresses).size).toBe(addresses.length);
  expect(addresses).toContain('https://test.example/base/14/');
  expect(addresses.some((address) => address!.includes('404'))).toBe(false);
  expect(xml).toMatch(/14\/<\/loc><lastmod>2026-01-15/);
});

describe('data', () => {
  it('has one row a sample, exact figures, and the same in CSV and JSON', async () => {
    const files = new Map(writeData(await open()).map((file) => [file.address, textOf(file.content)]));
    const rows = parse(files.get('/data/samples.csv')!, { columns: true }) as Record<string, string>[];
    const json = JSON.parse(files.get('/data/samples.json')!) as Record<string, unknown>[];
    expect(rows.map((row) => `${row.entry}/${row.sample}`)).toEqual(
      json.map((row) => `${String(row.entry)}/${String(row.sample)}`),
    );
    const a = rows.find((row) => row.entry === '14' && row.sample === 'A')!;
    expect(a).toMatchObject({
      formula: 'Cu2CO3(OH)2',
      elements: 'Cu',
      family: 'green',
      family_basis: 'measured',
      obtained_g: '1.98',
      illuminant: 'D65',
    });
    // 5.00 g CuSO4·5H2O (249.677 g/mol, IUPAC 2021 abridged) is 20.026 mmol and makes 10.013 mmol of Cu2CO3(OH)2,
    // 221.114 g/mol: 2.2140 g; the carbonate, 23.588 mmol, is in excess. Own arithmetic from the published atomic
    // weights.
    expect(Number(a.theoretical_yield_g)).toBeCloseTo(2.214, 3);
    expect(Number(a.percent_yield)).toBeCloseTo(89.43, 1);
    const entries = JSON.parse(files.get('/data/entries.json')!) as { number: number; body?: string }[];
    expect(entries.map(({ number }) => number).sort((x, y) => x - y)).toEqual([1, 2, 14]);
    expect(entries[0]!.body).toBeUndefined();
  });
});

describe('a cell of a table', () => {
  it.each([
    '=1+1',
    '+1+1',
    '-2+3',
    '@SUM(1)',
    '\t=1',
    '\r=1',
    ' =1',
    '\u200b=1',
    '＝1',
    '-5 °C, ice bath',
    '=HYPERLINK("http://a.example";"x")',
    '-',
    '+-1',
    '-1-1',
  ])('%j is not run by a spreadsheet', (cell) => expect(harmless(cell)).toBe(`'${cell}`));
  it.each(['', '-30.2', '+4', '-.5', '1e-7', '-1.5E+3', '5 °C', 'A-B', "'=1", '2026-01-15', '100 %', 'a\n=b'])(
    '%j stays as it is',
    (cell) => expect(harmless(cell)).toBe(cell),
  );
  it('is harmless in the published table, numbers below nought as they are', async () => {
    const files = new Map(writeData(await open()).map((file) => [file.address, textOf(file.content)]));
    const rows = parse(files.get('/data/samples.csv')!, { columns: true }) as Record<string, string>[];
    expect(rows.find((row) => row.differs !== '')).toMatchObject({ differs: "'=cold", a: '-30.2' });
    expect(files.get('/data/samples.json')).toContain('"=cold"');
  });
  it('is read again as it was written, with quotation marks, commas and lines', async () => {
    const written = 'a "wet" cake, pressed\nthen dried';
    const matter = `samples: [{ sample: A, differs: ${JSON.stringify(written)} }]\n`;
    const model = await open({ 'journal/entries/016-cake.md': entry(16, matter) });
    const table = textOf(writeData(model).find(({ address }) => address === '/data/samples.csv')!.content);
    const rows = parse(table, { columns: true }) as Record<string, string>[];
    expect(rows.find((row) => row.entry === '16')).toMatchObject({ sample: 'A', differs: written });
  });
});

describe('what search knows of an entry', () => {
  it('is what its steps say, and of natural stuffs no other that only stands in the same place', async () => {
    const madder = `reagents: [{ reagent: madder root, amount: 3 g }, { reagent: blue-vitriol, amount: 1 g }]
steps: [Dried on the radiator., { do: Boiled., look-for: a red froth }]
samples: [{ sample: A, looks: like a chestnut }]
`;
    const model = await open({ 'journal/entries/016-lake.md': entry(16, madder) });
    const { names, words } = everything(model).find(({ thing }) => thing.address === '/16/')!;
    for (const shown of ['radiator', 'red froth', 'like a chestnut']) expect(words).toContain(shown);
    const as = (relation: string) => names.filter((one) => one.as === relation).map(({ text }) => text);
    expect(as('uses')).toEqual(expect.arrayContaining(['madder root', 'blue vitriol']));
    // Ure's Dictionary of Arts: bluestone is the sulfate; cochineal is an insect, and no madder.
    expect(as('usesAlso')).toContain('bluestone');
    for (const other of ['black cherries', 'cochineal', 'beetroot']) expect(as('usesAlso')).not.toContain(other);
  });
  it('is its words, its names, what it is narrowed by, and what a hit shows', async () => {
    const found = everything(await open()).find(({ thing }) => thing.address === '/14/')!;
    expect(found.words).toContain('Malachite came down.');
    expect(found.names.filter(({ as }) => as === 'is').map(({ text }) => text)).toContain('malachite');
    expect(found.thing).toMatchObject({ elements: ['Cu'], families: ['green'], status: 'finished', year: '2026' });
    expect(found.thing.facts).toMatch(/15 January 2026.*malachite.*copper.*%/);
    expect(found.thing.hex).toMatch(/^#[0-9a-f]{6}$/);
  });
});

/** The page without its facts, which are data and no script, and without what stands in attributes, harmless too. */
const tags = (html: string): string =>
  quoted(html)
    .replace(/<script type="application\/ld\+json">[^<]*<\/script>/g, '')
    .replace(/="[^"]*"/g, '=""');

describe('a page', () => {
  it('shows a hostile title and question as text', async () => {
    const model = await open({
      'journal/entries/016-x.md': entry(16).replace(
        'title: Entry 16',
        'title: "</script><img src=x onerror=alert(1)>"',
      ),
    });
    const { pages } = planSite(model);
    for (const address of ['/16/', '/', '/entries/', '/14/', '/14/bench/', '/results/', '/search/']) {
      const { html } = pages.get(address)!.render();
      expect(tags(html).match(/<script(?! type="" src="")|<img [^>]*onerror/g), address).toBeNull();
    }
  });
  it('carries the cautions wherever work is described', async () => {
    const { pages } = planSite(await open());
    for (const address of [
      '/14/',
      '/14/bench/',
      '/reagents/',
      '/reagents/blue-vitriol/',
      '/results/',
      '/incidents/',
      '/ideas/',
      '/data/',
    ]) {
      expect(pages.get(address)!.render().html.includes('Read the safety data sheet'), address).toBe(true);
    }
  });
  it('forbids inline styles and scripts, and holds none', async () => {
    const { pages } = planSite(await open());
    for (const [address, page] of pages) {
      const { html } = page.render();
      expect(html.includes('Content-Security-Policy'), address).toBe(true);
      expect(tags(html).match(/ style=|<style|<script(?! type="" src="")| on[a-z]+=/g), address).toBeNull();
    }
  });
});
