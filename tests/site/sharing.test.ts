// What others show of a page: Open Graph, schema.org, pictures, citations, feeds. Citations are read back by an
// independent reader of BibTeX and CSL (citation-js).
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Cite } from '@citation-js/core';
import '@citation-js/plugin-bibtex';
import '@citation-js/plugin-csl';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openJournal } from '../../src/open.js';
import type { JournalModel } from '../../src/crosslinks/model.js';
import { feeds } from '../../src/site/feeds.js';
import { indexedPng } from '../../src/site/indexed-png.js';
import { planSite, type SitePlan } from '../../src/site/plan.js';
import { sharePictures } from '../../src/site/share-picture-list.js';
import { sharePictureFile } from '../../src/site/share-picture-file.js';
import { bibtex, citationKey, citationWords, cslJson, type Citable } from '../../templates/parts/citation.js';
import { quoted } from '../quoted.js';

const demo = fileURLToPath(new URL('../../content', import.meta.url));

let plan: SitePlan;
let model: JournalModel;
const cache = mkdtempSync(join(tmpdir(), 'masstone-share-'));
beforeAll(async () => {
  model = (await openJournal(demo, { drafts: true })).model!;
  plan = planSite(model);
});
afterAll(() => rmSync(cache, { recursive: true, force: true }));

const properties = (html: string): Map<string, string> =>
  new Map(
    [...quoted(html).matchAll(/<meta property="([^"]+)" content="([^"]*)">/g)].map((found) => [found[1]!, found[2]!]),
  );

const facts = (html: string): Record<string, unknown>[] =>
  [...quoted(html).matchAll(/<script type="application\/ld\+json">(.*?)<\/script>/gs)].map(
    (found) => JSON.parse(found[1]!) as Record<string, unknown>,
  );

describe('every page', () => {
  it('has the four properties that Open Graph asks for, and one set of facts', () => {
    expect(plan.pages.size).toBeGreaterThan(100);
    for (const [address, page] of plan.pages) {
      const html = quoted(page.render().html);
      const own = properties(html);
      // source: The Open Graph protocol (ogp.me), basic metadata, from memory
      for (const name of ['og:title', 'og:type', 'og:image', 'og:url'])
        expect(own.get(name), `${address} ${name}`).toMatch(/\S/);
      expect(own.get('og:url')).toBe(`https://copperas-lane.example/journal${address}`);
      expect(facts(html), address).toHaveLength(1);
      // In words too, where it is to be found at all.
      if (!html.includes('content="noindex"'))
        expect(/<meta name="description" property="og:description" content="\w[^"]*">/.test(html), address).toBe(true);
    }
  });

  it('shows a picture that is there', () => {
    const drawn = new Set(sharePictures(plan.context, model).map(({ address }) => address));
    for (const page of plan.pages.values()) {
      const picture = properties(page.render().html).get('og:image')!;
      expect(drawn).toContain(picture.slice('https://copperas-lane.example/journal'.length));
    }
  });

  it('is an article where it is an entry, a site at its beginning, a dataset where data lie', () => {
    const typeOf = (address: string): unknown => facts(plan.pages.get(address)!.render().html)[0]!['@type'];
    expect(typeOf('/4/')).toBe('ScholarlyArticle');
    expect(typeOf('/')).toBe('WebSite');
    expect(typeOf('/data/')).toBe('Dataset');
    expect(facts(plan.pages.get('/4/')!.render().html)[0]).toMatchObject({
      headline: 'Malachite green, cold against warm',
      datePublished: '2025-03-15',
      license: 'https://creativecommons.org/licenses/by/4.0/',
    });
    expect(facts(plan.pages.get('/26/')!.render().html)[0]).toMatchObject({ creativeWorkStatus: 'withdrawn' });
  });
});

