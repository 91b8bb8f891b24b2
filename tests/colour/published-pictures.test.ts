// Photographs as they are published: upright, sRGB, no wider than a page needs, without place or serial number; made
// once.
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openJournal } from '../../src/open.js';
import { openPicture } from '../../src/pictures/pixels.js';
import { publish } from '../../src/site/publish.js';
import { quoted } from '../quoted.js';

const folder = mkdtempSync(join(tmpdir(), 'masstone-published-'));
const site = join(folder, 'site');
const journal = join(folder, 'journal');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const place = {
  IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '51/1 30/1 0/1', GPSLongitudeRef: 'W', GPSLongitude: '0/1 7/1 0/1' },
};
const entry = (photo: string) =>
  `---\nnumber: 1\ntitle: Photographed\ndate: 2026-05-01\nstatus: finished\nsamples: [{ sample: A, photo: ` +
  `"photos/${photo}", photo-shows: a heap }]\n---\nWords, and ![a heap](../photos/wide.png).\n`;
const photographed = async (file: string, width = 2400, height = 1200) =>
  sharp({ create: { width, height, channels: 3, background: '#c04020' } })
    .withMetadata({ orientation: 6 })
    .withExifMerge({ IFD0: { Make: 'Maker', Model: 'serial 123' }, ...place })
    .jpeg()
    .toFile(join(journal, 'photos', file));

beforeAll(async () => {
  mkdirSync(join(journal, 'entries'), { recursive: true });
  mkdirSync(join(journal, 'photos'));
  writeFileSync(join(journal, 'journal.yaml'), 'title: J\naddress: https://example.org/\nauthor: A\n');
  writeFileSync(join(journal, 'shelf.yaml'), '{}\n');
  await photographed('home one.jpg');
  await sharp({ create: { width: 60, height: 40, channels: 3, background: '#c04020' } })
    .png()
    .withIccProfile('p3')
    .toFile(join(journal, 'photos/wide.png'));
  writeFileSync(join(journal, 'entries/001-a.md'), entry('home one.jpg'));
});

describe('a photograph that is opened for its colours', () => {
  const open = async (file: string, make: () => Promise<unknown>) => {
    await make();
    const found = await openPicture(join(folder, file));
    return found.ok ? (found.value.notes ?? []) : [found.fault.code];
  };
  const flat = () => sharp({ create: { width: 8, height: 8, channels: 3, background: '#c04020' } });
  it('says that inks hold fewer colours, and that of several pictures the first was read', async () => {
    expect(await open('a.jpg', () => flat().jpeg().toFile(join(folder, 'a.jpg')))).toEqual([]);
    const inks = () => flat().toColourspace('cmyk').jpeg().toFile(join(folder, 'inks.jpg'));
    expect((await open('inks.jpg', inks)).join()).toMatch(/inks of a printer/);
    const frames = Buffer.concat([Buffer.alloc(8 * 8 * 3, 90), Buffer.alloc(8 * 8 * 3, 200)]);
    const moving = () =>
      sharp(frames, { raw: { width: 8, height: 16, channels: 3, pageHeight: 8 } })
        .webp({ delay: [100, 100] })
        .toFile(join(folder, 'moving.webp'));
    expect((await open('moving.webp', moving)).join()).toMatch(/several pictures; the first was read/);
  });
});

