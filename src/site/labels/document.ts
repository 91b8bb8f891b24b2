// A sheet of labels as one file that needs no other: styles and typeface lie in it.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { labelsDocument } from '../../../templates/labels.js';
import { packageFolder } from '../../package-folder.js';
import { smallStyles } from '../assets.js';
import { stringify } from '../page-text.js';
import { padding, gap, typeSizes } from './faces.js';
import type { LabelSheets } from './sheets.js';

let fontRule: string | undefined;

/** The label's typeface, in the file itself, so that words take the room that was reckoned for them. */
function font(): string {
  if (fontRule) return fontRule;
  const library = '@fontsource-variable/commissioner';
  const folder = dirname(createRequire(import.meta.url).resolve(`${library}/package.json`));
  const bytes = readFileSync(join(folder, 'files', 'commissioner-latin-wght-normal.woff2'));
  fontRule =
    "@font-face{font-family:'Commissioner';font-weight:100 900;src:url(data:font/woff2;base64," +
    `${bytes.toString('base64')}) format('woff2')}`;
  return fontRule;
}

let styleSheet: string | undefined;
function styles(): string {
  const file = join(packageFolder, 'public', 'styles', 'labels.css');
  styleSheet ??= Buffer.from(smallStyles('labels.css', readFileSync(file, 'utf8'))).toString();
  return styleSheet;
}

const className = (name: string): string => name.replaceAll(' ', '-');

/** Lengths that were reckoned with, and the paper; sheets of one size have a class of their own. */
function measures({ pages }: Pick<LabelSheets, 'pages'>): string {
  const sheets = new Map(pages.map(({ sheet }) => [`${sheet.label.width}x${sheet.label.height}`, sheet]));
  const paper = pages[0]?.sheet.paper;
  return [
    `@page{size:${paper === 'Letter' ? 'letter' : 'A4'};margin:0}`,
    `.label{padding:${padding}mm}.label,.band,.code-and-swatch{gap:${gap}mm}`,
    ...Object.entries(typeSizes).map(([name, size]) => `.${className(name)}{font-size:${size}mm}`),
    ...[...sheets.values()].map(
      ({ label, columns, rows, margin }, at) =>
        `.grid-${at}{grid-template-columns:repeat(${columns},${label.width}mm);` +
        `grid-template-rows:repeat(${rows},${label.height}mm);padding:${margin.top}mm 0 0 ${margin.left}mm}`,
    ),
  ].join('');
}

/** Which class a page's grid has. */
function gridOf({ pages }: Pick<LabelSheets, 'pages'>): (page: LabelSheets['pages'][number]) => number {
  const sizes = [...new Set(pages.map(({ sheet }) => `${sheet.label.width}x${sheet.label.height}`))];
  return ({ sheet }) => sizes.indexOf(`${sheet.label.width}x${sheet.label.height}`);
}

/**
 * The text of the file.
 * @param back where the reading copy's reader came from; absent in a file of its own
 */
export function labelsHtml(
  sheets: Omit<LabelSheets, 'sheet'>,
  back?: { readonly href: string; readonly title: string },
): string {
  const style = `${font()}${styles()}${measures(sheets)}`;
  const hash = createHash('sha256').update(style).digest('base64');
  const policy = `default-src 'none'; style-src 'sha256-${hash}'; font-src data:; base-uri 'none'`;
  const gridNumber = gridOf(sheets);
  return stringify(labelsDocument({ sheets, style, policy, gridNumber, ...(back && { back }) }));
}