describe('a picture for links', () => {
  it('is 1200 × 630, kept, and made anew when what it shows changes', async () => {
    const picture = sharePictures(plan.context, model).find(({ address }) => address === '/share/4.png')!;
    const file = await sharePictureFile(picture, cache);
    const { width, height, format } = await sharp(file).metadata();
    expect({ width, height, format }).toEqual({ width: 1200, height: 630, format: 'png' });
    const { mtimeMs } = statSync(file);
    expect(await sharePictureFile(picture, cache)).toBe(file);
    expect(statSync(file).mtimeMs).toBe(mtimeMs);
    expect(await sharePictureFile({ ...picture, title: 'Another' }, cache)).not.toBe(file);
    expect(readdirSync(cache)).toHaveLength(2);
  });
  it('shows the masstone of each sample', async () => {
    const picture = sharePictures(plan.context, model).find(({ address }) => address === '/share/4.png')!;
    const { data, info } = await sharp(await sharePictureFile(picture, cache))
      .raw()
      .toBuffer({ resolveWithObject: true });
    const at = (x: number, y: number): string =>
      `#${[0, 1, 2].map((part) => data[(y * info.width + x) * info.channels + part]!.toString(16).padStart(2, '0')).join('')}`;
    expect([at(300, 120), at(300, 280)]).toEqual(picture.swatches.map(({ swatch }) => swatch.hex));
  });
  it('is read by others pixel by pixel as it was written', async () => {
    const colours = ['#f8f8f6', '#1c1f21', '#2c7a5b'];
    const places = [0, 1, 2, 2, 1, 1];
    const png = indexedPng({ width: 3, height: 2, rows: Uint8Array.of(0, 0, 1, 2, 0, 2, 1, 1), colours });
    const { data, info } = await sharp(png, { failOn: 'warning' }).raw().toBuffer({ resolveWithObject: true });
    expect([info.width, info.height, info.channels]).toEqual([3, 2, 3]);
    expect(data.toString('hex')).toBe(places.map((place) => colours[place]!.slice(1)).join(''));
  });
  it('has its title in ink on paper', async () => {
    const picture = sharePictures(plan.context, model).find(({ address }) => address === '/share/4.png')!;
    const inked = async (title: string): Promise<number> => {
      const { data, info } = await sharp(await sharePictureFile({ ...picture, title, swatches: [] }, cache))
        .raw()
        .toBuffer({ resolveWithObject: true });
      return data.reduce((sum, value, at) => sum + (at % info.channels === 0 && value < 0x40 ? 1 : 0), 0);
    };
    const [none, short, long] = [await inked(''), await inked('Malachite'), await inked('Malachite Malachite')];
    expect(none).toBe(0);
    expect(short).toBeGreaterThan(1000);
    // Letters stand at other quarters of a pixel each time, so that they cover nearly the same.
    expect(Math.abs(long / short - 2)).toBeLessThan(0.05);
  });
  it('takes any title', async () => {
    const [picture] = sharePictures(plan.context, model);
    for (const title of [
      '',
      '<b>&amp;',
      'CO₂ und Öl: Ωμέγα, Кобальт',
      'w'.repeat(400),
      'a b '.repeat(200),
      '日本 \u0000 𝔸',
    ])
      expect(readFileSync(await sharePictureFile({ ...picture!, title }, cache)).length).toBeGreaterThan(1000);
  });
});

const citable: Citable = {
  author: 'Salt & Co',
  title: 'Blue_ & green: 5 % {of} it, $1 #2 ~3 ^4 \\',
  journal: 'Çopper & Lane',
  number: 14,
  date: '2026-03-04',
  url: 'https://x.example/a%20b/14/',
  language: 'en-GB',
};

