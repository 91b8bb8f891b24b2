// The two parsers of YAML agree wherever the quick one is trusted; what is quick is also right.
import { readFileSync, readdirSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseDocument, stringify } from 'yaml';
import { JarsAtHand, readShelf } from '../../src/journal/yaml-file.js';
import { readYaml, yamlOptions } from '../../src/journal/yaml.js';

const byYaml = (text: string): unknown => {
  const document = parseDocument(text, yamlOptions);
  return document.errors.length > 0 ? 'refused' : normal(document.toJS({ maxAliasCount: 50 }));
};
/** Both say "nothing" in their own way. */
function normal(value: unknown): unknown {
  if (value === null || value === '') return null;
  if (Array.isArray(value)) return value.map(normal);
  if (typeof value !== 'object') return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, normal(one)]));
}

describe('the quick parser and the one that knows places agree', () => {
  test('on every entry, the shelf and the settings of the demonstration journal', () => {
    const texts = readdirSync('content/entries')
      .filter((name) => name.endsWith('.md'))
      .map((name) => readFileSync(`content/entries/${name}`, 'utf8').split(/^---$/m)[1] ?? '');
    texts.push(readFileSync('content/shelf.yaml', 'utf8'), readFileSync('content/journal.yaml', 'utf8'));
    expect(texts.length).toBeGreaterThan(3);
    for (const text of texts) {
      const reading = readYaml(text);
      expect(reading).toMatchObject({ ok: true });
      expect(reading.ok && normal(reading.value)).toEqual(byYaml(text));
    }
  });

  const key = fc.stringMatching(/^[a-z][a-z-]{0,8}$/);
  const words = fc.oneof(
    fc.string({ maxLength: 30 }),
    fc.string({ unit: 'grapheme', maxLength: 12 }),
    fc.constantFrom(
      '2.00 g',
      '60 °C',
      'a: b',
      '# x',
      '- y',
      '[z',
      '{',
      "it's",
      '"',
      'null',
      '~',
      'yes',
      '1e3',
      '0x1F',
      '2026-01-01',
      '3:40',
      '5 % of',
      '@home',
      '!x',
      '&a',
      '*b',
      '|',
      '>',
      'a\nb',
      ' lead',
      'trail ',
      '',
    ),
  );
  const { tree } = fc.letrec((tie) => ({
    tree: fc.oneof(
      { depthSize: 'small', withCrossShrink: true },
      words,
      fc.array(tie('tree'), { maxLength: 4 }),
      fc.dictionary(key, tie('tree'), { maxKeys: 5 }),
    ),
  }));

  test('on whatever a program writes as YAML', () => {
    fc.assert(
      fc.property(fc.dictionary(key, tree, { maxKeys: 6 }), fc.boolean(), (data, flow) => {
        const text = stringify(data, { collectionStyle: flow ? 'flow' : 'any', aliasDuplicateObjects: false });
        const reading = readYaml(text);
        expect(reading.ok && normal(reading.value)).toEqual(byYaml(text));
        expect(reading.ok && normal(reading.value)).toEqual(normal(data));
      }),
      { numRuns: 400 },
    );
  });

  test('on text as people write it, wherever both can read it', () => {
    const piece = fc.constantFrom(
      'a',
      'b: ',
      ': ',
      '- ',
      '\n',
      '\n  ',
      '\n    ',
      '[',
      ']',
      '{',
      '}',
      ', ',
      '"',
      "'",
      '# c',
      ' ',
      '|',
      '>',
      '2.00 g',
      '%',
      '?',
      'é',
      '\\',
      'x:y',
      '--',
      '\r\n',
      '! ',
      '& ',
    );
    let both = 0;
    fc.assert(
      fc.property(
        fc.array(piece, { maxLength: 14 }).map((parts) => `k: ${parts.join('')}`),
        (text) => {
          const reading = readYaml(text);
          const other = byYaml(text);
          if (!reading.ok || other === 'refused') return;
          both += 1;
          expect(normal(reading.value)).toEqual(other);
        },
      ),
      { numRuns: 3000 },
    );
    expect(both).toBeGreaterThan(300);
  });
});

