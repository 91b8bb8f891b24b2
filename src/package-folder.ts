// Where the package lies, for what is read from its own files.
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Folder that holds package.json, whether the code runs from src/ or from dist/. */
export const packageFolder: string = (() => {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json'))) folder = dirname(folder);
  return folder;
})();

/** Version of this package. */
export const softwareVersion = (): string =>
  (JSON.parse(readFileSync(join(packageFolder, 'package.json'), 'utf8')) as { version: string }).version;
