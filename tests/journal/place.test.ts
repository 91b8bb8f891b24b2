// Every value of an entry can be found again in its file.
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { isMap, isSeq, LineCounter, parseDocument, type Node } from 'yaml';
import { placeInBody, placeInFile, placeOf, readEntry, type Path } from '../../src/journal/index.js';
import { entryOf } from './folder.js';

const text = entryOf(
  1,
  'reagents:\n  - reagent: { name: soda, formula: Na2CO3 }\n    amount: "5.00 g" # weighed\nwaste: >-\n  First ' +
    'line\n  second line\nideas: [one, two]\nquestion:',
  'Body\n',
);
const { entry } = readEntry('entries/001-x.md', text);
const at = (path: Path, kind?: 'key' | 'value') => {
  const { line, column } = placeOf(entry!, path, kind);
  return `${line}:${column}`;
};

describe('the place of a value', () => {
  test.each<[Path, string]>([
    [['number'], '2:9'],
    [['reagents', 0], '7:5'],
    [['reagents', 0, 'reagent'], '7:14'],
    [['reagents', 0, 'reagent', 'formula'], '7:37'],
    [['reagents', 0, 'amount'], '8:13'],
    [['waste'], '9:8'],
    [['ideas', 1], '12:14'],
    [['question'], '13:1'],
  ])('%j is at %s', (path, place) => expect(at(path)).toBe(place));

  test.each<[Path, string]>([
    [['ideas'], '12:1'],
    [['reagents', 0, 'amount'], '8:5'],
  ])('the key of %j is at %s', (path, place) => expect(at(path, 'key')).toBe(place));

  test('a path that leads nowhere gives the nearest thing above it', () => {
    expect(at(['reagents', 0, 'strength'])).toBe('7:5');
    expect(at(['reagents', 4, 'amount'])).toBe('7:3');
    expect(at(['samples', 0])).toBe('2:1');
    expect(at([])).toBe('2:1');
  });

  test('lists at the margin, quoted keys, comments, folded text and brackets over several lines do not mislead', () => {
    const odd = [
      'a:',
      '- x: 1',
      '# comment',
      '- x: 2',
      '  y: >',
      '    b: not a key',
      '"c d": 3',
      'e: [',
      '  1,',
      '  2',
      ']',
      'f: "two',
      '  lines: here"',
      'ee: 5',
      'g: { h: 6 }',
    ].join('\n');
    const place = (path: Path, kind?: 'key') => {
      const { line, column } = placeInFile('x.yaml', odd, path, kind);
      return `${line}:${column}`;
    };
    expect([
      place(['a', 1, 'x']),
      place(['a', 1, 'y'], 'key'),
      place(['c d']),
      place(['e', 1]),
      place(['f']),
      place(['ee']),
      place(['g', 'h']),
      place(['b']),
      place(['lines']),
    ]).toEqual(['4:6', '5:3', '7:8', '10:3', '12:4', '14:5', '15:9', '1:1', '1:1']);
  });

  test('an item of a list is found among its own lines, whatever stands in the items before it', () => {
    const list = [
      'a: # note',
      '',
      '  # more',
      '  - x: 1',
      '',
      '  - |',
      '    - not an item',
      '  - "one',
      '    - two"',
      '  -',
      '    y: [1,',
      '      2]',
      '  - - 3',
      '    - 4',
      'b: [',
      '  5, 6]',
    ].join('\n');
    const place = (path: Path) => {
      const { line, column } = placeInFile('x.yaml', list, path);
      return `${line}:${column}`;
    };
    expect([
      place(['a', 0, 'x']),
      place(['a', 1]),
      place(['a', 2]),
      place(['a', 3, 'y', 1]),
      place(['a', 4, 1]),
      place(['a', 9]),
      place(['b', 1]),
    ]).toEqual(['4:8', '6:5', '8:5', '12:7', '14:7', '4:3', '16:6']);
  });

  test('in a body and in a file of YAML alone', () => {
    expect(placeInBody(entry!, { line: 1, column: 3 })).toEqual({
      file: 'entries/001-x.md',
      line: entry!.bodyLine,
      column: 3,
    });
    expect(placeInFile('shelf.yaml', 'a:\n  name: x\n', ['a', 'name'])).toEqual({
      file: 'shelf.yaml',
      line: 2,
      column: 9,
    });
    expect(placeInFile('shelf.yaml', '', ['a'])).toEqual({ file: 'shelf.yaml', line: 1, column: 1 });
  });

  // The places are those of the library, by its own tree of the whole text (https://eemeli.org/yaml, Node.range).
  test.each(['content', 'tests/reference/notebook', 'tests/reference/notebook-2', 'tests/reference/notebook-3'])(
    'in %s every value and key stands where a parser of the whole text finds it',
    (journal) => {
      let looked = 0;
      for (const name of readdirSync(`${journal}/entries`).filter((one) => one.endsWith('.md'))) {
        const matter = /^---\n([^]*?)\n---/.exec(readFileSync(`${journal}/entries/${name}`, 'utf8'))?.[1] ?? '';
        const lines = new LineCounter();
        const look = (path: Path, kind: 'key' | 'value', node: unknown): void => {
          const { line, col } = lines.linePos((node as Node).range![0]);
          const place = placeInFile(name, matter, path, kind);
          expect([place.line, place.column], `${name} ${kind} ${path.join('.')}`).toEqual([line, col]);
          looked += 1;
        };
        const walk = (node: unknown, path: Path): void => {
          if (isSeq(node))
            for (const [index, item] of node.items.entries()) {
              look([...path, index], 'value', item);
              walk(item, [...path, index]);
            }
          if (!isMap(node)) return;
          for (const { key, value } of node.items) {
            const here = [...path, String(key)];
            look(here, 'key', key);
            // What is left empty stands where its key does.
            if (value && String(value) !== '') look(here, 'value', value);
            walk(value, here);
          }
        };
        const document = parseDocument(matter, { lineCounter: lines, schema: 'failsafe', uniqueKeys: false });
        if (document.errors.length === 0) walk(document.contents, []);
      }
      expect(looked).toBeGreaterThan(200);
    },
  );

  test('every text and number of the demonstration journal stands where its place says', () => {
    let looked = 0;
    for (const name of readdirSync('content/entries').filter((one) => one.endsWith('.md'))) {
      const source = readFileSync(`content/entries/${name}`, 'utf8');
      const lines = source.split('\n');
      const read = readEntry(`entries/${name}`, source).entry;
      const lookAt = (value: string, path: Path): void => {
        const place = placeOf(read!, path);
        const here = (lines[place.line - 1] ?? '').slice(place.column - 1);
        // A default stands nowhere; a folded text begins on the next line.
        if ((path.at(-1) === 'of' && !here.startsWith(value)) || /^[>|]/.test(here)) return;
        expect(here.replace(/^["']/, '').startsWith(value.slice(0, 5)), `${name} ${path.join('.')} ${here}`).toBe(true);
        looked += 1;
      };
      const look = (value: unknown, path: Path): void => {
        if (typeof value === 'string') lookAt(value, path);
        else if (Array.isArray(value)) for (const [index, one] of value.entries()) look(one, [...path, index]);
        else if (typeof value === 'object' && value !== null)
          for (const [key, one] of Object.entries(value)) look(one, [...path, key]);
      };
      const {
        file: _file,
        matter: _matter,
        matterLine: _matterLine,
        body: _body,
        bodyLine: _bodyLine,
        ...matter
      } = read!;
      look(matter, []);
    }
    expect(looked).toBeGreaterThan(200);
  });
});
