// A drawing (SVG) is published without what runs, what loads from elsewhere, what leads away, and what tells of its
// maker; what draws stays.
import { SaxesParser, type SaxesTagNS } from 'saxes';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { mayRun } from '../../src/journal/folder.js';
import { harmlessDrawing } from '../../src/pictures/drawing.js';

const svg = (content: string, attributes = '') =>
  '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 40 20"' +
  `${attributes}>${content}</svg>`;
const mended = async (text: string | Uint8Array) => {
  const found = await harmlessDrawing(typeof text === 'string' ? new TextEncoder().encode(text) : text);
  if (!found.ok) throw new Error(found.fault.message);
  return found.value;
};
/** Elements of a drawing; it must be whole XML. */
function elementsOf(text: string): SaxesTagNS[] {
  const parser = new SaxesParser({ xmlns: true });
  const tags: SaxesTagNS[] = [];
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', (tag) => tags.push(tag));
  parser.write(text).close();
  return tags;
}

// Ways to run or load something from an SVG. Source: SVG 2 (scripting, linking, foreignObject, animation), CSS Values
// (url), the HTML Standard (event attributes); the tricks with CDATA, prefixes and escapes from memory.
const hostile: readonly (readonly [string, string])[] = [
  ['a script', svg('<script>alert(1)</script>')],
  ['a script by another prefix', '<s:svg xmlns:s="http://www.w3.org/2000/svg"><s:script>alert(1)</s:script></s:svg>'],
  ['a script that is loaded', svg('<script href="https://evil.example/a.js"/>')],
  ['an XHTML script', svg('<script xmlns="http://www.w3.org/1999/xhtml">alert(1)</script>')],
  ['an event on the root', svg('<path d="M0 0"/>', ' onload="alert(1)"')],
  ['an event in capitals', svg('<rect width="9" height="9" ONCLICK="alert(1)"/>')],
  ['HTML within', svg('<foreignObject><body xmlns="http://www.w3.org/1999/xhtml" onload="alert(1)"/></foreignObject>')],
  ['a link that runs', svg('<a href="javascript:alert(1)"><text>x</text></a>')],
  ['an old link that runs', svg('<a xlink:href="java&#x0A;script:alert(1)"><text>x</text></a>')],
  ['an animation that makes a link', svg('<a><set attributeName="href" to="javascript:alert(1)"/><text>x</text></a>')],
  ['an animated event', svg('<animate onbegin="alert(1)" attributeName="x" dur="1s"/>')],
  ['a picture from elsewhere', svg('<image href="https://evil.example/a.png"/>')],
  ['a filter that loads', svg('<filter id="f"><feImage href="https://evil.example/a.png"/></filter>')],
  ['another drawing that is used', svg('<use href="https://evil.example/a.svg#x"/>')],
  ['a drawing as a picture', svg('<image href="data:image/svg+xml,%3Csvg onload=alert(1)%3E"/>')],
  ['a fill from elsewhere', svg('<path d="M0 0" fill="url(https://evil.example/a.svg#g)"/>')],
  ['a style that loads', svg('<path d="M0 0" style="background:url(//evil.example/a)"/>')],
  ['a style with an escape', svg('<path d="M0 0" style="fill:u\\72l(//evil.example/a)"/>')],
  ['a style that imports', svg('<style>@import "https://evil.example/a.css"; path { fill: red }</style>')],
  [
    'letters from elsewhere',
    svg('<style>@font-face { font-family: x; src: url(https://evil.example/a.woff2) }</style>'),
  ],
  ['a style that ends itself', svg('<style><![CDATA[</style><script>alert(1)</script>]]></style>')],
  ['a title that ends itself', svg('<title><![CDATA[</title><script>alert(1)</script>]]></title>')],
  ['a style sheet before it', `<?xml-stylesheet href="https://evil.example/a.xsl" type="text/xsl"?>${svg('')}`],
  ['a base elsewhere', svg('<use href="#a"/>', ' xml:base="https://evil.example/"')],
  [
    'an unknown element',
    svg('<handler type="text/javascript" xmlns:ev="http://www.w3.org/2001/xml-events">alert(1)</handler>'),
  ],
  ['an embedded page', svg('<iframe src="https://evil.example/"/>')],
];

