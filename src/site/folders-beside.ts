// Folders that lie beside a site, one of which may become the next site.
import { existsSync, lstatSync, readdirSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { manifestFile } from './manifest.js';

interface Left {
  readonly path: string;
  readonly kind: 'staging' | 'former' | 'spare';
}

/** Folders beside a site that a run of ours made for it: by their name, and by the manifest in them. */
export function leftBeside(site: string): Left[] {
  const ours = new RegExp(`^\\.${escaped(basename(site))}\\.(staging|former|spare)-[0-9a-f]{12}$`);
  return readdirSync(dirname(site)).flatMap((name) => {
    const kind = ours.exec(name)?.[1] as Left['kind'] | undefined;
    const path = join(dirname(site), name);
    if (!kind || !lstatSync(path).isDirectory()) return [];
    const isOurs = existsSync(join(path, manifestFile)) || readdirSync(path).length === 0;
    return isOurs ? [{ path, kind }] : [];
  });
}

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** Where such a folder lies. */
export const besides = (site: string, kind: Left['kind'], token: string): string =>
  join(dirname(site), `.${basename(site)}.${kind}-${token}`);
