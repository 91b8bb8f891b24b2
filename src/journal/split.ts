// Splits a Markdown file into front matter and body with gray-matter, whose code-running engines are switched off.
import matter from 'gray-matter';
import { readYaml, matterLimit, type YamlReading } from './yaml.js';

export interface Split {
  /** Front matter as written, without its lines of hyphens. */
  readonly matter: string;
  readonly matterLine: number;
  readonly body: string;
  readonly bodyLine: number;
  readonly yaml: YamlReading;
}

export interface SplitFault {
  readonly rule: string;
  readonly line: number;
  readonly column: number;
  readonly found: string;
  readonly cure: string;
}

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

/**
 * Splits a file's text. A text without front matter is `plain`: all body.
 * @example split('---\ntitle: x\n---\nWords.\n') // { ok: true, split: { matter: 'title: x', body: 'Words.\n', … } }
 */
export function split(
  text: string,
):
  | { readonly ok: true; readonly split: Split }
  | { readonly ok: false; readonly plain: boolean; readonly fault: SplitFault } {
  text = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  const fault = (rule: string, line: number, found: string, cure: string, plain = false) =>
    ({ ok: false, plain, fault: { rule, line, column: 1, found, cure } }) as const;
  if (text.includes('\0'))
    return fault(
      'not-text',
      1,
      'The file holds something other than text.',
      'Save it as plain text (UTF-8), or move it out of this folder.',
    );
  if (text.trim() === '') return fault('empty-file', 1, 'The file is empty.', begin, true);
  if (!text.includes('\n') && text.startsWith('---\r'))
    return fault(
      'front-matter-end',
      1,
      'The file’s lines end in the old way (CR only), which is not read.',
      'Save it with line ends LF or CRLF.',
    );
  const opening = firstLine.exec(text);
  if (!opening || text.startsWith('----'))
    return fault('no-front-matter', 1, 'The file does not begin with front matter.', begin, true);
  const language = opening[1] ?? '';
  if (language !== '' && !/^ya?ml$/i.test(language)) {
    return fault(
      'front-matter-language',
      1,
      `The front matter says it is '${language.slice(0, 40)}'; only YAML is read, and nothing is run.`,
      'Write --- alone on the first line, and YAML below it.',
    );
  }
  const close = text.indexOf('\n---', opening[0].length);
  if (close < 0) {
    return fault('front-matter-end', 1, 'The front matter has no end.', 'Write a line --- after the last key.');
  }
  const afterClose = /^\n---[ \t]*(?=\r?\n|$)/.exec(text.slice(close, close + 200));
  if (!afterClose) {
    return fault(
      'front-matter-end',
      text.slice(0, close + 1).split('\n').length,
      'A line begins with --- but has more on it, so that the end of the front matter is not clear.',
      'End the front matter with --- alone on its line.',
    );
  }
  // Longer text is not parsed at all; the splitter itself is slow on long empty stretches.
  const raw = text.slice(opening[0].length, close);
  if (raw.length > matterLimit || /\s{400}/.test(raw)) {
    const why =
      raw.length > matterLimit
        ? `The front matter has ${Math.round(raw.length / 1024)} kB; at most ${matterLimit / 1024} kB are read.`
        : 'The front matter has a very long empty stretch.';
    return fault('front-matter-size', 1, why, 'Move what is long into the body, and take empty lines out.');
  }
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