describe('what is not read', () => {
  const rule = (text: string, limit?: number) => {
    const reading = readYaml(text, limit);
    return reading.ok ? 'read' : reading.faults[0]?.rule;
  };
  test('aliases that repeat far more than they say', () => {
    const bomb = [
      'a: &a [x, x, x, x, x, x, x, x, x]',
      ...[...'bcdefgh'].map((name, index) => `${name}: &${name} [${Array(9).fill(`*${'abcdefg'[index]}`).join(', ')}]`),
    ].join('\n');
    expect(rule(bomb)).toBe('yaml-aliases');
  });
  test('a few aliases are fine', () => {
    expect(readYaml('a: &a 5.00 g\nb: *a')).toEqual({ ok: true, value: { a: '5.00 g', b: '5.00 g' } });
  });
  test('an alias of itself', () => expect(rule('a: &a [*a]')).toMatch(/^yaml/));
  test('lists in lists in lists', () => {
    expect(rule(`a: ${'['.repeat(50_000)}`)).toBe('yaml-depth');
    expect(rule(`a: ${'['.repeat(30)}${']'.repeat(30)}`)).toBe('yaml-depth');
    expect(rule('- '.repeat(50_000))).toBe('yaml-depth');
    expect(rule(Array.from({ length: 400 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n'))).toBe('yaml-depth');
  });
  test('more text than is meant', () => {
    expect(rule(`a: ${'x'.repeat(200_000)}`)).toBe('yaml-size');
    expect(rule(`a: ${'x'.repeat(200_000)}`, 512 * 1024)).toBe('read');
  });
  test('keys of the language itself are keys like others, and change nothing', () => {
    const reading = readYaml('__proto__: { polluted: yes }\nconstructor: x');
    expect(reading.ok && Object.keys(reading.value as object)).toEqual(['__proto__', 'constructor']);
    expect(({} as { polluted?: string }).polluted).toBeUndefined();
  });
});

describe('hostile text of the greatest length that is read is answered, and nothing hangs', () => {
  test.each([
    ['a: ', 'yaml'],
    ['"', 'yaml'],
    ['&a ', 'yaml'],
    ['\n', 'read'],
    ['? ', 'yaml-depth'],
    ['*a ', 'yaml'],
    ['{}', 'yaml'],
    ['- ', 'yaml-depth'],
    [': ', 'yaml-depth'],
    ['a: |\n', 'duplicate-key'],
    ['[],', 'yaml'],
    ['{a: ', 'yaml-depth'],
    ['!a ', 'yaml'],
    ['# \n', 'read'],
    ['a: b\n', 'duplicate-key'],
    ['? a\n', 'duplicate-key'],
    ['"a": ', 'yaml'],
  ])('%j over and over: %s', (piece, expected) => {
    const reading = readYaml(piece.repeat(Math.floor((128 * 1024) / piece.length)));
    expect(reading.ok ? 'read' : reading.faults[0]?.rule).toBe(expected);
  });
});

describe('jars of a shelf that are read one by one', () => {
  const shelves = ['content', 'tests/reference/notebook', 'tests/reference/notebook-2', 'tests/reference/notebook-3'];

  test.each(shelves)('%s: each is what the whole shelf has', (folder) => {
    const text = readFileSync(`${folder}/shelf.yaml`, 'utf8');
    const { reagents } = readShelf('shelf.yaml', text).shelf;
    const jars = new JarsAtHand('shelf.yaml', text);
    expect(reagents.size).toBeGreaterThan(3);
    for (const [id, jar] of reagents) expect(jars.get(id), id).toEqual(jar);
    for (const [id, jar] of reagents) {
      const called = new JarsAtHand('shelf.yaml', text).called([jar.name.toUpperCase()]);
      expect(called.get(id), jar.name).toEqual(jar);
    }
    expect([...jars]).toEqual([...reagents]);
    expect(jars.get('no-such-jar')).toBeUndefined();
  });

  test.each([
    ['a key that nobody knows', 'good: { name: chalk }\nbad: { name: soda, colur: white }'],
    ['a name that is missing', 'good: { name: chalk }\nbad: { formula: NaCl }'],
    ['an id with a space', 'good: { name: chalk }\nbad one: { name: soda }'],
    ['a list instead of jars', '- name: chalk'],
    ['nothing', ''],
    ['no YAML', 'good: { name: chalk'],
  ])('is the whole shelf as it is understood with %s', (_, text) => {
    const { reagents } = readShelf('shelf.yaml', text).shelf;
    for (const id of ['good', 'bad', 'bad one'])
      expect(new JarsAtHand('shelf.yaml', text).get(id), id).toEqual(reagents.get(id));
    expect([...new JarsAtHand('shelf.yaml', text)]).toEqual([...reagents]);
    expect(new JarsAtHand('shelf.yaml', text).called(['chalk']).get('good')).toEqual(reagents.get('good'));
  });
});