describe('photographs of a publication', () => {
  it('hold neither place nor camera and stand upright', async () => {
    const before = await sharp(join(journal, 'photos/home one.jpg')).metadata();
    expect(before.exif?.toString('latin1')).toContain('serial 123');
    const { published, remarks } = await publish(journal, { to: site, search: false });
    expect([published, remarks.map(({ reason }) => reason)]).toEqual([true, []]);
    const after = await sharp(join(site, 'photos/home one.jpg')).metadata();
    expect([after.width, after.height, after.orientation, after.exif, after.xmp, after.icc]).toEqual([
      1200,
      2400,
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
    expect(readFileSync(join(site, 'photos/home one.jpg')).includes('serial')).toBe(false);
    const wide = await sharp(join(site, 'photos/wide.png')).metadata();
    expect([wide.width, wide.icc]).toEqual([60, undefined]);
  });
  it('come in smaller forms, with their size said on the page', async () => {
    const page = quoted(readFileSync(join(site, '1/index.html'), 'utf8'));
    const image = /<figure class="photograph">[\s\S]*?<\/figure>/.exec(page)![0];
    expect(image).toMatch(/width="1200" height="2400"/);
    expect(image).toMatch(/<source type="image\/avif" srcset="\/photos\/home%20one\.jpg\.480\.avif 480w, /);
    // The large form too is there in the better formats; JPEG is the photograph's own kind.
    expect(image).toMatch(/home%20one\.jpg\.1200\.webp 1200w"/);
    expect(image).toMatch(/home%20one\.jpg 1200w"/);
    expect(image).toMatch(/<a href="\/photos\/home%20one\.jpg">/);
    for (const format of ['avif', 'webp', 'jpeg']) {
      const { width, exif } = await sharp(join(site, `photos/home one.jpg.480.${format}`)).metadata();
      expect([width, exif]).toEqual([480, undefined]);
    }
    expect(existsSync(join(site, 'photos/home one.jpg.960.avif'))).toBe(true);
    expect(existsSync(join(site, 'photos/home one.jpg.1600.avif'))).toBe(false);
  });
  it('are made once, and again only when they change', async () => {
    const kept = () =>
      readdirSync(join(journal, '.pictures')).map(
        (file) => `${file} ${statSync(join(journal, '.pictures', file)).mtimeMs}`,
      );
    const before = kept();
    await publish(journal, { to: site, search: false });
    expect(kept()).toEqual(before);
    await photographed('home one.jpg', 1000, 500);
    await publish(journal, { to: site, search: false });
    expect(kept().filter((one) => !before.includes(one)).length).toBeGreaterThan(1);
    expect(kept()).toEqual(expect.arrayContaining(before));
  });
  it.each([
    ['cut short', 'cut.jpg', () => readFileSync(join(journal, 'photos/home one.jpg')).subarray(0, 900)],
    ['HEIC', 'phone.heic', () => Buffer.from('000000186674797068656963000000006d696631686569630000', 'hex')],
  ])('%s is an error with its cure, in the proof too', async (_, file, bytes) => {
    writeFileSync(join(journal, 'photos', file), bytes());
    writeFileSync(join(journal, 'entries/001-a.md'), entry(file));
    const { remarks } = await openJournal(journal, { drafts: true });
    const found = remarks.find(({ ruleId }) => ruleId === 'unreadable-picture');
    expect([found?.file, found?.fatal]).toEqual([`photos/${file}`, true]);
    expect(found?.note).toMatch(/^Export it/);
    expect((await publish(journal, { to: site, search: false })).published).toBe(false);
    expect(existsSync(join(site, 'photos', file))).toBe(false);
  });
  it('drawings are published without what runs, and say so; a page among them is an error', async () => {
    const drawn = (file: string) =>
      writeFileSync(
        join(journal, 'entries/001-a.md'),
        '---\nnumber: 1\ntitle: Drawn\ndate: 2026-05-01\nstatus: finished\nsamples: [{ sample: A }]\n---\n' +
          `![the still](../photos/${file})\n`,
      );
    writeFileSync(
      join(journal, 'photos/still.svg'),
      '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20" onload="a()"><script>a()</script>' +
        '<path d="M0 0h9"/></svg>',
    );
    drawn('still.svg');
    const { published, remarks } = await publish(journal, { to: site, search: false });
    expect(published).toBe(true);
    expect(remarks.map(({ ruleId, file }) => [ruleId, file])).toEqual([['drawing-mended', 'photos/still.svg']]);
    expect(readFileSync(join(site, 'photos/still.svg'), 'utf8')).toBe(
      '<svg viewBox="0 0 40 20" xmlns="http://www.w3.org/2000/svg"><path d="M0 0h9" /></svg>',
    );
    expect(quoted(readFileSync(join(site, '1/index.html'), 'utf8'))).toMatch(
      /<img src="\/photos\/still\.svg" alt="the still" width="40" height="20"/,
    );
    writeFileSync(join(journal, 'photos/still.html'), '<script>a()</script>');
    drawn('still.html');
    const refused = await publish(journal, { to: site, search: false });
    expect([refused.published, refused.remarks.map(({ ruleId }) => ruleId)]).toEqual([false, ['runs-in-a-browser']]);
  });
});
