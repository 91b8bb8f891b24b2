// Our templates make the trees that hastscript makes, and these are written as rehype-stringify writes them, to the byte.
import fc from 'fast-check';
import type { Element, ElementContent, Root } from 'hast';
import { h, s } from 'hastscript';
import { jsx as byHastscript } from 'hastscript/jsx-runtime';
import rehypeStringify from 'rehype-stringify';
import { unified } from 'unified';
import { expect, it } from 'vitest';
import { renderBody } from '../../src/site/markdown.js';
import { partsIn } from '../../src/site/html.js';
import { pageText } from '../../src/site/page-text.js';
import { jsx } from '../../templates/jsx-runtime.js';

const library = unified().use(rehypeStringify, {
  omitOptionalTags: true,
  closeEmptyElements: true,
  tightSelfClosing: true,
  preferUnquoted: true,
  collapseEmptyAttributes: true,
});

const names =
  'a p div span ul ol li dl dt dd table caption thead tbody tfoot tr td th select option optgroup section h2 img br input b ' +
  'details summary del svg script';
const drawn = 'g path text title desc a circle';

const text = fc
  .oneof(fc.constantFrom(' ', '\n', 'A & B', '<', '"', "it's `1`", 'CO₂'), fc.string({ maxLength: 4 }))
  .map((value): ElementContent => ({ type: 'text', value: value.replaceAll('\0', '') }));

const value = fc.oneof(
  fc.constantFrom('', 'one', 'a "b" & \'c\' `d` <e>', true, false, 12, Number.NaN, null),
  fc.constantFrom<string[]>(['a', 'b'], [], ['a & b']),
);

const properties = fc.dictionary(
  fc.constantFrom(
    ...'id href src className alt hidden open disabled download ariaLabel dataNumber srcSet viewBox tabIndex strokeWidth'.split(
      ' ',
    ),
  ),
  value,
  { maxKeys: 3 },
);

const { node } = fc.letrec<{ node: ElementContent; inDrawing: ElementContent }>((tie) => ({
  node: fc.oneof(
    { maxDepth: 5 },
    text,
    fc
      .tuple(
        fc.constantFrom(...names.split(' ')),
        properties,
        fc.array(tie('node'), { maxLength: 5 }),
        tie('inDrawing'),
      )
      .map(([tagName, own, children, drawing]): Element => {
        const inside = ['img', 'br', 'input'].includes(tagName) ? [] : children;
        return { type: 'element', tagName, properties: own, children: tagName === 'svg' ? [drawing] : inside };
      }),
  ),
  inDrawing: fc.oneof(
    { maxDepth: 3 },
    text,
    fc
      .tuple(fc.constantFrom(...drawn.split(' ')), properties, fc.array(tie('inDrawing'), { maxLength: 3 }))
      .map(([tagName, own, children]): Element => ({ type: 'element', tagName, properties: own, children })),
  ),
}));

const tree = fc.array(node, { maxLength: 6 }).map((children): Root => ({ type: 'root', children }));

/** But for apostrophes, which need no escape within double quotes. */
const shorter = (text: string): string => text.replaceAll('&#x27;', "'").replaceAll('&#x60;', '`');

it('writes any tree of our elements as the library does', () => {
  fc.assert(
    fc.property(tree, (one) => {
      expect(pageText(one).html).toBe(shorter(library.stringify(one)));
    }),
    { numRuns: 500 },
  );
});

it('writes the frame of a page as the library does', () => {
  const page: Root = h(null, [
    { type: 'doctype' } as never,
    h('html', { lang: 'en-GB' }, [
      h('head', [h('meta', { charSet: 'utf-8' }), h('title', 'A & B'), h('script', { type: 'x' }, '{"a":"<&"}')]),
      h('body', [
        h(
          'main',
          { id: 'main', tabIndex: -1 },
          s('svg', { viewBox: '0 0 1 1' }, [s('title', h('b', { title: 'x' })), s('path', { d: 'M0 0h1' })]),
        ),
      ]),
    ]),
  ]);
  expect(pageText(page).html).toBe(library.stringify(page));
});

