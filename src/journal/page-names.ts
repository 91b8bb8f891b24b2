// Names of pages, from which their addresses are made.
import { elements } from '../chemistry/atomic-weights.js';
import { families, familyNamed } from '../colour/families.js';
import { found, type Found } from '../remarks/findings.js';
import type { Page } from './entry.js';

/** First parts of the site's own addresses, which a page can't have for its name. */
const taken = new Set([
  ...['entries', 'series', 'colours', 'reagents', 'elements', 'results', 'ideas', 'incidents', 'search'],
  ...['data', 'style', 'script', 'find', 'photos', 'spectra'],
  ...['scripts', 'styles', 'files', 'fonts', 'feed', 'sitemap', 'index', 'icon', '404'],
  ...['compare', 'timeline', 'citation', 'ro-crate-metadata', 'share'],
]);

function seriesName(name: string): Found | undefined {
  const known = [...elements().keys()].some((symbol) => symbol.toLowerCase() === name.toLowerCase());
  return known ? undefined : found('series-name', { name, actual: name });
}

function colourName(name: string): Found | undefined {
  const family = familyNamed(name);
  if (family === name) return undefined;
  return found('family-name', { name, families, ...(family && { family }), actual: name, expected: families });
}

/** What is wrong with the name of a page's file, if anything. */
export function pageNameFault({ file, name }: Page): Found | undefined {
  const folder = file.split('/', 1)[0];
  if (folder === 'series') return seriesName(name);
  if (folder === 'colours') return colourName(name);
  if (/^\d+$/.test(name) || taken.has(name.toLowerCase()))
    return found('page-name', { name, taken: true, actual: name });
  return /^[\p{L}\p{N}](?:[\p{L}\p{N}_-]*[\p{L}\p{N}])?$/u.test(name)
    ? undefined
    : found('page-name', { name, taken: false, actual: name });
}
