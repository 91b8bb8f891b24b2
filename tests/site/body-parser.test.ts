// Bodies are parsed with the parts of the grammar they can use: the tree is the one that the whole grammar makes.
import { readFileSync, readdirSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import remarkDirective from 'remark-directive';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { describe, expect, test } from 'vitest';
import { parseBody } from '../../src/site/body-parser.js';

const whole = unified().use(remarkParse).use(remarkGfm).use(remarkDirective).freeze();

describe('a body parsed with the parts it can use', () => {
  test.each([
    'a | b\n- | -\n1 | 2',
    'a\n:-\n1',
    'a\n-:',
    'a\n-',
    '~~gone~~',
    '- [ ] open\n- [x] done\n- [X] done\n- [\n  ] odd\n- [\t] tab',
    'See[^1].\n\n[^1]: There.',
    'www.example.com, https://example.com/a_b, HTTP://EXAMPLE.COM and a@example.com',
    'http&#58;//example.com',
    'http\\://example.com',
    'w&#119;w.example.com',
    'a&commat;example.com',
    ':chem[CuO]',
    '::leaf[x]{#y}',
    ':::box\ninside\n:::',
    'ratio 1:x',
    'at 12:30',
    ':é',
    ':_a',
    'a:\nb',
  ])('%j is the same tree', (markdown) => expect(parseBody(markdown)).toEqual(whole.parse(markdown)));

  test('any text is the same tree', () => {
    const piece = fc.constantFrom(
      'a',
      'x',
      ' ',
      '\n',
      '\n\n',
      '- ',
      '> ',
      '# ',
      '|',
      ':-',
      '-:',
      '---',
      '~',
      '~~',
      '[',
      ']',
      '[^',
      '[x]',
      '[ ]',
      '(',
      ')',
      ':',
      '::',
      ':::',
      '{',
      '}',
      'www.',
      'http://',
      'HTTPS://',
      '@',
      'b.c',
      '&',
      '&amp;',
      '&#58;',
      '\\',
      '`',
      '*',
      '_',
      '<',
      '>',
      '!',
      '1',
      '.',
      '\t',
      'é',
    );
    fc.assert(
      fc.property(
        fc.array(piece, { maxLength: 24 }).map((pieces) => pieces.join('')),
        (markdown) => {
          expect(parseBody(markdown)).toEqual(whole.parse(markdown));
        },
      ),
      { numRuns: 3000 },
    );
  });

  test('any text of common blocks is the same tree', () => {
    const words = fc.constantFrom(
      'a',
      'wet ',
      ' ',
      '\n',
      'one two',
      '2 g',
      '1. ',
      '12',
      ':value[A.yield]',
      ':chem[CuSO4·5H2O]',
      ':moment[3:40]',
      ':swatch[A]{#a}',
      ':chem[Cu2[Fe(CN)6]]',
      ':chem[Fe4[Fe](CN)]',
      ':chem[Fe[](a)',
      '[green](004-green.md)',
      '[green](004_green.md#a "Green")',
      '[a](b)',
      '![a](b.jpg)',
      '*wet*',
      '**wet**',
      '*a',
      'b*',
      '**',
      '*1 2*',
      '(',
      ')',
      '. ',
      ',',
      ':',
      ': ',
      '::',
      '!',
      '#',
      '## ',
      '{',
      '|',
      '| ',
      'www.a.b',
      '“',
      ' *',
      '* ',
      '-',
      '=',
      '~',
      '_',
      ']',
      '\u2028',
      '\u00a0',
      '𝛥',
    );
    const line = fc.array(words, { maxLength: 6 }).map((all) => all.join(''));
    const cells = fc.array(line, { minLength: 1, maxLength: 3 }).map((all) => `| ${all.join(' | ')} |`);
    const delimiter = fc
      .array(fc.constantFrom('---', ':-', '-:', ':-:', '-', ' '), { minLength: 1, maxLength: 3 })
      .map((all) => `|${all.join('|')}|`);
    const block = fc.oneof(
      line,
      line.map((one) => `## ${one}`),
      fc.tuple(line, line).map((both) => both.join('\n')),
      fc.tuple(cells, delimiter, cells).map((rows) => rows.join('\n')),
      line.map((one) => `- ${one}`),
      fc.array(line, { minLength: 1, maxLength: 3 }).map((all) => all.map((one) => `- ${one}`).join('\n')),
      fc.array(line, { minLength: 1, maxLength: 3 }).map((all) => all.map((one, at) => `${at + 2}. ${one}`).join('\n')),
      line.map((one) => `  ${one}`),
      line.map((one) => `> ${one}`),
      fc.constantFrom(
        'Plain words.',
        'Plain words.',
        '- one\n- two',
        '1. one',
        '1) one',
        '    code',
        '***',
        '```',
        '<div>',
        '[a]: b',
        '[^1]: c',
        '',
        ' ',
        '\t',
      ),
    );
    const body = fc
      .tuple(
        fc.array(block, { maxLength: 6 }),
        fc.constantFrom('\n\n', '\n \n', '\n'),
        fc.constantFrom('', '\n', '\n\n '),
      )
      .map(([blocks, between, end]) => blocks.join(between) + end);
    fc.assert(
      fc.property(body, (markdown) => isDeepStrictEqual(parseBody(markdown), whole.parse(markdown))),
      { numRuns: 1500 },
    );
  });

  test('the demonstration’s bodies are the same trees', () => {
    const folder = new URL('../../content/entries/', import.meta.url);
    const bodies = readdirSync(folder).map((name) =>
      readFileSync(new URL(name, folder), 'utf8').replace(/^---\n[\s\S]*?\n---\n/, ''),
    );
    expect(bodies.length).toBeGreaterThan(20);
    for (const body of bodies) expect(parseBody(body)).toEqual(whole.parse(body));
  });
});
