// Bodies: what Markdown may and may not bring onto a page.
import { h } from 'hastscript';
import { toHtml } from 'hast-util-to-html';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { renderBody, resolveLink, type BodyContext } from '../../src/site/markdown.js';

const context = (more: Partial<BodyContext> = {}): BodyContext => ({
  file: 'entries/014-malachite.md',
  bodyLine: 20,
  addressOf: (file) => (file === 'entries/009-verditer.md' ? '/journal/9/' : undefined),
  chem: (text) => (text === 'CuO' ? h('span', 'CuO') : undefined),
  value: (path) => (path === 'A.yield' ? '91.2 ± 0.4 %' : undefined),
  valueNames: () => ['A.yield'],
  swatch: (sample) => (sample === 'A' ? h('svg', { className: ['swatch'] }) : undefined),
  ...more,
});
const html = (markdown: string, more?: Partial<BodyContext>): string =>
  toHtml({ type: 'root', children: renderBody(markdown, context(more)).children });

describe('what of a body needs no library', () => {
  // A comment, which is not shown, has the library make all of a body.
  const byLibrary = (markdown: string): string => html(`${markdown}\n\n<!-- -->`);
  it.each([
    'One [two](009-verditer.md#A \n"three")\n*four*.',
    '[a](HTTP://b.c), [a](javascript:x), [a](mailto:b), [a](//b.c), [a](b%2), [a](<b c>), [a](#é), [a](?b:c)',
    '![two](../photos/two.jpg)\n\n:swatch[A]\n\n:swatch[B]',
    '- one\n- two\n\n7. :chem[CuO]\n\n   :value[A.yield]\n8. *three*\n\n* four\n\n* [ ] five\n* six\n  - seven',
    '|  | b |\n|---|:-:|\n| 1 | *2* |\n| 3 |\n\nx  \ny\\\nz `q` ~~r~~ https://a.b\n\n> # s\n\n::t[u]',
    '# one\n\n### two :value[B.yield]\n\n***\n\n    code',
  ])('%j comes out the same', (markdown) => expect(html(markdown)).toBe(byLibrary(markdown)));

  it('and so does any text', () => {
    const signs = 'a|b c| |  |*|*d*|[e](f)|:chem[CuO]|:swatch[A]|:x|`|1|. |- |> |# |\\|&lt;|\'|"|![g](h.jpg)|\t'.split(
      '|',
    );
    const table = '\n| j | k |\n|:--|---|\n| l |';
    const word = fc.constantFrom(...signs, '\n', '\n', '|', table);
    const block = fc.tuple(fc.constantFrom('', '', '- ', '2. ', '## '), fc.array(word, { maxLength: 6 }));
    const body = fc.array(
      block.map(([mark, words]) => mark + words.join('')),
      { maxLength: 5 },
    );
    fc.assert(
      fc.property(body, (blocks) => html(blocks.join('\n\n')) === byLibrary(blocks.join('\n\n'))),
      { numRuns: 200 },
    );
  });
});

