// What a site carries to be handed over: an RO-Crate, column metadata, schemas, a citation file, each held against the
// published text.
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { parse as parseCsv } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse as parseYaml } from 'yaml';
import { publish } from '../../src/site/publish.js';
import { citationText } from '../../src/site/citation-file.js';
import { openJournal } from '../../src/open.js';
import { demo } from '../browser/browser.js';
import { entry, folderOf, settings } from '../journal-folder.js';
import { crateFaults, type Entity } from './crate-rules.js';

const site = mkdtempSync(join(tmpdir(), 'masstone-handed-over-'));
afterAll(() => rmSync(site, { recursive: true, force: true }));
beforeAll(async () => {
  await publish(demo, { to: join(site, 'site'), search: false, threads: 0 });
}, 120_000);
const read = (path: string): string => readFileSync(join(site, 'site', path), 'utf8');

describe('the site as an RO-Crate 1.2 (https://w3id.org/ro/crate/1.2)', () => {
  it('keeps every MUST of the specification', () => {
    const has = (path: string): boolean => existsSync(join(site, 'site', path));
    expect(crateFaults(read('ro-crate-metadata.json'), has)).toEqual([]);
  });

  it('a crate that breaks them is found out', () => {
    const whole = read('ro-crate-metadata.json');
    const broken = (from: string, to: string): number => crateFaults(whole.replace(from, to), () => true).length;
    expect(broken('"datePublished"', '"published"')).toBeGreaterThan(0);
    expect(broken('"about":{"@id":"./"}', '"about":{"@id":"x"}')).toBeGreaterThan(0);
    expect(broken('{"@id":"14/"},', '')).toBeGreaterThan(0);
    expect(crateFaults(whole, (path) => path !== 'CITATION.cff')).toContain('CITATION.cff is not there');
  });

  it('describes each entry with its files and its values, with units by UCUM and QUDT', () => {
    const graph = (JSON.parse(read('ro-crate-metadata.json')) as { '@graph': Entity[] })['@graph'];
    const fourteen = graph.find((one) => one['@id'] === '14/')!;
    expect(fourteen).toMatchObject({ '@type': 'Dataset', name: 'Manganese violet, slow and fast' });
    const parts = (fourteen['hasPart'] as Entity[]).map((part) => part['@id']);
    expect(parts).toEqual(expect.arrayContaining(['14/index.html', 'spectra/014-A.csv', 'spectra/014-B.csv']));
    const obtained = graph.find((one) => one['@id'] === '#14-A-obtained');
    expect(obtained).toMatchObject({
      '@type': 'PropertyValue',
      value: 3.77,
      unitText: 'g',
      unitCode: 'http://qudt.org/vocab/unit/GM',
    });
    const software = graph.find((one) => [one['@type']].flat().includes('SoftwareApplication'));
    expect(software).toMatchObject({ name: 'Masstone', version: expect.stringMatching(/^\d+\.\d+\.\d+/) });
  });

  it('names its author by ORCID iD, and instruments with what they read', async () => {
    const matter =
      'samples: [{ sample: A, obtained: 1.00 g, colour: { lab: [50, 0, 0], instrument: "Bench reader, no. 2" } }]\n';
    const folder = folderOf({
      'j/journal.yaml': `${settings}orcid: 0000-0002-1825-0097\n`,
      'j/shelf.yaml': '{}',
      'j/entries/001-one.md': entry(1, matter),
    });
    await publish(join(folder, 'j'), { to: join(folder, 's'), search: false, threads: 0 });
    const text = readFileSync(join(folder, 's/ro-crate-metadata.json'), 'utf8');
    expect(crateFaults(text, (path) => existsSync(join(folder, 's', path)))).toEqual([]);
    const graph = (JSON.parse(text) as { '@graph': Entity[] })['@graph'];
    expect(graph).toContainEqual({
      '@id': 'https://orcid.org/0000-0002-1825-0097',
      '@type': 'Person',
      name: 'A tester',
    });
    const reading = graph.find((one) => one['@type'] === 'CreateAction' && String(one['name']).startsWith('Colour'));
    expect(reading).toMatchObject({ instrument: { '@id': '#instrument-bench-reader%2C-no.-2' } });
    // Without a licence the crate says so in words, which the specification allows.
    expect(graph.find((one) => one['@id'] === './')!['license']).toMatch(/all rights/i);
  });
});

