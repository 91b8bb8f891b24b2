// Stylesheet, scripts, fonts and icon: gathered from public/, named by their content so that they can be cached for
// ever.
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { toHtml } from 'hast-util-to-html';
import { pictogram, pictogramCodes } from '../../templates/pictograms/pictogram.js';
import { madeOf, type Kept } from '../kept/kept.js';
import { packageFolder } from '../package-folder.js';

/** In pieces that are made as they are written, where the whole would be large. */
export interface Pieces {
  readonly pieces: () => Iterable<string | Uint8Array>;
}
/** A file on the disk, by its path. */
export interface FileOnDisk {
  readonly file: string;
}
export type FileContent = string | Uint8Array | Pieces | FileOnDisk;

export const isPieces = (content: FileContent): content is Pieces => typeof content === 'object' && 'pieces' in content;
export const isOnDisk = (content: FileContent): content is FileOnDisk =>
  typeof content === 'object' && 'file' in content;

export interface SiteFile {
  /** Address below the base: `/14/index.html`. */
  readonly address: string;
  readonly content: FileContent;
}

/** A part of a file, told from others by what it was made of. */
export interface Part {
  /** The same for the same text. */
  readonly identity: string;
  readonly make: () => string;
}

/** A file that is made anew only where something that it is made of has changed. */
export interface MadeFile {
  readonly address: string;
  readonly inputs: unknown;
  readonly make: () => FileContent;
  /** The same in parts, of which those that were written before are taken as they stand. */
  readonly parts?: () => readonly Part[];
}

export interface Assets {
  /** Styles of every page. */
  readonly stylesheet: SiteFile;
  /** Styles of the pages that are not an entry's own. */
  readonly listsStylesheet: SiteFile;
  readonly readingStylesheet: SiteFile;
  readonly scripts: Readonly<Record<'results' | 'compare' | 'search' | 'reading' | 'chart', SiteFile>>;
  /** All files to write, those above included. */
  readonly files: readonly SiteFile[];
}

/** Addresses, below the base, of what pages load. */
export interface AssetAddresses {
  readonly stylesheet: string;
  readonly listsStylesheet: string;
  readonly scripts: Readonly<Record<'results' | 'compare' | 'search', string>>;
}

/**
 * Addresses of what pages load, kept so that nothing need be gathered where nothing of it is written.
 * @param kept of this version of the code, of which these files are a part
 */
export const assetAddresses = (kept: Kept): AssetAddresses =>
  madeOf(kept, 'addresses of assets', '', () => {
    const { stylesheet, listsStylesheet, scripts } = gatherAssets();
    const { results, compare, search } = scripts;
    return {
      stylesheet: stylesheet.address,
      listsStylesheet: listsStylesheet.address,
      scripts: { results: results.address, compare: compare.address, search: search.address },
    };
  });

const publicFile = (path: string): Buffer => readFileSync(join(packageFolder, 'public', path));

function named(folder: string, name: string, ending: string, content: string | Uint8Array): SiteFile {
  const hash = createHash('sha256').update(content).digest('hex').slice(0, 10);
  return { address: `/${folder}/${name}-${hash}.${ending}`, content };
}

/** A stylesheet without what only its writers read; no syntax is lowered for older browsers. */
export function smallStyles(filename: string, text: string): Uint8Array {
  // Loaded where it is needed: it is a program, and where only words were edited nothing asks for a stylesheet.
  const { transform } = createRequire(import.meta.url)('lightningcss') as typeof import('lightningcss');
  return transform({ filename, code: Buffer.from(text), minify: true }).code;
}

const fonts = [
  ['vollkorn', '@fontsource-variable/vollkorn', 'vollkorn-latin-wght-normal'],
  ['vollkorn-italic', '@fontsource-variable/vollkorn', 'vollkorn-latin-wght-italic'],
  ['commissioner', '@fontsource-variable/commissioner', 'commissioner-latin-wght-normal'],
] as const;

/** Stylesheets that not every page loads. */
const apart = new Set(['reading.css', 'lists.css', 'bench.css', 'labels.css']);

/** A browser script; the scripts that it imports are named as they are published. */
function script(name: string, imported: readonly SiteFile[] = []): SiteFile {
  const text = imported.reduce(
    (written, { address }) => {
      const file = address.slice('/script/'.length);
      return written.replaceAll(`./${file.replace(/-[0-9a-f]{10}\.js$/, '.js')}`, `./${file}`);
    },
    publicFile(`scripts/${name}.js`).toString('utf8'),
  );
  return named('script', name, 'js', text);
}

let gathered: Assets | undefined;

/** Everything of the site that does not come from the journal; read once. */
export function gatherAssets(): Assets {
  if (gathered) return gathered;
  const require = createRequire(import.meta.url);
  const fontFiles = fonts.map(([name, library, file]) =>
    named(
      'style',
      name,
      'woff2',
      readFileSync(join(dirname(require.resolve(`${library}/package.json`)), 'files', `${file}.woff2`)),
    ),
  );
  const licences = fonts
    .filter(([name]) => !name.includes('italic'))
    .map(
      ([name, library]): SiteFile => ({
        address: `/style/${name}-licence.txt`,
        content: readFileSync(join(dirname(require.resolve(`${library}/package.json`)), 'LICENSE')),
      }),
    );
  const sheets = readdirSync(join(packageFolder, 'public', 'styles'))
    .filter((name) => name.endsWith('.css') && !apart.has(name))
    .sort(
      (a, b) =>
        Number(b === 'base.css') - Number(a === 'base.css') ||
        Number(a === 'print.css') - Number(b === 'print.css') ||
        a.localeCompare(b),
    );
  let styles = sheets.map((name) => publicFile(`styles/${name}`).toString('utf8')).join('\n');
  fonts.forEach(([name], at) => {
    styles = styles.replaceAll(`fonts/${name}.woff2`, fontFiles[at]!.address.slice('/style/'.length));
  });
  const stylesheet = named('style', 'journal', 'css', smallStyles('journal.css', styles));
  const listsStylesheet = named(
    'style',
    'lists',
    'css',
    smallStyles(
      'lists.css',
      ['lists.css', 'bench.css'].map((name) => publicFile(`styles/${name}`).toString('utf8')).join('\n'),
    ),
  );
  const pictograms = pictogramCodes.map(
    (code): SiteFile => ({
      address: `/style/${code.toLowerCase()}.svg`,
      content: toHtml(pictogram(code), { space: 'svg' }),
    }),
  );
  const readingStylesheet = named(
    'style',
    'reading',
    'css',
    smallStyles('reading.css', publicFile('styles/reading.css').toString('utf8')),
  );
  const searchKey = script('search-key');
  const searchRank = script('search-rank', [searchKey]);
  const colourDifference = script('colour-difference');
  const scripts = {
    results: script('results'),
    compare: script('compare', [colourDifference]),
    search: script('search', [searchKey, searchRank]),
    reading: script('reading'),
    chart: script('chart'),
  };
  const icon: SiteFile = { address: '/icon.svg', content: publicFile('icon.svg') };
  gathered = {
    stylesheet,
    listsStylesheet,
    readingStylesheet,
    scripts,
    files: [
      stylesheet,
      listsStylesheet,
      ...pictograms,
      scripts.results,
      scripts.compare,
      colourDifference,
      scripts.search,
      searchRank,
      searchKey,
      ...fontFiles,
      ...licences,
      icon,
    ],
  };
  return gathered;
}
