// Code that the build has put together in few files, with what Node compiled of it (`.config/publication.mjs`). Loading
// some four hundred modules one by one takes most of a second, in every thread.
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { once } from './once.js';
import { packageFolder } from './package-folder.js';

const folder = join(packageFolder, 'dist', 'publication');

/** What was put together: from which modules, and when one of them had been compiled. */
export interface MadeOf {
  readonly hash: string;
  readonly compiledAt: number;
}

const compiled = ['src', 'templates'].map((name) => join(packageFolder, 'dist', name));

/** Hash of all compiled modules. */
function hashOfModules(): string {
  const hash = createHash('sha256');
  for (const from of compiled)
    for (const path of readdirSync(from, { recursive: true, encoding: 'utf8' }).sort())
      if (path.endsWith('.js')) hash.update(`${path}\n`).update(readFileSync(join(from, path)));
  return hash.digest('hex');
}

/** The compiler writes all modules, so that one of them tells when it ran. */
const compiledAt = (): number => statSync(join(compiled[0]!, 'put-together.js')).mtimeMs;

/** For the build. */
export const madeOfNow = (): MadeOf => ({ hash: hashOfModules(), compiledAt: compiledAt() });

const madeOfFile = join(folder, 'made-of.json');

/** Whether it was made of the modules that are there, which may have been compiled, copied or unpacked since. */
function isOfThese(): boolean {
  const madeOf = JSON.parse(readFileSync(madeOfFile, 'utf8')) as MadeOf;
  return madeOf.compiledAt === compiledAt() || madeOf.hash === hashOfModules();
}

/** Whether the modules are compiled, and are those that were put together. */
const isHere = once((): boolean => {
  // The sources, run as they are, may be newer.
  const isCompiled = fileURLToPath(import.meta.url).startsWith(join(packageFolder, 'dist') + sep);
  try {
    return isCompiled && isOfThese();
  } catch {
    return false;
  }
});

/** What tells all compiled modules from those of another build; undefined where they may be others. */
export function buildOfModules(): string | undefined {
  if (!isHere()) return undefined;
  return `${readFileSync(madeOfFile, 'utf8')} ${statSync(madeOfFile).mtimeMs}`;
}

interface Loader {
  readonly load: (file: string) => unknown;
}

let loader: Loader | undefined;

function loaderHere(): Loader | undefined {
  if (!isHere()) return undefined;
  try {
    return createRequire(import.meta.url)(join(folder, 'loader.cjs')) as Loader;
  } catch {
    return undefined;
  }
}

/**
 * What a module exports, put together with all that it needs; undefined where that is not at hand or is of other code.
 */
export function putTogether<Exports>(name: string): Exports | undefined {
  loader ??= loaderHere();
  return loader?.load(`./${name}.cjs`) as Exports | undefined;
}