describe('a body', () => {
  it('links to another entry by its file and comes out with its address', () => {
    expect(html('See [verditer](009-verditer.md#A).')).toBe('<p>See <a href="/journal/9/#A">verditer</a>.</p>');
  });
  it('has its headings below the title of the page, however deep they begin', () => {
    expect(html('# Done\n\n## Seen')).toBe('<h2>Done</h2>\n<h3>Seen</h3>');
    expect(html('### Done\n\n#### Seen')).toBe('<h2>Done</h2>\n<h3>Seen</h3>');
  });
  it('keeps the words of a link to what is not published', () => {
    expect(html('See [the *draft*](099-draft.md) and ![a photo](../photos/none.jpg).')).toContain(
      'See the <em>draft</em> and',
    );
  });
  it('shows in words what a picture that is not published would have shown, reference links too', () => {
    expect(html('![a photo](../photos/none.jpg)')).toBe('<p>a photo</p>');
    expect(html('See [the *draft*][d], [d], ![a photo][d].\n\n[d]: 099-draft.md')).toBe(
      '<p>See the <em>draft</em>, d, a photo.</p>',
    );
    expect(html('See [verditer][v].\n\n[v]: 009-verditer.md')).toContain('<a href="/journal/9/">verditer</a>');
  });
  it('has links to parts of pages, with their places, to be checked when the pages are there', () => {
    const own = (file: string) => (file === 'entries/014-malachite.md' ? '/journal/14/' : '/journal/9/');
    const { children, partLinks } = renderBody(
      'See [B](#B)\nand [A](009-verditer.md#caf%C3%A9).',
      context({ addressOf: own }),
    );
    expect(toHtml({ type: 'root', children })).toBe(
      '<p>See <a href="/journal/14/#B">B</a>\nand <a href="/journal/9/#caf%C3%A9">A</a>.</p>',
    );
    expect(partLinks).toEqual([
      { page: '/journal/14/', part: 'B', place: { file: 'entries/014-malachite.md', line: 20, column: 5 } },
      { page: '/journal/9/', part: 'café', place: { file: 'entries/014-malachite.md', line: 21, column: 5 } },
    ]);
  });
  it('shows a photograph of the journal at its address', () => {
    expect(
      html('![Two dishes](../photos/two.jpg)', {
        addressOf: (file) => (file === 'photos/two.jpg' ? '/journal/photos/two.jpg' : undefined),
      }),
    ).toBe('<p><img src="/journal/photos/two.jpg" alt="Two dishes"></p>');
  });
  it('has no heading over an empty corner of a table', () => {
    expect(html('| | b |\n|---|---|\n| 1 | 2 |')).toContain('<td></td>');
  });
  it('shows raw HTML as text, with a remark at its line of the file', () => {
    const { children, remarks } = renderBody(
      'One.\n\n<script>alert(1)</script>\n\nAnd <b onclick="x()">two</b>.',
      context(),
    );
    const out = toHtml({ type: 'root', children });
    expect(out).not.toMatch(/<script|<b/);
    expect(out).toContain('&#x3C;script>alert(1)&#x3C;/script>');
    expect(remarks.map(({ ruleId, line }) => [ruleId, line])).toEqual([
      ['raw-html', 22],
      ['raw-html', 24],
      ['raw-html', 24],
    ]);
    expect(remarks.every(({ note }) => note.length > 10)).toBe(true);
  });
  it('drops links that would run something, however they are spelt', () => {
    for (const url of [
      'javascript:alert(1)',
      'JaVaScRiPt:alert(1)',
      'data:text/html,x',
      'vbscript:x',
      'java&#x0A;script:alert(1)',
      '&#1;javascript:alert(1)',
    ]) {
      expect(html(`[x](${url}) ![y](${url}) <${url}>`), url).not.toMatch(/(href|src)="[^"]*(script|data):/i);
    }
  });
  it('takes values, formulae and swatches from the reckoning, a figure and its unit on one line', () => {
    expect(html('Yield :value[A.yield] of :chem[CuO], :swatch[A].')).toBe(
      '<p>Yield 91.2\u00a0±\u00a00.4\u00a0% of <span>CuO</span>, <svg class="swatch"></svg>.</p>',
    );
  });
  it('says which values there are when one is not known', () => {
    const { remarks } = renderBody('It is :value[B.yield].', context());
    expect(remarks).toHaveLength(1);
    expect(remarks[0]).toMatchObject({ ruleId: 'value', line: 20, column: 7, expected: ['A.yield'] });
  });
  it('leaves words that only look like a directive as they are', () => {
    expect(html('At 3:40 a ratio of 1:x, and :nonsense[here] too.')).toBe(
      '<p>At 3:40 a ratio of 1:x, and :nonsense[here] too.</p>',
    );
    expect(html('::note\n\n:::box\nwords\n:::')).toContain(':::box');
  });
  it('has footnotes whose links lead to their notes', () => {
    const out = html('A claim.[^1]\n\n[^1]: A source.');
    const target = /href="#([^"]+)"/.exec(out)?.[1];
    expect(out).toContain(`id="${target}"`);
  });
  it('has tables as GitHub writes them', () => {
    expect(html('| a | b |\n|---|--:|\n| 1 | 2 |')).toContain('<td align="right">2</td>');
  });
  it('never throws and never lets a script through, whatever is written', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.constantFrom(
            '<script>',
            '](javascript:',
            '![',
            ':chem[',
            ':::',
            '`',
            '|',
            '\n',
            '[^1]',
            '<img onerror=',
            'a',
            ' ',
            '#',
            '>',
            '"',
            '{onclick=x}',
            '\u0000',
            '\u202e',
          ),
          { maxLength: 40 },
        ),
        (parts) => {
          const out = html(parts.join(''));
          expect(out).not.toMatch(/<script|<img[^>]+onerror|<[a-z]+[^>]* on[a-z]+=|href="javascript/i);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('a relative link', () => {
  it('is worked out from the file that holds it', () => {
    expect(resolveLink('entries/a.md', 'b.md')).toBe('entries/b.md');
    expect(resolveLink('entries/a.md', '../photos/x.jpg')).toBe('photos/x.jpg');
    expect(resolveLink('entries/a.md', '../../../etc/passwd')).toBe('etc/passwd');
  });
});