describe('columns of samples.csv (CSV on the Web, W3C Recommendation 2015)', () => {
  const metadata = () =>
    JSON.parse(read('data/samples.csv-metadata.json')) as {
      '@context': unknown;
      url: string;
      tableSchema: {
        columns: { name: string; titles: string; datatype: string; required: boolean; 'dc:description': string }[];
        primaryKey: string[];
      };
    };
  const rows = () => parseCsv(read('data/samples.csv'), { columns: true }) as Record<string, string>[];

  it('are all described, in their order, with names that a column may have', () => {
    const { '@context': context, url, tableSchema } = metadata();
    expect([context].flat()[0]).toBe('http://www.w3.org/ns/csvw');
    expect(url).toBe('samples.csv');
    expect(tableSchema.columns.map(({ titles }) => titles)).toEqual(Object.keys(rows()[0]!));
    for (const column of tableSchema.columns) {
      // Metadata Vocabulary for Tabular Data, 5.6: a name is a variable of a URI template and does not begin with _.
      expect(column.name).toMatch(/^[A-Za-z0-9][A-Za-z0-9_.%]*$/);
      expect(column['dc:description'].length).toBeGreaterThan(3);
    }
  });
  it('hold what their datatypes say, and the primary key is one', () => {
    const { tableSchema } = metadata();
    const kinds: Record<string, RegExp> = {
      integer: /^[+-]?\d+$/,
      decimal: /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)$/,
      date: /^\d{4}-\d{2}-\d{2}$/,
      string: /^/,
    };
    for (const { name, datatype, required } of tableSchema.columns)
      for (const row of rows()) {
        const cell = row[name]!;
        expect(cell === '' ? !required : kinds[datatype]!.test(cell), `${name}: ${cell}`).toBe(true);
      }
    const keys = rows().map((row) => tableSchema.primaryKey.map((key) => row[key]).join('/'));
    expect(new Set(keys).size).toBe(keys.length);
  });
  it('are there where a journal has no samples', async () => {
    const folder = folderOf({
      'j/journal.yaml': settings,
      'j/shelf.yaml': '{}',
      'j/entries/001-one.md': entry(1),
    });
    await publish(join(folder, 'j'), { to: join(folder, 's'), search: false, threads: 0 });
    expect(readFileSync(join(folder, 's/data/samples.csv'), 'utf8').trim()).toBe(
      metadata()
        .tableSchema.columns.map(({ name }) => name)
        .join(','),
    );
  });
});

describe('entries.json', () => {
  const validate = () => new Ajv2020({ allErrors: true }).compile(JSON.parse(read('data/entries.schema.json')));
  it('is of the shape that its JSON Schema tells', () => {
    const check = validate();
    expect([check(JSON.parse(read('data/entries.json'))), check.errors]).toEqual([true, null]);
  });
  it('an entry without its number, with a figure that is none, or with a strange key is not', () => {
    const check = validate();
    const entries = () => JSON.parse(read('data/entries.json')) as Record<string, any>[];
    const [first, ...others] = entries();
    expect(check([{ ...first, number: undefined }, ...others])).toBe(false);
    expect(check([{ ...first, nmber: 1 }])).toBe(false);
    const changed = entries();
    changed.find((one) => one['number'] === 14)!['reckoned'].amounts.samples[0].percentYield.value = 'much';
    expect(check(changed)).toBe(false);
  });
});

// Citation File Format 1.2.0, https://citation-file-format.github.io/1.2.0/schema: keys, required keys and patterns of
// its JSON Schema, of which these are the ones that a dataset can have.
const citationSchema = {
  type: 'object',
  additionalProperties: false,
  required: ['authors', 'cff-version', 'message', 'title'],
  properties: {
    abstract: { type: 'string', minLength: 1 },
    authors: {
      type: 'array',
      minItems: 1,
      uniqueItems: true,
      items: {
        type: 'object',
        additionalProperties: false,
        required: ['name'],
        properties: {
          name: { type: 'string', minLength: 1 },
          orcid: { type: 'string', pattern: 'https://orcid\\.org/[0-9]{4}-[0-9]{4}-[0-9]{4}-[0-9]{3}[0-9X]{1}' },
        },
      },
    },
    'cff-version': { type: 'string', pattern: '^1\\.2\\.0$' },
    'date-released': { type: 'string', pattern: '^[0-9]{4}-(0[1-9]|1[012])-(0[1-9]|[12][0-9]|3[01])$' },
    license: { enum: ['CC-BY-4.0', 'CC-BY-SA-4.0', 'CC-BY-NC-4.0', 'CC-BY-NC-SA-4.0', 'CC-BY-ND-4.0', 'CC0-1.0'] },
    'license-url': { type: 'string', pattern: '^(https|http|ftp|sftp)://.+' },
    message: { type: 'string', minLength: 1 },
    title: { type: 'string', minLength: 1 },
    type: { enum: ['dataset', 'software'] },
    url: { type: 'string', pattern: '^(https|http|ftp|sftp)://.+' },
  },
};

describe('CITATION.cff', () => {
  const check = new Ajv2020({ allErrors: true }).compile(citationSchema);
  it('is of the published format', () => {
    const citation = parseYaml(read('CITATION.cff')) as Record<string, unknown>;
    expect([check(citation), check.errors]).toEqual([true, null]);
    expect(citation).toMatchObject({ title: 'Copperas Lane', license: 'CC-BY-4.0', type: 'dataset' });
  });
  it.each([
    'title: "Reds: a journal"',
    "title: '#1 & only'",
    'title: "yes"',
    'title: "1.0"',
    'description: "- a list?\\n\\nor: not"',
    'licence-url: https://host.example/terms',
    'orcid: 0000-0002-1825-0097',
  ])('takes settings as they are: %s', async (line) => {
    const title = line.startsWith('title') ? settings.replace(/^title.*$/m, line) : `${settings}${line}\n`;
    const folder = folderOf({ 'journal.yaml': title, 'shelf.yaml': '{}', 'entries/001-one.md': entry(1) });
    const { model } = await openJournal(folder);
    const citation = parseYaml(citationText(model!)) as Record<string, unknown>;
    expect([check(citation), check.errors]).toEqual([true, null]);
    expect(citation['title']).toBe(model!.journal.settings.title);
  });
});

it('a page of data names every file of it', () => {
  const page = read('data/index.html');
  for (const name of ['samples.csv-metadata.json', 'entries.schema.json', 'samples.csv']) expect(page).toContain(name);
  expect(statSync(join(site, 'site/data/samples.csv-metadata.json')).size).toBeGreaterThan(1000);
});
