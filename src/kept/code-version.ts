// Which code this is: what was made by other code is not taken for what this code would make.
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { packageFolder } from '../package-folder.js';
import { buildOfModules } from '../put-together.js';
import { hashOf } from './inputs.js';

/** Files of a folder with size and time of writing: whoever builds or installs anew changes them. */
function* filesIn(folder: string): Iterable<string> {
  const all = readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1));
  for (const one of all) {
    // Joined by hand: there may be more than a thousand.
    const path = `${folder}${sep}${one.name}`;
    if (one.isDirectory()) yield* filesIn(path);
    else {
      const { size, mtimeMs } = statSync(path);
      yield `${path} ${size} ${mtimeMs}`;
    }
  }
}

/** The lists of installed libraries that lie above a folder. */
function installed(folder: string): string[] {
  const above = dirname(folder);
  const list = statSync(join(folder, 'node_modules', '.package-lock.json'), { throwIfNoEntry: false });
  const here = list ? [`${folder} ${list.size} ${list.mtimeMs}`] : [];
  return above === folder ? here : [...here, ...installed(above)];
}

let version: string | undefined;

/**
 * Changes with the code, its templates, tables, styles and libraries, with Node and with the language of the machine.
 */
export function codeVersion(): string {
  if (version === undefined) {
    // `dist/`, or the folder of the package where the sources run as they are.
    const built = fileURLToPath(new URL('../..', import.meta.url));
    const build = buildOfModules();
    const modules = build === undefined ? ['src', 'templates'] : ['prepared'];
    const folders = [...modules.map((name) => join(built, name)), join(packageFolder, 'public')];
    version = hashOf(
      process.version,
      process.versions.icu ?? '',
      Intl.Collator().resolvedOptions().locale,
      readFileSync(join(packageFolder, 'package.json'), 'utf8'),
      build ?? '',
      ...installed(packageFolder),
      ...folders.flatMap((folder) => [...filesIn(folder)]),
    );
  }
  return version;
}