describe('a citation', () => {
  it('is read back from BibTeX as it was written', () => {
    const { data } = new Cite(bibtex(citable)) as { data: Record<string, unknown>[] };
    expect(data).toHaveLength(1);
    expect(data[0]).toMatchObject({
      title: citable.title,
      // Its word for a name that is not taken apart.
      author: [{ family: citable.author }],
      URL: citable.url,
      issued: { 'date-parts': [[2026, 3, 4]] },
    });
  });
  it('is read back from CSL-JSON, and set by a style of its own', () => {
    const cite = new Cite(JSON.stringify(cslJson(citable))) as {
      data: Record<string, unknown>[];
      format: (what: string, options: object) => string;
    };
    expect(cite.data[0]).toMatchObject({ title: citable.title, 'container-title': citable.journal, type: 'webpage' });
    const set = cite.format('bibliography', { format: 'text', template: 'apa', lang: 'en-US' });
    expect(set).toContain('2026, March 4');
    expect(set).toContain(citable.url);
  });
  it('stands in words, says that an entry was withdrawn, and has a key that every program takes', () => {
    expect(citationWords({ ...citable, title: 'Was it green?', withdrawn: 'No.' })).toBe(
      'Salt & Co (2026). Was it green? Çopper & Lane, entry 14, 4 March 2026. Withdrawn. https://x.example/a%20b/14/',
    );
    expect(citationKey(citable)).toBe('copper-lane-14');
    expect(citationKey({ journal: '日本', number: 3 })).toBe('entry-3');
  });
  it('lies beside every entry as it stands on its page', () => {
    const html = quoted(plan.pages.get('/4/')!.render().html);
    expect(html).toContain('href="/journal/4/cite.bib"');
    expect(html).toContain('the workshop at Copperas Lane (2025). Malachite green, cold against warm.');
  });
});

describe('feeds', () => {
  it('say when, what was answered, and show a picture', () => {
    const json = JSON.parse(String(feeds(plan.context, model)[1]!.content)) as Record<string, unknown> & {
      items: Record<string, string>[];
    };
    // source: JSON Feed Version 1.1, jsonfeed.org, from memory
    expect(json.version).toBe('https://jsonfeed.org/version/1.1');
    expect(json.authors).toEqual([{ name: 'the workshop at Copperas Lane' }]);
    const item = json.items.find(({ url }) => url!.endsWith('/31/'))!;
    expect(item.summary).toContain('Not found out here.');
    expect(item.image).toBe('https://copperas-lane.example/journal/share/31.png');
    const { date } = model.entries.find(({ entry }) => entry.number === 31)!.entry;
    expect(item.date_published).toBe(`${date}T00:00:00.000Z`);
  });
  it('say what was withdrawn, and that a corrected entry is newer than its date', () => {
    const [atom, json] = feeds(plan.context, model).map(({ content }) => String(content));
    const { items } = JSON.parse(json!) as { items: Record<string, string>[] };
    const of = (number: number) => items.find(({ url }) => url!.endsWith(`/${number}/`))!;
    expect(of(26).title).toMatch(/^Withdrawn/);
    const { date, corrections } = model.entries.find(({ entry }) => entry.number === 32)!.entry;
    const [correction] = corrections;
    expect(correction!.date > date).toBe(true);
    expect(of(32)).toMatchObject({
      date_published: `${date}T00:00:00.000Z`,
      date_modified: `${correction!.date}T00:00:00.000Z`,
    });
    expect(atom).toMatch(new RegExp(`/32/"/>\\s*<updated>${correction!.date}T`));
    // Each item has an id and a content: all that JSON Feed asks of an item (from memory).
    for (const item of items) expect(item.id && item.content_text).toBeTruthy();
  });
  it('escape once what must be escaped', () => {
    const [atom, json] = feeds({ ...plan.context, title: 'Salt & Co', author: 'Salt & Co' }, model);
    expect(String(atom!.content)).toContain('<title>Salt &amp; Co</title>');
    expect(String(atom!.content)).toContain('<name>Salt &amp; Co</name>');
    expect(String(atom!.content)).not.toContain('&amp;amp;');
    expect(JSON.parse(String(json!.content))).toMatchObject({ title: 'Salt & Co' });
  });
});
