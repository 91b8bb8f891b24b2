// The address of the format's schema, as an editor takes it: relative to the file that names it, or of the installed
// package.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, test } from 'vitest';
import { schemaAddress } from '../../src/journal/schema-address.js';
import { folderOf } from '../journal-folder.js';

/** A package as it is installed in a folder. */
function installedIn(folder: string): string {
  const place = join(folder, 'node_modules', 'masstone');
  mkdirSync(join(place, 'public', 'schema'), { recursive: true });
  for (const name of ['entry', 'shelf', 'journal'])
    writeFileSync(join(place, 'public/schema', `${name}.schema.json`), '{}');
  return place;
}

test('where the package is installed in a folder above, the path is relative and can move with the folder', () => {
  const folder = folderOf({});
  const installed = installedIn(folder);
  expect(schemaAddress('shelf', join(folder, 'pigments/shelf.yaml'), installed)).toBe(
    '../node_modules/masstone/public/schema/shelf.schema.json',
  );
  expect(schemaAddress('entry', join(folder, 'pigments/entries/001-x.md'), installed)).toBe(
    '../../node_modules/masstone/public/schema/entry.schema.json',
  );
});

test('in the journal’s own folder it begins with ./', () => {
  const folder = folderOf({});
  expect(schemaAddress('journal', join(folder, 'journal.yaml'), installedIn(folder))).toBe(
    './node_modules/masstone/public/schema/journal.schema.json',
  );
});

test('a journal in the package’s own folder finds it there', () => {
  const folder = folderOf({});
  expect(schemaAddress('shelf', join(folder, 'content/shelf.yaml'), folder)).toBe('../public/schema/shelf.schema.json');
  expect(schemaAddress('shelf', join(folder, 'shelf.yaml'), folder)).toBe('./public/schema/shelf.schema.json');
});

test('elsewhere it is the address of the installed package, escaped as addresses are', () => {
  const installed = join(folderOf({}), 'global modules', 'masstone');
  expect(schemaAddress('entry', join(folderOf({}), 'entries/001-x.md'), installed)).toBe(
    pathToFileURL(join(installed, 'public/schema/entry.schema.json')).href,
  );
  expect(schemaAddress('entry', join(`${installed}-of-mine`, 'shelf.yaml'), installed)).toMatch(
    /^file:.*global%20modules/,
  );
});
