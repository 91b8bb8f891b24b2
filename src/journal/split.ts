// Splits a Markdown file into front matter and body with gray-matter, whose code-running engines are switched off.
import matter from 'gray-matter';
import { found, type Found } from '../remarks/findings.js';
import { readYaml, matterLimit, type YamlReading } from './yaml.js';

export interface Split {
  /** Front matter as written, without its lines of hyphens. */
  readonly matter: string;
  /** The same before its slips were mended; absent where there were none. */
  readonly written?: string;
  readonly matterLine: number;
  readonly body: string;
  readonly bodyLine: number;
  readonly yaml: YamlReading;
}

/** Why a file cannot be split, at a line of it (1-based). */
export type SplitFault = Found & { readonly line: number };

const refused = (): never => {
  throw new Error('Only YAML is read as front matter.');
};
const refusedEngine = { parse: refused, stringify: refused };

/** gray-matter's engines, by every name under which it finds one: nothing but YAML is read, nothing runs. */
export const engines = {
  yaml: { parse: (text: string) => ({ reading: readYaml(text.replace(/^\r?\n/, '')) }), stringify: refused },
  json: refusedEngine,
  javascript: refusedEngine,
  js: refusedEngine,
  coffee: refusedEngine,
  coffeescript: refusedEngine,
  cson: refusedEngine,
  toml: refusedEngine,
};

const firstLine = /^---[ \t]*([^\r\n]*?)[ \t]*(?=\r?\n|$)/;
const begin = 'Begin the file with a line ---, then number, title, date and status, then another line ---.';

/** What a file is split into: front matter and body; or why not. A text without front matter is `plain`: all body. */
export type SplitReading =
  | { readonly ok: true; readonly split: Split }
  | { readonly ok: false; readonly plain: boolean; readonly fault: SplitFault };

const failed = (why: Found, { line = 1, plain = false } = {}): SplitReading => ({
  ok: false,
  plain,
  fault: { ...why, line },
});

/** Why a text has no front matter to look for the end of, if it has none. */
function beginFault(text: string): SplitReading | undefined {
  if (text.includes('\0')) return failed(found('not-text', { message: 'The file holds something other than text.' }));
  if (text.trim() === '')
    return failed(found('empty-file', { message: 'The file is empty.', cure: begin }), { plain: true });
  if (!text.includes('\n') && text.startsWith('---\r'))
    return failed(found('front-matter-end', { how: 'carriage-returns' }));
  const opening = firstLine.exec(text);
  if (!opening || text.startsWith('----')) return failed(found('no-front-matter', {}), { plain: true });
  const language = opening[1] ?? '';
  if (language !== '' && !/^ya?ml$/i.test(language))
    return failed(found('front-matter-language', { language: language.slice(0, 40) }));
  return undefined;
}

/** Why front matter is not read, though it begins: no clear end, or far too long. */
function matterFault(text: string): SplitReading | undefined {
  const begins = firstLine.exec(text)![0].length;
  const close = text.indexOf('\n---', begins);
  if (close < 0) return failed(found('front-matter-end', { how: 'missing' }));
  if (!/^\n---[ \t]*(?=\r?\n|$)/.test(text.slice(close, close + 200)))
    return failed(found('front-matter-end', { how: 'unclear' }), { line: text.slice(0, close + 1).split('\n').length });
  // Longer text is not parsed at all; the splitter itself is slow on long empty stretches.
  const raw = text.slice(begins, close);
  const atMost = matterLimit / 1024;
  if (raw.length > matterLimit)
    return failed(found('front-matter-size', { kilobytes: Math.round(raw.length / 1024), atMost }));
  return /\s{400}/.test(raw) ? failed(found('front-matter-size', { atMost })) : undefined;
}

/**
 * Splits a file's text.
 * @example split('---\ntitle: x\n---\nWords.\n') // { ok: true, split: { matter: 'title: x', body: 'Words.\n', … } }
 */