describe('a hostile drawing', () => {
  it.each(hostile)('%s', async (_, text) => {
    const { svg: made } = await mended(text);
    const tags = elementsOf(made);
    expect(tags[0]!.local).toBe('svg');
    const attributes = tags.flatMap((tag) => Object.values(tag.attributes));
    expect(
      tags.filter(({ local }) => /^(script|foreignObject|a|set|animate|iframe|feImage|handler)$/.test(local)),
    ).toEqual([]);
    expect(
      attributes.filter(({ name, value }) => /^on/i.test(name) || /evil\.example|script:|alert/i.test(value)),
    ).toEqual([]);
    expect(made.replaceAll(/<title>.*?<\/title>/g, '')).not.toMatch(/evil\.example|alert/);
  });
  it('says what was taken, where a reader would have met it', async () => {
    expect((await mended(svg('<script>a()</script><a href="https://example.org"><text>x</text></a>'))).taken).toEqual([
      'a link',
      'a script',
    ]);
    expect((await mended(svg('<image href="https://example.org/a.png"/>'))).taken).toEqual([
      'something that loads from elsewhere',
    ]);
  });
  it.each([
    ['entities', `<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]>${svg('<text>&b;</text>')}`],
    [
      'a file of the machine',
      '<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]><svg xmlns="http://www.w3.org/2000/svg">&x;</svg>',
    ],
    ['a page', '<html xmlns="http://www.w3.org/1999/xhtml"><script>alert(1)</script></html>'],
    ['no XML', 'II*\0'],
    ['nothing', ''],
    ['a drawing that is cut off', svg('<path d="M0 0"/>').slice(0, -8)],
    ['a nest without a floor', svg('<g>'.repeat(5000))],
  ])('%s is a fault with a cure', async (_, text) => {
    const found = await harmlessDrawing(new TextEncoder().encode(text));
    expect(found.ok ? 'read' : [found.fault.code, typeof found.fault.cure]).toEqual(['unreadable-picture', 'string']);
  });
});

describe('a drawing as programs write it', () => {
  it('is drawn as before, without what the program noted of its file and user', async () => {
    const {
      svg: made,
      size,
      taken,
    } = await mended(
      '<?xml version="1.0" encoding="UTF-8"?><!-- Created by Anna on anna-laptop -->' +
        svg(
          '<metadata><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">Anna</rdf:RDF></metadata>' +
            '<sodipodi:namedview id="v"/><defs><linearGradient id="g"><stop offset="0" stop-color="#123456"/>' +
            '</linearGradient></defs><style>.line { stroke: url(#g); stroke-width: 2px }</style>' +
            '<g inkscape:label="Anna" class="line">' +
            '<path d="M0 0 L9 9" style="fill:url(#g)"/><text x="1" y="9" xml:space="preserve">5 &lt; 6 &amp; 7' +
            '</text></g>',
          ' width="40mm" height="20mm" xmlns:sodipodi="http://sodipodi.sourceforge.net/DTD/sodipodi-0.dtd" ' +
            'xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape" sodipodi:docname="/home/anna/still.svg"',
        ),
    );
    expect(made).not.toMatch(/anna/i);
    expect([size, taken]).toEqual([{ width: 151, height: 76 }, []]);
    expect(elementsOf(made).map(({ local }) => local)).toEqual([
      'svg',
      'defs',
      'linearGradient',
      'stop',
      'style',
      'g',
      'path',
      'text',
    ]);
    expect(made).toContain('stroke: url(#g)');
    expect(made).toContain('viewBox="0 0 40 20"');
    expect(made).toContain('stop-color="#123456"');
    expect(made).toMatch(/5 &#x3C; 6 &#x26; 7|5 &lt; 6 &amp; 7/);
    // What draws it before and after is the same library: librsvg.
    await expect(sharp(Buffer.from(made)).metadata()).resolves.toMatchObject({ format: 'svg' });
  });
  it('has its embedded pictures made anew, without place and camera', async () => {
    const jpeg = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#c04020' } })
      .withExif({ IFD0: { Make: 'Maker', Model: 'serial 123' } })
      .jpeg()
      .toBuffer();
    expect(jpeg.toString('latin1')).toContain('serial 123');
    const { svg: made } = await mended(svg(`<image xlink:href="data:image/jpeg;base64,${jpeg.toString('base64')}"/>`));
    const [, base64] = /xlink:href="data:image\/png;base64,([^"]+)"/.exec(made)!;
    const image = Buffer.from(base64!, 'base64');
    expect(image.toString('latin1')).not.toContain('serial');
    expect((await sharp(image).metadata()).width).toBe(8);
    expect(elementsOf(made)[1]!.local).toBe('image');
  });
  it('in UTF-16, with its size in its view only', async () => {
    const utf16 = Buffer.from(`\ufeff${svg('<path d="M0 0"/>')}`, 'utf16le');
    expect((await mended(utf16)).size).toEqual({ width: 40, height: 20 });
  });
});

describe('files that a browser would run', () => {
  it.each([
    ['photos/plot.html', undefined, true],
    ['photos/plot.HTM', undefined, true],
    ['spectra/a.xhtml', undefined, true],
    ['spectra/still.svg', undefined, true],
    ['photos/still.svgz', undefined, true],
    ['photos/plot.js', undefined, true],
    ['photos/a.xml', undefined, true],
    ['spectra/a.xml', '<CxF xmlns="http://colorexchangeformat.com/CxF3-core"/>', false],
    ['spectra/a.xml', '<x><script xmlns="http://www.w3.org/1999/xhtml">alert(1)</script></x>', true],
    ['photos/still.svg', undefined, false],
    ['photos/a.jpg', undefined, false],
    ['spectra/a.csv', undefined, false],
    ['pages/about.md', undefined, false],
  ])('%s', (path, text, runs) => {
    expect(mayRun(path, text)).toBe(runs);
  });
});