it('gathers the ids and links that stand in the text', () => {
  const page: Root = h(null, [
    h('p', { id: 'a"b' }, h('a', { href: '/1/?a&b' }, 'one')),
    h('img', { src: '/x.png', alt: '' }),
    h('section', [{ ...h('p', { id: 'own' }, h('a', { href: '#own' }, '<')), data: { ofBody: true } }, h('span')]),
  ]);
  const { html, parts } = pageText(page);
  expect(html).toContain('&#x3C;</a></p><span>');
  expect(parts).toEqual(partsIn(html));
  expect(parts.links).toEqual(['/1/?a&b', '/x.png', '#own']);
});

it('writes what many pages share once, and every page with its ids and links', () => {
  const shared = {
    ...h('header', { id: 'top' }, [h('a', { href: '/' }, 'A & B'), h('p', 'one')]),
    data: { ofManyPages: true },
  };
  const texts = ['first', 'second'].map((words) => pageText(h(null, [shared, h('p', words)])));
  for (const [at, words] of ['first', 'second'].entries()) {
    expect(texts[at]!.html).toBe(library.stringify(h(null, [shared, h('p', words)])));
    expect(texts[at]!.parts).toEqual({ ids: new Set(['top']), links: ['/'] });
  }
});

it('leaves out the end tag of what many pages share where it may, wherever it stands', () => {
  const shared = { ...h('p', { id: 'one' }, 'A & B'), data: { ofManyPages: true } };
  const mark = { ...s('text', { className: ['mark'], textAnchor: 'middle' }, '†'), data: { ofManyPages: true } };
  const pages = [
    [shared],
    [shared, h('p', 'next')],
    [shared, 'words'],
    [h('a', [shared])],
    [shared, h('span')],
    [s('svg', [s('g', [mark, mark]), mark]), shared],
  ];
  for (const page of pages) expect(pageText(h(null, page)).html).toBe(library.stringify(h(null, page)));
});

it('writes a write-up as the library does, also where that escapes more', () => {
  const context = {
    file: 'pages/a.md',
    bodyLine: 1,
    addressOf: () => undefined,
    chem: () => undefined,
    value: () => undefined,
    valueNames: () => [],
    swatch: () => undefined,
  };
  const body = `It's [so](https://a.example/ "It's \`so\`"), *A*.\n\n- [x](https://a.example/?a=1&b='2')\n- 1 < 2 & 3\n`;
  const { children } = renderBody(body, context);
  expect(pageText(h(null, children)).html).toBe(library.stringify(h(null, children)));
  expect(pageText(h(null, children)).html).toContain('It&#x27;s');
});

it.each<[string, Record<string, unknown>]>([
  ['p', { class: 'small  quiet', children: ['A', 1, null, [undefined, ['B']]] }],
  ['img', { src: '/a.png', width: '40', height: 40, alt: '', class: '' }],
  ['input', { type: 'checkbox', checked: '', disabled: false, hidden: 'hidden', accept: 'a, b,', tabIndex: -1 }],
  ['a', { href: '/', download: 'x.csv', rel: 'noopener external', 'aria-current': undefined, 'data-number': 'a' }],
  ['svg', { viewBox: '0 0 1 1', preserveAspectRatio: 'none', 'stroke-width': 2, children: h('path', { d: 'M0 0' }) }],
  ['td', { headers: 'a b', colSpan: 2, children: h(null, 'one', h('b', 'two')) }],
])('makes the element of a template that hastscript makes: %s', (name, given) => {
  expect(jsx(name, given)).toEqual(byHastscript(name, given as never));
  expect(jsx(null, { children: given.children })).toEqual(byHastscript(null, { children: given.children } as never));
});