export function split(written: string): SplitReading {
  const text = written.charCodeAt(0) === 0xfeff ? written.slice(1) : written;
  const fault = beginFault(text) ?? matterFault(text);
  if (fault) return fault;
  // Options are given with every call: without them gray-matter would keep every file it has seen.
  const file = matter(text, { engines, language: 'yaml' }) as {
    data: { reading?: YamlReading };
    matter: string;
    content: string;
  };
  return {
    ok: true,
    split: {
      matter: file.matter.replace(/^[^\n]*\n/, ''),
      matterLine: 2,
      body: file.content,
      bodyLine: lineOf(text, text.length - file.content.length),
      yaml: file.data.reading ?? { ok: true, value: null },
    },
  };
}

/** Line on which the character at `offset` stands. */
function lineOf(text: string, offset: number): number {
  let line = 1;
  for (let at = text.indexOf('\n'); at >= 0 && at < offset; at = text.indexOf('\n', at + 1)) line += 1;
  return line;
}

/** A line that sets front matter off, or was meant to. */
const isFence = (line: string): boolean =>
  /^\s*(?:[-–—]{2,}\s*\S{0,12}|—|\.{3}|`{3,}\s*\S{0,12}|~{3,}\s*\S{0,12})\s*$/.test(line);
const isKeyLine = (line: string): boolean => /^["']?\p{L}[\p{L}\p{N} _-]{0,40}["']?[ \t]*:(?:[ \t]|$)/u.test(line);
/** A line that goes on with what a key began: indented, an item of a list, a comment, or nothing. */
const goesOn = (line: string): boolean => /^(?:\s|[-*•]\s|[#}\]]|$)/.test(line) && !/^#+\s+\S/.test(line);

/** Where the front matter of lines ends, its keys being what tells it from the write-up. */
function endOfMatter(lines: readonly string[], begin: number): number {
  let at = begin;
  while (at < lines.length && !isFence(lines[at]!) && (isKeyLine(lines[at]!) || goesOn(lines[at]!))) at += 1;
  return at;
}

/**
 * Front matter that begins or ends with another line than the format has (blank lines before it, `—`, a fence of
 * code), where both its lines are there and it holds keys; undefined for anything else. `opening` is its first line.
 */
export function splitByOtherFences(written: string): { readonly split: Split; readonly opening: string } | undefined {
  const text = written.replace(/^\ufeff/, '');
  if (text.includes('\0')) return undefined;
  const lines = text.split(/\r?\n/);
  const first = lines.findIndex((line) => line.trim() !== '');
  const opening = lines[first]?.trim() ?? '';
  if (!isFence(opening) || !isKeyLine(lines[first + 1] ?? '')) return undefined;
  const end = endOfMatter(lines, first + 1);
  if (!isFence(lines[end] ?? '')) return undefined;
  const asFar = splitAsFar(text);
  const isKeys = asFar.yaml.ok && typeof asFar.yaml.value === 'object' && !Array.isArray(asFar.yaml.value);
  return isKeys ? { split: asFar, opening: first > 0 && opening === '---' ? 'blank lines' : opening } : undefined;
}

/**
 * A text that is not split by its rules, as far as it can be: for its dangers alone. What does not look like front
 * matter is write-up.
 * @example splitAsFar('number: 2\ntitle: x\n\nIt was green.\n').body // 'It was green.\n'
 */
export function splitAsFar(written: string): Split {
  const text = written.replace(/\0/g, '').replace(/^\ufeff/, '');
  const lines = text.split(/\r\n?|\n/);
  const first = lines.findIndex((line) => line.trim() !== '');
  const begin = first >= 0 && isFence(lines[first]!) ? first + 1 : Math.max(first, 0);
  const end = isKeyLine(lines[begin] ?? '') ? endOfMatter(lines, begin) : begin;
  const matter = lines.slice(begin, end).join('\n');
  const from = end + (isFence(lines[end] ?? '') ? 1 : 0);
  return {
    matter,
    matterLine: begin + 1,
    body: lines.slice(from).join('\n'),
    bodyLine: from + 1,
    yaml: matter.length > matterLimit ? { ok: true, value: {} } : readYaml(matter),
  };
}
