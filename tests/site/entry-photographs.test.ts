// Photographs on an entry's page: in the head, in the write-up, together on a contact sheet; whatever their names are.
import { existsSync, mkdirSync, mkdtempSync, openSync, ftruncateSync, closeSync, readFileSync, rmSync } from 'node:fs';
import { writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { photographsOf } from '../../src/journal/photographs.js';
import { openJournal } from '../../src/open.js';
import { publish } from '../../src/site/publish.js';
import { quoted } from '../quoted.js';

const folder = mkdtempSync(join(tmpdir(), 'masstone-photographs-'));
const journal = join(folder, 'journal');
const site = join(folder, 'site');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const picture = (file: string, width = 80, height = 60) =>
  sharp({ create: { width, height, channels: 3, background: '#3a7d55' } })
    .toFormat(file.endsWith('png') ? 'png' : 'jpeg')
    .toFile(join(journal, 'photos', file));
const write = (matter: string, body = 'Words.') => {
  rmSync(join(journal, 'register.txt'), { force: true });
  rmSync(site, { recursive: true, force: true });
  writeFileSync(
    join(journal, 'entries/001-a.md'),
    `---\nnumber: 1\ntitle: Photographed\ndate: 2026-05-01\nstatus: finished\n${matter}\n---\n${body}\n`,
  );
};
const published = async (matter: string, body?: string) => {
  write(matter, body);
  const { published: done, remarks } = await publish(journal, { to: site, search: false });
  const page = done ? quoted(readFileSync(join(site, '1/index.html'), 'utf8')) : '';
  return { done, page, remarks: remarks.map(({ ruleId }) => ruleId), all: remarks };
};
const sheetOf = (page: string): string => /<ul class="contact-sheet">[\s\S]*?<\/ul>/.exec(page)?.[0] ?? '';

/** Names that no link may be confused by, and that every disk can hold. */
const names = ['two dishes.jpg', 'No #2.jpg', '100% red.jpg', 'a+b & c.jpg', 'Über (1).JPG', 'what?.jpg'];

beforeAll(async () => {
  mkdirSync(join(journal, 'entries'), { recursive: true });
  mkdirSync(join(journal, 'photos'));
  writeFileSync(join(journal, 'journal.yaml'), 'title: J\naddress: https://example.org/j/\nauthor: A\n');
  writeFileSync(join(journal, 'shelf.yaml'), '{}\n');
  for (const file of ['jug.jpg', 'heap.jpg', 'card.png', ...names]) await picture(file);
});

const three = `samples:
  - { sample: A, photo: { file: photos/heap.jpg, shows: a green heap, light: "north window, overcast" } }
  - { sample: B, photo: photos/card.png, photo-shows: a card }
videos:
  - { url: "https://youtu.be/x", moments: [{ at: "3:40", shows: froth }] }
photos:
  - { file: photos/jug.jpg, shows: froth over the rim, caption: What a third of the soda did at once, moment: "3:40" }
  - photos/heap.jpg`;

describe('photographs of an entry', () => {
  it('stand in the head, and all together on a contact sheet with their captions, light and moments', async () => {
    const { page, remarks } = await published(three);
    expect(remarks).toEqual([]);
    const head = page.slice(0, page.indexOf('</header>', page.indexOf('entry-head')));
    expect(head).toMatch(/<img src="\/j\/photos\/heap\.jpg" alt="a green heap" width="80" height="60"/);
    expect(head).not.toMatch(/loading="lazy"/);
    const sheet = sheetOf(page);
    expect(sheet.match(/<li>/g)).toHaveLength(3);
    expect(sheet.match(/loading="lazy"/g)).toHaveLength(3);
    expect(sheet.match(/<a href="\/j\/photos\/[^"]*"><picture>/g)).toHaveLength(3);
    expect(sheet).toContain('Sample A: a green heap. Light: north window, overcast.');
    expect(sheet).toMatch(/alt="froth over the rim"/);
    expect(sheet).toMatch(
      /What a third of the soda did at once\. <a class="moment" href="https:\/\/youtu\.be\/x\?t=220s" rel="external">3:40<\/a>/,
    );
  });
  it('in a write-up have their forms, their size and a link to the large one; their words stand below', async () => {
    const { page, remarks } = await published(
      three,
      '## Seen\n\n![a jug](../photos/jug.jpg)\n\n![](../photos/card.png "The card")\n\nBeside ![it][h], too.\n\n' +
        '[![linked](../photos/heap.jpg)](https://elsewhere.example/)\n\n[h]: ../photos/heap.jpg',
    );
    expect(remarks).toEqual([]);
    const seen = page.slice(page.indexOf('id="seen"'), page.indexOf('contact-sheet'));
    expect(seen.match(/width="80" height="60" loading="lazy"/g)).toHaveLength(4);
    expect(seen).toMatch(/<figure class="photograph"><a href="\/j\/photos\/jug\.jpg"><picture>/);
    expect(seen).toMatch(/<figcaption>What a third of the soda did at once/);
    expect(seen).toMatch(/<figcaption>Sample B: The card\./);
    expect(seen).toMatch(/Beside <a href="\/j\/photos\/heap\.jpg"><picture>/);
    expect(seen).toMatch(/<a href="https:\/\/elsewhere\.example\/"><picture>/);
    for (const [, file] of page.matchAll(/(?:src|srcset)="\/j\/([^" ]+)/g))
      expect([file, existsSync(join(site, decodeURIComponent(file!)))]).toEqual([file, true]);
  });
  it.each(names)('%s is shown, and lies where the page says', async (name) => {
    const address = name
      .replace(/[ %#?&()]/g, encodeURIComponent)
      .replace('(', '%28')
      .replace(')', '%29');
    const { page, remarks } = await published(
      `photos: [{ file: "photos/${name}", shows: dishes }, { file: photos/jug.jpg, shows: a jug }]`,
      `![dishes](../photos/${address})`,
    );
    expect(remarks).toEqual([]);
    const sources = [...page.matchAll(/src="\/j\/([^" ]+)"/g)].map(([, file]) => decodeURIComponent(file!));
    expect(sources.filter((file) => file === `photos/${name}`)).toHaveLength(3);
    expect(existsSync(join(site, `photos/${name}`))).toBe(true);
  });
  it.each([
    ['a space', '![two](../photos/two dishes.jpg)', 'address-signs'],
    ['#', '![two](<../photos/No #2.jpg>)', 'address-signs'],
    ['?', '![two](../photos/what?.jpg)', 'address-signs'],
    ['other capitals', '![two](../photos/Jug.jpg)', 'spelt-otherwise'],
    ['another folder', '![two](../pictures/jug.jpg)', 'dangling-link'],
  ])('an address in a write-up with %s is a remark, not a picture that is missing', async (_, body, rule) => {
    const { remarks } = await published('', body);
    expect(remarks).toEqual([rule]);
  });
  it('of a sample that is not there, of a moment that no video has, or without words are remarks', async () => {
    write('photos: [{ file: photos/jug.jpg, sample: C, moment: "3:40" }]');
    const { remarks } = await openJournal(journal, { drafts: true });
    expect(remarks.map(({ ruleId, line }) => `${line} ${ruleId}`)).toEqual([
      '6 photo-without-words',
      '6 unknown-sample',
      '6 no-such-moment',
    ]);
  });
  it('are listed once, with all that is said of them', () => {
    const said = photographsOf({
      samples: [{ sample: 'A', photo: 'photos/a.jpg' }] as never,
      photos: [{ file: 'photos/a.jpg', light: 'window' }, 'photos/b.jpg'],
    });
    expect(said.map(({ file, sample, light }) => [file, sample, light])).toEqual([
      ['photos/a.jpg', 'A', 'window'],
      ['photos/b.jpg', undefined, undefined],
    ]);
  });
});

/** A PNG that says it is of so many pixels, with hardly any data. PNG (ISO/IEC 15948), 5.3 and 11.2.2. */
function bomb(side: number): Buffer {
  const chunk = (name: string, data: Buffer): Buffer => {
    const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
    const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
    length.writeUInt32BE(data.length);
    sum.writeUInt32BE(crc32(body));
    return Buffer.concat([length, body, sum]);
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(side, 0);
  head.writeUInt32BE(side, 4);
  head.set([8, 2, 0, 0, 0], 8);
  const data = Buffer.from('789c030000000001', 'hex');
  return Buffer.concat([
    Buffer.from('89504e470d0a1a0a', 'hex'),
    chunk('IHDR', head),
    chunk('IDAT', data),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

describe('pictures that cannot be published', () => {
  const at = (file: string) => join(journal, 'photos', file);
  it.each([
    ['of 40,000 pixels squared', 'bomb.png', () => writeFileSync(at('bomb.png'), bomb(40_000)), 'unreadable-picture'],
    [
      'of 201 MB',
      'huge.jpg',
      () => {
        const file = openSync(at('huge.jpg'), 'w');
        ftruncateSync(file, 201 * 1024 * 1024);
        closeSync(file);
      },
      'file-size',
    ],
    ['that is a camera’s raw data', 'raw.dng', () => writeFileSync(at('raw.dng'), 'II*\0'), 'unreadable-picture'],
    [
      'that ends in the middle',
      'half.jpg',
      () => {
        const whole = readFileSync(at('jug.jpg'));
        writeFileSync(at('half.jpg'), whole.subarray(0, whole.length / 2));
      },
      'unreadable-picture',
    ],
  ])('a picture %s is an error with a cure', async (_, file, make, rule) => {
    make();
    write(`photos: [{ file: photos/${file}, shows: it }]`);
    const { remarks } = await openJournal(journal, { drafts: true });
    expect(remarks.map(({ ruleId, fatal }) => [ruleId, fatal])).toEqual([[rule, true]]);
    expect(remarks[0]!.note).toMatch(/^Export it/);
    rmSync(at(file));
  });
});
