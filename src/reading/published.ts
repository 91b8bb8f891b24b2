// The published site as its host will serve it: the files of its folder, below the base path, and nothing else.
import { readFileSync, realpathSync, statSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { join, sep } from 'node:path';
import { answer, answerText, redirect, typeOf } from './answers.js';
import { askedFor } from './asked.js';

/** A file of the site, if the path leads to one that lies in it. */
function fileAt(folder: string, path: string): string | undefined {
  if (path.includes('\0') || path.split(/[/\\]/).includes('..')) return undefined;
  const found = join(folder, ...path.split('/').filter(Boolean), ...(path.endsWith('/') ? ['index.html'] : []));
  try {
    const real = realpathSync(found);
    return real.startsWith(folder + sep) && statSync(real).isFile() ? real : undefined;
  } catch {
    return undefined;
  }
}

const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;

/**
 * Answers requests from a published site.
 * @param site the folder that was published
 * @param base its base path, without a slash at the end
 */
export function publishedSite(
  site: string,
  base: string,
): (request: IncomingMessage, response: ServerResponse) => void {
  const folder = realpathSync(site);
  return (request, response) => {
    const { path } = askedFor(request.url ?? '/');
    if (base !== '' && (path === '/' || path === base)) return redirect(response, `${base}/`);
    const below = path.startsWith(`${base}/`) ? path.slice(base.length) : undefined;
    const file = below === undefined ? undefined : fileAt(folder, below);
    if (file !== undefined) return void answer(response, 200, typeOf(below!), { file });
    if (below !== undefined && !below.endsWith('/') && !below.includes('..') && isFolder(join(folder, below)))
      return redirect(response, `${path}/`);
    const missing = fileAt(folder, '/404.html');
    if (missing === undefined) return void answerText(response, 404, 'There is nothing here.\n');
    return void answer(response, 404, typeOf('/'), readFileSync(missing, 'utf8'));
  };
}
