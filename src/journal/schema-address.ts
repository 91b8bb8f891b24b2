// Where an editor finds the format's JSON Schema, as seen from a file of a journal.
import { existsSync } from 'node:fs';
import { dirname, isAbsolute, join, relative, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { packageFolder } from '../package-folder.js';
import type { SchemaName } from './json-schema.js';

/** From the package's folder; the folder in which a journal finds it may be a link to that. */
const schemaFile = (name: SchemaName): string => join('public', 'schema', `${name}.schema.json`);

/** The folder and those above it, the nearest first. */
function upwards(folder: string): string[] {
  const above = dirname(folder);
  return above === folder ? [folder] : [folder, ...upwards(above)];
}

/**
 * The address of a schema for a file: a path relative to the file where the package is installed beside or above the
 * journal, or the journal lies in the package's own folder; else the address of the installed package on this machine.
 * @param file absolute path of the file that will name it
 * @param installed the package's folder
 * @example schemaAddress('shelf', '/home/me/pigments/shelf.yaml')
 *   // '../node_modules/masstone/public/schema/shelf.schema.json' …
 */
export function schemaAddress(name: SchemaName, file: string, installed: string = packageFolder): string {
  const folder = dirname(resolve(file));
  const inPackage = relative(installed, folder);
  const near =
    inPackage.startsWith('..') || isAbsolute(inPackage)
      ? upwards(folder)
          .map((above) => join(above, 'node_modules', 'masstone', schemaFile(name)))
          .find((path) => existsSync(path))
      : join(installed, schemaFile(name));
  if (near === undefined) return pathToFileURL(join(installed, schemaFile(name))).href;
  const path = relative(folder, near).replaceAll('\\', '/');
  return path.startsWith('.') ? path : `./${path}`;
}

/** The comment by which editors with a YAML language server find the schema of a file. */
export const schemaLine = (name: SchemaName, file: string): string =>
  `# yaml-language-server: $schema=${schemaAddress(name, file)}`;
